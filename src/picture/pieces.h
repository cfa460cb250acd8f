/* pieces.h: a bar made of pieces, each a share of the whole: where energy comes from, who supplies a nutrient, what a bowl
 * is made of. Terminal, page, sheet, paper and SVG draw the pieces where this says, with these words. Layer: picture. */
#ifndef BW_PICTURE_PIECES_H
#define BW_PICTURE_PIECES_H

#include "base/arena.h"

enum { PIECES_MOST = 12 };
struct piece {
  const char *key, *name;
  const char *words; /* "fat 44 %" */
  double share;      /* of the whole bar */
  double from, to;   /* places on the scale that the bar stands on, 0 to 1 */
};
struct pieces {
  double end; /* where the bar ends on its scale */
  int count;
  struct piece of[PIECES_MOST];
};

/* A bar without a piece yet. */
struct pieces pieces_start(double end);
/* The next piece; a share that is not known, or nothing, adds none. */
void pieces_add(struct pieces *p, const char *key, const char *name, double share, struct arena *a);
/* "protein 49 %, fat 44 % and carbohydrate 7 %" */
const char *pieces_say(const struct pieces *p, struct arena *a);

#endif
