/* Do the intervals of src/trend tell the truth? Simulated animals whose weight and need are known (animals.h); nine in ten
 * truths must lie in the interval of 90 %. Bounds: three standard errors of a share of so many animals and three points, for
 * the noise is not that of the model. The figures of docs/method/trend.md are
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

/* Of one kind of interval: how many held the truth, and how wide they were. */
struct held {
  int in, of;
  double half, squares; /* sums over the animals: half the width, and the error squared, as shares of 'one' */
};

struct tally {
  struct held weight, rate, need, forecast;
  int reading;
  int stepped, step_found, unstepped, alarm; /* changes of the trend */
};

static void hold(struct held *h, const struct trend_band *b, double truth, double one) {
  double off = (b->mean - truth) / one;
  h->of++;
  h->in += b->low <= truth && truth <= b->high;
  h->half += (b->high - b->low) / 2 / one;
  h->squares += off * off;
}

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
  double kg = a->kg[last];
  const struct trend_forecast *f = &r->forecast[AHEAD - 1];
  double reading = a->kg[last + AHEAD] * (1 + 0.007 * normal());
  hold(&t->weight, &r->weight, kg, kg);
  hold(&t->rate, &r->per_week, (kg - a->kg[last - r->rate_days]) * 7 / r->rate_days, kg);
  hold(&t->forecast, &f->weight, a->kg[last + AHEAD], kg);
  t->reading += f->reading_low <= reading && reading <= f->reading_high;
  if (r->lack != TREND_LACKS_INTAKE) hold(&t->need, &r->need, a->need[last], a->need[last]);
  count_changes(a, r, t);
}

static void told(const char *what, const struct held *h) {
  print_message("  %-17s held by %.1f %% of %d; half its width %.2f %%, error (root mean square) %.2f %%\n", what,
                100.0 * h->in / h->of, h->of, 100 * h->half / h->of, 100 * sqrt(h->squares / h->of));
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
  print_message("%s: intervals of 90 %%; widths and errors as shares of the weight or the need\n", name);
  told("weight today", &t.weight);
  told("change a week", &t.rate);
  told("own need", &t.need);
  told("weight in 28 days", &t.forecast);
  print_message(
      "  a reading in 28 days held by %.1f %%; changes of the trend: %d of %d steps found, %d alarms in %d animals "
      "without one\n",
      100.0 * t.reading / t.weight.of, t.step_found, t.stepped, t.alarm, t.unstepped);
  return t;
}

static void near_ninety(const char *what, const struct held *h, double more) {
  double share = (double)h->in / h->of, bound = 3 * sqrt(0.9 * 0.1 / h->of) + more;
  if (!(fabs(share - 0.9) <= bound)) fail_msg("%s: %.3f is not within %.3f of 0.9", what, share, bound);
}

static void all_near_ninety(const struct tally *t, double more) {
  near_ninety("weight", &t->weight, more);
  near_ninety("change a week", &t->rate, more);
  near_ninety("need", &t->need, more);
  near_ninety("forecast", &t->forecast, more);
}

static void intervals_of_ordinary_animals_hold(void **state) {
  (void)state;
  struct tally t = simulate(&ORDINARY, "ordinary", 20261128, 1000);
  assert_true(t.weight.of > 950);
  all_near_ninety(&t, 0.03);
  assert_true(t.alarm * 12 < t.unstepped);   /* fewer than one animal in twelve is said to have changed when it has not */
  assert_true(t.step_found * 4 > t.stepped); /* steps as small as 6 % of the food are among them */
}

static void intervals_of_animals_kept_aside_hold(void **state) {
  (void)state;
  struct tally t = simulate(&HELD, "kept aside", 4093, 1000);
  all_near_ninety(&t, 0.03);
}

static void intervals_of_animals_with_bowels_of_their_own_hold(void **state) {
  (void)state;
  struct tally t = simulate(&ASIDE, "with bowels of their own", 77003, 1000);
  all_near_ninety(&t, 0.03);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(intervals_of_ordinary_animals_hold),
                                     cmocka_unit_test(intervals_of_animals_kept_aside_hold),
                                     cmocka_unit_test(intervals_of_animals_with_bowels_of_their_own_hold)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
