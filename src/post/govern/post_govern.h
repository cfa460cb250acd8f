/* post_govern.h: the words of a post that change an amount though they are no amount of a food, and the lines that they
 * may change. Private to src/post. Layer: post/govern. */
#ifndef BW_POST_GOVERN_H
#define BW_POST_GOVERN_H

#include "post/hear/post_net.h"

/* In the order in which one is asked about where a sentence has several. */
enum governs {
  GOVERNS_NOTHING,
  GOVERNS_EDIT,
  GOVERNS_OTHER, /* another animal eats */
  GOVERNS_AGAIN, /* a food once more, "the mince" */
  GOVERNS_DATED,
  GOVERNS_LABEL, /* "Recipe A:", "Menu 2:" */
  GOVERNS_PART,
  GOVERNS_COUNT, /* tubs, days, meals */
  GOVERNS_EACH,
  GOVERNS_INSTEAD,
  GOVERNS_TURNS,
  GOVERNS_EXCEPT,
  GOVERNS_NOT, /* "no chicken" */
  GOVERNS_PAST,
  GOVERNS_COMING,
  GOVERNS_CHANGING,
  GOVERNS_CONDITION,
  GOVERNS_TIMES,
  GOVERNS_OFTEN,
  GOVERNS_SAME,
  GOVERNS_OR,
  GOVERNS_RATE,
  GOVERNS_WEIGHED,
  GOVERNS_VARY,
  GOVERNS_NUMBER,
  GOVERNS_KINDS
};

struct governor {
  size_t at, tokens;
  enum governs kind;
  bool back; /* of the sentence before */
};

/* A sentence and what is known of it once all is read. */
struct governed {
  struct net n;
  bool halves;                     /* it asks or plans to feed half of it all: nothing that is fed now */
  size_t net_from;                 /* claims of the net begin here */
  bool lines;                      /* it has counted lines of its own */
  bool reach[POST_MOST_ITEMS + 2]; /* items that a governor of it may change */
};

/* One of the words in [from, to). */
static inline bool says_in(const struct tokens *t, size_t from, size_t to, const char *words) {
  for (size_t i = from; i < to && i < t->count; i++)
    if (says(t, i, words)) return true;
  return false;
}

/* "breakfast", "supper", "the evening meal": and no treat. */
static inline bool governs_main_meal(const struct tokens *t, size_t at) {
  return says(t, at, "breakfast brekkie brekky lunch dinner supper tea meal meals bowl morning evening noon midday night");
}

/* post_eater.c: does another animal than the one that is asked about eat here, by its name? */
bool governed_other_eats(struct governed *g, size_t at);

/* post_governed.c: the tokens of a word of the table that governs; kind NOTHING: of a phrase that only begins like one. */
size_t governs_at(const struct tokens *t, size_t at, enum governs *kind);

/* post_governed.c: is it told, asked about, or the amount of a line? */
bool governed_is_told(const struct governed *g, size_t at);
bool governed_is_only(const struct tokens *t, const struct governor *w);

/* The counted line around the token; NULL. */
const struct claim *governed_line(const struct governed *g, size_t at);

/* post_governed.c: "two meals a day, each one 100 g of turkey", where the lines say a day; days of the week, but not all,
 * before 'to'. */
bool governed_each_of_meals(struct governed *g);
bool governed_some_days(const struct tokens *t, size_t to);

/* Has a reader used the word for what it says? */
bool governed_is_used(struct governed *g, const struct governor *w);

/* post_reach.c: is the word at 'at' the name of this item's food? Of "beef mince" "mince" is. */
bool governed_is_food(const struct governed *g, size_t item, size_t at);
/* So, or the kind that the food is of: "meat" of beef mince (data/food_groups.tsv). */
bool governed_is_meant(const struct governed *g, size_t item, size_t at);
size_t governed_date(const struct tokens *t);  /* "2 Feb -": the tokens of a date that a sentence begins with; 0 */
size_t governed_label(const struct tokens *t); /* the same of "Recipe A:", "Menu 2 -" */

/* Sets 'reach' for it; false when there is nothing that it could change. */
bool governed_reach(struct governed *g, const struct governor *w);

/* post_unheard.c: tells and asks about the clauses that feed something and of which nobody has taken a word. */
void tell_unheard(struct governed *g);

/* post_swap.c: the days on which nothing is fed, as a sentence tells, from bit 0 Monday; 0. And what is fed every day is not
 * fed on them. */
unsigned post_fasts_on(struct post_reader *r, const struct tokens *t);
void post_leave_fasts_out(struct post_reader *r);

/* post_swap.c: "whiting instead of the mince on Fridays": on these days the mince is not fed; false when it cannot be read
 * so. */
bool governed_swap(struct governed *g, const struct governor *w);
bool governed_only_then(struct governed *g, const struct governor *w); /* "on Sundays he only gets ..." */

/* post_question.c: what the sentence asks of the bowl. */
void hear_owners_question(struct governed *g);

/* post_whose.c: lines that stand behind another animal's name are doubtful. */
void doubt_whose(struct post_reader *r);

/* post_weak.c: lines whose record was found by a weak match say so, and are asked about. */
void post_doubt_weak(struct post_reader *r);

/* post_unread.c: pieces that could not be read make the lines doubtful that they speak of. */
void doubt_by_what_was_left(struct post_reader *r);

/* post_edit.c: is the sentence one of an edit, "EDIT: ..." and what follows in its line? What such a sentence changes
 * without an amount: a food that is dropped, one in the place of another, twice as much; true when it did. */
bool net_in_edit(const struct net *n);
bool net_edit(struct net *n, void (*forget)(struct net *));

/* The one line that has a word of the sentence; and the line that this edit spoke of last; r->count none. */
size_t net_item_by_word(struct net *n);
size_t net_last_of_edit(struct net *n);
bool net_rewrite(struct net *n, size_t at, const char *text, const char *ask); /* the line gets this text, and it is asked */

/* post_left_out.c: "I leave out the salt and use sunflower instead of safflower", behind a recipe that has them. */
void post_left_out(struct post_reader *r);

/* post_correct.c: "Sorry, 200 g and not 300": the line of that food gets the amount; true when it did. */
bool net_correct(struct net *n);

/* post_govern.c: asks about each word that changes an amount and that no reader has used; 'net_from': the claims of the net
 * begin there. */
void post_govern(struct post_reader *r, size_t net_from);

/* post_one.c: does the sentence tell the weight of one of the pieces above? */
bool post_weighs_one(struct post_reader *r, const struct tokens *t, struct span text);

/* post_one.c: pieces whose weight is told behind them are weighed by it. */
void net_weigh_pieces(struct post_reader *r);

/* post_replaced.c: "replaced the rice with potato": the line above; true when the sentence is done with. */
bool net_replaced(struct net *n);

/* post_net.c: tells, or asks about, each food and amount that nothing has accounted for: none is passed over in silence. */
void post_net(struct post_reader *r);

#endif
