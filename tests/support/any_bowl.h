/* any_bowl.h: any animal, and a line with any food, as a recipe's reader would fill it. Include after cmocka.h. */
#ifndef BW_ANY_BOWL_H
#define BW_ANY_BOWL_H

#include <math.h>

#include "judge/animal.h"
#include "judge/ration.h"
#include "tests/support/built_image.h"
#include "tests/support/unit_random.h"

/* A food of the built library without these flags. */
static inline uint32_t any_food(uint32_t without) {
  for (;;) {
    uint32_t f = (uint32_t)below((int)library_count(built_library()));
    if (!(library_food(built_library(), f)->flags & without)) return f;
  }
}

/* Bone-in pieces in two parts. */
static inline struct ration_line line_of(uint32_t food, double grams) {
  const struct img_food *f = library_food(built_library(), food);
  bool bone = (f->flags & FOOD_CUT) && f->bone_share > 0 && f->bone_food != NO_INDEX;
  double share = bone ? (double)f->bone_share : 0;
  struct ration_line l = {.text = "",
                          .part_count = bone ? 2 : 1,
                          .grams_fed = grams,
                          .shown_food = food,
                          .state = STATE_UNSTATED,
                          .grams_from = ""};
  l.part[0] = (struct portion){.food = food, .grams = grams * (1 - share), .retention = -1};
  if (bone) l.part[1] = (struct portion){.food = f->bone_food, .grams = grams * share, .grams_cv = 0.2, .retention = -1};
  ration_spread_days(&l, CALENDAR_DAYS, 0);
  return l;
}

static inline struct animal any_animal(void) {
  bool cat = below(2) == 1;
  struct animal a = animal_plain(cat ? SPECIES_CAT : SPECIES_DOG, cat ? 3 + below(4) : 4 + below(40));
  a.age_years = 5;
  a.neutered = 1;
  return a;
}

#endif
