/* Numbers and names as people read them. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

#include "words/words.h"

static void a_chance_is_never_certain(void **state) {
  (void)state;
  assert_string_equal(words_chance(&arena, 1.0), ">99 %");
  assert_string_equal(words_chance(&arena, 0.9999), ">99 %");
  assert_string_equal(words_chance(&arena, 0.992), ">99 %");
  assert_string_equal(words_chance(&arena, 0.99), "99 %");
  assert_string_equal(words_chance(&arena, 0.625), "63 %");
  assert_string_equal(words_chance(&arena, 0.01), "1 %");
  assert_string_equal(words_chance(&arena, 0.007), "under 1 %");
  assert_string_equal(words_chance(&arena, 0.0), "under 1 %");
  assert_string_equal(words_chance_short(&arena, 0.0), "<1 %");
  assert_string_equal(words_chance(&arena, (double)NAN), "");
}

static void a_share_may_be_nothing_or_all(void **state) {
  (void)state;
  assert_string_equal(words_share(&arena, 0), "0 %");
  assert_string_equal(words_share(&arena, 1), "100 %");
  assert_string_equal(words_share(&arena, 0.9999), ">99 %");
  assert_string_equal(words_share(&arena, 0.001), "under 1 %");
  assert_string_equal(words_share_short(&arena, 0.001), "<1 %");
  assert_string_equal(words_share(&arena, 3.926), "393 %");
}

static void unknown_is_never_zero(void **state) {
  (void)state;
  assert_string_equal(words_number(&arena, (double)NAN), "not known");
  assert_string_equal(words_number(&arena, (double)INFINITY), "not known");
  assert_string_equal(words_amount(&arena, (double)NAN, "mg"), "not known");
  assert_string_equal(words_share(&arena, (double)NAN), "not known");
  assert_string_equal(words_whole(&arena, (double)NAN), "not known");
  assert_string_equal(words_number(&arena, 0), "0");
  assert_string_equal(words_number(&arena, 1e-7), "<0.001"); /* small is not nothing */
}

static void numbers_keep_what_means_something_in_six_columns(void **state) {
  (void)state;
  static const struct {
    double x;
    const char *text;
  } SAID[] = {{11.23, "11.2"},     {17.05, "17.1"},  {0.5678, "0.568"},  {0.0514, "0.0514"},
              {0.00456, "0.0046"}, {1483.2, "1483"}, {12270, "12270"},   {812, "812"},
              {100, "100"},        {99.96, "100"},   {1234567, "1.2e6"}, {0.0007, "<0.001"}};
  for (size_t i = 0; i < COUNT_OF(SAID); i++) assert_string_equal(words_number(&arena, SAID[i].x), SAID[i].text);
  for (double x = 1e-9; x < 1e12; x *= 1.37) assert_in_range(strlen(words_number(&arena, x)), 1, 6);
}

/* Two figures at most of how many times as much, and never two decimals. */
static void times_are_said_in_few_figures(void **state) {
  (void)state;
  static const struct {
    double x;
    const char *text;
  } SAID[] = {{1.65, "1.7 times"}, {1.97, "twice"},    {2.32, "2.3 times"}, {3, "3 times"},
              {9.96, "10 times"},  {53.1, "53 times"}, {0.794, "0.8 times"}};
  for (size_t i = 0; i < COUNT_OF(SAID); i++) assert_string_equal(words_times(&arena, SAID[i].x), SAID[i].text);
  for (double x = 0.07; x < 1e4; x *= 1.13) {
    const char *point = strchr(words_times(&arena, x), '.');
    assert_true(!point || point[2] == ' ');
  }
}

static void amounts_keep_their_unit(void **state) {
  (void)state;
  assert_string_equal(words_amount(&arena, 0.0514, "g"), "0.0514 g");
  assert_string_equal(words_amount(&arena, 12000, "mg"), "12000 mg");
  assert_string_equal(words_amount(&arena, 2, ""), "2");
  assert_string_equal(words_amount(&arena, 2, NULL), "2");
  assert_string_equal(words_mass(&arena, 0.0514), "51.4 mg");
  assert_string_equal(words_mass(&arena, 12), "12 g");
  assert_string_equal(words_mass(&arena, 0), "0 g");
  assert_string_equal(words_mass(&arena, (double)NAN), "not known");
}

static void lists_read_like_sentences(void **state) {
  (void)state;
  const char *item[] = {"zinc", "iodine", "vitamin E", "choline"};
  assert_string_equal(words_list(&arena, item, 1, 9), "zinc");
  assert_string_equal(words_list(&arena, item, 2, 9), "zinc and iodine");
  assert_string_equal(words_list(&arena, item, 4, 9), "zinc, iodine, vitamin E and choline");
  assert_string_equal(words_list(&arena, item, 4, 2), "zinc, iodine and 2 more");
  assert_string_equal(words_list(&arena, item, 0, 2), "");
}

static void nutrients_fit_into_a_sentence(void **state) {
  (void)state;
  assert_string_equal(words_nutrient(&arena, NUT_ZINC), "zinc");
  assert_string_equal(words_nutrient(&arena, NUT_VITAMIN_A), "vitamin A");
  assert_string_equal(words_nutrient(&arena, NUT_EPA_DHA), "EPA + DHA");
}

static void a_food_in_its_line(void **state) {
  static const char RICE[] = "5 g licorice root with rice flour", EGG[] = "2 eggs";
  (void)state;
  assert_ptr_equal(words_in_line(RICE, "rice flour"), RICE + 23);
  assert_ptr_equal(words_in_line(RICE, "rice"), RICE + 23);
  assert_ptr_equal(words_in_line(EGG, "egg"), EGG + 2);
  assert_null(words_in_line("60 g eggplant with nutmeg", "meg"));
  assert_null(words_in_line("", "rice"));
}

static void frequencies_in_words(void **state) {
  (void)state;
  assert_string_equal(words_frequency(&arena, 28), "daily");
  assert_string_equal(words_frequency(&arena, 14), "every other day");
  assert_string_equal(words_frequency(&arena, 4), "weekly");
  assert_string_equal(words_frequency(&arena, 8), "2 days in 7");
  assert_string_equal(words_frequency(&arena, 5), "5 days in 28");
  assert_string_equal(words_frequency(&arena, 1), "once in 28 days");
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_chance_is_never_certain),
      cmocka_unit_test(a_share_may_be_nothing_or_all),
      cmocka_unit_test(unknown_is_never_zero),
      cmocka_unit_test(numbers_keep_what_means_something_in_six_columns),
      cmocka_unit_test(times_are_said_in_few_figures),
      cmocka_unit_test(amounts_keep_their_unit),
      cmocka_unit_test(lists_read_like_sentences),
      cmocka_unit_test(nutrients_fit_into_a_sentence),
      cmocka_unit_test(a_food_in_its_line),
      cmocka_unit_test(frequencies_in_words),
  };
  return cmocka_run_group_tests(tests, fresh, done);
}
