/* Properties of check over random rations of the real library's foods. The generator is GSL's; the seed is fixed. */
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#define RANDOM_SEED 1848
#include "tests/support/fresh_random.h"

#include "base/buf.h"
#include "judge/check.h"
#include "tests/support/built_image.h"
#include "tests/support/near.h"
#include "tests/support/tiny_image.h"

enum { RATIONS = 150, MOST_LINES = 14 };

static size_t random_lines(struct ration_line line[MOST_LINES]) {
  static const double TIMES[] = {28, 28, 28, 14, 8, 4, 1};
  size_t n = 1 + gsl_rng_uniform_int(rng, MOST_LINES), foods = library_count(built_library());
  for (size_t i = 0; i < n; i++) {
    uint32_t food = (uint32_t)gsl_rng_uniform_int(rng, foods);
    line[i] = tiny_line_on(food, 0.5 + 300 * gsl_rng_uniform(rng), TIMES[gsl_rng_uniform_int(rng, COUNT_OF(TIMES))], (int)i);
  }
  return n;
}

static struct animal random_animal(void) {
  bool dog = gsl_rng_uniform_int(rng, 2) == 0;
  return tiny_animal(dog ? SPECIES_DOG : SPECIES_CAT, dog ? 2 + 60 * gsl_rng_uniform(rng) : 2 + 6 * gsl_rng_uniform(rng));
}

static struct check_options random_options(void) {
  struct check_options o = CHECK_OPTIONS_DEFAULT;
  o.standard = (enum standard_id)gsl_rng_uniform_int(rng, STANDARD_COUNT);
  o.basis = (enum basis)gsl_rng_uniform_int(rng, BASIS_COUNT);
  o.sure = 0.5 + 0.49 * gsl_rng_uniform(rng);
  return o;
}

static const struct check_result *check(const struct ration_line *line, size_t n, const struct animal *a,
                                        const struct check_options *o) {
  struct ration *r = ARENA_NEW(&arena, struct ration, 1);
  *r = tiny_ration(line, n);
  return check_numbers(built_library(), r, a, o, &arena);
}

static void assert_close(double got, double want) {
  if (isnan(want)) {
    assert_true(isnan(got));
  } else {
    assert_near(got, want, 1e-9 * fabs(want) + 1e-12);
  }
}

/* The words and the numbers beside them must not contradict each other: docs/method/verdicts.md. */
static void assert_consistent(const struct nutrient_result *n, double sure) {
  const struct supply_list *list = who_supplies(n);
  if (n->known == KNOWN_NONE && n->id != NUT_ENERGY) { /* nothing is said of it that could be read as 0 */
    const double field[] = {n->amount,     n->low,         n->high,       n->per_1000kcal, n->window_amount, n->window_high,
                            n->lowest_day, n->highest_day, n->chance_met, n->chance_kept,  n->ratio};
    for (size_t i = 0; i < COUNT_OF(field); i++) assert_true(isnan(field[i]));
    assert_true(list->from_count == 0 && list->missing_count > 0 && n->known_share < 1);
    assert_true(n->verdict == VERDICT_SHORT || n->verdict == VERDICT_UNPROVEN || n->verdict == VERDICT_NO_FIGURE ||
                n->allowance <= 0);
    return;
  }
  assert_int_equal(n->known == KNOWN_ALL, n->known_share >= 1 - 1e-12 || list->missing_count == 0);
  assert_true(n->amount >= 0 && n->low <= n->amount * (1 + 1e-12) && n->known_share >= 0 && n->known_share <= 1);
  assert_true(n->window_amount <= n->window_high * (1 + 1e-9));
  assert_true(n->lowest_day <= n->highest_day);
  assert_true(isnan(n->possible) || n->possible >= n->amount * (1 - 1e-12));
  double shares = 0;
  for (size_t i = 0; i < list->from_count; i++) {
    shares += list->from[i].share;
    assert_true(i == 0 || list->from[i - 1].amount >= list->from[i].amount);
  }
  if (n->amount > 0 && n->id != NUT_ENERGY) assert_near(shares, 1, 1e-9);
  assert_true((list->missing_count > 0) == (n->known_share < 1 - 1e-12));
  bool reached = n->window_amount >= n->allowance * (1 - 1e-8);
  if (n->verdict == VERDICT_MET) assert_true(reached && n->chance_met >= sure);
  if (n->verdict == VERDICT_SHORT) assert_true(!reached && n->window_amount < n->allowance);
  if (n->verdict == VERDICT_UNPROVEN) assert_true(list->missing_count > 0 && !(n->window_amount >= n->allowance));
  if (n->verdict == VERDICT_OVER) assert_true(n->window_high > n->upper);
  if (n->verdict == VERDICT_OVER && n->upper_greater_than) assert_true(n->chance_kept <= 0.05); /* nearly certain */
  if (n->verdict == VERDICT_NO_FIGURE) assert_true(isnan(n->allowance));
}

static void answers_do_not_contradict_themselves(void **state) {
  (void)state;
  for (int k = 0; k < RATIONS; k++) {
    struct ration_line line[MOST_LINES];
    size_t n = random_lines(line);
    struct animal a = random_animal();
    struct check_options o = random_options();
    const struct check_result *r = check(line, n, &a, &o);
    int verdicts = 0;
    for (int i = 0; i < NUT_COUNT; i++) assert_consistent(&r->nutrient[i], o.sure);
    for (int v = 0; v < VERDICT_COUNT; v++) verdicts += r->verdict_count[v];
    assert_int_equal(verdicts, NUT_COUNT);
    double parts = 0;
    for (int p = 0; p < BOWL_COUNT; p++) parts += r->parts[p];
    assert_near(parts, 1, 1e-9);
    const struct energy_result *e = &r->energy;
    if (!isnan(e->share_fat)) assert_near(e->share_protein + e->share_fat + e->share_carbohydrate, 1, 1e-9);
    arena_free(&arena);
  }
}

/* The amounts by another route: straight from the stored values, line by line. */
static void amounts_by_another_route(void **state) {
  (void)state;
  const struct library *lib = built_library();
  for (int k = 0; k < RATIONS; k++) {
    struct ration_line line[MOST_LINES];
    size_t n = random_lines(line);
    const struct check_result *r = check(line, n, NULL, NULL);
    for (int i = 0; i < NUT_COUNT; i++) {
      if (i == NUT_ENERGY || i == NUT_VITAMIN_A || i == NUT_EPA_DHA) continue; /* derived */
      double sum = 0;
      bool gap = false;
      for (size_t l = 0; l < n; l++) {
        const struct img_value *v = &library_values(lib, line[l].part[0].food)[i];
        gap = gap || v->status == VALUE_UNKNOWN;
        if (v->status != VALUE_UNKNOWN) sum += line[l].part[0].grams * line[l].times_per_28 / 28 * v->mean / 100;
      }
      assert_close(r->nutrient[i].amount, sum == 0 && gap ? (double)NAN : sum);
    }
    arena_free(&arena);
  }
}

static void assert_same_answer(const struct check_result *p, const struct check_result *q, double factor) {
  for (int i = 0; i < NUT_COUNT; i++) {
    const struct nutrient_result *x = &p->nutrient[i], *y = &q->nutrient[i];
    assert_close(y->amount, factor * x->amount);
    assert_close(y->low, factor * x->low);
    assert_close(y->window_amount, factor * x->window_amount);
    assert_close(y->window_high, factor * x->window_high);
    assert_close(y->known_share, x->known_share);
    assert_close(y->possible, factor * x->possible);
    if (factor == 1) assert_int_equal(y->verdict, x->verdict);
  }
  assert_close(q->energy.supply_kcal, factor * p->energy.supply_kcal);
  assert_close(q->balance.ca_p, p->balance.ca_p);
  for (int i = 0; i < BOWL_COUNT; i++) assert_close(q->parts[i], p->parts[i]);
}

static void scale_order_and_splitting(void **state) {
  (void)state;
  for (int k = 0; k < RATIONS; k++) {
    struct ration_line line[MOST_LINES], other[MOST_LINES], split[2 * MOST_LINES];
    size_t n = random_lines(line);
    struct animal a = random_animal();
    struct check_options o = random_options();
    const struct check_result *r = check(line, n, &a, &o);
    for (size_t i = 0; i < n; i++) {
      other[i] = line[i];
      other[i].part[0].grams *= 2.5;
      other[i].grams_fed *= 2.5;
    }
    assert_same_answer(r, check(other, n, &a, &o), 2.5);
    memcpy(other, line, sizeof other);
    gsl_ran_shuffle(rng, other, n, sizeof *other);
    assert_same_answer(r, check(other, n, &a, &o), 1);
    for (size_t i = 0; i < n; i++) {
      double share = gsl_rng_uniform(rng);
      split[2 * i] = split[2 * i + 1] = line[i];
      split[2 * i].part[0].grams *= share;
      split[2 * i].grams_fed *= share;
      split[2 * i + 1].part[0].grams *= 1 - share;
      split[2 * i + 1].grams_fed *= 1 - share;
    }
    assert_same_answer(r, check(split, 2 * n, &a, &o), 1);
    arena_free(&arena);
  }
}

/* What a line of unknown amount leaves short is short with any amount of that food up to what was allowed for: that amount
 * put into the bowl, as an ordinary line, is the other route. */
static void uncounted_food_saves_nothing_that_is_short(void **state) {
  (void)state;
  size_t shorts = 0, unproven = 0;
  for (int k = 0; k < RATIONS; k++) {
    struct ration_line line[MOST_LINES + 1];
    size_t n = random_lines(line);
    struct animal a = random_animal();
    struct check_options o = random_options();
    o.basis = BASIS_WEIGHT; /* by energy the need would grow with the food */
    uint32_t food = (uint32_t)gsl_rng_uniform_int(rng, library_count(built_library()));
    struct ration_uncounted u = {.line = 1, .text = "some of it", .may_be = &food, .may_be_count = 1};
    struct ration r = tiny_ration(line, n);
    r.uncounted = &u;
    r.uncounted_count = 1;
    const struct check_result *open = check_numbers(built_library(), &r, &a, &o, &arena);
    double most = open->uncounted_g[0], grams = isfinite(most) ? most * gsl_rng_uniform(rng) : 5000 * gsl_rng_uniform(rng);
    line[n] = tiny_line_on(food, grams, 28, 0);
    const struct check_result *counted = check(line, n + 1, &a, &o);
    for (int i = 0; i < NUT_COUNT; i++) {
      unproven += open->nutrient[i].verdict == VERDICT_UNPROVEN;
      if (open->nutrient[i].verdict != VERDICT_SHORT) continue;
      shorts++;
      /* What leaves the poorest window short may lift the richest above the limit, and that word goes first. */
      const struct nutrient_result *with = &counted->nutrient[i];
      if (with->verdict == VERDICT_OVER)
        assert_true(with->window_amount < 0.7 * with->allowance || with->window_amount < with->minimum);
      else
        assert_int_equal(with->verdict, VERDICT_SHORT);
    }
    arena_free(&arena);
  }
  assert_true(shorts > RATIONS && unproven > RATIONS);
}

/* Each record is found by its code, and nothing by a code that no record has. */
static void records_by_code(void **state) {
  (void)state;
  const struct library *lib = built_library();
  for (size_t i = 0; i < library_count(lib); i++) {
    const char *code = library_code(lib, (uint32_t)i);
    assert_int_equal(library_by_code(lib, span_of(code)), i);
    if (i % 101 != 0) continue;
    struct buf longer;
    buf_init(&longer, &arena, 64);
    buf_addf(&longer, "%s!", code);
    assert_int_equal(library_by_code(lib, span_of(buf_text(&longer))), NO_INDEX);
    uint32_t shorter = library_by_code(lib, (struct span){code, strlen(code) - 1});
    assert_true(shorter == NO_INDEX || strlen(library_code(lib, shorter)) == strlen(code) - 1);
  }
}

#define WITH_ARENA(f) cmocka_unit_test_setup_teardown(f, fresh_random, done_random)

int main(void) {
  const struct CMUnitTest tests[] = {
      WITH_ARENA(answers_do_not_contradict_themselves),
      WITH_ARENA(amounts_by_another_route),
      WITH_ARENA(scale_order_and_splitting),
      WITH_ARENA(records_by_code),
      WITH_ARENA(uncounted_food_saves_nothing_that_is_short),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
