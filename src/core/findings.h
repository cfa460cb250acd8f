/* findings.h: the written review. What is said is data (data/findings.tsv); when it is said is decided here.
 *
 * Layer: core. */
#ifndef BW_FINDINGS_H
#define BW_FINDINGS_H

#include "core/check.h"

/* Fills result->finding: dangers first, then by weight and order. Two that say the same are one. */
void findings_write(const struct library *lib, struct check_result *result, struct arena *arena);

#endif
