/* compose.h: a composed recipe drawn for a terminal. Layer: report. */
#ifndef BW_REPORT_COMPOSE_H
#define BW_REPORT_COMPOSE_H

#include "change/composed.h"
#include "report/report.h"

void report_compose(const struct library *lib, const struct composed_answer *a, const struct report_style *style,
                    struct buf *out);

#endif
