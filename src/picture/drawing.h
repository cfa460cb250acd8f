/* drawing.h: a picture as a list of shapes, which whoever has a surface draws: as SVG here, on paper elsewhere. It is told
 * in black, greys and hatching, so that it means the same without colour, and it says in words what it shows.
 *
 * Units are points, from the upper left corner. Layer: picture. Pure. */
#ifndef BW_DRAWING_H
#define BW_DRAWING_H

#include "base/buf.h"

enum paint { PAINT_INK, PAINT_DIM, PAINT_LIGHT, PAINT_PALE, PAINT_PAPER, PAINT_HATCH, PAINT_DOTS, PAINT_COUNT };
extern const char *const paint_word[PAINT_COUNT];
/* 0xRRGGBB, of hatching and dots their ink. Whoever draws, and the page's light dress, takes the tones from here. */
extern const unsigned paint_rgb[PAINT_COUNT];
/* Hatching is for what is not known, and for nothing else: the pieces of a bar take these in turn. */
enum { PIECE_PAINTS = 5 };
extern const enum paint piece_paint[PIECE_PAINTS];

enum shape_kind { DRAWN_RECT, DRAWN_LINE, DRAWN_DISC, DRAWN_TRIANGLE, DRAWN_TEXT };
enum anchor { ANCHOR_START, ANCHOR_MIDDLE, ANCHOR_END };

struct drawn_shape {
  enum shape_kind kind;
  enum paint paint;
  double x, y, w, h; /* a line goes from (x, y) to (w, h); a disc has radius w; a triangle points to (x, y) and is w wide, to
                        the left when w < 0; text stands on the base line y */
  double thick;      /* of a line; of the outline of a hollow disc or a rectangle */
  bool hollow, dashed, bold;
  double size; /* of text */
  enum anchor anchor;
  double room; /* text that is wider is set closer; 0: as it comes */
  const char *text;
};

struct drawing {
  double width, height;
  const char *title; /* what it is, in a few words */
  const char *says;  /* what it shows, in words: who does not see it reads this */
  struct drawn_shape *shape;
  size_t count, cap;
  struct arena *arena;
};

struct drawing *drawing_start(struct arena *a, double width, double height, const char *title);
void draw_rect(struct drawing *d, enum paint p, double x, double y, double w, double h);
void draw_line(struct drawing *d, enum paint p, double thick, double x1, double y1, double x2, double y2);
void draw_dashes(struct drawing *d, enum paint p, double thick, double x1, double y1, double x2, double y2);
void draw_disc(struct drawing *d, bool hollow, double x, double y, double radius);
/* Points to (x, y), to the right when 'width' > 0. */
void draw_triangle(struct drawing *d, enum paint p, double x, double y, double width);
struct drawn_shape *draw_text(struct drawing *d, enum paint p, double x, double y, double size, enum anchor anchor,
                              const char *text);
/* Everything of 'of', moved by (x, y). */
void draw_all(struct drawing *d, const struct drawing *of, double x, double y);

/* An <svg> element with a title and a description; 'id' tells the elements of one page apart. As a file it has a name space
 * and needs nothing from elsewhere. */
void drawing_svg(const struct drawing *d, int id, struct buf *out);
/* Text between tags, and in attributes; characters that no document may hold are left out. */
void markup_text(struct buf *out, const char *text);

#endif
