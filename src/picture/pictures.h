/* pictures.h: what a bowl shows: all its rails, where its energy comes from, who supplies a nutrient. Layer: picture. */
#ifndef BW_PICTURES_H
#define BW_PICTURES_H

#include "judge/check.h"
#include "picture/drawing.h"

/* What the animal needs as a band, what the bowl gives as a bar of its parts. Without a judged animal the bar alone. */
struct drawing *picture_ribbon(const struct check_result *r, double width, struct arena *a);
/* Every nutrient with a verdict, worst first, with its figures. NULL when nothing is judged. */
struct drawing *picture_rails(const struct check_result *r, double width, struct arena *a);
/* Which line supplies how much of a nutrient. NULL when nothing is known of it. */
struct drawing *picture_supply(const struct library *lib, const struct check_result *r, enum nutrient n, double width,
                               struct arena *a);

#endif
