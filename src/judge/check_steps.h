/* check_steps.h: the steps of check.c, each in its own file. Layer: judge. */
#ifndef BW_CHECK_STEPS_H
#define BW_CHECK_STEPS_H

#include "judge/totals.h"

/* energy.c: kcal from the food; fills all of 'out' but 'need', and puts the species' own kcal in the place of the published
 * ones in the totals. docs/method/totals.md, "Energy". */
void energy_supply(struct totals *t, enum species s, const struct check_options *options, struct energy_result *out,
                   struct arena *arena);
/* The supply alone, and the totals as above. */
void energy_supply_alone(struct totals *t, enum species s, const struct check_options *options, struct energy_result *out,
                         struct arena *arena);

/* Is the sum a lower bound and no more? 'missing_most': the most that foods add whose energy is not fully known. A pinch of
 * seaweed or a tablet is lost in the spread of the rest. */
bool energy_is_in_part(double kcal, double missing_most);
/* The most that may be missing beside so many known kcal; in proportion to them. */
double energy_room_for_missing(double kcal);

/* kcal of one line on a day when it is fed, and the most that its food could hold beyond that. */
struct line_energy {
  double kcal, missing_most;
};
struct line_energy energy_of_line(const struct library *lib, enum species s, const struct check_options *options,
                                  const struct ration_line *line, struct arena *arena);

/* adjust.c: changes of the standard's figure that the food itself brings about: vitamin E with unsaturated fat, arginine
 * with protein, vitamins that the gut makes. Works on result->nutrient[].allowance. 'arena' NULL: without the words. */
enum { ADJUSTED_COUNT = 4 };
extern const enum nutrient adjusted_nutrient[ADJUSTED_COUNT];
void adjust_allowances(const struct totals *t, struct check_result *result, struct arena *arena);
/* The parts of those changes that are linear in the amounts of food. Vitamin E: at least 'for_fat', and the larger of that
 * and the table's figure is raised by 'for_oil' (mg). */
struct vitamin_e_need {
  double for_fat, for_oil;
};
struct vitamin_e_need vitamin_e_need(const struct totals *t, enum species s);
/* Arginine (g) for each g of protein above the standard's protein figure; 0 where the standard has no such rule. */
double arginine_per_protein(const struct library *lib, enum standard_id standard, enum species s);

/* balance.c: ratios of the calendar's sums. */
void balance_fill(const struct totals *t, enum species s, double supply_kcal, struct balance *out);

/* parts.c: shares of mass as eaten. */
void parts_fill(const struct totals *t, double share[BOWL_COUNT]);

/* The streams as they were when that was done, from the library where others were lent them since. */
struct stream *const *energy_streams_again(const struct totals *t, enum species s, struct arena *arena);

/* suppliers.c: what rests on estimates, and all that who_supplies() needs. */
void suppliers_begin(const struct totals *t, enum species s, struct nutrient_result *out, struct arena *arena);

#endif
