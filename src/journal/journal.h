/* journal.h: the journal of a household: plain text, one fact a line.
 *
 *   2026-11-02 Juniper weighs 18.2 kg
 *   2026-11-03 Juniper ate 430 g Weeknight bowl; 1 can sardines in water, drained
 *   2026-11-03 Juniper left 60 g
 *   2026-11-02 Juniper correction: weighs 18.4 kg   # read off the wrong scale
 *   2026-11-04 Juniper note: off his food
 *
 * A line that begins with '#' is a remark; behind a fact too. Nothing is ever taken out: a correction takes the place of
 * every fact of its kind, animal and day that stands above it, and both stay in the text. A day without an 'ate' line is not
 * known; "ate nothing" is a fast; "ate unknown", or a piece that begins with '?', was eaten and nobody knows what.
 *
 * Days are day numbers of the proleptic Gregorian calendar as date_days counts them (text/date.h). No clock: who reads says
 * what day it is. Layer: journal. Pure. */
#ifndef BW_JOURNAL_H
#define BW_JOURNAL_H

#include "text/date.h"
#include "text/diag.h"

enum journal_fact { JOURNAL_WEIGHS, JOURNAL_ATE, JOURNAL_LEFT, JOURNAL_NOTE, JOURNAL_FACTS };
extern const char *const journal_fact_word[JOURNAL_FACTS]; /* "weighs", "ate", "left", "note" */

/* One thing of an 'ate' line. */
struct journal_item {
  struct span whole; /* "430 g Weeknight bowl" */
  struct span food;  /* behind the mass: "Weeknight bowl"; without a mass the whole */
  double grams;      /* NaN when no mass stands before the food */
  bool unknown;      /* "? half a biscuit": eaten, but what or how much is not known */
};

struct journal_entry {
  int line; /* 1-based in the text */
  /* A line without a fact: blank, a remark, or one that was not understood ('not_read'). All else is unset then. */
  bool is_fact, not_read;
  enum journal_fact fact;
  long day;
  int animal;                      /* index into struct journal.name */
  bool correction;                 /* takes the place of what stands above it */
  bool replaced;                   /* a correction below takes its place: kept, not counted */
  bool asked;                      /* a figure that can hardly be right: asked about in the complaints, and counted */
  double kg;                       /* WEIGHS; NaN: "unknown" */
  double left_g;                   /* LEFT: grams; NaN when a share was said, or nobody knows */
  double left_share;               /* LEFT: share of what was put down, 0 to 1; NaN when grams were said, or nobody knows */
  const struct journal_item *item; /* ATE: none for "nothing" */
  size_t item_count;
  struct span whole;  /* the line without blanks at its ends */
  struct span said;   /* behind the fact's word, without the remark: "18.2 kg" */
  struct span remark; /* with its '#'; n 0 when there is none */
};

struct journal {
  const char *const *name; /* animals, in the order in which the text first names them; spelled as they are known */
  size_t name_count;
  const struct journal_entry *entry; /* a line each, in the order of the text */
  size_t entry_count;
  bool in_part; /* lines of earlier days were left out: journal_known.newest_days */
};

enum { JOURNAL_MOST_BYTES = 64 * 1024 * 1024, JOURNAL_LINE_MOST = 4096 };

struct journal_known {
  const char *const *name; /* animals that there are; NULL: whatever the text says */
  size_t name_count;
  long today; /* day number; facts of later days are asked about. 0: not known */
  /* Lines of this animal only: those that tell of one of the others are not read, and are no entries; NULL: of all. */
  const char *only;
  const char *const *other;
  size_t other_count;
  /* Lines of the newest so many days only, wherever they stand, for a first look at a long text; lines of earlier days are
   * no entries, but the animals that they tell of are named. Without the names of the animals everything is read. 0: all
   * days. */
  int newest_days;
  int lines_before; /* of a text whose beginning was left out: lines are counted from there */
};

/* Reads the text. False when a line was not understood, is no text or far too long: every complaint is in 'd', and 'out'
 * holds all the other lines. Asked about, as warnings, and counted all the same: weights out of keeping with those around
 * them (with the slip that would explain it: a point left out, pounds for kilograms), below 0.2 or above 120 kg, the same
 * weighing twice, days that run backwards, days to come. A last line without its end that is not understood is taken for cut
 * off: a warning, and left out. */
bool journal_read(struct span text, const struct journal_known *known, struct diags *d, struct journal *out,
                  struct arena *arena) MUST_USE;

/* The journal as text again: one blank between words, everything else as it was written, remarks, corrections and lines that
 * were not understood with the rest. Reading that gives the same journal; printing it again the same bytes. */
void journal_print(const struct journal *j, struct buf *out);

/* ---- what counts, by animal, sorted by day, then as it stands in the text ---- */

struct dated_weight {
  long day;
  double kg;
  int line;
  bool asked; /* as of struct journal_entry */
};
/* Weighings that are not replaced and whose weight is known. 'animal': index into j->name. */
const struct dated_weight *journal_weights(const struct journal *j, int animal, size_t *count, struct arena *arena);

/* One day that somebody wrote down. Days without one are unknown, not empty. */
struct dated_intake {
  long day;
  const struct journal_item *const *item; /* all of the day's 'ate' lines together */
  const int *item_line;                   /* the line of each */
  size_t item_count;                      /* 0: ate nothing, and that is known */
  double left_g;                          /* sum of what was left in grams; 0 when nothing is said of it */
  double left_share;                      /* of what was put down, beside left_g; 0 */
  bool left_unknown;                      /* something was left, and nobody knows how much */
  bool unknown;                           /* some of what was eaten is not known */
};
const struct dated_intake *journal_intakes(const struct journal *j, int animal, size_t *count, struct arena *arena);

/* The things of an 'ate' line or of a day of a plan, with ';' between them; none for "nothing". 'said' is not empty and lies
 * in d->text. False: complained about. */
bool journal_items_read(struct span said, struct diags *d, const struct journal_item **item, size_t *count,
                        struct arena *arena) MUST_USE;

/* A day that is not written year-month-day at the start of a line: "29.10.2026", "Oct 29th", "yesterday". */
struct journal_other_day {
  long days[2];         /* what it may mean: 3/4/2026 is two days */
  int count;            /* of them; 0: there is no such day, or its year is not known */
  int year, month, day; /* as written, where there is no such day */
  bool no_year;         /* none is written, and 'today' does not tell which */
  size_t bytes;         /* of the line that it takes */
};
/* 'today': day number, which tells a year that is left out; 0 not known. False: the line begins with something else. */
bool journal_day_otherwise(struct span line, long today, struct journal_other_day *out) MUST_USE;

/* Index of the animal, capital letters or not; -1. */
int journal_animal(const struct journal *j, struct span name);

#endif
