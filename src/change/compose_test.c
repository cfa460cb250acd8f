/* compose_test.c: what compose returns, judged by check_numbers, over random larders and animals of the real library. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

#include "change/compose.h"
#include "near.h"
#include "tests/support/built_image.h"

enum { FOODS_MOST = 40 };

static uint64_t seed = 20260801;
static uint32_t draw(uint32_t below) {
  seed = seed * 6364136223846793005ULL + 1442695040888963407ULL;
  return (uint32_t)(((seed >> 33) * below) >> 31);
}
static double between(double low, double high) { return low + (high - low) * draw(1000) / 1000.0; }

/* Foods from which many bowls can be made: flesh, organs, egg, fish, oils, seeds and pure substances. */
static const char *const PANTRY[] = {"usda:17039", "usda:17191", "usda:17199", "usda:13327", "usda:05062", "usda:05027",
                                     "usda:01123", "usda:15048", "usda:15085", "usda:04593", "usda:12012", "usda:20032",
                                     "usda:11457", "usda:16027", "usda:04506", "usda:15164", "usda:13326", "usda:23562"};

static struct compose_food food_of(uint32_t f) {
  return (struct compose_food){.food = candidate_of(built_library(), f, NULL),
                               .high = INFINITY,
                               .times_low = NAN,
                               .times_high = NAN,
                               .price = between(0.002, 0.03)};
}

/* What people use to bring a nutrient (data/fixes.tsv of the library). */
static size_t add_fixes(struct compose_food *food, size_t n, enum species s) {
  const struct library *lib = built_library();
  const struct img_fix *fix = IMG_ROWS(&lib->image, IMG_FIXES, struct img_fix);
  for (size_t i = 0; i < img_count(&lib->image, IMG_FIXES) && n < FOODS_MOST; i++) {
    bool there = fix[i].species != SPECIES_BOTH && fix[i].species != s;
    for (size_t k = 0; k < n; k++) there = there || food[k].food.line.shown_food == fix[i].food;
    if (there || draw(6) == 0) continue;
    food[n] = food_of(fix[i].food);
    food[n++].high = 5 * (double)fix[i].most_g;
  }
  return n;
}

static struct animal any_animal(enum species s) {
  bool cat = s == SPECIES_CAT;
  return (struct animal){.name = cat ? "Pim" : "Moss",
                         .species = s,
                         .weight_kg = cat ? between(3, 6) : between(5, 40),
                         .ideal_kg = NAN,
                         .condition = NAN,
                         .age_years = 5,
                         .adult_weight_kg = NAN,
                         .neutered = 1,
                         .activity = ACTIVITY_MODERATE,
                         .energy_kcal = NAN,
                         .status = "healthy",
                         .healthy = true};
}

static double step(void *user, size_t food, double grams) {
  (void)user;
  (void)food;
  return grams >= 100 ? 5 : grams >= 20 ? 1 : grams >= 5 ? 0.5 : grams >= 1 ? 0.1 : 0.01;
}

static bool patience(void *user, const struct lp_answer *best, double bound, long nodes) {
  (void)bound;
  (void)best;
  return nodes < *(long *)user;
}

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

/* ---- a random larder ----------------------------------------------------------------------------------------------- */

struct scene {
  struct animal animal;
  struct compose_food food[FOODS_MOST];
  struct compose_limit limit[3];
  struct compose_request q;
  long patience;
};

static void fill_pantry(struct scene *s) {
  size_t n = 0;
  for (size_t i = 0; i < COUNT_OF(PANTRY); i++) {
    if (draw(4) == 0) continue;
    struct compose_food *f = &s->food[n++];
    *f = food_of(built_food(PANTRY[i]));
    if (draw(6) == 0) f->least = between(2, 10);
    if (strcmp(PANTRY[i], "usda:01123") == 0) f->whole = 50;
    if (strcmp(PANTRY[i], "usda:15048") == 0 && draw(2) == 0) {
      f->low = f->high = between(20, 110);
      f->times_low = 0;
      f->times_high = 8;
    }
  }
  s->q.foods = draw(8) != 0 ? add_fixes(s->food, n, s->animal.species) : n;
}

static void fill_limits(struct scene *s) {
  if (draw(3) == 0)
    s->limit[s->q.limits++] = (struct compose_limit){
        .kind = COMPOSE_ENERGY_SHARE, .low = -INFINITY, .high = between(0.35, 0.6), .nutrient = NUT_FAT, .words = "fat"};
  if (draw(5) == 0)
    s->limit[s->q.limits++] =
        (struct compose_limit){.kind = COMPOSE_FOODS, .low = -INFINITY, .high = 9 + draw(4), .words = "foods"};
}

static void draw_scene(struct scene *s) {
  *s = (struct scene){.animal = any_animal(draw(3) == 0 ? SPECIES_CAT : SPECIES_DOG), .patience = 300};
  fill_pantry(s);
  fill_limits(s);
  s->q.food = s->food;
  s->q.animal = &s->animal;
  s->q.animals = 1;
  s->q.options = (struct check_options){draw(4) == 0 ? STANDARD_FEDIAF2021 : STANDARD_NRC2006, (enum basis)draw(BASIS_COUNT),
                                        draw(2) ? 0.75 : 0.5 + 0.01 * draw(45), ENERGY_ATWATER};
  s->q.limit = s->limit;
  s->q.aim = (enum compose_aim)draw(3);
  s->q.step = step;
  s->q.go_on = patience;
  s->q.user = &s->patience;
}

/* ---- what is found -----------------------------------------------------------------------------------------------------
 */

static void everything_is_met(const struct compose_request *q, const struct compose_bowl *b, struct arena *a) {
  const struct check_result *c = check_numbers(built_library(), b->ration, b->animal, &q->options, a);
  assert_true(b->kept);
  for (int k = 0; k < NUT_COUNT; k++)
    if (c->nutrient[k].verdict != VERDICT_MET && c->nutrient[k].verdict != VERDICT_NO_FIGURE)
      fail_msg("%s is %s", nutrient_info[k].name, verdict_word[c->nutrient[k].verdict]);
  assert_true(c->energy.supply_kcal >= 0.95 * b->need_kcal - 1e-6);
  assert_true(c->energy.supply_kcal <= 1.05 * b->need_kcal + 1e-6);
  for (size_t i = 0; i < q->limits; i++)
    if (q->limit[i].kind == COMPOSE_ENERGY_SHARE) assert_true(c->energy.share_fat <= q->limit[i].high + 1e-6);
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

/* ---- none
 * ------------------------------------------------------------------------------------------------------------------ */

static bool first_is_enough(void *user, const struct lp_answer *best, double bound, long nodes) {
  (void)user;
  (void)bound;
  (void)nodes;
  return !best || !best->has_x;
}

static bool has_solution(const struct lp_model *m) {
  struct arena a;
  struct lp_limits limits = {.go_on = first_is_enough};
  arena_init(&a, NULL);
  const struct lp_answer *x = lp_solve_mixed(lp_open(m, 0, &a), &limits);
  bool none = x->status == LP_INFEASIBLE;
  assert_true(none || x->has_x);
  arena_free(&a);
  return !none;
}

/* Each limit taken away by itself leaves something that has a solution. */
static void is_smallest(struct lp_model *m) {
  assert_false(has_solution(m));
  for (size_t i = 0; i < m->rows; i++) {
    struct lp_row *before = malloc(m->rows * sizeof *before);
    memcpy(before, m->row, m->rows * sizeof *before);
    for (size_t k = 0; k < m->rows; k++)
      if (strcmp(m->row[k].name, before[i].name) == 0) {
        m->row[k].lo = -INFINITY;
        m->row[k].hi = INFINITY;
      }
    bool open = isinf(before[i].lo) && isinf(before[i].hi);
    assert_true(open || has_solution(m));
    memcpy(m->row, before, m->rows * sizeof *before);
    free(before);
  }
  for (size_t j = 0; j < m->cols; j++) {
    struct lp_col *c = &m->col[j], before = *c;
    if (isfinite(before.hi) && !(before.unit > 0) && !(before.least > 0)) {
      c->hi = INFINITY;
      assert_true(has_solution(m));
      *c = before;
    }
    if (before.lo > 0) {
      c->lo = 0;
      assert_true(has_solution(m));
      *c = before;
    }
    if (before.least > 0) {
      c->least = 0;
      assert_true(has_solution(m));
      *c = before;
    }
    if (before.unit > 0) {
      c->unit = 0;
      assert_true(has_solution(m));
      *c = before;
    }
  }
  int most = m->most_used;
  m->most_used = -1;
  assert_true(most < 0 || has_solution(m));
  m->most_used = most;
}

static void a_conflict_is_smallest(void **state) {
  (void)state;
  int seen = 0, counting = 0;
  for (int round = 0; round < 60 && (seen < 3 || counting < 1); round++) {
    struct arena a;
    struct scene s;
    arena_init(&a, NULL);
    draw_scene(&s);
    if (round % 2) {
      s.q.limits = 1;
      s.limit[0] = (struct compose_limit){.kind = COMPOSE_FOODS, .low = -INFINITY, .high = 3, .words = "at most 3 foods"};
      s.patience = 20000;
    } else if (s.q.foods > 8) {
      s.q.foods = 8;
    }
    const struct compose_result *r = compose(built_library(), &s.q, &a);
    if (r->status == COMPOSE_NONE && r->conflict.model) {
      struct lp_model m = *r->conflict.model;
      assert_true(r->conflict.count > 0);
      is_smallest(&m);
      seen++;
      counting += r->conflict.by_counting;
      assert_non_null(r->nearest);
    }
    arena_free(&a);
  }
  assert_true(seen >= 3);
  assert_true(counting > 0);
}

/* What is said to make it possible does. */
static void what_would_help_helps(void **state) {
  (void)state;
  int enough = 0;
  for (int round = 0; round < 40 && enough < 3; round++) {
    struct arena a;
    struct scene s;
    arena_init(&a, NULL);
    draw_scene(&s);
    s.q.limits = 0;
    if (s.q.foods == FOODS_MOST) s.q.foods--;
    size_t out = draw((uint32_t)s.q.foods);
    s.food[out] = s.food[s.q.foods - 1];
    s.q.foods -= 1;
    for (size_t i = 0; i < s.q.foods; i++) s.food[i].least = 0;
    const struct compose_result *r = compose(built_library(), &s.q, &a);
    for (size_t i = 0; i < r->helps; i++) {
      const struct program_help *h = &r->help[i].help;
      if (!h->enough) continue;
      struct scene with = s;
      with.q.food = with.food;
      with.q.animal = &with.animal;
      with.food[with.q.foods] = food_of(h->food);
      with.food[with.q.foods++].high = h->grams * 1.001;
      for (size_t k = 0; k < with.q.foods; k++) with.food[k].whole = 0;
      with.q.step = NULL;
      assert_int_equal(compose(built_library(), &with.q, &a)->status, COMPOSE_FOUND);
      enough++;
      break;
    }
    arena_free(&a);
  }
  assert_true(enough > 0);
}

static void a_refused_animal_gets_no_formula(void **state) {
  (void)state;
  struct arena a;
  struct scene s;
  arena_init(&a, NULL);
  draw_scene(&s);
  struct animal two[2] = {any_animal(SPECIES_DOG), any_animal(SPECIES_DOG)};
  two[1].age_years = 0.4;
  s.q.animal = two;
  s.q.animals = 2;
  const struct compose_result *r = compose(built_library(), &s.q, &a);
  assert_int_equal(r->status, COMPOSE_REFUSED);
  assert_ptr_equal(r->refused, &two[1]);
  assert_null(r->dish);
  assert_null(r->nearest);
  assert_int_equal(r->helps, 0);
  arena_free(&a);
}

/* Stopped at once there is no recipe, and none is said to exist or not to exist. */
static void stopped_is_not_none(void **state) {
  (void)state;
  long nothing = 0;
  for (int round = 0; round < 10; round++) {
    struct arena a;
    struct scene s;
    arena_init(&a, NULL);
    draw_scene(&s);
    s.q.user = &nothing;
    const struct compose_result *stopped = compose(built_library(), &s.q, &a);
    s.q.user = &s.patience;
    const struct compose_result *r = compose(built_library(), &s.q, &a);
    if (stopped->status == COMPOSE_NONE) assert_int_equal(r->status, COMPOSE_NONE);
    if (stopped->dish) everything_is_met(&s.q, &stopped->dish->bowl[0], &a);
    arena_free(&a);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(what_is_found_passes),      cmocka_unit_test(the_answer_is_one),
      cmocka_unit_test(a_household_shares_a_base), cmocka_unit_test(a_conflict_is_smallest),
      cmocka_unit_test(what_would_help_helps),     cmocka_unit_test(a_refused_animal_gets_no_formula),
      cmocka_unit_test(stopped_is_not_none),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
