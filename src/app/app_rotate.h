/* app_rotate.h: which of several recipes on which day. Layer: app. */
#ifndef BW_APP_ROTATE_H
#define BW_APP_ROTATE_H

#include "app/app_week.h"
#include "time/rotate.h"

/* The smallest addition, every day, by which one of the recipes meets a need that no rotation meets. */
struct rotate_addition {
  enum nutrient id;
  int recipe;    /* that it is the smallest for */
  uint32_t food; /* NO_INDEX: none is known; or there is too much of it, which no addition mends */
  double grams;  /* a day */
};

struct rotate_recipe {
  const char *name, *file;
  double batch_days; /* that a batch makes; NaN when it is not said */
  int days;          /* of the rotation, on which it is fed */
  double batches;    /* of the whole rotation; NaN */
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
  const char *plan;           /* of what was found, as a plan's text; "" */
  struct app_week_one week;   /* of what was found; week NULL: nothing was */
  struct diags *recipe_diags; /* [request.count] */
  struct app_check_answer texts;
};

/* 'q': its recipes, at most ROTATE_RECIPES_MOST. */
void app_rotate(const struct library *lib, const struct app_week_request *q, struct app_rotate_answer *out,
                struct arena *arena);

#endif
