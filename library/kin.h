/* kin.h: how near two records are: the same cut, the same kind, the same class; and how alike in composition. */
#ifndef BW_LIBRARY_KIN_H
#define BW_LIBRARY_KIN_H

#include "library/patterns.h"

/* ORDER PREPARATION */
enum preparation { PREP_RAW, PREP_COOKED, PREP_CANNED, PREP_DRIED, PREP_AS_SOLD, PREP_COUNT };
extern const char *const preparation_word[PREP_COUNT];
enum preparation preparation_of(const struct build_food *f);

/* Places of a record; -1 where it takes no part in estimates. kin: one creature or crop (beef, salmon, deer, cabbage).
 * cut: what the first three parts of its name say, within the kin. */
struct kinship {
  int *kin, *cut; /* [food] */
  int kins, cuts;
};
struct kinship kinship_of(const struct foods_build *b);

/* What compositions are compared by: logarithms of what nearly every record prints. */
enum { FEATURES = 14 };
struct features {
  float x[FEATURES]; /* NaN where it is not published */
};
struct features features_of(const struct build_food *f);
/* Mean square difference over the features that both have, each divided by 'scale'; 'without' is left out. INFINITY when
 * fewer than four can be compared. */
double features_distance(const struct features *a, const struct features *b, const struct features *scale,
                         enum nutrient without);

#endif
