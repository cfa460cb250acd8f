#include "change/model.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "app/app.h"
#include "judge/totals.h"
#include "review/review.h"
#include "tests/support/built_image.h"
#include "tests/support/fresh_arena.h"
#include "tests/support/near.h"
#include "tests/support/unit_random.h"

static uint32_t food(const char *code) {
  uint32_t f = library_by_code(built_library(), span_of(code));
  assert_true(f != NO_INDEX);
  return f;
}

static struct candidate on_offer(const char *code, double times_per_28, double grams_cv) {
  struct candidate c = candidate_of(built_library(), food(code), NULL);
  ration_spread_days(&c.line, times_per_28, 3);
  c.line.part[0].grams_cv = grams_cv;
  return c;
}

/* Foods that together can meet everything for both species. */
static const char *const PANTRY[] = {"usda:23557",
                                     "usda:05062",
                                     "usda:13325",
                                     "usda:01123",
                                     "usda:15088",
                                     "usda:15164",
                                     "usda:11457",
                                     "usda:20445",
                                     "usda:12014",
                                     "usda:04506",
                                     "usda:12012",
                                     "usda:15015",
                                     "usda:10106",
                                     "ours:eggshell",
                                     "ours:bone-meal",
                                     "ours:salt-iodised",
                                     "usda:04002",
                                     "ours:zinc-gluconate",
                                     "ours:vitamin-e-natural",
                                     "ours:taurine",
                                     "ours:choline-bitartrate",
                                     "ours:manganese-gluconate",
                                     "ours:vitamin-d3",
                                     "ours:potassium-chloride",
                                     "usda:18375"};

/* ---- slopes: against differences of the very function they belong to -------------------------------------------- */

static struct totals *gather(double *grams, const struct candidate *c, size_t n) {
  struct ration *r = ARENA_NEW(&arena, struct ration, 1);
  struct ration_line *line = ARENA_NEW(&arena, struct ration_line, n);
  for (size_t i = 0; i < n; i++) line[i] = candidate_line(&c[i], grams[i]);
  *r = (struct ration){.name = "", .days = 1, .meals_per_day = NAN, .line = line, .line_count = n};
  return totals_gather(built_library(), r, 0.25, &arena);
}

static double variance_in(const struct totals *t, enum nutrient n, int first, int days) {
  struct window_total w = totals_in_window(t, n, first, days);
  return w.cv * w.amount * w.cv * w.amount;
}

static void slopes_are_the_derivatives(void **state) {
  (void)state;
  /* One food on two lines, one of them cooked so that a retention factor has a spread of its own; a rare line; amounts
   * with an uncertainty of their own. */
  struct candidate c[4] = {on_offer("usda:13325", 28, 0.1), on_offer("usda:13325", 8, 0), on_offer("usda:15088", 4, 0.2),
                           on_offer("usda:11457", 28, 0)};
  double grams[4] = {40, 15, 30, 60};
  c[1].line.part[0].retention = 3;
  struct totals *t = gather(grams, c, 4);
  double amount[8], variance[8];
  for (int n = NUT_PROTEIN; n < NUT_COUNT; n++) {
    for (int days = 1; days <= 14; days += 6) {
      totals_slopes(t, (enum nutrient)n, 2, days, amount, variance);
      for (int k = 0; k < t->row_count; k++) {
        double h = 1e-3, two[4];
        int i = t->row[k].line;
        double per_row = grams[i] / t->row[k].grams; /* g a day for each g on a day when it is fed */
        memcpy(two, grams, sizeof two);
        two[i] = grams[i] + h * per_row;
        struct totals *more = gather(two, c, 4);
        two[i] = grams[i] - h * per_row;
        struct totals *less = gather(two, c, 4);
        double d_amount = (totals_in_window(more, (enum nutrient)n, 2, days).amount -
                           totals_in_window(less, (enum nutrient)n, 2, days).amount) /
                          (2 * h);
        double d_variance =
            (variance_in(more, (enum nutrient)n, 2, days) - variance_in(less, (enum nutrient)n, 2, days)) / (2 * h);
        assert_near(amount[k], d_amount, 1e-7 * (1 + fabs(d_amount)));
        double scale = fabs(d_variance) + 1e-6 * variance_in(t, (enum nutrient)n, 2, days) / h;
        assert_near(variance[k], d_variance, 1e-5 * scale + 1e-12);
      }
    }
  }
}

/* ---- the promise: what is found, check calls met ----------------------------------------------------------------- */

static struct animal random_animal(void) {
  bool cat = unit_random() < 0.4;
  struct animal a = animal_plain(cat ? SPECIES_CAT : SPECIES_DOG, cat ? 2.5 + 5 * unit_random() : 3 + 50 * unit_random());
  a.activity = (enum activity)(1 + (int)(unit_random() * 3));
  return a;
}

static struct check_options random_options(void) {
  struct check_options o = CHECK_OPTIONS_DEFAULT;
  o.standard = (enum standard_id)(int)(unit_random() * STANDARD_COUNT);
  o.basis = unit_random() < 0.5 ? BASIS_WEIGHT : BASIS_ENERGY;
  o.sure = 0.5 + 0.45 * unit_random();
  return o;
}

static int found, impossible, undecided;

static void solve_one(void) {
  struct candidate c[COUNT_OF(PANTRY)];
  size_t n = 0;
  for (size_t i = 0; i < COUNT_OF(PANTRY); i++) {
    if (unit_random() < 0.15) continue;
    double times = unit_random() < 0.75 ? 28 : unit_random() < 0.5 ? 12 : 4;
    c[n++] = on_offer(PANTRY[i], times, unit_random() < 0.2 ? 0.1 : 0);
  }
  struct animal a = random_animal();
  struct check_options o = random_options();
  double kcal = animal_energy(built_library(), &a, &arena).kcal;
  struct model_limits l = model_limits_around(kcal, 0.05);
  if (unit_random() < 0.3) l.fat_share_most = 0.55;
  struct model *p = model_new(built_library(), c, n, &arena);
  for (size_t i = 0; i < n; i++)
    model_column(p, (int)i, (struct lp_col){.hi = 3000, .cost = 1 + unit_random(), .least = unit_random() < 0.3 ? 0.1 : 0});
  int bowl = model_bowl(p, &a, &o, &l, NULL, NULL);
  assert_int_equal(bowl, 0);
  struct model_answer s = model_solve(p, unit_random() < 0.5, &(struct lp_limits){.nodes = 500});
  if (s.status == PROGRAM_TROUBLE) undecided++;
  if (s.status == PROGRAM_NONE) impossible++;
  if (!s.has_x) return;
  found++;
  /* The judge, asked as anybody would ask it. */
  const struct ration *r = model_ration(p, 0, s.x, NULL, &arena);
  const struct check_result *check = check_ration(built_library(), r, &a, &o, &arena);
  for (int i = 0; i < NUT_COUNT; i++) {
    const struct nutrient_result *x = &check->nutrient[i];
    if (x->verdict != VERDICT_MET && x->verdict != VERDICT_NO_FIGURE)
      print_error("%s is %s: %g of %g, chance %g, wanted %g\n", nutrient_info[i].key, verdict_word[x->verdict],
                  x->window_amount, x->allowance, x->chance_met, o.sure);
    assert_true(x->verdict == VERDICT_MET || x->verdict == VERDICT_NO_FIGURE);
    assert_false(x->highest_day_over);
  }
  assert_true(check->balance.ca_p >= 1 && check->balance.ca_p <= 2);
  assert_true(check->energy.supply_kcal >= 0.95 * kcal * (1 - 1e-6) &&
              check->energy.supply_kcal <= 1.05 * kcal * (1 + 1e-6));
  if (l.fat_share_most > 0) assert_true(check->energy.share_fat <= 0.55 + 1e-9);
}

static void what_is_found_is_met(void **state) {
  (void)state;
  for (int i = 0; i < 300; i++) {
    seed = 1000 + (unsigned long long)i;
    unit_random();
    solve_one();
    arena_free(&arena);
  }
  print_message("found %d, impossible %d, undecided %d of 300\n", found, impossible, undecided);
  assert_true(found >= 100);
  assert_true(undecided <= 3); /* no answer is allowed now and then, a wrong one never */
}

/* ---- refusals ---------------------------------------------------------------------------------------------------- */

static void nothing_for_a_puppy(void **state) {
  (void)state;
  struct candidate c = on_offer("usda:13325", 28, 0);
  struct animal a = animal_plain(SPECIES_DOG, 8);
  struct check_options o = CHECK_OPTIONS_DEFAULT;
  struct model_limits l = model_limits_none();
  struct model *p = model_new(built_library(), &c, 1, &arena);
  model_column(p, 0, (struct lp_col){.hi = 100});
  a.age_years = 0.5;
  assert_int_equal(model_bowl(p, &a, &o, &l, NULL, NULL), -1);
  a.age_years = 5;
  o.energy_by = ENERGY_FOUR_STEP;
  assert_int_equal(model_bowl(p, &a, &o, &l, NULL, NULL), -1);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      T(slopes_are_the_derivatives),
      T(what_is_found_is_met),
      T(nothing_for_a_puppy),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
