/* Rows and groups of a comparison, by hand and as properties over random rations. */
#include <gsl/gsl_rng.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#define RANDOM_SEED 26
#include "tests/support/fresh_random.h"

#include "explain/side.h"
#include "judge/verdict.h"
#include "tests/support/built_image.h"
#include "tests/support/near.h"
#include "tests/support/tiny_image.h"

/* Zinc 20 mg and copper 2 mg are needed: one bowl has enough of both, the other a quarter of the copper. */
static void test_what_parts_them_comes_first(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  uint32_t rich = tiny_food(t, "rich", PART_ORGAN_LIVER, SPREAD_ORGAN),
           poor = tiny_food(t, "poor", PART_MUSCLE, SPREAD_RED_MEAT);
  tiny_value(t, rich, NUT_ZINC, 30, 0);
  tiny_value(t, rich, NUT_COPPER, 4, 0);
  tiny_value(t, poor, NUT_ZINC, 60, 0);
  tiny_value(t, poor, NUT_COPPER, 0.5, 0);
  for (int i = 0; i < 2; i++) {
    tiny_value(t, i ? poor : rich, NUT_FAT, 10, 0);
    tiny_value(t, i ? poor : rich, NUT_IRON, i ? 5 : 4.5, 0);
  }
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_ZINC, LEVEL_ALLOWANCE, PER_1000KCAL, 200, 100);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_COPPER, LEVEL_ALLOWANCE, PER_1000KCAL, 20, 100);
  const struct library *lib = tiny_open(t);
  struct animal dog = tiny_animal(SPECIES_DOG, 1);
  struct ration_line line[2] = {tiny_line(rich, 100), tiny_line(poor, 100)};
  struct ration ration[2] = {tiny_ration(&line[0], 1), tiny_ration(&line[1], 1)};
  struct side_item item[2] = {{.name = "rich", .ration = &ration[0]}, {.name = "poor", .ration = &ration[1]}};
  const struct side *s = side_compare(lib, SIDE_RECIPES, SIDE_PER_DAY, item, 2, &dog, NULL, &arena);
  assert_int_equal(s->group[0].meaning, SIDE_VERDICTS_DIFFER);
  assert_int_equal(s->group[0].verdict[0], VERDICT_MET);
  assert_int_equal(s->group[0].verdict[1], VERDICT_SHORT);
  assert_int_equal(s->group[0].count, 1);
  assert_int_equal(s->row[0].id, NUT_COPPER);
  assert_near(s->row[0].factor, 8, 1e-6);
  assert_near(s->row[0].ratio[0], 2, 1e-6);
  assert_int_equal(s->group[1].meaning, SIDE_SAME_VERDICT);
  assert_int_equal(s->row[s->group[1].first].id, NUT_ZINC);
  /* Per 100 g and per 1000 kcal: 100 g hold 90 kcal. */
  const struct side *per_100g = side_compare(lib, SIDE_FOODS, SIDE_PER_100G, item, 2, NULL, NULL, &arena);
  assert_int_equal(per_100g->row[0].id, NUT_COPPER); /* the most in A is told before the most in B */
  for (int i = 0; i < per_100g->row_count; i++)
    if (per_100g->row[i].id == NUT_ZINC) assert_near(per_100g->row[i].amount[1], 60, 1e-6);
  const struct side *per_kcal = side_compare(lib, SIDE_FOODS, SIDE_PER_1000KCAL, item, 2, NULL, NULL, &arena);
  for (int i = 0; i < per_kcal->row_count; i++)
    if (per_kcal->row[i].id == NUT_ZINC) assert_near(per_kcal->row[i].amount[1], 60 / 0.09, 1e-3);
}

static void assert_in_order(const struct side *s) {
  bool seen[NUT_COUNT] = {false};
  int rows = 0;
  for (int g = 0; g < s->group_count; g++) {
    const struct side_group *group = &s->group[g];
    assert_int_equal(group->first, rows);
    assert_true(group->count > 0);
    for (int i = group->first; i < group->first + group->count; i++) {
      const struct side_row *row = &s->row[i];
      assert_false(seen[row->id]);
      seen[row->id] = true;
      double above = i > group->first ? s->row[i - 1].factor : INFINITY;
      assert_true(isnan(row->factor) || isnan(above) || row->factor <= above);
      for (int k = 0; k < s->count; k++)
        if (group->meaning == SIDE_VERDICTS_DIFFER || group->meaning == SIDE_SAME_VERDICT)
          assert_int_equal(row->verdict[k], group->verdict[k]);
      if (group->meaning == SIDE_ALIKE) assert_true(row->factor < SIDE_MUCH);
    }
    rows += group->count;
  }
  assert_int_equal(rows, s->row_count);
}

static void test_every_row_once_and_in_order(void **state) {
  (void)state;
  for (int i = 0; i < 40; i++) {
    struct side_item item[SIDE_MOST];
    int count = 2 + (int)gsl_rng_uniform_int(rng, 5);
    for (int k = 0; k < count; k++) {
      struct ration_line *line = ARENA_NEW(&arena, struct ration_line, 4);
      struct ration *ration = ARENA_NEW(&arena, struct ration, 1);
      for (int j = 0; j < 4; j++)
        line[j] = tiny_line((uint32_t)gsl_rng_uniform_int(rng, library_count(built_library())), 200 * gsl_rng_uniform(rng));
      *ration = tiny_ration(line, 4);
      item[k] = (struct side_item){.name = "x", .ration = ration};
    }
    struct animal dog = tiny_animal(SPECIES_DOG, 12);
    assert_in_order(side_compare(built_library(), i % 3 == 0 ? SIDE_FOODS : SIDE_RECIPES,
                                 (enum side_per)(i % SIDE_PER_COUNT), item, count, i % 2 ? &dog : NULL, NULL, &arena));
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(test_what_parts_them_comes_first),
                                     cmocka_unit_test(test_every_row_once_and_in_order)};
  return cmocka_run_group_tests(tests, fresh_random, done_random);
}
