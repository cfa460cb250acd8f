#include "judge/ration.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

static int fed(const struct ration_line *l) {
  int n = 0;
  for (int i = 0; i < CALENDAR_DAYS; i++) n += l->fed_on[i];
  return n;
}

/* The counts are those of the interface: daily 28, every other day 14, twice a week 8, weekly 4, once a month 1 of 28. */
static void counts_are_kept(void **state) {
  (void)state;
  for (int times = 1; times <= CALENDAR_DAYS; times++) {
    for (int offset = 0; offset < 7; offset++) {
      struct ration_line l = {.grams_fed = 70};
      ration_spread_days(&l, times, offset);
      assert_int_equal(fed(&l), times);
      assert_true(l.times_per_28 == times);
      assert_true(fabs(ration_line_grams_per_day(&l) - 70.0 * times / 28) < 1e-12);
    }
  }
}

/* Spread evenly: around the circle no two gaps differ by more than a day. */
static void gaps_are_even(void **state) {
  (void)state;
  for (int times = 1; times <= CALENDAR_DAYS; times++) {
    struct ration_line l = {0};
    ration_spread_days(&l, times, 3);
    int first = -1, last = -1, least = CALENDAR_DAYS, most = 0;
    for (int i = 0; i < CALENDAR_DAYS; i++) {
      if (!l.fed_on[i]) continue;
      if (last >= 0) {
        least = i - last < least ? i - last : least;
        most = i - last > most ? i - last : most;
      } else {
        first = i;
      }
      last = i;
    }
    int around = first + CALENDAR_DAYS - last;
    least = around < least ? around : least;
    most = around > most ? around : most;
    assert_true(most - least <= 1);
  }
}

static void every_week_has_its_share(void **state) {
  (void)state;
  struct ration_line l = {0};
  ration_spread_days(&l, 4, 0);
  for (int week = 0; week < 4; week++) {
    int n = 0;
    for (int d = 0; d < 7; d++) n += l.fed_on[7 * week + d];
    assert_int_equal(n, 1);
  }
}

static void offset_moves_the_day(void **state) {
  (void)state;
  struct ration_line a = {0}, b = {0};
  ration_spread_days(&a, 4, 0);
  ration_spread_days(&b, 4, 1);
  for (int i = 0; i < CALENDAR_DAYS; i++) assert_false(a.fed_on[i] && b.fed_on[i]);
}

/* For every number of feedings and every length at once, the first days are the poorest and the last ones the richest: so
 * several foods spread like this cannot fall less favourably. Counted out over all windows of the circle. */
static void first_days_are_the_poorest(void **state) {
  (void)state;
  for (int times = 1; times <= CALENDAR_DAYS; times++) {
    struct ration_line l = {0};
    ration_spread_days(&l, times, 0);
    for (int days = 1; days <= CALENDAR_DAYS; days++) {
      int least = CALENDAR_DAYS, most = 0, first = 0, last = 0;
      for (int from = 0; from < CALENDAR_DAYS; from++) {
        int n = 0;
        for (int d = 0; d < days; d++) n += l.fed_on[(from + d) % CALENDAR_DAYS];
        least = n < least ? n : least;
        most = n > most ? n : most;
        if (from == 0) first = n;
        if (from == CALENDAR_DAYS - days) last = n;
      }
      assert_int_equal(first, least);
      assert_int_equal(last, most);
    }
  }
}

static void odd_frequencies_stay_in_range(void **state) {
  (void)state;
  struct ration_line l = {0};
  ration_spread_days(&l, 0, 0);
  assert_int_equal(fed(&l), 0);
  ration_spread_days(&l, 0.2, 0);
  assert_int_equal(fed(&l), 1);
  ration_spread_days(&l, 99, -5);
  assert_int_equal(fed(&l), CALENDAR_DAYS);
  ration_spread_days(&l, (double)NAN, 0);
  assert_int_equal(fed(&l), 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(counts_are_kept),
      cmocka_unit_test(gaps_are_even),
      cmocka_unit_test(every_week_has_its_share),
      cmocka_unit_test(offset_moves_the_day),
      cmocka_unit_test(first_days_are_the_poorest),
      cmocka_unit_test(odd_frequencies_stay_in_range),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
