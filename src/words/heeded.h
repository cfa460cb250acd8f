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

#endif
