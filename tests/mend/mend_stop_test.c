/* A search that is ended at any moment says nothing wrong: what it found is met like any other change, and without a change
 * it does not say that none exists. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "mend_scene.h"

/* Says "enough" after so many questions, and remembers what it was told. */
struct waiting {
  long left, asked;
  double last_lines, last_bound;
  bool backwards; /* a best so far had more lines than an earlier one, or fewer than the bound */
};

static bool wait_for(void *user, const struct lp_answer *best, double bound, long nodes) {
  struct waiting *w = user;
  (void)nodes;
  w->asked++;
  if (best && best->has_x) {
    w->backwards |= best->objective > w->last_lines || best->objective < bound;
    w->last_lines = best->objective;
    w->last_bound = bound;
  }
  return w->left-- > 0;
}

static const struct app_mend_answer *mend_for(const char *text, struct waiting *w, bool supplements) {
  static struct animal a;
  static const char *KEEP[] = {"chicken breast", "rice"};
  a = dog(18);
  struct app_mend_request q = request(text, &a);
  q.check.ask.no_supplements = !supplements;
  q.check.ask.keep.item = KEEP;
  q.check.ask.keep.count = supplements ? 0 : COUNT_OF(KEEP);
  q.go_on = w ? wait_for : NULL;
  q.user = w;
  const struct app_mend_answer *answer = ask(&q);
  assert_true(answer->understood);
  return answer;
}

static void is_met(const struct mended *m) {
  struct animal a = dog(18);
  struct app_mend_request q = request("", &a);
  const struct check_result *r = check(&q, m->text);
  for (int i = 0; i < NUT_COUNT; i++)
    if (r->nutrient[i].verdict != VERDICT_MET && r->nutrient[i].verdict != VERDICT_NO_FIGURE)
      fail_msg("%s is %s\n%s", nutrient_info[i].key, verdict_word[r->nutrient[i].verdict], m->text);
}

/* Grams as a scale shows them: tenths below 5, at most tenths up to 60, whole ones beyond; what is counted in halves. */
static void is_of_a_kitchen(const struct mended *m) {
  for (size_t i = 0; i < m->lines; i++) {
    const char *t = m->line[i].text;
    if (m->line[i].kind != LINE_IN) continue;
    size_t whole = strspn(t, "0123456789"), behind = t[whole] == '.' ? strspn(t + whole + 1, "0123456789") : 0;
    if (behind > (whole < 3 ? 1 : 0)) fail_msg("%s", t);
  }
}

static const char BOWL[] = "Recipe: Supper\nMakes: 2 days\n\n"
                           "600 g lamb shoulder, raw\n2 large eggs, every other day\n150 g cooked white rice\n"
                           "40 g lamb liver [usda:17199]\n";

static void ended_at_any_moment(void **state) {
  (void)state;
  struct waiting patient = {.left = 1000000000, .last_lines = INFINITY};
  const struct app_mend_answer *whole = mend_for(BOWL, &patient, true);
  assert_int_equal(whole->answer.count, 1);
  assert_false(whole->answer.mend->stopped || patient.backwards);
  assert_true(patient.asked > 20);
  const struct mend_proposal *best = whole->answer.found[0].proposal;
  int fewest = best->left.lines > 0 ? best->left.fewest : best->fewest; /* of the change before lines were left as they are */
  assert_true(fewest > 0);
  assert_true(patient.last_lines >= fewest); /* amounts that a kitchen measures may take more lines than were told */
  int without = 0, with = 0;
  for (long n = 0; n < patient.asked; n += 1 + n / 6) {
    struct waiting w = {.left = n, .last_lines = INFINITY};
    const struct mended_answer *a = &mend_for(BOWL, &w, true)->answer;
    assert_true(a->mend->stopped);
    assert_false(w.backwards);
    if (a->count == 0) {
      assert_int_equal(a->mend->status, MEND_STOPPED);
      assert_false(a->mend->proven);
      assert_int_equal(a->mend->conflict.count, 0);
      if (a->nearest) is_of_a_kitchen(a->nearest);
      without++;
    } else {
      assert_int_equal(a->mend->status, MEND_FOUND);
      is_met(&a->found[0]);
      is_of_a_kitchen(&a->found[0]);
      /* No ended search finds, or claims, less than what the whole one proves. */
      assert_true(a->found[0].proposal->count >= (size_t)best->fewest);
      assert_true(a->found[0].proposal->fewest <= (int)best->count);
      with++;
    }
  }
  assert_true(without > 0 && with > 1);
}

/* Whoever takes what was told to be found gets a change. */
static bool take_the_first(void *user, const struct lp_answer *best, double bound, long nodes) {
  (void)bound, (void)nodes;
  *(bool *)user |= best && best->has_x;
  return !*(bool *)user;
}

static void what_was_told_is_found(void **state) {
  static const char *const FED[] = {
      BOWL,
      "Recipe: Weeknight bowl\nMakes: 2 days\n\n600 g lamb shoulder, cubed, raw\n1 1/2 tsp ground hemp seed\n"
      "2 large eggs, every other day\n1 can (4.4 oz) mackerel in brine, drained, weekly\n120 g duck neck, raw, bone-in\n"
      "1/2 cup cooked millet\n1 capsule vitamin E 200 IU\n40 g lamb liver [usda:17199]\n",
      "300 g chicken thigh, boneless, skinless, raw\n100 g cooked white rice\n50 g carrots\n4 g ground eggshell\n",
      "260 g beef mince, raw\n150 g boiled potato\n10 g beef liver\n1 tsp salmon oil\n"};
  (void)state;
  for (size_t i = 0; i < COUNT_OF(FED); i++) {
    bool told = false;
    struct animal a = dog(18);
    struct app_mend_request q = request(FED[i], &a);
    q.go_on = take_the_first;
    q.user = &told;
    const struct mended_answer *answer = &ask(&q)->answer;
    assert_true(told);
    assert_int_equal(answer->mend->status, MEND_FOUND);
    assert_int_equal(answer->count, 1);
    is_met(&answer->found[0]);
  }
}

static const char NO_BONE[] =
    "Makes: 3 days\n\n750 g chicken breast, skinless, raw\n1200 g cooked white rice\n2 tbsp olive oil\n";

static void none_is_said_only_when_it_is_so(void **state) {
  (void)state;
  struct waiting at_once = {.left = 0};
  const struct mended_answer *a = &mend_for(NO_BONE, &at_once, false)->answer;
  assert_int_equal(a->mend->status, MEND_STOPPED);
  assert_false(a->mend->proven);
  assert_int_equal(a->mend->help.count, 0);
  a = &mend_for(NO_BONE, NULL, false)->answer;
  assert_int_equal(a->mend->status, MEND_NONE);
  assert_true(a->mend->proven && !a->mend->stopped);
}

int main(void) {
  const struct CMUnitTest tests[] = {T(ended_at_any_moment), T(what_was_told_is_found), T(none_is_said_only_when_it_is_so)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
