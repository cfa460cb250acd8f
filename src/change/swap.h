/* swap.h: one line of a ration against every food that could stand in its place.
 *
 * The judge is asked for each (judge/exchange.h), so the verdicts are those of check_numbers for the ration with the line
 * exchanged, always. docs/method/swap.md. Layer: change. */
#ifndef BW_SWAP_H
#define BW_SWAP_H

#include "judge/check.h"

/* How readily a cook would think of a food: the best of the nearer ones come first. */
enum swap_near { SWAP_RARE, SWAP_COMMON, SWAP_CLOSE, SWAP_NEARS };
extern const char *const swap_near_word[SWAP_NEARS]; /* "rare", "common", "close" */

struct swap_ask {
  const struct library *lib;
  const struct ration *ration;
  size_t line; /* of the ration: the one that goes out */
  const struct animal *animal;
  struct check_options options;
  bool equal_mass; /* as many grams as eaten; else as much energy */
  /* What may come in: lines whose cooking and bone stand as they would be fed, of one gram as eaten. */
  const struct ration_line *offer;
  size_t offers;
  const double *most_g;       /* [offers] g as eaten a day that people feed at most; NULL: no such limit */
  const enum swap_near *near; /* [offers] NULL: all alike */
};

/* NULL when nothing can be judged: the animal is refused. */
struct swap *swap_open(const struct swap_ask *ask, struct arena *arena);
/* Judges all offers. */
void swap_pass(struct swap *s);

/* A line without energy, or of which nobody knows how much it has, is exchanged by mass, whatever was asked. */
bool swap_is_by_mass(const struct swap *s);
bool swap_energy_is_unknown(const struct swap *s); /* of the line that goes: not known, or in part only */
/* Grams as eaten on a feeding day, as a kitchen measures them, so that 'equal energy' is equal to half a gram's worth; NaN
 * when the offer cannot take the place: it has no energy or nobody knows how much, would weigh more than SWAP_BULK times as
 * much (SWAP_BULK_OF_LEAN in a ration that is too fat, for what is as much energy in lean meat), or more than people feed. */
enum { SWAP_BULK = 4, SWAP_BULK_OF_LEAN = 5 };
double swap_grams(const struct swap *s, size_t offer);
enum verdict swap_verdict(const struct swap *s, size_t offer, enum nutrient n);
/* Trouble that goes away, less the trouble that comes: 0 changes nothing, above 0 is better. */
double swap_score(const struct swap *s, size_t offer);
/* What one nutrient's verdict counts: 0 when met. 'worst' of the allowance, 'rich' of the upper limit. */
double swap_trouble(enum verdict v, double worst_share, double rich_share);
double swap_trouble_of(const struct nutrient_result *n);

/* The best: half of them from what is close, as far as there is so much, then what is common, close or not, then the rest.
 * Each part best first: where anything is too much now by how
 * much is too much then, by score, then the lighter, then the order of the offers. Returns how many; 'part' [most] says
 * which part each belongs to. */
size_t swap_best(const struct swap *s, size_t *offer, enum swap_near *part, size_t most);
/* How many can take the place at all. */
size_t swap_possible(const struct swap *s);

/* The ration with the line exchanged, as check would be given it. */
struct ration swap_ration(const struct swap *s, size_t offer, struct arena *arena);

#endif
