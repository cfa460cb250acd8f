#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "mend_scene.h"
#include "tests/support/near.h"

static const char BOWL[] = "Recipe: Supper\nMakes: 2 days\n\n"
                           "600 g lamb shoulder, raw   # Tuesday's\n"
                           "2 large eggs, every other day\n"
                           "150 g cooked white rice\n"
                           "\n"
                           "40 g lamb liver [usda:17199]\n";

/* ---- fewest lines, least change: against trying every set of offers -------------------------------------------------- */

static const char *const OFFERED[] = {
    "ours:eggshell", "usda:15164",           "usda:15033", "usda:15046", "usda:20078",
    "usda:12036",    "ours:zinc-picolinate", "usda:01125", "usda:13323", "ours:choline-bitartrate"};
enum { OFFERS = (int)COUNT_OF(OFFERED) };
static const double MOST[OFFERS] = {6, 60, 160, 60, 30, 20, 0.3, 60, 90, 2};

struct small {
  struct ration ration;
  struct ration_line line[3];
  struct mend_own own[3];
  struct mend_offer offer[OFFERS];
  struct animal animal;
  struct mend_request q;
};

static struct ration_line fixed_line(const char *code, double g) {
  struct candidate c = candidate_of(built_library(), library_by_code(built_library(), span_of(code)), NULL);
  return candidate_line(&c, g);
}

static void small_problem(struct small *s, double lamb, double liver, double kg) {
  *s = (struct small){.animal = dog(kg)};
  s->line[0] = fixed_line("usda:17225", lamb);
  s->line[1] = fixed_line("usda:17199", liver);
  s->line[2] = fixed_line("usda:20445", 100);
  s->ration = (struct ration){.name = "", .days = 1, .meals_per_day = NAN, .line = s->line, .line_count = 3};
  for (int i = 0; i < 3; i++) s->own[i].keep = true;
  for (int i = 0; i < OFFERS; i++) {
    uint32_t food = library_by_code(built_library(), span_of(OFFERED[i]));
    assert_true(food != NO_INDEX);
    bool supplement = library_food(built_library(), food)->part == PART_SUPPLEMENT;
    s->offer[i] = (struct mend_offer){.food = candidate_of(built_library(), food, NULL),
                                      .tier = supplement ? MEND_SUPPLEMENT : MEND_FOOD,
                                      .most = 1.6 * MOST[i]};
  }
  s->q = (struct mend_request){.ration = &s->ration,
                               .animal = &s->animal,
                               .options = CHECK_OPTIONS_DEFAULT,
                               .own = s->own,
                               .offer = s->offer,
                               .offers = OFFERS,
                               .proposals = 1};
  const struct check_result *before = check_numbers(built_library(), &s->ration, &s->animal, &s->q.options, &arena);
  s->q.limits = model_limits_around(before->energy.supply_kcal, 0.35);
}

/* The cheapest mix of the offers in 'set', solved by itself; INFINITY when there is none. */
static double cost_with(const struct small *s, unsigned set) {
  struct candidate c[3 + OFFERS];
  double base[3 + OFFERS] = {0};
  for (int i = 0; i < 3; i++) {
    c[i] = (struct candidate){"line", s->line[i]};
    base[i] = ration_line_grams_per_day(&s->line[i]);
  }
  for (int i = 0; i < OFFERS; i++) c[3 + i] = s->offer[i].food;
  struct model *p = model_new(built_library(), c, 3 + OFFERS, &arena);
  for (int i = 0; i < OFFERS; i++) {
    const struct mend_offer *o = &s->offer[i];
    double whole_cost = o->tier == MEND_SUPPLEMENT ? 3 : 2; /* as docs/method/mend.md states it */
    model_column(p, 3 + i, (struct lp_col){.hi = set >> i & 1 ? o->most : 0, .cost = whole_cost / o->most});
  }
  assert_int_equal(model_bowl(p, &s->animal, &s->q.options, &s->q.limits, base, NULL), 0);
  struct model_answer a = model_solve(p, false, NULL);
  return a.has_x ? a.objective : (double)INFINITY;
}

static int bits(unsigned set) {
  int n = 0;
  for (; set; set &= set - 1) n++;
  return n;
}

static void fewest_lines_and_least_change(void **state) {
  (void)state;
  static const struct { double lamb, liver, kg; } CASE[] = {{300, 20, 18}, {330, 25, 20}, {260, 15, 15}};
  int solved = 0;
  for (size_t k = 0; k < COUNT_OF(CASE); k++) {
    struct small s;
    small_problem(&s, CASE[k].lamb, CASE[k].liver, CASE[k].kg);
    int fewest = OFFERS + 1;
    double cheapest = INFINITY;
    for (unsigned set = 0; set < 1u << OFFERS; set++) {
      if (bits(set) > fewest) continue;
      double cost = cost_with(&s, set);
      if (!isfinite(cost) || (bits(set) == fewest && !(cost < cheapest))) continue;
      fewest = bits(set);
      cheapest = cost;
      arena_free(&arena);
    }
    const struct mend_result *r = mend(built_library(), &s.q, &arena);
    if (fewest > OFFERS) {
      assert_int_equal(r->status, MEND_NONE);
      continue;
    }
    solved++;
    assert_int_equal(r->status, MEND_FOUND);
    assert_int_equal(r->proposal[0].count, fewest);
    assert_true(r->proposal[0].fewest_proven);
    assert_near(r->proposal[0].cost, cheapest, 1e-3 * cheapest);
    arena_free(&arena);
  }
  assert_true(solved >= 2);
}

/* ---- the person's wishes ------------------------------------------------------------------------------------------------
 */

static bool text_has(const struct mended *m, const char *words) { return strstr(m->text, words) != NULL; }

static void kept_lines_stay_and_unwanted_foods_stay_out(void **state) {
  (void)state;
  struct animal a = dog(18);
  static const char *KEEP[] = {"white rice", "5"}, *NEVER[] = {"mussel", "usda:15046"};
  struct app_mend_request q = request(BOWL, &a);
  q.check.ask.keep.item = KEEP;
  q.check.ask.keep.count = COUNT_OF(KEEP);
  q.check.ask.never.item = NEVER;
  q.check.ask.never.count = COUNT_OF(NEVER);
  const struct app_mend_answer *r = ask(&q);
  assert_int_equal(r->answer.count, 1);
  const struct mended *m = &r->answer.found[0];
  assert_true(text_has(m, "150 g cooked white rice\n"));
  assert_true(text_has(m, "2 large eggs, every other day\n"));
  assert_false(text_has(m, "mussel") || text_has(m, "usda:15046"));
}

static void no_supplements_means_none(void **state) {
  (void)state;
  struct animal a = dog(18);
  struct app_mend_request q = request("Makes: 2 days\n\n500 g pork shoulder, raw\n140 g duck neck, raw, bone-in\n"
                                      "30 g beef liver\n300 g cooked oatmeal\n2 large eggs, boiled\n",
                                      &a);
  q.check.ask.no_supplements = true;
  const struct app_mend_answer *r = ask(&q);
  assert_true(r->answer.count == 1);
  assert_null(strstr(r->answer.found[0].text, "[ours:"));
}

static void a_line_that_is_not_there_is_told(void **state) {
  (void)state;
  struct animal a = dog(18);
  static const char *KEEP[] = {"zebra", "4.5", "1e300", " "};
  for (size_t i = 0; i < COUNT_OF(KEEP); i++) {
    struct app_mend_request q = request(BOWL, &a);
    q.check.ask.keep.item = &KEEP[i];
    q.check.ask.keep.count = 1;
    const struct app_mend_answer *r = ask(&q);
    assert_false(r->understood);
    assert_int_equal(r->request_diags.errors, 1);
  }
}

/* Somebody's allergy is kept to in the plural as well, and a slip in it is told. */
static void what_is_never_to_come_in_is_understood(void **state) {
  (void)state;
  struct animal a = dog(18);
  static const char *UNKNOWN[] = {"zebrafishcake", "beef, chicken", " "}, *const EGGS[] = {"eggs", "EGG", "usda:01129"};
  for (size_t i = 0; i < COUNT_OF(UNKNOWN); i++) {
    struct app_mend_request q = request(BOWL, &a);
    q.check.ask.never.item = &UNKNOWN[i];
    q.check.ask.never.count = 1;
    const struct app_mend_answer *r = ask(&q);
    assert_false(r->understood);
    assert_int_equal(r->request_diags.errors, 1);
  }
  struct app_mend_request with = request("200 g chicken breast, boiled\n300 g cooked white rice\n10 g sunflower oil\n", &a);
  for (size_t i = 0; i < COUNT_OF(EGGS); i++) {
    const char *never[] = {EGGS[i]};
    struct app_mend_request q = with;
    q.quick = true;
    q.check.ask.never.item = never;
    q.check.ask.never.count = 1;
    const struct app_mend_answer *r = ask(&q);
    assert_true(r->understood);
    for (size_t k = 0; k < r->answer.count; k++) assert_null(strstr(r->answer.found[k].text, "boiled egg"));
  }
}

/* ---- what is said about the change is so --------------------------------------------------------------------------------
 */

/* The new text without the line of one change. */
static const char *text_without(const struct mended *m, size_t change) {
  struct buf b;
  buf_init(&b, &arena, 100000);
  for (size_t i = 0; i < m->lines; i++) {
    bool of_it = m->line[i].change == (int)change;
    if (of_it ? m->line[i].kind == LINE_OUT : m->line[i].kind != LINE_OUT) buf_addf(&b, "%s\n", m->line[i].text);
  }
  return buf_text(&b);
}

static void each_reason_is_true(void **state) {
  (void)state;
  struct animal a = dog(18);
  struct app_mend_request q = request(BOWL, &a);
  const struct app_mend_answer *r = ask(&q);
  assert_int_equal(r->answer.count, 1);
  const struct mended *m = &r->answer.found[0];
  size_t told = 0;
  for (size_t i = 0; i < m->proposal->count; i++) {
    const struct mend_change *c = &m->proposal->change[i];
    const struct check_result *without = check(&q, text_without(m, i));
    for (size_t k = 0; k < c->repair_count; k++) {
      assert_int_equal(m->after->nutrient[c->repairs[k]].verdict, VERDICT_MET);
      assert_int_not_equal(without->nutrient[c->repairs[k]].verdict, VERDICT_MET);
      told++;
    }
  }
  assert_true(told > 0);
}

static void mended_needs_no_mending(void **state) {
  (void)state;
  struct animal a = dog(18);
  struct app_mend_request q = request(BOWL, &a);
  const struct app_mend_answer *r = ask(&q);
  assert_int_equal(r->answer.count, 1);
  struct app_mend_request again = request(r->answer.found[0].text, &a);
  const struct app_mend_answer *second = ask(&again);
  assert_true(second->answer.mend->already_met);
  assert_int_equal(second->answer.count, 0);
}

static bool touches(const struct mend_proposal *p, const struct mend_change *c) {
  for (size_t i = 0; i < p->count; i++) {
    const struct mend_change *o = &p->change[i];
    if (c->line >= 0 ? o->line == c->line : o->offer == c->offer) return true;
  }
  return false;
}

/* docs/method/mend.md: of each two the later has at least two lines that the earlier leaves alone (one, where no such is
 * left; with this bowl they are). */
static void proposals_differ_in_their_lines(void **state) {
  (void)state;
  struct animal a = dog(18);
  struct app_mend_request q = request(BOWL, &a);
  q.check.ask.proposals = 3;
  const struct app_mend_answer *r = ask(&q);
  assert_int_equal(r->answer.count, 3);
  for (size_t i = 0; i < r->answer.count; i++) {
    for (size_t k = 0; k < i; k++) {
      const struct mend_proposal *later = r->answer.found[i].proposal, *earlier = r->answer.found[k].proposal;
      size_t of_its_own = 0;
      for (size_t c = 0; c < later->count; c++) of_its_own += !touches(earlier, &later->change[c]);
      if (of_its_own < 2) fail_msg("proposal %zu has %zu lines that %zu has not", i + 1, of_its_own, k + 1);
    }
  }
}

/* ---- dangers, refusals ---------------------------------------------------------------------------------------------------
 */

/* Onion damages the red cells of dogs: FDA and every veterinary toxicology text; data/hazards.tsv. */
static void dangerous_lines_go_out(void **state) {
  (void)state;
  struct animal a = dog(18);
  struct app_mend_request q =
      request("Makes: 2 days\n\n600 g lamb shoulder, raw\n50 g onion, raw\n120 g duck neck, raw, bone-in\n"
              "40 g lamb liver\n200 g cooked white rice\n",
              &a);
  const struct app_mend_answer *r = ask(&q);
  assert_int_equal(r->answer.count, 1);
  assert_null(strstr(r->answer.found[0].text, "onion"));
  bool told = false;
  for (size_t i = 0; i < r->answer.found[0].proposal->count; i++) told |= r->answer.found[0].proposal->change[i].danger;
  assert_true(told);
}

static void no_formula_for_a_puppy_or_a_patient(void **state) {
  (void)state;
  for (int k = 0; k < 4; k++) {
    struct animal a = dog(8);
    if (k == 0) a.age_years = 0.4;
    if (k == 1) a.pregnant = true;
    if (k == 2) a.nursing = true;
    if (k == 3) a.healthy = false, a.status = "kidney disease";
    struct app_mend_request q = request(BOWL, &a);
    const struct app_mend_answer *r = ask(&q);
    assert_int_equal(r->answer.mend->status, MEND_REFUSED);
    assert_int_equal(r->answer.count, 0);
    assert_null(r->answer.nearest);
    assert_int_equal(r->answer.mend->help.count, 0);
  }
}

static double kcal_of(double lamb, double pumpkin, bool four_step) {
  struct ration_line line[2] = {fixed_line("usda:17225", lamb > 0 ? lamb : 1),
                                fixed_line("usda:11422", pumpkin > 0 ? pumpkin : 1)};
  struct ration r = {.name = "", .days = 1, .meals_per_day = NAN, .line = lamb > 0 ? line : line + 1};
  struct check_options o = CHECK_OPTIONS_DEFAULT;
  struct animal a = dog(18);
  r.line_count = (size_t)(lamb > 0) + (pumpkin > 0);
  if (four_step) o.energy_by = ENERGY_FOUR_STEP;
  return check_numbers(built_library(), &r, &a, &o, &arena)->energy.supply_kcal;
}

/* In four steps (NRC 2006) the digestibility of all falls with the fibre of the whole bowl: foods do not add up, so that no
 * gram of a food has an energy of its own, and no row of a program can hold it. By Atwater's factors they add up. */
static void four_step_energy_is_declined(void **state) {
  (void)state;
  assert_near(kcal_of(300, 200, false), kcal_of(300, 0, false) + kcal_of(0, 200, false), 1e-9);
  assert_true(fabs(kcal_of(300, 200, true) - kcal_of(300, 0, true) - kcal_of(0, 200, true)) > 1);
  struct animal a = dog(18);
  struct app_mend_request q = request(BOWL, &a);
  q.check.ask.check.energy_by = ENERGY_FOUR_STEP;
  assert_int_equal(ask(&q)->answer.mend->status, MEND_NOT_LINEAR);
}

/* ---- impossible
 * ------------------------------------------------------------------------------------------------------------ */

static const char NO_BONE[] = "Makes: 3 days\n\n"
                              "750 g chicken breast, skinless, raw\n"
                              "1200 g cooked white rice\n"
                              "2 tbsp olive oil\n";

static void the_impossible_is_explained(void **state) {
  (void)state;
  struct animal a = dog(18);
  static const char *KEEP[] = {"chicken breast", "rice"};
  struct app_mend_request q = request(NO_BONE, &a);
  q.check.ask.no_supplements = true; /* and with that no eggshell and no bone meal */
  q.check.ask.keep.item = KEEP;
  q.check.ask.keep.count = COUNT_OF(KEEP);
  const struct app_mend_answer *r = ask(&q);
  assert_int_equal(r->answer.mend->status, MEND_NONE);
  assert_true(r->answer.mend->proven);
  const struct model_conflict *c = &r->answer.mend->conflict;
  bool calcium = false;
  for (size_t i = 0; i < c->count; i++) calcium |= strncmp(c->words[i], "Calcium", 7) == 0;
  assert_true(calcium);
  /* The nearest is nearer: less is short than before. */
  assert_non_null(r->answer.nearest);
  const struct check_result *before = r->answer.before, *near = r->answer.nearest->after;
  assert_true(near->verdict_count[VERDICT_MET] > before->verdict_count[VERDICT_MET]);
  assert_true(r->answer.mend->help.count > 0);
  for (size_t i = 1; i < r->answer.mend->help.count; i++) {
    const struct model_help *x = &r->answer.mend->help.help[i - 1], *y = &r->answer.mend->help.help[i];
    assert_true(x->enough > y->enough || (x->enough == y->enough && x->relief >= y->relief));
  }
}

/* What is said to make it possible does: with that much of it in the bowl, the rest can be mended. */
static void enough_is_enough(void **state) {
  (void)state;
  struct animal a = dog(18);
  const char *plate = "Makes: 4 days\n\n1200 g turkey thigh, boneless, skinless, roasted\n240 g chicken hearts, raw\n"
                      "400 g cooked white rice\n";
  struct app_mend_request q = request(plate, &a);
  q.check.ask.no_supplements = true;
  const struct app_mend_answer *r = ask(&q);
  if (r->answer.mend->status == MEND_FOUND) fail_msg("the case no longer tests anything: it can be mended");
  const struct model_help *h = &r->answer.mend->help.help[0];
  assert_true(r->answer.mend->help.count > 0 && h->enough);
  struct buf b;
  buf_init(&b, &arena, 10000);
  buf_addf(&b, "%s%d mg [%s]\n", plate, (int)ceil(h->grams * 1.02 * 4 * 1000), library_code(built_library(), h->food));
  struct app_mend_request with = request(buf_text(&b), &a);
  with.check.ask.no_supplements = true;
  const struct app_mend_answer *second = ask(&with);
  assert_int_equal(second->answer.mend->status, MEND_FOUND);
  assert_int_equal(second->answer.count, 1);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      T(fewest_lines_and_least_change),
      T(kept_lines_stay_and_unwanted_foods_stay_out),
      T(no_supplements_means_none),
      T(a_line_that_is_not_there_is_told),
      T(what_is_never_to_come_in_is_understood),
      T(each_reason_is_true),
      T(mended_needs_no_mending),
      T(proposals_differ_in_their_lines),
      T(dangerous_lines_go_out),
      T(no_formula_for_a_puppy_or_a_patient),
      T(four_step_energy_is_declined),
      T(the_impossible_is_explained),
      T(enough_is_enough),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
