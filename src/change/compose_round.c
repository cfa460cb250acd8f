/* compose_round.c: from exact amounts to amounts that a kitchen can measure.
 *
 * Whole pieces and feedings are fixed first. Then one food after the other, the coarsest step first, is fixed at the nearer
 * multiple of its step, or at the other one, and what is still free moves to keep every promise. A food for which neither
 * holds is tried in finer steps. What is fixed last has nothing to move for it, so that the finest foods, which disturb
 * least, come last. */
#include <math.h>

#include "change/compose_parts.h"

enum { FINER = 7 };

struct rounding {
  struct composer *c;
  struct lp_model *m;
  struct lp_col *before; /* [columns] */
  double *x;
  size_t *order;
  size_t count;
};

static double step_of(const struct composer *c, size_t column, double grams) {
  size_t i = (size_t)c->column_candidate[column];
  double by = c->times_of[i] / CALENDAR_DAYS;
  return c->q->step ? by * c->q->step(c->q->step_user, (size_t)c->food_of[i], grams / by) : 0;
}

/* What a feeding must have at least, as a gram a day. */
static double floor_of(const struct composer *c, size_t column) {
  size_t i = (size_t)c->column_candidate[column];
  return c->q->floor ? c->times_of[i] / CALENDAR_DAYS * c->q->floor(c->q->step_user, (size_t)c->food_of[i]) : 0;
}

static void fix(struct rounding *r, size_t column, double value) {
  struct lp_col *col = &r->m->col[column];
  col->lo = col->hi = value;
  col->least = col->unit = 0;
}

/* Whether the rest can follow; x moves there. */
static bool follows(struct rounding *r) {
  struct model_answer a = model_solve(r->c->p, false, NULL);
  if (a.status != PROGRAM_FOUND) return false;
  memcpy(r->x, a.x, r->m->cols * sizeof *r->x);
  return true;
}

static bool inside(double value, const struct lp_col *before) {
  double slack = 1e-9 * fmax(1, value);
  return value >= before->lo - slack && value <= before->hi + slack &&
         (before->least <= 0 || value >= before->least - slack);
}

static bool fixed_at(struct rounding *r, size_t column, double value) {
  const struct lp_col *before = &r->before[column];
  if (value > 0 ? !inside(value, before) : before->lo > 0) return false;
  fix(r, column, value);
  return follows(r);
}

/* A trace: left out if the rest can follow, else as little as can be weighed. */
static bool round_one(struct rounding *r, size_t column) {
  double grams = r->x[column], least = floor_of(r->c, column), step = fmax(least, step_of(r->c, column, grams));
  if (grams < least && (fixed_at(r, column, 0) || fixed_at(r, column, least))) return true;
  for (int finer = 0; finer < FINER && step > 0 && step >= least; finer++, step /= finer % 2 == 1 ? 2 : 5) {
    double near = round(grams / step), other = near * step > grams ? near - 1 : near + 1;
    for (int side = 0; side < 2; side++) {
      double value = (side == 0 ? near : other) * step;
      if (!(value > 0) || !inside(value, &r->before[column])) continue;
      fix(r, column, value);
      if (follows(r)) return true;
    }
  }
  r->m->col[column].lo = r->before[column].lo; /* stays as exact as it was */
  r->m->col[column].hi = r->before[column].hi;
  if (r->before[column].least > 0) r->m->col[column].lo = r->before[column].least;
  return false;
}

static void order_by_step(struct rounding *r) {
  for (size_t i = 1; i < r->count; i++) {
    size_t column = r->order[i], at = i;
    double step = step_of(r->c, column, r->x[column]);
    for (; at > 0 && step_of(r->c, r->order[at - 1], r->x[r->order[at - 1]]) < step; at--) r->order[at] = r->order[at - 1];
    r->order[at] = column;
  }
}

/* Of foods in base and toppers: what is in use stays at least so much. */
static void hold_sums(struct rounding *r) {
  for (size_t j = r->c->columns; j < r->m->cols; j++) {
    struct lp_col *col = &r->m->col[j];
    if (col->least > 0 && r->x[j] > col->least / 2) col->lo = col->least;
    col->least = 0;
  }
}

bool compose_round(struct composer *c, double *x) {
  struct lp_model *m = model_lp(c->p);
  struct rounding r = {.c = c, .m = m, .x = x};
  bool all = true;
  if (!c->q->step) return false;
  r.before = ARENA_NEW(c->arena, struct lp_col, m->cols);
  r.order = ARENA_NEW(c->arena, size_t, c->columns);
  memcpy(r.before, m->col, m->cols * sizeof *r.before);
  hold_sums(&r);
  for (size_t j = 0; j < c->columns; j++) {
    double tiny = 1e-7;
    if (!(x[j] > tiny)) {
      fix(&r, j, 0);
    } else if (m->col[j].unit > 0) {
      fix(&r, j, round(x[j] / m->col[j].unit) * m->col[j].unit);
    } else {
      if (m->col[j].least > 0) m->col[j].lo = m->col[j].least;
      m->col[j].least = 0;
      r.order[r.count++] = j;
    }
  }
  order_by_step(&r);
  for (size_t i = 0; i < r.count; i++) all = round_one(&r, r.order[i]) && all;
  memcpy(m->col, r.before, m->cols * sizeof *r.before);
  return all;
}

void compose_round_plainly(struct composer *c, double *x) {
  const struct lp_model *m = model_lp(c->p);
  for (size_t j = 0; j < c->columns; j++) {
    double step = m->col[j].unit > 0 ? m->col[j].unit : step_of(c, j, x[j]);
    if (!(x[j] > 1e-7)) x[j] = 0;
    if (step > 0) x[j] = fmin(fmax(round(x[j] / step) * step, m->col[j].lo), m->col[j].hi);
  }
}
