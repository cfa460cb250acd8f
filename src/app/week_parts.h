/* week_parts.h: the steps of app_week. Private to this folder. */
#ifndef BW_APP_WEEK_PARTS_H
#define BW_APP_WEEK_PARTS_H

#include "app/app_parts.h"
#include "app/app_week.h"
#include "journal/journal.h"

/* A recipe that a day can ask for by its name. */
struct kitchen_recipe {
  const char *name; /* of its Recipe line, else that of the file */
  struct recipe recipe;
  struct ration ration; /* as the animal gets it, once it is asked for */
  bool parsed, resolved, failed;
  bool told;          /* that another has the same name */
  double grams_a_day; /* on the plate, on average */
};

/* What days are made of: the recipes, and foods by the line. */
struct kitchen {
  const struct library *lib;
  const struct app_week_request *q;
  const struct animal *animal; /* for shares of its weight; NULL */
  struct kitchen_recipe *recipe;
  size_t count;
  struct diags *recipe_diags; /* [count] */
  struct served **known;      /* what was read before, by its words */
  size_t known_cap, known_count;
  struct arena *arena;
};

/* One thing of a day, ready for arithmetic. */
struct served {
  struct span words;
  int recipe;                     /* index; -1: foods by the line */
  double times;                   /* of the recipe's day; 1 for foods */
  const struct ration_line *line; /* foods by the line */
  size_t line_count;
  double grams; /* on the plate */
  bool fine;
};

void kitchen_open(struct kitchen *k, const struct library *lib, const struct app_week_request *q, struct diags *recipe_diags,
                  struct arena *arena);
/* For the next animal: shares of body weight are its own. */
void kitchen_for(struct kitchen *k, const struct animal *animal);
/* Recipes of one name are called by their files from now on. */
void kitchen_tell_apart(struct kitchen *k);
/* Foods and grams of a recipe, for this animal; false after complaints about it. */
bool kitchen_cook(struct kitchen *k, struct kitchen_recipe *r) MUST_USE;
/* The thing, read once; NULL when it is not understood, complained about in 'd', whose text holds it. Not for "unknown". */
const struct served *kitchen_serve(struct kitchen *k, const struct journal_item *item, struct diags *d);
/* Is the line of the recipe fed on named days of the week? */
bool kitchen_names_days(const struct kitchen_recipe *r, size_t line);

/* week_plan.c */
struct plan_part;
bool week_days_of_plan(struct kitchen *k, const char *name, const struct plan_part *part, struct diags *d,
                       struct days_of_food *out) MUST_USE;
/* week_journal.c: the days from the first to the last that is written down (within since and until). Leftovers are taken off
 * everything that was put down, in proportion. A line that its recipe does not feed every day, on days that nobody named, is
 * taken at its mean: 'spread' then. */
enum { JOURNAL_DAYS_MOST = 50 * 366 };
bool week_days_of_journal(struct kitchen *k, const struct journal *j, int animal, struct diags *d, struct days_of_food *out,
                          bool *spread) MUST_USE;

#endif
