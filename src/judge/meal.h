/* meal.h: crumbs and supplements by themselves are no meal. Layer: judge. */
#ifndef BW_MEAL_H
#define BW_MEAL_H

#include "judge/check.h"

/* Kilocalories a day below which nobody speaks of a meal: a quarter of the expected need (common practice). */
double meal_least_kcal(const struct check_result *r);
/* Is all that is fed counted, its energy too, for an animal that is judged, and less than that? */
bool meal_is_none(const struct check_result *r);

#endif
