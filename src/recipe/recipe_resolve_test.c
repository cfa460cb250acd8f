/* Grams, cooking and bone, against figures computed here from the tables' own numbers. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

#include "recipe/recipe_text.h"
#include "tests/support/built_image.h"
#include "tests/support/near.h"

static struct diags d;
static struct ration ration;

static bool resolve(const char *text) {
  static struct recipe recipe;
  struct span s = span_of(text);
  diags_init(&d, &arena, "t", s);
  return recipe_parse(s, &d, &recipe, &arena) && recipe_resolve(built_library(), &recipe, &d, &ration, &arena);
}

static const struct ration_line *line(const char *text) {
  if (!resolve(text)) {
    print_error("%s: %s\n", text, d.count > 0 ? d.item[0].message : "");
    fail();
  }
  return &ration.line[0];
}

/* What the answer repeats of a line, and what it adds: the list's marks are gone, the words stay. */
static void what_is_shown_of_a_line(void **state) {
  (void)state;
  assert_string_equal(line("- 100 g lamb liver, raw  # from the market")->text, "100 g lamb liver, raw");
  assert_string_equal(line("\xE2\x80\xA2 2 eggs")->text, "2 eggs");
  assert_string_equal(line("2) 2 eggs")->text, "2 eggs");
  assert_string_equal(line("[usda:17199] 100 g liver")->text, "[usda:17199] 100 g liver");
  assert_string_equal(line("100 g lamb liver")->note, "");
  assert_non_null(strstr(line("1 tin sardines in water")->note, "packed in oil")); /* SR28 15088: canned in oil */
}

/* Kitchen tables: a pinch is 1/16 to 1/8 of a teaspoon (4.93 ml), a dash 1/8; salt weighs 6 g a teaspoon (SR28). Mean weight
 * of a chicken wing with its bone in ten carcasses: 89 g (AGAL 1998). A range stands for the middle 90 % of a normal spread.
 */
static void household_measures(void **state) {
  (void)state;
  const struct ration_line *l = line("1 pinch of salt");
  assert_true(l->low_g < 6.0 / 16 && l->high_g > 6.0 / 16 && l->grams_fed > l->low_g && l->grams_fed < l->high_g);
  assert_near(l->part[0].grams_cv, (l->high_g - l->low_g) / (2 * 1.645 * l->grams_fed), 1e-6);
  assert_non_null(strstr(l->assumed, "pinch"));
  l = line("2 handfuls of spinach");
  assert_true(l->low_g >= 2 * 10 && l->high_g <= 2 * 50); /* a handful of leaves */
  /* A slip in the word finds the food, and must find what one of it weighs. */
  assert_true(fabs(line("2 chiken wings, bone-in")->grams_fed - 2 * 89) < 1e-9); /* the row of data/household.tsv */
  l = line("1 handful chicken breast"); /* and no whole breast */
  assert_true(l->grams_fed >= 60 && l->grams_fed <= 130);
  l = line("2 handfuls of spinach");
  assert_true(line("2 handfuls of beef mince")->grams_fed > 2 * l->grams_fed / 2);
  /* Records without a cup of their own: SR28 weighs half a cup of the boiled mix (11584) at 91 g, a cup of diced chicken
   * (05005 to 05045) at 140 g. */
  l = line("1 cup frozen mixed vegetables [usda:11583]");
  assert_true(l->low_g < 182 && l->high_g > 182 && strstr(l->assumed, "cup"));
  l = line("1 cup chicken [usda:05011]");
  assert_true(l->low_g < 140 && l->high_g > 140 && strstr(l->assumed, "cup"));
  l = line("3 chicken feet");
  assert_int_equal(l->part_count, 2); /* feet have bone */
  assert_true(l->low_g >= 3 * 30 && l->high_g <= 3 * 80);
  l = line("1 can mackerel in water"); /* SR28 weighs a large can, 361 g; a usual tin is about 120 g */
  assert_true(l->high_g < 150);
  assert_false(resolve("1 mug of rice")); /* nobody knows which mug */
  assert_false(resolve("1 scoop of spirulina"));
  l = line("55 g (40-80 g) chicken neck");
  assert_near(l->grams_fed, 55, 1e-9);
  assert_near(l->low_g, 40, 1e-9);
  assert_near(l->high_g, 80, 1e-9);
  assert_false(resolve("55 g (60-80 g) chicken neck"));
  assert_null(line("200 g lamb heart")->assumed);
  assert_near(line("1 tbsp ground flaxseed")->grams_fed, 7, 0.2); /* SR28: 1 tbsp, ground 7 g */
  assert_near(line("1 tbsp flaxseed")->grams_fed, 10.3, 0.01);    /* SR28: 1 tbsp, whole 10.3 g */
  assert_near(line("1 tbsp double cream")->grams_fed, 15, 0.2);   /* SR28: 1 cup, fluid 238 g; whipped 120 g */
}

/* The words that name the food, without amount, state, frequency and pin: the lines of docs/manual/recipe-text.md's example.
 */
static void a_line_keeps_the_words_of_its_food(void **state) {
  (void)state;
  static const char *const TEXT[][2] = {
      {"600 g lamb shoulder, cubed, raw", "lamb shoulder"},
      {"1 1/2 tsp ground hemp seed", "ground hemp seed"},
      {"2 large eggs, every other day", "eggs"},
      {"1 can (4.4 oz) mackerel in brine, drained, weekly", "mackerel in brine"},
      {"40 g lamb liver [usda:17199]", "lamb liver"},
      {"40 g [usda:17199]", ""},
      {"a pinch of kelp", "kelp"},
      {"- salmon oil 1/2 tsp, twice a week", "salmon oil"},
  };
  for (size_t i = 0; i < COUNT_OF(TEXT); i++) assert_string_equal(line(TEXT[i][0])->food_words, TEXT[i][1]);
}

/* USDA SR28, refuse of 05084 "Chicken, broilers or fryers, neck, meat and skin, raw": 36 % bone. */
static void bone_by_the_published_refuse(void **state) {
  (void)state;
  const struct ration_line *l = line("250 g chicken neck, bone-in [usda:05084]");
  assert_int_equal(l->part_count, 2);
  assert_near(l->part[0].grams, 250 * 0.64, 0.01);
  assert_near(l->part[1].grams, 250 * 0.36, 0.01);
  assert_int_equal(l->part[1].food, built_food("bone:chicken"));
  assert_near(l->grams_fed, 250, 1e-9);
  assert_false(l->cooked_bone);
  assert_true(l->part[1].grams_cv > 0);
}

/* A neck that weighs 500 g cooked was 500 / (s + (1 - s) y) raw: the bone keeps its weight, the flesh y of it. */
static void cooked_bone_keeps_its_weight(void **state) {
  (void)state;
  const struct ration_line *raw = line("500 g chicken necks, raw weight, roasted [usda:05084]");
  assert_true(raw->part_count == 1); /* a published record is flesh unless bone-in is said */
  raw = line("500 g chicken necks, bone-in, raw weight, roasted [usda:05084]");
  double flesh = raw->part[0].grams, bone = raw->part[1].grams, yield = (raw->grams_fed - bone) / flesh;
  assert_near(flesh + bone, 500, 1e-9);
  assert_true(yield > 0.5 && yield < 0.9);
  assert_true(raw->cooked_bone);
  const struct ration_line *cooked = line("500 g chicken necks, bone-in, roasted [usda:05084]");
  assert_near(cooked->grams_fed, 500, 1e-9);
  assert_near(cooked->part[0].grams + cooked->part[1].grams, 500 / (0.36 + 0.64 * yield), 0.05);
  assert_true(cooked->part[0].grams_cv >= raw->part[0].grams_cv);
}

/* FSANZ: boiled beetroot weighs 0.93 of the raw one (data/yields.tsv). */
static void weighed_cooked_but_only_raw_is_known(void **state) {
  (void)state;
  const struct ration_line *l = line("93 g beetroot, boiled [usda:11080]");
  assert_near(l->part[0].grams, 100, 0.01);
  assert_near(l->grams_fed, 93, 1e-9);
  assert_true(l->part[0].retention >= 0);
}

static void broth_chooses_the_row(void **state) {
  (void)state;
  const struct img_retention *rows = IMG_ROWS(&built_library()->image, IMG_RETENTION, struct img_retention);
  const struct ration_line *kept = line("100 g lamb shoulder, raw weight, simmered, with broth [usda:17039]");
  assert_int_equal(rows[kept->part[0].retention].broth, 1);
  assert_int_equal(d.count, 0);
  const struct ration_line *gone = line("100 g lamb shoulder, raw weight, simmered, without broth [usda:17039]");
  assert_int_equal(rows[gone->part[0].retention].broth, 0);
  assert_int_equal(d.count, 0);
  line("100 g lamb shoulder, raw weight, simmered [usda:17039]");
  assert_int_equal(d.count, 1); /* a warning says which was taken */
}

/* A batch is shared out over its days; a feeding day is not. */
static void batch_and_feeding_days(void **state) {
  (void)state;
  assert_true(resolve("Makes: 4 days\n400 g lamb liver [usda:17199]\n400 g lamb liver, weekly [usda:17199]\n"
                      "40 g lamb heart, twice a week [usda:17191]\n"));
  assert_near(ration.line[0].grams_fed, 100, 1e-9);
  assert_near(ration.line[1].grams_fed, 400, 1e-9);
  assert_near(ration_line_grams_per_day(&ration.line[0]), 100, 1e-9);
  assert_near(ration_line_grams_per_day(&ration.line[1]), 400.0 / 7, 1e-9);
  int days[3] = {0}, together = 0;
  for (int i = 0; i < CALENDAR_DAYS; i++) {
    for (int k = 0; k < 3; k++) days[k] += ration.line[k].fed_on[i];
    together += ration.line[1].fed_on[i] && ration.line[2].fed_on[i];
  }
  assert_int_equal(days[0], 28);
  assert_int_equal(days[1], 4);
  assert_int_equal(days[2], 8);
  assert_int_equal(together, 4); /* days that nobody named fall together: the least favourable case */
}

/* Grams against ounces and pounds: the international pound is 453.59237 g. */
static void units_of_one_mass(void **state) {
  (void)state;
  double grams = line("453.59237 g lamb liver [usda:17199]")->grams_fed;
  assert_near(line("1 lb lamb liver [usda:17199]")->grams_fed, grams, 1e-9);
  assert_near(line("16 oz lamb liver [usda:17199]")->grams_fed, grams, 1e-9);
  assert_near(line("0.45359237 kg lamb liver [usda:17199]")->grams_fed, grams, 1e-9);
}

/* Scaling every amount scales every portion. */
static void twice_is_twice(void **state) {
  (void)state;
  static const char *const FOODS[] = {"cups cooked millet [usda:20032]", "large eggs [usda:01123]",
                                      "tsp salmon oil [usda:04593]", "oz duck necks, bone-in [cut:duck-neck]",
                                      "medium carrots, boiled [usda:11125]"};
  for (size_t i = 0; i < COUNT_OF(FOODS); i++) {
    struct buf one, two;
    buf_init(&one, &arena, 200);
    buf_init(&two, &arena, 200);
    buf_addf(&one, "3 %s", FOODS[i]);
    buf_addf(&two, "6 %s", FOODS[i]);
    double grams = line(buf_text(&one))->part[0].grams;
    assert_true(grams > 0);
    assert_near(line(buf_text(&two))->part[0].grams, 2 * grams, 1e-9 * grams);
  }
}

static void every_line_names_its_record(void **state) {
  (void)state;
  assert_true(resolve("200 g lamb liver\n2 large eggs\n100 g duck neck\n"));
  for (size_t i = 0; i < ration.line_count; i++) {
    assert_false(ration.line[i].pinned);
    assert_true(ration.line[i].shown_food < library_count(built_library()));
  }
  assert_true(line("200 g lamb liver [usda:17199]")->pinned);
}

/* What the pin leaves unsaid must not be passed over: such a line would be fed every day. */
static void words_beside_a_pin(void **state) {
  (void)state;
  static const struct {
    const char *line, *complaint; /* where it begins; NULL: the line is read */
  } CASES[] = {
      {"100 g lamb liver [usda:17199], only in winter", "only in winter"},
      {"100 g lamb liver [usda:17199], once a fortnigh", "once a fortnigh"},
      {"100 g lamb liver [usda:17199], 3 times a we", "3 times a we"},
      {"100 g lamb liver [usda:17199], every 2nd Tuesday", "every 2nd"},
      {"100 g lamb liver [usda:17199], first Monday of the month", "first Monday of the month"},
      {"100 g lamb liver, every 2nd Tuesday [usda:17199]", "lamb liver, every 2nd"},
      {"100 g [usda:17199] lamb liver, 3 times a we", "lamb liver, 3 times a we"},
      {"100 g my own name for it [usda:17199]", NULL},
      {"100 g [usda:17199] lamb liver", NULL},
      {"[usda:17199] 100 g liver", NULL},
      {"100 g lamb liver [usda:17199], washed and chopped, no onion, 3 times a week", NULL},
      {"100 g liver [usda:17199] Lamb, variety meats and by-products, liver, raw", NULL},
      {"100 g lamb liver [usda:17199] # only in winter", NULL},
  };
  for (size_t i = 0; i < COUNT_OF(CASES); i++) {
    bool read = resolve(CASES[i].line);
    if (!CASES[i].complaint) {
      if (!read) print_error("%s: %s\n", CASES[i].line, d.item[0].message);
      assert_true(read);
      continue;
    }
    assert_false(read);
    char quoted[120];
    snprintf(quoted, sizeof quoted, "'%s' is not understood", CASES[i].complaint);
    assert_non_null(strstr(d.item[0].message, quoted));
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(household_measures),
                                     cmocka_unit_test(what_is_shown_of_a_line),
                                     cmocka_unit_test(a_line_keeps_the_words_of_its_food),
                                     cmocka_unit_test(bone_by_the_published_refuse),
                                     cmocka_unit_test(cooked_bone_keeps_its_weight),
                                     cmocka_unit_test(weighed_cooked_but_only_raw_is_known),
                                     cmocka_unit_test(broth_chooses_the_row),
                                     cmocka_unit_test(batch_and_feeding_days),
                                     cmocka_unit_test(units_of_one_mass),
                                     cmocka_unit_test(twice_is_twice),
                                     cmocka_unit_test(every_line_names_its_record),
                                     cmocka_unit_test(words_beside_a_pin)};
  return cmocka_run_group_tests(tests, fresh, done);
}
