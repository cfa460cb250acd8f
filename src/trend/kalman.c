#include "trend/kalman.h"

#include <math.h>

typedef double matrix[KALMAN_STATES][KALMAN_STATES];

static const double LOG_TWO_PI = 1.8378770664093453;

/* Z' v: what a reading sees. */
static double seen(const double *v) { return v[KALMAN_WEIGHT] + v[KALMAN_BOWELS]; }

struct kalman_step kalman_read(struct kalman_state *s, double kg, double variance) {
  struct kalman_step k = {kg - seen(s->mean), variance, {0}};
  double pz[KALMAN_STATES];
  for (int i = 0; i < KALMAN_STATES; i++) pz[i] = seen(s->cov[i]);
  k.variance += seen(pz);
  for (int i = 0; i < KALMAN_STATES; i++) k.gain[i] = pz[i] / k.variance;
  for (int i = 0; i < KALMAN_STATES; i++) {
    s->mean[i] += k.gain[i] * k.error;
    for (int j = 0; j <= i; j++) s->cov[i][j] = s->cov[j][i] = s->cov[i][j] - k.gain[i] * pz[j];
  }
  return k;
}

/* One night: T v and T' v. Its only numbers are whether the day's food is the third state, the slope and what stays. */
struct night {
  double unknown, slope, stay;
};

static struct night night_of(const struct kalman_data *data, bool unknown, const struct kalman_noise *noise) {
  return (struct night){unknown ? 1 : 0, data->need_slope, noise->bowels_stay};
}

static void ahead(const struct night *t, double *v) {
  double surplus = t->unknown * v[KALMAN_EATEN] - v[KALMAN_NEED];
  v[KALMAN_WEIGHT] += surplus;
  v[KALMAN_NEED] += t->slope * surplus;
  v[KALMAN_BOWELS] *= t->stay;
}

static void back(const struct night *t, double *v) {
  double surplus = v[KALMAN_WEIGHT] + t->slope * v[KALMAN_NEED];
  v[KALMAN_NEED] -= surplus;
  v[KALMAN_EATEN] += t->unknown * surplus;
  v[KALMAN_BOWELS] *= t->stay;
}

/* T M T' and T' M T of a symmetric matrix: rows, then columns. */
static void ahead_both(const struct night *t, matrix m) {
  for (int i = 0; i < KALMAN_STATES; i++) ahead(t, m[i]);
  for (int j = 0; j < KALMAN_STATES; j++) {
    double surplus = t->unknown * m[KALMAN_EATEN][j] - m[KALMAN_NEED][j];
    m[KALMAN_WEIGHT][j] += surplus;
    m[KALMAN_NEED][j] += t->slope * surplus;
    m[KALMAN_BOWELS][j] *= t->stay;
  }
}

static void back_both(const struct night *t, matrix m) {
  for (int i = 0; i < KALMAN_STATES; i++) back(t, m[i]);
  for (int j = 0; j < KALMAN_STATES; j++) {
    double surplus = m[KALMAN_WEIGHT][j] + t->slope * m[KALMAN_NEED][j];
    m[KALMAN_NEED][j] -= surplus;
    m[KALMAN_EATEN][j] += t->unknown * surplus;
    m[KALMAN_BOWELS][j] *= t->stay;
  }
}

void kalman_next_day(const struct kalman_data *data, struct kalman_state *s, double eaten, bool unknown,
                     const struct kalman_noise *noise, double need_jump_sd) {
  struct night t = night_of(data, unknown, noise);
  double gone = 1 - t.stay * t.stay;
  ahead(&t, s->mean);
  s->mean[KALMAN_WEIGHT] += eaten;
  s->mean[KALMAN_NEED] += t.slope * eaten;
  ahead_both(&t, s->cov);
  s->cov[KALMAN_WEIGHT][KALMAN_WEIGHT] +=
      noise->weight_sd * noise->weight_sd + t.unknown * noise->unknown_sd * noise->unknown_sd;
  s->cov[KALMAN_NEED][KALMAN_NEED] += noise->need_sd * noise->need_sd + need_jump_sd * need_jump_sd;
  s->cov[KALMAN_EATEN][KALMAN_EATEN] += noise->eaten_sd * noise->eaten_sd;
  s->cov[KALMAN_BOWELS][KALMAN_BOWELS] += gone * noise->bowels_sd * noise->bowels_sd;
}

void kalman_room(struct kalman_run *run, const struct kalman_data *data, struct arena *arena) {
  run->before = arena_raw(arena, (size_t)data->days + 1, sizeof *run->before);
  run->step = arena_raw(arena, (size_t)data->reading_from[data->days] + 1, sizeof *run->step);
}

void kalman_filter(const struct kalman_data *data, const struct kalman_noise *noise, const struct kalman_state *start,
                   struct kalman_run *run) {
  struct kalman_state s = *start;
  double r = noise->scale_sd * noise->scale_sd, twice = 0;
  run->data = data;
  run->noise = noise;
  for (int d = 0; d < data->days; d++) {
    if (run->before) run->before[d] = s;
    for (int i = data->reading_from[d]; i < data->reading_from[d + 1]; i++) {
      struct kalman_step k = kalman_read(&s, data->kg[i], r / data->trust[i]);
      twice += log(k.variance) + k.error * k.error / k.variance + LOG_TWO_PI;
      if (run->before) run->step[i] = k;
    }
    if (d + 1 < data->days) kalman_next_day(data, &s, data->eaten[d], data->unknown[d], noise, data->need_jump_sd[d + 1]);
  }
  run->last = s;
  run->log_likelihood = -0.5 * twice;
}

void kalman_smooth_room(struct kalman_smooth *s, const struct kalman_data *data, struct arena *arena) {
  size_t n = (size_t)data->days + 1;
  s->day = arena_raw(arena, n, sizeof *s->day);
  s->need_jump = arena_raw(arena, n, sizeof *s->need_jump);
}

/* r = Z v / F + L' r and N = Z Z' / F + L' N L with L = 1 - K Z', for one reading. L' x = x - Z (K' x). */
static void back_over_reading(const struct kalman_step *k, double *r, matrix n) {
  double along = 0, inner = 0, cross[KALMAN_STATES];
  for (int i = 0; i < KALMAN_STATES; i++) {
    cross[i] = 0;
    along += k->gain[i] * r[i];
    for (int j = 0; j < KALMAN_STATES; j++) cross[i] += n[i][j] * k->gain[j];
  }
  for (int i = 0; i < KALMAN_STATES; i++) inner += k->gain[i] * cross[i];
  static const double Z[KALMAN_STATES] = {[KALMAN_WEIGHT] = 1, [KALMAN_BOWELS] = 1};
  for (int i = 0; i < KALMAN_STATES; i++) {
    r[i] += Z[i] * (k->error / k->variance - along);
    for (int j = 0; j < KALMAN_STATES; j++)
      n[i][j] += Z[i] * Z[j] * (1 / k->variance + inner) - Z[i] * cross[j] - cross[i] * Z[j];
  }
}

/* mean = a + P r, covariance = P - P N P. */
static void smooth_day(const struct kalman_state *before, const double *r, matrix n, struct kalman_state *out) {
  matrix pn;
  for (int i = 0; i < KALMAN_STATES; i++) {
    out->mean[i] = before->mean[i];
    for (int j = 0; j < KALMAN_STATES; j++) {
      out->mean[i] += before->cov[i][j] * r[j];
      pn[i][j] = 0;
      for (int k = 0; k < KALMAN_STATES; k++) pn[i][j] += before->cov[i][k] * n[k][j];
    }
  }
  for (int i = 0; i < KALMAN_STATES; i++)
    for (int j = 0; j < KALMAN_STATES; j++) {
      double x = before->cov[i][j];
      for (int k = 0; k < KALMAN_STATES; k++) x -= pn[i][k] * before->cov[k][j];
      out->cov[i][j] = x;
    }
}

/* Over the night behind day d, then its readings. */
static void back_over_day(const struct kalman_run *run, int d, double *r, matrix n) {
  const struct kalman_data *data = run->data;
  if (d + 1 < data->days) {
    struct night t = night_of(data, data->unknown[d], run->noise);
    back(&t, r);
    back_both(&t, n);
  }
  for (int i = data->reading_from[d + 1] - 1; i >= data->reading_from[d]; i--) back_over_reading(&run->step[i], r, n);
}

void kalman_seen(const struct kalman_run *run, double *mean, double *variance) {
  double r[KALMAN_STATES] = {0};
  matrix n = {{0}};
  for (int d = run->data->days - 1; d >= 0; d--) {
    back_over_day(run, d, r, n);
    if (run->data->reading_from[d] == run->data->reading_from[d + 1]) continue;
    const struct kalman_state *before = &run->before[d];
    double p[KALMAN_STATES];
    for (int i = 0; i < KALMAN_STATES; i++) p[i] = seen(before->cov[i]);
    mean[d] = seen(before->mean);
    variance[d] = seen(p);
    for (int i = 0; i < KALMAN_STATES; i++) {
      mean[d] += p[i] * r[i];
      for (int j = 0; j < KALMAN_STATES; j++) variance[d] -= p[i] * n[i][j] * p[j];
    }
  }
}

void kalman_smoother(const struct kalman_run *run, struct kalman_smooth *out) {
  double r[KALMAN_STATES] = {0};
  matrix n = {{0}};
  for (int d = run->data->days - 1; d >= 0; d--) {
    back_over_day(run, d, r, n);
    smooth_day(&run->before[d], r, n, &out->day[d]);
    out->need_jump[d] = n[1][1] > 0 ? r[1] / sqrt(n[1][1]) : 0;
  }
}

/* One day's share of a covariance carried forward: C (1 - K Z')' over the readings and C T' over the night. */
static void forward(const struct kalman_run *run, int d, matrix c) {
  const struct kalman_data *data = run->data;
  for (int i = data->reading_from[d]; i < data->reading_from[d + 1]; i++)
    for (int row = 0; row < KALMAN_STATES; row++) {
      double x = seen(c[row]);
      for (int j = 0; j < KALMAN_STATES; j++) c[row][j] -= x * run->step[i].gain[j];
    }
  if (d + 1 >= data->days) return;
  struct night t = night_of(data, data->unknown[d], run->noise);
  for (int row = 0; row < KALMAN_STATES; row++) ahead(&t, c[row]);
}

/* The error of the prediction of 'from' against that after the last day's readings; nothing comes later, so this is the
 * smoothed covariance itself. */
void kalman_cov_with_last(const struct kalman_run *run, int from, double out[KALMAN_STATES][KALMAN_STATES]) {
  memcpy(out, run->before[from].cov, sizeof(matrix));
  for (int d = from; d < run->data->days; d++) forward(run, d, out);
}
