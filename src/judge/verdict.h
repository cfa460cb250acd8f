/* verdict.h: one nutrient's figures to one word. docs/method/verdicts.md. Layer: judge. */
#ifndef BW_VERDICT_H
#define BW_VERDICT_H

#include <math.h>

#include "judge/check.h"
#include "judge/stats.h"

struct limits {
  double minimum, allowance, upper; /* a day; NaN none */
  bool greater_than;                /* 'upper' is only the highest level tested */
};

/* Means a day: in the poorest window, and in the richest. */
struct supply {
  double worst, worst_cv;
  double worst_most; /* with the most that foods without a value could hold */
  double rich, rich_cv;
  double rich_possible; /* with the class's high value; NaN when unknown */
};

/* Which sentence of docs/method/verdicts.md gave the word. ORDER VERDICT_RULE: verdict_rule_text[]. */
enum verdict_rule {
  RULE_OVER,
  RULE_ABOVE_TESTED, /* nearly certain to be above the highest level tested */
  RULE_NO_FIGURE,
  RULE_UNPROVEN,
  RULE_UNDER_MINIMUM,
  RULE_FAR_UNDER_ALLOWANCE, /* where there is no minimum */
  RULE_UNDER_ALLOWANCE,
  RULE_NOT_SURE,
  RULE_LIMIT_NOT_SURE,
  RULE_MET,
  RULE_COUNT
};
extern const char *const verdict_rule_key[RULE_COUNT], *const verdict_rule_text[RULE_COUNT];

/* Written member by member and read at once, thousands of times: neighbours of one type would be read as one, which waits
 * until both are stored. */
struct judgement {
  double chance_met; /* NaN without an allowance */
  enum verdict verdict;
  bool near_upper;
  double chance_kept; /* NaN without an upper limit */
  enum verdict_rule rule;
  bool close_to_limit; /* thin for no other reason than the upper limit */
};

struct judgement verdict_of(const struct limits *l, const struct supply *s, double sure);
/* The same for whoever asks again and again: of thousands of foods most hold nothing of a nutrient, and the chance stays
 * what it was. Begins empty; of one nutrient. */
struct chance_memory {
  double mean, cv, figure; /* 'mean' NaN: nothing yet */
  double sigma2, chance;
};
struct verdict_memory {
  struct chance_memory met, kept;
};
#define VERDICT_MEMORY_EMPTY                                                                                                \
  {                                                                                                                         \
    {.mean = NAN, .cv = NAN}, { .mean = NAN, .cv = NAN }                                                                    \
  }
/* Begins with a spread and no more. */
static inline void verdict_remember_spread(struct verdict_memory *m, double cv, double sigma2) {
  m->met.mean = m->met.cv = m->kept.mean = (double)NAN;
  m->kept.cv = cv;
  m->kept.sigma2 = sigma2;
}
struct judgement verdict_again(const struct limits *l, const struct supply *s, double sure, struct verdict_memory *memory);
/* For whoever asks for many: the chances that verdict_again will look for, worked out together. */
struct chance_round {
  struct chance_list list;
  struct chance_memory *of[CHANCES_MOST];
};
void chances_foresee(const struct limits *l, const struct supply *s, struct verdict_memory *memory,
                     struct chance_round *round);
/* ... and those that the word alone hangs on. */
void chances_foresee_word(const struct limits *l, const struct supply *s, struct verdict_memory *memory,
                          struct chance_round *round);
void chances_work_out(struct chance_round *round);
/* The word of that, without what goes with it. 'memory' NULL: asked for once. */
enum verdict verdict_alone(const struct limits *l, const struct supply *s, double sure, struct verdict_memory *memory);

/* The better of two verdicts has the higher rank. */
int verdict_rank(enum verdict v);

#endif
