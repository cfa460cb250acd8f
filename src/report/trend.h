/* trend.h: a trend drawn for a terminal: what matters, a small picture, what to look at. Layer: report. */
#ifndef BW_REPORT_TREND_H
#define BW_REPORT_TREND_H

#include "judge/animal.h"
#include "report/report.h"
#include "trend/told.h"

void report_trend(const struct library *lib, const struct animal *animal, const struct trend_told *told,
                  const struct report_style *style, struct buf *out);

#endif
