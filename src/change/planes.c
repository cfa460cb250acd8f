/* planes.c: what a solution lacks, as rows.
 *
 * The judge asks of each nutrient that the quantile of its lognormal total, in the poorest window of days, reaches the need.
 * That quantile Q is a function of the amounts x that grows in proportion with them (homogeneous of the first degree), so
 * its tangent plane at x passes through the origin: Q ~ gradient Q(x) . y, exact at y = x. The row
 *     gradient Q(x) . y - need(y) >= 0
 * cuts x off when Q(x) < need(x), and at a point where such rows stand still the need is met exactly. Likewise for upper
 * limits with the other quantile, in the richest window. With m the mean and V the variance of the total,
 *     Q = m exp(z s - s^2 / 2),  s^2 = ln(1 + V / m^2). */
#include <math.h>

#include "change/model_parts.h"

/* What one bowl of a solution is, with the slopes at it. */
struct view {
  struct model *p;
  const struct bowl *b;
  int index;
  const double *x; /* [columns], and the misses */
  double *grams;   /* [candidates] */
  struct totals *t;
  const int *of_line;
  double *d_mean, *d_variance; /* [candidates] */
  double *row_mean, *row_variance;
  double *plane; /* [candidates] */
  double margin;
  int added;
};

/* Foods that are not in the bowl but on another line have a slope through that line: a trace of them stands in. */
static const double TRACE_G = 1e-10;

static struct ration_line *lines_with_traces(const struct view *v, size_t *count, int *of_line, struct arena *scratch) {
  const struct model *p = v->p;
  struct ration_line *line = ARENA_NEW(scratch, struct ration_line, p->candidates);
  *count = 0;
  for (size_t i = 0; i < p->candidates; i++) {
    double g = v->grams[i];
    if (!(g > 0) && !p->food_shared[i]) continue;
    of_line[*count] = (int)i;
    line[(*count)++] = candidate_line(&p->candidate[i], g > 0 ? g : TRACE_G);
  }
  return line;
}

static bool look_at(struct view *v, const double *x, struct arena *scratch) {
  size_t n = v->p->candidates, lines;
  v->grams = ARENA_NEW(scratch, double, n);
  model_amounts(v->p, v->index, x, v->grams);
  int *of_line = ARENA_NEW(scratch, int, n);
  struct ration_line *line = lines_with_traces(v, &lines, of_line, scratch);
  struct ration *r = ARENA_NEW(scratch, struct ration, 1);
  *r = (struct ration){.name = "", .days = 1, .meals_per_day = NAN, .line = line, .line_count = lines};
  v->t = totals_gather(v->p->lib, r, v->b->carotene, scratch);
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

static void slopes_in_window(struct view *v, enum nutrient n, int first, int days) {
  const struct model *p = v->p;
  for (size_t i = 0; i < p->candidates; i++) {
    const struct totals *one = v->b->gram[i].totals;
    v->d_variance[i] = 0;
    v->d_mean[i] = one->amount[n];
    bool rare = !one->same_every_day && days < CALENDAR_DAYS;
    if (rare && one->amount[n] != 0) v->d_mean[i] = totals_in_window(one, n, first, days).amount;
  }
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

/* plane - form on the right side of nothing. */
static void add_plane(struct view *v, int limit, const struct form *f, bool least) {
  double strict = f->constant * (least ? 1 + v->margin : 1 - v->margin);
  for (size_t i = 0; i < v->p->candidates; i++)
    if (f->per_g) v->plane[i] -= f->per_g[i] * (least ? 1 + v->margin : 1 - v->margin);
  model_add_form(v->p, v->index, limit, v->plane, 0, least ? strict : -INFINITY, least ? INFINITY : strict, true);
  v->added++;
}

/* What is nearer to its limit than this enters as a plane; the plane then keeps ten times as much room. */
static double near_limit(const struct view *v) { return 0.1 * v->margin; }

/* What a solution owns up to missing of a limit (only where misses have columns: impossible.c). */
static double missed(const struct view *v, int limit) {
  return v->p->slack_first < 0 ? 0 : v->x[v->p->slack_first + limit] * v->p->limit[limit].size;
}

static void needs_of(struct view *v, enum nutrient n, int worst) {
  const struct duty *d = &v->b->duty[n];
  struct window_total w = totals_in_window(v->t, n, worst, d->days);
  double low = lognormal_quantile(w.amount, w.cv, 1 - v->b->options.sure);
  for (int k = 0; k < d->needs; k++) {
    if (low + missed(v, d->limit_need) >= form_at(&d->need[k], v->grams, v->p->candidates) * (1 + near_limit(v))) continue;
    quantile_plane(v, n, worst, d->days, 1 - v->b->options.sure);
    add_plane(v, d->limit_need, &d->need[k], true);
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
    if (high > most) {
      quantile_plane(v, n, rich, d->days, v->b->options.sure);
      add_plane(v, d->limit_upper, &d->upper[k], false);
    }
    if (w.amount + possible(w.missing_high) > most) {
      for (size_t i = 0; i < v->p->candidates; i++) {
        struct window_total one = totals_in_window(v->b->gram[i].totals, n, rich, d->days);
        v->plane[i] = one.amount + possible(one.missing_high);
      }
      add_plane(v, d->limit_upper, &d->upper[k], false);
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
    add_plane(v, d->limit_day, &d->upper[k], false);
  }
}

/* A nutrient that the gut was to make, where this bowl keeps it from doing so: promised from here on. */
static void end_waivers(struct view *v, const double *x, struct arena *scratch) {
  const struct check_result *r = NULL;
  for (int n = 0; n < NUT_COUNT; n++) {
    struct duty *d = &v->p->bowl[v->index]->duty[n];
    if (!d->waived) continue;
    if (!r) r = model_judge(v->p, v->index, x, scratch);
    if (!(r->nutrient[n].allowance > 0) || r->nutrient[n].verdict == VERDICT_MET) continue;
    d->waived = false;
    d->promised = true;
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
  model_add_form(v->p, v->index, b->limit_uneven, v->plane, 0, least ? 0 : -INFINITY, least ? INFINITY : 0, true);
  v->added++;
}

int model_add_planes(struct model *p, int bowl, const double *x, double margin, struct arena *scratch) {
  struct view v = {.p = p, .b = p->bowl[bowl], .index = bowl, .x = x, .margin = margin};
  if (!look_at(&v, x, scratch)) return 0;
  end_waivers(&v, x, scratch);
  for (int i = 0; i < NUT_COUNT; i++) {
    const struct duty *d = &v.b->duty[i];
    enum nutrient n = (enum nutrient)i;
    if (!d->promised && d->uppers == 0) continue;
    struct day_range e = totals_days(v.t, n, d->days);
    if (d->promised) needs_of(&v, n, e.worst);
    if (d->uppers > 0) uppers_of(&v, n, e.rich);
    if (d->highest_day && d->uppers > 0 && !v.t->same_every_day) highest_day_of(&v, n);
  }
  if (v.b->limit_uneven >= 0 && !p->ill_mannered && !v.t->same_every_day) {
    ratio_in_windows(&v, "ca-p-low", true);
    ratio_in_windows(&v, "ca-p-high", false);
  }
  return v.added;
}
