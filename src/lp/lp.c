/* The model in natural units, its scaling, and the continuous solves. */
#include "lp/lp.h"

#include <math.h>

#include "lp/solver.h"

/* ---- the model -------------------------------------------------------------------------------------------------- */

void lp_init(struct lp_model *m, struct arena *arena) { *m = (struct lp_model){.arena = arena, .most_used = -1}; }

int lp_add_col(struct lp_model *m, struct lp_col col) {
  ARENA_PUSH(m->arena, m->col, m->cols, m->col_cap, col);
  return (int)m->cols - 1;
}

int lp_add_row(struct lp_model *m, const char *name, double lo, double hi) {
  if (m->rows == m->row_cap) {
    size_t cap = m->row_cap;
    m->row = arena_grow(m->arena, m->row, m->rows, &cap, sizeof *m->row);
    cap = m->row_cap;
    m->a = arena_grow(m->arena, m->a, m->rows, &cap, sizeof *m->a);
    m->row_cap = cap;
  }
  m->row[m->rows] = (struct lp_row){name, lo, hi};
  m->a[m->rows] = ARENA_NEW(m->arena, double, m->cols);
  return (int)m->rows++;
}

static const char *bounds_fault(double lo, double hi) {
  if (isnan(lo) || isnan(hi)) return "a limit is not a number";
  if (lo == INFINITY || hi == -INFINITY) return "a limit is infinite on the wrong side";
  return lo > hi ? "a lower limit is above its upper limit" : NULL;
}

static const char *col_fault(const struct lp_col *c) {
  const char *fault = bounds_fault(c->lo, c->hi);
  if (fault) return fault;
  if (!isfinite(c->cost) || !isfinite(c->second)) return "a cost is not finite";
  if (!isfinite(c->least) || c->least < 0 || (c->least > 0 && (c->lo != 0 || c->least > c->hi)))
    return "a 'zero or at least' column needs a lower bound of zero and room for the least amount";
  if (!isfinite(c->unit) || c->unit < 0 || (c->unit > 0 && (c->lo < 0 || !isfinite(c->hi))))
    return "a column of whole units needs a lower bound of at least zero and a finite upper one";
  if (c->counted && c->lo < 0) return "a counted column may not go below zero";
  return NULL;
}

const char *lp_fault(const struct lp_model *m) {
  for (size_t j = 0; j < m->cols; j++) {
    const char *fault = col_fault(&m->col[j]);
    if (fault) return fault;
  }
  for (size_t i = 0; i < m->rows; i++) {
    const char *fault = bounds_fault(m->row[i].lo, m->row[i].hi);
    if (fault) return fault;
    for (size_t j = 0; j < m->cols; j++)
      if (!isfinite(m->a[i][j])) return "a coefficient is not finite";
  }
  return NULL;
}

/* ---- scaling: rows by their requirement, columns to a largest entry near one; powers of two lose no bits ------- */

static double power_of_two(double x) {
  int e;
  if (!(x > 0) || !isfinite(x)) return 1;
  frexp(x, &e);
  return ldexp(1, e - 1);
}

static double row_size(const double *a, size_t n, double lo, double hi) {
  double need = isfinite(lo) && lo != 0 ? fabs(lo) : isfinite(hi) && hi != 0 ? fabs(hi) : 0;
  double largest = 0;
  for (size_t j = 0; j < n; j++) largest = fmax(largest, fabs(a[j]));
  return need > 0 ? need : largest;
}

static void scale_row(struct lp_solver *s, int i, const double *a, double lo, double hi) {
  struct simplex *x = &s->x;
  double size = row_size(a, (size_t)x->n, lo, hi), largest = 0;
  x->row_scale[i] = 1 / power_of_two(size);
  for (int j = 0; j < x->n; j++) largest = fmax(largest, fabs(a[j] * x->row_scale[i] * x->col_scale[j]));
  /* A requirement much smaller than what the foods bring would blow the entries up: keep them within reason. */
  if (largest > 1e4) x->row_scale[i] /= power_of_two(largest / 1e4);
  for (int j = 0; j < x->n; j++) x->a[(size_t)i * (size_t)x->n + (size_t)j] = a[j] * x->row_scale[i] * x->col_scale[j];
  x->lo[x->n + i] = lo * x->row_scale[i];
  x->hi[x->n + i] = hi * x->row_scale[i];
}

static double column_size(const struct lp_model *m, size_t j) {
  double largest = 0;
  for (size_t i = 0; i < m->rows; i++) {
    double size = row_size(m->a[i], m->cols, m->row[i].lo, m->row[i].hi);
    if (size > 0) largest = fmax(largest, fabs(m->a[i][j]) / size);
  }
  return largest;
}

struct lp_solver *lp_open(const struct lp_model *m, size_t spare_rows, struct arena *arena) {
  struct lp_solver *s = ARENA_NEW(arena, struct lp_solver, 1);
  struct simplex *x = &s->x;
  size_t n = m->cols, cap = m->rows + spare_rows;
  *s = (struct lp_solver){.arena = arena, .most_used = m->most_used};
  *x = (struct simplex){.n = (int)n, .m = 0, .m_cap = (int)cap};
  x->a = ARENA_NEW(arena, double, cap *n);
  x->t = ARENA_NEW(arena, double, cap *n);
  x->lo = ARENA_NEW(arena, double, n + cap);
  x->hi = ARENA_NEW(arena, double, n + cap);
  x->cost = ARENA_NEW(arena, double, n);
  x->d = ARENA_NEW(arena, double, n);
  x->row_scale = ARENA_NEW(arena, double, cap);
  x->col_scale = ARENA_NEW(arena, double, n);
  x->basic = ARENA_NEW(arena, int, cap);
  x->nonbasic = ARENA_NEW(arena, int, n);
  x->where = ARENA_NEW(arena, int, n + cap);
  x->xb = ARENA_NEW(arena, double, cap);
  x->xn = ARENA_NEW(arena, double, n);
  x->weight = ARENA_NEW(arena, double, cap);
  x->work = ARENA_NEW(arena, double, 2 * n + cap);
  x->list = ARENA_NEW(arena, int, n + cap);
  s->col = ARENA_NEW(arena, struct lp_col, n);
  s->row = ARENA_NEW(arena, struct lp_row, cap);
  s->natural = ARENA_NEW(arena, double, cap *n);
  memcpy(s->col, m->col, n * sizeof *s->col);
  for (size_t j = 0; j < n; j++) {
    double size = column_size(m, j);
    x->col_scale[j] = size > 0 ? 1 / power_of_two(size) : 1;
    x->lo[j] = m->col[j].lo / x->col_scale[j];
    x->hi[j] = m->col[j].hi / x->col_scale[j];
  }
  s->cost_scale = 1;
  double dearest = 0;
  for (size_t j = 0; j < n; j++) dearest = fmax(dearest, fabs(m->col[j].cost * x->col_scale[j]));
  if (dearest > 0) s->cost_scale = 1 / power_of_two(dearest);
  for (size_t j = 0; j < n; j++) x->cost[j] = m->col[j].cost * x->col_scale[j] * s->cost_scale;
  for (size_t i = 0; i < m->rows; i++) {
    s->row[i] = m->row[i];
    memcpy(s->natural + i * n, m->a[i], n * sizeof *s->natural);
    x->m++;
    scale_row(s, (int)i, m->a[i], m->row[i].lo, m->row[i].hi);
  }
  solver_make_answer(s, cap);
  return s;
}

/* ---- changes ---------------------------------------------------------------------------------------------------- */

void lp_change_col(struct lp_solver *s, int col, double lo, double hi) {
  s->col[col].lo = lo;
  s->col[col].hi = hi;
  simplex_set_bounds(&s->x, col, lo / s->x.col_scale[col], hi / s->x.col_scale[col]);
}

void lp_change_row(struct lp_solver *s, int row, double lo, double hi) {
  s->row[row].lo = lo;
  s->row[row].hi = hi;
  simplex_set_bounds(&s->x, s->x.n + row, lo * s->x.row_scale[row], hi * s->x.row_scale[row]);
}

void lp_change_cost(struct lp_solver *s, int col, double cost) {
  s->col[col].cost = cost;
  s->x.cost[col] = cost * s->x.col_scale[col] * s->cost_scale;
  if (s->x.ready) simplex_reprice(&s->x);
}

int lp_push_row(struct lp_solver *s, const double *coefficients, double lo, double hi) {
  struct simplex *x = &s->x;
  if (x->m == x->m_cap) return -1;
  int i = x->m;
  s->row[i] = (struct lp_row){"", lo, hi};
  memcpy(s->natural + (size_t)i * (size_t)x->n, coefficients, (size_t)x->n * sizeof *coefficients);
  x->m++;
  scale_row(s, i, coefficients, lo, hi);
  x->basic[i] = x->n + i;
  x->where[x->n + i] = i;
  x->weight[i] = 1;
  if (!x->ready) return i;
  /* The new row in terms of the nonbasic variables: basic structurals are replaced by their own rows. */
  const double *a = x->a + (size_t)i * (size_t)x->n;
  double *t = x->t + (size_t)i * (size_t)x->n, sum = 0;
  for (int j = 0; j < x->n; j++) t[j] = x->nonbasic[j] < x->n ? a[x->nonbasic[j]] : 0;
  for (int k = 0; k < i; k++) {
    double f = x->basic[k] < x->n ? a[x->basic[k]] : 0;
    if (f == 0) continue;
    const double *tk = x->t + (size_t)k * (size_t)x->n;
    for (int j = 0; j < x->n; j++) t[j] += f * tk[j];
  }
  for (int j = 0; j < x->n; j++) sum += t[j] * x->xn[j];
  x->xb[i] = sum;
  return i;
}

/* ---- answers ---------------------------------------------------------------------------------------------------- */

void solver_make_answer(struct lp_solver *s, size_t row_cap) {
  size_t n = (size_t)s->x.n;
  struct lp_answer *a = &s->answer;
  a->x = ARENA_NEW(s->arena, double, n);
  a->reduced = ARENA_NEW(s->arena, double, n);
  a->ray = ARENA_NEW(s->arena, double, n);
  a->activity = ARENA_NEW(s->arena, double, row_cap);
  a->dual = ARENA_NEW(s->arena, double, row_cap);
  a->farkas = ARENA_NEW(s->arena, double, row_cap);
}

/* Scales are powers of two: a variable on its bound comes back as exactly that bound. */
void solver_read_x(struct lp_solver *s, double *out) {
  const struct simplex *x = &s->x;
  for (int j = 0; j < x->n; j++)
    if (x->nonbasic[j] < x->n) out[x->nonbasic[j]] = x->xn[j] * x->col_scale[x->nonbasic[j]];
  for (int i = 0; i < x->m; i++)
    if (x->basic[i] < x->n) {
      int var = x->basic[i];
      /* A basic variable a rounding outside its bound is on it. */
      double v = x->xb[i] < x->lo[var] ? x->lo[var] : x->xb[i] > x->hi[var] ? x->hi[var] : x->xb[i];
      out[var] = v * x->col_scale[var];
    }
}

void solver_fill_activity(struct lp_solver *s) {
  struct lp_answer *a = &s->answer;
  a->objective = 0;
  for (int j = 0; j < s->x.n; j++) a->objective += s->col[j].cost * a->x[j];
  for (int i = 0; i < s->x.m; i++) {
    const double *row = s->natural + (size_t)i * (size_t)s->x.n;
    a->activity[i] = 0;
    for (int j = 0; j < s->x.n; j++) a->activity[i] += row[j] * a->x[j];
  }
}

static void read_duals(struct lp_solver *s) {
  const struct simplex *x = &s->x;
  struct lp_answer *a = &s->answer;
  memset(a->dual, 0, (size_t)x->m * sizeof *a->dual);
  for (int j = 0; j < x->n; j++) {
    int var = x->nonbasic[j];
    if (var < x->n) {
      a->reduced[var] = x->d[j] / (x->col_scale[var] * s->cost_scale);
    } else {
      a->dual[var - x->n] = x->d[j] * x->row_scale[var - x->n] / s->cost_scale;
    }
  }
  for (int i = 0; i < x->m; i++)
    if (x->basic[i] < x->n) a->reduced[x->basic[i]] = 0;
}

/* Row of the tableau that proves infeasibility, as multipliers of the model's rows: basic = T nonbasic is the combination in
 * which row i has the coefficient of its logical, with the sign turned. */
static void read_farkas(struct lp_solver *s) {
  const struct simplex *x = &s->x;
  double *y = s->answer.farkas;
  memset(y, 0, (size_t)x->m * sizeof *y);
  double sign = x->bad_low ? 1 : -1;
  const double *t = x->t + (size_t)x->bad_row * (size_t)x->n;
  if (x->basic[x->bad_row] >= x->n) y[x->basic[x->bad_row] - x->n] = sign;
  for (int j = 0; j < x->n; j++)
    if (x->nonbasic[j] >= x->n) y[x->nonbasic[j] - x->n] = -sign * t[j];
  for (int i = 0; i < x->m; i++) y[i] *= x->row_scale[i];
}

static void read_ray(struct lp_solver *s) {
  const struct simplex *x = &s->x;
  double *ray = s->answer.ray;
  memset(ray, 0, (size_t)x->n * sizeof *ray);
  int var = x->nonbasic[x->ray_col];
  if (var < x->n) ray[var] = x->ray_sign * x->col_scale[var];
  for (int i = 0; i < x->m; i++)
    if (x->basic[i] < x->n)
      ray[x->basic[i]] = x->t[(size_t)i * (size_t)x->n + (size_t)x->ray_col] * x->ray_sign * x->col_scale[x->basic[i]];
}

const struct lp_answer *solver_conclude(struct lp_solver *s, enum simplex_end end) {
  struct lp_answer *a = &s->answer;
  a->pivots = s->x.pivots;
  a->has_x = end == SIMPLEX_OPTIMAL;
  a->bound = -INFINITY;
  memset(a->farkas, 0, (size_t)s->x.m * sizeof *a->farkas);
  switch (end) {
  case SIMPLEX_OPTIMAL:
    a->status = LP_OPTIMAL;
    solver_read_x(s, a->x);
    solver_fill_activity(s);
    read_duals(s);
    a->bound = a->objective;
    break;
  case SIMPLEX_INFEASIBLE:
    a->status = LP_INFEASIBLE;
    read_farkas(s);
    break;
  case SIMPLEX_UNBOUNDED:
    a->status = LP_UNBOUNDED;
    read_ray(s);
    break;
  case SIMPLEX_LIMIT:
    a->status = LP_STOPPED;
    break;
  case SIMPLEX_TROUBLE:
    a->status = LP_TROUBLE;
    break;
  }
  return a;
}

enum { PIVOTS_DEFAULT = 200000 };

long solver_pivot_limit(const struct lp_limits *limits) {
  return limits && limits->pivots > 0 ? limits->pivots : PIVOTS_DEFAULT;
}

const struct lp_answer *lp_solve(struct lp_solver *s, const struct lp_limits *limits) {
  s->answer.nodes = 0;
  return solver_conclude(s, simplex_run(&s->x, solver_pivot_limit(limits)));
}

/* Columns and rows whose d is not zero cannot move without making the answer worse: they are held, and the second objective
 * decides among what is left. */
const struct lp_answer *lp_polish(struct lp_solver *s, const struct lp_limits *limits) {
  struct simplex *x = &s->x;
  if (s->answer.status != LP_OPTIMAL || !x->ready) return &s->answer;
  int total = x->n + x->m;
  double *lo = ARENA_NEW(s->arena, double, (size_t)total), *hi = ARENA_NEW(s->arena, double, (size_t)total);
  double *cost = ARENA_NEW(s->arena, double, (size_t)x->n);
  memcpy(lo, x->lo, (size_t)total * sizeof *lo);
  memcpy(hi, x->hi, (size_t)total * sizeof *hi);
  memcpy(cost, x->cost, (size_t)x->n * sizeof *cost);
  for (int j = 0; j < x->n; j++)
    if (fabs(x->d[j]) > 1e-9) x->lo[x->nonbasic[j]] = x->hi[x->nonbasic[j]] = x->xn[j];
  for (int j = 0; j < x->n; j++) x->cost[j] = s->col[j].second * x->col_scale[j];
  simplex_reprice(x);
  bool fine = simplex_primal(x, solver_pivot_limit(limits)) == SIMPLEX_OPTIMAL;
  memcpy(x->lo, lo, (size_t)total * sizeof *lo);
  memcpy(x->hi, hi, (size_t)total * sizeof *hi);
  memcpy(x->cost, cost, (size_t)x->n * sizeof *cost);
  simplex_reprice(x);
  if (fine) {
    solver_read_x(s, s->answer.x);
    solver_fill_activity(s);
  }
  s->answer.pivots = x->pivots;
  return &s->answer;
}
