/* origin.h: where a figure of a record comes from, in one line that a learner understands. Layer: foods. */
#ifndef BW_ORIGIN_H
#define BW_ORIGIN_H

#include "base/buf.h"
#include "foods/library.h"

/* "estimated from 14 analyses of ruminant muscle, within 15 %"; for a value that was set aside also what the table prints
 * and why it is not believed. Nothing for a value that is not known. */
void origin_words(const struct library *lib, uint32_t food, enum nutrient n, struct buf *out);

#endif
