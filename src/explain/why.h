/* why.h: the whole chain behind one number of an answer: from the lines of the recipe and the values of the records to the
 * sum, its spread, the window, the need and the word.
 *
 * Everything here adds up to what check.h reported, and the parts of the arithmetic are handed out so that anybody can do it
 * again. docs/method/why.md. Layer: explain. */
#ifndef BW_WHY_H
#define BW_WHY_H

#include "judge/totals.h"
#include "judge/verdict.h"

/* ORDER BALANCE: the ratios of struct balance. */
enum balance_id { BALANCE_CA_P, BALANCE_ZN_CU, BALANCE_N6_N3, BALANCE_K_NA, BALANCE_PHYTATE_ZN, BALANCE_COUNT };
extern const char *const balance_key[BALANCE_COUNT];  /* "ca_p" */
extern const char *const balance_name[BALANCE_COUNT]; /* "calcium : phosphorus" */

/* What is asked: a nutrient, or a ratio. */
struct why_key {
  enum nutrient nutrient; /* NUT_NONE: the ratio */
  enum balance_id balance;
};
/* "zinc", "Vitamin E", "energy", "ca_p", "calcium:phosphorus"; false when it is none of them. */
bool why_key_read(struct span words, struct why_key *out);
/* The key that was probably meant; NULL when nothing is near. */
const char *why_key_nearest(struct span words);

/* One value of a record: factor x value x what cooking keeps. A plain nutrient has one; vitamin A, EPA + DHA and energy are
 * made of several. */
struct why_term {
  enum nutrient nutrient;
  double factor;    /* 1; the Atwater factor, the carotene factor */
  double value, cv; /* per 100 g of the record; NaN where there is none */
  enum value_status status;
  uint32_t source;
  bool set_aside;       /* the table prints another figure, which is not believed; 'origin' says why */
  const char *origin;   /* where the figure comes from, in one line (foods/origin.h); "" where there is none */
  double kept, kept_cv; /* share that cooking leaves; 1 when uncooked, NaN where no figure exists */
  enum value_status kept_status;
  double per_100g; /* what enters the sum; 0 where something is unknown */
};
enum { WHY_TERMS = 4 };

/* One food of one line: the flesh, or the bone in it. */
struct why_portion {
  int line, part; /* indices into the ration */
  uint32_t food;
  const struct img_retention *cooked;   /* NULL: uncooked, or published as cooked */
  double grams_fed;                     /* on a day when it is fed, as the record counts it */
  double grams, lean_grams, rich_grams; /* mean a day: over the calendar, in the poorest and in the richest window */
  double grams_cv;
  struct why_term term[WHY_TERMS];
  int term_count;
  double per_100g;   /* sum over the terms */
  double amount;     /* a day: grams x per_100g / 100 */
  bool missing;      /* a value is lacking, wholly or in part */
  double could_hold; /* more a day, if it held what the richest of its class hold; NaN no figure */
  /* Parts of the variance of the sum (unit squared): spread of the content, of the retention, of the weight. */
  double from_content, from_kept, from_weight;
};

struct why_window {
  int first, days; /* first day of the calendar, 0-based */
  double amount, cv;
  double could_hold; /* at most, with no class figure the whole weight */
};

/* chance = normal(z), z = (ln(mean / figure) - sigma^2 / 2) / sigma, sigma^2 = ln(1 + cv^2); NaN where it does not apply */
struct why_chance {
  double mean, cv, figure, sigma, z, chance;
};

struct why_four_step {
  double gross, digestible_percent, urine, kcal; /* NaN when it was not asked for */
};

struct why_chain {
  const struct nutrient_result *n;
  const struct why_portion *portion; /* in the order of the lines */
  size_t count;
  double sum, variance;
  struct why_window lean, rich;
  struct why_chance met, kept;
  enum verdict_rule rule;
  struct why_four_step four_step; /* energy only */
};

struct why_sum {
  enum nutrient nutrient;
  double amount, molar_mass; /* NaN: the ratio is of masses */
};
enum { WHY_SUMS = 2 };
struct why_ratio {
  enum balance_id id;
  struct why_sum top[WHY_SUMS], bottom[WHY_SUMS];
  int top_count, bottom_count;
  double value, known_share;
};

struct why {
  struct why_key key;
  const struct why_chain *chain; /* NULL for a ratio */
  struct why_ratio ratio;
};

/* The chains behind 'keys' of a result that check_ration or check_numbers gave for this library. */
const struct why *why_of(const struct library *lib, const struct check_result *r, const struct why_key *keys, size_t count,
                         struct arena *arena);

#endif
