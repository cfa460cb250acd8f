/* compose_parts.h: what the files of compose.h share. Private to this folder. */
#ifndef BW_COMPOSE_PARTS_H
#define BW_COMPOSE_PARTS_H

#include "change/compose.h"

enum { ALL_BOWLS = -1 };

struct composer {
  const struct library *lib;
  const struct compose_request *q;
  struct arena *arena;
  struct candidate *candidate;
  int *food_of;
  double *times_of, *full; /* full: g a day on average that this number of feedings amounts to; NaN: daily */
  size_t candidates, cap;
  const bool *dropped;                             /* [foods] not on offer in this run */
  const struct check_result **gram[SPECIES_COUNT]; /* [candidates] a gram a day, judged; NULL: not yet */
  double *need;                                    /* [animals] kcal */
  double *share;
  struct model *p;
  /* columns: the base of each candidate first, then toppers */
  size_t columns;
  int *column_animal; /* ALL_BOWLS: base; -2: a measure of distance, no food */
  int *column_candidate;
  int count_first; /* household: the first of the columns that count foods; else 0 */
  bool stopped;    /* whoever waits has had enough */
  struct compose_result *out;
};

/* compose_rows.c */
void compose_bowls(struct composer *c);         /* bowls with their limits; sets status when an animal is refused */
void compose_rows(struct composer *c);          /* rows of the larder's own limits and feedings */
void compose_aim_columns(struct composer *c);   /* columns that measure the distance from a pattern */
void compose_count_columns(struct composer *c); /* household: columns that say how much of a food there is in all */
/* The same amount at each of so many feedings. */
bool compose_counted_feedings(const struct compose_food *f);
/* Of a food: g a day on average that are the least when it is used at all; 0. */
double compose_least(const struct compose_food *f);
/* The lower end of its range that must be used, at each feeding or a day; 0. */
double compose_range_low(const struct compose_food *f);
double compose_aim_cost(const struct composer *c, size_t candidate);
double compose_kcal_per_g(const struct composer *c, size_t candidate);

/* compose_round.c: x rounded to the kitchen's steps as long as everything holds; true when all of it is. */
bool compose_round(struct composer *c, double *x);
/* For what does not hold anyhow: each amount to its nearest step. */
void compose_round_plainly(struct composer *c, double *x);

/* Foods whose energy is not known, as far as their ranges let them matter; into 'out'. */
void compose_note_energy(struct composer *c);

/* conflict_words.c */
struct compose_conflict compose_conflict_of(struct composer *c);
/* A limit of one bowl of several says whose. */
const char *compose_limit_words(struct composer *c, const struct limit *l);

const struct compose_dish *compose_dish_of(struct composer *c, const double *x, bool rounded);

#endif
