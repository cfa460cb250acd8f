/* program_border_test.c: programs on the border of what is possible, where a solver's numbers are weakest: the lightest bowl
 * that keeps everything is narrowed down to a ten-billionth. Each answer on the way must be one: a bowl that the judge finds
 * right, or none; and no lighter bowl may be found below a weight at which none was proven to exist. Quantiles bend: close
 * to the border nothing is proven, which is within a fifth of what was found. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

#include "larder_scene.h"
#include "tests/support/sampled.h"

struct tally {
  int found, none, undecided, unproven;
  double doubted; /* the least weight at which none was found, and that not proven */
};

/* The status with the food at most 'most' grams; the weight of the bowl found in 'grams'. */
static enum model_status at_most(const struct scene *s, double most, double *grams, struct tally *tally) {
  struct arena a;
  struct candidate c[FOODS_MOST];
  arena_init(&a, NULL);
  for (size_t i = 0; i < s->q.foods; i++) c[i] = s->food[i].food;
  struct model *p = model_new(built_library(), c, s->q.foods, &a);
  for (size_t i = 0; i < s->q.foods; i++)
    model_column(p, (int)i, (struct lp_col){.hi = fmin(s->food[i].high, 2000), .cost = 1});
  double kcal = animal_energy(built_library(), &s->animal, &a).kcal;
  struct model_limits l = model_limits_around(kcal, 0.05);
  l.mass_most = most;
  assert_int_equal(model_bowl(p, &s->animal, &s->q.options, &l, NULL, NULL), 0);
  struct model_answer x = model_solve(p, false, NULL);
  if (x.status == PROGRAM_FOUND) {
    const struct check_result *r = model_judge(p, 0, x.x, &a);
    assert_true(model_keeps(p, 0, r));
    *grams = r->energy.grams_per_day;
    assert_true(*grams <= most * (1 + 1e-6));
    tally->found++;
  } else if (x.status == PROGRAM_NONE) {
    tally->none++;
    tally->unproven += !x.proven;
    if (!x.proven) tally->doubted = fmin(tally->doubted, most);
  } else {
    tally->undecided++;
  }
  arena_free(&a);
  return x.status;
}

static void narrow_down(const struct scene *s, struct tally *t) {
  double light = 0, heavy = 3000, grams = 0, proven = 0;
  t->doubted = INFINITY;
  if (at_most(s, heavy, &grams, t) != PROGRAM_FOUND) return;
  heavy = grams;
  while (heavy - light > 1e-10 * heavy) {
    double middle = light + (heavy - light) / 2;
    int doubts = t->unproven;
    enum model_status now = at_most(s, middle, &grams, t);
    assert_true(now != PROGRAM_FOUND || grams >= proven * (1 - 1e-6)); /* below that none was proven to exist */
    if (now == PROGRAM_NONE && t->unproven == doubts) proven = fmax(proven, middle);
    if (now == PROGRAM_FOUND)
      heavy = middle;
    else
      light = middle;
    if (middle <= light * (1 + 1e-15) && middle >= heavy * (1 - 1e-15)) break;
  }
  if (t->doubted < heavy * 0.8) print_error("doubted at %g, found at %g\n", t->doubted, heavy);
  assert_true(t->doubted >= heavy * 0.8);
}

static void on_the_border(void **state) {
  (void)state;
  (void)everything_is_met; /* of the scene: the judge is asked here directly */
  struct tally t = {0};
  for (int round = 0; round < SAMPLED(60, 12); round++) {
    struct scene s;
    draw_scene(&s);
    narrow_down(&s, &t);
  }
  print_message("found %d, none %d (%d of them not proven), undecided %d\n", t.found, t.none, t.unproven, t.undecided);
  assert_true(t.found >= SAMPLED(50, 8) && t.none > SAMPLED(300, 40));
  assert_true(t.undecided * 100 <= t.found + t.none);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(on_the_border)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
