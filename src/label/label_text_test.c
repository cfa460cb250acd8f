/* Amounts of labels against published definitions; what words mean is held by tests/cases. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

#include "label/label_text.h"
#include "tests/support/near.h"

static struct diags d;
static struct own_food *foods;
static size_t count;

static bool read(const char *text) {
  diags_init(&d, &arena, "t", span_of(text));
  return label_read(span_of(text), NULL, &d, &foods, &count, &arena);
}

static double value(enum nutrient n) { return (double)foods[0].value[n].mean; }

/* One IU is 0.3 ug retinol, 0.025 ug cholecalciferol, 0.67 mg d-alpha-tocopherol (National Research Council 2006). */
static void international_units(void **state) {
  (void)state;
  assert_true(read("Food: A\nPer: 100 g\nVitamin A: 1000 IU\nVitamin D: 1000 IU\nVitamin E: 100 IU natural\n"));
  assert_near(value(NUT_RETINOL), 300, 1e-3);
  assert_near(value(NUT_VITAMIN_D), 25, 1e-4);
  assert_near(value(NUT_VITAMIN_E), 67, 1e-3);
}

/* One kilocalorie is 4.184 kJ (thermochemical). */
static void energy_in_joules(void **state) {
  (void)state;
  assert_true(read("Food: A\nPer: 100 g\nEnergy: 418.4 kJ\n"));
  assert_near(value(NUT_ENERGY), 100, 1e-4);
}

static void what_is_not_stated_is_unknown(void **state) {
  (void)state;
  assert_true(read("Food: A\nPer: 1 tablet (0.4 g)\nZinc: 15 mg\nCopper: 0 mg\n"));
  for (int i = 0; i < NUT_COUNT; i++) {
    bool stated = i == NUT_ZINC || i == NUT_COPPER;
    assert_int_equal(foods[0].value[i].status, stated ? VALUE_CITED : VALUE_UNKNOWN);
    assert_int_equal(isnan(value((enum nutrient)i)) != 0, !stated);
  }
  assert_near(value(NUT_COPPER), 0, 0);
  assert_near(value(NUT_ZINC) * foods[0].unit_g / 100, 15, 1e-5);
}

static void a_piece_without_weight(void **state) {
  (void)state;
  assert_true(read("Food: A\nPer: 2 capsules\nZinc: 30 mg\n"));
  assert_true(isnan(foods[0].unit_g));
  assert_string_equal(foods[0].unit_word, "capsule");
  assert_near(value(NUT_ZINC) * LABEL_PIECE_G / 100, 15, 1e-5);
}

static void no_negative_and_no_infinite_amounts(void **state) {
  (void)state;
  assert_false(read("Food: A\nPer: 100 g\nZinc: -1 mg\n"));
  assert_false(read("Food: A\nPer: 100 g\nZinc: inf mg\n"));
  assert_false(read("Food: A\nPer: 100 g\nZinc: nan mg\n"));
  assert_false(read("Food: A\nPer: 0 g\nZinc: 1 mg\n"));
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(international_units), cmocka_unit_test(energy_in_joules),
                                     cmocka_unit_test(what_is_not_stated_is_unknown),
                                     cmocka_unit_test(a_piece_without_weight),
                                     cmocka_unit_test(no_negative_and_no_infinite_amounts)};
  return cmocka_run_group_tests(tests, fresh, done);
}
