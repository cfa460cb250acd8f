/* fresh_arena.h: an arena that each test of a cmocka group begins with empty: T(test) in the list of tests. Include after
 * cmocka.h. */
#ifndef BW_FRESH_ARENA_H
#define BW_FRESH_ARENA_H

#include "base/arena.h"

static struct arena arena;

static int fresh(void **state) {
  (void)state;
  arena_init(&arena, NULL);
  return 0;
}
static int done(void **state) {
  (void)state;
  arena_free(&arena);
  return 0;
}

#define T(f) cmocka_unit_test_setup_teardown(f, fresh, done)

#endif
