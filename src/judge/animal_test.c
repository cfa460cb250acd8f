#include "judge/animal.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

#include "tests/support/near.h"
#include "tests/support/tiny_image.h"

/* Who gets no verdict: the rule of docs/method/verdicts.md (12 months, 24 for dogs over 40 kg as adults, cats 12). */
static void refusals(void **state) {
  (void)state;
  struct animal a = tiny_animal(SPECIES_DOG, 18);
  assert_int_equal(animal_refusal(&a), REFUSE_NOT);
  a.age_years = 0.99;
  assert_int_equal(animal_refusal(&a), REFUSE_GROWTH);
  a.age_years = 1;
  assert_int_equal(animal_refusal(&a), REFUSE_NOT);
  a.age_years = (double)NAN; /* not said: counts as adult */
  assert_int_equal(animal_refusal(&a), REFUSE_NOT);
  a.age_years = 1.5;
  a.adult_weight_kg = 55;
  assert_int_equal(animal_refusal(&a), REFUSE_GROWTH);
  a.adult_weight_kg = 40; /* not over 40 */
  assert_int_equal(animal_refusal(&a), REFUSE_NOT);
  a.adult_weight_kg = (double)NAN;
  a.weight_kg = 41;
  assert_int_equal(animal_refusal(&a), REFUSE_GROWTH);
  struct animal cat = tiny_animal(SPECIES_CAT, 4);
  cat.age_years = 0.9;
  assert_int_equal(animal_refusal(&cat), REFUSE_GROWTH);
  cat.age_years = 1;
  cat.pregnant = true;
  assert_int_equal(animal_refusal(&cat), REFUSE_PREGNANT);
  cat.pregnant = false;
  cat.nursing = true;
  assert_int_equal(animal_refusal(&cat), REFUSE_NURSING);
  cat.nursing = false;
  cat.healthy = false;
  assert_int_equal(animal_refusal(&cat), REFUSE_UNWELL);
  cat.urgent = true;
  assert_int_equal(animal_refusal(&cat), REFUSE_URGENT);
}

static void every_refusal_says_why_and_whom_to_ask(void **state) {
  (void)state;
  for (int r = REFUSE_GROWTH; r < REFUSE_COUNT; r++) {
    assert_true(strlen(refusal_key((enum refusal)r)) > 0);
    assert_non_null(strstr(refusal_text((enum refusal)r), "No verdict"));
    assert_non_null(strstr(refusal_ask((enum refusal)r), "veterinarian"));
  }
  assert_string_equal(refusal_key(REFUSE_NOT), "");
}

static void ideal_weight(void **state) {
  (void)state;
  const struct library *lib = tiny_open(tiny_new(&arena));
  struct animal a = tiny_animal(SPECIES_DOG, 30);
  assert_near(animal_body(lib, &a).ideal_kg, 30, 0);
  a.condition = 4; /* thin: the weight stays */
  assert_near(animal_body(lib, &a).ideal_kg, 30, 0);
  a.condition = 5;
  assert_near(animal_body(lib, &a).ideal_kg, 30, 0);
  a.condition = 7; /* 20 % over: 30 / 1.2 */
  assert_near(animal_body(lib, &a).ideal_kg, 25, 1e-6);
  a.ideal_kg = 24; /* what is stated wins */
  assert_near(animal_body(lib, &a).ideal_kg, 24, 0);
}

static const char *chosen(const struct library *lib, const struct animal *a) {
  struct energy_need e = animal_energy(lib, a, &arena);
  return e.row ? lib_str(lib, e.row->key) : "none";
}

static void the_closest_equation_is_taken(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  tiny_energy(t, "any dog", SPECIES_DOG, 0xff, 2, 98, 0.75);
  tiny_energy(t, "moderate", SPECIES_DOG, ACTIVITY_MODERATE, 2, 95, 0.75);
  tiny_energy(t, "moderate entire", SPECIES_DOG, ACTIVITY_MODERATE, 0, 110, 0.75);
  tiny_energy(t, "moderate old", SPECIES_DOG, ACTIVITY_MODERATE, 2, 90, 0.75)->age_from = 8;
  tiny_energy(t, "old", SPECIES_DOG, 0xff, 2, 85, 0.75)->age_from = 8;
  tiny_energy(t, "cat", SPECIES_CAT, 0xff, 2, 75, 0.67);
  const struct library *lib = tiny_open(t);
  struct animal a = tiny_animal(SPECIES_DOG, 10);
  assert_string_equal(chosen(lib, &a), "moderate");
  a.neutered = 1;
  assert_string_equal(chosen(lib, &a), "moderate");
  a.neutered = 0;
  assert_string_equal(chosen(lib, &a), "moderate entire");
  a.neutered = 1;
  a.age_years = 9;
  assert_string_equal(chosen(lib, &a), "moderate old");
  a.activity = ACTIVITY_HIGH;
  assert_string_equal(chosen(lib, &a), "old");
  a.age_years = 4;
  assert_string_equal(chosen(lib, &a), "any dog");
  a.age_years = (double)NAN; /* an age row fits no unknown age */
  a.activity = ACTIVITY_MODERATE;
  assert_string_equal(chosen(lib, &a), "moderate");
  a = tiny_animal(SPECIES_CAT, 4);
  assert_string_equal(chosen(lib, &a), "cat");
}

static void stated_energy_wins_and_ranges_hold(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  struct img_energy *own = tiny_energy(t, "adult dog, moderate activity", SPECIES_DOG, ACTIVITY_MODERATE, 2, 110, 0.75);
  tiny_energy(t, "adult cat", SPECIES_CAT, ACTIVITY_MODERATE, 2, 75, 0.67);
  own->low = 95;
  own->high = 130;
  const struct library *lib = tiny_open(t);
  struct animal dog = tiny_animal(SPECIES_DOG, 16), cat = tiny_animal(SPECIES_CAT, 4);
  struct energy_need e = animal_energy(lib, &dog, &arena);
  assert_near(e.kcal, 880, 1e-3); /* 16^0.75 = 8 */
  assert_near(e.low_kcal, 760, 1e-3);
  assert_near(e.high_kcal, 1040, 1e-3);
  assert_near(e.coefficient, 110, 1e-4);
  assert_string_equal(e.from, "110 kcal x kg^0.75 (adult dog, moderate activity)");
  /* No range in the table: two standard deviations of the observed spread, 2 x 50 % for cats. */
  e = animal_energy(lib, &cat, &arena);
  assert_near(e.low_kcal, 0, 1e-9);
  assert_near(e.high_kcal, 2 * e.kcal, 1e-6);
  dog.energy_kcal = 780;
  e = animal_energy(lib, &dog, &arena);
  assert_near(e.kcal, 780, 0);
  assert_near(e.coefficient, 97.5, 1e-9);
  assert_string_equal(e.from, "stated");
  assert_null(e.row);
}

static void no_equation_is_not_a_number(void **state) {
  (void)state;
  const struct library *lib = tiny_open(tiny_new(&arena));
  struct animal a = tiny_animal(SPECIES_DOG, 10);
  struct energy_need e = animal_energy(lib, &a, &arena);
  assert_true(isnan(e.kcal) && isnan(e.low_kcal) && isnan(e.high_kcal));
}

#define WITH_ARENA(f) cmocka_unit_test_setup_teardown(f, fresh, done)

int main(void) {
  const struct CMUnitTest tests[] = {
      WITH_ARENA(refusals),
      WITH_ARENA(every_refusal_says_why_and_whom_to_ask),
      WITH_ARENA(ideal_weight),
      WITH_ARENA(the_closest_equation_is_taken),
      WITH_ARENA(stated_energy_wins_and_ranges_hold),
      WITH_ARENA(no_equation_is_not_a_number),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
