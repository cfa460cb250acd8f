#include "base/num.h"

#include <math.h>

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

static void add_digits(struct buf *b, uint64_t v, int at_least) {
  char digits[24];
  size_t from = sizeof digits;
  do {
    digits[--from] = (char)('0' + v % 10);
    v /= 10;
  } while (v > 0 || (int)(sizeof digits - from) < at_least);
  buf_add(b, (struct span){digits + from, sizeof digits - from});
}

void num_fixed(struct buf *b, double x, int decimals) {
  if (!isfinite(x) || fabs(x) > 9e15) {
    buf_adds(b, "?");
    return;
  }
  if (decimals < 0) decimals = 0;
  if (decimals > 12) decimals = 12;
  double whole = floor(fabs(x));
  /* The nudge of a few units in the last place makes 0.285 (stored a little below) round as it is written. */
  double part = floor((fabs(x) - whole) * POWER10[decimals] * (1 + 4e-16) + 0.5);
  if (part >= POWER10[decimals]) {
    whole += 1;
    part = 0;
  }
  if (x < 0 && (whole > 0 || part > 0)) buf_addc(b, '-');
  add_digits(b, (uint64_t)whole, 1);
  if (decimals > 0) {
    buf_addc(b, '.');
    add_digits(b, (uint64_t)part, decimals);
  }
}

void num_sig(struct buf *b, double x, int digits) {
  if (!isfinite(x)) {
    buf_adds(b, "?");
    return;
  }
  if (x == 0) {
    buf_addc(b, '0');
    return;
  }
  int magnitude = (int)floor(log10(fabs(x)));
  int decimals = digits - 1 - magnitude;
  if (decimals < 0) {
    double unit = POWER10[-decimals > MOST_POWER ? MOST_POWER : -decimals];
    x = (x < 0 ? -1.0 : 1.0) * floor(fabs(x) / unit + 0.5) * unit;
    decimals = 0;
  }
  if (decimals > 12) decimals = 12;
  size_t from = b->n;
  num_fixed(b, x, decimals);
  if (decimals > 0 && b->n > from) {
    while (b->n > from && b->p[b->n - 1] == '0') b->n--;
    if (b->n > from && b->p[b->n - 1] == '.') b->n--;
    if (b->n == from + 1 && b->p[from] == '-') b->p[from] = '0';
    b->p[b->n] = '\0';
  }
}

void num_json(struct buf *b, double x, int digits) {
  if (!isfinite(x) || fabs(x) > 9e15) {
    buf_adds(b, "null");
  } else {
    num_sig(b, x, digits);
  }
}
