/* Ratios: reading, weighing, and the promise that no division within the ratio does better than the best reported. */
#include <gsl/gsl_rng.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#define RANDOM_SEED 80105
#include "tests/support/fresh_random.h"

#include "explain/ratio.h"
#include "tests/support/built_image.h"
#include "tests/support/near.h"
#include "tests/support/tiny_image.h"

static bool reads(const char *text, struct ratio *out) {
  struct buf b;
  buf_init(&b, &arena, 1000);
  bool good = ratio_read(span_of(text), out, &b);
  assert_true(good == (b.n == 0));
  return good;
}

static unsigned one(enum bowl_part p) { return 1U << p; }

static void test_reading(void **state) {
  (void)state;
  struct ratio q;
  assert_true(reads("80:10:5:5", &q) && q.count == 4);
  assert_int_equal(q.piece[0].parts, one(BOWL_MUSCLE) | one(BOWL_FISH));
  assert_int_equal(q.piece[3].parts, one(BOWL_ORGAN_SECRETING));
  assert_near(q.piece[1].share, 0.10, 1e-12);
  assert_true(reads(" 80 : 10 / 10 ", &q) && q.count == 3);
  assert_int_equal(q.piece[2].parts, one(BOWL_ORGAN_LIVER) | one(BOWL_ORGAN_SECRETING));
  assert_true(reads("muscle 70, bone 10, liver 5, organ 5, plant 10", &q) && q.count == 5);
  assert_int_equal(q.piece[3].parts, one(BOWL_ORGAN_SECRETING));
  assert_true(reads("organs 10%, 5 liver, 75 meat, bones 10", &q) && q.count == 4);
  assert_int_equal(q.piece[0].parts, one(BOWL_ORGAN_SECRETING));
  assert_true(reads("meat 60, fish 20, organs 10, vegetables 10", &q));
  assert_int_equal(q.piece[0].parts, one(BOWL_MUSCLE));
  assert_int_equal(q.piece[2].parts, one(BOWL_ORGAN_LIVER) | one(BOWL_ORGAN_SECRETING));
  assert_false(reads("80:10:5", &q));
  assert_false(reads("80:20", &q));
  assert_false(reads("80:10:5:5:0", &q));
  assert_false(reads("muscle 80, feathers 20", &q));
  assert_false(reads("muscle 80, muscle 20", &q));
  assert_false(reads("muscle, bone 20", &q));
  assert_false(reads("muscle 70, bone 10", &q));
  assert_false(reads("", &q));
}

/* 70 + 5 + 15 + 10 g of muscle, bone, liver and vegetable against 80:10:5:5 of 100 g: by hand. */
static void test_weighing(void **state) {
  (void)state;
  struct ration_line line[4] = {tiny_line(built_food("usda:17024"), 70), tiny_line(built_food("bone:chicken"), 5),
                                tiny_line(built_food("usda:17199"), 15), tiny_line(built_food("usda:11457"), 10)};
  struct ration ration = tiny_ration(line, 4);
  struct ratio q;
  assert_true(reads("80:10:5:5", &q));
  const struct check_result *r = check_numbers(built_library(), &ration, NULL, NULL, &arena);
  const struct ratio_view *v = ratio_view_of(built_library(), r, &q, &arena);
  static const double DIFFERENCE[] = {10, 5, -10, 5};
  for (int i = 0; i < 4; i++) assert_near(v->row[i].difference_g, DIFFERENCE[i], 1e-9);
  assert_near(v->beside_total_g, 10, 1e-9);
  assert_near(v->beside_g[BOWL_PLANT], 10, 1e-9);
  assert_true(v->row[3].absent && !v->row[2].absent);
  assert_int_equal(v->open_count + v->within_count, 0);
}

enum { FOODS = 9 };
static const char *const FOOD[FOODS] = {"usda:17024", "usda:23485", "usda:05028", "usda:15236", "bone:chicken",
                                        "usda:17199", "usda:05027", "usda:17195", "usda:11457"};

/* Fills the ratio with these foods in random proportions; 'total' grams. */
static void divide(const struct ratio *q, struct ration_line line[FOODS], double total) {
  for (int i = 0; i < FOODS; i++) line[i] = tiny_line(built_food(FOOD[i]), 0);
  for (int p = 0; p < q->count; p++) {
    double weight[FOODS], sum = 0;
    for (int i = 0; i < FOODS; i++) {
      unsigned part = one(json_part_of((enum part)built_record(FOOD[i])->part));
      weight[i] = q->piece[p].parts & part ? gsl_rng_uniform(rng) : 0;
      if (gsl_rng_uniform_int(rng, 3) == 0) weight[i] *= 1e-3;
      sum += weight[i];
    }
    for (int i = 0; i < FOODS && sum > 0; i++) {
      line[i].grams_fed += total * q->piece[p].share * weight[i] / sum;
      line[i].part[0].grams = line[i].grams_fed;
    }
  }
}

static void test_nothing_within_the_ratio_beats_the_best(void **state) {
  (void)state;
  static const char *const RATIO[] = {"80:10:5:5", "80:10:10", "muscle 60, fish 10, bone 10, organ 10, plant 10"};
  int open = 0, within = 0;
  for (int i = 0; i < 60; i++) {
    struct ratio q;
    assert_true(reads(RATIO[i % 3], &q));
    struct ration_line line[FOODS];
    struct animal dog = tiny_animal(i % 2 ? SPECIES_DOG : SPECIES_CAT, 5);
    divide(&q, line, 300);
    struct ration ration = tiny_ration(line, FOODS);
    const struct check_result *r = check_numbers(built_library(), &ration, &dog, NULL, &arena);
    const struct ratio_view *v = ratio_view_of(built_library(), r, &q, &arena);
    for (int p = 0; p < q.count; p++) assert_near(v->row[p].difference_g, 0, 1e-6);
    open += v->open_count;
    within += v->within_count;
    for (int k = 0; k < 8; k++) {
      struct ration_line other[FOODS];
      divide(&q, other, 300);
      struct ration changed = tiny_ration(other, FOODS);
      const struct check_result *c = check_numbers(built_library(), &changed, &dog, NULL, &arena);
      for (int j = 0; j < v->open_count; j++) {
        double x = c->nutrient[v->open[j].id].amount;
        assert_true(x <= v->open[j].best * (1 + 1e-9));
        assert_true(v->open[j].best < r->nutrient[v->open[j].id].allowance);
      }
      for (int j = 0; j < v->within_count; j++)
        assert_true(c->nutrient[v->within[j].id].amount <= v->within[j].best * (1 + 1e-9));
    }
  }
  assert_true(open > 50 && within > 10);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(test_reading), cmocka_unit_test(test_weighing),
                                     cmocka_unit_test(test_nothing_within_the_ratio_beats_the_best)};
  return cmocka_run_group_tests(tests, fresh_random, done_random);
}
