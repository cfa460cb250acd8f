/* label_nutrient.h: a nutrient as labels write it: its name and the amount behind it. Private to the room. Layer: label. */
#ifndef BW_LABEL_NUTRIENT_H
#define BW_LABEL_NUTRIENT_H

#include "foods/unit.h"
#include "text/headers.h"

/* The unit at a token; UNIT_NONE and 0 tokens. */
enum unit label_unit_at(const struct tokens *t, size_t at, size_t *used);
/* "Zinc (as picolinate)", "Total fat"; NUT_NONE when it is none. */
enum nutrient label_nutrient(struct span key);
void say_unknown_nutrient(struct diags *d, struct header h);
/* In the nutrient's unit; NaN after a complaint. Of vitamin A *n becomes the form that the words tell. */
double label_nutrient_amount(struct diags *d, enum nutrient *n, struct header h, const struct tokens *t);

#endif
