/* From "2 large", "1/2 cup, chopped" or "1 capsule of 200 IU" to grams. */
#include <math.h>

#include "base/num.h"
#include "label/label_text.h"
#include "recipe/recipe_food.h"
#include "text/scan.h"

/* 20 drops a millilitre (common practice of droppers for watery liquids). */
static const double ML_PER_DROP = 0.05;

static int count_words(struct span s) {
  int n = 0;
  struct span w;
  while (folded_word(&s, &w)) n++;
  return n;
}

static struct span fold(struct line_food *f, struct span s) { return search_fold(&f->lib->image, s, f->arena); }
static struct span foldz(struct line_food *f, const char *s) { return fold(f, span_of(s)); }

static const struct own_food *own_of(const struct line_food *f) {
  size_t image = library_count(f->lib) - f->lib->own_count;
  return f->food >= image ? &f->lib->own[f->food - image] : NULL;
}

/* ---- the food's own measures ---- */

struct measures {
  const struct img_measure *at;
  size_t count;
};

static struct measures measures_of(const struct line_food *f) {
  struct measures m;
  m.at = library_measures(f->lib, f->food, &m.count);
  return m;
}

/* How well a measure's words suit the line: shared words count for it, words the line does not say a little against it. */
static double suits(struct line_food *f, const struct img_measure *m, struct span line) {
  struct span words = foldz(f, lib_str(f->lib, m->words));
  int shared = shared_words(words, line);
  return shared - 0.1 * (count_words(words) - shared);
}

static const struct img_measure *best_measure(struct line_food *f,
                                              bool (*fits)(struct line_food *, const struct img_measure *)) {
  struct measures all = measures_of(f);
  struct span line = fold(f, f->line->whole);
  const struct img_measure *best = NULL;
  double best_fit = -INFINITY;
  for (size_t i = 0; i < all.count; i++) {
    if (!(all.at[i].grams > 0) || !fits(f, &all.at[i])) continue;
    double fit = suits(f, &all.at[i], line);
    if (fit > best_fit) {
      best_fit = fit;
      best = &all.at[i];
    }
  }
  return best;
}

static bool is_volume(enum unit u) { return u < UNIT_COUNT && unit_info[u].kind == UNIT_KIND_VOLUME; }
static bool says_ground(struct line_food *f) {
  struct span line = fold(f, f->line->whole);
  return has_folded_word(line, SPAN_LIT("ground")) || has_folded_word(line, SPAN_LIT("milled"));
}

/* A spoon of ground seed holds less than one of whole seed. */
static bool is_of_whole(struct line_food *f, const struct img_measure *m) {
  return says_ground(f) && has_folded_word(foldz(f, lib_str(f->lib, m->words)), SPAN_LIT("whole"));
}
static bool same_unit(struct line_food *f, const struct img_measure *m) {
  return m->unit == (uint32_t)f->line->unit && !is_of_whole(f, m);
}
static bool any_volume(struct line_food *f, const struct img_measure *m) {
  return is_volume((enum unit)m->unit) && !is_of_whole(f, m);
}

static bool says(struct line_food *f, const struct img_measure *m, const char *word) {
  return has_folded_word(foldz(f, lib_str(f->lib, m->words)), span_of(word));
}

/* "fillet", "large", "bunch": the measure begins with the word that was counted. */
static bool counted_word(struct line_food *f, const struct img_measure *m) {
  struct span words = foldz(f, lib_str(f->lib, m->words)), first;
  struct span unit = f->line->unit == UNIT_EACH ? fold(f, f->line->unit_at) : foldz(f, unit_info[f->line->unit].word);
  if (unit.n == 0 || !folded_word(&words, &first)) return false;
  if (f->line->unit == UNIT_EXTRA_LARGE) return says(f, m, "extra") && says(f, m, "large");
  if (f->line->unit == UNIT_LARGE && says(f, m, "extra")) return false;
  if (f->line->unit >= UNIT_SMALL && f->line->unit <= UNIT_LARGE)
    return has_folded_word(foldz(f, lib_str(f->lib, m->words)), unit);
  return has_folded_word(unit, first) || m->unit == (uint32_t)f->line->unit;
}

/* "2 chicken thighs": the measure begins with a word of the food. */
static bool named_of_any_size(struct line_food *f, const struct img_measure *m) {
  struct span words = foldz(f, lib_str(f->lib, m->words)), first;
  return m->unit == UNIT_NONE && folded_word(&words, &first) && has_folded_word(fold(f, f->line->food), first);
}

/* Nobody who writes "2 potatoes" means the large ones that a table happens to weigh. */
static bool named_piece(struct line_food *f, const struct img_measure *m) {
  return named_of_any_size(f, m) && !says(f, m, "large") && !says(f, m, "small");
}

static bool usual_piece(struct line_food *f, const struct img_measure *m) {
  static const char *const WORDS[] = {"medium", "each", "whole", "piece", "fruit", "item", "egg"};
  for (size_t i = 0; i < COUNT_OF(WORDS); i++) {
    struct span words = foldz(f, lib_str(f->lib, m->words)), first;
    if (folded_word(&words, &first) && span_is(first, WORDS[i])) return true;
  }
  return false;
}

/* ---- what one unit weighs ---- */

struct one {
  double grams; /* NaN: not known */
  const char *from;
  double low, high;    /* times 'grams': of a household measure; 0 where the amount alone says how sure it is */
  const char *assumed; /* of a household measure; NULL */
};

static struct one unknown(void) { return (struct one){.grams = (double)NAN, .from = ""}; }

static struct one say(struct line_food *f, double grams, const char *unit, const char *why) {
  struct buf b;
  buf_init(&b, f->arena, 200);
  num_sig(&b, f->line->amount, 4);
  buf_addf(&b, "%s%s at ", unit[0] ? " " : "", unit);
  num_sig(&b, grams, 4);
  buf_addf(&b, " g (%s)", why);
  return (struct one){.grams = grams, .from = buf_text(&b)};
}

/* Published measures weigh the edible part (USDA SR28, file of weights); those of our own cuts weigh the piece. */
static bool is_published(const struct line_food *f) {
  return !(library_food(f->lib, f->food)->flags & (FOOD_CUT | FOOD_OWN));
}

static struct one by_measure(struct line_food *f, const struct img_measure *m, double share_of_it) {
  const char *words = lib_str(f->lib, m->words);
  struct buf b;
  buf_init(&b, f->arena, 160);
  buf_addf(&b, "published: 1 %s is ", words);
  num_sig(&b, m->grams, 4);
  buf_adds(&b, " g");
  f->edible_only = is_published(f);
  const char *unit = unit_info[f->line->unit].kind == UNIT_KIND_VOLUME ? unit_info[f->line->unit].word : words;
  return say(f, m->grams * share_of_it, unit, buf_text(&b));
}

static const struct img_density *density_row(struct line_food *f) {
  const struct img_density *rows = IMG_ROWS(&f->lib->image, IMG_DENSITIES, struct img_density), *best = NULL;
  struct buf b;
  buf_init(&b, f->arena, strlen(library_name(f->lib, f->food)) + 16);
  buf_addf(&b, "%s%s", library_name(f->lib, f->food), says_ground(f) ? " ground" : "");
  struct span name = fold(f, buf_span(&b));
  int best_words = 0;
  for (size_t i = 0; i < img_count(&f->lib->image, IMG_DENSITIES); i++) {
    struct span words = span_of(lib_str(f->lib, rows[i].words));
    int n = count_words(words);
    if (n > best_words && shared_words(words, name) == n) {
      best = &rows[i];
      best_words = n;
    }
  }
  return best;
}

static struct one by_volume(struct line_food *f, double ml, const char *unit) {
  const struct img_measure *m = best_measure(f, same_unit);
  if (m) return by_measure(f, m, 1);
  m = best_measure(f, any_volume);
  if (m) return by_measure(f, m, ml / unit_convert(1, (enum unit)m->unit));
  const struct img_density *row = density_row(f);
  double density = row ? (double)row->g_per_ml : (double)library_food(f->lib, f->food)->density;
  if (!(density > 0)) return unknown();
  struct buf b;
  buf_init(&b, f->arena, 120);
  num_sig(&b, density, 3);
  buf_adds(&b, " g per ml");
  if (row) buf_addf(&b, ", %s", lib_str(f->lib, row->words));
  return say(f, ml * density, unit, buf_text(&b));
}

static struct one by_own_unit(struct line_food *f, const struct own_food *own) {
  enum unit u = f->line->unit;
  if (!own->unit_word) return unknown();
  double one = own->unit_g > 0 ? own->unit_g : LABEL_PIECE_G;
  enum unit its = unit_by_word(span_of(own->unit_word));
  bool pill = u >= UNIT_CAPSULE && u <= UNIT_SOFTGEL, its_pill = its >= UNIT_CAPSULE && its <= UNIT_SOFTGEL;
  bool unnamed = u == UNIT_EACH && f->line->unit_at.n == 0;
  if (is_volume(u) && is_volume(its))
    return say(f, one * unit_convert(1, u) / unit_convert(1, its), unit_info[u].word, "label");
  if (its == u || (pill && its_pill) || unnamed) return say(f, one, own->unit_word, "label");
  if (u == UNIT_EACH && span_eq(fold(f, f->line->unit_at), foldz(f, own->unit_word)))
    return say(f, one, own->unit_word, "label");
  return unknown();
}

/* ---- doses ---- */

/* The nutrient that the food's words name: the longest run of words that is one ("natural vitamin E" has vitamin E). */
static enum nutrient nutrient_in(struct span words, bool *whole) {
  struct span from = words, w;
  size_t best = 0;
  enum nutrient found = NUT_NONE;
  for (; from.n > 0; folded_word(&from, &w)) {
    struct span rest = from;
    while (folded_word(&rest, &w)) {
      struct span run = {from.p, (size_t)(w.p + w.n - from.p)};
      enum nutrient n = nutrient_by_name(run);
      if (n == NUT_NONE || run.n <= best) continue;
      best = run.n;
      found = n;
    }
  }
  *whole = best == words.n;
  return found;
}

static bool is_synthetic(const char *name) {
  return strstr(name, "synthetic") || strstr(name, "dl-") || strstr(name, "all-rac");
}

static bool wants_form(const struct recipe_line *l, enum nutrient n) {
  static const char *const FORMS[] = {"natural", "synthetic", "d-alpha", "dl-alpha", "alpha", "tocopherol", "rac"};
  if (n != NUT_VITAMIN_E) return true;
  for (size_t i = 0; i < l->food.n; i++)
    for (size_t k = 0; k < COUNT_OF(FORMS); k++)
      if (span_starts_fold(span_cut(l->food, i, l->food.n), FORMS[k])) return true;
  return l->pin.n > 0;
}

/* Grams of the record that hold the dose; NaN when it says nothing about that nutrient. */
static double grams_of_dose(struct line_food *f, double dose, enum unit unit, enum nutrient n) {
  if (n == NUT_NONE) return (double)NAN;
  bool natural = !is_synthetic(library_name(f->lib, f->food));
  double amount = unit_nutrient_amount(dose, unit, n, natural), per_100g = (double)library_values(f->lib, f->food)[n].mean;
  return per_100g > 0 ? amount / per_100g * 100 : (double)NAN;
}

static const char *dose_words(struct line_food *f, double dose, enum unit unit, enum nutrient n) {
  struct buf b;
  buf_init(&b, f->arena, 120);
  num_sig(&b, dose, 6);
  buf_addf(&b, " %s of %s", unit_info[unit].word, nutrient_inside(f->arena, n));
  return buf_text(&b);
}

static struct one by_dose(struct line_food *f, double dose, enum unit unit) {
  bool whole = false;
  struct span words = f->line->food.n > 0 ? f->line->food : span_of(library_name(f->lib, f->food));
  enum nutrient n = nutrient_in(words, &whole);
  double grams = grams_of_dose(f, dose, unit, n);
  if (!(grams >= 0)) return unknown();
  if (!whole && unit != UNIT_IU && f->line->pin.n == 0)
    diag_say(f->d, DIAG_WARNING, DIAG_UNIT, f->line->food_at, "the dose is read as %s itself, not as the weight of '%.*s'",
             nutrient_inside(f->arena, n), SPAN_ARG(quoted(f->line->food)));
  if (unit == UNIT_IU && !wants_form(f->line, n))
    diag_say(f->d, DIAG_WARNING, DIAG_ASSUMED, f->line->food_at, "the form of the vitamin is not stated; read as [%s] %.*s",
             library_code(f->lib, f->food), SPAN_ARG(short_name(f->lib, f->food)));
  return (struct one){.grams = grams, .from = dose_words(f, dose, unit, n)};
}

/* ---- by kind of unit ---- */

/* A piece by the food's own measures. */
static struct one one_piece(struct line_food *f) {
  const struct recipe_line *l = f->line;
  const struct img_food *food = library_food(f->lib, f->food);
  if (l->unit == UNIT_DROP) return by_volume(f, ML_PER_DROP, "drop");
  const struct img_measure *m = best_measure(f, counted_word);
  if (m) return by_measure(f, m, 1);
  bool plain = l->unit == UNIT_EACH && l->unit_at.n == 0;
  if (span_is_fold(l->unit_at, "each") || span_starts_fold(l->unit_at, "piece") || span_is_fold(l->unit_at, "whole"))
    plain = true;
  if (plain) m = best_measure(f, named_piece);
  if (m) return by_measure(f, m, 1);
  if ((plain || l->unit == UNIT_MEDIUM) && food->piece_g > 0) {
    f->edible_only = is_published(f);
    return say(f, (double)food->piece_g, "", "the usual piece");
  }
  if (plain) m = best_measure(f, usual_piece);
  if (plain && !m) m = best_measure(f, named_of_any_size);
  return m ? by_measure(f, m, 1) : unknown();
}

/* A handful, a pump, a foot: what neither the line nor the record weighs. */
static struct one by_household(struct line_food *f) {
  struct household h = household_one(f, by_volume(f, 1, "").grams);
  if (!(h.middle > 0)) return unknown();
  f->edible_only = false;
  struct one one = say(f, h.middle, "", h.words);
  one.low = h.low / h.middle;
  one.high = h.high / h.middle;
  one.assumed = h.words;
  return one;
}

/* "2 medium carrots, boiled" where only the raw carrot has such a measure: its weight after cooking. */
static struct one one_piece_cooked(struct line_food *f) {
  const struct img_food *food = library_food(f->lib, f->food);
  uint32_t cooked = f->food, raw = food->raw_form;
  if (!state_is_cooked((enum state)food->state) || food->state == STATE_CANNED || !library_food(f->lib, raw))
    return unknown();
  struct weight_yield y = yield_of(f->lib, raw, (enum state)food->state, f->arena);
  if (!(y.mean > 0)) return unknown();
  f->food = raw;
  struct one one = one_piece(f);
  f->food = cooked;
  if (!(one.grams > 0)) return one;
  struct buf b;
  buf_init(&b, f->arena, 300);
  buf_addf(&b, "%s raw, times ", one.from);
  num_sig(&b, y.mean, 3);
  buf_adds(&b, " when cooked");
  return (struct one){.grams = one.grams * y.mean, .from = buf_text(&b)};
}

/* A tin whose size nobody wrote: a published weight of a usual size is the middle, and the sizes that are sold its range. */
static struct one tin_between(struct line_food *f, struct one tin, const struct one *home) {
  double low = home->grams * home->low, high = home->grams * home->high;
  struct buf b;
  buf_init(&b, f->arena, 160);
  buf_adds(&b, "one can taken as ");
  num_sig(&b, tin.grams, 3);
  buf_adds(&b, " g (");
  num_sig(&b, low, 2);
  buf_adds(&b, " to ");
  num_sig(&b, high, 2);
  buf_adds(&b, " g)");
  tin.low = low / tin.grams;
  tin.high = high / tin.grams;
  tin.assumed = buf_text(&b);
  return tin;
}

/* "2 fresh sardines": tables weigh the small ones that lie in tins. */
static bool is_fresh_fish(struct line_food *f) {
  const struct img_food *food = library_food(f->lib, f->food);
  return food->part == PART_FISH && food->state == STATE_CANNED && span_holds_fold(f->line->whole, SPAN_LIT("fresh"));
}

static struct one one_counted(struct line_food *f) {
  const struct recipe_line *l = f->line;
  const struct own_food *own = own_of(f);
  if (!isnan(l->dose)) {
    struct one dose = by_dose(f, l->dose, l->dose_unit);
    if (dose.grams >= 0) return say(f, dose.grams, unit_info[l->unit].word, dose.from);
    bool whole, named = nutrient_in(l->food, &whole) != NUT_NONE;
    if (!named && unit_info[l->dose_unit].kind == UNIT_KIND_MASS) /* "1 capsule salmon oil 1000 mg" is a gram of oil */
      return say(f, unit_convert(l->dose, l->dose_unit), unit_info[l->unit].word, "as written");
  }
  if (l->package_g > 0) return say(f, l->package_g, unit_info[l->unit].word, "as written");
  if (own) return by_own_unit(f, own);
  struct one one = one_piece(f);
  if (!(one.grams > 0)) one = one_piece_cooked(f);
  bool of_fish = l->unit == UNIT_CAN && library_food(f->lib, f->food)->part == PART_FISH; /* tables weigh large cans, too */
  if (one.grams > 0 && !of_fish && !is_fresh_fish(f)) return one;
  struct one home = by_household(f);
  if (!(home.grams > 0) || !of_fish) return home.grams > 0 ? home : one;
  bool usual = one.grams >= home.grams * home.low && one.grams <= home.grams;
  return usual ? tin_between(f, one, &home) : home;
}

static struct one one_spoon(struct line_food *f) {
  const struct own_food *own = own_of(f);
  if (f->line->package_g > 0) return say(f, f->line->package_g, unit_info[f->line->unit].word, "as written");
  struct one label = own ? by_own_unit(f, own) : unknown();
  if (label.grams > 0) return label;
  struct one home = f->line->unit == UNIT_PINCH ? by_household(f) : unknown();
  if (home.grams > 0) return home;
  struct one spoon = by_volume(f, unit_convert(1, f->line->unit), unit_info[f->line->unit].word);
  return spoon.grams > 0 ? spoon : by_household(f); /* "1 cup shredded chicken" of a record without a cup */
}

/* "15 mg zinc" is zinc itself when the record is a pure substance or a label; "15 mg zinc gluconate" is weighed. */
static struct one one_weighed(struct line_food *f) {
  const struct recipe_line *l = f->line;
  const struct own_food *own = own_of(f);
  bool whole = false, small = l->unit == UNIT_MG || l->unit == UNIT_UG;
  enum nutrient n = small ? nutrient_in(l->food, &whole) : NUT_NONE;
  if (n != NUT_NONE && whole && library_food(f->lib, f->food)->part == PART_SUPPLEMENT) {
    double grams = grams_of_dose(f, 1, l->unit, n);
    if (grams >= 0) return (struct one){.grams = grams, .from = dose_words(f, l->amount, l->unit, n)};
  }
  if (n != NUT_NONE && !whole && l->pin.n == 0 && library_food(f->lib, f->food)->part == PART_SUPPLEMENT)
    diag_say(f->d, DIAG_WARNING, DIAG_ASSUMED, l->food_at,
             "read as the weight of '%.*s'; if the label means the %s in it, write '%s [%s]'", SPAN_ARG(quoted(l->food)),
             nutrient_inside(f->arena, n), nutrient_inside(f->arena, n), library_code(f->lib, f->food));
  if (own && own->unit_word && !(own->unit_g > 0)) return unknown(); /* pieces without a weight cannot be weighed */
  return (struct one){.grams = unit_convert(1, l->unit), .from = ""};
}

static struct one one_unit(struct line_food *f) {
  switch (unit_info[f->line->unit].kind) {
  case UNIT_KIND_MASS:
    return one_weighed(f);
  case UNIT_KIND_VOLUME:
    return one_spoon(f);
  case UNIT_KIND_COUNT:
    return one_counted(f);
  case UNIT_KIND_PERCENT:
    return (struct one){.grams = f->recipe->total_g / 100, .from = ""};
  case UNIT_KIND_IU: {
    struct one dose = by_dose(f, 1, UNIT_IU);
    bool whole;
    if (dose.grams >= 0) dose.from = dose_words(f, f->line->amount, UNIT_IU, nutrient_in(f->line->food, &whole));
    return dose;
  }
  case UNIT_KIND_NONE:
    break;
  }
  return unknown();
}

/* ---- complaints ---- */

static const char *known_measures(struct line_food *f) {
  struct measures all = measures_of(f);
  struct buf b;
  buf_init(&b, f->arena, 300);
  for (size_t i = 0; i < all.count; i++) {
    if (all.at[i].unit != UNIT_NONE && unit_info[all.at[i].unit % UNIT_COUNT].kind == UNIT_KIND_MASS) continue;
    buf_addf(&b, "%s%s (", b.n > 0 ? ", " : "; known are ", lib_str(f->lib, all.at[i].words));
    num_sig(&b, all.at[i].grams, 4);
    buf_adds(&b, " g)");
  }
  return buf_text(&b);
}

/* "1 brazil nut", of which a kernel is known to weigh 5 g: "5 g" in the amount's place. No weight is offered that is not
 * one of this very food. */
static void offer_measures(struct line_food *f) {
  enum { MOST_OFFERED = 3 };
  const struct recipe_line *l = f->line;
  struct measures all = measures_of(f);
  struct span at = l->amount_at;
  if (l->unit_at.n > 0 && l->unit_at.p + l->unit_at.n > at.p + at.n) at.n = (size_t)(l->unit_at.p + l->unit_at.n - at.p);
  for (size_t i = 0, offered = 0; i < all.count && offered < MOST_OFFERED && l->amount_low == l->amount_high; i++) {
    if (all.at[i].unit != UNIT_NONE) continue;
    struct buf write, label;
    buf_init(&write, f->arena, 64);
    buf_init(&label, f->arena, 256);
    num_sig(&write, l->amount * (double)all.at[i].grams, 3);
    buf_adds(&write, " g");
    buf_addf(&label, "%s (%s)", buf_text(&write), lib_str(f->lib, all.at[i].words));
    diag_fix(f->d, at, buf_text(&write), buf_text(&label));
    offered++;
  }
}

static bool say_no_weight(struct line_food *f) {
  const struct recipe_line *l = f->line;
  bool bare = l->unit == UNIT_EACH && l->unit_at.n == 0;
  struct span unit = bare ? SPAN_LIT("piece") : l->unit == UNIT_EACH ? quoted(l->unit_at) : span_of(unit_info[l->unit].word);
  struct span food = l->food.n > 0 ? quoted(l->food) : short_name(f->lib, f->food);
  if (unit_info[l->unit].kind == UNIT_KIND_MASS) {
    diag_say(f->d, DIAG_ERROR, DIAG_NO_WEIGHT, l->amount_at,
             "the label of '%.*s' does not say what one %s weighs; count them, or add the weight to the label ('Per: 1 %s "
             "(0.4 g)')",
             SPAN_ARG(food), own_of(f)->unit_word, own_of(f)->unit_word);
  } else if (unit_info[l->unit].kind == UNIT_KIND_IU) {
    diag_say(f->d, DIAG_ERROR, DIAG_LABEL_NEEDED, l->amount_at,
             "[%s] does not say how many IU it contains; give the product's label as a food of your own",
             library_code(f->lib, f->food));
  } else if (!isnan(l->dose) || (l->unit >= UNIT_CAPSULE && l->unit <= UNIT_SOFTGEL)) {
    diag_say(f->d, DIAG_ERROR, DIAG_LABEL_NEEDED, l->amount_at,
             "what is in one %.*s of '%.*s' is not known; give its label as a food of your own ('Food: ...', 'Per: 1 %s', "
             "'Zinc: 15 mg')",
             SPAN_ARG(unit), SPAN_ARG(food), unit_info[l->unit].word);
  } else {
    diag_say(f->d, DIAG_ERROR, DIAG_NO_WEIGHT, l->amount_at,
             "the weight of one %.*s of '%.*s' is not known%s; weigh it and write the grams", SPAN_ARG(unit), SPAN_ARG(food),
             known_measures(f));
    offer_measures(f);
  }
  return false;
}

bool find_grams(struct line_food *f) {
  const struct recipe_line *l = f->line;
  enum unit_kind kind = unit_info[l->unit].kind;
  f->grams_from = "";
  if (isnan(l->amount)) return false; /* complained about when it was read */
  if (kind == UNIT_KIND_PERCENT && !(f->recipe->total_g > 0)) return false;
  struct one one = one_unit(f);
  if (!(one.grams >= 0)) return say_no_weight(f);
  f->grams = l->amount * one.grams;
  f->grams_low = l->amount_low * one.grams * (one.assumed ? one.low : 1);
  f->grams_high = l->amount_high * one.grams * (one.assumed ? one.high : 1);
  f->assumed = one.assumed;
  f->grams_from = one.from;
  f->piece = kind == UNIT_KIND_COUNT;
  f->spooned = kind == UNIT_KIND_VOLUME;
  return true;
}
