/* search.h: from what people type to a food record.
 *
 * Layer: foods. Pure and fast enough for every keystroke. */
#ifndef BW_SEARCH_H
#define BW_SEARCH_H

#include <math.h>

#include "foods/library.h"

/* What the words around the food's name said; a hit that contradicts a stated wish loses most of its score. */
struct search_wish {
  enum state state; /* STATE_UNSTATED when nothing was said: raw and plain records come first */
  int8_t bone_in;   /* 1 bone-in, 0 boneless, -1 not said */
  int8_t skin;      /* 1 with skin, 0 skinless, -1 not said */
  bool lean;        /* "lean": separable lean only */
  bool drained;
  double lean_percent; /* "90% lean", "90/10"; NaN not said */
};
#define SEARCH_WISH_NONE ((struct search_wish){STATE_UNSTATED, -1, -1, false, false, NAN})

struct search_hit {
  uint32_t food;
  double score;    /* 1.0: every word fits a plain record's name or an everyday name; hits below 0.35 are not returned */
  bool exact_name; /* found through the everyday-name table, or an own food by its whole name */
  uint8_t words_missed; /* words of the query that fit nothing in this record */
  const char *note;     /* of the everyday name: how the record differs from what was asked ("packed in oil"); "" */
};

/* The best 'most' records for the words, best first; ties by the plainer, then the shorter name, then the code.
 * 'words' is UTF-8 in any case, any order, plurals, "90/10", small typos. Words like "raw", "boneless", "skin on"
 * inside the text count as wishes too; 'wish' (NULL: nothing said) goes before them. Returns the number of hits.
 * Scratch memory comes from 'scratch'. */
size_t search_foods(const struct library *lib, struct span words, const struct search_wish *wish, struct search_hit *hits,
                    size_t most, struct arena *scratch);
/* Would the first of them be found by an everyday name? Then it is in *hit. For words that mostly are none: no record is
 * looked at where the table of names has nothing for them. */
bool search_names(const struct library *lib, struct span words, struct search_hit *hit, struct arena *scratch);

/* For library.searched of whoever looks for the words of a text again and again: remembers what was found, what words were
 * meant, and what else stays the same from search to search. It holds for that image and for the own foods that the library
 * has; 'arena' is its alone, and lives as long. The answers are the same without it. */
struct search_memory *search_memory_of(const struct image *img, struct arena *arena);

/* Folds to lower-case ASCII words separated by single blanks ("Crème fraîche" -> "creme fraiche"), singular forms.
 * The builder folds food names with the same function, so the two sides cannot drift apart. */
struct span search_fold(const struct image *img, struct span words, struct arena *a);
/* The same with the fold table given, for the builder, which has no image yet. */
struct span search_fold_with(const struct img_fold *folds, size_t fold_count, struct span words, struct arena *a);

/* When several records fit about equally well (scores within 0.05 of the first): the others, for "did you mean". */
size_t search_rivals(const struct search_hit *hits, size_t count);

#endif
