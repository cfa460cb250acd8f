/* totals_parts.h: what totals.c and windows.c share. Layer: judge. */
#ifndef BW_TOTALS_PARTS_H
#define BW_TOTALS_PARTS_H

#include "judge/totals.h"

/* Of the days of one window, a day. */
struct window_sums {
  double amount, variance, missing_high, missing_most;
};

/* What one food adds in the windows that were asked for last: of thousands of bowls it is mostly the same two. */
enum { WINDOWS_REMEMBERED = 2 };
struct remembered {
  int first, days; /* days 0: nothing yet */
  struct window_sums sums;
};
struct food_memory {
  struct remembered of[NUT_COUNT][WINDOWS_REMEMBERED];
};

/* A food on one line only adds these, whatever else is in the bowl. */
struct food_share {
  uint32_t food;
  struct day_sums sum;
  struct food_memory *memory; /* NULL: fed alike on all days */
};

/* Days on which the same is fed are of one kind. */
struct calendar {
  int kinds;
  uint8_t kind[CALENDAR_DAYS];
  uint8_t day[CALENDAR_DAYS];                           /* the first of each kind */
  uint8_t before[CALENDAR_DAYS][2 * CALENDAR_DAYS + 1]; /* of a kind, days before day i, the calendar written twice */
  uint8_t windows[CALENDAR_DAYS + 1];                   /* of a length, that differ in their days; 0: not looked at yet */
  uint8_t first[CALENDAR_DAYS + 1][CALENDAR_DAYS];      /* and where these begin */
};
void calendar_fill(struct calendar *c, const struct totals *t);

/* Takes the place of what average() found once the energy of the streams is the species' own. */
void totals_set_steady(struct totals *t, enum nutrient n);
bool totals_food_is_steady(const struct totals *t, int row);

#endif
