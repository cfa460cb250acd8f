/* memory_test.c: many rations in a row with what stays the same kept, against each of them judged alone: to the last bit.
 * Few foods, so that they come again, some of which want one place; dogs and cats in turn, all standards, ways of cooking.
 * Who supplies what is asked for before and after the next ration. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "judge/memory.h"
#include "tests/support/any_bowl.h"

enum { ROUNDS = 300, LINES_MOST = 9, FOODS = 12, PLACES = 2048 };

static bool same(double a, double b) { return a == b || (isnan(a) && isnan(b)); }

static void suppliers_are_equal(const struct supply_list *a, const struct supply_list *b) {
  assert_int_equal(a->from_count, b->from_count);
  for (size_t i = 0; i < a->from_count; i++) {
    const struct supplier *x = &a->from[i], *y = &b->from[i];
    assert_int_equal(x->line, y->line);
    assert_int_equal(x->status, y->status);
    assert_true(same(x->amount, y->amount) && same(x->share, y->share));
  }
  assert_int_equal(a->missing_count, b->missing_count);
  for (size_t i = 0; i < a->missing_count; i++) assert_int_equal(a->missing[i], b->missing[i]);
}

static void nutrients_are_equal(const struct nutrient_result *a, const struct nutrient_result *b) {
  const double x[] = {a->amount,         a->low,       a->high,          a->cv,          a->known_share, a->possible,
                      a->minimum,        a->upper,     a->allowance,     a->ratio,       a->chance_met,  a->chance_kept,
                      a->window_high_cv, a->window_cv, a->window_amount, a->window_high, a->window_most, a->estimated_share};
  const double y[] = {b->amount,         b->low,       b->high,          b->cv,          b->known_share, b->possible,
                      b->minimum,        b->upper,     b->allowance,     b->ratio,       b->chance_met,  b->chance_kept,
                      b->window_high_cv, b->window_cv, b->window_amount, b->window_high, b->window_most, b->estimated_share};
  for (size_t i = 0; i < COUNT_OF(x); i++)
    if (!same(x[i], y[i])) fail_msg("%s, figure %zu: %.17g and %.17g", nutrient_info[a->id].name, i, x[i], y[i]);
  assert_int_equal(a->verdict, b->verdict);
  suppliers_are_equal(who_supplies(a), who_supplies(b));
  assert_string_equal(allowance_how(a->table), allowance_how(b->table));
}

static struct ration_line any_line_of(const uint32_t *food) {
  struct ration_line l = line_of(food[below(FOODS)], 1 + below(150));
  if (below(3) == 0) l.part[0].retention = below(4);
  if (below(3) == 0) ration_spread_days(&l, 1 + below(CALENDAR_DAYS), 0);
  return l;
}

static void a_row_of_rations(void **state) {
  (void)state;
  struct arena kept;
  uint32_t food[FOODS];
  struct library lib = *built_library();
  seed = 1129;
  arena_init(&kept, NULL);
  lib.judged = judge_memory_new(&kept);
  for (int i = 0; i < FOODS; i++)
    food[i] = i % 2 ? food[i - 1] + PLACES : (uint32_t)below((int)library_count(&lib) - PLACES);
  for (int round = 0; round < ROUNDS; round++) {
    struct arena arena;
    struct ration_line line[LINES_MOST];
    size_t count = (size_t)below(LINES_MOST + 1);
    for (size_t i = 0; i < count; i++) line[i] = any_line_of(food);
    struct ration ration = {.name = "", .days = 1, .meals_per_day = NAN, .line = line, .line_count = count};
    struct animal animal = any_animal(), other = any_animal();
    struct check_options o = {(enum standard_id)below(STANDARD_COUNT), (enum basis)below(BASIS_COUNT), 0.75, ENERGY_ATWATER, 0};
    if (below(3) == 0) o.energy_by = below(2) ? ENERGY_FOUR_STEP : ENERGY_PUBLISHED;
    if (below(4) == 0) animal.energy_kcal = 300 + below(900);
    arena_init(&arena, NULL);
    const struct check_result *a = check_numbers(&lib, &ration, &animal, &o, &arena),
                              *b = check_numbers(built_library(), &ration, &animal, &o, &arena);
    if (below(2)) check_numbers(&lib, &ration, &other, &o, &arena); /* the same foods are lent again, for another species */
    assert_true(same(a->energy.supply_kcal, b->energy.supply_kcal));
    assert_true(same(a->energy.four_step_kcal, b->energy.four_step_kcal));
    assert_true(same(a->energy.published_kcal, b->energy.published_kcal));
    for (int n = 0; n < NUT_COUNT; n++) nutrients_are_equal(&a->nutrient[n], &b->nutrient[n]);
    assert_string_equal(a->energy.need.from, b->energy.need.from);
    assert_true(same(a->energy.need.kcal, b->energy.need.kcal) && same(a->body.metabolic_kg, b->body.metabolic_kg));
    assert_memory_equal(a->verdict_count, b->verdict_count, sizeof a->verdict_count);
    arena_free(&arena);
  }
  arena_free(&kept);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(a_row_of_rations)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
