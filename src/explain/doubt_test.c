/* The largest part of a total's variance, against totals in which that part is known for certain. */
#include "explain/doubt.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

#include "tests/support/near.h"
#include "tests/support/tiny_image.h"

/* 100 g of meat with 5 mg zinc and a coefficient of variation of 'meat_cv', 50 g of grain with 3 mg. */
static const struct totals *bowl(double meat_cv, double amount_cv, uint32_t *meat) {
  struct tiny *t = tiny_new(&arena);
  *meat = tiny_food(t, "meat", PART_MUSCLE, SPREAD_RED_MEAT);
  uint32_t grain = tiny_food(t, "grain", PART_GRAIN, SPREAD_GRAIN);
  tiny_value(t, *meat, NUT_ZINC, 5, meat_cv);
  tiny_value(t, grain, NUT_ZINC, 6, 0.1);
  struct ration_line *line = ARENA_NEW(&arena, struct ration_line, 2);
  struct ration *r = ARENA_NEW(&arena, struct ration, 1);
  line[0] = tiny_line(*meat, 100);
  line[0].part[0].grams_cv = amount_cv;
  line[1] = tiny_line(grain, 50);
  *r = tiny_ration(line, 2);
  return totals_gather(tiny_open(t), r, 0, &arena);
}

/* Knowing the content takes its share of the variance away, and nothing else: two totals computed apart. */
static void knowing_the_content_takes_its_share(void **state) {
  (void)state;
  uint32_t meat;
  const struct totals *t = bowl(0.3, 0, &meat), *known = bowl(0, 0, &meat);
  struct doubt d = doubt_largest(t, NUT_ZINC);
  assert_int_equal(d.kind, DOUBT_CONTENT);
  assert_int_equal(d.food, meat);
  assert_int_equal(d.line, 0);
  assert_near(known->variance[NUT_ZINC], (1 - d.share) * t->variance[NUT_ZINC], 1e-9);
  /* By hand: (0.3 x 5)^2 = 2.25 against (0.1 x 3)^2 = 0.09. */
  assert_near(d.share, 2.25 / 2.34, 1e-6);
}

static void an_amount_in_doubt_outweighs_a_small_spread(void **state) {
  (void)state;
  uint32_t meat;
  struct doubt d = doubt_largest(bowl(0.05, 0.4, &meat), NUT_ZINC);
  assert_int_equal(d.kind, DOUBT_AMOUNT);
  assert_int_equal(d.line, 0);
}

static void nothing_in_doubt(void **state) {
  (void)state;
  uint32_t meat;
  assert_int_equal(doubt_largest(bowl(0.3, 0, &meat), NUT_COPPER).line, -1);
}

#define WITH_ARENA(f) cmocka_unit_test_setup_teardown(f, fresh, done)

int main(void) {
  const struct CMUnitTest tests[] = {
      WITH_ARENA(knowing_the_content_takes_its_share),
      WITH_ARENA(an_amount_in_doubt_outweighs_a_small_spread),
      WITH_ARENA(nothing_in_doubt),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
