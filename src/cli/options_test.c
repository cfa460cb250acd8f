/* The table of options is a contract of our own: what it says is checked against docs/manual/commands.md, pounds against the
 * international avoirdupois pound (0.45359237 kg, agreement of 1959). */
#include "cli/help.c"    /* the program is no library: */
#include "cli/options.c" /* its parts are taken in as text */

#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>

#include <cmocka.h>

enum { MOST_ARGUMENTS = 24 };
static struct arena arena;
static struct buf complaint;
static struct options o;

static int setup(void **state) {
  (void)state;
  arena_init(&arena, NULL);
  return 0;
}

static int teardown(void **state) {
  (void)state;
  arena_free(&arena);
  return 0;
}

/* Arguments are separated by '|'. */
static bool parse(const char *line) {
  char *argv[MOST_ARGUMENTS + 1] = {arena_text(&arena, SPAN_LIT("bowlwright"))};
  int argc = 1;
  for (struct span rest = span_of(line); rest.n > 0;) {
    const char *bar = memchr(rest.p, '|', rest.n);
    size_t n = bar ? (size_t)(bar - rest.p) : rest.n;
    assert_true(argc < MOST_ARGUMENTS);
    argv[argc++] = arena_text(&arena, span_cut(rest, 0, n));
    rest = span_cut(rest, bar ? n + 1 : n, rest.n);
  }
  buf_init(&complaint, &arena, 4096);
  return options_parse(argc, argv, &o, &complaint, &arena);
}

static bool near(double a, double b) { return fabs(a - b) <= 1e-9; }

static void options_stand_anywhere(void **state) {
  (void)state;
  static const char *const LINES[] = {"check|a.recipe|b.recipe|--json|--sure|90|--dog|18",
                                      "--json|check|--sure=90|a.recipe|--dog=18kg|b.recipe",
                                      "check|--dog|18 kg|--sure|90%|--json|--|a.recipe|b.recipe"};
  for (size_t i = 0; i < COUNT_OF(LINES); i++) {
    assert_true(parse(LINES[i]));
    assert_int_equal(o.verb, VERB_CHECK);
    assert_int_equal(o.operand.count, 2);
    assert_string_equal(o.operand.item[0], "a.recipe");
    assert_string_equal(o.operand.item[1], "b.recipe");
    assert_true(o.json && !o.strict);
    assert_true(near(o.check.sure, 0.90));
    assert_true(near(o.dog_kg, 18.0));
  }
}

static void two_hyphens_end_the_options(void **state) {
  (void)state;
  assert_true(parse("check|--dog|18|--|--json|-"));
  assert_false(o.json);
  assert_int_equal(o.operand.count, 2);
  assert_string_equal(o.operand.item[0], "--json");
  assert_string_equal(o.operand.item[1], "-");
}

static void defaults(void **state) {
  (void)state;
  assert_true(parse("check|-|--dog|18"));
  assert_int_equal(o.check.standard, STANDARD_NRC2006);
  assert_int_equal(o.check.basis, BASIS_WEIGHT);
  assert_int_equal(o.check.energy_by, ENERGY_ATWATER);
  assert_true(near(o.check.sure, 0.75));
  assert_true(isnan(o.cat_kg));
  assert_int_equal(o.width, 0);
}

static void words_and_repeats(void **state) {
  (void)state;
  assert_true(
      parse("check|x|--standard|FEDIAF2021|--basis|energy|--energy-by=four-step|--for|a|--for|b|--foods|c|--foods|d"));
  assert_int_equal(o.check.standard, STANDARD_FEDIAF2021);
  assert_int_equal(o.check.basis, BASIS_ENERGY);
  assert_int_equal(o.check.energy_by, ENERGY_FOUR_STEP);
  assert_int_equal(o.for_whom.count, 2);
  assert_int_equal(o.foods.count, 2);
  assert_string_equal(o.foods.item[1], "d");
}

static void weights(void **state) {
  (void)state;
  assert_true(parse("need|--dog|40lb"));
  assert_true(near(o.dog_kg, 40 * 0.45359237));
  assert_true(parse("need|--cat=4600 g"));
  assert_true(near(o.cat_kg, 4.6));
  assert_true(parse("need|--cat|4.6KG"));
  static const char *const WRONG[] = {"0",   "-4",       "",        "4,6kg", "inf",   "nan",
                                      "1e1", "4.6 cups", "4.6kgs4", "9999",  "18kg!", "kg"};
  for (size_t i = 0; i < COUNT_OF(WRONG); i++) {
    struct buf line;
    buf_init(&line, &arena, 256);
    buf_addf(&line, "need|--cat=%s", WRONG[i]);
    assert_false(parse(buf_text(&line)));
    assert_true(complaint.n > 0);
  }
}

static void complaints_name_the_nearest(void **state) {
  (void)state;
  static const struct {
    const char *line, *says;
  } CASES[] = {{"chek|x", "'check'"},
               {"librery", "'library'"},
               {"check|x|--jsn", "'--json'"},
               {"mend|x|--proposals|2.5", "a whole number, not '2.5'"},
               {"serve|--port|80.5", "a whole number"},
               {"check|x|--stand|a", "'--standard'"},
               {"check|x|--dog|18|--basis|weigth", "'weight'"},
               {"fods|x", "'foods'"}};
  for (size_t i = 0; i < COUNT_OF(CASES); i++) {
    assert_false(parse(CASES[i].line));
    assert_non_null(strstr(buf_text(&complaint), CASES[i].says));
  }
  assert_false(parse("xylophone|x"));
  assert_null(strstr(buf_text(&complaint), "did you mean"));
}

/* Every option of a verb is explained there, nothing else is, and no line is wider than a terminal. */
static void help_is_whole(void **state) {
  (void)state;
  for (int v = 0; v < VERB_COUNT; v++) {
    struct buf out;
    buf_init(&out, &arena, 64 * 1024);
    help_verb((enum verb)v, &out);
    for (int i = 0; i < OPT_COUNT; i++) {
      struct buf want;
      buf_init(&want, &arena, 64);
      buf_addf(&want, "\n  --%s%s", option_spec[i].word, option_spec[i].value ? " " : "");
      bool has = strstr(buf_text(&out), buf_text(&want)) != NULL;
      assert_int_equal(has, (option_spec[i].verbs >> v) & 1U);
    }
    assert_non_null(strstr(buf_text(&out), verb_spec[v].example));
    size_t column = 0;
    for (size_t i = 0; i < out.n; i++) {
      column = out.p[i] == '\n' ? 0 : column + 1;
      assert_true(column <= 80);
    }
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(options_stand_anywhere, setup, teardown),
      cmocka_unit_test_setup_teardown(two_hyphens_end_the_options, setup, teardown),
      cmocka_unit_test_setup_teardown(defaults, setup, teardown),
      cmocka_unit_test_setup_teardown(words_and_repeats, setup, teardown),
      cmocka_unit_test_setup_teardown(weights, setup, teardown),
      cmocka_unit_test_setup_teardown(complaints_name_the_nearest, setup, teardown),
      cmocka_unit_test_setup_teardown(help_is_whole, setup, teardown),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
