#include "trend/trend_parts.h"

#include <math.h>
#include <stdlib.h>

static const double USUAL_NEED =
    0.006; /* kg of tissue a day per kg: 800 kcal for 18 kg, 200 for 4.6 kg; a scale, no estimate */
static const double START_WEIGHT = 0.2;   /* share of the weight */
static const double START_NEED = 1.0;     /* share of what is eaten: hardly anything is taken for granted */
static const double START_SLOPE = 0.01;   /* share of the weight a day, where nothing is known of what is eaten */
static const double START_EATEN = 0.18;   /* unknown days differ from those around by this share, one standard deviation */
static const double NEAR = 0.82;          /* a day farther away tells so much of what is eaten on an unknown day, ... */
static const double ALL_DAYS = 0.05;      /* ... beside the mean of all days, which counts as so much of a day */
static const double STEP_OF_NEED = 0.15;  /* of the need: one standard deviation of a step that may have been */
static const double KCAL_SD_LEAST = 0.10; /* of the mean: no two days are eaten alike, however round the figures */

double trend_trust(double z_squared) { return (TREND_FREEDOM + 1) / (TREND_FREEDOM + z_squared); }

static int by_size(const void *a, const void *b) {
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

/* Sorts 'x'. */
double trend_median(double *x, size_t n) {
  qsort(x, n, sizeof *x, by_size);
  return n % 2 ? x[n / 2] : 0.5 * (x[n / 2 - 1] + x[n / 2]);
}

static void place_weights(const struct trend_input *in, struct trend_series *s, struct arena *arena) {
  size_t n = in->weight_count;
  int *from = ARENA_NEW(arena, int, (size_t)s->data.days + 1), count = 0;
  double *kg = ARENA_NEW(arena, double, n + 1), *sorted = ARENA_NEW(arena, double, n + 1);
  for (int d = 0; d < s->data.days; d++) {
    from[d] = count;
    for (; (size_t)count < n && in->weight[count].day == s->first + d; count++)
      sorted[count] = kg[count] = in->weight[count].kg;
  }
  from[s->data.days] = count;
  s->data.reading_from = from;
  s->data.kg = kg;
  s->data.trust = s->trust = ARENA_NEW(arena, double, n + 1);
  s->weight_kg = count > 0 ? trend_median(sorted, (size_t)count) : 1;
}

static void place_intakes(const struct trend_input *in, struct trend_series *s, struct arena *arena) {
  double *kcal = ARENA_NEW(arena, double, (size_t)s->data.days + 1), sum = 0;
  for (int d = 0; d <= s->data.days; d++) kcal[d] = (double)NAN;
  for (size_t i = 0; i < in->intake_count; i++) {
    long d = in->intake[i].day - s->first;
    if (d < 0 || d >= s->data.days || !(in->intake[i].kcal >= 0)) continue;
    kcal[d] = in->intake[i].kcal;
    sum += kcal[d];
    s->known_days++;
  }
  s->kcal = kcal;
  s->mean_kcal = s->known_days > 0 ? sum / (double)s->known_days : (double)NAN;
}

/* Sums over the known days on one side of a day, each counted less the farther it is. */
struct side {
  double sum, weight;
};

static void step_on(struct side *a, double kcal) {
  a->sum = NEAR * (a->sum + (isnan(kcal) ? 0 : kcal));
  a->weight = NEAR * (a->weight + (isnan(kcal) ? 0 : 1));
}

/* What the known days around a day say of it, itself left out; far from all of them, their mean. */
static void place_expected(struct trend_series *s, struct arena *arena) {
  int days = s->data.days;
  double *expected = ARENA_NEW(arena, double, (size_t)days + 1), squares = 0;
  struct side *before = ARENA_NEW(arena, struct side, (size_t)days + 1), behind = {0, 0};
  s->unknown = ARENA_NEW(arena, bool, (size_t)days + 1);
  s->kcal_expected = expected;
  s->data.unknown = s->unknown;
  s->kcal_sd = (double)NAN;
  if (s->known_days == 0) return;
  for (int d = 1; d < days; d++) {
    before[d] = before[d - 1];
    step_on(&before[d], s->kcal[d - 1]);
  }
  for (int d = days - 1; d >= 0; d--) {
    double weight = before[d].weight + behind.weight + ALL_DAYS;
    expected[d] = (before[d].sum + behind.sum + ALL_DAYS * s->mean_kcal) / weight;
    s->unknown[d] = isnan(s->kcal[d]);
    if (!s->unknown[d]) squares += (s->kcal[d] - expected[d]) * (s->kcal[d] - expected[d]);
    step_on(&behind, s->kcal[d]);
  }
  s->kcal_sd = fmax(sqrt(squares / (double)s->known_days), KCAL_SD_LEAST * s->mean_kcal);
}

/* The three points of Gauss and Hermite stand for the normal spread of the energy of tissue. */
static void place_tissues(const struct trend_input *in, struct trend_series *s, struct arena *arena) {
  static const double AT[TREND_TISSUES] = {0, -1.7320508075688772, 1.7320508075688772};
  static const double SHARE[TREND_TISSUES] = {2.0 / 3, 1.0 / 6, 1.0 / 6};
  double sd = 0.5 * (in->tissue_high - in->tissue_low);
  s->tissues = s->known_days > 0 && sd > 0 ? TREND_TISSUES : 1;
  for (int t = 0; t < s->tissues; t++) {
    s->tissue[t] = in->tissue_kcal + AT[t] * sd;
    s->tissue_share[t] = s->tissues > 1 ? SHARE[t] : 1;
    s->eaten[t] = ARENA_NEW(arena, double, (size_t)s->data.days + 1);
    for (int d = 0; d < s->data.days; d++)
      s->eaten[t][d] = (s->unknown[d] || s->known_days == 0 ? s->kcal_expected[d] : s->kcal[d]) / s->tissue[t];
  }
  s->data.eaten = s->eaten[0];
  s->need_kg = s->known_days > 0 && s->mean_kcal > 0 ? s->mean_kcal / s->tissue[0] : USUAL_NEED * s->weight_kg;
  s->data.need_slope = s->known_days > 0 ? in->metabolic_exponent * s->need_kg / s->weight_kg : 0;
}

void trend_series_build(const struct trend_input *in, struct trend_series *s, struct arena *arena) {
  *s = (struct trend_series){.first = in->weight_count > 0 ? in->weight[0].day : in->until};
  s->data.days = (int)(in->until - s->first) + 1;
  s->data.need_jump_sd = s->need_jump_sd = ARENA_NEW(arena, double, (size_t)s->data.days + 1);
  place_weights(in, s, arena);
  place_intakes(in, s, arena);
  place_expected(s, arena);
  place_tissues(in, s, arena);
}

struct trend_series trend_series_tail(const struct trend_series *s, int from) {
  struct trend_series t = *s;
  t.first += from;
  t.data.days -= from;
  t.data.reading_from += from;
  t.data.need_jump_sd = t.need_jump_sd += from;
  t.kcal += from;
  t.kcal_expected += from;
  t.data.unknown = t.unknown += from;
  for (int i = 0; i < t.tissues; i++) t.eaten[i] += from;
  t.data.eaten = t.eaten[0];
  return t;
}

struct kalman_data trend_view(const struct trend_series *s, const struct trend_component *c, const double *trust,
                              struct arena *arena) {
  struct kalman_data d = s->data;
  d.eaten = s->eaten[c->tissue];
  d.trust = trust;
  if (c->jump_day == 0) return d;
  double *jump = ARENA_NEW(arena, double, (size_t)d.days + 1);
  memcpy(jump, s->need_jump_sd, (size_t)d.days * sizeof *jump);
  jump[c->jump_day] = hypot(jump[c->jump_day], STEP_OF_NEED * s->need_kg);
  d.need_jump_sd = jump;
  return d;
}

struct kalman_state trend_start(const struct trend_series *s, int tissue, const struct kalman_noise *noise) {
  enum { FIRST = 5 };
  double first[FIRST];
  int n = 0, from = s->data.reading_from[0], to = s->data.reading_from[s->data.days];
  for (; n < FIRST && from + n < to; n++) first[n] = s->data.kg[from + n];
  struct kalman_state k = {{n > 0 ? trend_median(first, (size_t)n) : s->weight_kg, 0, 0, 0}, {{0}}};
  double weight_sd = START_WEIGHT * s->weight_kg, need_sd = START_SLOPE * s->weight_kg;
  if (s->known_days > 0) {
    double eaten = s->mean_kcal / s->tissue[tissue];
    k.mean[KALMAN_NEED] = eaten;
    k.cov[KALMAN_EATEN][KALMAN_EATEN] = START_EATEN * eaten * START_EATEN * eaten;
    need_sd = START_NEED * s->need_kg;
  }
  k.cov[KALMAN_BOWELS][KALMAN_BOWELS] = noise->bowels_sd * noise->bowels_sd;
  k.cov[KALMAN_WEIGHT][KALMAN_WEIGHT] = weight_sd * weight_sd;
  k.cov[KALMAN_NEED][KALMAN_NEED] = need_sd * need_sd;
  return k;
}

/* The first trust comes from the median of the nine readings around each: a slip cannot hide behind its own weight. */
void trend_first_trust(struct trend_series *s, struct arena *arena) {
  enum { EACH_SIDE = 4, MOST = 2 * EACH_SIDE + 1 };
  int from = s->data.reading_from[0], to = s->data.reading_from[s->data.days];
  double *off = ARENA_NEW(arena, double, (size_t)(to - from) + 1),
         *sorted = ARENA_NEW(arena, double, (size_t)(to - from) + 1);
  for (int i = from; i < to; i++) {
    double near[MOST];
    int n = 0;
    for (int j = i - EACH_SIDE; j <= i + EACH_SIDE; j++)
      if (j >= from && j < to) near[n++] = s->data.kg[j];
    off[i - from] = s->data.kg[i] - trend_median(near, (size_t)n);
    sorted[i - from] = fabs(off[i - from]);
  }
  double sd = to > from ? 1.4826 * trend_median(sorted, (size_t)(to - from)) : 0;
  sd = fmax(sd, 0.004 * s->weight_kg);
  for (int i = from; i < to; i++) s->trust[i] = trend_trust(off[i - from] * off[i - from] / (sd * sd));
}
