/* heeded.h: what is never proposed, because a text says so. Layer: words. */
#ifndef BW_WORDS_HEEDED_H
#define BW_WORDS_HEEDED_H

#include "judge/ration.h"

/* "Nothing with chicken is proposed, as you ask.": what was not looked at, and for whose sake; "". */
const char *words_heeded(const struct ration *r, const char *who_asks, struct arena *arena);
/* "chicken, beef or fish"; "" where the text says nothing of it. */
const char *words_never(const struct ration *r, struct arena *arena);

/* Of a change that leaves less than half of a main food: "The change that does leaves less than half of “lamb”: ...". */
const char *words_unlike(const char *food, struct arena *arena);

/* Of a bowl without meat and fish by its owner's wish, what such an animal then needs: a cat that cannot live without what is in them, a dog
 * that can on a recipe that is worked out; "" where the text does not ask for it. */
const char *words_meatless(const struct ration *r, enum species species, struct arena *arena);

#endif
