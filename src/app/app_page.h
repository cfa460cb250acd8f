/* app_page.h: what a page asks while somebody writes. One line is then nearly always half a line, so that what is not
 * understood is left out and said to be so, and the rest is answered.
 *
 * Layer: app. */
#ifndef BW_APP_PAGE_H
#define BW_APP_PAGE_H

#include "app/app.h"
#include "foods/search.h"
#include "larder/larder_text.h"
#include "recipe/recipe_choices.h"

/* What one line leaves open. */
struct line_choices {
  int line, column; /* where the options' text begins, in characters from 1; it takes the place of the rest of the line */
  const struct choice *option;
  size_t count;
};

struct app_page_answer {
  struct app_check_answer check; /* complaints of the whole text; result: of the lines that are understood, NULL when even
                                    that cannot be done */
  bool brief;                    /* numbers only were asked for */
  double eaten;                  /* share of the food that the result is of */
  const int *left_out;           /* lines that the result is without, in their order */
  size_t left_outs;
  const struct line_choices *choices; /* of the lines that leave something open; none with "numbers-only" */
  size_t choice_count;
};
void app_page(const struct library *lib, const struct app_check_request *q, struct app_page_answer *out,
              struct arena *arena);

struct app_larder_answer {
  struct diags diags;
  bool understood;
};
void app_larder(const struct library *lib, const struct app_input *larder, struct app_larder_answer *out,
                struct arena *arena);

/* A label text: its foods join the library's own; those that are not understood are left out. */
struct app_shelf_answer {
  struct diags *diags; /* one for each food of the text */
  size_t count;
  size_t first; /* own foods from this one on come from this text */
};
void app_shelf(struct library *lib, const struct app_input *labels, struct app_shelf_answer *out, struct arena *arena);

/* Foods for a line that is being written. */
struct app_suggestions {
  int column, width; /* of the food's words, in characters from 1; column 0 when the line holds none yet */
  struct span words;
  bool pinned;                  /* a record is chosen already */
  const struct img_name **name; /* everyday names that the words begin */
  size_t names;
  const struct search_hit *hit;
  size_t hits;
};
void app_suggest(const struct library *lib, struct span line, size_t most, struct app_suggestions *out, struct arena *arena);

/* [library_count] Does an everyday phrase mean this food, or is it used to bring a nutrient? */
const bool *app_named_foods(const struct library *lib, struct arena *arena);

#endif
