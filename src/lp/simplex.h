/* simplex.h: the dense tableau behind lp.h. Private to this folder.
 *
 * Every row i gets a logical variable s_i = (A x)_i with the row's limits as bounds. With B basic and N nonbasic variables
 * the whole program is
 *
 *     x_B = T x_N        objective = d' x_N        lo <= x <= hi
 *
 * which is homogeneous: T starts as A (logicals basic) and a pivot exchanges one basic with one nonbasic variable. Nonbasic
 * variables sit on a bound (a free one at zero). The dual simplex keeps the signs of d right and repairs x_B; the primal one
 * keeps x_B within bounds and repairs d. After a change of bounds d stays right, so the dual simplex goes on from where it
 * was.
 *
 * Safety: pivots are chosen among near-ties for size (Harris); d that slips by rounding is shifted to zero and the true
 * costs are put back at the end; after a run of pivots without progress the smallest index decides (Bland); T is rebuilt
 * from A when it has drifted. Only + - * / and comparisons are used, so all machines take the same path. */
#ifndef BW_SIMPLEX_H
#define BW_SIMPLEX_H

#include "lp/lp.h"

struct simplex {
  int m, n, m_cap;       /* rows, columns (structural), room for rows */
  double *a;             /* [m_cap][n] scaled coefficients */
  double *t;             /* [m_cap][n] tableau */
  double *lo, *hi;       /* [n + m_cap] scaled bounds of structurals, then logicals */
  double *cost;          /* [n] scaled */
  double *d;             /* [n] reduced costs of the nonbasic variables, by tableau column */
  double *row_scale;     /* [m_cap] scaled row = row * row_scale */
  double *col_scale;     /* [n] natural x = scaled x * col_scale */
  int *basic, *nonbasic; /* [m_cap], [n] variable numbers */
  int *where;            /* [n + m_cap] of a variable: its row, or -1 - its column */
  double *xb, *xn;       /* values */
  double *weight;  /* [m_cap] reference weights of the rows (devex): how far a row's variable moves for its infeasibility */
  double pivot_ok; /* smaller entries are no pivots; lowered when nothing else is left */
  bool costs_shifted;
  bool ready; /* t, d, xb, xn are consistent */
  long pivots, since_rebuild;
  double *work;          /* [n] */
  int *list;             /* [n] */
  int bad_row;           /* of an infeasible end: its row proves it */
  bool bad_low;          /* the basic variable is below its lower bound */
  int ray_col, ray_sign; /* of an unbounded end */
};

enum simplex_end { SIMPLEX_OPTIMAL, SIMPLEX_INFEASIBLE, SIMPLEX_UNBOUNDED, SIMPLEX_LIMIT, SIMPLEX_TROUBLE };

void simplex_start(struct simplex *s); /* logicals basic, tableau = A */
enum simplex_end simplex_run(struct simplex *s, long most_pivots);
/* Primal only, from a feasible basis, with the costs now in s->cost. */
enum simplex_end simplex_primal(struct simplex *s, long most_pivots);
void simplex_set_bounds(struct simplex *s, int var, double lo, double hi); /* keeps the tableau, moves nonbasics */
void simplex_reprice(struct simplex *s);                                   /* d from s->cost */
void simplex_rebuild(struct simplex *s);                                   /* tableau from A for the basis as it is */
double simplex_value(const struct simplex *s, int var);
/* The row of a basic variable, or -1; the column of a nonbasic one, or -1. */
int simplex_row_of(const struct simplex *s, int var);
int simplex_col_of(const struct simplex *s, int var);
double simplex_objective(const struct simplex *s);
/* Lower bound on what it costs to push a basic variable down to (or up to) 'to': one step of the dual ratio test. */
double simplex_penalty(const struct simplex *s, int row, double to);

#endif
