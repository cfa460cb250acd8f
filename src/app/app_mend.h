/* app_mend.h: mending a recipe, text in and text out.
 *
 * Layer: app. */
#ifndef BW_APP_MEND_H
#define BW_APP_MEND_H

#include "app/app.h"
#include "change/mended.h"

struct app_mend_request {
  struct app_check_request check; /* the recipe, the animal, the options */
  struct app_input larder;        /* foods at hand, offered first; name NULL: none */
  const char *const *keep;        /* lines not to be touched: a line number, or words of the line */
  size_t keeps;
  const char *const *never; /* foods not to be added: a pin, or words of the name */
  size_t nevers;
  bool no_supplements;
  int proposals;      /* 1 to 9 */
  bool quick;         /* as in mend_request */
  double energy_kcal; /* wanted a day; NaN: as mend_limits */
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
