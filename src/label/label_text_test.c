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

/* 26 % protein, 14 fat, 7 ash, 3 fibre, 8 water: 42 % nitrogen-free extract (proximate analysis), which with the fibre is
 * 45. The spread is that of the four figures: sqrt(2.6^2 + 1.4^2 + 0.7^2 + 0.8^2) = 3.14, 7 % of 45. */
static void carbohydrate_is_what_is_left(void **state) {
  (void)state;
  static const char LABEL[] = "Protein: 26 g\nFat: 14 g\nAsh: 7 g\nWater: 8 g\n";
  static const struct {
    const char *per, *more;
    double carbohydrate;
  } SAID[] = {{"100 g", "Fibre: 3 g\n", 45},
              {"1 cup (100 g)", "Fibre: 3 g\n", 45},
              {"100 g", "", NAN}, /* crude fibre may be part of what is left, and nobody says how much */
              {"2 capsules", "Fibre: 3 g\n", NAN},
              {"100 g", "Fibre: 3 g\nEnergy: 360 kcal\n", NAN}, /* that goes before it */
              {"100 g", "Fibre: 3 g\nCarbohydrate: 40 g\n", 40},
              {"100 g", "Fibre: 46 g\n", 46},
              {"100 g", "Fibre: 48 g\n", NAN}};
  for (size_t i = 0; i < COUNT_OF(SAID); i++) {
    struct buf b;
    buf_init(&b, &arena, 1024);
    buf_addf(&b, "Food: A\nPer: %s\n%s%s", SAID[i].per, LABEL, SAID[i].more);
    assert_true(read(buf_text(&b)));
    if (isnan(SAID[i].carbohydrate))
      assert_int_equal(foods[0].value[NUT_CARBOHYDRATE].status, VALUE_UNKNOWN);
    else
      assert_near(value(NUT_CARBOHYDRATE), SAID[i].carbohydrate, 1e-4);
  }
  assert_true(read("Food: A\nPer: 100 g\nProtein: 26 g\nFat: 14 g\nAsh: 7 g\nFibre: 3 g\n"));
  assert_int_equal(foods[0].value[NUT_CARBOHYDRATE].status, VALUE_UNKNOWN);
  assert_true(read("Food: A\nPer: 100 g\nProtein: 26 g\nFat: 14 g\nAsh: 7 g\nFibre: 3 g\nWater: 8 g\n"));
  assert_int_equal(foods[0].value[NUT_CARBOHYDRATE].status, VALUE_ESTIMATED);
  assert_int_equal(foods[0].value[NUT_CARBOHYDRATE].cv_code, 7);
}

static void no_negative_and_no_infinite_amounts(void **state) {
  (void)state;
  assert_false(read("Food: A\nPer: 100 g\nZinc: -1 mg\n"));
  assert_false(read("Food: A\nPer: 100 g\nZinc: inf mg\n"));
  assert_false(read("Food: A\nPer: 100 g\nZinc: nan mg\n"));
  assert_false(read("Food: A\nPer: 0 g\nZinc: 1 mg\n"));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(international_units),           cmocka_unit_test(energy_in_joules),
      cmocka_unit_test(what_is_not_stated_is_unknown), cmocka_unit_test(a_piece_without_weight),
      cmocka_unit_test(carbohydrate_is_what_is_left),  cmocka_unit_test(no_negative_and_no_infinite_amounts)};
  return cmocka_run_group_tests(tests, fresh, done);
}
