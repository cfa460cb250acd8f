/* days.h: what is eaten on each of any number of days: a recipe's calendar, a plan of weeks, a journal.
 *
 * Layer: time. */
#ifndef BW_TIME_DAYS_H
#define BW_TIME_DAYS_H

#include "judge/check.h"

/* A line of food on one day: so many times the amount that the line has on a day when it is fed. Days that hold the same
 * line share the pointer; the line's own days of the calendar do not count here. */
struct fed {
  const struct ration_line *line;
  double times;
};

struct day_of_food {
  const struct fed *fed;
  size_t count;
  bool known;       /* false: nobody wrote down what was eaten; never zero */
  bool uncounted;   /* something was eaten besides, and nobody knows what or how much */
  const char *menu; /* "Weeknight bowl"; "" */
  long date;        /* day number (text/date.h); 0: a day of a plan */
};

/* Something of it was counted, or it is known that nothing was eaten; of other days no amount is known. */
bool day_is_counted(const struct day_of_food *d);

struct days_of_food {
  const char *name; /* "" */
  const struct day_of_food *day;
  int days;
  bool repeats; /* after the last day comes the first; its first day is a Monday */
  int known_days;
  const struct ration_remark *remark; /* of the texts behind it */
  size_t remark_count;
  const struct ration_uncounted *uncounted;
  size_t uncounted_count;
};

/* A ration's own calendar of 28 days, or the shortest run of whole weeks of it that repeats. */
struct days_of_food days_of_ration(const struct ration *r, struct arena *arena);
/* Shortens a plan that repeats itself to whole weeks. */
void days_shorten(struct days_of_food *d);
/* The ration that an average known day holds, every day the same; its lines stand in the order of first feeding. Judged, it
 * is what the mean of all these days is worth. */
struct ration *days_mean(const struct days_of_food *d, struct arena *arena);
/* The 28 days from 'first' on as a ration; days that are not known, or lie beyond the last, hold nothing. */
struct ration *days_frame(const struct days_of_food *d, int first, struct arena *arena);

/* In the days that are eaten. */
int days_known(const struct day_of_food *day, int days);

#endif
