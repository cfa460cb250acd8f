/* findings.h: the written review. What is said is data (data/findings.tsv); when it is said is decided here.
 *
 * Layer: review. */
#ifndef BW_FINDINGS_H
#define BW_FINDINGS_H

#include "judge/check.h"

/* A finding's order is that of its row times this, and how severe it is below that. */
enum { FINDING_ORDER_STEP = 1000 };

/* Fills result->finding: dangers first, then by weight and order. Two that say the same are one. */
void findings_write(const struct library *lib, struct check_result *result, struct arena *arena);

/* A danger lies in this line of the text (1-based). */
bool findings_mark_line(const struct check_result *result, int line);

/* Does the review say this? False where there is none (NULL). */
bool findings_say(const struct check_result *result, const char *id);

/* What stands behind "About 2 tablets of iodine 150 µg a day would cover it". */
struct finding_remedy {
  uint32_t food;     /* NO_INDEX: the table knows no single food that does */
  double grams;      /* a day, on average */
  double times;      /* feedings in 28 days */
  const char *words; /* "2 tablets of iodine 150 µg a day", as a recipe has it */
  const char *once;  /* "2 tablets of iodine 150 µg": one feeding */
};

/* For a nutrient that is short, thin or unproven. */
struct finding_remedy findings_remedy(const struct library *lib, const struct check_result *result, enum nutrient n,
                                      struct arena *arena);

#endif
