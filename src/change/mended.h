/* mended.h: a proposal with the words that a text gives it. Filled by whoever writes the text; drawn and listed by others.
 *
 * Layer: change. */
#ifndef BW_MENDED_H
#define BW_MENDED_H

#include "change/mend.h"

/* A line of the old text or of the new. */
struct mended_line {
  enum { LINE_SAME, LINE_OUT, LINE_IN } kind;
  int line;         /* in the old text (0: not in it) */
  const char *text; /* whole, without its end */
  int change;       /* index into the proposal's changes, for LINE_OUT and LINE_IN; -1 */
};

struct mended {
  const struct mend_proposal *proposal;
  const char *text; /* the new recipe */
  const struct mended_line *line;
  size_t lines;
  const char **from, **to; /* [proposal->count] amounts in words, as the text has them; NULL: not in it */
  const char **food;       /* [proposal->count] what it is called */
  int *text_line;          /* [proposal->count] in the old text; 0: added */
  double cost;             /* a day, at the larder's prices; NaN: not every food has one */
  const char *unpriced;    /* a food that has none; NULL */
  const char *summary;     /* "5 lines are added (82 g); 1420 kcal a day; 2 pills a day" */
  double pills;            /* added, a day on average */
  const char **asks;       /* what is stretched, in words */
  size_t ask_count;
  const struct check_result *after; /* check of the new text, with the written review */
  bool kept;                        /* the text, read again, keeps every promise: always true for what is found */
  const char *unlike; /* a main food of which less than half is left, so that it is another dinner; NULL: it is the same */
};

/* A line that is written as cooked before anything else, because raw it harms this animal. */
struct cooked_first {
  int line;                    /* in the text */
  const char *was, *is, *food; /* the whole line as it was, and as it is; what it is called */
};

/* A line that is changed before anything else, because the proportions of the dinner are what is wrong (plate.h), or because
 * the shells of its eggs are far too much calcium. */
struct plate_line {
  int line;                    /* in the text */
  const char *was, *is, *food; /* the whole line as it was, and as the search began with it, "": taken out; what it is called */
};

/* A line of something uncounted that must not be fed: it is taken out before anything else. */
struct left_out {
  int line;         /* in the text */
  const char *was;  /* the whole line */
  const char *said; /* without what marks it as not counted */
  const char *advice;
};

struct mended_answer {
  bool priced;          /* some food of the larder has a price */
  const char *currency; /* as the larder has it */
  double scaled; /* every amount of the recipe was first multiplied by this, to fit the animal's energy; 0: it fitted */
  bool in_grams; /* shares of an unstated whole were first written as grams */
  const struct cooked_first *cooked; /* raw fish that destroys thiamin, for a cat */
  size_t cooked_count;
  const struct plate_line *plate; /* the proportions set right first */
  size_t plate_count;
  const char *plate_words;         /* why, and what is done; "" */
  const struct left_out *left_out; /* dangers in what is not counted */
  size_t left_out_count;
  const char *not_counted;           /* what is fed but not counted, and what that means for a change; "" */
  double asked_kcal;                 /* a day, by whoever asks; 0: nothing said */
  const struct check_result *before; /* with the written review */
  const struct mend_result *mend;
  const struct mended *found; /* the one to recommend first */
  size_t count;
  const struct mended *nearest; /* NULL */
};

/* Why an owner is told of no change. */
enum reply_why_none {
  REPLY_NOT_LOOKED, /* nothing is wanting, or nothing may be proposed */
  REPLY_NONE_FOUND, /* within usual portions */
  REPLY_RAN_OUT_OF_TIME,
  REPLY_ANOTHER_DINNER, /* one was found that leaves too little of the owner's: mended.unlike */
  REPLY_NO_DINNER       /* too little food to mend */
};

#endif
