/* solver.h: what the files of this folder share about a solver. Private to this folder. */
#ifndef BW_LP_SOLVER_H
#define BW_LP_SOLVER_H

#include "lp/simplex.h"

struct lp_solver {
  struct arena *arena;
  struct simplex x;
  struct lp_col *col; /* [n] natural, as changed */
  struct lp_row *row; /* [m_cap] */
  double cost_scale;
  bool costs_changed; /* col[].cost is ahead of x.cost */
  int most_used;
  struct lp_answer answer;
};

void solver_make_answer(struct lp_solver *s, size_t row_cap);
void solver_read_x(struct lp_solver *s); /* and the activities, and the objective */
void solver_fill_activity(struct lp_solver *s);
const struct lp_answer *solver_conclude(struct lp_solver *s, enum simplex_end end);
/* The continuous program as it stands; 'careful': as an answer, not as a node on the way to one. */
enum simplex_end solver_run(struct lp_solver *s, const struct lp_limits *limits, bool careful);
long solver_pivot_limit(const struct lp_limits *limits);

#endif
