/* app_mend.h: mending a recipe, text in and text out.
 *
 * Layer: app. */
#ifndef BW_APP_MEND_H
#define BW_APP_MEND_H

#include "app/app.h"
#include "change/mend.h"

struct app_mend_request {
  struct app_check_request check; /* the recipe, the animal, the options */
  struct app_input larder;        /* foods at hand, offered first; name NULL: none */
  const char *const *keep;        /* lines not to be touched: a line number, or words of the line */
  size_t keeps;
  const char *const *never; /* foods not to be added: a pin, or words of the name */
  size_t nevers;
  bool no_supplements;
  int proposals;      /* 1 to 9 */
  double energy_kcal; /* wanted a day; NaN: as mend_limits */
  lp_go_on *go_on;
  void *user;
};

/* A line of the old text or of the new. */
struct app_text_line {
  enum { TEXT_SAME, TEXT_OUT, TEXT_IN } kind;
  int line;         /* in the old text (0: not in it) */
  const char *text; /* whole, without its end */
  int change;       /* index into the proposal's changes, for TEXT_OUT and TEXT_IN; -1 */
};

struct app_mended {
  const struct mend_proposal *proposal;
  const char *text; /* the new recipe */
  const struct app_text_line *line;
  size_t lines;
  const char **from, **to;          /* [proposal->count] amounts in words as the text has them; NULL: not in it */
  const char **food;                /* [proposal->count] what it is called */
  int *text_line;                   /* [proposal->count] in the old text; 0: added */
  const struct check_result *after; /* check of the new text: with the written review */
  bool kept;                        /* the text, read again, keeps every promise (always true for what is found) */
};

struct app_mend_answer {
  struct app_check_answer check; /* complaints; result: of the recipe as it is */
  struct diags larder_diags, request_diags;
  const struct mend_result *mend; /* NULL when something was not understood */
  const struct app_mended *found;
  size_t count;
  const struct app_mended *nearest; /* NULL */
};

void app_mend(const struct library *lib, const struct app_mend_request *q, struct app_mend_answer *out, struct arena *arena);

/* "mend --json": one object, no line end. */
void json_mend(const struct library *lib, const struct app_mend_answer *a, struct buf *out);

#endif
