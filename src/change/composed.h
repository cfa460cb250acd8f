/* composed.h: what compose found, with the words that texts give it. Filled by whoever writes the texts; drawn and listed
 * by others. Layer: change. */
#ifndef BW_COMPOSED_H
#define BW_COMPOSED_H

#include "change/compose.h"

struct composed_bowl {
  const char *text;                 /* a recipe for this animal, readable by check */
  const char *topper;               /* household: what comes on top of the base, a line a food; "" when nothing */
  const struct check_result *after; /* check of the text, with the written review */
  bool kept;                        /* the text, read again, keeps every promise */
};

struct composed {
  const struct compose_dish *dish;
  const struct composed_bowl *bowl; /* [animals] */
  const char *base;                 /* household: the base for all in a day, a line a food; "" for one animal */
};

struct composed_answer {
  const struct compose_request *request;
  const struct compose_result *result;
  const char *name;                       /* of the larder; "" */
  const char *currency;                   /* "" */
  const char *aim;                        /* "cheapest", "nearest to 80:10:5:5" */
  const struct composed *found, *nearest; /* NULL */
  bool priced;                            /* every food has a price */
};

#endif
