#include "lp/kernels.h"

#include <math.h>

#include "base/machine.h"

#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC optimize("O3", "no-trapping-math")
#endif

MACHINE_KEPT(kernel_width);

/* Four numbers at once, wherever they lie, and what a comparison of two makes: all bits or none. */
typedef double pack __attribute__((vector_size(32), aligned(8), may_alias));
typedef long long mask __attribute__((vector_size(32), aligned(8), may_alias));
enum { PACK = 4 };
#define AT(p, i) (*(const pack *)((p) + (i)))
#define PUT(p, i, x) (*(pack *)((p) + (i)) = (x))
#define ALL(x) ((pack){(x), (x), (x), (x)})
#define WHERE(m, x) ((pack)((mask)(m) & (mask)(x)))
#define PICK(m, x, y) ((pack)(((mask)(m) & (mask)(x)) | (~(mask)(m) & (mask)(y))))
#define SIZE(x) ((pack)((mask)(x)&0x7fffffffffffffff))
#define LARGER(x, y) PICK((x) > (y), x, y)
#define LESSER(x, y) PICK((x) < (y), x, y)
/* Of the four lanes together. */
#define ANY_OF(m) ((m)[0] | (m)[1] | (m)[2] | (m)[3])
#define SUM_OF(x) (((x)[0] + (x)[1]) + ((x)[2] + (x)[3]))
#define MORE(a, b) ((a) > (b) ? (a) : (b))
#define LESS(a, b) ((a) < (b) ? (a) : (b))
#define LARGEST_OF(x) MORE(MORE((x)[0], (x)[1]), MORE((x)[2], (x)[3]))
#define LEAST_OF(x) LESS(LESS((x)[0], (x)[1]), LESS((x)[2], (x)[3]))

MACHINE_EACH_WIDTH(kernel_width, void, kernel_add_multiple,
                   (double *restrict to, const double *restrict from, double f, int n), (to, from, f, n)) {
  for (int i = 0; i < n; i += PACK) PUT(to, i, AT(to, i) + AT(from, i) * f);
}

MACHINE_EACH_WIDTH(kernel_width, void, kernel_rank_one,
                   (double *const *rows, const double *share, int count, int skip, const double *restrict row, int n),
                   (rows, share, count, skip, row, n)) {
  for (int p = 0; p < count; p++) {
    double f = share[p], *restrict to = rows[p];
    if (p == skip || f == 0) continue;
    for (int i = 0; i < n; i += PACK) PUT(to, i, AT(to, i) + AT(row, i) * f);
  }
}

/* As many packs as can be summed up in registers, from i on while there are so many. */
#define COMBINE(PACKS)                                                                                                      \
  for (; i + (PACKS)*PACK <= n; i += (PACKS)*PACK) {                                                                        \
    pack sum[PACKS] = {{0}}, *to = (pack *)(out + i);                                                                       \
    if (base)                                                                                                               \
      for (int c = 0; c < (PACKS); c++) sum[c] = ((const pack *)(base + i))[c];                                             \
    for (int p = 0; p < count; p++)                                                                                         \
      for (int c = 0; c < (PACKS); c++) sum[c] += ((const pack *)(rows[p] + i))[c] * f[p];                                  \
    if (scale)                                                                                                              \
      for (int c = 0; c < (PACKS); c++) sum[c] *= ((const pack *)(scale + i))[c];                                           \
    for (int c = 0; c < (PACKS); c++) to[c] = sum[c];                                                                       \
  }

MACHINE_EACH_WIDTH(kernel_width, void, kernel_combine,
                   (double *out, const double *base, double *const *rows, const double *f, int count, const double *scale,
                    int n),
                   (out, base, rows, f, count, scale, n)) {
  int i = 0;
  COMBINE(8)
  COMBINE(3)
  COMBINE(1)
  for (; i < n; i++) {
    double sum = base ? base[i] : 0;
    for (int p = 0; p < count; p++) sum += rows[p][i] * f[p];
    out[i] = scale ? sum * scale[i] : sum;
  }
}

MACHINE_EACH_WIDTH(kernel_width, void, kernel_scale,
                   (double *restrict to, const double *restrict from, double f, const double *restrict by, int n),
                   (to, from, f, by, n)) {
  for (int i = 0; i < n; i++) to[i] = from[i] * f * by[i];
}

MACHINE_EACH_WIDTH(kernel_width, void, kernel_raise, (double *restrict to, const double *restrict from, double f, int n),
                   (to, from, f, n)) {
  for (int i = 0; i < n; i++) {
    double x = fabs(from[i]) * f;
    to[i] = x > to[i] ? x : to[i];
  }
}

MACHINE_EACH_WIDTH(kernel_width, double, kernel_largest, (const double *a, int n), (a, n)) {
  pack most = ALL(0);
  int i = 0;
  for (; i + PACK <= n; i += PACK) most = LARGER(SIZE(AT(a, i)), most);
  double largest = LARGEST_OF(most);
  for (; i < n; i++) largest = MORE(fabs(a[i]), largest);
  return largest;
}

MACHINE_EACH_WIDTH(kernel_width, double, kernel_product, (const double *a, const double *b, int n), (a, b, n)) {
  pack even = ALL(0), odd = ALL(0);
  int i = 0;
  for (; i + 2 * PACK <= n; i += 2 * PACK) {
    even += AT(a, i) * AT(b, i);
    odd += AT(a, i + PACK) * AT(b, i + PACK);
  }
  even += odd;
  double sum = SUM_OF(even);
  for (; i < n; i++) sum += a[i] * b[i];
  return sum;
}

MACHINE_EACH_WIDTH(kernel_width, double, kernel_worst_sign,
                   (const double *restrict d, const double *restrict x, const double *restrict lo, const double *restrict hi,
                    int n),
                   (d, x, lo, hi, n)) {
  pack worst = ALL(0);
  for (int i = 0; i < n; i += PACK) {
    pack at = AT(x, i), slope = AT(d, i), up = WHERE(at < AT(hi, i), -slope), down = WHERE(at > AT(lo, i), slope);
    pack gain = LARGER(up, down);
    worst = LARGER(gain, worst);
  }
  return LARGEST_OF(worst);
}

MACHINE_EACH_WIDTH(kernel_width, double, kernel_least, (const double *a, int n), (a, n)) {
  pack some = ALL(INFINITY);
  int i = 0;
  for (; i + PACK <= n; i += PACK) some = LESSER(AT(a, i), some);
  double least = LEAST_OF(some);
  for (; i < n; i++) least = LESS(a[i], least);
  return least;
}

MACHINE_EACH_WIDTH(kernel_width, double, kernel_ratios,
                   (double *restrict ratio, double *restrict relaxed, const double *restrict row, double direction,
                    double pivot_ok, double slack, const double *restrict d, const double *restrict x,
                    const double *restrict lo, const double *restrict hi, int n),
                   (ratio, relaxed, row, direction, pivot_ok, slack, d, x, lo, hi, n)) {
  pack never = ALL(INFINITY), least = never;
  for (int i = 0; i < n; i += PACK) {
    pack entry = AT(row, i) * direction, at = AT(x, i), cost = SIZE(AT(d, i));
    pack up = WHERE(at < AT(hi, i), entry), down = WHERE(at > AT(lo, i), -entry);
    pack size = LARGER(up, down);
    mask helps = (mask)(size > pivot_ok);
    pack inverse = 1 / size, more = PICK(helps, (cost + slack) * inverse, never);
    PUT(ratio, i, PICK(helps, cost * inverse, never));
    PUT(relaxed, i, more);
    least = LESSER(more, least);
  }
  return LEAST_OF(least);
}

MACHINE_EACH_WIDTH(kernel_width, int, kernel_at_most, (int *list, const double *a, double bound, int n),
                   (list, a, bound, n)) {
  int count = 0, i = 0;
  for (; i + 4 * PACK <= n; i += 4 * PACK) { /* few are: whole stretches without one are passed over */
    pack least = LESSER(AT(a, i), AT(a, i + PACK)), more = LESSER(AT(a, i + 2 * PACK), AT(a, i + 3 * PACK));
    mask any = (mask)(least <= bound) | (mask)(more <= bound);
    if (!(any[0] | any[1] | any[2] | any[3])) continue;
    for (int k = i; k < i + 4 * PACK; k++)
      if (a[k] <= bound) list[count++] = k;
  }
  for (; i < n; i++)
    if (a[i] <= bound) list[count++] = i;
  return count;
}

MACHINE_EACH_WIDTH(kernel_width, double, kernel_outside,
                   (double *restrict out, const double *restrict x, const double *restrict lo, const double *restrict hi,
                    int n),
                   (out, x, lo, hi, n)) {
  pack worst = ALL(-INFINITY);
  for (int i = 0; i < n; i += PACK) {
    pack at = AT(x, i), under = AT(lo, i) - at, over = at - AT(hi, i), outside = LARGER(under, over);
    PUT(out, i, outside);
    worst = LARGER(outside, worst);
  }
  return LARGEST_OF(worst);
}

MACHINE_EACH_WIDTH(kernel_width, double, kernel_read,
                   (double *restrict out, const double *restrict x, const double *restrict lo, const double *restrict hi,
                    const double *restrict scale, const double *restrict cost, int n),
                   (out, x, lo, hi, scale, cost, n)) {
  pack sum = ALL(0);
  for (int i = 0; i < n; i += PACK) {
    pack at = AT(x, i), low = AT(lo, i), high = AT(hi, i);
    at = WHERE(SIZE(at) >= 1e-12, at);
    at = LARGER(at, low);
    at = LESSER(at, high);
    PUT(out, i, at * AT(scale, i));
    sum += at * AT(cost, i);
  }
  return SUM_OF(sum);
}
