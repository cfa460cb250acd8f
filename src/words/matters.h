/* matters.h: is what nobody counted of any weight? A few blueberries are not. Layer: words. */
#ifndef BW_WORDS_MATTERS_H
#define BW_WORDS_MATTERS_H

#include "judge/check.h"

/* Would anything be judged otherwise with this line of ration.uncounted beside what is counted, or may it be a dose of what harms at twice the
 * dose? Else nobody has to leave it out, or to find out what is in it. */
bool words_uncounted_matters(const struct library *lib, const struct check_result *r, size_t i, struct arena *a);

#endif
