/* The writer's own grammar, checked against RFC 8259: section 7 (strings), section 6 (numbers). */
#include "text/json.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

static struct arena arena;

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

static void expect_string(struct span text, const char *json) {
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
  expect_string(SPAN_LIT("plain \xC2\xB5g"), "\"plain \xC2\xB5g\"");
  expect_string(SPAN_LIT("say \"no\" \\ yes"), "\"say \\\"no\\\" \\\\ yes\"");
  expect_string(SPAN_LIT("a\nb\rc\td"), "\"a\\nb\\rc\\td\"");
  expect_string(SPAN_LIT("\x01\x1f\x7f"), "\"\\u0001\\u001f\\u007f\"");
  expect_string(((struct span){"a\0b", 3}), "\"a\\u0000b\"");
  expect_string(SPAN_LIT("\xE2\x80\xA8\xE2\x80\xA9"), "\"\\u2028\\u2029\"");
  expect_string(SPAN_LIT(""), "\"\"");
}

/* The Unicode Standard, table 3-7 (well-formed UTF-8): everything else becomes U+FFFD, byte by byte. */
static void invalid_bytes_are_replaced(void **state) {
  (void)state;
#define R "\xEF\xBF\xBD"
  expect_string(SPAN_LIT("\xFF"), "\"" R "\"");
  expect_string(SPAN_LIT("a\xC3"), "\"a" R "\"");
  expect_string(SPAN_LIT("\xC0\xAF"), "\"" R R "\"");             /* overlong '/' */
  expect_string(SPAN_LIT("\xED\xA0\x80"), "\"" R R R "\"");       /* a surrogate */
  expect_string(SPAN_LIT("\xF4\x90\x80\x80"), "\"" R R R R "\""); /* above U+10FFFF */
  expect_string(SPAN_LIT("\xE0\x9F\xBF"), "\"" R R R "\"");
  expect_string(SPAN_LIT("\xF0\x8F\xBF\xBF"), "\"" R R R R "\"");
  expect_string(SPAN_LIT("\xF0\x9F\x90\x95"), "\"\xF0\x9F\x90\x95\"");
  expect_string(SPAN_LIT("\xF4\x8F\xBF\xBF"), "\"\xF4\x8F\xBF\xBF\"");
  expect_string(SPAN_LIT("\xE2\x80"), "\"" R R "\"");
#undef R
}

static void expect_number(double x, const char *json) {
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
  expect_number((double)NAN, "null");
  expect_number((double)INFINITY, "null");
  expect_number(-(double)INFINITY, "null");
  expect_number(0, "0");
  expect_number(-0.0, "0");
  expect_number(0.655, "0.655");
  expect_number(-0.25, "-0.25");
  expect_number(1.0 / 3.0, "0.333333333");
  expect_number(812, "812");
  expect_number(123456789.4, "123456789");
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
  json_bool(&j, "d\"", false);
  json_text_or_null(&j, "e", "");
  json_digits(&j, "f", (double)0.66F, 6);
  json_close(&j, '}');
  assert_string_equal(buf_text(&out), "{\"a\":null,\"b\":[],\"c\":[1,{},true],\"d\\\"\":false,\"e\":null,\"f\":0.66}");
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(strings_are_escaped, setup, teardown),
      cmocka_unit_test_setup_teardown(invalid_bytes_are_replaced, setup, teardown),
      cmocka_unit_test_setup_teardown(numbers_are_plain_or_null, setup, teardown),
      cmocka_unit_test_setup_teardown(nesting_and_commas, setup, teardown),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
