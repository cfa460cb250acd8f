#include "lp/kernels.h"

#include <math.h>

#if defined(__x86_64__) && defined(__gnu_linux__) && defined(__GNUC__) && !defined(__clang__) &&                            \
    !defined(__SANITIZE_ADDRESS__)
#define WIDE __attribute__((target_clones("avx512f", "avx2", "default"), optimize("O3", "no-trapping-math")))
#else
#define WIDE
#endif

/* Many enough that the inner loops stay loops, which is what compilers turn into wide instructions. */
enum { LANES = 32 };

static double join_largest(double *lane) {
  for (int half = LANES / 2; half > 0; half /= 2)
    for (int i = 0; i < half; i++) lane[i] = lane[i + half] > lane[i] ? lane[i + half] : lane[i];
  return lane[0];
}

WIDE void kernel_add_multiple(double *restrict to, const double *restrict from, double f, int n) {
  for (int i = 0; i < n; i++) to[i] += f * from[i];
}

WIDE void kernel_rank_one(double *const *rows, const double *share, int count, int skip, const double *restrict row, int n) {
  for (int p = 0; p < count; p++) {
    double f = share[p], *restrict to = rows[p];
    if (p == skip || f == 0) continue;
    for (int i = 0; i < n; i++) to[i] += f * row[i];
  }
}

WIDE void kernel_scale(double *restrict to, const double *restrict from, double f, const double *restrict by, int n) {
  for (int i = 0; i < n; i++) to[i] = from[i] * f * by[i];
}

WIDE void kernel_raise(double *restrict to, const double *restrict from, double f, int n) {
  for (int i = 0; i < n; i++) {
    double x = fabs(from[i]) * f;
    to[i] = x > to[i] ? x : to[i];
  }
}

WIDE double kernel_largest(const double *a, int n) {
  double lane[LANES] = {0};
  for (int i = 0; i < n; i += LANES)
    for (int k = 0, most = n - i < LANES ? n - i : LANES; k < most; k++) {
      double x = fabs(a[i + k]);
      lane[k] = x > lane[k] ? x : lane[k];
    }
  return join_largest(lane);
}

WIDE double kernel_worst_sign(const double *restrict d, const double *restrict x, const double *restrict lo,
                              const double *restrict hi, int n) {
  double lane[LANES] = {0};
  for (int i = 0; i < n; i += LANES)
    for (int k = 0, most = n - i < LANES ? n - i : LANES; k < most; k++) {
      double up = x[i + k] < hi[i + k] ? -d[i + k] : 0, down = x[i + k] > lo[i + k] ? d[i + k] : 0;
      double gain = up > down ? up : down;
      lane[k] = gain > lane[k] ? gain : lane[k];
    }
  return join_largest(lane);
}

WIDE double kernel_least(const double *a, int n) {
  double lane[LANES];
  for (int k = 0; k < LANES; k++) lane[k] = -INFINITY;
  for (int i = 0; i < n; i += LANES)
    for (int k = 0, most = n - i < LANES ? n - i : LANES; k < most; k++) lane[k] = -a[i + k] > lane[k] ? -a[i + k] : lane[k];
  return -join_largest(lane);
}

WIDE void kernel_ratios(double *restrict ratio, double *restrict relaxed, const double *restrict row, double direction,
                        double pivot_ok, double slack, const double *restrict d, const double *restrict x,
                        const double *restrict lo, const double *restrict hi, int n) {
  for (int i = 0; i < n; i++) {
    double entry = row[i] * direction, up = hi[i] - x[i], down = x[i] - lo[i];
    double room = entry > 0 ? up : down;
    double size = room > 0 ? fabs(entry) : 0;
    double inverse = 1 / (size > pivot_ok ? size : 1);
    double bare = fabs(d[i]) * inverse, more = bare + slack * inverse;
    ratio[i] = size > pivot_ok ? bare : INFINITY;
    relaxed[i] = size > pivot_ok ? more : INFINITY;
  }
}

WIDE void kernel_outside(double *restrict out, const double *restrict x, const double *restrict lo,
                         const double *restrict hi, int n) {
  for (int i = 0; i < n; i++) {
    double under = lo[i] - x[i], over = x[i] - hi[i];
    out[i] = under > over ? under : over;
  }
}
