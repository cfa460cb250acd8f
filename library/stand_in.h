/* stand_in.h: what may stand in for a value that nobody printed: records of the same cut, of the same kind, of the class,
 * or those nearest in composition; and how far off each of them was for values that are printed. */
#ifndef BW_LIBRARY_STAND_IN_H
#define BW_LIBRARY_STAND_IN_H

#include "library/kin.h"

/* ORDER STAND_IN */
enum stand_in {
  STAND_CUT,        /* other records of the same cut */
  STAND_KIN,        /* other cuts of the same kind */
  STAND_NEAR,       /* the cuts nearest in composition, the own kind among them */
  STAND_NEAR_OTHER, /* the nearest of other kinds */
  STAND_CLASS,      /* all other kinds of the class, each counting once */
  STAND_COUNT
};

/* What an amount is told per: 100 g of the food, or a gram of protein, fat, dry matter (NUT_WATER), ash. */
enum { STAND_BASES = 5 };
extern const enum nutrient stand_in_base[STAND_BASES];
/* g of the base in 100 g of a record, 1 for the food itself; NaN where it is not published. */
double stand_in_amount(const struct build_food *f, int base);

struct teacher { /* a record that prints the nutrient */
  uint32_t food;
  int kin, cut;
  double ratio[STAND_BASES]; /* NaN where the base is not published or 0 */
};
struct teacher stand_in_teacher(const struct foods_build *b, const struct kinship *k, uint32_t food, enum nutrient n);

/* Everything that estimates of one nutrient for one class and preparation start from. */
struct stand_scene {
  const struct kinship *kinship;
  const struct features *features; /* [food] */
  struct features scale;           /* usual difference of each feature in the class */
  enum nutrient nutrient;
  struct teacher *teacher; /* sorted by kin, then cut */
  size_t teachers;
};

struct stand_guess {
  double ratio; /* NaN: nothing can stand in */
  int records;
};
/* What would be said of record 'food', were its own value not printed; for every base. */
void stand_in_guess(const struct stand_scene *s, uint32_t food, enum stand_in how, struct stand_guess guess[STAND_BASES]);

/* Printed values left out and guessed: ln(found / guessed). */
struct stand_trial {
  uint32_t *food;
  double *error;
  size_t n;
};
/* For the teachers that 'judge' (one flag a teacher) picks. */
void stand_in_try(const struct stand_scene *s, enum stand_in how, const bool *judge, struct stand_trial trial[STAND_BASES],
                  struct arena *scratch);
/* The coefficient of variation within which nine of ten of them lay (5th to 95th percentile); NaN: too few to tell. */
double stand_in_error(const struct stand_trial *t, struct arena *scratch);

#endif
