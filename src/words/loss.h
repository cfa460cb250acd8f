/* loss.h: how much an animal that is too heavy is to get, from the figures of a weight plan (docs/method/slim.md).
 *
 * Layer: words. */
#ifndef BW_WORDS_LOSS_H
#define BW_WORDS_LOSS_H

#include "judge/check.h"

/* "To lose weight the dog gets about 431 kcal a day (63 kcal x 13^0.75, ...), never less than 361"; "": it is not too heavy.
 */
const char *words_loss_goal(const struct library *lib, const struct check_result *r, struct arena *a);
/* "Safe is a loss of 1 to 2 % of its weight a week." */
const char *words_loss_pace(const struct library *lib, const struct check_result *r, struct arena *a);

#endif
