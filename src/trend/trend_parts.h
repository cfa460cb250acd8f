/* trend_parts.h: the steps of the estimate. Private to this folder. */
#ifndef BW_TREND_PARTS_H
#define BW_TREND_PARTS_H

#include "trend/kalman.h"
#include "trend/trend.h"

enum { TREND_TISSUES = 3, TREND_COMPONENTS_MOST = 64 };

static const double TREND_FREEDOM = 4; /* of Student's t: the scale's heavy tails */

/* What was recorded, day by day from 'first' on. */
struct trend_series {
  long first;
  struct kalman_data data;      /* 'eaten' is that of the component at hand */
  double *eaten[TREND_TISSUES]; /* by energy of tissue */
  double tissue[TREND_TISSUES], tissue_share[TREND_TISSUES];
  int tissues;                  /* 1 without a known intake: nothing hangs on it then */
  double *trust, *need_jump_sd; /* those of 'data', to write */
  const double *kcal;           /* by day; NaN */
  const double *kcal_expected;  /* ... of an unknown day what the known days around it say; 0 where there are none at all */
  bool *unknown;                /* those days */
  double weight_kg;             /* the middle one: the scale of all noises */
  double need_kg;               /* kg of tissue a day: the scale of the need, from what was eaten, else a usual one */
  double mean_kcal;             /* of the known days */
  double kcal_sd;               /* of a day about what the days around it say */
  size_t known_days;
};

/* One choice of noises and tissue, with its share of what the data say. */
struct trend_component {
  int tissue;
  struct kalman_noise noise;
  double share;
  int jump_day;        /* the need may have changed by a step into that day; 0: it has not */
  const double *trust; /* in each reading of the series that it was learnt from, by this noise */
};

struct trend_fit {
  struct trend_component component[TREND_COMPONENTS_MOST]; /* largest share first; shares add up to 1 */
  int count;
};

/* trend_series.c */
void trend_series_build(const struct trend_input *in, struct trend_series *s, struct arena *arena);
/* From day 'from' on; borrows. */
struct trend_series trend_series_tail(const struct trend_series *s, int from);
/* The series as that component sees it; 'trust' in place of the series' own. */
struct kalman_data trend_view(const struct trend_series *s, const struct trend_component *c, const double *trust,
                              struct arena *arena);
struct kalman_state trend_start(const struct trend_series *s, int tissue, const struct kalman_noise *noise);
/* The middle one of x [n], which is put in order; n > 0. */
double trend_median(double *x, size_t n);
/* How far a reading may be trusted that is off by 'z' scale_sd. */
double trend_trust(double z_squared);
void trend_first_trust(struct trend_series *s, struct arena *arena);

/* trend_shift.c: takes out the steps of the readings from reading 'first' on; what stands before one is moved by it. 'in'
 * then has weights of its own. Returns how many; 'out' [TREND_SHIFTS_MOST]. */
size_t trend_align(struct trend_input *in, size_t first, struct trend_shift *out, struct arena *arena);

/* trend_learn.c: noises and trust. */
void trend_learn(struct trend_series *s, struct trend_fit *fit, struct arena *arena);
struct kalman_noise trend_usual_noise(const struct trend_series *s);

/* trend_change.c: where the need must jump for the weights to make sense; by weights alone, or with what was eaten. */
int trend_find_jumps(const struct trend_series *s, const struct kalman_noise *noise, bool weights_alone, int *day, int most,
                     struct arena *arena);
/* The lines between the jumps, and what was eaten on either side. */
void trend_tell_changes(const struct trend_series *s, const struct kalman_noise *noise, const int *day, int count,
                        const int *need_day, int need_count, struct trend_change *out, struct arena *arena);

/* trend_mix.c: several normals as one. */
struct trend_mix {
  double share[TREND_COMPONENTS_MOST], mean[TREND_COMPONENTS_MOST], sd[TREND_COMPONENTS_MOST];
  int count;
};
double trend_mix_below(const struct trend_mix *m, double x);
double trend_mix_quantile(const struct trend_mix *m, double p);
struct trend_band trend_mix_band(const struct trend_mix *m);

#endif
