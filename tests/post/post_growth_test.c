/* post_growth_test.c: reading a text of four times the size takes less than six times the steps, whatever one thing the text
 * repeats: up to POST_MOST_BYTES nothing hangs. The steps are the pieces of code without a branch that are run: the build
 * compiles the reader and the rooms below it once more for this test, with a call at each (bw_counted in CMakeLists.txt), so
 * that every machine counts the same. Where the compiler has no such calls the test is skipped. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

#include "post/post.h"
#include "tests/support/built_image.h"

static unsigned long long steps;

/* The name is the compiler's. */
void __sanitizer_cov_trace_pc(void);
void __sanitizer_cov_trace_pc(void) { steps++; }

static const char *const REPEATED[] = {" ",
                                       "\xF0\x9F\x90\x95",
                                       "\xF0\x9F\xA5\x9A",
                                       "a",
                                       "200 g beef mince\n",
                                       ",",
                                       "(",
                                       "1",
                                       "1 g ",
                                       "\n",
                                       ".",
                                       "beef ",
                                       "x ",
                                       "/",
                                       "#",
                                       "-",
                                       "\t",
                                       "> ",
                                       "<",
                                       "&",
                                       ":",
                                       "5% ",
                                       "\xC3\xA9",
                                       "He gets 200 g beef. ",
                                       "| a ",
                                       "beef-2",
                                       "1 - ",
                                       "x 2 ",
                                       "\xE2\x80\x93",
                                       "between 1 and "};
enum { SMALL = 24 * 1024, TIMES = 4 };
static const double MOST_GROWTH = 6;

static double steps_for(const char *unit, size_t bytes) {
  struct arena own;
  struct post post;
  size_t n = strlen(unit);
  arena_init(&own, NULL);
  char *text = arena_alloc(&own, bytes + 1, 1);
  for (size_t i = 0; i < bytes; i++) text[i] = unit[i % n];
  steps = 0;
  post_read(built_library(), (struct span){text, bytes - bytes % n}, NULL, &post, &own);
  double count = (double)steps;
  arena_free(&own);
  return count;
}

static void no_text_hangs(void **state) {
  int worse = 0;
  (void)state;
  steps_for("a", 1); /* what is looked at once */
  for (size_t i = 0; i < COUNT_OF(REPEATED); i++) {
    double few = steps_for(REPEATED[i], SMALL), many = steps_for(REPEATED[i], (size_t)TIMES * SMALL);
    if (!(few > 0)) skip();
    if (many < MOST_GROWTH * few) continue;
    print_error("'%s' repeated: %.1f times as many steps for %d times the text\n", REPEATED[i], many / few, TIMES);
    worse++;
  }
  assert_int_equal(worse, 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(no_text_hangs)};
  return cmocka_run_group_tests_name("post_growth", tests, NULL, NULL);
}
