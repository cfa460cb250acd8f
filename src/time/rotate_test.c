/* Rotations against plain enumeration: every order of the recipes is judged as a week by itself, and the fewest changes of
 * those that hold are compared with what the search found. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

#include "judge/check.h"
#include "recipe/recipe_text.h"
#include "tests/support/built_image.h"
#include "time/rotate.h"

enum { RECIPES = 3, DAYS = 6, ORDERS = 729 }; /* RECIPES to the power of DAYS */

static uint64_t seed = 20261128;
static uint32_t draw(uint32_t below) {
  seed = seed * 6364136223846793005ULL + 1442695040888963407ULL;
  return (uint32_t)(((seed >> 33) * below) >> 31);
}

static const struct animal *dog(void) {
  static struct animal a;
  a = animal_plain(SPECIES_DOG, 18);
  a.age_years = 6;
  a.neutered = 1;
  return &a;
}

/* A bowl that meets everything, and what its small lines may be in a recipe: none, half, as it is, or more. */
static struct ration *recipe(const char *text) {
  struct diags d;
  struct recipe *r = ARENA_NEW(&arena, struct recipe, 1);
  struct ration *out = ARENA_NEW(&arena, struct ration, 1);
  diags_init(&d, &arena, "t", span_of(text));
  assert_true(recipe_parse(span_of(text), &d, r, &arena));
  assert_true(recipe_resolve(built_library(), r, &d, out, &arena));
  return out;
}

static const char BOWL[] =
    "300 g lamb shoulder, cubed, raw\n1 large egg, every other day\n60 g duck neck, raw, bone-in\n"
    "1/4 cup cooked millet\n20 g lamb liver [usda:17199]\n1 tsp ground hemp seed\n"
    "28 g cooked mussels [usda:15165]\n23 g spinach [usda:11457]\n1 tablet iodine 225 \xC2\xB5g [ours:potassium-iodide]\n"
    "1 capsule choline 250 mg [ours:choline-bitartrate]\n0.5 drop vitamin D3 400 IU [ours:vitamin-d3]\n"
    "0.5 capsule vitamin E 200 IU\n";

static const struct ration *varied(void) {
  static const double TIMES[] = {0, 0.5, 1, 1, 1.6, 2.5};
  struct ration *r = recipe(BOWL);
  struct ration_line *line = ARENA_NEW(&arena, struct ration_line, r->line_count);
  memcpy(line, r->line, r->line_count * sizeof *line);
  for (size_t i = 4; i < r->line_count; i++) {
    double times = TIMES[draw(COUNT_OF(TIMES))];
    line[i].grams_fed *= times;
    for (int p = 0; p < line[i].part_count; p++) line[i].part[p].grams *= times;
  }
  r->line = line;
  return r;
}

struct scene {
  const struct ration *ration[RECIPES];
  const struct check_result *alone[RECIPES];
  int recipes;
  bool judged[ORDERS], fails[ORDERS][NUT_COUNT]; /* of the orders, read as a number of base RECIPES */
};

static void judge_alone(struct scene *s) {
  for (int i = 0; i < s->recipes; i++) {
    struct days_of_food *d = ARENA_NEW(&arena, struct days_of_food, 1);
    *d = rotation_days(s->ration, s->recipes, &i, 1, &arena);
    s->alone[i] = check_numbers(built_library(), days_mean(d, &arena), dog(), NULL, &arena);
  }
}

/* Which nutrients fail in some window of this order of DAYS. */
static void judge_order(const struct scene *s, const int *order, bool fails[NUT_COUNT]) {
  struct arena scratch;
  arena_init(&scratch, NULL);
  struct days_of_food d = rotation_days(s->ration, s->recipes, order, DAYS, &scratch);
  const struct check_result *mean = check_numbers(built_library(), days_mean(&d, &scratch), dog(), NULL, &scratch);
  const struct week *w = week_of(built_library(), &d, mean, &scratch);
  for (int n = 0; n < NUT_COUNT; n++) {
    fails[n] = false;
    for (int i = 0; i < DAYS && n != NUT_ENERGY; i++) {
      enum verdict v = w->nutrient[n].window_verdict[i];
      fails[n] = fails[n] || v == VERDICT_SHORT || v == VERDICT_THIN || v == VERDICT_OVER;
    }
  }
  arena_free(&scratch);
}

/* An order is judged once, whatever is asked of it. */
static bool holds(struct scene *s, const int *order, const bool *wanted) {
  size_t at = 0;
  for (int i = 0; i < DAYS; i++) at = at * RECIPES + (size_t)order[i];
  if (!s->judged[at]) judge_order(s, order, s->fails[at]);
  s->judged[at] = true;
  for (int n = 0; n < NUT_COUNT; n++)
    if ((!wanted || wanted[n]) && s->fails[at][n]) return false;
  return true;
}

static int changes_of(const int *order, int days) {
  int n = 0;
  for (int i = 0; i < days; i++) n += order[i] != order[(i + 1) % days];
  return n;
}

/* -1: no order holds. */
static int fewest_by_enumeration(struct scene *s, const bool *wanted) {
  int order[ROTATE_DAYS_MOST] = {0}, best = -1;
  for (;;) {
    int changes = changes_of(order, DAYS);
    if ((best < 0 || changes < best) && holds(s, order, wanted)) best = changes;
    int i = 0;
    while (i < DAYS && ++order[i] == s->recipes) order[i++] = 0;
    if (i == DAYS) return best;
  }
}

static void the_fewest_changes_of_all_orders(void **state) {
  (void)state;
  int found_with[DAYS + 1] = {0}, none = 0;
  for (int trial = 0; trial < 24; trial++) {
    static struct scene s;
    s = (struct scene){.recipes = trial % 3 == 0 ? RECIPES : 2};
    struct rotation r;
    /* Sometimes a few needs alone, of several lengths of window. */
    bool some[NUT_COUNT] = {[NUT_IODINE] = true, [NUT_MANGANESE] = true, [NUT_VITAMIN_D] = true,
                            [NUT_ZINC] = true,   [NUT_COPPER] = true,    [NUT_VITAMIN_A] = trial % 2 == 0};
    const bool *wanted = trial % 4 == 0 ? NULL : some;
    for (int i = 0; i < s.recipes; i++) s.ration[i] = varied();
    judge_alone(&s);
    rotate(built_library(), s.ration, s.alone, s.recipes, DAYS, wanted, 0, &r, &arena);
    int fewest = fewest_by_enumeration(&s, wanted);
    assert_int_equal(r.status, fewest < 0 ? ROTATION_NONE : ROTATION_FOUND);
    if (fewest >= 0) {
      assert_int_equal(r.changes, fewest);
      assert_int_equal(changes_of(r.recipe, DAYS), fewest);
      assert_true(holds(&s, r.recipe, wanted));
      found_with[fewest]++;
    } else {
      none++;
      bool any = false, both = false;
      for (int n = 0; n < NUT_COUNT; n++) {
        bool one[NUT_COUNT] = {false};
        one[n] = true;
        any = any || r.unreachable[n];
        both = both || r.conflict[n];
        if (r.unreachable[n]) assert_int_equal(fewest_by_enumeration(&s, one), -1);
      }
      assert_true(any != both);
      if (both) assert_int_equal(fewest_by_enumeration(&s, r.conflict), -1);
    }
  }
  /* The trials are of all kinds. */
  assert_true(found_with[0] > 0 && none > 0);
  assert_true(found_with[2] + found_with[3] + found_with[4] > 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {T(the_fewest_changes_of_all_orders)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
