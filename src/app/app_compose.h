/* app_compose.h: from a larder text to a recipe text. Layer: app. */
#ifndef BW_APP_COMPOSE_H
#define BW_APP_COMPOSE_H

#include "app/app.h"
#include "change/composed.h"
#include "larder/larder_text.h"

struct app_compose_request {
  struct app_input larder;
  struct app_check_request check; /* the animals, what is asked; its recipe is not used. No for_name: the larder's For
                                   * header, else all when there is only one */
  lp_go_on *go_on;                /* may be NULL; false: the best found so far */
  void *user;
};

struct app_compose_answer {
  struct diags larder_diags, animal_diags, aim_diags, journal_diags;
  bool understood; /* all texts; else nothing was computed */
  const struct larder *larder;
  struct composed_answer answer;
};

void app_compose(const struct library *lib, const struct app_compose_request *q, struct app_compose_answer *out,
                 struct arena *arena);

#endif
