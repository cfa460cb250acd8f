/* fresh_random.h: an arena and GSL's generator that each test of a cmocka group begins with anew. Define RANDOM_SEED, then
 * include after cmocka.h; 'fresh_random' and 'done_random' are the group's set-up and tear-down. */
#ifndef BW_FRESH_RANDOM_H
#define BW_FRESH_RANDOM_H

#include <gsl/gsl_rng.h>

#include "base/arena.h"

static struct arena arena;
static gsl_rng *rng;

static int fresh_random(void **state) {
  (void)state;
  arena_init(&arena, NULL);
  rng = gsl_rng_alloc(gsl_rng_mt19937);
  gsl_rng_set(rng, RANDOM_SEED);
  return 0;
}
static int done_random(void **state) {
  (void)state;
  gsl_rng_free(rng);
  arena_free(&arena);
  return 0;
}

#endif
