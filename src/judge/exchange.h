/* exchange.h: the same ration again and again, but for one line or with one line more: for whoever compares thousands of
 * foods in one place, or tries what a food would mend.
 *
 * The judge's own arithmetic (check.c), with what does not change done once: the food values of the other lines, the rows of
 * the standard, the windows, the animal. Amounts, needs, chances, verdicts and balance are those of check_numbers to the
 * last digit; bands, suppliers, parts and words are not filled. Layer: judge. */
#ifndef BW_EXCHANGE_H
#define BW_EXCHANGE_H

#include "judge/check.h"

/* 'line' is the one that is exchanged; the ration's line_count stands for one line more. Borrows everything given to it; the
 * arena must outlive it. 'animal' may be NULL: sums without verdicts. */
struct exchange *exchange_open(const struct library *lib, const struct ration *ration, size_t line,
                               const struct animal *animal, const struct check_options *options, struct arena *arena);
/* The ration with 'in' as that line. The answer stands until the next call. */
const struct check_result *exchange_line(struct exchange *x, const struct ration_line *in);
/* The same in two steps, for whoever needs the verdicts on a few nutrients: energy and balance stand, of the nutrients only
 * what is asked for next. */
const struct check_result *exchange_sums(struct exchange *x, const struct ration_line *in);
const struct nutrient_result *exchange_nutrient(struct exchange *x, enum nutrient n);
/* For whoever is going to ask for all from 'first' up to 'end' that a figure stands for: together they take half the time.
 */
void exchange_judge(struct exchange *x, int first, int end);
void exchange_close(struct exchange *x);

#endif
