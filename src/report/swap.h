/* swap.h: exchanges of one line drawn for a terminal. Layer: report. */
#ifndef BW_REPORT_SWAP_H
#define BW_REPORT_SWAP_H

#include "change/swapped.h"
#include "report/report.h"

void report_swap(const struct library *lib, const struct swapped *s, const struct report_style *style, struct buf *out);

#endif
