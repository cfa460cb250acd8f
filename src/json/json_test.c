/* The writer's own grammar, checked against RFC 8259: section 7 (strings), section 6 (numbers). */
#include "json/json.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

static void text_becomes(struct span text, const char *json) {
  struct buf out;
  struct json j;
  buf_init(&out, &arena, 4096);
  json_init(&j, &out);
  json_span(&j, NULL, text);
  assert_string_equal(buf_text(&out), json);
}

/* RFC 8259 section 7: quotation mark, reverse solidus and U+0000 to U+001F must be escaped. */
static void strings_are_escaped(void **state) {
  (void)state;
  text_becomes(SPAN_LIT("plain \xC2\xB5g"), "\"plain \xC2\xB5g\"");
  text_becomes(SPAN_LIT("say \"no\" \\ yes"), "\"say \\\"no\\\" \\\\ yes\"");
  text_becomes(SPAN_LIT("a\nb\rc\td"), "\"a\\nb\\rc\\td\"");
  text_becomes(SPAN_LIT("\x01\x1f\x7f"), "\"\\u0001\\u001f\\u007f\"");
  text_becomes(((struct span){"a\0b", 3}), "\"a\\u0000b\"");
  text_becomes(SPAN_LIT("\xE2\x80\xA8\xE2\x80\xA9"), "\"\\u2028\\u2029\"");
  text_becomes(SPAN_LIT(""), "\"\"");
}

/* The Unicode Standard, table 3-7 (well-formed UTF-8): everything else becomes U+FFFD, byte by byte. */
static void invalid_bytes_are_replaced(void **state) {
  (void)state;
#define R "\xEF\xBF\xBD"
  text_becomes(SPAN_LIT("\xFF"), "\"" R "\"");
  text_becomes(SPAN_LIT("a\xC3"), "\"a" R "\"");
  text_becomes(SPAN_LIT("\xC0\xAF"), "\"" R R "\"");             /* overlong '/' */
  text_becomes(SPAN_LIT("\xED\xA0\x80"), "\"" R R R "\"");       /* a surrogate */
  text_becomes(SPAN_LIT("\xF4\x90\x80\x80"), "\"" R R R R "\""); /* above U+10FFFF */
  text_becomes(SPAN_LIT("\xE0\x9F\xBF"), "\"" R R R "\"");
  text_becomes(SPAN_LIT("\xF0\x8F\xBF\xBF"), "\"" R R R R "\"");
  text_becomes(SPAN_LIT("\xF0\x9F\x90\x95"), "\"\xF0\x9F\x90\x95\"");
  text_becomes(SPAN_LIT("\xF4\x8F\xBF\xBF"), "\"\xF4\x8F\xBF\xBF\"");
  text_becomes(SPAN_LIT("\xE2\x80"), "\"" R R "\"");
#undef R
}

static void number_becomes(double x, const char *json) {
  struct buf out;
  struct json j;
  buf_init(&out, &arena, 4096);
  json_init(&j, &out);
  json_number(&j, NULL, x);
  assert_string_equal(buf_text(&out), json);
}

/* RFC 8259 section 6: NaN and infinities are not permitted; a number begins with a digit or a minus sign. */
static void numbers_are_plain_or_null(void **state) {
  (void)state;
  number_becomes((double)NAN, "null");
  number_becomes((double)INFINITY, "null");
  number_becomes(-(double)INFINITY, "null");
  number_becomes(0, "0");
  number_becomes(-0.0, "0");
  number_becomes(0.655, "0.655");
  number_becomes(-0.25, "-0.25");
  number_becomes(1.0 / 3.0, "0.333333333");
  number_becomes(812, "812");
  number_becomes(123456789.4, "123456789");
}

static void nesting_and_commas(void **state) {
  (void)state;
  struct buf out;
  struct json j;
  buf_init(&out, &arena, 4096);
  json_init(&j, &out);
  json_open(&j, NULL, '{');
  json_text(&j, "a", NULL);
  json_open(&j, "b", '[');
  json_close(&j, ']');
  json_open(&j, "c", '[');
  json_number(&j, NULL, 1);
  json_open(&j, NULL, '{');
  json_close(&j, '}');
  json_bool(&j, NULL, true);
  json_close(&j, ']');
  json_bool(&j, "d", false);
  json_text_or_null(&j, "e", "");
  json_digits(&j, "f", (double)0.66F, 6);
  json_close(&j, '}');
  assert_string_equal(buf_text(&out), "{\"a\":null,\"b\":[],\"c\":[1,{},true],\"d\":false,\"e\":null,\"f\":0.66}");
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(strings_are_escaped, fresh, done),
      cmocka_unit_test_setup_teardown(invalid_bytes_are_replaced, fresh, done),
      cmocka_unit_test_setup_teardown(numbers_are_plain_or_null, fresh, done),
      cmocka_unit_test_setup_teardown(nesting_and_commas, fresh, done),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
