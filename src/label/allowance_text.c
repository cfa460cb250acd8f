#include "label/allowance_text.h"
#include "base/table.h"

#include <math.h>

#include "base/num.h"
#include "foods/unit.h"
#include "text/headers.h"

enum { WORDS_MOST = 16, ROWS_MOST = 4000 };

struct row_reader {
  struct diags *d;
  const struct library *lib;
  const char *file;
  struct arena *arena;
  struct own_allowance *row;
  size_t count, cap;
};

struct words {
  struct span at[WORDS_MOST];
  int count;
};

static struct words words_of(struct span s) {
  struct words w = {.count = 0};
  for (size_t i = 0; i < s.n && w.count < WORDS_MOST;) {
    while (i < s.n && (s.p[i] == ' ' || s.p[i] == '\t')) i++;
    size_t from = i;
    while (i < s.n && s.p[i] != ' ' && s.p[i] != '\t') i++;
    if (i > from) w.at[w.count++] = span_cut(s, from, i);
  }
  return w;
}

/* From the first to the last of these words, with what stands between. */
static struct span run_of(const struct words *w, int from, int to) {
  if (from >= to) return (struct span){w->at[0].p, 0};
  const char *end = w->at[to - 1].p + w->at[to - 1].n;
  return (struct span){w->at[from].p, (size_t)(end - w->at[from].p)};
}

/* ---- words ------------------------------------------------------------------------------------------------------- */

static const struct {
  const char *word;
  enum allow_level level;
} LEVEL[] = {{"MR", LEVEL_MINIMUM},   {"minimum", LEVEL_MINIMUM},     {"AI", LEVEL_ADEQUATE},   {"adequate", LEVEL_ADEQUATE},
             {"RA", LEVEL_ALLOWANCE}, {"allowance", LEVEL_ALLOWANCE}, {"MIN", LEVEL_ALLOWANCE}, {"SUL", LEVEL_UPPER},
             {"MAX", LEVEL_UPPER},    {"upper", LEVEL_UPPER}};

const char *allowance_level_word(enum standard_id std, enum allow_level level) {
  static WORD_TABLE(OF_NRC, LEVEL_COUNT, "MR", "AI", "RA", "SUL");
  static WORD_TABLE(OF_OTHERS, LEVEL_COUNT, "minimum", "adequate", "MIN", "MAX");
  return std == STANDARD_NRC2006 ? OF_NRC[level] : OF_OTHERS[level];
}

static int level_at(const struct words *w) {
  for (int i = 3; i < w->count; i++)
    for (size_t k = 0; k < COUNT_OF(LEVEL); k++)
      if (span_is_fold(w->at[i], LEVEL[k].word)) return i;
  return -1;
}

static enum allow_level level_of(struct span word) {
  for (size_t k = 0; k < COUNT_OF(LEVEL); k++)
    if (span_is_fold(word, LEVEL[k].word)) return LEVEL[k].level;
  return LEVEL_COUNT;
}

static int word_in(struct span word, const char *const *list, int count) {
  for (int i = 0; i < count; i++)
    if (span_is_fold(word, list[i])) return i;
  return -1;
}

#define SAY(code, r, at, ...) diag_say((r)->d, DIAG_ERROR, DIAG_##code, (at), __VA_ARGS__)
static const char EXAMPLE[] = "nrc2006 dog zinc RA 2.0 mg/kg^0.75, p. 359";

/* ---- amount and basis -------------------------------------------------------------------------------------------- */

struct measure {
  enum allow_basis basis;
  double amount, at_kcal; /* in the nutrient's unit; NaN not said */
};

/* "mg/kg^0.75", "mg per kg^0.75", "g/1000 kcal": where the unit ends and where the basis begins. */
static bool split_basis(struct span s, struct span *unit, struct span *basis) {
  for (size_t i = 0; i < s.n; i++) {
    size_t skip = s.p[i] == '/' ? 1 : span_starts_fold(span_cut(s, i, s.n), " per ") ? strlen(" per ") : 0;
    if (skip == 0) continue;
    *unit = span_trim(span_cut(s, 0, i));
    *basis = span_trim(span_cut(s, i + skip, s.n));
    return true;
  }
  return false;
}

static bool is_metabolic(struct span basis, enum species species) {
  static const char *const OF_DOG[] = {"kg^0.75", "kg0.75", "kg BW^0.75", "metabolic kg"};
  static const char *const OF_CAT[] = {"kg^0.67", "kg0.67", "kg BW^0.67", "metabolic kg"};
  return word_in(basis, species == SPECIES_CAT ? OF_CAT : OF_DOG, (int)COUNT_OF(OF_DOG)) >= 0;
}

static bool is_thousand(struct span basis) {
  static const char *const WORDS[] = {"1000 kcal", "1000kcal", "1000 kcal ME", "Mcal"};
  return word_in(basis, WORDS, (int)COUNT_OF(WORDS)) >= 0;
}

/* The energy that the standard ties its figures per 1000 kcal to, where it ties all of them to one. */
static double usual_kcal(const struct library *lib, enum standard_id std, enum species species) {
  const struct img_allowance *row = IMG_ROWS(&lib->image, IMG_ALLOWANCES, struct img_allowance);
  double found = NAN;
  for (size_t i = 0; i < img_count(&lib->image, IMG_ALLOWANCES); i++) {
    if (row[i].standard != std || row[i].species != species || row[i].basis != PER_1000KCAL) continue;
    double at = row[i].at_kcal;
    if (isnan(at)) continue;
    if (!isnan(found) && found != at) return NAN;
    found = at;
  }
  return found;
}

/* "... at 110 kcal" is taken off the end. */
static bool read_at_kcal(struct row_reader *r, const struct words *w, int *end, double *at_kcal) {
  if (*end < 4 || !span_is_fold(w->at[*end - 3], "at") || !span_is_fold(w->at[*end - 1], "kcal")) return true;
  if (!num_parse(w->at[*end - 2], at_kcal) || !(*at_kcal > 0)) {
    SAY(NUMBER, r, w->at[*end - 2], "'%.*s' is not an energy; write it as in 'at 110 kcal'",
        SPAN_ARG(quoted(w->at[*end - 2])));
    return false;
  }
  *end -= 3;
  return true;
}

static bool read_measure(struct row_reader *r, const struct words *w, int from, int end, const struct img_allowance *row,
                         struct measure *m) {
  struct span unit, basis, rest = run_of(w, from + 1, end), figure = w->at[from];
  double x;
  if (figure.n > 1 && figure.p[0] == '>') figure = span_cut(figure, 1, figure.n);
  if (!num_parse(figure, &x) || !(x >= 0)) {
    SAY(NUMBER, r, figure, "'%.*s' is not an amount; write the row as in '%s'", SPAN_ARG(quoted(figure)), EXAMPLE);
    return false;
  }
  if (!split_basis(rest, &unit, &basis)) {
    SAY(UNIT, r, rest.n ? rest : figure, "per what? Write 'mg/kg^0.75' (cats: kg^0.67) or 'mg/1000 kcal'");
    return false;
  }
  m->basis = is_metabolic(basis, (enum species)row->species) ? PER_METABOLIC_KG : PER_1000KCAL;
  if (m->basis == PER_1000KCAL && !is_thousand(basis)) {
    SAY(UNIT, r, basis, "'%.*s' is not a basis for a %s; write '%s' or '1000 kcal'", SPAN_ARG(quoted(basis)),
        species_word[row->species], row->species == SPECIES_CAT ? "kg^0.67" : "kg^0.75");
    return false;
  }
  m->amount = unit_nutrient_amount(x, unit_by_word(unit), (enum nutrient)row->nutrient, true);
  if (!(m->amount >= 0)) {
    SAY(UNIT, r, unit, "'%.*s' does not fit %s", SPAN_ARG(quoted(unit)), nutrient_info[row->nutrient].name);
    return false;
  }
  return true;
}

/* ---- one row ----------------------------------------------------------------------------------------------------- */

static bool read_subject(struct row_reader *r, const struct words *w, int level, struct img_allowance *row) {
  int std = word_in(w->at[0], standard_key, STANDARD_COUNT), species = word_in(w->at[1], species_word, SPECIES_COUNT);
  struct span words = run_of(w, 2, level);
  enum nutrient n = nutrient_by_key(words);
  if (n == NUT_NONE) n = nutrient_by_name(words);
  if (std < 0) value_words(r->d, w->at[0], "a standard", standard_key, STANDARD_COUNT);
  if (species < 0) SAY(UNKNOWN_WORD, r, w->at[1], "'%.*s' is neither dog nor cat", SPAN_ARG(quoted(w->at[1])));
  if (n == NUT_NONE) SAY(UNKNOWN_WORD, r, words, "'%.*s' is not a nutrient", SPAN_ARG(quoted(words)));
  if (std < 0 || species < 0 || n == NUT_NONE) return false;
  row->standard = (uint8_t)std;
  row->species = (uint8_t)species;
  row->nutrient = (uint8_t)n;
  row->level = (uint8_t)level_of(w->at[level]);
  return true;
}

static bool same_figure(const struct img_allowance *a, const struct img_allowance *b) {
  bool same_column = isnan(a->at_kcal) ? isnan(b->at_kcal) : a->at_kcal == b->at_kcal;
  return a->standard == b->standard && a->species == b->species && a->nutrient == b->nutrient && a->level == b->level &&
         a->basis == b->basis && same_column;
}

static void keep(struct row_reader *r, struct span line, struct img_allowance row, struct span printed, struct span place) {
  for (size_t i = 0; i < r->count; i++) {
    if (!same_figure(&r->row[i].row, &row)) continue;
    SAY(TWICE, r, line, "the same figure is in line %d", (int)r->row[i].row.row);
    return;
  }
  struct buf b;
  buf_init(&b, r->arena, 400);
  buf_addf(&b, "%s, line %d", r->file, (int)row.row);
  if (place.n > 0) buf_addf(&b, ", %.*s", SPAN_ARG(place));
  struct own_allowance own = {row, arena_text(r->arena, printed), arena_text(r->arena, span_of(buf_text(&b)))};
  ARENA_PUSH(r->arena, r->row, r->count, r->cap, own);
}

static void read_row(struct row_reader *r, struct span line, int number) {
  const char *comma = memchr(line.p, ',', line.n);
  struct span left = comma ? span_cut(line, 0, (size_t)(comma - line.p)) : line;
  struct span place = comma ? span_trim(span_cut(line, left.n + 1, line.n)) : (struct span){line.p, 0};
  struct words w = words_of(left);
  int level = level_at(&w), end = w.count;
  struct img_allowance row = {.row = (uint16_t)number, .confidence = CONF_CONFIRMED, .at_kcal = NAN};
  struct measure m = {PER_1000KCAL, NAN, NAN};
  double at_kcal = NAN;
  if (level < 0 || level + 1 >= w.count) {
    SAY(NOT_UNDERSTOOD, r, left, "this row is not understood; write it as in '%s'", EXAMPLE);
    return;
  }
  if (!read_subject(r, &w, level, &row)) return;
  if (span_is_fold(w.at[end - 1], "cautious")) {
    row.cautious = 1;
    end--;
  }
  if (!read_at_kcal(r, &w, &end, &at_kcal) || !read_measure(r, &w, level + 1, end, &row, &m)) return;
  row.basis = (uint8_t)m.basis;
  row.amount = (float)m.amount;
  row.greater_than = w.at[level + 1].p[0] == '>';
  if (m.basis == PER_1000KCAL)
    row.at_kcal =
        (float)(isnan(at_kcal) ? usual_kcal(r->lib, (enum standard_id)row.standard, (enum species)row.species) : at_kcal);
  keep(r, line, row, run_of(&w, level + 1, end), place);
}

bool allowances_read(struct span text, const char *file, const struct library *lib, struct diags *d,
                     struct own_allowance **rows, size_t *count, struct arena *arena) {
  struct row_reader r = {.d = d, .lib = lib, .file = file, .arena = arena};
  struct span rest = text;
  for (int number = 1; rest.n > 0; number++) {
    struct span line = span_trim(without_comment(span_piece(&rest, '\n')));
    if (number > ROWS_MOST) {
      SAY(LIMIT, &r, line, "more than %d lines", ROWS_MOST);
      break;
    }
    if (line.n > 0) read_row(&r, line, number);
  }
  if (r.count == 0 && d->errors == 0)
    SAY(EMPTY, &r, span_cut(text, 0, 0), "there is no row in it; write one as in '%s'", EXAMPLE);
  *rows = r.row;
  *count = r.count;
  return d->errors == 0;
}

/* ---- writing ------------------------------------------------------------------------------------------------------ */

static void write_row(const struct library *lib, const struct img_allowance *row, struct buf *out) {
  const char *printed = library_allowance_printed(lib, row), *per = strstr(printed, " per ");
  const char *place = library_allowance_place(lib, row);
  buf_addf(out, "%s %s %s %s %s", standard_key[row->standard], species_word[row->species], nutrient_info[row->nutrient].key,
           allowance_level_word((enum standard_id)row->standard, (enum allow_level)row->level),
           row->greater_than && printed[0] != '>' ? ">" : "");
  if (per) {
    buf_addf(out, "%.*s/%s", (int)(per - printed), printed, per + strlen(" per "));
  } else {
    buf_adds(out, printed);
  }
  if (row->basis == PER_1000KCAL && !isnan(row->at_kcal)) {
    buf_adds(out, " at ");
    num_sig(out, (double)row->at_kcal, 4);
    buf_adds(out, " kcal");
  }
  if (row->cautious) buf_adds(out, " cautious");
  buf_addf(out, "  # %s", row->confidence < CONF_COUNT ? confidence_word[row->confidence] : "");
  buf_addf(out, ", %s\n", place ? place : lib_str(lib, library_source(lib, row->source)->title));
}

void allowances_write(const struct library *lib, enum standard_id std, enum species species, struct buf *out) {
  buf_addf(out,
           "# %s, %s: every figure that is used here. Correct a row from the book, put its page after a comma\n"
           "# (\"..., p. 359\"), delete the rest, and give the file along with your next question.\n"
           "# confirmed: read in the source; converted: read on another basis; memory: recalled.\n",
           standard_name[std], species_word[species]);
  for (size_t i = 0; i < library_allowance_count(lib); i++) {
    const struct img_allowance *row = library_allowance(lib, i);
    if (row && row->standard == std && row->species == species) write_row(lib, row, out);
  }
}
