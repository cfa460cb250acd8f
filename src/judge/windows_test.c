/* windows_test.c: the poorest and the richest window against a look at each day of the calendar, from the lines and the
 * library's values alone. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "judge/totals.h"
#include "tests/support/any_bowl.h"
#include "tests/support/fresh_arena.h"

enum { LINES_MOST = 7, ROUNDS = 300 };
static const enum nutrient LOOKED_AT[] = {NUT_PROTEIN, NUT_ZINC, NUT_IRON, NUT_THIAMIN, NUT_SELENIUM};

static struct ration_line any_line(void) {
  struct ration_line l = line_of(any_food(0), 1 + below(150));
  if (below(3) == 0) ration_name_days(&l, 1u + (unsigned)below(127));
  if (below(3) == 0) ration_spread_days(&l, 1 + below(CALENDAR_DAYS), below(CALENDAR_DAYS));
  return l;
}

static double per_day(const struct portion *p, enum nutrient n) {
  const struct img_value *v = &library_values(built_library(), p->food)[n];
  return v->status == VALUE_UNKNOWN ? 0 : p->grams * (double)v->mean / 100;
}

static double on_day(const struct ration *r, enum nutrient n, int day) {
  double sum = 0;
  for (size_t i = 0; i < r->line_count; i++)
    for (int k = 0; k < r->line[i].part_count; k++)
      if (r->line[i].fed_on[day % CALENDAR_DAYS]) sum += per_day(&r->line[i].part[k], n);
  return sum;
}

static double in_window(const struct ration *r, enum nutrient n, int first, int days) {
  double sum = 0;
  for (int k = 0; k < days; k++) sum += on_day(r, n, first + k);
  return sum / days;
}

static bool near(double a, double b) { return fabs(a - b) <= 1e-9 * (1 + fabs(b)); }

static void compare(const struct ration *r, const struct totals *t, enum nutrient n, int days) {
  double low = INFINITY, high = -INFINITY, worst = INFINITY, rich = -INFINITY, day[CALENDAR_DAYS];
  for (int d = 0; d < CALENDAR_DAYS; d++) {
    low = fmin(low, on_day(r, n, d));
    high = fmax(high, on_day(r, n, d));
    worst = fmin(worst, in_window(r, n, d, days));
    rich = fmax(rich, in_window(r, n, d, days));
  }
  totals_series(t, n, day);
  for (int d = 0; d < CALENDAR_DAYS; d++) assert_true(near(day[d], on_day(r, n, d)));
  struct day_range range = totals_days(t, n, days);
  assert_true(near(range.lowest, low));
  assert_true(near(range.highest, high));
  assert_true(near(totals_in_window(t, n, range.worst, days).amount, worst));
  assert_true(near(totals_in_window(t, n, range.rich, days).amount, rich));
  if (range.alike) assert_true(near(worst, t->amount[n]) && near(rich, t->amount[n]));
}

static void windows_are_those_of_the_days(void **state) {
  (void)state;
  seed = 90210;
  for (int round = 0; round < ROUNDS; round++) {
    struct ration_line line[LINES_MOST];
    size_t count = 1 + (size_t)below(LINES_MOST);
    for (size_t i = 0; i < count; i++) line[i] = any_line();
    struct ration ration = {.name = "", .days = 1, .meals_per_day = NAN, .line = line, .line_count = count};
    struct totals *t = totals_gather(built_library(), &ration, 0, &arena);
    for (size_t k = 0; k < COUNT_OF(LOOKED_AT); k++) compare(&ration, t, LOOKED_AT[k], 1 + below(CALENDAR_DAYS));
    arena_free(&arena);
  }
}

/* Raw ostrich on Mondays: USDA's table (SR28, ABBREV.txt, 05641) has no vitamin D for it. What is known is nothing on all
 * days; that a fast has none is decided, what Monday has is not. */
static void a_fast_is_poorer_than_what_nobody_knows(void **state) {
  (void)state;
  const struct library *lib = built_library();
  uint32_t ostrich = library_by_code(lib, span_of("usda:05641"));
  for (int weekday = 0; weekday < 7; weekday++) {
    struct ration_line line = line_of(ostrich, 300);
    ration_name_days(&line, 1u << weekday);
    struct ration ration = {.name = "", .days = 1, .meals_per_day = NAN, .line = &line, .line_count = 1};
    struct totals *t = totals_gather(lib, &ration, 0, &arena);
    struct day_range range = totals_days(t, NUT_VITAMIN_D, 1);
    struct window_total poor = totals_in_window(t, NUT_VITAMIN_D, range.worst, 1),
                        rich = totals_in_window(t, NUT_VITAMIN_D, range.rich, 1);
    assert_true(poor.amount == 0 && poor.missing_most == 0);
    assert_true(rich.amount == 0 && rich.missing_most > 0);
    arena_free(&arena);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {T(windows_are_those_of_the_days), T(a_fast_is_poorer_than_what_nobody_knows)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
