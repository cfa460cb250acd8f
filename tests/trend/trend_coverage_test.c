/* Do the intervals of src/trend tell the truth? Simulated animals whose weight and need are known (animals.h); nine in ten
 * truths must lie in the interval of 90 %. Bounds: three standard errors of a share of so many animals and a point and a
 * half, for the set kept aside three points, for the noise is not that of the model. The figures of docs/method/trend.md are
 * printed here. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "animals.h"

enum { AHEAD = 28 };

struct tally {
  int animals, weight, rate, need, forecast, reading, needs;
  int stepped, step_found, unstepped, alarm; /* changes of the trend */
  double need_half, need_square;
};

static bool holds(const struct trend_band *b, double x) { return b->low <= x && x <= b->high; }

static void count_changes(const struct animal_truth *a, const struct trend_result *r, struct tally *t) {
  enum { NEAR_DAYS = 21 };
  bool near = false;
  for (size_t i = 0; i < r->change_count; i++) near = near || labs(r->change[i].day - a->step_day) <= NEAR_DAYS;
  if (a->step_day >= 0) {
    t->stepped++;
    t->step_found += near;
  } else {
    t->unstepped++;
    t->alarm += r->change_count > 0;
  }
}

static void count(const struct animal_truth *a, const struct trend_result *r, struct tally *t) {
  int last = a->days - 1;
  const struct trend_forecast *f = &r->forecast[AHEAD - 1];
  double reading = a->kg[last + AHEAD] * (1 + 0.007 * normal());
  t->animals++;
  t->weight += holds(&r->weight, a->kg[last]);
  t->rate += holds(&r->per_week, (a->kg[last] - a->kg[last - r->rate_days]) * 7 / r->rate_days);
  t->forecast += holds(&f->weight, a->kg[last + AHEAD]);
  t->reading += f->reading_low <= reading && reading <= f->reading_high;
  count_changes(a, r, t);
  if (r->lack == TREND_LACKS_INTAKE) return;
  t->needs++;
  t->need += holds(&r->need, a->need[last]);
  t->need_half += (r->need.high - r->need.low) / 2 / a->need[last];
  t->need_square += (r->need.mean / a->need[last] - 1) * (r->need.mean / a->need[last] - 1);
}

static struct tally simulate(const struct animal_world *w, const char *name, unsigned long long from, int animals) {
  static struct animal_truth a;
  struct tally t = {0};
  struct arena arena;
  arena_init(&arena, NULL);
  seed = from;
  for (int i = 0; i < animals; i++) {
    animal_draw(w, AHEAD, &a);
    const struct trend_result *r = trend_estimate(&a.in, &arena);
    if (r->day_count > 0) count(&a, r, &t);
    arena_free(&arena);
  }
  double n = t.animals, m = t.needs;
  print_message(
      "%s: %d animals. In the interval of 90 %%: weight %.1f, change a week %.1f, need %.1f, weight in %d days %.1f, a "
      "reading then %.1f %%. The need: half-width %.1f %%, error (root mean square) %.1f %%. Changes of the trend: %d of "
      "%d steps found, %d alarms in %d animals without one.\n",
      name, t.animals, 100 * t.weight / n, 100 * t.rate / n, 100 * t.need / m, AHEAD, 100 * t.forecast / n,
      100 * t.reading / n, 100 * t.need_half / m, 100 * sqrt(t.need_square / m), t.step_found, t.stepped, t.alarm,
      t.unstepped);
  return t;
}

static void near_ninety(const char *what, int in, int of, double more) {
  double share = (double)in / of, bound = 3 * sqrt(0.9 * 0.1 / of) + more;
  if (!(fabs(share - 0.9) <= bound)) fail_msg("%s: %.3f is not within %.3f of 0.9", what, share, bound);
}

static void all_near_ninety(const struct tally *t, double more) {
  near_ninety("weight", t->weight, t->animals, more);
  near_ninety("change a week", t->rate, t->animals, more);
  near_ninety("need", t->need, t->needs, more);
  near_ninety("forecast", t->forecast, t->animals, more);
}

static void intervals_of_ordinary_animals_hold(void **state) {
  (void)state;
  struct tally t = simulate(&ORDINARY, "ordinary", 20261128, 1000);
  assert_true(t.animals > 950);
  all_near_ninety(&t, 0.015);
  assert_true(t.alarm * 12 < t.unstepped);   /* fewer than one animal in twelve is said to have changed when it has not */
  assert_true(t.step_found * 4 > t.stepped); /* steps as small as 6 % of the food are among them */
}

static void intervals_of_animals_kept_aside_hold(void **state) {
  (void)state;
  struct tally t = simulate(&HELD, "kept aside", 4093, 1000);
  all_near_ninety(&t, 0.03);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(intervals_of_ordinary_animals_hold),
                                     cmocka_unit_test(intervals_of_animals_kept_aside_hold)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
