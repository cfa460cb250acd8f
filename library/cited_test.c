/* Cited figures: means, ranges and their carriage to other records, against the sources by hand and GSL's lognormal. */
#define _POSIX_C_SOURCE 200809L
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
/* cmocka needs the four above before it. */
#include <cmocka.h>

#include <gsl/gsl_cdf.h>

#include "built_image.h"
#include "near.h"

static struct img_value value(const char *code, enum nutrient n) {
  return library_values(built_library(), built_food(code))[n];
}

/* Quantile of the lognormal with that mean and coefficient of variation, by GSL. */
static double lognormal_quantile(double mean, double cv, double p) {
  double sigma = sqrt(log(1 + cv * cv));
  return gsl_cdf_lognormal_Pinv(p, log(mean) - sigma * sigma / 2, sigma);
}

/* Iodine of raw whole egg: CIQUAL 2020 prints 21, FSANZ AFCD 57.6 ug per 100 g. */
static void two_sources_make_a_mean_and_a_range(void **state) {
  (void)state;
  struct img_value egg = value("usda:01123", NUT_IODINE);
  assert_int_equal(egg.status, VALUE_CITED);
  assert_near(egg.mean, (21 + 57.6) / 2, 1e-4);
  double low = lognormal_quantile(egg.mean, img_cv(egg), 0.05), high = lognormal_quantile(egg.mean, img_cv(egg), 0.95);
  /* the ends of the two sources' range, whose ratio sets the spread; sampling spread may only widen it */
  assert_true(high / low >= 57.6 / 21);
  assert_true(high / low <= 2 * 57.6 / 21);
}

/* USDA/FDA/ODS Release 4: Pacific cod 130.6; CIQUAL: cod 101 ug per 100 g. Every raw cod record of SR28 carries the mean. */
static void every_record_of_a_food_carries_it(void **state) {
  (void)state;
  static const char *const COD[] = {"usda:15015", "usda:15019", "usda:15268"};
  for (size_t i = 0; i < COUNT_OF(COD); i++) assert_near(built_value(COD[i], NUT_IODINE), (130.6 + 101) / 2, 1e-4);
  assert_int_not_equal(value("usda:15045", NUT_IODINE).status, VALUE_CITED); /* lingcod is no cod */
}

/* Taurine in grams: Laidlaw 1990 and others, mussels 480.6 to 539.4 and 530.3 to 779.7 mg per 100 g. */
static void taurine_is_in_grams(void **state) {
  (void)state;
  double mussel = built_value("usda:15164", NUT_TAURINE);
  assert_true(mussel > 0.4806 && mussel < 0.7797);
  /* white meat has far less than dark, the chief point of every table of taurine */
  assert_true(built_value("usda:05098", NUT_TAURINE) > 5 * built_value("usda:05064", NUT_TAURINE));
}

/* Sodium chloride by atomic masses: 35.453 / (22.990 + 35.453) = 0.6066. */
static void salt_is_sodium_chloride(void **state) {
  (void)state;
  assert_near(built_value("usda:02047", NUT_CHLORIDE), 1e5 * 35.453 / 58.443, 300);
  /* tinned sardine: nearly all of its sodium is salt, so chloride is 35.453 / 22.990 of it */
  struct img_value sardine = value("usda:15088", NUT_CHLORIDE);
  assert_int_equal(sardine.status, VALUE_ESTIMATED);
  assert_near(sardine.mean / built_value("usda:15088", NUT_SODIUM), 1.542, 0.001);
}

/* IFCT 2017 A015, raw milled rice: 266 mg phytate and 9.93 % water; by dry matter onto the USDA's rice. */
static void phytate_goes_over_by_dry_matter(void **state) {
  (void)state;
  struct img_value rice = value("usda:20444", NUT_PHYTATE);
  assert_int_equal(rice.status, VALUE_CITED);
  assert_near(rice.mean, 266 * (100 - built_value("usda:20444", NUT_WATER)) / (100 - 9.93), 0.5);
  /* spinach: IFCT 592 mg oxalate at 90.31 % water, and a range of 320 to 1260 (Noonan and Savage 1999) */
  double oxalate = built_value("usda:11457", NUT_OXALATE);
  assert_true(oxalate > 450 && oxalate < 900);
}

/* Boiled spinach: raw by dry matter, half kept (Chai and Liebman 2005: boiling took 30 to 87 %). */
static void boiling_takes_oxalate(void **state) {
  (void)state;
  double raw = built_value("usda:11457", NUT_OXALATE), boiled = built_value("usda:11458", NUT_OXALATE);
  double dry = (100 - built_value("usda:11458", NUT_WATER)) / (100 - built_value("usda:11457", NUT_WATER));
  assert_true(boiled / (raw * dry) >= 0.13 && boiled / (raw * dry) <= 0.70);
}

/* Dishes and brands are left alone: what was put into them is not known. */
static void dishes_have_no_cited_figures(void **state) {
  (void)state;
  static const enum nutrient CITED[] = {NUT_IODINE, NUT_TAURINE, NUT_BIOTIN};
  const struct library *l = built_library();
  size_t dishes = 0;
  for (uint32_t i = 0; i < img_count(&l->image, IMG_FOODS); i++) {
    if (!(library_food(l, i)->flags & (FOOD_DISH | FOOD_BRAND))) continue;
    dishes++;
    for (size_t k = 0; k < COUNT_OF(CITED); k++) {
      int status = library_values(l, i)[CITED[k]].status;
      assert_true(status != VALUE_CITED && status != VALUE_ESTIMATED);
    }
  }
  assert_true(dishes > 3000);
}

/* Kelp has no single value: dried kelps run from 30,000 to 486,000 ug per 100 g (CIQUAL), sixteen-fold. */
static void kelp_is_a_range(void **state) {
  (void)state;
  struct img_value kelp = value("usda:11445", NUT_IODINE);
  double low = lognormal_quantile(kelp.mean, img_cv(kelp), 0.05), high = lognormal_quantile(kelp.mean, img_cv(kelp), 0.95);
  assert_true(high / low >= 16);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(two_sources_make_a_mean_and_a_range),
      cmocka_unit_test(every_record_of_a_food_carries_it),
      cmocka_unit_test(taurine_is_in_grams),
      cmocka_unit_test(salt_is_sodium_chloride),
      cmocka_unit_test(phytate_goes_over_by_dry_matter),
      cmocka_unit_test(boiling_takes_oxalate),
      cmocka_unit_test(dishes_have_no_cited_figures),
      cmocka_unit_test(kelp_is_a_range),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
