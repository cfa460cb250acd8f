/* plain.h: a line of a recipe as people would write it to each other: what is there for the program left out.
 *
 * Layer: text. */
#ifndef BW_PLAIN_H
#define BW_PLAIN_H

#include "base/arena.h"

/* "67.5-202.5 g beef mince [usda:23572] # by the cup" -> "about 135 g beef mince": without the pin, remarks, the mark of a
 * list, and a range that was assumed ("250 g (125-375 g) beef mince"); of a range alone its middle; of decimals of a spoon the fraction. */
const char *plain_line(const char *line, struct arena *arena);
/* The same line in a bowl that is for a day: "100 g liver, daily" -> "100 g liver". */
const char *plain_of_a_day(const char *line, struct arena *arena);

/* What was assumed of a line stands in one text, its pieces between "; ": the first of *rest, taken off it. */
struct span plain_next_piece(struct span *rest);

#endif
