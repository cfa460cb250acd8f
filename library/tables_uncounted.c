/* data/uncounted.tsv: what a thing that is no food of the tables can hold at most. */
#include <math.h>

#include "base/num.h"
#include "library/tables.h"

/* What is sold as B vitamins: the eight, and often choline. */
static bool is_b_vitamin(enum nutrient n) { return n >= NUT_THIAMIN && n <= NUT_CHOLINE; }

static bool is_of(struct span group, enum nutrient n) {
  enum nutrient_group g = nutrient_info[n].group;
  if (span_is(group, "all")) return true;
  if (span_is(group, "vitamins")) return g == NG_VITAMIN;
  if (span_is(group, "B vitamins")) return is_b_vitamin(n);
  if (span_is(group, "minerals")) return g == NG_MINERAL || g == NG_TRACE;
  if (span_is(group, "trace minerals")) return g == NG_TRACE;
  if (span_is(group, "amino acids")) return g == NG_AMINO;
  if (span_is(group, "fatty acids")) return g == NG_FATTY;
  return span_is(group, nutrient_info[n].key);
}

static void read_holds(const struct tsv *t, size_t row, float holds[NUT_COUNT]) {
  for (struct span list = tsv_cell(t, row, "holds"); list.n > 0;) {
    struct span amount = tsv_piece(&list, '|'), what = tsv_piece(&amount, '=');
    double most = (double)NAN;
    bool any = false;
    if (amount.n > 0 && (!num_parse(amount, &most) || !(most > 0)))
      tsv_fail(t, row, "'%.*s' is not an amount", SPAN_ARG(amount));
    for (int n = 0; n < NUT_COUNT; n++) {
      if (!is_of(what, (enum nutrient)n)) continue;
      holds[n] = (float)most;
      any = true;
    }
    if (!any) tsv_fail(t, row, "'%.*s' is neither a nutrient nor a group of them", SPAN_ARG(what));
  }
}

void build_uncounted(struct writer *w, const char *data_dir) {
  static const char *const COLUMNS[] = {"kind", "words", "unless",     "as",   "holds", "few",
                                        "most", "source", "confidence", "note", NULL};
  struct tsv t;
  table_open(&t, w, data_dir, "uncounted.tsv", COLUMNS);
  struct img_uncounted *out = ARENA_NEW(w->arena, struct img_uncounted, t.rows);
  for (size_t r = 0; r < t.rows; r++) {
    out[r] = (struct img_uncounted){
        .name = table_text(w, &t, r, "kind"),
        .words = table_text(w, &t, r, "words"),
        .unless = table_text(w, &t, r, "unless"),
        .as = (uint8_t)tsv_word(&t, r, "as", uncounted_as_word, UNCOUNTED_AS_COUNT),
        .few = (float)tsv_number(&t, r, "few"),
        .most = (float)tsv_number(&t, r, "most"),
        .confidence = table_confidence(&t, r),
        .source = source_index(&t, r, "source"),
        .row = (uint16_t)t.line[r],
    };
    if (tsv_cell(&t, r, "words").n == 0) tsv_fail(&t, r, "'words' is empty");
    if (out[r].as == UNCOUNTED_SNACK && !(out[r].few > 0 && out[r].few <= out[r].most && out[r].most <= 1))
      tsv_fail(&t, r, "a snack has two shares of the need, the smaller first");
    read_holds(&t, r, out[r].holds);
  }
  writer_section(w, IMG_UNCOUNTED, out, t.rows, sizeof *out);
}
