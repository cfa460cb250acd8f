/* Where all readings step at once and go on as before: another scale, a clip, a heavy coat dried. Tissue does not come or go
 * so fast, so the step is taken out before anything is learnt; else the need would pay for it. */
#include "trend/trend_parts.h"

#include <math.h>

/* Own choice, tried on simulated animals (docs/method/trend.md). */
static const double LEAST_SHARE = 0.02; /* of the weight, in a week: twice what is a safe rate for most */
static const double CLEARLY = 6;        /* times the spread of the readings about their line */
static const double STEADY = 8;         /* times what the lines on either side do in that time */
static const double LEAST_SD = 0.002;   /* share of the weight */
enum { SIDE_LEAST = 4, SIDE_MOST = 12, SIDE_DAYS = 70, SPAN_LEAST = 21, GAP_MOST = 21, WEEK = 7 };

/* Readings on one side of a gap, the nearest first. */
struct side {
  double day[SIDE_MOST], kg[SIDE_MOST];
  int n;
  double slope, level; /* a line by medians (Theil and Sen): one slip pulls nothing; the level is that at the gap */
};

static bool lay_line(struct side *s) {
  double slope[SIDE_MOST * (SIDE_MOST - 1) / 2], level[SIDE_MOST];
  int pairs = 0;
  for (int i = 0; i < s->n; i++)
    for (int j = 0; j < i; j++)
      if (s->day[i] != s->day[j]) slope[pairs++] = (s->kg[i] - s->kg[j]) / (s->day[i] - s->day[j]);
  if (s->n < SIDE_LEAST || pairs == 0 || fabs(s->day[s->n - 1] - s->day[0]) < SPAN_LEAST) return false;
  s->slope = trend_median(slope, (size_t)pairs);
  for (int i = 0; i < s->n; i++) level[i] = s->kg[i] - s->slope * (s->day[i] - s->day[0]);
  s->level = trend_median(level, (size_t)s->n);
  return true;
}

static void take(struct side *s, const struct trend_weight *w, double day) {
  if (s->n == SIDE_MOST || fabs((double)w->day - day) > SIDE_DAYS) return;
  s->day[s->n] = (double)w->day;
  s->kg[s->n++] = w->kg;
}

struct spread {
  double sd;   /* of the middle readings: a slip counts no more than any */
  double mean; /* of all, as they lie: one reading on the wrong side of the gap is seen */
};

static struct spread spread_about(const struct side *a, const struct side *b) {
  double off[2 * SIDE_MOST], sum = 0, least = LEAST_SD * b->level;
  int n = 0;
  for (int i = 0; i < a->n; i++) off[n++] = fabs(a->kg[i] - a->level - a->slope * (a->day[i] - a->day[0]));
  for (int i = 0; i < b->n; i++) off[n++] = fabs(b->kg[i] - b->level - b->slope * (b->day[i] - b->day[0]));
  for (int i = 0; i < n; i++) sum += off[i];
  /* the middle one of a normal spread is 0.6745 of it */
  return (struct spread){fmax(1.4826 * trend_median(off, (size_t)n), least), fmax(sum / n, least)};
}

/* How clear the step between reading 'at' - 1 and 'at' is; 0: there is none. */
static double step_at(const struct trend_input *in, size_t first, size_t at, double *kg) {
  const struct trend_weight *w = in->weight;
  double gap = (double)(w[at].day - w[at - 1].day);
  struct side before = {.n = 0}, after = {.n = 0};
  if (gap < 1 || gap > GAP_MOST) return 0;
  for (size_t i = at; i-- > first && before.n < SIDE_MOST;) take(&before, &w[i], (double)w[at - 1].day);
  for (size_t i = at; i < in->weight_count && after.n < SIDE_MOST; i++) take(&after, &w[i], (double)w[at].day);
  if (!lay_line(&before) || !lay_line(&after)) return 0;
  double step = after.level - before.level - gap * (before.slope + after.slope) / 2, size = fabs(step);
  double time = fmax(gap, WEEK), drift = fmax(fabs(before.slope), fabs(after.slope)) * time;
  if (size < LEAST_SHARE * before.level * time / WEEK || size < STEADY * drift) return 0;
  struct spread about = spread_about(&before, &after);
  *kg = step;
  return size < CLEARLY * about.sd ? 0 : before.level / about.mean; /* the gap that leaves least unexplained */
}

size_t trend_align(struct trend_input *in, size_t first, struct trend_shift *out, struct arena *arena) {
  size_t count = 0;
  struct trend_weight *own = NULL;
  while (count < TREND_SHIFTS_MOST) {
    double clearest = 0, kg = 0;
    size_t where = 0;
    for (size_t i = first + 1; i < in->weight_count; i++) {
      double step = 0, clear = step_at(in, first, i, &step);
      if (clear <= clearest) continue;
      clearest = clear;
      kg = step;
      where = i;
    }
    if (clearest == 0) break;
    if (!own) {
      own = ARENA_NEW(arena, struct trend_weight, in->weight_count);
      memcpy(own, in->weight, in->weight_count * sizeof *own);
      in->weight = own;
    }
    out[count++] = (struct trend_shift){own[where - 1].day, own[where].day, kg};
    for (size_t i = 0; i < where; i++) own[i].kg += kg;
  }
  return count;
}
