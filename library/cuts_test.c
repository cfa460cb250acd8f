/* Bone shares against figures that stand printed in USDA SR28's refuse texts (read by eye, number by number), and the
 * arithmetic of bone-in pieces. */
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

/* Per cent of the bone-in piece, as printed (skin and fat that the record leaves out taken off the whole). */
static const struct {
  const char *code;
  double percent;
  const char *bone;
} PRINTED[] = {
    {"usda:05006", 32, "bone:chicken"},     /* chicken, whole */
    {"usda:05001", 31, "bone:chicken"},     /* with giblets and neck */
    {"usda:05029", 28, "bone:chicken"},     /* light meat parts */
    {"usda:05034", 35, "bone:chicken"},     /* dark meat parts */
    {"usda:05048", 44, "bone:chicken"},     /* back */
    {"usda:05057", 20, "bone:chicken"},     /* breast */
    {"usda:05066", 33, "bone:chicken"},     /* drumstick: bone and cartilage once, not the total of 66 */
    {"usda:05075", 27, "bone:chicken"},     /* leg */
    {"usda:05691", 15, "bone:chicken"},     /* thigh: bone and cartilage once, not the total of 32 */
    {"usda:05084", 36, "bone:chicken"},     /* neck with skin */
    {"usda:05088", 59.016, "bone:chicken"}, /* neck without skin: 36 of 36 + 25 */
    {"usda:05100", 38, "bone:chicken"},     /* wing */
    {"usda:05307", 39, "bone:chicken"},     /* cornish hen */
    {"usda:05113", 35.443, "bone:chicken"}, /* "28% bone, 14% skin, 7% separable fat": 28 of 79 */
    {"usda:05165", 29, "bone:turkey"},
    {"usda:05179", 60, "bone:turkey"}, /* neck */
    {"usda:05736", 33, "bone:turkey"}, /* drumstick */
    {"usda:05732", 14, "bone:turkey"}, /* breast */
    {"usda:05139", 28, "bone:duck"},
    {"usda:05144", 38.776, "bone:duck"}, /* "38% bone, 2% handling loss": 38 of 98 */
    {"usda:05157", 10, "bone:chicken"},  /* quail */
    {"usda:10088", 30, "bone:pork"},     /* spareribs */
    {"usda:10192", 30, "bone:pork"},     /* back ribs: "Bone 30%, Connective tissue 7%" */
    {"usda:10204", 21, "bone:pork"},     /* country-style ribs: "Bone 21%, Connective tissue 14%" */
    {"usda:10074", 16, "bone:pork"},     /* picnic: "Bone 16%, Connective tissue 6%" */
    {"usda:10102", 29, "bone:pork"},     /* feet */
    {"usda:13147", 27, "bone:beef"},     /* short ribs */
    {"usda:23236", 52, "bone:beef"},     /* back ribs */
    {"usda:13824", 16, "bone:beef"},
    {"usda:13227", 36.170, "bone:beef"}, /* shank crosscuts, lean only: "Bone 34%, separable fat 6%": 34 of 94 */
    {"usda:17412", 32, "bone:lamb"},     /* neck chops */
    {"usda:17029", 27, "bone:lamb"},
    {"usda:17007", 52, "bone:lamb"}, /* foreshank */
    {"usda:17035", 21, "bone:lamb"}, /* shoulder */
};

static void printed_shares_are_read(void **state) {
  (void)state;
  for (size_t i = 0; i < COUNT_OF(PRINTED); i++) {
    const struct img_food *f = built_record(PRINTED[i].code);
    if (!(fabs(100 * f->bone_share - PRINTED[i].percent) < 0.05))
      fail_msg("%s: %.3f %% bone, printed %.3f", PRINTED[i].code, 100 * f->bone_share, PRINTED[i].percent);
    assert_int_equal(f->bone_food, built_food(PRINTED[i].bone));
    assert_true(f->bone_share_cv > 0);
    assert_string_not_equal(lib_str(built_library(), library_source(built_library(), f->bone_source)->key), "");
  }
}

static void what_the_text_does_not_tell_stays_unknown(void **state) {
  (void)state;
  assert_true(isnan(built_record("usda:10008")->bone_share)); /* "Bone and skin": one figure for both */
  assert_true(isnan(built_record("usda:01123")->bone_share)); /* "Shell" */
  assert_true(isnan(built_record("usda:05062")->bone_share)); /* boneless */
  assert_true(isnan(built_record("usda:15274")->bone_share)); /* "skin, head, viscera, bones" */
  assert_true(isnan(built_record("usda:13321")->bone_share)); /* heart: "Fat, veins and connective tissue" */
}

static void no_share_is_absurd(void **state) {
  (void)state;
  const struct library *lib = built_library();
  size_t known = 0;
  for (uint32_t i = 0; i < library_count(lib); i++) {
    const struct img_food *f = library_food(lib, i);
    if (isnan(f->bone_share)) continue;
    known++;
    /* A neck without skin (0.59), a turkey neck and a foot (0.60) and a bare frame (0.70) are the boniest pieces. */
    if (!(f->bone_share >= 0.01 && f->bone_share <= 0.70001)) fail_msg("%s: %.3f", library_code(lib, i), f->bone_share);
    bool shell = strcmp(library_code(lib, f->bone_food), "ours:eggshell") == 0; /* of an egg */
    assert_true(shell ? f->part == PART_EGG : (library_food(lib, f->bone_food)->flags & FOOD_BONE) != 0);
  }
  assert_true(known > 800);
}

static void a_cut_is_its_flesh_and_a_bone(void **state) {
  (void)state;
  const struct library *lib = built_library();
  const struct img_food *neck = built_record("cut:duck-neck");
  assert_true((neck->flags & FOOD_CUT) && (neck->flags & FOOD_ALWAYS_BONE_IN) && (neck->flags & FOOD_PLAIN));
  assert_near(neck->bone_share, 0.50, 1e-6);
  assert_int_equal(neck->bone_food, built_food("bone:duck"));
  const struct img_value *cut = library_values(lib, built_food("cut:duck-neck"));
  const struct img_value *flesh = library_values(lib, built_food("usda:05141"));
  assert_memory_equal(cut, flesh, NUT_COUNT * sizeof *cut);
  /* 40 to 60 % for 90 of 100 pieces: sd of the logarithm = ln(60/40) / 3.290 = 0.1232, CV 0.1237 (by hand). */
  assert_near(neck->bone_share_cv, 0.1237, 2e-4);
  assert_false(built_record("cut:chicken-wing")->flags & FOOD_ALWAYS_BONE_IN); /* people eat the meat and leave the bone */
}

/* Worked example of the method: 500 g of chicken necks with skin, 36 % bone, 5.3 g Ca per 100 g of bone. */
static void necks_hold_about_nine_and_a_half_grams_of_calcium(void **state) {
  (void)state;
  double bone_g = 500 * (double)built_record("cut:chicken-neck")->bone_share;
  assert_near(bone_g, 180, 0.01);
  double calcium_g = bone_g * built_value("bone:chicken", NUT_CALCIUM) / 100 / 1000;
  assert_near(calcium_g, 9.5, 0.1);
  /* Analyses of skinless chicken necks with their bone quoted in raw-diet texts: 1.5 to 2.2 g Ca per 100 g. With the share
   * of the skinless neck the sum is higher; with that of the whole neck it lies inside. */
  double per_100g = 0.36 * built_value("bone:chicken", NUT_CALCIUM) / 1000;
  assert_in_range((int)(per_100g * 100), 150, 220);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(printed_shares_are_read),
      cmocka_unit_test(what_the_text_does_not_tell_stays_unknown),
      cmocka_unit_test(no_share_is_absurd),
      cmocka_unit_test(a_cut_is_its_flesh_and_a_bone),
      cmocka_unit_test(necks_hold_about_nine_and_a_half_grams_of_calcium),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
