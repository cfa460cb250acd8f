/* ways.h: the same ration raw, simmered with its broth, simmered and drained, and baked.
 *
 * All four rest on the same raw grams; what can be cooked is cooked, and of every line that is left as it is, it is said
 * why. docs/method/cooking-ways.md. Layer: explain. */
#ifndef BW_WAYS_H
#define BW_WAYS_H

#include "foods/cooking.h"
#include "judge/check.h"

enum way { WAY_RAW, WAY_BROTH_KEPT, WAY_DRAINED, WAY_BAKED, WAY_COUNT };
extern const char *const way_key[WAY_COUNT], *const way_name[WAY_COUNT];

enum way_left {
  LEFT_NOT,            /* it is cooked, or raw on purpose */
  LEFT_BONE,           /* a bone-in piece, or bone: never cooked */
  LEFT_AS_IT_IS,       /* powder, oil, milk: not what one cooks */
  LEFT_COOKED_ALREADY, /* published or canned as cooked */
  LEFT_NO_FIGURES,     /* no cooking figures for this food */
  LEFT_COUNT
};
extern const char *const way_left_text[LEFT_COUNT];

struct way_line {
  enum way_left left;
  const struct img_retention *row; /* of the losses; NULL raw */
  bool other_method;               /* the row is of another method than the one meant */
  struct weight_yield yield;       /* cooked g per raw g; mean NaN: not known, and the raw weight is shown */
};

struct cooked_way {
  enum way way;
  struct ration ration;
  const struct way_line *line;     /* as many as the ration has */
  double grams_low, grams_high;    /* a day, as eaten, by the ranges of the yields */
  int cooked_count, yield_unknown; /* lines */
};

/* WAY_COUNT ways. */
const struct cooked_way *ways_of(const struct library *lib, const struct ration *ration, struct arena *arena);

/* ml a day of what is eaten, without air between the pieces: the sum of water, protein, fat, carbohydrate and ash, each at
 * its own density. NaN when the density table is not there. */
double volume_of(const struct library *lib, const struct check_result *r);

#endif
