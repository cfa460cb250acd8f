/* week.h: days and weeks drawn for a terminal. Layer: report. */
#ifndef BW_REPORT_WEEK_H
#define BW_REPORT_WEEK_H

#include "report/report.h"
#include "time/week.h"

/* 'assumed': sentences on what was assumed. */
void report_week(const struct library *lib, const struct week *w, const char *const *assumed, size_t assumed_count,
                 const struct report_style *style, struct buf *out);

#endif
