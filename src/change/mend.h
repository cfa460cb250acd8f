/* mend.h: a change of a ration after which everything is met and which leaves the owner's dinner recognisable.
 *
 * Order (docs/method/mend.md): dangers out; the owner's foods stay (a line shrinks by a third at most, more only where
 * nothing else helps); what is added keeps to the usual portions, and is counted in whole units where shops sell it so; then
 * as few lines as possible; then the smallest change. Where nothing fits, ceilings are stretched, least and fewest first,
 * and the proposal says which.
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
  double price;     /* a gram as eaten; 0: not known */
  double step;      /* g a day: the smallest change that a kitchen measures; 0: any */
  double floor;     /* g a day: no finer step is ever taken; 0 */
};

enum mend_tier { MEND_LARDER, MEND_FOOD, MEND_SUPPLEMENT };

/* What a proposal is made with. In MEND_SUPPLEMENTS the owner's foods are not touched. */
enum mend_with { MEND_BOTH, MEND_FOODS, MEND_SUPPLEMENTS, MEND_WITH_COUNT };
extern const char *const mend_with_word[MEND_WITH_COUNT]; /* as in JSON: both, foods, supplements */

enum { MEND_STRETCH_MOST = 2 }; /* nobody feeds more than twice the usual of what was not in the bowl */

/* A food that may be added. */
struct mend_offer {
  struct candidate food;
  enum mend_tier tier;
  double price; /* a gram as eaten; 0: not known */
  double most;  /* g as eaten a day: the usual most; up to MEND_STRETCH_MOST times that when nothing else helps */
  double whole, step, floor;
  double gram;   /* g a day of one gram as it is written, where it is weighed; 0 */
  int since;     /* looked at from this step of the reach on: 0 at once, 1 only when the small things do not suffice */
  bool anywhere; /* a supplement that is also a kitchen food: ground eggshell, salt */
  double least;  /* g a day: nothing, or at least this; 0 */
  int group;     /* of offers with the same number here at most one is used: a food so and so often; 0: none */
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
  bool ways;     /* with foods only and with supplements only as well, where these differ */
  int steps;     /* stop after so many changes, those that cover most first; 0: all */
  bool quick;    /* do not look long for fewer lines */
  /* May be NULL. Asked now and then with the number of lines of the best change so far as 'objective' (has_x false: none
   * yet) and the number below which none exists as 'bound'. False ends the search: the best so far is rounded and judged. */
  lp_go_on *go_on;
  void *user;
};

/* Is the energy within the range of what such animals need, or, of one that is too heavy, between the floor of a weight plan
 * and the need of its ideal weight? So much animals of one kind differ: it is kept then, and the scales tell. Farther off
 * the whole dinner is scaled first. */
bool mend_size_fits(const struct check_result *before);
/* Is all counted that may give energy, or what is counted already too much? Of another bowl with more in it nobody knows how
 * much energy it has. */
bool mend_size_is_known(const struct check_result *before);
/* Energy as it is when it fits or is not known, else as it is expected to be; within 5 %. What is not known and below the
 * need may rise to it: without what is not counted it is enough then. */
struct model_limits mend_limits(const struct library *lib, const struct check_result *before);

enum mend_status {
  MEND_FOUND,
  MEND_NONE,      /* no such change exists, or (not proven) none was found */
  MEND_STOPPED,   /* ended before one was found, or found one that no text holds: whether there is one is not known */
  MEND_REFUSED,   /* the animal is none for which a formula is given */
  MEND_NOT_LINEAR /* energy is counted in a way that no program can follow (ENERGY_FOUR_STEP, or figures missing) */
};

/* How far things go: a main food is cut by this share of it at most, another line of the owner's by that; a main food is
 * raised to so many times its amount; ceilings of portions are stretched so many times. */
struct mend_reach {
  double cut_main, cut, raise, stretch;
};

struct mend_change {
  int line;               /* index into the ration; -1: added */
  int offer;              /* index into the offers; -1 */
  double from_g, to_g;    /* as eaten a day */
  bool danger;            /* taken out because it is dangerous */
  bool unmeasured;        /* and that because nobody knows how much iodine is in this seaweed */
  bool rich;              /* or because it is an oil rich in vitamin A or D, of which the bowl is at a limit */
  enum nutrient overdose; /* where 'rich': the vitamin of which this dose alone is more than its limit; NUT_NONE */
  /* What would fail without this change, the others in place. */
  enum nutrient *repairs; /* what would miss by most first */
  size_t repair_count;
  int too_much_from; /* of these, those from this index on would be too much, those before too little */
  enum nutrient
      helps;   /* where nothing of that is worth naming: what it supplies most of among what the bowl lacks; NUT_NONE */
  int energy;  /* without it there would be too little energy (-1), too much (1); 0: neither */
  int balance; /* calcium to phosphorus likewise */
  int covered; /* how many nutrients are in order once this change and those before it are made */
  double usual_most; /* g a day: the ceiling that it passes; NaN: none is passed */
};

/* Lines of the owner's that a change was found for and that then stayed as they are, the energy a little farther off. What
 * is proven is so of the change before that. */
struct mend_left {
  int lines;         /* that stayed; 0: none, and the rest says nothing */
  int of;            /* lines that the change had before */
  int fewest;        /* no change of fewer lines existed then */
  bool least_proven; /* nor, of as many, one that costs a thousandth less */
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
  struct mend_left left;            /* then 'fewest' is 0 and nothing is proven of what is shown */
  bool one_more;                    /* a line more than need be: with fewer, amounts would not have been measurable */
  bool rather;                      /* foods stand where pills would do, with fewer lines or as many */
  bool rounded;                     /* amounts are whole steps */
  struct mend_reach reach;          /* how far lines could be moved */
  bool at_hand;                     /* of new foods, only those of the larder were looked at */
  enum mend_with with;
  int open, covered_first; /* nutrients to be put in order before any change; how many are in order already */
  bool partial;            /* the first steps only: things stay open */
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

/* Is less in it, when it is mended, than the animal is expected to need? Then its energy is kept for another reason than
 * that more would be too much. */
bool mend_is_below_need(const struct check_result *after);
/* Is there so much energy in it that a change could leave the dinner recognisable? Otherwise nothing is looked for:
 * MEND_NONE, without a conflict. */
bool mend_is_a_dinner(const struct check_result *before);

/* Is this line dangerous to the animal whatever its amount: a food that must not be fed (an own label by its
 * name), cooked bone, or raw fish with thiaminase for a cat? */
bool mend_dangerous(const struct library *lib, const struct ration_line *l, enum species s, const struct arena *arena);
/* Is it fish or shellfish fed raw to a cat that would destroy the thiamin of the whole bowl? */
bool mend_thiaminase(const struct library *lib, const struct ration_line *l, enum species s);
/* Is it a seaweed without a stated content, in a bowl that has too much iodine? No smaller spoon makes that sure. */
bool mend_unmeasured(const struct library *lib, const struct ration_line *l, const struct check_result *before);
/* A dose, of a bowl that is over the limit of vitamin A or D, that alone is more than that limit: of which; else NUT_NONE.
 */
enum nutrient mend_overdose(const struct library *lib, const struct ration_line *l, const struct check_result *before);
/* Is it such a dose, or an oil that brings much vitamin A or D (cod liver oil) to a bowl that is over the limit of one of
 * them, or may be? It goes before any food does. */
bool mend_rich_dose(const struct library *lib, const struct ration_line *l, const struct check_result *before);

#endif
