/* Limits and units; what words mean is held by tests/cases. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

#include "animal/animal_text.h"
#include "tests/support/near.h"

static struct diags d;
static struct animal *animals;
static size_t count;

static bool read_on(const char *text, struct date today) {
  diags_init(&d, &arena, "t", span_of(text));
  return animal_read(span_of(text), today, &d, &animals, &count, &arena);
}

static void pounds(void **state) {
  (void)state;
  /* The international pound: 0.45359237 kg. */
  assert_true(read_on("Animal: A\nSpecies: dog\nAge: 3 years\nWeight: 40 lb\n", (struct date){0}));
  assert_near(animals[0].weight_kg, 18.1436948, 1e-9);
}

static void what_is_not_said_is_not_known(void **state) {
  (void)state;
  assert_true(read_on("Animal: A\nSpecies: cat\nAge: 3 years\nWeight: 4 kg\n", (struct date){0}));
  const struct animal *a = &animals[0];
  assert_true(isnan(a->ideal_kg) && isnan(a->condition) && isnan(a->energy_kcal) && isnan(a->adult_weight_kg));
  assert_int_equal(a->neutered, -1);
  assert_false(a->activity_stated);
  assert_true(a->healthy);
  assert_string_equal(a->status, "healthy");
}

static void born_needs_a_today(void **state) {
  (void)state;
  static const char TEXT[] = "Animal: A\nSpecies: dog\nBorn: 2020-11-02\nWeight: 18 kg\n";
  assert_false(read_on(TEXT, (struct date){0}));
  assert_non_null(strstr(d.item[0].message, "Age:"));
  assert_true(read_on(TEXT, (struct date){2026, 11, 2}));
  assert_near(animals[0].age_years, 6, 1e-12);
}

/* Who is judged and who is not is decided by what was read here. */
static void who_is_refused(void **state) {
  (void)state;
  static const struct {
    const char *age, *weight, *status;
    enum refusal refusal;
  } CASES[] = {{"11 months", "12 kg", "healthy", REFUSE_GROWTH},
               {"13 months", "12 kg", "healthy", REFUSE_NOT},
               {"18 months", "55 kg", "healthy", REFUSE_GROWTH},
               {"3 years", "12 kg", "pregnant", REFUSE_PREGNANT},
               {"3 years", "12 kg", "lactating", REFUSE_NURSING},
               {"3 years", "12 kg", "diabetes", REFUSE_UNWELL},
               {"3 years", "12 kg", "healthy but has kidney disease", REFUSE_UNWELL},
               {"3 years", "12 kg", "fine", REFUSE_NOT},
               {"3 years", "12 kg", "not healthy", REFUSE_UNWELL},
               {"3 years", "12 kg", "in good health", REFUSE_NOT},
               {"3 years", "12 kg", "puppy", REFUSE_GROWTH},
               {"3 years", "12 kg", "not well (pancreatitis)", REFUSE_UNWELL}};
  for (size_t i = 0; i < COUNT_OF(CASES); i++) {
    struct buf b;
    buf_init(&b, &arena, 400);
    buf_addf(&b, "Animal: A\nSpecies: dog\nAge: %s\nWeight: %s\nStatus: %s\n", CASES[i].age, CASES[i].weight,
             CASES[i].status);
    assert_true(read_on(buf_text(&b), (struct date){0}));
    assert_int_equal(animal_refusal(&animals[0]), CASES[i].refusal);
  }
}

/* An animal that is only begun, as a page's form leaves it, takes no other one with it; line numbers stay. */
static void one_that_is_only_begun(void **state) {
  (void)state;
  static const char TEXT[] = "Animal: A\nSpecies: cat\nAge: 3 years\nWeight: 4 kg\n\nAnimal: \nSpecies: dog\nWeight:  kg\n"
                             "Age:  years\n\nAnimal: B\nSpecies: dog\nAge: 6 years\nWeight: 18 kg\n";
  assert_false(read_on(TEXT, (struct date){0}));
  struct span rest = animal_without_faulty(span_of(TEXT), &d, &arena);
  assert_int_equal(rest.n, strlen(TEXT));
  assert_true(read_on(arena_text(&arena, rest), (struct date){0}));
  assert_int_equal(count, 2);
  assert_string_equal(animals[0].name, "A");
  assert_string_equal(animals[1].name, "B");
  assert_near(animals[1].weight_kg, 18, 1e-12);
}

static void too_many(void **state) {
  (void)state;
  struct buf b;
  buf_init(&b, &arena, 1 << 20);
  for (int i = 0; i < 102; i++) buf_addf(&b, "Animal: A%d\nSpecies: dog\nAge: 3 years\nWeight: 18 kg\n", i);
  assert_false(read_on(buf_text(&b), (struct date){0}));
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(pounds),
                                     cmocka_unit_test(what_is_not_said_is_not_known),
                                     cmocka_unit_test(born_needs_a_today),
                                     cmocka_unit_test(who_is_refused),
                                     cmocka_unit_test(one_that_is_only_begun),
                                     cmocka_unit_test(too_many)};
  return cmocka_run_group_tests(tests, fresh, done);
}
