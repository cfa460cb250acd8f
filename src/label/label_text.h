/* label_text.h: own foods and supplement labels.
 *
 *   Food: Zinc tablets
 *   Part: supplement
 *   Per: 1 tablet (0.4 g)
 *   Zinc: 15 mg
 *
 * What a label does not state is unknown. Codes are "mine:" plus the name in small letters with hyphens, or what
 * "Code:" says. Layer: label. */
#ifndef BW_LABEL_TEXT_H
#define BW_LABEL_TEXT_H

#include "foods/library.h"
#include "foods/unit.h"
#include "text/diag.h"

/* Grams that stand for one piece whose weight the label does not state: unit_g is then NaN, and the values per 100 g are
 * those of a piece of this weight, so that pieces are counted rightly while grams of it are refused. */
enum { LABEL_PIECE_G = 1 };

/* Reads all foods of a text. 'lib' gives the foods that are already there: a code that exists is an error. */
bool label_read(struct span text, const struct library *lib, struct diags *d, struct own_food **foods, size_t *count,
                struct arena *arena) MUST_USE;

/* One food of a text, with what stands before it: from one "Food:" or "Name:" to the next. */
struct label_block {
  size_t from, to; /* bytes of the text */
  int line;        /* of its first byte, from 1 */
};
/* The block that begins at 'at' in line 'line', which is counted on to that of the next. */
struct label_block label_next_block(struct span text, size_t at, int *line);

/* The header's own word when this key is one ("Name" of a label is its "Food"); NULL. */
const char *label_header(struct span key);

#endif
