/* Energy of food, ratios and bone against published figures and stoichiometry. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

#include "foods/constant_keys.h"
#include "judge/check.h"
#include "tests/support/near.h"
#include "tests/support/tiny_image.h"

struct content {
  enum nutrient n;
  double per_100g;
};

static uint32_t food_of(struct tiny *t, const char *code, const struct content *c, size_t n) {
  uint32_t f = tiny_food(t, code, PART_OTHER, SPREAD_OTHER);
  for (size_t i = 0; i < n; i++) tiny_value(t, f, c[i].n, c[i].per_100g, 0);
  return f;
}
#define FOOD(t, code, ...)                                                                                                  \
  food_of((t), (code), (const struct content[]){__VA_ARGS__}, COUNT_OF(((const struct content[]){__VA_ARGS__})))

static const struct check_result *eat(const struct library *lib, enum species s, uint32_t food, double grams) {
  static struct ration_line line;
  static struct ration ration;
  static struct animal animal;
  line = tiny_line(food, grams);
  ration = tiny_ration(&line, 1);
  animal = tiny_animal(s, s == SPECIES_DOG ? 15 : 4);
  return check_numbers(lib, &ration, &animal, NULL, &arena);
}

/* Source: FEDIAF natural-food factors; AAFCO modified Atwater. Protein 20, fat 10, no carbohydrate: 170, 165 and 155 kcal.
 */
static void raw_meat(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  uint32_t meat = FOOD(t, "meat", {NUT_PROTEIN, 20}, {NUT_FAT, 10});
  const struct library *lib = tiny_open(t);
  assert_near(eat(lib, SPECIES_DOG, meat, 100)->energy.supply_kcal, 170, 1e-6);
  assert_near(eat(lib, SPECIES_CAT, meat, 100)->energy.supply_kcal, 165, 1e-6);
  tiny_constant(t, K_ATWATER_PROTEIN, SPECIES_BOTH, 3.5);
  tiny_constant(t, K_ATWATER_FAT, SPECIES_DOG, 8.5);
  assert_near(eat(tiny_open(t), SPECIES_DOG, meat, 100)->energy.supply_kcal, 155, 1e-6);
}

/* Source: the formula; protein 20, fat 10, carbohydrate 5 g by 4-9-4. */
static void shares_of_energy(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  uint32_t food = FOOD(t, "food", {NUT_PROTEIN, 20}, {NUT_FAT, 10}, {NUT_CARBOHYDRATE, 5});
  const struct energy_result *e = &eat(tiny_open(t), SPECIES_DOG, food, 250)->energy;
  assert_near(100 * e->share_protein, 42.1, 0.1);
  assert_near(100 * e->share_fat, 47.4, 0.1);
  assert_near(100 * e->share_carbohydrate, 10.5, 0.1);
  assert_near(e->kcal_per_kg, 1900, 1e-6);
}

/* Protein 26, fat 14, ash 7, fibre 3, water 8 %: carbohydrate by difference is 45 and holds the fibre. */
static uint32_t dry_food(struct tiny *t) {
  return FOOD(t, "dry", {NUT_PROTEIN, 26}, {NUT_FAT, 14}, {NUT_ASH, 7}, {NUT_FIBER, 3}, {NUT_WATER, 8},
              {NUT_CARBOHYDRATE, 45});
}

/* Source: FEDIAF energy annex, NRC 2006 four-step equation with crude fibre: gross 464.3, metabolisable 374.8 kcal per 100 g
 * for both species. */
static void four_steps(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  uint32_t dry = dry_food(t);
  tiny_constant(t, K_DIGESTIBILITY_START, SPECIES_DOG, 91.2);
  tiny_constant(t, K_DIGESTIBILITY_SLOPE, SPECIES_DOG, 1.43);
  tiny_constant(t, K_DIGESTIBILITY_START, SPECIES_CAT, 87.9);
  tiny_constant(t, K_DIGESTIBILITY_SLOPE, SPECIES_CAT, 0.88);
  const struct library *lib = tiny_open(t);
  assert_near(eat(lib, SPECIES_DOG, dry, 100)->energy.four_step_kcal, 374.8, 0.1);
  assert_near(eat(lib, SPECIES_CAT, dry, 100)->energy.four_step_kcal, 374.8, 0.1);
  /* steps one to three alone: no loss in the urine, and with everything digested the gross energy */
  tiny_constant(t, K_URINARY_LOSS, SPECIES_DOG, 0);
  tiny_constant(t, K_URINARY_LOSS, SPECIES_CAT, 0);
  lib = tiny_open(t);
  assert_near(eat(lib, SPECIES_DOG, dry, 100)->energy.four_step_kcal, 401.8, 0.1);
  assert_near(eat(lib, SPECIES_CAT, dry, 100)->energy.four_step_kcal, 394.8, 0.1);
  tiny_constant(t, K_DIGESTIBILITY_START, SPECIES_DOG, 100);
  tiny_constant(t, K_DIGESTIBILITY_SLOPE, SPECIES_DOG, 0);
  assert_near(eat(tiny_open(t), SPECIES_DOG, dry, 100)->energy.four_step_kcal, 464.3, 0.1);
}

/* Source: AAFCO calorie content rule: 3.5 x 26 + 8.5 x 14 + 3.5 x 42 = 357.0; fibre is left out of the carbohydrate. */
static void modified_atwater(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  uint32_t dry = dry_food(t);
  tiny_constant(t, K_ATWATER_PROTEIN, SPECIES_BOTH, 3.5);
  tiny_constant(t, K_ATWATER_FAT, SPECIES_DOG, 8.5);
  tiny_constant(t, K_ATWATER_CARBOHYDRATE, SPECIES_BOTH, 3.5);
  assert_near(eat(tiny_open(t), SPECIES_DOG, dry, 100)->energy.supply_kcal, 357.0, 0.1);
}

/* Source: the formula with atomic masses: 1000 mg phytate and 10 mg zinc are 9.91 mol/mol; with 1000 mg calcium in
 * 1000 kcal calcium x phytate / zinc is 247 mmol per 1000 kcal. */
static void phytate_and_zinc(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  uint32_t f = FOOD(t, "bran", {NUT_PHYTATE, 1000}, {NUT_ZINC, 10}, {NUT_CALCIUM, 1000}, {NUT_CARBOHYDRATE, 250});
  const struct balance *b = &eat(tiny_open(t), SPECIES_DOG, f, 100)->balance;
  assert_near(b->phytate_zn, 9.91, 0.02);
  assert_near(b->ca_phytate_zn, 247, 2);
}

/* Source: stoichiometry, hydroxyapatite Ca10(PO4)6(OH)2: Ca:P 2.157 by mass. Ratio of sums over two foods. */
static void calcium_to_phosphorus(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  uint32_t apatite = FOOD(t, "apatite", {NUT_CALCIUM, 10 * 4007.8}, {NUT_PHOSPHORUS, 6 * 3097.4});
  uint32_t meat =
      FOOD(t, "meat", {NUT_CALCIUM, 10}, {NUT_PHOSPHORUS, 200}, {NUT_SODIUM, 50}, {NUT_POTASSIUM, 300}, {NUT_ZINC, 4},
           {NUT_COPPER, 0.1}, {NUT_LINOLEIC, 0.4}, {NUT_ARACHIDONIC, 0.1}, {NUT_ALPHA_LINOLENIC, 0.05}, {NUT_EPA_DHA, 0.05});
  const struct library *lib = tiny_open(t);
  assert_near(eat(lib, SPECIES_DOG, apatite, 1)->balance.ca_p, 2.157, 0.001);
  struct ration_line line[] = {tiny_line(meat, 500), tiny_line(apatite, 5)};
  struct ration r = tiny_ration(line, 2);
  const struct balance *b = &check_numbers(lib, &r, NULL, NULL, &arena)->balance;
  assert_near(b->ca_p, (50 + 5 * 400.78) / (1000 + 5 * 185.844), 1e-4);
  assert_near(b->zn_cu, 40, 1e-4);
  assert_near(b->k_na, 6, 1e-4);
  assert_near(b->n6_n3, 5, 1e-4);
  assert_near(b->known_share[0], 1, 1e-9);
}

/* Sources: USDA SR28 05084 (chicken neck with skin, bone 36 % of the piece); Field 2000 (37 % calcium in bone ash; fresh
 * hard bone with 20 to 22 % calcium gives 1 % calcium in a mixture at 4.5 to 5 %). */
static void bone_brings_calcium(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  uint32_t flesh = FOOD(t, "neck", {NUT_PROTEIN, 14});
  uint32_t young = FOOD(t, "young bone", {NUT_CALCIUM, 5300});
  uint32_t hard = FOOD(t, "round bone", {NUT_CALCIUM, 22222}), broiler = FOOD(t, "broiler bone", {NUT_CALCIUM, 20000});
  uint32_t ash = FOOD(t, "bone ash", {NUT_CALCIUM, 37000});
  const struct library *lib = tiny_open(t);
  struct ration_line neck = tiny_line(flesh, 500 * 0.64);
  neck.part_count = 2;
  neck.part[1] = (struct portion){.food = young, .grams = 500 * 0.36, .retention = -1};
  neck.grams_fed = 500;
  struct ration r = tiny_ration(&neck, 1);
  const struct check_result *c = check_numbers(lib, &r, NULL, NULL, &arena);
  assert_near(c->nutrient[NUT_CALCIUM].amount, 9500, 100);
  assert_near(eat(lib, SPECIES_DOG, ash, 10)->nutrient[NUT_CALCIUM].amount, 3700, 1e-6);
  assert_near(eat(lib, SPECIES_DOG, hard, 4.5)->nutrient[NUT_CALCIUM].amount, 1000, 1);
  assert_near(eat(lib, SPECIES_DOG, broiler, 5.0)->nutrient[NUT_CALCIUM].amount, 1000, 1);
}

/* Source: AAFCO cat footnote as quoted by Hendriks et al. 2002: 10 IU of vitamin E a gram of fish oil on top; 5 g of oil in
 * a kilogram of food asks for 50 IU more. */
static void fish_oil_asks_for_vitamin_e(void **state) {
  (void)state;
  struct tiny *t = tiny_new(&arena);
  uint32_t meat = FOOD(t, "meat", {NUT_PROTEIN, 20}), oil = FOOD(t, "fish oil", {NUT_FAT, 100});
  t->food[oil].flags |= FOOD_FISH_OIL;
  tiny_energy(t, "cat", SPECIES_CAT, 0xff, 2, 75, 0.67);
  tiny_allowance(t, STANDARD_NRC2006, SPECIES_CAT, NUT_VITAMIN_E, LEVEL_ALLOWANCE, PER_METABOLIC_KG, 0.99, (double)NAN);
  const struct library *lib = tiny_open(t);
  struct animal cat = tiny_animal(SPECIES_CAT, 4);
  struct ration_line line[] = {tiny_line(meat, 995), tiny_line(oil, 5)};
  struct ration r = tiny_ration(line, 2);
  const struct nutrient_result *e = &check_numbers(lib, &r, &cat, NULL, &arena)->nutrient[NUT_VITAMIN_E];
  assert_near((e->adjusted_to - e->adjusted_from) / 0.67, 50, 0.01); /* 1 IU = 0.67 mg */
}

#define WITH_ARENA(f) cmocka_unit_test_setup_teardown(f, fresh, done)

int main(void) {
  const struct CMUnitTest tests[] = {
      WITH_ARENA(raw_meat),
      WITH_ARENA(shares_of_energy),
      WITH_ARENA(four_steps),
      WITH_ARENA(modified_atwater),
      WITH_ARENA(phytate_and_zinc),
      WITH_ARENA(calcium_to_phosphorus),
      WITH_ARENA(bone_brings_calcium),
      WITH_ARENA(fish_oil_asks_for_vitamin_e),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
