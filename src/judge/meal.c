#include "judge/meal.h"

double meal_least_kcal(const struct check_result *r) {
  static const double LEAST = 0.25;
  return LEAST * r->energy.need.kcal;
}

bool meal_is_none(const struct check_result *r) {
  bool counted = r->ration && r->ration->line_count > 0 && r->ration->uncounted_count == 0 && !r->energy.in_part;
  return r->animal && r->refusal == REFUSE_NOT && counted && r->energy.supply_kcal < meal_least_kcal(r);
}
