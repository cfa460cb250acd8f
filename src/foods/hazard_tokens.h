/* hazard_tokens.h: the words of a text with what stands between them; what is denied, what is a name. Private to
 * hazard_words.c. Layer: foods. */
#ifndef BW_HAZARD_TOKENS_H
#define BW_HAZARD_TOKENS_H

#include "foods/library.h"

struct hazard_token {
  struct span folded; /* lower case, singular */
  struct span at;     /* as written */
  char gap;           /* what stands before it: ' ', ',', '-' or '.' for the end of a thought */
  bool number, zero;
  bool candidate; /* part of a hazard's words, denied or not */
};

struct hazard_text {
  struct hazard_token *token;
  size_t count, cap;
  uint32_t letters; /* bit per first letter of any token */
};

void hazard_tokens(const struct library *lib, struct span text, struct hazard_text *out, struct arena *arena);

bool token_is(const struct hazard_text *t, size_t at, const char *word);
bool token_in(const struct hazard_text *t, size_t at, const char *const *words, size_t count);
#define TOKEN_IN(t, at, ...)                                                                                                \
  token_in((t), (at), (const char *const[]){__VA_ARGS__}, COUNT_OF(((const char *const[]){__VA_ARGS__})))

/* "no onion", "without raisins or chocolate", "onion-free", "0 g garlic", "raisin-sized": the tokens first..last are spoken
 * of but not fed. Candidates must be marked before. */
bool hazard_denied(const struct hazard_text *t, size_t first, size_t last);

/* "our dog Brandy", "Brandy weighs 9 kg": written as a name. */
bool hazard_is_name(const struct hazard_text *t, size_t at);

/* A word for cooked food. */
bool token_is_cooked(const struct hazard_text *t, size_t at);

#endif
