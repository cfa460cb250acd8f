/* What a larder says is kept by mend: its foods first, so often, so much a time, whole pieces; and the person's other
 * wishes. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

#include "mend_scene.h"

static const char BOWL[] =
    "Makes: 2 days\n\n700 g lamb shoulder, raw\n150 g cooked white rice\n160 g duck neck, raw, bone-in\n"
    "40 g lamb liver [usda:17199]\n";

static const char LARDER[] = "large egg [usda:01123]                        0-1 a day, whole\n"
                             "mackerel, canned, drained [usda:15048]        at most twice a week, 110 g a time\n"
                             "canned sardine [usda:15088]                   at most 3 times a week, 40-180 g a time\n"
                             "raw Eastern oyster [usda:15167]               up to 45 g\n"
                             "haddock, raw [usda:15033]                     at most 5 times a week, 150 g a time\n"
                             "spinach, raw [usda:11457]                     up to 60 g\n"
                             "kale, raw [usda:11233]                        at least 5 g if used, up to 60 g\n"
                             "wheat germ [usda:20078]                       up to 20 g\n"
                             "ground eggshell [ours:eggshell]               up to 8 g\n"
                             "natural vitamin E [ours:vitamin-e-natural]    up to 0.3 g\n"
                             "choline bitartrate [ours:choline-bitartrate]  up to 3 g\n";

static const struct app_mend_answer *ask_with(const char *larder, const char **never, size_t nevers, bool supplements,
                                              double sure) {
  static struct animal a;
  a = dog(18);
  struct app_mend_request q = request(BOWL, &a);
  q.check.ask.never.item = never;
  q.check.ask.never.count = nevers;
  q.check.ask.check.sure = sure;
  q.check.ask.no_supplements = !supplements;
  if (larder) q.larder = (struct app_input){"larder", span_of(larder)};
  const struct app_mend_answer *answer = ask(&q);
  assert_true(answer->understood);
  return answer;
}

static const struct ration_line *line_of(const struct mended *m, const char *code) {
  const struct ration_line *found = NULL;
  for (size_t i = 0; i < m->after->ration->line_count; i++) {
    const struct ration_line *l = &m->after->ration->line[i];
    if (strcmp(library_code(built_library(), l->shown_food), code) != 0) continue;
    assert_null(found); /* never twice */
    found = l;
  }
  return found;
}

/* So much on a day when it is fed, on so many days of 28; 0 often: it need not be there. True when it is. */
static bool fed(const struct mended *m, const char *code, double low, double high, int most_times) {
  const struct ration_line *l = line_of(m, code);
  int days = 0;
  if (!l) return false;
  for (int i = 0; i < CALENDAR_DAYS; i++) days += l->fed_on[i];
  assert_true(days <= most_times);
  if (most_times < CALENDAR_DAYS) assert_true(days % 4 == 0); /* by the week, as the larder says it */
  assert_true(l->grams_fed >= low - 1e-6 && l->grams_fed <= high + 1e-6);
  return true;
}

static void larder_is_kept(const struct mended *m, int *rare) {
  *rare += fed(m, "usda:15048", 110, 110, 8);
  *rare += fed(m, "usda:15088", 40, 180, 12);
  *rare += fed(m, "usda:15033", 150, 150, 20);
  fed(m, "usda:11233", 5, 60, 28);
  fed(m, "usda:11457", 0, 60, 28);
  fed(m, "usda:15167", 0, 45, 28);
  const struct ration_line *egg = line_of(m, "usda:01123");
  /* Makes: 2 days, so half eggs a day are whole eggs in the batch. 50 g: USDA's weight of a large egg. */
  if (egg) assert_true(fabs(egg->grams_fed / 25 - round(egg->grams_fed / 25)) < 1e-6 && egg->grams_fed <= 50 + 1e-6);
}

static void a_larder_that_suffices_is_all_that_is_used(void **state) {
  (void)state;
  int rare = 0;
  static const double SURE[] = {0.7, 0.75};
  for (size_t k = 0; k < COUNT_OF(SURE); k++) {
    const struct app_mend_answer *a = ask_with(LARDER, NULL, 0, true, SURE[k]);
    assert_int_equal(a->answer.count, 1);
    const struct mended *m = &a->answer.found[0];
    assert_true(m->proposal->at_hand);
    larder_is_kept(m, &rare);
    for (size_t i = 0; i < m->lines; i++) {
      const char *pin = m->line[i].kind == LINE_IN ? strchr(m->line[i].text, '[') : NULL;
      if (pin && !strstr(pin, "17199")) assert_non_null(strstr(LARDER, pin)); /* every added line is one of the larder's */
    }
  }
  assert_true(rare >= 2);
}

/* Without enough in it the larder's foods keep their ranges, and ordinary foods come in as well. */
static void a_larder_that_does_not_suffice_is_still_kept(void **state) {
  (void)state;
  static const char *NEVER[] = {"cod",       "pollock",  "mussel",     "Pacific oyster", "crab",      "sardine",
                                "vitamin D", "fish oil", "salmon oil", "usda:15260",     "cod liver", "egg", "algal"};
  int rare = 0;
  const struct app_mend_answer *a = ask_with("haddock, raw [usda:15033]   at most 5 times a week, 150 g a time\n"
                                             "mackerel, canned, drained [usda:15048]   at most twice a week, 110 g a time\n",
                                             NEVER, COUNT_OF(NEVER), true, 0.75);
  assert_int_equal(a->answer.count, 1);
  const struct mended *m = &a->answer.found[0];
  assert_false(m->proposal->at_hand);
  rare += fed(m, "usda:15048", 110, 110, 8);
  rare += fed(m, "usda:15033", 150, 150, 20);
  assert_true(rare > 0);
  for (size_t i = 0; i < COUNT_OF(NEVER); i++)
    for (size_t k = 0; k < m->proposal->count; k++)
      if (m->proposal->change[k].line < 0) assert_null(strstr(m->food[k], NEVER[i]));
}

/* Food before supplement: what is mended without supplements has none, and with them no more than it needs. The dinner comes
 * before few lines: more of them only where portions or cuts without supplements go further. */
static void supplements_come_last(void **state) {
  (void)state;
  const struct library *lib = built_library();
  const struct app_mend_answer *without = ask_with(NULL, NULL, 0, false, 0.75);
  assert_int_equal(without->answer.count, 1);
  const struct ration *r = without->answer.found[0].after->ration;
  for (size_t i = 0; i < r->line_count; i++)
    assert_int_not_equal(library_food(lib, r->line[i].shown_food)->part, PART_SUPPLEMENT);
  const struct app_mend_answer *with = ask_with(NULL, NULL, 0, true, 0.75);
  assert_int_equal(with->answer.count, 1);
  size_t few = with->answer.found[0].proposal->count, many = without->answer.found[0].proposal->count;
  const struct mend_reach *gentle = &with->answer.found[0].proposal->reach, *far = &without->answer.found[0].proposal->reach;
  assert_true(gentle->stretch <= far->stretch && gentle->cut_main <= far->cut_main);
  assert_true(few <= many || gentle->stretch < far->stretch || gentle->cut_main < far->cut_main);
}

int main(void) {
  const struct CMUnitTest tests[] = {T(a_larder_that_suffices_is_all_that_is_used),
                                     T(a_larder_that_does_not_suffice_is_still_kept), T(supplements_come_last)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
