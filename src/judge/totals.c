#include "judge/totals.h"

#include <math.h>

#include "judge/stats.h"
#include "judge/stream.h"

/* ---- gathering ------------------------------------------------------------------------------------------------- */

static int days_fed(const struct ration_line *l) {
  int n = 0;
  for (int i = 0; i < CALENDAR_DAYS; i++) n += l->fed_on[i];
  return n;
}

static void count_days(struct portion_row *r) {
  for (int i = 1; r->days == CALENDAR_DAYS && i <= 2 * CALENDAR_DAYS; i++) r->fed_before[i] = (uint8_t)i;
  if (r->days == CALENDAR_DAYS) return;
  for (int i = 0; i < 2 * CALENDAR_DAYS; i++)
    r->fed_before[i + 1] = (uint8_t)(r->fed_before[i] + r->fed_on[i % CALENDAR_DAYS]);
}

static int fed_within(const struct portion_row *r, int first, int days) {
  return r->fed_before[first + days] - r->fed_before[first];
}

static void add_line(struct totals *t, int index) {
  const struct ration_line *l = &t->ration->line[index];
  int days = days_fed(l);
  double record_g = 0;
  for (int p = 0; p < l->part_count; p++) record_g += l->part[p].grams;
  if (days == 0 || !(record_g > 0)) return;
  double eaten_per_g = l->grams_fed > 0 ? l->grams_fed / record_g : 1.0;
  double share = (double)days / CALENDAR_DAYS;
  for (int p = 0; p < l->part_count; p++) {
    const struct portion *part = &l->part[p];
    if (!(part->grams > 0)) continue;
    double day_g = part->grams * share;
    /* 'stream' holds the portion's place until the rows are sorted. */
    t->row[t->row_count++] = (struct portion_row){.line = index,
                                                  .stream = p,
                                                  .grams = part->grams,
                                                  .grams_cv2 = part->grams_cv * part->grams_cv,
                                                  .day_g = day_g,
                                                  .eaten_g = day_g * eaten_per_g,
                                                  .days = days,
                                                  .fed_on = l->fed_on};
    count_days(&t->row[t->row_count - 1]);
    t->eaten_g += day_g * eaten_per_g;
    if (days != CALENDAR_DAYS) t->same_every_day = false;
  }
}

static const struct portion *portion_of(const struct totals *t, const struct portion_row *r) {
  return &t->ration->line[r->line].part[r->stream];
}

static bool comes_before(const struct totals *t, const struct portion_row *a, const struct portion_row *b) {
  const struct portion *p = portion_of(t, a), *q = portion_of(t, b);
  if (p->food != q->food) return p->food < q->food;
  return p->retention < q->retention;
}

/* Insertion keeps the order of lines among equals, and rations are short. */
static void sort_rows(struct totals *t) {
  for (int i = 1; i < t->row_count; i++) {
    struct portion_row r = t->row[i];
    int j = i;
    for (; j > 0 && comes_before(t, &r, &t->row[j - 1]); j--) t->row[j] = t->row[j - 1];
    t->row[j] = r;
  }
}

/* How much of a piece is bone is a property of the cut: what one line has more, the next one has more as well. The spreads
 * of such rows add up as they stand; each is raised so that the sum of their squares comes to that. */
static void join_pieces(struct totals *t) {
  for (int from = 0, end; from < t->row_count; from = end) {
    double together = 0, apart = 0;
    for (end = from; end < t->row_count && t->row[end].stream == t->row[from].stream; end++) {
      const struct portion_row *r = &t->row[end];
      if (t->ration->line[r->line].part_count < LINE_PARTS) continue;
      together += r->day_g * sqrt(r->grams_cv2);
      apart += r->day_g * r->day_g * r->grams_cv2;
    }
    for (int i = from; i < end && apart > 0; i++)
      if (t->ration->line[t->row[i].line].part_count == LINE_PARTS) t->row[i].grams_cv2 *= together * together / apart;
  }
}

/* ---- a stream's energy, which depends on the species ---- */

struct stream_energy {
  double per_g, high_per_g, most_per_g, value_cv2, kept_cv2;
  uint8_t status;
  bool missing;
};

static struct stream_energy energy_of(const struct stream *s) {
  enum { E = NUT_ENERGY };
  return (struct stream_energy){s->per_g[E],    s->high_per_g[E], s->most_per_g[E], s->value_cv2[E],
                                s->kept_cv2[E], s->status[E],     s->missing[E]};
}

static void set_energy(struct stream *s, const struct stream_energy *e) {
  enum { E = NUT_ENERGY };
  s->per_g[E] = e->per_g;
  s->high_per_g[E] = e->high_per_g;
  s->most_per_g[E] = e->most_per_g;
  s->value_cv2[E] = e->value_cv2;
  s->kept_cv2[E] = e->kept_cv2;
  s->status[E] = e->status;
  s->missing[E] = e->missing;
}

/* ---- averages over the calendar -------------------------------------------------------------------------------- */

struct stream_mass {
  double grams, cv2; /* a day, and its squared CV from the amounts alone */
};

static struct stream_mass mass_of(const struct totals *t, int stream, int *row) {
  struct stream_mass m = {0, 0};
  double variance = 0;
  for (; *row < t->row_count && t->row[*row].stream == stream; (*row)++) {
    const struct portion_row *r = &t->row[*row];
    m.grams += r->day_g;
    variance += r->day_g * r->day_g * r->grams_cv2;
  }
  m.cv2 = m.grams > 0 ? variance / (m.grams * m.grams) : 0;
  return m;
}

/* Sums of one food, joined over its streams before the food's own spread is applied. */
struct food_sum {
  double amount[NUT_COUNT];
  double loose[NUT_COUNT]; /* variance of amounts and retention, the content taken as certain */
  double cv2[NUT_COUNT];   /* of the content */
};

static void add_stream(struct food_sum *f, const struct stream *s, struct stream_mass m) {
  for (int n = 0; n < NUT_COUNT; n++) {
    double x = m.grams * s->per_g[n];
    f->amount[n] += x;
    f->loose[n] += x * x * cv2_of_product(m.cv2, s->kept_cv2[n]);
    f->cv2[n] = f->cv2[n] > s->value_cv2[n] ? f->cv2[n] : s->value_cv2[n];
  }
}

/* Variance of content x (sum of streams): cv2 x amount^2 + (1 + cv2) x loose. */
static void add_food(struct totals *t, struct food_sum *f) {
  for (int n = 0; n < NUT_COUNT; n++) {
    t->amount[n] += f->amount[n];
    t->variance[n] += f->cv2[n] * f->amount[n] * f->amount[n] + (1 + f->cv2[n]) * f->loose[n];
  }
  memset(f, 0, sizeof *f);
}

/* Of the days of one window. */
struct window_sums {
  double amount, variance, missing_high, missing_most;
};
static struct window_sums sums_in_window(const struct totals *t, enum nutrient n, int first, int days);

/* A food on one line only adds these, whatever else is in the bowl; fed daily, it adds the same in each window. */
struct food_share {
  uint32_t food;
  const int *window_days; /* [NUT_COUNT] NULL: not fed daily, or not asked for */
  struct window_sums in_window[NUT_COUNT];
  double amount[NUT_COUNT], variance[NUT_COUNT], missing_high[NUT_COUNT], missing_most[NUT_COUNT], missing_g[NUT_COUNT];
};

static void take_sums(struct food_share *f, const struct totals *t) {
  memcpy(f->amount, t->amount, sizeof f->amount);
  memcpy(f->variance, t->variance, sizeof f->variance);
  memcpy(f->missing_high, t->missing_high, sizeof f->missing_high);
  memcpy(f->missing_most, t->missing_most, sizeof f->missing_most);
  memcpy(f->missing_g, t->missing_g, sizeof f->missing_g);
}

static void put_sums(struct totals *t, const struct food_share *f) {
  memcpy(t->amount, f->amount, sizeof f->amount);
  memcpy(t->variance, f->variance, sizeof f->variance);
  memcpy(t->missing_high, f->missing_high, sizeof f->missing_high);
  memcpy(t->missing_most, f->missing_most, sizeof f->missing_most);
  memcpy(t->missing_g, f->missing_g, sizeof f->missing_g);
}

static void add_missing(struct totals *t, const struct stream *s, double grams) {
  for (int n = 0; n < NUT_COUNT; n++) {
    if (!s->missing[n]) continue;
    t->missing_high[n] += grams * s->high_per_g[n];
    t->missing_most[n] += grams * s->most_per_g[n];
  }
}

static void add_share(struct totals *restrict t, const struct food_share *restrict f) {
  for (int n = 0; n < NUT_COUNT; n++) {
    t->amount[n] += f->amount[n];
    t->variance[n] += f->variance[n];
    t->missing_high[n] += f->missing_high[n];
    t->missing_most[n] += f->missing_most[n];
    t->missing_g[n] += f->missing_g[n];
  }
}

/* Grams of the rows of a stream that has no value. */
static void add_missing_grams(struct totals *t, int stream, int row) {
  const struct stream *s = t->stream[stream];
  for (; row < t->row_count && t->row[row].stream == stream; row++)
    for (int n = 0; n < NUT_COUNT; n++) t->missing_g[n] += s->missing[n] ? t->row[row].eaten_g : 0;
}

static bool on_one_line(const struct totals *t, int row) {
  uint32_t food = t->stream[t->row[row].stream]->food;
  return (row == 0 || t->stream[t->row[row - 1].stream]->food != food) &&
         (row + 1 == t->row_count || t->stream[t->row[row + 1].stream]->food != food);
}

/* The share of the food whose rows begin here; NULL when it was not kept, or the line that is exchanged has some of it. */
static const struct food_share *share_at(const struct totals *t, int row, const struct totals_kept *kept, int *next) {
  uint32_t food = t->stream[t->row[row].stream]->food;
  if (!kept) return NULL;
  while (*next < kept->share_count && kept->share[*next].food < food) ++*next;
  if (*next == kept->share_count || kept->share[*next].food != food) return NULL;
  if (!on_one_line(t, row) || t->row[row].line == kept->line) return NULL;
  return &kept->share[*next];
}

/* How many rows at the beginning are those of the kept shares, one by one: their sum is known. */
static int begin_with_kept(struct totals *t, const struct totals_kept *kept) {
  int n = 0, next = 0;
  for (const struct food_share *s; n < t->row_count && (s = share_at(t, n, kept, &next)) && next == n; n++)
    t->row[n].share = s;
  if (n > 0) put_sums(t, &kept->first[n]);
  return n;
}

static void average(struct totals *t, const struct totals_kept *kept) {
  struct food_sum f = {{0}, {0}, {0}};
  int row = kept ? begin_with_kept(t, kept) : 0, next = 0;
  for (int i = row; i < t->stream_count; i++) { /* each of those rows is a stream */
    const struct stream *s = t->stream[i];
    const struct food_share *share = share_at(t, row, kept, &next);
    if (share) {
      add_share(t, share);
      t->row[row++].share = share;
      continue;
    }
    add_missing_grams(t, i, row);
    struct stream_mass m = mass_of(t, i, &row);
    add_stream(&f, s, m);
    add_missing(t, s, m.grams);
    if (i + 1 == t->stream_count || t->stream[i + 1]->food != s->food) add_food(t, &f);
  }
}

/* Sums of what a food on one line only adds. */
static struct food_share share_of(const struct totals *t, int row, const int *window_days) {
  struct totals one = {.row = &t->row[row], .row_count = 1, .stream = t->stream};
  struct food_sum f = {{0}, {0}, {0}};
  int stream = t->row[row].stream, at = 0;
  struct stream_mass m = mass_of(&one, stream, &at);
  add_stream(&f, t->stream[stream], m);
  add_missing(&one, t->stream[stream], m.grams);
  add_missing_grams(&one, stream, 0);
  add_food(&one, &f);
  struct food_share share;
  take_sums(&share, &one);
  share.food = t->stream[stream]->food;
  share.window_days = one.row->days == CALENDAR_DAYS ? window_days : NULL;
  for (int n = 0; n < NUT_COUNT && share.window_days; n++)
    share.in_window[n] = sums_in_window(&one, (enum nutrient)n, 0, window_days[n]);
  return share;
}

struct totals_kept totals_keep(const struct totals *t, int line, const int *window_days, struct arena *arena) {
  struct totals_kept k = {.line = line, .stream = t->stream, .stream_count = t->stream_count};
  struct totals all = {0};
  k.energy = ARENA_NEW(arena, struct stream_energy, (size_t)t->stream_count);
  for (int i = 0; i < t->stream_count; i++) k.energy[i] = energy_of(t->stream[i]);
  k.share = ARENA_NEW(arena, struct food_share, (size_t)t->row_count);
  k.first = ARENA_NEW(arena, struct food_share, (size_t)t->row_count + 1);
  for (int i = 0; i < t->row_count; i++) {
    if (t->row[i].line == line || !on_one_line(t, i)) continue;
    k.share[k.share_count] = share_of(t, i, window_days);
    add_share(&all, &k.share[k.share_count]);
    take_sums(&k.first[++k.share_count], &all);
  }
  return k;
}

/* What is known of a stream already; what a species makes of its energy is put back. */
static struct stream *kept_stream(const struct totals_kept *kept, const struct portion *p, int *next) {
  for (; *next < kept->stream_count; ++*next) { /* both are sorted by food, then retention */
    struct stream *s = kept->stream[*next];
    if (s->food < p->food || (s->food == p->food && s->retention < p->retention)) continue;
    if (s->food != p->food || s->retention != p->retention) break;
    set_energy(s, &kept->energy[*next]);
    return s;
  }
  return NULL;
}

static void find_streams(struct totals *t, double carotene_factor, const struct totals_kept *kept, struct arena *arena) {
  int next = 0;
  t->stream = ARENA_NEW(arena, struct stream *, (size_t)t->row_count);
  for (int i = 0; i < t->row_count; i++) {
    const struct portion *p = portion_of(t, &t->row[i]);
    const struct stream *last = t->stream_count > 0 ? t->stream[t->stream_count - 1] : NULL;
    if (!last || last->food != p->food || last->retention != p->retention) {
      struct stream *s = kept ? kept_stream(kept, p, &next) : NULL;
      if (!s) {
        s = ARENA_NEW(arena, struct stream, 1);
        s->food = p->food;
        s->retention = p->retention;
        stream_fill(s, t->lib, carotene_factor);
      }
      t->stream[t->stream_count++] = s;
    }
    t->row[i].stream = t->stream_count - 1;
  }
}

struct totals *totals_gather(const struct library *lib, const struct ration *ration, double carotene_factor,
                             struct arena *arena) {
  return totals_gather_again(lib, ration, carotene_factor, NULL, arena);
}

struct totals *totals_gather_again(const struct library *lib, const struct ration *ration, double carotene_factor,
                                   const struct totals_kept *kept, struct arena *arena) {
  struct totals *t = ARENA_NEW(arena, struct totals, 1);
  size_t most = ration->line_count * LINE_PARTS;
  t->lib = lib;
  t->ration = ration;
  t->same_every_day = true;
  t->row = ARENA_NEW(arena, struct portion_row, most);
  for (size_t i = 0; i < ration->line_count; i++) add_line(t, (int)i);
  sort_rows(t);
  find_streams(t, carotene_factor, kept, arena);
  join_pieces(t);
  average(t, kept);
  return t;
}

/* ---- windows --------------------------------------------------------------------------------------------------- */

struct window_total totals_over_calendar(const struct totals *t, enum nutrient n) {
  return (struct window_total){t->amount[n], totals_cv(t->amount[n], t->variance[n]), t->missing_high[n],
                               t->missing_most[n]};
}

/* The same sums as average(), for one nutrient and the days of one window. */
static struct window_sums sums_in_window(const struct totals *t, enum nutrient n, int first, int days) {
  struct window_sums w = {0, 0, 0, 0};
  for (int i = 0; i < t->row_count;) {
    const struct food_share *share = t->row[i].share;
    if (n != NUT_ENERGY && share && share->window_days && share->window_days[n] == days) { /* energy is the species' own */
      const struct window_sums *known = &share->in_window[n];
      w.amount += known->amount;
      w.variance += known->variance;
      w.missing_high += known->missing_high;
      w.missing_most += known->missing_most;
      i++;
      continue;
    }
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
        w.missing_high += grams * s->high_per_g[n];
        w.missing_most += grams * s->most_per_g[n];
      }
    }
    w.amount += amount;
    w.variance += cv2 * amount * amount + (1 + cv2) * loose;
  }
  return w;
}

struct window_total totals_in_window(const struct totals *t, enum nutrient n, int first, int days) {
  struct window_sums s = sums_in_window(t, n, first, days);
  return (struct window_total){s.amount, totals_cv(s.amount, s.variance), s.missing_high, s.missing_most};
}

void totals_series(const struct totals *t, enum nutrient n, double day[CALENDAR_DAYS]) {
  double every_day = 0;
  memset(day, 0, CALENDAR_DAYS * sizeof *day);
  for (int i = 0; i < t->row_count; i++) {
    const struct portion_row *r = &t->row[i];
    double x = r->grams * t->stream[r->stream]->per_g[n];
    if (r->days == CALENDAR_DAYS) {
      every_day += x;
    } else if (x != 0) {
      for (int d = 0; d < CALENDAR_DAYS; d++) day[d] += r->fed_on[d] ? x : 0;
    }
  }
  for (int d = 0; d < CALENDAR_DAYS; d++) day[d] += every_day;
}

struct window_extremes window_extremes(const double day[CALENDAR_DAYS], int days) {
  struct window_extremes e = {0, 0};
  double sum = 0;
  for (int i = 0; i < days; i++) sum += day[i];
  double least = sum, most = sum, slack = 1e-9 * sum;
  for (int first = 1, next = days % CALENDAR_DAYS; first < CALENDAR_DAYS; first++) {
    sum += day[next] - day[first - 1];
    next = next + 1 < CALENDAR_DAYS ? next + 1 : 0;
    /* A running sum drifts in its last bits; only a real difference moves the window. */
    if (sum < least - slack) {
      least = sum;
      e.worst = first;
    }
    if (sum > most + slack) {
      most = sum;
      e.rich = first;
    }
  }
  return e;
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
