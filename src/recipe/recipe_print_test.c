/* Printed, then read again: the same ration. For made-up recipes of every form, and for the demo household's. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "recipe/recipe_text.h"
#include "tests/support/built_image.h"
#include "tests/support/near.h"

struct reading {
  struct diags d;
  struct recipe recipe;
  struct ration ration;
};

static bool read(struct span text, struct reading *r, struct arena *arena) {
  diags_init(&r->d, arena, "t", text);
  bool fine = recipe_parse(text, &r->d, &r->recipe, arena);
  return recipe_resolve(built_library(), &r->recipe, &r->d, &r->ration, arena) && fine;
}

static void same_portions(const struct ration_line *a, const struct ration_line *b) {
  assert_int_equal(a->part_count, b->part_count);
  for (int i = 0; i < a->part_count; i++) {
    assert_int_equal(a->part[i].food, b->part[i].food);
    assert_int_equal(a->part[i].retention, b->part[i].retention);
    assert_near(b->part[i].grams, a->part[i].grams, 1e-9 * a->part[i].grams);
    assert_near(b->part[i].grams_cv, a->part[i].grams_cv, 1e-6);
  }
  assert_near(b->grams_fed, a->grams_fed, 1e-9 * a->grams_fed);
  assert_near(b->times_per_28, a->times_per_28, 1e-9);
  assert_memory_equal(a->fed_on, b->fed_on, sizeof a->fed_on);
  assert_int_equal(a->state, b->state);
  assert_int_equal(a->cooked_bone, b->cooked_bone);
  assert_int_equal(a->broth_kept, b->broth_kept);
}

static void round_trip(struct span text) {
  struct arena arena;
  struct reading first, second;
  struct buf printed;
  arena_init(&arena, NULL);
  buf_init(&printed, &arena, 1 << 20);
  if (!read(text, &first, &arena)) {
    print_error("%.*s\n%s\n", SPAN_ARG(text), first.d.count > 0 ? first.d.item[0].message : "");
    fail();
  }
  recipe_print(built_library(), &first.recipe, &first.ration, &printed);
  if (!read(buf_span(&printed), &second, &arena)) {
    print_error("printed:\n%s\n%s\n", buf_text(&printed), second.d.count > 0 ? second.d.item[0].message : "");
    fail();
  }
  assert_string_equal(second.recipe.name, first.recipe.name);
  assert_string_equal(second.recipe.for_whom, first.recipe.for_whom);
  assert_string_equal(second.recipe.note, first.recipe.note);
  assert_int_equal(second.recipe.never_count, first.recipe.never_count);
  for (size_t i = 0; i < first.recipe.never_count; i++) assert_string_equal(second.recipe.never[i], first.recipe.never[i]);
  assert_near(second.ration.days, first.ration.days, 1e-9);
  assert_int_equal(second.ration.line_count, first.ration.line_count);
  for (size_t i = 0; i < first.ration.line_count; i++) same_portions(&first.ration.line[i], &second.ration.line[i]);
  /* Printing what was printed changes nothing more. */
  struct buf again;
  buf_init(&again, &arena, 1 << 20);
  recipe_print(built_library(), &second.recipe, &second.ration, &again);
  assert_string_equal(buf_text(&again), buf_text(&printed));
  arena_free(&arena);
}

static void every_form(void **state) {
  (void)state;
  round_trip(SPAN_LIT(
      "Recipe: All\nFor: Juniper\nMakes: 14 meals\nMeals: 2 a day\nTotal: 3 kg\nNever: chicken, dairy\nNote: one\nNote: "
      "two\n"
      "600 g lamb shoulder, raw [usda:17039]\n1 1/2 tsp hemp seed [usda:12012]\n2-3 large eggs, every other day "
      "[usda:01123]\n"
      "1 can (4.4 oz) mackerel, drained, weekly [usda:15048]\n120 g duck neck, bone-in [cut:duck-neck]\n"
      "1/2 cup cooked millet [usda:20032]\n1 capsule vitamin E 200 IU [ours:vitamin-e-natural]\n"
      "a pinch of salt [ours:salt-plain]\n20% lamb heart [usda:17191]\n10 mg zinc [ours:zinc-gluconate]\n"
      "1 tsp salmon oil, twice a day [usda:04593]\n2 eggs, once a month [usda:01123]\n1 lb lamb liver, every 3 days "
      "[usda:17199]\n"
      "100-150 g lamb liver, every 2 weeks [usda:17199]\n5 g salt with each meal [ours:salt-plain]\n"
      "1/3 cup spinach, chopped [usda:11457]\n2 medium carrots, boiled [usda:11125]\n0 g lamb liver [usda:17199]\n"));
}

static void everything_cooked(void **state) {
  (void)state;
  round_trip(
      SPAN_LIT("Makes: 3 days\nCook: raw weight, simmered, with broth\n500 g lamb shoulder [usda:17039]\n"
               "100 g lamb liver, raw [usda:17199]\n200 g beetroot, boiled [usda:11080]\n300 g chicken necks, bone-in, "
               "roasted [usda:05084]\n"
               "250 g chicken necks, bone-in [cut:chicken-neck]\n2 tsp salmon oil [usda:04593]\n93 g beetroot, cooked "
               "weight [usda:11080]\n"
               "100 g lamb liver, cooked weight [usda:17200]\n3 large eggs [usda:01123]\n1 g eggshell [ours:eggshell]\n"));
}

static void found_by_words(void **state) {
  (void)state;
  round_trip(SPAN_LIT("300 g lamb heart\n2 large eggs\n100 g duck neck\n200 g spinach, boiled\n1 tsp eggshell powder\n100 g "
                      "lamb liver, simmered\n"));
}

/* Marks between words are not printed; without them these would say something else. */
static void words_that_only_marks_keep_apart(void **state) {
  (void)state;
  round_trip(SPAN_LIT("100 g lamb, bone^-in, boneless [usda:17226]\n100 g lamb per * meal [usda:17226]\n"
                      "2 eggs raw * weight [usda:01123]\n"));
}

static void the_demo_household(void **state) {
  (void)state;
  static const char *const NAMES[] = {"weeknight-bowl", "rice-pot", "eighty-ten-ten", "pims-plate", "garden-stew"};
  for (size_t i = 0; i < COUNT_OF(NAMES); i++) {
    char path[512], text[8192];
    snprintf(path, sizeof path, "%s/examples/%s.recipe", BW_SOURCE_DIR, NAMES[i]);
    FILE *f = fopen(path, "rb");
    assert_non_null(f);
    size_t n = fread(text, 1, sizeof text, f);
    fclose(f);
    round_trip((struct span){text, n});
  }
}

/* An amount that was changed after reading: whole things stay counted, the rest becomes grams. */
static void changed_amounts(void **state) {
  (void)state;
  struct arena arena;
  struct reading r;
  struct buf out;
  arena_init(&arena, NULL);
  buf_init(&out, &arena, 4096);
  assert_true(read(SPAN_LIT("2 large eggs [usda:01123]\n1 large egg [usda:01123]\n"), &r, &arena));
  struct ration_line lines[3] = {r.ration.line[0], r.ration.line[1], r.ration.line[0]};
  lines[0].part[0].grams = lines[0].grams_fed = 150;
  lines[1].part[0].grams = lines[1].grams_fed = 60;
  lines[2].line = 0; /* added: no line of the text has it */
  r.ration.line = lines;
  r.ration.line_count = 3;
  recipe_print(built_library(), &r.recipe, &r.ration, &out);
  assert_string_equal(buf_text(&out), "3 large eggs [usda:01123]\n60 g egg [usda:01123]\n"
                                      "100 g, daily [usda:01123] # Egg, whole, raw, fresh\n");
  arena_free(&arena);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(every_form),         cmocka_unit_test(everything_cooked),
      cmocka_unit_test(found_by_words),     cmocka_unit_test(words_that_only_marks_keep_apart),
      cmocka_unit_test(the_demo_household), cmocka_unit_test(changed_amounts)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
