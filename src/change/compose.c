/* compose.c: candidates and columns, the search, and what was found as bowls. */
#include <math.h>

#include "base/num.h"
#include "change/compose_parts.h"
#include "change/model_parts.h"

/* ---- candidates ------------------------------------------------------------------------------------------------- */

static void add_candidate(struct composer *c, size_t food, double times) {
  struct candidate one = c->q->food[food].food;
  size_t n = c->candidates, cap = c->cap, of_cap = c->cap, times_cap = c->cap;
  ration_spread_days(&one.line, times, 0);
  one.line.line = (int)n + 1;
  ARENA_PUSH(c->arena, c->candidate, c->candidates, cap, one);
  c->candidates = n;
  ARENA_PUSH(c->arena, c->food_of, c->candidates, of_cap, (int)food);
  c->candidates = n;
  ARENA_PUSH(c->arena, c->times_of, c->candidates, times_cap, times);
  c->cap = cap;
}

/* Feedings are counted by the week, by the fortnight or by the month, as their limits are. */
static double feeding_step(const struct compose_food *f) {
  for (double step = 4; step > 1; step /= 2)
    if (fmod(f->times_low, step) == 0 && fmod(f->times_high, step) == 0) return step;
  return 1;
}

/* A stated amount at each of so many feedings: every number of feedings is a candidate of its own. With a range at each
 * feeding the number of feedings is the most that is allowed. They fall on the days that a recipe's reader gives them. */
static void fill_candidates(struct composer *c) {
  for (size_t i = 0; i < c->q->foods; i++) {
    const struct compose_food *f = &c->q->food[i];
    if (c->dropped[i]) continue;
    if (!(f->times_high >= 0)) {
      add_candidate(c, i, CALENDAR_DAYS);
      continue;
    }
    double step = feeding_step(f), first = compose_counted_feedings(f) ? fmax(step, f->times_low) : f->times_high;
    for (double times = first; times <= f->times_high; times += step) add_candidate(c, i, times);
  }
  for (int s = 0; s < SPECIES_COUNT; s++) c->gram[s] = ARENA_NEW(c->arena, const struct check_result *, c->candidates);
}

/* ---- columns ---------------------------------------------------------------------------------------------------- */

enum { PIECES_MOST = 30 };
static const double WITHOUT_ENERGY_MOST_G = 1000, ROOM = 2;

/* What no limit of the larder holds back the energy does; twice that keeps the bound itself from mattering. */
static double highest(const struct composer *c, size_t candidate, double high) {
  double kcal = 0, per_g = compose_kcal_per_g(c, candidate);
  if (isfinite(high)) return high;
  for (size_t a = 0; a < c->q->animals; a++) kcal += c->need[a];
  return per_g > 0.01 ? ROOM * kcal / per_g : WITHOUT_ENERGY_MOST_G;
}

static bool household(const struct composer *c) { return c->q->animals > 1; }

static struct lp_col column_of(const struct composer *c, size_t candidate, bool topper) {
  const struct compose_food *f = &c->q->food[c->food_of[candidate]];
  double by = c->times_of[candidate] / CALENDAR_DAYS;
  struct lp_col col = {.name = f->food.name, .counted = !household(c)};
  if (compose_counted_feedings(f)) {
    col.unit = col.hi = f->high * by;
    return col;
  }
  col.lo = topper ? 0 : compose_range_low(f) * by;
  col.hi = highest(c, candidate, f->high) * by;
  col.least = topper ? 0 : compose_least(f);
  if (f->whole > 0) {
    col.unit = f->whole * by;
    if (!isfinite(f->high)) col.hi = fmin(col.hi, PIECES_MOST * col.unit);
    col.hi = floor(col.hi / col.unit + 1e-9) * col.unit;
    col.lo = ceil(col.lo / col.unit - 1e-9) * col.unit;
  }
  if (col.least > 0) col.lo = 0;
  return col;
}

/* Second objective: the lighter bowl, then what stands earlier in the larder. A millionth of the first is far below what
 * anybody measures, and decides between equals the same way on every machine. */
static const double TIE = 1e-6, ORDER = 1e-3, TOPPER = 100;

static void add_column(struct composer *c, size_t candidate, int animal, double scale) {
  size_t n = c->columns, cap = c->columns, cap2 = c->columns;
  struct lp_col col = column_of(c, candidate, animal != ALL_BOWLS);
  if (animal != ALL_BOWLS && compose_counted_feedings(&c->q->food[c->food_of[candidate]])) return;
  double tie = TIE * scale * (1 + ORDER * (double)candidate / (double)c->candidates);
  col.cost = compose_aim_cost(c, candidate) + tie + (animal != ALL_BOWLS ? TOPPER * scale : 0);
  if (household(c) &&
      animal == ALL_BOWLS) { /* the larder's range and "if used" hold for the base and all toppers together */
    if (!(col.unit > 0)) col.lo = 0;
    col.least = 0;
  }
  model_column(c->p, (int)candidate, col);
  ARENA_PUSH(c->arena, c->column_animal, n, cap, animal);
  ARENA_PUSH(c->arena, c->column_candidate, c->columns, cap2, (int)candidate);
}

static void fill_columns(struct composer *c) {
  double scale = 0;
  for (size_t i = 0; i < c->candidates; i++) scale = fmax(scale, compose_aim_cost(c, i));
  if (!(scale > 0)) scale = 1;
  for (size_t i = 0; i < c->candidates; i++) add_column(c, i, ALL_BOWLS, scale);
  for (size_t a = 0; a < c->q->animals && household(c); a++)
    for (size_t i = 0; i < c->candidates; i++) add_column(c, i, (int)a, scale);
  if (c->q->aim == COMPOSE_NEAREST) compose_aim_columns(c);
  if (household(c)) compose_count_columns(c);
}

/* ---- animals ---------------------------------------------------------------------------------------------------- */

static bool may_compose(struct composer *c) {
  for (size_t a = 0; a < c->q->animals; a++)
    if (animal_refusal(&c->q->animal[a]) != REFUSE_NOT) {
      c->out->status = COMPOSE_REFUSED;
      c->out->refused = &c->q->animal[a];
      return false;
    }
  if (c->q->options.energy_by == ENERGY_ATWATER) return true;
  c->out->status = COMPOSE_NOT_LINEAR;
  return false;
}

static const double SHARES = 1000;

static void fill_appetites(struct composer *c) {
  double all = 0;
  c->need = ARENA_NEW(c->arena, double, c->q->animals);
  c->share = ARENA_NEW(c->arena, double, c->q->animals);
  for (size_t a = 0; a < c->q->animals; a++) all += c->need[a] = animal_energy(c->lib, &c->q->animal[a], c->arena).kcal;
  /* Shares in tenths of a per cent, so that people can weigh them out; the largest takes up what rounding leaves. */
  size_t largest = 0;
  double left = 1;
  for (size_t a = 0; a < c->q->animals; a++) {
    c->share[a] = c->q->animals == 1 ? 1 : round(SHARES * c->need[a] / all) / SHARES;
    left -= c->share[a];
    if (c->need[a] > c->need[largest]) largest = a;
  }
  c->share[largest] += left;
}

/* ---- what was found as bowls ------------------------------------------------------------------------------------ */

static void split(const struct composer *c, const double *x, struct compose_bowl *b, int bowl) {
  double *base = ARENA_NEW(c->arena, double, c->candidates), *topper = ARENA_NEW(c->arena, double, c->candidates);
  for (size_t j = 0; j < c->columns; j++) {
    if (c->column_animal[j] == ALL_BOWLS) base[c->column_candidate[j]] += x[j] * b->share;
    if (c->column_animal[j] == bowl) topper[c->column_candidate[j]] += x[j];
  }
  b->base = base;
  b->topper = topper;
}

static struct compose_bowl bowl_of(const struct composer *c, const double *x, int bowl) {
  int *candidate = NULL;
  struct compose_bowl b = {.animal = &c->q->animal[bowl], .need_kcal = c->need[bowl], .share = c->share[bowl]};
  split(c, x, &b, bowl);
  b.ration = model_ration(c->p, bowl, x, &candidate, c->arena);
  b.candidate = candidate;
  b.after = check_numbers(c->lib, b.ration, b.animal, &c->q->options, c->arena);
  b.kept = model_keeps(c->p, bowl, b.after);
  return b;
}

const struct compose_dish *compose_dish_of(struct composer *c, const double *x, bool rounded) {
  struct compose_dish *d = ARENA_NEW(c->arena, struct compose_dish, 1);
  struct compose_bowl *bowl = ARENA_NEW(c->arena, struct compose_bowl, c->q->animals);
  double *base = ARENA_NEW(c->arena, double, c->candidates);
  d->rounded = rounded;
  for (size_t a = 0; a < c->q->animals; a++) bowl[a] = bowl_of(c, x, (int)a);
  for (size_t j = 0; j < c->columns; j++) {
    size_t i = (size_t)c->column_candidate[j];
    if (c->column_animal[j] < ALL_BOWLS) continue;
    double price = c->q->food[c->food_of[i]].price;
    d->grams += x[j];
    if (x[j] > 0) d->cost += price * x[j];
    d->objective += compose_aim_cost(c, i) * x[j];
    if (c->column_animal[j] == ALL_BOWLS) base[i] = x[j];
  }
  for (size_t j = c->columns; j < model_lp(c->p)->cols; j++) d->objective += x[j]; /* distances */
  d->bowl = bowl;
  d->base = base;
  return d;
}

/* ---- the search ------------------------------------------------------------------------------------------------- */

enum { HELPS = 6 };

/* For one bowl that lacks something a food on top of it; for several a food in their base. */
static void say_what_helps(struct composer *c, const struct model_nearest *near) {
  int bowl = model_missing_bowl(c->p, near);
  double *share = ARENA_NEW(c->arena, double, c->q->animals);
  for (size_t a = 0; a < c->q->animals; a++) share[a] = bowl < 0 ? c->share[a] : (int)a == bowl;
  struct model_help *list = ARENA_NEW(c->arena, struct model_help, HELPS);
  struct lp_limits limits = {.go_on = c->q->go_on, .user = c->q->user};
  c->out->help = model_would_help(c->p, share, near, &limits, list, HELPS, c->arena);
  c->out->help_for = bowl < 0 ? NULL : &c->q->animal[bowl];
}

static bool may_go_on(const struct composer *c) {
  return !c->q->go_on || c->q->go_on(c->q->user, NULL, -INFINITY, c->out->nodes);
}

/* What the nearest does not keep beside the nutrients, which its verdicts tell. */
static void note_missed(struct composer *c, const struct model_nearest *near) {
  static const double HAIR = 1e-4; /* of a limit: less than any rounding */
  struct compose_result *out = c->out;
  const char **words = ARENA_NEW(c->arena, const char *, c->p->limit_count);
  for (size_t i = 0; i < c->p->limit_count; i++) {
    enum limit_kind k = c->p->limit[i].kind;
    if (near->miss[i] > HAIR && k != LIMIT_ALLOWANCE && k != LIMIT_UPPER && k != LIMIT_HIGHEST_DAY && k != LIMIT_TIE)
      words[out->nearest_missed_count++] = compose_limit_words(c, &c->p->limit[i]);
  }
  out->nearest_missed = words;
}

static void say_none(struct composer *c, bool conflict) {
  struct compose_result *out = c->out;
  struct lp_limits limits = {.go_on = c->q->go_on, .user = c->q->user};
  /* Roughly first, which is one program, of many rows where many animals eat: whoever has had enough while the conflict is
   * looked for need not wait for it. */
  struct model_nearest near = {.has_x = false};
  if (conflict) {
    near = model_nearest_roughly(c->p, c->arena);
    out->conflict = compose_conflict_of(c);
    if (out->conflict.energy_unknown) return; /* nothing is near when nobody knows how much of it is too much */
  }
  if (!near.has_x || may_go_on(c)) near = model_nearest(c->p, conflict, &limits, c->arena);
  out->cut_short = near.cut_short && !may_go_on(c);
  if (!near.has_x) return;
  double *x = ARENA_NEW(c->arena, double, model_lp(c->p)->cols);
  memcpy(x, near.x, model_lp(c->p)->cols * sizeof *x);
  compose_round_plainly(c, x);
  out->nearest = compose_dish_of(c, x, true);
  out->nearest_counted = near.counted || !model_has_rules(c->p);
  note_missed(c, &near);
  if (!(near.misses > 1e-9) || !conflict) return;
  if (!out->cut_short && !out->conflict.no_meal) say_what_helps(c, &near);
  out->cut_short = !may_go_on(c);
}

static void search(struct composer *c) {
  struct lp_limits limits = {.nodes = c->q->nodes, .go_on = c->q->go_on, .user = c->q->user};
  struct model_answer a = model_solve(c->p, true, &limits);
  model_prove(c->p, &a, &limits);
  struct compose_result *out = c->out;
  out->nodes = a.nodes;
  out->objective = a.objective;
  out->bound = a.bound;
  out->proven = a.proven;
  if (a.has_x) {
    out->status = a.status == PROGRAM_FOUND ? COMPOSE_FOUND : COMPOSE_STOPPED;
    double *x = ARENA_NEW(c->arena, double, model_lp(c->p)->cols);
    memcpy(x, a.x, model_lp(c->p)->cols * sizeof *x);
    bool rounded = compose_round(c, x);
    out->dish = compose_dish_of(c, x, rounded);
    return;
  }
  out->status = a.status == PROGRAM_NONE ? COMPOSE_NONE : COMPOSE_STOPPED;
  say_none(c, out->status == COMPOSE_NONE);
}

static const struct compose_result *run(const struct library *lib, const struct compose_request *q, const bool *dropped,
                                        struct arena *arena) {
  struct compose_result *out = ARENA_NEW(arena, struct compose_result, 1);
  struct composer *c = ARENA_NEW(arena, struct composer, 1);
  *c = (struct composer){.lib = lib, .q = q, .arena = arena, .out = out, .dropped = dropped};
  if (!may_compose(c)) return out;
  fill_appetites(c);
  fill_candidates(c);
  c->p = model_new(lib, c->candidate, c->candidates, arena);
  c->p->pivots = q->pivots;
  fill_columns(c);
  out->program = c->p;
  out->food_of = c->food_of;
  out->times_of = c->times_of;
  out->candidates = c->candidates;
  compose_bowls(c);
  if (out->status == COMPOSE_NOT_LINEAR) return out;
  compose_rows(c);
  compose_note_energy(c);
  search(c);
  return out;
}

static bool in_some_bowl(const struct compose_request *q, const struct compose_dish *d, size_t candidate) {
  bool in = d->base[candidate] > 0;
  for (size_t a = 0; a < q->animals; a++) in = in || d->bowl[a].topper[candidate] > 0;
  return in;
}

/* A food that is fed now and then and was on offer, but is in no bowl, leaves its days to the next one, so that a recipe
 * written from the answer would be fed on other days. */
static bool drop_unused_feedings(const struct compose_request *q, const struct compose_result *r, bool *dropped) {
  bool any = false, used_after = false;
  for (size_t i = q->foods; i-- > 0;) {
    if (!(q->food[i].times_high >= 0 && q->food[i].times_high < CALENDAR_DAYS) || dropped[i]) continue;
    bool used = false;
    for (size_t k = 0; k < r->candidates; k++) used = used || ((size_t)r->food_of[k] == i && in_some_bowl(q, r->dish, k));
    if (!used && used_after) any = dropped[i] = true;
    used_after = used_after || used;
  }
  return any;
}

const struct compose_result *compose(const struct library *lib, const struct compose_request *q, struct arena *arena) {
  bool *dropped = ARENA_NEW(arena, bool, q->foods);
  const struct compose_result *r = run(lib, q, dropped, arena);
  for (size_t i = 0; i < q->foods && r->dish && drop_unused_feedings(q, r, dropped); i++) {
    const struct compose_result *again = run(lib, q, dropped, arena);
    if (!again->dish) break;
    r = again;
  }
  return r;
}

const char *compose_aim_words(enum compose_aim aim) {
  static const char *const WORDS[] = {"cheapest", "lightest", "leanest", "nearest to the pattern"};
  return WORDS[aim];
}
