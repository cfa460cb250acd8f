/* Units: definitions of mass and volume, international units, words. The source of each figure stands beside it. */
#include "foods/unit.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>

#include <cmocka.h>

static void assert_near(double got, double want, double relative) {
  if (!(fabs(got - want) <= relative * fabs(want))) fail_msg("got %.12g, want %.12g", got, want);
}

static enum unit unit(const char *word) { return unit_by_word(span_of(word)); }

static void masses(void **state) {
  (void)state;
  assert_near(unit_convert(1, UNIT_LB), 453.59237, 1e-12);    /* exact: international pound of 1959, NIST SP 811 App. B */
  assert_near(unit_convert(1, UNIT_OZ), 28.349523125, 1e-12); /* exact, NIST SP 811 App. B */
  assert_near(unit_convert(4.4, UNIT_OZ), 124.738, 1e-5);     /* 4.4 oz on a can: printed as 125 g */
  assert_near(unit_convert(16, UNIT_OZ), unit_convert(1, UNIT_LB), 1e-12);
  assert_near(unit_convert(2.5, UNIT_KG), 2500, 1e-12);
  assert_near(unit_convert(250, UNIT_UG), 0.00025, 1e-12);
  assert_near(unit_convert(250, UNIT_MG), 0.25, 1e-12);
}

static void volumes(void **state) {
  (void)state;
  /* US customary measures, NIST Handbook 44 Appendix C: printed to five figures */
  assert_near(unit_convert(1, UNIT_TSP), 4.92892, 1e-5);
  assert_near(unit_convert(1, UNIT_TBSP), 14.7868, 1e-5);
  assert_near(unit_convert(1, UNIT_CUP), 236.588, 1e-5);
  assert_near(unit_convert(1, UNIT_FL_OZ), 29.5735, 1e-5);
  assert_near(unit_convert(1, UNIT_FL_OZ), 1.8046875 * 2.54 * 2.54 * 2.54, 1e-12); /* 231/128 cubic inches of 2.54 cm */
  assert_near(unit_convert(48, UNIT_TSP), unit_convert(1, UNIT_CUP), 1e-12);
  assert_near(unit_convert(16, UNIT_PINCH), unit_convert(1, UNIT_TSP), 1e-12); /* common practice */
  assert_near(unit_convert(0.5, UNIT_L), 500, 1e-12);
}

static void nothing_else_has_grams(void **state) {
  (void)state;
  for (enum unit u = UNIT_EACH; u < UNIT_COUNT; u++) assert_true(isnan(unit_convert(1, u)));
  assert_true(isnan(unit_convert(1, UNIT_NONE)));
  assert_true(isnan(unit_convert(1, UNIT_COUNT)));
  assert_true(isnan(unit_convert((double)NAN, UNIT_G)));
}

static void every_unit_has_a_word_that_reads_back(void **state) {
  (void)state;
  for (enum unit u = UNIT_NONE + 1; u < UNIT_COUNT; u++) {
    assert_non_null(unit_info[u].word);
    assert_true(unit_info[u].factor > 0);
    assert_int_equal(unit(unit_info[u].word), u);
  }
}

static void words(void **state) {
  (void)state;
  assert_int_equal(unit("Grams"), UNIT_G);
  assert_int_equal(unit("TBSP"), UNIT_TBSP);
  assert_int_equal(unit("tablespoons"), UNIT_TBSP);
  assert_int_equal(unit("tsp."), UNIT_TSP);
  assert_int_equal(unit("fl oz"), UNIT_FL_OZ);
  assert_int_equal(unit("\xC2\xB5g"), UNIT_UG); /* U+00B5 */
  assert_int_equal(unit("\xCE\xBCg"), UNIT_UG); /* U+03BC, what some keyboards give */
  assert_int_equal(unit("mcg"), UNIT_UG);
  assert_int_equal(unit("iu"), UNIT_IU);
  assert_int_equal(unit("lamb"), UNIT_NONE);
  assert_int_equal(unit(""), UNIT_NONE);
  assert_int_equal(unit("."), UNIT_NONE);
  assert_int_equal(unit("gg"), UNIT_NONE);
}

static void nearest(void **state) {
  (void)state;
  assert_string_equal(unit_nearest(SPAN_LIT("tbs")), "tbsp");
  assert_string_equal(unit_nearest(SPAN_LIT("tabelspoon")), "tablespoon");
  assert_string_equal(unit_nearest(SPAN_LIT("capsul")), "capsule");
  assert_null(unit_nearest(SPAN_LIT("salmon")));
  assert_null(unit_nearest(SPAN_LIT("x")));
  assert_null(unit_nearest(SPAN_LIT("")));
}

static void international_units(void **state) {
  (void)state;
  /* NRC 2006 (from memory) and the definitions of the international units */
  assert_near(unit_nutrient_amount(1, UNIT_IU, NUT_VITAMIN_A, false), 0.3, 1e-12);
  assert_near(unit_nutrient_amount(1000, UNIT_IU, NUT_RETINOL, false), 300, 1e-12);
  assert_near(unit_nutrient_amount(400, UNIT_IU, NUT_VITAMIN_D, false), 10, 1e-12); /* every label prints 400 IU as 10 ug */
  assert_near(unit_nutrient_amount(1, UNIT_IU, NUT_VITAMIN_E, true), 0.67, 1e-12);
  /* US labelling since 2016: synthetic 0.45 mg an IU, natural 0.67 mg (22.4 IU is the old daily value of 15 mg) */
  assert_near(unit_nutrient_amount(22.4, UNIT_IU, NUT_VITAMIN_E, true), 15, 1e-3);
  assert_near(unit_nutrient_amount(33.3, UNIT_IU, NUT_VITAMIN_E, false), 15, 2e-3);
  /* the old unit counted 1 IU as 0.6 ug beta-carotene in people */
  assert_near(unit_nutrient_amount(5000, UNIT_IU, NUT_BETA_CAROTENE, false), 3000, 1e-12);
  /* AAFCO cat maxima 83325 IU A and 7520 IU D are the NRC upper limits of 25000 and 188 ug */
  assert_near(unit_nutrient_amount(83325, UNIT_IU, NUT_VITAMIN_A, false), 25000, 2e-4);
  assert_near(unit_nutrient_amount(7520, UNIT_IU, NUT_VITAMIN_D, false), 188, 1e-12);
  assert_true(isnan(unit_nutrient_amount(10, UNIT_IU, NUT_ZINC, false)));
}

static void nutrient_amounts(void **state) {
  (void)state;
  assert_true(unit_nutrient_amount(15, UNIT_MG, NUT_ZINC, false) == 15);
  assert_near(unit_nutrient_amount(0.9, UNIT_G, NUT_CALCIUM, false), 900, 1e-12);
  assert_near(unit_nutrient_amount(0.054, UNIT_MG, NUT_VITAMIN_K, false), 54, 1e-12);
  assert_near(unit_nutrient_amount(500, UNIT_MG, NUT_TAURINE, false), 0.5, 1e-12);
  assert_near(unit_nutrient_amount(1, UNIT_OZ, NUT_PROTEIN, false), 28.349523125, 1e-12);
  /* a spoon is no mass, and calories are no grams */
  assert_true(isnan(unit_nutrient_amount(1, UNIT_TSP, NUT_ZINC, false)));
  assert_true(isnan(unit_nutrient_amount(1, UNIT_CAPSULE, NUT_ZINC, false)));
  assert_true(isnan(unit_nutrient_amount(1, UNIT_G, NUT_ENERGY, false)));
  assert_true(isnan(unit_nutrient_amount(1, UNIT_G, NUT_NONE, false)));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(masses),
      cmocka_unit_test(volumes),
      cmocka_unit_test(nothing_else_has_grams),
      cmocka_unit_test(every_unit_has_a_word_that_reads_back),
      cmocka_unit_test(words),
      cmocka_unit_test(nearest),
      cmocka_unit_test(international_units),
      cmocka_unit_test(nutrient_amounts),
  };
  return cmocka_run_group_tests_name("unit", tests, NULL, NULL);
}
