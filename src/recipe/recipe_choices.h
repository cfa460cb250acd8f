/* recipe_choices.h: what a line leaves open, as choices: how much a handful was, which size of a piece, weighed raw or
 * cooked, which of the records that its words fit. Each option is the whole line as it would be written.
 *
 * Layer: recipe. */
#ifndef BW_RECIPE_CHOICES_H
#define BW_RECIPE_CHOICES_H

#include "recipe/recipe_text.h"

enum choice_about { CHOICE_AMOUNT, CHOICE_SIZE, CHOICE_STATE, CHOICE_RECORD, CHOICE_COUNT };
extern const char *const choice_word[CHOICE_COUNT]; /* "amount" */

struct choice {
  enum choice_about about;
  const char *label; /* for people: "little, 2.3 g", "80% lean meat / 20% fat" */
  const char *write; /* in the place of the whole line */
  bool taken;        /* it is read so as it stands */
};

enum { CHOICES_MOST = 16 };

/* The options of one line of a recipe that was parsed from its text; 0 when it leaves nothing open. Each option was read
 * again: it gives the grams or the record that its label says. An amount that is chosen is written in grams, and what it was
 * stays behind it as a remark. */
size_t recipe_choices(const struct library *lib, const struct recipe *recipe, const struct recipe_line *line,
                      struct choice out[CHOICES_MOST], struct arena *arena) MUST_USE;

#endif
