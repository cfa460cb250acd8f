/* rail.h: one nutrient as a line: where the amount lies against what is needed. Terminal, sheet, paper and SVG draw this.
 *
 * The need is always at the same place; the scale is logarithmic, from a quarter of it to eight times. Layer: picture. */
#ifndef BW_PICTURE_RAIL_H
#define BW_PICTURE_RAIL_H

#include "judge/check.h"
#include "picture/drawing.h"

enum { RAIL_OCTAVES_BELOW = 2, RAIL_OCTAVES_ABOVE = 3, RAIL_OCTAVES = RAIL_OCTAVES_BELOW + RAIL_OCTAVES_ABOVE };

/* Everything as a multiple of the allowance; NaN where there is none. */
struct rail {
  double low, middle, high; /* 5 %, mean, 95 % */
  double lean;              /* mean of the leanest window, when that decides */
  double least, limit;      /* minimum, upper limit */
  bool limit_is_tested;     /* the highest level tested, not a ceiling */
  double reach;             /* where it would end if foods without data were rich in it */
  bool data_missing, reach_unknown;
  bool sure; /* filled mark; hollow otherwise */
};

/* A nutrient that has an allowance. */
struct rail rail_of(const struct nutrient_result *n);
/* The figure that the verdict speaks of is the upper limit. */
bool rail_by_limit(const struct nutrient_result *n);

/* Of this width, RAIL_HEIGHT high, without figures; of a nutrient without an allowance the empty scale. */
#define RAIL_HEIGHT 12.0
struct drawing *picture_rail(const struct nutrient_result *n, double width, struct arena *a);
/* The scale above rails: a quarter, half, need, 2, 4, 8 times. */
struct drawing *picture_scale(double width, double size, struct arena *a);

#endif
