#include "library/tables.h"
#include "base/table.h"

#include <math.h>

uint8_t table_species(const struct tsv *t, size_t row) {
  static WORD_TABLE(WORDS, SPECIES_BOTH + 1, "dog", "cat", "both");
  return (uint8_t)tsv_word(t, row, "species", WORDS, COUNT_OF(WORDS));
}

uint8_t table_confidence(const struct tsv *t, size_t row) {
  return (uint8_t)tsv_word(t, row, "confidence", confidence_word, CONF_COUNT);
}

enum nutrient table_nutrient(const struct tsv *t, size_t row, const char *column) {
  struct span key = tsv_cell(t, row, column);
  enum nutrient n = nutrient_by_key(key);
  if (n == NUT_NONE) tsv_fail(t, row, "'%.*s' in column '%s' is no nutrient", SPAN_ARG(key), column);
  return n;
}

bool table_yes(const struct tsv *t, size_t row, const char *column, bool empty) {
  static const char *const WORDS[] = {"no", "yes"};
  return tsv_cell(t, row, column).n == 0 ? empty : tsv_word(t, row, column, WORDS, COUNT_OF(WORDS)) == 1;
}

img_text table_text(struct writer *w, const struct tsv *t, size_t row, const char *column) {
  return writer_text(w, tsv_cell(t, row, column));
}

double table_figure(const struct tsv *t, size_t row, const char *column, double least) {
  double x = tsv_number(t, row, column);
  if (!(x >= least)) tsv_fail(t, row, "column '%s' wants a number that is not too small", column);
  return x;
}

void table_open(struct tsv *t, struct writer *w, const char *data_dir, const char *name, const char *const *columns) {
  tsv_read(t, path_join(w->arena, data_dir, name), columns, w->arena);
}
