/* lp.h: small dense linear programs with names, solved exactly enough to be believed.
 *
 *     minimise  cost' x   subject to   row_lo <= A x <= row_hi,   lo <= x <= hi
 *
 * and, per column, "zero or at least 'least'" (semicontinuous), "whole multiples of 'unit'", and over all columns that are
 * marked as counted, "at most so many in use". Bounds may be infinite, costs of any sign, columns free, rows equalities.
 *
 * The problem is stated in natural units (grams, milligrams, kcal); the solver scales for itself, and every answer can be
 * judged again on the unscaled data: lp_verify, lp_dual_bound, lp_farkas_proves, lp_ray_proves. A status is an answer, not
 * an error: a program that has no solution comes with the rows that prove it. Errors (a NaN, a crossed bound) are faults of
 * the caller and found by lp_fault.
 *
 * Layer: lp (includes base only). */
#ifndef BW_LP_H
#define BW_LP_H

#include "base/arena.h"

struct lp_col {
  const char *name;
  double lo, hi, cost;
  double second; /* cost of the second objective: decides among equally good answers */
  double least;  /* semicontinuous: 0, or at least this; 0 when the column is continuous. Needs lo = 0 */
  double unit;   /* whole multiples of this; 0 when any amount will do. Needs lo >= 0 and finite hi */
  bool counted;  /* counts toward 'most_used' when above zero */
};

struct lp_row {
  const char *name;
  double lo, hi;
};

struct lp_model {
  struct arena *arena;
  struct lp_col *col;
  struct lp_row *row;
  size_t cols, rows, col_cap, row_cap;
  double **a;    /* [row] -> [col_cap] coefficients */
  int most_used; /* at most so many counted columns above zero; < 0: no such limit */
};

void lp_init(struct lp_model *m, struct arena *arena);
/* Columns first, then rows; both return their index. */
int lp_add_col(struct lp_model *m, struct lp_col col);
int lp_add_row(struct lp_model *m, const char *name, double lo, double hi);
static inline void lp_set(struct lp_model *m, int row, int col, double x) { m->a[row][col] = x; }

/* NULL, or one sentence on what is wrong with the model: a NaN, lo > hi, an infinite coefficient ... */
const char *lp_fault(const struct lp_model *m);

enum lp_status {
  LP_OPTIMAL,
  LP_INFEASIBLE, /* farkas[] proves it */
  LP_UNBOUNDED,  /* ray[] proves it */
  LP_STOPPED,    /* node or time limit, or the caller said stop: best so far if has_x, and its gap */
  LP_TROUBLE     /* numbers went astray and no proof could be found: never an answer */
};

struct lp_answer {
  enum lp_status status;
  bool has_x;
  double objective, bound; /* bound: no answer can be better than this (equal to objective when optimal) */
  double *x;               /* [cols], natural units */
  double *activity;        /* [rows] A x */
  double *dual;            /* [rows] change of the objective per unit of the row's active limit; 0 where slack */
  double *farkas; /* [rows] multipliers y: no x within its bounds can satisfy the rows combined by y; zeros if feasible */
  double *ray;    /* [cols] */
  long pivots, nodes;
};

/* Asked now and then during a long search; false stops it. May be NULL. */
typedef bool lp_go_on(void *user, const struct lp_answer *best_so_far, double bound, long nodes);

struct lp_limits {
  long pivots, nodes; /* 0: generous defaults */
  lp_go_on *go_on;
  void *user;
};

struct lp_solver;

/* The model must not be NaN-ridden (lp_fault is NULL). Bounds and costs are copied; the coefficients are not: they stay
 * where they are and as they are while the solver is in use. Room for 'spare_rows' later rows. */
struct lp_solver *lp_open(const struct lp_model *m, size_t spare_rows, struct arena *arena);
/* Changes keep the work done so far; the next solve starts from there. */
void lp_change_col(struct lp_solver *s, int col, double lo, double hi);
void lp_change_row(struct lp_solver *s, int row, double lo, double hi);
void lp_change_cost(struct lp_solver *s, int col, double cost);
/* A further row (a tangent plane); coefficients [cols]. Returns its index, or -1 when the spare room is used up. */
int lp_push_row(struct lp_solver *s, const double *coefficients, double lo, double hi);

/* The continuous program: 'least', 'unit' and 'most_used' are left aside. */
const struct lp_answer *lp_solve(struct lp_solver *s, const struct lp_limits *limits);
/* All of it, by branch and bound over bound changes. */
const struct lp_answer *lp_solve_mixed(struct lp_solver *s, const struct lp_limits *limits);
/* Among the answers as good as the last one, the one that is best in the second objective (continuous part). */
const struct lp_answer *lp_polish(struct lp_solver *s, const struct lp_limits *limits);

/* Reduced cost of a column at the last answer: what one more of it would change, beside what the rows' duals say. */
double lp_reduced(const struct lp_solver *s, int col);

/* ---- arithmetic on the unscaled model, independent of the solver ---- */

struct lp_check {
  double worst_row; /* largest violation of a row, relative to its limit or its largest term, whichever is larger */
  double worst_col; /* of a column's bound, relative to max(1, |bound|) */
  int row, col;     /* where; -1 */
  double objective;
};
struct lp_check lp_verify(const struct lp_model *m, const double *x);
/* True when y proves that no x exists: the combined row cannot hold for any x within its bounds. */
bool lp_farkas_proves(const struct lp_model *m, const double *y);
/* True when going on along 'ray' breaks no limit and lowers the objective for ever. */
bool lp_ray_proves(const struct lp_model *m, const double *ray);
/* A lower bound on the objective from any row multipliers y (weak duality); -INFINITY if they give none. */
double lp_dual_bound(const struct lp_model *m, const double *y);

/* A smallest set of limits that cannot hold together: flags for row lower and upper limits and column bounds. Dropping any
 * one of them makes the rest possible (proved by solving it). Returns how many; 0 if the model is feasible after all, or
 * when whoever waits (limits->go_on; 'limits' may be NULL) has had enough. */
struct lp_conflict {
  bool *row_lo, *row_hi; /* [rows] */
  bool *col_lo, *col_hi; /* [cols] */
  size_t count;
};
struct lp_conflict lp_smallest_conflict(const struct lp_model *m, const struct lp_limits *limits, struct arena *arena);

#endif
