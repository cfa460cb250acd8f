/* ratio.h: a ration as parts by weight against a stated ratio (80:10:5:5 and others), and what that ratio leaves open.
 *
 * A ratio says how much of each part, not which food. For each need that is not met, the best that the ratio can do with
 * this very ration is reckoned: every part filled with the food of the ration that is richest in the nutrient. Where even
 * that stays below the need, no division within the ratio helps. docs/method/ratio.md. Layer: explain. */
#ifndef BW_RATIO_H
#define BW_RATIO_H

#include "base/buf.h"
#include "judge/check.h"

struct ratio_piece {
  const char *name; /* "muscle meat" */
  unsigned parts;   /* bits 1 << enum bowl_part */
  double share;     /* 0..1; all together 1 */
};
struct ratio {
  struct ratio_piece piece[BOWL_COUNT];
  int count;
};

/* "80:10:5:5" (muscle meat, bone, liver, other secreting organs), "80:10:10" (organs together), or named parts: "muscle 70,
 * bone 10, liver 5, organ 5, plant 10". Fish counts as muscle meat unless it is named. False when it is not understood;
 * 'complaint' then says why. */
bool ratio_read(struct span words, struct ratio *out, struct buf *complaint) MUST_USE;

struct ratio_row {
  double grams, share;          /* a day, as eaten */
  double asked_g, difference_g; /* asked minus what is there */
  bool absent;                  /* asked for, and no food of the ration is of this part */
};

struct ratio_need {
  enum nutrient id;
  double best;   /* a day, with every part filled with its richest food; NaN: nobody knows any of it */
  int line;      /* that brings most of 'best'; -1: none */
  bool unproven; /* a food that the ratio has room for lacks a value */
};

struct ratio_view {
  struct ratio ratio;
  struct ratio_row row[BOWL_COUNT];
  double total_g;
  double beside_g[BOWL_COUNT]; /* parts that the ratio does not name */
  double beside_total_g;
  struct ratio_need open[NUT_COUNT], within[NUT_COUNT]; /* no division helps; another division could */
  int open_count, within_count;
};

/* For a result that check_ration or check_numbers gave for this library. Without a judged animal no need is looked at. */
const struct ratio_view *ratio_view_of(const struct library *lib, const struct check_result *r, const struct ratio *ratio,
                                       struct arena *arena);

#endif
