/* side.h: two to six rations (or single foods) nutrient by nutrient, sorted by what the differences mean.
 *
 * docs/method/side.md. Layer: explain. */
#ifndef BW_SIDE_H
#define BW_SIDE_H

#include "judge/check.h"

enum { SIDE_LEAST = 2, SIDE_MOST = 6 };

/* What the amounts are given for. ORDER SIDE_PER: side_per_key[]. */
enum side_per {
  SIDE_PER_DAY,      /* as fed */
  SIDE_PER_1000KCAL, /* at equal energy: judged as if the animal's energy need were fed */
  SIDE_PER_100G,     /* as eaten; no needs */
  SIDE_PER_COUNT
};
extern const char *const side_per_key[SIDE_PER_COUNT];

enum side_kind { SIDE_RECIPES, SIDE_FOODS, SIDE_WAYS };
extern const char *const side_kind_key[];

struct side_item {
  const char *name;
  const struct ration *ration;
  uint32_t food;                      /* SIDE_FOODS */
  const struct check_result *r;       /* per 1000 kcal: of the ration scaled to the animal's energy need */
  double kcal_per_day, grams_per_day; /* as written; a food: of 100 g */
};

/* One nutrient. Amounts are those of side_per; NaN where nothing is known. */
struct side_row {
  enum nutrient id;
  double amount[SIDE_MOST], low[SIDE_MOST], high[SIDE_MOST];
  double ratio[SIDE_MOST];                  /* to the need, by the mean; NaN without a need */
  double need[SIDE_MOST], upper[SIDE_MOST]; /* for the same per; NaN */
  bool partly[SIDE_MOST];                   /* some of the food has no value: the amount is the least there is */
  enum verdict verdict[SIDE_MOST];
  double factor;   /* largest over smallest known amount; INFINITY when the smallest is nothing; NaN with fewer than two */
  int most, least; /* which; -1 */
};

/* Rows that mean the same. ORDER of struct side.group: what parts the rations first. */
enum side_meaning {
  SIDE_VERDICTS_DIFFER, /* all rows of the group have the same words in the same places */
  SIDE_SAME_VERDICT,
  SIDE_MORE_IN,  /* without verdicts: 'item' holds most, by SIDE_MUCH or more */
  SIDE_KNOWN_IN, /* only some of them have a figure */
  SIDE_ALIKE     /* within SIDE_MUCH of each other */
};
struct side_group {
  enum side_meaning meaning;
  enum verdict verdict[SIDE_MOST]; /* of the first two meanings */
  int item;                        /* of SIDE_MORE_IN */
  int first, count;                /* rows, the largest difference first */
};

struct side {
  enum side_kind kind;
  enum side_per per;
  bool judged;
  const struct animal *animal; /* NULL: none */
  struct side_item item[SIDE_MOST];
  int count;
  struct side_row row[NUT_COUNT];
  int row_count;
  struct side_group group[NUT_COUNT];
  int group_count;
};

/* Amounts that differ by less than this factor are alike. */
#define SIDE_MUCH 1.25

/* 'item' with name, ration, food; 'animal' may be NULL. Per 1000 kcal every ration is scaled to the need before it is
 * judged. */
const struct side *side_compare(const struct library *lib, enum side_kind kind, enum side_per per,
                                const struct side_item *item, int count, const struct animal *animal,
                                const struct check_options *options, struct arena *arena);

#endif
