/* sheet.h: an answer as a sheet for the kitchen wall: blocks of text, tables and pictures in reading order, which HTML and
 * paper both set. Everything that is computed was computed before: no figure is made here.
 *
 * Layer: sheet. Pure; the date is told by whoever calls. */
#ifndef BW_SHEET_H
#define BW_SHEET_H

#include "kitchen/kitchen.h"
#include "picture/drawing.h"
#include "text/date.h"

struct post;

enum sheet_paper { PAPER_A4, PAPER_LETTER, PAPER_COUNT };
enum sheet_units { UNITS_METRIC, UNITS_US, UNITS_COUNT };
extern const char *const sheet_paper_word[PAPER_COUNT], *const sheet_units_word[UNITS_COUNT];

struct sheet_style {
  enum sheet_paper paper;
  enum sheet_units units;
  bool large; /* letters of 18 points in the place of 10.5 */
  struct date date;
};

enum sheet_tone { TONE_PLAIN, TONE_DIM, TONE_STRONG, TONE_DANGER, TONE_ACT, TONE_WATCH, TONE_KNOW };
enum sheet_kind {
  SHEET_TITLE,
  SHEET_HEADING,
  SHEET_PARAGRAPH,
  SHEET_POINT, /* of a list */
  SHEET_BOX,   /* a finding */
  SHEET_TABLE,
  SHEET_PICTURE
};

struct sheet_column {
  const char *title;
  double share; /* of the width */
  bool figures; /* set to the right */
  bool rail;    /* holds drawings RAIL_HEIGHT high; 'title' is replaced by the scale */
};
struct sheet_cell {
  const char *text, *small; /* "" none; small: a second, smaller line */
  const struct drawing *drawing;
};
struct sheet_row {
  const struct sheet_cell *cell; /* [columns]; 'across': the first alone */
  bool across, strong;
  enum sheet_tone tone; /* TONE_DANGER marks the row */
};
struct sheet_table {
  const char *caption; /* for those who hear it */
  const struct sheet_column *column;
  int columns;
  struct sheet_row *row;
  size_t rows, cap;
  bool names_first; /* the first column heads its row */
};
struct sheet_block {
  enum sheet_kind kind;
  enum sheet_tone tone;
  const char *text;
  const char *more[2]; /* of a box: why, and what to do; "" */
  const struct sheet_table *table;
  const struct drawing *drawing;
};

struct sheet {
  const char *title, *whom; /* "Weeknight bowl", "Juniper, dog, 18 kg ..." */
  const char *date;         /* "28 November 2026"; US: "November 28, 2026" */
  struct sheet_style style;
  struct sheet_block *block;
  size_t count, cap;
};

struct sheet_facts {
  const struct library *lib;
  const struct check_result *check; /* with the written review */
  const struct kitchen *kitchen;
  const struct post *post;     /* NULL: the recipe was strict text */
  const enum nutrient *supply; /* whose suppliers are drawn */
  size_t supplies;
};

/* For an animal that is not judged here: what the food holds, why nothing is judged, who to ask. */
const struct sheet *sheet_of(const struct sheet_facts *f, const struct sheet_style *style, struct arena *arena);

/* One self-contained file. */
void sheet_html(const struct sheet *s, struct buf *out);
/* Every text in reading order, one piece a line: what a reader of any form of the sheet reads. */
void sheet_text(const struct sheet *s, struct buf *out);

#endif
