#include "trend/trend_parts.h"

#include <math.h>

double trend_mix_below(const struct trend_mix *m, double x) {
  double p = 0;
  for (int i = 0; i < m->count; i++)
    p += m->share[i] * (m->sd[i] > 0 ? 0.5 * erfc((m->mean[i] - x) / (m->sd[i] * sqrt(2.0))) : x >= m->mean[i] ? 1 : 0);
  return p;
}

double trend_mix_quantile(const struct trend_mix *m, double p) {
  enum { HALVINGS = 60 };
  double low = INFINITY, high = -INFINITY;
  for (int i = 0; i < m->count; i++) {
    low = fmin(low, m->mean[i] - 9 * m->sd[i]);
    high = fmax(high, m->mean[i] + 9 * m->sd[i]);
  }
  for (int i = 0; i < HALVINGS && low < high; i++) {
    double middle = 0.5 * (low + high);
    if (trend_mix_below(m, middle) < p)
      low = middle;
    else
      high = middle;
  }
  return 0.5 * (low + high);
}

struct trend_band trend_mix_band(const struct trend_mix *m) {
  struct trend_band b = {0, trend_mix_quantile(m, 0.05), trend_mix_quantile(m, 0.95)};
  for (int i = 0; i < m->count; i++) b.mean += m->share[i] * m->mean[i];
  return b;
}
