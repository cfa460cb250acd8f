/* plan_text.h: reads a plan of weeks: which recipe on which day.
 *
 *   Plan: November
 *   For: Juniper
 *   Mon-Thu: Weeknight bowl
 *   Fri: Weeknight bowl; 1 can sardines in water, drained
 *   Sat, Sun: 430 g Rice pot
 *
 *   Week 3:
 *   Sat: nothing
 *
 * "Daily" is for the days that no other line names. Lines above the first "Week" hold for every week; those below "Week 3:"
 * (or "Week 2-4:") take the place of that week's days. "Weeks: 4" makes the plan longer than its last week. A "For" line
 * begins the plan of another animal. What a day holds is written as in a journal (journal/journal.h). Layer: plan. Pure. */
#ifndef BW_PLAN_TEXT_H
#define BW_PLAN_TEXT_H

#include "journal/journal.h"

enum { PLAN_WEEKS_MOST = 8, PLAN_ANIMALS_MOST = 12, WEEK_DAYS = 7, PLAN_MOST_BYTES = 1024 * 1024 };

struct plan_day {
  int line; /* that says it, 1-based; 0: nothing is said of this day */
  bool any; /* said by "Daily": a line that names the day goes before */
  struct span said;
  const struct journal_item *item; /* none: nothing is fed */
  size_t item_count;
};

struct plan_part {
  struct span for_at;   /* n 0: no "For" line */
  const char *for_whom; /* "" */
  int weeks;
  struct plan_day day[PLAN_WEEKS_MOST][WEEK_DAYS];
};

struct plan {
  const char *name; /* "" */
  struct plan_part part[PLAN_ANIMALS_MOST];
  size_t part_count; /* at least 1 */
};

/* Does the text begin with "Plan:"? */
bool plan_is(struct span text);

/* False when anything was not understood: every complaint is in 'd'. A day of which nothing is said is one. */
bool plan_read(struct span text, struct diags *d, struct plan *out, struct arena *arena) MUST_USE;

#endif
