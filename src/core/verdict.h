/* verdict.h: one nutrient's figures to one word. docs/method/verdicts.md. Layer: core. */
#ifndef BW_VERDICT_H
#define BW_VERDICT_H

#include "core/check.h"

struct limits {
  double minimum, allowance, upper; /* a day; NaN none */
  bool greater_than;                /* 'upper' is only the highest level tested */
};

/* Means a day: in the poorest window, and in the richest. */
struct supply {
  double worst, worst_cv;
  double worst_most; /* with the most that foods without a value could hold */
  double rich, rich_cv;
  double rich_possible; /* with the class's high value; NaN when unknown */
};

struct judgement {
  enum verdict verdict;
  double chance_met, chance_kept; /* NaN without an allowance, without an upper limit */
  bool near_upper;
};

struct judgement verdict_of(const struct limits *l, const struct supply *s, double sure);

/* The better of two verdicts has the higher rank. */
int verdict_rank(enum verdict v);

#endif
