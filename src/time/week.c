#include "time/week.h"

#include <math.h>

#include "base/table.h"
#include "foods/constant_keys.h"
#include "judge/check_steps.h"
#include "judge/verdict.h"

WORD_TABLE(averaging_key, AVERAGING_COUNT, "no-figure", "not-needed", "helps", "not-enough", "short-anyway", "unproven");

/* Two sums of the same grams in another order must not fall on two sides of a limit. */
static const double ROUNDING = 1e-9;

/* ---- amounts of days and windows ------------------------------------------------------------------------------- */

/* What the judge says of a window, kept for all of them. */
struct sums {
  double *amount, *cv, *high, *most; /* [days] */
  bool *gap;                         /* [days] some day of it is not known: the amount is a lower bound */
  bool *part;                        /* [days] the same, or nothing is known of what some day's foods hold */
};

struct work {
  const struct library *lib;
  const struct days_of_food *d;
  const struct check_result *mean;
  struct week *out;
  double *day[NUT_COUNT];
  struct sums window[NUT_COUNT], alone[NUT_COUNT]; /* of the nutrient's days; of one day */
  bool *known[CALENDAR_DAYS + 1];                  /* by length: is the window that begins there known? */
  bool *uncounted[CALENDAR_DAYS + 1], *there[CALENDAR_DAYS + 1];
  struct arena *arena;
};

static struct sums new_sums(const struct work *w) {
  size_t n = (size_t)w->d->days;
  struct sums s = {ARENA_NEW(w->arena, double, n), ARENA_NEW(w->arena, double, n), ARENA_NEW(w->arena, double, n),
                   ARENA_NEW(w->arena, double, n), ARENA_NEW(w->arena, bool, n),   ARENA_NEW(w->arena, bool, n)};
  for (size_t i = 0; i < n; i++) s.amount[i] = NAN;
  return s;
}

static const struct day_of_food *day_at(const struct days_of_food *d, int i) {
  if (d->repeats) return &d->day[i % d->days];
  return i < d->days ? &d->day[i] : NULL;
}

/* A window is known when each of its days is; it is there when all of its days lie in the days looked at, and some is known.
 */
static void look_at_windows(struct work *w, int length) {
  if (w->known[length]) return;
  int days = w->d->days;
  bool *known = w->known[length] = ARENA_NEW(w->arena, bool, (size_t)days);
  bool *uncounted = w->uncounted[length] = ARENA_NEW(w->arena, bool, (size_t)days);
  bool *there = w->there[length] = ARENA_NEW(w->arena, bool, (size_t)days);
  for (int first = 0; first < days; first++) {
    int n = 0;
    for (int i = 0; i < length; i++) {
      const struct day_of_food *day = day_at(w->d, first + i);
      n += day && day->known;
      uncounted[first] = uncounted[first] || (day && day->known && day->uncounted);
    }
    known[first] = n == length;
    there[first] = n > 0 && (w->d->repeats || first + length <= days);
  }
}

/* What is fed without being counted adds no more than the judge allows for (judge/uncounted.h); of a day of which nothing is
 * known nobody can say anything. */
static void keep(const struct work *w, struct sums *s, enum nutrient n, int at, int length, struct window_total t) {
  bool gap = !w->known[length][at], uncounted = w->uncounted[length][at];
  s->gap[at] = s->part[at] = gap;
  s->amount[at] = t.amount;
  s->cv[at] = t.cv;
  s->high[at] = gap || uncounted ? (double)NAN : t.missing_high;
  s->most[at] = gap ? INFINITY : t.missing_most + (uncounted ? w->mean->uncounted_most[n] : 0);
}

/* Is a food without a value fed on that day of the frame? Its class may say that it can hold none worth a word. */
static bool lacks_value(const struct totals *t, enum nutrient n, int day) {
  for (int i = 0; i < t->row_count; i++)
    if (t->row[i].fed_on[day] && t->stream[t->row[i].stream]->missing[n]) return true;
  return false;
}

/* The judge's sums of the windows that begin in the first days of this frame. */
static void sum_frame(struct work *w, int first, int starts, struct arena *scratch) {
  const struct animal *a = w->mean->animal;
  enum species species = a ? a->species : SPECIES_DOG;
  double carotene = a ? library_constant_value(w->lib, K_CAROTENE_FACTOR, a->species) : 0.0;
  struct energy_result energy;
  struct totals *t = totals_gather(w->lib, days_frame(w->d, first, scratch), carotene, scratch);
  energy_supply_alone(t, species, &w->mean->options, &energy, scratch);
  for (int n = 0; n < NUT_COUNT; n++) {
    int length = w->out->nutrient[n].window_days;
    double series[CALENDAR_DAYS];
    totals_series(t, (enum nutrient)n, series);
    for (int i = 0; i < starts && first + i < w->d->days; i++) {
      int at = first + i;
      if (w->known[1][at]) {
        struct window_total day = totals_in_window(t, (enum nutrient)n, i, 1);
        bool in_part = n == NUT_ENERGY && w->mean->options.energy_by == ENERGY_ATWATER &&
                       energy_is_in_part(series[i], day.missing_most);
        bool nothing = in_part || !day_is_counted(&w->d->day[at]) || (series[i] == 0 && lacks_value(t, (enum nutrient)n, i));
        w->day[n][at] = nothing ? (double)NAN : series[i];
        keep(w, &w->alone[n], (enum nutrient)n, at, 1, day);
      }
      if (w->there[length][at])
        keep(w, &w->window[n], (enum nutrient)n, at, length, totals_in_window(t, (enum nutrient)n, i, length));
    }
  }
}

/* Windows that hold a day of whose foods nothing is known; journals' missing days are gaps already. */
static void mark_parts(struct work *w, enum nutrient n, int length) {
  struct sums *s = &w->window[n], *one = &w->alone[n];
  int days = w->d->days;
  for (int at = 0; at < days; at++) {
    one->part[at] = isnan(w->day[n][at]);
    for (int i = 0; i < length && (w->d->repeats || at + i < days); i++)
      s->part[at] = s->part[at] || isnan(w->day[n][(at + i) % days]);
  }
}

static void sum_all(struct work *w) {
  int longest = 1;
  look_at_windows(w, 1);
  for (int n = 0; n < NUT_COUNT; n++) {
    int length = w->out->nutrient[n].window_days;
    look_at_windows(w, length);
    longest = length > longest ? length : longest;
    w->day[n] = ARENA_NEW(w->arena, double, (size_t)w->d->days);
    for (int i = 0; i < w->d->days; i++) w->day[n][i] = NAN;
    w->window[n] = new_sums(w);
    w->alone[n] = new_sums(w);
  }
  struct arena scratch;
  arena_init(&scratch, w->arena->on_full);
  struct arena_mark start = arena_mark(&scratch);
  int starts = CALENDAR_DAYS - longest + 1; /* windows that fit into a frame */
  for (int first = 0; first < w->d->days; first += starts) {
    sum_frame(w, first, starts, &scratch);
    arena_rewind(&scratch, start);
  }
  arena_free(&scratch);
  for (int n = 0; n < NUT_COUNT; n++) mark_parts(w, (enum nutrient)n, w->out->nutrient[n].window_days);
}

/* A sum of nothing beside foods without a value is no zero. */
static bool nothing_known(const struct sums *s, int at) { return s->part[at] && s->amount[at] == 0; }

/* ---- the leanest and the richest ------------------------------------------------------------------------------- */

/* Of the windows without a gap; where there is none, of those with one. */
static struct week_window extreme_of(const struct sums *s, int days, int sign, double allowance) {
  struct week_window w = {-1, false, NAN, NAN, NAN, NAN, NAN, NAN};
  struct known_window of = {NAN, NAN};
  bool whole = false;
  for (int i = 0; i < days; i++) whole = whole || (!isnan(s->amount[i]) && !s->gap[i]);
  for (int i = 0; i < days; i++) {
    if (isnan(s->amount[i]) || (whole && s->gap[i])) continue;
    struct known_window one = {s->amount[i], s->most[i]};
    if (w.first >= 0 && !(sign < 0 ? window_is_poorer(one, of) : window_is_richer(one, of))) continue;
    of = one;
    w.first = i;
    w.at_least = s->part[i];
    w.amount = s->amount[i];
    w.cv = s->cv[i];
    w.most = s->amount[i] + s->most[i];
    w.possible = s->amount[i] + s->high[i];
  }
  if (allowance > 0) w.ratio = w.amount / allowance;
  return w;
}

/* 'gap': the amounts are lower bounds, so that only enough and too much are decided. */
static struct judgement judge_windows(const struct week_nutrient *n, const struct week_window *lean,
                                      const struct week_window *rich, bool gap, double sure) {
  struct limits l = {n->minimum, n->allowance, n->upper, n->upper_greater_than};
  struct supply s = {lean->amount, lean->cv, lean->most, rich->amount, rich->cv, rich->possible};
  struct judgement j = verdict_of(&l, &s, sure);
  if (gap && (j.verdict == VERDICT_SHORT || j.verdict == VERDICT_THIN)) {
    j.verdict = VERDICT_UNPROVEN;
    j.rule = RULE_UNPROVEN;
  }
  return j;
}

static struct judgement judge_extremes(const struct week_nutrient *n, const struct sums *s, int days, double sure,
                                       struct week_window *lean, struct week_window *rich) {
  struct judgement none = {.chance_met = NAN, .verdict = VERDICT_NO_FIGURE, .chance_kept = NAN, .rule = RULE_NO_FIGURE};
  *lean = extreme_of(s, days, -1, n->allowance);
  *rich = extreme_of(s, days, 1, n->allowance);
  if (lean->first < 0) return none;
  struct judgement j = judge_windows(n, lean, rich, s->gap[lean->first] || s->gap[rich->first], sure);
  lean->chance = j.chance_met;
  rich->chance = j.chance_kept;
  return j;
}

static struct week_window window_at(const struct sums *s, int i) {
  return (struct week_window){.first = i,
                              .at_least = s->part[i],
                              .amount = s->amount[i],
                              .cv = s->cv[i],
                              .most = s->amount[i] + s->most[i],
                              .possible = s->amount[i] + s->high[i]};
}

static void judge_each(struct work *w, struct week_nutrient *n, double sure) {
  enum verdict *verdict = ARENA_NEW(w->arena, enum verdict, (size_t)w->d->days);
  const struct sums *s = &w->window[n->id];
  for (int i = 0; i < w->d->days; i++) {
    verdict[i] = VERDICT_NO_FIGURE;
    if (isnan(s->amount[i])) continue;
    struct week_window one = window_at(s, i);
    verdict[i] = judge_windows(n, &one, &one, s->gap[i], sure).verdict;
    bool counts = verdict[i] != VERDICT_NO_FIGURE && !(s->gap[i] && verdict[i] == VERDICT_UNPROVEN);
    n->windows += counts;
    n->windows_failing += counts && verdict[i] != VERDICT_MET;
  }
  n->window_verdict = verdict;
}

static enum averaging averaging_of(const struct week_nutrient *n) {
  if (isnan(n->allowance) && n->verdict != VERDICT_OVER) return AVERAGING_NO_FIGURE;
  if (n->leanest.first < 0) return AVERAGING_NO_FIGURE;
  if (n->verdict == VERDICT_UNPROVEN) return AVERAGING_UNPROVEN;
  if (n->verdict == VERDICT_MET) return n->day_verdict == VERDICT_MET ? AVERAGING_NOT_NEEDED : AVERAGING_HELPS;
  return n->mean_verdict == VERDICT_MET ? AVERAGING_NOT_ENOUGH : AVERAGING_SHORT_ANYWAY;
}

/* ---- which days ------------------------------------------------------------------------------------------------ */

static bool is_low(const struct week_nutrient *n, int day) { return n->day[day] < n->allowance * (1 - ROUNDING); }
static bool is_high(const struct week_nutrient *n, int day) { return n->day[day] > n->upper * (1 + ROUNDING); }

static bool window_fails(const struct week_nutrient *n, int first) {
  enum verdict v = n->window_verdict[first];
  return v == VERDICT_SHORT || v == VERDICT_THIN || v == VERDICT_OVER;
}

/* The windows that the day is part of: does one fail, and is each of them met? */
struct around {
  bool fails, met;
  bool fails_known; /* one fails of which each day is known */
};

static struct around windows_around(const struct week *w, const struct week_nutrient *n, int day) {
  struct around a = {.met = true};
  int days = w->days->days, seen = 0;
  for (int back = 0; back < n->window_days; back++) {
    int first = day - back;
    if (first < 0 && !w->days->repeats) break;
    if (first < 0) first = (first % days + days) % days;
    bool there = w->days->repeats || first + n->window_days <= days;
    if (!there) continue;
    seen++;
    a.fails = a.fails || window_fails(n, first);
    a.fails_known = a.fails_known || (window_fails(n, first) && !n->part[first]);
    a.met = a.met && n->window_verdict[first] == VERDICT_MET;
  }
  a.met = a.met && seen > 0;
  return a;
}

/* The verdict of a day by its own foods, where it had to stand for itself. */
static enum verdict verdict_of_day(const struct work *w, const struct week_nutrient *n, int day) {
  const struct sums *s = &w->alone[n->id];
  if (isnan(s->amount[day])) return VERDICT_NO_FIGURE;
  struct week_window one = window_at(s, day);
  return judge_windows(n, &one, &one, s->gap[day], w->mean->options.sure).verdict;
}

/* Below the allowance: it has less, or nobody knows its amount and even the most that its foods could hold is less. */
static bool is_below(const struct work *w, const struct week_nutrient *n, int day) {
  if (!isnan(n->day[day])) return is_low(n, day);
  enum verdict own = verdict_of_day(w, n, day);
  return own == VERDICT_SHORT || own == VERDICT_THIN;
}

/* A day that is as it should be does not fail because its neighbours do. Where only the confidence is wanting, each of them
 * fails that is not clearly enough itself, unless it may be wanting for a day of which nobody knows the amount. */
static bool fails_on(const struct work *w, const struct week_nutrient *n, int day, int below) {
  if (n->windows_failing == 0) return false;
  struct around a = windows_around(w->out, n, day);
  if (!a.fails) return false;
  if (n->too_much) return is_high(n, day);
  return below > 0 ? is_below(w, n, day) : a.fails_known && verdict_of_day(w, n, day) == VERDICT_THIN;
}

bool week_fails_on(const struct week *w, enum nutrient id, int day) { return w->nutrient[id].fails[day]; }
bool week_fails_always(const struct week *w, enum nutrient id) { return w->nutrient[id].fails_always; }
bool week_fails_by_fasts(const struct week *w, enum nutrient id) { return w->nutrient[id].fails_by_fasts; }

bool week_leaner(const struct week_nutrient *a, const struct week_nutrient *b) {
  if (isnan(a->leanest.ratio) || isnan(b->leanest.ratio)) return !isnan(a->leanest.ratio) && isnan(b->leanest.ratio);
  return a->leanest.ratio < b->leanest.ratio;
}

bool week_is_fast(const struct week *w, int day) {
  const struct day_of_food *d = &w->days->day[day];
  return d->known && d->count == 0 && !d->uncounted;
}

static void find_fails(const struct work *w, struct week_nutrient *n) {
  bool *fails = ARENA_NEW(w->arena, bool, (size_t)w->d->days);
  int all = 0, fasts = 0, below = 0;
  for (int i = 0; i < w->d->days && n->windows_failing > 0; i++) below += is_below(w, n, i);
  for (int i = 0; i < w->d->days; i++) {
    fails[i] = fails_on(w, n, i, below);
    all += fails[i];
    fasts += fails[i] && week_is_fast(w->out, i);
  }
  n->fails = fails;
  n->fails_always = all > 0 && all == w->out->known_days;
  n->fails_by_fasts = all > 0 && fasts == all && !n->too_much && n->averaging == AVERAGING_NOT_ENOUGH;
}

static void longest_first(struct day_run *run, size_t n) {
  for (size_t i = 1; i < n; i++)
    for (size_t k = i; k > 0 && run[k].days > run[k - 1].days; k--) {
      struct day_run swap = run[k];
      run[k] = run[k - 1];
      run[k - 1] = swap;
    }
}

/* Runs of days of which 'is' holds; in a plan that repeats, one that runs over its end is one. */
static const struct day_run *runs_of(struct work *w, const bool *is, size_t *count) {
  int days = w->d->days, start = 0;
  struct day_run *run = NULL;
  size_t cap = 0;
  *count = 0;
  if (w->d->repeats) {
    while (start < days && is[start]) start++;
    if (start == days) { /* without an end */
      ARENA_PUSH(w->arena, run, *count, cap, ((struct day_run){0, days}));
      return run;
    }
  }
  for (int i = 0; i < days;) {
    int at = (start + i) % days, length = 0;
    while (i < days && is[(start + i) % days]) {
      length++;
      i++;
    }
    if (length > 0) ARENA_PUSH(w->arena, run, *count, cap, ((struct day_run){at, length}));
    if (length == 0) i++;
  }
  longest_first(run, *count);
  return run;
}

static void find_streaks(struct work *w, struct week_nutrient *n) {
  size_t days = (size_t)w->d->days;
  bool *fails = ARENA_NEW(w->arena, bool, days), *bridged = ARENA_NEW(w->arena, bool, days);
  bool any = false;
  for (int i = 0; i < w->d->days; i++) {
    fails[i] = week_fails_on(w->out, n->id, i);
    bridged[i] = is_low(n, i) && windows_around(w->out, n, i).met;
    any = any || fails[i] || bridged[i];
  }
  if (!any) return;
  n->streak = runs_of(w, fails, &n->streak_count);
  n->bridged = runs_of(w, bridged, &n->bridged_count);
}

static void find_highest_day(const struct work *w, struct week_nutrient *n) {
  const struct nutrient_result *r = &w->mean->nutrient[n->id];
  n->highest_day = -1;
  for (int i = 0; i < w->d->days; i++)
    if (!isnan(n->day[i]) && (n->highest_day < 0 || n->day[i] > n->day[n->highest_day])) n->highest_day = i;
  n->highest_day_over = n->highest_day >= 0 && r->window && r->window->highest_day && !n->upper_greater_than &&
                        n->day[n->highest_day] > n->upper;
}

/* ---- all of it ------------------------------------------------------------------------------------------------- */

/* What was judged as a lower bound is shown as what is known: nothing where nothing is. */
static void show_known(struct sums *s, struct week_nutrient *n, int days) {
  struct week_window *end[] = {&n->leanest, &n->richest};
  for (size_t k = 0; k < COUNT_OF(end); k++)
    if (end[k]->first >= 0 && nothing_known(s, end[k]->first)) end[k]->amount = end[k]->ratio = end[k]->chance = NAN;
  for (int i = 0; i < days; i++)
    if (s->gap[i] || nothing_known(s, i)) s->amount[i] = NAN;
  n->window = s->amount;
}

static void judge_nutrient(struct work *w, struct week_nutrient *n) {
  double sure = w->mean->options.sure;
  struct week_window lean, rich;
  int days = w->d->days;
  n->day = w->day[n->id];
  double *most = ARENA_NEW(w->arena, double, (size_t)days);
  for (int i = 0; i < days; i++) most[i] = w->alone[n->id].amount[i] + w->alone[n->id].most[i];
  n->day_most = most;
  n->known = w->out->food_known && w->mean->nutrient[n->id].known != KNOWN_NONE;
  struct judgement all = judge_extremes(n, &w->window[n->id], days, sure, &n->leanest, &n->richest);
  n->verdict = all.verdict;
  n->too_much = all.rule == RULE_OVER || all.rule == RULE_ABOVE_TESTED || all.rule == RULE_LIMIT_NOT_SURE;
  n->day_verdict = judge_extremes(n, &w->alone[n->id], days, sure, &lean, &rich).verdict;
  n->mean_verdict = w->mean->nutrient[n->id].verdict;
  judge_each(w, n, sure);
  n->gaps = w->window[n->id].gap;
  n->part = w->window[n->id].part;
  show_known(&w->window[n->id], n, days);
  n->averaging = averaging_of(n);
  for (int i = 0; i < days; i++) n->days_below += is_low(n, i);
  find_highest_day(w, n);
  find_fails(w, n);
  find_streaks(w, n);
}

/* The ratio of sums over the window of calcium, never the mean of daily ratios. */
static void compare_calcium(struct work *w) {
  const struct sums *ca = &w->window[NUT_CALCIUM], *p = &w->window[NUT_PHOSPHORUS];
  struct sums ratio = new_sums(w);
  w->out->ca_p.window_days = w->out->nutrient[NUT_CALCIUM].window_days;
  bool same = w->out->nutrient[NUT_PHOSPHORUS].window_days == w->out->ca_p.window_days;
  for (int i = 0; same && i < w->d->days; i++)
    if (p->amount[i] > 0 && !ca->part[i] && !p->part[i]) ratio.amount[i] = ca->amount[i] / p->amount[i];
  w->out->ca_p.window = ratio.amount;
  w->out->ca_p.low = extreme_of(&ratio, w->d->days, -1, NAN);
  w->out->ca_p.high = extreme_of(&ratio, w->d->days, 1, NAN);
}

static void find_failing_days(struct work *w) {
  bool *fails = ARENA_NEW(w->arena, bool, (size_t)w->d->days);
  for (int n = 0; n < NUT_COUNT; n++) {
    if (n == NUT_ENERGY || week_fails_always(w->out, (enum nutrient)n)) continue;
    for (int i = 0; i < w->d->days; i++) fails[i] = fails[i] || week_fails_on(w->out, (enum nutrient)n, i);
  }
  for (int i = 0; i < w->d->days; i++) w->out->days_failing += fails[i];
  w->out->fails = fails;
}

const struct week *week_of(const struct library *lib, const struct days_of_food *days, const struct check_result *mean,
                           struct arena *arena) {
  struct week *out = ARENA_NEW(arena, struct week, 1);
  struct work w = {.lib = lib, .d = days, .mean = mean, .out = out, .arena = arena};
  out->days = days;
  out->mean = mean;
  out->judged = mean->animal && mean->refusal == REFUSE_NOT;
  out->known_days = days->known_days;
  for (int i = 0; i < days->days; i++) out->food_known = out->food_known || day_is_counted(&days->day[i]);
  for (int n = 0; n < NUT_COUNT; n++) {
    const struct nutrient_result *r = &mean->nutrient[n];
    out->nutrient[n] = (struct week_nutrient){.id = (enum nutrient)n,
                                              .window_days = r->window_days,
                                              .minimum = r->minimum,
                                              .allowance = r->allowance,
                                              .upper = r->upper,
                                              .upper_greater_than = r->upper_greater_than};
  }
  sum_all(&w);
  for (int n = 0; n < NUT_COUNT; n++) judge_nutrient(&w, &out->nutrient[n]);
  out->kcal = w.day[NUT_ENERGY];
  compare_calcium(&w);
  find_failing_days(&w);
  return out;
}
