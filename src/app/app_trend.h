/* app_trend.h: weights and what was eaten over time: where the weight is going, what the animal itself needs, what comes
 * next.
 *
 * Layer: app. */
#ifndef BW_APP_TREND_H
#define BW_APP_TREND_H

#include "app/app.h"
#include "trend/told.h"

struct app_trend_answer {
  const struct animal *animal;
  enum refusal refusal; /* not REFUSE_NOT: the weights alone */
  struct animal_body body;
  struct energy_need equation; /* what is stated or the equation says */
  struct trend_told told;      /* trend NULL: something was not understood */
  bool surer;                  /* the measured need is surer than the equation */
  double safe_low, safe_high;  /* loss a week, shares of the weight */
  int every_days;              /* between weighings, as they were or as is advised */
  int wanted_surer,
      wanted_ten; /* weighings more until the need is surer than the equation, and known to a tenth; -1 never */
  struct diags journal_diags, animal_diags;
};

/* q->journal holds the journal. answer.told.trend is NULL when something was not understood. */
void app_trend(const struct library *lib, const struct app_check_request *q, struct app_trend_answer *out,
               struct arena *arena);

#endif
