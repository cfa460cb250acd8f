/* app_side.h: recipes or foods side by side.
 *
 * Layer: app. */
#ifndef BW_APP_SIDE_H
#define BW_APP_SIDE_H

#include "app/app.h"
#include "explain/side.h"
#include "explain/ways.h"

struct app_side_request {
  struct app_check_request check; /* the animal, the options; its recipe is not used */
  enum side_kind kind;
  const struct app_input *input; /* recipes; foods: the words or the pin as name, text unused; ways: one recipe */
  size_t count;                  /* at most SIDE_MOST */
  enum side_per per;
};

struct app_side_answer {
  const struct side *side;               /* NULL when something was not understood */
  const struct cooked_way *ways;         /* SIDE_WAYS */
  struct app_check_answer of[SIDE_MOST]; /* complaints about each input; those about the animals stand in the first */
  const struct animal *animal;           /* NULL: none was given */
};

/* One animal for all: the one asked for, else that of the first recipe. */
void app_side(const struct library *lib, const struct app_side_request *q, struct app_side_answer *out, struct arena *arena);

#endif
