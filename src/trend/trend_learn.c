/* Which noises and which energy of tissue: every choice of a grid weighed by its prior and by the likelihood of the
 * readings; in between, how far each reading may be trusted (expectation and maximisation for noise with Student's t). */
#include "trend/trend_parts.h"

#include <math.h>

/* Shares of the weight, of the weight a day, of the need a day; the priors are wide. */
static const double SCALE[] = {0.0015, 0.003, 0.006, 0.012, 0.024};
static const double WEIGHT[] = {0.0002, 0.0006, 0.0018};
static const double NEED[] = {0.001, 0.003, 0.009};
static const double BOWELS[] = {0.7, 1.8}; /* share of the scale's noise */
static const double USUAL_SCALE = 0.006, USUAL_WEIGHT = 0.0005, USUAL_NEED_DRIFT = 0.0022;
static const double PRIOR_SCALE = 0.8, PRIOR_WEIGHT = 1.0, PRIOR_NEED = 0.8; /* standard deviations of the logarithm */
static const double EATEN_DRIFT = 0.004;                                     /* of unknown days: share of the mean a day */

enum {
  SCALES = COUNT_OF(SCALE),
  WEIGHTS = COUNT_OF(WEIGHT),
  NEEDS = COUNT_OF(NEED),
  BOWELSES = COUNT_OF(BOWELS),
  POINTS = SCALES * WEIGHTS * NEEDS * BOWELSES
};

static struct kalman_noise noise_of(const struct trend_series *s, double scale, double weight, double need, double bowels) {
  struct kalman_noise n = {.scale_sd = scale * s->weight_kg,
                           .weight_sd = weight * s->weight_kg,
                           .need_sd = need * s->need_kg,
                           .bowels_sd = bowels * scale * s->weight_kg};
  if (s->known_days > 0) {
    n.eaten_sd = EATEN_DRIFT * s->need_kg;
    n.unknown_sd = s->kcal_sd / s->tissue[0];
  }
  return n;
}

struct kalman_noise trend_usual_noise(const struct trend_series *s) {
  return noise_of(s, USUAL_SCALE, USUAL_WEIGHT, USUAL_NEED_DRIFT, 0);
}

static double log_prior(double x, double usual, double sd) {
  double z = log(x / usual) / sd;
  return -0.5 * z * z;
}

struct point {
  struct trend_component c;
  double log_weight;
};

static struct point weigh(const struct trend_series *s, int point, int tissue) {
  double bowels = BOWELS[point % BOWELSES], need = NEED[point / BOWELSES % NEEDS];
  double weight = WEIGHT[point / (BOWELSES * NEEDS) % WEIGHTS], scale = SCALE[point / (BOWELSES * NEEDS * WEIGHTS)];
  struct point p = {{tissue, noise_of(s, scale, weight, need, bowels), 0}, 0};
  struct kalman_data data = s->data;
  struct kalman_state start = trend_start(s, tissue, &p.c.noise);
  struct kalman_run run = {0};
  data.eaten = s->eaten[tissue];
  kalman_filter(&data, &p.c.noise, &start, &run);
  p.log_weight = run.log_likelihood + log(s->tissue_share[tissue]) + log_prior(scale, USUAL_SCALE, PRIOR_SCALE) +
                 log_prior(weight, USUAL_WEIGHT, PRIOR_WEIGHT) + log_prior(need, USUAL_NEED_DRIFT, PRIOR_NEED);
  return p;
}

/* The largest first, as long as there is room; an insertion, for there are few. */
static void keep(struct point *kept, int *count, struct point p) {
  int at = *count;
  while (at > 0 && kept[at - 1].log_weight < p.log_weight) at--;
  if (at >= TREND_COMPONENTS_MOST) return;
  if (*count < TREND_COMPONENTS_MOST) ++*count;
  for (int i = *count - 1; i > at; i--) kept[i] = kept[i - 1];
  kept[at] = p;
}

static void weigh_grid(const struct trend_series *s, int tissues, struct trend_fit *fit) {
  static const double LEFT_OUT = 1e-3; /* of the best: what weighs less changes nothing that is shown */
  struct point kept[TREND_COMPONENTS_MOST];
  int count = 0;
  double sum = 0;
  for (int t = 0; t < tissues; t++)
    for (int i = 0; i < POINTS; i++) keep(kept, &count, weigh(s, i, t));
  *fit = (struct trend_fit){.count = 0};
  for (int i = 0; i < count; i++) {
    double share = exp(kept[i].log_weight - kept[0].log_weight);
    if (i > 0 && !(share >= LEFT_OUT)) break;
    fit->component[i] = kept[i].c;
    fit->component[i].share = share;
    fit->count = i + 1;
    sum += share;
  }
  for (int i = 0; i < fit->count; i++) fit->component[i].share /= sum;
}

static void trust_anew(struct trend_series *s, const struct trend_component *c, struct arena *arena) {
  struct arena_mark mark = arena_mark(arena);
  struct kalman_data data = s->data;
  struct kalman_state start = trend_start(s, c->tissue, &c->noise);
  struct kalman_run run = {0};
  struct kalman_smooth smooth;
  data.eaten = s->eaten[c->tissue];
  kalman_room(&run, &data, arena);
  kalman_smooth_room(&smooth, &data, arena);
  kalman_filter(&data, &c->noise, &start, &run);
  kalman_smoother(&run, &smooth);
  for (int d = 0; d < data.days; d++)
    for (int i = data.reading_from[d]; i < data.reading_from[d + 1]; i++) {
      const struct kalman_state *k = &smooth.day[d];
      double off = data.kg[i] - k->mean[KALMAN_WEIGHT] - k->mean[KALMAN_BOWELS];
      double variance = k->cov[KALMAN_WEIGHT][KALMAN_WEIGHT] + 2 * k->cov[KALMAN_WEIGHT][KALMAN_BOWELS] +
                        k->cov[KALMAN_BOWELS][KALMAN_BOWELS];
      double squared = off * off + fmax(0, variance);
      s->trust[i] = trend_trust(squared / (c->noise.scale_sd * c->noise.scale_sd));
    }
  arena_rewind(arena, mark);
}

void trend_learn(struct trend_series *s, struct trend_fit *fit, struct arena *arena) {
  enum { ROUNDS = 4, INNER = 3 };
  for (int round = 0; round < ROUNDS; round++) {
    weigh_grid(s, 1, fit);
    for (int i = 0; i < INNER; i++) trust_anew(s, &fit->component[0], arena);
  }
  weigh_grid(s, s->tissues, fit);
}
