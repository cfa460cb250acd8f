/* range.h: a spread given as a range.
 *
 * Tables give "3 to 7". It is read as the 5th and 95th percentile of a lognormal: half the distance of the logarithms is
 * 1.6449 standard deviations. */
#ifndef BW_LIBRARY_RANGE_H
#define BW_LIBRARY_RANGE_H

/* Coefficient of variation of the lognormal with these percentiles; NaN unless 0 < low <= high. */
double range_cv(double low, double high);
/* Its mean. */
double range_mean(double low, double high);

#endif
