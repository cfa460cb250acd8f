#include "trend/trend.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include "unit_random.h"

#include <cmocka.h>

#include "fresh_arena.h"

enum { DAYS = 7400 };

static struct trend_weight weight[DAYS];
static struct trend_intake intake[DAYS];

/* An animal that eats 'kcal' and needs 'need' a day, weighed every 'every' days on a scale with some noise. */
static struct trend_input plain(int days, int every, double kcal, double need, double scale_sd) {
  double kg = 18;
  size_t weights = 0;
  seed = 11;
  for (int d = 0; d < days; d++) {
    if (d % every == 0) weight[weights++] = (struct trend_weight){1000 + d, kg + scale_sd * (unit_random() - 0.5) * 3.46};
    intake[d] = (struct trend_intake){1000 + d, kcal};
    kg += (kcal - need) / 7350;
  }
  return (struct trend_input){weight, weights, intake, (size_t)days, 1000 + days - 1, 28, (double)NAN,
                              7350,   7000,    7700,   0.75};
}

/* Source: arithmetic. 900 kcal eaten, 800 needed: 100 / 7350 kg a day, 95.2 g a week. */
static void a_plain_animal_is_measured(void **state) {
  (void)state;
  struct trend_input in = plain(84, 2, 900, 800, 0.05);
  const struct trend_result *r = trend_estimate(&in, &arena);
  assert_int_equal(r->lack, TREND_LACKS_NOTHING);
  assert_true(r->need.low < 800 && 800 < r->need.high && r->need.high - r->need.low < 120);
  assert_true(fabs(r->per_week.mean - 0.0952) < 0.05 && r->chance_loss < 0.05);
  assert_true(fabs(r->weight.mean - (18 + 83 * 100 / 7350.0)) < 0.1);
  assert_true(fabs(r->recent_kcal - 900) < 1e-9 && r->recent_known == 28 && r->known_days == 84);
  assert_true(r->balance.low < 100 && 100 < r->balance.high);
  assert_int_equal(r->forecast_count, 28);
  assert_true(r->forecast[27].weight.low < 18 + 111 * 100 / 7350.0 && 18 + 111 * 100 / 7350.0 < r->forecast[27].weight.high);
  assert_true(r->forecast[27].weight.high - r->forecast[27].weight.low >
              r->forecast[0].weight.high - r->forecast[0].weight.low);
  assert_true(r->forecast[0].reading_high > r->forecast[0].weight.high);
  assert_int_equal(r->change_count, 0);
}

static void a_slip_of_the_pen_pulls_nothing(void **state) {
  (void)state;
  struct trend_input in = plain(84, 3, 850, 850, 0.06);
  struct trend_band before = trend_estimate(&in, &arena)->need;
  weight[14].kg = 182;
  weight[20].kg = 8.1;
  const struct trend_result *r = trend_estimate(&in, &arena);
  assert_true(fabs(r->need.mean - before.mean) < 0.01 * before.mean);
  for (size_t i = 0; i < r->reading_count; i++) assert_int_equal(r->reading[i].outlier, i == 14 || i == 20);
  assert_true(r->reading[14].trust < 0.01 && r->reading[0].trust > 0.1);
}

/* Another scale: the readings step, the animal does not. The need is what it is without the step, and the step is found
 * where and as large as it was made; what was written is told as it was written. */
static void a_step_of_the_scale_pulls_nothing(void **state) {
  (void)state;
  for (int size = -3; size <= 3; size++) {
    struct trend_input in = plain(98, 7, 820, 800, 0.06);
    struct trend_band without = trend_estimate(&in, &arena)->need;
    double step = size * 0.5, first = weight[0].kg;
    for (size_t i = 7; i < in.weight_count; i++) weight[i].kg += step;
    const struct trend_result *r = trend_estimate(&in, &arena);
    assert_int_equal(r->shift_count, size != 0);
    assert_true(r->reading[0].kg == first || fabs(r->reading[0].kg - first) < 1e-9);
    assert_true(r->need.low < 800 && 800 < r->need.high && fabs(r->need.mean - without.mean) < 25);
    assert_true(fabs(r->weight.mean - (18 + 97 * 20 / 7350.0 + step)) < 0.15);
    if (size == 0) continue;
    assert_true(labs(r->shift[0].after - 1049) <= 7); /* a weighing */
    assert_true(fabs(r->shift[0].kg - step) < 0.15);
    assert_true(fabs(r->day[0].weight.mean - 18) < 0.15);
  }
}

/* Twice the animal on twice the food needs twice as much. */
static void scales_with_the_animal(void **state) {
  (void)state;
  struct trend_input in = plain(70, 2, 780, 800, 0.07);
  struct trend_result one = *trend_estimate(&in, &arena);
  for (size_t i = 0; i < in.weight_count; i++) weight[i].kg *= 2;
  for (size_t i = 0; i < in.intake_count; i++) intake[i].kcal *= 2;
  struct trend_result two = *trend_estimate(&in, &arena);
  assert_true(fabs(two.need.low / one.need.low - 2) < 1e-6 && fabs(two.need.high / one.need.high - 2) < 1e-6);
  assert_true(fabs(two.per_week.mean - 2 * one.per_week.mean) < 1e-6);
}

static void unknown_days_are_not_zero(void **state) {
  (void)state;
  struct trend_input in = plain(84, 2, 800, 800, 0.05);
  struct trend_band all = trend_estimate(&in, &arena)->need;
  for (int d = 0; d < 84; d += 2) intake[d].kcal = (double)NAN;
  const struct trend_result *half = trend_estimate(&in, &arena);
  assert_true(fabs(half->need.mean - all.mean) < 0.03 * all.mean);
  assert_true(half->need.high - half->need.low > all.high - all.low);
  assert_int_equal(half->known_days, 42);
  for (int d = 0; d < 84; d++) intake[d].kcal = (double)NAN;
  const struct trend_result *none = trend_estimate(&in, &arena);
  assert_int_equal(none->lack, TREND_LACKS_INTAKE);
  assert_true(isnan(none->need.mean) && isnan(none->recent_kcal) && isnan(none->balance.low));
  assert_true(fabs(none->per_week.mean) < 0.05 && none->day_count == 84 && none->forecast_count == 28);
}

static void too_few_data_are_said(void **state) {
  (void)state;
  struct trend_input in = plain(84, 2, 800, 800, 0.05);
  in.weight_count = 0;
  assert_int_equal(trend_estimate(&in, &arena)->lack, TREND_LACKS_WEIGHTS);
  in.weight_count = 3;
  const struct trend_result *r = trend_estimate(&in, &arena);
  assert_int_equal(r->lack, TREND_LACKS_WEIGHTS);
  assert_true(isnan(r->weight.mean) && isnan(r->need.mean) && r->day_count == 0 && r->forecast_count == 0);
  in.weight_count = 5; /* eight days apart */
  assert_int_equal(trend_estimate(&in, &arena)->lack, TREND_LACKS_SPAN);
}

static void later_days_are_not_looked_at(void **state) {
  (void)state;
  struct trend_input in = plain(84, 2, 800, 800, 0.05);
  in.until -= 30;
  struct trend_result cut = *trend_estimate(&in, &arena);
  while (weight[in.weight_count - 1].day > in.until) in.weight_count--;
  in.intake_count -= 30;
  struct trend_result never = *trend_estimate(&in, &arena);
  assert_true(cut.need.mean == never.need.mean && cut.weight.low == never.weight.low);
}

/* What changed: the food, or the animal. */
static void a_change_is_noticed_and_told_apart(void **state) {
  (void)state;
  struct trend_input in = plain(112, 1, 800, 800, 0.05);
  for (int d = 56; d < 112; d++) {
    weight[d].kg += (d - 56) * -200 / 7350.0;
    intake[d].kcal = 600;
  }
  const struct trend_result *food = trend_estimate(&in, &arena);
  assert_int_equal(food->change_count, 1);
  assert_true(labs(food->change[0].day - 1056) <= 5 && !food->change[0].need_changed);
  assert_true(food->change[0].after < food->change[0].before - 0.1);
  assert_true(fabs(food->change[0].kcal_before - 800) < 30 && fabs(food->change[0].kcal_after - 600) < 30);
  for (int d = 56; d < 112; d++) intake[d].kcal = 800; /* as fat as before, and yet thinner */
  const struct trend_result *animal = trend_estimate(&in, &arena);
  assert_int_equal(animal->change_count, 1);
  assert_true(animal->change[0].need_changed);
  assert_true(animal->need.low < 1000 && 1000 < animal->need.high);
}

static void twenty_years_and_gaps(void **state) {
  (void)state;
  struct trend_input in = plain(7300, 7, 800, 800, 0.05);
  const struct trend_result *r = trend_estimate(&in, &arena);
  assert_true(r->day_count == 7300 && r->need.low < 800 && 800 < r->need.high);
  assert_true(r->day[0].weight.low < 18 && 18 < r->day[0].weight.high);
  in.until += 3650; /* ten years of silence: nothing is known any more */
  assert_int_equal(trend_estimate(&in, &arena)->lack, TREND_LACKS_WEIGHTS);
}

static int wanted(const struct trend_input *in, double share) {
  int n;
  trend_weighings_wanted(in, 7, &share, &n, 1, 500, &arena);
  return n;
}

/* More weighings are wanted for more precision, fewer when there are some already; what was asked for is reached. */
static void weighings_wanted(void **state) {
  (void)state;
  struct trend_input in = plain(84, 7, 800, 800, 0.08);
  in.until -= 70;
  int rough = wanted(&in, 0.2), fine = wanted(&in, 0.07);
  assert_true(rough >= 2 && fine > rough);
  in.until += 70;
  assert_true(wanted(&in, 0.07) < fine);
  struct trend_input more = plain(21 + 7 * fine, 7, 800, 800, 0.08);
  const struct trend_result *r = trend_estimate(&more, &arena);
  assert_true((r->need.high - r->need.low) / 2 < 0.1 * r->need.mean);
  in.weight_count = in.intake_count = 0;
  assert_true(wanted(&in, 0.07) > 3);
  /* Noises are learnt from the last two years: eighteen before them ask for no weighing more or less, and are not waited
   * for. */
  struct trend_input all = plain(7300, 7, 800, 800, 0.8), last = all;
  while (last.weight[0].day <= last.until - TREND_DAYS_LEARNT) {
    last.weight++;
    last.weight_count--;
  }
  enum { SHARES = 16 };
  double share[SHARES];
  int of_all[SHARES], of_last[SHARES], reached_all = 0, reached_last = 0;
  for (int i = 0; i < SHARES; i++) share[i] = 0.016 + 0.001 * i;
  trend_weighings_wanted(&all, 7, share, of_all, SHARES, 500, &arena);
  trend_weighings_wanted(&last, 7, share, of_last, SHARES, 500, &arena);
  for (int i = 0; i < SHARES; i++) {
    reached_all += of_all[i] == 0;
    reached_last += of_last[i] == 0;
  }
  assert_true(reached_last > 0 && reached_last < SHARES && abs(reached_all - reached_last) <= 1);
}

int main(void) {
  const struct CMUnitTest tests[] = {T(a_plain_animal_is_measured),
                                     T(a_slip_of_the_pen_pulls_nothing),
                                     T(a_step_of_the_scale_pulls_nothing),
                                     T(scales_with_the_animal),
                                     T(unknown_days_are_not_zero),
                                     T(too_few_data_are_said),
                                     T(later_days_are_not_looked_at),
                                     T(a_change_is_noticed_and_told_apart),
                                     T(twenty_years_and_gaps),
                                     T(weighings_wanted)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
