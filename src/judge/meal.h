/* meal.h: how much of an animal's food is this? Crumbs and supplements by themselves are no meal, beside food that nobody
 * counted what is counted may be a small part, and a bowl may give far less than is needed. Then limits that go by energy, and
 * whatever judges the bowl as a whole, say little or nothing. docs/method/verdicts.md, "A part of the food". Layer: judge. */
#ifndef BW_MEAL_H
#define BW_MEAL_H

#include "judge/check.h"

/* Kilocalories a day below which nobody speaks of a meal: a quarter of the expected need (common practice). */
double meal_least_kcal(const struct check_result *r);
/* Is the energy of all that is fed known, for an animal that is judged, and less than that? */
bool meal_is_none(const struct check_result *r);
/* Is so much fed that is not counted, and so little left, that a verdict would be about another bowl? */
bool meal_is_unread(const struct check_result *r);
/* Either: the bowl as a whole is not judged by what is here. */
bool meal_is_part(const struct check_result *r);
/* Is the supply outside the range of the need; of a measured need, whose interval is narrow, well outside? */
bool meal_is_far(const struct check_result *r);

/* Is it for an animal that is too heavy, and less than would hold its ideal weight, but not less than one gets that loses
 * weight (docs/method/slim.md)? */
bool meal_is_for_loss(const struct check_result *r);

/* Of too much of a nutrient: is it only too much for so little energy, in a bowl far below the need? Then what a whole day's
 * food may hold, a day; else NaN. */
double meal_limit_of_a_day(const struct check_result *r, const struct nutrient_result *n);

/* The energy that figures per 1000 kcal go by. */
struct energy_eaten meal_energy(const struct check_result *r);

#endif
