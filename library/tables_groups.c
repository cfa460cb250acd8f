/* data/food_groups.tsv: what people mean by a word for several foods. */
#include "library/tables.h"

static uint32_t set_of(const struct tsv *t, size_t row, const char *column, const char *const *words, int count) {
  struct span cell = tsv_cell(t, row, column);
  return cell.n > 0 ? tsv_set(t, row, column, cell, words, count) : 0;
}

void build_food_groups(struct writer *w, const char *data_dir) {
  static const char *const COLUMNS[] = {"words", "kinds", "parts", "names", "source", "confidence", "note", NULL};
  struct tsv t;
  table_open(&t, w, data_dir, "food_groups.tsv", COLUMNS);
  struct img_food_group *out = ARENA_NEW(w->arena, struct img_food_group, t.rows);
  for (size_t r = 0; r < t.rows; r++) {
    out[r] = (struct img_food_group){
        .words = writer_text(w, table_folded_words(w, tsv_cell(&t, r, "words"))),
        .names = writer_text(w, table_folded_words(w, tsv_cell(&t, r, "names"))),
        .kinds = set_of(&t, r, "kinds", kind_word, KIND_COUNT),
        .parts = set_of(&t, r, "parts", part_word, PART_COUNT),
        .confidence = table_confidence(&t, r),
        .source = source_index(&t, r, "source"),
        .row = (uint16_t)t.line[r],
    };
    if (tsv_cell(&t, r, "words").n == 0) tsv_fail(&t, r, "'words' is empty");
    if (out[r].kinds == 0 && out[r].parts == 0 && tsv_cell(&t, r, "names").n == 0) tsv_fail(&t, r, "no food belongs to it");
  }
  writer_section(w, IMG_FOOD_GROUPS, out, t.rows, sizeof *out);
}
