/* built_image.h: the image that the build made, read for tests. */
#ifndef BW_BUILT_IMAGE_H
#define BW_BUILT_IMAGE_H

#include "foods/library.h"

/* The bytes of build/bowlwright.library, 16-byte aligned, read once; ends the test program when it is not there. */
struct span built_bytes(void);
/* The same, opened. */
const struct library *built_library(void);
/* Index of a record; ends the test program when the code does not exist. */
uint32_t built_food(const char *code);
/* Mean per 100 g; NaN when unknown. */
double built_value(const char *code, enum nutrient n);
const struct img_food *built_record(const char *code);

#endif
