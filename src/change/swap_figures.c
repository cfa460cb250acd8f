/* swap_figures.c: the standard's figures as functions of the energy eaten, read off standard_allowances by asking it at
 * several energies. */
#include <math.h>

#include "change/swap_parts.h"
#include "judge/check_steps.h"

static const double LITTLE = 1e-3, THOUSAND = 1e3, TWICE = 2e3, MUCH = 1e9;

static struct swap_figure lower_figure(double at_one, double at_two) {
  bool grows = at_two > 1.5 * at_one;
  return grows ? (struct swap_figure){NAN, at_one / THOUSAND} : (struct swap_figure){at_one, NAN};
}

static struct swap_figure upper_figure(double at_little, double at_much) {
  double per_kcal = at_little / LITTLE;
  bool grows = at_little < at_much, ends = !isnan(at_much) && !(grows && at_much > 0.5 * per_kcal * MUCH);
  return (struct swap_figure){ends ? at_much : (double)NAN, grows ? per_kcal : (double)NAN};
}

void swap_figures_fill(struct swap *s) {
  struct allowance_set little, one, two, much;
  const struct swap_ask *q = &s->ask;
  struct energy_need need = animal_energy(q->lib, q->animal, s->arena);
  enum standard_id std = q->options.standard;
  enum basis basis = q->options.basis;
  standard_allowances(q->lib, std, basis, q->animal, &need, LITTLE, &little, s->arena);
  standard_allowances(q->lib, std, basis, q->animal, &need, THOUSAND, &one, s->arena);
  standard_allowances(q->lib, std, basis, q->animal, &need, TWICE, &two, s->arena);
  standard_allowances(q->lib, std, basis, q->animal, &need, MUCH, &much, s->arena);
  s->arginine_per_protein = arginine_per_protein(q->lib, std, q->animal->species);
  for (int n = 0; n < NUT_COUNT; n++) {
    s->row_of[n] = -1;
    if (isnan(one.of[n].allowance) && isnan(one.of[n].upper)) continue;
    s->row_of[n] = (int)s->rows;
    s->row[s->rows++] = (struct swap_row){.n = (enum nutrient)n,
                                          .minimum = lower_figure(one.of[n].minimum, two.of[n].minimum),
                                          .allowance = lower_figure(one.of[n].allowance, two.of[n].allowance),
                                          .upper = upper_figure(little.of[n].upper, much.of[n].upper),
                                          .ceiling_fixed = !much.of[n].upper_greater_than,
                                          .ceiling_per_kcal = !little.of[n].upper_greater_than};
  }
}

static double lower_at(struct swap_figure f, double kcal) { return isnan(f.per_kcal) ? f.fixed : f.per_kcal * kcal; }

/* adjust_allowances, for the two rules that are linear in the food. */
static double adjusted(const struct swap *s, const struct swap_row *row, size_t offer, double allowance, double kcal) {
  double g = s->grams_exact[offer];
  if (row->waived) return 0;
  if (row->n == NUT_VITAMIN_E && !isnan(allowance))
    return fmax(allowance, s->rest_for_fat + g * s->fat_mg[offer]) + (s->rest_for_oil + g * s->oil_mg[offer]);
  if (row->n == NUT_ARGININE && s->arginine_per_protein > 0 && s->row_of[NUT_PROTEIN] >= 0) {
    double above = s->rest_protein + g * s->protein[offer] - lower_at(s->row[s->row_of[NUT_PROTEIN]].allowance, kcal);
    return above > 0 ? allowance + s->arginine_per_protein * above : allowance;
  }
  return allowance;
}

struct limits swap_limits(const struct swap *s, const struct swap_row *row, size_t offer) {
  double kcal = s->rest_kcal + s->grams_exact[offer] * s->kcal[offer];
  double by_weight = row->upper.fixed, by_energy = row->upper.per_kcal * kcal;
  bool energy = isnan(by_weight) || by_energy < by_weight;
  return (struct limits){.minimum = lower_at(row->minimum, kcal),
                         .allowance = adjusted(s, row, offer, lower_at(row->allowance, kcal), kcal),
                         .upper = energy ? by_energy : by_weight,
                         .greater_than = energy ? !row->ceiling_per_kcal : !row->ceiling_fixed};
}
