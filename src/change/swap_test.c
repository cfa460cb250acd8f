/* swap_test.c: the pass against the judge itself (check_numbers), over random rations of the real library. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "change/swap.h"
#include "near.h"
#include "tests/support/built_image.h"

enum { OFFERS = 150, LINES_MOST = 9 };

static uint64_t seed = 20260711;
static uint32_t draw(uint32_t below) {
  seed = seed * 6364136223846793005ULL + 1442695040888963407ULL;
  return (uint32_t)(((seed >> 33) * below) >> 31);
}

static uint32_t any_food(void) {
  for (;;) {
    uint32_t f = draw((uint32_t)library_count(built_library()));
    if (!(library_food(built_library(), f)->flags & (FOOD_DISH | FOOD_BRAND))) return f;
  }
}

/* As a recipe's reader would fill it: bone-in pieces in two parts. */
static struct ration_line line_of(uint32_t food, double grams) {
  const struct img_food *f = library_food(built_library(), food);
  bool bone = (f->flags & FOOD_CUT) && f->bone_share > 0 && f->bone_food != NO_INDEX;
  double share = bone ? (double)f->bone_share : 0;
  struct ration_line l = {.text = "",
                          .part_count = bone ? 2 : 1,
                          .grams_fed = grams,
                          .shown_food = food,
                          .state = STATE_UNSTATED,
                          .grams_from = ""};
  l.part[0] = (struct portion){.food = food, .grams = grams * (1 - share), .retention = -1};
  if (bone) l.part[1] = (struct portion){.food = f->bone_food, .grams = grams * share, .grams_cv = 0.2, .retention = -1};
  ration_spread_days(&l, CALENDAR_DAYS, 0);
  return l;
}

static struct animal any_animal(void) {
  bool cat = draw(2) == 1;
  return (struct animal){.name = "",
                         .species = cat ? SPECIES_CAT : SPECIES_DOG,
                         .weight_kg = cat ? 3 + draw(4) : 4 + draw(40),
                         .ideal_kg = NAN,
                         .condition = NAN,
                         .age_years = 5,
                         .adult_weight_kg = NAN,
                         .neutered = 1,
                         .activity = ACTIVITY_MODERATE,
                         .energy_kcal = NAN,
                         .status = "healthy",
                         .healthy = true};
}

static void fill_line(struct ration_line *l, bool may_be_rare) {
  *l = line_of(any_food(), 2 + draw(140));
  if (may_be_rare && draw(4) == 0) ration_spread_days(l, 4 * (1 + draw(4)), (int)draw(7));
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
    size_t count = 1 + draw(LINES_MOST);
    for (size_t i = 0; i < count; i++) fill_line(&line[i], true);
    size_t out = draw((uint32_t)count);
    fill_line(&line[out], draw(6) == 0);
    for (int i = 0; i < OFFERS; i++) offer[i] = line_of(i == 0 ? line[0].shown_food : any_food(), 1);
    struct ration ration = {.name = "", .days = 1, .meals_per_day = NAN, .line = line, .line_count = count};
    struct animal animal = any_animal();
    struct check_options o = {(enum standard_id)draw(STANDARD_COUNT), (enum basis)draw(BASIS_COUNT), 0.5 + 0.01 * draw(50),
                              draw(8) == 0 ? ENERGY_FOUR_STEP : ENERGY_ATWATER};
    struct swap_ask q = {built_library(), &ration, out, &animal, o, draw(2) == 1, offer, OFFERS, NULL, NULL};
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
  assert_int_equal(swap_best(s, best, 2), 1);
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
  struct ration_line line[3] = {line_of(any_food(), 100), line_of(any_food(), 80), line_of(built_food("usda:17191"), 200)};
  struct ration_line offer[OFFERS];
  for (int i = 0; i < OFFERS; i++) offer[i] = line_of(any_food(), 1);
  struct ration ration = {.name = "", .days = 1, .meals_per_day = NAN, .line = line, .line_count = 3};
  struct animal dog = any_animal();
  struct swap_ask q = {built_library(), &ration, 2, &dog, CHECK_OPTIONS_DEFAULT, true, offer, OFFERS, NULL, NULL};
  struct swap *s = swap_open(&q, &a);
  size_t best[OFFERS], few[5];
  swap_pass(s);
  size_t n = swap_best(s, best, OFFERS);
  assert_int_equal(n, swap_possible(s));
  for (size_t i = 1; i < n; i++) assert_true(swap_score(s, best[i - 1]) >= swap_score(s, best[i]));
  assert_int_equal(swap_best(s, few, 5), 5);
  assert_memory_equal(few, best, sizeof few);
  arena_free(&a);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(verdicts_are_those_of_the_judge),
      cmocka_unit_test(a_food_for_itself_changes_nothing),
      cmocka_unit_test(what_is_too_bulky_is_left_out),
      cmocka_unit_test(a_refused_animal_gets_nothing),
      cmocka_unit_test(the_best_come_first),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
