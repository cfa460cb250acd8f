/* The days of the calendar: what is fed on each, and in the poorest and the richest window. Part of totals.h. */
#include <math.h>

#include "judge/stats.h"
#include "judge/totals_parts.h"

/* ---- days ------------------------------------------------------------------------------------------------------- */

static bool days_are_alike(const struct totals *t, int a, int b) {
  for (int i = 0; i < t->row_count; i++)
    if (t->row[i].fed_on[a] != t->row[i].fed_on[b]) return false;
  return true;
}

static int kind_of_day(struct calendar *c, const struct totals *t, int day) {
  for (int k = 0; k < c->kinds; k++)
    if (days_are_alike(t, c->day[k], day)) return k;
  c->day[c->kinds] = (uint8_t)day;
  return c->kinds++;
}

void calendar_fill(struct calendar *c, const struct totals *t) {
  memset(c, 0, sizeof *c);
  for (int day = 0; day < CALENDAR_DAYS; day++) c->kind[day] = (uint8_t)kind_of_day(c, t, day);
  for (int k = 0; k < c->kinds; k++)
    for (int i = 0; i < 2 * CALENDAR_DAYS; i++)
      c->before[k][i + 1] = (uint8_t)(c->before[k][i] + (c->kind[i % CALENDAR_DAYS] == k));
}

static int days_of_kind(const struct calendar *c, int kind, int first, int days) {
  return c->before[kind][first + days] - c->before[kind][first];
}

static bool windows_are_alike(const struct calendar *c, int a, int b, int days) {
  for (int k = 0; k < c->kinds; k++)
    if (days_of_kind(c, k, a, days) != days_of_kind(c, k, b, days)) return false;
  return true;
}

/* Of windows with as many days of each kind, the first one stands for all. */
static void find_windows(struct calendar *c, int days) {
  for (int first = 0; first < CALENDAR_DAYS; first++) {
    bool is_new = true;
    for (int i = 0; i < c->windows[days] && is_new; i++) is_new = !windows_are_alike(c, c->first[days][i], first, days);
    if (is_new) c->first[days][c->windows[days]++] = (uint8_t)first;
  }
}

/* ---- amounts ---------------------------------------------------------------------------------------------------- */

struct window_total totals_over_calendar(const struct totals *t, enum nutrient n) {
  return (struct window_total){t->amount[n], totals_cv(t->amount[n], t->variance[n]), t->missing_high[n],
                               t->missing_most[n]};
}

static int fed_within(const struct portion_row *r, int first, int days) {
  return r->fed_before[first + days] - r->fed_before[first];
}

bool totals_food_is_steady(const struct totals *t, int row) {
  uint32_t food = t->stream[t->row[row].stream]->food;
  for (int i = row; i < t->row_count && t->stream[t->row[i].stream]->food == food; i++)
    if (t->row[i].days != CALENDAR_DAYS) return false;
  return true;
}

/* The same sums as average(), for one nutrient and the days of one window, of the food that begins at row i; to the next. */
static int add_food_in_window(const struct totals *t, enum nutrient n, int first, int days, int i, struct window_sums *w) {
  double amount = 0, loose = 0, cv2 = 0;
  uint32_t food = t->stream[t->row[i].stream]->food;
  while (i < t->row_count && t->stream[t->row[i].stream]->food == food) {
    int stream = t->row[i].stream;
    const struct stream *s = t->stream[stream];
    double grams = 0, mass_variance = 0;
    if (s->per_g[n] == 0 && !s->missing[n]) { /* nothing of it in this food */
      while (i < t->row_count && t->row[i].stream == stream) i++;
      continue;
    }
    for (; i < t->row_count && t->row[i].stream == stream; i++) {
      const struct portion_row *r = &t->row[i];
      double g = r->grams * fed_within(r, first, days) / days;
      grams += g;
      mass_variance += g * g * r->grams_cv2;
    }
    double x = grams * s->per_g[n];
    double mass_cv2 = grams > 0 ? mass_variance / (grams * grams) : 0;
    amount += x;
    loose += x * x * cv2_of_product(mass_cv2, s->kept_cv2[n]);
    cv2 = s->value_cv2[n] > cv2 ? s->value_cv2[n] : cv2;
    if (s->missing[n]) {
      w->missing_high += grams * s->high_per_g[n];
      w->missing_most += grams * s->most_per_g[n];
    }
  }
  w->amount += amount;
  w->variance += cv2 * amount * amount + (1 + cv2) * loose;
  return i;
}

void totals_set_steady(struct totals *t, enum nutrient n) {
  struct window_sums w = {0, 0, 0, 0}, varying = {0, 0, 0, 0};
  if (t->same_every_day) return;
  for (int i = 0; i < t->row_count;)
    i = add_food_in_window(t, n, 0, CALENDAR_DAYS, i, totals_food_is_steady(t, i) ? &w : &varying);
  t->steady->amount[n] = w.amount;
  t->steady->variance[n] = w.variance;
  t->steady->missing_high[n] = w.missing_high;
  t->steady->missing_most[n] = w.missing_most;
}

static void add_window(struct window_sums *w, const struct window_sums *more) {
  w->amount += more->amount;
  w->variance += more->variance;
  w->missing_high += more->missing_high;
  w->missing_most += more->missing_most;
}

/* ... of a food that was kept: from memory, if it was asked for before. */
static const struct window_sums *remembered(const struct totals *t, enum nutrient n, int first, int days, int row) {
  struct remembered *of = t->row[row].share->memory->of[n], *one = &of[0];
  for (int i = 0; i < WINDOWS_REMEMBERED; i++)
    if (of[i].first == first && of[i].days == days) return &of[i].sums;
  if (one->days > 0) { /* what is asked for last stands first */
    of[1] = of[0];
  }
  *one = (struct remembered){first, days, {0, 0, 0, 0}};
  add_food_in_window(t, n, first, days, row, &one->sums);
  return &one->sums;
}

struct window_total totals_in_window(const struct totals *t, enum nutrient n, int first, int days) {
  if (t->same_every_day) return totals_over_calendar(t, n);
  const struct day_sums *s = t->steady;
  struct window_sums w = {s->amount[n], s->variance[n], s->missing_high[n], s->missing_most[n]};
  for (int i = 0; i < t->varying_count; i++) {
    int row = t->varying[i];
    struct window_sums one = {0, 0, 0, 0};
    if (t->row[row].share && n != NUT_ENERGY) { /* energy is the species' own */
      add_window(&w, remembered(t, n, first, days, row));
    } else {
      add_food_in_window(t, n, first, days, row, &one);
      add_window(&w, &one);
    }
  }
  return (struct window_total){w.amount, totals_cv(w.amount, w.variance), w.missing_high, w.missing_most};
}

/* Known amount on a day of each kind, and the most that is missing of it. */
struct kinds_of_day {
  double amount[CALENDAR_DAYS], missing[CALENDAR_DAYS];
};

static void amounts_by_kind(const struct totals *t, enum nutrient n, struct kinds_of_day *day) {
  const struct calendar *c = t->calendar;
  for (int k = 0; k < c->kinds; k++) {
    day->amount[k] = t->steady->amount[n];
    day->missing[k] = t->steady->missing_most[n];
  }
  for (int i = 0; i < t->varying_count; i++) {
    uint32_t food = t->stream[t->row[t->varying[i]].stream]->food;
    for (int row = t->varying[i]; row < t->row_count && t->stream[t->row[row].stream]->food == food; row++) {
      const struct portion_row *r = &t->row[row];
      const struct stream *s = t->stream[r->stream];
      double x = r->grams * s->per_g[n], missing = s->missing[n] ? r->grams * s->most_per_g[n] : 0;
      for (int k = 0; k < c->kinds; k++) {
        day->amount[k] += r->fed_on[c->day[k]] ? x : 0;
        day->missing[k] += r->fed_on[c->day[k]] ? missing : 0;
      }
    }
  }
}

void totals_series(const struct totals *t, enum nutrient n, double day[CALENDAR_DAYS]) {
  struct kinds_of_day of;
  if (!t->same_every_day) amounts_by_kind(t, n, &of);
  for (int d = 0; d < CALENDAR_DAYS; d++) day[d] = t->same_every_day ? t->amount[n] : of.amount[t->calendar->kind[d]];
}

static struct known_window sum_of_window(const struct calendar *c, const struct kinds_of_day *day, int first, int days) {
  struct known_window sum = {0, 0};
  for (int k = 0; k < c->kinds; k++) {
    sum.amount += days_of_kind(c, k, first, days) * day->amount[k];
    sum.missing += days_of_kind(c, k, first, days) * day->missing[k];
  }
  return sum;
}

static const double SUM_ROUNDING = 1e-9;

/* -1 below, 1 above, 0 as good as equal. */
static int which_side(double x, double y) {
  double slack = SUM_ROUNDING * fabs(y);
  return x < y - slack ? -1 : x > y + slack ? 1 : 0;
}

static int side_of_window(struct known_window a, struct known_window b) {
  int side = which_side(a.amount, b.amount);
  if (side != 0 || a.missing == b.missing) return side; /* both may be without end */
  return isinf(b.missing) ? -1 : which_side(a.missing, b.missing);
}

bool window_is_poorer(struct known_window a, struct known_window than) { return side_of_window(a, than) < 0; }
bool window_is_richer(struct known_window a, struct known_window than) { return side_of_window(a, than) > 0; }

static void find_extremes(const struct calendar *c, const struct kinds_of_day *day, int days, struct day_range *r) {
  struct known_window least = sum_of_window(c, day, 0, days), most = least;
  for (int i = 1; i < c->windows[days]; i++) {
    struct known_window sum = sum_of_window(c, day, c->first[days][i], days);
    if (window_is_poorer(sum, least)) {
      least = sum;
      r->worst = c->first[days][i];
    }
    if (window_is_richer(sum, most)) {
      most = sum;
      r->rich = c->first[days][i];
    }
  }
}

struct day_range totals_days(const struct totals *t, enum nutrient n, int days) {
  struct day_range r = {t->amount[n], t->amount[n], 0, 0, true};
  struct kinds_of_day day;
  struct calendar *c = t->calendar;
  if (t->same_every_day) return r;
  amounts_by_kind(t, n, &day);
  bool differ = false;
  r.lowest = r.highest = day.amount[0];
  for (int k = 1; k < c->kinds; k++) {
    r.lowest = fmin(r.lowest, day.amount[k]);
    r.highest = fmax(r.highest, day.amount[k]);
    differ |= day.amount[k] != day.amount[0] || day.missing[k] != day.missing[0];
  }
  if (days >= CALENDAR_DAYS || !differ) return r;
  if (c->windows[days] == 0) find_windows(c, days);
  r.alike = c->windows[days] == 1;
  if (!r.alike) find_extremes(c, &day, days, &r);
  return r;
}

/* ---- slopes ---------------------------------------------------------------------------------------------------- */

/* Last row of the food that begins at 'from', and its amount and spread in the window. */
static int food_in_window(const struct totals *t, enum nutrient n, int first, int days, int from, double *amount,
                          double *cv2) {
  uint32_t food = t->stream[t->row[from].stream]->food;
  int i = from;
  *amount = *cv2 = 0;
  for (; i < t->row_count && t->stream[t->row[i].stream]->food == food; i++) {
    const struct stream *s = t->stream[t->row[i].stream];
    *amount += t->row[i].grams * fed_within(&t->row[i], first, days) / days * s->per_g[n];
    if (s->per_g[n] != 0 || s->missing[n]) *cv2 = fmax(*cv2, s->value_cv2[n]);
  }
  return i;
}

static double stream_in_window(const struct totals *t, enum nutrient n, int first, int days, int stream) {
  double amount = 0;
  for (int i = 0; i < t->row_count; i++)
    if (t->row[i].stream == stream)
      amount += t->row[i].grams * fed_within(&t->row[i], first, days) / days * t->stream[stream]->per_g[n];
  return amount;
}

/* The variance of a food is cv2 A^2 + (1 + cv2) x sum over streams of (X^2 kept + (1 + kept) x sum of (x cv of grams)^2),
 * A and X the amounts of the food and of the stream, x of a portion: the form of add_food, taken apart. */
void totals_slopes(const struct totals *t, enum nutrient n, int first, int days, double *amount, double *variance) {
  for (int i = 0; i < t->row_count;) {
    double food_amount, cv2;
    int end = food_in_window(t, n, first, days, i, &food_amount, &cv2);
    for (; i < end; i++) {
      const struct portion_row *r = &t->row[i];
      const struct stream *s = t->stream[r->stream];
      double kept = s->kept_cv2[n], per_gram = (double)fed_within(r, first, days) / days * s->per_g[n];
      double loose = stream_in_window(t, n, first, days, r->stream) * kept + (1 + kept) * r->grams * per_gram * r->grams_cv2;
      amount[i] = per_gram;
      variance[i] = 2 * per_gram * (cv2 * food_amount + (1 + cv2) * loose);
    }
  }
}
