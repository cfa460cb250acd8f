/* model_parts.h: what the files of model.h share. Private to this folder. */
#ifndef BW_PROGRAM_PARTS_H
#define BW_PROGRAM_PARTS_H

#include <math.h>

#include "change/model.h"
#include "judge/check_steps.h"

/* A figure that may grow with the food: constant + sum of per_g[candidate] x grams a day. */
struct form {
  double constant;
  double *per_g; /* [candidates]; NULL: none */
};

enum { FORMS = 2 };

/* What a nutrient of one bowl is held to. */
struct duty {
  bool promised, ceiling;   /* an allowance, an upper limit is promised */
  bool waived;              /* the gut makes enough, as long as the judge says so */
  bool ended;               /* promised only because a bowl was met in which it does not: other bowls need not */
  bool cautious;            /* an upper limit that is only told of: it does not bind */
  struct form need[FORMS];  /* the largest counts */
  struct form upper[FORMS]; /* the smallest counts */
  int needs, uppers;
  int limit_need, limit_upper, limit_day; /* index into limits; -1 */
  int days;                               /* window */
  bool highest_day;
};

/* One gram a day of each candidate, gathered for the species of the bowl. */
struct gram {
  const struct totals *totals;
  double kcal, macro_kcal, fat_kcal;
  double kcal_missing;     /* the most that it could have beyond that */
  double part[BOWL_COUNT]; /* g as eaten */
};

struct bowl {
  const struct animal *animal;
  struct check_options options;
  struct model_limits limits;
  double carotene;
  double *base;  /* [candidates] */
  double *share; /* [columns] */
  struct gram *gram;
  struct duty duty[NUT_COUNT];
  int limit_uneven;          /* calcium to phosphorus in each window; -1 */
  double *judged_at;         /* [columns] the x that was judged last */
  bool judged, judged_kept;  /* there is one, and no promise has changed since; all was kept there */
  double cv_most[NUT_COUNT]; /* no mixture of the candidates has a larger coefficient of variation */
};

struct row_note {
  int limit;
  bool plane; /* found while solving */
  bool bold;  /* and it may cut off bowls that are right (planes.c) */
  int idle;   /* solves since it last held anything back */
  double lo, hi;
};

struct model {
  const struct library *lib;
  const struct ration *heeded; /* what it says is never to be proposed would not help; NULL */
  struct arena *arena;
  const struct candidate *candidate;
  size_t candidates;
  bool *food_shared; /* [candidates] another candidate holds the same food */
  int *of_column;    /* [columns] candidate */
  size_t columns, column_cap;
  struct lp_model model;
  struct row_note *note; /* [rows] */
  size_t notes, note_cap;
  struct limit *limit;
  size_t limit_count, limit_cap;
  struct bowl **bowl;
  size_t bowls, bowl_cap;
  int slack_first; /* first column that measures a miss (impossible.c); -1 */
  long *pivots;    /* NULL: nobody counts them */
};

int model_add_limit(struct model *p, struct limit limit);
void model_set_slack(struct model *p, int row, int limit);
/* A row over the candidates of a bowl: lo <= constant + sum per_g x grams <= hi. Returns its index. */
int model_add_form(struct model *p, int bowl, int limit, const double *per_g, double constant, double lo, double hi,
                   bool plane);

static inline bool limit_is_of_energy(enum limit_kind k) {
  return k == LIMIT_ENERGY_LEAST || k == LIMIT_ENERGY_MOST || k == LIMIT_ENERGY_KNOWN;
}

/* Is the energy held to anything? */
static inline bool model_holds_energy(const struct model_limits *l) {
  return !isnan(l->energy_least) || !isnan(l->energy_most);
}

/* Grams a day of each candidate in a bowl. */
void model_amounts(const struct model *p, int bowl, const double *x, double *grams);
double form_at(const struct form *f, const double *grams, size_t n);

/* One gram a day of a food as it is in its record. */
struct gram model_gram(const struct model *p, const struct bowl *b, uint32_t food, struct arena *arena);

/* impossible.c: what a search over branches may cost here. 'limits' may be NULL: nobody is asked. */
struct lp_limits model_some_nodes(const struct lp_limits *limits);

/* forms.c: allowances and limits as forms; the rows that hold from the start. */
void model_fill_duties(struct model *p, int bowl);
void model_first_rows(struct model *p, int bowl);

/* manners.c: rows for what the review would remark on; planes for calcium to phosphorus in the windows of days. */
void model_manner_rows(struct model *p, int bowl);

/* Does the judge find all promises kept? An answer stands for its x until a promise changes or another x is judged. */
bool model_judged_kept(struct model *p, int bowl, const double *x, struct arena *scratch);
void model_keep_judged(struct model *p, int bowl, const double *x, const struct check_result *r);

/* planes.c: rows for what x lacks; how many were added. 'margin' relative. */
int model_add_planes(struct model *p, int bowl, const double *x, double margin, struct arena *scratch);

/* model.c: the rows whose note says so go; the others keep their order. */
void model_drop_rows(struct model *p, bool (*goes)(const struct row_note *note));

#endif
