/* Own records against chemistry and published ranges. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
/* cmocka needs the four above before it. */
#include <cmocka.h>

#include "built_image.h"
#include "near.h"

/* Standard atomic masses (IUPAC, abridged). */
static const double H = 1.008, C = 12.011, N = 14.007, O = 15.999, NA = 22.990, MG = 24.305, P = 30.974, S = 32.06,
                    CL = 35.45, K = 39.098, CA = 40.078, MN = 54.938, FE = 55.845, CU = 63.546, ZN = 65.38, I = 126.904;

/* mg per 100 g of the element in the compound, to the two decimals of a per cent that the table gives. */
static void check_share(const char *code, enum nutrient n, double element, double compound) {
  double got = built_value(code, n) / 1000, want = 100 * element / compound;
  if (!(fabs(got - want) <= 0.02)) fail_msg("%s: %.3f %%, chemistry says %.3f", code, got, want);
}

static void pure_substances_follow_their_formula(void **state) {
  (void)state;
  double water = 2 * H + O, gluconate = 6 * C + 11 * H + 7 * O, picolinate = 6 * C + 4 * H + N + 2 * O,
         glycinate = 2 * C + 4 * H + N + 2 * O, sulfate = S + 4 * O, citrate = 6 * C + 5 * H + 7 * O,
         choline = 5 * C + 14 * H + N + O, bitartrate = 4 * C + 5 * H + 6 * O;
  check_share("ours:calcium-carbonate", NUT_CALCIUM, CA, CA + C + 3 * O);
  check_share("ours:calcium-citrate", NUT_CALCIUM, 3 * CA, 3 * CA + 2 * citrate + 4 * water);
  check_share("ours:tricalcium-phosphate", NUT_CALCIUM, 3 * CA, 3 * CA + 2 * (P + 4 * O));
  check_share("ours:tricalcium-phosphate", NUT_PHOSPHORUS, 2 * P, 3 * CA + 2 * (P + 4 * O));
  check_share("ours:potassium-chloride", NUT_POTASSIUM, K, K + CL);
  check_share("ours:magnesium-oxide", NUT_MAGNESIUM, MG, MG + O);
  check_share("ours:zinc-oxide", NUT_ZINC, ZN, ZN + O);
  check_share("ours:zinc-gluconate", NUT_ZINC, ZN, ZN + 2 * gluconate);
  check_share("ours:zinc-picolinate", NUT_ZINC, ZN, ZN + 2 * picolinate);
  check_share("ours:zinc-bisglycinate", NUT_ZINC, ZN, ZN + 2 * glycinate);
  check_share("ours:zinc-sulfate", NUT_ZINC, ZN, ZN + sulfate + water);
  check_share("ours:copper-gluconate", NUT_COPPER, CU, CU + 2 * gluconate);
  check_share("ours:copper-sulfate", NUT_COPPER, CU, CU + sulfate + 5 * water);
  check_share("ours:manganese-gluconate", NUT_MANGANESE, MN, MN + 2 * gluconate);
  check_share("ours:manganese-sulfate", NUT_MANGANESE, MN, MN + sulfate + water);
  check_share("ours:iron-bisglycinate", NUT_IRON, FE, FE + 2 * glycinate);
  check_share("ours:choline-bitartrate", NUT_CHOLINE, choline, choline + bitartrate);
  check_share("ours:choline-chloride", NUT_CHOLINE, choline, choline + CL);
  assert_near(built_value("ours:potassium-iodide", NUT_IODINE) / 1e6, 100 * I / (K + I), 0.02);
  /* CIQUAL 2020 weighs salt at 39.1 g Na and 60.8 g Cl; the formula says 39.34 and 60.66. */
  assert_near(built_value("ours:salt-plain", NUT_SODIUM) / 1000, 100 * NA / (NA + CL), 0.3);
  assert_near(built_value("ours:salt-plain", NUT_CHLORIDE) / 1000, 100 * CL / (NA + CL), 0.3);
}

static void a_pure_substance_holds_nothing_else(void **state) {
  (void)state;
  const struct img_value *v = library_values(built_library(), built_food("ours:taurine"));
  assert_near(v[NUT_TAURINE].mean, 100, 0);
  for (int n = 0; n < NUT_COUNT; n++) {
    if (n == NUT_TAURINE || n == NUT_VITAMIN_A || n == NUT_ENERGY || n == NUT_WATER || n == NUT_ASH) continue;
    assert_int_equal(v[n].status, VALUE_NONE);
    assert_near(v[n].mean, 0, 0);
  }
}

/* Teas and others 2004: 514 to 8165 µg of iodine in a gram of dry weed. The stored lognormal must give that range back. */
static void kelp_has_its_range_and_not_a_mean(void **state) {
  (void)state;
  struct img_value v = library_values(built_library(), built_food("ours:kelp-dried"))[NUT_IODINE];
  double sd = sqrt(log1p(img_cv(v) * img_cv(v))), median = (double)v.mean / exp(sd * sd / 2);
  assert_near(median * exp(-1.6449 * sd) / 100 / 514, 1, 0.02);
  assert_near(median * exp(1.6449 * sd) / 100 / 8165, 1, 0.02);
  assert_int_equal(library_values(built_library(), built_food("ours:kelp-dried"))[NUT_ZINC].status, VALUE_UNKNOWN);
}

static void bone_is_bone(void **state) {
  (void)state;
  static const char *const BONES[] = {"bone:chicken", "bone:turkey", "bone:duck",   "bone:pork",
                                      "bone:beef",    "bone:lamb",   "bone:rabbit", "bone:fish"};
  for (size_t i = 0; i < COUNT_OF(BONES); i++) {
    const char *b = BONES[i];
    assert_true(built_record(b)->flags & FOOD_BONE);
    double calcium = built_value(b, NUT_CALCIUM), phosphorus = built_value(b, NUT_PHOSPHORUS);
    /* Real bone has 2.0 to 2.2 g of calcium for one of phosphorus (hydroxyapatite 2.155). */
    if (!(calcium / phosphorus >= 2.0 && calcium / phosphorus <= 2.2)) fail_msg("%s: Ca:P %.2f", b, calcium / phosphorus);
    /* Field 2000: calcium is 37 % of bone ash; 36 to 39 % is the common range, and the bands here are wide. */
    double share = calcium / 1000 / built_value(b, NUT_ASH);
    if (!(share > 0.30 && share < 0.40)) fail_msg("%s: calcium is %.2f of the ash", b, share);
    double sum = built_value(b, NUT_WATER) + built_value(b, NUT_PROTEIN) + built_value(b, NUT_FAT) + built_value(b, NUT_ASH);
    if (!(sum > 90 && sum < 105)) fail_msg("%s: water, protein, fat and ash make %.1f", b, sum);
    assert_true(library_values(built_library(), built_food(b))[NUT_CALCIUM].cv_code >= 10); /* a band, not a number */
    assert_int_equal(library_values(built_library(), built_food(b))[NUT_IRON].status, VALUE_UNKNOWN);
  }
  /* Reference figures: chicken 5.3, turkey 6, pork 8, beef 11 g of calcium per 100 g. */
  assert_near(built_value("bone:chicken", NUT_CALCIUM), 5300, 0.1);
  assert_near(built_value("bone:turkey", NUT_CALCIUM), 6000, 0.1);
  assert_near(built_value("bone:pork", NUT_CALCIUM), 8000, 0.1);
  assert_near(built_value("bone:beef", NUT_CALCIUM), 11000, 0.1);
}

static void international_units_hold(void **state) {
  (void)state;
  /* 400 IU of natural vitamin E are 268 mg; 400 IU of vitamin D are 10 µg. */
  assert_near(400 * 0.67 / built_value("ours:vitamin-e-natural", NUT_VITAMIN_E) * 100, 0.268, 1e-6);
  assert_near(400 * 0.025 / built_value("ours:vitamin-d3", NUT_VITAMIN_D) * 100, 1e-5, 1e-12);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(pure_substances_follow_their_formula),
      cmocka_unit_test(a_pure_substance_holds_nothing_else),
      cmocka_unit_test(kelp_has_its_range_and_not_a_mean),
      cmocka_unit_test(bone_is_bone),
      cmocka_unit_test(international_units_hold),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
