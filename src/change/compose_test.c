/* compose_test.c: what compose returns, judged by check_numbers, over random larders and animals of the real library. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

#include "larder_scene.h"
#include "tests/support/sampled.h"

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
  enum { ROUNDS = SAMPLED(110, 24) };
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

/* "At least so much if used": of a food on top of both bowls, and in no base, as well. Each least amount is a household of
 * its own; without one the oil goes on top in about 7 g. */
static void if_used_holds_for_base_and_toppers_together(void **state) {
  (void)state;
  static const char *const CODE[] = {"usda:05096", "usda:13325",     "usda:15015",           "usda:01125",
                                     "usda:11457", "ours:bone-meal", "ours:zinc-picolinate", "usda:04038"};
  static const double LEAST[] = {12, 8, 4, 0};
  enum { OIL = COUNT_OF(CODE) - 1 };
  int used = 0;
  for (size_t round = 0; round < COUNT_OF(LEAST); round++) {
    struct arena a;
    struct scene s;
    struct animal house[2] = {any_animal(SPECIES_DOG), any_animal(SPECIES_CAT)};
    arena_init(&a, NULL);
    draw_scene(&s);
    for (size_t i = 0; i < COUNT_OF(CODE); i++) s.food[i] = food_of(built_food(CODE[i]));
    house[0].weight_kg = 5, house[1].weight_kg = 4.4;
    s.food[OIL].least = LEAST[round];
    s.q.foods = COUNT_OF(CODE);
    s.q.animal = house;
    s.q.animals = 2;
    s.q.limits = 0;
    s.q.options = CHECK_OPTIONS_DEFAULT;
    s.q.aim = COMPOSE_LIGHTEST;
    s.patience = 20000;
    const struct compose_result *r = compose(built_library(), &s.q, &a);
    assert_non_null(r->dish);
    double sum = r->dish->base[OIL] + r->dish->bowl[0].topper[OIL] + r->dish->bowl[1].topper[OIL];
    assert_true(sum < 1e-6 || sum >= LEAST[round] - 1e-6);
    used += sum > 0;
    for (int k = 0; k < 2; k++) everything_is_met(&s.q, &r->dish->bowl[k], &a);
    arena_free(&a);
  }
  assert_true(used > 0);
}

/* The standard's upper figure for cats' arachidonic acid is told and not applied (data/allowances.tsv, "cautious"): a larder
 * that asks for more than that is no contradiction. */
static void a_cautious_limit_stops_nothing(void **state) {
  (void)state;
  static const char *const CODE[] = {"usda:05096", "usda:13325",     "usda:15015",           "usda:01125",
                                     "usda:11457", "ours:bone-meal", "ours:zinc-picolinate", "usda:04038",
                                     "usda:10060", "ours:kelp-dried"};
  struct arena a;
  struct scene s;
  struct animal cat = any_animal(SPECIES_CAT);
  arena_init(&a, NULL);
  draw_scene(&s);
  for (size_t i = 0; i < COUNT_OF(CODE); i++) s.food[i] = food_of(built_food(CODE[i]));
  cat.weight_kg = 4.6;
  s.limit[0] =
      (struct compose_limit){COMPOSE_NUTRIENT, 0.16, INFINITY, NUT_ARACHIDONIC, 0, "arachidonic acid: at least 0.16 g"};
  s.q.limit = s.limit;
  s.q.limits = 1;
  s.q.foods = COUNT_OF(CODE);
  s.q.animal = &cat;
  s.q.animals = 1;
  s.q.options = CHECK_OPTIONS_DEFAULT;
  s.q.aim = COMPOSE_LIGHTEST;
  s.patience = 20000;
  const struct compose_result *r = compose(built_library(), &s.q, &a);
  assert_non_null(r->dish);
  everything_is_met(&s.q, &r->dish->bowl[0], &a);
  const struct nutrient_result *n = &r->dish->bowl[0].after->nutrient[NUT_ARACHIDONIC];
  assert_true(n->table->cautious > 0 && n->amount > n->table->cautious);
  arena_free(&a);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(what_is_found_passes),           cmocka_unit_test(the_answer_is_one),
      cmocka_unit_test(a_household_shares_a_base),      cmocka_unit_test(if_used_holds_for_base_and_toppers_together),
      cmocka_unit_test(a_cautious_limit_stops_nothing),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
