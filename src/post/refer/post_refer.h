/* post_refer.h: sentences that refer to others ("half of that", "as v3, but ...", "the rest is rice"), written out over the
 * whole text before its lines are read. Private to the room.
 *
 * Each rule gets the sentences in their order, and writes those anew that it understands whole; it leaves alone what it does
 * not. Layer: post/refer. */
#ifndef BW_POST_REFER_H
#define BW_POST_REFER_H

#include "post/hear/post_net.h"

enum { REFER_MOST_BYTES = 1 << 20 }; /* of a sentence that is written anew: no bound in practice */

enum { SAID_MOST = 300 }; /* sentences of a text */
struct said {
  struct span text; /* as it stands in its line, with blanks before it and its stop */
  struct tokens t;  /* of the text without the stop */
  int line;         /* from 1 */
  bool changed;
};
struct story {
  struct post_reader *r;
  struct said *s;
  size_t count, changes;
};

/* post_refer.c: the whole text. */
struct span post_refer(struct post_reader *r, struct span text, struct arena *arena);
/* post_refer_story.c: the sentence 'i' gets another text, "" none. */
void refer_write(struct story *st, size_t i, const char *text);
/* The tokens from 'at' on become a sentence of their own behind it; false where there is no room. */
bool refer_split(struct story *st, size_t i, size_t at);
/* The same with its tokens [from, to) written anew. */
void refer_between(struct story *st, size_t i, size_t from, size_t to, const char *instead);
/* Left out and told, in the words of sentence 'i'. */
void refer_tell(struct story *st, size_t i, const char *why);
/* The tokens [from, to) of a sentence with each amount of food in them times 'by'; how many amounts there are. */
size_t refer_scaled(struct buf *b, const struct tokens *t, size_t from, size_t to, double by);
/* A weight in grams that stands there: "240 g", "250gr"; tokens, 0 none. */
size_t refer_grams(const struct tokens *t, size_t at, double *grams);
/* Do the two texts name one food: does a word of more than two letters, that is no kind of food, stand in both? */
bool refer_same_food(struct span a, struct span b);
/* Says beside the lines of that food ("": all of the line; SIZE_MAX: of the post) what was assumed, once they are read;
 * post_refer_beside() when all is read. */
void refer_beside(struct story *st, size_t i, struct span food, const char *assumed);
void post_refer_beside(struct post_reader *r);

/* The rules. */
void refer_weeks(struct story *st);  /* post_refer_weeks.c: days, "every day except", "half of that" */
void refer_meals(struct story *st);  /* post_refer_meals.c: "f = 2/d", "per feeding", "such times two in day" */
void refer_wholes(struct story *st); /* post_refer_wholes.c: "the rest is rice", "1:1, 400 g together" */
void refer_sums(struct story *st);   /* post_refer_sums.c: fractions of a daily amount, and lists that add up to it */
void refer_swap(struct story *st);   /* post_refer_swap.c: "Fridays the beef becomes cod, same weight" */
void refer_kinds(struct story *st); /* post_refer_kinds.c: "four days beef, three chicken", "in week one ..., in week two" */
void refer_parts(struct story *st); /* post_refer_parts.c: proportions, and the total that they are of */
void refer_batch(struct story *st); /* post_refer_batch.c: "yield 10 daily portions", "not in the bags", "units are oz" */
void refer_pieces(struct story *st);     /* post_refer_pieces.c: "12 muffins, he eats 3 a day" */
void refer_one_day(struct story *st);    /* post_refer_one_day.c: "we do it every Friday, the other six days she has ..." */
void refer_weights(struct story *st);    /* post_refer_weights.c: "down from 17 to 14 kg", "how heavy is she" */
void refer_bracket(struct story *st);    /* post_refer_bracket.c: "in a week (both together, so halve it):" */
void refer_corrected(struct story *st);  /* post_refer_corrected.c: "EDIT: she weighs 23, not 32", "no, 1/4 tsp" */
void refer_rate(struct story *st);       /* post_refer_rate.c: "14 eggs, ie one a day", "a bag of peas in the same time" */
void refer_fronted(struct story *st);    /* post_refer_fronted.c: "instead of the beef he gets 150 g of cod" */
void refer_day_kinds(struct story *st);  /* post_refer_day_kinds.c: "on working days ..., the other four days ..." */
void refer_roster(struct story *st);     /* post_refer_roster.c: a line for each animal; as many equal bowls as eaters */
void refer_bowl(struct story *st);       /* post_refer_bowl.c: "half the bowl is mince, a quarter is potato and the rest ..." */
void refer_ordinary(struct story *st);   /* post_refer_ordinary.c: "rice 60 g dry", "Sundays just a lamb neck" */
void refer_plain(struct story *st);      /* post_refer_plain.c: "55 % lean pork, 25 % ...", "Per meal (2 a day):" */
void refer_days_later(struct story *st); /* post_refer_days_later.c: "sorry, the tripe is only Mon, Wed, Fri" */
void refer_tails(struct story *st);      /* post_refer_tails.c: "a strawberry or two", "no treats but carrots, 20 g" */
void refer_eaters(struct story *st);     /* post_refer_eaters.c: "A takes two thirds; analyse A only", "for the cat: ..." */
void refer_homes(struct story *st);      /* post_refer_homes.c: "a week with me and a week with my ex" */
void refer_pronouns(struct story *st);   /* post_refer_guard.c: "in place of it", "80 g more" */
void refer_half(struct story *st);       /* post_refer_half.c: "40 g cod in place of half the rabbit" */
void refer_guard(struct story *st);      /* the same file, last: what governs others and was not understood says so */
void refer_versions(struct story *st);   /* post_refer_versions.c: "v2: beef +20 %" */
void refer_same(struct story *st);       /* post_refer_same.c: "the same weight of meat as in the morning, but turkey" */

#endif
