/* Numbers and names as people read them. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "report/say.h"

static struct arena arena;
static struct buf out;
static struct pen pen;

static int start(void **state) {
  (void)state;
  arena_init(&arena, NULL);
  buf_init(&out, &arena, (size_t)1 << 16);
  pen = pen_start(&(struct report_style){.width = 80, .unicode = true}, &out);
  return 0;
}
static int stop(void **state) {
  (void)state;
  arena_free(&arena);
  return 0;
}

static void a_chance_is_never_certain(void **state) {
  (void)state;
  assert_string_equal(say_chance(&pen, 1.0), ">99" NBSP "%");
  assert_string_equal(say_chance(&pen, 0.9999), ">99" NBSP "%");
  assert_string_equal(say_chance(&pen, 0.99), "99" NBSP "%");
  assert_string_equal(say_chance(&pen, 0.625), "63" NBSP "%");
  assert_string_equal(say_chance(&pen, 0.01), "1" NBSP "%");
  assert_string_equal(say_chance(&pen, 0.0099), "<1" NBSP "%");
  assert_string_equal(say_chance(&pen, 0.0), "<1" NBSP "%");
  assert_string_equal(say_chance(&pen, (double)NAN), "");
}

static void unknown_is_never_zero(void **state) {
  (void)state;
  assert_string_equal(say_amount(&pen, (double)NAN), "not known");
  assert_string_equal(say_amount(&pen, (double)INFINITY), "not known");
  assert_string_equal(say_with_unit(&pen, (double)NAN, "mg"), "not" NBSP "known");
  assert_string_equal(say_percent(&pen, (double)NAN), "not known");
  assert_string_equal(say_whole(&pen, (double)NAN), "not known");
  assert_string_equal(say_amount(&pen, 0), "0");
  assert_string_equal(say_amount(&pen, 1e-7), "<0.001"); /* small is not nothing */
  assert_string_equal(say_percent(&pen, 0.001), "<1" NBSP "%");
}

static void amounts_keep_three_digits_in_six_columns(void **state) {
  (void)state;
  static const struct {
    double x;
    const char *text;
  } SAID[] = {{11.23, "11.2"},  {17.05, "17.1"}, {0.5678, "0.568"}, {0.0123, "0.012"}, {0.00456, "0.005"}, {1483.2, "1483"},
              {12270, "12270"}, {812, "812"},    {100, "100"},      {99.96, "100"},    {1234567, "1.2e6"}};
  for (size_t i = 0; i < COUNT_OF(SAID); i++) assert_string_equal(say_amount(&pen, SAID[i].x), SAID[i].text);
  for (double x = 1e-9; x < 1e12; x *= 1.37) assert_in_range(text_columns(&pen, say_amount(&pen, x)), 1, 6);
}

static void lists_read_like_sentences(void **state) {
  (void)state;
  const char *item[] = {"zinc", "iodine", "vitamin E", "choline"};
  assert_string_equal(say_list(&pen, item, 1, 9), "zinc");
  assert_string_equal(say_list(&pen, item, 2, 9), "zinc and iodine");
  assert_string_equal(say_list(&pen, item, 4, 9), "zinc, iodine, vitamin" NBSP "E and choline");
  assert_string_equal(say_list(&pen, item, 4, 2), "zinc, iodine and 2" NBSP "more");
  assert_string_equal(say_list(&pen, item, 0, 2), "");
}

static void nutrients_fit_into_a_sentence(void **state) {
  (void)state;
  assert_string_equal(say_nutrient(&pen, NUT_ZINC), "zinc");
  assert_string_equal(say_nutrient(&pen, NUT_VITAMIN_A), "vitamin A");
  assert_string_equal(say_nutrient(&pen, NUT_EPA_DHA), "EPA + DHA");
}

/* The recipe lines of the interface's own example. */
static void a_line_is_named_by_its_food(void **state) {
  (void)state;
  static const char *const TEXT[][2] = {
      {"600 g lamb shoulder, cubed, raw", "lamb shoulder"},
      {"1 1/2 tsp ground hemp seed", "ground hemp seed"},
      {"2 large eggs, every other day", "eggs"},
      {"1 can (4.4 oz) mackerel in brine, drained, weekly", "mackerel in brine"},
      {"½ cup cooked millet", "cooked millet"},
      {"40 g lamb liver [usda:17199]", "lamb liver"},
      {"a pinch of kelp", "kelp"},
      {"- salmon oil 1/2 tsp, twice a week", "salmon oil"},
      {"1 capsule vitamin E 200 IU", "vitamin E"},
      {"900 g turkey mince 93/7", "turkey mince 93/7"},
      {"45% beef mince 80/20", "beef mince 80/20"},
  };
  struct ration_line line = {.shown_food = NO_INDEX};
  struct ration ration = {.line = &line, .line_count = 1};
  struct library lib = {.own_count = 0};
  for (size_t i = 0; i < COUNT_OF(TEXT); i++) {
    line.text = TEXT[i][0];
    assert_string_equal(say_food(&pen, &lib, &ration, 0), TEXT[i][1]);
  }
  assert_string_equal(say_food(&pen, &lib, &ration, 7), "a food");
}

static void frequencies_in_words(void **state) {
  (void)state;
  assert_string_equal(say_frequency(&pen, 28), "daily");
  assert_string_equal(say_frequency(&pen, 14), "every other day");
  assert_string_equal(say_frequency(&pen, 4), "weekly");
  assert_string_equal(say_frequency(&pen, 8), "2 days in 7");
  assert_string_equal(say_frequency(&pen, 5), "5 days in 28");
  assert_string_equal(say_frequency(&pen, 1), "once in 28 days");
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_chance_is_never_certain),
      cmocka_unit_test(unknown_is_never_zero),
      cmocka_unit_test(amounts_keep_three_digits_in_six_columns),
      cmocka_unit_test(lists_read_like_sentences),
      cmocka_unit_test(nutrients_fit_into_a_sentence),
      cmocka_unit_test(a_line_is_named_by_its_food),
      cmocka_unit_test(frequencies_in_words),
  };
  return cmocka_run_group_tests(tests, start, stop);
}
