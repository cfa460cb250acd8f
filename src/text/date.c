#include "text/date.h"

#include <math.h>

#include "base/num.h"

static bool is_leap(int year) { return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0; }

static int days_in_month(int year, int month) {
  static const int DAYS[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  return month == 2 && is_leap(year) ? 29 : DAYS[month - 1];
}

bool date_is_valid(struct date d) {
  return d.year >= 1 && d.year <= 9999 && d.month >= 1 && d.month <= 12 && d.day >= 1 &&
         d.day <= days_in_month(d.year, d.month);
}

static bool digits(struct span s, int *out) {
  if (s.n == 0) return false;
  *out = 0;
  for (size_t i = 0; i < s.n; i++) {
    if (s.p[i] < '0' || s.p[i] > '9') return false;
    *out = *out * 10 + (s.p[i] - '0');
  }
  return true;
}

bool date_read(struct span s, struct date *out) {
  if (s.n != 10 || s.p[4] != '-' || s.p[7] != '-') return false;
  struct date d = {0};
  if (!digits(span_cut(s, 0, 4), &d.year) || !digits(span_cut(s, 5, 7), &d.month) || !digits(span_cut(s, 8, 10), &d.day))
    return false;
  *out = d;
  return date_is_valid(d);
}

/* Days since 0000-03-01 of the proleptic Gregorian calendar: years begin in March, so that the leap day is their last. */
long date_days(struct date d) {
  long y = d.year - (d.month <= 2), m = (d.month + 9) % 12;
  return 365 * y + y / 4 - y / 100 + y / 400 + (153 * m + 2) / 5 + d.day - 1;
}

struct date date_of_days(long days) {
  enum { FOUR_CENTURIES = 146097 };
  long era = days / FOUR_CENTURIES, of_era = days % FOUR_CENTURIES;
  long year = (of_era - of_era / 1460 + of_era / 36524 - of_era / 146096) / 365;
  long of_year = of_era - (365 * year + year / 4 - year / 100), m = (5 * of_year + 2) / 153;
  struct date d = {(int)(400 * era + year + (m >= 10)), (int)(m < 10 ? m + 3 : m - 9),
                   (int)(of_year - (153 * m + 2) / 5 + 1)};
  return d;
}

/* The first of March of the year 0 was a Wednesday. */
int date_weekday(long days) { return (int)((days + 2) % 7); }

void date_print(struct buf *out, long days) {
  struct date d = date_of_days(days);
  char s[] = "0000-00-00";
  for (int i = 3, y = d.year; i >= 0; i--, y /= 10) s[i] = (char)('0' + y % 10);
  s[5] = (char)('0' + d.month / 10);
  s[6] = (char)('0' + d.month % 10);
  s[8] = (char)('0' + d.day / 10);
  s[9] = (char)('0' + d.day % 10);
  buf_adds(out, s);
}

double date_years_between(struct date from, struct date to) {
  bool birthday_passed = to.month > from.month || (to.month == from.month && to.day >= from.day);
  int whole = to.year - from.year - !birthday_passed;
  struct date last = {from.year + whole, from.month, from.day};
  struct date next = {last.year + 1, last.month, last.day};
  /* Born on 29 February: the birthday of other years is the first of March. */
  if (!date_is_valid(last)) last = (struct date){last.year, 3, 1};
  if (!date_is_valid(next)) next = (struct date){next.year, 3, 1};
  return whole + (double)(date_days(to) - date_days(last)) / (double)(date_days(next) - date_days(last));
}
