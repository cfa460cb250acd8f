/* mend_first.h: what was done to a recipe before a change was looked for. Private to this folder. */
#ifndef BW_REPORT_MEND_FIRST_H
#define BW_REPORT_MEND_FIRST_H

#include "change/mended.h"
#include "report/pen.h"

/* What must not be fed stands above everything, with what is to be done. */
void say_dangers(const struct pen *p, const struct mended_answer *a);
void say_what_came_first(const struct pen *p, const struct mended_answer *a);

#endif
