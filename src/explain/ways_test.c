/* Ways of cooking, and the bulk of a bowl. Outside figures: USDA retention factors Release 6 and cup weights of USDA SR28.
 */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

#include "explain/ways.h"
#include "tests/support/built_image.h"
#include "tests/support/near.h"
#include "tests/support/tiny_image.h"

static const struct check_result *check(const struct ration *ration) {
  struct animal *dog = ARENA_NEW(&arena, struct animal, 1);
  *dog = tiny_animal(SPECIES_DOG, 18);
  return check_numbers(built_library(), ration, dog, NULL, &arena);
}

/* 100 g of lean beef. USDA Table of Nutrient Retention Factors, Release 6, beef simmered: thiamin 45 % without and 60 % with
 * the drippings, zinc 100 % either way; roasted, thiamin 70 % without drippings. */
static void test_beef_loses_what_the_table_says(void **state) {
  (void)state;
  struct ration_line line = tiny_line(built_food("usda:23485"), 100);
  struct ration ration = tiny_ration(&line, 1);
  const struct cooked_way *way = ways_of(built_library(), &ration, &arena);
  const struct check_result *raw = check(&way[WAY_RAW].ration);
  double thiamin = raw->nutrient[NUT_THIAMIN].amount, zinc = raw->nutrient[NUT_ZINC].amount;
  assert_near(thiamin, built_value("usda:23485", NUT_THIAMIN), 1e-6);
  const struct check_result *drained = check(&way[WAY_DRAINED].ration), *broth = check(&way[WAY_BROTH_KEPT].ration);
  assert_near(drained->nutrient[NUT_THIAMIN].amount / thiamin, 0.45, 1e-6);
  assert_near(broth->nutrient[NUT_THIAMIN].amount / thiamin, 0.60, 1e-6);
  assert_near(broth->nutrient[NUT_ZINC].amount / zinc, 1.0, 1e-6);
  assert_true(check(&way[WAY_BAKED].ration)->nutrient[NUT_THIAMIN].amount < thiamin);
  /* FSANZ AFCD prints 0.725 to 0.80 g of simmered beef from 1 g raw. */
  assert_true(drained->energy.grams_per_day > 70 && drained->energy.grams_per_day < 82);
  assert_near(broth->energy.grams_per_day, 100, 1e-9);
  assert_true(way[WAY_DRAINED].grams_low < drained->energy.grams_per_day &&
              drained->energy.grams_per_day < way[WAY_DRAINED].grams_high);
}

static void test_what_is_left_raw(void **state) {
  (void)state;
  const struct library *lib = built_library();
  uint32_t neck = built_food("cut:duck-neck");
  struct ration_line line[4] = {tiny_line(neck, 60), tiny_line(built_food("usda:04589"), 3),
                                tiny_line(built_food("usda:20444"), 50), tiny_line(built_food("usda:20032"), 50)};
  const struct img_food *cut = library_food(lib, neck);
  line[0].part_count = 2;
  line[0].part[1] = (struct portion){cut->bone_food, 20, 0.1, -1};
  line[0].part[0].grams = 40;
  struct ration ration = tiny_ration(line, 4);
  const struct cooked_way *way = ways_of(lib, &ration, &arena);
  for (int w = 0; w < WAY_COUNT; w++) {
    assert_int_equal(way[w].line[0].left, LEFT_BONE);
    assert_int_equal(way[w].ration.line[0].part[0].retention, -1);
    assert_false(way[w].ration.line[0].cooked_bone);
    assert_int_equal(way[w].line[1].left, LEFT_AS_IT_IS);       /* cod liver oil */
    assert_int_equal(way[w].line[3].left, LEFT_COOKED_ALREADY); /* millet, published cooked */
    assert_near(way[w].ration.line[3].grams_fed, 50, 1e-9);
  }
  /* White rice takes up water: USDA SR28, 11.6 % water raw and 68.4 % cooked, so (100 - 11.6) / (100 - 68.4) = 2.8. */
  assert_near(way[WAY_DRAINED].ration.line[2].grams_fed / 50, 2.8, 0.35);
}

/* A line that was written as cooked from raw is the same raw food in all ways. */
static void test_cooked_lines_go_back_to_raw(void **state) {
  (void)state;
  struct ration_line raw = tiny_line(built_food("usda:17024"), 200);
  struct ration ration = tiny_ration(&raw, 1);
  const struct cooked_way *way = ways_of(built_library(), &ration, &arena);
  const struct cooked_way *again = ways_of(built_library(), &way[WAY_DRAINED].ration, &arena);
  for (int w = 0; w < WAY_COUNT; w++) {
    const struct check_result *a = check(&way[w].ration), *b = check(&again[w].ration);
    assert_near(b->energy.grams_per_day, a->energy.grams_per_day, 1e-9);
    for (int k = 0; k < NUT_COUNT; k++) assert_near(b->nutrient[k].amount, a->nutrient[k].amount, 1e-9);
  }
}

/* A factor that does not exist leaves the value unknown: nothing is counted, and the raw content is the most there can be.
 */
static void test_no_factor_widens_the_band(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  uint32_t food = tiny_food(t, "a", PART_MUSCLE, SPREAD_RED_MEAT);
  tiny_value(t, food, NUT_SELENIUM, 30, 0);
  tiny_value(t, food, NUT_ZINC, 4, 0);
  int32_t row = tiny_retention(t);
  t->food[food].retention_group = RETAIN_BEEF;
  t->food[food].state = STATE_RAW;
  t->retention[row].group = RETAIN_BEEF;
  t->retention[row].state = STATE_SIMMERED;
  t->retention[row].broth = 0;
  t->retention[row].mean[NUT_SELENIUM] = NAN;
  t->retention[row].status[NUT_SELENIUM] = VALUE_UNKNOWN;
  t->retention[row].mean[NUT_ZINC] = 0.5F;
  const struct library *lib = tiny_open(t);
  struct ration_line line = tiny_line(food, 100);
  struct ration ration = tiny_ration(&line, 1);
  const struct cooked_way *way = ways_of(lib, &ration, &arena);
  struct animal dog = tiny_animal(SPECIES_DOG, 10);
  const struct check_result *r = check_numbers(lib, &way[WAY_DRAINED].ration, &dog, NULL, &arena);
  assert_near(r->nutrient[NUT_ZINC].amount, 2, 1e-6);
  assert_int_equal(r->nutrient[NUT_SELENIUM].known, KNOWN_NONE);
  assert_true(isnan(r->nutrient[NUT_SELENIUM].amount));
  assert_near(r->nutrient[NUT_SELENIUM].known_share, 0, 1e-9);
  assert_near(r->nutrient[NUT_SELENIUM].possible, 30, 1e-6);
  assert_int_equal(way[WAY_DRAINED].yield_unknown, 1); /* and the weight is shown raw */
  assert_near(r->energy.grams_per_day, 100, 1e-9);
}

/* Nothing stays nothing: a line of 0 g makes no weight unknown. */
static void test_a_line_of_nothing(void **state) {
  (void)state;
  struct ration_line line[2] = {tiny_line(built_food("usda:17199"), 0), tiny_line(built_food("usda:13321"), 100)};
  struct ration both = tiny_ration(line, 2), one = tiny_ration(&line[1], 1);
  const struct cooked_way *with = ways_of(built_library(), &both, &arena), *without = ways_of(built_library(), &one, &arena);
  for (int w = 0; w < WAY_COUNT; w++) {
    assert_true(with[w].grams_low > 0 && with[w].grams_low <= with[w].grams_high);
    assert_near(with[w].grams_low, without[w].grams_low, 1e-9);
    assert_near(with[w].grams_high, without[w].grams_high, 1e-9);
  }
}

/* Cups of USDA SR28: whole milk 244 g, canola oil 218 g, honey 339 g, in 236.6 ml. */
static void test_volume(void **state) {
  (void)state;
  static const struct {
    const char *code;
    double cup;
  } CUP[] = {{"usda:01077", 244}, {"usda:04582", 218}, {"usda:19296", 339}};
  for (size_t i = 0; i < COUNT_OF(CUP); i++) {
    struct ration_line line = tiny_line(built_food(CUP[i].code), CUP[i].cup);
    struct ration ration = tiny_ration(&line, 1);
    assert_near(volume_of(built_library(), check(&ration)), 236.6, 0.025 * 236.6);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(test_beef_loses_what_the_table_says),
                                     cmocka_unit_test(test_what_is_left_raw),
                                     cmocka_unit_test(test_cooked_lines_go_back_to_raw),
                                     cmocka_unit_test(test_no_factor_widens_the_band),
                                     cmocka_unit_test(test_a_line_of_nothing),
                                     cmocka_unit_test(test_volume)};
  return cmocka_run_group_tests(tests, fresh, done);
}
