/* search_words.h: the words of a search, between typing and ranking. Private to search_*.c and to the builder's index,
 * which must treat food names exactly as searches are treated.
 *
 * Layer: foods. */
#ifndef BW_SEARCH_WORDS_H
#define BW_SEARCH_WORDS_H

#include "foods/search.h"

enum {
  SEARCH_MOST_WORDS = 24, /* of one search; further ones are dropped. No food name comes near it after folding */
  SYNONYM_MOST_WORDS = 3  /* on the left side of a synonym */
};

/* An everyday name of this rank stands for no food that a table has: its records come nearest, and are shown, not taken. */
enum { SEARCH_STAND_IN_RANK = 9 };

struct search_word {
  struct span text;
  double quality;         /* 1 as typed; less when a typo was put right */
  bool may_be_unfinished; /* nothing is spelled so; foods that begin so are looked for */
};

struct search_words {
  struct search_word at[SEARCH_MOST_WORDS];
  size_t count;
};

void search_words_add(struct search_words *w, struct span text, double quality);
/* Splits folded text at its blanks. */
struct search_words search_split(struct span folded);

/* The synonym table, sorted by 'from', with the strings its offsets point into. */
struct synonyms {
  const struct img_synonym *row;
  size_t count;
  const char *strings;
};
struct synonyms search_synonyms(const struct image *img);

/* The same for the same words in any order. */
uint32_t search_sum(const struct search_words *w);
/* Are these, in any order, the words of an everyday name? */
bool search_is_name(const struct library *lib, const struct search_words *w);

/* Puts the word of the tables in the place of its synonyms; the longest run of words wins. One pass: what a synonym
 * stands for is not looked up again. An empty 'to' drops the words. */
struct search_words search_canonical(const struct synonyms *syn, const struct search_words *in);

/* Takes the words that say how a food is cut and prepared ("skin on", "90% lean", "boiled") out of the list and fills
 * what 'wish' leaves open with them. */
struct search_words search_take_wishes(const struct search_words *in, struct search_wish *wish);

/* Without the words that tell the cut and not the food ("drained", "boneless", "skin on", "raw"); methods of cooking stay.
 */
struct search_words search_without_cut(const struct search_words *in);

/* ---- the dictionary: every word of every food name, of the everyday names and of the synonyms ----------------------- */

/* The token with this text; NULL if there is none. */
const struct img_token *search_token(const struct image *img, struct span word);
/* First token that begins with 'word'; *count gets how many follow one another. */
const struct img_token *search_tokens_from(const struct image *img, struct span word, size_t *count);
/* Puts typos right and splits words that were run together, so that every word is one of the dictionary if it can be. */
struct search_words search_correct(const struct library *lib, const struct synonyms *syn, const struct search_words *in,
                                   struct arena *a);

/* ---- how well a record suits what was wished -------------------------------------------------------------------------- */

/* 1 fits, down to about 0.45 for a contradiction; 'named' is the record's row of IMG_SEARCH_FOODS or NULL. */
#define SEARCH_FITS_AT_MOST 1.05 /* no wish fits better: a lean mince of stated leanness, and no other */
double search_wish_fit(const struct search_wish *wish, const struct img_food *food, const struct img_search_food *named);
/* What a record loses when nothing was said about its preparation: cooked, canned and dried come after raw. */
double search_unasked_loss(const struct search_wish *wish, const struct img_food *food);

#endif
