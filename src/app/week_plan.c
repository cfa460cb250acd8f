/* A plan of weeks as days of food. docs/manual/week.md. */
#include <math.h>

#include "app/week_parts.h"
#include "plan/plan_text.h"

enum { HALF_OF_DAYS = CALENDAR_DAYS / 2 };

static int common_multiple(int a, int b) {
  int x = a, y = b;
  while (y != 0) {
    int r = x % y;
    x = y;
    y = r;
  }
  return a / x * b;
}

static const struct plan_day *said_of(const struct plan_part *p, int day) {
  return &p->day[day / WEEK_DAYS % p->weeks][day % WEEK_DAYS];
}

static bool holds(struct kitchen *k, const struct plan_day *day, int recipe, struct diags *d) {
  for (size_t i = 0; i < day->item_count; i++) {
    const struct served *s = day->item[i].unknown ? NULL : kitchen_serve(k, &day->item[i], d);
    if (s && s->recipe == recipe) return true;
  }
  return false;
}

/* A line that is not fed on all days of its recipe: half of the days and more as that share of the recipe's days; rarer ones
 * as often as they say, on the days that the recipe has. Spread as ration_spread_days does. */
static int feedings_of(const struct ration_line *l, int uses, int days) {
  double times =
      l->times_per_28 >= HALF_OF_DAYS ? l->times_per_28 / CALENDAR_DAYS * uses : l->times_per_28 / CALENDAR_DAYS * days;
  int n = (int)lround(times);
  return n < 1 ? 1 : n > uses ? uses : n;
}

static bool is_fed(const struct kitchen_recipe *r, size_t line, int day, int use, int uses, int days) {
  const struct ration_line *l = &r->ration.line[line];
  if (kitchen_names_days(r, line)) return l->fed_on[day % WEEK_DAYS];
  int n = feedings_of(l, uses, days);
  return (use + 1) * n / uses > use * n / uses;
}

struct building {
  struct kitchen *k;
  const struct plan_part *part;
  struct diags *d;
  int days;
  int *use, *uses; /* of each recipe: those before this day, and all */
};

static const char *menu_of(const struct building *b, const struct plan_day *said) {
  struct buf menu;
  buf_init(&menu, b->k->arena, 1024);
  if (said->item_count == 0) return "nothing";
  for (size_t i = 0; i < said->item_count; i++) {
    buf_adds(&menu, i > 0 ? "; " : "");
    buf_add(&menu, said->item[i].whole);
  }
  return buf_text(&menu);
}

static bool fill_day(struct building *b, int day, struct day_of_food *out) {
  const struct plan_day *said = said_of(b->part, day);
  struct arena *arena = b->k->arena;
  struct fed *fed = NULL;
  size_t cap = 0;
  *out = (struct day_of_food){.known = true, .menu = menu_of(b, said)};
  for (size_t i = 0; i < said->item_count; i++) {
    if (said->item[i].unknown) {
      out->uncounted = true;
      continue;
    }
    const struct served *s = kitchen_serve(b->k, &said->item[i], b->d);
    if (!s) {
      out->count = 0; /* what stood before it is not the day */
      return false;
    }
    const struct kitchen_recipe *r = s->recipe >= 0 ? &b->k->recipe[s->recipe] : NULL;
    const struct ration_line *line = r ? r->ration.line : s->line;
    size_t lines = r ? r->ration.line_count : s->line_count;
    if (r && r->ration.uncounted_count > 0) out->uncounted = true;
    for (size_t l = 0; l < lines; l++)
      if (!r || is_fed(r, l, day, b->use[s->recipe], b->uses[s->recipe], b->days))
        ARENA_PUSH(arena, fed, out->count, cap, ((struct fed){&line[l], s->times}));
  }
  out->fed = fed;
  return true;
}

static void collect_remarks(struct kitchen *k, const int *uses, const struct plan_part *part, struct days_of_food *out) {
  struct ration_remark *remark = NULL;
  struct ration_uncounted *uncounted = NULL;
  size_t cap = 0, room = 0;
  for (size_t i = 0; i < k->count; i++) {
    const struct ration *r = &k->recipe[i].ration;
    if (uses[i] == 0) continue;
    for (size_t n = 0; n < r->remark_count; n++) ARENA_PUSH(k->arena, remark, out->remark_count, cap, r->remark[n]);
    for (size_t n = 0; n < r->uncounted_count; n++)
      ARENA_PUSH(k->arena, uncounted, out->uncounted_count, room, r->uncounted[n]);
  }
  for (int w = 0; w < part->weeks; w++)
    for (int d = 0; d < WEEK_DAYS; d++)
      for (size_t i = 0; i < part->day[w][d].item_count; i++) {
        const struct journal_item *item = &part->day[w][d].item[i];
        if (!item->unknown) continue;
        struct ration_uncounted one = {.line = part->day[w][d].line, .text = arena_text(k->arena, item->food)};
        ARENA_PUSH(k->arena, uncounted, out->uncounted_count, room, one);
      }
  out->remark = remark;
  out->uncounted = uncounted;
}

bool week_days_of_plan(struct kitchen *k, const char *name, const struct plan_part *part, struct diags *d,
                       struct days_of_food *out) {
  int days = common_multiple(part->weeks * WEEK_DAYS, CALENDAR_DAYS);
  struct building b = {k, part, d, days, ARENA_NEW(k->arena, int, k->count + 1), ARENA_NEW(k->arena, int, k->count + 1)};
  struct day_of_food *day = ARENA_NEW(k->arena, struct day_of_food, (size_t)days);
  for (int i = 0; i < days; i++)
    for (size_t r = 0; r < k->count; r++) b.uses[r] += holds(k, said_of(part, i), (int)r, d);
  bool fine = true;
  for (int i = 0; i < days; i++) {
    fine = fill_day(&b, i, &day[i]) && fine;
    for (size_t r = 0; r < k->count; r++) b.use[r] += holds(k, said_of(part, i), (int)r, d);
  }
  *out = (struct days_of_food){.name = name, .day = day, .days = days, .repeats = true, .known_days = days};
  collect_remarks(k, b.uses, part, out);
  days_shorten(out);
  return fine && d->errors == 0;
}
