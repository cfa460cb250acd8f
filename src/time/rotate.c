#include "time/rotate.h"

#include <math.h>

#include "base/table.h"
#include "foods/constant_keys.h"
#include "judge/check_steps.h"
#include "judge/verdict.h"

WORD_TABLE(rotation_status_key, 3, "found", "none-exists", "not-found"); /* ORDER ROTATION_STATUS */

enum { USUAL_MOST = 4000000, WORDS = (NUT_COUNT + 63) / 64 };

struct needs {
  uint64_t bit[WORDS];
};
static void set_need(struct needs *s, int n) { s->bit[n / 64] |= (uint64_t)1 << (n % 64); }
static bool has_need(const struct needs *s, int n) { return s->bit[n / 64] >> (n % 64) & 1; }
static bool share_any(const struct needs *a, const struct needs *b) {
  for (int i = 0; i < WORDS; i++)
    if (a->bit[i] & b->bit[i]) return true;
  return false;
}

/* Which needs fail in a window of so many days, by how many of them each recipe has. */
struct seen {
  uint64_t counts; /* a byte a recipe */
  struct needs fails;
  bool filled;
};

struct search {
  const struct library *lib;
  const struct ration *const *ration;
  const struct check_result *const *alone;
  int recipes, days;
  struct needs wanted;
  struct limits kind[NUT_COUNT]; /* no stricter than those of any mixture of the recipes */
  int window[NUT_COUNT];
  int length[NUT_COUNT], lengths; /* that occur, shortest first */
  struct seen *seen[CALENDAR_DAYS + 1];
  size_t seen_cap[CALENDAR_DAYS + 1], seen_count[CALENDAR_DAYS + 1];
  long tried, most;
  int at[ROTATE_DAYS_MOST];
  struct ration_line *line; /* of all recipes, to be scaled */
  size_t line_count;
  struct arena scratch;
  struct arena *arena;
  const struct week *week; /* of the last one that was judged as a whole */
};

/* ---- days ------------------------------------------------------------------------------------------------------- */

/* Lines as they are on an average day. */
static const struct ration_line *mean_lines(const struct ration *r, struct arena *arena) {
  struct ration_line *line = ARENA_NEW(arena, struct ration_line, r->line_count + 1);
  for (size_t i = 0; i < r->line_count; i++) {
    double share = r->line[i].times_per_28 / CALENDAR_DAYS;
    line[i] = r->line[i];
    line[i].grams_fed *= share;
    line[i].low_g *= share;
    line[i].high_g *= share;
    for (int p = 0; p < line[i].part_count; p++) line[i].part[p].grams *= share;
    ration_spread_days(&line[i], CALENDAR_DAYS, 0);
  }
  return line;
}

struct days_of_food rotation_days(const struct ration *const *ration, int recipes, const int *recipe, int days,
                                  struct arena *arena) {
  struct day_of_food kind[ROTATE_RECIPES_MOST];
  struct day_of_food *day = ARENA_NEW(arena, struct day_of_food, (size_t)days);
  struct days_of_food out = {.name = "Rotation", .day = day, .days = days, .repeats = true, .known_days = days};
  size_t uncounted = 0, remarks = 0;
  for (int r = 0; r < recipes; r++) {
    const struct ration *one = ration[r];
    const struct ration_line *line = mean_lines(one, arena);
    struct fed *fed = ARENA_NEW(arena, struct fed, one->line_count + 1);
    for (size_t i = 0; i < one->line_count; i++) fed[i] = (struct fed){&line[i], 1};
    kind[r] = (struct day_of_food){
        .fed = fed, .count = one->line_count, .known = true, .uncounted = one->uncounted_count > 0, .menu = one->name};
    uncounted += one->uncounted_count;
    remarks += one->remark_count;
  }
  struct ration_uncounted *u = ARENA_NEW(arena, struct ration_uncounted, uncounted + 1);
  struct ration_remark *m = ARENA_NEW(arena, struct ration_remark, remarks + 1);
  for (int r = 0; r < recipes; r++) {
    bool fed = false;
    for (int i = 0; i < days; i++) fed = fed || recipe[i] == r;
    for (size_t i = 0; fed && i < ration[r]->uncounted_count; i++) u[out.uncounted_count++] = ration[r]->uncounted[i];
    for (size_t i = 0; fed && i < ration[r]->remark_count; i++) m[out.remark_count++] = ration[r]->remark[i];
  }
  out.uncounted = u;
  out.remark = m;
  for (int i = 0; i < days; i++) day[i] = kind[recipe[i]];
  return out;
}

/* ---- limits that no mixture undercuts ---------------------------------------------------------------------------- */

static void loosest_limits(struct search *s) {
  for (int n = 0; n < NUT_COUNT; n++) {
    struct limits l = {NAN, NAN, NAN, false};
    for (int r = 0; r < s->recipes; r++) {
      const struct nutrient_result *x = &s->alone[r]->nutrient[n];
      /* Before what the food adds to it, which a mixture may have less of than each recipe alone. */
      double allowance = x->adjusted && x->adjusted_from < x->allowance ? x->adjusted_from : x->allowance;
      l.allowance = fmin(l.allowance, allowance); /* fmin and fmax pass NaN over */
      l.minimum = fmin(l.minimum, x->minimum);
      l.upper = fmax(l.upper, x->upper);
      l.greater_than = x->upper_greater_than;
    }
    s->kind[n] = l;
    s->window[n] = s->alone[0]->nutrient[n].window_days;
  }
}

static void find_lengths(struct search *s) {
  for (int length = 1; length <= CALENDAR_DAYS; length++) {
    bool any = false;
    for (int n = 0; n < NUT_COUNT; n++) any = any || (has_need(&s->wanted, n) && s->window[n] == length);
    if (any) s->length[s->lengths++] = length;
  }
}

/* ---- windows ----------------------------------------------------------------------------------------------------- */

static bool is_failure(enum verdict v) { return v == VERDICT_SHORT || v == VERDICT_THIN || v == VERDICT_OVER; }

static void scale_lines(struct search *s, uint64_t counts, int length) {
  s->line_count = 0;
  for (int r = 0; r < s->recipes; r++) {
    double share = (double)(counts >> (8 * r) & 0xFF) / length;
    for (size_t i = 0; i < s->ration[r]->line_count; i++) {
      const struct ration_line *from = &s->ration[r]->line[i];
      struct ration_line *l = &s->line[s->line_count];
      double times = share * from->times_per_28 / CALENDAR_DAYS;
      if (!(times > 0)) continue;
      *l = *from;
      l->grams_fed *= times;
      for (int p = 0; p < l->part_count; p++) l->part[p].grams *= times;
      ration_spread_days(l, CALENDAR_DAYS, 0);
      s->line_count++;
    }
  }
}

static bool holds_uncounted(const struct search *s, uint64_t counts) {
  for (int r = 0; r < s->recipes; r++)
    if ((counts >> (8 * r) & 0xFF) > 0 && s->ration[r]->uncounted_count > 0) return true;
  return false;
}

/* The most of a nutrient that all of it can supply a day, as the judge allows for it. */
static double uncounted_supplies(const struct search *s, int n) {
  double sum = 0;
  for (int r = 0; r < s->recipes; r++)
    if (s->ration[r]->uncounted_count > 0) sum += s->alone[r]->uncounted_most[n];
  return sum;
}

static struct needs judge_counts(struct search *s, uint64_t counts, int length) {
  struct needs fails = {{0}};
  struct arena_mark mark = arena_mark(&s->scratch);
  const struct animal *a = s->alone[0]->animal;
  scale_lines(s, counts, length);
  struct ration mix = {.name = "", .days = 1, .meals_per_day = NAN, .line = s->line, .line_count = s->line_count};
  struct energy_result energy;
  struct totals *t = totals_gather(s->lib, &mix, library_constant_value(s->lib, K_CAROTENE_FACTOR, a->species), &s->scratch);
  energy_supply_alone(t, a->species, &s->alone[0]->options, &energy, &s->scratch);
  bool uncounted = holds_uncounted(s, counts);
  for (int n = 0; n < NUT_COUNT; n++) {
    if (s->window[n] != length || isnan(fmax(s->kind[n].allowance, s->kind[n].upper))) continue;
    struct window_total w = totals_over_calendar(t, (enum nutrient)n);
    if (uncounted) {
      w.missing_high = NAN;
      w.missing_most += uncounted_supplies(s, n);
    }
    struct supply supply = {w.amount, w.cv, w.amount + w.missing_most, w.amount, w.cv, w.amount + w.missing_high};
    if (is_failure(verdict_alone(&s->kind[n], &supply, s->alone[0]->options.sure, NULL))) set_need(&fails, n);
  }
  arena_rewind(&s->scratch, mark);
  return fails;
}

static struct seen *place(struct seen *seen, size_t cap, uint64_t counts) {
  size_t at = (size_t)checksum64(&counts, sizeof counts) & (cap - 1);
  while (seen[at].filled && seen[at].counts != counts) at = (at + 1) & (cap - 1);
  return &seen[at];
}

static struct needs fails_of(struct search *s, uint64_t counts, int length) {
  enum { FIRST = 256 };
  if (!s->seen[length] || 2 * s->seen_count[length] >= s->seen_cap[length]) {
    size_t cap = s->seen[length] ? 2 * s->seen_cap[length] : FIRST;
    struct seen *more = ARENA_NEW(s->arena, struct seen, cap);
    for (size_t i = 0; i < s->seen_cap[length]; i++)
      if (s->seen[length][i].filled) *place(more, cap, s->seen[length][i].counts) = s->seen[length][i];
    s->seen[length] = more;
    s->seen_cap[length] = cap;
  }
  struct seen *at = place(s->seen[length], s->seen_cap[length], counts);
  if (!at->filled) {
    *at = (struct seen){counts, judge_counts(s, counts, length), true};
    s->seen_count[length]++;
  }
  return at->fails;
}

static uint64_t counts_of(const struct search *s, int first, int length) {
  uint64_t counts = 0;
  for (int i = 0; i < length; i++) counts += (uint64_t)1 << (8 * s->at[(first + i) % s->days]);
  return counts;
}

/* The windows that end on this day, of those that lie within the days that are set. */
static bool fine_up_to(struct search *s, int day) {
  for (int i = 0; i < s->lengths && s->length[i] <= day + 1; i++) {
    struct needs f = fails_of(s, counts_of(s, day + 1 - s->length[i], s->length[i]), s->length[i]);
    if (share_any(&f, &s->wanted)) return false;
  }
  return true;
}

/* Those that run over the end. */
static bool fine_around(struct search *s) {
  for (int i = 0; i < s->lengths; i++) {
    int from = s->length[i] > s->days ? 0 : s->days - s->length[i] + 1;
    for (int first = from; first < s->days; first++) {
      struct needs f = fails_of(s, counts_of(s, first, s->length[i]), s->length[i]);
      if (share_any(&f, &s->wanted)) return false;
    }
  }
  return true;
}

/* ---- the whole, by the judge ------------------------------------------------------------------------------------- */

static bool fine_as_a_whole(struct search *s) {
  struct days_of_food *d = ARENA_NEW(s->arena, struct days_of_food, 1);
  *d = rotation_days(s->ration, s->recipes, s->at, s->days, s->arena);
  const struct check_result *mean =
      check_numbers(s->lib, days_mean(d, s->arena), s->alone[0]->animal, &s->alone[0]->options, s->arena);
  s->week = week_of(s->lib, d, mean, s->arena);
  for (int n = 0; n < NUT_COUNT; n++) {
    if (!has_need(&s->wanted, n)) continue;
    for (int i = 0; i < s->days; i++)
      if (is_failure(s->week->nutrient[n].window_verdict[i])) return false;
  }
  return true;
}

/* ---- by the number of changes ------------------------------------------------------------------------------------ */

enum found { FOUND, NOT_HERE, ENDED };

/* Sets this day and those behind it, with so many changes left. A plan that changes at all can be turned so that its first
 * day is another recipe than its last one. */
static enum found set_days(struct search *s, int day, int changes) {
  if (day == s->days) {
    bool turned = day > 0 && s->at[0] != s->at[day - 1];
    return changes == 0 && turned && fine_around(s) && fine_as_a_whole(s) ? FOUND : NOT_HERE;
  }
  if (changes > s->days - day) return NOT_HERE;
  for (int k = 0; k < s->recipes; k++) {
    int r = day > 0 ? (s->at[day - 1] + k) % s->recipes : k; /* the same again first */
    int left = changes - (day > 0 && r != s->at[day - 1]);
    if (left < 0) break;
    if (++s->tried > s->most) return ENDED;
    s->at[day] = r;
    if (!fine_up_to(s, day)) continue;
    enum found f = set_days(s, day + 1, left);
    if (f != NOT_HERE) return f;
  }
  return NOT_HERE;
}

static enum found search_all(struct search *s, int *changes) {
  s->tried = 0;
  s->lengths = 0;
  find_lengths(s);
  for (int r = 0; r < s->recipes; r++) {
    for (int i = 0; i < s->days; i++) s->at[i] = r;
    *changes = 0;
    if (fine_up_to(s, s->days - 1) && fine_around(s) && fine_as_a_whole(s)) return FOUND;
  }
  /* The change from the last day to the first is one of them. */
  for (*changes = 2; *changes <= s->days && s->recipes > 1; ++*changes) {
    enum found f = set_days(s, 0, *changes - 1);
    if (f != NOT_HERE) return f;
  }
  return NOT_HERE;
}

/* ---- what stands against it -------------------------------------------------------------------------------------- */

static void only(struct needs *s, int n) {
  memset(s, 0, sizeof *s);
  set_need(s, n);
}

static bool is_zero(const struct needs *s) {
  for (int i = 0; i < WORDS; i++)
    if (s->bit[i]) return false;
  return true;
}

/* Needs that fail alone; without any, those of a set that fails together, taken out one by one as long as it fails still. */
static void explain(struct search *s, struct rotation *out) {
  struct needs all = s->wanted, kept = all;
  bool any = false;
  int changes;
  for (int n = 0; n < NUT_COUNT; n++) {
    if (!has_need(&all, n)) continue;
    only(&s->wanted, n);
    if (search_all(s, &changes) != NOT_HERE) continue;
    out->unreachable[n] = any = true;
  }
  out->conflict_smallest = !any;
  for (int n = 0; n < NUT_COUNT && !any; n++) {
    if (!has_need(&kept, n)) continue;
    struct needs fewer = kept;
    fewer.bit[n / 64] &= ~((uint64_t)1 << (n % 64));
    s->wanted = fewer;
    enum found f = is_zero(&fewer) ? FOUND : search_all(s, &changes);
    if (f == NOT_HERE) kept = fewer;
    if (f == ENDED) out->conflict_smallest = false;
  }
  for (int n = 0; n < NUT_COUNT && !any; n++) out->conflict[n] = has_need(&kept, n);
  s->wanted = all;
}

static void look_at_each(struct search *s, struct rotation *out) {
  for (int r = 0; r < s->recipes; r++) {
    uint64_t one = (uint64_t)1 << (8 * r);
    struct needs f = fails_of(s, one, 1);
    out->usable[r] = !share_any(&f, &s->wanted);
    for (int n = 0; n < NUT_COUNT; n++) {
      out->unfit[r][n] = has_need(&s->wanted, n) && has_need(&f, n);
      out->fails[r][n] = has_need(&s->wanted, n) && is_failure(s->alone[r]->nutrient[n].verdict);
    }
  }
}

void rotate(const struct library *lib, const struct ration *const *ration, const struct check_result *const *alone,
            int recipes, int days, const bool wanted[NUT_COUNT], long most, struct rotation *out, struct arena *arena) {
  struct search s = {.lib = lib,
                     .ration = ration,
                     .alone = alone,
                     .recipes = recipes,
                     .days = days,
                     .most = most > 0 ? most : USUAL_MOST,
                     .arena = arena};
  size_t lines = 0;
  int changes;
  *out = (struct rotation){.days = days};
  for (int r = 0; r < recipes; r++) lines += ration[r]->line_count;
  s.line = ARENA_NEW(arena, struct ration_line, lines + 1);
  arena_init(&s.scratch, arena->on_full);
  loosest_limits(&s);
  for (int n = 0; n < NUT_COUNT; n++) {
    bool judged = n != NUT_ENERGY && !isnan(fmax(s.kind[n].allowance, s.kind[n].upper));
    if (judged && (!wanted || wanted[n])) set_need(&s.wanted, n);
  }
  look_at_each(&s, out);
  enum found f = search_all(&s, &changes);
  out->tried = s.tried;
  out->status = f == FOUND ? ROTATION_FOUND : f == ENDED ? ROTATION_NOT_FOUND : ROTATION_NONE;
  out->changes = f == FOUND ? changes : 0;
  for (int i = 0; f == FOUND && i < days; i++) {
    out->recipe[i] = s.at[i];
    out->used_days[s.at[i]]++;
  }
  out->week = f == FOUND ? s.week : NULL;
  if (f == NOT_HERE) explain(&s, out);
  arena_free(&s.scratch);
}
