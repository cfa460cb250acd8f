/* fixes.c: the table of foods that people use to bring a nutrient (data/fixes.tsv). Runs after the foods: codes must exist. */
#include "library/writer.h"

static uint32_t food_index(const struct writer *w, const struct tsv *t, size_t row) {
  const struct img_food *food = w->section[IMG_FOODS].rows;
  struct span code = tsv_cell(t, row, "code");
  for (size_t i = 0; i < w->section[IMG_FOODS].count; i++)
    if (span_is(code, w->strings.p + food[i].code)) return (uint32_t)i;
  tsv_fail(t, row, "there is no food record '%.*s'", SPAN_ARG(code));
}

void build_fixes(struct writer *w, const char *data_dir) {
  static const char *const COLUMNS[] = {"nutrient", "species", "code", "words", "most_g", "source", "confidence", NULL};
  static const char *const SPECIES[] = {"dog", "cat", "both"}; /* ORDER: enum species, then SPECIES_BOTH */
  struct buf path;
  buf_init(&path, w->arena, 4096);
  buf_addf(&path, "%s/fixes.tsv", data_dir);
  struct tsv t;
  tsv_read(&t, buf_text(&path), COLUMNS, w->arena);
  struct img_fix *fix = ARENA_NEW(w->arena, struct img_fix, t.rows);
  for (size_t r = 0; r < t.rows; r++) {
    enum nutrient n = nutrient_by_key(tsv_cell(&t, r, "nutrient"));
    if (n == NUT_NONE) tsv_fail(&t, r, "unknown nutrient key");
    fix[r] = (struct img_fix){.nutrient = (uint8_t)n,
                              .species = (uint8_t)tsv_word(&t, r, "species", SPECIES, 3),
                              .confidence = (uint8_t)tsv_word(&t, r, "confidence", confidence_word, CONF_COUNT),
                              .food = food_index(w, &t, r),
                              .words = writer_text(w, tsv_cell(&t, r, "words")),
                              .most_g = (float)tsv_number(&t, r, "most_g"),
                              .source = source_index(&t, r, "source"),
                              .row = (uint16_t)t.line[r]};
  }
  writer_section(w, IMG_FIXES, fix, t.rows, sizeof *fix);
}
