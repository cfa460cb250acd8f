/* request.h: what is asked beside the texts, and the verbs that can be asked for.
 *
 * A wish of a person is one field of struct request and one row of request_option[]; command line, page and tests fill it
 * by the row, and whoever answers reads the field. Layer: request. Pure. */
#ifndef BW_REQUEST_H
#define BW_REQUEST_H

#include "explain/side.h"
#include "request/option.h"

/* ORDER VERB: X(enum, function without "verb_"); verb_spec[] in cli/verbs.c. */
#define VERB_LIST(X)                                                                                                        \
  X(CHECK, check)                                                                                                           \
  X(MEND, mend)                                                                                                             \
  X(SWAP, swap)                                                                                                             \
  X(COMPOSE, compose)                                                                                                       \
  X(REPLY, reply)                                                                                                           \
  X(SHEET, sheet)                                                                                                           \
  X(WEEK, week)                                                                                                             \
  X(TREND, trend)                                                                                                           \
  X(SLIM, slim)                                                                                                             \
  X(JOURNAL, journal)                                                                                                       \
  X(NEED, need)                                                                                                             \
  X(SIDE, side)                                                                                                             \
  X(FOODS, foods)                                                                                                           \
  X(FOOD, food)                                                                                                             \
  X(LIBRARY, library)                                                                                                       \
  X(SERVE, serve)

enum verb {
#define X(id, function) VERB_##id,
  VERB_LIST(X)
#undef X
      VERB_COUNT
};

/* For struct option.verbs. */
#define VERB(v) (1U << VERB_##v)
enum {
  RECIPE_VERBS = VERB(CHECK) | VERB(MEND) | VERB(SWAP) | VERB(SIDE) | VERB(REPLY) | VERB(SHEET),
  ANIMAL_VERBS = RECIPE_VERBS | VERB(COMPOSE) | VERB(NEED) | VERB(WEEK) | VERB(SLIM),
  ALL_VERBS = (1U << VERB_COUNT) - 1,
  ANSWERING_VERBS = ALL_VERBS & ~(VERB(SERVE) | VERB(JOURNAL))
};

enum equal { EQUAL_ENERGY, EQUAL_MASS };

struct request {
  struct check_options check; /* standard, basis, how sure, how energy is reckoned */
  struct date today;
  double eaten;      /* how much of it is eaten: 0.8 for four fifths of every line; 0 means all, as 1 does */
  bool numbers_only; /* without the written review: for whoever asks again and again */
  bool posted;       /* the recipe is a post: greetings, sentences, household amounts (post/post.h) */
  bool as_recipe;    /* only the strict text that it amounts to */
  struct text_list why;
  const char *ratio; /* NULL: not asked */
  /* side */
  enum side_per per; /* SIDE_PER_COUNT: not said */
  bool cooked;
  /* mend */
  struct text_list keep;  /* lines not to be touched: a line number, or words of the line */
  struct text_list never; /* foods not to be added: a pin, or words of the name */
  bool no_supplements;
  int proposals; /* 0: one */
  int steps;     /* stop after so many changes; 0: all of them */
  double kcal;   /* wanted a day; not above 0: not said */
  /* week */
  bool rotate;              /* which of the recipes on which day */
  struct date since, until; /* the days of a journal that are looked at; year 0: all */
  /* swap */
  const char *line; /* its number in the text, or words of it */
  bool any_part;
  bool everyday; /* only foods that data/names.tsv has a name for, and own foods */
  enum equal equal;
  int most; /* hits wanted */
  /* reply */
  int lines;        /* 0: a letter */
  bool full;        /* everything */
  const char *sign; /* NULL: unsigned */
  /* sheet */
  int days, meals;           /* 0: as the recipe says */
  unsigned int paper, units; /* sheet_paper_word[], sheet_units_word[] in sheet/sheet.h */
  bool large;
  /* compose */
  const char *aim; /* wins over the larder's; NULL */
  /* slim */
  struct date from; /* the first day of the plan; year 0: today */
  /* trend */
  int forecast; /* days; 0: the usual */
  /* searches that take long */
  double patience; /* seconds; not above 0: not said */
};
#define REQUEST_DEFAULT ((struct request){.check = CHECK_OPTIONS_DEFAULT, .per = SIDE_PER_COUNT})

/* 'at' is an offset into struct request. Rows without verbs are for programs alone. */
extern const struct option request_option[];
extern const int request_option_count;

/* Lines of "key=value", keys as above; a flag may stand alone. What is not named stays as it is. False: 'complaint' says
 * which line is not understood. Texts are kept in the arena. */
bool request_read(struct span lines, struct request *out, struct buf *complaint, struct arena *arena) MUST_USE;

#endif
