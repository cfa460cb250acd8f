/* recipe_food.h: the steps that turn a read line into a food record and grams. Private to the recipe reader.
 *
 * Order: which record (recipe_choose.c), grams of what was written (recipe_grams.c, recipe_measures.c), cooking and bone
 * (recipe_cook.c); the ration line is put together in recipe_resolve.c. Layer: recipe. */
#ifndef BW_RECIPE_FOOD_H
#define BW_RECIPE_FOOD_H

#include "foods/cooking.h"
#include "recipe/recipe_text.h"

struct line_food {
  const struct library *lib;
  const struct recipe *recipe;
  const struct recipe_line *line;
  struct diags *d;
  struct arena *arena;

  /* what recipe_choose fills */
  enum state state; /* wanted: the line's own, or the Cook header's */
  bool by_header;   /* it was the header that said so */
  uint32_t food;
  bool found_by_name;
  const char *note; /* of the everyday name; "" */
  const uint32_t *rivals;
  size_t rival_count;

  /* what recipe_grams fills: grams of the whole amount, as its measure counts them */
  double grams, grams_low, grams_high;
  const char *assumed;    /* the household measure that was taken, with its range; NULL when none was */
  const char *grams_from; /* "" for a weighed amount */
  bool edible_only;       /* the measure leaves the bone out */
  bool piece;             /* counted: the weight of a piece as bought, not as cooked */
  bool spooned;           /* by volume */
};

/* What a handful, a pump or a chicken foot weighs, where neither the line nor the record says (recipe_household.c). */
struct household {
  double low, middle, high; /* grams of one; NaN: not known */
  const char *words;        /* "1 handful is about 30 g (15 to 45 g)" */
};
struct household household_one(struct line_food *f, double g_per_ml) MUST_USE;

/* False after a complaint. */
bool choose_food(struct line_food *f) MUST_USE;
bool find_grams(struct line_food *f) MUST_USE;

/* recipe_meaning.c: false, after a complaint, when the record leaves out a word of the line that changes what the food is.
 */
bool word_is_kept(struct line_food *f) MUST_USE;

/* Fills part[], grams_fed, state, cooked_bone of the ration line from f; grams are those of one day. */
bool cook_and_bone(struct line_food *f, double grams, double grams_cv, struct ration_line *out) MUST_USE;

/* One line by itself, as recipe_resolve does it; false after a complaint. Leaves the calendar to the caller. */
bool resolve_line(const struct library *lib, const struct recipe *recipe, const struct recipe_line *line, struct diags *d,
                  struct ration_line *out, struct arena *arena) MUST_USE;

/* recipe_uncounted.c: the recipe's uncounted lines, with the records that their words fit. */
const struct ration_uncounted *uncounted_foods(const struct library *lib, const struct recipe *recipe,
                                               struct arena *arena) MUST_USE;

/* Words as the tables have them. */
static inline struct span line_fold(struct line_food *f, struct span s) { return search_fold(&f->lib->image, s, f->arena); }

/* A name short enough for a message. */
struct span short_name(const struct library *lib, uint32_t food);

#endif
