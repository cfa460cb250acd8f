/* kernels.h: the loops over long vectors that take the time. Private to this folder.
 *
 * They are written in packs of four, compiled for wider registers as well and picked when the program starts. Element by
 * element the arithmetic is the same for every width, sums and maxima go over lanes in a fixed order, and nothing is fused
 * (-ffp-contract=off): results are the same to the last bit.
 *
 * The solver's own vectors have room for KERNEL_SPARE more numbers, zeros or of no account, and kernels marked (*) go on to
 * the next multiple of four. */
#ifndef BW_LP_KERNELS_H
#define BW_LP_KERNELS_H

enum { KERNEL_SPARE = 3 };
static inline int kernel_whole(int n) { return (n + KERNEL_SPARE) / 4 * 4; }

/* (*) to += f from */
void kernel_add_multiple(double *restrict to, const double *restrict from, double f, int n);
/* (*) Every rows[p] but 'skip' gets share[p] times 'row' added. */
void kernel_rank_one(double *const *rows, const double *share, int count, int skip, const double *restrict row, int n);
/* out = (base + f[0] rows[0] + f[1] rows[1] + ...) scale, added up in this order. base may be out, or NULL for zeros; scale
 * may be NULL for ones. */
void kernel_combine(double *out, const double *base, double *const *rows, const double *f, int count, const double *scale,
                    int n);
/* to = from f by (element by element) */
void kernel_scale(double *restrict to, const double *restrict from, double f, const double *restrict by, int n);
/* to = max(to, |from| f) */
void kernel_raise(double *restrict to, const double *restrict from, double f, int n);
double kernel_largest(const double *a, int n);                  /* of |a| */
double kernel_product(const double *a, const double *b, int n); /* a'b */

/* (*) The largest |d| of a variable that may move so that it pays: d < 0 and x < hi, or d > 0 and x > lo. */
double kernel_worst_sign(const double *restrict d, const double *restrict x, const double *restrict lo,
                         const double *restrict hi, int n);
/* (*) Ratio test: where a variable can help (row, sign-turned by 'direction', larger than pivot_ok, and room to move), ratio
 * = |d| / |row| and relaxed = (|d| + slack) / |row|; elsewhere both are infinite. Returns the least relaxed. */
double kernel_ratios(double *restrict ratio, double *restrict relaxed, const double *restrict row, double direction,
                     double pivot_ok, double slack, const double *restrict d, const double *restrict x,
                     const double *restrict lo, const double *restrict hi, int n);
double kernel_least(const double *a, int n); /* infinite for none */
/* The indexes of all entries that are at most 'bound', in order; returns how many. */
int kernel_at_most(int *list, const double *a, double bound, int n);
/* (*) out = how far x is outside lo .. hi; not above zero inside. Returns the largest. */
double kernel_outside(double *restrict out, const double *restrict x, const double *restrict lo, const double *restrict hi,
                      int n);
/* (*) out = x held within lo .. hi, times scale; what is left of a sum that cancels is zero. Returns cost'x, held. */
double kernel_read(double *restrict out, const double *restrict x, const double *restrict lo, const double *restrict hi,
                   const double *restrict scale, const double *restrict cost, int n);

#endif
