/* swapped.h: the best exchanges of one line, with what a reader wants to know of each. Layer: change. */
#ifndef BW_SWAPPED_H
#define BW_SWAPPED_H

#include "change/swap.h"

struct swapped_hit {
  uint32_t food;
  double grams; /* as eaten on a feeding day */
  double score;
  const enum nutrient *repairs, *breaks; /* whose verdict gets better, worse */
  size_t repair_count, break_count;
  double fat_g, kcal, eaten_g; /* change a day */
  double cost;                 /* a day, of this line; NaN: not known */
  const struct check_result *after;
  enum swap_near near; /* the part of the list in which it stands */
  bool thiaminase;  /* as it would be fed it is reported to carry an enzyme that destroys thiamin: no verdict shows that */
  const char *text; /* the line as it would be typed: "120 g lamb heart, raw [usda:17191]", rounded to three digits */
};

struct swapped {
  const struct ration *ration;
  size_t line;
  const struct check_result *before;
  bool refused, by_mass, asked_by_mass, everyday;
  bool energy_unknown; /* of the line that goes: not known, or in part only */
  const struct swapped_hit *hit;
  size_t count;
  size_t offered, possible; /* foods looked at; of those light enough */
  const char *part;         /* "muscle" ...; NULL: any */
  double cost;              /* of the line as it is; NaN */
  const char *currency;
};

#endif
