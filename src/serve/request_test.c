/* What is asked and who may ask. The refusals are those of docs/internals/page-storage.md; how a browser writes Host, Origin
 * and Sec-Fetch-Site: RFC 9110 (7.2), RFC 6454 (7), W3C Fetch Metadata. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>

#include <cmocka.h>

#include "serve/request.h"
#include "serve/site.h"

static bool goes_to(const char *path, enum place place, const char *rest) {
  struct route r = route_of(span_of(path));
  if (r.place != place) return false;
  return place == PLACE_FILE ? span_is(r.path, rest) : !rest || span_is(r.id, rest);
}

static void places(void **state) {
  (void)state;
  assert_true(goes_to("/", PLACE_FILE, ""));
  assert_true(goes_to("/assets/a.js", PLACE_FILE, "assets/a.js"));
  assert_true(goes_to("//", PLACE_FILE, "/"));
  assert_true(goes_to("/apiary", PLACE_FILE, "apiary"));
  assert_true(goes_to("/api/texts", PLACE_TEXTS, NULL));
  assert_true(goes_to("/api/texts/a-1", PLACE_TEXT, "a-1"));
  assert_true(goes_to("/api/texts/a-1/versions", PLACE_VERSIONS, "a-1"));
  assert_true(goes_to("/api/bundle", PLACE_BUNDLE, NULL));
  assert_true(goes_to("/api/changes", PLACE_CHANGES, NULL));
  assert_true(goes_to("/api/token", PLACE_TOKEN, NULL));
  static const char *const NOWHERE[] = {"",
                                        "*",
                                        "http://elsewhere/",
                                        "/api",
                                        "/api/",
                                        "/api/texts/",
                                        "/api/texts//",
                                        "/api/texts/a/",
                                        "/api/texts/a/version",
                                        "/api/texts/a%20b",
                                        "/api/texts/../bundle",
                                        "/api/bundle/",
                                        "/api//texts",
                                        "/api/Texts"};
  for (size_t i = 0; i < COUNT_OF(NOWHERE); i++)
    if (!goes_to(NOWHERE[i], PLACE_NOWHERE, NULL)) fail_msg("'%s' leads somewhere", NOWHERE[i]);
}

static void revs(void **state) {
  (void)state;
  int64_t rev = -1;
  assert_true(read_rev("\"0\"", &rev) && rev == 0);
  assert_true(read_rev("\"12\"", &rev) && rev == 12);
  assert_true(read_rev("\"999999999999999\"", &rev) && rev == 999999999999999);
  static const char *const BAD[] = {
      "",        "\"",     "\"\"",   "1", "\"1",     "1\"",         "\"01\"",  "\"00\"",
      "\"1 \"",  "\"-1\"", "\"+1\"", "*", "W/\"1\"", "\"1\",\"2\"", "\"1\"\"", "\"9999999999999999\"",
      "\"0x1\"", "\"1.0\""};
  for (size_t i = 0; i < COUNT_OF(BAD); i++)
    if (read_rev(BAD[i], &rev)) fail_msg("%s is no rev", BAD[i]);
}

static const char TOKEN[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQ";

static enum refusal ask(uint16_t port, bool beyond, enum place place, enum method m, struct headers h) {
  const struct guard g = {TOKEN, port, beyond};
  if (!h.host) h.host = "127.0.0.1:8427";
  if (!h.token) h.token = TOKEN;
  return refuse(&g, place, m, &h);
}

static enum refusal with_host(uint16_t port, bool beyond, const char *host) {
  return ask(port, beyond, PLACE_TEXTS, METHOD_GET, (struct headers){.host = host});
}

static void hosts(void **state) {
  (void)state;
  static const char *const GOOD[] = {"127.0.0.1:8427", "localhost:8427", "LocalHost:8427", "[::1]:8427"};
  static const char *const BAD[] = {"",
                                    ":",
                                    ":8427",
                                    "127.0.0.1",
                                    "127.0.0.1:",
                                    "127.0.0.1:842",
                                    "127.0.0.1:84270",
                                    "127.0.0.1:08427",
                                    "127.0.0.1:73963", /* 8427 + 65536 */
                                    "127.0.0.1:8427 ",
                                    "127.0.0.2:8427",
                                    "[::2]:8427",
                                    "::1:8427",
                                    "[::1:8427",
                                    "elsewhere.example:8427",
                                    "127.0.0.1.elsewhere.example:8427",
                                    "localhost.elsewhere.example:8427",
                                    "2130706433:8427",
                                    "127.1:8427"};
  for (size_t i = 0; i < COUNT_OF(GOOD); i++) assert_int_equal(with_host(8427, false, GOOD[i]), REFUSE_NOT);
  for (size_t i = 0; i < COUNT_OF(BAD); i++)
    if (with_host(8427, false, BAD[i]) != REFUSE_HOST) fail_msg("'%s' is let in", BAD[i]);
  assert_int_equal(with_host(80, false, "localhost"), REFUSE_NOT); /* browsers leave port 80 out */
  assert_int_equal(with_host(80, false, "localhost:80"), REFUSE_NOT);
  assert_int_equal(with_host(80, false, "[::1]"), REFUSE_NOT);
  /* Beyond this machine: an address in figures belongs to nobody's domain. */
  assert_int_equal(with_host(8427, true, "192.0.2.7:8427"), REFUSE_NOT);
  assert_int_equal(with_host(8427, true, "[2001:db8::7]:8427"), REFUSE_NOT);
  assert_int_equal(with_host(8427, true, "elsewhere.example:8427"), REFUSE_HOST);
  assert_int_equal(with_host(8427, true, "192.0.2.7.example:8427"), REFUSE_HOST);
  assert_int_equal(with_host(8427, true, "2001:db8::7:8427"), REFUSE_HOST);
}

static void origins(void **state) {
  (void)state;
  static const char *const BAD[] = {"",
                                    "null",
                                    "http://elsewhere.example",
                                    "https://127.0.0.1:8427",
                                    "http://127.0.0.1:8428",
                                    "http://127.0.0.1",
                                    "http://localhost:8427",
                                    "http://127.0.0.1:8427/",
                                    "http://127.0.0.1:8427.elsewhere.example",
                                    "HTTP://127.0.0.1:8427"};
  static const enum place PLACE[] = {PLACE_TEXTS,   PLACE_TEXT,  PLACE_VERSIONS, PLACE_BUNDLE,
                                     PLACE_CHANGES, PLACE_TOKEN, PLACE_NOWHERE};
  for (size_t p = 0; p < COUNT_OF(PLACE); p++) {
    for (enum method m = METHOD_GET; m <= METHOD_OTHER; m++) {
      for (size_t i = 0; i < COUNT_OF(BAD); i++)
        assert_int_equal(ask(8427, false, PLACE[p], m, (struct headers){.origin = BAD[i]}), REFUSE_ORIGIN);
      assert_int_equal(ask(8427, false, PLACE[p], m, (struct headers){.origin = "http://127.0.0.1:8427"}), REFUSE_NOT);
      assert_int_equal(ask(8427, false, PLACE[p], m, (struct headers){.fetch_site = "same-origin"}), REFUSE_NOT);
      assert_int_equal(ask(8427, false, PLACE[p], m, (struct headers){.fetch_site = "same-site"}), REFUSE_ORIGIN);
      assert_int_equal(ask(8427, false, PLACE[p], m, (struct headers){.fetch_site = "cross-site", .fetch_mode = "navigate"}),
                       REFUSE_ORIGIN);
      assert_int_equal(ask(8427, false, PLACE[p], m, (struct headers){.fetch_site = "none"}), REFUSE_ORIGIN);
    }
  }
  assert_int_equal(
      ask(8427, false, PLACE_FILE, METHOD_GET, (struct headers){.fetch_site = "cross-site", .fetch_mode = "navigate"}),
      REFUSE_NOT);
  assert_int_equal(ask(8427, false, PLACE_FILE, METHOD_GET, (struct headers){.fetch_site = "none"}), REFUSE_NOT);
  assert_int_equal(
      ask(8427, false, PLACE_FILE, METHOD_GET, (struct headers){.fetch_site = "cross-site", .fetch_mode = "no-cors"}),
      REFUSE_ORIGIN);
  assert_int_equal(ask(8427, false, PLACE_FILE, METHOD_PUT, (struct headers){.origin = "null"}), REFUSE_ORIGIN);
}

static void tokens(void **state) {
  (void)state;
  static const char *const BAD[] = {"", "abc", "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOP",
                                    "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQQ",
                                    "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPq"};
  for (size_t i = 0; i < COUNT_OF(BAD); i++) {
    assert_int_equal(ask(8427, false, PLACE_TEXT, METHOD_PUT, (struct headers){.token = BAD[i]}), REFUSE_TOKEN);
    assert_int_equal(ask(8427, false, PLACE_NOWHERE, METHOD_GET, (struct headers){.token = BAD[i]}), REFUSE_TOKEN);
    assert_int_equal(ask(8427, false, PLACE_TOKEN, METHOD_GET, (struct headers){.token = BAD[i]}), REFUSE_NOT);
    assert_int_equal(ask(8427, false, PLACE_FILE, METHOD_GET, (struct headers){.token = BAD[i]}), REFUSE_NOT);
  }
  const struct guard g = {TOKEN, 8427, false};
  const struct headers none = {.host = "127.0.0.1:8427"};
  assert_int_equal(refuse(&g, PLACE_TEXTS, METHOD_GET, &none), REFUSE_TOKEN);
}

static void the_head_of_the_page(void **state) {
  (void)state;
  struct arena arena;
  struct buf b;
  arena_init(&arena, NULL);
  static const char PAGE[] = "<!doctype html><html><head><title>x</title></head></html>", HEADLESS[] = "<html><hea";
  struct site_file f = {"index.html", "\"1\"", (const unsigned char *)PAGE, sizeof PAGE - 1};
  buf_init(&b, &arena, 4096);
  assert_true(site_index(&f, "T-_0", &b));
  assert_string_equal(buf_text(&b), "<!doctype html><html><head><meta name=\"bowlwright-store\" content=\"api\">"
                                    "<meta name=\"bowlwright-token\" content=\"T-_0\"><title>x</title></head></html>");
  f = (struct site_file){"index.html", "\"1\"", (const unsigned char *)HEADLESS, sizeof HEADLESS - 1};
  assert_false(site_index(&f, "T", &b));
  arena_free(&arena);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(places), cmocka_unit_test(revs),
                                     cmocka_unit_test(hosts),  cmocka_unit_test(origins),
                                     cmocka_unit_test(tokens), cmocka_unit_test(the_head_of_the_page)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
