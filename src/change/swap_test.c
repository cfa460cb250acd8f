/* swap_test.c: the pass against the judge itself (check_numbers), over random rations of the real library. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "change/swap.h"
#include "near.h"
#include "tests/support/any_bowl.h"

enum { OFFERS = 150, LINES_MOST = 9 };

static void fill_line(struct ration_line *l, bool may_be_rare) {
  *l = line_of(any_food(FOOD_DISH | FOOD_BRAND), 2 + below(140));
  if (may_be_rare && below(4) == 0) ration_spread_days(l, 4 * (1 + below(4)), below(7));
}

static void compare(const struct swap_ask *q, struct arena *a) {
  struct swap *s = swap_open(q, a);
  const struct check_result *before = check_numbers(q->lib, q->ration, q->animal, &q->options, a);
  assert_non_null(s);
  swap_pass(s);
  for (size_t i = 0; i < q->offers; i++) {
    if (!(swap_grams(s, i) > 0)) continue;
    struct arena one;
    arena_init(&one, NULL);
    struct ration r = swap_ration(s, i, &one);
    const struct check_result *c = check_numbers(q->lib, &r, q->animal, &q->options, &one);
    double trouble = 0;
    for (int n = 0; n < NUT_COUNT; n++) {
      const struct nutrient_result *now = &c->nutrient[n], *then = &before->nutrient[n];
      if (swap_verdict(s, i, (enum nutrient)n) != now->verdict)
        fail_msg("%s, %s: %s in the pass, %s by the judge", library_name(q->lib, q->offer[i].shown_food),
                 nutrient_info[n].name, verdict_word[swap_verdict(s, i, (enum nutrient)n)], verdict_word[now->verdict]);
      trouble += swap_trouble_of(then) - swap_trouble_of(now);
    }
    assert_near(swap_score(s, i), trouble, 1e-3);
    arena_free(&one);
  }
}

static void verdicts_are_those_of_the_judge(void **state) {
  (void)state;
  for (int round = 0; round < 60; round++) {
    struct arena a;
    arena_init(&a, NULL);
    struct ration_line line[LINES_MOST], offer[OFFERS];
    size_t count = 1 + (size_t)below(LINES_MOST);
    for (size_t i = 0; i < count; i++) fill_line(&line[i], true);
    size_t out = (size_t)below((int)count);
    fill_line(&line[out], below(6) == 0);
    for (int i = 0; i < OFFERS; i++) offer[i] = line_of(i == 0 ? line[0].shown_food : any_food(FOOD_DISH | FOOD_BRAND), 1);
    struct ration ration = {.name = "", .days = 1, .meals_per_day = NAN, .line = line, .line_count = count};
    struct animal animal = any_animal();
    struct check_options o = {(enum standard_id)below(STANDARD_COUNT), (enum basis)below(BASIS_COUNT),
                              0.5 + 0.01 * below(50), below(8) == 0 ? ENERGY_FOUR_STEP : ENERGY_ATWATER, 0};
    struct swap_ask q = {built_library(), &ration, out, &animal, o, below(2) == 1, offer, OFFERS, NULL, NULL};
    compare(&q, &a);
    arena_free(&a);
  }
}

/* 100 g of liver against liver: the record itself changes nothing, and equal energy is equal grams. */
static void a_food_for_itself_changes_nothing(void **state) {
  (void)state;
  struct arena a;
  arena_init(&a, NULL);
  struct ration_line line[2] = {line_of(built_food("usda:17199"), 100), line_of(built_food("usda:17191"), 300)};
  struct ration_line offer = line_of(built_food("usda:17199"), 1);
  struct ration ration = {.name = "", .days = 1, .meals_per_day = NAN, .line = line, .line_count = 2};
  struct animal dog = any_animal();
  struct swap_ask q = {built_library(), &ration, 0, &dog, CHECK_OPTIONS_DEFAULT, false, &offer, 1, NULL, NULL};
  struct swap *s = swap_open(&q, &a);
  swap_pass(s);
  assert_near(swap_grams(s, 0), 100, 1e-9);
  assert_near(swap_score(s, 0), 0, 1e-5);
  arena_free(&a);
}

/* Fat has 9 kcal a gram, lean heart about 1.2: as much energy as 10 g of oil is over four times its weight in heart. */
static void what_is_too_bulky_is_left_out(void **state) {
  (void)state;
  struct arena a;
  arena_init(&a, NULL);
  struct ration_line line = line_of(built_food("usda:04593"), 10);
  struct ration_line offer[2] = {line_of(built_food("usda:17191"), 1), line_of(built_food("usda:04002"), 1)};
  struct ration ration = {.name = "", .days = 1, .meals_per_day = NAN, .line = &line, .line_count = 1};
  struct animal dog = any_animal();
  struct swap_ask q = {built_library(), &ration, 0, &dog, CHECK_OPTIONS_DEFAULT, false, offer, 2, NULL, NULL};
  struct swap *s = swap_open(&q, &a);
  size_t best[2];
  swap_pass(s);
  assert_true(isnan(swap_grams(s, 0)));
  assert_near(swap_grams(s, 1), 10, 0.5);
  assert_int_equal(swap_possible(s), 1);
  enum swap_near part[2];
  assert_int_equal(swap_best(s, best, part, 2), 1);
  assert_int_equal(best[0], 1);
  arena_free(&a);
}

static void a_refused_animal_gets_nothing(void **state) {
  (void)state;
  struct arena a;
  arena_init(&a, NULL);
  struct ration_line line = line_of(built_food("usda:17199"), 100), offer = line_of(built_food("usda:17191"), 1);
  struct ration ration = {.name = "", .days = 1, .meals_per_day = NAN, .line = &line, .line_count = 1};
  struct animal dog = any_animal();
  dog.pregnant = true;
  struct swap_ask q = {built_library(), &ration, 0, &dog, CHECK_OPTIONS_DEFAULT, false, &offer, 1, NULL, NULL};
  assert_null(swap_open(&q, &a));
  arena_free(&a);
}

static void the_best_come_first(void **state) {
  (void)state;
  struct arena a;
  arena_init(&a, NULL);
  struct ration_line line[3] = {line_of(any_food(FOOD_DISH | FOOD_BRAND), 100),
                                line_of(any_food(FOOD_DISH | FOOD_BRAND), 80), line_of(built_food("usda:17191"), 200)};
  struct ration_line offer[OFFERS];
  for (int i = 0; i < OFFERS; i++) offer[i] = line_of(any_food(FOOD_DISH | FOOD_BRAND), 1);
  struct ration ration = {.name = "", .days = 1, .meals_per_day = NAN, .line = line, .line_count = 3};
  struct animal dog = any_animal();
  struct swap_ask q = {built_library(), &ration, 2, &dog, CHECK_OPTIONS_DEFAULT, true, offer, OFFERS, NULL, NULL};
  struct swap *s = swap_open(&q, &a);
  size_t best[OFFERS], few[5];
  enum swap_near part[OFFERS];
  swap_pass(s);
  size_t n = swap_best(s, best, part, OFFERS);
  assert_int_equal(n, swap_possible(s));
  for (size_t i = 1; i < n; i++) assert_true(swap_score(s, best[i - 1]) >= swap_score(s, best[i]));
  assert_int_equal(swap_best(s, few, part, 5), 5);
  assert_memory_equal(few, best, sizeof few);
  arena_free(&a);
}

/* Half of the list for what is close, however poor; then what is common; only when that is used up what is rare. */
static void the_nearer_come_first(void **state) {
  (void)state;
  struct arena a;
  arena_init(&a, NULL);
  struct ration_line line = line_of(built_food("usda:17191"), 200), offer[OFFERS];
  enum swap_near near[OFFERS], part[OFFERS];
  size_t best[OFFERS], common = 0;
  for (int i = 0; i < OFFERS; i++) {
    offer[i] = line_of(any_food(FOOD_DISH | FOOD_BRAND), 1);
    near[i] = i % 7 == 0 ? SWAP_CLOSE : i % 3 == 0 ? SWAP_COMMON : SWAP_RARE;
  }
  struct ration ration = {.name = "", .days = 1, .meals_per_day = NAN, .line = &line, .line_count = 1};
  struct animal dog = any_animal();
  struct swap_ask q = {built_library(), &ration, 0, &dog, CHECK_OPTIONS_DEFAULT, true, offer, OFFERS, NULL, near};
  struct swap *s = swap_open(&q, &a);
  swap_pass(s);
  size_t n = swap_best(s, best, part, 6);
  assert_int_equal(n, 6);
  for (size_t i = 0; i < n; i++) assert_int_equal(part[i], i < 3 ? SWAP_CLOSE : SWAP_COMMON);
  for (size_t i = 0; i < n; i++) assert_true(near[best[i]] >= part[i]);
  n = swap_best(s, best, part, OFFERS);
  assert_int_equal(n, swap_possible(s));
  for (size_t i = 0; i < n; i++) {
    common += near[best[i]] > SWAP_RARE;
    if (i > 0) assert_true(part[i] <= part[i - 1]);
    if (i > 0 && part[i] == part[i - 1]) assert_true(swap_score(s, best[i - 1]) >= swap_score(s, best[i]));
    if (near[best[i]] == SWAP_RARE) assert_int_equal(part[i], SWAP_RARE);
  }
  assert_true(common > 6);
  arena_free(&a);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(verdicts_are_those_of_the_judge),
      cmocka_unit_test(a_food_for_itself_changes_nothing),
      cmocka_unit_test(what_is_too_bulky_is_left_out),
      cmocka_unit_test(a_refused_animal_gets_nothing),
      cmocka_unit_test(the_best_come_first),
      cmocka_unit_test(the_nearer_come_first),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
