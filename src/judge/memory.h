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
struct stream *memory_stream(const struct library *lib, struct stream_key key, double carotene_factor, unsigned use);
/* A copy of it; false where none can be kept. */
bool memory_copy_stream(const struct library *lib, struct stream_key key, double carotene_factor, struct stream *out);
/* judge_constants; NULL without a memory. */
const double *memory_constants(const struct library *lib, enum species s);
/* animal_body and animal_energy. */
struct met_animal {
  struct animal_body body;
  struct energy_need need;
};
struct met_animal memory_animal(const struct library *lib, const struct animal *a, struct arena *arena);
/* standard_allowances, for the animal that was met. */
void memory_standard(const struct library *lib, const struct check_options *options, const struct animal *a,
                     const struct met_animal *met, struct energy_eaten eaten, struct allowance_set *out, struct arena *arena);
/* standard_gather and standard_fix for it. */
void memory_standard_fixed(const struct library *lib, const struct check_options *options, const struct animal *a,
                           const struct met_animal *met, struct standard_rows *rows, struct allowance_set *fixed);
/* standard_windows: 'room' is filled when there is no memory. */
const struct img_window *const *memory_windows(const struct library *lib, enum species s,
                                               const struct img_window *room[NUT_COUNT]);

#endif
