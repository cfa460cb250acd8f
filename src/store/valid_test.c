/* What the store accepts. UTF-8 is checked against the examples of RFC 3629 (section 7) and the borders of the Unicode
 * standard, table 3-7 (well-formed byte sequences). */
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>

#include <cmocka.h>

#include "store/store.h"

static void accepted_words(void **state) {
  (void)state;
  char long_id[STORE_ID_MOST + 2];
  memset(long_id, 'a', sizeof long_id);
  assert_true(store_id_fits((struct span){long_id, STORE_ID_MOST}));
  assert_false(store_id_fits((struct span){long_id, STORE_ID_MOST + 1}));
  assert_true(store_id_fits(SPAN_LIT("0b9e5d2c-6f0a-4b55-9f0d-AZaz09")));
  static const char *const NO_ID[] = {"", "a b", "../a", "a/b", "a%41", "\xC3\xA4", "a_b", "a.b"};
  for (size_t i = 0; i < COUNT_OF(NO_ID); i++) assert_false(store_id_fits(span_of(NO_ID[i])));
  assert_false(store_id_fits(SPAN_LIT("a\0b")));
  assert_true(store_kind_known(SPAN_LIT("recipe")) && store_kind_known(SPAN_LIT("foods")));
  assert_false(store_kind_known(SPAN_LIT("Recipe")) || store_kind_known(SPAN_LIT("")));
  static const char *const TIME[] = {"2026-11-02T09:30:00Z", "2026-11-02T09:30:00.1Z", "2026-11-02T09:30:00.123Z"};
  for (size_t i = 0; i < COUNT_OF(TIME); i++) assert_true(store_saved_fits(span_of(TIME[i])));
  static const char *const NO_TIME[] = {"",
                                        "2026-11-02",
                                        "2026-11-02T09:30:00",
                                        "2026-11-02T09:30:00.Z",
                                        "2026-11-02T09:30:00.1234Z",
                                        "2026-11-02 09:30:00Z",
                                        "<b>6-11-02T09:30:00Z"};
  for (size_t i = 0; i < COUNT_OF(NO_TIME); i++) assert_false(store_saved_fits(span_of(NO_TIME[i])));
  char now[STORE_SAVED_BYTES];
  store_now(now);
  assert_true(store_saved_fits(span_of(now)));
}

static void accepted_utf8(void **state) {
  (void)state;
  static const char *const GOOD[] = {"",
                                     "plain\n\t\r",
                                     "A\xE2\x89\xA2\xCE\x91.",               /* RFC 3629, section 7 */
                                     "\xED\x95\x9C\xEA\xB5\xAD\xEC\x96\xB4", /* the same */
                                     "\xE6\x97\xA5\xE6\x9C\xAC\xE8\xAA\x9E", /* the same */
                                     "\xEF\xBB\xBF\xF0\xA3\x8E\xB4",         /* the same */
                                     "\xC2\x80 \xDF\xBF \xE0\xA0\x80 \xEF\xBF\xBF \xF0\x90\x80\x80 \xF4\x8F\xBF\xBF"};
  static const char *const BAD[] = {"\x80",
                                    "\xBF",
                                    "\xC0\x80",
                                    "\xC1\xBF",
                                    "\xC2",
                                    "\xE0\x9F\xBF",
                                    "\xED\xA0\x80",
                                    "\xED\xBF\xBF",
                                    "\xE2\x82",
                                    "\xF0\x8F\xBF\xBF",
                                    "\xF4\x90\x80\x80",
                                    "\xF5\x80\x80\x80",
                                    "\xFE",
                                    "\xFF",
                                    "a\xC3",
                                    "\xC3(",
                                    "\xF0\x9F\x98"};
  for (size_t i = 0; i < COUNT_OF(GOOD); i++) assert_true(store_body_fits(span_of(GOOD[i])));
  for (size_t i = 0; i < COUNT_OF(BAD); i++)
    if (store_body_fits(span_of(BAD[i]))) fail_msg("row %zu is no UTF-8", i);
  assert_false(store_body_fits(SPAN_LIT("a\0b")));
  char *big = malloc(STORE_BODY_MOST + 1);
  assert_non_null(big);
  memset(big, 'x', STORE_BODY_MOST + 1);
  assert_true(store_body_fits((struct span){big, STORE_BODY_MOST}));
  assert_false(store_body_fits((struct span){big, STORE_BODY_MOST + 1}));
  free(big);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(accepted_words), cmocka_unit_test(accepted_utf8)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
