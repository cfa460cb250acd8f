/* exchange_test.c: the same ration, but one line: against check_numbers, to the last bit, over random rations of the real
 * library for dogs and cats, all standards, both bases and all three ways of counting energy. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "judge/exchange.h"
#include "tests/support/any_bowl.h"

enum { LINES_MOST = 9, OFFERS = 60, ROUNDS = 60 };

/* On named days, so many times a week or a month, every few days, once; mostly daily. */
static void fed_now_and_then(struct ration_line *l) {
  switch (below(10)) {
  case 0:
    ration_name_days(l, 1u + (unsigned)below(127));
    break;
  case 1:
    ration_spread_days(l, 4 * (1 + below(6)), below(7));
    break;
  case 2:
    ration_spread_days(l, 1 + below(CALENDAR_DAYS), below(CALENDAR_DAYS));
    break;
  case 3:
    ration_spread_days(l, 1, below(CALENDAR_DAYS));
    break;
  default:
    break;
  }
}

/* Some of it cooked, some fed now and then. */
static struct ration_line any_line(void) {
  struct ration_line l = line_of(any_food(0), 1 + below(150));
  int rows = (int)img_count(&built_library()->image, IMG_RETENTION);
  l.part[0].grams_cv = 0.1 * below(3);
  if (below(4) == 0) l.part[0].retention = below(rows);
  fed_now_and_then(&l);
  if (l.part_count == 1 && below(6) == 0) { /* a piece with its bone */
    l.part_count = 2;
    l.part[1] = (struct portion){.food = any_food(0), .grams = 1 + below(40), .grams_cv = 0.1 * below(4), .retention = -1};
    l.grams_fed += l.part[1].grams;
  }
  return l;
}

static bool same(double a, double b) { return a == b || (isnan(a) && isnan(b)); }

static void nutrients_are_equal(const struct nutrient_result *a, const struct nutrient_result *b) {
  const double x[] = {a->amount,      a->cv,         a->known_share, a->possible,     a->minimum,       a->allowance,
                      a->upper,       a->ratio,      a->chance_met,  a->chance_kept,  a->window_amount, a->window_high,
                      a->window_most, a->lowest_day, a->highest_day, a->per_1000kcal, a->window_cv,     a->window_high_cv};
  const double y[] = {b->amount,      b->cv,         b->known_share, b->possible,     b->minimum,       b->allowance,
                      b->upper,       b->ratio,      b->chance_met,  b->chance_kept,  b->window_amount, b->window_high,
                      b->window_most, b->lowest_day, b->highest_day, b->per_1000kcal, b->window_cv,     b->window_high_cv};
  for (size_t i = 0; i < COUNT_OF(x); i++)
    if (!same(x[i], y[i])) fail_msg("%s, figure %zu: %.17g and %.17g", nutrient_info[a->id].name, i, x[i], y[i]);
  assert_int_equal(a->verdict, b->verdict);
  assert_int_equal(a->known, b->known);
  assert_int_equal(a->near_upper, b->near_upper);
  assert_int_equal(a->close_to_limit, b->close_to_limit);
  assert_int_equal(a->verdict_by_window, b->verdict_by_window);
  assert_int_equal(a->highest_day_over, b->highest_day_over);
}

static void balances_are_equal(const struct balance *a, const struct balance *b) {
  const double x[] = {a->ca_p, a->zn_cu, a->n6_n3, a->k_na, a->phytate_zn, a->ca_phytate_zn};
  const double y[] = {b->ca_p, b->zn_cu, b->n6_n3, b->k_na, b->phytate_zn, b->ca_phytate_zn};
  for (size_t i = 0; i < COUNT_OF(x); i++) assert_true(same(x[i], y[i]));
}

/* Nothing of an answer is left in the next one. */
static void nothing_is_left_of_the_answer_before(void **state) {
  (void)state;
  seed = 1848;
  for (int round = 0; round < ROUNDS; round++) {
    struct arena arena;
    arena_init(&arena, NULL);
    struct ration_line line[] = {any_line(), any_line(), any_line()}, in = any_line();
    struct ration ration = {.name = "", .days = 1, .meals_per_day = NAN, .line = line, .line_count = COUNT_OF(line)};
    struct animal animal = any_animal();
    struct check_options o = CHECK_OPTIONS_DEFAULT;
    struct exchange *fresh = exchange_open(built_library(), &ration, 1, &animal, &o, &arena);
    struct exchange *used = exchange_open(built_library(), &ration, 1, &animal, &o, &arena);
    for (int i = 0; i < OFFERS; i++) {
      struct ration_line other = any_line();
      exchange_line(used, &other);
    }
    struct check_result a = *exchange_line(fresh, &in), b = *exchange_line(used, &in);
    for (int n = 0; n < NUT_COUNT; n++) a.nutrient[n].table = b.nutrient[n].table = NULL; /* each has its own */
    assert_memory_equal(a.nutrient, b.nutrient, sizeof a.nutrient);
    assert_true(same(a.energy.supply_kcal, b.energy.supply_kcal));
    exchange_close(fresh);
    exchange_close(used);
    arena_free(&arena);
  }
}

static void answers_are_those_of_check(void **state) {
  (void)state;
  seed = 20261128;
  for (int round = 0; round < ROUNDS; round++) {
    struct arena arena;
    arena_init(&arena, NULL);
    struct ration_line line[LINES_MOST];
    size_t count = 1 + (size_t)below(LINES_MOST), out = (size_t)below((int)count);
    for (size_t i = 0; i < count; i++) line[i] = any_line();
    struct ration ration = {.name = "", .days = 1, .meals_per_day = NAN, .line = line, .line_count = count};
    struct animal animal = any_animal();
    struct check_options o = {(enum standard_id)below(STANDARD_COUNT), (enum basis)below(BASIS_COUNT),
                              0.5 + 0.01 * below(50), ENERGY_ATWATER, 0};
    if (below(5) == 0) o.energy_by = below(2) ? ENERGY_FOUR_STEP : ENERGY_PUBLISHED;
    struct exchange *x = exchange_open(built_library(), &ration, out, &animal, &o, &arena);
    for (int i = 0; i < OFFERS; i++) {
      struct ration_line in = any_line();
      if (below(5) == 0) { /* a food that is there already, cooked in another way */
        in = line[below((int)count)];
        if (below(2)) in.part[0].retention = below((int)img_count(&built_library()->image, IMG_RETENTION));
      }
      const struct check_result *quick = exchange_line(x, &in);
      struct ration_line kept = line[out];
      line[out] = in;
      struct arena one;
      arena_init(&one, NULL);
      const struct check_result *whole = check_numbers(built_library(), &ration, &animal, &o, &one);
      assert_true(same(quick->energy.supply_kcal, whole->energy.supply_kcal));
      for (int n = 0; n < NUT_COUNT; n++) nutrients_are_equal(&quick->nutrient[n], &whole->nutrient[n]);
      balances_are_equal(&quick->balance, &whole->balance);
      assert_memory_equal(quick->verdict_count, whole->verdict_count, sizeof whole->verdict_count);
      arena_free(&one);
      line[out] = kept;
    }
    exchange_close(x);
    arena_free(&arena);
  }
}

/* One line more, the nutrients asked for one by one in any order: as when the line had been written. */
static void one_line_more_is_as_if_written(void **state) {
  (void)state;
  seed = 27;
  for (int round = 0; round < ROUNDS; round++) {
    struct arena arena, one;
    arena_init(&arena, NULL);
    struct ration_line line[LINES_MOST + 1];
    size_t count = (size_t)below(LINES_MOST + 1);
    for (size_t i = 0; i < count; i++) line[i] = any_line();
    struct ration ration = {.name = "", .days = 1, .meals_per_day = NAN, .line = line, .line_count = count}, more = ration;
    struct animal animal = any_animal();
    struct check_options o = CHECK_OPTIONS_DEFAULT;
    struct exchange *x = exchange_open(built_library(), &ration, count, &animal, &o, &arena);
    more.line_count = count + 1;
    for (int i = 0; i < OFFERS; i++) {
      line[count] = any_line();
      arena_init(&one, NULL);
      const struct check_result *whole = check_numbers(built_library(), &more, &animal, &o, &one);
      const struct check_result *sums = exchange_sums(x, &line[count]);
      assert_true(same(sums->energy.supply_kcal, whole->energy.supply_kcal));
      balances_are_equal(&sums->balance, &whole->balance);
      if (below(2)) exchange_judge(x, below(NUT_COUNT), below(NUT_COUNT + 20));
      for (int k = 0; k < 5; k++) {
        enum nutrient n = (enum nutrient)below(NUT_COUNT);
        nutrients_are_equal(exchange_nutrient(x, n), &whole->nutrient[n]);
      }
      arena_free(&one);
    }
    exchange_close(x);
    arena_free(&arena);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(answers_are_those_of_check),
                                     cmocka_unit_test(one_line_more_is_as_if_written),
                                     cmocka_unit_test(nothing_is_left_of_the_answer_before)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
