#include "trend/trend_parts.h"

#include <math.h>

static const double NORMAL_95 = 1.6448536269514722,
                    STUDENT_95 = 2.1318467863266500; /* the latter with 4 degrees of freedom */
static const double OUTLIER_Z = 5;                   /* in scale_sd of the result */
static const double JUMP_OF_NEED = 0.3;              /* of the need, where one is found */

/* Each component over the days that were learnt from. */
struct view {
  struct kalman_run run;
  struct kalman_smooth smooth;
};

/* A reading of Student's t tells less than one whose trust were known: (f + 1) / (f + 3) of it on average (its information,
 * Lange, Little and Taylor 1989). The band is that of what it tells. */
static void look(const struct trend_series *s, const struct trend_component *c, const double *trust, struct view *v,
                 struct kalman_data *data, struct arena *arena) {
  struct kalman_state start = trend_start(s, c->tissue, &c->noise);
  int from = s->data.reading_from[0], to = s->data.reading_from[s->data.days];
  double *told = ARENA_NEW(arena, double, (size_t)to + 1);
  for (int i = from; i < to; i++) told[i] = trust[i] * (TREND_FREEDOM + 1) / (TREND_FREEDOM + 3);
  *data = trend_view(s, c, told, arena);
  *v = (struct view){0};
  kalman_room(&v->run, data, arena);
  kalman_smooth_room(&v->smooth, data, arena);
  kalman_filter(data, &c->noise, &start, &v->run);
  kalman_smoother(&v->run, &v->smooth);
}

/* ---- figures of today ---- */

static struct trend_mix mix_begin(const struct trend_fit *fit) {
  struct trend_mix m = {.count = fit->count};
  for (int i = 0; i < fit->count; i++) m.share[i] = fit->component[i].share;
  return m;
}

struct today {
  struct trend_mix weight, rate, need;
};

static void rate_of(const struct view *v, int rate_days, double *mean, double *sd) {
  int last = v->run.data->days - 1, from = last - rate_days;
  double cov[KALMAN_STATES][KALMAN_STATES];
  const struct kalman_state *a = &v->smooth.day[from], *b = &v->run.last;
  kalman_cov_with_last(&v->run, from, cov);
  double variance = a->cov[0][0] + b->cov[0][0] - 2 * cov[0][0], per_week = 7.0 / rate_days;
  *mean = (b->mean[0] - a->mean[0]) * per_week;
  *sd = sqrt(fmax(0, variance)) * per_week;
}

static void take(const struct trend_series *s, const struct trend_component *c, const struct view *v, int i, int rate_days,
                 struct today *t) {
  const struct kalman_state *k = &v->run.last;
  t->weight.mean[i] = k->mean[KALMAN_WEIGHT];
  t->weight.sd[i] = sqrt(fmax(0, k->cov[KALMAN_WEIGHT][KALMAN_WEIGHT]));
  t->need.mean[i] = k->mean[KALMAN_NEED] * s->tissue[c->tissue];
  t->need.sd[i] = sqrt(fmax(0, k->cov[KALMAN_NEED][KALMAN_NEED])) * s->tissue[c->tissue];
  rate_of(v, rate_days, &t->rate.mean[i], &t->rate.sd[i]);
}

/* ---- every day ---- */

struct days {
  double *mean, *square; /* over the components */
};

static void add_days(const struct trend_component *c, const struct view *v, struct days *d) {
  for (int i = 0; i < v->run.data->days; i++) {
    const struct kalman_state *k = &v->smooth.day[i];
    d->mean[i] += c->share * k->mean[0];
    d->square[i] += c->share * (k->mean[0] * k->mean[0] + fmax(0, k->cov[0][0]));
  }
}

static struct trend_band band_of(double mean, double variance) {
  double half = NORMAL_95 * sqrt(fmax(0, variance));
  return (struct trend_band){mean, mean - half, mean + half};
}

static void tell_days(const struct trend_series *s, const struct days *d, struct trend_day *out) {
  for (int i = 0; i < s->data.days; i++)
    out[i] = (struct trend_day){s->first + i, band_of(d->mean[i], d->square[i] - d->mean[i] * d->mean[i])};
}

/* The days before those that were learnt from, with the likeliest noises. */
static void tell_earlier(struct trend_series *s, const struct trend_component *c, int earlier, struct trend_day *out,
                         struct arena *arena) {
  struct view v;
  struct kalman_data data;
  struct arena_mark mark = arena_mark(arena);
  if (earlier > 0) {
    look(s, c, s->trust, &v, &data, arena);
    for (int i = 0; i < earlier; i++)
      out[i] = (struct trend_day){s->first + i, band_of(v.smooth.day[i].mean[0], v.smooth.day[i].cov[0][0])};
  }
  arena_rewind(arena, mark);
}

static void tell_readings(const struct trend_series *s, const struct trend_day *day, double scale_sd,
                          struct trend_reading *out) {
  for (int d = 0; d < s->data.days; d++)
    for (int i = s->data.reading_from[d]; i < s->data.reading_from[d + 1]; i++) {
      double off = s->data.kg[i] - day[d].weight.mean;
      out[i] = (struct trend_reading){s->first + d, s->data.kg[i], off, trend_trust(off * off / (scale_sd * scale_sd)),
                                      fabs(off) > OUTLIER_Z * scale_sd};
    }
}

/* ---- what comes next ---- */

static void forecast_component(const struct trend_series *s, const struct trend_component *c, struct kalman_state k,
                               double kcal, int i, int days, struct trend_mix *weight) {
  struct kalman_noise noise = c->noise;
  double eaten = isnan(kcal) ? s->eaten[c->tissue][s->data.days - 1] : kcal / s->tissue[c->tissue];
  noise.weight_sd = sqrt(noise.weight_sd * noise.weight_sd + noise.unknown_sd * noise.unknown_sd);
  if (isnan(kcal)) noise = c->noise;
  for (int d = 0; d < days; d++) {
    kalman_next_day(&s->data, &k, eaten, isnan(kcal), &noise, 0);
    weight[d].mean[i] = k.mean[KALMAN_WEIGHT];
    weight[d].sd[i] = sqrt(fmax(0, k.cov[KALMAN_WEIGHT][KALMAN_WEIGHT]));
  }
}

static void tell_forecast(const struct trend_fit *fit, const struct trend_mix *weight, long until, double scale_sd,
                          struct trend_result *out, struct arena *arena) {
  struct trend_forecast *f = ARENA_NEW(arena, struct trend_forecast, out->forecast_count + 1);
  (void)fit;
  for (size_t d = 0; d < out->forecast_count; d++) {
    struct trend_band b = trend_mix_band(&weight[d]);
    double reading = STUDENT_95 * scale_sd;
    f[d] = (struct trend_forecast){until + 1 + (long)d, b, b.mean - hypot(b.mean - b.low, reading),
                                   b.mean + hypot(b.high - b.mean, reading)};
  }
  out->forecast = f;
}

/* ---- the whole ---- */

static void recent(const struct trend_series *s, struct trend_result *out) {
  double sum = 0;
  for (int d = s->data.days - 1; d >= 0 && d >= s->data.days - TREND_RECENT_DAYS; d--)
    if (!isnan(s->kcal[d])) {
      sum += s->kcal[d];
      out->recent_known++;
    }
  out->known_days = s->known_days;
  out->recent_kcal = out->recent_known >= TREND_RECENT_LEAST ? sum / (double)out->recent_known : (double)NAN;
}

/* Of the weighings that noises are learnt from. */
static size_t first_learnt(const struct trend_input *in) {
  size_t first = 0;
  while (first < in->weight_count && in->weight[first].day <= in->until - TREND_DAYS_LEARNT) first++;
  return first;
}

static enum trend_lack lack_of_trend(const struct trend_input *in) {
  size_t n = in->weight_count, first = first_learnt(in);
  if (n - first < TREND_LEAST_WEIGHTS) return TREND_LACKS_WEIGHTS;
  return in->weight[n - 1].day - in->weight[first].day < TREND_LEAST_SPAN ? TREND_LACKS_SPAN : TREND_LACKS_NOTHING;
}

/* Days to come are not looked at, nor days before any animal's life. */
static struct trend_input up_to_until(const struct trend_input *in) {
  enum { DAYS_MOST = 14610 };
  struct trend_input i = *in;
  while (i.weight_count > 0 && i.weight[0].day <= i.until - DAYS_MOST) {
    i.weight++;
    i.weight_count--;
  }
  while (i.weight_count > 0 && i.weight[i.weight_count - 1].day > i.until) i.weight_count--;
  while (i.intake_count > 0 && i.intake[i.intake_count - 1].day > i.until) i.intake_count--;
  return i;
}

static int rate_days(const struct trend_series *s, const int *jump, int count) {
  int days = s->data.days - 1;
  if (count > 0 && s->data.days - 1 - jump[count - 1] >= 7) days = s->data.days - 1 - jump[count - 1];
  return days < TREND_RECENT_DAYS ? days : TREND_RECENT_DAYS;
}

struct changes {
  int trend[TREND_CHANGES_MOST], need[TREND_CHANGES_MOST], trends, needs;
};

/* Where the need jumps, the model may jump too. */
static void find_changes(struct trend_series *s, struct trend_fit *fit, struct changes *c, struct arena *arena) {
  const struct kalman_noise *noise = &fit->component[0].noise;
  c->trends = trend_find_jumps(s, noise, true, c->trend, TREND_CHANGES_MOST, arena);
  c->needs = s->known_days > 0 ? trend_find_jumps(s, noise, false, c->need, TREND_CHANGES_MOST, arena) : 0;
  const int *jump = s->known_days > 0 ? c->need : c->trend;
  int count = s->known_days > 0 ? c->needs : c->trends;
  for (int i = 0; i < count; i++) s->need_jump_sd[jump[i]] = JUMP_OF_NEED * s->need_kg;
  if (count > 0) trend_learn(s, fit, arena);
}

/* Of a reading, with what is in the bowels. */
static double mean_scale(const struct trend_fit *fit) {
  double squares = 0;
  for (int i = 0; i < fit->count; i++) {
    const struct kalman_noise *n = &fit->component[i].noise;
    squares += fit->component[i].share * (n->scale_sd * n->scale_sd + n->bowels_sd * n->bowels_sd);
  }
  return sqrt(squares);
}

static void tell_today(const struct today *t, bool need_known, struct trend_result *out) {
  struct trend_band none = {(double)NAN, (double)NAN, (double)NAN};
  out->weight = trend_mix_band(&t->weight);
  out->per_week = trend_mix_band(&t->rate);
  out->chance_loss = trend_mix_below(&t->rate, 0);
  out->need = need_known ? trend_mix_band(&t->need) : none;
  out->balance = none;
  if (need_known && !isnan(out->recent_kcal))
    out->balance = (struct trend_band){out->recent_kcal - out->need.mean, out->recent_kcal - out->need.high,
                                       out->recent_kcal - out->need.low};
}

/* What was moved so that it could be learnt from is told as it was written. */
static void tell_as_written(const struct trend_shift *shift, size_t count, struct trend_day *day, size_t days,
                            struct trend_reading *reading, size_t readings) {
  for (size_t i = 0; i < count; i++) {
    for (size_t d = 0; d < days && day[d].day < shift[i].after; d++) {
      day[d].weight.mean -= shift[i].kg;
      day[d].weight.low -= shift[i].kg;
      day[d].weight.high -= shift[i].kg;
    }
    for (size_t r = 0; r < readings && reading[r].day < shift[i].after; r++) reading[r].kg -= shift[i].kg;
  }
}

static void tell_all(const struct trend_input *in, struct trend_series *whole, struct trend_series *s,
                     const struct trend_fit *fit, int earlier, struct trend_result *out, struct arena *arena) {
  size_t n = (size_t)s->data.days + 1, f = (size_t)in->forecast_days;
  struct days days = {ARENA_NEW(arena, double, n), ARENA_NEW(arena, double, n)};
  struct today today = {mix_begin(fit), mix_begin(fit), mix_begin(fit)};
  struct trend_mix *ahead = ARENA_NEW(arena, struct trend_mix, f + 1);
  for (size_t d = 0; d < f; d++) ahead[d] = mix_begin(fit);
  for (int i = 0; i < fit->count; i++) {
    struct view v;
    struct kalman_data data;
    struct arena_mark mark = arena_mark(arena);
    look(s, &fit->component[i], fit->component[i].trust, &v, &data, arena);
    take(s, &fit->component[i], &v, i, out->rate_days, &today);
    add_days(&fit->component[i], &v, &days);
    forecast_component(s, &fit->component[i], v.run.last, out->forecast_kcal, i, in->forecast_days, ahead);
    arena_rewind(arena, mark);
  }
  struct trend_day *day = ARENA_NEW(arena, struct trend_day, out->day_count + 1);
  struct trend_reading *reading = ARENA_NEW(arena, struct trend_reading, out->reading_count + 1);
  tell_days(s, &days, day + earlier);
  tell_earlier(whole, &fit->component[0], earlier, day, arena);
  tell_readings(whole, day, out->scale_sd, reading);
  tell_today(&today, out->lack != TREND_LACKS_INTAKE, out);
  tell_forecast(fit, ahead, in->until, out->scale_sd, out, arena);
  tell_as_written(out->shift, out->shift_count, day, out->day_count, reading, out->reading_count);
  out->day = day;
  out->reading = reading;
}

const struct trend_result *trend_estimate(const struct trend_input *all, struct arena *arena) {
  struct trend_result *out = ARENA_NEW(arena, struct trend_result, 1);
  struct trend_input in = up_to_until(all);
  struct trend_band none = {(double)NAN, (double)NAN, (double)NAN};
  struct trend_series whole;
  struct trend_fit fit;
  struct changes found;
  *out = (struct trend_result){.lack = lack_of_trend(&in), .weight = none, .per_week = none, .need = none, .balance = none};
  out->scale_sd = out->forecast_kcal = out->chance_loss = (double)NAN;
  struct trend_shift *shift = ARENA_NEW(arena, struct trend_shift, TREND_SHIFTS_MOST);
  out->shift = shift;
  out->shift_count = trend_align(&in, first_learnt(&in), shift, arena);
  trend_series_build(&in, &whole, arena);
  recent(&whole, out);
  if (out->lack != TREND_LACKS_NOTHING) return out;
  if (whole.known_days < TREND_LEAST_KNOWN) out->lack = TREND_LACKS_INTAKE;
  int earlier = whole.data.days > TREND_DAYS_LEARNT ? whole.data.days - TREND_DAYS_LEARNT : 0;
  trend_first_trust(&whole, arena);
  struct trend_series s = trend_series_tail(&whole, earlier);
  trend_learn(&s, &fit, arena);
  find_changes(&s, &fit, &found, arena);
  out->rate_days = rate_days(&s, found.trend, found.trends);
  out->scale_sd = mean_scale(&fit);
  out->day_count = (size_t)whole.data.days;
  out->reading_count = in.weight_count;
  out->forecast_kcal = isnan(in.planned_kcal) ? out->recent_kcal : whole.known_days > 0 ? in.planned_kcal : (double)NAN;
  out->forecast_count = (size_t)in.forecast_days;
  tell_all(&in, &whole, &s, &fit, earlier, out, arena);
  struct trend_change *change = ARENA_NEW(arena, struct trend_change, TREND_CHANGES_MOST);
  trend_tell_changes(&s, &fit.component[0].noise, found.trend, found.trends, found.need, found.needs, change, arena);
  out->change = change;
  out->change_count = (size_t)found.trends;
  return out;
}

/* ---- how many weighings more ---- */

static int weighings_for_a_trend(const struct trend_input *in, size_t known_days, int every_days) {
  size_t first = first_learnt(in), n = in->weight_count;
  long span = n > first ? in->weight[n - 1].day - in->weight[first].day : -every_days, known = (long)known_days;
  int more = n - first < TREND_LEAST_WEIGHTS ? (int)(TREND_LEAST_WEIGHTS - (n - first)) : 0;
  while (span + (long)more * every_days < TREND_LEAST_SPAN || known + (long)more * every_days < TREND_LEAST_KNOWN) more++;
  return more;
}

/* Where the need stands now and how it will be learnt: of the days that noises are learnt from, as in the estimate. */
struct outlook {
  struct trend_series s;
  struct kalman_noise noise;
  struct kalman_state now;
  int least;
};

static void look_out(const struct trend_input *all, int every_days, struct outlook *o, struct arena *arena) {
  struct trend_input aligned = *all;
  struct trend_shift shift[TREND_SHIFTS_MOST];
  const struct trend_input *in = &aligned;
  trend_align(&aligned, first_learnt(all), shift, arena);
  struct trend_series whole;
  struct trend_fit fit = {.count = 0};
  trend_series_build(in, &whole, arena);
  int earlier = whole.data.days > TREND_DAYS_LEARNT ? whole.data.days - TREND_DAYS_LEARNT : 0;
  o->s = trend_series_tail(&whole, earlier);
  o->noise = trend_usual_noise(&o->s);
  if (lack_of_trend(in) == TREND_LACKS_NOTHING) {
    trend_first_trust(&o->s, arena);
    trend_learn(&o->s, &fit, arena);
    o->noise = fit.component[0].noise;
  } else {
    for (size_t i = 0; i < in->weight_count; i++) o->s.trust[i] = 1;
  }
  struct kalman_state start = trend_start(&o->s, 0, &o->noise);
  if (o->s.known_days == 0) { /* from now on everything is written down */
    start.mean[KALMAN_NEED] = o->s.need_kg;
    start.cov[KALMAN_NEED][KALMAN_NEED] = o->s.need_kg * o->s.need_kg;
    o->s.data.days = 1;
  }
  struct kalman_run run = {0};
  kalman_filter(&o->s.data, &o->noise, &start, &run);
  o->now = run.last;
  o->least = weighings_for_a_trend(in, o->s.known_days, every_days);
}

static int weighings_to(const struct outlook *o, const struct trend_input *in, int every_days, double share, int most) {
  struct kalman_state k = o->now;
  const struct trend_series *s = &o->s;
  double tissue_share = 0.5 * (in->tissue_high - in->tissue_low) / in->tissue_kcal;
  double reading = o->noise.scale_sd * o->noise.scale_sd * (TREND_FREEDOM + 3) / (TREND_FREEDOM + 1) +
                   o->noise.bowels_sd * o->noise.bowels_sd; /* a reading of Student's t tells a little less */
  for (int n = 0; n <= most; n++) {
    double need = fmax(k.mean[KALMAN_NEED], 0.3 * s->need_kg), slope = s->need_kg - k.mean[KALMAN_NEED];
    double sd = hypot(sqrt(fmax(0, k.cov[KALMAN_NEED][KALMAN_NEED])), s->known_days > 0 ? slope * tissue_share : 0);
    if (n >= o->least && NORMAL_95 * sd <= share * need) return n;
    for (int d = 0; d < every_days; d++) kalman_next_day(&s->data, &k, s->need_kg, false, &o->noise, 0);
    struct kalman_step step = kalman_read(&k, k.mean[KALMAN_WEIGHT], reading);
    (void)step;
  }
  return -1;
}

void trend_weighings_wanted(const struct trend_input *all, int every_days, const double *share, int *wanted, int count,
                            int most, struct arena *arena) {
  struct trend_input in = up_to_until(all);
  struct outlook o;
  look_out(&in, every_days, &o, arena);
  for (int i = 0; i < count; i++) wanted[i] = weighings_to(&o, &in, every_days, share[i], most);
}
