#include "time/days.h"

#include <math.h>

enum { WEEK = 7 };

int days_known(const struct day_of_food *day, int days) {
  int n = 0;
  for (int i = 0; i < days; i++) n += day[i].known;
  return n;
}

bool day_is_counted(const struct day_of_food *d) { return d->known && (d->count > 0 || !d->uncounted); }

/* ---- from a ration --------------------------------------------------------------------------------------------- */

struct days_of_food days_of_ration(const struct ration *r, struct arena *arena) {
  struct day_of_food *day = ARENA_NEW(arena, struct day_of_food, CALENDAR_DAYS);
  for (int i = 0; i < CALENDAR_DAYS; i++) {
    struct fed *fed = ARENA_NEW(arena, struct fed, r->line_count + 1);
    size_t n = 0;
    for (size_t k = 0; k < r->line_count; k++)
      if (r->line[k].fed_on[i]) fed[n++] = (struct fed){&r->line[k], 1};
    bool uncounted = r->uncounted_count > 0, empty = n == 0 && !uncounted;
    day[i] = (struct day_of_food){
        .fed = fed, .count = n, .known = true, .uncounted = uncounted, .menu = r->name && !empty ? r->name : ""};
  }
  struct days_of_food d = {.name = r->name ? r->name : "",
                           .day = day,
                           .days = CALENDAR_DAYS,
                           .repeats = true,
                           .known_days = CALENDAR_DAYS,
                           .remark = r->remark,
                           .remark_count = r->remark_count,
                           .uncounted = r->uncounted,
                           .uncounted_count = r->uncounted_count};
  days_shorten(&d);
  return d;
}

static bool same_day(const struct day_of_food *a, const struct day_of_food *b) {
  if (a->count != b->count || a->known != b->known || a->uncounted != b->uncounted || strcmp(a->menu, b->menu) != 0)
    return false;
  for (size_t i = 0; i < a->count; i++)
    if (a->fed[i].line != b->fed[i].line || a->fed[i].times != b->fed[i].times) return false;
  return true;
}

void days_shorten(struct days_of_food *d) {
  for (int period = WEEK; d->repeats && period < d->days; period += WEEK) {
    bool same = d->days % period == 0;
    for (int i = period; same && i < d->days; i++) same = same_day(&d->day[i], &d->day[i % period]);
    if (!same) continue;
    d->days = period;
    d->known_days = days_known(d->day, period);
    return;
  }
}

/* ---- rations of several days ----------------------------------------------------------------------------------- */

/* Lines that were met already, by line and how much of it. */
struct gathered {
  struct ration_line *line;
  const struct fed **of;
  size_t count, cap;
};

/* The last one first: days in a row hold the same. */
static size_t place_of(const struct gathered *g, const struct fed *f, bool any_times) {
  for (size_t i = g->count; i-- > 0;)
    if (g->of[i]->line == f->line && (any_times || g->of[i]->times == f->times)) return i;
  return g->count;
}

static void scale(struct ration_line *l, double times) {
  l->grams_fed *= times;
  l->low_g *= times;
  l->high_g *= times;
  for (int p = 0; p < l->part_count; p++) l->part[p].grams *= times;
}

static size_t add(struct gathered *g, const struct fed *f, bool any_times, struct arena *arena) {
  size_t at = place_of(g, f, any_times);
  if (at < g->count) return at;
  if (g->count == g->cap) {
    size_t cap = g->cap;
    g->of = arena_grow(arena, g->of, g->count, &cap, sizeof *g->of);
    cap = g->cap;
    g->line = arena_grow(arena, g->line, g->count, &cap, sizeof *g->line);
    g->cap = cap;
  }
  g->of[at] = f;
  g->line[at] = *f->line;
  memset(g->line[at].fed_on, 0, sizeof g->line[at].fed_on);
  g->count++;
  return at;
}

static struct ration *as_ration(const struct days_of_food *d, const struct gathered *g, bool uncounted,
                                struct arena *arena) {
  struct ration *r = ARENA_NEW(arena, struct ration, 1);
  *r = (struct ration){.name = d->name,
                       .days = 1,
                       .meals_per_day = NAN,
                       .line = g->line,
                       .line_count = g->count,
                       .remark = d->remark,
                       .remark_count = d->remark_count,
                       .uncounted = d->uncounted,
                       .uncounted_count = uncounted ? d->uncounted_count : 0};
  return r;
}

struct ration *days_mean(const struct days_of_food *d, struct arena *arena) {
  struct gathered g = {0};
  double *times = NULL;
  size_t cap = 0, n = 0;
  bool uncounted = false;
  for (int i = 0; i < d->days; i++) {
    const struct day_of_food *day = &d->day[i];
    uncounted = uncounted || (day->known && day->uncounted);
    for (size_t k = 0; day->known && k < day->count; k++) {
      size_t at = add(&g, &day->fed[k], true, arena);
      if (at == n) ARENA_PUSH(arena, times, n, cap, 0.0);
      times[at] += day->fed[k].times;
    }
  }
  for (size_t i = 0; i < g.count; i++) {
    scale(&g.line[i], times[i] / d->known_days);
    ration_spread_days(&g.line[i], CALENDAR_DAYS, 0);
  }
  return as_ration(d, &g, uncounted, arena);
}

struct ration *days_frame(const struct days_of_food *d, int first, struct arena *arena) {
  struct gathered g = {0};
  for (int i = 0; i < CALENDAR_DAYS; i++) {
    int at = d->repeats ? (first + i) % d->days : first + i;
    if (at >= d->days || !d->day[at].known) continue;
    for (size_t k = 0; k < d->day[at].count; k++) {
      size_t line = add(&g, &d->day[at].fed[k], false, arena);
      g.line[line].fed_on[i] = true;
    }
  }
  for (size_t i = 0; i < g.count; i++) {
    int times = 0;
    for (int day = 0; day < CALENDAR_DAYS; day++) times += g.line[i].fed_on[day];
    g.line[i].times_per_28 = times;
    scale(&g.line[i], g.of[i]->times);
  }
  return as_ration(d, &g, false, arena);
}
