/* doubt.h: which single thing makes a total uncertain: the content of one food, what cooking keeps of it, or its amount.
 *
 * The variance of a total (totals.h) is a sum over foods; within a food it is split into the spread of the content, that of
 * the retention factors and that of the weights. docs/method/totals.md. Layer: explain. */
#ifndef BW_DOUBT_H
#define BW_DOUBT_H

#include "judge/totals.h"

enum doubt_kind {
  DOUBT_CONTENT, /* how much one food holds: a label or an analysis would tell */
  DOUBT_KEPT,    /* how much cooking leaves of it */
  DOUBT_AMOUNT   /* how much of it is fed: a range, or the bone in a piece */
};

struct doubt {
  enum doubt_kind kind;
  uint32_t food;
  int line;     /* the first line that holds the food; -1: nothing is in doubt */
  double share; /* of the total's variance, 0..1 */
};

/* The largest single part of the variance of the average over the calendar. */
struct doubt doubt_largest(const struct totals *t, enum nutrient n);

#endif
