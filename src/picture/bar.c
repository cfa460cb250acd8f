#include "picture/bar.h"

static enum paint paint_of(int i) { return piece_paint[i % PIECE_PAINTS]; }

double text_width(const char *text, double size) {
  int letters = 0;
  for (const char *c = text; *c; c++) letters += (*c & 0xC0) != 0x80;
  return letters * size * 0.58;
}

void draw_pieces(struct drawing *d, const struct pieces *p, double x, double y, double width, double height) {
  if (p->count == 0) return;
  double end = x + p->of[p->count - 1].to * width;
  for (int i = 0; i < p->count; i++)
    draw_rect(d, paint_of(i), x + p->of[i].from * width, y, (p->of[i].to - p->of[i].from) * width, height);
  draw_line(d, PAINT_INK, 0.7, x, y, end, y);
  draw_line(d, PAINT_INK, 0.7, x, y + height, end, y + height);
  draw_line(d, PAINT_INK, 0.7, x, y, x, y + height);
  draw_line(d, PAINT_INK, 0.7, end, y, end, y + height);
}

double draw_key(struct drawing *d, const struct pieces *p, double x, double y, double width, double size) {
  double at = x, line = y;
  for (int i = 0; i < p->count; i++) {
    double wide = 12 + text_width(p->of[i].words, size) + 10;
    if (at > x && at + wide > x + width) {
      at = x;
      line += size * 1.5;
    }
    draw_rect(d, paint_of(i), at, line - size * 0.75, 8, 7);
    draw_line(d, PAINT_INK, 0.5, at, line + 1, at + 8, line + 1);
    draw_text(d, PAINT_INK, at + 11, line, size, ANCHOR_START, p->of[i].words);
    at += wide;
  }
  return line + size * 0.6 - y;
}
