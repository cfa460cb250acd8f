/* own_food.h: an own food of which only its name and kind matter. */
#ifndef BW_OWN_FOOD_H
#define BW_OWN_FOOD_H

#include <math.h>

#include "foods/library.h"

#define OWN_FOOD(part_, state_, code_, name_)                                                                               \
  {                                                                                                                         \
    .food = {.part = (part_), .state = (state_), .flags = FOOD_OWN, .bone_share = NAN}, .code = (code_), .name = (name_),   \
    .note = ""                                                                                                              \
  }

#endif
