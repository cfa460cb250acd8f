/* slim.h: a weight plan drawn for a terminal. Layer: report. */
#ifndef BW_REPORT_SLIM_H
#define BW_REPORT_SLIM_H

#include "judge/animal.h"
#include "report/report.h"
#include "trend/slim.h"

struct slim_shown {
  const struct animal *animal;
  enum refusal refusal;
  long from; /* day */
  const struct slim_plan *plan;
  const char *lead;
  const char *const *rule, *const *stop;
  size_t rules, stops;
  double grams_at_lowest; /* of the bowl; NaN */
};

void report_slim(const struct library *lib, const struct slim_shown *s, const struct report_style *style, struct buf *out);

#endif
