/* say.h: numbers and names in words for people. Nothing is ever written as 0 that is not known, or as 100 % that is not
 * sure.
 *
 * Texts live in the pen's arena. Layer: report, internal. */
#ifndef BW_REPORT_SAY_H
#define BW_REPORT_SAY_H

#include "report/pen.h"

#define NBSP "\xC2\xA0"

/* Three significant digits (more before the point), at most six columns: "17.1", "0.012", "1480", "<0.001"; NaN "not known".
 */
const char *say_amount(const struct pen *p, double x);
/* "17.1 mg", held together; NaN "not known" without a unit. */
const char *say_with_unit(const struct pen *p, double x, const char *unit);
/* Whole number: kcal, grams of a line. */
const char *say_whole(const struct pen *p, double x);
/* A share 0..1: "31 %", "<1 %"; whole is "100 %". */
const char *say_percent(const struct pen *p, double share);
/* A chance 0..1: "62 %", ">99 %", "<1 %", never 0 or 100; NaN "". */
const char *say_chance(const struct pen *p, double chance);
const char *say_text(const struct pen *p, const char *fmt, ...) PRINTF_LIKE(2, 3);
/* Blanks become no-break spaces, for items of a list. */
const char *say_held(const struct pen *p, const char *text);

/* "zinc", "vitamin A", "EPA + DHA": inside a sentence. */
const char *say_nutrient(const struct pen *p, enum nutrient n);
/* The food's words of a recipe line, without amount, unit and what follows the first comma: "lamb shoulder". */
const char *say_food(const struct pen *p, const struct library *lib, const struct ration *ration, int line_index);
/* "Juniper", or "the dog" when it has no name. */
const char *say_animal(const struct pen *p, const struct animal *a);
/* "daily", "weekly", "2 days in 7", "5 days in 28". */
const char *say_frequency(const struct pen *p, double times_per_28);

/* "a", "a and b", "a, b and c"; with 'most' < count the rest is counted, and not read: "a, b and 3 more". */
const char *say_list(const struct pen *p, const char *const *item, int count, int most);

#endif
