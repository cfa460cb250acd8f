/* hazard_words.h: dangers named by words, in any text that people write about food.
 *
 * The words stand in the hazards of the image (data/hazards.tsv: said, unless, answered, names); what is denied ("no onion",
 * "xylitol-free", "0 g garlic") is not found, slips of the pen are ("choclate"). docs/method/hazards.md says how.
 *
 * Layer: foods. Pure. */
#ifndef BW_HAZARD_WORDS_H
#define BW_HAZARD_WORDS_H

#include "foods/library.h"

struct hazard_hit {
  uint32_t hazard; /* row of IMG_HAZARDS */
  struct span at;  /* the words that name it; points into the text */
  bool slip;       /* a word was taken for a misspelt one */
};

enum { HAZARD_HITS_MOST = 24 };

/* The hazards that a text names, each once, in the order of the table (the grave ones first). All weights are reported: a
 * caller that warns of dangers only looks at 'weight'. Text of any length and any bytes; returns the number of hits, at most
 * 'most'. Scratch memory comes from 'scratch'. */
size_t hazard_words_find(const struct library *lib, struct span text, struct hazard_hit *hits, size_t most,
                         struct arena *scratch);

/* For library.hazards_said of whoever looks through many texts: what names a hazard is taken apart once. */
struct hazard_said *hazard_words_prepare(const struct library *lib, struct arena *arena);

const struct img_hazard *hazard_row(const struct library *lib, uint32_t hazard);

/* The first hazard of weight 'act' that a text names for this species (SPECIES_BOTH: for either); NO_INDEX when none. */
uint32_t hazard_words_danger(const struct library *lib, struct span text, int species, struct arena *scratch);

#endif
