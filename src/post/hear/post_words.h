/* post_words.h: does a text hold a word or a phrase of a class? All that the reader of posts knows by heart stands in
 * data/post_words.tsv, and what a class is in data/post_classes.tsv; the build (tools/post_words.c) makes CLASS_NAME of each
 * class and refuses a row that cannot be right. Short words of grammar ("the a an") stay where they are asked for: says().
 *
 * Words are compared in small letters. Of the phrases of a class that begin at one word the longest counts. Private to the
 * room. Layer: post/hear. */
#ifndef BW_POST_WORDS_H
#define BW_POST_WORDS_H

#include "post_classes.h"
#include "text/scan.h"

/* What the table has for the words of one post; zeroed at first. */
struct known_words {
  struct {
    char letters[32];
    uint8_t n;      /* of them; 0 none */
    uint16_t known; /* as a token keeps them */
    uint64_t classes;
  } slot[512];
};
void token_know(struct token *k, struct known_words *seen);

/* Of classes whose form is "words". */
bool is_a(struct span word, enum post_class c);            /* the word by itself */
const char *means_as(struct span word, enum post_class c); /* its meaning there; NULL when it is none of them */

/* Most words are of no class that is asked for, nor do they begin a phrase of it: a bit tells, once they were looked up. */
static inline bool token_may_be(const struct token *k, enum post_class c) {
  return k->known == 0 || (k->classes >> (unsigned)c % 64 & 1) != 0;
}
bool table_token_is_a(struct token *k, enum post_class c);
const char *table_token_means(struct token *k, enum post_class c);
size_t table_meaning_at(const struct tokens *t, size_t at, enum post_class c, const char **means);

/* The same of a word's token, which keeps what it is. */
static inline bool token_is_a(struct token *k, enum post_class c) { return token_may_be(k, c) && table_token_is_a(k, c); }
static inline const char *token_means(struct token *k, enum post_class c) {
  return token_may_be(k, c) ? table_token_means(k, c) : NULL;
}
/* A single word that nothing has taken yet. */
static inline bool says_a(const struct tokens *t, size_t at, enum post_class c) {
  return at < t->count && !t->item[at].taken && token_is_a(&t->item[at], c);
}
/* How many tokens of a phrase, and its meaning; 0. */
static inline size_t meaning_at(const struct tokens *t, size_t at, enum post_class c, const char **means) {
  return at < t->count && !t->item[at].taken && token_may_be(&t->item[at], c) ? table_meaning_at(t, at, c, means) : 0;
}
static inline size_t phrase_of(const struct tokens *t, size_t at, enum post_class c) {
  const char *means;
  return meaning_at(t, at, c, &means);
}
/* Does a phrase of the class begin in [from, to)? */
bool holds_a(const struct tokens *t, size_t from, size_t to, enum post_class c);

/* Of classes whose form is "text": anywhere in it, inside words too; and at its front, in the order of the table: how many
 * bytes, with the meaning. */
bool text_holds(struct span text, enum post_class c);
size_t text_begins(struct span text, enum post_class c, const char **means);

/* With which letters do the words of a list begin? Worked out when it is compiled, where the list is a literal. */
#define LIST_BEGINS_WITH(list, blank_letter) ((list)[0] == (blank_letter)[1] || strstr(list, blank_letter))
#define LIST_LETTERS_FROM(list, bit, a, b, c, d, e, f)                                                                      \
  ((uint32_t)LIST_BEGINS_WITH(list, a) << (bit) | (uint32_t)LIST_BEGINS_WITH(list, b) << ((bit) + 1) |                      \
   (uint32_t)LIST_BEGINS_WITH(list, c) << ((bit) + 2) | (uint32_t)LIST_BEGINS_WITH(list, d) << ((bit) + 3) |                \
   (uint32_t)LIST_BEGINS_WITH(list, e) << ((bit) + 4) | (uint32_t)LIST_BEGINS_WITH(list, f) << ((bit) + 5))
#define LIST_LETTERS(list)                                                                                                  \
  (LIST_LETTERS_FROM(list, 0, " a", " b", " c", " d", " e", " f") |                                                         \
   LIST_LETTERS_FROM(list, 6, " g", " h", " i", " j", " k", " l") |                                                         \
   LIST_LETTERS_FROM(list, 12, " m", " n", " o", " p", " q", " r") |                                                        \
   LIST_LETTERS_FROM(list, 18, " s", " t", " u", " v", " w", " x") | (uint32_t)LIST_BEGINS_WITH(list, " y") << 24 |         \
   (uint32_t)LIST_BEGINS_WITH(list, " z") << 25)

/* Is the word one of a list with blanks between, in small letters? Of a literal the compiler knows the length and whether
 * it is one word, as half of them are; of the others three of four are refused by the word's first letter. */
bool word_in_list(struct span word, const char *list, size_t n);
static ALWAYS_INLINE bool word_in(struct span word, const char *list) {
  size_t n = strlen(list);
  if (word.n > n || (word.n < n && !strchr(list, ' '))) return false;
  if (__builtin_constant_p(list[0]) && strchr(list, ' ') && word.n > 0) {
    unsigned letter = ((unsigned char)word.p[0] | 0x20u) - 'a';
    if (letter < 26 && (LIST_LETTERS(list) >> letter & 1) == 0) return false;
  }
  return word_in_list(word, list, n);
}

#endif
