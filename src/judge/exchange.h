/* exchange.h: the same ration again and again, but for one line: for whoever compares thousands of foods in one place.
 *
 * The judge's own arithmetic (check.c), with what does not change done once: the food values of the other lines, the rows of
 * the standard, the windows, the animal. Amounts, needs, chances and verdicts are those of check_numbers to the last digit;
 * bands, suppliers, balance, parts and words are not filled. Layer: judge. */
#ifndef BW_EXCHANGE_H
#define BW_EXCHANGE_H

#include "judge/check.h"

/* Borrows everything given to it; the arena must outlive it. 'animal' may be NULL: sums without verdicts. */
struct exchange *exchange_open(const struct library *lib, const struct ration *ration, size_t line,
                               const struct animal *animal, const struct check_options *options, struct arena *arena);
/* The ration with 'in' as that line. The answer stands until the next call. */
const struct check_result *exchange_line(struct exchange *x, const struct ration_line *in);
void exchange_close(struct exchange *x);

#endif
