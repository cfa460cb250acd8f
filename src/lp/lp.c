/* The model in natural units, its scaling, and the continuous solves. */
#include "lp/lp.h"

#include <float.h>
#include <math.h>

#include "lp/kernels.h"
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

/* The largest that is not above x. */
static double power_of_two(double x) {
  uint64_t bits;
  if (!(x >= DBL_MIN) || !isfinite(x)) return x > 0 && x < 1 ? DBL_MIN : 1;
  memcpy(&bits, &x, sizeof x);
  bits &= 0x7ff0000000000000; /* no mantissa, no sign */
  memcpy(&x, &bits, sizeof x);
  return x;
}

/* What a row asks for, or its largest entry when it asks for nothing (a ratio, a comparison). */
static double row_size(const double *a, size_t n, double lo, double hi) {
  if (isfinite(lo) && lo != 0) return fabs(lo);
  if (isfinite(hi) && hi != 0) return fabs(hi);
  return kernel_largest(a, (int)n);
}

static void scale_row(struct simplex *x, int i, double lo, double hi, double scale) {
  x->row_scale[i] = scale;
  x->row_unscale[i] = 1 / scale;
  x->lo[x->n + i] = lo * scale;
  x->hi[x->n + i] = hi * scale;
}

/* Rows by their size; a column's scale makes its largest entry, as a share of a row's size, one to two. So no scaled entry
 * is above four. */
static void scale_model(struct simplex *x, const struct lp_model *m) {
  double *largest = x->miss;
  for (size_t i = 0; i < m->rows; i++) {
    const double *a = m->a[i];
    double lo = m->row[i].lo, hi = m->row[i].hi, size = row_size(a, m->cols, lo, hi);
    kernel_raise(largest, a, size > 0 ? 1 / size : 0, x->n);
    scale_row(x, (int)i, lo, hi, 1 / power_of_two(size));
  }
  for (size_t j = 0; j < m->cols; j++) {
    x->col_unscale[j] = power_of_two(largest[j]);
    x->col_scale[j] = 1 / x->col_unscale[j];
    x->lo[j] = m->col[j].lo * x->col_unscale[j];
    x->hi[j] = m->col[j].hi * x->col_unscale[j];
  }
}

static void scale_costs(struct lp_solver *s) {
  struct simplex *x = &s->x;
  double dearest = 0;
  for (int j = 0; j < x->n; j++) dearest = larger(dearest, fabs(s->col[j].cost * x->col_scale[j]));
  s->cost_scale = 1 / power_of_two(dearest);
  for (int j = 0; j < x->n; j++) x->cost[j] = s->col[j].cost * x->col_scale[j] * s->cost_scale;
  s->costs_changed = false;
  x->trust.stale_costs = true;
}

static void make_room(struct simplex *x, size_t n, size_t cap) {
  size_t all = n + cap + KERNEL_SPARE, slots = n < cap ? n : cap;
  x->a = ARENA_NEW(x->arena, double *, cap);
  x->lo = ARENA_NEW(x->arena, double, all);
  x->hi = ARENA_NEW(x->arena, double, all);
  x->x = ARENA_NEW(x->arena, double, all);
  x->d = ARENA_NEW(x->arena, double, all);
  x->weight = ARENA_NEW(x->arena, double, all);
  x->row = ARENA_NEW(x->arena, double, all);
  x->miss = ARENA_NEW(x->arena, double, all);
  x->relaxed = ARENA_NEW(x->arena, double, all);
  x->slot = ARENA_NEW(x->arena, int, all);
  x->list = ARENA_NEW(x->arena, int, all + 1);
  x->cost = ARENA_NEW(x->arena, double, n + KERNEL_SPARE);
  x->col_scale = ARENA_NEW(x->arena, double, n + KERNEL_SPARE);
  x->row_scale = ARENA_NEW(x->arena, double, cap);
  x->row_unscale = ARENA_NEW(x->arena, double, cap);
  x->col_unscale = ARENA_NEW(x->arena, double, n);
  x->col = ARENA_NEW(x->arena, double, cap + KERNEL_SPARE);
  x->raw = ARENA_NEW(x->arena, double, cap + KERNEL_SPARE);
  x->rows_k = ARENA_NEW(x->arena, int, slots);
  x->y = ARENA_NEW(x->arena, double, slots + KERNEL_SPARE);
  x->most_k = (int)slots;
  x->share = ARENA_NEW(x->arena, double, slots);
  x->var = ARENA_NEW(x->arena, int, slots);
  x->w = ARENA_NEW(x->arena, double *, slots);
  x->own = ARENA_NEW(x->arena, double *, slots);
  x->term = ARENA_NEW(x->arena, double *, cap);
  x->by = ARENA_NEW(x->arena, double, cap);
}

struct lp_solver *lp_open(const struct lp_model *m, size_t spare_rows, struct arena *arena) {
  struct lp_solver *s = ARENA_NEW(arena, struct lp_solver, 1);
  struct simplex *x = &s->x;
  size_t n = m->cols, cap = m->rows + spare_rows;
  *s = (struct lp_solver){.arena = arena, .most_used = m->most_used};
  *x = (struct simplex){.arena = arena, .n = (int)n, .m = (int)m->rows, .m_cap = (int)cap, .enough = INFINITY};
  make_room(x, n, cap);
  s->col = ARENA_NEW(arena, struct lp_col, n);
  s->row = ARENA_NEW(arena, struct lp_row, cap);
  if (n > 0) memcpy(s->col, m->col, n * sizeof *s->col);
  if (m->rows > 0) memcpy(s->row, m->row, m->rows * sizeof *s->row);
  if (m->rows > 0) memcpy(x->a, m->a, m->rows * sizeof *x->a);
  scale_model(x, m);
  scale_costs(s);
  solver_make_answer(s, cap);
  return s;
}

/* ---- changes ---------------------------------------------------------------------------------------------------- */

void lp_change_col(struct lp_solver *s, int col, double lo, double hi) {
  s->col[col].lo = lo;
  s->col[col].hi = hi;
  simplex_set_bounds(&s->x, col, lo * s->x.col_unscale[col], hi * s->x.col_unscale[col]);
}

void lp_change_row(struct lp_solver *s, int row, double lo, double hi) {
  s->row[row].lo = lo;
  s->row[row].hi = hi;
  simplex_set_bounds(&s->x, s->x.n + row, lo * s->x.row_scale[row], hi * s->x.row_scale[row]);
}

void lp_change_cost(struct lp_solver *s, int col, double cost) {
  s->col[col].cost = cost;
  s->costs_changed = true;
}

int lp_push_row(struct lp_solver *s, const double *coefficients, double lo, double hi) {
  struct simplex *x = &s->x;
  if (x->m == x->m_cap) return -1;
  int i = x->m++, var = x->n + i;
  size_t n = (size_t)x->n;
  double *a = x->a[i] = ARENA_NEW(s->arena, double, n);
  if (n > 0) memcpy(a, coefficients, n * sizeof *a);
  s->row[i] = (struct lp_row){"", lo, hi};
  /* A limit much smaller than what the columns bring would blow the entries up: they are kept within reason. */
  double scale = 1 / power_of_two(row_size(a, n, lo, hi)), *scaled = x->row;
  kernel_scale(scaled, a, scale, x->col_scale, x->n);
  double largest = kernel_largest(scaled, x->n);
  scale_row(x, i, lo, hi, largest > 1e4 ? scale / power_of_two(largest / 1e4) : scale);
  kernel_scale(scaled, a, x->row_scale[i], x->col_scale, x->n);
  x->slot[var] = BASIC_LOGICAL;
  x->weight[var] = 1;
  for (int p = 0; p < x->k; p++) x->own[p][i] = scaled[x->var[p]];
  x->x[var] = kernel_product(scaled, x->x, x->n);
  return i;
}

/* ---- answers ---------------------------------------------------------------------------------------------------- */

void solver_make_answer(struct lp_solver *s, size_t row_cap) {
  size_t n = (size_t)s->x.n;
  struct lp_answer *a = &s->answer;
  a->x = ARENA_NEW(s->arena, double, n + KERNEL_SPARE);
  a->ray = ARENA_NEW(s->arena, double, n);
  a->activity = ARENA_NEW(s->arena, double, row_cap);
  a->dual = ARENA_NEW(s->arena, double, row_cap);
  a->farkas = ARENA_NEW(s->arena, double, row_cap);
}

/* Scales are powers of two: a variable on its bound comes back as exactly that bound, and so does one a rounding outside.
 * The objective with it. */
void solver_read_x(struct lp_solver *s) {
  const struct simplex *x = &s->x;
  double cost = kernel_read(s->answer.x, x->x, x->lo, x->hi, x->col_scale, x->cost, x->n);
  s->answer.objective = cost / s->cost_scale;
  for (int i = 0; i < x->m; i++) s->answer.activity[i] = x->x[x->n + i] * x->row_unscale[i]; /* the logical variables */
}

void solver_fill_activity(struct lp_solver *s) {
  const struct simplex *x = &s->x;
  struct lp_answer *a = &s->answer;
  a->objective = 0;
  for (int j = 0; j < x->n; j++) a->objective += s->col[j].cost * a->x[j];
  for (int i = 0; i < x->m; i++) a->activity[i] = kernel_product(x->a[i], a->x, x->n);
}

/* A d that is nothing but rounding, or has slipped to the wrong side of zero by that much, is zero. */
static double honest_d(const struct simplex *x, int v) {
  double d = x->d[v];
  bool slipped = (d > 0 && x->lo[v] == -INFINITY) || (d < 0 && x->hi[v] == INFINITY);
  return slipped || fabs(d) < 1e-15 ? 0 : d;
}

static void read_duals(struct lp_solver *s) {
  const struct simplex *x = &s->x;
  struct lp_answer *a = &s->answer;
  double unscale = 1 / s->cost_scale;
  for (int i = 0; i < x->m; i++) a->dual[i] = honest_d(x, x->n + i) * x->row_scale[i] * unscale;
}

/* The row that proves infeasibility says: basic variable = y' logicals + rest' structurals. As multipliers of the model's
 * rows: minus y, and one for the basic variable itself if it is a logical. */
static void read_farkas(struct lp_solver *s) {
  const struct simplex *x = &s->x;
  double *y = s->answer.farkas, sign = x->bad_low ? 1 : -1;
  for (int i = 0; i < x->m; i++) {
    double f = -sign * x->row[x->n + i];
    /* Rounding; more of it is forgiven to one that leans on a limit that is not there. */
    bool leans_on_nothing = f > 0 ? x->lo[x->n + i] == -INFINITY : x->hi[x->n + i] == INFINITY;
    y[i] = fabs(f) < (leans_on_nothing ? 1e-12 : 1e-15) ? 0 : f * x->row_scale[i];
  }
  if (x->bad_var >= x->n) y[x->bad_var - x->n] = sign * x->row_scale[x->bad_var - x->n];
}

/* The entering variable alone moves by one; what the basic ones do is a basis solution like any other. */
static void read_ray(struct lp_solver *s) {
  struct simplex *x = &s->x;
  size_t all = (size_t)(x->n + x->m);
  memcpy(x->row, x->x, all * sizeof *x->x);
  memset(x->x, 0, all * sizeof *x->x);
  x->x[x->ray_var] = x->ray_dir;
  tableau_refine(x);
  for (int j = 0; j < x->n; j++) s->answer.ray[j] = fabs(x->x[j]) < 1e-14 ? 0 : x->x[j] * x->col_scale[j];
  memcpy(x->x, x->row, all * sizeof *x->x);
}

double lp_reduced(const struct lp_solver *s, int col) {
  return honest_d(&s->x, col) * s->x.col_unscale[col] / s->cost_scale;
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
    solver_read_x(s);
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
  case SIMPLEX_DEAR:
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

enum simplex_end solver_run(struct lp_solver *s, const struct lp_limits *limits, bool careful) {
  if (s->costs_changed) scale_costs(s);
  s->x.careful = careful;
  return simplex_run(&s->x, solver_pivot_limit(limits));
}

/* Multipliers that are nothing but rounding can spoil a proof: one of them on a row with a food that no other row of the
 * proof has, and that has no upper limit. Any multipliers that prove it will do, so the smallest are left out, more each
 * time. */
static bool find_proof(struct lp_solver *s) {
  const struct simplex *x = &s->x;
  const struct lp_model m = {.col = s->col, .row = s->row, .cols = (size_t)x->n, .rows = (size_t)x->m, .a = x->a};
  double *y = s->answer.farkas, most = 0;
  for (int i = 0; i < x->m; i++) most = larger(most, fabs(y[i]) * x->row_unscale[i]);
  for (double hair = 0; hair<1e-7; hair = hair> 0 ? hair * 100 : 1e-14) {
    for (int i = 0; i < x->m; i++)
      if (fabs(y[i]) * x->row_unscale[i] < hair * most) y[i] = 0;
    if (lp_farkas_proves(&m, y)) return true;
  }
  return false;
}

/* An end that says "impossible" without a proof that survives rounding: the limits contradict each other by a hair, if at
 * all. They are looked at with more and more tolerance until there is a proof or a solution. */
const struct lp_answer *lp_solve(struct lp_solver *s, const struct lp_limits *limits) {
  const struct lp_answer *a = &s->answer;
  s->answer.nodes = 0;
  for (s->x.tolerance = 0; s->x.tolerance<1e-6; s->x.tolerance = s->x.tolerance> 0 ? s->x.tolerance * 10 : 1e-9) {
    solver_conclude(s, solver_run(s, limits, true));
    bool unsure = a->status == LP_TROUBLE || (a->status == LP_INFEASIBLE && !find_proof(s));
    if (!unsure) break;
    s->answer.status = LP_TROUBLE;
    tableau_rebuild(&s->x);
  }
  s->x.tolerance = 0;
  return a;
}

/* Variables whose d is not zero cannot move without making the answer worse: they are held, and the second objective decides
 * among what is left. */
const struct lp_answer *lp_polish(struct lp_solver *s, const struct lp_limits *limits) {
  struct simplex *x = &s->x;
  if (s->answer.status != LP_OPTIMAL || !x->ready) return &s->answer;
  int total = x->n + x->m;
  double *lo = ARENA_NEW(s->arena, double, (size_t)total), *hi = ARENA_NEW(s->arena, double, (size_t)total);
  double *cost = ARENA_NEW(s->arena, double, (size_t)x->n);
  memcpy(lo, x->lo, (size_t)total * sizeof *lo);
  memcpy(hi, x->hi, (size_t)total * sizeof *hi);
  memcpy(cost, x->cost, (size_t)x->n * sizeof *cost);
  for (int v = 0; v < total; v++)
    if (x->slot[v] == NONBASIC && fabs(x->d[v]) > 1e-12) x->lo[v] = x->hi[v] = x->x[v];
  for (int j = 0; j < x->n; j++) x->cost[j] = s->col[j].second * x->col_scale[j];
  tableau_reprice(x);
  bool fine = simplex_primal(x, solver_pivot_limit(limits)) == SIMPLEX_OPTIMAL;
  memcpy(x->lo, lo, (size_t)total * sizeof *lo);
  memcpy(x->hi, hi, (size_t)total * sizeof *hi);
  memcpy(x->cost, cost, (size_t)x->n * sizeof *cost);
  tableau_reprice(x);
  if (fine) {
    solver_read_x(s);
  }
  s->answer.pivots = x->pivots;
  return &s->answer;
}
