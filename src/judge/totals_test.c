#include "judge/totals.h"

#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <gsl/gsl_statistics_double.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

#include "tests/support/near.h"
#include "tests/support/tiny_image.h"

/* Foods a and b with some spread, c without a value for zinc. */
struct bowl {
  struct tiny *t;
  uint32_t a, b, c;
  const struct library *lib;
};

static struct bowl make_bowl(void) {
  struct bowl w = {.t = tiny_new(&arena)};
  w.a = tiny_food(w.t, "a", PART_MUSCLE, SPREAD_RED_MEAT);
  w.b = tiny_food(w.t, "b", PART_FISH, SPREAD_FISH);
  w.c = tiny_food(w.t, "c", PART_VEGETABLE, SPREAD_VEGETABLE);
  tiny_value(w.t, w.a, NUT_ZINC, 4.0, 0.20);
  tiny_value(w.t, w.b, NUT_ZINC, 0.9, 0.50);
  tiny_unknown(w.t, w.c, NUT_ZINC);
  tiny_class_high(w.t, SPREAD_VEGETABLE, NUT_ZINC, 2.0);
  w.lib = tiny_open(w.t);
  return w;
}

static struct totals *totals_of(const struct library *lib, const struct ration_line *line, size_t n) {
  struct ration *r = ARENA_NEW(&arena, struct ration, 1);
  struct ration_line *kept = ARENA_NEW(&arena, struct ration_line, n);
  memcpy(kept, line, n * sizeof *line);
  *r = tiny_ration(kept, n);
  return totals_gather(lib, r, 0.25, &arena);
}

static void sums_and_what_is_missing(void **state) {
  (void)state;
  struct bowl w = make_bowl();
  struct ration_line line[] = {tiny_line(w.a, 200), tiny_line(w.b, 100), tiny_line(w.c, 100)};
  struct totals *t = totals_of(w.lib, line, 3);
  assert_near(t->amount[NUT_ZINC], 8.9, 1e-6);
  /* independent foods: variances add; 8 x 0.2 and 0.9 x 0.5 */
  assert_near(sqrt(t->variance[NUT_ZINC]), sqrt(1.6 * 1.6 + 0.45 * 0.45), 1e-6);
  assert_near(t->missing_high[NUT_ZINC], 2.0, 1e-6);
  assert_near(t->missing_g[NUT_ZINC], 100, 1e-9);
  assert_near(t->eaten_g, 400, 1e-9);
}

/* Without a figure of the class the ceiling is the food's own weight, and the possible amount is not a number. */
static void no_class_figure(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  uint32_t pill = tiny_food(t, "pill", PART_SUPPLEMENT, SPREAD_SUPPLEMENT);
  tiny_unknown(t, pill, NUT_ZINC);
  tiny_unknown(t, pill, NUT_PROTEIN);
  const struct library *lib = tiny_open(t);
  struct ration_line line = tiny_line(pill, 0.4);
  struct totals *s = totals_of(lib, &line, 1);
  assert_true(isnan(s->missing_high[NUT_ZINC]));
  assert_near(totals_in_window(s, NUT_ZINC, 0, 1).missing_most, 400, 1e-9);    /* mg */
  assert_near(totals_in_window(s, NUT_PROTEIN, 0, 1).missing_most, 0.4, 1e-9); /* g */
}

static double missing_high(const struct library *lib, uint32_t food, enum nutrient n) {
  struct ration_line line = tiny_line(food, 100);
  return totals_of(lib, &line, 1)->missing_high[n];
}

/* docs/method/totals.md, "What is not known": kin stand in for a class without a figure; a supplement may hold what ordinary
 * food holds, not what a pure substance holds. */
static void kin_stand_in(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  uint32_t bone = tiny_food(t, "bone", PART_BONE, SPREAD_BONE), millet = tiny_food(t, "millet", PART_GRAIN, SPREAD_GRAIN);
  uint32_t pill = tiny_food(t, "pill", PART_SUPPLEMENT, SPREAD_SUPPLEMENT), egg = tiny_food(t, "egg", PART_EGG, SPREAD_EGG);
  uint32_t stew = tiny_food(t, "stew", PART_OTHER, SPREAD_OTHER);
  tiny_unknown(t, stew, NUT_IODINE);
  tiny_unknown(t, bone, NUT_IODINE);
  tiny_unknown(t, millet, NUT_IODINE);
  tiny_unknown(t, pill, NUT_IODINE);
  tiny_unknown(t, egg, NUT_IODINE);
  tiny_class_high(t, SPREAD_FISH, NUT_IODINE, 140);
  tiny_class_high(t, SPREAD_RED_MEAT, NUT_IODINE, 6);
  tiny_class_high(t, SPREAD_POULTRY, NUT_IODINE, 2);
  tiny_class_high(t, SPREAD_VEGETABLE, NUT_IODINE, 4);
  tiny_class_high(t, SPREAD_SUPPLEMENT, NUT_IODINE, 5e7);
  const struct library *lib = tiny_open(t);
  assert_near(missing_high(lib, bone, NUT_IODINE), 6, 1e-5);
  assert_near(missing_high(lib, millet, NUT_IODINE), 4, 1e-5);
  assert_near(missing_high(lib, egg, NUT_IODINE), 140, 1e-4);
  assert_near(missing_high(lib, pill, NUT_IODINE), 140, 1e-4);
  tiny_class_high(t, SPREAD_GRAIN, NUT_IODINE, 1);
  tiny_class_high(t, SPREAD_OTHER, NUT_IODINE, 0.1F);
  assert_near(missing_high(tiny_open(t), millet, NUT_IODINE), 1, 1e-6); /* a figure of its own wins */
  assert_near(missing_high(tiny_open(t), stew, NUT_IODINE), 140, 1e-4); /* not where the class is no kind */
  tiny_class_high(t, SPREAD_OTHER, NUT_IODINE, 300);
  assert_near(missing_high(tiny_open(t), stew, NUT_IODINE), 300, 1e-4);
}

/* No food holds more linoleic acid than fat, or more lysine than protein; without a figure for the whole the class decides.
 */
static void a_part_is_no_more_than_its_whole(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  uint32_t broth = tiny_food(t, "broth", PART_OTHER, SPREAD_OTHER), sauce = tiny_food(t, "sauce", PART_OTHER, SPREAD_OTHER);
  static const enum nutrient PARTS[] = {NUT_LINOLEIC, NUT_LYSINE};
  tiny_value(t, broth, NUT_FAT, 0.4F, 0);
  tiny_value(t, broth, NUT_PROTEIN, 0.9F, 0);
  tiny_unknown(t, sauce, NUT_FAT);
  tiny_unknown(t, sauce, NUT_PROTEIN);
  for (size_t i = 0; i < COUNT_OF(PARTS); i++) {
    tiny_unknown(t, broth, PARTS[i]);
    tiny_unknown(t, sauce, PARTS[i]);
    tiny_class_high(t, SPREAD_OTHER, PARTS[i], 20);
  }
  tiny_unknown(t, broth, NUT_TAURINE);
  tiny_class_high(t, SPREAD_OTHER, NUT_TAURINE, 2);
  const struct library *lib = tiny_open(t);
  assert_near(missing_high(lib, broth, NUT_LINOLEIC), 0.4, 1e-6);
  assert_near(missing_high(lib, broth, NUT_LYSINE), 0.9, 1e-6);
  assert_near(missing_high(lib, broth, NUT_TAURINE), 2, 1e-6); /* no part of protein */
  assert_near(missing_high(lib, sauce, NUT_LINOLEIC), 20, 1e-6);
}

static void assert_same_totals(const struct totals *p, const struct totals *q, double factor) {
  for (int n = 0; n < NUT_COUNT; n++) {
    assert_near(q->amount[n], factor * p->amount[n], 1e-9 * fabs(factor * p->amount[n]));
    assert_near(q->variance[n], factor * factor * p->variance[n], 1e-9 * factor * factor * p->variance[n]);
    assert_near(q->missing_g[n], factor * p->missing_g[n], 1e-9 * p->eaten_g * factor);
  }
}

static void scaling_scales(void **state) {
  (void)state;
  struct bowl w = make_bowl();
  struct ration_line one[] = {tiny_line(w.a, 210), tiny_line(w.b, 70), tiny_line_on(w.c, 55, 8, 1)};
  struct ration_line many[] = {tiny_line(w.a, 210 * 3.7), tiny_line(w.b, 70 * 3.7), tiny_line_on(w.c, 55 * 3.7, 8, 1)};
  assert_same_totals(totals_of(w.lib, one, 3), totals_of(w.lib, many, 3), 3.7);
}

static void order_does_not_matter(void **state) {
  (void)state;
  struct bowl w = make_bowl();
  struct ration_line p[] = {tiny_line(w.a, 210), tiny_line(w.b, 70), tiny_line_on(w.c, 55, 8, 1)};
  struct ration_line q[] = {p[2], p[0], p[1]};
  assert_same_totals(totals_of(w.lib, p, 3), totals_of(w.lib, q, 3), 1);
}

/* Ounces: 1 oz = 28.349523125 g by definition (international avoirdupois). */
static void ounces_are_grams(void **state) {
  (void)state;
  struct bowl w = make_bowl();
  struct ration_line g[] = {tiny_line(w.a, 453.59237)}, oz[] = {tiny_line(w.a, 16 * 28.349523125)};
  assert_same_totals(totals_of(w.lib, g, 1), totals_of(w.lib, oz, 1), 1);
}

/* The same food on two lines is one random variable: the spread does not shrink. */
static void two_lines_of_one_food(void **state) {
  (void)state;
  struct bowl w = make_bowl();
  struct ration_line one[] = {tiny_line(w.a, 200), tiny_line(w.b, 50)};
  struct ration_line two[] = {tiny_line(w.a, 70), tiny_line(w.b, 50), tiny_line(w.a, 130)};
  assert_same_totals(totals_of(w.lib, one, 2), totals_of(w.lib, two, 3), 1);
  /* Two foods of the same content would be surer. */
  struct totals *s = totals_of(w.lib, two, 3);
  double as_if_independent = pow(0.2 * 4 * 0.7, 2) + pow(0.2 * 4 * 1.3, 2) + pow(0.45 * 0.5, 2);
  assert_true(s->variance[NUT_ZINC] > 1.5 * as_if_independent);
}

/* Amount, retention and content are joined as a product of independent factors: (1+a^2)(1+b^2)(1+c^2) - 1, and the mean
 * is raw content x factor. */
static void retention_and_amount_join_the_spread(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  uint32_t a = tiny_food(t, "a", PART_MUSCLE, SPREAD_RED_MEAT);
  tiny_value(t, a, NUT_THIAMIN, 0.10, 0.30);
  tiny_value(t, a, NUT_FOLATE, 5, 0.10);
  int32_t simmered = tiny_retention(t);
  t->retention[simmered].mean[NUT_THIAMIN] = 0.45F; /* USDA Release 6, code 0653: beef simmered, broth discarded */
  t->retention[simmered].cv[NUT_THIAMIN] = 0.20F;
  t->retention[simmered].status[NUT_THIAMIN] = VALUE_ESTIMATED;
  t->retention[simmered].mean[NUT_FOLATE] = NAN;
  t->retention[simmered].status[NUT_FOLATE] = VALUE_UNKNOWN;
  const struct library *lib = tiny_open(t);
  struct ration_line line = tiny_line(a, 300);
  line.part[0].retention = simmered;
  line.part[0].grams_cv = 0.10;
  line.grams_fed = 230; /* on the plate: lighter, and that is the mass that counts as eaten */
  struct totals *s = totals_of(lib, &line, 1);
  assert_near(s->amount[NUT_THIAMIN], 0.135, 1e-6);
  double cv2 = (1 + 0.09) * (1 + 0.04) * (1 + 0.01) - 1;
  assert_near(s->variance[NUT_THIAMIN], cv2 * 0.135 * 0.135, 1e-8);
  assert_int_equal(s->stream[0]->status[NUT_THIAMIN], VALUE_ESTIMATED);
  /* No factor: nothing is known of what is left, except that it is not more than was there. */
  assert_near(s->amount[NUT_FOLATE], 0, 0);
  assert_near(s->missing_g[NUT_FOLATE], 230, 1e-9);
  assert_near(s->missing_high[NUT_FOLATE], 15, 1e-6);
  assert_near(s->eaten_g, 230, 1e-9);
  /* What the food holds none of, cooking leaves none of. */
  assert_near(s->missing_g[NUT_PHYTATE], 0, 0);
}

/* Carotene counts for dogs at 0.25 (833 IU a mg x 0.3 ug), for cats not at all. */
static void vitamin_a_by_species(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  uint32_t carrot = tiny_food(t, "carrot", PART_VEGETABLE, SPREAD_VEGETABLE);
  uint32_t liver = tiny_food(t, "liver", PART_ORGAN_LIVER, SPREAD_ORGAN);
  tiny_value(t, carrot, NUT_BETA_CAROTENE, 8000, 0.3);
  tiny_value(t, liver, NUT_RETINOL, 5000, 0.4);
  tiny_unknown(t, liver, NUT_BETA_CAROTENE);
  tiny_class_high(t, SPREAD_ORGAN, NUT_BETA_CAROTENE, 400);
  const struct library *lib = tiny_open(t);
  struct ration_line line[] = {tiny_line(carrot, 100), tiny_line(liver, 10)};
  struct ration r = tiny_ration(line, 2);
  struct totals *dog = totals_gather(lib, &r, 0.25, &arena), *cat = totals_gather(lib, &r, 0, &arena);
  assert_near(dog->amount[NUT_VITAMIN_A], 2000 + 500, 1e-6);
  assert_near(dog->variance[NUT_VITAMIN_A], pow(2000 * 0.3, 2) + pow(500 * 0.4, 2), 1e-3);
  /* The liver's carotene is not known: its retinol counts, and the rest is named as missing. */
  assert_near(dog->missing_g[NUT_VITAMIN_A], 10, 1e-9);
  assert_near(dog->missing_high[NUT_VITAMIN_A], 10, 1e-6);
  assert_near(cat->amount[NUT_VITAMIN_A], 500, 1e-6);
  assert_near(cat->missing_g[NUT_VITAMIN_A], 0, 0);
}

static void series_and_windows(void **state) {
  (void)state;
  struct bowl w = make_bowl();
  struct ration_line line[] = {tiny_line(w.a, 100), tiny_line_on(w.b, 200, 4, 0)};
  struct totals *t = totals_of(w.lib, line, 2);
  double day[CALENDAR_DAYS], sum = 0;
  totals_series(t, NUT_ZINC, day);
  for (int i = 0; i < CALENDAR_DAYS; i++) {
    sum += day[i];
    assert_near(day[i], line[1].fed_on[i] ? 5.8 : 4.0, 1e-6);
  }
  assert_near(sum / CALENDAR_DAYS, t->amount[NUT_ZINC], 1e-9);
  struct window_total all = totals_in_window(t, NUT_ZINC, 0, CALENDAR_DAYS), week = totals_in_window(t, NUT_ZINC, 25, 7);
  assert_near(all.amount, t->amount[NUT_ZINC], 1e-9);
  assert_near(all.cv, sqrt(t->variance[NUT_ZINC]) / t->amount[NUT_ZINC], 1e-9);
  assert_near(week.amount, 4 + 1.8 / 7, 1e-6);
  assert_near(week.cv * week.amount, hypot(4 * 0.2, 1.8 / 7 * 0.5), 1e-6);
}

/* The closed form against draws of GSL's generator that know nothing of it: a food on two lines with one shared content, a
 * cooked line with its own retention, a range for an amount, a weekly fish. */
static void spread_agrees_with_draws(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  uint32_t a = tiny_food(t, "a", PART_MUSCLE, SPREAD_RED_MEAT), b = tiny_food(t, "b", PART_FISH, SPREAD_FISH);
  tiny_value(t, a, NUT_ZINC, 4, 0.35);
  tiny_value(t, b, NUT_ZINC, 6, 0.60);
  int32_t cooked = tiny_retention(t);
  t->retention[cooked].mean[NUT_ZINC] = 0.8F;
  t->retention[cooked].cv[NUT_ZINC] = 0.25F;
  const struct library *lib = tiny_open(t);
  struct ration_line line[] = {tiny_line(a, 100), tiny_line(a, 150), tiny_line_on(b, 140, 4, 0)};
  line[1].part[0].retention = cooked;
  line[2].part[0].grams_cv = 0.2;
  struct totals *s = totals_of(lib, line, 3);
  enum { DRAWS = 200000 };
  static double draw[DRAWS];
  gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
  gsl_rng_set(rng, 4711);
#define DRAW(cv) gsl_ran_lognormal(rng, -log(1 + (cv) * (cv)) / 2, sqrt(log(1 + (cv) * (cv))))
  for (int i = 0; i < DRAWS; i++) {
    double content_a = 0.04 * DRAW(0.35), content_b = 0.06 * DRAW(0.60);
    draw[i] = content_a * 100 + content_a * 150 * 0.8 * DRAW(0.25) + content_b * 140 * DRAW(0.2) / 7;
  }
#undef DRAW
  double mean = gsl_stats_mean(draw, 1, DRAWS), sd = gsl_stats_sd(draw, 1, DRAWS);
  assert_near(s->amount[NUT_ZINC], mean, 0.01 * mean);
  assert_near(sqrt(s->variance[NUT_ZINC]), sd, 0.02 * sd);
  double cv = totals_cv(s->amount[NUT_ZINC], s->variance[NUT_ZINC]);
  int reached = 0;
  for (int i = 0; i < DRAWS; i++) reached += draw[i] >= 8;
  assert_near(lognormal_chance_at_least(s->amount[NUT_ZINC], cv, 8), (double)reached / DRAWS, 0.02);
  gsl_rng_free(rng);
}

static void nothing_in_the_bowl(void **state) {
  (void)state;
  struct bowl w = make_bowl();
  struct ration_line none = tiny_line(w.a, 0), never = tiny_line_on(w.c, 50, 0, 0);
  struct ration_line line[] = {none, never};
  struct totals *t = totals_of(w.lib, line, 2);
  assert_int_equal(t->row_count, 0);
  assert_near(t->eaten_g, 0, 0);
  assert_near(t->amount[NUT_ZINC], 0, 0);
  assert_near(t->missing_g[NUT_ZINC], 0, 0);
}

#define WITH_ARENA(f) cmocka_unit_test_setup_teardown(f, fresh, done)

int main(void) {
  const struct CMUnitTest tests[] = {
      WITH_ARENA(sums_and_what_is_missing),
      WITH_ARENA(no_class_figure),
      WITH_ARENA(kin_stand_in),
      WITH_ARENA(a_part_is_no_more_than_its_whole),
      WITH_ARENA(scaling_scales),
      WITH_ARENA(order_does_not_matter),
      WITH_ARENA(ounces_are_grams),
      WITH_ARENA(two_lines_of_one_food),
      WITH_ARENA(retention_and_amount_join_the_spread),
      WITH_ARENA(vitamin_a_by_species),
      WITH_ARENA(series_and_windows),
      WITH_ARENA(spread_agrees_with_draws),
      WITH_ARENA(nothing_in_the_bowl),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
