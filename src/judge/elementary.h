/* elementary.h: ln, exp and erfc to the last bit or two, by arithmetic alone: the compiler works them out for several
 * nutrients at once, and every machine gets the same. No branches, no calls, no conversions between whole numbers and
 * others, for which not every processor has wide instructions. Layer: judge.
 *
 * The polynomials are least in their largest error (Chebyshev, worked out with 50 digits); stats_test.c holds them against
 * the C library. */
#ifndef BW_JUDGE_ELEMENTARY_H
#define BW_JUDGE_ELEMENTARY_H

#include <stdint.h>
#include <string.h>

static inline uint64_t bits_of(double x) {
  uint64_t bits;
  memcpy(&bits, &x, sizeof bits);
  return bits;
}
static inline double double_of(uint64_t bits) {
  double x;
  memcpy(&x, &bits, sizeof x);
  return x;
}

/* A double's exponent begins at this bit; ln 2 in two parts, of which the first has room for the factors used here. */
enum { EXPONENT = 52, EXPONENT_BIAS = 1023 };
#define LN2_HIGH 0.69314670562744141
#define LN2_LOW 4.7493250390316726e-07

/* ln x for x > 0. With x = 2^k (1 + f), 1 + f between the roots of 1/2 and 2, and s = f / (2 + f):
 * ln(1 + f) = 2 artanh s = f - s (f - s^2 Q(s^2)). */
static inline double elementary_ln(double x) {
  const uint64_t root_half = 0x3fe6a09e667f3bcd, k_offset = 1024;
  const double whole = 0x1p52; /* whole numbers up to this stand in its last bits */
  uint64_t k_up = (bits_of(x) - root_half + (k_offset << EXPONENT)) >> EXPONENT;
  double k = double_of(k_up | bits_of(whole)) - (whole + (double)k_offset);
  double f = double_of(bits_of(x) - ((k_up - k_offset) << EXPONENT)) - 1, s = f / (2 + f), z = s * s;
  double q = 0.15331721600556042 + z * 0.14616449685043406;
  q = 0.22222211134795081 + z * (0.18182889125261723 + z * q);
  q = 0.66666666666666696 + z * (0.39999999999899505 + z * (0.28571428625975487 + z * q));
  return k * LN2_HIGH + (f - (s * (f - z * q) - k * LN2_LOW));
}

/* exp(x + more) for x below 709, 'more' small: e^x = 2^k (1 + r + r^2 P(r)), |r| at most half of ln 2. What is too small for
 * a double is 0; NaN stays NaN. */
static inline double elementary_exp(double x, double more) {
  const double least = -800, per_ln2 = 1.4426950408889634, to_whole = 0x1.8p52;
  const uint64_t k_offset = 2048;
  x = x < least ? least : x;
  double shifted = x * per_ln2 + to_whole, k = shifted - to_whole, r = (x - k * LN2_HIGH) - (k * LN2_LOW - more), z = r * r;
  double even = 2.4801587325677461e-05 + z * (2.7557273478718582e-07 + z * 2.0914755325893202e-09);
  double odd = 0.00019841269875002279 + z * (2.7557255170000888e-06 + z * 2.5105312729622103e-08);
  even = 0.5 + z * (0.041666666666666671 + z * (0.0013888888888883711 + z * even));
  odd = 0.16666666666666671 + z * (0.0083333333333260838 + z * odd);
  double p = 1 + (r + z * (even + r * odd));
  /* In two steps, for the sake of what lies below the smallest normal number. */
  uint64_t k_bits = bits_of(shifted) - bits_of(to_whole), half = ((k_bits + k_offset) >> 1) - k_offset / 2;
  return p * double_of((half + EXPONENT_BIAS) << EXPONENT) * double_of((k_bits - half + EXPONENT_BIAS) << EXPONENT);
}

/* exp(a^2) erfc(a) (1 + 2a) is smooth for all a >= 0, and a polynomial of t = (a - 3.75) / (a + 3.75). a^2 is taken in two
 * parts, the first of them exact. Beyond 28 nothing is left. */
static inline double elementary_erfc(double x) {
  double a = double_of(bits_of(x) & (UINT64_MAX >> 1));
  a = a > 28 ? 28 : a;
  double t = (a - 3.75) / (a + 3.75), u = t * t, high = double_of(bits_of(a) & ~(uint64_t)0x7ffffff);
  double even = 4.0773822695438946e-08 + u * -4.999295226477826e-09;
  double odd = 2.0400958765405564e-10 + u * -9.7499778618419569e-10;
  even = 1.7557572419630805e-06 + u * (-2.6300760845934758e-07 + u * even);
  odd = -5.361966556540493e-08 + u * (1.8148051418292806e-08 + u * odd);
  even = 5.164990829645606e-05 + u * (-1.1446444882750146e-05 + u * even);
  odd = 2.2384550628489278e-05 + u * (-9.7501331297449382e-07 + u * odd);
  even = -0.0097465795323361144 + u * (0.00029371348322054038 + u * even);
  odd = 0.0017556258454484944 + u * (-0.0002901540974049676 + u * odd);
  even = -0.10880393014165805 + u * (-0.058693398591761654 + u * even);
  odd = 0.092304321160215225 + u * (0.028362277420753861 + u * odd);
  even = 1.2375126308378275 + u * (0.0035854154854629045 + u * even);
  odd = -0.14024059858554702 + u * (0.08227673849015113 + u * odd);
  double tail = elementary_exp(-high * high, (high - a) * (high + a)) * ((even + t * odd) / (1 + 2 * a));
  return x < 0 ? 2 - tail : tail;
}

/* ln(1 + x) for x >= 0; NaN stays NaN. What 1 + x loses of a small x is put back. */
static inline double elementary_ln_1_plus(double x) {
  double u = 1 + x;
  return elementary_ln(u) + (x - (u - 1)) / u;
}

#endif
