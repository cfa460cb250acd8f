/* pictures.h: all rails of a bowl as one picture. Layer: picture. */
#ifndef BW_PICTURES_H
#define BW_PICTURES_H

#include "judge/check.h"
#include "picture/drawing.h"

/* Every nutrient with a verdict, worst first, with its figures. NULL when nothing is judged. */
struct drawing *picture_rails(const struct check_result *r, double width, struct arena *a);

#endif
