/* owners_question.h: what an owner asks of a bowl, so far as figures can answer it: "is it too much liver?", "is the calcium
 * right?", "her coat is dull". A post is read to it, and words/answered.h answers.
 *
 * Layer: judge. */
#ifndef BW_OWNERS_QUESTION_H
#define BW_OWNERS_QUESTION_H

#include "foods/nutrient.h"

/* ORDER ASKED_OF: KEY in src/post/govern/post_question.c, ANSWER in src/words/answered.c. */
enum asked_of {
  ASKED_OF_NUTRIENTS, /* by their names */
  ASKED_OF_RATIO,
  ASKED_OF_AMOUNT, /* how much food */
  ASKED_OF_WEIGHT, /* of the animal */
  ASKED_OF_LIVER,
  ASKED_OF_BONE,
  ASKED_OF_HEALTH, /* a sign of it: a dull coat, loose stools */
  ASKED_OF_FOOD,   /* one of its foods: what hangs on it, or what would be left without it */
  ASKED_OF_LESS,   /* what falls short when less of all of it is fed */
  ASKED_OF_EXCHANGE, /* one food in the place of another: "can I swap the liver for kidney?" */
  ASKED_OF_ADDING, /* a food that may come into it: "is cheese ok?" */
  ASKED_OF_SUPPLEMENT, /* whether it needs one: yes or no */
  ASKED_OF_COUNT
};

enum { ASKED_OF_NUTRIENTS_MOST = 8, OWNERS_QUESTIONS_MOST = 4 };

struct owners_question {
  int line; /* of the post, 1-based */
  enum asked_of of;
  const char *words;                               /* the owner's: "vitamin A", "dull coat" */
  enum nutrient nutrient[ASKED_OF_NUTRIENTS_MOST]; /* those that bear on it */
  size_t nutrients;
  const char *food; /* of what is to be left out or replaced, or of ASKED_OF_FOOD: "liver"; "" or NULL none */
  uint32_t record;  /* of EXCHANGE and ADDING: that of 'food' */
  const char *other; /* of EXCHANGE: what comes in its place, or goes where 'food' is not in the bowl; NULL none */
  uint32_t other_record;
  bool leaves_out;  /* "can I leave the kelp out?": what would be left without it is told as well */
  bool how_often;   /* "is taurine needed daily?": over how many days it may average */
  bool which;       /* "which bone?": kinds of it are named */
  bool much;        /* "too much vitamin A?" */
  bool half;        /* "can I just halve it?", "a crash diet": half of it is looked at */
};

#endif
