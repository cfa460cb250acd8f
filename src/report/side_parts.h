/* side_parts.h: what the files of "side" share. Private to this folder. */
#ifndef BW_REPORT_SIDE_PARTS_H
#define BW_REPORT_SIDE_PARTS_H

#include "report/answer.h"

struct side_scene {
  struct pen pen;
  const struct library *lib;
  const struct side *s;
  const struct cooked_way *ways; /* NULL */
  bool rails;                    /* against needs; else from nothing to the most */
};

extern const char *const side_letter[SIDE_MOST]; /* "A", "B" */

/* side_items.c: who is who, what the amounts mean, and how the ways of cooking were reckoned. */
void side_items(const struct side_scene *x);

#endif
