/* post.h: from what an owner posted, greetings and all, to the strict recipe that it amounts to.
 *
 * Foods with amounts become lines of a recipe, everything else a remark; what cannot be read becomes a '?' line and is
 * listed. Nothing is looked up here by rules of its own: a line counts as read when the recipe's own reader takes it. Layer:
 * post. Pure. */
#ifndef BW_POST_H
#define BW_POST_H

#include "judge/animal.h"
#include "judge/owners_question.h"

/* A line of the strict text that holds a food. */
struct post_line {
  int line;            /* of the post, 1-based */
  int strict_line;     /* of 'recipe', 1-based */
  const char *assumed; /* what was assumed, in words; "" nothing */
  bool doubted;        /* whether, how much or how often it is fed was assumed, and is asked */
};

struct post_left {
  int line;
  const char *text; /* as the owner wrote it */
  const char *why;
  bool fed; /* it may be fed: a '?' line stands for it. False: told as past, as advice or as refused */
};

/* What a question is about, for whoever does more than print it. */
enum post_asks { ASKS_ELSE, ASKS_OF_DANGER, ASKS_OF_BONE, ASKS_WHAT_FOOD, ASKS_OF_AMOUNTS };

struct post_question {
  int line;        /* 0: about the whole post */
  const char *ask; /* in words an owner can answer */
  double weight;   /* what the answer could change, most first: 4 a danger, 3 a verdict, 2 much, 1 little */
  int strict_line; /* of 'recipe', when it is about one food; 0 */
  enum post_asks about;
  const char *food; /* ASKS_WHAT_FOOD: the owner's words for it; "" */
};

/* What is told of the animal, whether or not it is enough to feed it by. */
struct post_told {
  int species;                 /* enum species; -1 not said */
  double weight_kg, age_years; /* NaN not said */
  int neutered;                /* -1 not said */
  int activity;                /* enum activity; -1 not said */
  double ideal_kg;             /* what it should weigh; NaN not said */
  bool young, pregnant, nursing, unwell, urgent;
  const char *status;   /* these, as the strict text has them: "pregnant"; "" nothing */
  enum refusal refusal; /* why no verdict may be given on it */
};

struct post {
  const char *recipe; /* the strict text; "" when no food at all was found */
  const struct post_line *line;
  size_t line_count;
  const struct post_left *left;
  size_t left_count;
  const struct post_question *question;
  size_t question_count;
  const struct owners_question *asked; /* what the owner asks of the bowl, in the order of the post */
  size_t asks;
  bool animal_told; /* its weight is known */
  bool cooked_told; /* the owner says that the food is cooked, and of none of it that it is raw */
  struct post_told told;
  const char *sorry; /* one kind sentence when no food was understood; "" */
};

extern const char POST_NAMED_ONLY[]; /* why a food that is named was not counted: nothing says that it is fed */

enum { POST_MOST_BYTES = 256 * 1024 };

/* animal/post_may_tell.c: may the text tell that an animal is young, pregnant, nursing or ill? Where it is false, reading it
 * as a post tells none of these. */
bool post_may_tell_of_state(struct span text, struct arena *arena);

/* Always answers. 'given': the animal, where it was told beside the post; it is neither doubted nor asked about then. NULL.
 * Bytes that are no text are taken for blanks; what stands beyond POST_MOST_BYTES is left out and told. */
void post_read(const struct library *lib, struct span text, const struct animal *given, struct post *out,
               struct arena *arena);

#endif
