/* line_parts.h: what the pieces of one line are, for whoever draws a text or changes one line of it. The readers of recipes,
 * larders, labels and animals say which headers they know; the rest is the same in all of them.
 *
 * Layer: text. */
#ifndef BW_LINE_PARTS_H
#define BW_LINE_PARTS_H

#include "text/scan.h"

/* ORDER LINE_KIND: line_kind_word[] in line_parts.c. */
enum line_kind {
  LINE_EMPTY,
  LINE_REMARK,
  LINE_QUESTION,  /* "# ask: ...": a remark that only the owner can answer */
  LINE_HEADER,    /* "For: Juniper" */
  LINE_HEADING,   /* "Monday:", "Breakfast" */
  LINE_UNCOUNTED, /* "? a scoop of something": fed, and unknown */
  LINE_FOOD,      /* whatever else: a food, or a line that is not understood */
  LINE_KIND_COUNT
};
extern const char *const line_kind_word[LINE_KIND_COUNT];

struct line_parts {
  enum line_kind kind;
  const char *header; /* the header's own word; NULL: none, or none that is known */
  struct span said;   /* without remark and blanks around it; points into the text, as all of them */
  struct span key;    /* with the colon: "For:"; n 0 */
  struct span value;  /* behind it */
  struct span pin;    /* "[usda:17199]"; n 0 */
  struct span remark; /* from '#' on; n 0 */
  struct span ask;    /* of a question: what is asked */
};

/* What can be told without knowing of what the text is; headers and headings are food until the reader says more. */
void line_parts_read(struct span line, struct line_parts *out);

#endif
