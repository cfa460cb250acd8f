/* date.h: calendar dates of the Gregorian calendar.
 *
 * Layer: text. */
#ifndef BW_DATE_H
#define BW_DATE_H

#include "base/base.h"

struct date {
  int year, month, day; /* year 0: not known */
};

/* "2019-04-12" and nothing else; false for a day that does not exist. */
bool date_read(struct span s, struct date *out) MUST_USE;
bool date_is_valid(struct date d);
/* Days since a fixed day, for differences. */
long date_days(struct date d);
/* Whole years between birthdays and the share of the year begun. 'to' is not before 'from'. */
double date_years_between(struct date from, struct date to);

#endif
