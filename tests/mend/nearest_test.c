/* Where too little energy is asked for to hold every need, the answer is the nearest dinner that its owner would still know,
 * with what stays open: the judge's own word on the text, read again. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "foods/portion.h"
#include "mend_scene.h"

static const struct {
  const char *text, *main;
  double kg, kcal;
  bool cat;
} DINNERS[] = {
    {"Makes: 3 days\n\n750 g chicken breast, skinless, raw weight, simmered\n450 g white rice, dry weight, boiled\n"
     "2 medium carrots, boiled\n1 cup frozen green peas, boiled\n2 tbsp olive oil\n",
     "chicken breast", 18, 300, false},
    {"Makes: 2 days\n\n600 g lamb shoulder, raw\n2 large eggs, every other day\n50 g cooked millet\n40 g lamb liver\n",
     "lamb shoulder", 18, 300, false},
    {"280 g beef mince 80/20, raw\n50 g beef heart, raw\n20 g beef liver, raw\n", "beef mince", 15, 200, false},
    {"Makes: 4 days\n\n380 g turkey thigh, boneless, skinless, roasted\n60 g chicken hearts, raw\n1 egg yolk\n",
     "turkey thigh", 4.6, 70, true},
};

/* Grams a day of the lines whose text holds these words. */
static double grams_of(const struct check_result *r, const char *words) {
  double g = 0;
  for (size_t i = 0; i < r->ration->line_count; i++)
    if (strstr(r->ration->line[i].text, words)) g += ration_line_grams_per_day(&r->ration->line[i]);
  return g;
}

static void too_little_energy_has_a_nearest(void **state) {
  (void)state;
  for (size_t i = 0; i < COUNT_OF(DINNERS); i++) {
    struct animal a = animal_plain(DINNERS[i].cat ? SPECIES_CAT : SPECIES_DOG, DINNERS[i].kg);
    struct app_mend_request q = request(DINNERS[i].text, &a);
    q.check.ask.kcal = DINNERS[i].kcal;
    q.quick = true;
    const struct app_mend_answer *m = ask(&q);
    assert_true(m->understood);
    assert_int_equal(m->answer.mend->status, MEND_NONE);
    assert_true(m->answer.mend->conflict.count > 0);
    const struct mended *near = m->answer.nearest;
    assert_non_null(near);
    const struct check_result *after = check(&q, near->text);
    int open = 0;
    for (int n = 0; n < NUT_COUNT; n++) {
      assert_int_equal(after->nutrient[n].verdict, near->after->nutrient[n].verdict);
      open += !is_in_order(&after->nutrient[n]);
    }
    if (open == 0) print_error("%s\n", near->text);
    assert_true(open > 0); /* else it would have been found */
    double before = grams_of(m->answer.before, DINNERS[i].main), is = grams_of(after, DINNERS[i].main);
    if (is < 0.6 * before) print_error("%g of %g g %s\n%s\n", is, before, DINNERS[i].main, near->text);
    assert_true(is >= 0.6 * before); /* two thirds, and a step of the scale */
    /* Of a kind one is bought: one form of iodine, one liver, one shell or bone meal. */
    const struct ration *r = after->ration;
    for (size_t k = 0; k < near->proposal->count; k++)
      for (size_t l = 0; l < k; l++) {
        const struct mend_change *x = &near->proposal->change[k], *y = &near->proposal->change[l];
        if (x->line >= 0 || y->line >= 0) continue;
        assert_string_not_equal(near->food[k], near->food[l]);
      }
    for (size_t k = 0; k < r->line_count; k++)
      for (size_t l = 0; l < k; l++) {
        int kin = portion_one_of(built_library(), r->line[k].shown_food, a.species);
        if (kin > 0 && kin == portion_one_of(built_library(), r->line[l].shown_food, a.species))
          print_error("two of a kind: %s, %s\n", r->line[k].text, r->line[l].text);
        assert_false(kin > 0 && kin == portion_one_of(built_library(), r->line[l].shown_food, a.species));
      }
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {T(too_little_energy_has_a_nearest)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
