#include "journal/journal_csv.h"

#include <math.h>

#include "base/num.h"
#include "journal/journal_parts.h"

/* ORDER COLUMN: NAME[]. */
enum column { COL_LINE, COL_DATE, COL_ANIMAL, COL_FACT, COL_CORRECTION, COL_SAID, COL_KG, COL_GRAMS, COL_REMARK, COLUMNS };
static const char *const NAME[COLUMNS] = {"line", "date", "animal", "fact", "correction", "said", "kg", "grams", "remark"};

/* ---- out --------------------------------------------------------------------------------------------------------- */

/* In quotes where RFC 4180 wants them, and where blanks at the ends would get lost. */
static void add_field(struct buf *out, struct span s, bool last) {
  bool quotes = s.n > 0 && (s.p[0] == ' ' || s.p[s.n - 1] == ' ' || s.p[0] == '\t' || s.p[s.n - 1] == '\t');
  for (size_t i = 0; i < s.n; i++) quotes = quotes || s.p[i] == ',' || s.p[i] == '"' || s.p[i] == '\r' || s.p[i] == '\n';
  if (quotes) buf_addc(out, '"');
  for (size_t i = 0; i < s.n; i++) {
    if (s.p[i] == '"') buf_addc(out, '"');
    buf_addc(out, s.p[i]);
  }
  if (quotes) buf_addc(out, '"');
  buf_adds(out, last ? "\r\n" : ",");
}

static void add_number(struct buf *out, double x) {
  if (!isnan(x)) num_sig(out, x, 9);
  buf_addc(out, ',');
}

static void add_row(struct buf *out, const struct journal *j, const struct journal_entry *e, struct span said, double kg,
                    double grams, bool first) {
  buf_addf(out, "%d,", e->line);
  add_field(out, e->is_fact ? span_cut(e->whole, 0, 10) : (struct span){"", 0}, false);
  add_field(out, e->is_fact ? span_of(j->name[e->animal]) : (struct span){"", 0}, false);
  add_field(out, e->is_fact ? span_of(journal_fact_word[e->fact]) : (struct span){"", 0}, false);
  buf_adds(out, e->correction ? "yes," : ",");
  add_field(out, said, false);
  add_number(out, kg);
  add_number(out, grams);
  add_field(out, first ? e->remark : (struct span){"", 0}, true);
}

void journal_csv_print(const struct journal *j, struct buf *out) {
  for (int c = 0; c < COLUMNS; c++) add_field(out, span_of(NAME[c]), c + 1 == COLUMNS);
  for (size_t i = 0; i < j->entry_count; i++) {
    const struct journal_entry *e = &j->entry[i];
    if (e->item_count == 0) add_row(out, j, e, e->is_fact ? e->said : e->whole, e->kg, e->left_g, true);
    for (size_t k = 0; k < e->item_count; k++) add_row(out, j, e, e->item[k].whole, NAN, e->item[k].grams, k == 0);
  }
}

/* ---- in ---------------------------------------------------------------------------------------------------------- */

struct csv {
  struct span rest;
  struct diags *d;
  struct arena *arena;
  bool ended; /* the row that was read last */
};

/* One field; quotes taken off, doubled ones made single. 'at' is where it stands. */
static bool next_field(struct csv *c, struct span *out, struct span *at) {
  struct buf b;
  size_t i = 0;
  *at = span_cut(c->rest, 0, 1);
  if (c->rest.n > 0 && c->rest.p[0] == '"') {
    buf_init(&b, c->arena, JOURNAL_MOST_BYTES);
    for (i = 1;; i++) {
      if (i >= c->rest.n) {
        diag_say(c->d, DIAG_ERROR, DIAG_NOT_UNDERSTOOD, *at,
                 "this field begins with a quotation mark and has none at its end; write '\"' after it");
        return false;
      }
      if (c->rest.p[i] == '"' && (i + 1 >= c->rest.n || c->rest.p[i + 1] != '"')) break;
      if (c->rest.p[i] == '"') i++;
      buf_addc(&b, c->rest.p[i]);
    }
    i++;
    *out = (struct span){buf_text(&b), b.n};
    if (i < c->rest.n && c->rest.p[i] != ',' && c->rest.p[i] != '\r' && c->rest.p[i] != '\n') {
      diag_say(c->d, DIAG_ERROR, DIAG_NOT_UNDERSTOOD, span_cut(c->rest, i, i + 1),
               "after a quoted field there must be a comma or the end of the line");
      return false;
    }
  } else {
    while (i < c->rest.n && c->rest.p[i] != ',' && c->rest.p[i] != '\n') i++;
    *out = span_cut(c->rest, 0, i > 0 && c->rest.p[i - 1] == '\r' && (i == c->rest.n || c->rest.p[i] == '\n') ? i - 1 : i);
    *at = span_cut(c->rest, 0, i > 0 ? i : 1);
  }
  if (i < c->rest.n && c->rest.p[i] == '\r') i++;
  c->ended = i >= c->rest.n || c->rest.p[i] == '\n';
  c->rest = span_cut(c->rest, i + 1, c->rest.n);
  return true;
}

struct csv_row {
  struct span field[COLUMNS], at[COLUMNS];
};

static bool read_head(struct csv *c, int column_of[], size_t *columns, size_t most) {
  bool known[COLUMNS] = {false};
  struct span whole = span_cut(c->rest, 0, 1);
  for (*columns = 0, c->ended = false; !c->ended && *columns < most; ++*columns) {
    struct span field, at;
    if (!next_field(c, &field, &at)) return false;
    column_of[*columns] = -1;
    for (int k = 0; k < COLUMNS; k++)
      if (span_is_fold(trim_blanks(field), NAME[k])) {
        column_of[*columns] = k;
        known[k] = true;
      }
  }
  if (known[COL_DATE] && known[COL_ANIMAL] && known[COL_FACT]) return true;
  diag_say(
      c->d, DIAG_ERROR, DIAG_EMPTY, whole,
      "the first row names the columns, with commas between them: date, animal and fact must be there, beside them line, "
      "correction, said, kg, grams and remark");
  return false;
}

static bool read_row(struct csv *c, const int column_of[], size_t columns, struct csv_row *out) {
  *out = (struct csv_row){.field = {{NULL, 0}}};
  c->ended = false;
  for (size_t i = 0; !c->ended; i++) {
    struct span field, at;
    if (!next_field(c, &field, &at)) return false;
    if (i >= columns && field.n > 0) {
      diag_say(c->d, DIAG_ERROR, DIAG_NOT_UNDERSTOOD, at, "this row has more fields than the first one names");
      return false;
    }
    if (i >= columns || column_of[i] < 0) continue;
    out->field[column_of[i]] = field;
    out->at[column_of[i]] = at;
  }
  return true;
}

/* A line end within a field would break the journal's line. */
static void add_flat(struct buf *text, struct span s) {
  for (size_t i = 0; i < s.n; i++) {
    if (s.p[i] == '\r' && i + 1 < s.n && s.p[i + 1] == '\n') continue;
    buf_addc(text, s.p[i] == '\n' ? ' ' : s.p[i]);
  }
}

static void add_said(const struct csv_row *r, struct buf *text) {
  struct span said = trim_blanks(r->field[COL_SAID]);
  if (said.n > 0) {
    buf_addc(text, ' ');
    add_flat(text, said);
    return;
  }
  const enum column figure = r->field[COL_KG].n > 0 ? COL_KG : COL_GRAMS;
  if (r->field[figure].n > 0) buf_addf(text, " %.*s %s", SPAN_ARG(r->field[figure]), figure == COL_KG ? "kg" : "g");
}

static bool is_yes(struct span s) {
  static const char *const YES[] = {"yes", "y", "true", "1", "x"};
  for (size_t i = 0; i < COUNT_OF(YES); i++)
    if (span_is_fold(trim_blanks(s), YES[i])) return true;
  return false;
}

static bool belongs_to(const struct csv_row *before, const struct csv_row *r) {
  return before->field[COL_LINE].n > 0 && span_eq(before->field[COL_LINE], r->field[COL_LINE]) && r->field[COL_FACT].n > 0 &&
         span_eq(before->field[COL_FACT], r->field[COL_FACT]);
}

static void begin_line(const struct csv_row *r, struct buf *text) {
  if (trim_blanks(r->field[COL_FACT]).n == 0) { /* a line that tells no fact */
    add_flat(text, r->field[COL_SAID]);
    return;
  }
  struct span fact = trim_blanks(r->field[COL_FACT]);
  buf_addf(text, "%.*s %.*s %s%.*s%s", SPAN_ARG(trim_blanks(r->field[COL_DATE])),
           SPAN_ARG(trim_blanks(r->field[COL_ANIMAL])), is_yes(r->field[COL_CORRECTION]) ? "correction: " : "",
           SPAN_ARG(fact), span_is_fold(fact, "note") ? ":" : "");
  add_said(r, text);
}

static void end_line(const struct csv_row *first, struct buf *text) {
  struct span remark = trim_blanks(first->field[COL_REMARK]);
  if (remark.n > 0) {
    buf_adds(text, remark.p[0] == '#' ? "  " : "  # ");
    add_flat(text, remark);
  }
  buf_addc(text, '\n');
}

/* Lines that end between the two. */
static int lines_between(const char *from, const char *to) {
  int n = 0;
  for (; (from = memchr(from, '\n', (size_t)(to - from))) != NULL; from++) n++;
  return n;
}

bool journal_csv_read(struct span csv, struct diags *d, struct buf *text, const int **row_line, struct arena *arena) {
  enum { MOST_COLUMNS = 64 };
  int column_of[MOST_COLUMNS];
  size_t columns, errors = d->errors;
  struct csv c = {.rest = csv, .d = d, .arena = arena};
  if (csv.n >= 3 && memcmp(csv.p, "\xEF\xBB\xBF", 3) == 0) c.rest = span_cut(csv, 3, csv.n);
  if (!read_head(&c, column_of, &columns, MOST_COLUMNS)) return false;
  struct csv_row r, first = {.field = {{NULL, 0}}};
  bool open = false;
  int *lines = NULL, line = 1;
  size_t count = 0, cap = 0;
  const char *before = csv.p;
  while (c.rest.n > 0) {
    line += lines_between(before, c.rest.p);
    before = c.rest.p;
    if (!read_row(&c, column_of, columns, &r)) return false;
    if (open && belongs_to(&first, &r)) {
      buf_addc(text, ';');
      add_said(&r, text);
      continue;
    }
    if (open) end_line(&first, text);
    begin_line(&r, text);
    ARENA_PUSH(arena, lines, count, cap, line);
    first = r;
    open = true;
  }
  if (row_line) *row_line = lines;
  if (open) end_line(&first, text);
  return d->errors == errors;
}
