/* mend_offers.c: foods that may be added: what is at hand, what people use to bring a nutrient (data/fixes.tsv), the
 * person's own labels.
 *
 * Each is read as the recipe's own reader would read the line that adds it, under the recipe's headers: what the search
 * counts with and what the new text says are then the same. */
#include <math.h>

#include "app/mend_parts.h"
#include "base/num.h"
#include "foods/portion.h"
#include "foods/refused.h"
#include "judge/uncounted.h"
#include "larder/larder_text.h"

enum { MOST_COUNTED = 4, BATCH_DAYS = 5 };
static const double LEAST_WEIGHED_G = 0.2; /* in a line: nobody weighs less at home, or would see it on a spoon */
static const double LEAST_OF_FOOD_G = 2;   /* of meat, fish or greens: less is a crumb (common practice) */
static const double LEAST_OF_MOST = 0.12;  /* of the usual most: less than that is a trace nobody would bother with */
static const double FIX_KG = 10;           /* the table's amounts are for an animal of this weight */
static const double OWN_MOST_G = 60, OWN_SUPPLEMENT_MOST_G = 5; /* of an own food, for that animal: common practice */

struct collector {
  const struct library *lib;
  const struct app_mend_request *q;
  const struct recipe *recipe;
  const struct animal *animal;
  const struct check_result *before;
  struct offers *out;
  struct arena *arena;
  const char *headers;
  const struct ration *ration;
  const bool *without;
  int group; /* of offers, the last given */
  int foods; /* the last number of a group that a food has: beyond those of the larder's lines and of the nutrients */
  bool held[NUT_COUNT]; /* what is not counted may be a dose of it already (uncounted_doses) */
  double size;          /* of this animal against one of FIX_KG, by metabolic weight */
};

/* ---- may it be offered? -------------------------------------------------------------------------------------------- */

bool offers_know(const struct library *lib, struct span never, struct arena *arena) {
  if (memchr(never.p, ',', never.n)) { /* "beef, chicken" would keep out what has both in it: a whole name, or an error */
    bool named = false;
    for (size_t i = 0; i < library_count(lib) && !named; i++)
      named = span_holds_fold(span_of(library_name(lib, (uint32_t)i)), never);
    return named;
  }
  const struct img_fix *fix = IMG_ROWS(&lib->image, IMG_FIXES, struct img_fix);
  for (size_t i = 0; i < img_count(&lib->image, IMG_FIXES); i++)
    if (food_is_refused(lib, fix[i].food, lib_str(lib, fix[i].words), never, arena)) return true;
  for (size_t i = 0; i < library_count(lib); i++)
    if (food_is_refused(lib, (uint32_t)i, "", never, arena)) return true;
  return food_group_of(lib, never, arena) != NULL;
}

static bool unwanted(const struct collector *c, uint32_t food, const char *words) {
  for (size_t i = 0; i < c->q->check.ask.never.count; i++)
    if (food_is_refused(c->lib, food, words, span_of(c->q->check.ask.never.item[i]), c->arena)) return true;
  return ration_refuses(c->lib, c->ration, food, words, c->arena);
}

static bool is_supplement(const struct library *lib, uint32_t food) {
  return library_food(lib, food)->part == PART_SUPPLEMENT;
}

/* The raw record of a cooked one, or the food itself: raw and boiled spinach are one food. */
static uint32_t raw_of(const struct library *lib, uint32_t food) {
  const struct img_food *f = library_food(lib, food);
  return f && f->raw_form != NO_INDEX ? f->raw_form : food;
}

/* What is in the bowl already, raw or cooked, can be raised where it stands. */
static bool in_recipe(const struct collector *c, uint32_t food) {
  for (size_t i = 0; i < c->ration->line_count; i++)
    if (raw_of(c->lib, c->ration->line[i].shown_food) == raw_of(c->lib, food)) return true;
  return false;
}

static bool offered_already(const struct collector *c, uint32_t food) {
  for (size_t i = 0; i < c->out->count; i++)
    if (c->out->offer[i].food.line.shown_food == food) return true;
  return false;
}

static bool may_offer(const struct collector *c, uint32_t food, const char *words) {
  const struct img_food *f = library_food(c->lib, food);
  if (!f || unwanted(c, food, words) || offered_already(c, food) || in_recipe(c, food)) return false;
  if (c->q->check.ask.no_supplements && is_supplement(c->lib, food)) return false;
  return !(f->flags & FOOD_RAW_WHITE);
}

/* ---- reading the line that would add it ----------------------------------------------------------------------------- */

/* Everything of the recipe's text but its lines of food. */
static const char *headers_of(struct span text, const struct recipe *recipe, struct arena *arena) {
  struct buf b;
  buf_init(&b, arena, 2 * RECIPE_MOST_BYTES);
  for (int number = 1; text.n > 0; number++) {
    struct span line = span_piece(&text, '\n');
    if (!recipe_line_of(recipe, number)) buf_addf(&b, "%.*s\n", SPAN_ARG(line));
  }
  return buf_text(&b);
}

static bool read_line(const struct collector *c, const char *line, struct ration_line *out) {
  struct buf text;
  struct diags d;
  struct recipe recipe;
  struct ration ration;
  buf_init(&text, c->arena, 2 * RECIPE_MOST_BYTES);
  buf_addf(&text, "%s\n%s\n", c->headers, line);
  diags_init(&d, c->arena, "", buf_span(&text));
  if (!recipe_parse(buf_span(&text), &d, &recipe, c->arena)) return false;
  if (!recipe_resolve(c->lib, &recipe, &d, &ration, c->arena) || ration.line_count != 1) return false;
  *out = ration.line[0];
  return d.errors == 0 && out->grams_fed > 0;
}

static const char *words_text(const struct collector *c, const char *format_amount, const char *food, const char *rest) {
  struct buf b;
  buf_init(&b, c->arena, 1024);
  buf_addf(&b, "%s %s%s", format_amount, food, rest);
  return buf_text(&b);
}

static const char *with_pin(const struct collector *c, const char *words, uint32_t food) {
  struct buf b;
  buf_init(&b, c->arena, 512);
  buf_addf(&b, "%s [%s]", words, library_code(c->lib, food));
  return buf_text(&b);
}

static void add_offer(struct collector *c, struct mend_offer o, struct offer_text t) {
  if (mend_dangerous(c->lib, &o.food.line, c->animal->species, c->arena)) return; /* raw sprats of a cat's larder */
  ARENA_PUSH(c->arena, c->out->offer, c->out->count, c->out->cap, o);
  ARENA_PUSH(c->arena, c->out->text, c->out->text_count, c->out->text_cap, t);
}

static double days(const struct collector *c) { return c->recipe->days > 0 ? c->recipe->days : 1; }

/* Ground eggshell, salt: a supplement that is no pill. */
static bool is_kitchen_powder(const struct collector *c, uint32_t food) {
  return is_supplement(c->lib, food) && portion_of(c->lib, food, c->animal->species) != NULL;
}

/* What can be told from nothing on a scale: of powders and oils little, of food a morsel, but never more than half of what
 * is usual for a small animal. */
static double least_weighed(const struct collector *c, uint32_t food, double most_g) {
  bool by_the_drop = is_supplement(c->lib, food) || library_food(c->lib, food)->part == PART_FAT_OIL;
  return by_the_drop ? LEAST_WEIGHED_G : fmax(LEAST_WEIGHED_G, fmin(LEAST_OF_FOOD_G, most_g / 2));
}

/* Of a bowl that is a meal at all; NaN: shares of it say nothing. */
static double bowl_grams(const struct collector *c) {
  const struct energy_result *e = &c->before->energy;
  return e->supply_kcal >= e->need.kcal / 4 ? e->grams_per_day : NAN;
}

static double portion_here(const struct collector *c, uint32_t food) {
  return portion_most_g(c->lib, food, c->animal->species, c->before->body.metabolic_kg, bowl_grams(c));
}

/* Raw shellfish is not offered unless the owner has it. */
static bool is_raw_shellfish(const struct collector *c, uint32_t food) {
  const struct img_food *f = library_food(c->lib, food);
  return f->part == PART_SHELLFISH && f->state == STATE_RAW;
}

/* Weighed foods: at most so many grams a day for this animal. */
static void offer_weighed(struct collector *c, uint32_t food, const char *words, enum mend_tier tier, double most,
                          int since) {
  struct mend_offer o = {.tier = tier};
  struct offer_text t = {.name = words, .unit = UNIT_G, .frequency = "", .per_day = days(c)};
  t.food = with_pin(c, words, food);
  bool read = read_line(c, words_text(c, "100 g", t.food, ""), &o.food.line);
  if (!read || o.food.line.shown_food != food || o.food.line.cooked_bone) return;
  o.food.name = t.name;
  /* Under a header that cooks everything the line is weighed raw; the search counts what is on the plate. */
  t.per_day = 100 / ration_line_grams_per_day(&o.food.line);
  o.step = kitchen_step(UNIT_G, most * days(c) / 2) / t.per_day;
  o.floor = kitchen_floor(UNIT_G, most * days(c) / 2) / t.per_day;
  o.gram = 1 / t.per_day;
  o.since = since;
  o.anywhere = is_kitchen_powder(c, food);
  o.most = most * days(c) / t.per_day;
  o.least = fmax(LEAST_OF_MOST * o.most, least_weighed(c, food, most * days(c)) / t.per_day);
  if (most * days(c) < LEAST_WEIGHED_G) return;
  add_offer(c, o, t);
}

/* ---- where they come from --------------------------------------------------------------------------------------------- */

static enum mend_tier tier_of(const struct collector *c, uint32_t food) {
  return is_supplement(c->lib, food) ? MEND_SUPPLEMENT : MEND_FOOD;
}

/* ---- by the tablet, the tin, the egg --------------------------------------------------------------------------------- */

static bool is_pill(const struct library *lib, const struct img_shop_unit *u) {
  return u->nutrient < NUT_COUNT || unit_by_word(span_of(lib_str(lib, u->unit))) == UNIT_SOFTGEL;
}

/* Nobody counts 44 drops into a pot for a week, or boils six capsules: from so many days on pills are given day by day, over
 * the bowl, and what is cooked is left to the pot. */
static bool is_given_daily(const struct collector *c, const struct img_shop_unit *u) {
  return is_pill(c->lib, u) && days(c) >= BATCH_DAYS;
}

/* One of it in a line that feeds it so often. False: it cannot be read back. */
static bool shop_unit_text(const struct collector *c, const struct img_shop_unit *u, double times, struct offer_text *t,
                           struct ration_line *read) {
  struct buf frequency, one;
  buf_init(&frequency, c->arena, 80);
  buf_init(&one, c->arena, 80);
  if (times < CALENDAR_DAYS) recipe_print_frequency(&frequency, times);
  if (times >= CALENDAR_DAYS && is_given_daily(c, u)) buf_adds(&frequency, ", daily");
  buf_addf(&one, "1 %s", lib_str(c->lib, u->unit));
  *t = (struct offer_text){.food = with_pin(c, lib_str(c->lib, u->one), u->food),
                           .many = with_pin(c, lib_str(c->lib, u->many), u->food),
                           .name = lib_str(c->lib, u->name),
                           .unit = unit_by_word(span_of(lib_str(c->lib, u->unit))),
                           .unit_word = lib_str(c->lib, u->unit),
                           .frequency = buf_text(&frequency),
                           .weekly = times == CALENDAR_DAYS / 7.0,
                           .per_day = 1};
  if (!read_line(c, words_text(c, buf_text(&one), t->food, t->frequency), read) || read->shown_food != u->food) return false;
  t->unit_g = ration_line_grams_per_day(read);
  return t->unit_g > 0;
}

/* The smallest dose, as a share of the need: one that is far above it or far below is no choice. */
static double dose_of(const struct collector *c, const struct img_shop_unit *u, double grams) {
  if (u->nutrient >= NUT_COUNT) return NAN;
  double need = c->before->nutrient[u->nutrient].allowance;
  return need > 0 ? grams / 100 * (double)library_values(c->lib, u->food)[u->nutrient].mean / need : NAN;
}

/* What one offer of a shop unit is made of. */
struct shop_offer {
  const struct img_shop_unit *unit;
  double times; /* feedings in 28 days */
  double units; /* a feeding: the most of what is fed daily, else just so many */
  bool halved;  /* what is fed daily may be counted in halves */
  int since;    /* of mend_offer */
};

/* Fed daily it may be any number of wholes, or of halves; now and then it is a stated amount each time. One group: at most
 * one of these is used. The smallest dose as a share of the need; NaN for a food. */
static double offer_so_often_a_unit(struct collector *c, const struct shop_offer *s) {
  static const double DOSE_LEAST = 0.2, AT_A_TIME = 3;
  const struct img_shop_unit *u = s->unit;
  struct offer_text t;
  bool pill = is_pill(c->lib, u), daily = s->times >= CALENDAR_DAYS, potted = daily && !is_given_daily(c, u);
  struct mend_offer o = {.tier = pill ? MEND_SUPPLEMENT : MEND_FOOD, .since = s->since, .group = c->group};
  if (!shop_unit_text(c, u, s->times, &t, &o.food.line)) return NAN;
  double ceiling = portion_here(c, u->food), units = s->units * (potted ? days(c) : 1);
  /* In a pot for a week one egg more or less is near enough. */
  bool halves = s->halved && (!potted || days(c) < BATCH_DAYS);
  o.whole = o.step = t.unit_g * (daily ? halves ? 0.5 : 1 : units);
  o.most = floor(fmin(units * t.unit_g, ceiling) / o.whole + 1e-9) * o.whole;
  double least = dose_of(c, u, o.whole), most = dose_of(c, u, o.most);
  if (uncounted_is_doubled(c->lib, c->before, c->held, u->food, t.unit_g)) return NAN;
  if (!(o.most > 0) || (!daily && o.whole * CALENDAR_DAYS / s->times > AT_A_TIME * ceiling)) return least;
  if (least > (double)u->times_need || most < DOSE_LEAST) return least;
  if (!daily) ration_spread_days(&o.food.line, s->times, 0);
  o.food.name = t.name;
  add_offer(c, o, t);
  return least;
}

static bool unit_offered_already(const struct collector *c, const struct img_shop_unit *u) {
  const char *name = lib_str(c->lib, u->name);
  for (size_t i = 0; i < c->out->count; i++)
    if (c->out->text[i].name == name) return true;
  return false;
}

/* A part of a tablet every day is a chore: whole ones come first, every day or every so many days, and halves a day when
 * these do not suffice. Eggs and tins are halved at once. */
static void offer_whole_and_halved(struct collector *c, struct shop_offer s, double *least) {
  enum { HALVES_SINCE = 1 /* a step of the reach */ };
  bool daily = s.times >= CALENDAR_DAYS, pill = is_pill(c->lib, s.unit);
  if (!daily) s.units = fmin(s.units, 1);
  s.halved = s.unit->halves && !pill;
  double dose = offer_so_often_a_unit(c, &s);
  if (!isnan(dose)) *least = dose;
  if (!s.unit->halves || daily != pill) return;
  s.halved = true;
  if (pill && s.since < HALVES_SINCE) s.since = HALVES_SINCE;
  if (!daily) s.units = 0.5;
  offer_so_often_a_unit(c, &s);
}

/* Less often is offered as long as the dose is more than the need. A batch for many days is itself "now and then". */
static void offer_shop_unit(struct collector *c, const struct img_shop_unit *u, const char *words, int since) {
  double least = INFINITY;
  if (unit_offered_already(c, u) || unwanted(c, u->food, words) || in_recipe(c, u->food)) return;
  if (c->q->check.ask.no_supplements && is_supplement(c->lib, u->food)) return;
  /* Of all the tablets and drops of one nutrient one is used, so and so often: nobody buys two kinds of iodine. */
  c->group = u->nutrient < NUT_COUNT ? LARDER_MOST_LINES + 1 + (int)u->nutrient : ++c->foods;
  for (size_t i = 0; i < COUNT_OF(u->often) && u->often[i] > 0 && !(least <= 1); i++) {
    double most = floor((double)u->most * c->size * 2) / 2;
    offer_whole_and_halved(c, (struct shop_offer){u, u->often[i], fmax(1, most), false, since}, &least);
    if (u->often[i] >= CALENDAR_DAYS && days(c) >= BATCH_DAYS && !is_given_daily(c, u)) break;
  }
}

/* ORDER 'late' of fixes.tsv: at once, when the small things do not suffice, when portions would have to be stretched. */
static const int SINCE[] = {0, 1, 3};

static void offer_fixes(struct collector *c) {
  const struct img_fix *fix = IMG_ROWS(&c->lib->image, IMG_FIXES, struct img_fix);
  const struct img_shop_unit *unit = IMG_ROWS(&c->lib->image, IMG_SHOP_UNITS, struct img_shop_unit);
  for (size_t i = 0; i < img_count(&c->lib->image, IMG_FIXES); i++) {
    const char *words = lib_str(c->lib, fix[i].words);
    int since = SINCE[fix[i].late];
    if (!ration_takes_fix(c->lib, c->ration, &fix[i], c->animal->species)) continue;
    if (fix[i].shop_unit != NO_INDEX)
      offer_shop_unit(c, &unit[fix[i].shop_unit], words, since);
    else if (may_offer(c, fix[i].food, words) && !is_raw_shellfish(c, fix[i].food) &&
             !uncounted_is_doubled(c->lib, c->before, c->held, fix[i].food, portion_here(c, fix[i].food)))
      offer_weighed(c, fix[i].food, words, tier_of(c, fix[i].food), portion_here(c, fix[i].food), since);
  }
}

static void offer_own(struct collector *c, const struct own_food *own, uint32_t food) {
  bool counted = own->unit_word && own->unit_g > 0;
  double most_g = (own->food.part == PART_SUPPLEMENT ? OWN_SUPPLEMENT_MOST_G : OWN_MOST_G) * c->size;
  if (!counted) {
    offer_weighed(c, food, own->name, tier_of(c, food), most_g, false);
    return;
  }
  struct mend_offer o = {.tier = MEND_LARDER, .whole = own->unit_g / days(c)};
  struct offer_text t = {.food = with_pin(c, own->name, food),
                         .name = own->name,
                         .unit = unit_by_word(span_of(own->unit_word)),
                         .unit_word = own->unit_word,
                         .unit_g = own->unit_g,
                         .frequency = "",
                         .per_day = days(c)};
  struct buf one;
  buf_init(&one, c->arena, 80);
  buf_addf(&one, "1 %s", own->unit_word);
  if (!read_line(c, words_text(c, buf_text(&one), t.food, ""), &o.food.line)) return;
  o.food.name = t.name;
  o.whole = ration_line_grams_per_day(&o.food.line);
  t.unit_g = o.whole * days(c);
  o.step = o.whole;
  o.most = fmax(1, floor(MOST_COUNTED * days(c))) * o.whole;
  add_offer(c, o, t);
}

static void offer_own_foods(struct collector *c) {
  for (size_t i = 0; i < c->lib->own_count; i++) {
    uint32_t food = (uint32_t)(library_count(c->lib) - c->lib->own_count + i);
    if (may_offer(c, food, c->lib->own[i].name)) offer_own(c, &c->lib->own[i], food);
  }
}

/* ---- the larder's foods --------------------------------------------------------------------------------------------- */

/* What the larder states of the food beyond its name and record. "raw" is left out: under a header that cooks everything
 * this food is cooked as well. */
static void add_stated(struct buf *b, const struct larder_food *f, const struct img_food *record) {
  const struct recipe_line *one = &f->line->one;
  bool cooked = state_is_cooked(one->state) && one->state != STATE_CANNED;
  if (cooked && (enum state)record->state != f->one.state) {
    buf_addf(b, "%s, %s", one->raw_weight ? ", raw weight" : "", state_word[one->state]);
    if (one->broth >= 0) buf_adds(b, one->broth ? ", with broth" : ", without broth");
  }
  if (one->wish.bone_in >= 0) buf_adds(b, one->wish.bone_in ? ", bone-in" : ", boneless");
}

/* The food in a line that adds it so often; 'counted': its pieces stand before it. */
static const char *larder_words(const struct collector *c, const struct larder_food *f, double times, bool counted) {
  const struct recipe_line *one = &f->line->one;
  struct buf b;
  buf_init(&b, c->arena, LINE_MOST_BYTES);
  if (counted && one->package_g > 0) {
    buf_addc(&b, '(');
    num_sig(&b, one->package_g, 4);
    buf_adds(&b, " g each) ");
  }
  buf_adds(&b, f->name);
  if (counted && !isnan(one->dose)) {
    buf_adds(&b, ", ");
    num_sig(&b, one->dose, 12);
    buf_addf(&b, " %s", unit_info[one->dose_unit].word);
  }
  add_stated(&b, f, library_food(c->lib, f->one.shown_food));
  if (times < CALENDAR_DAYS) recipe_print_frequency(&b, times);
  return with_pin(c, buf_text(&b), f->one.shown_food);
}

static bool is_larder_food(const struct larder_food *f, const struct ration_line *l) {
  return l->shown_food == f->one.shown_food && l->part_count == f->one.part_count && !l->cooked_bone;
}

/* One whole thing, as the larder counts it, in a line that adds it so often. False: it cannot be read back. */
static bool counted_text(const struct collector *c, const struct larder_food *f, double times, struct offer_text *t,
                         struct ration_line *read) {
  enum unit unit = f->line->one.unit;
  const char *word = unit == UNIT_EACH ? "" : unit_info[unit].word;
  struct buf one;
  if (!f->line->whole_units) return false;
  buf_init(&one, c->arena, 80);
  buf_addf(&one, word[0] ? "1 %s" : "1", word);
  *t = (struct offer_text){.name = f->name, .unit = unit, .unit_word = word, .frequency = "", .per_day = 1};
  t->food = larder_words(c, f, times, true);
  if (!read_line(c, words_text(c, buf_text(&one), t->food, ""), read)) return false;
  t->unit_g = ration_line_grams_per_day(read);
  return is_larder_food(f, read);
}

static bool weighed_text(const struct collector *c, const struct larder_food *f, double times, struct offer_text *t,
                         struct ration_line *read) {
  *t = (struct offer_text){.name = f->name, .unit = UNIT_G, .unit_word = "", .frequency = ""};
  t->food = larder_words(c, f, times, false);
  if (!read_line(c, words_text(c, "100 g", t->food, ""), read)) return false;
  t->per_day = 100 / ration_line_grams_per_day(read);
  return is_larder_food(f, read);
}

/* Grams as a text writes them for one unit of the larder. */
static double written_g(const struct larder_food *f) { return f->line->one.unit == UNIT_G ? 1 : f->unit_g; }

/* So often, and so much: the larder's range, a day or a time, holds for what the new line says. An open one ends where
 * nobody feeds more. What the larder always wants in the bowl is here wanted only if it is used at all. */
static void offer_so_often(struct collector *c, const struct larder_food *f, double times, int group) {
  const struct larder_line *l = f->line;
  struct offer_text t;
  struct mend_offer o = {.tier = MEND_LARDER, .group = group};
  bool daily = times >= CALENDAR_DAYS, counted = counted_text(c, f, times, &t, &o.food.line);
  if (!counted && !weighed_text(c, f, times, &t, &o.food.line)) return;
  double text_days = daily ? days(c) : 1; /* a line fed daily is for all days of the batch, another for one feeding */
  double open_end = counted ? MOST_COUNTED : 100 * c->size / written_g(f);
  double high = isfinite(l->high) ? l->high : open_end, high_g = high * written_g(f) * text_days;
  double unit =
      text_days * (counted ? t.unit_g : written_g(f) / t.per_day); /* g a day on the plate for one of the larder's */
  if (!counted && high_g < LEAST_WEIGHED_G) return;
  if (!daily) ration_spread_days(&o.food.line, times, 0);
  o.food.name = t.name;
  o.price = isnan(f->price_per_g) ? 0 : f->price_per_g;
  o.most = high * unit;
  o.least = fmax(l->low, l->least) * unit;
  o.step = counted ? t.unit_g : kitchen_step(UNIT_G, daily ? high_g / 2 : high_g) / t.per_day;
  if (counted) {
    o.whole = t.unit_g;
    o.most = floor(o.most / o.whole + 1e-9) * o.whole;
  }
  if (!daily && l->low == l->high) o.whole = o.step = o.most; /* a stated amount each time */
  if (o.most > 0) add_offer(c, o, t);
}

/* Feedings are counted by the week where they are whole weeks' numbers, else by the month. */
static void offer_now_and_then(struct collector *c, const struct larder_food *f, int group) {
  const struct larder_line *l = f->line;
  bool weekly = fmod(l->times_high, 4) == 0 && fmod(l->times_low, 4) == 0;
  double step = weekly ? 4 : 1, first = l->low == l->high ? fmax(step, l->times_low) : l->times_high;
  if (c->without[group - 1]) return;
  for (double times = first; times <= l->times_high; times += step) offer_so_often(c, f, times, group);
}

static void offer_larder_food(struct collector *c, const struct larder_food *f, int number) {
  if (!may_offer(c, f->one.shown_food, f->name)) return;
  if (f->line->times_high >= 0 && f->line->times_high < CALENDAR_DAYS)
    offer_now_and_then(c, f, number);
  else
    offer_so_often(c, f, CALENDAR_DAYS, 0);
}

static void offer_larder(struct collector *c, struct diags *d) {
  struct larder larder;
  struct larder_food *food = NULL;
  if (!c->q->larder.name) return;
  if (!larder_parse(c->q->larder.text, d, &larder, c->arena)) return;
  if (!larder_resolve(c->lib, &larder, d, &food, c->arena)) return;
  c->out->larder = food;
  c->out->larder_count = larder.line_count;
  c->out->currency = larder.currency ? larder.currency : "";
  for (size_t i = 0; i < larder.line_count; i++) offer_larder_food(c, &food[i], (int)i + 1);
}

double offers_price(const struct offers *o, uint32_t food) {
  for (size_t i = 0; i < o->larder_count; i++)
    if (o->larder[i].one.shown_food == food) return o->larder[i].price_per_g;
  return (double)NAN;
}

void collect_offers(const struct library *lib, const struct app_mend_request *q, const struct recipe *recipe,
                    const struct check_result *before, const bool *without, struct diags *larder_diags, struct offers *out,
                    struct arena *arena) {
  const struct animal usual = {.name = "", .species = SPECIES_DOG, .weight_kg = FIX_KG, .ideal_kg = NAN, .condition = NAN};
  *out = (struct offers){0};
  struct collector c = {.lib = lib,
                        .q = q,
                        .recipe = recipe,
                        .animal = before->animal,
                        .before = before,
                        .out = out,
                        .arena = arena,
                        .headers = headers_of(q->check.recipe.text, recipe, arena),
                        .ration = before->ration,
                        .without = without,
                        .foods = LARDER_MOST_LINES + 1 + NUT_COUNT};
  c.size = before->body.metabolic_kg / animal_body(lib, &usual).metabolic_kg;
  uncounted_doses(lib, before, c.held);
  offer_larder(&c, larder_diags);
  offer_own_foods(&c);
  offer_fixes(&c);
}
