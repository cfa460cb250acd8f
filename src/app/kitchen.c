/* kitchen.c: steps and words of amounts. The steps are common practice: what a kitchen scale and a set of spoons can do. */
#include <math.h>

#include "app/mend_parts.h"
#include "base/num.h"

static const struct {
  double from, step; /* grams */
} SCALE[] = {{1000, 50}, {400, 10}, {60, 5}, {5, 1}, {0.25, 0.1}, {0.1, 0.01}};
static const double WHOLE_GRAMS_FROM = 5, SHOWN_BELOW = 0.1; /* what a kitchen scale shows */

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

/* Spoons and cups have quarters; halves of these below half of one. A quarter of a tablespoon is the last. */
static double spoon_step(enum unit u, double amount) { return amount >= 0.5 || u == UNIT_TBSP ? 0.25 : 0.125; }

static double mass_step(enum unit u, double amount) {
  switch (u) {
  case UNIT_MG:
  case UNIT_UG:
    return round_below(amount / 10);
  case UNIT_OZ:
    return amount >= 4 ? 0.5 : 0.25;
  case UNIT_LB:
    return amount >= 0.5 ? 0.05 : 0.02;
  default:
    return gram_step(amount * unit_info[u].factor) / unit_info[u].factor;
  }
}

/* Finer than that is not measured: a gram, a quarter of an ounce, an eighth of a spoon. */
static double mass_floor(enum unit u, double amount) {
  double factor = unit_info[u].factor;
  switch (u) {
  case UNIT_MG:
  case UNIT_UG:
    return round_below(amount / 20);
  case UNIT_OZ:
    return amount >= 4 ? 0.25 : 0.125;
  case UNIT_LB:
    return amount >= 0.5 ? 0.05 : 0.01;
  default:
    return (amount * factor >= WHOLE_GRAMS_FROM ? 1 : SHOWN_BELOW) / factor;
  }
}

static double measure(enum unit u, double amount, bool finest) {
  double factor = unit_info[u].factor;
  if (!(amount > 0)) return 0;
  switch (unit_info[u].kind) {
  case UNIT_KIND_MASS:
    return finest ? mass_floor(u, amount) : mass_step(u, amount);
  case UNIT_KIND_VOLUME:
    if (u == UNIT_ML || u == UNIT_L)
      return (finest ? mass_floor(UNIT_G, amount * factor) : gram_step(amount * factor)) / factor;
    return u == UNIT_PINCH ? 1 : spoon_step(u, amount);
  case UNIT_KIND_COUNT:
    return kitchen_whole(u, amount);
  case UNIT_KIND_PERCENT:
    return amount >= 10 && !finest ? 1 : 0.5;
  case UNIT_KIND_IU:
    return round_below(amount / (finest ? 20 : 10));
  case UNIT_KIND_NONE:
    break;
  }
  return 0;
}

double kitchen_step(enum unit u, double amount) { return measure(u, amount, false); }

double kitchen_floor(enum unit u, double amount) { return measure(u, amount, true); }

/* Whoever writes 5.5 g can weigh half grams. */
static double step_of_whom(double step, double written) {
  enum { HALVINGS = 2 };
  double own = step;
  for (int i = 0; i <= HALVINGS; i++, own /= 2)
    if (fabs(written / own - round(written / own)) < 1e-6) return own;
  return step;
}

double kitchen_rounded(enum unit u, double amount, double written, bool fine) {
  static const double QUARTER = 0.25;
  double step = unit_info[u].kind == UNIT_KIND_COUNT ? QUARTER : kitchen_floor(u, fine ? fmin(amount, written) : amount);
  if (!(step > 0) || !(amount > 0)) return amount;
  step = step_of_whom(step, written);
  return fmax(1, round(amount / step)) * step;
}

double kitchen_whole(enum unit u, double amount) {
  static const double PARTS[] = {1, 0.5, 0.25};
  if (unit_info[u].kind != UNIT_KIND_COUNT && u != UNIT_PINCH) return 0;
  for (size_t i = 0; i < COUNT_OF(PARTS); i++) {
    double n = amount / PARTS[i];
    if (fabs(n - round(n)) < 1e-9) return PARTS[i];
  }
  return u == UNIT_PINCH ? 1 : PARTS[COUNT_OF(PARTS) - 1];
}

/* Quarters and eighths of spoons and cups as fractions, and the half of an eighth. */
static bool as_fraction(struct buf *b, double amount) {
  static const char *const EIGHTH[] = {"", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"};
  double eighths = amount * 8;
  if (fabs(amount - 1.0 / 16) < 1e-9) buf_adds(b, "1/16");
  if (fabs(amount - 1.0 / 16) < 1e-9) return true;
  if (fabs(eighths - round(eighths)) > 1e-6 || amount >= 100) return false;
  long whole = lround(eighths) / 8, rest = lround(eighths) % 8;
  if (whole > 0) buf_addf(b, "%ld", whole);
  if (rest > 0) buf_addf(b, "%s%s", whole > 0 ? " " : "", EIGHTH[rest]);
  return whole > 0 || rest > 0;
}

void kitchen_amount(struct buf *b, enum unit u, double amount) {
  enum unit_kind k = unit_info[u].kind;
  bool fractions = k == UNIT_KIND_COUNT || (k == UNIT_KIND_VOLUME && u != UNIT_ML && u != UNIT_L);
  if (fractions && as_fraction(b, amount)) return;
  num_sig(b, amount, 6);
}

void kitchen_mass(struct buf *b, double grams) {
  enum unit u = grams >= 0.0995 ? UNIT_G : grams >= 0.9995e-3 ? UNIT_MG : UNIT_UG;
  num_sig(b, grams / unit_info[u].factor, 6);
  buf_addf(b, " %s", unit_info[u].word);
}
