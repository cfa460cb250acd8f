/* Spread of values: every published value against the table by another route (awk), classes against GSL's quantiles. */
#define _POSIX_C_SOURCE 200809L
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
/* cmocka needs the four above before it. */
#include <cmocka.h>

#include <gsl/gsl_sort.h>
#include <gsl/gsl_statistics_double.h>

#include "built_image.h"
#include "near.h"

static enum spread_class class_of(const char *word) {
  for (int c = 0; c < SPREAD_CLASS_COUNT; c++)
    if (strcmp(word, spread_class_word[c]) == 0) return (enum spread_class)c;
  return SPREAD_CLASS_COUNT;
}

/* For each row of the table: every published, non-zero value of that class and nutrient carries that figure, in hundredths.
 */
static void published_values_carry_the_table(void **state) {
  (void)state;
  FILE *rows = popen("awk -F'\\t' '!/^#/ && $1 != \"class\" && $1 != \"any\" { print $1, $2, $3 }' " BW_SOURCE_DIR
                     "/data/variability.tsv",
                     "r");
  const struct library *l = built_library();
  char class[32], nutrient[32];
  double cv;
  size_t checked = 0;
  assert_non_null(rows);
  while (fscanf(rows, "%31s %31s %lf", class, nutrient, &cv) == 3) {
    enum nutrient n = nutrient_by_key(span_of(nutrient));
    assert_int_not_equal(n, NUT_NONE);
    for (uint32_t i = 0; i < img_count(&l->image, IMG_FOODS); i++) {
      const struct img_food *f = library_food(l, i);
      const struct img_value *v = &library_values(l, i)[n];
      if (f->spread_class != class_of(class) || v->status != VALUE_MEASURED || !(v->mean > 0)) continue;
      assert_near(img_cv(*v), cv, 0.00501);
      checked++;
    }
  }
  pclose(rows);
  assert_true(checked > 100000);
}

/* An estimate is never surer than a published value of the same class and nutrient. */
static void estimates_spread_wider(void **state) {
  (void)state;
  const struct library *l = built_library();
  uint8_t published[SPREAD_CLASS_COUNT][NUT_COUNT] = {0};
  for (int pass = 0; pass < 2; pass++)
    for (uint32_t i = 0; i < img_count(&l->image, IMG_FOODS); i++)
      for (int n = NUT_FIBER; n < NUT_COUNT; n++) {
        const struct img_value *v = &library_values(l, i)[n];
        enum spread_class c = (enum spread_class)library_food(l, i)->spread_class;
        if (pass == 0 && v->status == VALUE_MEASURED && v->mean > 0) published[c][n] = v->cv_code;
        if (pass == 1 && v->status == VALUE_ESTIMATED && v->mean > 0) assert_true(v->cv_code >= published[c][n]);
      }
}

static void classes_agree_with_gsl(void **state) {
  (void)state;
  static const struct {
    enum spread_class c;
    enum nutrient n;
  } PICK[] = {
      {SPREAD_RED_MEAT, NUT_IRON}, {SPREAD_ORGAN, NUT_RETINOL}, {SPREAD_VEGETABLE, NUT_OXALATE}, {SPREAD_FISH, NUT_IODINE}};
  const struct library *l = built_library();
  const struct img_class_value *row = IMG_ROWS(&l->image, IMG_CLASSES, struct img_class_value);
  size_t foods = img_count(&l->image, IMG_FOODS);
  double *known = malloc(foods * sizeof *known);
  for (size_t k = 0; k < COUNT_OF(PICK); k++) {
    size_t count = 0;
    for (uint32_t i = 0; i < foods; i++) {
      const struct img_food *f = library_food(l, i);
      const struct img_value *v = &library_values(l, i)[PICK[k].n];
      bool own_cut = strncmp(img_str(&l->image, f->code), "cut:", 4) == 0; /* made after the classes were counted */
      bool counts = f->spread_class == PICK[k].c && (f->flags & FOOD_PLAIN) && !own_cut;
      if (counts && (v->status == VALUE_MEASURED || v->status == VALUE_CITED)) known[count++] = v->mean;
    }
    gsl_sort(known, 1, count);
    const struct img_class_value *got = &row[(size_t)PICK[k].c * NUT_COUNT + PICK[k].n];
    assert_int_equal(got->foods, count);
    assert_near(got->median, gsl_stats_median_from_sorted_data(known, 1, count), 1e-4 * got->median);
    assert_near(got->high, gsl_stats_quantile_from_sorted_data(known, 1, count, 0.95), 1e-4 * got->high);
  }
  free(known);
}

/* Worked by hand in docs/method/values.md: beef rib eye, lysine: 0.083 (protein) with 0.044 (lysine of all foods) is 0.094.
 */
static void an_amino_acid_joins_protein_and_its_share(void **state) {
  (void)state;
  struct img_value lysine = library_values(built_library(), built_food("usda:23567"))[NUT_LYSINE];
  assert_int_equal(lysine.status, VALUE_MEASURED);
  assert_near(img_cv(lysine), 0.09, 1e-9);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(published_values_carry_the_table),
      cmocka_unit_test(estimates_spread_wider),
      cmocka_unit_test(classes_agree_with_gsl),
      cmocka_unit_test(an_amino_acid_joins_protein_and_its_share),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
