/* A smallest conflict, judged by GLPK alone: its limits together are impossible, and without any one of them possible. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "glpk_oracle.h"
#include "models.h"

enum { CONFLICTS = 150 };

/* The model with only the flagged limits, and no costs. */
static struct lp_model only(const struct lp_model *m, const struct lp_conflict *c, struct arena *arena) {
  struct lp_model k = *m;
  k.col = ARENA_NEW(arena, struct lp_col, m->cols);
  k.row = ARENA_NEW(arena, struct lp_row, m->rows);
  for (size_t j = 0; j < m->cols; j++)
    k.col[j] = (struct lp_col){
        .name = "c", .lo = c->col_lo[j] ? m->col[j].lo : -INFINITY, .hi = c->col_hi[j] ? m->col[j].hi : INFINITY};
  for (size_t i = 0; i < m->rows; i++)
    k.row[i] = (struct lp_row){"r", c->row_lo[i] ? m->row[i].lo : -INFINITY, c->row_hi[i] ? m->row[i].hi : INFINITY};
  return k;
}

static void drop_each(const struct lp_model *m, struct lp_conflict *c, bool *limit, size_t n, struct arena *arena,
                      size_t *seen) {
  for (size_t i = 0; i < n; i++) {
    if (!limit[i]) continue;
    ++*seen;
    limit[i] = false;
    struct lp_model less = only(m, c, arena);
    assert_int_equal(oracle_solve(&less).status, LP_OPTIMAL);
    limit[i] = true;
  }
}

static void conflicts_are_minimal(void **state) {
  (void)state;
  int found = 0, wanted = models_to_try(CONFLICTS);
  for (uint64_t seed = 0; found < wanted; seed++) {
    struct arena arena;
    struct lp_model m;
    arena_init(&arena, NULL);
    struct draw r = draw_from(seed);
    if (seed % 3 == 0) {
      make_diet(&m, &arena, &r,
                &(struct diet){.cat = seed % 2, .foods = 10 + draw_below(&r, 25), .tight = draw_share(&r), .most_used = -1});
    } else {
      make_rough(&m, &arena, &r, seed % 3 == 1 ? IMPOSSIBLE : EQUALITIES, 2 + draw_below(&r, 25), 2 + draw_below(&r, 20));
    }
    struct lp_conflict c = lp_smallest_conflict(&m, NULL, &arena);
    if (oracle_solve(&m).status != LP_INFEASIBLE) {
      assert_int_equal(c.count, 0);
    } else {
      size_t seen = 0;
      found++;
      struct lp_model all = only(&m, &c, &arena);
      assert_int_equal(oracle_solve(&all).status, LP_INFEASIBLE);
      drop_each(&m, &c, c.row_lo, m.rows, &arena, &seen);
      drop_each(&m, &c, c.row_hi, m.rows, &arena, &seen);
      drop_each(&m, &c, c.col_lo, m.cols, &arena, &seen);
      drop_each(&m, &c, c.col_hi, m.cols, &arena, &seen);
      assert_int_equal(seen, c.count);
      assert_true(seen > 0);
    }
    arena_free(&arena);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(conflicts_are_minimal)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
