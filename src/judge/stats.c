#include "judge/stats.h"

#include <math.h>

#include "judge/check.h"

static const double ROOT_HALF = 0.70710678118654752440;
static const double ROOT_TWO_PI = 2.50662827463100050242;

double normal_cdf(double z) { return 0.5 * erfc(-z * ROOT_HALF); }

/* Start: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.2.23 (error below 4.5e-4). */
static double tail_start(double p) {
  double t = sqrt(-2.0 * log(p));
  return t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1.0 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
}

double normal_quantile(double p) {
  if (!(p > 0.0 && p < 1.0)) return p == 0.0 ? -INFINITY : p == 1.0 ? (double)INFINITY : (double)NAN;
  bool upper = p > 0.5;
  double tail = upper ? 1.0 - p : p;
  double z = -tail_start(tail);
  /* Halley's rule triples the correct digits each time: three rounds from four digits reach the last bit. */
  for (int i = 0; i < 3; i++) {
    double step = (normal_cdf(z) - tail) * ROOT_TWO_PI * exp(0.5 * z * z);
    z -= step / (1.0 + 0.5 * z * step);
  }
  return upper ? -z : z;
}

double lognormal_sigma2(double cv) { return log1p(cv * cv); }

/* Mean and CV to the parameters of the logarithm: sigma^2 = ln(1 + cv^2), mu = ln(mean) - sigma^2 / 2. */
void lognormal_at_both(double mean, double sigma2, double z_low, double z_high, double *low, double *high) {
  *low = *high = mean == 0.0 ? 0.0 : (double)NAN;
  if (!(mean > 0.0)) return;
  double sigma = sqrt(sigma2);
  *low = mean * exp(z_low * sigma - 0.5 * sigma2);
  *high = mean * exp(z_high * sigma - 0.5 * sigma2);
}

double lognormal_at(double mean, double cv, double z) {
  double at, also;
  lognormal_at_both(mean, lognormal_sigma2(cv), z, z, &at, &also);
  return at;
}

double lognormal_quantile(double mean, double cv, double p) { return lognormal_at(mean, cv, normal_quantile(p)); }

double lognormal_chance_at_least(double mean, double cv, double x) {
  return lognormal_chance_with(mean, lognormal_sigma2(cv), x);
}

double lognormal_chance_with(double mean, double sigma2, double x) {
  if (isnan(mean) || isnan(sigma2) || isnan(x)) return (double)NAN;
  if (x <= 0.0) return 1.0;
  if (!(mean > 0.0)) return 0.0;
  if (!(sigma2 > 0.0)) return mean >= x ? 1.0 : 0.0;
  return normal_cdf((log(mean / x) - 0.5 * sigma2) / sqrt(sigma2));
}
