/* refused.h: which foods somebody means who names what is never to be fed: "chicken", "dairy", "raw fish".
 *
 * Layer: foods. Pure. */
#ifndef BW_REFUSED_H
#define BW_REFUSED_H

#include "foods/library.h"

/* The row of data/food_groups.tsv that these words are; NULL: none. */
const struct img_food_group *food_group_of(const struct library *lib, struct span words, struct arena *arena);
/* Is this food meant? 'called': what people call it, beside its record's name; "". 'refused' is a word for several foods,
 * words of a name, or a code; "raw" or "cooked" before it means that state alone. */
bool food_is_refused(const struct library *lib, uint32_t food, const char *called, struct span refused, struct arena *arena);

#endif
