/* quiet.h: what becomes short when the animal gets less of the same food.
 *
 * With allowances by metabolic weight the need stays and the supply shrinks: every nutrient has one exact share of the
 * food at which it stops being met. Nothing is sampled. docs/method/quiet.md. Layer: core. */
#ifndef BW_QUIET_H
#define BW_QUIET_H

#include "core/check.h"

struct quiet_nutrient {
  double met_from;   /* smallest share of the food (1 = as written) at which it is met with the confidence asked; INFINITY if
                        no share does (its need grows with the food); NaN if it has no allowance or cannot be judged */
  double short_from; /* below this share the verdict is short; NaN likewise */
};

struct quiet {
  bool applies; /* false per 1000 kcal eaten: there the need shrinks with the food */
  struct quiet_nutrient of[NUT_COUNT];
  double all_met_from;      /* share at which everything that can be judged is met; may exceed 1; INFINITY if none */
  enum nutrient last_met;   /* the one that decides it; NUT_NONE */
  double still_met_from;    /* the same over those met now: how far the food can be cut before the first of them falls */
  enum nutrient first_lost; /* the first of those; NUT_NONE */
  double smallest_kcal;     /* energy of all_met_from of the food */
  double room_kcal;         /* what the need leaves beyond it: energy that may come from plain fat; negative: none */
  double highest_fat_share; /* of the need, if all of that room is filled with (or, negative, taken out of) plain fat; NaN */
};

struct quiet quiet_of(const struct check_result *r);

/* Nutrients whose verdict is short (or worse than met) at this share of the food, but is met now; in order of nutrient.h. */
size_t quiet_lost_at(const struct quiet *q, const struct check_result *r, double share, enum nutrient lost[NUT_COUNT]);

#endif
