/* uncounted.h: the most that something fed but not counted can supply. Layer: judge.
 *
 * "some kale": how much of it is not known, but what it is. Even as much of it as fills the rest of the energy that the
 * animal may need, or weighs as much as all that is counted, whichever is more, but of a food that people feed in portions
 * no more than three of the largest, supplies no more than this of each nutrient; what stays short of its need with all of
 * that is short, whatever the answer. Of what is no food of the tables its kind says what it can hold, where its words name
 * one: "1 multivitamin", "a few treats". Where nobody knows what it is, it can supply any amount, but of what food is made of
 * no more than it weighs. docs/method/verdicts.md, "What is not counted". */
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
/* Grams a day of line 'i' of ration.uncounted that are allowed for, of the first record that it may be; INFINITY: any. */
double uncounted_grams(const struct uncounted *u, size_t i, double eaten_g, const struct energy_result *energy);
/* Is it a danger to this animal, that must not be fed? Then it counts for nothing: it is told to go out. */
bool uncounted_is_out(const struct check_result *r, const struct ration_uncounted *u);

/* Of which nutrients may what is not counted be a dose already? A pinch of kelp is one of iodine, a splash of cod liver oil
 * one of vitamins A and D, a multivitamin one of all that tablets hold. Only those are looked at of which twice the dose
 * harms: trace elements and vitamins A and D. Whoever adds another dose of them must know the label first. */
void uncounted_doses(const struct library *lib, const struct check_result *r, bool held[NUT_COUNT]);
/* Adds to 'open' what a supplement of unknown content is given for, by its name: vitamin E, all B vitamins of a B complex, the
 * vitamins and trace elements of a multivitamin, all minerals, vitamins and taurine of a premix. What may be in any supplement
 * does not count. Nobody adds more of it before its label is read. */
void uncounted_given_for(const struct check_result *r, bool open[NUT_COUNT]);
/* Would so many grams a day of a supplement, of an oil or of liver be another dose of one of these? */
bool uncounted_is_doubled(const struct library *lib, const struct check_result *r, const bool held[NUT_COUNT], uint32_t food,
                          double grams);

#endif
