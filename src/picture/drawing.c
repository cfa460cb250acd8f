#include "picture/drawing.h"

#include <math.h>

#include "base/num.h"
#include "base/utf8.h"

const char *const paint_word[PAINT_COUNT] = {"ink", "dim", "light", "pale", "paper", "hatch", "dots"};
const unsigned paint_rgb[PAINT_COUNT] = {0x201f1b, 0x635e54, 0xb9b3a9, 0xcfc6b2, 0xffffff, 0x201f1b, 0x201f1b};
const enum paint piece_paint[PIECE_PAINTS] = {PAINT_INK, PAINT_DIM, PAINT_PALE, PAINT_LIGHT, PAINT_DOTS};

struct drawing *drawing_start(struct arena *a, double width, double height, const char *title) {
  struct drawing *d = ARENA_NEW(a, struct drawing, 1);
  *d = (struct drawing){.width = width, .height = height, .title = title, .says = "", .arena = a};
  return d;
}

static struct drawn_shape *add(struct drawing *d, struct drawn_shape s) {
  ARENA_PUSH(d->arena, d->shape, d->count, d->cap, s);
  return &d->shape[d->count - 1];
}

void draw_rect(struct drawing *d, enum paint p, double x, double y, double w, double h) {
  if (w > 0 && h > 0) add(d, (struct drawn_shape){.kind = DRAWN_RECT, .paint = p, .x = x, .y = y, .w = w, .h = h});
}

void draw_line(struct drawing *d, enum paint p, double thick, double x1, double y1, double x2, double y2) {
  add(d, (struct drawn_shape){.kind = DRAWN_LINE, .paint = p, .x = x1, .y = y1, .w = x2, .h = y2, .thick = thick});
}

void draw_dashes(struct drawing *d, enum paint p, double thick, double x1, double y1, double x2, double y2) {
  draw_line(d, p, thick, x1, y1, x2, y2);
  d->shape[d->count - 1].dashed = true;
}

void draw_disc(struct drawing *d, bool hollow, double x, double y, double radius) {
  add(d, (struct drawn_shape){.kind = DRAWN_DISC, .x = x, .y = y, .w = radius, .hollow = hollow, .thick = 1.1});
}

void draw_triangle(struct drawing *d, enum paint p, double x, double y, double width) {
  add(d, (struct drawn_shape){.kind = DRAWN_TRIANGLE, .paint = p, .x = x, .y = y, .w = width});
}

struct drawn_shape *draw_text(struct drawing *d, enum paint p, double x, double y, double size, enum anchor anchor,
                              const char *text) {
  return add(
      d, (struct drawn_shape){.kind = DRAWN_TEXT, .paint = p, .x = x, .y = y, .size = size, .anchor = anchor, .text = text});
}

void draw_all(struct drawing *d, const struct drawing *of, double x, double y) {
  for (size_t i = 0; i < of->count; i++) {
    struct drawn_shape s = of->shape[i];
    s.x += x;
    s.y += y;
    if (s.kind == DRAWN_LINE) {
      s.w += x;
      s.h += y;
    }
    add(d, s);
  }
}

/* ---- SVG ------------------------------------------------------------------------------------------------------- */

/* C0 and C1 controls, surrogates and non-characters stand in no document of XML or HTML; what turns the direction of all
 * that follows (U+202A to U+202E) does not stand in ours. */
static bool may_stand(uint32_t c) {
  if (c < 0x20) return c == '\t' || c == '\n';
  if ((c >= 0x7F && c <= 0x9F) || (c >= 0x202A && c <= 0x202E)) return false;
  return !(c >= 0xFDD0 && c <= 0xFDEF) && (c & 0xFFFE) != 0xFFFE;
}

void markup_text(struct buf *out, const char *text) {
  for (struct span s = span_of(text); s.n > 0;) {
    uint32_t c;
    size_t n = utf8_read(s, &c);
    if (n == 0) {
      buf_adds(out, "\xEF\xBF\xBD");
      n = 1;
    } else if (c == '&') {
      buf_adds(out, "&amp;");
    } else if (c == '<') {
      buf_adds(out, "&lt;");
    } else if (c == '>') {
      buf_adds(out, "&gt;");
    } else if (c == '"') {
      buf_adds(out, "&quot;");
    } else if (may_stand(c)) {
      buf_add(out, span_cut(s, 0, n));
    }
    s = span_cut(s, n, s.n);
  }
}

static void number(struct buf *out, const char *name, double x) {
  struct buf b;
  buf_init(&b, out->arena, 40);
  num_fixed(&b, x, 2);
  while (b.n > 1 && b.p[b.n - 1] == '0') b.p[--b.n] = '\0';
  if (b.p[b.n - 1] == '.') b.p[--b.n] = '\0';
  buf_addf(out, " %s=\"%s\"", name, strcmp(buf_text(&b), "-0") == 0 ? "0" : buf_text(&b));
}

static void paint(struct buf *out, const char *attribute, enum paint p, int id) {
  if (p == PAINT_HATCH || p == PAINT_DOTS) {
    buf_addf(out, " %s=\"url(#%s%d)\"", attribute, p == PAINT_HATCH ? "hatch" : "dots", id);
  } else {
    buf_addf(out, " %s=\"#%06x\"", attribute, paint_rgb[p]);
  }
}

static void write_triangle(const struct drawn_shape *s, struct buf *out) {
  double half = fabs(s->w) * 0.6;
  const double x[] = {s->x, s->x - s->w, s->x - s->w}, y[] = {s->y, s->y - half, s->y + half};
  buf_adds(out, "<path d=\"");
  for (int i = 0; i < 3; i++) {
    buf_adds(out, i ? " L" : "M");
    num_fixed(out, x[i], 2);
    buf_addc(out, ' ');
    num_fixed(out, y[i], 2);
  }
  buf_adds(out, " Z\"");
}

static void write_text(const struct drawn_shape *s, struct buf *out) {
  static const char *const ANCHOR[] = {"start", "middle", "end"};
  buf_adds(out, "<text");
  number(out, "x", s->x);
  number(out, "y", s->y);
  number(out, "font-size", s->size);
  if (s->anchor != ANCHOR_START) buf_addf(out, " text-anchor=\"%s\"", ANCHOR[s->anchor]);
  if (s->bold) buf_adds(out, " font-weight=\"700\"");
}

static void write_shape(const struct drawn_shape *s, int id, struct buf *out) {
  static const char *const ELEMENT[] = {"rect", "line", "circle"};
  if (s->kind == DRAWN_TEXT) {
    write_text(s, out);
    paint(out, "fill", s->paint, id);
    buf_addc(out, '>');
    markup_text(out, s->text);
    buf_adds(out, "</text>\n");
    return;
  }
  if (s->kind == DRAWN_TRIANGLE) {
    write_triangle(s, out);
  } else {
    const char *const NAME[][4] = {{"x", "y", "width", "height"}, {"x1", "y1", "x2", "y2"}, {"cx", "cy", "r", NULL}};
    const double value[] = {s->x, s->y, s->w, s->h};
    buf_addf(out, "<%s", ELEMENT[s->kind]);
    for (int i = 0; i < 4; i++)
      if (NAME[s->kind][i]) number(out, NAME[s->kind][i], value[i]);
  }
  if (s->kind == DRAWN_LINE || s->hollow) {
    paint(out, "stroke", s->paint, id);
    number(out, "stroke-width", s->thick);
    if (s->dashed) buf_adds(out, " stroke-dasharray=\"2 1.5\"");
  }
  if (s->kind != DRAWN_LINE) paint(out, "fill", s->hollow ? PAINT_PAPER : s->paint, id);
  buf_adds(out, "/>\n");
}

static bool uses(const struct drawing *d, enum paint p) {
  for (size_t i = 0; i < d->count; i++)
    if (d->shape[i].paint == p) return true;
  return false;
}

static void write_patterns(const struct drawing *d, int id, struct buf *out) {
  if (uses(d, PAINT_HATCH))
    buf_addf(
        out,
        "<defs><pattern id=\"hatch%d\" width=\"3\" height=\"3\" patternUnits=\"userSpaceOnUse\" "
        "patternTransform=\"rotate(45)\"><rect width=\"3\" height=\"3\" fill=\"#fff\"/><line x1=\"0\" y1=\"0\" x2=\"0\" "
        "y2=\"3\" stroke=\"#%06x\" stroke-width=\"1.4\"/></pattern></defs>\n",
        id, paint_rgb[PAINT_HATCH]);
  if (uses(d, PAINT_DOTS))
    buf_addf(out,
             "<defs><pattern id=\"dots%d\" width=\"3\" height=\"3\" patternUnits=\"userSpaceOnUse\"><rect width=\"3\" "
             "height=\"3\" fill=\"#fff\"/><circle cx=\"1.5\" cy=\"1.5\" r=\"0.7\" fill=\"#%06x\"/></pattern></defs>\n",
             id, paint_rgb[PAINT_DOTS]);
}

void drawing_svg(const struct drawing *d, int id, struct buf *out) {
  buf_addf(out, "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" aria-labelledby=\"picture%d\"", id);
  number(out, "width", d->width);
  number(out, "height", d->height);
  buf_adds(out, " viewBox=\"0 0 ");
  num_sig(out, d->width, 6);
  buf_addc(out, ' ');
  num_sig(out, d->height, 6);
  buf_addf(out, "\" font-family=\"'Atkinson Hyperlegible', 'DejaVu Sans', Verdana, sans-serif\">\n<title id=\"picture%d\">",
           id);
  markup_text(out, d->title);
  if (d->says[0]) {
    buf_adds(out, d->title[0] ? ": " : "");
    markup_text(out, d->says);
  }
  buf_adds(out, "</title>\n");
  write_patterns(d, id, out);
  for (size_t i = 0; i < d->count; i++) write_shape(&d->shape[i], id, out);
  buf_adds(out, "</svg>");
}
