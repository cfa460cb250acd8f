/* solver.h: what the files of this folder share about a solver. Private to this folder. */
#ifndef BW_LP_SOLVER_H
#define BW_LP_SOLVER_H

#include "lp/simplex.h"

struct lp_solver {
  struct arena *arena;
  struct simplex x;
  struct lp_col *col; /* [n] natural, as changed */
  struct lp_row *row; /* [m_cap] */
  double *natural;    /* [m_cap][n] unscaled coefficients */
  double cost_scale;
  int most_used;
  struct lp_answer answer;
};

void solver_make_answer(struct lp_solver *s, size_t row_cap);
void solver_read_x(struct lp_solver *s, double *out);
void solver_fill_activity(struct lp_solver *s);
const struct lp_answer *solver_conclude(struct lp_solver *s, enum simplex_end end);
long solver_pivot_limit(const struct lp_limits *limits);

#endif
