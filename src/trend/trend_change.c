/* When the trend changed: the smoother's auxiliary residuals say, day by day, how strongly the readings ask for a jump of
 * the need there. The strongest is allowed, then the next is looked for. */
#include "trend/trend_parts.h"

#include <math.h>
#include <stdlib.h>

/* The largest of a season of days: by chance about one animal in twenty-five (docs/method/trend.md, measured). */
static const double STRONG = 3.9;
static const double JUMP = 0.01; /* share of the weight a day: as good as any size */
enum { LEAST_DAYS = 7, LEAST_READINGS = 3, SIDE_DAYS = 28 };

static bool may_jump(const struct trend_series *s, int day, const int *taken, int count) {
  const int *from = s->data.reading_from;
  if (day < LEAST_DAYS || day > s->data.days - LEAST_DAYS) return false;
  if (from[day] - from[0] < LEAST_READINGS || from[s->data.days] - from[day] < LEAST_READINGS) return false;
  for (int i = 0; i < count; i++)
    if (abs(day - taken[i]) < LEAST_DAYS) return false;
  return true;
}

struct scene {
  struct kalman_data data;
  struct kalman_noise noise;
  struct kalman_state start;
  struct kalman_run run;
  struct kalman_smooth smooth;
  double *jump_sd;
};

/* Lines between jumps: no drift of the need. */
static void lay_out(const struct trend_series *s, const struct kalman_noise *noise, bool weights_alone, struct scene *c,
                    struct arena *arena) {
  size_t n = (size_t)s->data.days + 1;
  c->data = s->data;
  c->noise = *noise;
  c->noise.need_sd = 0;
  c->start = trend_start(s, 0, noise);
  c->data.need_jump_sd = c->jump_sd = ARENA_NEW(arena, double, n);
  if (weights_alone) {
    double slope_sd = JUMP * s->weight_kg; /* the "need" is then minus the slope of the weight */
    c->data.eaten = ARENA_NEW(arena, double, n);
    c->data.unknown = ARENA_NEW(arena, bool, n);
    c->data.need_slope = 0;
    c->noise.eaten_sd = c->noise.unknown_sd = 0;
    c->start.mean[KALMAN_NEED] = 0;
    c->start.cov[KALMAN_EATEN][KALMAN_EATEN] = 0;
    c->start.cov[KALMAN_NEED][KALMAN_NEED] = slope_sd * slope_sd;
  }
  kalman_room(&c->run, &c->data, arena);
  kalman_smooth_room(&c->smooth, &c->data, arena);
}

static void run_scene(struct scene *c) {
  kalman_filter(&c->data, &c->noise, &c->start, &c->run);
  kalman_smoother(&c->run, &c->smooth);
}

int trend_find_jumps(const struct trend_series *s, const struct kalman_noise *noise, bool weights_alone, int *day, int most,
                     struct arena *arena) {
  struct scene c;
  int count = 0;
  lay_out(s, noise, weights_alone, &c, arena);
  while (count < most) {
    int best = -1;
    run_scene(&c);
    for (int d = 0; d < s->data.days; d++)
      if (may_jump(s, d, day, count) && (best < 0 || fabs(c.smooth.need_jump[d]) > fabs(c.smooth.need_jump[best]))) best = d;
    if (best < 0 || fabs(c.smooth.need_jump[best]) < STRONG) break;
    day[count++] = best;
    c.jump_sd[best] = JUMP * s->weight_kg;
  }
  for (int i = 1; i < count; i++)
    for (int j = i; j > 0 && day[j - 1] > day[j]; j--) {
      int swap = day[j];
      day[j] = day[j - 1];
      day[j - 1] = swap;
    }
  return count;
}

static double mean_known(const double *kcal, int from, int to) {
  double sum = 0;
  int n = 0;
  for (int d = from; d < to; d++)
    if (!isnan(kcal[d])) {
      sum += kcal[d];
      n++;
    }
  return n > 0 ? sum / n : (double)NAN;
}

void trend_tell_changes(const struct trend_series *s, const struct kalman_noise *noise, const int *day, int count,
                        const int *need_day, int need_count, struct trend_change *out, struct arena *arena) {
  enum { NEAR_DAYS = 14 };
  struct scene c;
  lay_out(s, noise, true, &c, arena);
  for (int i = 0; i < count; i++) c.jump_sd[day[i]] = JUMP * s->weight_kg;
  run_scene(&c);
  for (int i = 0; i < count; i++) {
    int before = i > 0 ? day[i - 1] : 0, behind = i + 1 < count ? day[i + 1] : s->data.days, d = day[i];
    before = before > d - SIDE_DAYS ? before : d - SIDE_DAYS;
    behind = behind < d + SIDE_DAYS ? behind : d + SIDE_DAYS;
    out[i] = (struct trend_change){.day = s->first + d,
                                   .before = -7 * c.smooth.day[d - 1].mean[KALMAN_NEED],
                                   .after = -7 * c.smooth.day[d].mean[KALMAN_NEED],
                                   .kcal_before = mean_known(s->kcal, before, d),
                                   .kcal_after = mean_known(s->kcal, d, behind)};
    for (int k = 0; k < need_count; k++)
      if (abs(need_day[k] - d) <= NEAR_DAYS) out[i].need_changed = true;
  }
}
