/* What the parts of a sheet share: blocks, safe texts, figures. */
#include "sheet/maker.h"

#include <math.h>

#include "base/num.h"
#include "base/utf8.h"
#include "foods/unit.h"

bool sheet_judged(const struct maker *m) { return m->r->animal && m->r->refusal == REFUSE_NOT; }

/* ---- texts ----------------------------------------------------------------------------------------------------- */

/* Controls, and the marks that turn the direction of everything behind them. */
static bool may_stand(uint32_t c) {
  if (c < 0x20 || (c >= 0x7F && c <= 0x9F)) return false;
  if (c >= 0x202A && c <= 0x202E) return false;
  return !(c >= 0xFDD0 && c <= 0xFDEF) && (c & 0xFFFE) != 0xFFFE;
}

static bool runs_leftward(const char *text) {
  for (struct span s = span_of(text); s.n > 0;) {
    uint32_t c;
    size_t n = utf8_read(s, &c);
    if (n == 0)
      n = 1;
    else if ((c >= 0x590 && c <= 0x8FF) || (c >= 0xFB1D && c <= 0xFDFF) || (c >= 0xFE70 && c <= 0xFEFF) ||
             (c >= 0x10800 && c <= 0x10FFF) || (c >= 0x1E800 && c <= 0x1EFFF))
      return true;
    s = span_cut(s, n, s.n);
  }
  return false;
}

static void add_clean(struct buf *b, struct span s) {
  while (s.n > 0) {
    uint32_t c;
    size_t n = utf8_read(s, &c);
    if (n == 0) {
      buf_adds(b, "\xEF\xBF\xBD");
      n = 1;
    } else if (c == '\t' || c == '\n' || c == 0x2028 || c == 0x2029) {
      buf_addc(b, ' ');
    } else if (may_stand(c)) {
      buf_add(b, span_cut(s, 0, n));
    }
    s = span_cut(s, n, s.n);
  }
}

/* A name from right to left among words from left to right stands within isolates (U+2068, U+2069). */
static struct span name_at(struct span text, const char *const *name, size_t names) {
  for (size_t i = 0; i < names; i++) {
    size_t n = name[i] ? strlen(name[i]) : 0;
    if (n > 0 && n < text.n && memcmp(text.p, name[i], n) == 0) return span_cut(text, 0, n);
  }
  return (struct span){NULL, 0};
}

const char *clean(const struct maker *m, const char *text) {
  const char *name[2];
  size_t names = 0;
  struct buf b;
  const char *const known[] = {m->r->animal ? m->r->animal->name : NULL, m->r->ration->name};
  for (size_t i = 0; i < COUNT_OF(known); i++)
    if (known[i] && known[i][0] && runs_leftward(known[i])) name[names++] = known[i];
  buf_init(&b, m->arena, 1 << 20);
  struct span s = span_of(text ? text : "");
  for (size_t from = 0; names > 0 && from < s.n;) {
    struct span hit = name_at(span_cut(s, from, s.n), name, names);
    if (hit.n == 0) {
      from++;
      continue;
    }
    add_clean(&b, span_cut(s, 0, from));
    buf_adds(&b, "\xE2\x81\xA8");
    add_clean(&b, hit);
    buf_adds(&b, "\xE2\x81\xA9");
    s = span_cut(s, from + hit.n, s.n);
    from = 0;
  }
  add_clean(&b, s);
  return buf_text(&b);
}

/* ---- blocks ---------------------------------------------------------------------------------------------------- */

static void add(const struct maker *m, struct sheet_block b) {
  b.text = clean(m, b.text);
  for (size_t i = 0; i < COUNT_OF(b.more); i++) b.more[i] = clean(m, b.more[i]);
  ARENA_PUSH(m->arena, m->s->block, m->s->count, m->s->cap, b);
}

void add_heading(const struct maker *m, const char *text) {
  add(m, (struct sheet_block){.kind = SHEET_HEADING, .text = text});
}

void add_paragraph(const struct maker *m, enum sheet_tone tone, const char *text) {
  struct span t = span_trim(span_of(text));
  if (t.n > 0) add(m, (struct sheet_block){.kind = SHEET_PARAGRAPH, .tone = tone, .text = arena_text(m->arena, t)});
}

void add_point(const struct maker *m, const char *text) {
  if (text && text[0]) add(m, (struct sheet_block){.kind = SHEET_POINT, .text = text});
}

void add_box(const struct maker *m, enum sheet_tone tone, const char *text, const char *why, const char *remedy) {
  add(m, (struct sheet_block){.kind = SHEET_BOX, .tone = tone, .text = text, .more = {why, remedy}});
}

void add_picture(const struct maker *m, const struct drawing *d) {
  if (d) add(m, (struct sheet_block){.kind = SHEET_PICTURE, .drawing = d});
}

struct sheet_table *add_table(const struct maker *m, const char *caption, const struct sheet_column *column, int columns) {
  struct sheet_table *t = ARENA_NEW(m->arena, struct sheet_table, 1);
  *t = (struct sheet_table){.caption = caption, .column = column, .columns = columns, .names_first = true};
  add(m, (struct sheet_block){.kind = SHEET_TABLE, .table = t});
  return t;
}

struct sheet_cell *add_row(const struct maker *m, struct sheet_table *t) {
  struct sheet_cell *cell = ARENA_NEW(m->arena, struct sheet_cell, (size_t)t->columns);
  for (int i = 0; i < t->columns; i++) cell[i] = (struct sheet_cell){"", "", NULL};
  struct sheet_row row = {.cell = cell};
  ARENA_PUSH(m->arena, t->row, t->rows, t->cap, row);
  return cell;
}

void add_row_across(const struct maker *m, struct sheet_table *t, const char *text) {
  add_row(m, t)[0].text = text;
  t->row[t->rows - 1].across = true;
}

/* ---- figures --------------------------------------------------------------------------------------------------- */

/* Below half an ounce a scale in ounces shows too little: grams stay. */
static const double OUNCES_FROM_G = 14;
enum { OUNCES_IN_POUND = 16 };

static double ounces(double grams) { return grams / unit_convert(1, UNIT_OZ); }

static const char *fixed(const struct maker *m, double x, int decimals) {
  struct buf b;
  buf_init(&b, m->arena, 60);
  num_fixed(&b, x, decimals);
  while (decimals > 0 && b.n > 2 && b.p[b.n - 1] == '0') b.p[--b.n] = '\0';
  if (b.n > 1 && b.p[b.n - 1] == '.') b.p[--b.n] = '\0';
  return buf_text(&b);
}

/* In tenths of an ounce. */
static const char *pounds(const struct maker *m, double tenths) {
  double lb = floor(tenths / (10 * OUNCES_IN_POUND)), oz = (tenths - lb * 10 * OUNCES_IN_POUND) / 10;
  if (lb == 0) return words_text(m->arena, "%s oz", fixed(m, oz, 1));
  if (oz == 0) return words_text(m->arena, "%s lb", fixed(m, lb, 0));
  return words_text(m->arena, "%s lb %s oz", fixed(m, lb, 0), fixed(m, oz, 1));
}

const char *mass(const struct maker *m, double grams) {
  if (m->style->units == UNITS_METRIC || !(grams >= OUNCES_FROM_G)) return words_mass(m->arena, grams);
  return pounds(m, floor(ounces(grams) * 10 + 0.5));
}

const char *shop_mass(const struct maker *m, double grams) {
  if (m->style->units == UNITS_US && grams >= OUNCES_FROM_G) {
    double step = grams < 120 ? 1 : grams < 2000 ? 5 : 10; /* tenths */
    return pounds(m, ceil(ounces(grams) * 10 / step - 1e-9) * step);
  }
  double g = grams < 0.1 ? grams : kitchen_shop_g(grams);
  if (g >= 1000) return words_text(m->arena, "%s kg", fixed(m, g / 1000, 2));
  return words_mass(m->arena, g);
}

const char *volume(const struct maker *m, double ml) {
  if (!isfinite(ml)) return NOT_KNOWN_WORDS;
  if (m->style->units == UNITS_US)
    return words_text(m->arena, "%s fl oz", fixed(m, ceil(ml / unit_convert(1, UNIT_FL_OZ)), 0));
  return ml >= 1000 ? words_text(m->arena, "%s l", fixed(m, ml / 1000, 2)) : words_text(m->arena, "%s ml", fixed(m, ml, 0));
}

const char *money(const struct maker *m, double x) { return words_money(m->arena, m->f->kitchen->currency, x); }

const char *count_words(const struct maker *m, double x) {
  static const char *const TWELFTH[12] = {"", NULL, NULL, "1/4", "1/3", NULL, "1/2", NULL, "2/3", "3/4", NULL, NULL};
  double twelfths = floor(x * 12 + 0.5);
  int whole = (int)(fmin(twelfths, 1e6) / 12), part = (int)fmod(twelfths, 12);
  bool near = fabs(twelfths / 12 - x) <= 0.02 * x && twelfths > 0 && x < 100;
  if (!near || !TWELFTH[part]) return words_number(m->arena, x);
  if (part == 0) return words_text(m->arena, "%d", whole);
  return whole > 0 ? words_text(m->arena, "%d %s", whole, TWELFTH[part]) : TWELFTH[part];
}

const char *days_words(const struct maker *m, double low, double high, const char *one, const char *many) {
  if (!(high > 0)) return NOT_KNOWN_WORDS;
  if (low == high || !(low > 0)) return words_text(m->arena, "%s %s", fixed(m, high, 1), high == 1 ? one : many);
  return words_text(m->arena, "%s to %s %s", fixed(m, low, 1), fixed(m, high, 1), many);
}
