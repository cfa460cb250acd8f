/* image_valid.h: what image_open() asks last. Layer: foods. */
#ifndef BW_IMAGE_VALID_H
#define BW_IMAGE_VALID_H

#include "foods/image.h"

/* Does every index of every row point at something that is there? The sections have been found whole. The values are asked
 * about apart: those of the foods from 'first' to before 'end'. */
bool image_is_bounded(const struct image *img);
bool image_values_are_bounded(const struct image *img, size_t first, size_t end);

#endif
