#include "judge/stats.h"

#include <math.h>

#include "base/machine.h"
#include "judge/check.h"
#include "judge/elementary.h"

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

/* Mean and CV to the parameters of the logarithm: sigma^2 = ln(1 + cv^2), mu = ln(mean) - sigma^2 / 2. */
static inline double sigma2_of(double cv) { return elementary_ln_1_plus(cv * cv); }

double lognormal_sigma2(double cv) { return sigma2_of(cv); }

static inline double value_at(double mean, double sigma2, double z) {
  double x = mean * elementary_exp(z * sqrt(sigma2) - 0.5 * sigma2, 0), without = mean == 0 ? 0 : (double)NAN;
  return mean > 0 ? x : without;
}

double lognormal_at(double mean, double cv, double z) { return value_at(mean, sigma2_of(cv), z); }

double lognormal_quantile(double mean, double cv, double p) {
  if (!(mean > 0.0)) return mean == 0.0 ? 0.0 : (double)NAN;
  double sigma2 = log1p(cv * cv);
  return mean * exp(normal_quantile(p) * sqrt(sigma2) - 0.5 * sigma2);
}

double lognormal_chance_at_least(double mean, double cv, double x) {
  return lognormal_chance_with(mean, lognormal_sigma2(cv), x);
}

/* Every way is gone and one of them taken, so that several can be gone at once. */
static inline double chance_of(double mean, double sigma2, double x) {
  bool spread = (mean > 0) & (x > 0) & (sigma2 > 0), known = (mean == mean) & (x == x) & (sigma2 == sigma2);
  double m = spread ? mean : 1, limit = spread ? x : 1, v = spread ? sigma2 : 1;
  double z = (elementary_ln(m / limit) - 0.5 * v) / sqrt(v), chance = 0.5 * elementary_erfc(-z * ROOT_HALF);
  double certain = mean >= x ? 1 : 0;
  certain = mean > 0 ? certain : 0;
  certain = x <= 0 ? 1 : certain;
  certain = known ? certain : (double)NAN;
  return spread ? chance : certain;
}

double lognormal_chance_with(double mean, double sigma2, double x) { return chance_of(mean, sigma2, x); }

/* ---- many at once ---------------------------------------------------------------------------------------------- */

/* Here the widest registers gain: it is all arithmetic, and hardly anything is fetched. */

MACHINE_KEPT(stats_width);

MACHINE_EACH_WIDTH(stats_width, void, lognormal_bands,
                   (const double *restrict mean, const double *restrict variance, struct lognormal_bands *restrict out),
                   (mean, variance, out)) {
  for (int n = 0; n < NUT_ROOM; n++) {
    double root = sqrt(variance[n]), cv = root / (mean[n] > 0 ? mean[n] : 1);
    out->cv[n] = mean[n] > 0 ? cv : 0;
    out->sigma2[n] = sigma2_of(out->cv[n]);
    out->low[n] = value_at(mean[n], out->sigma2[n], -NORMAL_95);
    out->high[n] = value_at(mean[n], out->sigma2[n], NORMAL_95);
  }
}

enum { AT_ONCE = 8 };
static_assert(CHANCES_MOST % AT_ONCE == 0, "the list has room for what is added to its end");

static void chances_of(size_t rounds, const double *restrict mean, const double *restrict sigma2, const double *restrict x,
                       double *restrict chance);
MACHINE_EACH_WIDTH(stats_width, void, chances_of,
                   (size_t rounds, const double *restrict mean, const double *restrict sigma2, const double *restrict x,
                    double *restrict chance),
                   (rounds, mean, sigma2, x, chance)) {
  for (size_t i = 0; i < rounds * AT_ONCE; i++) chance[i] = chance_of(mean[i], sigma2[i], x[i]);
}

void lognormal_chances(struct chance_list *list) {
  size_t count = list->count;
  while (list->count % AT_ONCE != 0) chance_list_add(list, 0, 0, 0);
  chances_of(list->count / AT_ONCE, list->mean, list->sigma2, list->x, list->chance);
  list->count = count;
}
