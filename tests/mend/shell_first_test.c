/* Eggs fed with their shells, in a bowl with too much calcium: the eggs stay, the shells go. A shell is about a tenth of an
 * egg and nearly all calcium carbonate, 38 % calcium: 2 g and more an egg. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "mend_scene.h"

static const char BOWL[] = "400 g chicken thigh, boneless, skinless, raw\n%s\n100 g carrots, raw\n20 g beef liver, raw\n";

static const char *bowl_with(const char *eggs) {
  struct buf b;
  buf_init(&b, &arena, 1000);
  buf_addf(&b, BOWL, eggs);
  return buf_text(&b);
}

static const struct {
  const char *with, *without;
} LINES[] = {
    {"3 eggs with shell", "3 eggs without shell"},
    {"3 large eggs, with their shells, daily", "3 large eggs, without shell, daily"},
    {"- 2 eggs shell on [cut:egg-with-shell]   # from our hens", "- 2 eggs without shell   # from our hens"},
    {"3 whole eggs including shell", "3 whole eggs without shell"},
    {"* 3 raw eggs (with crushed shell)", "* 3 raw eggs (without shell)"},
    {"180 g eggs with shell", "160 g eggs without shell"},
    {"12 quail eggs with shell", "12 quail eggs without shell"},
};

static void eggs_stay_and_their_shells_go(void **state) {
  (void)state;
  struct animal a = dog(15);
  for (size_t i = 0; i < COUNT_OF(LINES); i++) {
    struct app_mend_request q = request(bowl_with(LINES[i].with), &a);
    q.quick = true;
    assert_true(check(&q, bowl_with(LINES[i].with))->balance.ca_p > 2);
    const struct app_mend_answer *m = ask(&q);
    if (m->answer.plate_count != 1) print_error("%s\n", LINES[i].with);
    assert_int_equal(m->answer.plate_count, 1);
    assert_string_equal(m->answer.plate[0].was, LINES[i].with);
    assert_string_equal(m->answer.plate[0].is, LINES[i].without);
    assert_non_null(strstr(m->answer.plate_words, "without their shells"));
    assert_int_equal(m->answer.count, 1);
    const struct mended *found = &m->answer.found[0];
    bool out = false, in = false;
    for (size_t k = 0; k < found->lines; k++) {
      out |= found->line[k].kind == LINE_OUT && strcmp(found->line[k].text, LINES[i].with) == 0;
      in |= found->line[k].kind == LINE_IN && strstr(found->line[k].text, "without shell"); /* perhaps fewer of them */
    }
    assert_true(out && in);
    const struct check_result *after = check(&q, found->text);
    for (int n = 0; n < NUT_COUNT; n++) assert_true(is_in_order(&after->nutrient[n]));
    assert_true(after->balance.ca_p >= 1 && after->balance.ca_p <= 2);
  }
}

/* By hand: three eggs of 57 g, 11 % shell of 38 % calcium, are 7.15 g. */
static void the_figures_are_told(void **state) {
  (void)state;
  struct animal a = dog(15);
  struct app_mend_request q = request(bowl_with("3 eggs with shell"), &a);
  q.quick = true;
  assert_string_equal(ask(&q)->answer.plate_words,
                      "The eggshells alone supply 7.15 g of calcium a day; the need is 0.991 g. So "
                      "the eggs go in without their shells.");
}

static void shells_that_do_no_harm_stay(void **state) {
  (void)state;
  static const char *KEPT[] = {"eggs with shell"};
  struct animal a = dog(15), big = dog(40);
  struct app_mend_request q = request(bowl_with("3 eggs without shell"), &a);
  q.quick = true;
  assert_int_equal(ask(&q)->answer.plate_count, 0);
  q = request(bowl_with("1 egg with shell, every other day"), &a);
  q.quick = true;
  assert_int_equal(ask(&q)->answer.plate_count, 0); /* all the calcium that it has */
  q = request("800 g beef, ground, 85% lean, raw\n1 egg with shell\n300 g white rice, cooked\n", &big);
  q.quick = true;
  assert_int_equal(ask(&q)->answer.plate_count, 0);
  q = request(bowl_with("3 eggs with shell"), &a);
  q.quick = true;
  q.check.ask.keep.item = KEPT;
  q.check.ask.keep.count = 1;
  assert_int_equal(ask(&q)->answer.plate_count, 0);
}

/* A bowl that is scaled first, and one whose liver is cut first, lose the shells too, and each line is told of once. */
static void beside_what_else_comes_first(void **state) {
  (void)state;
  struct animal a = dog(15), small = dog(6);
  struct app_mend_request q = request("150 g chicken thigh, boneless, skinless, raw\n2 eggs with shell\n", &a);
  q.quick = true;
  const struct app_mend_answer *m = ask(&q);
  assert_true(m->answer.scaled > 1);
  assert_int_equal(m->answer.plate_count, 1);
  assert_non_null(strstr(m->answer.plate[0].is, "eggs without shell"));
  q = request("400 g chicken thigh, boneless, skinless, raw\n3 eggs with shell\n150 g beef liver, raw\n", &small);
  q.quick = true;
  m = ask(&q);
  assert_non_null(strstr(m->answer.plate_words, "Liver is"));
  assert_non_null(strstr(m->answer.plate_words, "without their shells"));
  int eggs = 0;
  for (size_t i = 0; i < m->answer.plate_count; i++) {
    if (!strstr(m->answer.plate[i].was, "egg")) continue;
    eggs++;
    assert_string_equal(m->answer.plate[i].was, "3 eggs with shell");
    assert_non_null(strstr(m->answer.plate[i].is, "without shell"));
  }
  assert_int_equal(eggs, 1);
}

int main(void) {
  const struct CMUnitTest tests[] = {T(eggs_stay_and_their_shells_go), T(the_figures_are_told),
                                     T(shells_that_do_no_harm_stay), T(beside_what_else_comes_first)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
