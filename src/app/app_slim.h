/* app_slim.h: a weight plan for an overweight adult: energy in steps, days to weigh, a bowl that meets every allowance.
 *
 * Layer: app. */
#ifndef BW_APP_SLIM_H
#define BW_APP_SLIM_H

#include "app/app_mend.h"
#include "trend/slim.h"

struct app_slim_request {
  struct app_mend_request
      mend; /* recipe: text n 0, none: the plan alone. check.journal: the need and the weight come from it */
};

enum { SLIM_SENTENCES = 12 };

struct app_slim_answer {
  bool understood;
  const struct animal *animal;
  enum refusal refusal;
  long from;        /* the first day */
  double weight_kg; /* today: by the journal, else as stated */
  bool weight_measured;
  double heaviest_kg; /* of the journal's trend; NaN */
  double start_share; /* above the ideal weight, from where on a plan begins */
  struct animal_body body;
  struct energy_need need; /* measured, stated or by the equation; 'now' is its interval */
  struct trend_band now;
  double floor_kcal;
  double bowl_kcal; /* of the mended bowl, where that is more than the lowest step should have; NaN */
  double rate_low, rate_high; /* safe, a week, shares of the weight */
  struct slim_plan plan;
  const char *lead;                 /* in words */
  const char *rule[SLIM_SENTENCES]; /* what to do meanwhile, and when to stop */
  const char *stop[SLIM_SENTENCES];
  size_t rules, stops;
  struct app_mend_answer
      bowl; /* at the lowest energy of the plan; bowl.understood false: no recipe, or it was not understood */
  bool bowl_wanted;
  double grams_at_lowest; /* of the mended bowl a day; NaN */
  struct diags animal_diags, journal_diags;
};

void app_slim(const struct library *lib, const struct app_slim_request *q, struct app_slim_answer *out, struct arena *arena);

#endif
