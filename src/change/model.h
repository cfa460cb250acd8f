/* model.h: from foods on offer and an animal to a linear program, and back.
 *
 * Columns are amounts of candidates: foods with their cooking, bone and calendar, in grams as eaten a day, averaged over the
 * calendar. Each bowl (one animal) adds rows for everything that its answer promises. Every coefficient is read off the
 * functions that judge a ration (totals.h, standard.h, check_steps.h): one gram of a candidate is gathered, judged and
 * divided by. Nothing of a rule stands here a second time, and the judge (check_numbers) has the last word.
 *
 * What is not linear is met step by step: a solution is judged, and what it lacks (the poorest window of days, the chance
 * asked for) enters as a tangent plane, until the judge says "met" for every row promised. docs/method/mend.md.
 *
 * Use: model_new, model_column for each column, then model_bowl for each animal, then model_solve as often as
 * wanted with changed bounds, costs and number of columns in use.
 *
 * Layer: change (above review and lp). Pure; everything lives in the arena given to model_new. */
#ifndef BW_PROGRAM_H
#define BW_PROGRAM_H

#include "judge/check.h"
#include "lp/lp.h"

/* A food on offer. Its line is a template: parts, cooking, bone and calendar count as they stand, its grams only in
 * proportion. candidate_of makes the plainest one. */
struct candidate {
  const char *name; /* in plain words, shown to people: "lamb shoulder" */
  struct ration_line line;
};

/* A food as it is in its record, fed daily, nothing cooked away. */
struct candidate candidate_of(const struct library *lib, uint32_t food, const char *name);
/* The line with this many grams as eaten a day (average over the calendar); 0 gives a line of nothing. */
struct ration_line candidate_line(const struct candidate *c, double grams_per_day);

/* What kind of promise a row belongs to. */
enum limit_kind {
  LIMIT_ENERGY_LEAST,
  LIMIT_ENERGY_MOST,
  LIMIT_ENERGY_KNOWN, /* of foods whose energy is not known no more than a bowl may have whose own counts as known */
  LIMIT_ALLOWANCE,    /* with the chance asked for, in the poorest window */
  LIMIT_UPPER,        /* likewise, in the richest; foods without a value count as their class's high value */
  LIMIT_HIGHEST_DAY,  /* upper limit on a single day, where that matters */
  LIMIT_CA_P_LEAST,
  LIMIT_CA_P_MOST,
  LIMIT_OMEGA,
  LIMIT_PHYTATE_ZINC,
  LIMIT_MASS,
  LIMIT_FAT_SHARE,
  LIMIT_PART_LEAST,
  LIMIT_PART_MOST,
  LIMIT_FOOD_SHARE, /* no food above a share */
  LIMIT_MANNER,     /* what the review would remark on: kept as long as model_manners says so, and never missed */
  LIMIT_OWN,        /* a row that the caller added */
  LIMIT_TIE         /* what columns are to each other: no limit that somebody set, and never missed */
};

struct limit {
  enum limit_kind kind;
  enum nutrient nutrient; /* NUT_NONE */
  int bowl;               /* -1: of no bowl */
  const char *name;       /* plain words: "Zinc: at least 17.1 mg a day", "Energy: at most 853 kcal a day" */
  double size;            /* a miss is measured against this, in the row's unit */
};

/* Limits beyond the standard's own. NaN (or false) where there is none: start from PROGRAM_LIMITS_NONE. */
struct model_limits {
  double energy_least, energy_most;                     /* kcal a day */
  double kept_least, kept_most;                         /* what the judge lets pass, where that is wider; NaN: the same */
  double mass_most;                                     /* g as eaten a day */
  double fat_share_most;                                /* of energy, 0..1 */
  double phytate_zinc_most;                             /* molar */
  double food_share_most;                               /* of mass as eaten: no candidate above it */
  double part_least[BOWL_COUNT], part_most[BOWL_COUNT]; /* shares of mass as eaten, 0..1 */
  bool balance;          /* Ca:P 1 to 2 and omega-6:omega-3, as the review advises (data/findings.tsv) */
  bool leave[NUT_COUNT]; /* make no promise that there is enough of this nutrient; its upper limit is kept all the same */
  bool past_cautious;    /* cautious limits (model_limit_is_cautious) may be passed */
  bool mannerly;         /* nothing that the review would remark on beyond what 'base' has of it, as long as model_manners */
};
struct model_limits model_limits_none(void);
/* Does the judge let this energy (kcal a day) pass? */
bool model_energy_kept(const struct model_limits *l, double kcal);
/* Energy within 'slack' (0.05) of 'kcal'; balance on. */
struct model_limits model_limits_around(double kcal, double slack);

struct model;

struct model *model_new(const struct library *lib, const struct candidate *candidate, size_t count, struct arena *arena);
/* A column in grams a day of a candidate. Several columns may speak of one candidate (more of it, less of it). Columns
 * come before bowls. Returns its index, the same as in the model. */
int model_column(struct model *p, int candidate, struct lp_col col);

/* One animal's bowl. 'base' [candidates]: grams a day that are in it whatever the columns do; NULL: none. 'share'
 * [columns]: grams a day that this bowl gets for each unit of a column (1; -1 for a column that takes away; the part of a
 * batch that this animal eats; 0 for what is another's); NULL: 1 for all. Returns the bowl's number, or -1 when nothing
 * can be promised: the animal is refused (animal_refusal), or energy is counted in a way that is not linear
 * (ENERGY_FOUR_STEP). */
int model_bowl(struct model *p, const struct animal *animal, const struct check_options *options,
               const struct model_limits *limits, const double *base, const double *share);

/* A row of the caller's own, over columns [columns]. */
void model_row(struct model *p, const char *name, const double *coefficient, double lo, double hi);

/* The same, but a row that ties columns to each other. */
void model_tie(struct model *p, const char *name, const double *coefficient, double lo, double hi);

/* The model as it stands, with all planes found so far: change bounds, costs, least, unit and most_used freely between
 * solves; do not add columns or rows behind the program's back. */
struct lp_model *model_lp(struct model *p);

/* The model without the planes that may cut off what is right: what cannot be done with it cannot be done at all. It shares
 * rows and columns with the model, and lasts as long as that is not solved. */
struct model *model_firm(const struct model *p, struct arena *arena);
/* Drops those planes: what is looked for next does not depend on what was looked for before. */
void model_forget(struct model *p);
/* Of what a row promises, the whole: the milligrams that are needed. */
double model_row_size(const struct model *p, size_t row);
size_t model_bold_rows(const struct model *p); /* how many of them there are */
/* Do these multipliers of the rows prove that nothing exists, with those planes left aside? Columns as in 'col'. */
bool model_proves_none(const struct model *p, struct lp_col *col, const double *farkas, struct arena *scratch);
/* A lower bound on a program's objective from multipliers of the model's rows, the planes left aside that may cut off what
 * is right; columns as in 'col'. */
double model_firm_bound(const struct model *p, struct lp_col *col, const double *dual, struct arena *scratch);

/* Do the rows of energy reach as far as what the judge lets pass (kept_least, kept_most), or, as at first, less far? */
void model_energy_rows(struct model *p, bool wide);
/* Does x [columns] keep the rows that are no allowance and no upper limit of a nutrient? Those are the judge's: planes that
 * lead a search may cut off what he lets pass. */
bool model_rows_kept(const struct model *p, const double *x);
/* Are the manners of bowls with 'mannerly' kept (as they are at first), or for now left aside? */
void model_manners(struct model *p, bool kept);
/* The threshold of a finding of the review (data/findings.tsv); NaN: there is none. */
double model_advised(const struct library *lib, const char *finding);
/* The limit behind a row of the model. */
const struct limit *model_limit_of_row(const struct model *p, size_t row);

enum model_status {
  PROGRAM_FOUND,   /* every promise holds, as the judge sees it */
  PROGRAM_NONE,    /* the rows cannot hold together */
  PROGRAM_STOPPED, /* a limit of nodes, pivots or patience; x is the best found, if has_x, and keeps every promise */
  PROGRAM_TROUBLE
};

struct model_answer {
  enum model_status status;
  bool has_x;
  bool proven; /* none exists (NONE), by rows that every right bowl keeps; of FOUND: no better one, as the rows stand, and
                  after model_prove by those rows as well */
  double *x;   /* [columns] */
  double objective, bound;
  double *dual; /* [rows of the model when it was solved] */
  size_t rows;
  long nodes, rounds; /* of branches; of solving and judging again */
};

/* Solves; 'mixed': with least, unit and most_used. Planes found on the way stay in the model. */
struct model_answer model_solve(struct model *p, bool mixed, const struct lp_limits *limits);

/* Is an answer of a mixed program the best by the rows alone that every right bowl keeps? Else it is not proven, and 'bound'
 * says what can be reached at best. Right after it was found. */
void model_prove(const struct model *p, struct model_answer *a, const struct lp_limits *limits);

/* The bowl that x makes: a ration of its candidates in their order, those with nothing left out. Judged by check_numbers it
 * gives what check will say. 'of_line' (may be NULL) receives the candidate of each line. */
const struct ration *model_ration(const struct model *p, int bowl, const double *x, int **of_line, struct arena *arena);
const struct check_result *model_judge(const struct model *p, int bowl, const double *x, struct arena *arena);
/* Does the judge find everything promised kept? */
bool model_keeps(const struct model *p, int bowl, const struct check_result *r);
/* The same of one nutrient. */
bool model_keeps_nutrient(const struct model *p, int bowl, enum nutrient n, const struct check_result *r);
/* A limit whose excess the review only mentions (data/findings.tsv: "know") is a cautious one: nothing is changed for its
 * sake. */
bool model_limit_is_cautious(const struct library *lib, enum nutrient n);
/* Is this nutrient's allowance among the promises of the bowl? */
bool model_promises(const struct model *p, int bowl, enum nutrient n);

/* ---- when nothing can be found (impossible.c) ---- */

/* A smallest set of limits that cannot hold together, in plain words; bounds of columns are named by their candidate. */
struct model_conflict {
  const char **words;
  bool *of_energy; /* [count] a limit of the energy a day */
  size_t count;
  const struct lp_model *model; /* these limits (rows of one limit have one name) and what nobody set: no food less than
                                   nothing, no more taken away than there is. It has no solution, and has one without any
                                   of them. NULL when count is 0 */
};
/* 'limits' (may be NULL): who waits; count 0 when that has been long enough. */
struct model_conflict model_conflict(struct model *p, const struct lp_limits *limits, struct arena *arena);

/* The nearest: amounts within their bounds that miss the limits by the least sum of relative misses. 'mixed': as near as a
 * search of some hundred branches finds with the rules of columns (least, unit, most_used) kept; 'counted' says whether it
 * did. Else these are left aside. 'limits' may be NULL; it is asked, its nodes do not count: once it says stop, the
 * first solution counts, in which chances and windows of days are not yet looked at. */
struct model_nearest {
  bool has_x;
  double *x;
  double misses;  /* their sum, each as a share of its limit */
  double *miss;   /* [limits] each one's part of that sum */
  double *price;  /* [limits] what easing a limit would take off that sum, per unit of its rows */
  bool counted;   /* the rules of columns are kept in x */
  bool cut_short; /* a nearer one may exist: whoever waits has had enough, or the branches were used up */
};
struct model_nearest model_nearest(struct model *p, bool mixed, const struct lp_limits *limits, struct arena *arena);
/* By means alone and without the rules of columns: one program, whoever waits. */
struct model_nearest model_nearest_roughly(struct model *p, struct arena *arena);
/* Are there rules of columns: least, unit or most_used? */
bool model_has_rules(const struct model *p);
/* The bowl whose limits are missed; -1 when it is more than one, or a limit of no bowl. */
int model_missing_bowl(const struct model *p, const struct model_nearest *n);

/* What this ration says is never to be proposed would not help either. */
void model_heed(struct model *p, const struct ration *r);
/* Foods of the whole library that would help (would_help.c): with up to so many grams a day of one of them the limits can be
 * kept (enough), or the misses shrink by so much. Each has been tried: the program was solved with it on offer. Rules of
 * counting (least, unit, most_used) are kept or left aside as in the nearest answer. */
enum { HELP_LIMITS = 3, TEAM_MOST = 8 };
struct model_help {
  uint32_t food;
  double grams;         /* a day: no more than this is needed for what is said here; NaN when nothing could be computed */
  double most_grams;    /* a day, the most that was tried */
  double relief;        /* share of the sum of misses that it takes away, 0..1 */
  bool enough, obvious; /* obvious: what people use for it (data/fixes.tsv) */
  const struct limit *limit[HELP_LIMITS]; /* kept, or missed by less than half as much, thanks to it */
  size_t relieved;
};
/* Where no food suffices: a few that do together, found by adding the one that leaves least missing, one after another. */
struct model_team {
  struct model_help food[TEAM_MOST]; /* food, grams, most_grams */
  size_t count;                      /* 0: none found */
  bool enough;
};
struct model_helps {
  const struct model_help *help; /* 'out' of the call: enough by themselves first, then the greatest relief */
  size_t count;
  struct model_team team;
};
/* The food would go into the bowls by 'share' [bowls], of each gram. */
/* 'limits' (may be NULL): who waits; then what was tried so far is told. */
struct model_helps model_would_help(const struct model *p, const double *share, const struct model_nearest *nearest,
                                    const struct lp_limits *limits, struct model_help *out, size_t most,
                                    const struct arena *arena);

#endif
