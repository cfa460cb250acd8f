/* heeded.h: what is never proposed, because a text says so. Layer: words. */
#ifndef BW_WORDS_HEEDED_H
#define BW_WORDS_HEEDED_H

#include "judge/ration.h"

/* "chicken, beef or fish"; "" where the text says nothing of it. */
const char *words_never(const struct ration *r, struct arena *arena);

#endif
