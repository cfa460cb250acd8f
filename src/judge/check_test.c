#include "judge/check.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

#include "foods/constant_keys.h"
#include "tests/support/near.h"
#include "tests/support/tiny_image.h"
#include "tests/support/unit_random.h"

static const struct check_result *check(const struct library *lib, const struct ration_line *line, size_t n,
                                        const struct animal *a, const struct check_options *o) {
  struct ration *r = ARENA_NEW(&arena, struct ration, 1);
  struct ration_line *kept = ARENA_NEW(&arena, struct ration_line, n);
  memcpy(kept, line, n * sizeof *line);
  *r = tiny_ration(kept, n);
  return check_numbers(lib, r, a, o, &arena);
}

/* A dog of 16 kg (8 kg metabolic) on 100 kcal a metabolic kg. */
static struct tiny *dog_library(void) {
  struct tiny *t = tiny_new(&arena);
  tiny_energy(t, "test dog", SPECIES_DOG, 0xff, 2, 100, 0.75);
  tiny_energy(t, "test cat", SPECIES_CAT, 0xff, 2, 75, 0.67);
  return t;
}

/* ---- windows --------------------------------------------------------------------------------------------------- */

static struct ration_line weekly(uint32_t food, double g) { return tiny_line_on(food, g, 4, 0); }

static void the_poorest_window_is_judged(void **state) {
  (void)state;
  struct tiny *t = dog_library();
  uint32_t fish = tiny_food(t, "fish", PART_FISH, SPREAD_FISH);
  tiny_value(t, fish, NUT_VITAMIN_D, 20, 0);
  tiny_value(t, fish, NUT_THIAMIN, 2, 0);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_VITAMIN_D, LEVEL_ALLOWANCE, PER_METABOLIC_KG, 0.36, (double)NAN);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_THIAMIN, LEVEL_ALLOWANCE, PER_METABOLIC_KG, 0.03, (double)NAN);
  tiny_window(t, SPECIES_BOTH, NUT_VITAMIN_D, 7, false);
  const struct library *lib = tiny_open(t);
  struct animal a = tiny_animal(SPECIES_DOG, 16);
  struct ration_line line = weekly(fish, 105);
  const struct check_result *r = check(lib, &line, 1, &a, NULL);
  const struct nutrient_result *d = &r->nutrient[NUT_VITAMIN_D], *b1 = &r->nutrient[NUT_THIAMIN];
  /* 21 ug once in seven days is 3 a day in every window of seven. */
  assert_int_equal(d->window_days, 7);
  assert_near(d->window_amount, 3, 1e-6);
  assert_near(d->window_high, 3, 1e-6);
  assert_near(d->lowest_day, 0, 0);
  assert_near(d->highest_day, 21, 1e-5);
  assert_int_equal(d->verdict, VERDICT_MET);
  assert_false(d->verdict_by_window);
  /* Without a row in the table a nutrient must come every day; on average it would do (0.3 of 0.24 mg). */
  assert_int_equal(b1->window_days, 1);
  assert_near(b1->amount, 0.3, 1e-6);
  assert_near(b1->window_amount, 0, 0);
  assert_int_equal(b1->verdict, VERDICT_SHORT);
  assert_true(b1->verdict_by_window);
}

static void windows_run_across_the_end_of_the_calendar(void **state) {
  (void)state;
  struct tiny *t = dog_library();
  uint32_t food = tiny_food(t, "food", PART_EGG, SPREAD_EGG);
  tiny_value(t, food, NUT_SELENIUM, 100, 0);
  tiny_window(t, SPECIES_BOTH, NUT_SELENIUM, 3, false);
  const struct library *lib = tiny_open(t);
  struct animal a = tiny_animal(SPECIES_DOG, 16);
  struct ration_line line = tiny_line(food, 90);
  memset(line.fed_on, 0, sizeof line.fed_on);
  line.fed_on[0] = line.fed_on[27] = line.fed_on[26] = true;
  const struct nutrient_result *s = &check(lib, &line, 1, &a, NULL)->nutrient[NUT_SELENIUM];
  assert_near(s->window_high, 90, 1e-9); /* days 26, 27 and 0 follow each other */
  assert_near(s->window_amount, 0, 0);
  assert_near(s->amount, 90.0 * 3 / 28, 1e-9);
}

static void richest_day_is_flagged(void **state) {
  (void)state;
  struct tiny *t = dog_library();
  uint32_t kelp = tiny_food(t, "kelp", PART_VEGETABLE, SPREAD_VEGETABLE);
  tiny_value(t, kelp, NUT_IODINE, 50000, 0);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_IODINE, LEVEL_ALLOWANCE, PER_METABOLIC_KG, 29.6, (double)NAN);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_IODINE, LEVEL_UPPER, PER_METABOLIC_KG, 130, (double)NAN);
  tiny_window(t, SPECIES_BOTH, NUT_IODINE, 7, true);
  const struct library *lib = tiny_open(t);
  struct animal a = tiny_animal(SPECIES_DOG, 16);
  struct ration_line line = weekly(kelp, 4); /* 2000 ug once a week: 286 a day, limit 1040 */
  const struct nutrient_result *i = &check(lib, &line, 1, &a, NULL)->nutrient[NUT_IODINE];
  assert_int_equal(i->verdict, VERDICT_MET);
  assert_true(i->highest_day_over);
  assert_near(i->highest_day, 2000, 1e-3);
  /* Judged day by day it is over on one day and short on six: the excess is what is said. */
  t = dog_library();
  kelp = tiny_food(t, "kelp", PART_VEGETABLE, SPREAD_VEGETABLE);
  tiny_value(t, kelp, NUT_IODINE, 50000, 0);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_IODINE, LEVEL_ALLOWANCE, PER_METABOLIC_KG, 29.6, (double)NAN);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_IODINE, LEVEL_UPPER, PER_METABOLIC_KG, 130, (double)NAN);
  const struct library *daily = tiny_open(t);
  line = weekly(kelp, 4);
  assert_int_equal(check(daily, &line, 1, &a, NULL)->nutrient[NUT_IODINE].verdict, VERDICT_OVER);
}

/* ---- who supplies, who lacks ------------------------------------------------------------------------------------ */

static void suppliers_and_gaps_are_named(void **state) {
  (void)state;
  struct tiny *t = dog_library();
  uint32_t beef = tiny_food(t, "beef", PART_MUSCLE, SPREAD_RED_MEAT), egg = tiny_food(t, "egg", PART_EGG, SPREAD_EGG),
           rice = tiny_food(t, "rice", PART_GRAIN, SPREAD_GRAIN);
  tiny_value(t, beef, NUT_CHOLINE, 60, 0.1);
  tiny_value(t, egg, NUT_CHOLINE, 300, 0.1);
  tiny_status(t, egg, NUT_CHOLINE, VALUE_ESTIMATED);
  tiny_unknown(t, rice, NUT_CHOLINE);
  tiny_class_high(t, SPREAD_GRAIN, NUT_CHOLINE, 20);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_CHOLINE, LEVEL_ALLOWANCE, PER_METABOLIC_KG, 50, (double)NAN);
  const struct library *lib = tiny_open(t);
  struct animal a = tiny_animal(SPECIES_DOG, 16);
  struct ration_line line[] = {tiny_line(beef, 200), tiny_line(rice, 100), tiny_line(egg, 100)};
  const struct nutrient_result *c = &check(lib, line, 3, &a, NULL)->nutrient[NUT_CHOLINE];
  assert_near(c->amount, 420, 1e-4);
  assert_near(c->known_share, 0.75, 1e-9);
  assert_near(c->possible, 440, 1e-4);
  const struct supply_list *list = who_supplies(c);
  assert_int_equal(list->from_count, 2);
  assert_int_equal(list->from[0].line, 2);
  assert_near(list->from[0].share, 300.0 / 420, 1e-6);
  assert_int_equal(list->from[0].status, VALUE_ESTIMATED);
  assert_int_equal(list->from[1].line, 0);
  assert_int_equal(list->missing_count, 1);
  assert_int_equal(list->missing[0], 1);
  assert_near(c->estimated_share, 300.0 / 420, 1e-6);
  assert_int_equal(c->verdict, VERDICT_THIN); /* 420 of 400 mg: reached, with a spread of 32, in about 73 cases of 100 */
}

static void unknown_is_never_zero(void **state) {
  (void)state;
  struct tiny *t = dog_library();
  uint32_t beef = tiny_food(t, "beef", PART_MUSCLE, SPREAD_RED_MEAT),
           leaf = tiny_food(t, "leaf", PART_VEGETABLE, SPREAD_VEGETABLE);
  tiny_value(t, beef, NUT_MANGANESE, 0.01, 0.2);
  tiny_unknown(t, leaf, NUT_MANGANESE);
  tiny_class_high(t, SPREAD_VEGETABLE, NUT_MANGANESE, 1.0);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_MANGANESE, LEVEL_ALLOWANCE, PER_METABOLIC_KG, 0.16, (double)NAN);
  const struct library *lib = tiny_open(t);
  struct animal a = tiny_animal(SPECIES_DOG, 16);                            /* wants 1.28 mg */
  struct ration_line much[] = {tiny_line(beef, 300), tiny_line(leaf, 200)};  /* could hold 2.03 */
  struct ration_line little[] = {tiny_line(beef, 300), tiny_line(leaf, 20)}; /* could hold 0.23 */
  assert_int_equal(check(lib, much, 2, &a, NULL)->nutrient[NUT_MANGANESE].verdict, VERDICT_UNPROVEN);
  assert_int_equal(check(lib, little, 2, &a, NULL)->nutrient[NUT_MANGANESE].verdict, VERDICT_SHORT);
}

/* The word of a bowl with gaps is compared with those of the same bowl once the gaps are filled: with nothing, with the most
 * of the class, and with anything between. "short" holds for every filling; "unproven" is said exactly where two fillings
 * differ; else it is the word that all of them give. */
enum { GAP_FOODS = 4, FILLINGS = 6 };

static enum verdict word_with_gaps(const double known[GAP_FOODS], const double grams[GAP_FOODS], double high, double filling,
                                   double minimum, double allowance) {
  struct tiny *t = dog_library();
  struct ration_line line[GAP_FOODS];
  for (int i = 0; i < GAP_FOODS; i++) {
    uint32_t food = tiny_food(t, "x", PART_VEGETABLE, SPREAD_VEGETABLE);
    double x = isnan(known[i]) ? filling * high : known[i];
    if (isnan(x)) {
      tiny_unknown(t, food, NUT_ZINC);
    } else {
      tiny_value(t, food, NUT_ZINC, (float)x, 0);
    }
    line[i] = tiny_line(food, grams[i]);
  }
  tiny_class_high(t, SPREAD_VEGETABLE, NUT_ZINC, (float)high);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_ZINC, LEVEL_ALLOWANCE, PER_METABOLIC_KG, (float)allowance,
                 (double)NAN);
  if (isfinite(minimum))
    tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_ZINC, LEVEL_MINIMUM, PER_METABOLIC_KG, (float)minimum, (double)NAN);
  struct animal a = tiny_animal(SPECIES_DOG, 1); /* metabolic weight 1 */
  return check(tiny_open(t), line, GAP_FOODS, &a, NULL)->nutrient[NUT_ZINC].verdict;
}

static void no_filling_of_the_gaps_gainsays_short(void **state) {
  (void)state;
  seed = 20261128;
  int seen[VERDICT_COUNT] = {0};
  for (int k = 0; k < 400; k++) {
    double known[GAP_FOODS], grams[GAP_FOODS], high = 0.5 + 8 * unit_random();
    for (int i = 0; i < GAP_FOODS; i++) {
      known[i] = unit_random() < 0.4 ? (double)NAN : 8 * unit_random();
      grams[i] = 5 + 95 * unit_random();
    }
    double allowance = 1 + 14 * unit_random(), minimum = unit_random() < 0.5 ? allowance * (0.3 + 0.6 * unit_random()) : NAN;
    enum verdict word = word_with_gaps(known, grams, high, (double)NAN, minimum, allowance), filled[FILLINGS];
    bool differ = false;
    for (int i = 0; i < FILLINGS; i++) {
      filled[i] = word_with_gaps(known, grams, high, i / (double)(FILLINGS - 1), minimum, allowance);
      differ |= filled[i] != filled[0];
      if (word == VERDICT_SHORT) assert_int_equal(filled[i], VERDICT_SHORT);
    }
    if (filled[0] != VERDICT_MET) assert_int_equal(word, differ ? VERDICT_UNPROVEN : filled[0]);
    seen[word]++;
  }
  assert_true(seen[VERDICT_SHORT] > 20 && seen[VERDICT_THIN] > 20 && seen[VERDICT_MET] > 20 && seen[VERDICT_UNPROVEN] > 20);
}

/* ---- what the food changes in the figures ------------------------------------------------------------------------ */

static void unsaturated_fat_asks_for_vitamin_e(void **state) {
  (void)state;
  struct tiny *t = dog_library();
  uint32_t oil = tiny_food(t, "oil", PART_FAT_OIL, SPREAD_FAT_OIL);
  tiny_value(t, oil, NUT_LINOLEIC, 50, 0);
  tiny_value(t, oil, NUT_ALPHA_LINOLENIC, 10, 0);
  tiny_value(t, oil, NUT_EPA, 8, 0);
  tiny_value(t, oil, NUT_DHA, 12, 0);
  tiny_value(t, oil, NUT_EPA_DHA, 20, 0);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_VITAMIN_E, LEVEL_ALLOWANCE, PER_METABOLIC_KG, 1.0, (double)NAN);
  const struct library *lib = tiny_open(t);
  struct animal a = tiny_animal(SPECIES_DOG, 16);
  struct ration_line line = tiny_line(oil, 30);
  const struct nutrient_result *e = &check(lib, &line, 1, &a, NULL)->nutrient[NUT_VITAMIN_E];
  /* 0.6 x (15 + 3) + 1.5 x 2.4 + 1.8 x 3.6 = 20.88 mg, against the table's 8 */
  assert_true(e->adjusted);
  assert_near(e->adjusted_from, 8, 1e-5);
  assert_near(e->adjusted_to, 20.88, 1e-4);
  assert_near(e->allowance, 20.88, 1e-4);
  assert_near(e->table->allowance, 8, 1e-5);
  assert_non_null(strstr(e->adjusted_why, "3.6 g DHA x 1.8 mg"));
  line = tiny_line(oil, 10); /* 6.96 mg: the table's figure is more */
  e = &check(lib, &line, 1, &a, NULL)->nutrient[NUT_VITAMIN_E];
  assert_false(e->adjusted);
  assert_near(e->allowance, 8, 1e-5);
}

/* Gut bacteria make vitamin K for a healthy adult; antibiotics, or for cats much fish, end that (AAFCO cat footnote: fish
 * above 25 % of dry matter). An empty bowl shows the table. */
static void the_gut_makes_vitamin_k(void **state) {
  (void)state;
  struct tiny *t = dog_library();
  uint32_t beef = tiny_food(t, "beef", PART_MUSCLE, SPREAD_RED_MEAT), fish = tiny_food(t, "fish", PART_FISH, SPREAD_FISH);
  tiny_value(t, beef, NUT_PROTEIN, 20, 0);
  tiny_value(t, fish, NUT_PROTEIN, 20, 0);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_CAT, NUT_VITAMIN_K, LEVEL_ALLOWANCE, PER_METABOLIC_KG, 25, (double)NAN);
  const struct library *lib = tiny_open(t);
  struct animal a = tiny_animal(SPECIES_CAT, 4);
  struct ration_line line[] = {tiny_line(beef, 80), tiny_line(fish, 20)};
  const struct nutrient_result *k = &check(lib, line, 2, &a, NULL)->nutrient[NUT_VITAMIN_K];
  assert_int_equal(k->verdict, VERDICT_MET);
  assert_true(k->adjusted && k->adjusted_to == 0 && k->adjusted_from > 60);
  line[1] = tiny_line(fish, 40);
  assert_int_equal(check(lib, line, 2, &a, NULL)->nutrient[NUT_VITAMIN_K].verdict, VERDICT_SHORT);
  line[1] = tiny_line(fish, 20);
  a.antibiotics = true;
  assert_int_equal(check(lib, line, 2, &a, NULL)->nutrient[NUT_VITAMIN_K].verdict, VERDICT_SHORT);
  a.antibiotics = false;
  assert_false(check(lib, line, 0, &a, NULL)->nutrient[NUT_VITAMIN_K].adjusted);
}

/* ---- parts, refusal, no animal ------------------------------------------------------------------------------------ */

static void parts_by_mass_as_eaten(void **state) {
  (void)state;
  struct tiny *t = dog_library();
  uint32_t flesh = tiny_food(t, "neck", PART_MUSCLE, SPREAD_POULTRY), bone = tiny_food(t, "bone", PART_BONE, SPREAD_BONE),
           heart = tiny_food(t, "heart", PART_ORGAN_OTHER, SPREAD_ORGAN),
           clam = tiny_food(t, "clam", PART_SHELLFISH, SPREAD_SHELLFISH),
           rice = tiny_food(t, "rice", PART_GRAIN, SPREAD_GRAIN);
  const struct library *lib = tiny_open(t);
  struct ration_line neck = tiny_line(flesh, 64);
  neck.part_count = 2;
  neck.part[1] = (struct portion){.food = bone, .grams = 36, .retention = -1};
  neck.grams_fed = 100;
  struct ration_line boiled = tiny_line(rice, 40); /* 40 g dry, 120 g on the plate */
  boiled.grams_fed = 120;
  struct ration_line line[] = {neck, tiny_line(heart, 60), tiny_line(clam, 20), boiled};
  const struct check_result *r = check(lib, line, 4, NULL, NULL);
  assert_near(r->parts[BOWL_MUSCLE], (64 + 60) / 300.0, 1e-9);
  assert_near(r->parts[BOWL_BONE], 36 / 300.0, 1e-9);
  assert_near(r->parts[BOWL_FISH], 20 / 300.0, 1e-9);
  assert_near(r->parts[BOWL_PLANT], 120 / 300.0, 1e-9);
  double sum = 0;
  for (int i = 0; i < BOWL_COUNT; i++) sum += r->parts[i];
  assert_near(sum, 1, 1e-9);
}

static void refused_animals_get_composition_only(void **state) {
  (void)state;
  struct tiny *t = dog_library();
  uint32_t beef = tiny_food(t, "beef", PART_MUSCLE, SPREAD_RED_MEAT);
  tiny_value(t, beef, NUT_ZINC, 4, 0.2);
  tiny_value(t, beef, NUT_PROTEIN, 20, 0.05);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_ZINC, LEVEL_ALLOWANCE, PER_METABOLIC_KG, 2, (double)NAN);
  const struct library *lib = tiny_open(t);
  struct animal puppy = tiny_animal(SPECIES_DOG, 16);
  puppy.age_years = 0.5;
  struct ration_line line = tiny_line(beef, 400);
  const struct check_result *r = check(lib, &line, 1, &puppy, NULL), *nobody = check(lib, &line, 1, NULL, NULL);
  assert_int_equal(r->refusal, REFUSE_GROWTH);
  assert_int_equal(r->verdict_count[VERDICT_NO_FIGURE], NUT_COUNT);
  assert_near(r->nutrient[NUT_ZINC].amount, 16, 1e-5);
  assert_true(isnan(r->nutrient[NUT_ZINC].allowance) && isnan(r->energy.need.kcal));
  assert_near(r->energy.supply_kcal, 320, 1e-4);
  assert_int_equal(nobody->refusal, REFUSE_NOT);
  assert_int_equal(nobody->verdict_count[VERDICT_NO_FIGURE], NUT_COUNT);
  assert_near(nobody->nutrient[NUT_ZINC].amount, 16, 1e-5);
}

static void more_confidence_asks_for_more(void **state) {
  (void)state;
  struct tiny *t = dog_library();
  uint32_t beef = tiny_food(t, "beef", PART_MUSCLE, SPREAD_RED_MEAT);
  tiny_value(t, beef, NUT_ZINC, 4, 0.2);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NUT_ZINC, LEVEL_ALLOWANCE, PER_METABOLIC_KG, 2, (double)NAN);
  const struct library *lib = tiny_open(t);
  struct animal a = tiny_animal(SPECIES_DOG, 16);
  struct ration_line line = tiny_line(beef, 480); /* 19.2 of 16 mg */
  struct check_options o = CHECK_OPTIONS_DEFAULT;
  const struct nutrient_result *z = &check(lib, &line, 1, &a, &o)->nutrient[NUT_ZINC];
  assert_int_equal(z->verdict, VERDICT_MET);
  assert_true(z->chance_met > 0.75 && z->chance_met < 0.95);
  assert_near(z->ratio, 1.2, 1e-6);
  assert_true(z->low < z->amount && z->amount < z->high);
  o.sure = 0.95;
  assert_int_equal(check(lib, &line, 1, &a, &o)->nutrient[NUT_ZINC].verdict, VERDICT_THIN);
}

/* A label that states energy alone still feeds; its shares are not guessed. */
static void stated_energy_of_a_label_counts(void **state) {
  (void)state;
  struct tiny *t = dog_library();
  uint32_t paste = tiny_food(t, "paste", PART_SUPPLEMENT, SPREAD_SUPPLEMENT),
           beef = tiny_food(t, "beef", PART_MUSCLE, SPREAD_RED_MEAT);
  tiny_value(t, beef, NUT_PROTEIN, 20, 0);
  tiny_unknown(t, paste, NUT_PROTEIN);
  tiny_unknown(t, paste, NUT_FAT);
  tiny_unknown(t, paste, NUT_CARBOHYDRATE);
  tiny_value(t, paste, NUT_ENERGY, 500, 0);
  const struct library *lib = tiny_open(t);
  struct ration_line line[] = {tiny_line(beef, 100), tiny_line(paste, 10)};
  const struct energy_result *e = &check(lib, line, 2, NULL, NULL)->energy;
  assert_near(e->supply_kcal, 130, 1e-5);
  assert_near(e->share_protein, 1, 1e-9);
  assert_int_equal(e->from[0].line, 0);
  assert_near(e->from[1].amount, 50, 1e-5);
}

/* The row for energy follows the supply of the species, day by day, and not the published figure. */
static void energy_row_is_the_supply(void **state) {
  (void)state;
  struct tiny *t = dog_library();
  uint32_t beef = tiny_food(t, "beef", PART_MUSCLE, SPREAD_RED_MEAT), egg = tiny_food(t, "egg", PART_EGG, SPREAD_EGG);
  tiny_value(t, beef, NUT_PROTEIN, 20, 0.1);
  tiny_value(t, egg, NUT_FAT, 10, 0.1);
  tiny_unknown(t, beef, NUT_ENERGY);
  tiny_value(t, egg, NUT_ENERGY, 999, 0.1);
  const struct library *lib = tiny_open(t);
  struct ration_line line[] = {tiny_line(beef, 100), tiny_line_on(egg, 100, 14, 0)};
  const struct check_result *r = check(lib, line, 2, NULL, NULL);
  const struct nutrient_result *e = &r->nutrient[NUT_ENERGY];
  assert_near(e->amount, 80 + 45, 1e-5);
  assert_near(r->energy.supply_kcal, e->amount, 1e-9);
  assert_near(e->lowest_day, 80, 1e-5);
  assert_near(e->highest_day, 170, 1e-5);
  assert_near(e->known_share, 1, 1e-9);
  assert_int_equal(who_supplies(e)->missing_count, 0);
  assert_true(isnan(r->energy.published_kcal));
  assert_near(e->cv * e->amount, hypot(8, 4.5), 1e-5);
}

#define WITH_ARENA(f) cmocka_unit_test_setup_teardown(f, fresh, done)

int main(void) {
  const struct CMUnitTest tests[] = {
      WITH_ARENA(the_poorest_window_is_judged),
      WITH_ARENA(windows_run_across_the_end_of_the_calendar),
      WITH_ARENA(richest_day_is_flagged),
      WITH_ARENA(suppliers_and_gaps_are_named),
      WITH_ARENA(unknown_is_never_zero),
      WITH_ARENA(no_filling_of_the_gaps_gainsays_short),
      WITH_ARENA(unsaturated_fat_asks_for_vitamin_e),
      WITH_ARENA(the_gut_makes_vitamin_k),
      WITH_ARENA(parts_by_mass_as_eaten),
      WITH_ARENA(refused_animals_get_composition_only),
      WITH_ARENA(more_confidence_asks_for_more),
      WITH_ARENA(stated_energy_of_a_label_counts),
      WITH_ARENA(energy_row_is_the_supply),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
