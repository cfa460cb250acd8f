/* stats.h: what the chances need beyond check.h. Layer: judge. */
#ifndef BW_STATS_H
#define BW_STATS_H

#include <stddef.h>

#include "foods/nutrient.h"

/* Coefficient of variation of a product of independent factors, as squares: (1 + a)(1 + b) - 1. Exact for any law. */
static inline double cv2_of_product(double cv2_a, double cv2_b) { return (1.0 + cv2_a) * (1.0 + cv2_b) - 1.0; }

/* normal_quantile(0.95): ends of the bands that are shown, the other end is -NORMAL_95. */
#define NORMAL_95 1.6448536269514727

/* Squared standard deviation of the logarithm of a lognormal with this coefficient of variation. */
double lognormal_sigma2(double cv);
/* lognormal_chance_at_least (check.h), the spread given so. */
double lognormal_chance_with(double mean, double sigma2, double x);

/* Value of a lognormal with this mean and coefficient of variation at 'z' standard normal deviates. */
double lognormal_at(double mean, double cv, double z);

/* The same for all nutrients at once, to the same last bit: coefficients of variation (0 where nothing is),
 * lognormal_sigma2, and lognormal_at at both ends of the band that is shown. Arrays of NUT_ROOM. */
struct lognormal_bands {
  double cv[NUT_ROOM], sigma2[NUT_ROOM], low[NUT_ROOM], high[NUT_ROOM];
};
void lognormal_bands(const double *mean, const double *variance, struct lognormal_bands *out);

/* lognormal_chance_with for a list. */
enum { CHANCES_MOST = 4 * NUT_ROOM };
struct chance_list {
  size_t count;
  double mean[CHANCES_MOST], sigma2[CHANCES_MOST], x[CHANCES_MOST], chance[CHANCES_MOST];
};
static inline void chance_list_add(struct chance_list *list, double mean, double sigma2, double x) {
  size_t i = list->count++;
  list->mean[i] = mean;
  list->sigma2[i] = sigma2;
  list->x[i] = x;
}
void lognormal_chances(struct chance_list *list);

#endif
