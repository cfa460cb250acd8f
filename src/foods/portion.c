#include "foods/portion.h"

#include <math.h>

const struct img_portion *portion_of(const struct library *lib, uint32_t food, enum species s) {
  if (food >= img_count(&lib->image, IMG_FOOD_PORTIONS) || s > SPECIES_CAT) return NULL;
  uint8_t i = IMG_ROWS(&lib->image, IMG_FOOD_PORTIONS, struct img_food_portion)[food].of[s];
  return i < img_count(&lib->image, IMG_PORTIONS) ? &IMG_ROWS(&lib->image, IMG_PORTIONS, struct img_portion)[i] : NULL;
}

double portion_most_g(const struct library *lib, uint32_t food, enum species s, double metabolic_kg, double bowl_g) {
  const struct img_portion *p = portion_of(lib, food, s);
  if (!p) return (double)INFINITY;
  double most = (double)p->most_g * metabolic_kg, share = (double)p->most_share * bowl_g;
  return share < most ? share : most; /* an unknown bowl (NaN) leaves the first */
}

int portion_one_of(const struct library *lib, uint32_t food, enum species s) {
  const struct img_portion *p = portion_of(lib, food, s);
  return p ? p->one_of : 0;
}
