#include "judge/stats.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <gsl/gsl_statistics_double.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include "judge/check.h"
#include "judge/elementary.h"

#include <cmocka.h>

/* Source: GSL's gsl_cdf_ugaussian_P and _Pinv, an independent implementation. */
static void normal_agrees_with_gsl(void **state) {
  (void)state;
  for (double z = -8; z <= 8; z += 0.125) {
    double want = gsl_cdf_ugaussian_P(z);
    assert_true(fabs(normal_cdf(z) - want) <= 1e-14 + 1e-12 * want);
  }
  for (double p = 0.001; p < 0.9995; p += 0.001) assert_true(fabs(normal_quantile(p) - gsl_cdf_ugaussian_Pinv(p)) < 1e-12);
  assert_true(fabs(normal_quantile(1e-9) - gsl_cdf_ugaussian_Pinv(1e-9)) < 1e-9);
  assert_true(fabs(NORMAL_95 - gsl_cdf_ugaussian_Pinv(0.95)) < 4e-15 && fabs(NORMAL_95 - normal_quantile(0.95)) < 4e-15);
  assert_true(normal_quantile(0) == -INFINITY && normal_quantile(1) == (double)INFINITY);
  assert_true(isnan(normal_quantile(-0.1)) && isnan(normal_quantile(1.1)) && isnan(normal_quantile((double)NAN)));
}

static bool near(double got, double want, double ulps) {
  return fabs(got - want) <= ulps * (nextafter(fabs(want), INFINITY) - fabs(want));
}

/* Source: the C library's functions, right within one unit of the last place. */
static void elementary_agrees_with_the_c_library(void **state) {
  (void)state;
  for (double x = 1e-12; x < 1e12; x *= 1.0037) {
    assert_true(near(elementary_ln(x), log(x), 2));
    assert_true(near(elementary_ln_1_plus(x), log1p(x), 3));
  }
  for (double x = 0.7; x < 1.45; x += 0.00013) assert_true(near(elementary_ln(x), log(x), 2));
  for (double x = -740; x < 700; x += 0.0937) assert_true(near(elementary_exp(x, 0), exp(x), 2));
  for (double x = -1; x < 1; x += 0.00017) assert_true(near(elementary_exp(x, 0), exp(x), 2));
  for (double x = -6.5; x < 27; x += 0.00213) assert_true(near(elementary_erfc(x), erfc(x), 6));
  assert_true(elementary_exp(-1000, 0) == 0 && elementary_erfc(28) == 0 && elementary_erfc(1e9) == 0);
  assert_true(elementary_erfc(-10) == 2 && elementary_ln(1) == 0 && elementary_exp(0, 0) == 1);
  assert_true(isnan(elementary_exp((double)NAN, 0)) && isnan(elementary_erfc((double)NAN)));
  assert_true(isnan(elementary_ln_1_plus((double)NAN)));
}

static bool same(double a, double b) { return a == b || (isnan(a) && isnan(b)); }

static void many_at_once_are_each_alone(void **state) {
  (void)state;
  double mean[NUT_ROOM] = {0}, variance[NUT_ROOM] = {0};
  struct lognormal_bands bands;
  static struct chance_list list;
  const double odd[] = {0, 1, 5, -1, (double)NAN};
  for (int n = 0; n < NUT_COUNT; n++) {
    mean[n] = n < 3 ? 0 : 0.01 * pow(1.3, n);
    variance[n] = n % 5 == 0 ? 0 : pow(mean[n] * 0.07 * n, 2);
  }
  lognormal_bands(mean, variance, &bands);
  for (int n = 0; n < NUT_COUNT; n++) {
    double cv = mean[n] > 0 ? sqrt(variance[n]) / mean[n] : 0;
    assert_true(bands.cv[n] == cv && bands.sigma2[n] == lognormal_sigma2(cv));
    assert_true(bands.low[n] == lognormal_at(mean[n], cv, -NORMAL_95));
    assert_true(bands.high[n] == lognormal_at(mean[n], cv, NORMAL_95));
    chance_list_add(&list, mean[n], bands.sigma2[n], mean[(n * 7) % NUT_COUNT]);
  }
  for (size_t i = 0; i < COUNT_OF(odd) * COUNT_OF(odd) * COUNT_OF(odd); i++)
    chance_list_add(&list, odd[i % 5], odd[i / 5 % 5], odd[i / 25]);
  lognormal_chances(&list);
  for (size_t i = 0; i < list.count; i++)
    assert_true(same(list.chance[i], lognormal_chance_with(list.mean[i], list.sigma2[i], list.x[i])));
}

/* Source: GSL's lognormal distribution; parameters from mean and CV by the usual moment formulas. */
static void lognormal_agrees_with_gsl(void **state) {
  (void)state;
  static const double CV[] = {0.05, 0.3, 1.0, 2.5};
  for (size_t i = 0; i < COUNT_OF(CV); i++) {
    double mean = 12.5, sigma = sqrt(log(1 + CV[i] * CV[i])), zeta = log(mean) - sigma * sigma / 2;
    for (double x = 0.5; x < 60; x *= 1.3)
      assert_true(fabs(lognormal_chance_at_least(mean, CV[i], x) - gsl_cdf_lognormal_Q(x, zeta, sigma)) < 1e-12);
    for (double p = 0.01; p < 1; p += 0.07) {
      double want = gsl_cdf_lognormal_Pinv(p, zeta, sigma);
      assert_true(fabs(lognormal_quantile(mean, CV[i], p) - want) < 1e-9 * want);
    }
  }
}

static void edges_are_certain(void **state) {
  (void)state;
  assert_true(lognormal_chance_at_least(0, 0.3, 1) == 0);
  assert_true(lognormal_chance_at_least(0, 0, 0) == 1);
  assert_true(lognormal_chance_at_least(5, 0, 5) == 1);
  assert_true(lognormal_chance_at_least(5, 0, 5.001) == 0);
  assert_true(lognormal_quantile(0, 0.5, 0.95) == 0);
  assert_true(lognormal_quantile(7, 0, 0.95) == 7);
  assert_true(isnan(lognormal_chance_at_least((double)NAN, 0.1, 1)) &&
              isnan(lognormal_chance_at_least(1, 0.1, (double)NAN)));
}

/* A sum of independent lognormals against draws of GSL's generator: chance and percentiles of the matched lognormal.
 * The matched law is an approximation (Fenton's); two points of probability is what it is
 * worth for sums of foods with the spreads of the table. */
static void matched_moments_agree_with_draws(void **state) {
  (void)state;
  static const struct {
    double mean[5], cv[5];
  } CASES[] = {{{4, 3, 2, 1, 0.5}, {0.1, 0.2, 0.3, 0.5, 0.8}},
               {{6, 1, 0.5, 0.2, 0.1}, {0.35, 0.35, 0.5, 1.0, 1.5}},
               {{1, 1, 1, 1, 1}, {0.6, 0.6, 0.6, 0.6, 0.6}}};
  enum { DRAWS = 200000 };
  static double draw[DRAWS];
  gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
  gsl_rng_set(rng, 20261);
  for (size_t c = 0; c < COUNT_OF(CASES); c++) {
    double mean = 0, variance = 0;
    for (int k = 0; k < 5; k++) {
      mean += CASES[c].mean[k];
      variance += pow(CASES[c].mean[k] * CASES[c].cv[k], 2);
    }
    double cv = sqrt(variance) / mean;
    for (int i = 0; i < DRAWS; i++) {
      draw[i] = 0;
      for (int k = 0; k < 5; k++) {
        double sigma = sqrt(log(1 + CASES[c].cv[k] * CASES[c].cv[k]));
        draw[i] += gsl_ran_lognormal(rng, log(CASES[c].mean[k]) - sigma * sigma / 2, sigma);
      }
    }
    assert_true(fabs(gsl_stats_mean(draw, 1, DRAWS) - mean) < 0.01 * mean);
    for (double share = 0.6; share < 1.6; share += 0.2) {
      int reached = 0;
      for (int i = 0; i < DRAWS; i++) reached += draw[i] >= share * mean;
      assert_true(fabs(lognormal_chance_at_least(mean, cv, share * mean) - (double)reached / DRAWS) < 0.02);
    }
    int below5 = 0, below95 = 0;
    double q5 = lognormal_quantile(mean, cv, 0.05), q95 = lognormal_quantile(mean, cv, 0.95);
    for (int i = 0; i < DRAWS; i++) {
      below5 += draw[i] < q5;
      below95 += draw[i] < q95;
    }
    assert_true(fabs((double)below5 / DRAWS - 0.05) < 0.02);
    assert_true(fabs((double)below95 / DRAWS - 0.95) < 0.02);
  }
  gsl_rng_free(rng);
}

/* Source: the exact variance of a product of independent variables (Goodman 1960), checked by draws. */
static void product_spread_agrees_with_draws(void **state) {
  (void)state;
  enum { DRAWS = 400000 };
  static double draw[DRAWS];
  gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
  gsl_rng_set(rng, 7);
  double a = 0.3, b = 0.5, sa = sqrt(log(1 + a * a)), sb = sqrt(log(1 + b * b));
  for (int i = 0; i < DRAWS; i++)
    draw[i] = gsl_ran_lognormal(rng, -sa * sa / 2, sa) * gsl_ran_lognormal(rng, -sb * sb / 2, sb);
  double cv = gsl_stats_sd(draw, 1, DRAWS) / gsl_stats_mean(draw, 1, DRAWS);
  assert_true(fabs(cv * cv - cv2_of_product(a * a, b * b)) < 0.01);
  gsl_rng_free(rng);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(normal_agrees_with_gsl),
      cmocka_unit_test(elementary_agrees_with_the_c_library),
      cmocka_unit_test(many_at_once_are_each_alone),
      cmocka_unit_test(lognormal_agrees_with_gsl),
      cmocka_unit_test(edges_are_certain),
      cmocka_unit_test(matched_moments_agree_with_draws),
      cmocka_unit_test(product_spread_agrees_with_draws),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
