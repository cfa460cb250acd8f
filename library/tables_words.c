/* Tables of words: foods that harm, weights of spoonfuls, the sentences of the review. */
#include "foods/search.h"
#include "library/tables.h"

/* ---- foods that harm ------------------------------------------------------------------------------------------ */

/* Food names are English or Latin, so no table of accented letters is needed to fold them. */
static struct span fold(struct writer *w, struct span words) { return search_fold_with(NULL, 0, words, w->arena); }

/* "onion|leeks" with "oil|leaf" in 'not' becomes "onion|leek|-oil|-leaf". */
static struct span match_words(struct writer *w, const struct tsv *t, size_t row) {
  struct buf b;
  buf_init(&b, w->arena, 1000);
  struct span match = tsv_cell(t, row, "match"), unless = tsv_cell(t, row, "not");
  if (match.n == 0 && unless.n > 0) tsv_fail(t, row, "'not' without 'match'");
  while (match.n > 0) {
    struct span words = fold(w, tsv_piece(&match, '|'));
    buf_addf(&b, "%s%.*s", b.n ? "|" : "", SPAN_ARG(words));
  }
  while (unless.n > 0) {
    struct span words = fold(w, tsv_piece(&unless, '|'));
    buf_addf(&b, "|-%.*s", SPAN_ARG(words));
  }
  return buf_span(&b);
}

/* "Onions|=hops|chop & @cooked" becomes "onion|=hops|chop & @cooked": only plain words are folded. */
static img_text said_words(struct writer *w, const struct tsv *t, size_t row, const char *column) {
  struct span rest = tsv_cell(t, row, column);
  struct buf b;
  buf_init(&b, w->arena, 4 * rest.n + 16);
  while (rest.n > 0) {
    struct span part = span_trim(tsv_piece(&rest, '|'));
    if (part.n == 0) tsv_fail(t, row, "an empty alternative");
    if (b.n > 0) buf_addc(&b, '|');
    for (bool first = true; part.n > 0; first = false) {
      struct span piece = span_trim(tsv_piece(&part, '&'));
      struct span words = piece.n > 0 && (piece.p[0] == '=' || piece.p[0] == '@') ? piece : fold(w, piece);
      if (words.n == 0) tsv_fail(t, row, "an alternative without words");
      buf_addf(&b, "%s%.*s", first ? "" : " & ", SPAN_ARG(words));
    }
  }
  return writer_text(w, buf_span(&b));
}

static bool holds_word(struct span name, struct span word) {
  while (name.n > 0)
    if (span_eq(tsv_piece(&name, ' '), word)) return true;
  return false;
}

static bool holds_all(struct span name, struct span words) {
  if (words.n == 0) return false;
  while (words.n > 0)
    if (!holds_word(name, tsv_piece(&words, ' '))) return false;
  return true;
}

static bool is_named(struct span folded_name, struct span match) {
  bool named = false;
  while (match.n > 0) {
    struct span words = tsv_piece(&match, '|');
    if (words.n > 0 && words.p[0] == '-') {
      if (holds_all(folded_name, span_cut(words, 1, words.n))) return false;
    } else if (holds_all(folded_name, words)) {
      named = true;
    }
  }
  return named;
}

/* Every food record learns which hazard it is: the first that names it, so the grave ones stand first in the table.
 * Hazards that are only good to know speak of whole classes of food and are left to the review. */
static void mark_foods(struct writer *w, const struct img_hazard *hazard, const struct span *match, size_t count) {
  size_t foods = w->section[IMG_FOODS].count;
  struct img_food *marked = ARENA_NEW(w->arena, struct img_food, foods);
  if (foods == 0) return;
  memcpy(marked, w->section[IMG_FOODS].rows, foods * sizeof *marked);
  for (size_t i = 0; i < foods; i++) {
    struct span name = fold(w, span_of(w->strings.p + marked[i].name));
    for (size_t h = 0; h < count && marked[i].hazard == NO_INDEX; h++)
      if (hazard[h].weight != FINDING_KNOW && is_named(name, match[h])) marked[i].hazard = (uint32_t)h;
  }
  w->section[IMG_FOODS].rows = marked;
}

void build_hazards(struct writer *w, const char *data_dir) {
  static const char *const COLUMNS[] = {"id",     "words", "match",  "not",  "raw_only", "species",  "weight", "confidence",
                                        "source", "dose",  "advice", "said", "unless",   "answered", "names",  NULL};
  struct tsv t;
  table_open(&t, w, data_dir, "hazards.tsv", COLUMNS);
  struct img_hazard *out = ARENA_NEW(w->arena, struct img_hazard, t.rows);
  struct span *match = ARENA_NEW(w->arena, struct span, t.rows);
  for (size_t r = 0; r < t.rows; r++) {
    match[r] = match_words(w, &t, r);
    if (tsv_cell(&t, r, "said").n == 0) tsv_fail(&t, r, "a hazard needs words in 'said': nobody would find it in a text");
    out[r] = (struct img_hazard){.id = table_text(w, &t, r, "id"),
                                 .words = table_text(w, &t, r, "words"),
                                 .match = writer_text(w, match[r]),
                                 .species = table_species(&t, r),
                                 .weight = (uint8_t)tsv_word(&t, r, "weight", finding_weight_word, FINDING_WEIGHT_COUNT),
                                 .confidence = table_confidence(&t, r),
                                 .raw_only = table_yes(&t, r, "raw_only", false),
                                 .source = source_index(&t, r, "source"),
                                 .row = (uint16_t)t.line[r],
                                 .dose = table_text(w, &t, r, "dose"),
                                 .advice = table_text(w, &t, r, "advice"),
                                 .said = said_words(w, &t, r, "said"),
                                 .unless = said_words(w, &t, r, "unless"),
                                 .answered = said_words(w, &t, r, "answered"),
                                 .names = said_words(w, &t, r, "names")};
  }
  mark_foods(w, out, match, t.rows);
  writer_section(w, IMG_HAZARDS, out, t.rows, sizeof *out);
}

/* ---- spoonfuls, sentences ------------------------------------------------------------------------------------- */

void build_densities(struct writer *w, const char *data_dir) {
  static const char *const COLUMNS[] = {"words", "g_per_ml", "confidence", "source", "note", NULL};
  struct tsv t;
  table_open(&t, w, data_dir, "densities.tsv", COLUMNS);
  struct img_density *out = ARENA_NEW(w->arena, struct img_density, t.rows);
  for (size_t r = 0; r < t.rows; r++) {
    table_confidence(&t, r); /* must be one of the words, although the image does not keep it */
    out[r] = (struct img_density){.words = table_text(w, &t, r, "words"),
                                  .g_per_ml = (float)table_figure(&t, r, "g_per_ml", 0.05),
                                  .source = source_index(&t, r, "source"),
                                  .row = (uint16_t)t.line[r]};
  }
  writer_section(w, IMG_DENSITIES, out, t.rows, sizeof *out);
}

/* "spinach|herbs" -> "spinach|herb"; a part's word such as "organ_liver" stays whole. */
static img_text folded_choices(struct writer *w, struct span words) {
  struct buf b;
  buf_init(&b, w->arena, 1000);
  while (words.n > 0) {
    struct span one = tsv_piece(&words, '|');
    bool part = false;
    for (int p = 0; p < PART_COUNT; p++) part = part || span_is(one, part_word[p]);
    if (!part) one = fold(w, one);
    buf_addf(&b, "%s%.*s", b.n ? "|" : "", SPAN_ARG(one));
  }
  return writer_text(w, buf_span(&b));
}

void build_household(struct writer *w, const char *data_dir) {
  static const char *const COLUMNS[] = {"words", "foods",  "low",        "middle", "high",
                                        "unit",  "source", "confidence", "note",   NULL};
  struct tsv t;
  table_open(&t, w, data_dir, "household.tsv", COLUMNS);
  struct img_household *out = ARENA_NEW(w->arena, struct img_household, t.rows);
  for (size_t r = 0; r < t.rows; r++) {
    bool ml = span_is(tsv_cell(&t, r, "unit"), "ml");
    if (!ml && !span_is(tsv_cell(&t, r, "unit"), "g")) tsv_fail(&t, r, "the unit is g or ml");
    if (tsv_cell(&t, r, "words").n == 0 && (ml || tsv_cell(&t, r, "foods").n == 0))
      tsv_fail(&t, r, "a piece is weighed in g and names its food");
    out[r] = (struct img_household){.words = folded_choices(w, tsv_cell(&t, r, "words")),
                                    .foods = folded_choices(w, tsv_cell(&t, r, "foods")),
                                    .low = (float)table_figure(&t, r, "low", 0.01),
                                    .middle = (float)table_figure(&t, r, "middle", 0.01),
                                    .high = (float)table_figure(&t, r, "high", 0.01),
                                    .is_volume = ml,
                                    .confidence = table_confidence(&t, r),
                                    .source = source_index(&t, r, "source"),
                                    .row = (uint16_t)t.line[r]};
    if (!(out[r].low <= out[r].middle && out[r].middle <= out[r].high)) tsv_fail(&t, r, "low, middle and high must rise");
  }
  writer_section(w, IMG_HOUSEHOLD, out, t.rows, sizeof *out);
}

void build_findings(struct writer *w, const char *data_dir) {
  static const char *const COLUMNS[] = {"id",     "weight", "order",  "threshold",  "threshold2", "words",
                                        "reason", "remedy", "source", "confidence", "note",       NULL};
  struct tsv t;
  table_open(&t, w, data_dir, "findings.tsv", COLUMNS);
  struct img_finding *out = ARENA_NEW(w->arena, struct img_finding, t.rows);
  for (size_t r = 0; r < t.rows; r++) {
    double order = table_figure(&t, r, "order", 0);
    if (!(order <= UINT16_MAX)) tsv_fail(&t, r, "order is too large");
    out[r] = (struct img_finding){
        .id = table_text(w, &t, r, "id"),
        .weight = (uint8_t)tsv_word(&t, r, "weight", finding_weight_word, FINDING_WEIGHT_COUNT),
        .confidence = table_confidence(&t, r),
        .order = (uint16_t)order,
        .threshold = (float)tsv_number(&t, r, "threshold"),
        .threshold2 = (float)tsv_number(&t, r, "threshold2"),
        .words = table_text(w, &t, r, "words"),
        .reason = table_text(w, &t, r, "reason"),
        .remedy = table_text(w, &t, r, "remedy"),
        .source = source_index(&t, r, "source"),
        .row = (uint16_t)t.line[r],
        .note = table_text(w, &t, r, "note"),
    };
    for (size_t i = 0; i < r; i++)
      if (out[i].id == out[r].id) tsv_fail(&t, r, "this id already stands in line %d", (int)out[i].row);
  }
  writer_section(w, IMG_FINDINGS, out, t.rows, sizeof *out);
}
