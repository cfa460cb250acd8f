#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>

#include <cmocka.h>

#include "text/plain.h"

static struct arena arena;

/* Left: lines as docs/manual/recipe-text.md has them (pins, remarks, ranges). Right: what a person would say of them. */
static void what_is_for_the_program_is_left_out(void **state) {
  static const char *const SAID[][2] = {{"250 g beef mince", "250 g beef mince"},
                                        {"250 g beef mince [usda:23572]", "250 g beef mince"},
                                        {"3 g kelp [ours:kelp], weekly # by the cup", "3 g kelp, weekly"},
                                        {"250 g (125-375 g) beef mince  # a cup, heaped or not", "250 g beef mince"},
                                        {"67.5-202.5 g beef mince", "about 135 g beef mince"},
                                        {"1 can (106 g) sardines", "1 can (106 g) sardines"},
                                        {"200 g chicken thigh (skin-on)", "200 g chicken thigh (skin-on)"},
                                        {"2-1 g salt", "2-1 g salt"},
                                        {"0.333333 cup peas", "1/3 cup peas"},
                                        {"0.5 tsp eggshell powder", "1/2 tsp eggshell powder"},
                                        {"0.5 g ground eggshell", "0.5 g ground eggshell"},
                                        {"0.25 lb turkey", "0.25 lb turkey"},
                                        {"10.5 tsp oil", "10.5 tsp oil"},
                                        {"- 40 g herring, raw weight, steamed", "40 g herring, raw weight, steamed"},
                                        {"* 2 tbsp pumpkin puree # from a tin", "2 tbsp pumpkin puree"},
                                        {"\xE2\x80\xA2 1 egg yolk", "1 egg yolk"},
                                        {"", ""}};
  (void)state;
  for (size_t i = 0; i < COUNT_OF(SAID); i++) assert_string_equal(plain_line(SAID[i][0], &arena), SAID[i][1]);
}

static void what_every_line_of_a_day_has_is_left_out(void **state) {
  (void)state;
  assert_string_equal(plain_of_a_day("100 g pork liver, Per day", &arena), "100 g pork liver");
  assert_string_equal(plain_of_a_day("1 egg, every day", &arena), "1 egg");
  assert_string_equal(plain_of_a_day("1 egg, every other day", &arena), "1 egg, every other day");
  assert_string_equal(plain_of_a_day("1 egg, weekly", &arena), "1 egg, weekly");
  assert_string_equal(plain_of_a_day(", daily", &arena), ", daily");
}

int main(void) {
  static const struct CMUnitTest tests[] = {cmocka_unit_test(what_is_for_the_program_is_left_out),
                                            cmocka_unit_test(what_every_line_of_a_day_has_is_left_out)};
  arena_init(&arena, NULL);
  int failed = cmocka_run_group_tests(tests, NULL, NULL);
  arena_free(&arena);
  return failed;
}
