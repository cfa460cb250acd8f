/* mend_collect.c: may a food be offered, and the line that would add it, read as the recipe's own reader reads it. */
#include "app/mend_collect.h"

#include <math.h>

#include "foods/portion.h"
#include "foods/refused.h"

static const double LEAST_WEIGHED_G = 0.2; /* in a line: nobody weighs less at home, or would see it on a spoon */
static const double LEAST_OF_FOOD_G = 5;   /* of meat, fish or greens: nobody opens a tin for less (common practice) */
static const double SPOONED_TO_G = 5; /* powders and oils, in a line: scales at home show whole grams (common practice) */
static const double LEAST_OF_MOST = 0.12; /* of the usual most: less than that is a trace nobody would bother with */

/* ---- may it be offered? -------------------------------------------------------------------------------------------- */

bool collect_is_unwanted(const struct collector *c, uint32_t food, const char *words) {
  for (size_t i = 0; i < c->q->check.ask.never.count; i++)
    if (food_is_refused(c->lib, food, words, span_of(c->q->check.ask.never.item[i]), c->arena)) return true;
  return ration_refuses(c->lib, c->ration, food, words, c->arena);
}

bool collect_is_supplement(const struct library *lib, uint32_t food) {
  return library_food(lib, food)->part == PART_SUPPLEMENT;
}

/* The raw record of a cooked one, or the food itself: raw and boiled spinach are one food. */
static uint32_t raw_of(const struct library *lib, uint32_t food) {
  const struct img_food *f = library_food(lib, food);
  return f && f->raw_form != NO_INDEX ? f->raw_form : food;
}

/* What is in the bowl already, raw or cooked, can be raised where it stands. */
bool collect_is_in_recipe(const struct collector *c, uint32_t food) {
  for (size_t i = 0; i < c->ration->line_count; i++)
    if (raw_of(c->lib, c->ration->line[i].shown_food) == raw_of(c->lib, food)) return true;
  return false;
}

static bool offered_already(const struct collector *c, uint32_t food) {
  for (size_t i = 0; i < c->out->count; i++)
    if (c->out->offer[i].food.line.shown_food == food) return true;
  return false;
}

bool collect_may_offer(const struct collector *c, uint32_t food, const char *words) {
  const struct img_food *f = library_food(c->lib, food);
  if (!f || collect_is_unwanted(c, food, words) || offered_already(c, food) || collect_is_in_recipe(c, food)) return false;
  if (c->q->check.ask.no_supplements && collect_is_supplement(c->lib, food)) return false;
  return !(f->flags & FOOD_RAW_WHITE);
}

/* ---- reading the line that would add it ----------------------------------------------------------------------------- */

/* Everything of the recipe's text but its lines of food. */
const char *collect_headers(struct span text, const struct recipe *recipe, struct arena *arena) {
  struct buf b;
  buf_init(&b, arena, 2 * RECIPE_MOST_BYTES);
  for (int number = 1; text.n > 0; number++) {
    struct span line = span_piece(&text, '\n');
    if (!recipe_line_of(recipe, number)) buf_addf(&b, "%.*s\n", SPAN_ARG(line));
  }
  return buf_text(&b);
}

bool collect_read_line(const struct collector *c, const char *line, struct ration_line *out) {
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

const char *collect_words(const struct collector *c, const char *format_amount, const char *food, const char *rest) {
  struct buf b;
  buf_init(&b, c->arena, 1024);
  buf_addf(&b, "%s %s%s", format_amount, food, rest);
  return buf_text(&b);
}

const char *collect_with_pin(const struct collector *c, const char *words, uint32_t food) {
  struct buf b;
  buf_init(&b, c->arena, 512);
  buf_addf(&b, "%s [%s]", words, library_code(c->lib, food));
  return buf_text(&b);
}

void collect_add(struct collector *c, struct mend_offer o, struct offer_text t) {
  if (mend_dangerous(c->lib, &o.food.line, c->animal->species, c->arena)) return; /* raw sprats of a cat's larder */
  ARENA_PUSH(c->arena, c->out->offer, c->out->count, c->out->cap, o);
  ARENA_PUSH(c->arena, c->out->text, c->out->text_count, c->out->text_cap, t);
}

double collect_days(const struct collector *c) { return c->recipe->days > 0 ? c->recipe->days : 1; }

/* Ground eggshell, salt: a supplement that is no pill. */
static bool is_kitchen_powder(const struct collector *c, uint32_t food) {
  return collect_is_supplement(c->lib, food) && portion_of(c->lib, food, c->animal->species) != NULL;
}

static bool is_by_the_drop(const struct collector *c, uint32_t food) {
  return collect_is_supplement(c->lib, food) || library_food(c->lib, food)->part == PART_FAT_OIL;
}

/* What can be told from nothing on a scale: of powders and oils little, of food a morsel, but never more than half of what
 * is usual for a small animal. */
static double least_weighed(const struct collector *c, uint32_t food, double most_g) {
  return is_by_the_drop(c, food) ? LEAST_WEIGHED_G : fmax(LEAST_WEIGHED_G, fmin(LEAST_OF_FOOD_G, most_g / 2));
}

/* Of a bowl that is a meal at all; NaN: shares of it say nothing. */
static double bowl_grams(const struct collector *c) {
  const struct energy_result *e = &c->before->energy;
  return e->supply_kcal >= e->need.kcal / 4 ? e->grams_per_day : NAN;
}

double collect_portion(const struct collector *c, uint32_t food) {
  return portion_most_g(c->lib, food, c->animal->species, c->before->body.metabolic_kg, bowl_grams(c));
}

bool collect_is_a_trace(double grams) { return grams < LEAST_WEIGHED_G; }

/* What of a teaspoon is measured: eighths; half of the smallest, once, where an eighth is more than is usual. */
static const double SPOON_PART = 0.125, TIP_PART = 0.0625;

/* So often, by the teaspoon, at most so many grams a day. False: not even the smallest spoon is so little, or the recipe's
 * reader does not know what a spoonful of it weighs. */
static bool offer_spoons(struct collector *c, uint32_t food, const char *words, struct mend_offer o, double times,
                         double most) {
  static const double AT_A_TIME = 3; /* times what is usual a day */
  bool daily = times >= CALENDAR_DAYS;
  struct buf often;
  buf_init(&often, c->arena, 80);
  if (!daily) recipe_print_frequency(&often, times);
  struct offer_text t = {.name = words,
                         .unit = UNIT_TSP,
                         .unit_word = unit_info[UNIT_TSP].word,
                         .frequency = buf_text(&often),
                         .weekly = times == CALENDAR_DAYS / 7.0,
                         .per_day = 1};
  t.food = collect_with_pin(c, words, food);
  if (!collect_read_line(c, collect_words(c, "1 tsp", t.food, t.frequency), &o.food.line)) return false;
  t.unit_g = ration_line_grams_per_day(&o.food.line);
  if (o.food.line.shown_food != food || o.food.line.cooked_bone || !(t.unit_g > 0)) return false;
  double tsp = fmin(most, AT_A_TIME * most * times / CALENDAR_DAYS) / t.unit_g;
  double part = daily && tsp < SPOON_PART && tsp >= 0.75 * TIP_PART ? TIP_PART : SPOON_PART;
  o.step = o.floor = o.least = part * t.unit_g;
  o.most = part < SPOON_PART ? o.step : floor(tsp / part + 1e-6) * o.step;
  if (!(o.most > 0)) return false;
  if (!daily) ration_spread_days(&o.food.line, times, 0);
  o.food.name = t.name;
  collect_add(c, o, t);
  return true;
}

bool collect_spooned(struct collector *c, uint32_t food, const char *words, enum mend_tier tier, double most, int since) {
  static const double OFTEN[] = {CALENDAR_DAYS, 14, 8, 4}, SELDOM_BELOW = 0.25;
  struct mend_offer o = {.tier = tier, .since = since, .anywhere = is_kitchen_powder(c, food), .group = c->foods + 1};
  bool any = false;
  if (!is_by_the_drop(c, food) || most * collect_days(c) >= SPOONED_TO_G) return false;
  for (size_t i = 0; i < COUNT_OF(OFTEN); i++) {
    any |= offer_spoons(c, food, words, o, OFTEN[i], most);
    if (any && i == 0 && most / c->out->text[c->out->text_count - 1].unit_g >= SELDOM_BELOW) break;
  }
  c->foods += any;
  return any;
}

/* Weighed foods: at most so many grams a day for this animal. */
void collect_weighed(struct collector *c, uint32_t food, const char *words, enum mend_tier tier, double most, int since) {
  struct mend_offer o = {.tier = tier};
  struct offer_text t = {.name = words, .unit = UNIT_G, .frequency = "", .per_day = collect_days(c)};
  t.food = collect_with_pin(c, words, food);
  bool read = collect_read_line(c, collect_words(c, "100 g", t.food, ""), &o.food.line);
  if (!read || o.food.line.shown_food != food || o.food.line.cooked_bone) return;
  o.food.name = t.name;
  /* Under a header that cooks everything the line is weighed raw; the search counts what is on the plate. */
  t.per_day = 100 / ration_line_grams_per_day(&o.food.line);
  o.step = kitchen_step(UNIT_G, most * collect_days(c) / 2) / t.per_day;
  o.floor = kitchen_floor(UNIT_G, most * collect_days(c) / 2) / t.per_day;
  o.gram = 1 / t.per_day;
  o.since = since;
  o.anywhere = is_kitchen_powder(c, food);
  o.most = most * collect_days(c) / t.per_day;
  o.least = fmax(LEAST_OF_MOST * o.most, least_weighed(c, food, most * collect_days(c)) / t.per_day);
  if (collect_is_a_trace(most * collect_days(c))) return;
  collect_add(c, o, t);
}
