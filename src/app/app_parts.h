/* app_parts.h: what the use cases share. Private to this folder. */
#ifndef BW_APP_PARTS_H
#define BW_APP_PARTS_H

#include "app/app.h"

/* The texts of a request as recipe, ration and animal (NULL: none was meant). False when something was not understood: the
 * complaints are in 'out', all of them. */
bool app_understand(const struct library *lib, const struct app_check_request *q, struct app_check_answer *out,
                    const struct ration **ration, const struct animal **animal, struct arena *arena) MUST_USE;

/* Whom the answer is for: the one-off, the one that 'for_name' or the recipe's own "For" or "Dog:" names, or the only one of
 * the animals; NULL when none was meant. 'recipe' may be NULL. False when one was meant and none could be had: complaints
 * are in 'out', whose diags have begun. */
bool app_find_animal(const struct library *lib, const struct app_check_request *q, const struct recipe *recipe, const struct animal **animal,
                     struct app_check_answer *out, struct arena *arena) MUST_USE;

/* app_noted.c: the animal with what its status and its notes, and the recipe's own title and remarks, say of it as a post would:
 * that it is young, pregnant, nursing or not well. 'recipe' may be NULL. */
const struct animal *app_animal_as_noted(const struct library *lib, const struct animal *animal, const struct recipe *recipe,
                                         struct arena *arena);

/* Does the person mean this line: by its number in the text, or by words that stand in it? Blanks mean none. */
bool app_names_line(struct span wanted, const struct ration_line *l);

/* dangers.c: what must not be fed, as warnings beside the complaints about a text that could not be read. */
void app_say_dangers(const struct library *lib, struct diags *d, struct arena *arena);

/* Lines in per cent whose whole depends on the animal get their grams; what was taken is said. */
bool app_settle_shares(const struct library *lib, const struct recipe *recipe, const struct animal *animal,
                       const struct check_options *options, struct ration *ration, struct diags *d,
                       struct arena *arena) MUST_USE;

#endif
