/* portion.h: how much of a food people feed a day (data/portions.tsv): ceilings for what is added to a bowl or raised in it.
 *
 * Layer: foods. Pure. */
#ifndef BW_PORTION_H
#define BW_PORTION_H

#include "foods/library.h"

/* The row for a food; NULL: none holds for it (own foods, pure substances). */
const struct img_portion *portion_of(const struct library *lib, uint32_t food, enum species s);
/* Grams as eaten a day, the stricter of both ceilings; INFINITY where none is known. 'metabolic_kg' > 0; 'bowl_g' of the
 * whole bowl a day, NaN: not known. */
double portion_most_g(const struct library *lib, uint32_t food, enum species s, double metabolic_kg, double bowl_g);

/* Of foods with the same number an owner buys one, not three (two livers, two shellfish); 0: of these as many as one likes.
 */
int portion_one_of(const struct library *lib, uint32_t food, enum species s);

#endif
