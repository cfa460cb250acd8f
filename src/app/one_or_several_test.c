/* One and several: in all units, and of what is counted without one. The forms are those of English, by hand. */
#include "app/mend_parts.h"

#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

#include "tests/support/built_image.h"

static struct arena arena;

/* A line with its amount multiplied. */
static const char *times(const char *text, double factor) {
  struct text_edit e = {.lib = built_library(), .arena = &arena};
  struct diags d;
  struct recipe r;
  diags_init(&d, &arena, "", span_of(text));
  if (!recipe_parse(span_of(text), &d, &r, &arena) || r.line_count != 1) fail_msg("not read: %s", text);
  return text_line_times(&e, span_of(text), &r.line[0], factor);
}

/* Of two: half of it is one, a quarter a half; and twice one is two. */
static void each_unit_follows_its_number(void **state) {
  (void)state;
  static const struct {
    const char *two, *one, *half;
  } LINE[] = {
      {"2 cups boiled carrots", "1 cup boiled carrots", "1/2 cup boiled carrots"},
      {"2 teaspoons olive oil", "1 teaspoon olive oil", "1/2 teaspoon olive oil"},
      {"2 tablespoons olive oil", "1 tablespoon olive oil", "1/2 tablespoon olive oil"},
      {"2 tsp olive oil", "1 tsp olive oil", "1/2 tsp olive oil"},
      {"2 tbsp olive oil", "1 tbsp olive oil", "1/2 tbsp olive oil"},
      {"2 ounces beef liver", "1 ounce beef liver", "0.5 ounce beef liver"},
      {"2 pounds beef heart", "1 pound beef heart", "0.5 pound beef heart"},
      {"2 spoons pumpkin puree", "1 spoon pumpkin puree", "1/2 spoon pumpkin puree"},
      {"2 handfuls spinach", "1 handful spinach", "1/2 handful spinach"},
      {"2 dollops yogurt", "1 dollop yogurt", "1/2 dollop yogurt"},
      {"2 pumps salmon oil", "1 pump salmon oil", "1/2 pump salmon oil"},
      {"2 large eggs", "1 large egg", "1/2 large egg"},
      {"2 eggs", "1 egg", "1/2 egg"},
      {"2 raw egg whites", "1 raw egg white", "1/2 raw egg white"},
      {"2 egg yolks, raw", "1 egg yolk, raw", "1/2 egg yolk, raw"},
      {"2 chicken feet", "1 chicken foot", "1/2 chicken foot"},
      {"2 medium carrots, boiled", "1 medium carrot, boiled", "1/2 medium carrot, boiled"},
      {"2 cans sardines in water, drained", "1 can sardines in water, drained", "1/2 can sardines in water, drained"},
      {"2 slices bacon", "1 slice bacon", "1/2 slice bacon"}};
  for (size_t i = 0; i < COUNT_OF(LINE); i++) {
    assert_string_equal(times(LINE[i].two, 0.5), LINE[i].one);
    assert_string_equal(times(LINE[i].two, 0.25), LINE[i].half);
    assert_string_equal(times(LINE[i].one, 2), LINE[i].two);
  }
}

/* What is weighed is no number of things, and what stands behind "in" is not counted. */
static void what_is_not_counted_stays(void **state) {
  (void)state;
  assert_string_equal(times("200 g carrots", 0.5), "100 g carrots");
  assert_string_equal(times("2 g eggs", 0.5), "1 g eggs");
  assert_string_equal(times("4 eggs", 0.5), "2 eggs");
}

static void words_have_two_forms(void **state) {
  (void)state;
  static const char *const FORM[][2] = {
      {"pinch", "pinches"}, {"berry", "berries"}, {"potato", "potatoes"}, {"leaf", "leaves"}, {"capsule", "capsules"},
      {"drop", "drops"},    {"foot", "feet"},     {"box", "boxes"},       {"tray", "trays"},  {"tablet", "tablets"}};
  for (size_t i = 0; i < COUNT_OF(FORM); i++) {
    struct buf one, many;
    buf_init(&one, &arena, 40);
    buf_init(&many, &arena, 40);
    assert_true(word_as_one(&one, span_of(FORM[i][1])) && word_as_several(&many, span_of(FORM[i][0])));
    assert_string_equal(buf_text(&one), FORM[i][0]);
    assert_string_equal(buf_text(&many), FORM[i][1]);
    buf_init(&one, &arena, 40);
    assert_false(word_as_one(&one, span_of(FORM[i][0])) || word_as_several(&one, span_of(FORM[i][1])));
  }
  for (int u = 0; u < UNIT_COUNT; u++) { /* as the table of units has them */
    struct buf one, many;
    if (!unit_info[u].many) continue;
    buf_init(&one, &arena, 40);
    buf_init(&many, &arena, 40);
    assert_true(word_as_one(&one, span_of(unit_info[u].many)) && word_as_several(&many, span_of(unit_info[u].word)));
    assert_string_equal(buf_text(&one), unit_info[u].word);
    assert_string_equal(buf_text(&many), unit_info[u].many);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(each_unit_follows_its_number),
                                     cmocka_unit_test(what_is_not_counted_stays), cmocka_unit_test(words_have_two_forms)};
  arena_init(&arena, NULL);
  return cmocka_run_group_tests(tests, NULL, NULL);
}
