/* post_net.h: a sentence of a post, heard again once all of it was read. Private to src/post. Layer: post/hear. */
#ifndef BW_POST_NET_H
#define BW_POST_NET_H

#include "post/hear/post_hear.h"

struct net {
  struct post_reader *r;
  const struct heard *h;
  struct tokens t;
  size_t claim_to, number; /* which sentence, from 1 */
  bool fed, has, asks;     /* it says who eats, or may; it is a question */
};

/* post_claim.c */
bool net_within(struct span s, struct span whole);

/* What has accounted for this token; NULL. */
const struct claim *net_claim_at(const struct net *n, size_t at, enum claim_kind kind);
bool net_ends_clause(const struct tokens *t, size_t at);

/* post_same.c: a word, in one number or the other, among those of a text; a kind of food and no food; is it the food that is
 * named there? */
bool net_has_word(struct span text, struct span word);
bool net_is_kind(struct span word);
bool word_is_filler(struct span word); /* it names no food: "the", "usual", "skin" */
bool net_item_is(struct net *n, const struct item *item, size_t at, size_t tokens);

/* post_doubt.c: lines whose sentence makes them doubtful are left out, or what was assumed is said. */
void net_doubt_lines(struct net *n);

/* The item goes, with what was asked about it. */
void net_forget_item(struct post_reader *r, size_t at);

#endif
