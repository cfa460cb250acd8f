/* compose_test.c: what compose returns, judged by check_numbers, over random larders and animals of the real library. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

#include "larder_scene.h"

static bool is_multiple(double x, double unit) { return fabs(x / unit - round(x / unit)) < 1e-6; }

/* The larder's own words, on the amounts of one bowl. */
static void keeps_the_larder(const struct compose_request *q, const struct compose_result *r) {
  int used = 0;
  for (size_t i = 0; i < r->candidates; i++) {
    const struct compose_food *f = &q->food[r->food_of[i]];
    double g = r->dish->base[i];
    if (!(g > 0)) {
      assert_true(f->low == 0 || f->times_high >= 0);
      continue;
    }
    used++;
    if (f->times_high >= 0) continue;
    assert_true(g >= f->low - 1e-6 && g <= f->high + 1e-6);
    assert_true(g >= f->least - 1e-6);
    if (f->whole > 0) assert_true(is_multiple(g, f->whole));
  }
  for (size_t i = 0; i < q->limits; i++)
    if (q->limit[i].kind == COMPOSE_FOODS) assert_true(used <= q->limit[i].high);
}

static void what_is_found_passes(void **state) {
  (void)state;
  enum { ROUNDS = 110 };
  int found = 0, none = 0;
  for (int round = 0; round < ROUNDS; round++) {
    struct arena a;
    struct scene s;
    arena_init(&a, NULL);
    draw_scene(&s);
    const struct compose_result *r = compose(built_library(), &s.q, &a);
    if (r->dish) {
      everything_is_met(&s.q, &r->dish->bowl[0], &a);
      keeps_the_larder(&s.q, r);
      if (r->status == COMPOSE_FOUND) assert_true(r->dish->objective >= r->bound * (1 - 1e-5));
    }
    found += r->status == COMPOSE_FOUND;
    none += r->status == COMPOSE_NONE;
    assert_true(r->status == COMPOSE_FOUND || !r->dish || r->status == COMPOSE_STOPPED);
    arena_free(&a);
  }
  assert_true(found >= ROUNDS / 2);
  assert_true(none > 0);
}

/* The same question twice, in memory that looks different, has one answer to the last bit. */
static void the_answer_is_one(void **state) {
  (void)state;
  for (int round = 0; round < 6; round++) {
    struct arena a, b;
    struct scene s;
    arena_init(&a, NULL);
    arena_init(&b, NULL);
    draw_scene(&s);
    arena_alloc(&b, 12345, 1);
    const struct compose_result *r = compose(built_library(), &s.q, &a), *again = compose(built_library(), &s.q, &b);
    assert_int_equal(r->status, again->status);
    if (r->dish) assert_memory_equal(r->dish->base, again->dish->base, r->candidates * sizeof(double));
    arena_free(&a);
    arena_free(&b);
  }
}

/* ---- a household ---------------------------------------------------------------------------------------------------------
 */

static void a_household_shares_a_base(void **state) {
  (void)state;
  int found = 0;
  for (int round = 0; round < 8; round++) {
    struct arena a;
    struct scene s;
    struct animal house[3] = {any_animal(SPECIES_DOG), any_animal(SPECIES_DOG), any_animal(SPECIES_CAT)};
    arena_init(&a, NULL);
    draw_scene(&s);
    s.q.animal = house;
    s.q.animals = 3;
    s.q.limits = 0;
    s.q.options = CHECK_OPTIONS_DEFAULT;
    s.q.aim = COMPOSE_LIGHTEST;
    const struct compose_result *r = compose(built_library(), &s.q, &a);
    found += r->dish != NULL;
    double shares = 0, all = 0;
    for (int k = 0; k < 3 && r->dish; k++) {
      const struct compose_bowl *b = &r->dish->bowl[k];
      everything_is_met(&s.q, b, &a);
      shares += b->share;
      all += b->need_kcal;
      for (size_t i = 0; i < r->candidates; i++) assert_near(b->base[i], b->share * r->dish->base[i], 1e-9);
    }
    for (int k = 0; k < 3 && r->dish; k++) /* by appetite, in tenths of a per cent */
      assert_near(r->dish->bowl[k].share, r->dish->bowl[k].need_kcal / all, 0.0016);
    if (r->dish) assert_near(shares, 1, 1e-12);
    arena_free(&a);
  }
  assert_true(found >= 4);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(what_is_found_passes),
      cmocka_unit_test(the_answer_is_one),
      cmocka_unit_test(a_household_shares_a_base),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
