/* spread.h: how much a nutrient differs between samples of one described food, by class (data/variability.tsv). */
#ifndef BW_LIBRARY_SPREAD_H
#define BW_LIBRARY_SPREAD_H

#include "library/foods.h"

struct variability {
  double cv[SPREAD_CLASS_COUNT][NUT_COUNT]; /* NaN: the table has no row */
  double any[NUT_COUNT];                    /* all classes together */
  double usual[SPREAD_CLASS_COUNT];         /* median of the class's rows; NaN for a class without rows */
  double usual_any;
  double tyrosine; /* of all classes; tyrosine is no nutrient of its own */
};

void variability_read(struct variability *v, const char *data_dir, struct arena *arena);

/* Coefficient of variation of nutrient 'n' between samples of a food of that class; never NaN. Taken from the class's
 * row, else what the nutrient is a part of, else the row of all classes, else the median of the class's rows. */
double variability_cv(const struct variability *v, enum spread_class c, enum nutrient n);

/* Linear interpolation between order statistics (position (n - 1) p), sorted in place; NaN when n is 0. */
double quantile(double *x, size_t n, double p);

/* Joined spread of one value of a food: between samples and by estimate. */
double value_cv(const struct variability *v, const struct build_food *f, enum nutrient n);

#endif
