/* match.h: rules of our own tables that say which food records they mean.
 *
 * A rule is a handful of cells of one table row; an empty cell means "any":
 *   part, kind   words of part_word[] and kind_word[], '|' between them
 *   state        words of state_word[], or "heated" (every cooked state but canned), '|' between them
 *   words        terms that the name must hold: ',' means and, '|' means or ("cod, atlantic|pacific"); a term of several
 *                words must stand as it is; a plural of a term counts as the term; letters are compared without case
 *   unless       terms of which the name must hold none, '|' between them
 *   codes        record codes, '|' between them; they are meant whatever the other cells say */
#ifndef BW_LIBRARY_MATCH_H
#define BW_LIBRARY_MATCH_H

#include "library/foods.h"

struct food_rule {
  uint32_t parts, kinds, states; /* sets, one bit a word; all bits for "any" */
  struct span words, unless, codes;
  bool codes_only; /* codes are given and nothing else */
};

/* Reads the cells that the table has among those above; ends the program at a word that does not exist. */
struct food_rule food_rule_read(const struct tsv *t, size_t row);
bool food_rule_fits(const struct food_rule *r, const struct build_food *f);
/* Does the name hold the term, as whole words, plural allowed, case folded? */
bool name_has_term(const char *name, struct span term);

#endif
