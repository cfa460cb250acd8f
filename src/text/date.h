/* date.h: calendar dates of the Gregorian calendar.
 *
 * Layer: text. */
#ifndef BW_DATE_H
#define BW_DATE_H

#include "base/buf.h"

struct date {
  int year, month, day; /* year 0: not known */
};

/* "2019-04-12" and nothing else; false for a day that does not exist. */
bool date_read(struct span s, struct date *out) MUST_USE;
bool date_is_valid(struct date d);
/* Days since a fixed day, for differences. */
long date_days(struct date d);
/* The day that has this number: the other way round, for days of the years 1 to 9999. */
struct date date_of_days(long days);
/* 0 Monday to 6 Sunday, of a day number. */
int date_weekday(long days);
/* "2026-11-02" of a day number. */
void date_print(struct buf *out, long days);
/* Whole years between birthdays and the share of the year begun. 'to' is not before 'from'. */
double date_years_between(struct date from, struct date to);

#endif
