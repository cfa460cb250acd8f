/* app_swap.h: one line of a recipe against the library. Layer: app. */
#ifndef BW_APP_SWAP_H
#define BW_APP_SWAP_H

#include "app/app.h"
#include "change/swapped.h"

struct app_swap_request {
  struct app_check_request check; /* the recipe, the animal, what is asked */
  struct app_input larder;        /* for prices; name NULL: none */
};

struct app_swap_answer {
  struct app_check_answer check; /* complaints */
  struct diags larder_diags, line_diags;
  const struct swapped *swapped; /* NULL when something was not understood */
};

void app_swap(const struct library *lib, const struct app_swap_request *q, struct app_swap_answer *out, struct arena *arena);

#endif
