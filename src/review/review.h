/* review.h: a ration judged and written about: what the program answers when somebody asks about a bowl. Layer: review. */
#ifndef BW_REVIEW_H
#define BW_REVIEW_H

#include "review/findings.h"

/* check_numbers and then the written review of it (findings_write). 'animal' may be NULL (composition only). */
const struct check_result *check_ration(const struct library *lib, const struct ration *ration, const struct animal *animal,
                                        const struct check_options *options, struct arena *arena);

#endif
