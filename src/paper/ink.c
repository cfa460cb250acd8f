/* A drawing on a surface of cairo. */
#include <math.h>

#include "paper/strip.h"

void ink_paint(cairo_t *cr, enum paint p) {
  unsigned rgb = paint_rgb[p];
  cairo_set_source_rgb(cr, (rgb >> 16) / 255.0, (rgb >> 8 & 255) / 255.0, (rgb & 255) / 255.0);
}

/* Strokes and not a pattern: they stay sharp at any size, and small in the file. */
static void hatch(cairo_t *cr, const struct drawn_shape *s) {
  static const double STEP = 3;
  cairo_save(cr);
  cairo_rectangle(cr, s->x, s->y, s->w, s->h);
  cairo_clip(cr);
  ink_paint(cr, PAINT_INK);
  cairo_set_line_width(cr, 0.8);
  for (double x = s->x - s->h; x < s->x + s->w; x += STEP) {
    cairo_move_to(cr, x, s->y + s->h);
    cairo_line_to(cr, x + s->h, s->y);
  }
  cairo_stroke(cr);
  cairo_restore(cr);
}

static void dots(cairo_t *cr, const struct drawn_shape *s) {
  static const double STEP = 3;
  cairo_save(cr);
  cairo_rectangle(cr, s->x, s->y, s->w, s->h);
  cairo_clip(cr);
  ink_paint(cr, PAINT_INK);
  for (double y = s->y + STEP / 2; y < s->y + s->h; y += STEP)
    for (double x = s->x + STEP / 2; x < s->x + s->w; x += STEP) {
      cairo_new_sub_path(cr);
      cairo_arc(cr, x, y, 0.7, 0, 2 * G_PI);
    }
  cairo_fill(cr);
  cairo_restore(cr);
}

static void rectangle(cairo_t *cr, const struct drawn_shape *s) {
  if (s->paint == PAINT_HATCH || s->paint == PAINT_DOTS) {
    ink_paint(cr, PAINT_PAPER);
    cairo_rectangle(cr, s->x, s->y, s->w, s->h);
    cairo_fill(cr);
    (s->paint == PAINT_HATCH ? hatch : dots)(cr, s);
    return;
  }
  ink_paint(cr, s->paint);
  cairo_rectangle(cr, s->x, s->y, s->w, s->h);
  cairo_fill(cr);
}

static void line(cairo_t *cr, const struct drawn_shape *s) {
  static const double DASH[] = {2, 1.5};
  ink_paint(cr, s->paint);
  cairo_set_line_width(cr, s->thick);
  cairo_set_dash(cr, DASH, s->dashed ? 2 : 0, 0);
  cairo_move_to(cr, s->x, s->y);
  cairo_line_to(cr, s->w, s->h);
  cairo_stroke(cr);
  cairo_set_dash(cr, DASH, 0, 0);
}

static void disc(cairo_t *cr, const struct drawn_shape *s) {
  cairo_new_sub_path(cr);
  cairo_arc(cr, s->x, s->y, s->w, 0, 2 * G_PI);
  ink_paint(cr, s->hollow ? PAINT_PAPER : s->paint);
  cairo_fill_preserve(cr);
  ink_paint(cr, s->paint);
  cairo_set_line_width(cr, s->hollow ? s->thick : 0.1);
  cairo_stroke(cr);
}

static void triangle(cairo_t *cr, const struct drawn_shape *s) {
  double half = fabs(s->w) * 0.6;
  ink_paint(cr, s->paint);
  cairo_move_to(cr, s->x, s->y);
  cairo_line_to(cr, s->x - s->w, s->y - half);
  cairo_line_to(cr, s->x - s->w, s->y + half);
  cairo_close_path(cr);
  cairo_fill(cr);
}

static void text(struct setting *t, const struct drawn_shape *s) {
  PangoLayout *l = set_words(t, s->text, s->size, s->bold ? FACE_BOLD : FACE_PLAIN, 0, false);
  double wide = words_width(l), left = s->x;
  if (s->anchor == ANCHOR_MIDDLE) left -= wide / 2;
  if (s->anchor == ANCHOR_END) left -= wide;
  ink_paint(t->cr, s->paint);
  cairo_move_to(t->cr, left, s->y);
  pango_cairo_show_layout_line(t->cr, pango_layout_get_line_readonly(l, 0));
  g_object_unref(l);
}

void ink_drawing(struct setting *t, const struct drawing *d, double x, double y, double width) {
  cairo_t *cr = t->cr;
  cairo_save(cr);
  cairo_translate(cr, x, y);
  if (d->width > 0 && width > 0) cairo_scale(cr, width / d->width, width / d->width);
  for (size_t i = 0; i < d->count; i++) {
    const struct drawn_shape *s = &d->shape[i];
    if (s->kind == DRAWN_RECT) rectangle(cr, s);
    if (s->kind == DRAWN_LINE) line(cr, s);
    if (s->kind == DRAWN_DISC) disc(cr, s);
    if (s->kind == DRAWN_TRIANGLE) triangle(cr, s);
    if (s->kind == DRAWN_TEXT) text(t, s);
  }
  cairo_restore(cr);
}
