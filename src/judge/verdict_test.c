#include "judge/verdict.h"

#include <gsl/gsl_cdf.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

static const double NONE = NAN;

static struct supply amount(double x, double cv) { return (struct supply){x, cv, x, x, cv, x}; }
static struct judgement judge(double minimum, double allowance, double upper, struct supply s) {
  struct limits l = {minimum, allowance, upper, false};
  return verdict_of(&l, &s, 0.75);
}

/* The words and their meaning: docs/method/verdicts.md, which repeats the table of the interface. */
static void words_by_the_table(void **state) {
  (void)state;
  assert_int_equal(judge(NONE, NONE, NONE, amount(5, 0.1)).verdict, VERDICT_NO_FIGURE);
  assert_int_equal(judge(8, 10, NONE, amount(7.9, 0)).verdict, VERDICT_SHORT);
  assert_int_equal(judge(8, 10, NONE, amount(8, 0)).verdict, VERDICT_THIN);
  assert_int_equal(judge(NONE, 10, NONE, amount(6.99, 0)).verdict, VERDICT_SHORT);
  assert_int_equal(judge(NONE, 10, NONE, amount(7, 0)).verdict, VERDICT_THIN);
  assert_int_equal(judge(8, 10, NONE, amount(10, 0)).verdict, VERDICT_MET);
  assert_int_equal(judge(8, 10, NONE, amount(10, 0.2)).verdict, VERDICT_THIN);
  assert_int_equal(judge(8, 10, 20, amount(20.1, 0)).verdict, VERDICT_OVER);
  assert_int_equal(judge(NONE, NONE, 20, amount(20.1, 0)).verdict, VERDICT_OVER);
  assert_int_equal(judge(NONE, NONE, 20, amount(19, 0)).verdict, VERDICT_NO_FIGURE);
}

/* "met" begins where GSL's lognormal gives three chances in four. */
static void met_begins_at_the_confidence(void **state) {
  (void)state;
  double cv = 0.25, sigma = sqrt(log(1 + cv * cv));
  double mean = 10 / gsl_cdf_lognormal_Pinv(0.25, -sigma * sigma / 2, sigma);
  assert_int_equal(judge(8, 10, NONE, amount(mean * 1.0001, cv)).verdict, VERDICT_MET);
  assert_int_equal(judge(8, 10, NONE, amount(mean * 0.9999, cv)).verdict, VERDICT_THIN);
}

static void near_the_limit_is_thin(void **state) {
  (void)state;
  struct judgement j = judge(8, 10, 20, amount(19, 0.3));
  assert_int_equal(j.verdict, VERDICT_THIN);
  assert_true(j.near_upper && j.chance_kept < 0.75 && j.chance_met > 0.75);
  j = judge(8, 10, 40, amount(19, 0.3));
  assert_int_equal(j.verdict, VERDICT_MET);
  assert_false(j.near_upper);
}

static void highest_tested_warns_until_it_is_nearly_certain(void **state) {
  (void)state;
  struct limits l = {8, 10, 20, true};
  struct supply s = amount(22, 0.2);
  struct judgement j = verdict_of(&l, &s, 0.75);
  assert_int_equal(j.verdict, VERDICT_THIN); /* rather above it than not: never "met" */
  assert_true(j.near_upper && j.close_to_limit);
  s = amount(19, 0.2);
  assert_int_equal(verdict_of(&l, &s, 0.75).verdict, VERDICT_MET); /* below it, with a warning */
  assert_true(verdict_of(&l, &s, 0.75).near_upper);
  /* with near certainty above it, it is over: even the low end of the band lies there */
  s = amount(30, 0.05);
  j = verdict_of(&l, &s, 0.75);
  assert_int_equal(j.verdict, VERDICT_OVER);
  assert_int_equal(j.rule, RULE_ABOVE_TESTED);
  assert_true(lognormal_quantile(30, 0.05, 0.05) > 20);
}

/* Unknown is never zero, and never enough. */
static void unproven_only_where_the_word_could_change(void **state) {
  (void)state;
  struct supply s = amount(5, 0.1);
  s.worst_most = 11; /* could reach the allowance */
  assert_int_equal(judge(8, 10, NONE, s).verdict, VERDICT_UNPROVEN);
  s.worst_most = 7; /* stays below even the minimum */
  assert_int_equal(judge(8, 10, NONE, s).verdict, VERDICT_SHORT);
  s.worst_most = 9; /* cannot reach the allowance, but the minimum: short or thin, nobody knows */
  assert_int_equal(judge(8, 10, NONE, s).verdict, VERDICT_UNPROVEN);
  s.worst = 8.5; /* thin with nothing more, thin with all of it */
  assert_int_equal(judge(8, 10, NONE, s).verdict, VERDICT_THIN);
  s = amount(10.5, 0.5);
  s.worst_most = 30; /* reached, but not surely: more could be there, the word stays thin */
  assert_int_equal(judge(8, 10, NONE, s).verdict, VERDICT_THIN);
}

static void missing_foods_flag_the_upper_limit_only(void **state) {
  (void)state;
  struct supply s = amount(12, 0);
  s.rich_possible = 25;
  struct judgement j = judge(8, 10, 20, s);
  assert_int_equal(j.verdict, VERDICT_MET);
  assert_true(j.near_upper);
}

static void excess_beats_shortage(void **state) {
  (void)state;
  struct supply s = amount(2, 0.1); /* poorest window */
  s.rich = s.rich_possible = 50;    /* richest window */
  assert_int_equal(judge(8, 10, 20, s).verdict, VERDICT_OVER);
}

/* Sums of the same grams in another order differ in the last bits; a limit must not fall between them. */
static void rounding_decides_nothing(void **state) {
  (void)state;
  assert_int_equal(judge(NONE, 0.3, NONE, amount(0.1 + 0.2, 0)).verdict, VERDICT_MET);
  assert_int_equal(judge(NONE, 0.1 + 0.2, NONE, amount(0.3, 0)).verdict, VERDICT_MET);
  assert_int_equal(judge(NONE, 0.1, 0.3, amount(0.1 + 0.2, 0)).verdict, VERDICT_MET);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(words_by_the_table),
      cmocka_unit_test(met_begins_at_the_confidence),
      cmocka_unit_test(near_the_limit_is_thin),
      cmocka_unit_test(highest_tested_warns_until_it_is_nearly_certain),
      cmocka_unit_test(unproven_only_where_the_word_could_change),
      cmocka_unit_test(missing_foods_flag_the_upper_limit_only),
      cmocka_unit_test(excess_beats_shortage),
      cmocka_unit_test(rounding_decides_nothing),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
