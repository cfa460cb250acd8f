/* remedy.h: so much of a food more, tried and said. Private to the files that look for what covers a gap.
 *
 * Layer: review. */
#ifndef BW_REMEDY_H
#define BW_REMEDY_H

#include "review/findings_internal.h"

/* So much of a row of the table, so often. */
struct remedy {
  const struct img_fix *fix;        /* NULL: nothing */
  const struct img_shop_unit *unit; /* NULL: weighed */
  double amount, times;             /* grams or units a feeding; feedings in 28 days */
  double grams;                     /* a day, on average */
  bool covers;                      /* else it goes some of the way */
  double share;                     /* of what is missing */
  const struct remedy *with;        /* given together with it; NULL */
};

/* ---- tried (findings_trial.c) ---- */

/* Of a nutrient per 100 g, vitamin A as the species can use it; what is unknown counts for nothing here. */
double remedy_held(const struct review *r, uint32_t food, enum nutrient n);
/* Grams of one unit; 0 where it has none of what it is named for. */
double remedy_unit_grams(const struct review *r, const struct img_shop_unit *u);
struct ration_line remedy_line(const struct review *r, const struct remedy *m);
/* The sums with it; the verdicts are reached one by one, as far as they are needed: they hold until the next are asked. */
const struct check_result *remedy_sums(struct review *r, const struct remedy *m);
bool remedy_makes_worse(struct review *r, const struct check_result *sums);
/* Of the ration tried last: is the nutrient met? */
bool remedy_meets(struct review *r, enum nutrient n);
/* Is anything worse, or is there something new to act on? */
bool remedy_breaks_with(struct review *r, const struct remedy *m, const struct check_result *sums);
bool remedy_breaks(struct review *r, const struct remedy *m);

/* ---- said (findings_remedy_words.c) ---- */

/* "1/2 tablet of zinc 10 mg": one feeding, as the recipe's reader reads it back; and how often. */
const char *remedy_feeding(const struct review *r, const struct remedy *m);
const char *remedy_dose(const struct review *r, const struct remedy *m);
/* " (about 2 tsp)"; "". */
const char *remedy_measure(const struct review *r, const struct remedy *m);
/* " and add 3.4 g fat"; nothing where it adds little. */
void remedy_add_brought(const struct review *r, struct buf *b, uint32_t food, double grams);
const char *remedy_covering(const struct review *r, const struct remedy *m);
const char *remedy_nearest(const struct review *r, const struct remedy *m);

#endif
