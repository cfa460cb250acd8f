/* A table: columns as wide as what stands in them asks for, one strip a row. */
#include <math.h>

#include "paper/strip.h"
#include "picture/rail.h"

static const double SMALL = 0.86, GAP = 0.9, ABOVE = 0.22, TIGHTEST = 0.55; /* of the letters */
static const double RAIL_LEAST = 84, RAIL_MOST = 150;
static const double LONG_WORD = 110; /* longer ones are broken */
enum { COLUMNS_MOST = 12 };

struct grid {
  struct setting *t;
  const struct sheet_table *table;
  double size; /* of the letters */
  double x[COLUMNS_MOST], w[COLUMNS_MOST];
};

/* ---- how wide --------------------------------------------------------------------------------------------------- */

struct wish {
  double least, whole; /* without a broken word; in one line */
};

/* Blanks at which a line may break. */
static bool is_blank(char c) { return c == ' '; }

static void widen(struct grid *g, struct wish *w, const char *text, double size, enum face face) {
  if (!text || !text[0]) return;
  PangoLayout *l = set_words(g->t, text, size, face, 0, false);
  w->whole = fmax(w->whole, words_width(l));
  for (const char *p = text; *p;) {
    size_t n = 0;
    while (p[n] && !is_blank(p[n])) n++;
    pango_layout_set_text(l, p, (int)n);
    if (n > 0) w->least = fmax(w->least, fmin(words_width(l), LONG_WORD));
    p += n;
    while (is_blank(*p)) p++;
  }
  g_object_unref(l);
}

/* A figure and its unit stay in one line. */
static double figure_width(struct grid *g, int c) {
  double wide = 0;
  for (size_t r = 0; r < g->table->rows; r++) {
    const struct sheet_row *row = &g->table->row[r];
    if (row->across || !row->cell[c].text[0]) continue;
    PangoLayout *l = set_words(g->t, row->cell[c].text, g->size, row->strong ? FACE_BOLD : FACE_PLAIN, 0, false);
    wide = fmax(wide, words_width(l));
    g_object_unref(l);
  }
  return wide;
}

static struct wish wish_of(struct grid *g, int c) {
  const struct sheet_table *t = g->table;
  struct wish w = {0, 0};
  int unknown = g->t->unknown_letters; /* counted when they are set */
  if (t->column[c].rail) return (struct wish){RAIL_LEAST, RAIL_MOST};
  widen(g, &w, t->column[c].title, g->size * SMALL, FACE_BOLD);
  for (size_t r = 0; r < t->rows; r++) {
    if (t->row[r].across) continue;
    widen(g, &w, t->row[r].cell[c].text, g->size, t->row[r].strong ? FACE_BOLD : FACE_PLAIN);
    widen(g, &w, t->row[r].cell[c].small, g->size * SMALL, FACE_PLAIN);
  }
  g->t->unknown_letters = unknown;
  if (t->column[c].figures) w.least = fmax(w.least, fmin(figure_width(g, c), LONG_WORD));
  w.least = ceil(w.least) + 1;
  w.whole = fmax(ceil(w.whole) + 1, w.least);
  return w;
}

/* False when even the longest words do not fit beside each other. */
static bool divide(struct grid *g) {
  struct wish wish[COLUMNS_MOST];
  double least = 0, more = 0, gap = GAP * g->size, at = 0;
  int columns = g->table->columns;
  for (int c = 0; c < columns; c++) {
    wish[c] = wish_of(g, c);
    least += wish[c].least;
    more += wish[c].whole - wish[c].least;
  }
  double room = g->t->width - gap * (columns - 1) - least;
  if (room < 0 && g->size > TIGHTEST * g->t->letter) return false;
  for (int c = 0; c < columns; c++) {
    double grow = wish[c].whole - wish[c].least;
    g->w[c] = wish[c].least + (room < more ? (more > 0 ? grow / more * fmax(room, 0) : 0) : grow);
    if (room > more) g->w[c] += (room - more) * g->table->column[c].share;
    if (room < 0) g->w[c] += room * wish[c].least / least;
    g->x[c] = at;
    at += g->w[c] + gap;
  }
  return true;
}

/* ---- rows ------------------------------------------------------------------------------------------------------- */

static double put(struct grid *g, struct strip *s, int c, double y, const char *text, double size, enum face face,
                  enum paint paint, const char *tag) {
  if (!text || !text[0]) return 0;
  PangoLayout *l = set_words(g->t, text, size, face, g->w[c], g->table->column[c].figures);
  if (c == 0 && g->table->names_first && tag[1] == 'H') run_as_it_does(l);
  add_item(g->t, s, (struct item){.kind = ITEM_TEXT, .x = g->x[c], .y = y, .layout = l, .paint = paint, .tag = tag});
  return words_height(l);
}

static double put_cell(struct grid *g, struct strip *s, int c, const struct sheet_cell *cell, enum face face) {
  double y = ABOVE * g->size;
  const char *tag = c == 0 && g->table->names_first ? "TH" : "TD";
  if (cell->drawing) {
    double height = cell->drawing->height * g->w[c] / cell->drawing->width;
    add_item(g->t, s,
             (struct item){.kind = ITEM_DRAWING, .x = g->x[c], .y = y, .w = g->w[c], .drawing = cell->drawing, .tag = "TD"});
    return y + height;
  }
  y += put(g, s, c, y, cell->text, g->size, face, PAINT_INK, tag);
  y += put(g, s, c, y, cell->small, g->size * SMALL, FACE_PLAIN, PAINT_DIM, tag);
  return y;
}

static void rule(struct grid *g, struct strip *s, enum paint paint, double thick, double y) {
  add_item(g->t, s,
           (struct item){.kind = ITEM_RULE, .x = 0, .y = y, .w = g->t->width, .h = y, .thick = thick, .paint = paint});
}

static struct strip row_strip(struct grid *g) {
  return (struct strip){.tag = "TR", .outer = "Table", .group = g->t->groups, .element = ++g->t->elements};
}

static struct strip head_of(struct grid *g) {
  struct strip s = row_strip(g);
  double height = 0;
  for (int c = 0; c < g->table->columns; c++) {
    const struct sheet_column *column = &g->table->column[c];
    if (column->rail) {
      const struct drawing *scale = picture_scale(g->w[c], g->size * 0.7, g->t->arena);
      add_item(g->t, &s, (struct item){.kind = ITEM_DRAWING, .x = g->x[c], .w = g->w[c], .drawing = scale, .tag = "TH"});
      height = fmax(height, scale->height);
    } else {
      height = fmax(height, put(g, &s, c, 0, column->title, g->size * SMALL, FACE_BOLD, PAINT_INK, "TH"));
    }
  }
  s.height = height + 3;
  s.keep = true;
  rule(g, &s, PAINT_INK, 0.8, s.height - 1);
  return s;
}

static void row_across(struct grid *g, const struct sheet_row *row, const struct strip *head) {
  struct strip s = row_strip(g);
  PangoLayout *l = set_words(g->t, row->cell[0].text, g->size, FACE_BOLD, g->t->width, false);
  add_item(g->t, &s, (struct item){.kind = ITEM_TEXT, .y = 0, .layout = l, .tag = "TH"});
  s.height = words_height(l) + 2;
  s.before = 0.6 * g->size;
  s.keep = true;
  s.head = head;
  rule(g, &s, PAINT_LIGHT, 0.6, s.height - 0.5);
  add_strip(g->t, s);
}

static void row_plain(struct grid *g, const struct sheet_row *row, const struct strip *head) {
  struct strip s = row_strip(g);
  bool danger = row->tone == TONE_DANGER;
  double height = 0;
  if (row->strong) rule(g, &s, PAINT_INK, 0.8, 0);
  for (int c = 0; c < g->table->columns; c++)
    height = fmax(height, put_cell(g, &s, c, &row->cell[c], row->strong || danger ? FACE_BOLD : FACE_PLAIN));
  s.height = height + ABOVE * g->size;
  s.head = head;
  if (danger)
    add_item(g->t, &s, (struct item){.kind = ITEM_FILL, .x = -7, .y = 1, .w = 3, .h = s.height - 2, .paint = PAINT_INK});
  rule(g, &s, PAINT_PALE, 0.5, s.height);
  add_strip(g->t, s);
}

void lay_table(struct setting *t, const struct sheet_table *table) {
  struct grid g = {.t = t, .table = table, .size = t->letter * 0.95};
  if (table->columns > COLUMNS_MOST) return;
  while (!divide(&g)) g.size *= 0.94;
  t->groups++;
  struct strip *head = ARENA_NEW(t->arena, struct strip, 1);
  *head = head_of(&g);
  struct strip first = *head;
  first.before = 0.5 * t->letter;
  add_strip(t, first);
  for (size_t r = 0; r < table->rows; r++) {
    (table->row[r].across ? row_across : row_plain)(&g, &table->row[r], head);
    /* Neither the first row nor the last stands alone. */
    if (r == 0 || r + 2 == table->rows) t->strip[t->count - 1].keep = r + 1 < table->rows;
  }
}
