#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

#include "text/diag.h"

static struct diags d;

static void begin(const char *text) { diags_init(&d, &arena, "dinner.txt", span_of(text)); }

static struct span at(const char *words) {
  const char *p = strstr(d.text.p, words);
  assert_non_null(p);
  return (struct span){p, strlen(words)};
}

static const char *printed(bool excerpt) {
  static struct buf b;
  buf_init(&b, &arena, 100000);
  diags_print(&d, &b, excerpt);
  return buf_text(&b);
}

static void columns_count_characters(void **state) {
  (void)state;
  begin("one\n\xC2\xBD cup caf\xC3\xA9 tbs\n");
  diag_say(&d, DIAG_ERROR, DIAG_NUMBER, at("tbs"), "unknown unit '%s'; did you mean '%s'?", "tbs", "tbsp");
  assert_string_equal(printed(false), "dinner.txt:2:12: unknown unit 'tbs'; did you mean 'tbsp'?\n");
  assert_string_equal(printed(true), "dinner.txt:2:12: unknown unit 'tbs'; did you mean 'tbsp'?\n"
                                     "    \xC2\xBD cup caf\xC3\xA9 tbs\n               ^^^\n");
}

static void in_the_order_of_the_text(void **state) {
  (void)state;
  begin("aa bb\ncc\n");
  diag_say(&d, DIAG_ERROR, DIAG_NUMBER, at("cc"), "third");
  diag_say(&d, DIAG_WARNING, DIAG_NUMBER, at("bb"), "second");
  diag_say(&d, DIAG_ERROR, DIAG_NUMBER, at("aa"), "first");
  diag_say(&d, DIAG_ERROR, DIAG_NUMBER, (struct span){NULL, 0}, "of all");
  assert_string_equal(printed(false), "dinner.txt: of all\ndinner.txt:1:1: first\ndinner.txt:1:4: warning: second\n"
                                      "dinner.txt:2:1: third\n");
  assert_int_equal(d.errors, 3);
}

static void no_more_than_can_be_read(void **state) {
  (void)state;
  begin("x");
  for (int i = 0; i < DIAG_MOST + 5; i++) diag_say(&d, DIAG_ERROR, DIAG_NUMBER, at("x"), "no. %d", i);
  assert_int_equal(d.count, DIAG_MOST);
  assert_int_equal(d.errors, DIAG_MOST + 5);
  assert_non_null(strstr(printed(false), "dinner.txt: and 5 more errors, which are not shown\n"));
}

static void places_outside_and_odd_texts(void **state) {
  (void)state;
  begin("\xEF\xBB\xBF"
        "ab\tcd");
  diag_say(&d, DIAG_ERROR, DIAG_NUMBER, at("ab"), "mark");
  diag_say(&d, DIAG_ERROR, DIAG_NUMBER, (struct span){d.text.p + d.text.n, 0}, "end");
  diag_say(&d, DIAG_ERROR, DIAG_NUMBER, SPAN_LIT("elsewhere"), "nowhere");
  assert_int_equal(d.item[0].line, 0);
  assert_int_equal(d.item[1].column, 1);
  assert_int_equal(d.item[2].column, 6);
  assert_non_null(strstr(printed(true), "    ab cd\n"));
  diags_init(&d, &arena, "-", SPAN_LIT("a"));
  diag_say(&d, DIAG_ERROR, DIAG_NUMBER, d.text, "x");
  assert_string_equal(printed(false), "standard input:1:1: x\n");
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(columns_count_characters), cmocka_unit_test(in_the_order_of_the_text),
                                     cmocka_unit_test(no_more_than_can_be_read),
                                     cmocka_unit_test(places_outside_and_odd_texts)};
  return cmocka_run_group_tests(tests, fresh, done);
}
