/* app_mend.h: mending a recipe, text in and text out.
 *
 * Layer: app. */
#ifndef BW_APP_MEND_H
#define BW_APP_MEND_H

#include "app/app.h"
#include "change/mended.h"

struct app_mend_request {
  struct app_check_request check; /* the recipe, the animal, what is asked */
  struct app_input larder;        /* foods at hand, offered first; name NULL: none */
  bool quick;                     /* as in mend_request */
  bool one_way;                   /* not with foods alone and with supplements alone as well */
  lp_go_on *go_on;
  void *user;
};

struct app_mend_answer {
  struct app_check_answer check; /* complaints; result: of the recipe as it is */
  struct diags larder_diags, request_diags;
  bool understood;
  struct mended_answer answer; /* empty when something was not understood */
};

void app_mend(const struct library *lib, const struct app_mend_request *q, struct app_mend_answer *out, struct arena *arena);

#endif
