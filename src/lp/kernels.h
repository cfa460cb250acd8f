/* kernels.h: the loops over long vectors that take the time. Private to this folder.
 *
 * They are compiled for wider registers as well and picked when the program starts. Element by element the arithmetic is
 * the same for every width, maxima go over lanes in a fixed order, and nothing is fused (-ffp-contract=off):
 * results are the same to the last bit. */
#ifndef BW_LP_KERNELS_H
#define BW_LP_KERNELS_H

/* Where it says so, a kernel goes on to the next multiple of four: arrays need room for so many more, which hold zeros. */
enum { KERNEL_SPARE = 3 };

/* to += f from */
void kernel_add_multiple(double *restrict to, const double *restrict from, double f, int n);
/* out = (base + f[0] rows[0] + f[1] rows[1] + ...) scale, added up in this order. base may be out, or NULL for zeros; scale
 * may be NULL for ones. */
void kernel_combine(double *out, const double *base, double *const *rows, const double *f, int count, const double *scale,
                    int n);
/* out = |base| + |f[0] rows[0]| + ... */
void kernel_combine_sizes(double *out, const double *base, double *const *rows, const double *f, int count, int n);
/* to = from f by (element by element) */
void kernel_scale(double *restrict to, const double *restrict from, double f, const double *restrict by, int n);
/* to = max(to, |from| f) */
void kernel_raise(double *restrict to, const double *restrict from, double f, int n);
double kernel_largest(const double *a, int n); /* of |a| */
/* The largest |d| of a variable that may move so that it pays: d < 0 and x < hi, or d > 0 and x > lo. */
double kernel_worst_sign(const double *restrict d, const double *restrict x, const double *restrict lo,
                         const double *restrict hi, int n);
/* Ratio test: where a variable can help (row, sign-turned by 'direction', larger than pivot_ok, and room to move), ratio =
 * |d| / |row| and relaxed = (|d| + slack) / |row|; elsewhere both are infinite. Returns the least relaxed.
 * Goes on to the next multiple of four. */
double kernel_ratios(double *restrict ratio, double *restrict relaxed, const double *restrict row, double direction,
                     double pivot_ok, double slack, const double *restrict d, const double *restrict x,
                     const double *restrict lo, const double *restrict hi, int n);
double kernel_least(const double *a, int n);
/* out = how far x is outside lo .. hi; negative inside. */
void kernel_outside(double *restrict out, const double *restrict x, const double *restrict lo, const double *restrict hi,
                    int n);
/* out = x held within lo .. hi; what is left of a sum that cancels is zero. */
void kernel_hold(double *restrict out, const double *restrict x, const double *restrict lo, const double *restrict hi,
                 int n);
double kernel_product(const double *a, const double *b, int n); /* a'b */

#endif
