/* app_lines.h: a text as its lines, for whoever draws it: what each line is, what the text is called, for whom it is. No
 * library is needed.
 *
 * Layer: app. */
#ifndef BW_APP_LINES_H
#define BW_APP_LINES_H

#include "base/arena.h"
#include "text/line_parts.h"

/* ORDER TEXT_KIND: text_kind_word[] in app_lines.c; the words of the page's store. */
enum text_kind { TEXT_RECIPE, TEXT_LARDER, TEXT_ANIMALS, TEXT_FOODS, TEXT_KIND_COUNT };
extern const char *const text_kind_word[TEXT_KIND_COUNT];

struct app_line {
  struct span whole; /* the line as it stands in the text */
  struct line_parts parts;
};

struct app_lines {
  const struct app_line *line; /* all of them, also the last when it is empty */
  size_t count;
  const char *title;        /* what the text calls itself, else its first food; "" */
  const char *for_whom;     /* "" */
  const char *const *names; /* of the animals, or of the own foods */
  size_t name_count;
  bool begun; /* it holds more than headers, headings and remarks */
};

void app_lines(enum text_kind kind, struct span text, struct app_lines *out, struct arena *arena);

#endif
