/* Random and damaged words for what reads requests: nothing may crash (sanitizers watch), and whatever is let in keeps the
 * rules of docs/internals/page-storage.md. What is written is read back the same; tests/serve/contract.py reads it with
 * Python's json. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "serve/request.h"
#include "serve/wire.h"

enum { ROUNDS = 40000, LONGEST = 400 };

/* xorshift64*: Vigna 2016, "An experimental exploration of Marsaglia's xorshift generators, scrambled". */
static uint64_t seed = 88172645463325252U;
static uint32_t dice(uint32_t sides) {
  seed ^= seed >> 12;
  seed ^= seed << 25;
  seed ^= seed >> 27;
  return (uint32_t)((seed * 2685821657736338717U) >> 33) % sides;
}

static const char *const SAMPLE[] = {
    "{\"kind\":\"recipe\",\"body\":\"Recipe: Bowl\\n\\n300 g lamb\",\"keep\":true}",
    "{\"bowlwright\":1,\"texts\":[{\"id\":\"a-1\",\"kind\":\"larder\",\"body\":\"\xC2\xBD \\ud83e\\udd58\",\"rev\":3,"
    "\"saved\":\"2026-11-02T09:30:00.123Z\"}],\"versions\":[{\"id\":\"a-1\",\"body\":\"x\",\"rev\":2,"
    "\"saved\":\"2026-11-02T09:30:00Z\"}]}",
    "/api/texts/a-1/versions",
    "\"12\"",
    "localhost:8427",
    "http://127.0.0.1:8427",
};

/* A sample with a few bytes changed, taken out, doubled, or cut off. */
static struct span damaged(char *out) {
  struct span from = span_of(SAMPLE[dice(COUNT_OF(SAMPLE))]);
  size_t n = from.n < LONGEST ? from.n : LONGEST;
  memcpy(out, from.p, n);
  for (uint32_t i = dice(5); i > 0 && n > 1; i--) {
    size_t at = dice((uint32_t)n);
    switch (dice(4)) {
    case 0:
      out[at] = (char)dice(256);
      break;
    case 1:
      memmove(out + at, out + at + 1, n - at - 1);
      n--;
      break;
    case 2:
      out[at] = "{}[]\",:\\/0-9%.\x80\xFF"[dice(17)];
      break;
    default:
      if (dice(4) == 0) n = at + 1;
    }
  }
  out[n] = '\0';
  return (struct span){out, n};
}

static void keeps_the_rules(const struct store_text *t, bool version) {
  assert_true(store_id_fits(t->id) && store_body_fits(t->body) && store_saved_fits(t->saved));
  assert_true(store_kind_known(t->kind) || (version && t->kind.n == 0));
  assert_true(t->rev >= 1 && t->rev <= STORE_REV_MOST);
}

static size_t look(struct span words, struct arena *arena) {
  struct wire_put put;
  struct store_bundle bundle;
  size_t ignored = 0, read = 0;
  int64_t rev = 0;
  struct route r = route_of(words);
  if (r.place == PLACE_TEXT || r.place == PLACE_VERSIONS) assert_true(store_id_fits(r.id));
  if (read_rev(words.p, &rev)) assert_true(rev >= 0 && rev < 1000000000000000);
  const struct guard g = {"token", 8427, dice(2) == 1};
  const struct headers h = {words.p, words.p, NULL, NULL, "token"};
  assert_true(refuse(&g, PLACE_TEXT, METHOD_PUT, &h) != REFUSE_NOT); /* no Host is also an origin */
  if (wire_read_put(words, &put, arena) == WIRE_FINE) {
    assert_true(store_kind_known(put.kind) && store_body_fits(put.body));
    read++;
  }
  if (wire_read_bundle(words, &bundle, &ignored, arena) == WIRE_FINE) {
    for (size_t i = 0; i < bundle.texts.count; i++) keeps_the_rules(&bundle.texts.item[i], false);
    for (size_t i = 0; i < bundle.versions.count; i++) keeps_the_rules(&bundle.versions.item[i], true);
    read++;
  }
  return read;
}

static void damaged_words_are_refused_or_keep_the_rules(void **state) {
  size_t read = 0;
  (void)state;
  for (int i = 0; i < ROUNDS; i++) {
    struct arena arena;
    char words[LONGEST + 1];
    arena_init(&arena, NULL);
    read += look(damaged(words), &arena);
    arena_free(&arena);
  }
  assert_true(read > ROUNDS / 20 && read < ROUNDS / 2); /* some still can be read, most cannot */
}

static struct span random_body(struct arena *arena) {
  static const char *const PIECE[] = {"a",         " ",        "\n",           "\t",           "\"",
                                      "\\",        "/",        "\x01",         "\x1F",         "\x7F",
                                      "</script>", "\xC2\xBD", "\xE2\x80\xA8", "\xEF\xBF\xBF", "\xF0\x9F\xA5\x98",
                                      "\xD7\x90",  "\\u0000"};
  struct buf b;
  buf_init(&b, arena, 65536);
  buf_adds(&b, "");
  for (uint32_t i = dice(60); i > 0; i--) buf_adds(&b, PIECE[dice(COUNT_OF(PIECE))]);
  return (struct span){buf_text(&b), b.n};
}

static bool same(const struct store_text *a, const struct store_text *b) {
  return span_eq(a->id, b->id) && span_eq(a->kind, b->kind) && span_eq(a->body, b->body) && span_eq(a->saved, b->saved) &&
         a->rev == b->rev;
}

static void what_is_written_is_read_back(void **state) {
  (void)state;
  for (int i = 0; i < 2000; i++) {
    struct arena arena;
    struct buf b;
    struct store_bundle back;
    size_t ignored = 0;
    arena_init(&arena, NULL);
    buf_init(&b, &arena, 1024 * 1024);
    struct store_text t[] = {
        {SPAN_LIT("a"), SPAN_LIT("foods"), random_body(&arena), SPAN_LIT("2026-11-02T09:30:00.123Z"), 1 + dice(1000000)},
        {SPAN_LIT("Z-9"), SPAN_LIT("animals"), random_body(&arena), SPAN_LIT("2026-11-02T09:30:00Z"), STORE_REV_MOST}};
    const struct store_bundle out = {{.item = t, .count = 2, .cap = 2}, {.item = t, .count = 1, .cap = 1}};
    wire_bundle(&b, &out);
    assert_int_equal(wire_read_bundle(buf_span(&b), &back, &ignored, &arena), WIRE_FINE);
    assert_true(back.texts.count == 2 && back.versions.count == 1 && ignored == 0);
    assert_true(same(&t[0], &back.texts.item[0]) && same(&t[1], &back.texts.item[1]) && same(&t[0], &back.versions.item[0]));
    arena_free(&arena);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(damaged_words_are_refused_or_keep_the_rules),
                                     cmocka_unit_test(what_is_written_is_read_back)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
