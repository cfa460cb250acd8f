/* What foods do to each other, as the review tells it: published limits at their two ends, ratios over the same days, and
 * remedies in amounts that a kitchen knows. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "review_kit.h"
#include "tests/support/fresh_arena.h"
#include "tests/support/near.h"

static struct span animals;

static const struct check_result *check(const char *who, const char *recipe) {
  const struct check_result *r = review_check(span_of(recipe), animals, who, CHECK_OPTIONS_DEFAULT, &arena);
  assert_non_null(r);
  return r;
}

static double number_of(const struct finding *f, const char *key) {
  assert_non_null(f);
  for (size_t i = 0; i < f->because_count; i++)
    if (strcmp(f->because[i].key, key) == 0) return f->because[i].value;
  fail_msg("no '%s' behind %s", key, f->id);
  return 0;
}

/* Source: Morris and Ellis 1980, J Nutr 110:1037: growth of rats fell above 12 mol of phytate to one of zinc at 0.75 %
 * calcium, above 6 at 1.75 %. */
static void calcium_lowers_the_phytate_that_zinc_bears(void **state) {
  (void)state;
#define BRAN "60 g wheat bran [usda:20077]\n80 g lean beef, raw [usda:13795]\n"
  const struct finding *little = finding_alone(check("Juniper", BRAN), "phytate-zinc-high");
  const struct finding *much =
      finding_alone(check("Juniper", BRAN "6 g calcium carbonate [ours:calcium-carbonate]\n"), "phytate-zinc-high");
  assert_true(number_of(little, "calcium_share") < 0.0075);
  assert_near(number_of(little, "limit"), 12, 1e-6);
  assert_true(number_of(much, "calcium_share") > 0.0175);
  assert_near(number_of(much, "limit"), 6, 1e-6);
  /* 600 mg of phytate and 2.04 mg of zinc would be 29: (600 / 660.04) / (2.04 / 65.38), by hand for any amounts. */
  double phytate = number_of(little, "phytate"), zinc = number_of(little, "zinc");
  assert_near(number_of(little, "ratio"), phytate / 660.04 / (zinc / 65.38), 0.01);
}

/* 1.6 g of shell every other day is the calcium of 0.8 g a day: fine on average, but not over every three days. */
static void calcium_and_phosphorus_are_weighed_over_the_same_days(void **state) {
  (void)state;
#define MEAT "100 g lean beef, raw [usda:13795]\n"
  const struct check_result *daily = check("Pim", MEAT "0.8 g ground eggshell [ours:eggshell]\n");
  const struct check_result *other = check("Pim", MEAT "1.6 g ground eggshell, every other day [ours:eggshell]\n");
  assert_near(daily->balance.ca_p, other->balance.ca_p, 1e-6);
  assert_int_equal(place_of(daily, "ca-p-uneven"), 0);
  const struct finding *f = finding_alone(other, "ca-p-uneven");
  double low = number_of(f, "low"), high = number_of(f, "high"), mean = number_of(f, "ratio");
  assert_true(low < mean && mean < high);
  /* In three days the shell falls on one or on two of them; the meat's own calcium is on all three. */
  double shell = other->nutrient[NUT_CALCIUM].highest_day - other->nutrient[NUT_CALCIUM].lowest_day;
  double meat_ca = other->nutrient[NUT_CALCIUM].lowest_day,
         shell_p = other->nutrient[NUT_PHOSPHORUS].highest_day - other->nutrient[NUT_PHOSPHORUS].lowest_day;
  double meat_p = other->nutrient[NUT_PHOSPHORUS].lowest_day;
  assert_near(low, (3 * meat_ca + shell) / (3 * meat_p + shell_p), 1e-6);
  assert_near(high, (3 * meat_ca + 2 * shell) / (3 * meat_p + 2 * shell_p), 1e-6);
}

/* Whether a remedy names grams that a kitchen can weigh: whole grams from five upward, no third digit anywhere. */
static bool kitchen_amount(const char *remedy) {
  const char *about = strstr(remedy, "About ");
  if (!about) return true;
  size_t digits = 0;
  for (const char *p = about + 6; (*p >= '0' && *p <= '9') || *p == '.'; p++) digits += *p != '.' && *p != '0';
  return digits >= 1 && digits <= 2;
}

static void remedies_are_weighed_in_a_kitchen(void **state) {
  (void)state;
  const struct check_result *r = check("Juniper", "250 g chicken breast, skinless, boiled\n280 g cooked white rice\n");
  size_t named = 0;
  for (size_t i = 0; i < r->finding_count; i++) {
    const char *remedy = r->finding[i].remedy;
    if (strstr(remedy, " would cover")) named++;
    if (!kitchen_amount(remedy) && strstr(remedy, "would cover")) fail_msg("%s", remedy);
  }
  assert_true(named >= 4);
}

/* Antibiotics silence the bacteria that make vitamin K and biotin; an animal on them is not well and gets no verdict. */
static void on_antibiotics_there_is_no_verdict(void **state) {
  (void)state;
  static const char CAT[] = "Animal: Pim\nSpecies: cat\nAge: 4 years\nWeight: 4.6 kg\nStatus: on antibiotics\n";
  const struct check_result *r =
      review_check(span_of("100 g chicken breast, boiled\n"), span_of(CAT), NULL, CHECK_OPTIONS_DEFAULT, &arena);
  assert_non_null(r);
  assert_int_equal(r->refusal, REFUSE_UNWELL);
}

static int start(void **state) {
  fresh(state);
  animals = review_file(REVIEW_FOLDER "animals.txt", &arena);
  return 0;
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(calcium_lowers_the_phytate_that_zinc_bears),
      cmocka_unit_test(calcium_and_phosphorus_are_weighed_over_the_same_days),
      cmocka_unit_test(remedies_are_weighed_in_a_kitchen),
      cmocka_unit_test(on_antibiotics_there_is_no_verdict),
  };
  return cmocka_run_group_tests(tests, start, done);
}
