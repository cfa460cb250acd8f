/* app_week.h: days and weeks: a recipe's own calendar, a plan, or a journal of what was eaten, judged over windows.
 *
 * Layer: app. */
#ifndef BW_APP_WEEK_H
#define BW_APP_WEEK_H

#include "app/app.h"
#include "time/week.h"

enum { WEEK_RECIPES_MOST = 64 };

struct app_week_request {
  struct app_check_request check; /* the animals, the options; its recipe is not used */
  const struct app_input *recipe; /* those that were named, then those that lie beside the plan or journal */
  size_t count, named;            /* of those that are not named, only what a day asks for is read */
  struct app_input plan;          /* text n 0: none; the one recipe's own calendar is looked at */
  struct app_input journal;       /* what was eaten; goes before the plan; name NULL: none */
};

struct app_week_one {
  const struct animal *animal; /* NULL: none was given */
  const struct week *week;
  const char *const *assumed; /* sentences on what was assumed */
  size_t assumed_count;
};

struct app_week_answer {
  struct app_week_one *of; /* one for each animal of the plan; none when something was not understood */
  size_t count;
  struct diags *recipe_diags;    /* [request.count] */
  struct app_check_answer texts; /* complaints about the plan or the journal (as of a recipe) and about the animals */
};

void app_week(const struct library *lib, const struct app_week_request *q, struct app_week_answer *out, struct arena *arena);

#endif
