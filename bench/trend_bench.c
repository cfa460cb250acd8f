/* The estimator of weight and need against GSL in the same run: one pass of the filter beside the same recursion in matrices
 * of GSL (their log-likelihoods must agree), and the whole estimate, noises learnt and changes looked for, beside GSL's
 * robust fit of a straight line, which is the least that says how a weight goes. Usage: bench_trend */
#include <gsl/gsl_blas.h>
#include <gsl/gsl_multifit.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "../tests/trend/animals.h"
#include "trend/kalman.h"

enum { ANIMALS = 40, ROUNDS = 5, FILTERED = 20 };

static double now(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static struct animal_truth animal[ANIMALS];

/* ---- one pass of the filter ---------------------------------------------------------------------------------------- */

struct season {
  bool unknown[ANIMAL_DAYS_MOST];
  double eaten[ANIMAL_DAYS_MOST], kg[ANIMAL_DAYS_MOST], trust[ANIMAL_DAYS_MOST], jump[ANIMAL_DAYS_MOST + 1];
  int from[ANIMAL_DAYS_MOST + 1];
  struct kalman_data data;
  struct kalman_state start;
};

static const struct kalman_noise NOISE = {0.15, 0.02, 0.0004, 0.001, 0.02, 0.08, 0.6};

static void season_of(const struct animal_truth *a, struct season *s) {
  size_t w = 0, e = 0;
  double tissue = a->in.tissue_kcal;
  for (int d = 0; d < a->days; d++) {
    s->from[d] = (int)w;
    for (; w < a->in.weight_count && a->in.weight[w].day == d; w++) {
      s->kg[w] = a->in.weight[w].kg;
      s->trust[w] = 1;
    }
    bool known = e < a->in.intake_count && a->in.intake[e].day == d;
    s->unknown[d] = !known;
    s->eaten[d] = (known ? a->in.intake[e++].kcal : a->need[0]) / tissue;
    s->jump[d] = 0;
  }
  s->from[a->days] = (int)w;
  s->data = (struct kalman_data){a->days, s->eaten, s->unknown, s->from, s->kg, s->trust, 0.002, s->jump};
  s->start = (struct kalman_state){.mean = {s->kg[0], a->need[0] / tissue, 0, 0}};
  const double sd[KALMAN_STATES] = {0.5, 0.03, 0.03, NOISE.bowels_sd};
  for (int i = 0; i < KALMAN_STATES; i++) s->start.cov[i][i] = sd[i] * sd[i];
}

static double by_gsl(const struct season *s) {
  gsl_matrix *p = gsl_matrix_calloc(4, 4), *f = gsl_matrix_calloc(4, 4), *half = gsl_matrix_alloc(4, 4);
  gsl_vector *x = gsl_vector_alloc(4), *moved = gsl_vector_alloc(4), *h = gsl_vector_calloc(4), *gain = gsl_vector_alloc(4);
  double likelihood = 0, slope = s->data.need_slope, stay = NOISE.bowels_stay;
  gsl_vector_set(h, KALMAN_WEIGHT, 1);
  gsl_vector_set(h, KALMAN_BOWELS, 1);
  for (size_t i = 0; i < 4; i++) {
    gsl_vector_set(x, i, s->start.mean[i]);
    gsl_matrix_set(p, i, i, s->start.cov[i][i]);
  }
  for (int d = 0; d < s->data.days; d++) {
    for (int i = s->from[d]; i < s->from[d + 1]; i++) {
      double told, variance;
      gsl_blas_ddot(h, x, &told);
      gsl_blas_dgemv(CblasNoTrans, 1, p, h, 0, gain);
      gsl_blas_ddot(h, gain, &variance);
      variance += NOISE.scale_sd * NOISE.scale_sd / s->trust[i];
      double error = s->kg[i] - told;
      likelihood -= 0.5 * (log(2 * M_PI * variance) + error * error / variance);
      gsl_blas_daxpy(error / variance, gain, x);
      gsl_blas_dger(-1 / variance, gain, gain, p);
    }
    bool known = !s->unknown[d];
    gsl_matrix_set_identity(f);
    gsl_matrix_set(f, KALMAN_WEIGHT, KALMAN_NEED, -1);
    gsl_matrix_set(f, KALMAN_NEED, KALMAN_NEED, 1 - slope);
    gsl_matrix_set(f, KALMAN_WEIGHT, KALMAN_EATEN, known ? 0 : 1);
    gsl_matrix_set(f, KALMAN_NEED, KALMAN_EATEN, known ? 0 : slope);
    gsl_matrix_set(f, KALMAN_BOWELS, KALMAN_BOWELS, stay);
    gsl_blas_dgemv(CblasNoTrans, 1, f, x, 0, moved);
    gsl_vector_memcpy(x, moved);
    gsl_vector_set(x, KALMAN_WEIGHT, gsl_vector_get(x, KALMAN_WEIGHT) + s->eaten[d]);
    gsl_vector_set(x, KALMAN_NEED, gsl_vector_get(x, KALMAN_NEED) + slope * s->eaten[d]);
    gsl_blas_dgemm(CblasNoTrans, CblasNoTrans, 1, f, p, 0, half);
    gsl_blas_dgemm(CblasNoTrans, CblasTrans, 1, half, f, 0, p);
    double unknown = known ? 0 : NOISE.unknown_sd * NOISE.unknown_sd;
    const double grown[4] = {NOISE.weight_sd * NOISE.weight_sd + unknown, NOISE.need_sd * NOISE.need_sd,
                             NOISE.eaten_sd * NOISE.eaten_sd, NOISE.bowels_sd * NOISE.bowels_sd * (1 - stay * stay)};
    for (size_t i = 0; i < 4; i++) gsl_matrix_set(p, i, i, gsl_matrix_get(p, i, i) + grown[i]);
  }
  gsl_matrix_free(p), gsl_matrix_free(f), gsl_matrix_free(half);
  gsl_vector_free(x), gsl_vector_free(moved), gsl_vector_free(h), gsl_vector_free(gain);
  return likelihood;
}

static double by_us(const struct season *s) {
  struct kalman_run run = {0};
  kalman_filter(&s->data, &NOISE, &s->start, &run);
  return run.log_likelihood;
}

/* ---- the whole ----------------------------------------------------------------------------------------------------- */

static double line_by_gsl(const struct animal_truth *a) {
  size_t n = a->in.weight_count;
  gsl_matrix *x = gsl_matrix_alloc(n, 2), *cov = gsl_matrix_alloc(2, 2);
  gsl_vector *y = gsl_vector_alloc(n), *c = gsl_vector_alloc(2);
  gsl_multifit_robust_workspace *work = gsl_multifit_robust_alloc(gsl_multifit_robust_bisquare, n, 2);
  for (size_t i = 0; i < n; i++) {
    gsl_matrix_set(x, i, 0, 1);
    gsl_matrix_set(x, i, 1, (double)a->in.weight[i].day);
    gsl_vector_set(y, i, a->in.weight[i].kg);
  }
  gsl_multifit_robust(x, y, c, cov, work);
  double slope = gsl_vector_get(c, 1);
  gsl_multifit_robust_free(work);
  gsl_matrix_free(x), gsl_matrix_free(cov), gsl_vector_free(y), gsl_vector_free(c);
  return slope;
}

static double least(double a, double b) { return a < b ? a : b; }

int main(void) {
  static struct season season[ANIMALS];
  double ours = INFINITY, gsl = INFINITY, whole = INFINITY, line = INFINITY, off = 0;
  volatile double kept = 0;
  gsl_set_error_handler_off();
  seed = 15;
  for (int i = 0; i < ANIMALS; i++) {
    animal_draw(&ORDINARY, 0, &animal[i]);
    season_of(&animal[i], &season[i]);
    off = fmax(off, fabs(by_us(&season[i]) / by_gsl(&season[i]) - 1));
  }
  if (!(off < 1e-6)) {
    fprintf(stderr, "the two filters differ by %g\n", off);
    return 1;
  }
  for (int round = 0; round < ROUNDS; round++) {
    double start = now();
    for (int k = 0; k < FILTERED; k++)
      for (int i = 0; i < ANIMALS; i++) kept += by_us(&season[i]);
    ours = least(ours, now() - start);
    start = now();
    for (int k = 0; k < FILTERED; k++)
      for (int i = 0; i < ANIMALS; i++) kept += by_gsl(&season[i]);
    gsl = least(gsl, now() - start);
    start = now();
    for (int i = 0; i < ANIMALS; i++) {
      struct arena once;
      arena_init(&once, NULL);
      kept += trend_estimate(&animal[i].in, &once)->weight.mean;
      arena_free(&once);
    }
    whole = least(whole, now() - start);
    start = now();
    for (int i = 0; i < ANIMALS; i++) kept += line_by_gsl(&animal[i]);
    line = least(line, now() - start);
  }
  double passes = (double)FILTERED * ANIMALS;
  printf("trend: one pass of the filter  %.2f µs  the same recursion in GSL  %.2f µs  ratio %.3f\n", 1e6 * ours / passes,
         1e6 * gsl / passes, ours / gsl);
  printf("trend: the whole estimate  %.3f ms  a robust straight line by GSL  %.3f ms  ratio %.1f\n", 1e3 * whole / ANIMALS,
         1e3 * line / ANIMALS, whole / line);
  return 0;
}
