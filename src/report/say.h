/* say.h: words for people, held together where a line is set: blanks inside of them are no-break spaces. The words
 * themselves are those of src/words.
 *
 * Texts live in the pen's arena. Layer: report, internal. */
#ifndef BW_REPORT_SAY_H
#define BW_REPORT_SAY_H

#include "report/pen.h"
#include "words/words.h"

#define NBSP "\xC2\xA0"

const char *say_text(const struct pen *p, const char *fmt, ...) PRINTF_LIKE(2, 3);
/* Blanks become no-break spaces. */
const char *say_held(const struct pen *p, const char *text);
/* words_amount, words_share_short, words_chance_short and words_list, held together. */
const char *say_with_unit(const struct pen *p, double x, const char *unit);
const char *say_percent(const struct pen *p, double share);
const char *say_chance(const struct pen *p, double chance);
/* Short items are held, long ones and the list are not. */
const char *say_list(const struct pen *p, const char *const *item, int count, int most);

#endif
