/* Random tiny mixed programs against brute force (enumerate.h). */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "enumerate.h"

enum { PROGRAMS = 40000 };

static void make_tiny(struct lp_model *m, struct arena *arena, struct draw *r) {
  lp_init(m, arena);
  int cols = 1 + draw_below(r, COLS_MOST), rows = 1 + draw_below(r, 5), continuous = 0;
  for (int j = 0; j < cols; j++) {
    struct lp_col c = {
        .name = "c", .hi = 1 + draw_below(r, 6), .cost = draw_below(r, 9) - 3, .counted = draw_chance(r, 0.5)};
    if (continuous == CONTINUOUS_MOST || draw_chance(r, 0.4)) {
      c.unit = 1 + draw_below(r, 3);
    } else {
      continuous++;
    }
    if (draw_chance(r, 0.4)) c.least = smaller_of(c.hi, 1 + draw_below(r, 3));
    lp_add_col(m, c);
  }
  for (int i = 0; i < rows; i++) {
    double lo = draw_chance(r, 0.5) ? (double)(draw_below(r, 12) - 4) : -INFINITY;
    double hi = draw_chance(r, 0.5) ? (lo > -INFINITY ? lo + draw_below(r, 6) : (double)draw_below(r, 12)) : INFINITY;
    int row = lp_add_row(m, "r", lo, hi);
    for (int j = 0; j < cols; j++) lp_set(m, row, j, small_number(r));
  }
  if (draw_chance(r, 0.5)) m->most_used = draw_below(r, cols + 1);
}

static void tiny_programs_match_enumeration(void **state) {
  (void)state;
  int found = 0, none = 0, programs = models_to_try(PROGRAMS);
  for (int k = 0; k < programs; k++) {
    struct arena arena;
    struct lp_model m;
    arena_init(&arena, NULL);
    struct draw r = draw_from(500000 + (uint64_t)k);
    make_tiny(&m, &arena, &r);
    assert_null(lp_fault(&m));
    double best = enumerated_best(&m);
    const struct lp_answer *a = lp_solve_mixed(lp_open(&m, 0, &arena), NULL);
    if (best < INFINITY) {
      found++;
      if (a->status != LP_OPTIMAL || !(fabs(a->objective - best) <= 1e-7 * (1 + fabs(best))))
        fail_msg("program %d: enumeration finds %.12g, the solver says %d %.12g", k, best, (int)a->status, a->objective);
      const char *fault = not_mixed(&m, a->x);
      if (fault) fail_msg("program %d: %s", k, fault);
    } else {
      none++;
      if (a->status != LP_INFEASIBLE) fail_msg("program %d: nothing is possible, the solver says %d", k, (int)a->status);
    }
    arena_free(&arena);
  }
  print_message("%d programs with an answer, %d impossible\n", found, none);
  assert_true(found > programs / 3 && none > programs / 20);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(tiny_programs_match_enumeration)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
