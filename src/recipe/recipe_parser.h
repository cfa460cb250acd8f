/* recipe_parser.h: what the text of a recipe said, until all of it is read. Private to the recipe reader. Layer: recipe. */
#ifndef BW_RECIPE_PARSER_H
#define BW_RECIPE_PARSER_H

#include <math.h>

#include "recipe/heading.h"
#include "recipe/recipe_line.h"

/* ORDER: rows of HEADERS. */
enum {
  HEADER_RECIPE,
  HEADER_FOR,
  HEADER_MAKES,
  HEADER_MEALS,
  HEADER_TOTAL,
  HEADER_COOK,
  HEADER_FEEDS,
  HEADER_DOG,
  HEADER_CAT,
  HEADER_NEVER,
  HEADER_NOTE,
  HEADER_COUNT
};

enum { MOST_DAYS = 366 };

struct parser {
  struct recipe *out;
  struct diags *d;
  struct arena *arena;
  struct recipe_line *line;
  struct line_extra { /* what a line said that the headers complete; beside 'line' */
    struct frequency often;
    struct span each_meal_at;
  } * extra;
  size_t count, cap, extra_count, extra_cap;
  struct header_reader headers;
  struct span seen[HEADER_COUNT];
  double feeds_g;     /* a day; NaN */
  double batch_meals; /* "Makes: 14 meals"; NaN */
  bool cook_raw_weight;
  int8_t cook_broth;
  struct buf note;
  const char **never;
  size_t never_count, never_cap;
  struct ration_remark *remark;
  size_t remark_count, remark_cap;
  struct ration_uncounted *uncounted;
  size_t uncounted_count, uncounted_cap;
  int said;               /* lines that say something */
  bool anything;          /* a line that says something was seen */
  struct heading heading; /* in force for the lines below it */
};

/* recipe_settle.c: what needs the whole text, in this order: how long it lasts, what lines say of meals and periods, shares.
 */
void settle_makes(struct parser *p);
void settle_lines(struct parser *p);
void settle_percent(struct parser *p);

#endif
