/* review_left.h: nutrients are not all that the review looks at. What it says of a bowl that keeps every promise.
 *
 * Layer: report, internal. */
#ifndef BW_REPORT_REVIEW_LEFT_H
#define BW_REPORT_REVIEW_LEFT_H

#include "judge/check.h"
#include "report/pen.h"

/* What asks for action, and what is to be watched that was not in 'before' (NULL: nothing was). 'whose': a name in front of
 * the heading, or "". Nothing is written when there is nothing to say. */
void say_review_left(const struct pen *p, const struct check_result *before, const struct check_result *after,
                     const char *whose);

#endif
