/* helps.h: foods that would make an impossible bowl possible, in words.
 *
 * Layer: report, internal. */
#ifndef BW_REPORT_HELPS_H
#define BW_REPORT_HELPS_H

#include "change/model.h"
#include "report/pen.h"

/* A paragraph for each food, then what they can do together. */
void say_helps(const struct pen *p, const struct library *lib, const struct model_helps *h);

#endif
