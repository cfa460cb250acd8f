#include "library/spread.h"

#include <math.h>
#include <stdlib.h>

/* ---- the table ---------------------------------------------------------------------------------------------- */

static int by_size(const void *a, const void *b) {
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

double quantile(double *x, size_t n, double p) {
  if (n == 0) return NAN;
  qsort(x, n, sizeof *x, by_size);
  double at = p * (double)(n - 1);
  size_t low = (size_t)at;
  return low + 1 < n ? x[low] + (at - (double)low) * (x[low + 1] - x[low]) : x[n - 1];
}

static double median_of_rows(const double *cv) {
  double known[NUT_COUNT];
  size_t n = 0;
  for (int i = 0; i < NUT_COUNT; i++)
    if (isfinite(cv[i])) known[n++] = cv[i];
  return quantile(known, n, 0.5);
}

static void read_row(struct variability *v, const struct tsv *t, size_t row) {
  double cv = tsv_number(t, row, "cv");
  struct span key = tsv_cell(t, row, "nutrient");
  enum nutrient n = nutrient_by_key(key);
  bool any = span_is(tsv_cell(t, row, "class"), "any");
  (void)source_index(t, row, "source");
  if (!(cv >= 0 && cv < 5)) tsv_fail(t, row, "a coefficient of variation must be from 0 to 5");
  if (n == NUT_NONE && !(any && span_is(key, "tyrosine"))) tsv_fail(t, row, "'%.*s' is no nutrient", SPAN_ARG(key));
  if (n == NUT_NONE)
    v->tyrosine = cv;
  else if (any)
    v->any[n] = cv;
  else
    v->cv[tsv_word(t, row, "class", spread_class_word, SPREAD_CLASS_COUNT)][n] = cv;
}

void variability_read(struct variability *v, const char *data_dir, struct arena *arena) {
  static const char *const WANTED[] = {"class", "nutrient", "cv", "foods", "source", "confidence", NULL};
  struct tsv t;
  tsv_read(&t, path_join(arena, data_dir, "variability.tsv"), WANTED, arena);
  *v = (struct variability){.tyrosine = NAN};
  for (int n = 0; n < NUT_COUNT; n++) v->any[n] = NAN;
  for (int c = 0; c < SPREAD_CLASS_COUNT; c++)
    for (int n = 0; n < NUT_COUNT; n++) v->cv[c][n] = NAN;
  for (size_t i = 0; i < t.rows; i++) read_row(v, &t, i);
  for (int c = 0; c < SPREAD_CLASS_COUNT; c++) v->usual[c] = median_of_rows(v->cv[c]);
  v->usual_any = median_of_rows(v->any);
}

/* ---- one nutrient of one class ------------------------------------------------------------------------------ */

static double first_known(double a, double b) { return isfinite(a) ? a : b; }

/* Which row of 'any' stands for an amino acid: its own, that of the acid a sum mostly consists of, else NaN. */
static double amino_of_any(const struct variability *v, enum nutrient n) {
  if (n == NUT_MET_CYS) return v->any[NUT_METHIONINE];
  if (n == NUT_PHENYLALANINE || n == NUT_PHE_TYR) return v->tyrosine;
  return v->any[n];
}

static double median_amino(const struct variability *v) {
  double known[NUT_COUNT];
  size_t n = 0;
  for (int i = NUT_ARGININE; i <= NUT_VALINE; i++)
    if (isfinite(v->any[i])) known[n++] = v->any[i];
  return quantile(known, n, 0.5);
}

/* An amino acid differs because the protein differs and because its share of the protein does; both together. */
static double amino_cv(const struct variability *v, enum spread_class c, enum nutrient n) {
  double protein = first_known(v->cv[c][NUT_PROTEIN], v->any[NUT_PROTEIN]);
  return hypot(protein, first_known(amino_of_any(v, n), median_amino(v)));
}

static double own_or_any(const struct variability *v, enum spread_class c, enum nutrient n) {
  return first_known(v->cv[c][n], v->any[n]);
}

double variability_cv(const struct variability *v, enum spread_class c, enum nutrient n) {
  if (isfinite(v->cv[c][n])) return v->cv[c][n];
  if (n >= NUT_ARGININE && n <= NUT_VALINE) return amino_cv(v, c, n);
  if (n == NUT_SATURATED || n == NUT_MONOUNSATURATED || n == NUT_POLYUNSATURATED) return own_or_any(v, c, NUT_FAT);
  if (n == NUT_EPA_DHA) return fmax(own_or_any(v, c, NUT_EPA), own_or_any(v, c, NUT_DHA));
  return first_known(v->any[n], first_known(v->usual[c], v->usual_any));
}

/* ---- one value of one food ---------------------------------------------------------------------------------- */

static double deviation(const struct variability *v, const struct build_food *f, enum nutrient n) {
  double mean = f->value[n].mean;
  return mean > 0 ? mean * own_or_any(v, (enum spread_class)f->food.spread_class, n) : 0;
}

/* Carbohydrate is what is left of 100 g, so it carries the deviations of the rest. */
static double carbohydrate_cv(const struct variability *v, const struct build_food *f) {
  double rest = hypot(hypot(deviation(v, f, NUT_WATER), deviation(v, f, NUT_PROTEIN)),
                      hypot(deviation(v, f, NUT_FAT), deviation(v, f, NUT_ASH)));
  return rest / (double)f->value[NUT_CARBOHYDRATE].mean;
}

/* Energy is a sum over protein, fat and carbohydrate at about 4, 9 and 4 kcal per g. */
static double energy_cv(const struct variability *v, const struct build_food *f) {
  double carbohydrate = f->value[NUT_CARBOHYDRATE].mean;
  double of_carbohydrate = carbohydrate > 0 ? 4 * fmin(carbohydrate_cv(v, f), 0.5) * carbohydrate : 0;
  double all = hypot(hypot(4 * deviation(v, f, NUT_PROTEIN), 9 * deviation(v, f, NUT_FAT)), of_carbohydrate);
  return all / (double)f->value[NUT_ENERGY].mean;
}

static double between_samples(const struct variability *v, const struct build_food *f, enum nutrient n) {
  enum spread_class c = (enum spread_class)f->food.spread_class;
  if (c == SPREAD_BONE || c == SPREAD_SUPPLEMENT) return 0; /* such records bring the whole of their spread with them */
  if (n == NUT_CARBOHYDRATE) return carbohydrate_cv(v, f);
  return n == NUT_ENERGY ? energy_cv(v, f) : variability_cv(v, c, n);
}

double value_cv(const struct variability *v, const struct build_food *f, enum nutrient n) {
  const struct img_value *value = &f->value[n];
  if (value->status == VALUE_UNKNOWN || value->status == VALUE_NONE || !(value->mean > 0)) return 0;
  return fmin(hypot(between_samples(v, f, n), f->estimate_error[n]), 2.55);
}

static void set_codes(struct foods_build *b, const struct variability *v) {
  for (size_t i = 0; i < b->count; i++)
    for (int n = 0; n < NUT_COUNT; n++)
      b->food[i].value[n].cv_code = (uint8_t)lround(100 * value_cv(v, &b->food[i], (enum nutrient)n));
}

/* ---- classes ------------------------------------------------------------------------------------------------- */

enum { LEAST_FOODS = 5 }; /* under five records a 95th percentile says nothing */

static struct img_class_value class_value(const struct foods_build *b, const struct variability *v, enum spread_class c,
                                          enum nutrient n, double *known) {
  size_t count = 0;
  for (size_t i = 0; i < b->count; i++) {
    const struct build_food *f = &b->food[i];
    enum value_status s = (enum value_status)f->value[n].status;
    /* Seaweed is a vegetable by part, but its iodine would make any cabbage without a figure look as rich. */
    bool counts = f->food.spread_class == c && (f->food.flags & FOOD_PLAIN) && strncmp(f->name, "Seaweed", 7) != 0 &&
                  (s == VALUE_MEASURED || s == VALUE_CITED);
    if (counts) known[count++] = (double)f->value[n].mean;
  }
  bool enough = count >= LEAST_FOODS;
  return (struct img_class_value){(float)quantile(known, count, 0.5), enough ? (float)quantile(known, count, 0.95) : NAN,
                                  (float)variability_cv(v, c, n), (uint32_t)count};
}

void complete_spread(struct foods_build *b, const char *data_dir) {
  struct variability *v = ARENA_NEW(b->arena, struct variability, 1);
  variability_read(v, data_dir, b->arena);
  set_codes(b, v);
  size_t rows = (size_t)SPREAD_CLASS_COUNT * NUT_COUNT;
  struct img_class_value *row = ARENA_NEW(b->arena, struct img_class_value, rows);
  double *known = ARENA_NEW(b->arena, double, b->count + 1);
  for (size_t i = 0; i < rows; i++)
    row[i] = class_value(b, v, (enum spread_class)(i / NUT_COUNT), (enum nutrient)(i % NUT_COUNT), known);
  writer_section(b->w, IMG_CLASSES, row, rows, sizeof *row);
}
