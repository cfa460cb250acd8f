#include "lp/kernels.h"

#include <math.h>

#if defined(__x86_64__) && defined(__gnu_linux__) && defined(__GNUC__) && !defined(__clang__) &&                            \
    !defined(__SANITIZE_ADDRESS__)
#define WIDE __attribute__((target_clones("avx512f", "avx2", "default"), optimize("O3", "no-trapping-math")))
#else
#define WIDE
#endif

/* Four numbers at once, wherever they lie, and what a comparison of two makes: all bits or none. */
typedef double pack __attribute__((vector_size(32), aligned(8), may_alias));
typedef long long mask __attribute__((vector_size(32), aligned(8), may_alias));
enum { PACK = 4, PACKS = 4 };
#define WHERE(m, x) ((pack)((mask)(m) & (mask)(x)))
#define PICK(m, x, y) ((pack)(((mask)(m) & (mask)(x)) | (~(mask)(m) & (mask)(y))))
#define SIZE(x) ((pack)((mask)(x)&0x7fffffffffffffff))

/* Many enough that the inner loops stay loops, which is what compilers turn into wide instructions. */
enum { LANES = 32 };

static double largest_lane(double *lane) {
  for (int half = LANES / 2; half > 0; half /= 2)
    for (int i = 0; i < half; i++) lane[i] = lane[i + half] > lane[i] ? lane[i + half] : lane[i];
  return lane[0];
}

static double least_lane(double *lane) {
  for (int half = LANES / 2; half > 0; half /= 2)
    for (int i = 0; i < half; i++) lane[i] = lane[i + half] < lane[i] ? lane[i + half] : lane[i];
  return lane[0];
}

WIDE void kernel_add_multiple(double *restrict to, const double *restrict from, double f, int n) {
  for (int i = 0; i < n; i++) to[i] += f * from[i];
}

WIDE void kernel_combine(double *out, const double *base, double *const *rows, const double *f, int count,
                         const double *scale, int n) {
  int i = 0;
  for (; i + PACKS * PACK <= n; i += PACKS * PACK) {
    pack sum[PACKS] = {{0}, {0}, {0}, {0}}, *to = (pack *)(out + i);
    if (base)
      for (int c = 0; c < PACKS; c++) sum[c] = ((const pack *)(base + i))[c];
    for (int p = 0; p < count; p++) {
      const pack *row = (const pack *)(rows[p] + i);
      for (int c = 0; c < PACKS; c++) sum[c] += row[c] * f[p];
    }
    if (scale)
      for (int c = 0; c < PACKS; c++) sum[c] *= ((const pack *)(scale + i))[c];
    for (int c = 0; c < PACKS; c++) to[c] = sum[c];
  }
  for (; i + PACK <= n; i += PACK) {
    pack sum = {0};
    if (base) sum = *(const pack *)(base + i);
    for (int p = 0; p < count; p++) sum += *(const pack *)(rows[p] + i) * f[p];
    if (scale) sum *= *(const pack *)(scale + i);
    *(pack *)(out + i) = sum;
  }
  for (; i < n; i++) {
    double sum = base ? base[i] : 0;
    for (int p = 0; p < count; p++) sum += rows[p][i] * f[p];
    out[i] = scale ? sum * scale[i] : sum;
  }
}

WIDE void kernel_combine_sizes(double *out, const double *base, double *const *rows, const double *f, int count, int n) {
  for (int i = 0; i < n; i++) out[i] = fabs(base[i]);
  for (int p = 0; p < count; p++) {
    const double *restrict row = rows[p];
    for (int i = 0; i < n; i++) out[i] += fabs(row[i] * f[p]);
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
  return largest_lane(lane);
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
  return largest_lane(lane);
}

WIDE double kernel_least(const double *a, int n) {
  double lane[LANES];
  for (int k = 0; k < LANES; k++) lane[k] = INFINITY;
  for (int i = 0; i < n; i += LANES)
    for (int k = 0, most = n - i < LANES ? n - i : LANES; k < most; k++) lane[k] = a[i + k] < lane[k] ? a[i + k] : lane[k];
  return least_lane(lane);
}

WIDE double kernel_ratios(double *restrict ratio, double *restrict relaxed, const double *restrict row, double direction,
                          double pivot_ok, double slack, const double *restrict d, const double *restrict x,
                          const double *restrict lo, const double *restrict hi, int n) {
  const pack never = {INFINITY, INFINITY, INFINITY, INFINITY};
  pack least = never;
  for (int i = 0; i < n; i += PACK) {
    pack entry = *(const pack *)(row + i) * direction, at = *(const pack *)(x + i), cost = SIZE(*(const pack *)(d + i));
    pack up = WHERE(at < *(const pack *)(hi + i), entry), down = WHERE(at > *(const pack *)(lo + i), -entry);
    pack size = PICK(up > down, up, down);
    mask helps = (mask)(size > pivot_ok);
    pack inverse = 1 / size, more = PICK(helps, (cost + slack) * inverse, never);
    *(pack *)(ratio + i) = PICK(helps, cost * inverse, never);
    *(pack *)(relaxed + i) = more;
    least = PICK(more < least, more, least);
  }
  double a = least[0] < least[1] ? least[0] : least[1], b = least[2] < least[3] ? least[2] : least[3];
  return a < b ? a : b;
}

WIDE void kernel_outside(double *restrict out, const double *restrict x, const double *restrict lo,
                         const double *restrict hi, int n) {
  for (int i = 0; i < n; i++) {
    double under = lo[i] - x[i], over = x[i] - hi[i];
    out[i] = under > over ? under : over;
  }
}

WIDE void kernel_hold(double *restrict out, const double *restrict x, const double *restrict lo, const double *restrict hi,
                      int n) {
  for (int i = 0; i < n; i++) {
    double v = fabs(x[i]) < 1e-12 ? 0 : x[i], low = lo[i], high = hi[i];
    v = v > low ? v : low;
    out[i] = v < high ? v : high;
  }
}

WIDE double kernel_product(const double *a, const double *b, int n) {
  double lane[LANES] = {0};
  for (int i = 0; i < n; i += LANES)
    for (int k = 0, most = n - i < LANES ? n - i : LANES; k < most; k++) lane[k] += a[i + k] * b[i + k];
  for (int half = LANES / 2; half > 0; half /= 2)
    for (int i = 0; i < half; i++) lane[i] += lane[i + half];
  return lane[0];
}
