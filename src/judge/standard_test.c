#include "judge/standard.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

#include "tests/support/near.h"
#include "tests/support/tiny_image.h"

static struct allowance_set figures(const struct library *lib, enum standard_id std, enum basis basis,
                                    const struct animal *a, double coefficient, double supply) {
  struct allowance_set set;
  struct animal_body body = animal_body(lib, a);
  struct energy_need need = {.kcal = coefficient * body.metabolic_kg, .coefficient = coefficient};
  standard_allowances(lib, std, basis, a, &need, (struct energy_eaten){supply, supply}, &set, &arena);
  return set;
}

/* The interface's own example: a dog of 17.5 kg, zinc 2.0 mg per kg^0.75, gives 17.1 mg; an adequate intake is no minimum.
 */
static void zinc_of_the_example(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_ZINC, LEVEL_ADEQUATE, PER_METABOLIC_KG, 2.0, (double)NAN);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_ZINC, LEVEL_ADEQUATE, PER_1000KCAL, 15, 130);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_ZINC, LEVEL_ALLOWANCE, PER_1000KCAL, 15, 130);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_ZINC, LEVEL_ALLOWANCE, PER_METABOLIC_KG, 2.0, (double)NAN);
  const struct library *lib = tiny_open(t);
  struct animal a = tiny_animal(SPECIES_DOG, 17.5);
  struct allowance z = figures(lib, STANDARD_NRC2006, BASIS_WEIGHT, &a, 95, 800).of[NUT_ZINC];
  assert_near(z.allowance, 17.1, 0.05);
  assert_true(isnan(z.minimum) && isnan(z.upper));
  assert_string_equal(allowance_how(&z), "2 mg x 17.5 kg^0.75");
  z = figures(lib, STANDARD_NRC2006, BASIS_ENERGY, &a, 95, 800).of[NUT_ZINC];
  assert_near(z.allowance, 12, 1e-6); /* 15 x 0.8 */
  assert_string_equal(allowance_how(&z), "15 mg per 1000 kcal x 800 kcal eaten");
}

/* Without a figure per metabolic kg: the density times the energy at which it was set. */
static void density_times_its_own_energy(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_IRON, LEVEL_ALLOWANCE, PER_1000KCAL, 7.5, 130);
  const struct library *lib = tiny_open(t);
  struct animal a = tiny_animal(SPECIES_DOG, 16); /* 8 kg metabolic */
  struct allowance x = figures(lib, STANDARD_NRC2006, BASIS_WEIGHT, &a, 80, 500).of[NUT_IRON];
  assert_near(x.allowance, 7.5 * 0.130 * 8, 1e-6);
  assert_string_equal(allowance_how(&x), "7.5 mg per 1000 kcal x 130 kcal x 16 kg^0.75");
}

static void the_nearer_energy_column(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  tiny_allowance(t, STANDARD_FEDIAF2021, SPECIES_DOG, NUT_FAT, LEVEL_ALLOWANCE, PER_1000KCAL, 13.75, 95);
  tiny_allowance(t, STANDARD_FEDIAF2021, SPECIES_DOG, NUT_FAT, LEVEL_ALLOWANCE, PER_1000KCAL, 13.75, 110);
  tiny_allowance(t, STANDARD_FEDIAF2021, SPECIES_DOG, NUT_ZINC, LEVEL_ALLOWANCE, PER_1000KCAL, 20.8, 95);
  tiny_allowance(t, STANDARD_FEDIAF2021, SPECIES_DOG, NUT_ZINC, LEVEL_ALLOWANCE, PER_1000KCAL, 18, 110);
  tiny_allowance(t, STANDARD_FEDIAF2021, SPECIES_DOG, NUT_CALCIUM, LEVEL_UPPER, PER_1000KCAL, 6250, (double)NAN);
  const struct library *lib = tiny_open(t);
  struct animal a = tiny_animal(SPECIES_DOG, 16);
  struct allowance_set quiet = figures(lib, STANDARD_FEDIAF2021, BASIS_WEIGHT, &a, 85, 680);
  struct allowance_set busy = figures(lib, STANDARD_FEDIAF2021, BASIS_WEIGHT, &a, 125, 1000);
  assert_near(quiet.of[NUT_ZINC].allowance, 20.8 * 0.095 * 8, 1e-5);
  assert_near(busy.of[NUT_ZINC].allowance, 18 * 0.110 * 8, 1e-5);
  /* Fat is printed the same in both columns and is not scaled: each column by its own energy. */
  assert_near(quiet.of[NUT_FAT].allowance, 13.75 * 0.095 * 8, 1e-5);
  assert_near(busy.of[NUT_FAT].allowance, 13.75 * 0.110 * 8, 1e-5);
  assert_near(figures(lib, STANDARD_FEDIAF2021, BASIS_ENERGY, &a, 85, 1000).of[NUT_FAT].allowance, 13.75, 1e-5);
  /* A maximum holds for both columns: the quiet dog's own column, or what it eats, whichever is stricter. */
  assert_near(quiet.of[NUT_CALCIUM].upper, 6250 * 0.680, 1e-3);
  assert_near(busy.of[NUT_CALCIUM].upper, 6250 * 0.110 * 8, 1e-3);
}

static void densities_only(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  tiny_allowance(t, STANDARD_AAFCO2016, SPECIES_DOG, NUT_ZINC, LEVEL_ALLOWANCE, PER_1000KCAL, 20, (double)NAN);
  tiny_allowance(t, STANDARD_AAFCO2016, SPECIES_DOG, NUT_VITAMIN_D, LEVEL_UPPER, PER_1000KCAL, 18.75, (double)NAN);
  const struct library *lib = tiny_open(t);
  struct animal a = tiny_animal(SPECIES_DOG, 16);
  struct allowance_set s = figures(lib, STANDARD_AAFCO2016, BASIS_WEIGHT, &a, 95, 800);
  assert_int_equal(s.basis, BASIS_ENERGY);
  assert_true(s.basis_forced);
  assert_near(s.of[NUT_ZINC].allowance, 16, 1e-6);
  assert_near(s.of[NUT_VITAMIN_D].upper, 15, 1e-5);
  assert_false(figures(lib, STANDARD_AAFCO2016, BASIS_ENERGY, &a, 95, 800).basis_forced);
  /* An empty bowl is measured against what should be eaten, never against nothing. */
  assert_near(figures(lib, STANDARD_AAFCO2016, BASIS_ENERGY, &a, 95, 0).of[NUT_ZINC].allowance, 20 * 0.095 * 8, 1e-5);
}

static void the_stricter_upper_limit(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_FAT, LEVEL_UPPER, PER_METABOLIC_KG, 10.8, (double)NAN);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_FAT, LEVEL_UPPER, PER_1000KCAL, 82.5, 130);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_SODIUM, LEVEL_UPPER, PER_1000KCAL, 3750, 130)->greater_than = 1;
  const struct library *lib = tiny_open(t);
  struct animal a = tiny_animal(SPECIES_DOG, 16);
  struct allowance_set little = figures(lib, STANDARD_NRC2006, BASIS_WEIGHT, &a, 95, 600);
  struct allowance_set much = figures(lib, STANDARD_NRC2006, BASIS_WEIGHT, &a, 95, 2000);
  assert_near(little.of[NUT_FAT].upper, 82.5 * 0.6, 1e-5);
  assert_int_equal(little.of[NUT_FAT].upper_row->basis, PER_1000KCAL);
  assert_near(much.of[NUT_FAT].upper, 10.8 * 8, 1e-5);
  assert_int_equal(much.of[NUT_FAT].upper_row->basis, PER_METABOLIC_KG);
  assert_false(much.of[NUT_FAT].upper_greater_than);
  assert_near(much.of[NUT_SODIUM].upper, 3750 * 0.130 * 8, 1e-2);
  assert_true(much.of[NUT_SODIUM].upper_greater_than);
}

static void adequate_stands_in_for_an_allowance(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_CAT, NUT_CHOLINE, LEVEL_ADEQUATE, PER_1000KCAL, 510, 100);
  const struct library *lib = tiny_open(t);
  struct animal a = tiny_animal(SPECIES_CAT, 4);
  struct allowance x = figures(lib, STANDARD_NRC2006, BASIS_ENERGY, &a, 75, 1000).of[NUT_CHOLINE];
  assert_near(x.allowance, 510, 1e-6);
  assert_true(isnan(x.minimum));
  /* Another species' rows are not read. */
  struct animal dog = tiny_animal(SPECIES_DOG, 4);
  assert_true(isnan(figures(lib, STANDARD_NRC2006, BASIS_ENERGY, &dog, 75, 1000).of[NUT_CHOLINE].allowance));
}

static void windows_by_species(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  tiny_window(t, SPECIES_BOTH, NUT_THIAMIN, 1, false);
  tiny_window(t, SPECIES_BOTH, NUT_B12, 14, false);
  tiny_window(t, SPECIES_CAT, NUT_B12, 7, false);
  const struct library *lib = tiny_open(t);
  assert_int_equal(standard_window(lib, SPECIES_CAT, NUT_B12)->days, 7);
  assert_int_equal(standard_window(lib, SPECIES_DOG, NUT_B12)->days, 14);
  assert_int_equal(standard_window(lib, SPECIES_CAT, NUT_THIAMIN)->days, 1);
  assert_null(standard_window(lib, SPECIES_CAT, NUT_ZINC));
}

#define WITH_ARENA(f) cmocka_unit_test_setup_teardown(f, fresh, done)

int main(void) {
  const struct CMUnitTest tests[] = {
      WITH_ARENA(zinc_of_the_example),      WITH_ARENA(density_times_its_own_energy),
      WITH_ARENA(the_nearer_energy_column), WITH_ARENA(densities_only),
      WITH_ARENA(the_stricter_upper_limit), WITH_ARENA(adequate_stands_in_for_an_allowance),
      WITH_ARENA(windows_by_species),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
