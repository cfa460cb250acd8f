/* mend_begin.c: few columns quickly, for the search to begin with.
 *
 * Costs that are sharpened again and again (dear what is hardly used, cheap what is used much) settle on few columns, and
 * those that the others can do without are dropped. Where these will not do with whole things whole, it is begun in wholes.
 */
#include <math.h>

#include "change/mend_search.h"

enum { SHARPENINGS = 7, BEGINNINGS = 4, BEGINNINGS_QUICK = 2 };

struct sharpest {
  bool *in;
  int lines;
  double cost;
};

/* By name, and by its place among those of one name (the same thing fed less often): where a row stands in a table of offers
 * must not matter. */
static uint32_t called(const struct mend_search *s, size_t column) {
  const struct lp_col *col = model_lp(s->p)->col;
  uint32_t h = 2166136261u;
  for (const char *c = col[column].name; *c; c++) h = (h ^ (unsigned char)*c) * 16777619u;
  for (size_t j = 0; j < column; j++)
    if (strcmp(col[j].name, col[column].name) == 0) h = (h ^ 1) * 16777619u;
  return h;
}

static double by_chance(int beginning, uint32_t name) {
  uint32_t h = (uint32_t)beginning * 2654435761u ^ name * 2246822519u;
  h = (h ^ (h >> 15)) * 2654435769u;
  return 0.3 + (double)((h ^ (h >> 13)) & 0xFFFF) / 0xFFFF * 1.4;
}

/* Each beginning weighs the columns a little differently: what is cheap by a hair need not lead to few. The first takes
 * costs as they are; to the second a portion that covers many gaps is cheap. */
static double leaning(const struct mend_search *s, int beginning, size_t column) {
  static const double OF_NO_USE = 0.25;
  if (beginning == 0) return 1;
  return beginning == 1 ? 1 / (OF_NO_USE + s->column[column].covers) : by_chance(beginning, called(s, column));
}

static double *leaning_costs(const struct mend_search *s, int beginning) {
  double *cost = ARENA_NEW(s->arena, double, s->columns);
  for (size_t j = 0; j < s->columns; j++) cost[j] = s->column[j].cost * leaning(s, beginning, j);
  return cost;
}

static void sharpen(struct mend_search *s, int beginning, struct sharpest *best, bool *none) {
  const double *first = leaning_costs(s, beginning);
  double *cost = ARENA_NEW(s->arena, double, s->columns);
  bool *in = ARENA_NEW(s->arena, bool, s->columns);
  mend_play(s, NULL, GRAIN_NONE, 1);
  mend_costs(s, first);
  for (int k = 0; k < SHARPENINGS; k++) {
    struct model_answer a = mend_solve(s, false, 0);
    if (k == 0) *none = a.status == PROGRAM_NONE;
    if (!a.has_x) break;
    int n = mend_lines_in_use(s, a.x, in);
    double c = mend_cost_of(s, a.x);
    if (best->lines < 0 || n < best->lines || (n == best->lines && c < best->cost)) {
      best->lines = n;
      best->cost = c;
      memcpy(best->in, in, s->columns * sizeof *in);
    }
    for (size_t j = 0; j < s->columns; j++) {
      double part = a.x[j] * s->column[j].cost; /* what it costs by itself: a line's share of its amount */
      cost[j] = first[j] / (part + 0.02);
    }
    mend_costs(s, cost);
  }
  mend_costs(s, NULL);
}

/* Columns that the others can do without. */
static void prune(struct mend_search *s, bool *in) {
  for (size_t j = s->columns; j-- > 0 && mend_go_on(s);) {
    if (!in[j]) continue;
    in[j] = false;
    mend_play(s, in, GRAIN_NONE, 1);
    struct model_answer a = mend_solve(s, false, 0);
    if (a.has_x)
      mend_lines_in_use(s, a.x, in);
    else
      in[j] = true;
  }
}

/* ---- of each kind one ---- */

/* A solution with one of each kind is looked for by forbidding, of two that are used, the one that is used less as a share
 * of the most that may be; where nothing is possible then, the other. */
struct parting {
  struct mend_search *s;
  const double *cost;
  bool whole; /* with whole things whole */
  int left;   /* solves */
  bool none;  /* nothing is possible even with all of each kind */
  double *x;  /* the solution found */
  bool *in;   /* scratch */
};

/* False: there are no two of a kind in use. */
static bool two_of_a_kind(const struct mend_search *s, const double *x, const bool *in, size_t *less, size_t *more) {
  for (size_t i = 0; i < s->columns; i++)
    for (size_t j = 0; in[i] && s->column[i].kin > 0 && j < i; j++) {
      if (!in[j] || s->column[j].kin != s->column[i].kin) continue;
      bool first = x[i] / s->column[i].most < x[j] / s->column[j].most;
      *less = first ? i : j;
      *more = first ? j : i;
      return true;
    }
  return false;
}

/* What is forbidden stays so when it is found. */
static bool part(struct parting *p, bool first) {
  enum { WHOLE_NODES = 300 };
  struct mend_search *s = p->s;
  size_t less, more;
  if (p->left-- <= 0 || !mend_go_on(s)) return false;
  mend_play(s, NULL, p->whole ? GRAIN_LEAST : GRAIN_NONE, 1);
  mend_costs(s, p->cost);
  struct model_answer a = mend_solve(s, p->whole, p->whole ? WHOLE_NODES : 0);
  if (first) p->none = a.status == PROGRAM_NONE;
  if (!a.has_x) return false;
  p->x = a.x;
  mend_lines_in_use(s, a.x, p->in);
  if (!mend_kin_counts(s) || !two_of_a_kind(s, a.x, p->in, &less, &more)) return true;
  for (int k = 0; k < 2; k++) {
    size_t out = k == 0 ? less : more;
    s->banned[out] = true;
    if (part(p, false)) return true;
    s->banned[out] = false;
  }
  return false;
}

enum { PARTINGS = 24, PARTINGS_WHOLE = 6 };

/* Few columns, of each kind one. False: so none is found. */
static bool part_kin(struct mend_search *s, int beginning, struct sharpest *few, bool *none) {
  bool *banned = ARENA_NEW(s->arena, bool, s->columns), nothing = false;
  struct parting p = {.s = s, .cost = leaning_costs(s, beginning), .left = PARTINGS};
  p.in = ARENA_NEW(s->arena, bool, s->columns);
  memcpy(banned, s->banned, s->columns * sizeof *banned);
  bool parted = !mend_kin_counts(s) || part(&p, true);
  if (mend_kin_counts(s)) *none = p.none;
  mend_costs(s, NULL);
  few->lines = -1;
  if (parted) sharpen(s, beginning, few, mend_kin_counts(s) ? &nothing : none);
  memcpy(s->banned, banned, s->columns * sizeof *banned);
  return few->lines >= 0 && !mend_kin_clash(s, few->in);
}

/* The best of several beginnings; how many columns it has, -1: none is found. 'possible': without regard to kin and whole
 * things there is one. */
static int begin_well(struct mend_search *s, int beginnings, struct mend_choice *out, bool *none) {
  struct sharpest few = {.in = ARENA_NEW(s->arena, bool, s->columns), .lines = -1};
  int lines = -1;
  for (int k = 0; k < beginnings && (k == 0 || (mend_go_on(s) && !*none)); k++) {
    struct mend_choice c = *out;
    bool nothing = false;
    if (!part_kin(s, k, &few, k == 0 ? none : &nothing)) continue;
    prune(s, few.in);
    s->finishing = s->stopped;
    bool found = mend_within(s, few.in, GRAIN_LEAST, 1, &c, &nothing);
    s->finishing = false;
    if (!found) continue;
    int n = mend_lines_in_use(s, c.x, few.in);
    if (lines >= 0 && (n > lines || (n == lines && c.cost >= out->cost))) continue;
    *out = c;
    lines = s->shown_lines = n;
  }
  return lines;
}

/* A column less at a time, as long as the rest will do with whole things whole. */
static void prune_whole(struct mend_search *s, bool *in, struct mend_choice *c) {
  for (size_t j = s->columns; j-- > 0 && mend_go_on(s);) {
    struct mend_choice less = *c;
    bool none;
    if (!in[j]) continue;
    in[j] = false;
    if (mend_within(s, in, GRAIN_LEAST, 1, &less, &none)) {
      *c = less;
      mend_lines_in_use(s, c->x, in);
    } else {
      in[j] = true;
    }
  }
}

/* Few columns were found, but not with whole tablets: one that was chosen for the part that is needed of it may be too large
 * as a whole. From the start with whole things whole, of each kind one; then a column less at a time. How many columns it
 * has, -1: none is found. */
static int begin_in_wholes(struct mend_search *s, int beginning, struct mend_choice *out) {
  bool *banned = ARENA_NEW(s->arena, bool, s->columns);
  struct parting p = {.s = s, .cost = leaning_costs(s, beginning), .whole = true, .left = PARTINGS_WHOLE};
  struct mend_choice c = *out;
  p.in = ARENA_NEW(s->arena, bool, s->columns);
  memcpy(banned, s->banned, s->columns * sizeof *banned);
  bool found = part(&p, true);
  mend_costs(s, NULL);
  memcpy(s->banned, banned, s->columns * sizeof *banned);
  if (!found) return -1;
  c.x = p.x;
  c.cost = mend_cost_of(s, p.x);
  prune_whole(s, p.in, &c);
  *out = c;
  return s->shown_lines = mend_lines_in_use(s, c.x, p.in);
}

/* A bowl may be possible with a part of a tin less and only so because parts are not whole: of each whole thing of the
 * owner's one is taken out in turn, then all. How many columns it has, -1: none is found. */
static int begin_with_whole(struct mend_search *s, struct mend_choice *out) {
  int lines = -1;
  for (size_t j = 0; j < s->columns && lines < 0 && mend_go_on(s); j++) {
    const struct mend_column *c = &s->column[j];
    bool none = false;
    if (c->sign > 0 || !(c->whole > 0) || !(mend_within_reach(s, j, s->reach) >= c->whole)) continue;
    s->forced = (int)j;
    for (int all = 0; all < 2 && lines < 0 && mend_go_on(s); all++) {
      s->forced_to = all ? mend_within_reach(s, j, s->reach) : c->whole;
      lines = begin_well(s, BEGINNINGS_QUICK, out, &none);
    }
  }
  s->forced = -1;
  return lines;
}

int mend_begin(struct mend_search *s, bool thorough, struct mend_choice *out, bool *none) {
  int lines = begin_well(s, thorough ? BEGINNINGS : BEGINNINGS_QUICK, out, none);
  if (*none) return -1;
  if (lines < 0 && s->with == MEND_BOTH && mend_go_on(s)) lines = begin_in_wholes(s, 0, out);
  return lines < 0 ? begin_with_whole(s, out) : lines;
}
