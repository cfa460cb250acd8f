/* Dinners that are wrong as a whole: a formulator's own bowls, and what such a person does first (vegetables to a usual
 * share and meat up, lean meat for the fat one, liver down and no liver oil). */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "mend_scene.h"

static const char VEGETABLES[] = "150 g chicken breast, skinless, raw\n300 g broccoli\n300 g carrots\n200 g zucchini\n"
                                 "200 g kale\n100 g lentils, cooked\n100 g blueberries\n1 tsp turmeric\n";
static const char FAT[] = "Dog: 12 kg, 8 years, neutered, ideal 10 kg, low activity\n\n300 g pork belly, raw\n100 g lamb breast\n1 tbsp coconut oil\n50 g cheddar cheese\n";
static const char LIVER[] = "60 g beef liver, raw\n60 g chicken breast, skinless, raw\n20 g chicken liver\n1 tsp cod liver oil\n";

static double grams_of(const struct check_result *r, bool (*is)(const struct img_food *f)) {
  double sum = 0;
  for (size_t i = 0; i < r->ration->line_count; i++) {
    const struct img_food *f = library_food(built_library(), r->ration->line[i].shown_food);
    if (f && is(f)) sum += ration_line_grams_per_day(&r->ration->line[i]);
  }
  return sum;
}
static bool any(const struct img_food *f) { return f != NULL; }
static bool plant(const struct img_food *f) { return f->part == PART_VEGETABLE || f->part == PART_FRUIT; }
static bool meat(const struct img_food *f) { return f->part == PART_MUSCLE; }
static bool liver(const struct img_food *f) { return f->part == PART_ORGAN_LIVER; }
static bool pork(const struct img_food *f) { return f->kind == library_food(built_library(), built_food("usda:10005"))->kind; }

/* The first answer, judged again: everything is met, and few things are added. */
static const struct check_result *mended_well(const struct app_mend_request *q, const struct app_mend_answer *a, size_t most) {
  assert_true(a->answer.count >= 1 && a->answer.plate_count > 0 && a->answer.plate_words[0]);
  const struct mended *m = &a->answer.found[0];
  const struct check_result *r = check(q, m->text);
  size_t added = 0;
  for (size_t i = 0; i < m->proposal->count; i++) added += m->proposal->change[i].line < 0;
  for (int n = 0; n < NUT_COUNT; n++) assert_true(is_in_order(&r->nutrient[n]));
  assert_true(added <= most && m->ask_count == 0);
  return r;
}

static void vegetables_are_cut_and_the_meat_is_raised(void **state) {
  (void)state;
  struct animal a = dog(30);
  struct app_mend_request q = request(VEGETABLES, &a);
  const struct check_result *r = mended_well(&q, ask(&q), 8);
  assert_true(grams_of(r, any) < 0.05 * 30000 && grams_of(r, plant) < 0.25 * grams_of(r, any));
  assert_true(grams_of(r, meat) > 450);
}

static void lean_meat_comes_for_the_fat_one(void **state) {
  (void)state;
  struct app_mend_request q = request(FAT, NULL);
  const struct check_result *r = mended_well(&q, ask(&q), 8);
  assert_true(r->energy.share_fat < 0.5 && grams_of(r, pork) > 100);
  assert_null(strstr(ask(&q)->answer.found[0].text, "pork belly"));
  const char *no_pork[] = {"pork"};
  q.check.ask.never.item = no_pork;
  q.check.ask.never.count = 1;
  const struct app_mend_answer *other = ask(&q); /* his belly is his own, but no other pork is put in its place */
  for (size_t i = 0; i < other->answer.plate_count; i++) assert_null(strstr(other->answer.plate[i].is, "pork fillet"));
}

static void liver_and_its_oil_go_down_first(void **state) {
  (void)state;
  struct animal a = animal_plain(SPECIES_CAT, 4.5);
  struct app_mend_request q = request(LIVER, &a);
  const struct check_result *r = mended_well(&q, ask(&q), 10);
  assert_true(grams_of(r, liver) < 0.08 * grams_of(r, any) && grams_of(r, meat) > grams_of(r, any) / 2);
  assert_null(strstr(ask(&q)->answer.found[0].text, "cod liver oil"));
}

static bool tuna(const struct img_food *f) { return f->part == PART_FISH && strstr(lib_str(built_library(), f->name), "tuna"); }

/* 150 g of light tuna with 0.128 mg of mercury in a kg (US FDA) are a third of what harmed cats within a year (ATSDR). Once a
 * week, and to a dog, of which nothing is known, it stays. */
static void a_cat_is_not_fed_tuna_every_day(void **state) {
  (void)state;
  static const char DAILY[] = "150 g canned tuna in water, drained\n10 g boiled carrots\n",
                    WEEKLY[] = "110 g chicken thigh, skinless, cooked\n50 g canned tuna in water, drained, weekly\n";
  struct animal cat = animal_plain(SPECIES_CAT, 4), small = dog(4);
  struct app_mend_request q = request(DAILY, &cat), seldom = request(WEEKLY, &cat), other = request(DAILY, &small);
  const struct app_mend_answer *a = ask(&q);
  const struct check_result *r = mended_well(&q, a, 7);
  assert_true(grams_of(r, tuna) == 0 && grams_of(r, meat) > 50);
  assert_non_null(strstr(a->answer.plate_words, "mercury"));
  assert_int_equal(ask(&seldom)->answer.plate_count, 0);
  assert_int_equal(ask(&other)->answer.plate_count, 0);
}

/* Right proportions stay: a stew with much vegetable of a usual weight, a fat cut beside lean ones, what is to be kept. */
static void other_dinners_keep_theirs(void **state) {
  static const char *const FINE[] = {
      "300 g beef mince 90/10, raw\n60 g beef heart, raw\n20 g beef liver, raw\n40 g carrots, raw\n",
      "350 g turkey thigh, skinless, raw\n250 g sweet potato, boiled\n200 g carrots\n100 g green beans\n",
      "250 g chicken thigh with skin, raw\n100 g cooked white rice\n80 g pork belly, raw\n",
      "350 g beef mince 80/20, raw\n45 g beef liver, raw\n",
  };
  (void)state;
  struct animal a = dog(20);
  for (size_t i = 0; i < sizeof FINE / sizeof *FINE; i++) {
    struct app_mend_request q = request(FINE[i], &a);
    q.quick = true;
    assert_int_equal(ask(&q)->answer.plate_count, 0);
  }
  struct app_mend_request q = request(FAT, NULL);
  const char *keep[] = {"pork belly"};
  q.quick = true;
  q.check.ask.keep.item = keep;
  q.check.ask.keep.count = 1;
  const struct app_mend_answer *kept = ask(&q);
  for (size_t i = 0; i < kept->answer.plate_count; i++) assert_null(strstr(kept->answer.plate[i].was, "pork belly"));
}

int main(void) {
  const struct CMUnitTest tests[] = {T(vegetables_are_cut_and_the_meat_is_raised), T(lean_meat_comes_for_the_fat_one),
                                     T(liver_and_its_oil_go_down_first), T(a_cat_is_not_fed_tuna_every_day),
                                     T(other_dinners_keep_theirs)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
