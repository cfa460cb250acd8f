/* constants.h: the rows of data/constants.tsv that every judgement of a bowl asks for. Layer: judge. */
#ifndef BW_JUDGE_CONSTANTS_H
#define BW_JUDGE_CONSTANTS_H

#include "foods/constant_keys.h"
#include "judge/totals.h"

/* Each is K_... of constant_keys.h. */
#define JUDGE_CONSTANTS(X)                                                                                                  \
  X(ATWATER_PROTEIN)                                                                                                        \
  X(ATWATER_FAT)                                                                                                            \
  X(ATWATER_CARBOHYDRATE)                                                                                                   \
  X(E_PER_PUFA)                                                                                                             \
  X(E_PER_EPA)                                                                                                              \
  X(E_PER_DHA)                                                                                                              \
  X(E_PER_FISH_OIL)                                                                                                         \
  X(ARGININE_PER_PROTEIN)                                                                                                   \
  X(GUT_VITAMIN_K)                                                                                                          \
  X(GUT_BIOTIN)                                                                                                             \
  X(FISH_SHARE_VITAMIN_K)                                                                                                   \
  X(MOLAR_PHYTATE)                                                                                                          \
  X(MOLAR_ZINC)                                                                                                             \
  X(MOLAR_CALCIUM)                                                                                                          \
  X(GROSS_PROTEIN)                                                                                                          \
  X(GROSS_FAT)                                                                                                              \
  X(GROSS_CARBOHYDRATE)                                                                                                     \
  X(DIGESTIBILITY_START)                                                                                                    \
  X(DIGESTIBILITY_SLOPE)                                                                                                    \
  X(URINARY_LOSS)                                                                                                           \
  X(CAROTENE_FACTOR)

enum judge_constant {
#define ENUM_OF(key) JUDGE_##key,
  JUDGE_CONSTANTS(ENUM_OF)
#undef ENUM_OF
      JUDGE_CONSTANT_COUNT
};

/* NaN where the table has none for this species. 't' remembers those of one species, if it was told to. */
double judge_constant(const struct totals *t, enum judge_constant c, enum species s);
/* All of them, for totals.constant. */
const double *judge_constants(const struct library *lib, enum species s, struct arena *arena);

#endif
