/* mend.h: the answer of mending drawn for a terminal. Layer: report. */
#ifndef BW_REPORT_MEND_H
#define BW_REPORT_MEND_H

#include "change/mended.h"
#include "report/report.h"

void report_mend(const struct library *lib, const struct mended_answer *a, const struct report_style *style,
                 struct buf *out);

#endif
