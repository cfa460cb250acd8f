/* Arithmetic on the unscaled model. Nothing here trusts the solver. */
#include <math.h>

#include "lp/simplex.h" /* larger, smaller */

static const double NOTHING = 1e-6; /* less than a millionth of a column's unit does not count as a term */

static double below_or_above(double x, double lo, double hi) {
  if (isnan(x)) return INFINITY;
  return x < lo ? lo - x : x > hi ? x - hi : 0;
}

static double relevant_limit(double x, double lo, double hi) { return fabs(x < lo ? lo : hi); }

struct lp_check lp_verify(const struct lp_model *m, const double *x) {
  struct lp_check c = {.row = -1, .col = -1};
  for (size_t j = 0; j < m->cols; j++) {
    const struct lp_col *col = &m->col[j];
    double by = below_or_above(x[j], col->lo, col->hi);
    c.objective += col->cost * x[j];
    if (by > 0) by /= larger(1, relevant_limit(x[j], col->lo, col->hi));
    if (by > c.worst_col) c.worst_col = by, c.col = (int)j;
  }
  for (size_t i = 0; i < m->rows; i++) {
    double sum = 0, size = 0;
    for (size_t j = 0; j < m->cols; j++) {
      sum += m->a[i][j] * x[j];
      size = larger(size, fabs(m->a[i][j]) * larger(fabs(x[j]), NOTHING));
    }
    double by = below_or_above(sum, m->row[i].lo, m->row[i].hi);
    if (by > 0) by /= larger(size, relevant_limit(sum, m->row[i].lo, m->row[i].hi));
    if (by > c.worst_row) c.worst_row = by, c.row = (int)i;
  }
  return c;
}

/* ---- proofs ------------------------------------------------------------------------------------------------------ */

/* A sum of terms, and how much of it may be rounding. */
struct sum {
  double value, rounding;
};

static const double ROUNDING = 4e-16, HIDDEN = 1e-11;

static void add(struct sum *s, double term) {
  s->value += term;
  s->rounding += fabs(term) * ROUNDING;
}

/* (y'A)_j */
static struct sum combined(const struct lp_model *m, const double *y, size_t j) {
  struct sum s = {0, 0};
  for (size_t i = 0; i < m->rows; i++)
    if (y[i] != 0) add(&s, y[i] * m->a[i][j]);
  return s;
}

/* Adds the most (or, with sign -1, minus the least) that f v can be for v within lo .. hi. An f that is nothing but rounding
 * counts as zero where the bound is infinite: no proof could survive otherwise. */
static void add_most(struct sum *s, struct sum f, double sign, double lo, double hi) {
  double at = f.value * sign > 0 ? hi : lo;
  if (f.value == 0) return;
  if (!isfinite(at) && fabs(f.value) <= HIDDEN / ROUNDING * f.rounding) return;
  add(s, f.value * sign * at);
  if (isfinite(at)) s->rounding += f.rounding * fabs(at);
}

/* Over all x within the column bounds, y'A x has a largest and a least value; over all activities within the row limits,
 * y's has. Proof: the ranges do not meet, by more than rounding. */
bool lp_farkas_proves(const struct lp_model *m, const double *y) {
  struct sum columns_most = {0, 0}, columns_least = {0, 0}, rows_most = {0, 0}, rows_least = {0, 0};
  for (size_t i = 0; i < m->rows; i++) {
    struct sum f = {y[i], 0};
    add_most(&rows_most, f, 1, m->row[i].lo, m->row[i].hi);
    add_most(&rows_least, f, -1, m->row[i].lo, m->row[i].hi);
  }
  for (size_t j = 0; j < m->cols; j++) {
    struct sum f = combined(m, y, j);
    add_most(&columns_most, f, 1, m->col[j].lo, m->col[j].hi);
    add_most(&columns_least, f, -1, m->col[j].lo, m->col[j].hi);
  }
  return columns_most.value + rows_least.value < -(columns_most.rounding + rows_least.rounding) ||
         columns_least.value + rows_most.value < -(columns_least.rounding + rows_most.rounding);
}

bool lp_ray_proves(const struct lp_model *m, const double *ray) {
  struct sum cost = {0, 0};
  double longest = 0;
  for (size_t j = 0; j < m->cols; j++) longest = larger(longest, fabs(ray[j]));
  for (size_t j = 0; j < m->cols; j++) {
    add(&cost, m->col[j].cost * ray[j]);
    bool none = fabs(ray[j]) <= HIDDEN * longest;
    if (!none && ((ray[j] > 0 && m->col[j].hi < INFINITY) || (ray[j] < 0 && m->col[j].lo > -INFINITY))) return false;
  }
  for (size_t i = 0; i < m->rows; i++) {
    double drift = 0, size = 0;
    for (size_t j = 0; j < m->cols; j++) {
      drift += m->a[i][j] * ray[j];
      size = larger(size, fabs(m->a[i][j] * ray[j]));
    }
    if (fabs(drift) <= HIDDEN * size) continue;
    if ((drift > 0 && m->row[i].hi < INFINITY) || (drift < 0 && m->row[i].lo > -INFINITY)) return false;
  }
  return cost.value < -cost.rounding;
}

double lp_dual_bound(const struct lp_model *m, const double *y) {
  /* min c'x >= sum over rows of y_i times the limit that y's sign makes binding, plus what the bounds leave of c - y'A. */
  struct sum bound = {0, 0};
  for (size_t i = 0; i < m->rows; i++) add_most(&bound, (struct sum){y[i], 0}, -1, m->row[i].lo, m->row[i].hi);
  for (size_t j = 0; j < m->cols; j++) {
    struct sum r = combined(m, y, j);
    r.value = m->col[j].cost - r.value;
    r.rounding += ROUNDING * fabs(m->col[j].cost);
    add_most(&bound, r, -1, m->col[j].lo, m->col[j].hi);
  }
  return isnan(bound.value) ? -INFINITY : -bound.value;
}
