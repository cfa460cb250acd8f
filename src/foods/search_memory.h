/* search_memory.h: what stays the same from search to search, for whoever looks for hundreds of words of one text: the
 * everyday names by their words, the dictionary's words by their letters, the words that were put right, and what was found.
 * Private to search_*.c. Nothing that is found depends on whether there is a memory.
 *
 * Layer: foods. */
#ifndef BW_SEARCH_MEMORY_H
#define BW_SEARCH_MEMORY_H

#include "foods/search_words.h"

/* What rules most words out before they are compared with one that may be misspelt: two words at distance d differ in at
 * most d of their length, and in at most 2d letters of their sets. */
struct word_shape {
  uint32_t letters; /* as a set */
  uint32_t bytes;
};

/* A word put right: what search_correct makes of it, as the last one of a search or before others. */
struct word_meant {
  struct word_meant *next;
  struct span word;
  bool last;
  struct search_word *at;
  size_t count;
};

struct searched {
  struct searched *next;
  struct span folded;
  struct search_wish wish;
  size_t count;
  const struct search_hit *hits;
};

enum {
  NAME_BUCKETS = 2048,
  MEANT_BUCKETS = 128,
  SEARCHED_BUCKETS = 512,
  SEARCHED_MOST = 4096, /* then all is forgotten: a text of any length takes no more room */
  SEARCHED_HITS = 24    /* kept of each; whoever wants fewer gets the first of them */
};

struct search_memory {
  struct arena *arena;
  /* By the sum of the hashes of their words, so that order does not count. */
  uint32_t name_bucket[NAME_BUCKETS]; /* 1 + the first name of it; 0 none */
  uint32_t *name_next, *name_sum;     /* [names]; the next one as above */
  struct word_shape *shape;           /* [tokens, then synonyms]; NULL until a word is none of them */
  struct word_meant *meant[MEANT_BUCKETS];
  struct searched *searched[SEARCHED_BUCKETS];
  size_t searched_count;
  struct arena_mark forget; /* back to here: what stays lies before it */
  uint16_t *place;          /* [image foods] zero between searches; NULL until the first */
};

/* The first everyday name from 'from' on whose words may be these, in any order: there is none before it; the number of
 * names when there is none. Without a memory every name may be. */
size_t search_name_from(const struct search_memory *m, const struct image *img, uint32_t sum, size_t from);

struct word_shape search_shape(struct span word);
/* Of all tokens, then of the left sides of all synonyms. */
const struct word_shape *search_shapes(struct search_memory *m, const struct image *img, const struct synonyms *syn);

/* NULL: not yet */
struct word_meant *search_meant(const struct search_memory *m, struct span word, bool last);
/* Its 'word' is the memory's own copy, which the words that it is filled with may point into. */
struct word_meant *search_keep_meant(struct search_memory *m, struct span word, bool last);
void search_fill_meant(struct search_memory *m, struct word_meant *meant, const struct search_words *words);

const struct searched *search_kept(const struct search_memory *m, struct span folded, const struct search_wish *wish);
void search_keep(struct search_memory *m, struct span folded, const struct search_wish *wish, const struct search_hit *hits,
                 size_t count);

/* For marks at the foods of the image, all zero; whoever sets some takes them off again. */
uint16_t *search_places(struct search_memory *m, size_t foods);

#endif
