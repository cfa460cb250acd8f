/* pen.h: what a drawing is made with. Columns of text, glyphs, inks, one row at a time.
 *
 * A row is an array of cells, one a column; everything is put at a column and nothing can be put outside, so no line is
 * ever wider than the terminal and columns stay aligned whatever bytes the text has. Text that people wrote passes through
 * here and nowhere else: control and direction characters never reach the terminal. Layer: report, internal. */
#ifndef BW_REPORT_PEN_H
#define BW_REPORT_PEN_H

#include "base/buf.h"
#include "report/report.h"

/* One warm accent and one grey beside the terminal's own colour. Nothing is said by ink alone. */
enum ink { INK_PLAIN, INK_STRONG, INK_DIM, INK_ACCENT, INK_LOUD, INK_COUNT };
/* The two colours as sRGB, for the contrast test: both are of the fixed 256-colour set, so no theme changes them. */
enum { ACCENT_CODE = 166, ACCENT_RGB = 0xd75f00, DIM_CODE = 244, DIM_RGB = 0x808080 };

/* ORDER GLYPH: the two sets in pen.c. */
enum glyph {
  G_BAND,
  G_BAND_LEFT,
  G_BAND_RIGHT, /* full cell, left half, right half */
  G_NEED,
  G_NEED_BAND,
  G_NEED_LEFT,
  G_NEED_RIGHT, /* the allowance line, alone and crossed by a band */
  G_LEAST,
  G_LEAST_BAND,
  G_LEAST_LEFT,
  G_LEAST_RIGHT,
  G_LIMIT,
  G_TESTED, /* upper limit; highest level tested */
  G_SURE,
  G_UNSURE,
  G_LEAN, /* marks: verdict certain, not certain, leanest window */
  G_HATCH,
  G_DOT,
  G_OFF_LEFT,
  G_OFF_RIGHT,
  G_FILL_1,
  G_FILL_2,
  G_FILL_3,
  G_FILL_4, /* ribbons */
  G_RULE,
  G_BAR,
  G_BAR_THIN,
  G_ARROW,
  G_ELLIPSIS,
  G_TIMES,

  G_BETWEEN,
  G_DASH,
  G_EDGE_LEFT,
  G_EDGE_RIGHT,
  G_LINE,
  G_TICK_DOWN,
  G_COUNT
};

struct pen {
  int width;
  bool colour, unicode, all;
  struct arena *arena;
  struct buf *out;
};

enum { WIDTH_LEAST = 60, WIDTH_MOST = 160, PROSE_MOST = 92, MARGIN = 2 };

struct pen pen_start(const struct report_style *style, struct buf *out);
const char *pen_glyph(const struct pen *p, enum glyph g);

/* Columns that a text takes on this terminal (in plain ASCII some letters take several). */
int text_columns(const struct pen *p, const char *text);

struct cell {
  char byte[11];
  uint8_t n, ink;
};
struct row {
  const struct pen *pen;
  int end; /* one past the last cell used */
  struct cell cell[WIDTH_MOST];
};

void row_start(struct row *r, const struct pen *p);
/* Puts text from 'column' on; what lies beyond the width is dropped. Returns the column after it. */
int row_put(struct row *r, int column, enum ink ink, const char *text);
int row_glyph(struct row *r, int column, enum ink ink, enum glyph g);
void row_fill(struct row *r, int column, int columns, enum ink ink, enum glyph g);
/* At most 'columns' columns; longer text ends in an ellipsis. */
int row_fit(struct row *r, int column, int columns, enum ink ink, const char *text);
/* Ends just before column 'right'. At most 'columns' columns. Returns the column where it starts. */
int row_right(struct row *r, int right, int columns, enum ink ink, const char *text);
bool row_is_free(const struct row *r, int column);
/* Writes the row without trailing blanks, and a line end. */
void row_end(struct row *r);
/* Ends the row with text at 'column', and goes on below it until all of it is written: names in food tables go from broad to
 * narrow and often differ in their last word only. A word longer than 'columns' is cut as row_fit does. */
void row_end_whole(struct row *r, int column, int columns, enum ink ink, const char *text);
/* Ends the row with a line of a recipe or a plan, which people copy from here: what it says is never cut, since half a line
 * may read as another one ("..., 3 times a week" without its end is every day); it goes past the width. Its remark is. */
void row_end_kept(struct row *r, int column, enum ink ink, const char *text);
void blank_line(const struct pen *p);

/* Prose, wrapped at blanks; a no-break space (U+00A0) holds words together and is written as a blank. The lead stands
 * before the first line, the bar glyph (G_COUNT: none) before every line. */
struct prose {
  int first, indent; /* columns where the first and the other lines begin */
  int right;         /* one past the last column; 0: a comfortable measure */
  enum ink ink, bar_ink;
  enum glyph bar;
  int bar_at;
};
void prose_write(const struct pen *p, const struct prose *how, const char *text);
static inline struct prose prose_at(int column, enum ink ink) {
  return (struct prose){column, column, 0, ink, INK_PLAIN, G_COUNT, 0};
}

#endif
