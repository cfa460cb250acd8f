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

/* Where a mark of the amount is drawn: at its place, or at the end that it lies beyond. */
enum rail_end { RAIL_INSIDE, RAIL_BELOW, RAIL_ABOVE, RAIL_END_COUNT };
extern const char *const rail_end_word[RAIL_END_COUNT];

/* The same as shares of the scale's width, 0 at a quarter of the allowance and 1 at eight times it, in steps of which none
 * is seen; what lies beyond stands at its end. NaN: nothing is drawn. SVG and the page draw these and nothing else. */
struct rail_places {
  double mark, low, high, leanest, minimum, limit;
  double unknown_from, unknown_to;
  enum rail_end mark_end;
  bool limit_is_tested, sure;
};
/* False, and nothing to draw, for a nutrient without an allowance. */
bool rail_places(const struct nutrient_result *n, struct rail_places *to);
double rail_place(double multiple);

/* The marks, each with one meaning: what is drawn around its place, on a rail RAIL_SIGN_HEIGHT high with the place in its
 * middle. */
enum { RAIL_SIGN_HEIGHT = 26, SIGN_STROKES_MOST = 4 };
enum rail_sign {
  SIGN_NEED, /* as high as the rail */
  SIGN_AMOUNT,
  SIGN_UNSURE,
  SIGN_BELOW,
  SIGN_ABOVE,
  SIGN_SPREAD,  /* from one place to another */
  SIGN_UNKNOWN, /* the same, hatched */
  SIGN_MINIMUM,
  SIGN_LIMIT,
  SIGN_TESTED,
  SIGN_LEANEST,
  SIGN_OTHER, /* where two bowls stand on one rail */
  SIGN_COUNT
};
struct sign_stroke {
  double x1, y1, x2, y2;
};
struct rail_sign_drawn {
  const char *key;
  const char *looks; /* "dashed angle" */
  const char *words; /* what it means */
  double thick;      /* of its strokes; of the outline of a ring */
  double radius;     /* of a disc; of a bar half its height */
  struct sign_stroke stroke[SIGN_STROKES_MOST];
  int strokes;
  bool filled, dashed;
};
extern const struct rail_sign_drawn rail_sign[SIGN_COUNT];
/* "mark: the amount a day; hollow mark: ...": of the marks that are drawn where one bowl stands alone. */
const char *rail_legend(struct arena *a);
/* "65 % of what is needed, 9 times in 10 between 55 % and 76 %": what the rail shows, for those who cannot see it. */
const char *rail_says(const struct nutrient_result *n, struct arena *a);

/* The figure that the verdict speaks of is the upper limit. */
bool rail_by_limit(const struct nutrient_result *n);

/* Of this width, RAIL_HEIGHT high, without figures; of a nutrient without an allowance the empty scale. */
#define RAIL_HEIGHT 12.0
struct drawing *picture_rail(const struct nutrient_result *n, double width, struct arena *a);
/* Each mark beside its meaning. */
struct drawing *picture_legend(double width, double size, struct arena *a);
/* The scale above rails: a quarter, half, need, 2, 4, 8 times. */
enum { RAIL_SCALE_MARKS = RAIL_OCTAVES + 1 };
extern const char *const rail_scale_word[RAIL_SCALE_MARKS]; /* in equal steps from 0 to 1 */
struct drawing *picture_scale(double width, double size, struct arena *a);

#endif
