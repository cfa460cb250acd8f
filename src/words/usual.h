/* usual.h: the five ratios of a bowl with the range that is usual; the figures are those of data/findings.tsv, whose rows
 * speak up outside of them. Layer: words. */
#ifndef BW_WORDS_USUAL_H
#define BW_WORDS_USUAL_H

#include "words/words.h"

struct usual {
  const char *key, *name; /* "ca_p", "calcium : phosphorus" */
  double low, high;       /* NaN open */
  double at_most;         /* allowed, beyond what is usual; NaN none */
};
enum { USUAL_COUNT = 5 };

const char *words_usual_key(size_t i);
const char *words_usual_name(size_t i);
/* In the order of struct balance. */
void words_usual(const struct library *lib, struct usual out[USUAL_COUNT]);
/* "1 to 2", "up to 10, 30 at most", "no usual range" */
const char *words_usual_range(struct arena *a, const struct usual *u);

#endif
