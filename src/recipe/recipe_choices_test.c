/* What a line leaves open. Weights of pieces are those of USDA SR28 (file of weights): potatoes (11352): medium
 * 213 g, large 369 g; carrots, raw (11124): small 50 g, large 72 g; egg, whole, raw (01123): large 50 g, extra large 56 g.
 * Household ranges are rows of data/household.tsv, written before this reader. Whatever an option writes is read again by
 * the ordinary reader. */
#include "recipe/recipe_choices.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

#include "tests/support/built_image.h"
#include "tests/support/near.h"

static struct diags d;
static struct recipe recipe;
static struct ration ration;
static struct choice option[CHOICES_MOST];

static bool resolve(const char *text) {
  struct span s = span_of(arena_text(&arena, span_of(text)));
  diags_init(&d, &arena, "t", s);
  return recipe_parse(s, &d, &recipe, &arena) && recipe_resolve(built_library(), &recipe, &d, &ration, &arena);
}

static double grams(const char *text) {
  assert_true(resolve(text));
  return ration.line[0].grams_fed;
}

/* Of the last line of the text. */
static size_t choices(const char *text) {
  assert_true(resolve(text));
  return recipe_choices(built_library(), &recipe, &recipe.line[recipe.line_count - 1], option, &arena);
}

static const struct choice *labelled(size_t count, const char *label) {
  for (size_t i = 0; i < count; i++)
    if (strstr(option[i].label, label)) return &option[i];
  print_error("no option '%s'\n", label);
  fail();
  return NULL;
}

static void a_household_measure(void **state) {
  (void)state;
  size_t n = choices("2 handfuls spinach  # one handful taken as 30 g (15 to 45 g)");
  assert_int_equal(n, 3);
  assert_near(grams(labelled(n, "little")->write), 30, 1e-9);
  assert_near(grams(labelled(n, "usual")->write), 60, 1e-9);
  assert_near(grams(labelled(n, "much")->write), 90, 1e-9);
  assert_true(labelled(n, "usual")->taken && !labelled(n, "much")->taken);
  /* What was assumed is not true any more; what the owner wrote stays. */
  assert_string_equal(labelled(n, "much")->write, "90 g spinach  # 2 handfuls");
  n = choices("2 handfuls spinach  # from the garden; one handful taken as 30 g");
  assert_string_equal(labelled(n, "little")->write, "30 g spinach  # 2 handfuls; from the garden");
}

static void a_range(void **state) {
  (void)state;
  size_t n = choices("Makes: 2 days\n\n100-160 g lamb heart, twice a week");
  assert_string_equal(labelled(n, "little")->write, "100 g lamb heart, twice a week  # 100-160 g");
  assert_string_equal(labelled(n, "much")->write, "160 g lamb heart, twice a week  # 100-160 g");
}

static void the_size_of_a_piece(void **state) {
  (void)state;
  size_t n = choices("2 potatoes");
  assert_near(grams(labelled(n, "medium")->write), 2 * 213, 1e-9);
  assert_near(grams(labelled(n, "large")->write), 2 * 369, 1e-9);
  n = choices("2 eggs");
  assert_near(grams(labelled(n, "extra large")->write), 2 * 56, 1e-9);
  assert_true(labelled(n, "large, 100")->taken);
  n = choices("2 carrots, raw");
  assert_near(grams(labelled(n, "small")->write), 2 * 50, 1e-9);
  assert_near(grams(labelled(n, "large")->write), 2 * 72, 1e-9);
  assert_true(labelled(n, "medium")->taken);
}

static void which_record(void **state) {
  (void)state;
  size_t n = choices("100 g salmon");
  const struct choice *wild = labelled(n, "wild");
  assert_false(wild->taken);
  assert_true(resolve(wild->write));
  assert_string_equal(library_name(built_library(), ration.line[0].shown_food), "Fish, salmon, Atlantic, wild, raw");
  assert_int_equal(choices(wild->write), 0); /* a pin ends all guessing */
}

static void raw_or_cooked(void **state) {
  (void)state;
  size_t n = choices("150 g brown rice");
  assert_true(resolve(labelled(n, "weighed dry")->write));
  uint32_t dry = ration.line[0].shown_food;
  assert_true(resolve(labelled(n, "weighed cooked")->write));
  assert_true(dry != ration.line[0].shown_food);
  /* A hundred grams of dry rice hold some three times the energy of cooked rice (SR28 20036, 20037). */
  assert_true(built_value(library_code(built_library(), dry), NUT_ENERGY) >
              2.5 * built_value(library_code(built_library(), ration.line[0].shown_food), NUT_ENERGY));
}

static void nothing_is_open(void **state) {
  (void)state;
  assert_int_equal(choices("200 g lamb heart, raw"), 0);
  assert_int_equal(choices("1 tbsp honey"), 0);
}

/* Every option, whatever the line: understood, and of the kind that its label says. */
static void every_option_is_read(void **state) {
  (void)state;
  static const char *const LINES[] = {"1 splash olive oil", "a pinch of salt",          "1 can sardines twice a week",
                                      "3 chicken feet",     "300 g beef mince",         "2 eggs daily",
                                      "1 pump salmon oil",  "- 1 banana # ripe",        "100 g oats",
                                      "100 g lentils",      "2 chicken wings, roasted", "1 tin tuna, drained"};
  for (size_t i = 0; i < COUNT_OF(LINES); i++) {
    struct choice kept[CHOICES_MOST];
    size_t n = choices(LINES[i]);
    memcpy(kept, option, sizeof kept);
    for (size_t k = 0; k < n; k++) {
      double taken = grams(LINES[i]);
      if (!resolve(kept[k].write)) print_error("%s -> %s\n", LINES[i], kept[k].write);
      assert_true(resolve(kept[k].write));
      if (kept[k].taken) assert_true(fabs(ration.line[0].grams_fed - taken) <= 0.02 * taken);
    }
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_household_measure),  cmocka_unit_test(a_range),       cmocka_unit_test(the_size_of_a_piece),
      cmocka_unit_test(which_record),         cmocka_unit_test(raw_or_cooked), cmocka_unit_test(nothing_is_open),
      cmocka_unit_test(every_option_is_read),
  };
  return cmocka_run_group_tests(tests, fresh, done);
}
