/* post_signs.h: illness in everyday words, read off an organ and what is said of it. Private to post/animal. Layer:
 * post/animal. */
#ifndef BW_POST_SIGNS_H
#define BW_POST_SIGNS_H

#include "post/hear/post_hear.h"

/* "kidneys are not so good", "an enlarged liver", "yellow gums", "a lump on her spleen", "sugar in his urine", "hasn't eaten
 * for two days": how many tokens of it begin here; 0. Not of an organ that is food. */
size_t post_sign_at(struct post_reader *r, const struct tokens *t, size_t at, enum state_kind *kind);

/* Where the clause ends that holds 'at': a mark, or the end. */
size_t post_clause_end(const struct tokens *t, size_t at);

/* "from 5 kg to 3.4 kg", "down from 4.5 kg": takes the weight that is past, and remembers it. */
void post_hear_loss(struct post_reader *r, struct tokens *t);

#endif
