/* plate.h: what is wrong with a dinner as a whole, and its proportions set right before anything is looked for: mostly watery
 * vegetables, mostly liver, mostly fat, tuna every day for a cat. No few additions mend such a bowl; who formulates begins with its main foods.
 *
 * docs/method/mend.md, "The proportions first". Layer: change. Pure. */
#ifndef BW_PLATE_H
#define BW_PLATE_H

#include "change/mend.h"

struct plate {
  double of_watery, of_liver; /* shares of the food as it is that were too much; 0: that was not what is wrong */
  double of_fat;              /* share of the energy; 0 */
  double tuna_g;              /* a day, of which the mercury adds up; 0 */
  double would_weigh_g;       /* a day, the same food at the energy that is wanted */
  double times;               /* of what is not set right: below 1 where the whole is more than is wanted */
  double *to_g;               /* [lines] as eaten a day */
  uint32_t *lean;             /* [lines] the food in the line's place; NO_INDEX: its own */
};

struct plate_request {
  const struct ration *ration;
  const struct check_result *before; /* of that ration */
  double kcal;                       /* a day, wanted */
  const bool *keep;                  /* [lines] not to be touched */
  const char *const *never;          /* foods that the person refuses, beside those of the ration */
  size_t nevers;
};

/* False: nothing of that kind is wrong, or it cannot be set right with the foods of the bowl. */
bool plate_right(const struct library *lib, const struct plate_request *q, struct plate *out, struct arena *arena);

/* What people call a food, by the shortest of the names that mean it best. NULL: none. */
const char *plate_name(const struct library *lib, uint32_t food);

#endif
