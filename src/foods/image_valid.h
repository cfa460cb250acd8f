/* image_valid.h: what image_open() asks last. Layer: foods. */
#ifndef BW_IMAGE_VALID_H
#define BW_IMAGE_VALID_H

#include "foods/image.h"

/* Does every index of every row point at something that is there? The sections have been found whole. */
bool image_is_bounded(const struct image *img);

#endif
