#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

#include "tests/support/near.h"
#include "text/scan.h"

/* The text in a block of exactly its size. */
static struct span block(const char *p, size_t n) {
  char *copy = malloc(n > 0 ? n : 1);
  assert_non_null(copy);
  if (n > 0) memcpy(copy, p, n);
  return (struct span){copy, n};
}

static size_t errors_of(const char *p, size_t n, size_t most, size_t line_most, struct diags *d) {
  struct span text = block(p, n);
  diags_init(d, &arena, "t", text);
  bool fits = text_fit(text, most, line_most, d);
  assert_int_equal(fits, d->errors == 0);
  free((void *)(uintptr_t)text.p);
  return d->errors;
}
#define ERRORS(literal, d) errors_of((literal), sizeof(literal) - 1, 1000, 100, (d))

/* Well-formed and ill-formed sequences: The Unicode Standard, table 3-7. */
static void utf8_as_the_standard_says(void **state) {
  (void)state;
  struct diags d;
  assert_int_equal(ERRORS("caf\xC3\xA9 \xE2\x82\xAC \xF0\x9F\x90\x95", &d), 0);
  static const char *const BAD[] = {
      "\xC0\xAF", "\xE0\x80\xAF", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\x80",
      "\xE2\x82", "\xC3",         "\xFF",         "\xF0\x8F\xBF\xBF"};
  for (size_t i = 0; i < COUNT_OF(BAD); i++) assert_int_equal(errors_of(BAD[i], strlen(BAD[i]), 1000, 100, &d), 1);
}

static void one_complaint_a_line(void **state) {
  (void)state;
  struct diags d;
  assert_int_equal(ERRORS("ab\xFF\xFE\n\xC3\xA9g\xFF\nfine\n", &d), 2);
  assert_int_equal(d.item[0].line, 1);
  assert_int_equal(d.item[0].column, 3);
  assert_int_equal(d.item[1].line, 2);
  assert_int_equal(d.item[1].column, 3);
}

static void what_is_no_plain_text(void **state) {
  (void)state;
  struct diags d;
  assert_int_equal(ERRORS("a\0b", &d), 1);
  assert_non_null(strstr(d.item[0].message, "NUL"));
  assert_int_equal(ERRORS("a\x1B[31m", &d), 1);
  assert_int_equal(ERRORS("\xFF\xFE"
                          "a\0",
                          &d),
                   1);
  assert_non_null(strstr(d.item[0].message, "UTF-16"));
}

static void limits(void **state) {
  (void)state;
  struct diags d;
  char text[200];
  memset(text, 'a', sizeof text);
  assert_int_equal(errors_of(text, 100, 100, 100, &d), 0);
  assert_int_equal(errors_of(text, 101, 100, 100, &d), 1);
  assert_int_equal(d.item[0].line, 0);
  assert_int_equal(errors_of(text, 101, 1000, 100, &d), 1);
  assert_int_equal(d.item[0].line, 1);
}

static void lines_and_their_ends(void **state) {
  (void)state;
  struct span text = SPAN_LIT("\xEF\xBB\xBF"
                              "one\r\ntwo\n\nfour"),
              line;
  struct lines l = lines_of(text);
  static const char *const WANTED[] = {"one", "two", "", "four"};
  for (size_t i = 0; i < COUNT_OF(WANTED); i++) {
    assert_true(lines_next(&l, &line));
    assert_true(span_is(line, WANTED[i]));
    assert_int_equal(l.number, (int)i + 1);
  }
  assert_false(lines_next(&l, &line));
}

static void comments(void **state) {
  (void)state;
  assert_true(span_is(without_comment(SPAN_LIT("a # b")), "a "));
  assert_true(span_is(without_comment(SPAN_LIT("# b")), ""));
  assert_true(span_is(without_comment(SPAN_LIT("a#b")), "a#b"));
  assert_true(span_is(without_comment(SPAN_LIT("a\xC2\xA0# b")), "a\xC2\xA0"));
}

static void blanks_of_pasted_texts(void **state) {
  (void)state;
  assert_true(span_is(trim_blanks(SPAN_LIT("\xC2\xA0\t\xE2\x80\x8B x \xE2\x80\xAF\xEF\xBB\xBF")), "x"));
  assert_true(span_is(trim_blanks(SPAN_LIT("\xC2\xA0")), ""));
}

static double middle_of(const char *text) {
  struct tokens t = tokens_of(span_of(text), &arena);
  struct quantity q = quantity_at(&t, 0);
  return q.fault == QUANTITY_FINE ? (q.low + q.high) / 2 : (double)NAN;
}

static void amounts(void **state) {
  (void)state;
  static const struct {
    const char *text;
    double value;
  } CASES[] = {{"2", 2},
               {"0.25", 0.25},
               {"3/4 x", 0.75},
               {"1 1/2", 1.5},
               {"2 3/8", 2.375},
               {"\xC2\xBE", 0.75},
               {"1\xC2\xBD", 1.5},
               {"\xE2\x85\x9B", 0.125},
               {"2-3", 2.5},
               {"2\xE2\x80\x93"
                "3",
                2.5},
               {"1\xE2\x81\x84"
                "2",
                0.5},
               {"twelve", 12},
               {"half a dozen", 6},
               {"two thirds", 2.0 / 3},
               {"1 and 1/2", 1.5},
               {"3/2", 1.5},
               {"a", 1},
               {"four to six", 5}};
  for (size_t i = 0; i < COUNT_OF(CASES); i++) assert_near(middle_of(CASES[i].text), CASES[i].value, 1e-12);
  static const char *const NONE[] = {"lamb", "80/20", "90/10 mince", "half and half", "-",  "",
                                     "%",    "1,5",   "1..2",        "5/0",           "3-2"};
  for (size_t i = 0; i < COUNT_OF(NONE); i++) assert_true(isnan(middle_of(NONE[i])));
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(utf8_as_the_standard_says), cmocka_unit_test(one_complaint_a_line),
                                     cmocka_unit_test(what_is_no_plain_text),     cmocka_unit_test(limits),
                                     cmocka_unit_test(lines_and_their_ends),      cmocka_unit_test(comments),
                                     cmocka_unit_test(blanks_of_pasted_texts),    cmocka_unit_test(amounts)};
  return cmocka_run_group_tests(tests, fresh, done);
}
