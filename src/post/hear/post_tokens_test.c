/* What the one place splits is what tokens_of splits, whoever asked before, took tokens or had the same letters elsewhere.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

#include "post/hear/post_hear.h"

static const char *const TEXTS[] = {"",
                                    " ",
                                    "He gets 200 g of beef mince, raw.",
                                    "he gets 200 g of Beef mince, raw.",
                                    "1 1/2 C rice\xC2\xBD & Dog\xE2\x80\x99s 90% lean",
                                    "a",
                                    "xx x 4 (10-12 kg)",
                                    "Supercalifragilisticexpialidociousness of them all",
                                    "\xFF\xFE 5"};

static struct post_reader reader(void) {
  return (struct post_reader){.arena = &arena, .splits = post_splits(&arena), .begin = arena_mark(&arena)};
}

static void expect_split(const struct post_reader *r, const char *words) {
  struct span text = arena_span(&arena, span_of(words)); /* at a place of its own */
  struct tokens expected = tokens_of(text, &arena), got = post_tokens(r, text);
  assert_int_equal(got.count, expected.count);
  for (size_t i = 0; i < got.count; i++) {
    struct token *a = &got.item[i], *b = &expected.item[i];
    assert_int_equal(a->kind, b->kind);
    assert_ptr_equal(a->at.p, b->at.p);
    assert_int_equal(a->at.n, b->at.n);
    assert_true(span_eq(a->word, b->word) && a->glued == b->glued && !a->taken && a->mark == b->mark);
    assert_true(a->value == b->value || (a->value != a->value && b->value != b->value));
    for (enum post_class c = CLASS_CANNOT_MEASURE; c <= CLASS_CHATTER; c++)
      assert_int_equal(token_is_a(a, c), token_is_a(b, c));
  }
  take(&got, 0, got.count);
}

static void split_as_anew(void **state) {
  (void)state;
  struct post_reader r = reader();
  for (int round = 0; round < 3; round++)
    for (size_t i = 0; i < COUNT_OF(TEXTS); i++) expect_split(&r, TEXTS[i]);
  post_splits_free(r.splits);
}

/* More texts than are kept, and a longer one: split all the same, with room and without. */
static void split_when_full(void **state) {
  (void)state;
  enum { MANY = 3000, LONG = 20000 };
  struct post_reader r = reader();
  for (int i = 0; i < MANY; i++) {
    struct buf b;
    buf_init(&b, &arena, 100);
    buf_addf(&b, "%d g beef mince and %d carrots, word%d", i, i % 7, i);
    expect_split(&r, buf_text(&b));
    if (i == MANY / 2) post_splits_make_room(r.splits);
  }
  char *text = arena_alloc(&arena, LONG + 1, 1);
  for (size_t i = 0; i < LONG; i++) text[i] = "rice "[i % 5];
  expect_split(&r, text);
  for (size_t i = 0; i < COUNT_OF(TEXTS); i++) expect_split(&r, TEXTS[i]);
  post_splits_free(r.splits);
}

int main(void) {
  const struct CMUnitTest tests[] = {T(split_as_anew), T(split_when_full)};
  return cmocka_run_group_tests_name("post_tokens", tests, NULL, NULL);
}
