/* mend_units.c: what is offered by the tablet, the tin, the egg (data/shop_units.tsv). */
#include "app/mend_collect.h"

#include <math.h>

#include "judge/uncounted.h"
#include "larder/larder_text.h"

static bool is_pill(const struct library *lib, const struct img_shop_unit *u) {
  return u->nutrient < NUT_COUNT || unit_by_word(span_of(lib_str(lib, u->unit))) == UNIT_SOFTGEL;
}

/* Nobody counts 44 drops into a pot for a week, or boils six capsules: from so many days on pills are given day by day, over
 * the bowl, and what is cooked is left to the pot. */
static bool is_given_daily(const struct collector *c, const struct img_shop_unit *u) {
  return is_pill(c->lib, u) && collect_days(c) >= BATCH_DAYS;
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
  *t = (struct offer_text){.food = collect_with_pin(c, lib_str(c->lib, u->one), u->food),
                           .many = collect_with_pin(c, lib_str(c->lib, u->many), u->food),
                           .name = lib_str(c->lib, u->name),
                           .unit = unit_by_word(span_of(lib_str(c->lib, u->unit))),
                           .unit_word = lib_str(c->lib, u->unit),
                           .frequency = buf_text(&frequency),
                           .weekly = times == CALENDAR_DAYS / 7.0,
                           .per_day = 1};
  if (!collect_read_line(c, collect_words(c, buf_text(&one), t->food, t->frequency), read) || read->shown_food != u->food)
    return false;
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
  double ceiling = collect_portion(c, u->food), units = s->units * (potted ? collect_days(c) : 1);
  /* In a pot for a week one egg more or less is near enough. */
  bool halves = s->halved && (!potted || collect_days(c) < BATCH_DAYS);
  o.whole = o.step = t.unit_g * (daily ? halves ? 0.5 : 1 : units);
  o.most = floor(fmin(units * t.unit_g, ceiling) / o.whole + 1e-9) * o.whole;
  double least = dose_of(c, u, o.whole), most = dose_of(c, u, o.most);
  if (uncounted_is_doubled(c->lib, c->before, c->held, u->food, t.unit_g)) return NAN;
  if (!(o.most > 0) || (!daily && o.whole * CALENDAR_DAYS / s->times > AT_A_TIME * ceiling)) return least;
  if (least > (double)u->times_need || most < DOSE_LEAST) return least;
  if (!daily) ration_spread_days(&o.food.line, s->times, 0);
  o.food.name = t.name;
  collect_add(c, o, t);
  return least;
}

/* A tablet of calcium is for a bowl that lacks it, or has little of it to the phosphorus; for its vitamin D alone there are
 * drops and fish (common practice). */
static bool is_needless_calcium(const struct collector *c, const struct img_shop_unit *u) {
  static const double ENOUGH_TO_PHOSPHORUS = 1.2;
  enum verdict v = c->before->nutrient[NUT_CALCIUM].verdict;
  if (u->nutrient != NUT_CALCIUM) return false;
  return v == VERDICT_OVER || (v == VERDICT_MET && c->before->balance.ca_p >= ENOUGH_TO_PHOSPHORUS);
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

/* Nobody gives a dog six tablets of one thing a day: a powder or food does it then (common practice). Drops are no matter.
 */
static double most_at_a_time(const struct collector *c, const struct img_shop_unit *u) {
  static const double PILLS_MOST = 3;
  enum unit unit = unit_by_word(span_of(lib_str(c->lib, u->unit)));
  double most = floor((double)u->most * c->size * 2) / 2;
  return fmax(1, unit == UNIT_TABLET || unit == UNIT_CAPSULE ? fmin(most, PILLS_MOST) : most);
}

/* Less often is offered as long as the dose is more than the need. A batch for many days is itself "now and then". */
void collect_shop_unit(struct collector *c, const struct img_shop_unit *u, const char *words, int since) {
  double least = INFINITY;
  if (unit_offered_already(c, u) || is_needless_calcium(c, u)) return;
  if (collect_is_unwanted(c, u->food, words) || collect_is_in_recipe(c, u->food)) return;
  if (c->q->check.ask.no_supplements && collect_is_supplement(c->lib, u->food)) return;
  /* Of all the tablets and drops of one nutrient one is used, so and so often: nobody buys two kinds of iodine. */
  c->group = u->nutrient < NUT_COUNT ? LARDER_MOST_LINES + 1 + (int)u->nutrient : ++c->foods;
  for (size_t i = 0; i < COUNT_OF(u->often) && u->often[i] > 0 && !(least <= 1); i++) {
    offer_whole_and_halved(c, (struct shop_offer){u, u->often[i], most_at_a_time(c, u), false, since}, &least);
    if (u->often[i] >= CALENDAR_DAYS && collect_days(c) >= BATCH_DAYS && !is_given_daily(c, u)) break;
  }
}
