/* The table of options is a contract of our own: what it says is checked against docs/manual/commands.md, pounds against the
 * international avoirdupois pound (0.45359237 kg, agreement of 1959). */
#include "cli/help.c"    /* the program is no library: */
#include "cli/options.c" /* its parts are taken in as text */
#include "cli/verbs.c"

#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

/* Nothing is run here. */
#define X(id, function)                                                                                                     \
  int verb_##function(struct run *s) {                                                                                      \
    (void)s;                                                                                                                \
    return EXIT_TROUBLE;                                                                                                    \
  }
VERB_LIST(X)
#undef X

enum { MOST_ARGUMENTS = 24 };
static struct buf complaint;
static struct options o;

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
    assert_true(near(o.ask.check.sure, 0.90));
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
  assert_int_equal(o.ask.check.standard, STANDARD_NRC2006);
  assert_int_equal(o.ask.check.basis, BASIS_WEIGHT);
  assert_int_equal(o.ask.check.energy_by, ENERGY_ATWATER);
  assert_true(near(o.ask.check.sure, 0.75));
  assert_true(isnan(o.cat_kg));
  assert_int_equal(o.width, 0);
}

static void words_and_repeats(void **state) {
  (void)state;
  assert_true(
      parse("check|x|--standard|FEDIAF2021|--basis|energy|--energy-by=four-step|--for|a|--for|b|--foods|c|--foods|d"));
  assert_int_equal(o.ask.check.standard, STANDARD_FEDIAF2021);
  assert_int_equal(o.ask.check.basis, BASIS_ENERGY);
  assert_int_equal(o.ask.check.energy_by, ENERGY_FOUR_STEP);
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

static struct span manual_text(void) {
  FILE *f = fopen(BW_SOURCE_DIR "/docs/manual/commands.md", "rb");
  assert_non_null(f);
  char *text = arena_alloc(&arena, 1 << 18, 1);
  size_t n = fread(text, 1, (1 << 18) - 1, f);
  fclose(f);
  text[n] = '\0';
  return (struct span){text, n};
}

/* "| `--port N` | serve | ... |": the middle cell of the row that names an option with its value. */
static struct span manual_verbs(struct span manual, const struct option *row) {
  struct buf want;
  buf_init(&want, &arena, 256);
  buf_addf(&want, "`--%s", row->word);
  struct buf value;
  buf_init(&value, &arena, 256);
  option_value(row, &value);
  for (size_t i = 0; i < value.n; i++)
    buf_addf(&want, "%s%s%c", i == 0 ? " " : "", value.p[i] == '|' ? "\\" : "", value.p[i]);
  buf_addc(&want, '`');
  const char *table = strstr(manual.p, "\n## Options\n"), *at = table ? strstr(table, buf_text(&want)) : NULL;
  if (!at) fail_msg("the manual's table has no %s", buf_text(&want));
  const char *from = strstr(at, " | "), *to = from ? strstr(from + 3, " | ") : NULL;
  assert_non_null(to);
  return (struct span){from + 3, (size_t)(to - from - 3)};
}

/* "check, mend, side"; "all" is every verb, "all but serve" every other. */
static bool named(struct span verbs, const char *verb) {
  bool all = span_starts_fold(verbs, "all"), said = false;
  for (size_t i = 0; i < verbs.n;) {
    size_t n = strcspn(verbs.p + i, ", |");
    said |= span_is(span_cut(verbs, i, i + n), verb);
    i += n + 1;
  }
  return all != said;
}

static int options_in(struct span manual) {
  int count = 0;
  const char *from = strstr(manual.p, "\n## Options\n"), *end = strstr(from, "\nColour is used");
  for (const char *at = from; (at = strstr(at, "`--")) && at < end; at += 3) {
    const char *line = at;
    while (line[-1] != '\n') line--;
    /* Only the first cell of a row names options. */
    const char *bar = strstr(line, " | ");
    count += line[0] == '|' && at < bar;
  }
  return count;
}

/* Every option of a verb is explained there, nothing else is, and no line is wider than a terminal. */
static void help_is_whole(void **state) {
  (void)state;
  for (int v = 0; v < VERB_COUNT; v++) {
    struct buf out;
    buf_init(&out, &arena, 64 * 1024);
    help_verb((enum verb)v, &out);
    const struct option *row;
    for (int i = 0; (row = option_row(i)); i++) {
      struct buf want;
      buf_init(&want, &arena, 64);
      buf_addf(&want, "\n  --%s%s", row->word, row->kind != OPTION_FLAG ? " " : "");
      bool has = strstr(buf_text(&out), buf_text(&want)) != NULL;
      assert_int_equal(has, (row->verbs >> v) & 1U);
    }
    assert_non_null(strstr(buf_text(&out), verb_spec[v].example));
    size_t column = 0;
    for (size_t i = 0; i < out.n; i++) {
      column = out.p[i] == '\n' ? 0 : column + 1;
      assert_true(column <= 80);
    }
  }
}

/* The manual's two tables name every verb and every option with its value, and for each option the verbs that have it:
 * docs/manual/commands.md is written by hand, the rows are what the program does. */
static void the_manual_agrees(void **state) {
  (void)state;
  struct span manual = manual_text();
  const struct option *row;
  for (int v = 0; v < VERB_COUNT; v++) {
    struct buf want;
    buf_init(&want, &arena, 64);
    buf_addf(&want, "\n| `%s", verb_spec[v].word);
    if (!strstr(manual.p, buf_text(&want))) fail_msg("the manual has no verb %s", verb_spec[v].word);
  }
  int rows = 0;
  for (int i = 0; (row = option_row(i)); i++) {
    if (!row->verbs) continue;
    rows++;
    struct span verbs = manual_verbs(manual, row);
    for (int v = 0; v < VERB_COUNT; v++)
      if (named(verbs, verb_spec[v].word) != (((row->verbs >> v) & 1U) != 0))
        fail_msg("--%s: the manual says '%.*s', and of %s the program says otherwise", row->word, SPAN_ARG(verbs),
                 verb_spec[v].word);
  }
  assert_int_equal(options_in(manual), rows);
}

/* Texts of programs: the same rows, without hyphens; what is not understood is said. */
static void requests_are_texts(void **state) {
  (void)state;
  struct request r = REQUEST_DEFAULT;
  buf_init(&complaint, &arena, 4096);
  assert_true(request_read(SPAN_LIT("standard=fediaf2021\n\nsure=90\neveryday\nany-part=no\nline=lamb liver\nmost=8\n"
                                    "today=2026-11-02\nkeep=1\nkeep=heart = raw"),
                           &r, &complaint, &arena));
  assert_int_equal(r.check.standard, STANDARD_FEDIAF2021);
  assert_true(near(r.check.sure, 0.9) && r.everyday && !r.any_part);
  assert_string_equal(r.line, "lamb liver");
  assert_int_equal(r.most, 8);
  assert_int_equal(r.today.day, 2);
  assert_int_equal(r.keep.count, 2);
  assert_string_equal(r.keep.item[1], "heart = raw");
  static const char *const WRONG[] = {
      "sure=40",    "most=0", "today=2026-02-30", "standard=1", "everyday=perhaps", "nonsense",
      "--everyday", "line=",  "eaten=nan"};
  for (size_t i = 0; i < COUNT_OF(WRONG); i++) {
    buf_init(&complaint, &arena, 4096);
    if (request_read(span_of(WRONG[i]), &r, &complaint, &arena)) fail_msg("taken: %s", WRONG[i]);
    assert_true(complaint.n > 0);
  }
  assert_false(parse("swap|x|1|--dog|18|--most|5")); /* a row of programs alone */
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(options_stand_anywhere, fresh, done),
      cmocka_unit_test_setup_teardown(two_hyphens_end_the_options, fresh, done),
      cmocka_unit_test_setup_teardown(defaults, fresh, done),
      cmocka_unit_test_setup_teardown(words_and_repeats, fresh, done),
      cmocka_unit_test_setup_teardown(weights, fresh, done),
      cmocka_unit_test_setup_teardown(complaints_name_the_nearest, fresh, done),
      cmocka_unit_test_setup_teardown(help_is_whole, fresh, done),
      cmocka_unit_test_setup_teardown(the_manual_agrees, fresh, done),
      cmocka_unit_test_setup_teardown(requests_are_texts, fresh, done),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
