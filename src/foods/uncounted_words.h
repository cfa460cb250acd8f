/* uncounted_words.h: what kind of thing is fed that is no food of the tables, by its words: a multivitamin, a few treats.
 *
 * The words stand in data/uncounted.tsv, with what such a thing can hold at most. Layer: foods. Pure. */
#ifndef BW_UNCOUNTED_WORDS_H
#define BW_UNCOUNTED_WORDS_H

#include "foods/library.h"

struct uncounted_kind {
  const char *name;                  /* "a multivitamin and fish oil" */
  const float *holds;                /* [NUT_COUNT] at most, in all doses that are told; NaN any amount; NULL: it is no dose */
  const struct img_uncounted *snack; /* NULL: it is none */
  bool few;                          /* a few of them, a bit of it */
  bool vague;                        /* "supplements": as good as no kind, and perhaps a heading */
  bool nameless;                     /* no word says what it is, but that it is a few or a bit */
};

/* False when its words name no kind, or something besides. */
bool uncounted_kind_of(const struct library *lib, struct span text, struct uncounted_kind *out, struct arena *arena);

#endif
