/* many.h: the summary of many texts, for a terminal and as a picture.
 *
 * Layer: report. */
#ifndef BW_REPORT_MANY_H
#define BW_REPORT_MANY_H

#include "report/report.h"
#include "words/many.h"

void report_many(const struct many *m, const struct report_style *style, struct buf *out);
/* One SVG file: bars of how often each nutrient is short, thin, unproven or over, and the dangers; with a text that says
 * the same. */
void report_many_svg(const struct many *m, struct buf *out);

#endif
