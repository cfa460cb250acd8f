/* Which noises and which energy of tissue: every choice of a grid weighed by its prior and by the likelihood of the
 * readings. How far each reading may be trusted under a choice is found by expectation and maximisation for noise with
 * Student's t; what a choice is worth is then the variational bound of its likelihood.
 *
 * The grid is gone over coarsely first, with the trust that the best choice gives; the best of it is then looked at closely,
 * each choice with a trust of its own, for bowels that clear soon and late and every energy of tissue. */
#include "trend/trend_parts.h"

#include <math.h>

/* Shares of the weight, of the weight a day, of the need a day; the priors are wide. */
static const double SCALE[] = {0.0015, 0.003, 0.006, 0.012, 0.024};
static const double WEIGHT[] = {0.0002, 0.0006, 0.0018};
static const double NEED[] = {0.0015, 0.005, 0.015};
static const double BOWELS[] = {0.0015, 0.004, 0.01};
static const double STAY[] = {0.4, 0.8}; /* of what is in the bowels more than usual, a day later */
static const double USUAL_STAY = 0.65;
static const double USUAL_SCALE = 0.008, USUAL_WEIGHT = 0.0005, USUAL_NEED_DRIFT = 0.0022, USUAL_BOWELS = 0.004;
/* Standard deviations of the logarithm. */
static const double PRIOR_SCALE = 1.2, PRIOR_WEIGHT = 1.0, PRIOR_NEED = 0.8, PRIOR_BOWELS = 0.8;
static const double EATEN_DRIFT = 0.004; /* of unknown days: share of the mean a day */

enum {
  SCALES = COUNT_OF(SCALE),
  WEIGHTS = COUNT_OF(WEIGHT),
  NEEDS = COUNT_OF(NEED),
  BOWELSES = COUNT_OF(BOWELS),
  POINTS = SCALES * WEIGHTS * NEEDS * BOWELSES,
  CLOSE = 24, /* points that are looked at closely */
  CLOSE_MOST = CLOSE * (int)COUNT_OF(STAY) * TREND_TISSUES
};

static struct kalman_noise noise_of(const struct trend_series *s, double scale, double weight, double need, double bowels,
                                    double stay) {
  struct kalman_noise n = {.scale_sd = scale * s->weight_kg,
                           .weight_sd = weight * s->weight_kg,
                           .need_sd = need * s->need_kg,
                           .bowels_sd = bowels * s->weight_kg,
                           .bowels_stay = stay};
  if (s->known_days > 0) {
    n.eaten_sd = EATEN_DRIFT * s->need_kg;
    n.unknown_sd = s->kcal_sd / s->tissue[0];
  }
  return n;
}

struct kalman_noise trend_usual_noise(const struct trend_series *s) {
  return noise_of(s, USUAL_SCALE, USUAL_WEIGHT, USUAL_NEED_DRIFT, 0, USUAL_STAY);
}

static double log_prior(double x, double usual, double sd) {
  double z = log(x / usual) / sd;
  return -0.5 * z * z;
}

struct point {
  struct trend_component c;
  double log_prior, log_weight;
};

static struct point point_of(const struct trend_series *s, int at) {
  double bowels = BOWELS[at % BOWELSES], need = NEED[at / BOWELSES % NEEDS];
  double weight = WEIGHT[at / (BOWELSES * NEEDS) % WEIGHTS], scale = SCALE[at / (BOWELSES * NEEDS * WEIGHTS)];
  return (struct point){.c = {.noise = noise_of(s, scale, weight, need, bowels, USUAL_STAY), .trust = s->trust},
                        .log_prior =
                            log_prior(scale, USUAL_SCALE, PRIOR_SCALE) + log_prior(weight, USUAL_WEIGHT, PRIOR_WEIGHT) +
                            log_prior(need, USUAL_NEED_DRIFT, PRIOR_NEED) + log_prior(bowels, USUAL_BOWELS, PRIOR_BOWELS)};
}

/* The bound of the likelihood: that of the readings with these trusts, and for each trust how far it lies from the law that
 * makes a normal noise Student's t, Gamma(f / 2, f / 2); constants left out. */
static void weigh(const struct trend_series *s, struct point *p, struct arena *arena) {
  struct arena_mark mark = arena_mark(arena);
  struct kalman_data data = trend_view(s, &p->c, p->c.trust, arena);
  struct kalman_state start = trend_start(s, p->c.tissue, &p->c.noise);
  struct kalman_run run = {0};
  kalman_filter(&data, &p->c.noise, &start, &run);
  p->log_weight = p->log_prior + log(s->tissue_share[p->c.tissue]) + run.log_likelihood;
  for (int i = data.reading_from[0]; i < data.reading_from[data.days]; i++)
    p->log_weight += 0.5 * TREND_FREEDOM * (log(data.trust[i]) - data.trust[i]);
  arena_rewind(arena, mark);
}

/* The largest first, as long as there is room; an insertion, for there are few. */
static void keep(struct point *kept, int *count, int most, const struct point *p) {
  int at = *count;
  while (at > 0 && kept[at - 1].log_weight < p->log_weight) at--;
  if (at >= most) return;
  if (*count < most) ++*count;
  for (int i = *count - 1; i > at; i--) kept[i] = kept[i - 1];
  kept[at] = *p;
}

/* One round of expectation and maximisation; 'trust' may be that of the component. */
static void trust_anew(const struct trend_series *s, const struct trend_component *c, double *trust, struct arena *arena) {
  struct arena_mark mark = arena_mark(arena);
  struct kalman_data data = trend_view(s, c, c->trust, arena);
  struct kalman_state start = trend_start(s, c->tissue, &c->noise);
  struct kalman_run run = {0};
  double *mean = arena_raw(arena, (size_t)data.days, sizeof *mean);
  double *variance = arena_raw(arena, (size_t)data.days, sizeof *variance);
  kalman_room(&run, &data, arena);
  kalman_filter(&data, &c->noise, &start, &run);
  kalman_seen(&run, mean, variance);
  for (int d = 0; d < data.days; d++)
    for (int i = data.reading_from[d]; i < data.reading_from[d + 1]; i++) {
      double off = data.kg[i] - mean[d], squared = off * off + fmax(0, variance[d]);
      trust[i] = trend_trust(squared / (c->noise.scale_sd * c->noise.scale_sd));
    }
  arena_rewind(arena, mark);
}

/* The whole grid with one energy of tissue and the trust of the series. */
static int go_over(const struct trend_series *s, struct point *kept, int most, struct arena *arena) {
  int count = 0;
  for (int i = 0; i < POINTS; i++) {
    struct point p = point_of(s, i);
    weigh(s, &p, arena);
    keep(kept, &count, most, &p);
  }
  return count;
}

static int look_closely(const struct trend_series *s, const struct point *coarse, int count, struct point *out,
                        struct arena *arena) {
  enum { ROUNDS = 3 };
  int found = 0;
  size_t readings = (size_t)s->data.reading_from[s->data.days];
  for (int i = 0; i < count; i++)
    for (size_t k = 0; k < COUNT_OF(STAY); k++) {
      struct point p = coarse[i];
      double *trust = ARENA_NEW(arena, double, readings + 1);
      memcpy(trust, s->trust, readings * sizeof *trust);
      p.c.noise.bowels_stay = STAY[k];
      p.c.trust = trust;
      for (int r = 0; r < ROUNDS; r++) trust_anew(s, &p.c, trust, arena);
      for (p.c.tissue = 0; p.c.tissue < s->tissues; p.c.tissue++) {
        weigh(s, &p, arena);
        keep(out, &found, CLOSE_MOST, &p);
      }
    }
  return found;
}

/* The need may also have changed lately by a step that is too small or too new to be seen: the best points again, with one
 * on each of some days, as likely beforehand as one step a year. */
static int allow_steps(const struct trend_series *s, struct point *p, int count, struct arena *arena) {
  enum { BEST = 12, FIRST = 7, EVERY = 14, STEPS = 6 };
  int best = count < BEST ? count : BEST, known = count;
  struct point *all = ARENA_NEW(arena, struct point, (size_t)best);
  memcpy(all, p, (size_t)best * sizeof *all);
  for (int i = 0; i < best; i++)
    for (int k = 0; k < STEPS; k++) {
      struct point step = all[i];
      step.c.jump_day = s->data.days - 1 - FIRST - EVERY * k;
      step.log_prior += log(EVERY / 365.25);
      if (step.c.jump_day < FIRST) break;
      weigh(s, &step, arena);
      keep(p, &known, CLOSE_MOST, &step);
    }
  return known;
}

static void share_out(const struct point *p, int count, struct trend_fit *fit) {
  static const double LEFT_OUT = 1e-3; /* of the best: what weighs less changes nothing that is shown */
  double sum = 0;
  fit->count = 0;
  for (int i = 0; i < count && i < TREND_COMPONENTS_MOST; i++) {
    double share = exp(p[i].log_weight - p[0].log_weight);
    if (i > 0 && !(share >= LEFT_OUT)) break;
    fit->component[i] = p[i].c;
    fit->component[i].share = share;
    fit->count = i + 1;
    sum += share;
  }
  for (int i = 0; i < fit->count; i++) fit->component[i].share /= sum;
}

void trend_learn(struct trend_series *s, struct trend_fit *fit, struct arena *arena) {
  enum { ROUNDS = 3, INNER = 3 };
  struct point *coarse = ARENA_NEW(arena, struct point, CLOSE), *fine = ARENA_NEW(arena, struct point, CLOSE_MOST);
  for (int round = 0; round < ROUNDS; round++) {
    go_over(s, coarse, 1, arena);
    for (int i = 0; i < INNER; i++) trust_anew(s, &coarse[0].c, s->trust, arena);
  }
  int count = go_over(s, coarse, CLOSE, arena);
  count = look_closely(s, coarse, count, fine, arena);
  count = allow_steps(s, fine, count, arena);
  share_out(fine, count, fit);
  const double *best = fit->component[0].trust;
  for (int i = s->data.reading_from[0]; i < s->data.reading_from[s->data.days]; i++) s->trust[i] = best[i];
}
