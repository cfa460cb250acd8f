/* cooking.h: which rows of the cooking tables fit a food: what stays of its nutrients, and what it weighs afterwards.
 * docs/method/cooking.md. Layer: foods. */
#ifndef BW_COOKING_H
#define BW_COOKING_H

#include "foods/library.h"

/* Cooking losses by method, or by the nearest method that has figures; NULL when the group has none. 'broth' as fed: 1 kept,
 * 0 poured away, -1 not said. */
const struct img_retention *retention_row(const struct library *lib, uint32_t group, enum state state, int8_t broth,
                                          bool *other_method, bool *broth_matters);
/* Cooked grams per raw gram; NaN mean when no row fits. */
struct weight_yield {
  double mean, low, high;
  bool other_method;
  bool by_group; /* no row names this food: the middle of its group */
};
struct weight_yield yield_of(const struct library *lib, uint32_t food, enum state state, struct arena *arena);

/* A record of the uncooked food, from which a cooked amount can be reckoned. */
bool cooks_from_raw(const struct img_food *r);
/* Powders, oils and salts are what they are; so is a bone. */
bool stays_as_it_is(const struct img_food *r);
/* Both in water or steam, or both in dry heat. */
bool same_kind_of_heat(enum state a, enum state b);

/* The next word of a folded text, whose words have single blanks between them; false at the end. */
bool folded_word(struct span *rest, struct span *word);
bool has_folded_word(struct span in, struct span word);
/* How many words of 'words' are among those of 'in'; both folded. */
int shared_words(struct span words, struct span in);

#endif
