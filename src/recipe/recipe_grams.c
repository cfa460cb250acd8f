/* From "2 large", "1/2 cup, chopped" or "1 capsule of 200 IU" to grams. */
#include <math.h>

#include "base/num.h"
#include "label/label_text.h"
#include "recipe/recipe_measures.h"
#include "text/scan.h"

/* 20 drops a millilitre (common practice of droppers for watery liquids). */
static const double ML_PER_DROP = 0.05;

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
  struct one one = say(f, m->grams * share_of_it, unit, buf_text(&b));
  if (measure_assumes_mash(f, m)) { /* nobody says whether it is mash or pieces, which leave room between them */
    static const double PIECES = 0.6;
    one.low = PIECES;
    one.high = 1;
    one.assumed = "weighed as mash; pieces of it weigh about six tenths of that";
  }
  return one;
}

static struct one by_volume(struct line_food *f, double ml, const char *unit) {
  const struct img_measure *m = measure_in_unit(f);
  if (m) return by_measure(f, m, 1);
  m = measure_by_volume(f);
  if (m) return by_measure(f, m, ml / unit_convert(1, (enum unit)m->unit));
  const struct img_density *row = density_by_words(f);
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
  if (unit_is_volume(u) && unit_is_volume(its))
    return say(f, one * unit_convert(1, u) / unit_convert(1, its), unit_info[u].word, "label");
  if (its == u || (pill && its_pill) || unnamed) return say(f, one, own->unit_word, "label");
  if (u == UNIT_EACH && span_eq(line_fold(f, f->line->unit_at), line_fold(f, span_of(own->unit_word))))
    return say(f, one, own->unit_word, "label");
  return unknown();
}

/* ---- doses ---- */

/* "zinc with copper 15 mg": a label states the dose of what stands first. */
static bool begins_what_is_beside(struct span words) {
  struct span w;
  return folded_word(&words, &w) && (span_is_fold(w, "with") || span_is_fold(w, "and") || span_is_fold(w, "plus"));
}

/* The nutrient that the food's words name: the longest run of words that is one ("natural vitamin E" has vitamin E). */
static enum nutrient nutrient_in(struct span words, bool *whole) {
  struct span from = words, w;
  size_t best = 0;
  enum nutrient found = NUT_NONE;
  for (; from.n > 0; folded_word(&from, &w)) {
    struct span rest = from;
    if (found != NUT_NONE && begins_what_is_beside(from)) break;
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
  const struct img_measure *m = measure_counted(f);
  if (m) return by_measure(f, m, 1);
  bool plain = l->unit == UNIT_EACH && l->unit_at.n == 0;
  if (span_is_fold(l->unit_at, "each") || span_starts_fold(l->unit_at, "piece") || span_is_fold(l->unit_at, "whole"))
    plain = true;
  if (plain) m = measure_named(f);
  if (m) return by_measure(f, m, 1);
  if ((plain || l->unit == UNIT_MEDIUM) && food->piece_g > 0) {
    f->edible_only = is_published(f);
    return say(f, (double)food->piece_g, "", "the usual piece");
  }
  if (plain) m = measure_of_usual_piece(f);
  if (plain && !m) m = measure_named_of_any_size(f);
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
  const struct own_food *own = library_own(f->lib, f->food);
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
  const struct own_food *own = library_own(f->lib, f->food);
  if (f->line->package_g > 0) return say(f, f->line->package_g, unit_info[f->line->unit].word, "as written");
  struct one label = own ? by_own_unit(f, own) : unknown();
  if (label.grams > 0) return label;
  struct one home = f->line->unit == UNIT_PINCH ? by_household(f) : unknown();
  if (home.grams > 0) return home;
  struct one spoon = by_volume(f, unit_convert(1, f->line->unit), unit_info[f->line->unit].word);
  return spoon.grams > 0 ? spoon : by_household(f); /* "1 cup shredded chicken" of a record without a cup */
}

static bool is_trace(enum nutrient n) {
  return n == NUT_ZINC || n == NUT_COPPER || n == NUT_MANGANESE || n == NUT_IRON || n == NUT_SELENIUM || n == NUT_IODINE;
}

/* "15 mg zinc" is zinc itself when the record is a pure substance or a label, and so is "15 mg zinc gluconate", for labels
 * mean the mineral; of other salts ("500 mg calcium carbonate"), and by the gram, the salt is weighed. */
static struct one one_weighed(struct line_food *f) {
  const struct recipe_line *l = f->line;
  const struct own_food *own = library_own(f->lib, f->food);
  bool whole = false, small = l->unit == UNIT_MG || l->unit == UNIT_UG;
  enum nutrient n = small ? nutrient_in(l->food, &whole) : NUT_NONE;
  if (n != NUT_NONE && whole && library_food(f->lib, f->food)->part == PART_SUPPLEMENT) {
    double grams = grams_of_dose(f, 1, l->unit, n);
    if (grams >= 0) return (struct one){.grams = grams, .from = dose_words(f, l->amount, l->unit, n)};
  }
  bool salt = n != NUT_NONE && !whole && l->pin.n == 0 && library_food(f->lib, f->food)->part == PART_SUPPLEMENT;
  double of_it = salt && is_trace(n) && !own ? grams_of_dose(f, 1, l->unit, n) : (double)NAN;
  if (of_it > 0) {
    const char *name = nutrient_inside(f->arena, n);
    struct buf weight;
    buf_init(&weight, f->arena, 40);
    num_sig(&weight, unit_convert(l->amount, l->unit), 3);
    diag_say(f->d, DIAG_WARNING, DIAG_ASSUMED, l->food_at,
             "taken as so much %s, as labels mean it; if '%.*s' weighs that, write '%s g'", name, SPAN_ARG(quoted(l->food)),
             buf_text(&weight));
    return (struct one){.grams = of_it, .from = dose_words(f, l->amount, l->unit, n)};
  }
  if (salt)
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
