/* data/kitchen.tsv: keeping, thawing, boxes, changing over. */
#include "library/tables.h"

#include "foods/search.h"

struct span table_folded_words(struct writer *w, struct span words) {
  struct buf b;
  buf_init(&b, w->arena, 1000);
  while (words.n > 0) {
    struct span word = search_fold_with(NULL, 0, tsv_piece(&words, '|'), w->arena);
    buf_addf(&b, "%s%.*s", b.n ? "|" : "", SPAN_ARG(word));
  }
  return buf_span(&b);
}

static void must_hold_together(const struct tsv *t, size_t row, const struct img_kitchen *k) {
  bool times = k->topic == KITCHEN_KEEP || k->topic == KITCHEN_CHANGE;
  if (tsv_cell(t, row, "says").n == 0) tsv_fail(t, row, "'says' is empty");
  if (times && !(k->low > 0)) tsv_fail(t, row, "'low' is missing");
  if (k->high < k->low || k->high2 < k->low2) tsv_fail(t, row, "low and high must rise");
  if ((k->topic == KITCHEN_CHANGE || k->topic == KITCHEN_BOX) && !(k->share > 0)) tsv_fail(t, row, "'share' is missing");
}

void build_kitchen(struct writer *w, const char *data_dir) {
  static const char *const COLUMNS[] = {"topic", "key",   "parts", "kinds",   "form",   "words",      "low",  "high", "low2",
                                        "high2", "share", "says",  "says_us", "source", "confidence", "note", NULL};
  struct tsv t;
  table_open(&t, w, data_dir, "kitchen.tsv", COLUMNS);
  struct img_kitchen *out = ARENA_NEW(w->arena, struct img_kitchen, t.rows);
  for (size_t r = 0; r < t.rows; r++) {
    out[r] = (struct img_kitchen){
        .key = table_text(w, &t, r, "key"),
        .words = writer_text(w, table_folded_words(w, tsv_cell(&t, r, "words"))),
        .says = table_text(w, &t, r, "says"),
        .says_us = table_text(w, &t, r, "says_us"),
        .parts = tsv_set(&t, r, "parts", tsv_cell(&t, r, "parts"), part_word, PART_COUNT),
        .kinds = tsv_set(&t, r, "kinds", tsv_cell(&t, r, "kinds"), kind_word, KIND_COUNT),
        .low = (float)tsv_number(&t, r, "low"),
        .high = (float)tsv_number(&t, r, "high"),
        .low2 = (float)tsv_number(&t, r, "low2"),
        .high2 = (float)tsv_number(&t, r, "high2"),
        .share = (float)tsv_number(&t, r, "share"),
        .topic = (uint8_t)tsv_word(&t, r, "topic", kitchen_topic_word, KITCHEN_TOPICS),
        .form = (uint8_t)tsv_word(&t, r, "form", kitchen_form_word, KITCHEN_FORMS),
        .confidence = table_confidence(&t, r),
        .source = source_index(&t, r, "source"),
        .row = (uint16_t)t.line[r],
    };
    must_hold_together(&t, r, &out[r]);
  }
  writer_section(w, IMG_KITCHEN, out, t.rows, sizeof *out);
}
