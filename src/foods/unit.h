/* unit.h: mass, volume, counted things and international units.
 *
 * Layer: foods. Sources of the factors stand in unit.c beside each. */
#ifndef BW_UNIT_H
#define BW_UNIT_H

#include "foods/nutrient.h"

enum unit {
  UNIT_NONE,
  UNIT_G,
  UNIT_KG,
  UNIT_MG,
  UNIT_UG,
  UNIT_OZ,
  UNIT_LB, /* mass */
  UNIT_ML,
  UNIT_L,
  UNIT_TSP,
  UNIT_TBSP,
  UNIT_CUP,
  UNIT_FL_OZ,
  UNIT_PINCH, /* volume */
  UNIT_EACH,
  UNIT_SMALL,
  UNIT_MEDIUM,
  UNIT_LARGE,
  UNIT_EXTRA_LARGE,
  UNIT_CAN,
  UNIT_CAPSULE,
  UNIT_TABLET,
  UNIT_SOFTGEL,
  UNIT_DROP,
  UNIT_SCOOP,
  UNIT_FILLET,
  UNIT_CLOVE,
  UNIT_SLICE,
  UNIT_STALK,
  UNIT_LEAF,
  UNIT_SHEET, /* counted */
  UNIT_IU,
  UNIT_PERCENT,
  UNIT_COUNT
};

enum unit_kind { UNIT_KIND_NONE, UNIT_KIND_MASS, UNIT_KIND_VOLUME, UNIT_KIND_COUNT, UNIT_KIND_IU, UNIT_KIND_PERCENT };

struct unit_info {
  const char *word; /* as printed: "tbsp" */
  enum unit_kind kind;
  double factor;    /* grams (mass) or millilitres (volume) in one; 1 for the rest */
  const char *many; /* of several, where that is another word: "tablets"; NULL: "2 large", "2 tsp" */
};
extern const struct unit_info unit_info[UNIT_COUNT];

/* "g", "grams", "µg", "mcg", "fl oz" (one space), "tablespoons" ... case folded except where case tells (none). */
enum unit unit_by_word(struct span word);
/* The nearest unit word for "did you mean"; NULL when nothing is near. */
const char *unit_nearest(struct span word);

/* Grams for a mass unit, millilitres for a volume unit; NaN for others. */
double unit_convert(double amount, enum unit u);

/* A labelled amount of a nutrient in its core unit: 15 mg zinc -> 15; 400 IU vitamin D -> 10 (µg); NaN when the unit does
 * not fit the nutrient. 'natural' distinguishes d-alpha (true) from all-rac (false) tocopherol for vitamin E in IU. */
double unit_nutrient_amount(double amount, enum unit u, enum nutrient n, bool natural);

#endif
