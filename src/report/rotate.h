/* rotate.h: a rotation drawn for a terminal, or what no rotation meets. Layer: report. */
#ifndef BW_REPORT_ROTATE_H
#define BW_REPORT_ROTATE_H

#include "report/report.h"
#include "time/rotate.h"

struct rotate_view {
  const struct animal *animal;
  const char *says, *says_with;
  const struct rotation *found; /* NULL: none */
  int recipes;
  const char *const *name, *const *told; /* [recipes] what each does not meet alone */
  const double *batches;                 /* [recipes] NaN: how much a batch makes is not said */
  const char *const *addition;           /* sentences */
  size_t additions;
  const char *plan;
};
void report_rotate(const struct rotate_view *v, const struct report_style *style, struct buf *out);

#endif
