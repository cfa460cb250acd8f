/* conflict_filter.h: a smallest conflict as people mean it. Private to this folder.
 *
 * lp_smallest_conflict knows limits of rows and columns, and any of them may go. People know limits, each of which may be
 * several rows (an amount and the planes for its chance), and ends that nobody set: no food can be less than nothing, and no
 * more can be taken away than there is. These always hold. */
#ifndef BW_CONFLICT_FILTER_H
#define BW_CONFLICT_FILTER_H

#include "lp/lp.h"

struct conflict_scope {
  const struct lp_model *m;
  const int *limit;    /* [rows] rows of one limit have one number */
  const bool *hard_hi; /* [cols] upper ends that always hold; NULL: none. Lower ends of nothing, and of less, always do */
  const struct lp_limits *limits; /* who waits; NULL: nobody */
};

/* Of the limits flagged in k, those that are needed: with the ends that always hold they cannot be kept together, and
 * without any one of them (all rows of a limit at once) the others can. 'count' 0 when they can be kept together after all,
 * or when whoever waits has had enough. */
void conflict_filter(const struct conflict_scope *s, struct lp_conflict *k, struct arena *scratch);

/* The limits flagged in k and the ends that always hold, and no others, as a model; row names from 'name' [rows]. */
struct lp_model *conflict_model(const struct conflict_scope *s, const struct lp_conflict *k, const char *const *name,
                                struct arena *arena);

/* "haddock: at most 120 g a day": what is said of a column. */
const char *conflict_amount_words(const struct lp_col *c, const char *relation, double grams, struct arena *arena);

#endif
