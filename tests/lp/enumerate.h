/* enumerate.h: the answer of a tiny mixed program without a solver: every choice of "in or out" for the columns that may be
 * zero, and every number of units for the whole ones, leaves a continuous program in at most two columns, whose best corner
 * is found by intersecting every pair of its lines. Nothing of src/lp but the model's arrays is used. */
#ifndef BW_TESTS_ENUMERATE_H
#define BW_TESTS_ENUMERATE_H

#include "models.h"

enum { COLS_MOST = 4, CONTINUOUS_MOST = 2 };
#define SLACK 1e-9

static inline bool holds(const struct lp_model *m, const double *x, const double *lo, const double *hi) {
  for (size_t j = 0; j < m->cols; j++)
    if (x[j] < lo[j] - SLACK || x[j] > hi[j] + SLACK) return false;
  for (size_t i = 0; i < m->rows; i++) {
    double sum = 0;
    for (size_t j = 0; j < m->cols; j++) sum += m->a[i][j] * x[j];
    if (sum < m->row[i].lo - SLACK || sum > m->row[i].hi + SLACK) return false;
  }
  return true;
}

struct line { /* of the two free columns: a u + b v = c */
  double a, b, c;
};

static inline void take_if_better(const struct lp_model *m, const double *x, const double *lo, const double *hi,
                                  double *best) {
  double cost = 0;
  if (!holds(m, x, lo, hi)) return;
  for (size_t j = 0; j < m->cols; j++) cost += m->col[j].cost * x[j];
  if (cost < *best) *best = cost;
}

/* All columns but free[0 .. count) are at the values in x already. */
static inline void best_corner(const struct lp_model *m, double *x, const double *lo, const double *hi, const size_t *free,
                               int count, double *best) {
  struct line line[64];
  int lines = 0;
  if (count == 0) {
    take_if_better(m, x, lo, hi, best);
    return;
  }
  size_t u = free[0], v = count > 1 ? free[1] : free[0];
  for (int k = 0; k < count; k++) {
    line[lines++] = (struct line){k == 0, k == 1, lo[free[k]]};
    line[lines++] = (struct line){k == 0, k == 1, hi[free[k]]};
  }
  for (size_t i = 0; i < m->rows; i++) {
    double rest = 0;
    for (size_t j = 0; j < m->cols; j++)
      if (j != u && j != v) rest += m->a[i][j] * x[j];
    for (int side = 0; side < 2; side++) {
      double limit = side ? m->row[i].hi : m->row[i].lo;
      if (isfinite(limit)) line[lines++] = (struct line){m->a[i][u], count > 1 ? m->a[i][v] : 0, limit - rest};
    }
  }
  for (int p = 0; p < lines; p++)
    for (int q = p + (count > 1); q < lines; q++) {
      double det = count > 1 ? line[p].a * line[q].b - line[q].a * line[p].b : line[p].a;
      if (det == 0) continue;
      if (count > 1) {
        x[u] = (line[p].c * line[q].b - line[q].c * line[p].b) / det;
        x[v] = (line[p].a * line[q].c - line[q].a * line[p].c) / det;
      } else {
        x[u] = line[p].c / det;
      }
      take_if_better(m, x, lo, hi, best);
      if (count == 1) break;
    }
}

static inline void enumerate(const struct lp_model *m, size_t j, double *x, double *lo, double *hi, size_t *free, int count,
                             int used, double *best) {
  if (m->most_used >= 0 && used > m->most_used) return;
  if (j == m->cols) {
    best_corner(m, x, lo, hi, free, count, best);
    return;
  }
  const struct lp_col *c = &m->col[j];
  if (c->unit > 0) {
    for (int k = 0; k * c->unit <= c->hi + SLACK; k++) {
      if (k > 0 && k * c->unit < c->least - SLACK) continue;
      x[j] = lo[j] = hi[j] = k * c->unit;
      enumerate(m, j + 1, x, lo, hi, free, count, used + (k > 0 && c->counted), best);
    }
    return;
  }
  if (c->least > 0 || c->counted) { /* out */
    x[j] = lo[j] = hi[j] = 0;
    enumerate(m, j + 1, x, lo, hi, free, count, used, best);
  }
  lo[j] = c->least, hi[j] = c->hi;
  free[count] = j;
  enumerate(m, j + 1, x, lo, hi, free, count + 1, used + c->counted, best);
}

/* The least cost of a program of at most COLS_MOST columns, of which at most CONTINUOUS_MOST are not of whole units; lower
 * bounds are zero, upper ones finite. INFINITY: no answer exists. */
static inline double enumerated_best(const struct lp_model *m) {
  double x[COLS_MOST] = {0}, lo[COLS_MOST] = {0}, hi[COLS_MOST] = {0}, best = INFINITY;
  size_t free[COLS_MOST];
  enumerate(m, 0, x, lo, hi, free, 0, 0, &best);
  return best;
}

#endif
