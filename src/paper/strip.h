/* strip.h: what stands on a page: strips one below the other, each of which stays whole. Private to this folder.
 *
 * Points, from the strip's upper left corner. Layer: paper. */
#ifndef BW_STRIP_H
#define BW_STRIP_H

#include <pango/pangocairo.h>

#include "sheet/sheet.h"

enum item_kind { ITEM_LINE, ITEM_TEXT, ITEM_RULE, ITEM_FILL, ITEM_DRAWING };

struct item {
  enum item_kind kind;
  double x, y, w, h; /* a rule goes from (x, y) to (w, h), 'thick'; a drawing is drawn w wide */
  double thick;
  enum paint paint;
  PangoLayout *layout; /* ITEM_TEXT: all of it */
  int line;            /* ITEM_LINE: one line of the layout, with its base line at y */
  const struct drawing *drawing;
  const char *tag; /* "TD" within a row; NULL none */
};

struct strip {
  double before, height;    /* 'before' is left out at the top of a page */
  bool keep;                /* with the next one */
  const struct strip *head; /* is set again above, at the top of a page */
  const char *tag, *outer;  /* "P", "H1", "TR"; outer "Table", "L" */
  int group;                /* strips of one paragraph, of one table: their tags are one */
  int element;
  struct item *item;
  size_t count, cap;
};

struct setting {
  cairo_t *cr;
  PangoContext *context;
  struct arena *arena;
  const struct sheet *s;
  double width;  /* between the margins */
  double letter; /* size of the text */
  int unknown_letters;
  int groups, elements;
  struct strip *strip;
  size_t count, cap;
};

/* ---- words.c ---- */

enum face { FACE_PLAIN, FACE_BOLD };
PangoLayout *set_words(struct setting *t, const char *text, double size, enum face face, double width, bool to_the_right);
/* Our sentences run from left to right, whatever names stand in them; what is a name alone runs as it does. */
void run_as_it_does(PangoLayout *l);
double words_height(PangoLayout *l);
double words_width(PangoLayout *l); /* of the longest line as set */
struct strip *add_strip(struct setting *t, struct strip s);
void add_item(struct setting *t, struct strip *s, struct item i);

/* ---- ink.c ---- */

void ink_paint(cairo_t *cr, enum paint p);
void ink_drawing(struct setting *t, const struct drawing *d, double x, double y, double width);

/* ---- grid.c: a table as strips ---- */
void lay_table(struct setting *t, const struct sheet_table *table);

#endif
