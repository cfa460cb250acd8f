/* Arithmetic on the unscaled model. Nothing here trusts the solver. */
#include <math.h>

#include "lp/lp.h"

static double violation(double x, double lo, double hi) {
  double limit = x < lo ? lo : hi, by = x < lo ? lo - x : x > hi ? x - hi : 0;
  if (isnan(x)) return INFINITY;
  return by > 0 ? by / fmax(1, fabs(limit)) : 0;
}

struct lp_check lp_verify(const struct lp_model *m, const double *x) {
  struct lp_check c = {.row = -1, .col = -1};
  for (size_t j = 0; j < m->cols; j++) {
    double v = violation(x[j], m->col[j].lo, m->col[j].hi);
    c.objective += m->col[j].cost * x[j];
    if (v > c.worst_col) c.worst_col = v, c.col = (int)j;
  }
  for (size_t i = 0; i < m->rows; i++) {
    double sum = 0;
    for (size_t j = 0; j < m->cols; j++) sum += m->a[i][j] * x[j];
    double v = violation(sum, m->row[i].lo, m->row[i].hi);
    /* A tiny requirement (micrograms as grams) counts by its own size, not against 1. */
    double size = fmax(isfinite(m->row[i].lo) ? fabs(m->row[i].lo) : 0, isfinite(m->row[i].hi) ? fabs(m->row[i].hi) : 0);
    if (v > 0 && size > 0 && size < 1) v /= size;
    if (v > c.worst_row) c.worst_row = v, c.row = (int)i;
  }
  return c;
}

/* Range of (y'A) x over the column bounds, and of y's over the row limits: disjoint ranges prove that no x exists. */
struct range {
  double lo, hi;
};

static void widen(struct range *r, double f, double lo, double hi) {
  if (f == 0) return;
  r->lo += f > 0 ? f * lo : f * hi;
  r->hi += f > 0 ? f * hi : f * lo;
}

bool lp_farkas_proves(const struct lp_model *m, const double *y) {
  struct range columns = {0, 0}, rows = {0, 0};
  double size = 0;
  for (size_t i = 0; i < m->rows; i++) {
    widen(&rows, y[i], m->row[i].lo, m->row[i].hi);
    double limit = fmax(isfinite(m->row[i].lo) ? fabs(m->row[i].lo) : 0, isfinite(m->row[i].hi) ? fabs(m->row[i].hi) : 0);
    size += fabs(y[i]) * limit;
  }
  for (size_t j = 0; j < m->cols; j++) {
    double sum = 0, terms = 0;
    for (size_t i = 0; i < m->rows; i++) {
      sum += y[i] * m->a[i][j];
      terms += fabs(y[i] * m->a[i][j]);
    }
    if (fabs(sum) <= 1e-11 * terms) sum = 0; /* what remains is rounding */
    widen(&columns, sum, m->col[j].lo, m->col[j].hi);
  }
  double margin = 1e-10 * size;
  return columns.hi < rows.lo - margin || columns.lo > rows.hi + margin;
}

double lp_dual_bound(const struct lp_model *m, const double *y) {
  /* min c'x >= sum over rows of y_i times the limit that y's sign makes binding, plus what the bounds leave of c - y'A. */
  double bound = 0;
  for (size_t i = 0; i < m->rows; i++) {
    if (y[i] == 0) continue;
    bound += y[i] > 0 ? y[i] * m->row[i].lo : y[i] * m->row[i].hi;
  }
  for (size_t j = 0; j < m->cols; j++) {
    double r = m->col[j].cost, terms = fabs(r);
    for (size_t i = 0; i < m->rows; i++) {
      r -= y[i] * m->a[i][j];
      terms += fabs(y[i] * m->a[i][j]);
    }
    if (fabs(r) <= 1e-12 * terms) continue;
    bound += r > 0 ? r * m->col[j].lo : r * m->col[j].hi;
  }
  return isnan(bound) ? -INFINITY : bound;
}
