/* frequency.h: how often something is fed, as people write it: "twice a week", "on Mondays", "600 g a week", "every 3 days".
 * One reader for recipes, larders and posts. The calendar has four weeks and begins on a Monday; a month counts as one
 * calendar ("once a month" is one day in 28).
 *
 * Layer: recipe. */
#ifndef BW_FREQUENCY_H
#define BW_FREQUENCY_H

#include "text/scan.h"

struct frequency {
  size_t tokens;       /* 0: none stands here */
  double times_per_28; /* days out of 28 */
  double feedings;     /* on each of them: "twice a day" is 2 */
  double per_28;       /* above 0: the amount is for a whole period ("a week": 4), shared out over all its days */
  unsigned days;       /* bit 0 Monday to bit 6 Sunday; 0: not named */
  bool other_days;     /* "on the other days": those that the line before has not */
  bool each_meal, is_range;
  const char *refuse; /* not understood: why, and what to type; NULL */
};
/* The longest that stands at this token. */
struct frequency frequency_read_at(const struct tokens *t, size_t at);
static inline struct frequency frequency_at(const struct tokens *t, size_t at) {
  if (at < t->count && !t->item[at].no_frequency) return frequency_read_at(t, at);
  return (struct frequency){0};
}
/* Notes where it is plain that none begins with this token, for whoever keeps it and asks often. */
void frequency_know(struct token *k);

/* "a week", "per month", "/week", "daily": tokens used, and how many of it the calendar holds; a day gives 28. 'joined' when
 * a word such as "a" or "per" stood before it. */
size_t frequency_period_at(const struct tokens *t, size_t at, double *per_28, bool *joined);
/* "once", "twice", "thrice": 1 token, in 'q'. Else 'q' is the number that stands there, and 0 is returned. */
size_t frequency_count_at(const struct tokens *t, size_t at, struct quantity *q);
/* "Monday, Tuesday and Friday" */
void frequency_print_days(struct buf *b, unsigned days);

#endif
