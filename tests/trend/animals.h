/* animals.h: simulated animals whose weight and need are known, to see whether the intervals of trend.h tell the truth.
 *
 * Not the model turned round: the scale's noise is normal, with gulps of water that only add, full bowels that last for days
 * (an autoregression), slips of the pen, missed days, days whose food nobody wrote down and days on which more was eaten
 * than usual; amounts are written down with an error; the need follows the weight; what is fed changes in steps. */
#ifndef TREND_ANIMALS_H
#define TREND_ANIMALS_H

#include <math.h>

#include "trend/trend.h"
#include "unit_random.h"

enum { ANIMAL_DAYS_MOST = 400 };

/* How a set of animals is drawn; shares are of the weight, or of what is eaten. */
struct animal_world {
  int days_least, days_most, every_least, every_most; /* a weighing every so many days, now and then one missed */
  double scale_least, scale_most;                     /* standard deviation of the scale */
  double gulp, gulp_most;                             /* how often, how much: up to this share */
  double bowels_sd, bowels_stay;                      /* what is in the bowels: sd, and how much of it stays a day, ... */
  double slips;                                       /* how often the pen slips: 10 % to tenfold */
  double unknown_most;                                /* share of days that nobody wrote down: up to this */
  double unknown_more;                                /* what is eaten more on those, as a share */
  double written_sd;                                  /* error of a written amount */
  double tissue_least, tissue_most;                   /* kcal per kg */
  double need_drift_sd;                               /* a day */
  double step_chance, step_most;                      /* a step of what is fed, up to this share */
  double need_step_chance, need_step_most;
  double bowels_sd_most, bowels_stay_most; /* ... or up to these, each animal its own; 0: all alike */
};

struct animal_truth {
  struct trend_input in;
  struct trend_weight weight[ANIMAL_DAYS_MOST];
  struct trend_intake intake[ANIMAL_DAYS_MOST];
  double kg[ANIMAL_DAYS_MOST + 64], need[ANIMAL_DAYS_MOST + 64]; /* by day; goes on behind the last as before */
  int days, step_day;                                            /* -1: nothing changed */
  double step, need_step;                                        /* kcal */
};

static double drawn(double low, double high) { return low + (high - low) * unit_random(); }

static double normal(void) {
  double u = unit_random(), v = unit_random();
  return sqrt(-2 * log(u > 1e-12 ? u : 1e-12)) * cos(6.283185307179586 * v);
}

static void animal_draw(const struct animal_world *w, int ahead, struct animal_truth *a) {
  double tissue = drawn(w->tissue_least, w->tissue_most), kg = unit_random() < 0.3 ? drawn(3, 7) : drawn(5, 45);
  double need = (kg < 8 ? 55 : 95) * pow(kg, kg < 8 ? 0.9 : 0.75) * exp(0.25 * normal()), start_kg = kg, start_need = need;
  double scale = drawn(w->scale_least, w->scale_most), fed = need * (1 + 0.12 * normal()), bowels = 0, drift = 1;
  int every = (int)drawn(w->every_least, w->every_most + 0.999);
  double unknown = drawn(0, w->unknown_most);
  double stay = w->bowels_stay_most > 0 ? drawn(w->bowels_stay, w->bowels_stay_most) : w->bowels_stay;
  double full = w->bowels_sd_most > 0 ? drawn(w->bowels_sd, w->bowels_sd_most) : w->bowels_sd;
  a->days = (int)drawn(w->days_least, w->days_most);
  a->step_day = unit_random() < w->step_chance ? (int)(a->days * drawn(0.3, 0.75)) : -1;
  a->step = fed * drawn(0.4, 1) * w->step_most * (unit_random() < 0.5 ? -1 : 1);
  bool need_steps = unit_random() < w->need_step_chance;
  a->need_step = need_steps ? need * drawn(0.4, 1) * w->need_step_most * (unit_random() < 0.5 ? -1 : 1) : 0;
  size_t weights = 0, intakes = 0;
  for (int d = 0; d < a->days + ahead; d++) {
    if (d == a->step_day && !need_steps) fed += a->step;
    drift *= exp(w->need_drift_sd * normal());
    need = (start_need + (a->step_day >= 0 && d >= a->step_day ? a->need_step : 0)) * drift * pow(kg / start_kg, 0.75);
    a->kg[d] = kg;
    a->need[d] = need;
    bool is_unknown = unit_random() < unknown;
    double eaten = fed * (1 + 0.06 * normal()) * (is_unknown ? 1 + w->unknown_more * unit_random() : 1);
    bowels = stay * bowels + full * sqrt(1 - stay * stay) * normal();
    if (d < a->days && d % every == 0 && unit_random() > 0.08) {
      double read = kg * (1 + bowels + scale * normal());
      if (unit_random() < w->gulp) read += kg * w->gulp_most * unit_random();
      if (unit_random() < w->slips) read *= unit_random() < 0.3 ? 10 : 1 + drawn(0.1, 0.4) * (unit_random() < 0.5 ? -1 : 1);
      a->weight[weights++] = (struct trend_weight){d, read};
    }
    if (d < a->days && !is_unknown) a->intake[intakes++] = (struct trend_intake){d, eaten * (1 + w->written_sd * normal())};
    kg += (eaten - need) / tissue;
  }
  a->in =
      (struct trend_input){a->weight, weights, a->intake, intakes, a->days - 1, ahead, (double)NAN, 7350, 7000, 7700, 0.75};
}

/* Kept aside when the estimator was first written, and looked at more than once since: no longer a trial of anything new.
 * Other scales, fuller bowels that stay longer, coarser diaries, longer and shorter stretches. */
static const struct animal_world HELD = {35,  365, 1,    14,   0.001,  0.02, 0.08, 0.02, 0.005, 0.75, 0.02, 0.6,
                                         0.3, 0.1, 6500, 8200, 0.0025, 0.6,  0.3,  0.2,  0.25,  0,    0};

/* Written down before bowels were learnt from the data, and looked at once, when that was settled: whoever changes the
 * estimator by what it says needs another. Each animal has bowels of its own, from hardly any to as much as a scale of the
 * worst sort, that clear in a day or stay for most of a week. Seed 77003. */
static const struct animal_world ASIDE = {35,   300,  1,    10,   0.0015, 0.015, 0.06, 0.03, 0.002, 0.35,  0.015, 0.5,
                                          0.25, 0.08, 6600, 8200, 0.003,  0.55,  0.3,  0.2,  0.25,  0.008, 0.85};

/* Looked at while the estimator was written. */
static const struct animal_world ORDINARY = {42,   180,  1,    7,    0.002, 0.012, 0.04, 0.03, 0.004, 0.6, 0.01, 0.4,
                                             0.25, 0.06, 6700, 8000, 0.003, 0.5,   0.25, 0.15, 0.2,   0,   0};

#endif
