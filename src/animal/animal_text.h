/* animal_text.h: reads the animal text (Animal, Species, Born or Age, Weight, ...).
 *
 * Layer: animal. */
#ifndef BW_ANIMAL_TEXT_H
#define BW_ANIMAL_TEXT_H

#include "judge/animal.h"
#include "text/date.h"
#include "text/diag.h"

/* One text may hold several animals, each begun by "Animal:". Fills the array; false when there was any error (all of them
 * are in 'd'). 'today' turns "Born:" into an age; when its year is 0 a Born line is an error that asks for Age. */
bool animal_read(struct span text, struct date today, struct diags *d, struct animal **animals, size_t *count,
                 struct arena *arena) MUST_USE;

/* The text with those animals blanked that 'd' has errors about, for whoever asks about another one; line numbers stay. */
struct span animal_without_faulty(struct span text, const struct diags *d, struct arena *arena);

/* "18 kg, 6 years, neutered": an animal in a line. The weight must be there; what else is not said is not known. 'name' is
 * taken when the first words name it. */
bool animal_read_words(struct span words, enum species species, struct date today, struct diags *d, struct animal *out,
                       struct arena *arena) MUST_USE;

/* The header's own word when this key is one ("Name" of a label is its "Food"); NULL. */
const char *animal_header(struct span key);

#endif
