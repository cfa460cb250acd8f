/* What an animal needs: allowances, windows, energy equations, single figures. */
#include <math.h>
#include <stdlib.h>

#include "base/table.h"
#include "foods/unit.h"
#include "judge/animal.h"
#include "library/tables.h"

/* ---- allowances --------------------------------------------------------------------------------------------- */

static WORD_TABLE(LEVEL_WORD, LEVEL_COUNT, "minimum", "adequate", "allowance", "upper");
static WORD_TABLE(BASIS_WORD, ALLOW_BASIS_COUNT, "per_1000kcal", "per_metabolic_kg");

/* The IU of the standards is one of activity, so the natural form's milligrams stand for it: 1 IU = 0.67 mg. */
static double in_core_unit(const struct tsv *t, size_t row, enum nutrient n) {
  struct span word = tsv_cell(t, row, "unit");
  double x = unit_nutrient_amount(table_figure(t, row, "amount", 0), unit_by_word(word), n, true);
  if (!(x >= 0)) tsv_fail(t, row, "unit '%.*s' does not fit %s", SPAN_ARG(word), nutrient_info[n].key);
  return x;
}

/* "18 mg per 1000 kcal", "2.0 mg per kg^0.75", as the standard has it. */
static img_text printed(struct writer *w, const struct tsv *t, size_t row, enum allow_basis basis, uint8_t species) {
  struct buf b;
  buf_init(&b, w->arena, 200);
  struct span amount = tsv_cell(t, row, "amount"), unit = tsv_cell(t, row, "unit");
  const char *per = basis == PER_1000KCAL ? "1000 kcal" : species == SPECIES_CAT ? "kg^0.67" : "kg^0.75";
  buf_addf(&b, "%.*s %.*s per %s", SPAN_ARG(amount), SPAN_ARG(unit), per);
  return writer_text(w, buf_span(&b));
}

static struct img_allowance read_allowance(struct writer *w, const struct tsv *t, size_t row) {
  uint8_t species = table_species(t, row);
  if (species >= SPECIES_COUNT) tsv_fail(t, row, "a figure of a standard is for one species");
  enum nutrient n = table_nutrient(t, row, "nutrient");
  if (table_yes(t, row, "cautious", false) && tsv_cell(t, row, "note").n == 0)
    tsv_fail(t, row, "a cautious figure needs its reason in 'note'");
  enum allow_basis basis = (enum allow_basis)tsv_word(t, row, "basis", BASIS_WORD, COUNT_OF(BASIS_WORD));
  return (struct img_allowance){
      .standard = (uint8_t)tsv_word(t, row, "standard", standard_key, STANDARD_COUNT),
      .species = species,
      .nutrient = (uint8_t)n,
      .level = (uint8_t)tsv_word(t, row, "level", LEVEL_WORD, LEVEL_COUNT),
      .basis = (uint8_t)basis,
      .confidence = table_confidence(t, row),
      .greater_than = table_yes(t, row, "greater_than", false),
      .cautious = table_yes(t, row, "cautious", false),
      .amount = (float)in_core_unit(t, row, n),
      .at_kcal = (float)tsv_number(t, row, "at_kcal"),
      .source = source_index(t, row, "source"),
      .row = (uint16_t)t->line[row],
      .printed = printed(w, t, row, basis, species),
      .note = table_text(w, t, row, "note"),
  };
}

static bool same_figure(const struct img_allowance *a, const struct img_allowance *b) {
  bool same_column = isnan(a->at_kcal) ? isnan(b->at_kcal) : a->at_kcal == b->at_kcal;
  return a->standard == b->standard && a->species == b->species && a->nutrient == b->nutrient && a->level == b->level &&
         a->basis == b->basis && same_column;
}

void build_allowances(struct writer *w, const char *data_dir) {
  static const char *const COLUMNS[] = {"standard", "species",    "nutrient", "level",        "basis",
                                        "at_kcal",  "amount",     "unit",     "greater_than", "cautious",
                                        "use",      "confidence", "source",   "note",         NULL};
  struct tsv t;
  table_open(&t, w, data_dir, "allowances.tsv", COLUMNS);
  struct img_allowance *out = ARENA_NEW(w->arena, struct img_allowance, t.rows);
  size_t count = 0;
  for (size_t r = 0; r < t.rows; r++) {
    if (!table_yes(&t, r, "use", true)) continue;
    out[count] = read_allowance(w, &t, r);
    for (size_t i = 0; i < count; i++)
      if (same_figure(&out[i], &out[count])) tsv_fail(&t, r, "the same figure stands in line %d", (int)out[i].row);
    count++;
  }
  writer_section(w, IMG_ALLOWANCES, out, count, sizeof *out);
}

/* ---- windows ------------------------------------------------------------------------------------------------- */

void build_windows(struct writer *w, const char *data_dir) {
  static const char *const COLUMNS[] = {"nutrient", "species", "days", "highest_day", "confidence", "source", "note", NULL};
  struct tsv t;
  table_open(&t, w, data_dir, "windows.tsv", COLUMNS);
  struct img_window *out = ARENA_NEW(w->arena, struct img_window, t.rows);
  for (size_t r = 0; r < t.rows; r++) {
    double days = table_figure(&t, r, "days", 1);
    if (!(days <= 28)) tsv_fail(&t, r, "a window is at most 28 days, the length of the calendar");
    out[r] = (struct img_window){.species = table_species(&t, r),
                                 .nutrient = (uint8_t)table_nutrient(&t, r, "nutrient"),
                                 .days = (uint8_t)days,
                                 .highest_day = table_yes(&t, r, "highest_day", false),
                                 .confidence = table_confidence(&t, r),
                                 .source = source_index(&t, r, "source"),
                                 .row = (uint16_t)t.line[r],
                                 .note = table_text(w, &t, r, "note")};
  }
  writer_section(w, IMG_WINDOWS, out, t.rows, sizeof *out);
}

/* ---- energy -------------------------------------------------------------------------------------------------- */

enum { ANY_ACTIVITY = 0xff, EITHER = 2 };

static uint8_t read_activity(const struct tsv *t, size_t row) {
  if (tsv_cell(t, row, "activity").n == 0) return ANY_ACTIVITY;
  return (uint8_t)tsv_word(t, row, "activity", activity_word, ACTIVITY_COUNT);
}

static uint8_t read_neutered(const struct tsv *t, size_t row) {
  static const char *const WORDS[] = {"no", "yes"};
  return tsv_cell(t, row, "neutered").n == 0 ? EITHER : (uint8_t)tsv_word(t, row, "neutered", WORDS, COUNT_OF(WORDS));
}

void build_energy(struct writer *w, const char *data_dir) {
  static const char *const COLUMNS[] = {"key",  "species",  "activity", "neutered",   "age_from", "age_to", "factor", "low",
                                        "high", "exponent", "words",    "confidence", "source",   "note",   NULL};
  struct tsv t;
  table_open(&t, w, data_dir, "energy.tsv", COLUMNS);
  struct img_energy *out = ARENA_NEW(w->arena, struct img_energy, t.rows);
  for (size_t r = 0; r < t.rows; r++) {
    out[r] = (struct img_energy){.key = table_text(w, &t, r, "key"),
                                 .words = table_text(w, &t, r, "words"),
                                 .species = table_species(&t, r),
                                 .activity = read_activity(&t, r),
                                 .neutered = read_neutered(&t, r),
                                 .confidence = table_confidence(&t, r),
                                 .factor = (float)table_figure(&t, r, "factor", 1),
                                 .low = (float)tsv_number(&t, r, "low"),
                                 .high = (float)tsv_number(&t, r, "high"),
                                 .exponent = (float)table_figure(&t, r, "exponent", 0.1),
                                 .age_from = (float)tsv_number(&t, r, "age_from"),
                                 .age_to = (float)tsv_number(&t, r, "age_to"),
                                 .source = source_index(&t, r, "source"),
                                 .row = (uint16_t)t.line[r],
                                 .note = table_text(w, &t, r, "note")};
    if (out[r].low > out[r].factor || out[r].high < out[r].factor) tsv_fail(&t, r, "the range does not hold the factor");
  }
  writer_section(w, IMG_ENERGY, out, t.rows, sizeof *out);
}

/* ---- single figures ------------------------------------------------------------------------------------------ */

/* They are looked up a hundred thousand times: by halving. */
struct keyed_constant {
  const char *key;
  struct img_constant row;
};

static int by_key(const void *a, const void *b) {
  const struct keyed_constant *x = a, *y = b;
  int order = strcmp(x->key, y->key);
  return order != 0 ? order : x->row.species - y->row.species;
}

void build_constants(struct writer *w, const char *data_dir) {
  static const char *const COLUMNS[] = {"key",  "species",    "value",  "low",  "high",
                                        "unit", "confidence", "source", "note", NULL};
  struct tsv t;
  table_open(&t, w, data_dir, "constants.tsv", COLUMNS);
  struct img_constant *out = ARENA_NEW(w->arena, struct img_constant, t.rows);
  for (size_t r = 0; r < t.rows; r++) {
    out[r] = (struct img_constant){.key = table_text(w, &t, r, "key"),
                                   .species = table_species(&t, r),
                                   .confidence = table_confidence(&t, r),
                                   .source = source_index(&t, r, "source"),
                                   .value = (float)table_figure(&t, r, "value", 0),
                                   .low = (float)tsv_number(&t, r, "low"),
                                   .high = (float)tsv_number(&t, r, "high"),
                                   .row = (uint32_t)t.line[r],
                                   .unit = table_text(w, &t, r, "unit"),
                                   .note = table_text(w, &t, r, "note")};
    for (size_t i = 0; i < r; i++) /* equal texts are stored once */
      if (out[i].key == out[r].key &&
          (out[i].species == out[r].species || out[i].species == SPECIES_BOTH || out[r].species == SPECIES_BOTH))
        tsv_fail(&t, r, "this key already stands in line %u for that species", (unsigned)out[i].row);
  }
  struct keyed_constant *sorted = ARENA_NEW(w->arena, struct keyed_constant, t.rows);
  for (size_t r = 0; r < t.rows; r++)
    sorted[r] = (struct keyed_constant){arena_text(w->arena, tsv_cell(&t, r, "key")), out[r]};
  qsort(sorted, t.rows, sizeof *sorted, by_key);
  for (size_t r = 0; r < t.rows; r++) out[r] = sorted[r].row;
  writer_section(w, IMG_CONSTANTS, out, t.rows, sizeof *out);
}
