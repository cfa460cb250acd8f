/* quiet.h: what becomes short when the animal gets less of the same food.
 *
 * With allowances by metabolic weight the need stays and the supply shrinks: every nutrient has one exact share of the
 * food at which it stops being met. Nothing is sampled. docs/method/quiet.md. Layer: explain. */
#ifndef BW_QUIET_H
#define BW_QUIET_H

#include "judge/check.h"

/* Shares of the food: 1 is what was written. */
struct quiet_nutrient {
  double met_from; /* smallest share at which it is met with the confidence asked; INFINITY if no share does (its need grows
                      with the food, or the food is too dense for its limit); NaN if it cannot be judged: no allowance, or
                      unproven */
  double met_to;   /* largest share at which its upper limit is still kept; INFINITY where none; NaN likewise */
  double short_from; /* below this share it is short, even with all that foods without a value could add; NaN likewise */
};

struct quiet {
  bool applies; /* false per 1000 kcal eaten (the need shrinks with the food), without an animal, for an empty bowl, and
                   where the rest of the food is not known */
  struct quiet_nutrient of[NUT_COUNT];
  double all_met_from;    /* smallest share at which everything that can be judged is met; may exceed 1; INFINITY if none */
  enum nutrient last_met; /* the one that decides it; NUT_NONE */
  double limit_at;        /* smallest share at which a limit is no longer kept; INFINITY if none is ever reached */
  enum nutrient first_over; /* whose; NUT_NONE */
  double still_met_from;    /* the same over those met now: how far the food can be cut before the first of them falls */
  enum nutrient first_lost; /* the first of those; NUT_NONE */
  int unproven;             /* nutrients left out because foods lack a value */
  double smallest_kcal;     /* energy of all_met_from of the food; INFINITY if none */
  double room_kcal;         /* what the need leaves beyond it: energy that may come from plain fat; negative: none */
  double highest_fat_share; /* of the need, if all of that room is filled with (or, negative, taken out of) plain fat; NaN */
};

struct quiet quiet_of(const struct check_result *r);

/* Nutrients that are met now and are not at this share of the food; in order of nutrient.h. */
size_t quiet_lost_at(const struct quiet *q, const struct check_result *r, double share, enum nutrient lost[NUT_COUNT]);

struct quiet_crossing {
  enum nutrient id;
  double share;
};
/* Every nutrient that has a finite met_from above zero, the first to fall first. Those above 1 are not met now. */
size_t quiet_crossings(const struct quiet *q, struct quiet_crossing out[NUT_COUNT]);

#endif
