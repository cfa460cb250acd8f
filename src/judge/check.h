/* check.h: the main job. A ration and an animal in; energy, every nutrient, verdicts and findings out.
 *
 * Layer: judge. Pure; the result lives in the arena given and borrows the library's and the ration's texts. */
#ifndef BW_CHECK_H
#define BW_CHECK_H

#include "judge/ration.h"
#include "judge/standard.h"

enum verdict { VERDICT_SHORT, VERDICT_THIN, VERDICT_MET, VERDICT_OVER, VERDICT_UNPROVEN, VERDICT_NO_FIGURE, VERDICT_COUNT };
extern const char *const verdict_word[VERDICT_COUNT]; /* "short" ... "no figure" */

struct check_options {
  enum standard_id standard;
  enum basis basis;
  double sure; /* 0.5 .. 0.99 */
  enum { ENERGY_ATWATER, ENERGY_PUBLISHED, ENERGY_FOUR_STEP } energy_by;
  double meal_kcal; /* what is judged is eaten beside other food, with which it comes to so much; 0: by itself */
};
#define CHECK_OPTIONS_DEFAULT ((struct check_options){STANDARD_NRC2006, BASIS_WEIGHT, 0.75, ENERGY_ATWATER, 0})

struct supplier {
  double amount; /* a day */
  double share;  /* of the known amount, 0..1 */
  int line;      /* index into ration lines */
  enum value_status status;
};

/* Who supplies a nutrient, and who has no value for it. */
struct supply_list {
  const struct supplier *from; /* largest first; only lines that supply some */
  size_t from_count;
  const int *missing; /* indices of lines that have no value */
  size_t missing_count;
};

/* A need that grows with the food: fixed + grows x the share of this food that is fed. */
struct need_line {
  double fixed, grows;
};
enum { NEED_LINES = 2 };

/* How much of a nutrient's amount is known: nothing (no food that has a value supplies any, and others have none), a part
 * (the amount is a lower bound), all. Where nothing is known every amount, ratio and chance of the nutrient is NaN: only its
 * figures, its verdict and what the foods could hold stand. */
enum known { KNOWN_NONE, KNOWN_PART, KNOWN_ALL, KNOWN_COUNT };
extern const char *const known_word[KNOWN_COUNT]; /* "none", "part", "all" */

/* For sums and bounds, never for showing: what is known of an amount, 0 where nothing is. */
static inline double known_part(double amount) { return amount == amount ? amount : 0; }

struct nutrient_result {
  enum nutrient id;
  enum known known;
  double amount;      /* known, average a day over the calendar */
  double low, high;   /* 5th and 95th percentile of that */
  double cv;          /* of the total */
  double known_share; /* share of the food's mass that has a value, 0..1 */
  double possible;    /* amount if every food without a value held its class's high value; NaN if no class figure */
  double minimum, allowance, upper; /* a day; NaN none. 'allowance' after adjustment */
  bool upper_greater_than;
  double ratio;        /* worst-window amount / allowance; NaN */
  double chance_met;   /* that the allowance is reached, in the worst window; NaN */
  double chance_kept;  /* that the upper limit is kept; NaN if none */
  double per_1000kcal; /* of energy supplied */
  enum verdict verdict;
  bool verdict_by_window; /* the average would have done better than the worst window */
  bool near_upper;        /* below the upper limit, but not kept with the confidence asked */
  bool close_to_limit;    /* thin for no other reason than its upper limit */
  int window_days;
  double window_amount, window_high; /* mean a day of the worst and of the richest window */
  double window_cv, window_high_cv;
  double window_most; /* of the worst window, with the most that foods without a value could hold */
  double lowest_day, highest_day;
  bool highest_day_over; /* the richest day alone passes the upper limit, for nutrients where that matters */
  bool adjusted;
  double adjusted_from, adjusted_to;
  const char *adjusted_why;               /* words; NULL */
  struct need_line need_line[NEED_LINES]; /* the need at any share of this food is the larger of these; at 1, 'allowance' */
  const struct allowance *table;          /* rows behind the figures */
  const struct img_window *window;
  struct supply_lists *lists; /* what who_supplies() lists from; NULL: not of this result */
  bool estimate_decides;      /* with half of what is estimated from a class the word would be another */
  double estimated_share;     /* of the known amount that rests on estimates or single cited figures */
  double classed_share;       /* ... on estimates from a class alone */
};

/* Listed for all nutrients when the first is asked for, as long as the result stands: few readers look at any. */
const struct supply_list *who_supplies(const struct nutrient_result *n);
/* Has this line of the ration no value for it, or only part of one? */
static inline bool nutrient_lacks_line(const struct nutrient_result *n, int line) {
  const struct supply_list *list = who_supplies(n);
  bool lacks = false;
  for (size_t i = 0; i < list->missing_count; i++) lacks |= list->missing[i] == line;
  return lacks;
}

struct energy_result {
  struct energy_need need;
  double supply_kcal, supply_low, supply_high;
  bool in_part;                                        /* some food's energy is not known, or known in part only */
  bool beside;      /* what is fed without being counted may hold more energy than is lost in the spread of the rest */
  enum known known; /* PART: supply_kcal is a lower bound, for either reason; NONE: it is NaN */
  double published_kcal, four_step_kcal;               /* the other two ways, for comparison; NaN when not computable */
  double kcal_per_kg;                                  /* of food as eaten */
  double share_protein, share_fat, share_carbohydrate; /* of energy, sum 1 */
  double macro_kcal;                                   /* what those are shares of */
  double grams_per_day;
  const struct supplier *from;
  size_t from_count;
};

/* Is it all that is fed? Else nobody knows what shares of it, or amounts per 1000 kcal, are parts of. */
static inline bool energy_is_whole(const struct energy_result *e) { return !e->in_part && !e->beside; }

struct balance {
  double ca_p, zn_cu, n6_n3, k_na, phytate_zn; /* mass ratios; phytate_zn molar; NaN when not computable */
  double ca_phytate_zn;                        /* mmol per 1000 kcal */
  double known_share[5];                       /* the smaller known share of the two sides, in the order above */
};

/* ORDER JSON_PART: the keys of "parts". */
enum bowl_part {
  BOWL_MUSCLE,
  BOWL_ORGAN_LIVER,
  BOWL_ORGAN_SECRETING,
  BOWL_BONE,
  BOWL_PLANT,
  BOWL_FISH,
  BOWL_EGG,
  BOWL_DAIRY,
  BOWL_FAT_OIL,
  BOWL_SUPPLEMENT,
  BOWL_OTHER,
  BOWL_COUNT
};
extern const char *const json_part_key[BOWL_COUNT];
enum bowl_part json_part_of(enum part p);

struct because {
  const char *key; /* "amount", "allowance", "line" ... */
  double value;    /* NaN when 'text' holds it */
  const char *text;
  const char *unit;
};

struct finding {
  const char *id; /* "zinc-short" */
  enum finding_weight weight;
  int order; /* smaller first within the weight */
  int line;  /* the line of the text that it speaks of; 0 none or several */
  const char *text;
  const char *reason, *remedy; /* "" when there is none */
  const struct because *because;
  size_t because_count;
  const char *source; /* source key */
  enum confidence confidence;
  const enum nutrient *nutrient; /* those that it is about */
  size_t nutrient_count;
  bool covers;     /* the remedy names an amount that covers a gap */
  bool background; /* of this food in general (other portions, other records, what much rests on): says little of a change */
  bool danger;     /* must not be fed at all: told before everything else */
  /* Of a danger: */
  const char *about;  /* "raisins", "cooked bone"; NULL */
  const char *bare;   /* the sentence without "Stop: ", for whoever has said that already */
  bool named_only;    /* words name it, and no line is counted with it: perhaps nobody feeds it */
  bool asked;         /* somebody only asks whether it may be fed */
  const char *advice; /* what to do; 'remedy' may also tell how to write the text where none is fed */
};

struct check_result {
  const struct ration *ration;
  const struct animal *animal; /* NULL: composition only, no animal given */
  struct animal_body body;
  enum refusal refusal; /* not REFUSE_NOT: no verdicts, no allowances, composition only */
  struct check_options options;
  struct allowance_set allowances;
  struct energy_result energy;
  struct nutrient_result nutrient[NUT_COUNT];
  struct balance balance;
  /* Where something is fed without being counted (judge/uncounted.h): the most of each nutrient and of energy a day that it
   * can supply, and [uncounted_count] the grams of its first record that are allowed for; INFINITY: any. */
  double uncounted_most[NUT_COUNT];
  const double *uncounted_g;
  double parts[BOWL_COUNT]; /* shares of mass as eaten, sum 1 */
  const struct finding *finding;
  size_t finding_count;
  int verdict_count[VERDICT_COUNT];
};

/* Is it for an animal, and for one that gets verdicts? */
static inline bool is_judged(const struct check_result *r) { return r->animal && r->refusal == REFUSE_NOT; }

/* Computes everything but the written review ('finding' stays empty; review/review.h writes it). 'animal' may be NULL
 * (composition only). Errors cannot occur: what cannot be computed is NaN. */
const struct check_result *check_numbers(const struct library *lib, const struct ration *ration, const struct animal *animal,
                                         const struct check_options *options, struct arena *arena);

/* The same result, not yet closed: review/review.h adds the written findings to it. */
struct check_result *check_to_review(const struct library *lib, const struct ration *ration, const struct animal *animal,
                                     const struct check_options *options, struct arena *arena);

/* ---- the pieces, for tests and for the other use cases ---- */

/* Mean and spread of a sum of independent lognormals, by matched moments. chance that the sum is at least x. */
double lognormal_chance_at_least(double mean, double cv, double x);
/* p-quantile (0 < p < 1). */
double lognormal_quantile(double mean, double cv, double p);
double normal_cdf(double z);
double normal_quantile(double p);

#endif
