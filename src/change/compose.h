/* compose.h: a recipe from foods on offer, under limits, for one animal or a household.
 *
 * One program (model.h) for everything: amounts within their ranges, whole pieces, "at least so much if used", numbers of
 * feedings, number of foods, and for every animal all that check promises. For a household the larder makes one base that
 * all eat from by their appetite, and each animal's topper on top of it; toppers are as small as can be. The answer is
 * rounded to amounts that a kitchen can measure, and judged again. docs/method/compose.md. Layer: change. Pure. */
#ifndef BW_COMPOSE_H
#define BW_COMPOSE_H

#include "change/model.h"

struct compose_food {
  struct candidate food;        /* its line daily */
  double low, high;             /* g a day as eaten; with feedings: at each feeding. high INFINITY: no limit */
  double least;                 /* nothing, or at least this; 0 */
  double whole;                 /* g of one piece; 0: any amount */
  double times_low, times_high; /* feedings in 28 days; NaN: daily */
  double price;                 /* a gram as eaten; NaN: not known */
  const char *words; /* its range as the person wrote it: "at most twice a week, 92 g a time"; NULL: nothing said */
};

enum compose_limit_kind {
  COMPOSE_ENERGY_SHARE, /* of 'nutrient': protein, fat or carbohydrate; 0..1 */
  COMPOSE_KCAL,         /* a day, of each bowl */
  COMPOSE_MASS,         /* g a day of all bowls together */
  COMPOSE_PART,         /* share of the food that 'parts' have, of each bowl; 0..1 */
  COMPOSE_FOODS,        /* at most so many */
  COMPOSE_ONE_FOOD,     /* no food above this share */
  COMPOSE_NUTRIENT,     /* a day, of each bowl */
  COMPOSE_COST          /* a day, of all together */
};

struct compose_limit {
  enum compose_limit_kind kind;
  double low, high; /* -INFINITY, INFINITY when open */
  enum nutrient nutrient;
  unsigned parts;    /* bits 1 << enum bowl_part */
  const char *words; /* as the person wrote it */
};

enum compose_aim { COMPOSE_CHEAPEST, COMPOSE_LIGHTEST, COMPOSE_LEANEST, COMPOSE_NEAREST };

struct compose_request {
  const struct compose_food *food;
  size_t foods;
  const struct animal *animal;
  size_t animals; /* at least 1 */
  struct check_options options;
  const struct compose_limit *limit;
  size_t limits;
  enum compose_aim aim;
  double pattern[BOWL_COUNT]; /* COMPOSE_NEAREST: shares wanted */
  /* Smallest sensible step of an amount of a food, g as eaten; may be NULL: no rounding. */
  double (*step)(void *step_user, size_t food, double grams);
  /* Less than that of a food nobody weighs, nor in finer steps; NULL: any. */
  double (*floor)(void *step_user, size_t food);
  void *step_user;
  long nodes; /* 0: generous */
  lp_go_on *go_on;
  void *user;
  long *pivots; /* NULL, or counts the pivots of its programs as they are made: what ending early still costs */
};

enum compose_status {
  COMPOSE_FOUND,
  COMPOSE_STOPPED, /* by a limit or by hand: a recipe that keeps everything, but perhaps not the best; or none found yet */
  COMPOSE_NONE,
  COMPOSE_REFUSED,   /* 'refused' is an animal for which no formula is given */
  COMPOSE_NOT_LINEAR /* energy reckoned in a way that no program can follow */
};

struct compose_bowl {
  const struct animal *animal;
  double need_kcal, share;          /* of the base; 1 for one animal */
  const double *base, *topper;      /* [candidates] g a day as eaten in this bowl; topper all 0 for one animal */
  const struct ration *ration;      /* lines in the order of the candidates: base and topper together */
  const int *candidate;             /* [ration->line_count] */
  const struct check_result *after; /* check_numbers of it */
  bool kept;                        /* everything promised holds */
};

struct compose_dish {
  const struct compose_bowl *bowl; /* [animals] */
  const double *base;              /* [candidates] g a day of the whole base */
  double cost, grams;              /* a day, all together; cost NaN when a price is missing */
  double objective;                /* what the aim counts, after rounding */
  bool rounded;
};

/* A smallest set of limits that cannot hold together. */
struct compose_conflict {
  const char **words;
  const bool *own; /* [count] a range that the person wrote behind a food */
  size_t count;
  const char *sentence; /* how much is needed and how much there can be, in one sentence; "" when there is none to say */
  bool no_meal;         /* the foods hold hardly any energy within their ranges: what else is missing says nothing */
  bool energy_unknown;  /* foods that must be used have so much energy that nobody knows: no amounts can be worked out */
  bool by_counting;     /* without whole pieces, "if used" and the number of foods it would be possible */
  const struct lp_model *model; /* these limits and no others (rows of one limit have one name): it has no solution, and
                                   has one without any of them. NULL when count is 0 */
};

struct compose_result {
  enum compose_status status;
  const struct animal *refused;
  const struct compose_dish *dish; /* NULL when none */
  bool proven;                     /* of found: no better one exists before rounding; of none: no recipe exists at all */
  double objective, bound;         /* before rounding */
  /* candidate -> food and feedings in 28 days: a food with several possible numbers of feedings has several */
  const int *food_of;
  const double *times_of;
  size_t candidates;
  /* Foods on offer whose energy is not known: of them no more is used than leaves the energy of the bowl known. */
  const char *const *energy_unknown;
  size_t energy_unknown_count;
  struct compose_conflict conflict; /* of none */
  const struct compose_dish *nearest;
  const char *const *nearest_missed; /* limits beside the nutrients that it does not keep, in words */
  size_t nearest_missed_count;
  bool nearest_counted;    /* whole pieces, "if used" and the number of foods are kept in the nearest */
  bool cut_short;          /* of stopped and none: the search for the nearest and for what would help was not finished */
  struct model_helps help; /* foods that would help, in the base ... */
  const struct animal *help_for; /* ... or on top of this one's bowl */
  long nodes;
  struct model *program; /* for model_keeps: bowl i is that of animal i */
};

const struct compose_result *compose(const struct library *lib, const struct compose_request *q, struct arena *arena);

/* Cost, grams, fat or distance of what a person would see, of one dish: the number that the aim makes small. */
const char *compose_aim_words(enum compose_aim aim);

#endif
