#include <math.h>

#include "base/machine.h"
#include "judge/memory.h"
#include "judge/packs.h"
#include "judge/stats.h"
#include "judge/stream.h"
#include "judge/totals_parts.h"

/* ---- gathering ------------------------------------------------------------------------------------------------- */

/* Four days at once, each in a byte of its own: the highest byte of the product is the sum of all. */
static int days_fed(const struct ration_line *l) {
  uint32_t sum = 0;
  for (size_t i = 0; i < CALENDAR_DAYS; i += sizeof sum) {
    uint32_t four;
    memcpy(&four, &l->fed_on[i], sizeof four);
    sum += four;
  }
  return (int)((sum * 0x01010101u) >> 24);
}

static const uint8_t *days_fed_before(const struct ration_line *l, int days, struct arena *arena) {
  enum { TWICE = 2 * CALENDAR_DAYS };
  static const uint8_t EVERY_DAY[TWICE + 1] = {0,  1,  2,  3,  4,  5,  6,  7,  8,  9,  10, 11, 12, 13, 14, 15, 16, 17, 18,
                                               19, 20, 21, 22, 23, 24, 25, 26, 27, 28, 29, 30, 31, 32, 33, 34, 35, 36, 37,
                                               38, 39, 40, 41, 42, 43, 44, 45, 46, 47, 48, 49, 50, 51, 52, 53, 54, 55, 56};
  if (days == CALENDAR_DAYS) return EVERY_DAY;
  uint8_t *before = ARENA_NEW(arena, uint8_t, TWICE + 1);
  for (int i = 0; i < TWICE; i++) before[i + 1] = (uint8_t)(before[i] + l->fed_on[i % CALENDAR_DAYS]);
  return before;
}

static void add_line(struct totals *t, int index, struct arena *arena) {
  const struct ration_line *l = &t->ration->line[index];
  int days = days_fed(l);
  double record_g = 0;
  for (int p = 0; p < l->part_count; p++) record_g += l->part[p].grams;
  if (days == 0 || !(record_g > 0)) return;
  double eaten_per_g = l->grams_fed > 0 ? l->grams_fed / record_g : 1.0;
  double share = (double)days / CALENDAR_DAYS;
  const uint8_t *before = days_fed_before(l, days, arena);
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
                                                  .fed_on = l->fed_on,
                                                  .fed_before = before};
  }
}

static const struct portion *row_portion(const struct totals *t, const struct portion_row *r) {
  return &t->ration->line[r->line].part[r->stream];
}

/* Equals in the order of the lines. */
static bool comes_before(const struct totals *t, const struct portion_row *a, const struct portion_row *b) {
  const struct portion *p = row_portion(t, a), *q = row_portion(t, b);
  if (p->food != q->food) return p->food < q->food;
  if (p->retention != q->retention) return p->retention < q->retention;
  return a->line != b->line ? a->line < b->line : a->stream < b->stream;
}

/* Rations are short. Rows before 'from' are in order. */
static void sort_rows(struct totals *t, int from) {
  for (int i = from; i < t->row_count; i++) {
    struct portion_row r = t->row[i];
    int j = i;
    while (j > 0 && comes_before(t, &r, &t->row[j - 1])) j--;
    if (j == i) continue;
    memmove(&t->row[j + 1], &t->row[j], (size_t)(i - j) * sizeof r);
    t->row[j] = r;
  }
}

static void look_at_days(struct totals *t) {
  t->same_every_day = true;
  for (int i = 0; i < t->row_count; i++) {
    t->eaten_g += t->row[i].eaten_g;
    if (t->row[i].days != CALENDAR_DAYS) t->same_every_day = false;
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
static void add_food(struct day_sums *sum, struct food_sum *f) {
  for (int n = 0; n < NUT_COUNT; n++) {
    sum->amount[n] += f->amount[n];
    sum->variance[n] += f->cv2[n] * f->amount[n] * f->amount[n] + (1 + f->cv2[n]) * f->loose[n];
  }
  memset(f, 0, sizeof *f);
}

/* A food of one stream: the same sums, all nutrients in one go. What is not missing has no figures for what it could hold
 * (stream.h), which adds nothing. */
MACHINE_KEPT(sums_width);

static void add_alone(struct day_sums *restrict sum, const struct stream *restrict s, struct stream_mass m);
MACHINE_BOTH_WIDTHS(sums_width, void, add_alone,
                    (struct day_sums *restrict sum, const struct stream *restrict s, struct stream_mass m), (sum, s, m)) {
  bool loose = m.cv2 > 0 || s->retention >= 0;
  for (int n = 0; n < NUT_ROOM && loose; n++) {
    double x = m.grams * s->per_g[n], cv2 = s->value_cv2[n];
    sum->variance[n] += cv2 * x * x + (1 + cv2) * (x * x * cv2_of_product(m.cv2, s->kept_cv2[n]));
  }
  for (int n = 0; n < NUT_ROOM && !loose; n++) {
    double x = m.grams * s->per_g[n];
    sum->variance[n] += s->value_cv2[n] * x * x;
  }
  for (int n = 0; n < NUT_ROOM; n++) {
    sum->amount[n] += m.grams * s->per_g[n];
    sum->missing_high[n] += m.grams * s->high_per_g[n];
    sum->missing_most[n] += m.grams * s->most_per_g[n];
  }
}

static void add_missing(struct day_sums *sum, const struct stream *s, double grams) {
  for (int n = 0; n < NUT_COUNT; n++) {
    if (!s->missing[n]) continue;
    sum->missing_high[n] += grams * s->high_per_g[n];
    sum->missing_most[n] += grams * s->most_per_g[n];
  }
}

static void add_grams_of_missing(struct day_sums *restrict sum, const struct stream *restrict s, double eaten_g);
MACHINE_BOTH_WIDTHS(sums_width, void, add_grams_of_missing,
                    (struct day_sums *restrict sum, const struct stream *restrict s, double eaten_g), (sum, s, eaten_g)) {
  for (int p = 0; p < PACKS; p++) AT(sum->missing_g, p) += ONLY(ARE(s->missing, p, true), (pack){0} + eaten_g);
}

/* Grams of the rows of a stream that has no value. */
static void add_missing_grams(struct day_sums *sum, const struct totals *t, int stream, int row) {
  const struct stream *s = t->stream[stream];
  for (; row < t->row_count && t->row[row].stream == stream; row++) add_grams_of_missing(sum, s, t->row[row].eaten_g);
}

static void add_sums(struct day_sums *restrict sum, const struct day_sums *restrict more);
MACHINE_BOTH_WIDTHS(sums_width, void, add_sums, (struct day_sums *restrict sum, const struct day_sums *restrict more),
                    (sum, more)) {
  for (int n = 0; n < NUT_ROOM; n++) {
    sum->amount[n] += more->amount[n];
    sum->variance[n] += more->variance[n];
    sum->missing_high[n] += more->missing_high[n];
    sum->missing_most[n] += more->missing_most[n];
    sum->missing_g[n] += more->missing_g[n];
  }
}

/* Steady: of the foods that are fed alike on all days. */
struct both_sums {
  struct day_sums steady, varying;
};

static const struct both_sums NOTHING;

struct totals_kept {
  const double *constant;
  int line;                /* the one that is exchanged */
  struct portion_row *row; /* those of the other lines, sorted; 'stream' is the portion's place in its line */
  int row_count;
  struct stream **stream; /* lent to each totals in turn */
  int stream_count;
  struct stream_energy *energy; /* as it was before a species was asked */
  struct food_share *share;     /* foods on one line, sorted */
  struct both_sums *first;      /* [share_count + 1] the sums of the first ones */
  int share_count;
  struct stream line_stream; /* what the line had last: it is tried in other amounts */
  struct stream_energy line_energy;
  bool line_is_there, line_is_taken; /* taken: by the totals that are gathered now */
  struct calendar *calendar;         /* of the totals before: it stands while the line is fed on the same days */
  bool fed_on[CALENDAR_DAYS], was_fed;
};

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

/* What is summed: 'steady' the foods that are fed alike on all days. */
struct adding {
  struct day_sums *steady, *varying; /* varying NULL: all days are alike */
};

/* How many rows at the beginning are those of the kept shares, one by one: their sum is known. */
static int begin_with_kept(struct totals *t, const struct totals_kept *kept, struct adding to) {
  int n = 0, next = 0;
  for (const struct food_share *s; kept && n < t->row_count && (s = share_at(t, n, kept, &next)) && next == n; n++) {
    t->row[n].share = s;
    if (s->memory) t->varying[t->varying_count++] = n;
  }
  const struct both_sums *first = kept ? &kept->first[n] : &NOTHING;
  *to.steady = first->steady;
  if (to.varying) *to.varying = first->varying;
  return n;
}

/* From row 'row' on, which begins a food: each row before it is a stream of its own. */
static void add_foods(struct totals *t, int row, const struct totals_kept *kept, struct adding to) {
  struct food_sum f = {{0}, {0}, {0}};
  struct day_sums *sum = NULL;
  int next = 0;
  for (int i = row; i < t->stream_count; i++) {
    const struct stream *s = t->stream[i];
    if (!sum) { /* a food begins */
      bool steady = !to.varying || totals_food_is_steady(t, row);
      sum = steady ? to.steady : to.varying;
      if (!steady) t->varying[t->varying_count++] = row;
    }
    const struct food_share *share = share_at(t, row, kept, &next);
    if (share) {
      add_sums(sum, &share->sum);
      t->row[row++].share = share;
      sum = NULL;
      continue;
    }
    bool begun = i > 0 && t->stream[i - 1]->food == s->food,
         goes_on = i + 1 < t->stream_count && t->stream[i + 1]->food == s->food;
    add_missing_grams(sum, t, i, row);
    struct stream_mass m = mass_of(t, i, &row);
    if (!begun && !goes_on) {
      add_alone(sum, s, m);
    } else {
      add_stream(&f, s, m);
      add_missing(sum, s, m.grams);
      if (!goes_on) add_food(sum, &f);
    }
    if (!goes_on) sum = NULL;
  }
}

static void average(struct totals *t, const struct totals_kept *kept, struct arena *arena) {
  struct adding to = {&t->sum, NULL};
  if (!t->same_every_day) {
    t->varying = ARENA_NEW(arena, int, (size_t)t->row_count);
    t->steady = to.steady = arena_raw(arena, 1, sizeof *to.steady);
    to.varying = &t->sum;
  }
  add_foods(t, begin_with_kept(t, kept, to), kept, to);
  if (to.varying) add_sums(&t->sum, t->steady);
}

/* Sums of what a food on one line only adds. */
static void fill_share(struct food_share *share, const struct totals *t, int row, struct arena *arena) {
  const struct totals one = {.row = &t->row[row], .row_count = 1, .stream = t->stream};
  int stream = t->row[row].stream, at = 0;
  share->food = t->stream[stream]->food;
  add_alone(&share->sum, t->stream[stream], mass_of(&one, stream, &at));
  add_missing_grams(&share->sum, &one, stream, 0);
  if (one.row->days != CALENDAR_DAYS) share->memory = ARENA_NEW(arena, struct food_memory, 1);
}

/* 'rows': as they were before they were joined and knew their streams. */
static void keep_rows(struct totals_kept *k, const struct totals *t, struct arena *arena) {
  struct totals again = {
      .lib = t->lib, .ration = t->ration, .row = ARENA_NEW(arena, struct portion_row, t->ration->line_count * LINE_PARTS)};
  for (size_t i = 0; i < t->ration->line_count; i++)
    if ((int)i != k->line) add_line(&again, (int)i, arena);
  sort_rows(&again, 0);
  k->row = again.row;
  k->row_count = again.row_count;
}

struct totals_kept *totals_keep(const struct totals *t, int line, const double *constant, struct arena *arena) {
  struct totals_kept *k = ARENA_NEW(arena, struct totals_kept, 1);
  struct both_sums all = {0};
  k->line = line;
  k->constant = constant;
  k->stream = t->stream;
  k->stream_count = t->stream_count;
  keep_rows(k, t, arena);
  k->energy = ARENA_NEW(arena, struct stream_energy, (size_t)t->stream_count);
  for (int i = 0; i < t->stream_count; i++) k->energy[i] = stream_energy_of(t->stream[i]);
  k->share = ARENA_NEW(arena, struct food_share, (size_t)t->row_count);
  k->first = arena_raw(arena, (size_t)t->row_count + 1, sizeof *k->first); /* each is written when it is counted */
  k->first[0] = all;
  k->calendar = ARENA_NEW(arena, struct calendar, 1);
  for (int i = 0; i < t->row_count; i++) {
    if (t->row[i].line == line || !on_one_line(t, i)) continue;
    struct food_share *share = &k->share[k->share_count];
    fill_share(share, t, i, arena);
    add_sums(share->memory ? &all.varying : &all.steady, &share->sum);
    k->first[++k->share_count] = all;
  }
  return k;
}

/* What is known of a stream already; what a species makes of its energy is put back. */
static struct stream *kept_stream(struct totals_kept *kept, const struct portion *p, int *next) {
  for (; *next < kept->stream_count; ++*next) { /* both are sorted by food, then retention */
    struct stream *s = kept->stream[*next];
    if (s->food < p->food || (s->food == p->food && s->retention < p->retention)) continue;
    if (s->food != p->food || s->retention != p->retention) break;
    stream_set_energy(s, &kept->energy[*next]);
    return s;
  }
  return NULL;
}

static struct stream *new_stream(const struct library *lib, struct stream_key key, double carotene_factor,
                                 struct arena *arena) {
  struct stream *s = arena_raw(arena, 1, sizeof *s);
  if (!memory_copy_stream(lib, key, carotene_factor, s)) stream_begin(s, key.food, key.retention, lib, carotene_factor);
  return s;
}

/* The stream of the line that is exchanged. */
static struct stream *line_stream(struct totals_kept *k, const struct library *lib, struct stream_key key,
                                  double carotene_factor, struct arena *arena) {
  struct stream *s = &k->line_stream;
  if (k->line_is_taken) return new_stream(lib, key, carotene_factor, arena);
  if (!k->line_is_there || s->food != key.food || s->retention != key.retention) {
    stream_begin(s, key.food, key.retention, lib, carotene_factor);
    k->line_energy = stream_energy_of(s);
  }
  stream_set_energy(s, &k->line_energy);
  k->line_is_there = k->line_is_taken = true;
  return s;
}

/* 'once': nobody else gathers totals while these are needed. */
static void find_streams(struct totals *t, double carotene_factor, struct totals_kept *kept, bool once,
                         struct arena *arena) {
  int next = 0;
  struct stream_key *key = once && t->lib->judged ? ARENA_NEW(arena, struct stream_key, (size_t)t->row_count) : NULL;
  t->use = once ? memory_next_use(t->lib) : 0;
  t->key = key;
  t->carotene_factor = carotene_factor;
  t->stream = ARENA_NEW(arena, struct stream *, (size_t)t->row_count);
  for (int i = 0; i < t->row_count; i++) {
    const struct portion *p = row_portion(t, &t->row[i]);
    const struct stream *last = t->stream_count > 0 ? t->stream[t->stream_count - 1] : NULL;
    if (!last || last->food != p->food || last->retention != p->retention) {
      struct stream *s = kept ? kept_stream(kept, p, &next) : NULL;
      struct stream_key one = {p->food, p->retention};
      if (!s && kept) s = line_stream(kept, t->lib, one, carotene_factor, arena);
      if (!s && once) s = memory_stream(t->lib, one, carotene_factor, t->use);
      if (!s) s = new_stream(t->lib, one, carotene_factor, arena);
      if (key) key[t->stream_count] = one;
      t->stream[t->stream_count++] = s;
    }
    t->row[i].stream = t->stream_count - 1;
  }
}

struct stream **totals_streams_again(const struct totals *t, struct arena *arena) {
  if (!t->key || memory_is_in_use(t->lib, t->use)) return t->stream;
  struct stream **again = ARENA_NEW(arena, struct stream *, (size_t)t->stream_count);
  for (int i = 0; i < t->stream_count; i++) again[i] = new_stream(t->lib, t->key[i], t->carotene_factor, arena);
  return again;
}

static void gather_rows(struct totals *t, struct arena *arena) {
  for (size_t i = 0; i < t->ration->line_count; i++) add_line(t, (int)i, arena);
  sort_rows(t, 0);
}

static void gather_rows_again(struct totals *t, const struct totals_kept *kept, struct arena *arena) {
  t->row_count = kept->row_count;
  if (kept->row_count > 0) memcpy(t->row, kept->row, (size_t)kept->row_count * sizeof *t->row);
  add_line(t, kept->line, arena);
  sort_rows(t, kept->row_count);
}

static struct calendar *new_calendar(const struct totals *t, struct arena *arena) {
  struct calendar *c = ARENA_NEW(arena, struct calendar, 1);
  calendar_fill(c, t);
  return c;
}

/* While the line is fed on the same days, days and windows are of the same kinds. */
static struct calendar *kept_calendar(const struct totals *t, struct totals_kept *kept) {
  const bool *fed_on = t->ration->line[kept->line].fed_on;
  bool is_fed = t->row_count > kept->row_count;
  bool same = kept->calendar->kinds > 0 && kept->was_fed == is_fed && memcmp(kept->fed_on, fed_on, sizeof kept->fed_on) == 0;
  if (same) return kept->calendar;
  memcpy(kept->fed_on, fed_on, sizeof kept->fed_on);
  kept->was_fed = is_fed;
  calendar_fill(kept->calendar, t);
  return kept->calendar;
}

static struct totals *gather_from(const struct library *lib, const struct ration *ration, double carotene_factor,
                                  struct totals_kept *kept, bool once, struct arena *arena) {
  struct totals *t = ARENA_NEW(arena, struct totals, 1);
  t->lib = lib;
  t->ration = ration;
  t->row = arena_raw(arena, ration->line_count * LINE_PARTS, sizeof *t->row);
  if (kept) {
    kept->line_is_taken = false;
    t->constant = kept->constant;
    gather_rows_again(t, kept, arena);
  } else {
    gather_rows(t, arena);
  }
  look_at_days(t);
  find_streams(t, carotene_factor, kept, once, arena);
  join_pieces(t);
  average(t, kept, arena);
  if (!t->same_every_day) t->calendar = kept ? kept_calendar(t, kept) : new_calendar(t, arena);
  return t;
}

struct totals *totals_gather(const struct library *lib, const struct ration *ration, double carotene_factor,
                             struct arena *arena) {
  return gather_from(lib, ration, carotene_factor, NULL, false, arena);
}

struct totals *totals_gather_once(const struct library *lib, const struct ration *ration, double carotene_factor,
                                  struct arena *arena) {
  return gather_from(lib, ration, carotene_factor, NULL, true, arena);
}

struct totals *totals_gather_again(const struct library *lib, const struct ration *ration, double carotene_factor,
                                   struct totals_kept *kept, struct arena *arena) {
  return gather_from(lib, ration, carotene_factor, kept, false, arena);
}
