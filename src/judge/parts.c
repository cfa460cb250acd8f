#include "base/table.h"
#include "judge/check_steps.h"

WORD_TABLE(json_part_key, BOWL_COUNT, "muscle", "organ_liver", "organ_secreting", "bone", "plant", "fish", "egg", "dairy",
           "fat_oil", "supplement", "other");

/* Heart, gizzard, tongue and tripe are fed as muscle meat in the trade (common practice). */
enum bowl_part json_part_of(enum part p) {
  switch (p) {
  case PART_MUSCLE:
  case PART_ORGAN_OTHER:
    return BOWL_MUSCLE;
  case PART_ORGAN_LIVER:
    return BOWL_ORGAN_LIVER;
  case PART_ORGAN_SECRETING:
    return BOWL_ORGAN_SECRETING;
  case PART_BONE:
    return BOWL_BONE;
  case PART_FISH:
  case PART_SHELLFISH:
    return BOWL_FISH;
  case PART_EGG:
    return BOWL_EGG;
  case PART_DAIRY:
    return BOWL_DAIRY;
  case PART_VEGETABLE:
  case PART_FRUIT:
  case PART_GRAIN:
  case PART_LEGUME:
  case PART_SEED_NUT:
    return BOWL_PLANT;
  case PART_FAT_OIL:
    return BOWL_FAT_OIL;
  case PART_SUPPLEMENT:
    return BOWL_SUPPLEMENT;
  case PART_OTHER:
  case PART_COUNT:
    break;
  }
  return BOWL_OTHER;
}

void parts_fill(const struct totals *t, double share[BOWL_COUNT]) {
  for (int i = 0; i < BOWL_COUNT; i++) share[i] = 0;
  if (!(t->eaten_g > 0)) return;
  for (int i = 0; i < t->row_count; i++) {
    const struct portion_row *r = &t->row[i];
    const struct img_food *food = t->stream[r->stream]->record;
    share[json_part_of(food ? (enum part)food->part : PART_OTHER)] += r->eaten_g / t->eaten_g;
  }
}
