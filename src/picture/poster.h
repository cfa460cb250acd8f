/* poster.h: a bowl as one picture: its name, its energy and its rails; or who supplies the nutrients that were asked for.
 * Layer: picture. */
#ifndef BW_PICTURE_POSTER_H
#define BW_PICTURE_POSTER_H

#include "judge/check.h"
#include "picture/drawing.h"

/* 'nutrient' [count]: whose suppliers are drawn; 0: energy and rails. */
struct drawing *picture_poster(const struct library *lib, const struct check_result *r, const enum nutrient *nutrient,
                               size_t count, struct arena *a);

#endif
