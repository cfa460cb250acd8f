/* app_rotate.h: which of several recipes on which day. Layer: app. */
#ifndef BW_APP_ROTATE_H
#define BW_APP_ROTATE_H

#include "app/app_week.h"
#include "time/rotate.h"

/* The smallest addition by which one of the recipes meets a need that no rotation meets. */
struct rotate_addition {
  enum nutrient id;
  int recipe;       /* that it is the smallest for */
  uint32_t food;    /* NO_INDEX: none is known; or there is too much of it, which no addition mends */
  double grams;     /* a day, on average */
  double times;     /* feedings in 28 days */
  const char *dose; /* "1 can of sardines, once a week"; "" */
  const char *once; /* of one feeding: "1 can of sardines"; "" */
  const char *says; /* a sentence */
};

struct rotate_recipe {
  const char *name, *file; /* of two with one name each is called by its file, as in a plan */
  double batch_days;       /* that a batch makes; NaN when it is not said */
  int days;                /* of the rotation, on which it is fed */
  double batches;          /* of the whole rotation; NaN */
  const char *says;        /* what it does not meet alone, and why it fits on no day */
};

struct app_rotate_answer {
  bool understood;
  const struct animal *animal;
  const struct check_result *const *alone; /* each recipe by itself */
  struct rotate_recipe recipe[ROTATE_RECIPES_MOST];
  int recipes;
  struct rotation rotation;
  struct rotate_addition addition[NUT_COUNT]; /* a need that no rotation meets, each */
  size_t additions;
  bool helps; /* with all of them in every bowl a rotation is found: 'with' */
  struct rotation with;
  const char *says;           /* which rotation there is, or what none meets */
  const char *says_with;      /* what the additions make possible, and what stays open with them; "" */
  const char *plan;           /* what was found, additions and all, as a plan's text; "" where the days are no weeks */
  struct app_week_one week;   /* of what was found; week NULL: nothing was */
  struct diags *recipe_diags; /* [request.count] */
  struct app_check_answer texts;
};

/* 'q': its recipes, at most ROTATE_RECIPES_MOST. */
void app_rotate(const struct library *lib, const struct app_week_request *q, struct app_rotate_answer *out,
                struct arena *arena);

#endif
