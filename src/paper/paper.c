#include "paper/paper.h"

#include <cairo-pdf.h>
#include <math.h>

#include "paper/strip.h"

static const double MARGIN = 44, FOOT = 30, LETTER = 10, LARGE_LETTER = 18;

/* ---- paragraphs, headings and boxes ------------------------------------------------------------------------------ */

struct manner {
  double size, before, indent;
  enum face face;
  enum paint paint;
  const char *tag, *outer;
  bool name;        /* runs as it does */
  bool together;    /* all of its lines on one page */
  bool keep_next;   /* its last line with what follows */
  double bar;       /* thickness of a bar at the left edge; 0 none */
  const char *mark; /* before the first line; NULL none */
};

static double base_line(PangoLayout *l, int line, double *height) {
  PangoRectangle logical;
  PangoLayoutLine *text = pango_layout_get_line_readonly(l, line);
  pango_layout_line_get_extents(text, NULL, &logical);
  *height = (double)logical.height / PANGO_SCALE;
  return (double)-logical.y / PANGO_SCALE;
}

/* Where a line of text from right to left begins: at the right edge. */
static double line_left(PangoLayout *l, int line, double width) {
  PangoRectangle logical;
  PangoLayoutLine *text = pango_layout_get_line_readonly(l, line);
  pango_layout_line_get_extents(text, NULL, &logical);
  if (text->resolved_dir != PANGO_DIRECTION_RTL) return 0;
  return fmax(width - (double)logical.width / PANGO_SCALE, 0);
}

static void lay_words(struct setting *t, const char *text, const struct manner *m) {
  if (!text || !text[0]) return;
  double width = t->width - m->indent;
  PangoLayout *l = set_words(t, text, m->size, m->face, width, false);
  if (m->name) run_as_it_does(l);
  int lines = pango_layout_get_line_count(l);
  t->elements++;
  for (int i = 0; i < lines; i++) {
    double height, base = base_line(l, i, &height);
    struct strip s = {.before = i == 0 ? m->before : 0,
                      .height = height * 1.08,
                      .tag = m->tag,
                      .outer = m->outer,
                      .group = t->groups,
                      .element = t->elements};
    /* Neither the first line nor the last stands alone. */
    s.keep = i + 1 < lines ? m->together || i == 0 || i + 2 == lines : m->keep_next;
    if (m->bar > 0) {
      double above = i == 0 ? 0 : s.before;
      add_item(t, &s,
               (struct item){.kind = ITEM_FILL, .y = -above, .w = m->bar, .h = s.height + above + 0.3, .paint = PAINT_INK});
    }
    if (m->mark && i == 0)
      add_item(t, &s,
               (struct item){.kind = ITEM_LINE,
                             .x = m->indent - 1.1 * m->size,
                             .y = base,
                             .layout = set_words(t, m->mark, m->size, FACE_PLAIN, 0, false)});
    add_item(t, &s,
             (struct item){.kind = ITEM_LINE,
                           .x = m->indent + line_left(l, i, width),
                           .y = base,
                           .layout = l,
                           .line = i,
                           .paint = m->paint});
    add_strip(t, s);
  }
}

static void lay_heading(struct setting *t, const char *text) {
  struct manner m = {.size = t->letter * 1.25,
                     .before = t->letter * 1.5,
                     .face = FACE_BOLD,
                     .tag = "H2",
                     .together = true,
                     .keep_next = true};
  t->groups++;
  lay_words(t, text, &m);
  struct strip *last = &t->strip[t->count - 1];
  last->height += 3;
  add_item(t, last,
           (struct item){.kind = ITEM_RULE, .y = last->height - 1, .w = t->width, .h = last->height - 1, .thick = 1.1});
}

/* All of a finding stays together, with a bar that says how much it weighs. */
static void lay_box(struct setting *t, const struct sheet_block *b) {
  bool danger = b->tone == TONE_DANGER, act = danger || b->tone == TONE_ACT;
  double bar = danger ? 6 : act ? 4 : 1.5;
  struct manner m = {.size = t->letter,
                     .before = t->letter * 0.7,
                     .indent = 12,
                     .tag = "P",
                     .together = true,
                     .bar = bar,
                     .face = danger ? FACE_BOLD : FACE_PLAIN};
  bool why = b->more[0] && b->more[0][0], remedy = b->more[1] && b->more[1][0];
  t->groups++;
  m.keep_next = why || remedy;
  lay_words(t, b->text, &m);
  m.face = FACE_PLAIN;
  m.before = 0;
  m.keep_next = remedy;
  struct manner dim = m;
  dim.paint = PAINT_DIM;
  if (why) lay_words(t, b->more[0], &dim);
  m.keep_next = false;
  m.mark = "\xE2\x86\x92";
  m.indent = 12 + 1.4 * t->letter;
  if (remedy) lay_words(t, b->more[1], &m);
}

static void lay_picture(struct setting *t, const struct drawing *d) {
  double width = fmin(t->width, d->width * fmax(t->letter / LETTER, 1));
  struct strip s = {.before = t->letter * 0.6,
                    .height = d->height * width / d->width,
                    .tag = "Figure",
                    .group = ++t->groups,
                    .element = ++t->elements};
  add_item(t, &s, (struct item){.kind = ITEM_DRAWING, .w = width, .drawing = d});
  add_strip(t, s);
}

static void lay_warning(struct setting *t, const char *text) {
  double pad = t->letter * 0.5;
  PangoLayout *l = set_words(t, text, t->letter * 1.3, FACE_BOLD, t->width - 2 * pad, false);
  struct strip s = {.before = t->letter,
                    .height = words_height(l) + 2 * pad,
                    .keep = true,
                    .tag = "P",
                    .group = ++t->groups,
                    .element = ++t->elements};
  add_item(t, &s, (struct item){.kind = ITEM_FILL, .w = t->width, .h = s.height, .paint = PAINT_INK});
  add_item(t, &s, (struct item){.kind = ITEM_TEXT, .x = pad, .y = pad, .layout = l, .paint = PAINT_PAPER});
  add_strip(t, s);
}

static void lay_block(struct setting *t, const struct sheet_block *b) {
  struct manner plain = {.size = t->letter, .before = t->letter * 0.45, .tag = "P"};
  if (b->kind != SHEET_POINT) t->groups++;
  switch (b->kind) {
  case SHEET_TITLE:
    plain = (struct manner){
        .size = t->letter * 2, .face = FACE_BOLD, .tag = "H1", .name = true, .together = true, .keep_next = true};
    lay_words(t, b->text, &plain);
    break;
  case SHEET_HEADING:
    lay_heading(t, b->text);
    break;
  case SHEET_PARAGRAPH:
    if (b->tone == TONE_DIM) plain.paint = PAINT_DIM;
    if (b->tone == TONE_STRONG) plain.face = FACE_BOLD;
    if (b->tone == TONE_DANGER) {
      lay_warning(t, b->text);
    } else {
      lay_words(t, b->text, &plain);
    }
    break;
  case SHEET_POINT:
    plain.indent = 1.2 * t->letter;
    plain.mark = "\xE2\x80\xA2";
    plain.tag = "LI";
    plain.outer = "L";
    plain.before = t->letter * 0.2;
    plain.together = true;
    lay_words(t, b->text, &plain);
    break;
  case SHEET_BOX:
    lay_box(t, b);
    break;
  case SHEET_TABLE:
    lay_table(t, b->table);
    break;
  case SHEET_PICTURE:
    lay_picture(t, b->drawing);
    break;
  }
}

/* ---- pages -------------------------------------------------------------------------------------------------------- */

struct place {
  const struct strip *s;
  int page;
  double y, scale; /* below 1 for what is taller than a page */
};

struct pages {
  double height;
  struct place *place;
  size_t count, cap;
  int page;
  double y;
};

static void put(struct setting *t, struct pages *p, const struct strip *s) {
  bool top = p->y == 0;
  double before = top ? 0 : s->before, scale = s->height > p->height ? p->height / s->height : 1;
  struct place at = {s, p->page, p->y + before, scale};
  ARENA_PUSH(t->arena, p->place, p->count, p->cap, at);
  p->y += before + s->height * scale;
}

static void next_page(struct setting *t, struct pages *p, const struct strip *coming) {
  p->page++;
  p->y = 0;
  if (coming->head) put(t, p, coming->head);
}

/* The strips from 'i' on that stay together, and how high they are. */
static size_t kept(const struct setting *t, size_t i, double *height) {
  size_t end = i;
  *height = 0;
  do {
    *height += (end == i ? 0 : t->strip[end].before) + t->strip[end].height;
  } while (t->strip[end++].keep && end < t->count);
  return end;
}

static void break_pages(struct setting *t, struct pages *p) {
  for (size_t i = 0; i < t->count;) {
    double height;
    size_t end = kept(t, i, &height);
    const struct strip *first = &t->strip[i];
    double head = first->head ? first->head->height : 0, before = p->y > 0 ? first->before : 0;
    bool fits = p->y + before + height <= p->height;
    if (!fits && p->y > 0 && head + height <= p->height) next_page(t, p, first);
    for (; i < end; i++) { /* taller than a page: strip by strip */
      const struct strip *s = &t->strip[i];
      if (p->y > 0 && p->y + s->before + s->height > p->height + 0.01) next_page(t, p, s);
      put(t, p, s);
    }
  }
}

/* ---- ink ---------------------------------------------------------------------------------------------------------- */

static void show_item(struct setting *t, const struct item *i) {
  cairo_t *cr = t->cr;
  ink_paint(cr, i->paint);
  switch (i->kind) {
  case ITEM_LINE:
    cairo_move_to(cr, i->x, i->y);
    pango_cairo_show_layout_line(cr, pango_layout_get_line_readonly(i->layout, i->line));
    break;
  case ITEM_TEXT:
    cairo_move_to(cr, i->x, i->y);
    pango_cairo_show_layout(cr, i->layout);
    break;
  case ITEM_RULE:
    cairo_set_line_width(cr, i->thick);
    cairo_move_to(cr, i->x, i->y);
    cairo_line_to(cr, i->w, i->h);
    cairo_stroke(cr);
    break;
  case ITEM_FILL:
    cairo_rectangle(cr, i->x, i->y, i->w, i->h);
    cairo_fill(cr);
    break;
  case ITEM_DRAWING:
    ink_drawing(t, i->drawing, i->x, i->y, i->w);
    break;
  }
}

static void show_strip(struct setting *t, const struct place *p) {
  cairo_save(t->cr);
  cairo_translate(t->cr, MARGIN, MARGIN + p->y);
  cairo_scale(t->cr, p->scale, p->scale);
  for (size_t i = 0; i < p->s->count; i++) {
    const struct item *item = &p->s->item[i];
    if (item->tag) cairo_tag_begin(t->cr, item->tag, NULL);
    show_item(t, item);
    if (item->tag) cairo_tag_end(t->cr, item->tag);
  }
  cairo_restore(t->cr);
}

/* Tags that are open on a page: an outer one (a table, a list), and the element in it. */
struct tags {
  const char *outer, *inner;
  int group, element;
};

static void close_tags(struct setting *t, struct tags *open, bool outer) {
  if (open->inner) cairo_tag_end(t->cr, open->inner);
  if (outer && open->outer) cairo_tag_end(t->cr, open->outer);
  open->inner = NULL;
  if (outer) open->outer = NULL;
}

static void move_tags(struct setting *t, struct tags *open, const struct strip *s) {
  bool same_outer = open->outer && s->outer && open->group == s->group && strcmp(open->outer, s->outer) == 0;
  bool same = same_outer == (s->outer != NULL) && open->inner && open->element == s->element;
  if (same) return;
  close_tags(t, open, !same_outer);
  if (!same_outer && s->outer) cairo_tag_begin(t->cr, s->outer, NULL);
  open->outer = s->outer;
  cairo_tag_begin(t->cr, s->tag, NULL);
  *open = (struct tags){s->outer, s->tag, s->group, s->element};
}

static void show_foot(struct setting *t, int page, int pages, double paper_height) {
  double size = fmin(t->letter * 0.82, 12);
  struct buf b;
  buf_init(&b, t->arena, 8192);
  buf_addf(&b, "page %d of %d", page + 1, pages);
  PangoLayout *right = set_words(t, buf_text(&b), size, FACE_PLAIN, t->width, true);
  buf_init(&b, t->arena, 1 << 20);
  buf_addf(&b, "\xE2\x81\xA8%s\xE2\x81\xA9, %s", t->s->title, t->s->date); /* isolated: it may run leftward */
  PangoLayout *left = set_words(t, buf_text(&b), size, FACE_PLAIN, t->width * 0.75, false);
  pango_layout_set_height(left, -1);
  pango_layout_set_ellipsize(left, PANGO_ELLIPSIZE_MIDDLE);
  ink_paint(t->cr, PAINT_DIM);
  cairo_move_to(t->cr, MARGIN, paper_height - FOOT - size);
  pango_cairo_show_layout(t->cr, left);
  cairo_move_to(t->cr, MARGIN, paper_height - FOOT - size);
  pango_cairo_show_layout(t->cr, right);
  g_object_unref(left);
  g_object_unref(right);
}

static void show_pages(struct setting *t, const struct pages *p, double paper_height) {
  struct tags open = {NULL, NULL, -1, -1};
  size_t i = 0;
  for (int page = 0; page <= p->page; page++) {
    for (; i < p->count && p->place[i].page == page; i++) {
      move_tags(t, &open, p->place[i].s);
      show_strip(t, &p->place[i]);
    }
    close_tags(t, &open, true);
    show_foot(t, page, p->page + 1, paper_height);
    cairo_show_page(t->cr);
  }
}

/* ---- the file ------------------------------------------------------------------------------------------------------ */

static cairo_status_t take_bytes(void *closure, const unsigned char *data, unsigned int length) {
  struct buf *out = closure;
  buf_add(out, (struct span){(const char *)data, length});
  return out->cut ? CAIRO_STATUS_WRITE_ERROR : CAIRO_STATUS_SUCCESS;
}

static void tell_reader(cairo_surface_t *surface, const struct sheet *s, struct arena *arena) {
  struct buf b;
  buf_init(&b, arena, 64);
  const struct date *d = &s->style.date;
  buf_addf(&b, "%d-%s%d-%s%dT00:00:00", d->year, d->month < 10 ? "0" : "", d->month, d->day < 10 ? "0" : "", d->day);
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, s->title);
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_SUBJECT, s->whom);
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "Bowlwright");
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, buf_text(&b));
}

static bool has_fonts(PangoContext *context) {
  PangoFontDescription *any = pango_font_description_from_string("sans-serif 10");
  PangoFont *font = pango_context_load_font(context, any);
  pango_font_description_free(any);
  if (font) g_object_unref(font);
  return font != NULL;
}

static enum paper_outcome set_sheet(struct setting *t, double paper_width, double paper_height, int *pages) {
  if (!has_fonts(t->context)) return PAPER_NO_FONTS;
  t->width = paper_width - 2 * MARGIN;
  for (size_t i = 0; i < t->s->count; i++) lay_block(t, &t->s->block[i]);
  struct pages p = {.height = paper_height - MARGIN - FOOT - 26};
  break_pages(t, &p);
  show_pages(t, &p, paper_height);
  *pages = p.page + 1;
  return PAPER_DONE;
}

static void free_layouts(struct setting *t) {
  PangoLayout *last = NULL;
  for (size_t i = 0; i < t->count; i++)
    for (size_t k = 0; k < t->strip[i].count; k++) {
      PangoLayout *l = t->strip[i].item[k].layout;
      if (l && l != last) g_object_unref(l);
      if (l) last = l;
    }
}

enum paper_outcome paper_pdf(const struct sheet *s, struct buf *out, struct paper_told *told) {
  static const double SIZE[PAPER_COUNT][2] = {{595.276, 841.89}, {612, 792}};
  double width = SIZE[s->style.paper][0], height = SIZE[s->style.paper][1];
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream(take_bytes, out, width, height);
  struct setting t = {.arena = out->arena, .s = s, .letter = s->style.large ? LARGE_LETTER : LETTER};
  tell_reader(surface, s, out->arena);
  t.cr = cairo_create(surface);
  t.context = pango_cairo_create_context(t.cr);
  pango_context_set_base_dir(t.context, PANGO_DIRECTION_WEAK_LTR);
  enum paper_outcome outcome = set_sheet(&t, width, height, &told->pages);
  free_layouts(&t);
  g_object_unref(t.context);
  cairo_destroy(t.cr);
  cairo_surface_finish(surface);
  cairo_status_t status = cairo_surface_status(surface);
  cairo_surface_destroy(surface);
  told->unknown_letters = t.unknown_letters;
  told->why = cairo_status_to_string(status);
  return outcome == PAPER_DONE && status != CAIRO_STATUS_SUCCESS ? PAPER_FAILED : outcome;
}
