#include "explain/side.h"
#include "base/table.h"

#include <math.h>

#include "judge/verdict.h"

WORD_TABLE(side_per_key, SIDE_PER_COUNT, "day", "1000kcal", "100g");
const char *const side_kind_key[] = {"recipes", "foods", "ways"};

/* ---- the same at another scale ---------------------------------------------------------------------------------- */

static const struct ration *scaled(const struct ration *ration, double factor, struct arena *arena) {
  struct ration *copy = ARENA_NEW(arena, struct ration, 1);
  struct ration_line *line = ARENA_NEW(arena, struct ration_line, ration->line_count);
  *copy = *ration;
  copy->line = line;
  for (size_t i = 0; i < ration->line_count; i++) {
    line[i] = ration->line[i];
    line[i].grams_fed *= factor;
    for (int p = 0; p < line[i].part_count; p++) line[i].part[p].grams *= factor;
  }
  return copy;
}

static void check_item(const struct library *lib, struct side *s, struct side_item *x, const struct check_options *options,
                       struct arena *arena) {
  x->r = check_numbers(lib, x->ration, s->animal, options, arena);
  x->kcal_per_day = x->r->energy.supply_kcal;
  x->grams_per_day = x->r->energy.grams_per_day;
  double factor = x->kcal_per_day > 0 && energy_is_whole(&x->r->energy) ? x->r->energy.need.kcal / x->kcal_per_day : (double)NAN;
  if (s->per != SIDE_PER_1000KCAL || !s->judged || !(factor > 0) || !isfinite(factor)) return;
  x->r = check_numbers(lib, scaled(x->ration, factor, arena), s->animal, options, arena);
}

/* From a day's amounts to those asked for. */
static double scale_of(const struct side *s, const struct side_item *x) {
  const struct energy_result *e = &x->r->energy;
  if (s->per == SIDE_PER_DAY) return 1;
  if (s->per == SIDE_PER_1000KCAL && !energy_is_whole(e)) return (double)NAN;
  double whole = s->per == SIDE_PER_1000KCAL ? e->supply_kcal : e->grams_per_day;
  return whole > 0 ? (s->per == SIDE_PER_1000KCAL ? 1000.0 : 100.0) / whole : (double)NAN;
}

/* ---- rows ------------------------------------------------------------------------------------------------------ */

static void find_factor(struct side_row *row, int count) {
  double most = -INFINITY, least = INFINITY;
  int known = 0;
  row->most = row->least = -1;
  for (int i = 0; i < count; i++) {
    double x = row->amount[i];
    if (isnan(x)) continue;
    known++;
    if (x > most) {
      most = x;
      row->most = i;
    }
    if (x < least) {
      least = x;
      row->least = i;
    }
  }
  row->factor = known < 2 ? (double)NAN : most == least ? 1 : least > 0 ? most / least : INFINITY;
}

static struct side_row row_of(const struct side *s, enum nutrient id) {
  struct side_row row = {.id = id};
  bool needs = s->judged && s->per != SIDE_PER_100G;
  for (int i = 0; i < s->count; i++) {
    const struct side_item *x = &s->item[i];
    const struct nutrient_result *n = &x->r->nutrient[id];
    double k = scale_of(s, x);
    row.amount[i] = n->amount * k;
    row.low[i] = n->low * k;
    row.high[i] = n->high * k;
    row.partly[i] = who_supplies(n)->missing_count > 0;
    row.need[i] = needs ? n->allowance * scale_of(s, x) : (double)NAN;
    row.upper[i] = needs ? n->upper * scale_of(s, x) : (double)NAN;
    row.ratio[i] = row.need[i] > 0 ? row.amount[i] / row.need[i] : (double)NAN;
    row.verdict[i] = needs ? n->verdict : VERDICT_NO_FIGURE;
  }
  find_factor(&row, s->count);
  return row;
}

/* A nutrient of which no food of any of them has a figure is no row, unless a need hangs on it. */
static bool says_something(const struct side_row *row, int count) {
  for (int i = 0; i < count; i++)
    if (row->amount[i] > 0 || row->verdict[i] != VERDICT_NO_FIGURE) return true;
  return false;
}

/* ---- groups ---------------------------------------------------------------------------------------------------- */

static struct side_group meaning_of(const struct side *s, const struct side_row *row) {
  struct side_group g = {.item = -1};
  bool differ = false, judged = false;
  int known = 0;
  for (int i = 0; i < s->count; i++) {
    g.verdict[i] = row->verdict[i];
    differ = differ || row->verdict[i] != row->verdict[0];
    judged = judged || row->verdict[i] != VERDICT_NO_FIGURE;
    known += !isnan(row->amount[i]);
  }
  if (judged && s->kind != SIDE_FOODS) {
    g.meaning = differ ? SIDE_VERDICTS_DIFFER : SIDE_SAME_VERDICT;
    return g;
  }
  for (int i = 0; i < s->count; i++) g.verdict[i] = VERDICT_NO_FIGURE;
  g.meaning = known < s->count ? SIDE_KNOWN_IN : row->factor >= SIDE_MUCH ? SIDE_MORE_IN : SIDE_ALIKE;
  if (g.meaning == SIDE_MORE_IN) g.item = row->most;
  return g;
}

static bool same_group(const struct side_group *a, const struct side_group *b, int count) {
  if (a->meaning != b->meaning || a->item != b->item) return false;
  for (int i = 0; i < count; i++)
    if (a->verdict[i] != b->verdict[i]) return false;
  return true;
}

/* What matters more comes first: short or over in one and better in another, then other differences; then what all lack;
 * then what all have. */
static int weight_of(const struct side_group *g, int count, bool judged) {
  int best = 0, worst = 9;
  for (int i = 0; i < count; i++) {
    int rank = verdict_rank(g->verdict[i]);
    best = rank > best ? rank : best;
    worst = rank < worst ? rank : worst;
  }
  switch (g->meaning) {
  case SIDE_VERDICTS_DIFFER:
    return 100 + 10 * (best - worst) - worst;
  case SIDE_SAME_VERDICT:
    return best == 0 ? 10 : 50 - best;
  case SIDE_MORE_IN:
    return (judged ? 20 : 60) - g->item;
  case SIDE_KNOWN_IN:
    return 5;
  case SIDE_ALIKE:
    break;
  }
  return 0;
}

static double difference(const struct side_row *row) { return isnan(row->factor) ? 0 : row->factor; }

static void sort_rows(struct side *s, const struct side_group *of) {
  struct side_row row[NUT_COUNT];
  int n = 0;
  for (int g = 0; g < s->group_count; g++) {
    struct side_group *group = &s->group[g];
    group->first = n;
    for (int i = 0; i < s->row_count; i++) {
      if (!same_group(&of[i], group, s->count)) continue;
      int at = n++;
      for (; at > group->first && difference(&row[at - 1]) < difference(&s->row[i]); at--) row[at] = row[at - 1];
      row[at] = s->row[i];
    }
    group->count = n - group->first;
  }
  memcpy(s->row, row, (size_t)n * sizeof *row);
}

static void group_rows(struct side *s) {
  bool judged = s->judged && s->kind != SIDE_FOODS && s->per != SIDE_PER_100G;
  struct side_group of[NUT_COUNT];
  for (int i = 0; i < s->row_count; i++) {
    of[i] = meaning_of(s, &s->row[i]);
    bool seen = false;
    for (int k = 0; k < i; k++) seen = seen || same_group(&of[i], &of[k], s->count);
    if (seen) continue;
    int at = s->group_count++;
    for (; at > 0 && weight_of(&s->group[at - 1], s->count, judged) < weight_of(&of[i], s->count, judged); at--)
      s->group[at] = s->group[at - 1];
    s->group[at] = of[i];
  }
  sort_rows(s, of);
}

const struct side *side_compare(const struct library *lib, enum side_kind kind, enum side_per per,
                                const struct side_item *item, int count, const struct animal *animal,
                                const struct check_options *options, struct arena *arena) {
  struct side *s = ARENA_NEW(arena, struct side, 1);
  s->kind = kind;
  s->per = per;
  s->animal = animal;
  s->judged = animal && animal_refusal(animal) == REFUSE_NOT;
  s->count = count < SIDE_MOST ? count : SIDE_MOST;
  for (int i = 0; i < s->count; i++) {
    s->item[i] = item[i];
    check_item(lib, s, &s->item[i], options, arena);
  }
  for (int k = 0; k < NUT_COUNT; k++) {
    if (k == NUT_ENERGY || (k == NUT_WATER && kind == SIDE_WAYS)) continue; /* what cooks away is in the weight */
    struct side_row row = row_of(s, (enum nutrient)k);
    if (says_something(&row, s->count)) s->row[s->row_count++] = row;
  }
  group_rows(s);
  return s;
}
