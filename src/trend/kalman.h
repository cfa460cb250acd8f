/* kalman.h: the filter and the smoother behind trend.h. Private to this folder.
 *
 * State: weight (kg), own need (kg of tissue a day), how much more than was to be expected is eaten on a day that nobody
 * wrote down (kg of tissue a day), what is in the bowels more than usual (kg). A reading is weight + bowels + noise. A day
 * on:
 *
 *   weight += eaten - need;  need += slope x (eaten - need);  bowels = stay x bowels
 *
 * Source of the recursions: Durbin and Koopman, Time Series Analysis by State Space Methods (univariate treatment, fixed
 * interval smoothing, auxiliary residuals). */
#ifndef BW_KALMAN_H
#define BW_KALMAN_H

#include "base/arena.h"

enum { KALMAN_WEIGHT, KALMAN_NEED, KALMAN_EATEN, KALMAN_BOWELS, KALMAN_STATES };

struct kalman_state {
  double mean[KALMAN_STATES], cov[KALMAN_STATES][KALMAN_STATES];
};

struct kalman_noise {
  double scale_sd;          /* kg, of an ordinary reading */
  double weight_sd;         /* kg a day */
  double need_sd, eaten_sd; /* kg of tissue a day, a day */
  double unknown_sd;        /* kg: of one unknown day's intake about its mean */
  double bowels_sd;         /* kg, in the long run */
  double bowels_stay;       /* share that is still there a day later */
};

/* What is known of the animal, day by day from 0. */
struct kalman_data {
  int days;
  const double *eaten;        /* kg of tissue; of an unknown day what is to be expected */
  const bool *unknown;        /* nobody wrote down what was eaten that day */
  const int *reading_from;    /* days + 1: readings of day d are [from[d], from[d + 1]) */
  const double *kg, *trust;   /* of each reading; its variance is scale_sd^2 / trust */
  double need_slope;          /* kg of tissue a day per kg: a heavier body needs more */
  const double *need_jump_sd; /* added to the need's drift into that day: a change is allowed there */
};

struct kalman_step { /* one reading */
  double error, variance, gain[KALMAN_STATES];
};

struct kalman_run {
  const struct kalman_data *data;
  const struct kalman_noise *noise;
  struct kalman_state *before; /* of each day, before its readings; days + 1 */
  struct kalman_step *step;    /* of each reading */
  struct kalman_state last;    /* of the last day, after its readings */
  double log_likelihood;
};

struct kalman_smooth {
  struct kalman_state *day; /* given all readings */
  /* A jump of the need into that day: how many standard deviations the data speak for it, whatever its assumed size. */
  double *need_jump;
};

/* 'run' with room for the steps (kalman_room), or with before NULL when only the likelihood and the last state are asked. */
void kalman_room(struct kalman_run *run, const struct kalman_data *data, struct arena *arena);
void kalman_filter(const struct kalman_data *data, const struct kalman_noise *noise, const struct kalman_state *start,
                   struct kalman_run *run);
void kalman_smooth_room(struct kalman_smooth *s, const struct kalman_data *data, struct arena *arena);
/* Of each day with a reading what the readings of all days say of weight and bowels together; other days are left alone. */
void kalman_seen(const struct kalman_run *run, double *mean, double *variance);
void kalman_smoother(const struct kalman_run *run, struct kalman_smooth *out);
/* Covariance of the state of day 'from' with that of the last day, given all readings. */
void kalman_cov_with_last(const struct kalman_run *run, int from, double out[KALMAN_STATES][KALMAN_STATES]);
/* One day on; 'eaten' as in struct kalman_data. */
void kalman_next_day(const struct kalman_data *data, struct kalman_state *s, double eaten, bool unknown,
                     const struct kalman_noise *noise, double need_jump_sd);
/* A reading enters; returns what came of it. */
struct kalman_step kalman_read(struct kalman_state *s, double kg, double variance);

#endif
