#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>

#include <cmocka.h>

#include "tests/support/near.h"
#include "text/date.h"

static struct date read(const char *s) {
  struct date d;
  assert_true(date_read(span_of(s), &d));
  return d;
}

/* The Gregorian calendar repeats after 146097 days (400 years; ISO 8601). Walking it a day at a time must agree. */
static void days_are_counted_one_by_one(void **state) {
  (void)state;
  struct date d = {1850, 1, 1};
  long first = date_days(d), n = 0;
  while (d.year < 2250) {
    assert_int_equal(date_days(d), first + n);
    struct date back = date_of_days(first + n);
    assert_true(back.year == d.year && back.month == d.month && back.day == d.day);
    assert_int_equal(date_weekday(first + n), (n + 1) % 7); /* 1 January 1850 was a Tuesday */
    n++;
    d.day++;
    if (!date_is_valid(d)) d = (struct date){d.year, d.month + 1, 1};
    if (d.month > 12) d = (struct date){d.year + 1, 1, 1};
  }
  assert_int_equal(n, 146097);
}

static void days_that_do_not_exist(void **state) {
  (void)state;
  static const char *const BAD[] = {"2021-02-29", "1900-02-29", "2020-13-01", "2020-00-10", "2020-04-31",
                                    "2020-4-3",   "2020-04-00", "20200403",   "2020/04/03", "2020-04-03 ",
                                    "",           "0000-01-01", "abcd-ef-gh"};
  struct date d;
  for (size_t i = 0; i < COUNT_OF(BAD); i++) assert_false(date_read(span_of(BAD[i]), &d));
  assert_true(date_read(SPAN_LIT("2000-02-29"), &d));
}

static void ages(void **state) {
  (void)state;
  assert_near(date_years_between(read("2019-04-12"), read("2026-04-12")), 7, 1e-12);
  assert_near(date_years_between(read("2019-04-12"), read("2026-04-11")), 6 + 364.0 / 365, 1e-12);
  assert_near(date_years_between(read("2024-02-29"), read("2025-02-28")), 365.0 / 366, 1e-12);
  assert_near(date_years_between(read("2024-02-29"), read("2025-03-01")), 1, 1e-12);
  assert_near(date_years_between(read("2026-11-02"), read("2026-11-02")), 0, 1e-12);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(days_are_counted_one_by_one), cmocka_unit_test(days_that_do_not_exist),
                                     cmocka_unit_test(ages)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
