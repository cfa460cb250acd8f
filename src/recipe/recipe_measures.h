/* recipe_measures.h: the measures that the food's own record weighs ("1 cup, chopped", "1 large"), and which of them a line
 * means. Private to the recipe reader. Layer: recipe. */
#ifndef BW_RECIPE_MEASURES_H
#define BW_RECIPE_MEASURES_H

#include "recipe/recipe_food.h"

struct measures {
  const struct img_measure *at;
  size_t count;
};
struct measures measures_of(const struct line_food *f);

/* Of those that fit, the one whose words suit the line best; NULL. */
const struct img_measure *measure_in_unit(struct line_food *f);           /* in the line's own unit: "tbsp, ground" */
const struct img_measure *measure_by_volume(struct line_food *f);         /* in any spoon or cup */
const struct img_measure *measure_counted(struct line_food *f);           /* it begins with the word that was counted */
const struct img_measure *measure_named(struct line_food *f);             /* with a word of the food: "2 chicken thighs" */
const struct img_measure *measure_named_of_any_size(struct line_food *f); /* the same, large and small ones too */
const struct img_measure *measure_of_usual_piece(struct line_food *f);    /* "medium", "each", "fruit" */

bool unit_is_volume(enum unit u);

/* What a millilitre weighs by words that food and line share (data/densities.tsv); NULL. */
/* The measure is one of mash, and the line does not say so. */
bool measure_assumes_mash(struct line_food *f, const struct img_measure *m);
const struct img_density *density_by_words(struct line_food *f);

/* recipe_no_weight.c: says what is missing, and offers grams of the food's own pieces; returns false. */
bool say_no_weight(struct line_food *f);

#endif
