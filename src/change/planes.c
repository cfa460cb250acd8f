/* planes.c: what a solution lacks, as rows.
 *
 * The judge asks of each nutrient that the quantile of its lognormal total, in the poorest window of days, reaches the need.
 * That quantile Q is a function of the amounts x that grows in proportion with them (homogeneous of the first degree), so
 * its tangent plane at x passes through the origin: Q ~ gradient Q(x) . y, exact at y = x. The row
 *     gradient Q(x) . y - need(y) >= 0
 * cuts x off when Q(x) < need(x), and at a point where such rows stand still the need is met exactly. Likewise for upper
 * limits with the other quantile, in the richest window. With m the mean and V the variance of the total,
 *     Q = m exp(z s - s^2 / 2),  s^2 = ln(1 + V / m^2).
 *
 * Q is not concave where V is large, nor is the upper one convex: such a tangent is right at x and may cut off bowls far
 * from it. So two kinds of rows are told apart. A firm row touches a bound on Q that holds for every bowl (envelope.h) and
 * is broken by no bowl that keeps the limit. A bold one is the tangent itself; it leads to an answer, and proves nothing. */
#include <math.h>

#include "change/envelope.h"
#include "change/model_parts.h"

/* What one bowl of a solution is, with the slopes at it. */
struct view {
  struct model *p;
  const struct bowl *b;
  int index;
  const double *x; /* [columns], and the misses */
  double *grams;   /* [candidates] */
  struct totals *t;
  struct totals *daily; /* of what is fed every day alone; NULL: not gathered yet */
  const int *of_line;
  int *of_daily;               /* candidate of a line of theirs */
  double *d_mean, *d_variance; /* [candidates] */
  double *row_mean, *row_variance;
  double *plane; /* [candidates] */
  double margin;
  int added;
  struct arena *scratch;
};

/* Foods that are not in the bowl but on another line have a slope through that line: a trace of them stands in. */
static const double TRACE_G = 1e-10;

static struct totals *gather(const struct view *v, bool daily_alone, int *of_line) {
  const struct model *p = v->p;
  struct ration_line *line = ARENA_NEW(v->scratch, struct ration_line, p->candidates);
  size_t count = 0;
  for (size_t i = 0; i < p->candidates; i++) {
    double g = v->grams[i];
    if (!(g > 0) && !p->food_shared[i]) continue;
    if (daily_alone && !v->b->gram[i].totals->same_every_day) continue;
    of_line[count] = (int)i;
    line[count++] = candidate_line(&p->candidate[i], g > 0 ? g : TRACE_G);
  }
  struct ration *r = ARENA_NEW(v->scratch, struct ration, 1);
  *r = (struct ration){.name = "", .days = 1, .meals_per_day = NAN, .line = line, .line_count = count};
  return totals_gather(p->lib, r, v->b->carotene, v->scratch);
}

static bool look_at(struct view *v, const double *x, struct arena *scratch) {
  size_t n = v->p->candidates;
  v->scratch = scratch;
  v->grams = ARENA_NEW(scratch, double, n);
  model_amounts(v->p, v->index, x, v->grams);
  int *of_line = ARENA_NEW(scratch, int, n);
  v->t = gather(v, false, of_line);
  v->of_line = of_line;
  v->d_mean = ARENA_NEW(scratch, double, n);
  v->d_variance = ARENA_NEW(scratch, double, n);
  v->plane = ARENA_NEW(scratch, double, n);
  v->row_mean = ARENA_NEW(scratch, double, (size_t)v->t->row_count);
  v->row_variance = ARENA_NEW(scratch, double, (size_t)v->t->row_count);
  return v->t->row_count > 0;
}

/* Grams of a portion, on a day when it is fed, for one gram a day of its candidate. */
static double portion_per_gram(const struct view *v, const struct portion_row *r) {
  double day = v->grams[v->of_line[r->line]];
  return r->grams / (day > 0 ? day : TRACE_G);
}

/* The mean in a window, with its slopes in v->d_mean. */
static double mean_slopes(struct view *v, enum nutrient n, int first, int days) {
  for (size_t i = 0; i < v->p->candidates; i++) {
    const struct totals *one = v->b->gram[i].totals;
    v->d_mean[i] = one->amount[n];
    bool rare = !one->same_every_day && days < CALENDAR_DAYS;
    if (rare && one->amount[n] != 0) v->d_mean[i] = totals_in_window(one, n, first, days).amount;
  }
  return totals_in_window(v->t, n, first, days).amount;
}

static void slopes_in_window(struct view *v, enum nutrient n, int first, int days) {
  mean_slopes(v, n, first, days);
  for (size_t i = 0; i < v->p->candidates; i++) v->d_variance[i] = 0;
  totals_slopes(v->t, n, first, days, v->row_mean, v->row_variance);
  for (int k = 0; k < v->t->row_count; k++) {
    const struct portion_row *r = &v->t->row[k];
    v->d_variance[v->of_line[r->line]] += v->row_variance[k] * portion_per_gram(v, r);
  }
}

/* Q of the window and its gradient, into v->plane. */
static double quantile_plane(struct view *v, enum nutrient n, int first, int days, double chance_below) {
  struct window_total w = totals_in_window(v->t, n, first, days);
  slopes_in_window(v, n, first, days);
  double m = w.amount, variance = w.cv * m * w.cv * m, z = normal_quantile(chance_below);
  double q = lognormal_quantile(m, w.cv, chance_below);
  double s = sqrt(log1p(w.cv * w.cv)), raw = m * m + variance;
  for (size_t i = 0; i < v->p->candidates; i++) {
    if (!(m > 0) || !(s > 0)) {
      v->plane[i] = v->d_mean[i];
      continue;
    }
    /* ln Q = 2 ln m - ln(m^2 + V) / 2 + z s */
    double d_raw = (2 * m * v->d_mean[i] + v->d_variance[i]) / raw, d_ln_m = v->d_mean[i] / m;
    double d_s = (d_raw - 2 * d_ln_m) / (2 * s);
    v->plane[i] = q * (2 * d_ln_m - 0.5 * d_raw + z * d_s);
  }
  return q;
}

/* What a solution owns up to missing of a limit (only where misses have columns: impossible.c). */
static double missed(const struct view *v, int limit) {
  return v->p->slack_first < 0 ? 0 : v->x[v->p->slack_first + limit] * v->p->limit[limit].size;
}

/* Room that a firm row keeps at most; with more it is bold. */
static const double FIRM_MARGIN = 1e-6;

/* plane - form on the right side of nothing, by the margin. */
static void add_plane(struct view *v, int limit, const struct form *f, bool least, double margin, bool bold) {
  double strict = f->constant * (least ? 1 + margin : 1 - margin);
  for (size_t i = 0; i < v->p->candidates; i++)
    if (f->per_g) v->plane[i] -= f->per_g[i] * (least ? 1 + margin : 1 - margin);
  int row = model_add_form(v->p, v->index, limit, v->plane, 0, least ? strict : -INFINITY, least ? INFINITY : strict, true);
  v->p->note[row].bold = bold || margin > FIRM_MARGIN;
  v->added++;
}

/* ---- rows that hold for every bowl ----------------------------------------------------------------------------------
 *
 * The window that is judged is another in another bowl. Of all of them it has the poorest mean, and in each the spread is at
 * least that of what is fed every day. So the mean of the window at hand and the daily spread bound what is judged. */

/* The standard deviation of what is fed every day, with its slopes in v->d_variance. */
static double daily_spread(struct view *v, enum nutrient n, int days) {
  if (!v->daily) {
    v->of_daily = ARENA_NEW(v->scratch, int, v->p->candidates);
    v->daily = gather(v, true, v->of_daily);
  }
  const struct totals *t = v->daily;
  struct window_total w = totals_in_window(t, n, 0, days);
  double spread = w.amount * w.cv;
  for (size_t i = 0; i < v->p->candidates; i++) v->d_variance[i] = 0;
  if (!(spread > 0)) return 0;
  totals_slopes(t, n, 0, days, v->row_mean, v->row_variance);
  for (int k = 0; k < t->row_count; k++) {
    const struct portion_row *r = &t->row[k];
    double day = v->grams[v->of_daily[r->line]], portion = r->grams / (day > 0 ? day : TRACE_G);
    v->d_variance[v->of_daily[r->line]] += v->row_variance[k] * portion / (2 * spread);
  }
  return spread;
}

/* A bound on the quantile and its tangent plane, into v->plane. 'same': it is the quantile itself. */
static double firm_plane(struct view *v, enum nutrient n, int first, int days, bool least, bool *same) {
  double z = normal_quantile(least ? 1 - v->b->options.sure : v->b->options.sure);
  double mean = mean_slopes(v, n, first, days), spread = daily_spread(v, n, days), value = 1, of_spread;
  struct window_total w = totals_in_window(v->t, n, first, days);
  if (least) {
    struct envelope e = envelope_above(z, v->b->cv_most[n]);
    double t = mean > 0 ? spread / mean : 0;
    value = envelope_at(&e, t, &of_spread);
    *same = t <= e.from && spread >= w.amount * w.cv * (1 - 1e-9);
    value -= of_spread * t;
  } else {
    of_spread = envelope_rise(z, v->b->cv_most[n]);
    *same = !(w.cv > 0);
  }
  for (size_t i = 0; i < v->p->candidates; i++) v->plane[i] = value * v->d_mean[i] + of_spread * v->d_variance[i];
  return value * mean + of_spread * spread;
}

/* The firm row, where x breaks it. False: a tangent is needed as well. */
static bool add_firm(struct view *v, enum nutrient n, int first, int limit, const struct form *f, bool least) {
  bool same;
  double q = firm_plane(v, n, first, v->b->duty[n].days, least, &same), margin = fmin(v->margin, FIRM_MARGIN);
  double border = form_at(f, v->grams, v->p->candidates) * (1 + (least ? 0.1 : -0.1) * margin);
  border += missed(v, limit) * (least ? -1 : 1);
  bool broken = least ? q < border : q > border;
  if (broken) add_plane(v, limit, f, least, margin, v->b->duty[n].ended);
  return broken && same && margin >= v->margin;
}

/* What is nearer to its limit than this enters as a plane; the plane then keeps ten times as much room. */
static double near_limit(const struct view *v) { return 0.1 * v->margin; }

static void needs_of(struct view *v, enum nutrient n, int worst) {
  const struct duty *d = &v->b->duty[n];
  struct window_total w = totals_in_window(v->t, n, worst, d->days);
  double low = lognormal_quantile(w.amount, w.cv, 1 - v->b->options.sure);
  for (int k = 0; k < d->needs; k++) {
    double border = form_at(&d->need[k], v->grams, v->p->candidates) * (1 + near_limit(v)) - missed(v, d->limit_need);
    if (low >= border || add_firm(v, n, worst, d->limit_need, &d->need[k], true)) continue;
    quantile_plane(v, n, worst, d->days, 1 - v->b->options.sure);
    add_plane(v, d->limit_need, &d->need[k], true, v->margin, true);
  }
}

static double possible(double missing) { return isnan(missing) ? 0 : missing; }

/* Known mean, mean with the most that foods without a value are likely to hold, and the quantile: all below the limit. */
static void uppers_of(struct view *v, enum nutrient n, int rich) {
  const struct duty *d = &v->b->duty[n];
  struct window_total w = totals_in_window(v->t, n, rich, d->days);
  double high = lognormal_quantile(w.amount, w.cv, v->b->options.sure);
  for (int k = 0; k < d->uppers; k++) {
    double most = form_at(&d->upper[k], v->grams, v->p->candidates) * (1 - near_limit(v)) + missed(v, d->limit_upper);
    if (high > most && !add_firm(v, n, rich, d->limit_upper, &d->upper[k], false)) {
      quantile_plane(v, n, rich, d->days, v->b->options.sure);
      add_plane(v, d->limit_upper, &d->upper[k], false, v->margin, true);
    }
    if (w.amount + possible(w.missing_high) > most) {
      for (size_t i = 0; i < v->p->candidates; i++) {
        struct window_total one = totals_in_window(v->b->gram[i].totals, n, rich, d->days);
        v->plane[i] = one.amount + possible(one.missing_high);
      }
      add_plane(v, d->limit_upper, &d->upper[k], false, v->margin, false);
    }
  }
}

static int richest_day(const double day[CALENDAR_DAYS]) {
  int best = 0;
  for (int i = 1; i < CALENDAR_DAYS; i++)
    if (day[i] > day[best] * (1 + 1e-12)) best = i;
  return best;
}

static void highest_day_of(struct view *v, enum nutrient n) {
  const struct duty *d = &v->b->duty[n];
  double day[CALENDAR_DAYS];
  totals_series(v->t, n, day);
  int at = richest_day(day);
  for (int k = 0; k < d->uppers; k++) {
    if (day[at] - missed(v, d->limit_day) <= form_at(&d->upper[k], v->grams, v->p->candidates) * (1 - near_limit(v)))
      continue;
    for (size_t i = 0; i < v->p->candidates; i++) {
      double one[CALENDAR_DAYS];
      totals_series(v->b->gram[i].totals, n, one);
      v->plane[i] = one[at];
    }
    add_plane(v, d->limit_day, &d->upper[k], false, v->margin, false);
  }
}

static void windows_of(const struct totals *t, enum nutrient n, int days, double sum[CALENDAR_DAYS]) {
  double day[CALENDAR_DAYS];
  totals_series(t, n, day);
  for (int first = 0; first < CALENDAR_DAYS; first++) {
    sum[first] = 0;
    for (int k = 0; k < days; k++) sum[first] += day[(first + k) % CALENDAR_DAYS];
  }
}

/* Calcium to phosphorus in the run of days where it is lowest, and where it is highest. */
static void ratio_in_windows(struct view *v, const char *finding, bool least) {
  const struct bowl *b = v->b;
  double factor = model_advised(v->p->lib, finding), worst = least ? INFINITY : -INFINITY;
  double ca[CALENDAR_DAYS], ph[CALENDAR_DAYS];
  int days = b->duty[NUT_CALCIUM].days, at = 0;
  if (!(factor > 0) || days <= 0 || days >= CALENDAR_DAYS) return;
  windows_of(v->t, NUT_CALCIUM, days, ca);
  windows_of(v->t, NUT_PHOSPHORUS, days, ph);
  for (int first = 0; first < CALENDAR_DAYS; first++) {
    double ratio = ph[first] > 0 ? ca[first] / ph[first] : factor;
    if (least ? ratio >= worst : ratio <= worst) continue;
    worst = ratio;
    at = first;
  }
  if (least ? worst >= factor * (1 + near_limit(v)) : worst <= factor * (1 - near_limit(v))) return;
  factor *= least ? 1 + v->margin : 1 - v->margin;
  for (size_t i = 0; i < v->p->candidates; i++) {
    const struct totals *one = b->gram[i].totals;
    windows_of(one, NUT_CALCIUM, days, ca);
    windows_of(one, NUT_PHOSPHORUS, days, ph);
    v->plane[i] = (ca[at] - factor * ph[at]) / days;
  }
  double at_x = 0;
  for (size_t i = 0; i < v->p->candidates; i++) at_x += v->plane[i] * v->grams[i];
  double miss = missed(v, b->limit_uneven), owned = 1e-9 * miss;
  if (miss > 0 && (least ? at_x + miss >= -owned : at_x - miss <= owned)) return;
  struct form nothing = {0, NULL};
  add_plane(v, b->limit_uneven, &nothing, least, v->margin, false);
}

static void planes_of(struct view *v, enum nutrient n) {
  const struct duty *d = &v->b->duty[n];
  if (!d->promised && d->uppers == 0) return;
  struct day_range e = totals_days(v->t, n, d->days);
  if (d->promised) needs_of(v, n, e.worst);
  if (d->uppers > 0) uppers_of(v, n, e.rich);
  if (d->highest_day && d->uppers > 0 && !v->t->same_every_day) highest_day_of(v, n);
}

/* A nutrient that the gut was to make, where this bowl keeps it from doing so: promised from here on. Only the judge can
 * tell, and he is asked only where nothing else is lacking. */
static void end_waivers(struct view *v, const double *x, struct arena *scratch) {
  const struct check_result *r = NULL;
  for (int n = 0; n < NUT_COUNT; n++) {
    struct duty *d = &v->p->bowl[v->index]->duty[n];
    if (!d->waived) continue;
    if (!r) r = model_judge(v->p, v->index, x, scratch);
    if (!(r->nutrient[n].allowance > 0) || r->nutrient[n].verdict == VERDICT_MET) continue;
    d->waived = false;
    d->promised = d->ended = true;
    planes_of(v, (enum nutrient)n);
  }
  if (r) model_keep_judged(v->p, v->index, x, r);
}

int model_add_planes(struct model *p, int bowl, const double *x, double margin, struct arena *scratch) {
  struct view v = {.p = p, .b = p->bowl[bowl], .index = bowl, .x = x, .margin = margin};
  if (!look_at(&v, x, scratch)) return 0;
  for (int i = 0; i < NUT_COUNT; i++) planes_of(&v, (enum nutrient)i);
  if (v.b->limit_uneven >= 0 && !v.t->same_every_day) {
    ratio_in_windows(&v, "ca-p-low", true);
    ratio_in_windows(&v, "ca-p-high", false);
  }
  if (v.added == 0) end_waivers(&v, x, scratch);
  return v.added;
}
