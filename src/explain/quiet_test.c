/* The shares are compared with what check says of the same ration, really scaled: nothing here repeats their formula. */
#include <gsl/gsl_rng.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#define RANDOM_SEED 1921
#include "tests/support/fresh_random.h"

#include "explain/quiet.h"
#include "judge/meal.h"
#include "tests/support/built_image.h"
#include "tests/support/near.h"
#include "tests/support/sampled.h"
#include "tests/support/tiny_image.h"

enum { RATIONS = SAMPLED(60, 10), MOST_LINES = 12 };
static const double STEP = 0.001;

struct bowl {
  struct ration_line line[MOST_LINES];
  size_t count;
  struct animal animal;
  struct check_options options;
};

/* Foods that bowls are made of, so that many needs are met and some limits are near. */
static const char *const FOODS[] = {"usda:17199",    "usda:13325", "usda:05028", "usda:17024",
                                    "usda:15236",    "usda:01123", "usda:15034", "usda:12014",
                                    "usda:20031",    "usda:11457", "usda:04593", "usda:15088",
                                    "cut:duck-neck", "usda:10219", "usda:05062", "ours:iodised-salt"};

static struct bowl random_bowl(enum species s, enum standard_id standard) {
  static const double TIMES[] = {28, 28, 28, 14, 8, 4};
  struct bowl b = {.count = 5 + gsl_rng_uniform_int(rng, MOST_LINES - 4)};
  for (size_t i = 0; i < b.count; i++) {
    uint32_t food = library_by_code(built_library(), span_of(FOODS[gsl_rng_uniform_int(rng, COUNT_OF(FOODS))]));
    if (food == NO_INDEX) food = (uint32_t)gsl_rng_uniform_int(rng, library_count(built_library()));
    b.line[i] = tiny_line_on(food, 2 + 120 * gsl_rng_uniform(rng), TIMES[gsl_rng_uniform_int(rng, COUNT_OF(TIMES))], (int)i);
    b.line[i].part[0].grams_cv = 0.1 * gsl_rng_uniform(rng);
  }
  b.animal = tiny_animal(s, s == SPECIES_DOG ? 3 + 20 * gsl_rng_uniform(rng) : 2.5 + 4 * gsl_rng_uniform(rng));
  b.options = CHECK_OPTIONS_DEFAULT;
  b.options.standard = standard;
  b.options.sure = 0.5 + 0.49 * gsl_rng_uniform(rng);
  return b;
}

static const struct check_result *check_share(const struct bowl *b, double share) {
  struct ration_line *line = ARENA_NEW(&arena, struct ration_line, b->count);
  struct ration *ration = ARENA_NEW(&arena, struct ration, 1);
  for (size_t i = 0; i < b->count; i++) {
    line[i] = b->line[i];
    line[i].grams_fed *= share;
    for (int p = 0; p < line[i].part_count; p++) line[i].part[p].grams *= share;
  }
  *ration = tiny_ration(line, b->count);
  return check_numbers(built_library(), ration, &b->animal, &b->options, &arena);
}

static enum verdict verdict_at(const struct bowl *b, double share, int nutrient) {
  return check_share(b, share)->nutrient[nutrient].verdict;
}

struct seen {
  int fell, rose, limited, shortened, grew;
};

static void assert_crossings(const struct bowl *b, const struct check_result *r, const struct quiet *q, struct seen *seen) {
  for (int k = 0; k < NUT_COUNT; k++) {
    struct quiet_nutrient x = q->of[k];
    const struct nutrient_result *n = &r->nutrient[k];
    if (isnan(x.met_from)) continue;
    if (n->verdict == VERDICT_MET) assert_true(x.met_from <= 1 + 1e-6 && x.met_to >= 1 - 1e-6);
    if (isinf(x.met_from)) {
      assert_true(verdict_at(b, 2, k) != VERDICT_MET && verdict_at(b, 20, k) != VERDICT_MET);
      continue;
    }
    if (x.met_from > 0) {
      assert_true(verdict_at(b, x.met_from * (1 - STEP), k) != VERDICT_MET);
      if (x.met_from * (1 + STEP) < x.met_to) {
        assert_int_equal(verdict_at(b, x.met_from * (1 + STEP), k), VERDICT_MET);
        if (n->verdict == VERDICT_MET) {
          seen->fell++;
        } else {
          seen->rose++;
        }
        seen->grew += n->adjusted;
      }
    }
    if (isfinite(x.met_to) && x.met_to * (1 - STEP) > x.met_from) {
      assert_int_equal(verdict_at(b, x.met_to * (1 - STEP), k), VERDICT_MET);
      assert_true(verdict_at(b, x.met_to * (1 + STEP), k) != VERDICT_MET);
      seen->limited++;
    }
    if (x.short_from > 0 && isfinite(x.short_from)) {
      enum verdict below = verdict_at(b, x.short_from * (1 - STEP), k);
      assert_true(below == VERDICT_SHORT || below == VERDICT_OVER);
      assert_true(verdict_at(b, x.short_from * (1 + STEP), k) != VERDICT_SHORT);
      seen->shortened++;
    }
  }
}

static void test_every_crossing_flips_the_verdict(void **state) {
  (void)state;
  for (enum species s = SPECIES_DOG; s < SPECIES_COUNT; s++) {
    struct seen seen = {0, 0, 0, 0, 0};
    for (int i = 0; i < RATIONS; i++) {
      struct bowl b = random_bowl(s, i % 3 == 2 ? STANDARD_FEDIAF2021 : STANDARD_NRC2006);
      const struct check_result *r = check_share(&b, 1);
      struct quiet q = quiet_of(r);
      assert_true(q.applies);
      assert_crossings(&b, r, &q, &seen);
    }
    assert_true(seen.fell > SAMPLED(100, 15) && seen.rose > SAMPLED(100, 15) && seen.shortened > SAMPLED(100, 15) &&
                seen.limited > SAMPLED(10, 0) && seen.grew > SAMPLED(5, -1));
  }
}

static int not_met(const struct check_result *now, const struct check_result *then) {
  int n = 0;
  for (int k = 0; k < NUT_COUNT; k++) {
    bool judged = now->nutrient[k].verdict != VERDICT_UNPROVEN && now->nutrient[k].verdict != VERDICT_NO_FIGURE;
    n += judged && then->nutrient[k].allowance > 0 && then->nutrient[k].verdict != VERDICT_MET;
  }
  return n;
}

/* A small made-up library in which bowls often meet everything at some share. */
static const struct library *few_needs(uint32_t food[4]) {
  static const enum nutrient NEED[] = {NUT_PROTEIN, NUT_ZINC, NUT_COPPER, NUT_CALCIUM, NUT_VITAMIN_E, NUT_LINOLEIC};
  struct tiny *t = tiny_new(&arena);
  for (int i = 0; i < 4; i++) {
    food[i] = tiny_food(t, "x", PART_MUSCLE, SPREAD_RED_MEAT);
    for (size_t k = 0; k < COUNT_OF(NEED); k++)
      tiny_value(t, food[i], NEED[k], 2 + 18 * gsl_rng_uniform(rng), 0.4 * gsl_rng_uniform(rng));
  }
  for (size_t k = 0; k < COUNT_OF(NEED); k++) {
    tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NEED[k], LEVEL_ALLOWANCE, PER_1000KCAL, 10, 130);
    if (k < 3) tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NEED[k], LEVEL_UPPER, PER_1000KCAL, 400, 130);
  }
  return tiny_open(t);
}

static const struct check_result *check_few(const struct library *lib, const uint32_t food[4], double grams) {
  struct animal *dog = ARENA_NEW(&arena, struct animal, 1);
  struct ration_line *line = ARENA_NEW(&arena, struct ration_line, 4);
  struct ration *ration = ARENA_NEW(&arena, struct ration, 1);
  for (int i = 0; i < 4; i++) line[i] = tiny_line_on(food[i], grams, i == 3 ? 14 : 28, i);
  *dog = tiny_animal(SPECIES_DOG, 10);
  dog->energy_kcal = 20; /* the foods have next to none: so that they are a meal */
  *ration = tiny_ration(line, 4);
  return check_numbers(lib, ration, dog, NULL, &arena);
}

/* The smallest share at which all is met: a little more leaves nothing unmet, a little less something. */
static void test_all_met_from(void **state) {
  (void)state;
  int found = 0, never = 0;
  for (int i = 0; i < 60; i++) {
    uint32_t food[4];
    const struct library *lib = few_needs(food);
    double grams = 5 + 60 * gsl_rng_uniform(rng);
    const struct check_result *r = check_few(lib, food, grams);
    struct quiet q = quiet_of(r);
    if (meal_is_none(r)) {
      assert_false(q.applies);
      continue;
    }
    if (!isfinite(q.all_met_from)) {
      for (double f = 0.05; f < 8; f *= 1.05) {
        const struct check_result *then = check_few(lib, food, grams * f);
        assert_true(meal_is_none(then) || not_met(r, then) > 0); /* no meal has the limits of a whole day's food */
      }
      never++;
      continue;
    }
    const struct check_result *above = check_few(lib, food, grams * q.all_met_from * (1 + STEP / 100));
    assert_true(not_met(r, check_few(lib, food, grams * q.all_met_from * (1 - STEP))) > 0);
    assert_int_equal(not_met(r, above), 0);
    assert_near(above->energy.supply_kcal, q.smallest_kcal, 1e-4 * q.smallest_kcal);
    found++;
  }
  assert_true(found >= 10 && never >= 5);
}

static void test_lost_at_is_what_check_says(void **state) {
  (void)state;
  static const double SHARE[] = {0.9, 0.8, 0.7, 0.6};
  for (int i = 0; i < SAMPLED(30, 8); i++) {
    struct bowl b = random_bowl(i % 2 ? SPECIES_DOG : SPECIES_CAT, STANDARD_NRC2006);
    const struct check_result *r = check_share(&b, 1);
    struct quiet q = quiet_of(r);
    for (size_t k = 0; k < COUNT_OF(SHARE); k++) {
      enum nutrient lost[NUT_COUNT];
      size_t n = quiet_lost_at(&q, r, SHARE[k], lost), at = 0;
      const struct check_result *then = check_share(&b, SHARE[k]);
      if (meal_is_none(then)) continue;
      for (int j = 0; j < NUT_COUNT; j++) {
        if (r->nutrient[j].verdict != VERDICT_MET || then->nutrient[j].verdict == VERDICT_MET) continue;
        assert_true(at < n);
        assert_int_equal(lost[at++], j);
      }
      assert_int_equal(at, n);
    }
  }
}

/* 1 g of the food brings 1 mg of zinc for sure; the need is 20 mg: met from 20 g on, by hand. Kept at 100 kcal a 10 g with
 * half of it from fat: with 40 g fed, half the food does; of a need of 400 kcal 200 are left, and the fat share becomes
 * (100 + 200) / 400. */
static void test_by_hand(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  uint32_t food = tiny_food(t, "a", PART_MUSCLE, SPREAD_RED_MEAT);
  tiny_value(t, food, NUT_ZINC, 100, 0);
  tiny_value(t, food, NUT_FAT, 50 / 9.0 * 10, 0);
  tiny_value(t, food, NUT_PROTEIN, 50 / 4.0 * 10, 0);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_ZINC, LEVEL_ALLOWANCE, PER_1000KCAL, 200, 100);
  const struct library *lib = tiny_open(t);
  struct animal dog = tiny_animal(SPECIES_DOG, 1);
  dog.energy_kcal = 400;
  struct ration_line line = tiny_line(food, 40);
  struct ration ration = tiny_ration(&line, 1);
  struct check_options o = CHECK_OPTIONS_DEFAULT;
  struct quiet q = quiet_of(check_numbers(lib, &ration, &dog, &o, &arena));
  assert_true(q.applies);
  assert_near(q.all_met_from, 0.5, 1e-6);
  assert_int_equal(q.first_lost, NUT_ZINC);
  assert_near(q.smallest_kcal, 200, 1e-4);
  assert_near(q.highest_fat_share, 0.75, 1e-6);
  o.basis = BASIS_ENERGY;
  assert_false(quiet_of(check_numbers(lib, &ration, NULL, &o, &arena)).applies);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(test_every_crossing_flips_the_verdict),
                                     cmocka_unit_test(test_all_met_from), cmocka_unit_test(test_lost_at_is_what_check_says),
                                     cmocka_unit_test(test_by_hand)};
  return cmocka_run_group_tests(tests, fresh_random, done_random);
}
