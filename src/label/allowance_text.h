/* allowance_text.h: rows of a standard that somebody copied from its book, to be used in place of ours.
 *
 *   # NRC 2006, from the printed table
 *   nrc2006 dog zinc RA 2.0 mg/kg^0.75, p. 359
 *   fediaf2021 cat taurine MIN 0.67 g/1000 kcal at 75 kcal, p. 22
 *   nrc2006 cat vitamin_d SUL 188 µg/1000 kcal
 *
 * Standard, species, nutrient (key or name), level, amount with its basis, and after a comma the place, which the answer
 * repeats. Levels: MR or minimum, AI or adequate, RA, MIN or allowance, SUL, MAX or upper; '>' before an upper figure that
 * is only the highest level tested; "cautious" after one that is told and not judged by. A row replaces all of ours for its
 * standard, species, nutrient and level. Layer: label. */
#ifndef BW_ALLOWANCE_TEXT_H
#define BW_ALLOWANCE_TEXT_H

#include "foods/library.h"
#include "text/diag.h"

/* Level words as a standard's book has them: "RA", "MIN". */
const char *allowance_level_word(enum standard_id std, enum allow_level level);

/* Reads all rows; every bad one is complained of, and then false is returned. 'file' is what the place begins with. */
bool allowances_read(struct span text, const char *file, const struct library *lib, struct diags *d,
                     struct own_allowance **rows, size_t *count, struct arena *arena) MUST_USE;

/* The rows of a standard in this form, with how well each is known as a comment; allowances_read takes them back. */
void allowances_write(const struct library *lib, enum standard_id std, enum species species, struct buf *out);

#endif
