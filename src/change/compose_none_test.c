/* compose_none_test.c: when there is no recipe: the conflict is smallest, what would help does, and nothing is said too
 * much. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

#include "larder_scene.h"
#include "tests/support/sampled.h"

/* ---- none---- */

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

/* Everything that a freezer may hold, enough for an adult dog of 18 kg. */
static const struct {
  const char *code;
  double most;
} FREEZER[] = {{"usda:15048", 32},
               {"usda:17039", 300},
               {"usda:17191", 200},
               {"usda:17199", 25},
               {"usda:05091", 250},
               {"usda:01123", 50},
               {"usda:15088", 60},
               {"usda:15167", 30},
               {"usda:15033", 150},
               {"usda:20032", 150},
               {"usda:11457", 60},
               {"usda:11233", 60},
               {"usda:20078", 20},
               {"usda:12012", 15},
               {"ours:eggshell", 8},
               {"usda:04593", 6},
               {"ours:vitamin-e-natural", 0.3},
               {"ours:zinc-picolinate", 0.2},
               {"ours:choline-bitartrate", 3}};

/* Without the food named, if any. */
static void fill_freezer_but(struct scene *s, const char *without, const char *nor) {
  *s = (struct scene){.animal = any_animal(SPECIES_DOG), .patience = 20000};
  s->animal.weight_kg = 18;
  for (size_t i = 0; i < COUNT_OF(FREEZER); i++) {
    if (without && strcmp(FREEZER[i].code, without) == 0) continue;
    if (nor && strcmp(FREEZER[i].code, nor) == 0) continue;
    s->food[s->q.foods] = food_of(built_food(FREEZER[i].code));
    s->food[s->q.foods++].high = FREEZER[i].most;
  }
  s->q.food = s->food;
  s->q.animal = &s->animal;
  s->q.animals = 1;
  s->q.options = CHECK_OPTIONS_DEFAULT;
  s->q.limit = s->limit;
  s->q.aim = COMPOSE_LIGHTEST;
  s->q.go_on = patience;
  s->q.user = &s->patience;
}

static void fill_freezer(struct scene *s, const char *without) { fill_freezer_but(s, without, NULL); }

static bool conflict_is_smallest(struct scene *s, bool *by_counting) {
  struct arena a;
  arena_init(&a, NULL);
  const struct compose_result *r = compose(built_library(), &s->q, &a);
  bool none = r->status == COMPOSE_NONE && r->conflict.model;
  if (none) {
    struct lp_model m = *r->conflict.model;
    assert_true(r->conflict.count > 0);
    is_smallest(&m);
    assert_non_null(r->nearest);
    *by_counting = r->conflict.by_counting;
  }
  arena_free(&a);
  return none;
}

static void a_conflict_is_smallest(void **state) {
  (void)state;
  enum { WANTED = SAMPLED(8, 2) };
  int seen = 0;
  bool by_counting = false;
  for (int round = 0; round < 60 && seen < WANTED; round++) {
    struct scene s;
    draw_scene(&s);
    s.q.limits = 0;
    if (s.q.foods > 8) s.q.foods = 8;
    seen += conflict_is_smallest(&s, &by_counting);
  }
  assert_true(seen >= WANTED);
}

static void a_conflict_of_counting_is_smallest(void **state) {
  (void)state;
  struct scene s;
  bool by_counting = false;
  fill_freezer(&s, NULL);
  s.limit[0] = (struct compose_limit){.kind = COMPOSE_FOODS, .low = -INFINITY, .high = 4, .words = "at most 4 foods"};
  s.q.limits = 1;
  assert_true(conflict_is_smallest(&s, &by_counting));
  assert_true(by_counting);
}

/* What is said to make it possible does: with so much of it, and no more. */
static void what_would_help_helps(void **state) {
  (void)state;
  static const char *const WITHOUT[] = {"ours:eggshell", "ours:vitamin-e-natural", "usda:15033"};
  for (size_t k = 0; k < COUNT_OF(WITHOUT); k++) {
    struct arena a;
    struct scene s;
    int enough = 0;
    arena_init(&a, NULL);
    fill_freezer(&s, WITHOUT[k]);
    const struct compose_result *r = compose(built_library(), &s.q, &a);
    assert_int_equal(r->status, COMPOSE_NONE);
    for (size_t i = 0; i < r->help.count && enough < 2; i++) {
      const struct model_help *h = &r->help.help[i];
      if (!h->enough) continue;
      struct scene with;
      fill_freezer(&with, WITHOUT[k]);
      with.food[with.q.foods] = food_of(h->food);
      with.food[with.q.foods++].high = h->grams * 1.001;
      assert_int_equal(compose(built_library(), &with.q, &a)->status, COMPOSE_FOUND);
      with.food[with.q.foods - 1].high = h->grams * 0.9;
      assert_int_equal(compose(built_library(), &with.q, &a)->status, COMPOSE_NONE);
      enough++;
    }
    assert_true(enough > 0);
    arena_free(&a);
  }
}

/* The larder with the foods of a team, 'scale' times as much of each as was said, one of them left out (-1: none). */
static enum compose_status with_team(const struct model_team *t, double scale, int left_out) {
  struct arena a;
  struct scene with;
  arena_init(&a, NULL);
  fill_freezer_but(&with, "ours:eggshell", "ours:vitamin-e-natural");
  for (size_t i = 0; i < t->count; i++) {
    if ((int)i == left_out) continue;
    with.food[with.q.foods] = food_of(t->food[i].food);
    with.food[with.q.foods++].high = t->food[i].grams * scale;
  }
  enum compose_status status = compose(built_library(), &with.q, &a)->status;
  arena_free(&a);
  return status;
}

/* Two foods that stand for nothing else in the freezer are missing: no food alone suffices, the team does, and each of it is
 * needed. */
static void together_they_suffice(void **state) {
  (void)state;
  struct arena a;
  struct scene s;
  arena_init(&a, NULL);
  fill_freezer_but(&s, "ours:eggshell", "ours:vitamin-e-natural");
  const struct compose_result *r = compose(built_library(), &s.q, &a);
  assert_int_equal(r->status, COMPOSE_NONE);
  for (size_t i = 0; i < r->help.count; i++) assert_false(r->help.help[i].enough);
  const struct model_team *t = &r->help.team;
  assert_true(t->count >= 2 && t->enough);
  assert_int_equal(with_team(t, 1.001, -1), COMPOSE_FOUND);
  assert_int_equal(with_team(t, 0.9, -1), COMPOSE_NONE);
  for (size_t i = 0; i < t->count; i++) assert_int_equal(with_team(t, 1.001, (int)i), COMPOSE_NONE);
  arena_free(&a);
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
  assert_int_equal(r->help.count, 0);
  arena_free(&a);
}

/* Stopped at once there is no recipe, and none is said to exist or not to exist. */
static void stopped_is_not_none(void **state) {
  (void)state;
  long nothing = 0;
  for (int round = 0; round < SAMPLED(10, 3); round++) {
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

struct waiting {
  long asks, after;     /* questions answered with yes; those asked after the first no */
  long pivots, at_stop; /* of the simplex, as compose counts them; when the first no was said */
};

static bool wait_a_while(void *user, const struct lp_answer *best, double bound, long nodes) {
  (void)best, (void)bound, (void)nodes;
  struct waiting *w = user;
  if (w->asks-- > 0) return true;
  if (w->after++ == 0) w->at_stop = w->pivots;
  return false;
}

/* Twenty dogs, no eggshell and no vitamin E on offer. Whoever waits has had enough after so many questions: few more are
 * asked (each stands for one small program solved at most), and no pivot of a large one is left to do; ended before it
 * began, one large program, the nearest, is solved. The answer says that it was cut short. Never ended, it says nothing of
 * the kind. */
static void an_explanation_can_be_cut_short(void **state) {
  (void)state;
  static const long ASKS[] = {0, 1, 3, 10, 30, 100000000};
  enum { DOGS = 20, FEW = 60, ONE_PROGRAM = 1500 };
  for (size_t i = 0; i < COUNT_OF(ASKS); i++) {
    struct arena a;
    struct scene s;
    struct animal dog[DOGS];
    struct waiting w = {.asks = ASKS[i]};
    arena_init(&a, NULL);
    fill_freezer_but(&s, "ours:eggshell", "ours:vitamin-e-natural");
    size_t dogs = ASKS[i] > 1000 ? 1 : DOGS;
    for (size_t k = 0; k < dogs; k++) {
      dog[k] = s.animal;
      dog[k].name = "Moss";
      dog[k].weight_kg = 5 + (double)k;
    }
    s.q.animal = dog;
    s.q.animals = dogs;
    s.q.go_on = wait_a_while;
    s.q.user = &w;
    s.q.pivots = &w.pivots;
    const struct compose_result *r = compose(built_library(), &s.q, &a);
    assert_null(r->dish);
    assert_int_equal(r->cut_short, dogs == DOGS);
    assert_true(w.after <= FEW);
    long after_stop = w.after > 0 ? w.pivots - w.at_stop : 0;
    assert_true(ASKS[i] == 0 ? after_stop <= ONE_PROGRAM : after_stop == 0);
    if (r->cut_short) assert_int_equal(r->help.count + r->help.team.count, 0);
    arena_free(&a);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_conflict_is_smallest),
      cmocka_unit_test(a_conflict_of_counting_is_smallest),
      cmocka_unit_test(what_would_help_helps),
      cmocka_unit_test(together_they_suffice),
      cmocka_unit_test(a_refused_animal_gets_no_formula),
      cmocka_unit_test(stopped_is_not_none),
      cmocka_unit_test(an_explanation_can_be_cut_short),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
