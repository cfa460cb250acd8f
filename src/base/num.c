#include "base/num.h"

#include <math.h>
#include <string.h>

static const double POWER10[] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,  1e8,  1e9,  1e10, 1e11,
                                 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};
enum { MOST_DIGITS = 15, MOST_POWER = 22 };

static bool is_digit(char c) { return c >= '0' && c <= '9'; }

size_t num_read(struct span s, double *out) {
  uint64_t mantissa = 0;
  int digits = 0, after_point = 0;
  bool point = false, any = false;
  size_t i = 0;
  for (; i < s.n; i++) {
    char c = s.p[i];
    if (c == '.' && !point && i + 1 < s.n && is_digit(s.p[i + 1])) {
      point = true;
      continue;
    }
    if (!is_digit(c)) break;
    any = true;
    if (mantissa != 0 || c != '0') digits++;
    if (digits > MOST_DIGITS) return 0;
    mantissa = mantissa * 10 + (uint64_t)(c - '0');
    after_point += point;
  }
  if (!any || after_point > MOST_POWER) return 0;
  *out = (double)mantissa / POWER10[after_point];
  return i;
}

bool num_parse(struct span s, double *out) {
  s = span_trim(s);
  double sign = 1.0;
  if (s.n > 0 && (s.p[0] == '-' || s.p[0] == '+')) {
    if (s.p[0] == '-') sign = -1.0;
    s = span_cut(s, 1, s.n);
  }
  double x = 0;
  size_t used = num_read(s, &x);
  if (used == 0) return false;
  s = span_cut(s, used, s.n);
  if (s.n > 1 && (s.p[0] == 'e' || s.p[0] == 'E')) {
    bool down = s.p[1] == '-';
    double e = 0;
    s = span_cut(s, down || s.p[1] == '+' ? 2 : 1, s.n);
    used = num_read(s, &e);
    if (used == 0 || used != s.n || e > MOST_POWER || e != floor(e)) return false;
    x = down ? x / POWER10[(int)e] : x * POWER10[(int)e];
    s.n = 0;
  }
  if (s.n != 0) return false;
  *out = sign * x;
  return true;
}

/* The digits of v to the end of 'p', at least so many; returns how many. Twice as fast in parts that 32 bits hold, where the
 * machine has no division of 64 bits by a constant (WebAssembly). */
static int digits_before(char *end, uint64_t v, int at_least) {
  int n = 0;
  for (; v > UINT32_MAX; v /= 10) end[-++n] = (char)('0' + v % 10);
  uint32_t small = (uint32_t)v;
  do {
    end[-++n] = (char)('0' + small % 10);
    small /= 10;
  } while (small > 0 || n < at_least);
  return n;
}

enum { LONGEST_NUMBER = 40, MOST_DECIMALS = 12 };

/* Writes into 'p', of LONGEST_NUMBER letters; returns the length. x finite, at most 9e15. */
static size_t fixed(char *p, double x, int decimals) {
  double whole = floor(fabs(x));
  /* The nudge of a few units in the last place makes 0.285 (stored a little below) round as it is written. */
  double part = floor((fabs(x) - whole) * POWER10[decimals] * (1 + 4e-16) + 0.5);
  if (part >= POWER10[decimals]) {
    whole += 1;
    part = 0;
  }
  char digits[LONGEST_NUMBER], *end = digits + sizeof digits;
  int n = 0;
  if (decimals > 0) {
    n = digits_before(end, (uint64_t)part, decimals);
    end[-++n] = '.';
  }
  n += digits_before(end - n, (uint64_t)whole, 1);
  if (x < 0 && (whole > 0 || part > 0)) end[-++n] = '-';
  memcpy(p, end - n, (size_t)n);
  return (size_t)n;
}

static bool has_digits(double x) { return isfinite(x) && fabs(x) <= 9e15; }

void num_fixed(struct buf *b, double x, int decimals) {
  if (!has_digits(x)) {
    buf_adds(b, "?");
    return;
  }
  char p[LONGEST_NUMBER];
  buf_add(b, (struct span){p, fixed(p, x, decimals < 0 ? 0 : decimals > MOST_DECIMALS ? MOST_DECIMALS : decimals)});
}

/* Of the first digit that is not 0: 0 for 1 to 9.99, -1 for 0.1. */
static int magnitude_of(double x) {
  x = fabs(x);
  int m = 0;
  if (x >= 1) {
    while (m < MOST_POWER && x >= POWER10[m + 1]) m++;
  } else {
    while (m > -MOST_POWER && x * POWER10[-m] < 1) m--;
  }
  return m;
}

void num_sig(struct buf *b, double x, int digits) {
  if (!isfinite(x)) {
    buf_adds(b, "?");
    return;
  }
  int decimals = digits - 1 - magnitude_of(x);
  if (decimals < 0) {
    double unit = POWER10[-decimals];
    x = (x < 0 ? -1.0 : 1.0) * floor(fabs(x) / unit + 0.5) * unit;
    decimals = 0;
  }
  if (decimals > MOST_DECIMALS) decimals = MOST_DECIMALS;
  if (x == 0 || !has_digits(x)) {
    buf_adds(b, x == 0 ? "0" : "?");
    return;
  }
  char p[LONGEST_NUMBER];
  size_t n = fixed(p, x, decimals);
  if (decimals > 0) {
    while (p[n - 1] == '0') n--;
    if (p[n - 1] == '.') n--;
  }
  buf_add(b, (struct span){p, n});
}

void num_json(struct buf *b, double x, int digits) {
  if (!has_digits(x)) {
    buf_adds(b, "null");
  } else {
    num_sig(b, x, digits);
  }
}
