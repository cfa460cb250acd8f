/* mend.h: the smallest change of a ration after which everything is met.
 *
 * Smallness has an order (docs/method/mend.md): as few lines as possible are touched (changed, taken out or added); among
 * those, the change is smallest when a line changed by its whole own amount costs 1, a new food at the most that is sensible
 * of it 2, and a supplement 4; ties go to fewer grams. It stays
 * the same bowl if that can be: wide changes are tried only when moderate ones do not suffice. Whole things stay whole,
 * frequencies stay as they are. Lines that are dangerous to this animal go out first, whatever else happens.
 *
 * Layer: change. Pure. */
#ifndef BW_MEND_H
#define BW_MEND_H

#include "change/model.h"

/* What may happen to a line of the ration; one for each line, in their order. */
struct mend_own {
  const char *name; /* what the food is called; NULL: the line's text */
  bool keep;        /* not to be touched */
  double whole;     /* g as eaten a day of one whole thing; 0: any amount */
  double step;      /* g a day: the smallest change that a kitchen measures; 0: any */
};

enum mend_tier { MEND_LARDER, MEND_FOOD, MEND_SUPPLEMENT };

/* A food that may be added. */
struct mend_offer {
  struct candidate food;
  enum mend_tier tier;
  double most; /* g as eaten a day: beyond that it is no sensible repair */
  double whole, step;
  double least; /* g a day: nothing, or at least this; 0 */
  int group;    /* of offers with the same number here at most one is used: a food so and so often; 0: none */
};

struct mend_request {
  const struct ration *ration;
  const struct animal *animal;
  struct check_options options;
  struct model_limits limits;
  const struct mend_own *own; /* [ration->line_count] */
  const struct mend_offer *offer;
  size_t offers;
  int proposals; /* how many are wanted, at least 1 */
  bool quick;    /* do not look long for fewer lines */
  /* May be NULL. Asked now and then with the number of lines of the best change so far as 'objective' (has_x false: none
   * yet) and the number below which none exists as 'bound'. False ends the search: the best so far is rounded and judged. */
  lp_go_on *go_on;
  void *user;
};

/* Energy as it is when that lies within the usual range for the animal, else as it is expected to be; within 5 %. */
struct model_limits mend_limits(const struct check_result *before);

enum mend_status {
  MEND_FOUND,
  MEND_NONE,      /* no such change exists, or (not proven) none was found */
  MEND_STOPPED,   /* ended before one was found, or found one that no text holds: whether there is one is not known */
  MEND_REFUSED,   /* the animal is none for which a formula is given */
  MEND_NOT_LINEAR /* energy is counted in a way that no program can follow (ENERGY_FOUR_STEP, or figures missing) */
};

/* How far a line of the ration may be moved: cut by this share of it at most, raised to so many times it. */
struct mend_reach {
  double cut, raise;
};

struct mend_change {
  int line;            /* index into the ration; -1: added */
  int offer;           /* index into the offers; -1 */
  double from_g, to_g; /* as eaten a day */
  bool danger;         /* taken out because it is dangerous */
  /* What would fail without this change, the others in place. */
  enum nutrient *repairs; /* what would miss by most first */
  size_t repair_count;
  bool for_energy;  /* energy would leave its limits */
  bool for_balance; /* calcium to phosphorus would */
};

struct mend_proposal {
  const struct mend_change *change;
  size_t count;
  const struct ration *ration;      /* the new one: the lines kept in their order, then the added */
  const struct check_result *after; /* its check_numbers */
  double cost;                      /* as above, without the count of lines */
  int fewest;                       /* no change of fewer lines exists with lines moved no further than 'reach' */
  bool fewest_proven;               /* it has no more lines than that */
  bool least_proven;                /* and, before amounts were rounded, none of as many costs a thousandth less */
  bool one_more;                    /* a line more than need be: with fewer, amounts would not have been measurable */
  bool rounded;                     /* amounts are whole steps */
  struct mend_reach reach;          /* how far lines could be moved */
  bool at_hand;                     /* of new foods, only those of the larder were looked at */
};

struct mend_result {
  enum mend_status status;
  bool proven; /* of MEND_NONE: by arithmetic, not by patience */
  bool already_met;
  bool stopped; /* by whoever waited: what was found keeps everything, but a smaller change may exist */
  const struct check_result *before;
  const struct mend_proposal *proposal; /* best first */
  size_t proposals;
  /* of MEND_NONE */
  struct model_conflict conflict;
  const struct mend_proposal *nearest; /* NULL when there is none; its 'after' says what stays short */
  struct model_helps help;
};

const struct mend_result *mend(const struct library *lib, const struct mend_request *q, struct arena *arena);

/* Is this line dangerous to the animal whatever its amount: a food that must not be fed, or cooked bone? */
bool mend_dangerous(const struct library *lib, const struct ration_line *l, enum species s);

#endif
