/* uncounted.h: the most that something fed but not counted can supply. Layer: judge.
 *
 * "some kale": how much of it is not known, but what it is. Even as much of it as fills the rest of the energy that the
 * animal may need, or weighs as much as all that is counted, whichever is more, but of a food that people feed in portions
 * no more than three of the largest, supplies no more than this of each nutrient; what stays short of its need with all of
 * that is short, whatever the answer. Where nobody knows what it is, it can supply any amount. docs/method/verdicts.md,
 * "What is not counted". */
#ifndef BW_UNCOUNTED_H
#define BW_UNCOUNTED_H

#include "judge/check.h"
#include "judge/totals.h"

/* What a gram of each food holds that the ration's uncounted lines may be; NULL when it has none. 'body' of the animal,
 * whose metabolic_kg is NaN where there is none. */
struct uncounted *uncounted_gather(const struct library *lib, const struct ration *ration, enum species species,
                                   const struct animal_body *body, double carotene_factor, struct arena *arena);
/* Fills most[NUT_COUNT], a day: INFINITY where it can be any amount. 'u' not NULL. */
void uncounted_most(const struct uncounted *u, double eaten_g, const struct energy_result *energy, double most[NUT_COUNT]);
/* Grams a day of that food which are allowed for; INFINITY: any. Line 'i' of ration.uncounted, its food 'k'. */
double uncounted_grams(const struct uncounted *u, size_t i, size_t k, double eaten_g, const struct energy_result *energy);

/* Of which nutrients may what is not counted be a dose already? A pinch of kelp is one of iodine, a splash of cod liver oil
 * one of vitamins A and D, a multivitamin one of all that tablets hold. Only those are looked at of which twice the dose
 * harms: trace elements and vitamins A and D. Whoever adds another dose of them must know the label first. */
void uncounted_doses(const struct library *lib, const struct check_result *r, bool held[NUT_COUNT]);
/* Would so many grams a day of a supplement, of an oil or of liver be another dose of one of these? */
bool uncounted_is_doubled(const struct library *lib, const struct check_result *r, const bool held[NUT_COUNT], uint32_t food,
                          double grams);

#endif
