/* mend_search.c: few lines first.
 *
 * 1. A linear program whose costs are sharpened again and again (dear what is hardly used, cheap what is used much) settles
 *    on few columns; those that can go one by one are dropped. Then each is forbidden in turn: does what remains need fewer?
 * 2. Branch and bound with "at most K columns in use" looks for fewer, down to a K that is proven impossible or too long
 *    in doubt, and for the cheapest with the K that is left.
 * 3. With the lines fixed, amounts become whole steps of the kitchen.
 * Further proposals: each line of a choice is forbidden in turn; the best of what then remains is the next choice. */
#include <math.h>

#include "change/mend_search.h"
#include "core/constant_keys.h"

/* A mended bowl is still the same bowl, if that can be: first no line loses more than half or more than doubles, and new
 * foods come at half of what is sensible at most; only when nothing is found so are these widened. Supplements and whole
 * things may always go as far as is sensible. Common practice. */
static const struct { double cut, raise, fresh; } REACH[] = {{0.5, 1, 0.5}, {0.75, 2, 1}, {1, 3, 1}};
static const double MOST_TIMES = 3;            /* a line is not raised to more than 1 + 3 times its amount */
static const double TIER_COST[] = {1.5, 2, 4}; /* ORDER mend_tier: a whole sensible amount of it */
static const double IN_USE = 1e-7;
enum { SHARPENINGS = 7, EXTRA_LINES = 3, IMPROVEMENTS = 3 };
static const long NODES = 1500;

/* ---- columns ------------------------------------------------------------------------------------------------------- */

static void add_column(struct mend_search *s, int candidate, struct mend_column c) {
  if (!(c.most > 0) || (c.whole > 0 && c.most < c.whole)) return;
  if (c.whole > 0) c.most = floor(c.most / c.whole + 1e-6) * c.whole;
  s->column[s->columns++] = c;
  program_column(s->p, candidate, (struct lp_col){.hi = c.most, .cost = c.cost, .second = c.cost + 1e-3, .counted = true});
}

static void own_columns(struct mend_search *s, size_t line, int candidate) {
  const struct mend_own *o = &s->q->own[line];
  double g = s->start[line];
  if (o->keep || s->danger[line] || !(g > 0)) return;
  const struct img_food *f = library_food(s->lib, s->q->ration->line[line].shown_food);
  bool supplement = f && f->part == PART_SUPPLEMENT;
  struct mend_column c = {(int)line, -1, 1, MOST_TIMES * g, 1 / g, o->whole, o->step, supplement, true};
  add_column(s, candidate, c);
  c.sign = -1;
  c.most = g;
  add_column(s, candidate, c);
}

static const char *name_of_line(const struct mend_search *s, size_t line) {
  const char *name = s->q->own[line].name, *text = s->q->ration->line[line].text;
  if (name && name[0]) return name;
  return text && text[0] ? text : library_name(s->lib, s->q->ration->line[line].shown_food);
}

static size_t list_candidates(struct mend_search *s, struct candidate *c, int *of_line, double *base) {
  const struct ration *r = s->q->ration;
  size_t n = 0;
  for (size_t i = 0; i < r->line_count; i++) {
    double g = ration_line_grams_per_day(&r->line[i]);
    s->danger[i] = mend_dangerous(s->lib, &r->line[i], s->q->animal->species) && !s->q->own[i].keep;
    s->start[i] = s->danger[i] ? 0 : g;
    of_line[i] = -1;
    if (!(g > 0)) continue;
    of_line[i] = (int)n;
    base[n] = s->start[i];
    c[n++] = (struct candidate){name_of_line(s, i), r->line[i]};
  }
  for (size_t i = 0; i < s->q->offers; i++) c[n++] = s->q->offer[i].food;
  return n;
}

bool mend_search_begin(struct mend_search *s, const struct library *lib, const struct mend_request *q,
                       const struct check_result *before, struct arena *arena) {
  size_t lines = q->ration->line_count, most = lines + q->offers;
  *s = (struct mend_search){.lib = lib, .q = q, .before = before, .arena = arena};
  s->start = ARENA_NEW(arena, double, lines);
  s->danger = ARENA_NEW(arena, bool, lines);
  s->column = ARENA_NEW(arena, struct mend_column, 2 * most);
  struct candidate *c = ARENA_NEW(arena, struct candidate, most);
  int *of_line = ARENA_NEW(arena, int, lines);
  double *base = ARENA_NEW(arena, double, most);
  size_t count = list_candidates(s, c, of_line, base);
  s->p = program_new(lib, c, count, arena);
  for (size_t i = 0; i < lines; i++)
    if (of_line[i] >= 0) own_columns(s, i, of_line[i]);
  for (size_t i = 0; i < q->offers; i++) {
    const struct mend_offer *o = &q->offer[i];
    struct mend_column col = {-1,
                              (int)i,
                              1,
                              o->most,
                              o->most > 0 ? TIER_COST[o->tier] / o->most : 0,
                              o->whole,
                              o->step,
                              o->tier == MEND_SUPPLEMENT,
                              o->tier == MEND_LARDER};
    add_column(s, (int)(count - q->offers + i), col);
  }
  s->banned = ARENA_NEW(arena, bool, s->columns);
  double *share = ARENA_NEW(arena, double, s->columns);
  for (size_t j = 0; j < s->columns; j++) share[j] = s->column[j].sign;
  return program_bowl(s->p, q->animal, &q->options, &q->limits, base, share) == 0;
}

/* ---- solving with some columns in play ----------------------------------------------------------------------------- */

enum grain { GRAIN_NONE, GRAIN_LEAST, GRAIN_STEPS };

static double within_reach(const struct mend_search *s, const struct mend_column *c) {
  if (c->supplement || c->whole > 0 || c->line < 0) return c->most;
  return c->most * (c->sign < 0 ? REACH[s->reach].cut : REACH[s->reach].raise / MOST_TIMES);
}

/* 'in' NULL: all. Columns out of play are held at nothing. */
static void set_play(struct mend_search *s, const bool *in, enum grain grain, double finer) {
  struct lp_model *m = program_model(s->p);
  for (size_t j = 0; j < s->columns; j++) {
    const struct mend_column *c = &s->column[j];
    struct lp_col *col = &m->col[j];
    double most = within_reach(s, c), step = c->whole > 0 ? c->whole : c->step / finer;
    bool plays = !s->banned[j] && (!in || in[j]) && (c->at_hand || !s->at_hand),
         stepped = c->whole > 0 || (grain == GRAIN_STEPS && step > 0);
    col->hi = plays ? most : 0;
    col->least = col->unit = 0;
    if (!plays || grain == GRAIN_NONE) continue;
    if (stepped) {
      col->unit = step;
      col->hi = floor(most / step + 1e-6) * step;
    } else if (step > 0 && step <= most) {
      col->least = step;
    }
  }
}

static void set_costs(struct mend_search *s, const double *cost) {
  struct lp_model *m = program_model(s->p);
  for (size_t j = 0; j < s->columns; j++) m->col[j].cost = cost ? cost[j] : s->column[j].cost;
}

static bool in_use(const struct mend_search *s, size_t j, double x) { return x > IN_USE * s->column[j].most; }

static int lines_in_use(const struct mend_search *s, const double *x, bool *in) {
  int n = 0;
  for (size_t j = 0; j < s->columns; j++) {
    in[j] = in_use(s, j, x[j]);
    n += in[j];
  }
  return n;
}

static double cost_of(const struct mend_search *s, const double *x) {
  double sum = 0;
  for (size_t j = 0; j < s->columns; j++) sum += s->column[j].cost * x[j];
  return sum;
}

static struct program_answer solve(struct mend_search *s, bool mixed, int most_used, long nodes) {
  struct lp_limits l = {.nodes = nodes, .go_on = s->q->go_on, .user = s->q->user};
  program_model(s->p)->most_used = most_used;
  return program_solve(s->p, mixed, &l);
}

/* ---- 1: a few columns, by sharpened costs -------------------------------------------------------------------------- */

static bool sharpen(struct mend_search *s, bool *best, bool *proven_none) {
  double *cost = ARENA_NEW(s->arena, double, s->columns);
  bool *in = ARENA_NEW(s->arena, bool, s->columns);
  int fewest = -1;
  double cheapest = INFINITY;
  set_play(s, NULL, GRAIN_NONE, 1);
  set_costs(s, NULL);
  for (int k = 0; k < SHARPENINGS; k++) {
    struct program_answer a = solve(s, false, -1, 0);
    *proven_none |= k == 0 && a.status == PROGRAM_NONE;
    if (!a.has_x) break;
    int n = lines_in_use(s, a.x, in);
    double c = cost_of(s, a.x);
    if (fewest < 0 || n < fewest || (n == fewest && c < cheapest)) {
      fewest = n;
      cheapest = c;
      memcpy(best, in, s->columns * sizeof *in);
    }
    for (size_t j = 0; j < s->columns; j++) {
      double part = a.x[j] * s->column[j].cost; /* what it costs by itself: a line's share of its amount */
      cost[j] = s->column[j].cost / (part + 0.02);
    }
    set_costs(s, cost);
  }
  set_costs(s, NULL);
  return fewest >= 0;
}

/* Columns that the others can do without. */
static double prune(struct mend_search *s, bool *in) {
  double cost = INFINITY;
  for (size_t j = s->columns; j-- > 0;) {
    if (!in[j]) continue;
    in[j] = false;
    set_play(s, in, GRAIN_NONE, 1);
    struct program_answer a = solve(s, false, -1, 0);
    if (a.has_x) {
      lines_in_use(s, a.x, in);
      cost = cost_of(s, a.x);
    } else {
      in[j] = true;
    }
  }
  return cost;
}

/* ---- 2: fewer, and the cheapest of as few --------------------------------------------------------------------------- */

/* With at most 'most' columns of all in play; x is kept when there is one. 'none' when that is proven impossible. */
static bool with_at_most(struct mend_search *s, int most, struct mend_choice *out, bool *none) {
  set_play(s, NULL, GRAIN_LEAST, 1);
  struct program_answer a = solve(s, true, most, NODES);
  *none = a.status == PROGRAM_NONE;
  if (!a.has_x) return false;
  out->x = a.x;
  out->cost = cost_of(s, a.x);
  return true;
}

/* The columns that the cheap search found, with whole things whole. */
static bool within(struct mend_search *s, const bool *in, enum grain grain, double finer, struct mend_choice *out) {
  set_play(s, in, grain, finer);
  struct program_answer a = solve(s, true, -1, NODES);
  if (!a.has_x) return false;
  out->x = a.x;
  out->cost = cost_of(s, a.x);
  return true;
}

static bool fewest(struct mend_search *s, bool *in, bool thorough, struct mend_choice *out) {
  bool none = false, have = within(s, in, GRAIN_LEAST, 1, out);
  int k = 0;
  for (size_t j = 0; j < s->columns; j++) k += in[j];
  if (have) k = lines_in_use(s, out->x, in);
  for (int more = 0; !have && more <= EXTRA_LINES; more++) {
    have = with_at_most(s, k + more, out, &none);
    if (have) k = lines_in_use(s, out->x, in);
  }
  if (!have) return false;
  out->fewest_proven = k == 0;
  while (k > 0 && thorough) {
    struct mend_choice fewer = *out;
    if (!with_at_most(s, k - 1, &fewer, &none)) {
      out->fewest_proven = none;
      break;
    }
    *out = fewer;
    k = lines_in_use(s, out->x, in);
  }
  struct mend_choice cheaper = *out;
  if (thorough && with_at_most(s, k, &cheaper, &none) && cheaper.cost < out->cost) *out = cheaper;
  lines_in_use(s, out->x, in);
  return true;
}

/* ---- 3: amounts that a kitchen measures ------------------------------------------------------------------------------ */

static bool in_steps(struct mend_search *s, const bool *in, double finer, struct mend_choice *c) {
  struct mend_choice round = *c;
  if (!within(s, in, GRAIN_STEPS, finer, &round)) return false;
  c->x = round.x;
  c->cost = round.cost;
  c->rounded = true;
  return true;
}

/* The fewest lines may leave no room for round amounts: one line more does. The cheapest such line. */
static bool with_one_more(struct mend_search *s, bool *in, struct mend_choice *c) {
  struct mend_choice best = {.cost = INFINITY};
  size_t added = 0;
  for (size_t j = 0; j < s->columns; j++) {
    struct mend_choice wider = *c;
    if (in[j] || s->banned[j]) continue;
    in[j] = true;
    if (in_steps(s, in, 1, &wider) && wider.cost < best.cost) {
      best = wider;
      added = j;
    }
    in[j] = false;
  }
  if (!isfinite(best.cost)) return false;
  in[added] = true;
  best.fewest_proven = false;
  *c = best;
  return true;
}

static void to_steps(struct mend_search *s, bool *in, struct mend_choice *c) {
  static const double FINER[] = {1, 2, 5}, FINEST[] = {10, 50};
  for (size_t i = 0; i < COUNT_OF(FINER); i++)
    if (in_steps(s, in, FINER[i], c)) return;
  if (with_one_more(s, in, c)) return;
  for (size_t i = 0; i < COUNT_OF(FINEST); i++)
    if (in_steps(s, in, FINEST[i], c)) return;
}

void mend_search_round_freely(struct mend_search *s, struct mend_choice *c) {
  double *x = ARENA_NEW(s->arena, double, s->columns);
  for (size_t j = 0; j < s->columns; j++) {
    const struct mend_column *col = &s->column[j];
    double step = col->whole > 0 ? col->whole : col->step;
    double most = col->sign < 0 || !(step > 0) ? col->most : floor(col->most / step + 1e-6) * step;
    x[j] = step > 0 ? fmin(round(c->x[j] / step) * step, most) : c->x[j];
  }
  c->x = x;
  c->rounded = true;
}

struct few {
  bool *in;
  int lines;
  double cost;
};

/* The quick way to few columns: no proof, no whole things. */
static bool quick(struct mend_search *s, struct few *out, bool *proven_none) {
  out->in = ARENA_NEW(s->arena, bool, s->columns);
  if (!sharpen(s, out->in, proven_none)) return false;
  out->cost = prune(s, out->in);
  out->lines = 0;
  for (size_t j = 0; j < s->columns; j++) out->lines += out->in[j];
  return true;
}

static bool fewer(const struct few *a, const struct few *b) {
  return a->lines != b->lines ? a->lines < b->lines : a->cost < b->cost * 0.98;
}

static void improve(struct mend_search *s, struct few *best) {
  for (int round = 0; round < IMPROVEMENTS; round++) {
    struct few found = *best;
    for (size_t j = 0; j < s->columns; j++) {
      bool none = false;
      struct few f;
      if (!best->in[j] || s->banned[j]) continue;
      s->banned[j] = true;
      if (quick(s, &f, &none) && fewer(&f, &found)) found = f;
      s->banned[j] = false;
    }
    if (found.in == best->in) return;
    *best = found;
  }
}

static bool choose_within(struct mend_search *s, bool thorough, struct mend_choice *out, bool *proven_none) {
  struct few few;
  *out = (struct mend_choice){0};
  *proven_none = false;
  if (!quick(s, &few, proven_none)) return false;
  if (thorough) improve(s, &few);
  if (!fewest(s, few.in, thorough, out)) return false;
  to_steps(s, few.in, out);
  return true;
}

static bool choose_in_reach(struct mend_search *s, bool thorough, struct mend_choice *out, bool *proven_none) {
  for (s->reach = 0; s->reach < (int)COUNT_OF(REACH); s->reach++)
    if (choose_within(s, thorough, out, proven_none)) return true;
  s->reach = (int)COUNT_OF(REACH) - 1;
  return false;
}

/* Who gives a larder wants it used: other foods come in only when it does not suffice. */
static bool choose(struct mend_search *s, bool thorough, struct mend_choice *out, bool *proven_none) {
  bool larder = false;
  for (size_t j = 0; j < s->columns; j++) larder |= s->column[j].line < 0 && s->column[j].at_hand;
  s->at_hand = larder;
  if (larder && choose_in_reach(s, thorough, out, proven_none)) {
    s->at_hand = false;
    return true;
  }
  s->at_hand = false;
  return choose_in_reach(s, thorough, out, proven_none);
}

/* ---- several ---------------------------------------------------------------------------------------------------------- */

static bool same_lines(const struct mend_search *s, const struct mend_choice *a, const struct mend_choice *b) {
  for (size_t j = 0; j < s->columns; j++)
    if (in_use(s, j, a->x[j]) != in_use(s, j, b->x[j])) return false;
  return true;
}

static bool better(struct mend_search *s, const struct mend_choice *a, const struct mend_choice *b) {
  bool *in = ARENA_NEW(s->arena, bool, s->columns);
  int m = lines_in_use(s, a->x, in), n = lines_in_use(s, b->x, in);
  return m != n ? m < n : a->cost < b->cost;
}

static bool is_new(const struct mend_search *s, const struct mend_choice *c, const struct mend_choice *had, size_t count) {
  for (size_t i = 0; i < count; i++)
    if (same_lines(s, c, &had[i])) return false;
  return true;
}

/* The best choice that does without one of the lines of the last. */
static bool next_choice(struct mend_search *s, const struct mend_choice *had, size_t count, struct mend_choice *out) {
  bool found = false, none;
  const struct mend_choice *last = &had[count - 1];
  for (size_t j = 0; j < s->columns; j++) {
    struct mend_choice c;
    if (!in_use(s, j, last->x[j]) || s->banned[j]) continue;
    s->banned[j] = true;
    if (choose(s, false, &c, &none) && is_new(s, &c, had, count) && (!found || better(s, &c, out))) {
      *out = c;
      found = true;
    }
    s->banned[j] = false;
  }
  return found;
}

size_t mend_search_run(struct mend_search *s, struct mend_choice *out, size_t most, bool *proven) {
  size_t n = 0;
  if (!choose(s, !s->q->quick, &out[0], proven)) {
    set_costs(s, NULL);
    set_play(s, NULL, GRAIN_NONE, 1);
    return 0;
  }
  for (n = 1; n < most && next_choice(s, out, n, &out[n]);) n++;
  for (size_t i = 1; i < n; i++)
    for (size_t j = i; j > 0 && better(s, &out[j], &out[j - 1]); j--) {
      struct mend_choice swap = out[j];
      out[j] = out[j - 1];
      out[j - 1] = swap;
    }
  return n;
}
