/* uncounted_bowls_test.c: which verdicts something uncounted leaves open, over whole texts. The columns are what somebody who
 * formulates would say: a few treats excuse no bowl without calcium. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

#include "judge/check.h"
#include "recipe/recipe_text.h"
#include "tests/support/built_image.h"
#include "tests/support/fresh_arena.h"
#include "tests/support/tiny_image.h"

static const char CAT[] = "150 g salmon, cooked\n", DOG[] = "500 g beef mince, 15 % fat, cooked\n100 g cooked white rice\n";

static const struct check_result *check(const char *bowl, const char *line, const struct animal *a) {
  struct recipe *recipe = ARENA_NEW(&arena, struct recipe, 1);
  struct ration *ration = ARENA_NEW(&arena, struct ration, 1);
  struct diags d;
  struct buf b;
  buf_init(&b, &arena, 400);
  buf_addf(&b, "%s%s", bowl, line);
  diags_init(&d, &arena, "t", buf_span(&b));
  assert_true(recipe_parse(buf_span(&b), &d, recipe, &arena) && recipe_resolve(built_library(), recipe, &d, ration, &arena));
  return check_numbers(built_library(), ration, a, &CHECK_OPTIONS_DEFAULT, &arena);
}

/* What is short without it, and stays so or not. */
static void short_or_not(void **state) {
  static const struct {
    bool cat;
    const char *line;
    enum nutrient n;
    enum verdict verdict;
  } ROW[] = {
      {true, "", NUT_CALCIUM, VERDICT_SHORT},
      {true, "? a few crunchies", NUT_CALCIUM, VERDICT_SHORT},
      {true, "? a few crunchies", NUT_ZINC, VERDICT_SHORT},
      {true, "? a few crunchies", NUT_VITAMIN_E, VERDICT_SHORT},
      {true, "? a few treats", NUT_CALCIUM, VERDICT_SHORT},
      {true, "? treats", NUT_CALCIUM, VERDICT_UNPROVEN}, /* a fifth of the energy may be of them */
      {true, "? 1 multivitamin", NUT_ZINC, VERDICT_UNPROVEN},
      {true, "? 1 multivitamin", NUT_LINOLEIC, VERDICT_THIN}, /* no tablet holds fat */
      {true, "? 5 g liver", NUT_CALCIUM, VERDICT_SHORT},
      {true, "? 5 g liver", NUT_ZINC, VERDICT_SHORT},
      {true, "? 5 g liver", NUT_FOLATE, VERDICT_UNPROVEN}, /* chicken liver has 588 ug per 100 g (SR28 05027) */
      {true, "? some garlic powder", NUT_MANGANESE, VERDICT_SHORT},
      {true, "? 1 scoop of Whatever", NUT_CALCIUM, VERDICT_UNPROVEN},
      {true, "? calcium supplement", NUT_CALCIUM, VERDICT_UNPROVEN},
      {true, "? calcium supplement", NUT_ZINC, VERDICT_SHORT},
      {false, "", NUT_CALCIUM, VERDICT_SHORT},
      {false, "? 1 multivitamin", NUT_CALCIUM, VERDICT_SHORT},
      {false, "? 1 multivitamin", NUT_IODINE, VERDICT_UNPROVEN},
      {false, "? 1 scoop of multivitamin powder", NUT_CALCIUM, VERDICT_UNPROVEN},
      {false, "? vitamin B complex 50, 4 caps", NUT_THIAMIN, VERDICT_UNPROVEN},
      {false, "? vitamin B complex 50, 4 caps", NUT_IODINE, VERDICT_SHORT},
      {false, "? vitamin B complex 50, 4 caps", NUT_CALCIUM, VERDICT_SHORT},
      {false, "? vitamin E 1 capsule a week", NUT_VITAMIN_E, VERDICT_UNPROVEN},
      {false, "? vitamin E 1 capsule a week", NUT_COPPER, VERDICT_SHORT},
      {false, "? fish oil capsules", NUT_EPA_DHA, VERDICT_UNPROVEN},
      {false, "? fish oil capsules", NUT_CALCIUM, VERDICT_SHORT},
      {false, "? a bit of cheese", NUT_CALCIUM, VERDICT_SHORT},
      {false, "? 8 g of Whatever", NUT_CALCIUM, VERDICT_UNPROVEN}, /* it may be a mineral */
      {false, "? half an onion", NUT_MANGANESE, VERDICT_SHORT},
      {false, "? 1 cup of kibble", NUT_CALCIUM, VERDICT_UNPROVEN},
      {false, "? that, and that", NUT_CALCIUM, VERDICT_UNPROVEN},
  };
  (void)state;
  struct animal cat = tiny_animal(SPECIES_CAT, 4.2), dog = tiny_animal(SPECIES_DOG, 20);
  size_t wrong = 0;
  for (size_t i = 0; i < sizeof ROW / sizeof *ROW; i++) {
    const struct check_result *r = check(ROW[i].cat ? CAT : DOG, ROW[i].line, ROW[i].cat ? &cat : &dog);
    const struct nutrient_result *n = &r->nutrient[ROW[i].n];
    if (n->verdict == ROW[i].verdict) continue;
    wrong++;
    print_error("%s '%s': %s is %s, with %g of %g at most %g\n", ROW[i].cat ? "cat" : "dog", ROW[i].line,
                nutrient_info[ROW[i].n].key, verdict_word[n->verdict], n->window_amount, n->allowance, n->window_most);
  }
  assert_int_equal(wrong, 0);
}

/* Nothing that is uncounted makes anything worse or better: what is met, thin or over by what is counted stays so. */
static void changes_nothing_else(void **state) {
  static const char *const LINE[] = {"? a few treats", "? 1 multivitamin", "? 5 g liver", "? some garlic powder", "? whatever"};
  (void)state;
  struct animal dog = tiny_animal(SPECIES_DOG, 20);
  const struct check_result *alone = check(DOG, "", &dog);
  for (size_t i = 0; i < sizeof LINE / sizeof *LINE; i++) {
    const struct check_result *r = check(DOG, LINE[i], &dog);
    for (int n = 0; n < NUT_COUNT; n++) {
      enum verdict was = alone->nutrient[n].verdict, is = r->nutrient[n].verdict;
      if (is == VERDICT_UNPROVEN) is = was == VERDICT_THIN || was == VERDICT_SHORT ? was : is;
      assert_int_equal(is, was);
    }
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {T(short_or_not), T(changes_nothing_else)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
