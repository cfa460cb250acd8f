/* post_growth_test.c: reading a text of four times the size takes less than six times the instructions, whatever one thing
 * the text repeats: up to POST_MOST_BYTES nothing hangs. Counted by the processor; where a machine does not let a program
 * count, the test is skipped. */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>
#include <unistd.h>

#include <linux/perf_event.h>
#include <sys/ioctl.h>
#include <sys/syscall.h>

#include <cmocka.h>

#include "post/post.h"
#include "tests/support/built_image.h"

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

static long long instructions_for(int counter, const char *unit, size_t bytes) {
  struct arena own;
  struct post post;
  long long count = 0;
  size_t n = strlen(unit);
  arena_init(&own, NULL);
  char *text = arena_alloc(&own, bytes + 1, 1);
  for (size_t i = 0; i < bytes; i++) text[i] = unit[i % n];
  ioctl(counter, PERF_EVENT_IOC_RESET, 0);
  ioctl(counter, PERF_EVENT_IOC_ENABLE, 0);
  post_read(built_library(), (struct span){text, bytes - bytes % n}, NULL, &post, &own);
  ioctl(counter, PERF_EVENT_IOC_DISABLE, 0);
  if (read(counter, &count, sizeof count) != (ssize_t)sizeof count) count = 0;
  arena_free(&own);
  return count;
}

static void no_text_hangs(void **state) {
  struct perf_event_attr attr;
  int worse = 0;
  (void)state;
  memset(&attr, 0, sizeof attr);
  attr.type = PERF_TYPE_HARDWARE;
  attr.size = sizeof attr;
  attr.config = PERF_COUNT_HW_INSTRUCTIONS;
  attr.disabled = 1;
  attr.exclude_kernel = 1;
  attr.exclude_hv = 1;
  int counter = (int)syscall(SYS_perf_event_open, &attr, 0, -1, -1, 0);
  if (counter < 0) skip();
  for (size_t i = 0; i < COUNT_OF(REPEATED); i++) {
    double few = (double)instructions_for(counter, REPEATED[i], SMALL);
    double many = (double)instructions_for(counter, REPEATED[i], (size_t)TIMES * SMALL);
    if (!(few > 0)) skip();
    if (many < MOST_GROWTH * few) continue;
    print_error("'%s' repeated: %.1f times as many instructions for %d times the text\n", REPEATED[i], many / few, TIMES);
    worse++;
  }
  close(counter);
  assert_int_equal(worse, 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(no_text_hangs)};
  return cmocka_run_group_tests_name("post_growth", tests, NULL, NULL);
}
