#include <math.h>

#include "judge/check_steps.h"
#include "judge/constants.h"

static const double WHOLE = 1 - 1e-9; /* shares of mass add up to one within rounding */

/* A side of a ratio: sum over the calendar, and the share of the bowl that has values for all of it. */
struct side {
  double amount, known;
};

static double known_share(const struct totals *t, enum nutrient n) {
  return t->eaten_g > 0 ? 1.0 - t->missing_g[n] / t->eaten_g : 0.0;
}

static struct side sum_of(const struct totals *t, const enum nutrient *n, size_t count) {
  struct side s = {0, 1};
  for (size_t i = 0; i < count; i++) {
    s.amount += t->amount[n[i]];
    s.known = fmin(s.known, known_share(t, n[i]));
  }
  return s;
}

static struct side side_of(const struct totals *t, enum nutrient n) { return sum_of(t, &n, 1); }

/* Ratio of the sums, never the mean of ratios. Nothing known on one side: no ratio; nothing above that may be something:
 * none either, for it would read as 0. */
static double ratio_of(struct side a, struct side b, double *known) {
  *known = fmin(a.known, b.known);
  bool above = a.amount > 0 || a.known >= WHOLE;
  return b.amount > 0 && *known > 0 && above ? a.amount / b.amount : (double)NAN;
}

void balance_fill(const struct totals *t, enum species s, double supply_kcal, struct balance *out) {
  static const enum nutrient N6[] = {NUT_LINOLEIC, NUT_ARACHIDONIC}, N3[] = {NUT_ALPHA_LINOLENIC, NUT_EPA_DHA};
  double phytate_mass = judge_constant(t, JUDGE_MOLAR_PHYTATE, s);
  double zinc_mass = judge_constant(t, JUDGE_MOLAR_ZINC, s);
  double calcium_mass = judge_constant(t, JUDGE_MOLAR_CALCIUM, s);
  struct side calcium = side_of(t, NUT_CALCIUM), zinc = side_of(t, NUT_ZINC);
  double *known = out->known_share;
  out->ca_p = ratio_of(calcium, side_of(t, NUT_PHOSPHORUS), &known[0]);
  out->zn_cu = ratio_of(zinc, side_of(t, NUT_COPPER), &known[1]);
  out->n6_n3 = ratio_of(sum_of(t, N6, COUNT_OF(N6)), sum_of(t, N3, COUNT_OF(N3)), &known[2]);
  out->k_na = ratio_of(side_of(t, NUT_POTASSIUM), side_of(t, NUT_SODIUM), &known[3]);
  out->phytate_zn = ratio_of(side_of(t, NUT_PHYTATE), zinc, &known[4]) * zinc_mass / phytate_mass;
  if (!(supply_kcal > 0)) {
    out->ca_phytate_zn = (double)NAN;
    return;
  }
  double calcium_mmol_per_1000kcal = calcium.amount / calcium_mass / supply_kcal * 1000.0;
  out->ca_phytate_zn = calcium_mmol_per_1000kcal * out->phytate_zn;
}
