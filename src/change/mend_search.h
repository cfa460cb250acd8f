/* mend_search.h: finding the few lines to touch. Private to this folder. */
#ifndef BW_MEND_SEARCH_H
#define BW_MEND_SEARCH_H

#include "change/mend.h"

/* One way of changing the ration: more of a line, less of it, or some of an offer. */
struct mend_column {
  int line, offer; /* one of them -1 */
  double sign;     /* of its share in the line */
  double most;     /* g a day, with everything stretched */
  double usual;    /* g a day: the ceiling while nothing is stretched; NaN for what takes away */
  double cost;     /* of a gram */
  double price;    /* of a gram, what it costs or saves: among changes of one cost the cheapest; 0: not known */
  double whole, step, floor, least;
  double gram;                /* of one gram as written; 0: not weighed */
  int since;                  /* the first step of the reach that looks at it */
  int kin;                    /* of columns with the same number only one is used (portion_one_of); 0 */
  bool kin_had;               /* and the bowl has one already */
  double covers;              /* of an offer at its usual most: how many gaps it covers, parts of gaps included */
  bool main;                  /* a main food of the owner's */
  bool pill;                  /* a tablet, a capsule, drops */
  bool other_meat;            /* meat that would come in beside the owner's own */
  bool with[MEND_WITH_COUNT]; /* where it may be used */
  bool at_hand;               /* the ration's own line, or from the larder */
};

struct mend_choice {
  double *x; /* [columns] */
  double cost;
  int fewest;        /* no change of fewer columns exists, within the reach and the foods searched */
  bool least_proven; /* nor, of as many, one that costs a thousandth less */
  struct mend_left left;
  bool one_more;     /* a column more than need be: amounts would not have been round without it */
  bool rather;       /* a food stands where a pill would do with fewer lines */
  bool rounded;
  int reach;    /* how far amounts could go: an index of mend_reach() */
  bool at_hand; /* only what is at hand was looked at */
  enum mend_with with;
};

struct mend_search {
  const struct library *lib;
  const struct mend_request *q;
  const struct check_result *before;
  struct arena *arena;
  struct model *p;
  struct mend_column *column;
  size_t columns;
  double *start; /* [lines] g a day before any choice: 0 where the line had to go */
  bool *danger;  /* [lines] */
  bool *banned;  /* [columns] */
  bool *capped;  /* [columns] not to be stretched */
  bool *coarse;  /* [columns] whole grams only */
  bool at_hand;  /* look only among what is at hand */
  enum mend_with with;
  int forced; /* a column of whole things of which so much at least is moved; -1: none */
  double forced_to;
  int reach, reach_most; /* the step now; the last that may be tried */
  /* Whoever waits is asked now and then. Once stopped nothing more is begun; what was begun is brought to an end. */
  bool stopped, finishing;
  bool doubted; /* since this was last cleared, something was found to be impossible that is not proven to be */
  long spent;   /* small programs solved, branches included: what searches are measured by, the same on every machine */
  bool untold;  /* what is found may not be taken: it is not told */
  int shown_lines, shown_fewest, told_lines; /* of the best choice so far (0: none), and what fewer is not ruled out */
};

/* mend_danger.c: does this line go out whatever is found (mend_dangerous, mend_unmeasured, mend_rich_dose)? */
bool mend_goes(const struct mend_search *s, const struct ration_line *l);

/* mend_columns.c */
enum { MEND_REACHES = 7 };
/* Are two of a kind in use, as long as one has to do? */
bool mend_kin_clash(const struct mend_search *s, const bool *in);
bool mend_kin_counts(const struct mend_search *s);
/* So many grams a day: as much of the bowl as a main food is? */
bool mend_is_as_main(const struct mend_search *s, double grams);
struct mend_reach mend_reach(int reach);
/* The most of a column at a step of the reach. */
double mend_within_reach(const struct mend_search *s, size_t column, int reach);

/* False when energy cannot be counted in a linear way. */
bool mend_search_begin(struct mend_search *s, const struct library *lib, const struct mend_request *q,
                       const struct check_result *before, struct arena *arena);
/* Up to 'most' choices, best first, no two with the same lines; how many. None: 'proven' says whether none exists; when the
 * search was stopped it says nothing. */
size_t mend_search_run(struct mend_search *s, struct mend_choice *out, size_t most, bool *proven);
/* Each amount to its nearest step, whatever that does to the promises. */
void mend_search_round_freely(struct mend_search *s, struct mend_choice *c);

/* ---- mend_columns.c: columns in play, for the files of the search ---- */

enum grain { GRAIN_NONE, GRAIN_LEAST, GRAIN_STEPS };

/* 'in' NULL: all. Columns out of play are held at nothing. GRAIN_LEAST: nothing, or at least a step; GRAIN_STEPS: whole
 * steps, divided by 'finer'. Whole things are whole in both. */
void mend_play(struct mend_search *s, const bool *in, enum grain grain, double finer);
void mend_costs(struct mend_search *s, const double *cost); /* NULL: what changes cost */
bool mend_in_use(const struct mend_search *s, size_t j, double x);
int mend_lines_in_use(const struct mend_search *s, const double *x, bool *in);
double mend_cost_of(const struct mend_search *s, const double *x);
struct model_answer mend_solve(struct mend_search *s, bool mixed, long nodes);
/* The cheapest with the columns 'in'. 'none': it is proven that there is none. */
bool mend_within(struct mend_search *s, const bool *in, enum grain grain, double finer, struct mend_choice *out, bool *none);
/* False when whoever waits has had enough. */
bool mend_go_on(struct mend_search *s);

/* mend_begin.c: few columns to begin with; how many, -1: none found. 'none': none exists. */
int mend_begin(struct mend_search *s, bool thorough, struct mend_choice *out, bool *none);
/* mend_few.c: as few columns as possible, and then the cheapest. False: none found; 'none' when none exists. */
bool mend_few(struct mend_search *s, bool thorough, struct mend_choice *out, bool *none);
/* mend_nearest.c: what misses least with usual portions, no main food cut by more than a third and one of each kind. */
struct model_nearest mend_nearest(struct mend_search *s, struct arena *arena);
/* mend_cover.c: 'best' has 'lines' columns; how many it has when fewer have been looked for by so many decisions. 'proven':
 * fewer do not suffice, as far as amounts may go here. */
int mend_cover(struct mend_search *s, int lines, long decisions, struct mend_choice *best, bool *proven);
/* mend_rather.c: foods in the place of pills, where that is less for whoever feeds. False: nothing is changed. */
bool mend_rather_food(struct mend_search *s, struct mend_choice *c);
/* What share of the owner's main foods goes. */
double mend_main_lost(const struct mend_search *s, const double *x);
/* Is a food added of which there is as much as of a main one? */
bool mend_adds_main(const struct mend_search *s, const double *x);
/* Is a change with foods only, 'foods', no more trouble than 'both' that has pills? It is told first then. */
bool mend_foods_come_first(const struct mend_search *s, const struct mend_choice *both, const struct mend_choice *foods);
/* mend_leave.c: lines of the owner's that need not change stay as they are. */
void mend_leave_lines(struct mend_search *s, struct mend_choice *c);
/* mend_steps.c: amounts that a kitchen measures. */
void mend_steps(struct mend_search *s, struct mend_choice *c);

#endif
