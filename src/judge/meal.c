#include "judge/meal.h"

#include <math.h>

static const double LEAST = 0.25, A_DINNER = 0.4; /* of the expected energy: common practice */

double meal_least_kcal(const struct check_result *r) { return LEAST * r->energy.need.kcal; }

bool meal_is_none(const struct check_result *r) {
  bool counted = r->ration && r->ration->line_count > 0 && energy_is_whole(&r->energy);
  return is_judged(r) && counted && r->energy.supply_kcal < meal_least_kcal(r);
}

/* Of food from a bag or a tin an animal may live: beside it what is counted must be enough by itself. */
bool meal_is_unread(const struct check_result *r) {
  if (!is_judged(r) || !r->ration || !r->energy.beside) return false;
  bool sole_food = false;
  for (size_t i = 0; i < r->ration->uncounted_count; i++) sole_food |= r->ration->uncounted[i].sole_food;
  double least = sole_food ? r->energy.need.low_kcal : A_DINNER * r->energy.need.kcal;
  return !(r->energy.supply_kcal >= least);
}

bool meal_is_part(const struct check_result *r) { return meal_is_none(r) || meal_is_unread(r); }

bool meal_is_far(const struct check_result *r) {
  static const double WELL_BELOW = 0.75, WELL_ABOVE = 1.25;
  const struct energy_result *e = &r->energy;
  if (!is_judged(r) || !(e->need.kcal > 0)) return false;
  double ratio = e->supply_kcal / e->need.kcal;
  if (isnan(ratio)) return false;
  if (e->supply_kcal >= e->need.low_kcal && e->supply_kcal <= e->need.high_kcal) return false;
  return !r->animal->measured || ratio < WELL_BELOW || ratio > WELL_ABOVE;
}

bool meal_is_for_loss(const struct check_result *r) {
  static const double NEARLY = 0.95;
  const struct energy_result *e = &r->energy;
  return is_judged(r) && energy_is_whole(e) && e->supply_kcal >= NEARLY * r->body.loss_kcal && e->supply_kcal < e->need.kcal;
}

double meal_limit_of_a_day(const struct check_result *r, const struct nutrient_result *n) {
  const struct energy_result *e = &r->energy;
  bool part = energy_is_whole(e) && meal_is_far(r) && !meal_is_none(r) && e->supply_kcal < e->need.kcal;
  if (!part || !n->table || isnan(n->upper)) return (double)NAN;
  double most = n->table->upper_by_energy * e->need.kcal / e->supply_kcal; /* fmin: the other where one is NaN */
  most = fmin(most, n->table->upper_by_weight);
  return n->upper == n->table->upper_by_energy && n->window_high <= most ? most : (double)NAN;
}

/* Where other food is eaten beside, limits that grow with the energy are those of the animal's need, unless more than that is
 * sure; so is what a whole day must hold, where nobody knows what the other food is. Where that is known but for its amount,
 * which may be next to nothing, and of what is no meal by itself but may be a little of a complete food, no more is asked
 * than belongs to the energy that is counted. */
struct energy_eaten meal_energy(const struct check_result *r) {
  const struct energy_result *e = &r->energy;
  double least = r->options.meal_kcal;
  if (least > 0) return (struct energy_eaten){fmax(e->supply_kcal, least), fmax(e->supply_kcal, least)};
  bool enough = e->supply_kcal > e->need.kcal, known = energy_is_whole(e);
  bool bounded = e->beside && !e->in_part && isfinite(r->uncounted_most[NUT_ENERGY]);
  bool no_meal = e->supply_kcal < LEAST * e->need.kcal;
  return (struct energy_eaten){.for_needs = known || bounded || enough ? e->supply_kcal : (double)NAN,
                               .for_limits = (known && !no_meal) || enough ? e->supply_kcal : (double)NAN};
}
