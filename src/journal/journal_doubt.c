/* What is replaced, and what can hardly be right. */
#include <math.h>

#include "base/num.h"
#include "journal/journal_parts.h"

/* Bounds of the question, not of nature: the lightest adult cats and the heaviest dogs lie well within. */
static const double LEAST_KG = 0.2, MOST_KG = 120;
/* A healthy adult does not change so much between neighbouring weighings; a slip of the pen does. */
static const double LARGE_CHANGE = 1.25;
enum { NEIGHBOURS = 5 };

/* ---- corrections ---- */

static bool same_fact(const struct journal_entry *a, const struct journal_entry *b) {
  return a->animal == b->animal && a->day == b->day && a->fact == b->fact;
}

void journal_replace(struct journal_entry **by_day, size_t count, struct diags *d) {
  for (size_t from = 0, end; from < count; from = end) {
    for (end = from; end < count && by_day[end]->animal == by_day[from]->animal && by_day[end]->day == by_day[from]->day;)
      end++;
    for (size_t i = from; i < end; i++) {
      bool any = false;
      if (!by_day[i]->correction) continue;
      for (size_t k = from; k < i; k++) {
        if (!same_fact(by_day[k], by_day[i])) continue;
        by_day[k]->replaced = any = true;
      }
      if (!any)
        diag_say(d, DIAG_WARNING, DIAG_DOUBTFUL, by_day[i]->whole,
                 "there is nothing above this line that it corrects; it is taken as it stands");
    }
  }
}

/* ---- weights ---- */

static double median(double *x, int n) {
  for (int i = 1; i < n; i++)
    for (int k = i; k > 0 && x[k] < x[k - 1]; k--) {
      double swap = x[k];
      x[k] = x[k - 1];
      x[k - 1] = swap;
    }
  return n % 2 ? x[n / 2] : (x[n / 2 - 1] + x[n / 2]) / 2;
}

/* No adult weighs so much or so little. */
static bool is_absurd(double kg) { return kg < LEAST_KG || kg > MOST_KG; }

/* The middle of the weighings around this one; with only one other, the earlier of the two is believed. */
static double usual_around(struct journal_entry *const *w, size_t count, size_t at) {
  double around[2 * NEIGHBOURS];
  int n = 0;
  for (size_t i = at > NEIGHBOURS ? at - NEIGHBOURS : 0; i < count && i <= at + NEIGHBOURS; i++)
    if (i != at && !is_absurd(w[i]->kg)) around[n++] = w[i]->kg;
  if (n == 0 || (n == 1 && at == 0)) return (double)NAN;
  return median(around, n);
}

static const struct {
  double factor;
  const char *slip;
} SLIPS[] = {{10, "a decimal point left out"},
             {100, "a decimal point left out"},
             {0.1, "a decimal point too far left"},
             {0.45359237, "kilograms written as pounds"},
             {2.2046226, "pounds written as kilograms"}};

static const char *slip_of(double ratio) {
  static const double NEAR = 0.12;
  for (size_t i = 0; i < COUNT_OF(SLIPS); i++)
    if (fabs(ratio / SLIPS[i].factor - 1) < NEAR) return SLIPS[i].slip;
  return NULL;
}

static void ask_about_weight(struct journal_reader *r, struct journal_entry *e, double usual) {
  struct buf b;
  buf_init(&b, r->arena, 512);
  const char *slip = isnan(usual) ? NULL : slip_of(e->kg / usual);
  buf_adds(&b, "is this weight right? ");
  num_sig(&b, e->kg, 3);
  if (isnan(usual)) {
    buf_addf(&b, " kg is %s than an adult dog or cat weighs", e->kg < LEAST_KG ? "less" : "more");
  } else {
    buf_adds(&b, " kg, where the weighings around it are about ");
    num_sig(&b, usual, 3);
    buf_adds(&b, " kg");
    if (slip) buf_addf(&b, ": %s", slip);
  }
  buf_adds(&b, slip ? "?" : ".");
  buf_adds(&b, " It is kept as written; put it right with 'correction: weighs ...'");
  diag_say(r->d, DIAG_WARNING, DIAG_DOUBTFUL, e->said, "%s", buf_text(&b));
  e->asked = true;
}

static void doubt_weights(struct journal_reader *r, struct journal_entry **w, size_t count) {
  for (size_t i = 0; i < count; i++) {
    double usual = usual_around(w, count, i), ratio = w[i]->kg / usual;
    bool far = ratio > LARGE_CHANGE || ratio < 1 / LARGE_CHANGE; /* false for NaN */
    if (far || is_absurd(w[i]->kg)) ask_about_weight(r, w[i], far ? usual : (double)NAN);
    bool twice = i > 0 && w[i]->day == w[i - 1]->day && w[i]->kg == w[i - 1]->kg;
    if (twice)
      diag_say(r->d, DIAG_WARNING, DIAG_TWICE, w[i]->whole,
               "the same weighing is in line %d already; was it written down twice?", w[i - 1]->line);
  }
}

/* ---- leftovers ---- */

/* 'left' of a day of which nothing is known to have been put down. */
static void doubt_left(struct journal_reader *r, struct journal_entry *const *by_day, size_t count) {
  for (size_t i = 0; i < count; i++) {
    const struct journal_entry *e = by_day[i];
    if (e->fact != JOURNAL_LEFT || e->replaced) continue;
    bool fed = false;
    for (size_t k = i; k-- > 0 && by_day[k]->day == e->day && by_day[k]->animal == e->animal;)
      fed = fed || by_day[k]->fact == JOURNAL_ATE;
    for (size_t k = i + 1; k < count && by_day[k]->day == e->day && by_day[k]->animal == e->animal; k++)
      fed = fed || by_day[k]->fact == JOURNAL_ATE;
    if (!fed)
      diag_say(r->d, DIAG_WARNING, DIAG_EMPTY, e->whole,
               "what was put down? there is no 'ate' line of that day to take this off");
  }
}

/* ---- days ---- */

static void doubt_days(const struct journal *j, struct journal_reader *r) {
  const struct journal_entry *last = NULL, *back = NULL;
  int backwards = 0, forwards = 0;
  for (size_t i = 0; i < j->entry_count; i++) {
    const struct journal_entry *e = &j->entry[i];
    if (!e->is_fact || e->correction) continue;
    if (last && e->day < last->day) {
      if (!back) back = e;
      backwards++;
    }
    forwards += last && e->day > last->day;
    last = e;
    if (r->known && r->known->today > 0 && e->day > r->known->today)
      diag_say(r->d, DIAG_WARNING, DIAG_DATE, span_cut(e->whole, 0, 10), "this day is still to come; is the year right?");
  }
  /* Newest first is an order too. */
  if (backwards > 0 && forwards > 0)
    diag_say(r->d, DIAG_WARNING, DIAG_DATE, span_cut(back->whole, 0, 10),
             "%d %s before the day of the line above, this one first; days are sorted before anything is counted", backwards,
             backwards == 1 ? "line is" : "lines are");
}

void journal_doubt(const struct journal *j, struct journal_entry **by_day, size_t count, struct journal_reader *r) {
  struct journal_entry **w = ARENA_NEW(r->arena, struct journal_entry *, count);
  for (size_t from = 0, end; from < count; from = end) {
    size_t weights = 0;
    for (end = from; end < count && by_day[end]->animal == by_day[from]->animal; end++)
      if (by_day[end]->fact == JOURNAL_WEIGHS && !by_day[end]->replaced && by_day[end]->kg > 0) w[weights++] = by_day[end];
    doubt_weights(r, w, weights);
  }
  doubt_left(r, by_day, count);
  doubt_days(j, r);
}
