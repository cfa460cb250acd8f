/* ribbon.h: energy as one line that begins at nothing: what the animal needs as a band on it, what the bowl gives as a bar
 * of its parts. Terminal, page, sheet, paper and SVG draw these places and words and make none of their own. Layer: picture.
 */
#ifndef BW_PICTURE_RIBBON_H
#define BW_PICTURE_RIBBON_H

#include "judge/check.h"
#include "picture/drawing.h"
#include "picture/pieces.h"

/* How much of the bowl a hand may set to be eaten, in per cent. */
enum { EATEN_LEAST = 60, EATEN_MOST = 140 };

/* Shares of the line's length, 0 at its left end and 1 at its right; NaN: nothing is drawn. */
struct ribbon {
  double top_kcal; /* at the right end */
  double need, need_low, need_high;
  double bowl;                        /* where its bar ends */
  double least_eaten, most_eaten;     /* between them the handle is moved; NaN without one */
  struct pieces parts;                /* of the bar */
  const char *need_words;             /* "likely need 830"; "" without one, as all words */
  const char *low_words, *high_words; /* at the ends of the band */
  const char *range_words;            /* "range of dogs like Juniper: 581 to 1079" */
  const char *bowl_words;             /* "735 kcal" */
  const char *says;                   /* all of it, for those who cannot see it */
};

/* 'whole_kcal': what the whole bowl gives, where a handle sets how much of it is eaten: the line is long enough for that,
 * and does not change its measure while the handle is moved. NaN: as long as need and bowl are. False, and nothing to draw,
 * where neither of them is known. */
bool ribbon_of(const struct check_result *r, double whole_kcal, struct ribbon *to, struct arena *a);
/* Need without a bowl. */
bool ribbon_of_need(const struct check_result *r, struct ribbon *to, struct arena *a);

/* NULL when nothing is known of the bowl's energy. */
struct drawing *picture_ribbon(const struct check_result *r, double width, struct arena *a);

#endif
