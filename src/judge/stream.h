/* stream.h: fills one stream of totals.h from the library. Layer: judge. */
#ifndef BW_STREAM_H
#define BW_STREAM_H

#include "judge/totals.h"

/* 's' zeroed but for food and retention. */
void stream_fill(struct stream *s, const struct library *lib, double carotene_factor);
/* The most per gram that ordinary food has of it, fat, oil, seeds and nuts left out: the highest of the classes' high values;
 * NaN: of none is one known. */
double stream_high_of_food(const struct library *lib, enum nutrient n, double carotene_factor);
/* All of it. */
void stream_begin(struct stream *s, uint32_t food, int32_t retention, const struct library *lib, double carotene_factor);

/* Its energy, which energy.c makes the species' own. */
struct stream_energy {
  double per_g, high_per_g, most_per_g, value_cv2, kept_cv2;
  uint8_t status;
  bool missing;
};
struct stream_energy stream_energy_of(const struct stream *s);
void stream_set_energy(struct stream *s, const struct stream_energy *e);

#endif
