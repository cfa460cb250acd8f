/* supply.h: who supplies a nutrient, and what a bowl is made of, as bars of pieces. A nutrient's bar stands on a scale that
 * ends at the amount, or at the need where that is more: what the bar lacks of it is seen. Layer: picture. */
#ifndef BW_PICTURE_SUPPLY_H
#define BW_PICTURE_SUPPLY_H

#include "judge/check.h"
#include "picture/drawing.h"
#include "picture/pieces.h"

/* More lines than these share the last piece. */
enum { SUPPLY_PIECES = 8 };

struct suppliers {
  struct pieces pieces; /* in the order of the nutrient's suppliers, the last one "3 more" where there are more */
  double need;          /* place of the allowance; NaN where there is none */
  const char *title;    /* "Where the zinc comes from" */
  const char *words;    /* "Zinc: 12.2 mg a day" */
  const char *gap;      /* "5.1 mg more is needed"; "" where the amount reaches the need */
  const char *says;
};
/* False, and nothing to draw, where nothing is known of it. */
bool supply_of(const struct library *lib, const struct check_result *r, enum nutrient n, struct suppliers *to,
               struct arena *a);
/* By weight, largest first. */
struct pieces parts_of(const struct check_result *r, struct arena *a);

/* NULL when nothing is known of it. */
struct drawing *picture_supply(const struct library *lib, const struct check_result *r, enum nutrient n, double width,
                               struct arena *a);

#endif
