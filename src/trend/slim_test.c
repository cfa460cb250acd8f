#include "trend/slim.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "fresh_arena.h"

/* The example of docs/method/slim.md. */
static struct slim_input dog(void) {
  return (struct slim_input){.weight_kg = 33,
                             .ideal_kg = 29,
                             .start_share = 0.1,
                             .need = {900, 850, 950},
                             .floor_kcal = 660,
                             .rate_low = 0.01,
                             .rate_aim = 0.015,
                             .rate_high = 0.02,
                             .tissue_kcal = 7350,
                             .tissue_low = 7000,
                             .tissue_high = 7700,
                             .metabolic_exponent = 0.75,
                             .days_told = SLIM_DAYS_MOST,
                             .every_days = 14,
                             .round_kcal = 5};
}

/* Source: arithmetic on paper. 14 days at 780: 14 x 120 / 7350 = 0.229 kg at most; then 240 / 7350 x 7 = 0.23 kg a week. */
static void the_floor_holds(void **state) {
  (void)state;
  struct slim_input in = dog();
  struct slim_plan p = slim_plan_for(&in, &arena);
  assert_int_equal(p.status, SLIM_FOUND);
  assert_true(p.step[0].kcal == 780 && p.step[1].kcal == 660 && p.step[1].day == 14 && p.at_floor && p.lowest_kcal == 660);
  assert_true(fabs(p.weighing[1].weight.mean - (33 - 0.229)) < 0.005);
  assert_true(fabs(p.per_week - 0.007) < 0.0004);
  assert_true(p.reached && p.weighing[p.weighing_count - 1].weight.mean <= 29 && p.days > 7 * 4 / 0.23 && p.days < 250);
}

/* What was lost is what was saved: the sum of (need - eaten) of the likely animal is the energy of its lost tissue. */
static void steps_are_safe_and_fall(void **state) {
  (void)state;
  struct slim_input in = dog();
  in.need = (struct trend_band){1400, 1300, 1500};
  struct slim_plan p = slim_plan_for(&in, &arena);
  for (size_t i = 1; i < p.step_count; i++)
    assert_true(p.step[i].kcal < p.step[i - 1].kcal && p.step[i].day > p.step[i - 1].day);
  for (size_t i = 0; i < p.step_count; i++) assert_true(p.step[i].kcal >= in.floor_kcal && fmod(p.step[i].kcal, 5) == 0);
  assert_true(!p.at_floor && p.per_week > in.rate_low && p.per_week < in.rate_high);
  for (size_t i = 1; i < p.weighing_count; i++) {
    const struct slim_weighing *w = &p.weighing[i], *last = &p.weighing[i - 1];
    assert_true(w->weight.low < w->weight.mean && w->weight.mean < w->weight.high);
    assert_true(1 - w->weight.mean / last->weight.mean < in.rate_high * (w->day - last->day) / 7.0);
    assert_true(w->too_light < w->weight.mean);
    /* whoever loses all the time at the middle of what is safe is never too light */
    double middle = 1 - (in.rate_low + in.rate_high) / 2;
    assert_true(w->too_light < p.weighing[0].weight.mean * pow(middle, w->day / 7.0));
    assert_true(w->day - last->day == 14 || i + 1 == p.weighing_count);
  }
}

static void who_needs_none_gets_none(void **state) {
  (void)state;
  struct slim_input in = dog();
  in.weight_kg = 29.4;
  assert_int_equal(slim_plan_for(&in, &arena).status, SLIM_NOT_NEEDED);
  in.weight_kg = 29.9; /* 3 % */
  assert_int_equal(slim_plan_for(&in, &arena).status, SLIM_LITTLE);
  in.weight_kg = 31.8;
  assert_int_equal(slim_plan_for(&in, &arena).status, SLIM_LITTLE);
  in.heavy_before = true; /* on its way down: the plan goes on to the ideal weight */
  assert_int_equal(slim_plan_for(&in, &arena).status, SLIM_FOUND);
  in.heavy_before = false;
  in.weight_kg = in.ideal_kg * 1.1; /* as condition 6 of 9 makes it */
  assert_int_equal(slim_plan_for(&in, &arena).status, SLIM_FOUND);
  in = dog();
  in.need = (struct trend_band){640, 600, 680};
  struct slim_plan p = slim_plan_for(&in, &arena);
  assert_int_equal(p.status, SLIM_NO_ROOM);
  assert_true(p.step_count == 0 && isnan(p.lowest_kcal));
  in.need.mean = (double)NAN;
  assert_int_equal(slim_plan_for(&in, &arena).status, SLIM_NO_ROOM);
}

static void a_guess_is_not_told_for_long(void **state) {
  (void)state;
  struct slim_input in = dog();
  in.days_told = 56;
  struct slim_plan p = slim_plan_for(&in, &arena);
  assert_true(p.weighing_count == 5 && p.weighing[4].day == 56 && p.days > 56);
}

/* One weight is not both to be expected and too light: a cat whose need nobody knows well (181 kcal, 91 to 272). */
static void the_band_ends_where_it_is_too_light(void **state) {
  (void)state;
  struct slim_input in = dog();
  in.weight_kg = 6;
  in.ideal_kg = 4.62;
  in.need = (struct trend_band){181, 91, 272};
  in.floor_kcal = 154;
  in.rate_low = 0.005;
  in.rate_aim = 0.0075;
  in.rate_high = 0.01;
  in.metabolic_exponent = 0.67;
  in.every_days = 7;
  in.round_kcal = 1;
  struct slim_plan p = slim_plan_for(&in, &arena);
  assert_true(p.weighing_count > 8);
  /* the first week's safest, by hand: 6 kg less 1 % */
  assert_true(fabs(p.weighing[1].weight.low - 5.94) < 0.001);
  for (size_t i = 1; i < p.weighing_count; i++) {
    const struct slim_weighing *w = &p.weighing[i];
    assert_true(w->weight.low >= w->too_light && w->weight.low <= w->weight.mean && w->weight.high > w->weight.mean);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {T(the_floor_holds), T(steps_are_safe_and_fall), T(who_needs_none_gets_none),
                                     T(a_guess_is_not_told_for_long), T(the_band_ends_where_it_is_too_light)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
