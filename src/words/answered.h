/* answered.h: what the figures say to what an owner asks: "There is too little calcium: 383 mg a day, 52 % of the 740 mg
 * that the dog needs." Terminal, letter and JSON say the same.
 *
 * Layer: words. */
#ifndef BW_WORDS_ANSWERED_H
#define BW_WORDS_ANSWERED_H

#include "judge/check.h"
#include "judge/owners_question.h"

/* Is this among what is asked by its name, so that an answer tells its figures? */
bool words_answers_tell(const struct owners_question *q, size_t count, enum nutrient n);

/* What the figures say to all that was asked, of an animal that is judged, behind what it was: "You asked about liver and
 * vitamin A. Liver is ..."; "" where they say nothing to it. */
const char *words_answers(const struct library *lib, const struct check_result *r, const struct owners_question *q,
                          size_t count, struct arena *a);

#endif
