/* What an owner may choose from: with foods alone, with supplements alone, and the first steps of a long change. Judged by
 * reading each text again, not by what the search says of it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "mend_scene.h"

static const char BOWL[] = "300 g beef mince 90/10, raw\n60 g beef heart, raw\n20 g beef liver, raw\n40 g carrots, raw\n";
static const char NEARLY[] = "285 g chicken thigh, skinless, raw\n60 g chicken hearts, raw\n300 g beef heart, raw\n"
                             "40 g beef liver, raw\n2 large eggs, boiled\n30 g carrots, raw\n60 g spinach, raw\n"
                             "3 g salmon oil\n";

/* Of an added line: those that are added stand last, in the order of the changes. */
static enum part part_of(const struct mended *m, size_t change) {
  size_t behind = 0;
  for (size_t i = change; i < m->proposal->count; i++) behind += m->proposal->change[i].line < 0;
  const struct check_result *after = m->after;
  const struct ration_line *l = &after->ration->line[after->ration->line_count - behind];
  return (enum part)library_food(built_library(), l->shown_food)->part;
}

static const struct mended *found_with(const struct app_mend_answer *r, enum mend_with with) {
  for (size_t i = 0; i < r->answer.count; i++)
    if (r->answer.found[i].proposal->with == with) return &r->answer.found[i];
  return NULL;
}

/* The best comes first; each text is met when it is read again. */
static void each_way_keeps_to_its_kind(void **state) {
  (void)state;
  struct animal a = dog(22);
  struct app_mend_request q = request(NEARLY, &a);
  q.one_way = false;
  const struct app_mend_answer *r = ask(&q);
  const struct mended *foods = found_with(r, MEND_FOODS), *pills = found_with(r, MEND_SUPPLEMENTS);
  assert_true(r->answer.count == MEND_WITH_COUNT && found_with(r, MEND_BOTH));
  assert_non_null(foods);
  assert_non_null(pills);
  for (size_t i = 0; i < r->answer.count; i++) {
    const struct check_result *after = check(&q, r->answer.found[i].text);
    for (int n = 0; n < NUT_COUNT; n++) assert_true(is_in_order(&after->nutrient[n]));
    assert_true(r->answer.found[i].summary[0] != 0);
    if (i > 0) assert_string_not_equal(r->answer.found[i].text, r->answer.found[0].text);
  }
  for (size_t i = 0; foods && i < foods->lines; i++) /* ground eggshell and salt count as foods */
    if (foods->line[i].kind == LINE_IN)
      assert_true(!strstr(foods->line[i].text, "tablet") && !strstr(foods->line[i].text, "capsule"));
  for (size_t i = 0; pills && i < pills->proposal->count; i++) {
    const struct mend_change *c = &pills->proposal->change[i];
    if (c->line < 0) assert_int_equal(part_of(pills, i), PART_SUPPLEMENT);
    if (c->line >= 0) assert_true(c->danger); /* the owner's foods are not touched */
  }
}

/* By the weights of docs/method/mend.md: a line of the owner's 1, a food 2, a pill 3. */
static int trouble(const struct mended *m) {
  int sum = 0;
  for (size_t i = 0; i < m->proposal->count; i++)
    sum += m->proposal->change[i].line >= 0 ? 1 : part_of(m, i) == PART_SUPPLEMENT ? 3 : 2;
  return sum;
}

/* A formulator's finding: pills came before simpler food. */
static void foods_come_first_where_they_are_no_more_trouble(void **state) {
  static const char TUNED[] = "280 g ground beef, 90% lean, raw\n20 g beef liver, raw\n30 g beef kidney, raw\n"
                              "150 g cooked white rice\n60 g carrots\n1 large egg, boiled\n50 g canned sardines in water\n"
                              "4.5 g ground eggshell\n1 capsule vitamin E 100 IU, every other day\n"
                              "1/2 tablet zinc 15 mg\n1/2 tablet iodine 150 ug\n";
  (void)state;
  struct animal a = dog(20);
  struct app_mend_request q = request(TUNED, &a);
  q.one_way = false;
  const struct app_mend_answer *r = ask(&q);
  const struct mended *first = &r->answer.found[0], *both = found_with(r, MEND_BOTH);
  assert_true(r->answer.count >= 2 && first->pills == 0 && first->ask_count == 0);
  assert_true(both && both->pills > 0 && trouble(both) >= trouble(first));
  for (int n = 0; n < NUT_COUNT; n++) assert_true(is_in_order(&check(&q, first->text)->nutrient[n]));
}

/* 600 g a day at 1253 kcal for a dog that needs 830: less of everything cannot be told in shares of 4.2 kg. */
static void shares_of_a_total_are_scaled(void **state) {
  static const char SHARES[] = "Makes: 7 days\nTotal: 4.2 kg\n\n45% beef mince 80/20\n25% chicken necks, bone-in\n"
                               "10% beef heart\n10% beef liver\n10% pork kidney\n";
  (void)state;
  struct animal a = dog(18);
  struct app_mend_request q = request(SHARES, &a);
  const struct app_mend_answer *r = ask(&q);
  assert_true(r->understood && r->answer.in_grams && r->answer.count >= 1);
  assert_true(r->answer.scaled > 0.6 && r->answer.scaled < 0.72);
  const struct check_result *after = check(&q, r->answer.found[0].text);
  assert_true(after->energy.supply_kcal > 581 && after->energy.supply_kcal < 1079);
  for (int n = 0; n < NUT_COUNT; n++) assert_true(is_in_order(&after->nutrient[n]));
}

static int in_order_of(const struct check_result *r) {
  int n = 0;
  for (int i = 0; i < NUT_COUNT; i++) n += is_in_order(&r->nutrient[i]);
  return n;
}

/* After each step as many more nutrients are in order as is said, by the judge's own count on the text of so many steps;
 * what the whole change covers is all that was open. */
static void the_count_after_each_step_is_true(void **state) {
  (void)state;
  struct animal a = dog(15);
  struct app_mend_request q = request(BOWL, &a);
  const struct app_mend_answer *whole = ask(&q);
  assert_int_equal(whole->answer.count, 1);
  const struct mend_proposal *all = whole->answer.found[0].proposal;
  int before = in_order_of(whole->answer.before);
  assert_true(all->count >= 4 && !all->partial);
  assert_int_equal(all->change[all->count - 1].covered, all->open);
  for (size_t steps = 1; steps < all->count; steps++) {
    q.check.ask.steps = (int)steps;
    const struct app_mend_answer *some = ask(&q);
    assert_int_equal(some->answer.count, 1);
    const struct mended *m = &some->answer.found[0];
    assert_int_equal(m->proposal->count, steps);
    assert_true(m->proposal->partial);
    assert_int_equal(m->proposal->change[steps - 1].covered, all->change[steps - 1].covered);
    assert_int_equal(in_order_of(check(&q, m->text)) - before, m->proposal->change[steps - 1].covered);
  }
  /* in an order in which the first is worth most */
  assert_true(all->change[0].covered >= all->change[1].covered - all->change[0].covered);
}

int main(void) {
  const struct CMUnitTest tests[] = {T(each_way_keeps_to_its_kind), T(foods_come_first_where_they_are_no_more_trouble),
                                     T(the_count_after_each_step_is_true), T(shares_of_a_total_are_scaled)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
