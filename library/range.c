#include "library/range.h"

#include <math.h>

/* 95th percentile of the standard normal distribution. */
static const double Z95 = 1.6448536269514722;

static double log_sd(double low, double high) {
  if (!(low > 0) || !(high >= low)) return NAN;
  return log(high / low) / (2 * Z95);
}

double range_cv(double low, double high) {
  double sd = log_sd(low, high);
  return sqrt(expm1(sd * sd));
}

double range_mean(double low, double high) {
  double sd = log_sd(low, high);
  return sqrt(low * high) * exp(sd * sd / 2);
}
