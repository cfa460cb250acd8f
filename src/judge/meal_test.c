#include "judge/meal.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

#include "tests/support/near.h"
#include "tests/support/tiny_image.h"

/* A dog of 16 kg, 8 metabolic kg, that needs 800 kcal; an oil of 900 kcal per 100 g, a third of it EPA + DHA, of which NRC
 * 2006 allows at most 2.8 g per 1000 kcal and 0.37 g per metabolic kg (Table 15-5): 2.24 g and 2.96 g a day for this dog. */
struct kitchen {
  const struct library *lib;
  uint32_t oil, meat;
  struct animal dog;
};

static struct kitchen kitchen_of(enum standard_id standard) {
  struct tiny *t = tiny_new(&arena);
  struct kitchen k = {.dog = tiny_animal(SPECIES_DOG, 16)};
  tiny_energy(t, "test dog", SPECIES_DOG, 0xff, 2, 100, 0.75);
  k.oil = tiny_food(t, "oil", PART_FAT_OIL, SPREAD_RED_MEAT);
  k.meat = tiny_food(t, "meat", PART_MUSCLE, SPREAD_RED_MEAT);
  tiny_value(t, k.oil, NUT_PROTEIN, 0, 0);
  tiny_value(t, k.oil, NUT_FAT, 100, 0);
  tiny_value(t, k.oil, NUT_CARBOHYDRATE, 0, 0);
  tiny_value(t, k.oil, NUT_EPA_DHA, 33, 0);
  tiny_value(t, k.meat, NUT_PROTEIN, 25, 0);
  tiny_value(t, k.meat, NUT_FAT, 0, 0);
  tiny_value(t, k.meat, NUT_CARBOHYDRATE, 0, 0);
  tiny_value(t, k.meat, NUT_EPA_DHA, 0, 0);
  tiny_allowance(t, standard, SPECIES_DOG, NUT_EPA_DHA, LEVEL_UPPER, PER_1000KCAL, 2.8, 130);
  tiny_allowance(t, standard, SPECIES_DOG, NUT_EPA_DHA, LEVEL_UPPER, PER_METABOLIC_KG, 0.37, (double)NAN);
  tiny_allowance(t, standard, SPECIES_DOG, NUT_PROTEIN, LEVEL_ALLOWANCE, PER_1000KCAL, 25, 130);
  k.lib = tiny_open(t);
  return k;
}

static struct uncounted_kind kind_of_all; /* of what is not counted; without 'holds' nobody knows it */

/* So much oil and meat, and beside them 'text' without being counted; NULL: nothing. */
static const struct check_result *fed(const struct kitchen *k, double oil, double meat, const char *text) {
  struct ration *r = ARENA_NEW(&arena, struct ration, 1);
  struct ration_line *line = ARENA_NEW(&arena, struct ration_line, 2);
  struct ration_uncounted *u = ARENA_NEW(&arena, struct ration_uncounted, 1);
  line[0] = tiny_line(k->oil, oil);
  line[1] = tiny_line(k->meat, meat);
  *r = tiny_ration(line, 2);
  *u = (struct ration_uncounted){.line = 3,
                                 .text = text,
                                 .sole_food = text && strstr(text, "kibble"),
                                 .is_read = kind_of_all.holds != NULL,
                                 .said_g = NAN,
                                 .kind = kind_of_all};
  r->uncounted = u;
  r->uncounted_count = text != NULL;
  return check_numbers(k->lib, r, &k->dog, NULL, &arena);
}

static double limit_of(const struct check_result *r) { return r->nutrient[NUT_EPA_DHA].upper; }
static enum verdict verdict_of_oil(const struct check_result *r) { return r->nutrient[NUT_EPA_DHA].verdict; }

/* By hand: 2.8 g x 0.8 = 2.24 g, whatever little is counted; 6 g of the oil hold 1.98 g and 8 g hold 2.64 g. */
static void limits_beside_other_food_are_those_of_a_day(void **state) {
  (void)state;
  struct kitchen k = kitchen_of(STANDARD_NRC2006);
  const struct check_result *little = fed(&k, 6, 10, "a scoop of his mix"), *much = fed(&k, 8, 10, "a scoop of his mix");
  assert_true(little->energy.beside && !energy_is_whole(&little->energy));
  assert_int_equal(little->energy.known, KNOWN_PART);
  assert_near(limit_of(little), 2.24, 1e-6);
  assert_int_not_equal(verdict_of_oil(little), VERDICT_OVER);
  assert_int_equal(verdict_of_oil(much), VERDICT_OVER); /* of a day's food too much, whatever the scoop holds */
  assert_true(isnan(little->nutrient[NUT_EPA_DHA].per_1000kcal));
  assert_true(meal_is_unread(little) && !meal_is_none(little) && meal_is_part(little));
  /* More than the need is counted: 10 g of oil and 900 g of meat are 990 kcal, and then the limit by weight is near. */
  assert_near(limit_of(fed(&k, 10, 900, "a scoop of his mix")), 2.8 * 0.99, 1e-6);
  assert_near(limit_of(fed(&k, 10, 1100, "a scoop of his mix")), 2.96, 1e-6);
}

/* A tablet holds no energy to speak of: the bowl is all of the food, as without it. What kind of thing a text tells of is
 * tested with the tables, in recipe/uncounted_bowls_test.c. */
static void what_is_taken_is_no_food(void **state) {
  (void)state;
  struct kitchen k = kitchen_of(STANDARD_NRC2006);
  static const float NO_FAT[NUT_COUNT] = {0};
  double alone = limit_of(fed(&k, 6, 400, NULL));
  assert_near(alone, 2.8 * 0.454, 1e-6);
  struct check_result without = *fed(&k, 6, 400, "1 multivitamin");
  assert_true(without.energy.beside); /* as long as nobody knows what that is */
  kind_of_all = (struct uncounted_kind){.holds = NO_FAT};
  const struct check_result *taken = fed(&k, 6, 400, "1 multivitamin");
  assert_false(taken->energy.beside || meal_is_unread(taken));
  assert_near(limit_of(taken), alone, 1e-9);
  kind_of_all = (struct uncounted_kind){.holds = NULL};
}

/* 454 kcal of 800 are more than two fifths, and less than the low end of the need beside food of which a dog may live. */
static void how_much_makes_a_bowl(void **state) {
  (void)state;
  struct kitchen k = kitchen_of(STANDARD_NRC2006);
  assert_false(meal_is_unread(fed(&k, 6, 400, "leftovers")));
  assert_true(meal_is_unread(fed(&k, 6, 200, "leftovers")));
  const struct check_result *kibble = fed(&k, 6, 400, "some kibble");
  assert_int_equal(meal_is_unread(kibble), 454 < kibble->energy.need.low_kcal);
  const struct check_result *none = fed(&k, 6, 100, NULL), *some = fed(&k, 6, 150, NULL);
  assert_true(meal_is_none(none) && !meal_is_none(some)); /* 154 and 204 kcal; a quarter is 200 */
  assert_near(limit_of(none), 2.24, 1e-6);
  assert_near(limit_of(some), 2.8 * 0.204, 1e-6);
  assert_true(meal_is_unread(fed(&k, 0, 0, "leftovers")));
}

/* 1.98 g are over the limit of 204 kcal and within that of a whole day's food; 2.64 g are over both. */
static void too_much_for_so_little_energy(void **state) {
  (void)state;
  struct kitchen k = kitchen_of(STANDARD_NRC2006);
  const struct check_result *dense = fed(&k, 6, 150, NULL), *over = fed(&k, 8, 150, NULL), *enough = fed(&k, 20, 700, NULL);
  assert_int_equal(verdict_of_oil(dense), VERDICT_OVER);
  assert_near(meal_limit_of_a_day(dense, &dense->nutrient[NUT_EPA_DHA]), 2.24, 1e-6);
  assert_int_equal(verdict_of_oil(over), VERDICT_OVER);
  assert_true(isnan(meal_limit_of_a_day(over, &over->nutrient[NUT_EPA_DHA])));
  assert_int_equal(verdict_of_oil(enough), VERDICT_OVER);
  assert_true(isnan(meal_limit_of_a_day(enough, &enough->nutrient[NUT_EPA_DHA])));
}

#define WITH_ARENA(f) cmocka_unit_test_setup_teardown(f, fresh, done)

int main(void) {
  const struct CMUnitTest tests[] = {
      WITH_ARENA(limits_beside_other_food_are_those_of_a_day),
      WITH_ARENA(what_is_taken_is_no_food),
      WITH_ARENA(how_much_makes_a_bowl),
      WITH_ARENA(too_much_for_so_little_energy),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
