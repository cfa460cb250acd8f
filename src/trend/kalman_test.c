#include "trend/kalman.h"

#include <gsl/gsl_blas.h>
#include <gsl/gsl_linalg.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include "unit_random.h"

#include <cmocka.h>

#include "fresh_arena.h"

/* The whole season at once, without any recursion: every state and reading as a linear function of independent standard
 * normals, and the conditional law of a multivariate normal by GSL's Cholesky factor. Source: the textbook formula
 * E(x | y) = m + C S^-1 (y - m), Var = P - C S^-1 C'. */
enum { DAYS = 40, SOURCES = KALMAN_STATES + DAYS * KALMAN_STATES, MOST_READINGS = DAYS + 8 };

struct affine {
  double constant, of[SOURCES];
};

struct season {
  struct kalman_data data;
  struct kalman_noise noise;
  struct kalman_state start;
  bool unknown[DAYS];
  double eaten[DAYS], kg[MOST_READINGS], trust[MOST_READINGS], jump_sd[DAYS + 1];
  int from[DAYS + 1], readings;
  struct affine state[DAYS][KALMAN_STATES];
};

static void draw_season(struct season *s) {
  *s = (struct season){
      .noise = {0.08, 0.012, 0.0011, 0.0015, 0.02, 0.05, 0.6},
      .start = {{18.1, 0.11, 0.004, 0}, {{9, 0, 0, 0}, {0, 0.01, 0, 0}, {0, 0, 0.0016, 0}, {0, 0, 0, 0.0025}}}};
  for (int d = 0; d < DAYS; d++) {
    s->unknown[d] = unit_random() < 0.3;
    s->eaten[d] = 0.1 + 0.02 * unit_random();
    s->from[d] = s->readings;
    for (int k = below(3); k > 0 && s->readings < MOST_READINGS; k--) {
      s->kg[s->readings] = 18 + unit_random();
      s->trust[s->readings++] = unit_random() < 0.2 ? 0.05 : 0.8 + 0.4 * unit_random();
    }
  }
  s->from[DAYS] = s->readings;
  s->jump_sd[DAYS / 2] = 0.03;
  s->data = (struct kalman_data){DAYS, s->eaten, s->unknown, s->from, s->kg, s->trust, 0.0045, s->jump_sd};
}

static void add(struct affine *to, double times, const struct affine *x) {
  to->constant += times * x->constant;
  for (int i = 0; i < SOURCES; i++) to->of[i] += times * x->of[i];
}

/* The sentences of kalman.h, day by day. */
static void unroll(struct season *s) {
  for (int i = 0; i < KALMAN_STATES; i++) {
    s->state[0][i] = (struct affine){.constant = s->start.mean[i]};
    s->state[0][i].of[i] = sqrt(s->start.cov[i][i]);
  }
  for (int d = 1; d < DAYS; d++) {
    const struct affine *was = s->state[d - 1];
    struct affine *is = s->state[d], surplus = {0};
    bool known = !s->unknown[d - 1];
    surplus.constant = s->eaten[d - 1];
    if (!known) add(&surplus, 1, &was[KALMAN_EATEN]);
    add(&surplus, -1, &was[KALMAN_NEED]);
    memset(is, 0, sizeof s->state[d]);
    for (int i = 0; i < KALMAN_STATES; i++) add(&is[i], i == KALMAN_BOWELS ? 0.6 : 1, &was[i]);
    add(&is[KALMAN_WEIGHT], 1, &surplus);
    add(&is[KALMAN_NEED], 0.0045, &surplus);
    int own = KALMAN_STATES * d;
    is[KALMAN_WEIGHT].of[own] += hypot(s->noise.weight_sd, known ? 0 : s->noise.unknown_sd);
    is[KALMAN_NEED].of[own + 1] += hypot(s->noise.need_sd, s->jump_sd[d]);
    is[KALMAN_EATEN].of[own + 2] += s->noise.eaten_sd;
    is[KALMAN_BOWELS].of[own + 3] += s->noise.bowels_sd * 0.8; /* sqrt(1 - 0.36) */
  }
}

static double product(const struct affine *a, const struct affine *b) {
  double sum = 0;
  for (int i = 0; i < SOURCES; i++) sum += a->of[i] * b->of[i];
  return sum;
}

struct dense {
  struct affine read[MOST_READINGS];
  gsl_matrix *factor; /* of the readings' covariance */
  gsl_vector *solved; /* S^-1 (y - m) */
  double log_likelihood;
};

static void condition(const struct season *s, struct dense *g) {
  size_t n = (size_t)s->readings;
  g->factor = gsl_matrix_alloc(n, n);
  g->solved = gsl_vector_alloc(n);
  gsl_vector *off = gsl_vector_alloc(n);
  for (int d = 0; d < DAYS; d++)
    for (int i = s->from[d]; i < s->from[d + 1]; i++) {
      g->read[i] = s->state[d][KALMAN_WEIGHT];
      add(&g->read[i], 1, &s->state[d][KALMAN_BOWELS]);
      gsl_vector_set(off, (size_t)i, s->kg[i] - g->read[i].constant);
    }
  for (size_t i = 0; i < n; i++)
    for (size_t j = 0; j < n; j++)
      gsl_matrix_set(g->factor, i, j,
                     product(&g->read[i], &g->read[j]) + (i == j ? s->noise.scale_sd * s->noise.scale_sd / s->trust[i] : 0));
  gsl_linalg_cholesky_decomp1(g->factor);
  gsl_linalg_cholesky_solve(g->factor, off, g->solved);
  double squares = 0;
  gsl_blas_ddot(off, g->solved, &squares);
  g->log_likelihood = -0.5 * (squares + (double)n * log(2 * M_PI));
  for (size_t i = 0; i < n; i++) g->log_likelihood -= log(gsl_matrix_get(g->factor, i, i));
  gsl_vector_free(off);
}

/* Mean of a, and covariance of a and b, given the readings. */
static double given(const struct season *s, const struct dense *g, const struct affine *a, const struct affine *b,
                    double *mean) {
  size_t n = (size_t)s->readings;
  gsl_vector *ca = gsl_vector_alloc(n), *cb = gsl_vector_alloc(n), *x = gsl_vector_alloc(n);
  for (size_t i = 0; i < n; i++) {
    gsl_vector_set(ca, i, product(a, &g->read[i]));
    gsl_vector_set(cb, i, product(b, &g->read[i]));
  }
  double known = 0, m = 0;
  gsl_linalg_cholesky_solve(g->factor, cb, x);
  gsl_blas_ddot(ca, x, &known);
  gsl_blas_ddot(ca, g->solved, &m);
  if (mean) *mean = a->constant + m;
  gsl_vector_free(ca);
  gsl_vector_free(cb);
  gsl_vector_free(x);
  return product(a, b) - known;
}

/* Generalised least squares: how many standard deviations the readings speak for a jump of the need into day d. */
static double jump_by_gls(const struct season *s, const struct dense *g, int d) {
  struct season shape = *s;
  size_t n = (size_t)s->readings;
  memset(shape.state, 0, sizeof shape.state);
  shape.state[d][KALMAN_NEED].constant = 1;
  for (int t = d + 1; t < DAYS; t++) {
    double surplus = -shape.state[t - 1][KALMAN_NEED].constant;
    shape.state[t][KALMAN_WEIGHT].constant = shape.state[t - 1][KALMAN_WEIGHT].constant + surplus;
    shape.state[t][KALMAN_NEED].constant = shape.state[t - 1][KALMAN_NEED].constant + 0.0045 * surplus;
  }
  gsl_vector *x = gsl_vector_alloc(n), *y = gsl_vector_alloc(n);
  for (int t = 0; t < DAYS; t++)
    for (int i = s->from[t]; i < s->from[t + 1]; i++) gsl_vector_set(x, (size_t)i, shape.state[t][KALMAN_WEIGHT].constant);
  double up = 0, below = 0;
  gsl_blas_ddot(x, g->solved, &up);
  gsl_linalg_cholesky_solve(g->factor, x, y);
  gsl_blas_ddot(x, y, &below);
  gsl_vector_free(x);
  gsl_vector_free(y);
  return below > 0 ? up / sqrt(below) : 0;
}

static void near(double have, double want, double scale) {
  if (!(fabs(have - want) <= 1e-8 * scale)) fail_msg("have %.12g, GSL says %.12g", have, want);
}

static void filter_and_smoother_agree_with_gsl(void **state) {
  (void)state;
  static struct season s;
  static struct dense g;
  for (int trial = 0; trial < 12; trial++) {
    seed = 100u + (unsigned)trial;
    draw_season(&s);
    unroll(&s);
    condition(&s, &g);
    struct kalman_run run;
    struct kalman_smooth smooth;
    kalman_room(&run, &s.data, &arena);
    kalman_smooth_room(&smooth, &s.data, &arena);
    kalman_filter(&s.data, &s.noise, &s.start, &run);
    kalman_smoother(&run, &smooth);
    near(run.log_likelihood, g.log_likelihood, 100);
    double seen[DAYS], variance[DAYS];
    kalman_seen(&run, seen, variance);
    for (int d = 0; d < DAYS; d++) {
      if (s.from[d] == s.from[d + 1]) continue;
      struct affine both = s.state[d][KALMAN_WEIGHT];
      double mean = 0;
      add(&both, 1, &s.state[d][KALMAN_BOWELS]);
      near(variance[d], given(&s, &g, &both, &both, &mean), 1);
      near(seen[d], mean, 20);
    }
    for (int d = 0; d < DAYS; d += 3) {
      double with_last[KALMAN_STATES][KALMAN_STATES], mean = 0;
      kalman_cov_with_last(&run, d, with_last);
      near(smooth.need_jump[d], jump_by_gls(&s, &g, d), 10);
      for (int i = 0; i < KALMAN_STATES; i++)
        for (int j = 0; j < KALMAN_STATES; j++) {
          near(smooth.day[d].cov[i][j], given(&s, &g, &s.state[d][i], &s.state[d][j], &mean), 1);
          near(smooth.day[d].mean[i], mean, 20);
          near(with_last[i][j], given(&s, &g, &s.state[d][i], &s.state[DAYS - 1][j], NULL), 1);
        }
    }
    gsl_matrix_free(g.factor);
    gsl_vector_free(g.solved);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {T(filter_and_smoother_agree_with_gsl)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
