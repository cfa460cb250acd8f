/* What a recipe means to the judge. The order of lines: 200 random recipes of ordinary foods, many of them fed now and then,
 * each with its lines in three other orders, give the same word for every nutrient: a bowl is the same bowl, whatever line
 * stands first. Then days, shares, animals and what is not counted. */
#include "app/app.h"
#include "review/findings.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

#include "tests/support/built_image.h"
#include "tests/support/unit_random.h"
#include "words/verdicts.h"

static const char *const FOODS[] = {"lamb shoulder, raw [usda:17039]",
                                    "lamb liver, raw [usda:17199]",
                                    "mackerel, canned, drained [usda:15048]",
                                    "egg [usda:01123]",
                                    "lamb heart, raw [usda:17191]",
                                    "salmon oil [usda:04593]",
                                    "haddock, raw [usda:15033]",
                                    "spinach, raw [usda:11457]",
                                    "sardines, drained [usda:15088]",
                                    "kale, raw [usda:11233]",
                                    "oyster, raw [usda:15167]",
                                    "wheat germ [usda:20078]",
                                    "ground eggshell [ours:eggshell]",
                                    "120 g duck neck, raw, bone-in"};
static const char *const TIMES[] = {"",        ", every other day", ", weekly",         ", twice a week", ", 3 times a week",
                                    ", daily", ", every 2 weeks",   ", 5 times a week", ", every 3 days", ", once a month"};

enum { LINES_MOST = 10, RECIPES = 200, ORDERS = 3 };
static struct arena arena;

static size_t pick(size_t n) { return (size_t)below((int)n); }

static const char *line_text(double *grams) {
  struct buf b;
  buf_init(&b, &arena, 256);
  size_t food = pick(COUNT_OF(FOODS));
  *grams = food == 5 || food == 12 ? 1 + floor(8 * unit_random()) : 10 + floor(200 * unit_random());
  if (food + 1 == COUNT_OF(FOODS))
    buf_adds(&b, FOODS[food]);
  else
    buf_addf(&b, "%d g %s", (int)*grams, FOODS[food]);
  buf_adds(&b, TIMES[pick(COUNT_OF(TIMES))]);
  return buf_text(&b);
}

static const struct check_result *answer(const char *const *line, size_t count, const struct animal *dog, bool numbers) {
  struct buf b;
  buf_init(&b, &arena, 8192);
  for (size_t i = 0; i < count; i++) buf_addf(&b, "%s\n", line[i]);
  struct app_check_request q = {.recipe = {"bowl", buf_span(&b)}, .one_off = dog, .ask.check = CHECK_OPTIONS_DEFAULT};
  struct app_check_answer *a = ARENA_NEW(&arena, struct app_check_answer, 1);
  q.ask.numbers_only = numbers;
  app_check(built_library(), &q, a, &arena);
  if (!a->result) fail_msg("not read: %s", buf_text(&b));
  return a->result;
}

static const struct check_result *check_lines(const char *const *line, size_t count, const struct animal *dog) {
  return answer(line, count, dog, true);
}

static const struct check_result *review_lines(const char *const *line, size_t count, const struct animal *dog) {
  return answer(line, count, dog, false);
}

static void shuffle(const char **line, size_t count) {
  for (size_t i = count; i > 1; i--) {
    size_t k = pick(i);
    const char *t = line[i - 1];
    line[i - 1] = line[k];
    line[k] = t;
  }
}

static void order_changes_no_verdict(void **state) {
  (void)state;
  seed = 20261128;
  for (int r = 0; r < RECIPES; r++) {
    arena_init(&arena, NULL);
    const char *line[LINES_MOST];
    size_t count = 3 + pick(LINES_MOST - 3);
    double grams;
    for (size_t i = 0; i < count; i++) line[i] = line_text(&grams);
    struct animal dog = animal_plain(SPECIES_DOG, 5 + 30 * unit_random());
    const struct check_result *first = check_lines(line, count, &dog);
    for (int k = 0; k < ORDERS; k++) {
      shuffle(line, count);
      const struct check_result *again = check_lines(line, count, &dog);
      for (int n = 0; n < NUT_COUNT; n++)
        if (again->nutrient[n].verdict != first->nutrient[n].verdict)
          fail_msg("recipe %d: %s is %s, then %s", r, nutrient_info[n].name, verdict_word[first->nutrient[n].verdict],
                   verdict_word[again->nutrient[n].verdict]);
    }
    arena_free(&arena);
  }
}

static bool near(double a, double b) { return fabs(a - b) <= 1e-9 * fmax(fabs(a), fabs(b)) || (isnan(a) && isnan(b)); }

/* A line in two halves is the same food: the same sums, bands and words, and what rests on one food still does. */
static void a_split_line_changes_nothing(void **state) {
  (void)state;
  static const char *const REST[] = {"300 g lamb shoulder, raw [usda:17039]", "100 g cooked white rice [usda:20045]",
                                     "30 g spinach, raw [usda:11457]", "2 g ground eggshell [ours:eggshell]"};
  static const struct {
    const char *whole, *half;
  } SPLIT[] = {{"120 g duck neck, raw, bone-in", "60 g duck neck, raw, bone-in"},
               {"200 g chicken thigh, simmered, bone-in", "100 g chicken thigh, simmered, bone-in"},
               {"60 g lamb liver, raw [usda:17199]", "30 g lamb liver, raw [usda:17199]"},
               {"30 g oyster, raw [usda:15167]", "15 g oyster, raw [usda:15167]"},
               {"100 g mackerel, canned, drained [usda:15048], twice a week",
                "50 g mackerel, canned, drained [usda:15048], twice a week"},
               {"4 g salmon oil [usda:04593]", "2 g salmon oil [usda:04593]"}};
  int rests = 0;
  for (size_t i = 0; i < COUNT_OF(SPLIT); i++) {
    arena_init(&arena, NULL);
    struct animal dog = animal_plain(SPECIES_DOG, 18);
    const char *line[COUNT_OF(REST) + 2];
    for (size_t k = 0; k < COUNT_OF(REST); k++) line[k] = REST[k];
    line[COUNT_OF(REST)] = SPLIT[i].whole;
    const struct check_result *one = review_lines(line, COUNT_OF(REST) + 1, &dog);
    line[COUNT_OF(REST)] = line[COUNT_OF(REST) + 1] = SPLIT[i].half;
    const struct check_result *two = review_lines(line, COUNT_OF(REST) + 2, &dog);
    for (int n = 0; n < NUT_COUNT; n++) {
      const struct nutrient_result *a = &one->nutrient[n], *b = &two->nutrient[n];
      assert_int_equal(a->verdict, b->verdict);
      if (!near(a->amount, b->amount) || !near(a->low, b->low) || !near(a->high, b->high))
        fail_msg("%s, %s: %g (%g to %g) and %g (%g to %g)", SPLIT[i].whole, nutrient_info[n].name, a->amount, a->low,
                 a->high, b->amount, b->low, b->high);
    }
    assert_int_equal(findings_say(one, "rests-on-one-food"), findings_say(two, "rests-on-one-food"));
    rests += findings_say(one, "rests-on-one-food");
    arena_free(&arena);
  }
  assert_true(rests >= 3);
}

static const struct check_result *check_text(const char *text, const struct animal *dog) {
  return check_lines(&text, 1, dog);
}

/* A food that is named for every day of the week, in pieces, is a food fed daily; the same menu on other days of the week is
 * the same menu. */
static void named_days_are_the_days_fed(void **state) {
  (void)state;
  arena_init(&arena, NULL);
  struct animal dog = animal_plain(SPECIES_DOG, 18);
  const struct check_result *daily = check_text("400 g beef mince, raw [usda:23567]\n", &dog);
  static const char *const PIECES[] = {
      ("400 g beef mince, raw [usda:23567] on Mondays\n"
       "400 g beef mince, raw [usda:23567] on Tue, Wed, Thu, Fri, Sat and Sun\n"),
      "Monday:\n400 g beef mince, raw [usda:23567]\nTue-Sun:\n400 g beef mince, raw [usda:23567]\n",
      "2800 g beef mince, raw [usda:23567] a week\n", "kg per week:\nbeef mince, raw [usda:23567] 2.8\n"};
  for (size_t i = 0; i < COUNT_OF(PIECES); i++) {
    const struct check_result *r = check_text(PIECES[i], &dog);
    for (int n = 0; n < NUT_COUNT; n++) {
      assert_int_equal(r->nutrient[n].verdict, daily->nutrient[n].verdict);
      assert_true(fabs(r->nutrient[n].lowest_day - daily->nutrient[n].lowest_day) <= 1e-9 * daily->nutrient[n].amount);
      assert_true(fabs(r->nutrient[n].window_amount - daily->nutrient[n].window_amount) <=
                  1e-9 * daily->nutrient[n].window_amount);
    }
  }
  const struct check_result *a = check_text("Mon, Thu:\n700 g beef mince, raw [usda:23567]\n", &dog);
  const struct check_result *b = check_text("Tue, Fri:\n700 g beef mince, raw [usda:23567]\n", &dog);
  for (int n = 0; n < NUT_COUNT; n++) assert_int_equal(a->nutrient[n].verdict, b->nutrient[n].verdict);
  /* On Monday and Thursday three days lie between at most: two feedings in any seven days, none in three. */
  assert_true(fabs(a->nutrient[NUT_PROTEIN].amount - 2.0 / 7 * a->nutrient[NUT_PROTEIN].highest_day) < 1e-9);
  assert_true(a->nutrient[NUT_PROTEIN].lowest_day == 0);
  for (int d = 0; d < CALENDAR_DAYS; d++) assert_int_equal(a->ration->line[0].fed_on[d], d % 7 == 0 || d % 7 == 3);
  arena_free(&arena);
}

static const struct check_result *check_alone(const char *text, struct app_check_answer *a) {
  struct app_check_request q = {.recipe = {"bowl", span_of(text)}, .ask.check = CHECK_OPTIONS_DEFAULT};
  app_check(built_library(), &q, a, &arena);
  return a->result;
}

/* The animal and the amount of food stand in the recipe. Reference: the arithmetic of the words (2.5 % of 18 kg are 450 g),
 * and for shares without a whole the energy need of the same animal. */
static void a_recipe_may_name_its_animal_and_its_amount(void **state) {
  (void)state;
  arena_init(&arena, NULL);
  struct app_check_answer a;
  static const char *const SAME[] = {
      ("Dog: 18 kg, 6 years, neutered\nFeeds: 2.5 % of body weight\n"
       "80 % beef mince [usda:23572]\n20 % lamb liver [usda:17199]\n"),
      "Dog: 40 lb\nFeeds: 450 g a day\nMakes: 3 days\n80 % beef mince [usda:23572]\n20 % lamb liver [usda:17199]\n",
      "Dog: 18 kg\n360 g beef mince [usda:23572]\n90 g lamb liver [usda:17199]\n"};
  for (size_t i = 0; i < COUNT_OF(SAME); i++) {
    assert_non_null(check_alone(SAME[i], &a));
    assert_true(fabs(a.result->ration->line[0].grams_fed - 360) < 1e-9);
    assert_true(fabs(a.result->ration->line[1].grams_fed - 90) < 1e-9);
    assert_int_equal(a.result->animal->species, SPECIES_DOG);
  }
  assert_non_null(check_alone("Cat: Pim, 4.5 kg, spayed\n70 % chicken thigh [usda:05091]\n30 % chicken heart [usda:05025]\n"
                              "2 g salmon oil [usda:04593]\n",
                              &a));
  assert_string_equal(a.result->animal->name, "Pim");
  assert_true(fabs(a.result->energy.supply_kcal - a.result->energy.need.kcal) < 1e-6 * a.result->energy.need.kcal);
  assert_int_equal(a.recipe_diags.count, 1); /* and that is said */
  assert_true(fabs(a.result->ration->line[2].grams_fed - 2) < 1e-12);
  static const char *const WRONG[] = {"Dog: Juniper\n100 g beef mince\n", "Dog: 18 kg, purple\n100 g beef mince\n",
                                      "Feeds: 2.5 % of body weight\n100 % beef mince\n"};
  for (size_t i = 0; i < COUNT_OF(WRONG); i++) assert_null(check_alone(WRONG[i], &a));
  arena_free(&arena);
}

/* What is fed and unknown is never zero: whatever was short or thin can no longer be said to be, nothing known changes, and
 * nothing counts as known altogether. */
static void what_is_not_counted_is_unknown(void **state) {
  (void)state;
  arena_init(&arena, NULL);
  struct app_check_answer plain, with;
  static const char BOWL[] = "Dog: 18 kg\n400 g beef mince [usda:23572]\n";
  struct buf b;
  buf_init(&b, &arena, 512);
  buf_addf(&b, "%s? 1 scoop of Whatever\n", BOWL);
  const struct check_result *before = check_alone(BOWL, &plain), *after = check_alone(buf_text(&b), &with);
  for (int n = 0; n < NUT_COUNT; n++) {
    enum verdict was = before->nutrient[n].verdict, is = after->nutrient[n].verdict;
    bool open = was == VERDICT_SHORT || was == VERDICT_UNPROVEN ||
                (was == VERDICT_THIN && before->nutrient[n].ratio < 1); /* not those that are thin by chance */
    assert_int_equal(is, open ? VERDICT_UNPROVEN : was);
    assert_true(after->nutrient[n].known != KNOWN_ALL);
    assert_true(after->nutrient[n].amount == before->nutrient[n].amount || isnan(before->nutrient[n].amount));
  }
  assert_non_null(strstr(words_lead(after, &arena), "1 scoop of Whatever"));
  arena_free(&arena);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(order_changes_no_verdict), cmocka_unit_test(a_split_line_changes_nothing),
      cmocka_unit_test(named_days_are_the_days_fed), cmocka_unit_test(a_recipe_may_name_its_animal_and_its_amount),
      cmocka_unit_test(what_is_not_counted_is_unknown)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
