/* app_sheet.h: what a sheet for the kitchen wall tells: the check of a recipe, and the recipe in the kitchen.
 *
 * Layer: app. */
#ifndef BW_APP_SHEET_H
#define BW_APP_SHEET_H

#include "app/app.h"
#include "kitchen/kitchen.h"

struct app_sheet_request {
  struct app_check_request check; /* the recipe, the animal, what is asked: days and meals among it */
  struct app_input larder;        /* for prices and packs; name NULL: none */
};

struct app_sheet_answer {
  struct app_check_answer check; /* complaints; result NULL: the recipe or the animal was not understood */
  struct diags larder_diags;
  const struct kitchen *kitchen; /* NULL: something was not understood */
};

void app_sheet(const struct library *lib, const struct app_sheet_request *q, struct app_sheet_answer *out,
               struct arena *arena);

#endif
