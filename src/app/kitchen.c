/* kitchen.c: steps and words of amounts. The steps are common practice: what a kitchen scale and a set of spoons can do. */
#include <math.h>

#include "app/mend_parts.h"
#include "base/num.h"

static const struct {
  double from, step; /* grams */
} SCALE[] = {{1000, 50}, {400, 10}, {60, 5}, {5, 1}, {0.25, 0.1}, {0.1, 0.01}};

/* 1, 2 or 5 times a power of ten, not above x. */
static double round_below(double x) {
  double ten = pow(10, floor(log10(x)));
  double lead = x / ten;
  return ten * (lead >= 5 ? 5 : lead >= 2 ? 2 : 1);
}

static double gram_step(double grams) {
  for (size_t i = 0; i < COUNT_OF(SCALE); i++)
    if (grams >= SCALE[i].from) return SCALE[i].step;
  return grams > 0 ? round_below(grams / 20) : 0.001;
}

double kitchen_floor(double grams) { return grams >= 5 ? 1 : grams >= 0.25 ? 0.1 : 0; }

double kitchen_step(enum unit u, double amount) {
  double factor = unit_info[u].factor;
  if (!(amount > 0)) return 0;
  switch (unit_info[u].kind) {
  case UNIT_KIND_MASS:
    if (u == UNIT_OZ) return amount >= 4 ? 0.5 : 0.25;
    if (u == UNIT_LB) return amount >= 1 ? 0.05 : 0.02;
    return gram_step(amount * factor) / factor;
  case UNIT_KIND_VOLUME:
    if (u == UNIT_ML || u == UNIT_L) return gram_step(amount * factor) / factor;
    if (u == UNIT_PINCH) return 1;
    return amount >= 0.5 ? 0.25 : 0.125;
  case UNIT_KIND_COUNT:
    return kitchen_whole(u, amount);
  case UNIT_KIND_PERCENT:
    return amount >= 10 ? 1 : 0.5;
  case UNIT_KIND_IU:
    return round_below(amount / 10);
  case UNIT_KIND_NONE:
    break;
  }
  return 0;
}

double kitchen_whole(enum unit u, double amount) {
  static const double PARTS[] = {1, 0.5, 0.25};
  if (unit_info[u].kind != UNIT_KIND_COUNT && u != UNIT_PINCH) return 0;
  for (size_t i = 0; i < COUNT_OF(PARTS); i++) {
    double n = amount / PARTS[i];
    if (fabs(n - round(n)) < 1e-9) return PARTS[i];
  }
  return 0;
}

/* Quarters and eighths of spoons and cups as fractions. */
static bool as_fraction(struct buf *b, double amount) {
  static const char *const EIGHTH[] = {"", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"};
  double eighths = amount * 8;
  if (fabs(eighths - round(eighths)) > 1e-6 || amount >= 100) return false;
  long whole = lround(eighths) / 8, rest = lround(eighths) % 8;
  if (whole > 0) buf_addf(b, "%ld", whole);
  if (rest > 0) buf_addf(b, "%s%s", whole > 0 ? " " : "", EIGHTH[rest]);
  return whole > 0 || rest > 0;
}

void kitchen_amount(struct buf *b, enum unit u, double amount, bool exact) {
  enum unit_kind k = unit_info[u].kind;
  bool fractions = k == UNIT_KIND_COUNT || (k == UNIT_KIND_VOLUME && u != UNIT_ML && u != UNIT_L);
  if (fractions && as_fraction(b, amount)) return;
  num_sig(b, amount, exact ? 12 : 6);
}

void kitchen_mass(struct buf *b, double grams, bool exact) {
  enum unit u = grams >= 0.0995 ? UNIT_G : grams >= 0.9995e-3 ? UNIT_MG : UNIT_UG;
  num_sig(b, grams / unit_info[u].factor, exact ? 12 : 6);
  buf_addf(b, " %s", unit_info[u].word);
}
