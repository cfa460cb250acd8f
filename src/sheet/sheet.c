#include "base/table.h"
#include "sheet/maker.h"

WORD_TABLE(sheet_paper_word, PAPER_COUNT, "a4", "letter");
WORD_TABLE(sheet_units_word, UNITS_COUNT, "metric", "us");

/* ---- the whole ------------------------------------------------------------------------------------------------- */

static const char *date_words(const struct sheet_style *style, struct arena *a) {
  static const char *const MONTH[] = {"January", "February", "March",     "April",   "May",      "June",
                                      "July",    "August",   "September", "October", "November", "December"};
  const struct date *d = &style->date;
  if (d->month < 1 || d->month > 12) return "";
  const char *month = MONTH[d->month - 1];
  return style->units == UNITS_US ? words_text(a, "%s %d, %d", month, d->day, d->year)
                                  : words_text(a, "%d %s %d", d->day, month, d->year);
}

const struct sheet *sheet_of(const struct sheet_facts *f, const struct sheet_style *style, struct arena *arena) {
  struct sheet *s = ARENA_NEW(arena, struct sheet, 1);
  const struct maker m = {.f = f, .r = f->check, .style = style, .s = s, .arena = arena};
  bool refused = f->check->animal && f->check->refusal != REFUSE_NOT;
  *s = (struct sheet){.style = *style};
  s->date = date_words(style, arena);
  make_head(&m);
  if (!refused) make_kitchen(&m);
  if (!refused) make_keeping(&m);
  make_findings(&m);
  if (sheet_judged(&m)) {
    make_nutrients(&m);
  } else {
    make_composition(&m);
  }
  make_supplies(&m);
  make_unknown(&m);
  make_sources(&m);
  return s;
}

/* ---- as plain text --------------------------------------------------------------------------------------------- */

static void write_piece(struct buf *out, const char *text) {
  if (text && text[0]) buf_addf(out, "%s\n", text);
}

static void write_table(const struct sheet_table *t, struct buf *out) {
  for (int c = 0; c < t->columns; c++)
    if (!t->column[c].rail) write_piece(out, t->column[c].title);
  for (size_t r = 0; r < t->rows; r++)
    for (int c = 0; c < (t->row[r].across ? 1 : t->columns); c++) {
      write_piece(out, t->row[r].cell[c].text);
      write_piece(out, t->row[r].cell[c].small);
    }
}

static void write_drawing(const struct drawing *d, struct buf *out) {
  for (size_t i = 0; i < d->count; i++)
    if (d->shape[i].kind == DRAWN_TEXT) write_piece(out, d->shape[i].text);
}

void sheet_text(const struct sheet *s, struct buf *out) {
  for (size_t i = 0; i < s->count; i++) {
    const struct sheet_block *b = &s->block[i];
    write_piece(out, b->text);
    for (size_t k = 0; k < COUNT_OF(b->more); k++) write_piece(out, b->more[k]);
    if (b->table) write_table(b->table, out);
    if (b->drawing) write_drawing(b->drawing, out);
  }
}
