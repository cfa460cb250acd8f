/* A smallest set of limits that cannot hold together, by dropping limits one at a time: a limit whose absence leaves the
 * rest impossible is not needed and stays out; one whose absence makes the rest possible is part of the conflict. */
#include <math.h>

#include "lp/lp.h"

struct search {
  const struct lp_model *m;
  struct lp_solver *solver;
  struct lp_conflict *found;
  const struct lp_limits *limits; /* NULL */
  bool stopped;
};

static bool may_go_on(struct search *s) {
  const struct lp_limits *l = s->limits;
  if (!s->stopped && l && l->go_on) s->stopped = !l->go_on(l->user, NULL, -INFINITY, 0);
  return !s->stopped;
}

/* Once stopped nothing more is dropped. */
static bool possible(struct search *s) {
  if (!may_go_on(s)) return true;
  enum lp_status status = lp_solve(s->solver, NULL)->status;
  return status == LP_OPTIMAL || status == LP_UNBOUNDED;
}

static void set_row(struct search *s, size_t i) {
  lp_change_row(s->solver, (int)i, s->found->row_lo[i] ? s->m->row[i].lo : -INFINITY,
                s->found->row_hi[i] ? s->m->row[i].hi : INFINITY);
}

static void set_col(struct search *s, size_t j) {
  lp_change_col(s->solver, (int)j, s->found->col_lo[j] ? s->m->col[j].lo : -INFINITY,
                s->found->col_hi[j] ? s->m->col[j].hi : INFINITY);
}

/* Drops one limit; takes it back when the rest is possible without it. */
static void try_without(struct search *s, bool *limit, void (*apply)(struct search *, size_t), size_t which) {
  if (!*limit) return;
  *limit = false;
  apply(s, which);
  if (!possible(s)) return;
  *limit = true;
  apply(s, which);
}

/* Everything that the Farkas multipliers do not touch can go at once. */
static void keep_what_the_proof_uses(struct search *s, const double *y) {
  const struct lp_model *m = s->m;
  for (size_t i = 0; i < m->rows; i++)
    if (y[i] == 0) s->found->row_lo[i] = s->found->row_hi[i] = false;
  for (size_t i = 0; i < m->rows; i++) set_row(s, i);
  if (possible(s)) { /* rounding hid a row: start from all of them */
    for (size_t i = 0; i < m->rows; i++) {
      s->found->row_lo[i] = isfinite(m->row[i].lo);
      s->found->row_hi[i] = isfinite(m->row[i].hi);
      set_row(s, i);
    }
  }
}

struct lp_conflict lp_smallest_conflict(const struct lp_model *m, const struct lp_limits *limits, struct arena *arena) {
  struct lp_conflict c = {.row_lo = ARENA_NEW(arena, bool, m->rows),
                          .row_hi = ARENA_NEW(arena, bool, m->rows),
                          .col_lo = ARENA_NEW(arena, bool, m->cols),
                          .col_hi = ARENA_NEW(arena, bool, m->cols)};
  struct search s = {.m = m, .solver = lp_open(m, 0, arena), .found = &c, .limits = limits};
  for (size_t j = 0; j < m->cols; j++) lp_change_cost(s.solver, (int)j, 0);
  const struct lp_answer *a = lp_solve(s.solver, NULL);
  if (a->status != LP_INFEASIBLE) return c;
  double *y = ARENA_NEW(arena, double, m->rows);
  memcpy(y, a->farkas, m->rows * sizeof *y);
  for (size_t i = 0; i < m->rows; i++) {
    c.row_lo[i] = isfinite(m->row[i].lo);
    c.row_hi[i] = isfinite(m->row[i].hi);
  }
  for (size_t j = 0; j < m->cols; j++) {
    c.col_lo[j] = isfinite(m->col[j].lo);
    c.col_hi[j] = isfinite(m->col[j].hi);
  }
  keep_what_the_proof_uses(&s, y);
  /* Column bounds first: people understand a conflict of rows better than one that names every food. */
  for (size_t j = 0; j < m->cols; j++) {
    try_without(&s, &c.col_hi[j], set_col, j);
    try_without(&s, &c.col_lo[j], set_col, j);
  }
  for (size_t i = 0; i < m->rows; i++) {
    try_without(&s, &c.row_hi[i], set_row, i);
    try_without(&s, &c.row_lo[i], set_row, i);
  }
  if (s.stopped) return c; /* what was not tried may not be needed */
  for (size_t i = 0; i < m->rows; i++) c.count += (size_t)c.row_lo[i] + (size_t)c.row_hi[i];
  for (size_t j = 0; j < m->cols; j++) c.count += (size_t)c.col_lo[j] + (size_t)c.col_hi[j];
  return c;
}
