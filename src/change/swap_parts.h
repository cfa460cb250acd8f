/* swap_parts.h: what swap.c prepares and swap_pass.c runs through. Private to swap. Layer: change. */
#ifndef BW_SWAP_PARTS_H
#define BW_SWAP_PARTS_H

#include "change/swap.h"
#include "judge/verdict.h"

/* A figure of the standard: fixed, or growing with the energy eaten, or the stricter of both. NaN where there is none. */
struct swap_figure {
  double fixed, per_kcal;
};

/* One nutrient that has a figure. */
struct swap_row {
  enum nutrient n;
  struct swap_figure minimum, allowance, upper;
  bool waived;                          /* nothing of it need come from the food */
  bool ceiling_fixed, ceiling_per_kcal; /* whether that limit forbids */
  struct supply rest;                   /* without the line; cv fields hold variances */
  /* of one gram of each offer, [offers]: amount, variance, the most and the high value of what is not known */
  float *mean, *variance, *most;
  double *mean_exact, *variance_exact, *most_exact, *high_exact;
  int32_t *verdict;
};

enum { SWAP_PADDING = 256 };

struct swap {
  struct swap_ask ask;
  struct arena *arena;
  bool by_mass, judge_all;
  double line_g, line_kcal; /* of the line that goes, on a feeding day; kcal as supplied */
  double rest_kcal;
  struct swap_row row[NUT_COUNT];
  size_t rows;
  int row_of[NUT_COUNT]; /* -1: no figure */
  float trouble_now;
  /* [offers]; those that the pass runs through have SWAP_PADDING more, so that it need not stop at the end */
  float *grams; /* NaN: cannot take the place */
  double *grams_exact, *kcal, *fat_mg, *oil_mg, *protein;
  float *kcal_now, *trouble;
  uint8_t *special;                            /* the judge is asked */
  double arginine_per_protein, arginine_above; /* the standard's protein figure */
  double rest_for_fat, rest_for_oil, rest_protein;
};

/* swap_figures.c: the limits of one offer by itself, exactly as the judge would set them. */
struct limits swap_limits(const struct swap *s, const struct swap_row *row, size_t offer);
/* Fills row[] and row_of[] with the standard's figures. */
void swap_figures_fill(struct swap *s);

#endif
