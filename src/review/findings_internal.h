/* findings_internal.h: what the writers of findings share. Not for callers of findings.h.
 *
 * A finding is a row of data/findings.tsv (words, weight, order, threshold, source) that a condition in one of the
 * findings_*.c files raises. The condition hands over the words that fill the row's {placeholders} and the numbers behind
 * them. Before the review is handed out, what another finding says already is dropped and small matters are folded into one
 * (findings_fold.c).
 *
 * Layer: review. */
#ifndef BW_FINDINGS_INTERNAL_H
#define BW_FINDINGS_INTERNAL_H

#include "base/buf.h"
#include "judge/exchange.h"
#include "judge/totals.h"
#include "review/findings.h"
#include "words/words.h"

struct filler {
  const char *key, *text; /* {key} becomes text */
};

/* Findings of one kind that are told together when they are many. A rule for each stands in findings_fold.c. */
enum fold { FOLD_ALONE, FOLD_SHORT, FOLD_AMINO, FOLD_THIN, FOLD_UNPROVEN, FOLD_COUNT };

/* A finding with what sorting and folding need to know of it. */
struct noted {
  struct finding f;
  enum fold fold;
  enum nutrient nutrient;            /* NUT_NONE */
  double score;                      /* among those of a fold: larger matters more */
  const struct nutrient_result *gap; /* {fix} of the remedy waits for what would cover this; NULL: nothing waits */
};

struct review {
  const struct library *lib;
  struct check_result *result;
  struct arena *arena;
  struct noted *item;
  size_t count, cap;
  const char **silenced; /* ids that another finding already says */
  size_t silenced_count, silenced_cap;
  const struct totals *totals; /* see review_totals */
  struct exchange *trial;      /* the ration with one line more, for remedies; opened on first use */
  const char *row_letters;     /* the first of each row's id, side by side; NULL: see review_row */
  struct remedy *held_back;    /* covers, and would raise something else to act on; NULL */
};

enum { FILLERS_MOST = 40, BECAUSE_MOST = 48 };

/* One finding under construction. */
struct draft {
  struct review *review;
  const struct img_finding *row;
  const char *id;
  enum finding_weight weight; /* the row's, unless the condition lowers it */
  int severity;               /* 0 (worst) .. 999 among findings with the same row order */
  enum fold fold;
  enum nutrient nutrient;
  double score;
  const struct nutrient_result *gap;
  int line;                                                   /* of the text; 0 */
  bool of[NUT_COUNT], covers, background, danger, named_only, asked; /* see struct finding, as is what follows */
  bool prepares; /* its remedy is how to prepare what is fed, not how much of it */
  const char *about, *advice;
  struct filler filler[FILLERS_MOST];
  size_t filler_count;
  struct because because[BECAUSE_MOST];
  size_t because_count;
};

/* ---- a finding while it is put together (findings_draft.c) ---- */

const char *review_letters(const struct library *lib, struct arena *arena); /* for review.row_letters */
/* The table's row; NULL when the table has none (the finding is then never raised, and a test lists such ids). */
const struct img_finding *review_row(const struct review *r, const char *id);
/* Figures of the row; NaN where there is none, which no comparison passes. */
double row_threshold(const struct review *r, const char *id);
double row_threshold2(const struct review *r, const char *id);
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
void draft_number_because(struct draft *d, const char *key, double x, const char *unit);
/* The finding is (also) about this nutrient. */
void draft_of(struct draft *d, enum nutrient n);
void draft_end(struct draft *d);
/* A remedy that waited, with what would cover the gap. */
const char *review_fill_fix(struct review *r, const char *remedy, const char *fix);
/* Says that 'id' need not be said because another finding covers it. */
void review_silence(struct review *r, const char *id);
/* The same for every verdict of a nutrient: "-short", "-thin", "-unproven" and the rest. */
void review_silence_nutrient(struct review *r, enum nutrient n);
bool review_has(const struct review *r, const char *id);
const char *review_id(struct review *r, enum nutrient n, const char *suffix); /* "zinc-short" */

/* ---- small questions that several conditions ask (findings_words.c) ---- */

/* The food of a line in the writer's own words. */
const char *line_words(const struct review *r, int line);
/* "lamb liver, eggs and 3 more" from indices; one more than 'most' is named too. */
/* The same with what is fed without being counted. */
const char *unknown_list(const struct review *r, const int *line, size_t count, size_t most);
const char *lines_list(const struct review *r, const int *line, size_t count, size_t most);
const char *list_of_few(const struct review *r, const char *const *word, size_t count, size_t most);
/* "11.2 mg"; "an unknown amount" */
const char *amount_words(struct arena *a, double x, const char *unit);
bool any_line_with_flag(const struct review *r, uint32_t flag, const int **lines, size_t *count);
const struct img_food *food_of_line(const struct review *r, size_t line);
bool line_is_raw(const struct review *r, size_t line);
double constant_of(const struct review *r, const char *key);
bool review_judged(const struct review *r); /* an animal that may be judged */
/* The sums behind the result, gathered on first use. */
const struct totals *review_totals(struct review *r);
/* Whether a nutrient is under its need (short, thin or unproven). */
bool is_lacking(const struct nutrient_result *n);

/* How grave a gap of this nutrient is, 1 to 10: threshold of the row "<key>-short", else of "nutrient-short". */
double gravity_of(struct review *r, enum nutrient n);

/* ---- marks that no single nutrient has (findings_marks.c) ---- */

/* Enough zinc, copper short, and far too much of the one for the other. */
bool zinc_crowds_copper(const struct review *r, const struct balance *b, const struct nutrient_result *zinc,
                        const struct nutrient_result *copper);
bool omega_6_is_over(const struct review *r, const struct balance *b, const struct nutrient_result *epa_dha);
bool is_mostly_fish(const struct review *r, double fish); /* share of a cat's bowl */
/* Would the review of the ration in 'trial' ask to act on one of these that it leaves alone now? 'food' and 'grams' a day:
 * what it has more; 'b': its balance. */
bool review_raises_a_mark(struct review *r, const struct balance *b, uint32_t food, double grams);

/* Thin is to be watched; what then nobody can judge may be something to act on (taurine). */
bool review_becomes_act(struct review *r, const struct nutrient_result *was, const struct nutrient_result *is);

/* ---- what would cover a gap (findings_remedy.c) ---- */

/* "About 7 g (2 tsp) of ground pumpkin seed a day would cover it and add 3.4 g fat and 150 mg phytate." "" if unknown.
 * 'covers': whether that is what it says. */
const char *remedy_for(struct review *r, const struct nutrient_result *n, bool *covers);
/* The same as {fix} of a finding. */
void draft_fix(struct draft *d, const struct nutrient_result *n);
/* One food that closes the most of these gaps; "" when none closes two. */
const char *remedy_for_several(struct review *r, const enum nutrient *n, size_t count);

/* Gives back what a review holds beside its arena (findings_trial.c). */
void review_end(struct review *r);

/* ---- the foods of this bowl that a remedy may name (findings_main.c) ---- */

/* "chicken carcass", "beef liver and eggs": the lines that supply most of it; a supplement that alone makes up 'surplus' (of
 * the nutrient's unit; 0: none) comes before them. */
const char *main_words(const struct review *r, const struct nutrient_result *n, double surplus);
/* The same of the lines that are not fed every day; where all are, of all. */
const char *uneven_words(const struct review *r, const struct nutrient_result *n);
/* "a leaner cut instead of beef mince, or the fat trimmed off"; "less sunflower oil". */
const char *leaner_words(const struct review *r);
/* The line whose fat asks for the most vitamin E; -1. */
int line_behind_vitamin_e(const struct review *r);
bool line_is_oil(const struct review *r, int line);

/* "At 366 kcal a day of this same food thiamin would no longer be short, but iodine still would."; "" when there is nothing
 * to say. 'share': of the food as written. (findings_then.c) */
const char *then_words(struct review *r, double share);
/* "First feed less: at the expected need of 196 kcal a day it is within the limit. Failing that, "; "" where that is not so.
 */
const char *less_first_words(const struct review *r, const struct nutrient_result *n);

/* ---- the writers ---- */
void findings_dangers(struct review *r); /* toxic foods, cooked bone, salt: the top of every answer */
void findings_energy(struct review *r);  /* too much, too little, where it comes from, bulk */
/* How many days' food a text without a word of days is by its energy, where it looks like a batch; else 1. */
double review_batch_days(const struct review *r);
void findings_no_meal(struct review *r);  /* crumbs or supplements by themselves */
/* What to ask first about what is not counted; nobody is asked to weigh what must not be fed. */
const char *review_ask_first(struct review *r);
void findings_uncounted(struct review *r); /* what harms a cat as a main food, in what was not counted */
void findings_unread(struct review *r);   /* little is counted beside food that is not */
void findings_over(struct review *r);     /* of the next: what is too much */
void findings_verdicts(struct review *r); /* each nutrient short, thin, over, unproven */
void findings_rests(struct review *r);    /* what rests on one food, on estimates, on chance */
void findings_minerals(struct review *r); /* calcium and bone, ratios, phytate, iodine, kelp */
void findings_foods(struct review *r);    /* liver, oxalate, seeds, greens, choline, doubled supplements */
void findings_raw(struct review *r);      /* thiaminase, avidin, parasites, hygiene */
void findings_fats(struct review *r);     /* omega balance, vitamin E against the fat */
void findings_animal(struct review *r);   /* what the species and the age ask for */
void findings_quiet(struct review *r);    /* less food, the smallest energy, room for fat */
void findings_records(struct review *r);  /* other records that fit as well and would change a verdict; the ratio view */
void findings_fold(struct review *r);     /* many of one kind become one */

#endif
