/* standard.h: from a standard's tables to this animal's allowances per day.
 *
 * Layer: judge. */
#ifndef BW_STANDARD_H
#define BW_STANDARD_H

#include "judge/animal.h"

enum basis { BASIS_WEIGHT, BASIS_ENERGY, BASIS_COUNT };
extern const char *const basis_key[BASIS_COUNT];

/* Amounts a day in the nutrient's unit; NaN where the standard gives none. */
struct allowance {
  double minimum, allowance, upper;
  bool upper_greater_than;                                             /* the highest level tested, no proven ceiling */
  const struct img_allowance *minimum_row, *allowance_row, *upper_row; /* rows they came from, NULL if none */
  const struct allowance_scale *scale;                                 /* what allowance_how() writes from; NULL: no words */
  bool minimum_by_energy, allowance_by_energy;                         /* per 1000 kcal eaten: the figure follows the food */
  double cautious; /* an upper figure that is too cautious to judge by: told, never applied; NaN none */
  const struct img_allowance *cautious_row;
  bool upper_borrowed; /* this standard sets no limit of a mineral or vitamin: the strictest of the others, see upper_row */
  double upper_by_weight, upper_by_energy; /* 'upper' is the smaller; NaN where there is none */
};

/* "2.0 mg x 8.55 kg^0.75": how the printed figure became the animal's, in words for people; "" if there are none. Written
 * when asked for, into the arena that the figures were worked out in: it must still be there. */
const char *allowance_how(const struct allowance *a);

struct allowance_set {
  enum standard_id standard;
  enum basis basis;  /* the one used: AAFCO has only the energy basis */
  bool basis_forced; /* another was asked for, and this standard does not have it */
  struct allowance of[NUT_COUNT];
};

/* The energy that figures per 1000 kcal go by: what is eaten, where that is known (judge/meal.h). NaN or 0: the need. */
struct energy_eaten {
  double for_needs, for_limits; /* kcal a day */
};

/* basis weight: per metabolic kg, or per 1000 kcal times the energy at which the standard was set.
 * basis energy: per 1000 kcal times the energy eaten. Upper limits: the stricter of both bases.
 * Where this standard sets no upper limit of a mineral or vitamin, the strictest firm one of the others is applied.
 * 'need' decides between a standard's energy columns (FEDIAF 95 or 110; 75 or 100): the nearer one. */
void standard_allowances(const struct library *lib, enum standard_id std, enum basis basis, const struct animal *a,
                         const struct energy_need *need, struct energy_eaten eaten, struct allowance_set *out,
                         struct arena *arena);

/* The same in two steps, for whoever asks at many energies for one animal: the rows that count, gathered once ... */
struct figures { /* of one nutrient and level: at most one row per basis is used */
  const struct img_allowance *per_metabolic_kg, *per_1000kcal;
};
struct standard_rows {
  enum standard_id standard;
  enum basis basis;
  struct animal_body body;
  double need_kcal;
  double column_kcal[STANDARD_COUNT];
  struct figures of[STANDARD_COUNT][NUT_COUNT][LEVEL_COUNT];
  int moving[NUT_COUNT], moving_count; /* nutrients with a figure that the energy moves */
};
void standard_gather(const struct library *lib, enum standard_id std, enum basis basis, const struct animal *a,
                     const struct energy_need *need, struct standard_rows *out);
/* Rows that were gathered for an animal of the same species whose need has the same coefficient, for this one. */
void standard_ask(struct standard_rows *rows, enum standard_id std, enum basis basis, const struct animal_body *body,
                  double need_kcal);
/* Works out which figures no energy moves, and puts all of them into 'keep', without words. */
void standard_fix(struct standard_rows *r, struct allowance_set *keep);
/* ... and the figures at an energy eaten. 'arena' NULL: without the words of how each came about. */
void standard_at(const struct standard_rows *r, struct energy_eaten eaten, struct allowance_set *out, struct arena *arena);
/* The same where standard_fix or this has filled 'out' from the same rows. */
void standard_again(const struct standard_rows *r, struct energy_eaten eaten, struct allowance_set *out, struct arena *arena);

/* Days over which a nutrient may average for this species; NULL when the table has no row (then 1 day). */
const struct img_window *standard_window(const struct library *lib, enum species s, enum nutrient n);
/* The same for all nutrients in one pass over the table. */
void standard_windows(const struct library *lib, enum species s, const struct img_window *out[NUT_COUNT]);

#endif
