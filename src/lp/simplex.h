/* simplex.h: the dense dual and primal simplex behind lp.h. Private to this folder.
 *
 * Structural variables x_1 .. x_n are the columns of the model. Every row i gets a logical variable s_i = (A x)_i with the
 * row's limits as its bounds, so a model is
 *
 *     s = A x     lo <= (x, s) <= hi     minimise cost' x
 *
 * and a basis is a choice of m variables ("basic") that follow from the other n ("nonbasic"). Nonbasic variables rest on a
 * bound, a free one at zero. Let J be the basic structurals, K the rows whose logical is nonbasic; they are equally many, k.
 * The tableau says how the basic variables follow the others; none of it is stored.
 *
 * Only W, the inverse of A[K, J], is kept: k times k numbers. Any linear form b'x over the structurals reads, in nonbasic
 * variables,
 *
 *     b'x = y' s_K + (b - A[K, .]' y)' x      with y' = b_J' W,   which is zero on J.
 *
 * b = a row of A gives the tableau row of that row's logical, b = cost gives the reduced costs (y are then the duals), b = a
 * unit vector gives the tableau row of a basic structural (y is then a row of W). A column q of the tableau is -W A[K, q]
 * for the basic structurals, or a column of W if q is a logical, and A[., q] plus that much of the columns of J for the
 * logicals. So a row costs k n from the model's own numbers, a column k m, an exchange brings W up to date in k k, and
 * pushing a row costs next to nothing. Diet programs have few rows at a limit: k is small. y can be refined by W times what
 * is missing on J, so that errors do not pile up; x_J likewise by W times what is missing in the rows K (tableau_refine);
 * the basic logicals are A x. The reduced costs follow each exchange and are computed afresh now and then (tableau_reprice).
 *
 * A is not copied: it stays as the model has it, and scales, powers of two, are applied on the way. Columns of J are kept
 * scaled.
 *
 * All vectors over variables have length n + m, structurals first; entries of basic variables in tableau rows are zero.
 *
 * The dual simplex keeps the signs of d right and repairs x; the primal simplex keeps x within bounds and repairs d. After a
 * change of bounds d stays right, so the dual simplex goes on from where it was.
 *
 * Safety: pivots are chosen among near-ties for size (Harris' test); a d that slips by rounding is shifted to zero and the
 * true costs are put back at the end; after a run of pivots without progress the costs are bent a little, and at last the
 * smallest index decides (Bland's rule). W is rebuilt from A when it has drifted. Only + - * / and comparisons are used in a
 * fixed order, so all machines take the same path.
 *
 * Sources (from memory): bounded dual simplex with bound flipping and Harris' ratio test as in Koberstein, "The dual simplex
 * method, techniques for a fast and stable implementation" (2005); reference weights after Forrest and Goldfarb (1992). */
#ifndef BW_SIMPLEX_H
#define BW_SIMPLEX_H

#include "lp/lp.h"

enum { REFINE_AFTER = 16 };
enum { NONBASIC = -1, BASIC_LOGICAL = -2 };

/* How far the numbers at hand can be relied on. */
struct trust {
  bool signs_right;   /* no d has a wrong sign that matters, nor has anything changed since that was seen */
  bool stale_costs;   /* d does not belong to cost: costs were changed or shifted */
  double price_error; /* of d when it was last computed from cost, relative */
  long since_rebuild, since_price, since_refine; /* pivots; the last counts each as REFINE_AFTER moves */
};

struct simplex {
  struct arena *arena;    /* rows of W are taken from it as k grows */
  int m, n, m_cap;        /* rows, structurals, room for rows */
  double **a;             /* [m_cap] -> [n] coefficients as the model has them, not scaled */
  double *lo, *hi;        /* [n + m_cap] scaled bounds */
  double *cost;           /* [n] scaled */
  double *x, *d, *weight; /* [n + m_cap] values; reduced costs; reference weights of basic variables */
  int *slot;              /* [n + m_cap] NONBASIC, BASIC_LOGICAL, or the place of a basic structural in J */

  int k, slots, most_k; /* basic structurals; room for them, as yet and at most */
  int *var;             /* [slots] the structural in each place */
  double **w;           /* [slots] -> [most_k] its row of W, in the order of rows_k */
  double **own;         /* [slots] -> [m_cap] its column of A */
  double *row;          /* [n + m_cap] tableau row at hand */
  double *share;        /* [slots] tableau column at hand: of the basic structurals */
  double *col;          /* [m_cap] and of the basic logicals, by row */
  double *raw;          /* [m_cap] that column of A */

  double *row_scale, *row_unscale; /* [m_cap] scaled row = row * row_scale; and the inverse: all are powers of two */
  double *col_scale, *col_unscale; /* [n] natural x = scaled x * col_scale */
  double tolerance;                /* asked for; 0: the default */
  double feasible;                 /* violation that counts as none, relative to the bound */
  double pivot_ok;                 /* smaller entries are no pivots; lowered when nothing else is left */
  bool ready;                      /* basis, W, x are consistent */
  double enough; /* a node that is at least this dear is given up half-way (SIMPLEX_DEAR); usually infinite */
  bool careful;  /* reduced costs of the end are computed afresh sooner */
  long pivots;
  struct trust trust;
  double *miss, *relaxed; /* [n + m_cap] scratch */
  int *rows_k;            /* [most_k] the rows K */
  double *y;              /* [most_k] scratch: multipliers of the rows K */
  double **term, *by;     /* [m_cap] scratch: rows to combine, and how much of each */
  int *list, listed;      /* [n + m_cap] scratch; after a ratio test: the variables whose d it let pass */

  int bad_var;          /* of an infeasible end: 'row' belongs to this basic variable and proves it */
  bool bad_low;         /* it is below its lower bound */
  int ray_var, ray_dir; /* of an unbounded end */
};

enum simplex_end { SIMPLEX_OPTIMAL, SIMPLEX_INFEASIBLE, SIMPLEX_UNBOUNDED, SIMPLEX_LIMIT, SIMPLEX_DEAR, SIMPLEX_TROUBLE };

/* ---- tableau.c: the basis and what can be read from it ---- */

void tableau_start(struct simplex *s); /* all logicals basic */
/* s->row: row of a basic variable. 'fresh': y is refined; returns the relative error that it leaves on J. */
double tableau_row(struct simplex *s, int var, bool fresh);
/* s->share and s->col: how the basic variables follow nonbasic q. */
void tableau_column(struct simplex *s, int q);
/* Entry of basic variable 'var' in the column at hand. */
double tableau_entry(const struct simplex *s, int var);
/* Nonbasic q, whose column is at hand, moves by 'step', and everything with it. */
void tableau_step(struct simplex *s, int q, double step);
/* Basic 'leaving' (its row at hand) and nonbasic q (its column at hand) change places; x is not touched. */
void tableau_exchange(struct simplex *s, int leaving, int q);
/* Everything from A for the basis as it is; columns that turn out dependent leave it. */
void tableau_rebuild(struct simplex *s);
/* x of the basis from x of the nonbasic variables. Returns the error found in x before, relative to the rows' terms. */
double tableau_refine(struct simplex *s);
void tableau_reprice(struct simplex *s); /* d from cost */

/* ---- simplex.c ---- */

enum simplex_end simplex_run(struct simplex *s, long most_pivots);
/* Primal only, from a feasible basis, with the costs now in s->cost. */
enum simplex_end simplex_primal(struct simplex *s, long most_pivots);
void simplex_set_bounds(struct simplex *s, int var, double lo, double hi); /* keeps the basis, moves nonbasics */
double simplex_resting_place(const struct simplex *s, int var, double d);
double simplex_objective(const struct simplex *s);
/* What it costs at least to push a basic structural to 'to': one step of the dual ratio test. INFINITY: impossible. */
double simplex_penalty(struct simplex *s, int var, double to);

static inline double larger(double a, double b) { return a > b ? a : b; }
static inline double smaller(double a, double b) { return a < b ? a : b; }

#endif
