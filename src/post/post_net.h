/* post_net.h: a sentence of a post, heard again once all of it was read. Private to post_net.c, post_doubt.c,
 * post_claim.c and post_same.c. Layer:
 * post. */
#ifndef BW_POST_NET_H
#define BW_POST_NET_H

#include "post/post_item.h"

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
bool net_item_is(struct net *n, const struct item *item, size_t at, size_t tokens);

/* post_doubt.c: lines whose sentence makes them doubtful are left out, or what was assumed is said. */
void net_doubt_lines(struct net *n);
/* post_correct.c: "Sorry, 200 g and not 300": the line of that food gets the amount; true when it did. */
bool net_correct(struct net *n);
/* post_edit.c: is the sentence one of an edit, "EDIT: ..." and what follows in its line? What such a sentence changes
 * without an amount: a food that is dropped, one in the place of another, twice as much; true when it did. */
bool net_in_edit(const struct net *n);
bool net_edit(struct net *n, void (*forget)(struct net *));
/* The one line that has a word of the sentence; and the line that this edit spoke of last; r->count none. */
size_t net_item_by_word(struct net *n);
size_t net_last_of_edit(struct net *n);
bool net_rewrite(struct net *n, size_t at, const char *text, const char *ask); /* the line gets this text, and it is asked */
/* post_replaced.c: "replaced the rice with potato": the line above; true when the sentence is done with. */
bool net_replaced(struct net *n);
/* The item goes, with what was asked about it. */
void net_forget_item(struct post_reader *r, size_t at);
/* post_one.c: pieces whose weight is told behind them are weighed by it. */
void net_weigh_pieces(struct post_reader *r);

#endif
