/* Remarks are as narrow as somebody who writes rations would have them: bowls that should raise them and bowls that should
 * not, each for a reason of the trade named beside it. The bowl around them meets every need (base-dog.recipe). */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "review_kit.h"
#include "words/verdicts.h"

static struct arena arena;
static struct span animals;

/* The complete bowl without the lines that hold 'without', with these lines more. */
static const struct check_result *check(const char *who, const char *without, const char *more) {
  struct span rest = review_file(REVIEW_FOLDER "base-dog.recipe", &arena), line;
  struct buf b;
  buf_init(&b, &arena, 1 << 16);
  while (next_line(&rest, &line))
    if (!without[0] || !strstr(arena_text(&arena, line), without)) buf_addf(&b, "%.*s\n", SPAN_ARG(line));
  buf_adds(&b, more);
  const struct check_result *r = review_check(buf_span(&b), animals, who, CHECK_OPTIONS_DEFAULT, &arena);
  assert_non_null(r);
  return r;
}

struct bowl {
  const char *without, *more, *why;
  bool raises;
};

static void judge(const char *id, const struct bowl *bowl, size_t count) {
  for (size_t i = 0; i < count; i++) {
    const struct check_result *r = check("Juniper", bowl[i].without, bowl[i].more);
    if ((finding_alone(r, id) != NULL) != bowl[i].raises) print_findings(r);
    if ((finding_alone(r, id) != NULL) != bowl[i].raises) fail_msg("%s: %s", id, bowl[i].why);
  }
}

static void two_supplements_are_doubled_by_mistake_only(void **state) {
  (void)state;
  static const struct bowl BOWLS[] = {
      {"vitamin D", "5 µg vitamin D [ours:vitamin-d3]\n2 g cod liver oil [usda:04589]\n",
       "drops and cod liver oil: the classic double dose of vitamin D", true},
      {"", "12 mg zinc oxide [ours:zinc-oxide]\n", "two salts of zinc, where one is enough", true},
      {"nori", "300 µg iodine [ours:potassium-iodide]\n0.15 g kelp powder, dried\n", "a tablet and kelp: iodine twice",
       true},
      {"zinc gluconate", "4 mg zinc [ours:zinc-gluconate]\n4 mg zinc [ours:zinc-gluconate]\n",
       "one product, half in the morning and half at night", false},
      {"eggshell", "1.5 g ground eggshell [ours:eggshell]\n2 g bone meal [ours:bone-meal]\n",
       "bone meal for phosphorus and shell for the rest of the calcium: neither is enough alone", false},
      {"", "", "one of each", false},
      {"", "1 g salmon oil [usda:04593]\n", "body oil is given for its fat, not for vitamin D", false},
  };
  judge("supplements-doubled", BOWLS, COUNT_OF(BOWLS));
}

/* A formula always has a little liver that alone brings the vitamin A: a fact. A weed of unknown content is no fact to build
 * on (Teas 2004: 16 to 8165 µg of iodine a gram). */
static void what_rests_on_one_food_is_a_fact(void **state) {
  (void)state;
  const struct finding *liver = finding_alone(check("Juniper", "", ""), "rests-on-one-food");
  assert_non_null(liver);
  assert_int_equal(liver->weight, FINDING_KNOW);
  assert_non_null(strstr(liver->text, "liver"));
  const struct finding *kelp = finding_alone(check("Juniper", "nori", "0.3 g kelp powder, dried\n"), "rests-on-one-food");
  if (kelp && strstr(kelp->text, "kelp")) assert_int_equal(kelp->weight, FINDING_WATCH);
  static const struct bowl BOWLS[] = {
      {"", "", "vitamin A from 18 g of liver alone", true},
      {"vitamin E", "1 capsule natural vitamin E 100 IU\n", "a capsule is taken for its vitamin and states it", true},
  };
  judge("rests-on-one-food", BOWLS, COUNT_OF(BOWLS));
  const struct finding *capsule =
      finding_alone(check("Juniper", "vitamin E", "1 capsule natural vitamin E 100 IU\n"), "rests-on-one-food");
  assert_null(strstr(capsule->text, "vitamin E"));
}

/* Less of a recipe that just meets the needs no longer does: worth watching only for whom less is to be expected. */
static void less_food_is_watched_where_it_will_be_less(void **state) {
  (void)state;
  static const char SLIM[] = "Animal: Slim\nSpecies: dog\nAge: 6 years\nWeight: 18 kg\nNeutered: yes\n",
                    ROUND[] = "Animal: Slim\nSpecies: dog\nAge: 6 years\nWeight: 18 kg\nIdeal: 16 kg\nNeutered: yes\n";
  struct span kept = animals;
  for (int round = 0; round < 2; round++) {
    animals = span_of(round ? ROUND : SLIM);
    const struct finding *f = finding_alone(check("Slim", "", ""), "less-food");
    if (f) assert_int_equal(f->weight, round ? FINDING_WATCH : FINDING_KNOW);
    if (!round) assert_non_null(f);
  }
  animals = kept;
}

/* Pills and crumbs: what is said is that this is no meal, and not that thirty things are short or that so much more of the
 * pills is to be fed. */
static void crumbs_are_no_meal(void **state) {
  (void)state;
  static const char *const CRUMBS[] = {
      "1 capsule natural vitamin E 200 IU\n2 g ground eggshell [ours:eggshell]\n1 tsp salmon oil\n",
      "2 g ground eggshell [ours:eggshell]\n1 g taurine [ours:taurine]\n", "20 g carrots, raw\n",
      "1 large egg, boiled\n10 g spinach, raw\n"};
  for (size_t i = 0; i < COUNT_OF(CRUMBS); i++) {
    const struct check_result *r = review_check(span_of(CRUMBS[i]), animals, "Juniper", CHECK_OPTIONS_DEFAULT, &arena);
    assert_non_null(r);
    assert_non_null(finding_alone(r, "no-meal"));
    assert_int_equal(r->finding[0].weight, FINDING_ACT);
    for (size_t k = 0; k < r->finding_count; k++) {
      assert_null(strstr(r->finding[k].remedy, "First feed about"));
      assert_null(strstr(r->finding[k].text, " is short:"));
    }
  }
  /* What would be too much beside any meal is named all the same: 100 µg a day of vitamin D is 20 times NRC's allowance. */
  const struct check_result *r = review_check(span_of("4000 IU vitamin D [ours:vitamin-d3]\n10 g carrots\n"), animals,
                                              "Juniper", CHECK_OPTIONS_DEFAULT, &arena);
  assert_non_null(finding_alone(r, "no-meal"));
  assert_non_null(finding_alone(r, "vitamin_d-over"));
  assert_non_null(strstr(words_lead(r, &arena), "too much vitamin D"));
}

static int begin(void **state) {
  (void)state;
  arena_init(&arena, NULL);
  animals = review_file(REVIEW_FOLDER "animals.txt", &arena);
  return 0;
}

static int end(void **state) {
  (void)state;
  arena_free(&arena);
  return 0;
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(two_supplements_are_doubled_by_mistake_only), cmocka_unit_test(what_rests_on_one_food_is_a_fact),
      cmocka_unit_test(less_food_is_watched_where_it_will_be_less), cmocka_unit_test(crumbs_are_no_meal)};
  return cmocka_run_group_tests(tests, begin, end);
}
