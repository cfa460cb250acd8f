/* fuzz_lp.c: any bytes as a tiny mixed program; the solver must find what plain enumeration finds (tests/lp/enumerate.h),
 * and a "nothing is possible" of the continuous program must come with its proof. */
#include <stdio.h>
#include <stdlib.h>

#include "tests/lp/enumerate.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

struct bytes {
  const uint8_t *p;
  size_t left;
};

/* The next byte as one of 0 .. n - 1; zero when there are no more. */
static int take(struct bytes *b, int n) {
  if (b->left == 0) return 0;
  b->left--;
  return *b->p++ % n;
}

static void read_columns(struct lp_model *m, struct bytes *b) {
  int cols = 1 + take(b, COLS_MOST), continuous = 0;
  for (int j = 0; j < cols; j++) {
    struct lp_col c = {.name = "c", .hi = 1 + take(b, 6), .cost = take(b, 15) - 5, .counted = take(b, 2)};
    int unit = take(b, 4);
    if (continuous == CONTINUOUS_MOST && unit == 0) unit = 1;
    c.unit = unit;
    continuous += unit == 0;
    c.least = smaller_of(c.hi, take(b, 4));
    lp_add_col(m, c);
  }
}

static void read_program(struct lp_model *m, struct bytes *b) {
  read_columns(m, b);
  int rows = 1 + take(b, 5);
  for (int i = 0; i < rows; i++) {
    int sides = take(b, 4), low = take(b, 24) - 8, wide = take(b, 12);
    int row = lp_add_row(m, "r", sides & 1 ? (double)low : -INFINITY, sides & 2 ? (double)(low + wide) : INFINITY);
    for (size_t j = 0; j < m->cols; j++) lp_set(m, row, (int)j, take(b, 11) - 4);
  }
  m->most_used = take(b, (int)m->cols + 2) - 1;
}

static void wrong(const char *what, const struct lp_answer *a, double best) {
  fprintf(stderr, "%s: status %d, objective %.12g; enumeration: %.12g\n", what, (int)a->status, a->objective, best);
  abort();
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  struct arena arena;
  struct lp_model m;
  struct bytes b = {data, size};
  arena_init(&arena, NULL);
  lp_init(&m, &arena);
  read_program(&m, &b);
  if (lp_fault(&m)) abort();
  double best = enumerated_best(&m);
  struct lp_solver *s = lp_open(&m, 0, &arena);
  const struct lp_answer *a = lp_solve_mixed(s, NULL);
  if (best == INFINITY) {
    if (a->status != LP_INFEASIBLE) wrong("nothing is possible", a, best);
  } else {
    if (a->status != LP_OPTIMAL || !(fabs(a->objective - best) <= 1e-7 * (1 + fabs(best)))) wrong("another answer", a, best);
    if (not_mixed(&m, a->x)) wrong(not_mixed(&m, a->x), a, best);
  }
  a = lp_solve(s, NULL); /* the same solver after the search: its bounds must have come back */
  if (a->status == LP_INFEASIBLE ? !lp_farkas_proves(&m, a->farkas) || best < INFINITY : a->status != LP_OPTIMAL)
    wrong("the continuous program", a, best);
  if (a->status == LP_OPTIMAL && !(a->objective <= best + 1e-7 * (1 + fabs(best))))
    wrong("a relaxation dearer than its program", a, best);
  arena_free(&arena);
  return 0;
}
