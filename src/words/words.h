/* words.h: numbers, lists and names as people read them. Whatever is said to a person, on the terminal, in JSON or on the
 * page, takes its figures and names from here, so that one figure looks the same wherever it stands.
 *
 * Nothing is ever written as 0 that is not known, as 0 that is only small, or as 100 % that rounding made. Blanks are plain;
 * who sets lines holds together what belongs together. Texts live in the arena given. Layer: words. */
#ifndef BW_WORDS_H
#define BW_WORDS_H

#include <stdarg.h>

#include "base/buf.h"
#include "judge/check.h"

#define NOT_KNOWN_WORDS "not known"

const char *words_text(struct arena *a, const char *fmt, ...) PRINTF_LIKE(2, 3);

/* ---- figures --------------------------------------------------------------------------------------------------- */

/* Three significant digits from 0.01 on (four from 1000 on), two below: "17.1", "0.0123", "0.0046", "1480", "<0.001",
 * "1.2e6"; at most six columns. NaN: "not known". */
const char *words_number(struct arena *a, double x);
/* Of a ratio of two weights: "0.07", and no third digit of what is next to nothing. */
const char *words_ratio(struct arena *a, double x);
/* How many times as much: "1.7 times", "twice", "53 times"; nobody reckons with more figures. */
const char *words_times(struct arena *a, double x);
/* With its unit, which is never exchanged for another, so that a figure is the same in a table and in a sentence: "17.1 mg".
 * The unit may be "" or NULL. NaN: "not known". */
const char *words_amount(struct arena *a, double x, const char *unit);
/* Grams of a food; below a tenth as milligrams: "40 mg". NaN: "not known". */
const char *words_mass(struct arena *a, double grams);
/* Whole numbers, for kcal and grams of a line; one digit more below ten. NaN: "not known". */
const char *words_whole(struct arena *a, double x);
/* Kilocalories that the bowl gives: "475", or "at least 475" where the energy is known in part. */
const char *words_supply(const struct energy_result *e, struct arena *a);
/* "The bowl gives 475 kcal a day", "What is counted gives 79 kcal a day": as a sentence begins. */
const char *words_gives(const struct energy_result *e, struct arena *a);
/* "£2.10"; the currency may be "" or NULL. NaN: "not known". */
const char *words_money(struct arena *a, const char *currency, double x);
/* A share 0..1 in a sentence: "31 %", "under 1 %", ">99 %"; a whole is "100 %". NaN: "not known". */
const char *words_share(struct arena *a, double share);
/* A chance 0..1: as a share, but never 0 or 100 %. NaN: "". */
const char *words_chance(struct arena *a, double chance);
/* The same two where a column is narrow: "<1 %". */
const char *words_share_short(struct arena *a, double share);
const char *words_chance_short(struct arena *a, double chance);

/* ---- lists and names ------------------------------------------------------------------------------------------- */

/* "a", "a and b", "a, b and c"; with 'most' < count the rest is counted and not read: "a, b and 3 more". */
const char *words_list(struct arena *a, const char *const *item, size_t count, size_t most);
/* "zinc", "vitamin A", "EPA + DHA": inside a sentence. */
const char *words_nutrient(struct arena *a, enum nutrient n);
/* What people call a food: the everyday name of data/names.tsv, the label's name, else the first words of the tables' name
 * without its way of cooking: "cooked mussels". */
const char *words_food(struct arena *a, const struct library *lib, uint32_t food);
/* What of the record's name a line does not say already: "80% lean meat / 20% fat" of ground beef for "300 g beef mince";
 * the whole name where nothing is left. */
const char *words_telling(struct arena *a, const struct library *lib, uint32_t food, struct span line);
/* The food of a recipe's line in the writer's own words: "lamb shoulder"; the food's everyday name where a pin stands alone;
 * "a food" where there is no such line. */
const char *words_line(struct arena *a, const struct library *lib, const struct ration *ration, int line_index);
/* As a sentence begins: "The dog". */
const char *words_capital(struct arena *a, const char *text);
/* Where a line that somebody wrote has the words of its food, from the beginning of a word on; NULL. */
const char *words_in_line(const char *line, const char *food);
/* "Juniper", or "the dog" when it has no name; "the animal" for NULL. */
const char *words_called(const struct animal *animal);
/* "Juniper, dog, 18 kg, 6 years, neutered, moderate activity" */
const char *words_animal(struct arena *a, const struct animal *animal);
/* How sure a need is, to stand in brackets behind it: "animals differ: 581 to 1079", "by the journal, between 724 and 784";
 * "" when no range is known. */
const char *words_need_range(struct arena *a, const struct animal *animal, const struct energy_need *need);
/* "daily", "weekly", "2 days in 7", "5 days in 28" */
const char *words_frequency(struct arena *a, double times_per_28);
/* "muscle meat", "other organs" */
const char *words_part(enum bowl_part part);
/* "organ fed as meat", "seed or nut": what one food is. */
const char *words_food_part(enum part part);
/* The heading over a group of nutrients: "Trace elements"; "" over the energy. */
const char *words_nutrient_group(enum nutrient_group group);
/* The heading over findings of a weight: "Act on". */
const char *words_weight(enum finding_weight weight);
/* What allowances are reckoned by: "by body weight". */
const char *words_basis(enum basis basis);
/* How a figure came to be known: "recalled, not read in the source itself". */
const char *words_confidence(enum confidence confidence);

#endif
