/* Texts that nobody wrote: one thing over and over, without an end of a line. They take neither the stack nor minutes, and
 * what they become is strict text of lines that are read (4096 bytes, as docs/manual/recipe-text.md says). */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

#include "post/post.h"
#include "recipe/recipe_text.h"
#include "tests/support/built_image.h"
#include "tests/support/fresh_arena.h"
#include "tests/support/sampled.h"

/* The first DEEP of them once took a frame of the stack a word, and the whole stack at this length; under sanitizers, whose
 * frames are several times as large, at a third of it. */
enum { LONG = SAMPLED(120000, 40000), DEEP = 3, LINE_BYTES_MOST = 4096 };

static void is_read(const char *often, struct span text) {
  struct post post;
  struct diags d;
  struct recipe recipe;
  post_read(built_library(), text, NULL, &post, &arena);
  diags_init(&d, &arena, "post", span_of(post.recipe));
  for (struct span rest = span_of(post.recipe); rest.n > 0;)
    if (span_piece(&rest, '\n').n > LINE_BYTES_MOST) fail_msg("'%s' over and over becomes a line that is not read", often);
  if (post.recipe[0] && !recipe_parse(span_of(post.recipe), &d, &recipe, &arena)) fail_msg("'%s' over and over", often);
  assert_true(post.recipe[0] || post.sorry[0]);
}

static void one_thing_over_and_over(void **state) {
  static const char *const OFTEN[] = {"1/2 ",
                                      "2 x ",
                                      "7 ",
                                      "5-",
                                      "Mon ",
                                      "20 g of beef liver and ",
                                      "5% egg ",
                                      "*",
                                      "x",
                                      "(",
                                      "\xF0\x9F\x90\x95",
                                      "\xC3\xA9",
                                      "<b>",
                                      "every 2 days ",
                                      "one 15 oz ",
                                      "each <li>| "};
  (void)state;
  for (size_t i = 0; i < COUNT_OF(OFTEN); i++) {
    struct buf b;
    size_t n = strlen(OFTEN[i]);
    buf_init(&b, &arena, LONG + 64);
    buf_adds(&b, "My dog of 18 kg gets ");
    while (b.n + n < (i < DEEP ? LONG : LONG / 4)) buf_adds(&b, OFTEN[i]);
    is_read(OFTEN[i], buf_span(&b));
  }
}

/* A text in one line, as some phones send it: cut between sentences, so that none is lost and none is torn. */
static void a_whole_story_in_one_line(void **state) {
  enum { DAYS = 60 };
  struct buf b;
  struct post post;
  size_t lines = 0;
  (void)state;
  buf_init(&b, &arena, LONG);
  buf_adds(&b, "My dog weighs 18 kg. ");
  for (int i = 0; i < DAYS; i++)
    buf_addf(&b, "Then we went for a long walk by the sea, and I added %d g of pumpkin. ", 10 + i);
  post_read(built_library(), buf_span(&b), NULL, &post, &arena);
  for (size_t i = 0; i < post.line_count; i++) lines += post.line[i].strict_line > 0;
  for (size_t i = 0; i < post.left_count; i++) assert_null(strstr(post.left[i].text, "the rest of the text"));
  assert_int_equal(lines, DAYS);
}

static void the_rest_of_a_book_is_told(void **state) {
  struct buf b;
  struct post post;
  bool told = false;
  (void)state;
  buf_init(&b, &arena, 2 * POST_MOST_BYTES);
  buf_adds(&b, "My dog of 18 kg gets 100 g beef heart.\n");
  while (b.n <= POST_MOST_BYTES) buf_adds(&b, "It was a long day and nothing happened at all.\n");
  buf_adds(&b, "And 100 g rice.\n");
  post_read(built_library(), buf_span(&b), NULL, &post, &arena);
  for (size_t i = 0; i < post.left_count; i++) told = told || strcmp(post.left[i].text, "the rest of the text") == 0;
  assert_true(told);
  assert_non_null(strstr(post.recipe, "100 g beef heart"));
}

int main(void) {
  const struct CMUnitTest tests[] = {T(one_thing_over_and_over), T(a_whole_story_in_one_line),
                                     T(the_rest_of_a_book_is_told)};
  return cmocka_run_group_tests_name("length of posts", tests, NULL, NULL);
}
