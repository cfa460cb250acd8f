/* findings_internal.h: what the writers of findings share. Not for callers of findings.h.
 *
 * A finding is a row of data/findings.tsv (words, weight, order, threshold, source) that a condition in one of the
 * findings_*.c files raises. The condition hands over the words that fill the row's {placeholders} and the numbers behind
 * them.
 *
 * Layer: core. */
#ifndef BW_FINDINGS_INTERNAL_H
#define BW_FINDINGS_INTERNAL_H

#include "base/buf.h"
#include "core/findings.h"

struct filler {
  const char *key, *text; /* {key} becomes text */
};

struct review {
  const struct library *lib;
  struct check_result *result;
  struct arena *arena;
  struct finding *item;
  size_t count, cap;
  const char **silenced; /* ids that another finding already says */
  size_t silenced_count, silenced_cap;
};

enum { FILLERS_MOST = 16, BECAUSE_MOST = 16 };

/* One finding under construction. */
struct draft {
  struct review *review;
  const struct img_finding *row;
  const char *id;
  int severity; /* 0 (worst) .. 999 among findings with the same row order */
  struct filler filler[FILLERS_MOST];
  size_t filler_count;
  struct because because[BECAUSE_MOST];
  size_t because_count;
};

/* The table's row; NULL when the table has none (the finding is then never raised, and a test lists such ids). */
const struct img_finding *review_row(const struct review *r, const char *id);
/* Begins a finding. 'id' is shown; the words come from the row 'id' or, without one, from the row 'fallback' (may be NULL).
 * False when there is no row. */
bool draft_begin(struct draft *d, struct review *r, const char *id, const char *fallback);
/* The same with the words of another row than the id's own. */
bool draft_begin_as(struct draft *d, struct review *r, const char *id, const char *row_id);
void draft_word(struct draft *d, const char *key, const char *text);
/* A number with its unit: fills {key} with three significant digits and stands in "because". */
void draft_number(struct draft *d, const char *key, double x, const char *unit);
void draft_percent(struct draft *d, const char *key, double share); /* 0.655 -> "66 %" */
void draft_text_because(struct draft *d, const char *key, const char *text);
void draft_end(struct draft *d);
/* Says that 'id' need not be said because another finding covers it. */
void review_silence(struct review *r, const char *id);
const char *review_id(struct review *r, enum nutrient n, const char *suffix); /* "zinc-short" */

/* ---- small questions that several conditions ask ---- */

/* The line in the writer's own words: up to the first comma or pin. */
const char *line_words(const struct review *r, int line);
/* "40 g lamb liver, 2 large eggs and 3 more" from indices. */
const char *lines_list(const struct review *r, const int *line, size_t count, size_t most);
const char *amount_words(struct arena *a, double x, const char *unit); /* "11.2 mg" */
const char *animal_name(const struct review *r);                       /* "Juniper", or "the dog" */
bool any_line_with_flag(const struct review *r, uint32_t flag, const int **lines, size_t *count);
double grams_of_part(const struct review *r, enum part p); /* a day, as eaten */
double constant_of(const struct review *r, const char *key);

/* ---- the writers ---- */
void findings_dangers(struct review *r);  /* toxic foods, cooked bone: the top of every answer */
void findings_energy(struct review *r);   /* too much, too little, where it comes from, bulk */
void findings_verdicts(struct review *r); /* each nutrient short, thin, over, unproven; what rests on one food */
void findings_minerals(struct review *r); /* calcium and bone, ratios, phytate, iodine, kelp, salt */
void findings_foods(
    struct review *r); /* liver, thiaminase, avidin, oxalate, mercury, fish oil, seeds, greens, raw hygiene */
void findings_animal(struct review *r);  /* what the species and the age ask for */
void findings_records(struct review *r); /* other records that fit as well and would change a verdict; the ratio view */

#endif
