/* memory.h: what stays the same from ration to ration, for whoever judges one after the other: a folder of texts. Foods come
 * again and again, and so do the animal's rows of the standard. Every answer is the same to the last digit with it and
 * without. Layer: judge. */
#ifndef BW_JUDGE_MEMORY_H
#define BW_JUDGE_MEMORY_H

#include "judge/totals.h"

struct judge_memory;
/* Put it into library.judged, of one image; own foods are not kept, and own rows of standards stay as they are while it is
 * used. The arena must outlive its use. */
struct judge_memory *judge_memory_new(struct arena *arena);

/* The rest is for the judge itself; each works without a memory too. */

/* Totals begin: what was given to others may be given anew. */
unsigned memory_next_use(const struct library *lib);
/* Has none begun since? */
bool memory_is_in_use(const struct library *lib, unsigned use);
/* The portion's stream, with the energy as published; NULL when it is not kept. It is lent until the next use begins. */
struct stream *memory_stream(const struct library *lib, const struct portion *p, double carotene_factor, unsigned use);
/* judge_constants; NULL without a memory. */
const double *memory_constants(const struct library *lib, enum species s);
/* standard_gather: 'room' is filled when there is no memory. */
const struct standard_rows *memory_rows(const struct library *lib, enum standard_id std, enum basis basis,
                                        const struct animal *a, const struct energy_need *need, struct standard_rows *room);

#endif
