/* stats.h: what the chances need beyond check.h. Layer: judge. */
#ifndef BW_STATS_H
#define BW_STATS_H

/* Coefficient of variation of a product of independent factors, as squares: (1 + a)(1 + b) - 1. Exact for any law. */
static inline double cv2_of_product(double cv2_a, double cv2_b) { return (1.0 + cv2_a) * (1.0 + cv2_b) - 1.0; }

/* Squared standard deviation of the logarithm of a lognormal with this coefficient of variation. */
double lognormal_sigma2(double cv);
/* lognormal_chance_at_least (check.h), the spread given so. */
double lognormal_chance_with(double mean, double sigma2, double x);

/* Value of a lognormal with this mean and coefficient of variation at 'z' standard normal deviates. */
double lognormal_at(double mean, double cv, double z);
/* The same at two, the spread given as that. */
void lognormal_at_both(double mean, double sigma2, double z_low, double z_high, double *low, double *high);

#endif
