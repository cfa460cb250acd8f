/* kept.h: a copy of where the simplex stands, to come back to without pivoting.
 * Private to this folder. */
#ifndef BW_LP_KEPT_H
#define BW_LP_KEPT_H

#include "lp/simplex.h"

struct kept {
  double *number; /* lo, hi, x, d, weight of all variables, then the rows of W
                     and the columns of A beside them */
  size_t room;    /* numbers */
  int *slot, *var, *rows_k;
  int k;
  struct trust trust;
};

/* The costs, the matrix and the number of rows stay what they are until the
 * copy is used for the last time. */
void kept_save(struct kept *to, const struct simplex *s, struct arena *arena);
void kept_restore(const struct kept *from, struct simplex *s);

#endif
