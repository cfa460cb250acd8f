/* image_valid.h: what image_open() asks last. Layer: foods. */
#ifndef BW_IMAGE_VALID_H
#define BW_IMAGE_VALID_H

#include "foods/image.h"

/* Does every index of these rows of a section, from 'first' to before 'end', point at something that is there, and is every
 * figure within bounds? The sections have been found whole. */
bool image_rows_are_bounded(const struct image *img, enum img_tag tag, size_t first, size_t end);

#endif
