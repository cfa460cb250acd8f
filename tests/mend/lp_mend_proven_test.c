/* What is said to be proven holds. Bowls as owners feed them (bowls.h) are searched step by step of the reach as mend does
 * it, with everything that earlier steps taught the program, and compared with a search that begins afresh at each step:
 *
 *   - a step that is proven impossible is impossible for the fresh search as well, and nothing at all is found in it when
 *     other foods are looked for first;
 *   - bowls that are right, found with many leanings of cost and by searches that know nothing of each other, break none of
 *     the rows that proofs are made of. Rows that may cut off such bowls do: that is why nothing is proven with them;
 *   - where a step is proven impossible GLPK, an independent solver, finds the same of those rows. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "app/app_mend.h"
#include "app/mend_parts.h"
#include "change/mend_search.h"
#include "tests/lp/glpk_oracle.h"
#include "tests/mend/bowls.h"
#include "tests/support/built_image.h"
#include "tests/support/sampled.h"

/* Firm rows keep a millionth of the whole free: of what is promised, most of which the owner's foods may bring already. */
static const double ROOM = 3e-6;

enum { LEANINGS = 6, RIGHT_MOST = MEND_REACHES * (LEANINGS + 1) };

struct begun {
  struct mending w;
  struct app_mend_answer answer;
  struct mend_search s;
};

static bool begin(struct begun *x, const struct bowl *b, struct arena *arena) {
  struct app_mend_request q = {.one_way = true};
  q.check.recipe = (struct app_input){"bowl", span_of(b->text)};
  q.check.one_off = &b->animal;
  q.check.ask.check = CHECK_OPTIONS_DEFAULT;
  q.check.ask.check.standard = b->standard;
  if (!mending_begin(built_library(), &q, &x->answer, &x->w, arena) || !mending_offer(&x->w, &x->answer)) return false;
  return mend_search_begin(&x->s, built_library(), &x->w.request, x->answer.check.result, arena);
}

static struct model_answer solve_at(struct mend_search *s, int reach, bool leaning) {
  double *cost = ARENA_NEW(s->arena, double, s->columns);
  s->reach = reach;
  mend_play(s, NULL, GRAIN_NONE, 1);
  for (size_t j = 0; j < s->columns; j++) cost[j] = s->column[j].cost * (leaning ? pow(30, 2 * unit_random() - 1) : 1);
  mend_costs(s, cost);
  return mend_solve(s, false, 0);
}

struct right {
  const double *x;
  int reach;
};

struct tally {
  int found, none, proven, cut_off, by_glpk;
};

/* By what share of the limit, or of the largest of its terms, a row is missed. */
static double missed_by(struct model *m, size_t row, const double *x) {
  const struct lp_model *lp = model_lp(m);
  const struct lp_row *r = &lp->row[row];
  double sum = 0, whole = model_row_size(m, row);
  for (size_t j = 0; j < lp->cols; j++) {
    sum += lp->a[row][j] * x[j];
    whole = fmax(whole, fabs(lp->a[row][j] * x[j]));
  }
  return fmax(0, fmax(r->lo - sum, sum - r->hi)) / whole;
}

static double worst_of(struct model *m, const double *x, size_t *row) {
  double worst = 0;
  for (size_t i = 0; i < model_lp(m)->rows; i++) {
    double by = missed_by(m, i, x);
    if (!(by > worst)) continue;
    worst = by;
    *row = i;
  }
  return worst;
}

/* The rows of a model of which proofs are made, as they stand in a reach: manners are let go beyond some. */
static void breaks_no_row(struct mend_search *s, const struct right *right, int count, struct tally *t) {
  struct arena scratch;
  for (int k = 0; k < count; k++) {
    arena_init(&scratch, NULL);
    s->reach = right[k].reach;
    mend_play(s, NULL, GRAIN_NONE, 1);
    struct model *firm = model_firm(s->p, &scratch);
    size_t row = 0;
    double worst = worst_of(firm, right[k].x, &row);
    if (worst > ROOM) print_error("%s is broken by %g\n", model_lp(firm)->row[row].name, worst);
    assert_true(worst <= ROOM);
    t->cut_off += worst_of(s->p, right[k].x, &row) > ROOM;
    arena_free(&scratch);
  }
}

static void as_from_the_beginning(const struct bowl *b, struct tally *t) {
  struct arena arena;
  struct right right[RIGHT_MOST];
  struct begun *on = NULL, *fresh = NULL;
  int count = 0;
  arena_init(&arena, NULL);
  on = ARENA_NEW(&arena, struct begun, 1);
  if (!begin(on, b, &arena) || model_keeps(on->s.p, 0, on->s.before)) {
    arena_free(&arena);
    return;
  }
  for (int reach = 0; reach < MEND_REACHES; reach++) {
    struct model_answer a = solve_at(&on->s, reach, false);
    bool proven = a.status == PROGRAM_NONE && a.proven;
    if (proven) {
      struct oracle o = oracle_solve(model_lp(model_firm(on->s.p, &arena)));
      t->by_glpk += o.status == LP_INFEASIBLE;
      assert_int_not_equal(o.status, LP_OPTIMAL);
    }
    t->none += a.status == PROGRAM_NONE;
    t->proven += proven;
    fresh = ARENA_NEW(&arena, struct begun, 1);
    assert_true(begin(fresh, b, &arena));
    for (int k = 0; k < LEANINGS; k++) {
      if (a.has_x) right[count++] = (struct right){a.x, reach};
      a = solve_at(k % 2 ? &fresh->s : &on->s, reach, true);
      assert_false(proven && a.has_x);
      t->found += a.has_x;
    }
  }
  breaks_no_row(&on->s, right, count, t);
  breaks_no_row(&fresh->s, right, count, t);
  arena_free(&arena);
}

static void proofs_hold(void **state) {
  (void)state;
  enum { TRIED = SAMPLED(BOWLS / 3, BOWLS / 20) };
  struct tally t = {0};
  for (int i = 0; i < TRIED; i++) {
    struct arena arena;
    arena_init(&arena, NULL);
    struct bowl b = bowl_of(built_library(), i * BOWLS / TRIED, &arena);
    as_from_the_beginning(&b, &t);
    arena_free(&arena);
  }
  print_message("%d right bowls, %d steps without one, %d of them proven (%d by GLPK); %d times cut off by a bold row\n",
                t.found, t.none, t.proven, t.by_glpk, t.cut_off);
  assert_true(t.found > TRIED * 10);
  assert_true(t.proven > TRIED / 8 && t.by_glpk * 10 >= t.proven * 9);
  assert_true(t.cut_off > 0); /* the comparison can fail */
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(proofs_hold)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
