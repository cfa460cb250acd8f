/* How much a mended bowl is: scaled when it is far from the need, left alone otherwise; what is not counted. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "mend_scene.h"
#include "report/mend.h"
#include "tests/support/near.h"

/* A smaller dog's dinner for a larger one: the same shares of everything, then mended for the larger. */
static void the_same_dinner_for_another(void **state) {
  (void)state;
  static const char SUPPER[] = "Recipe: Supper\n\n300 g lamb shoulder, raw\n20 g lamb liver, raw\n150 g cooked white rice\n"
                               "60 g carrots, raw\n2 large eggs, boiled\n";
  struct animal small = dog(18), large = dog(45);
  struct app_mend_request q = request(SUPPER, &small), other = request(SUPPER, &large);
  const struct check_result *was = check(&q, SUPPER);
  const struct app_mend_answer *a = ask(&other);
  double times = a->answer.scaled;
  assert_true(times > 1.3);
  assert_int_equal(a->answer.count, 1);
  const struct ration *before = was->ration, *scaled = a->answer.before->ration;
  assert_int_equal(scaled->line_count, before->line_count);
  for (size_t i = 0; i < scaled->line_count; i++) {
    double is = ration_line_grams_per_day(&scaled->line[i]), wanted = times * ration_line_grams_per_day(&before->line[i]);
    bool egg = library_food(built_library(), scaled->line[i].shown_food)->part == PART_EGG; /* whole eggs */
    assert_true(fabs(is - wanted) <= (egg ? 25.0 : 0.05 * wanted));
  }
  const struct energy_result *e = &a->answer.found[0].after->energy;
  assert_true(e->supply_kcal >= e->need.low_kcal && e->supply_kcal <= e->need.high_kcal);
  for (int n = 0; n < NUT_COUNT; n++) assert_true(is_in_order(&a->answer.found[0].after->nutrient[n]));
  other.check.ask.kcal = 1800;
  a = ask(&other);
  assert_int_equal(a->answer.count, 1);
  assert_near(a->answer.found[0].after->energy.supply_kcal, 1800, 0.05 * 1800 + 1e-6);
}

/* Half as much again as is expected, though within what some dogs of that weight need: the whole dinner is made smaller
 * first. A tenth more is left as it is, and so is a bowl in which something is not counted. */
static void far_from_the_need_is_scaled(void **state) {
  (void)state;
  static const char REST[] = "250 g cooked white rice\n60 g carrots, raw\n";
  static const struct {
    int meat_g;
    const char *more;
    bool scaled;
  } SIZES[] = {
      {400, "", true}, {230, "", false}, {400, "? 1 scoop of kibble\n", true}, {230, "? 1 scoop of kibble\n", false}};
  struct animal a = dog(18);
  for (size_t i = 0; i < COUNT_OF(SIZES); i++) {
    struct buf b;
    buf_init(&b, &arena, 1000);
    buf_addf(&b, "%d g chicken thigh, skin on, raw\n%s%s", SIZES[i].meat_g, REST, SIZES[i].more);
    struct app_mend_request q = request(buf_text(&b), &a);
    const struct check_result *was = check(&q, buf_text(&b));
    const struct app_mend_answer *r = ask(&q);
    const struct energy_result *e = &r->answer.before->energy;
    assert_true(was->energy.supply_kcal < was->energy.need.high_kcal * 1.2);
    assert_int_equal(r->answer.scaled > 0, SIZES[i].scaled);
    assert_int_equal(r->answer.count, 1);
    double kcal = r->answer.found[0].after->energy.supply_kcal,
           of = SIZES[i].scaled ? e->need.kcal : was->energy.supply_kcal;
    if (SIZES[i].more[0] && !SIZES[i].scaled)
      assert_true(kcal >= 0.95 * of && kcal <= fmax(1.05 * of, e->need.kcal * 1.001));
    else
      assert_near(kcal, of, 0.1 * of);
    for (size_t k = 0; k < r->answer.found[0].proposal->count && !SIZES[i].more[0]; k++)
      assert_true(r->answer.found[0].proposal->change[k].energy <= 0 || r->answer.found[0].proposal->change[k].line >= 0);
  }
}

/* Within the usual range (a third less or more in dogs, data/energy.tsv) an animal knows its need better than an equation:
 * nothing is scaled. One that is too heavy is fed no more, while a lean one below the need may be. */
static void within_the_usual_range_nothing_is_scaled(void **state) {
  (void)state;
  static const struct {
    double beef_g, kg, ideal_kg;
  } CASE[] = {{400, 26, NAN}, {400, 30, 26}, {470, 26, NAN}, {690, 22, NAN}};
  for (size_t i = 0; i < COUNT_OF(CASE); i++) {
    struct animal a = dog(CASE[i].kg);
    a.ideal_kg = CASE[i].ideal_kg;
    struct buf b;
    buf_init(&b, &arena, 1000);
    buf_addf(&b,
             "%g g beef mince 95/5, raw\n60 g canned mackerel\n1 cup cooked white rice\n100 g broccoli\n"
             "1 tsp ground eggshell\n",
             CASE[i].beef_g);
    struct app_mend_request q = request(buf_text(&b), &a);
    const struct energy_result was = check(&q, buf_text(&b))->energy;
    const struct app_mend_answer *r = ask(&q);
    assert_true(fabs(was.supply_kcal / was.need.kcal - 1) > 0.1 && was.supply_kcal > was.need.low_kcal &&
                was.supply_kcal < was.need.high_kcal);
    assert_true(!(r->answer.scaled > 0) && r->answer.count == 1);
    double is = r->answer.found[0].after->energy.supply_kcal;
    bool heavy = CASE[i].ideal_kg < CASE[i].kg;
    assert_true(is < fmax(1.09 * was.supply_kcal, heavy ? 0 : was.need.kcal * 1.04) && is > 0.91 * was.supply_kcal);
  }
}

/* What is added lifts the energy a little more than a twentieth: no reason to write 190 g of turkey for 200. */
static void a_line_that_need_not_change_stays(void **state) {
  (void)state;
  struct animal a = dog(12);
  struct app_mend_request q = request("200 g ground turkey, cooked\n160 g cooked white rice\n40 g green peas, boiled\n", &a);
  const struct app_mend_answer *r = ask(&q);
  assert_int_equal(r->answer.count, 1);
  for (size_t i = 0; i < r->answer.found[0].proposal->count; i++)
    assert_true(r->answer.found[0].proposal->change[i].line < 0);
  double before = r->answer.before->energy.supply_kcal, after = r->answer.found[0].after->energy.supply_kcal;
  assert_true(after > before * 1.05 && after < before * 1.05 * 1.03 + 1);
  /* Of the change before that something is proven, of the one that is shown nothing; the answer says which is which. */
  const struct mend_proposal *p = r->answer.found[0].proposal;
  assert_int_equal(p->left.lines, 1);
  assert_int_equal(p->left.of, p->count + 1);
  assert_true(p->left.fewest > 1 && p->left.fewest <= p->left.of);
  assert_true(p->fewest == 0 && !p->fewest_proven && !p->least_proven);
  struct report_style style = {.width = 200};
  struct buf b;
  buf_init(&b, &arena, 100000);
  report_mend(built_library(), &r->answer, &style, &b);
  assert_non_null(strstr(buf_text(&b), "With amounts free to move, it is proven"));
  assert_non_null(strstr(buf_text(&b), "Then 1 of your lines was left as it is"));
  assert_null(strstr(buf_text(&b), "Fewer lines may do: that is not ruled out"));
}

static bool holds_out(const struct mended *m, const char *text) {
  for (size_t i = 0; i < m->lines; i++)
    if (m->line[i].kind == LINE_OUT && strcmp(m->line[i].text, text) == 0) return true;
  return false;
}

/* What must not be fed goes also where nobody knows how much of it there is; what is fed then has a known energy. */
static void uncounted_dangers_go_out(void **state) {
  (void)state;
  static const char *const TEXTS[] = {
      "? 1 tbsp peanut butter with xylitol\n120 g turkey mince, pan-fried\n60 g cooked oats\n",
      "120 g turkey mince, pan-fried\n60 g cooked oats\n? 1 tbsp peanut butter with xylitol\n",
  };
  struct animal a = dog(8);
  for (size_t i = 0; i < COUNT_OF(TEXTS); i++) {
    struct app_mend_request q = request(TEXTS[i], &a);
    const struct app_mend_answer *r = ask(&q);
    assert_int_equal(r->answer.left_out_count, 1);
    assert_string_equal(r->answer.left_out[0].said, "1 tbsp peanut butter with xylitol");
    assert_true(r->answer.left_out[0].advice[0] != '\0');
    assert_int_equal(r->answer.count, 1);
    const struct mended *m = &r->answer.found[0];
    assert_true(holds_out(m, "? 1 tbsp peanut butter with xylitol"));
    assert_null(strstr(m->text, "xylitol"));
    assert_true(r->answer.scaled > 1);
    assert_int_equal(m->after->ration->uncounted_count, 0);
    assert_near(m->after->energy.supply_kcal, m->after->energy.need.kcal, 0.1 * m->after->energy.need.kcal);
  }
}

/* Of a bowl below the need, with more in it that is not counted, nothing of the owner's has to make room. */
static void what_is_not_counted_makes_no_room(void **state) {
  (void)state;
  struct animal a = dog(10);
  struct app_mend_request q = request("200 g ground turkey, raw\n60 g sweet potato, raw\n? 1 dental chew\n", &a);
  const struct app_mend_answer *r = ask(&q);
  assert_int_equal(r->answer.count, 1);
  const struct mended *m = &r->answer.found[0];
  assert_true(m->after->energy.supply_kcal <= m->after->energy.need.kcal * 1.001);
  for (size_t i = 0; i < m->proposal->count; i++) assert_true(m->proposal->change[i].line < 0);
}
int main(void) {
  const struct CMUnitTest tests[] = {
      T(the_same_dinner_for_another),       T(far_from_the_need_is_scaled), T(within_the_usual_range_nothing_is_scaled),
      T(a_line_that_need_not_change_stays), T(uncounted_dangers_go_out),    T(what_is_not_counted_makes_no_room),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
