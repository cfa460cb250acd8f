/* mend_few.c: as few columns as possible, and then of as few the cheapest, with proof.
 *
 * First a choice is found quickly (mend_begin.c). mend_cover.c then looks for fewer, and proves for about every second bowl
 * that there are none. Then a tree of decisions, each column in or out, is walked: for cheaper
 * choices of as many columns, and for fewer where that is not proven. What no walk can beat is cut off by two linear
 * programs at each node:
 *
 *   - With u the most of a column that the rows allow, x / u is at most 1 where it is used at all. So the number of columns
 *     in use is at least (columns decided in) + min sum of x / u over those undecided. The tree is walked for fewer first.
 *   - Then it is walked once more for cheaper ones of as many: there the least cost of a solution is compared as well.
 *
 * Both bounds hold for the rows as they stand; rows that a solution teaches (planes.c) only raise them. Some of those may
 * cut off what is right: where a node is cut off only thanks to them, it counts as open and nothing is said to be proven. A
 * node whose solution uses few enough columns is settled by model_solve like any other answer. */
#include <math.h>

#include "change/mend_search.h"

enum {
  SOLVES = 1000,
  SOLVES_QUICK = 200,
  SOLVES_BLIND = 60,
  SOLVES_AT_HAND = 60000,
  DECISIONS = 6000,
  DECISIONS_QUICK = 1500,
  ASK_EVERY = 16
};
static const long NODES = 300, NODES_AT_HAND = 1500; /* a larder has few ways out, and whoever gives one wants it used */
static const double HAIR = 1e-6, AS_CHEAP = 1e-3;

/* ---- the tree -------------------------------------------------------------------------------------------------------- */

enum side { OPEN, IN, OUT };

struct tree {
  struct mend_search *s;
  struct lp_model *m;
  struct arena solvers;
  struct lp_solver *counts, *costs;           /* the two programs of a node */
  struct lp_solver *firm_counts, *firm_costs; /* the same without rows that may cut off what is right; NULL: not opened */
  double *u;                                  /* [columns] */
  enum side *side;                            /* [columns] */
  bool *used;                                 /* [columns] scratch */
  struct mend_choice *best;
  bool found;
  int lines;           /* of the best */
  double cost;         /* of the best */
  bool ties;           /* cheaper choices of as many columns are looked for as well */
  long left;           /* solves that patience allows */
  double open;         /* the least bound on the number of columns of whatever was not walked to its end */
  bool bold;           /* rows took part that may cut off what is right */
  double root;         /* the bound without them */
  struct lp_col *node; /* [columns] of the model, with the bounds of the node at hand */
};

static void leave_open(struct tree *t, double bound) { t->open = fmin(t->open, bound); }

/* What a walk that is given up leaves open. */
static void leave_node_open(struct tree *t, double bound) { leave_open(t, t->bold ? t->root : bound); }

static double least_in(const struct lp_col *c) { return fmax(c->unit, c->least); }

static void set_side(struct tree *t, size_t j, enum side side) {
  const struct lp_col *c = &t->m->col[j];
  double lo = side == IN ? least_in(c) : 0, hi = side == OUT ? 0 : c->hi;
  t->side[j] = side;
  t->node[j].lo = lo;
  t->node[j].hi = hi;
  lp_change_col(t->counts, (int)j, lo, hi);
  lp_change_col(t->costs, (int)j, lo, hi);
  lp_change_cost(t->counts, (int)j, side == OPEN ? 1 / t->u[j] : 0);
  if (t->firm_costs) lp_change_col(t->firm_costs, (int)j, lo, hi);
  if (!t->firm_counts) return;
  lp_change_col(t->firm_counts, (int)j, lo, hi);
  lp_change_cost(t->firm_counts, (int)j, side == OPEN ? 1 / t->u[j] : 0);
}

/* Both programs anew, with the rows that the model has by now. */
static void open_both(struct tree *t) {
  arena_free(&t->solvers);
  t->firm_counts = t->firm_costs = NULL;
  mend_costs(t->s, NULL);
  t->bold |= model_bold_rows(t->s->p) > 0;
  memcpy(t->node, t->m->col, t->s->columns * sizeof *t->node);
  t->costs = lp_open(t->m, 0, &t->solvers);
  for (size_t j = 0; j < t->s->columns; j++) t->m->col[j].cost = t->side[j] == OPEN ? 1 / t->u[j] : 0;
  t->counts = lp_open(t->m, 0, &t->solvers);
  mend_costs(t->s, NULL);
  for (size_t j = 0; j < t->s->columns; j++)
    if (t->side[j] != OPEN) set_side(t, j, t->side[j]);
}

/* The program of a node without the rows that may cut off what is right. Opened when it is first asked. */
static const struct lp_answer *solve_firm(struct tree *t, bool counts) {
  struct lp_solver **firm = counts ? &t->firm_counts : &t->firm_costs;
  if (!*firm) {
    struct lp_model *m = model_lp(model_firm(t->s->p, &t->solvers));
    m->col = t->node;
    for (size_t j = 0; j < t->s->columns; j++)
      t->node[j].cost = !counts ? t->s->column[j].cost : t->side[j] == OPEN ? 1 / t->u[j] : 0;
    *firm = lp_open(m, 0, &t->solvers);
  }
  t->left--;
  return lp_solve(*firm, NULL);
}

/* What a node's answer says without those rows: the least number of undecided columns, or the least cost. The multipliers of
 * the others may tell already; 'enough' is what is hoped for. */
static double firm_bound(struct tree *t, const struct lp_answer *a, bool counts, double enough) {
  struct arena scratch;
  arena_init(&scratch, t->s->arena->on_full);
  for (size_t j = 0; j < t->s->columns; j++)
    t->node[j].cost = !counts ? t->s->column[j].cost : t->side[j] == OPEN ? 1 / t->u[j] : 0;
  double bound = model_firm_bound(t->s->p, t->node, a->dual, &scratch);
  arena_free(&scratch);
  if (bound >= enough) return bound;
  const struct lp_answer *b = solve_firm(t, counts);
  return b->status == LP_INFEASIBLE ? INFINITY : b->status == LP_OPTIMAL ? fmax(bound, b->objective) : bound;
}

static bool firmly_none(struct tree *t, const struct lp_answer *a) {
  struct arena scratch;
  arena_init(&scratch, t->s->arena->on_full);
  bool none = model_proves_none(t->s->p, t->node, a->farkas, &scratch);
  arena_free(&scratch);
  return none || solve_firm(t, true)->status == LP_INFEASIBLE;
}

/* How many columns a choice may use that is worth looking for. */
static int room_of(const struct tree *t) { return t->ties ? t->lines : t->lines - 1; }

/* The most of each column that the rows allow to a choice of so few columns; what they do not allow at all is out. */
static void find_most(struct tree *t) {
  enum { ROUNDS = 3 };
  size_t n = t->s->columns;
  double *count = ARENA_NEW(t->s->arena, double, n);
  for (size_t j = 0; j < n; j++) {
    t->u[j] = t->m->col[j].hi;
    t->side[j] = t->u[j] > 0 ? OPEN : OUT;
  }
  for (int round = 0; round < ROUNDS; round++) {
    for (size_t j = 0; j < n; j++) t->m->col[j].cost = 0;
    struct lp_solver *one = lp_open(model_lp(model_firm(t->s->p, &t->solvers)), 1, &t->solvers);
    for (size_t j = 0; j < n; j++) count[j] = t->side[j] == OPEN ? 1 / t->u[j] : 0;
    lp_push_row(one, count, -INFINITY, room_of(t));
    for (size_t j = 0; j < n; j++)
      if (t->side[j] == OUT) lp_change_col(one, (int)j, 0, 0);
    for (size_t j = 0; j < n; j++) {
      if (t->side[j] == OUT) continue;
      lp_change_cost(one, (int)j, -1);
      const struct lp_answer *a = lp_solve(one, NULL);
      if (a->status == LP_OPTIMAL) t->u[j] = fmin(t->u[j], -a->objective * (1 + HAIR));
      lp_change_cost(one, (int)j, 0);
      if (!mend_in_use(t->s, j, t->u[j]) || t->u[j] < least_in(&t->m->col[j])) t->side[j] = OUT;
    }
  }
  mend_costs(t->s, NULL);
}

/* Rows for what the counting program lacks, so that its bounds are as high as they can be from the start. */
static void learn_rows(struct tree *t) {
  for (size_t j = 0; j < t->s->columns; j++) t->m->col[j].cost = t->side[j] == OPEN ? 1 / t->u[j] : 0;
  mend_solve(t->s, false, 0);
  mend_costs(t->s, NULL);
}

static const struct lp_answer *solve_one(struct tree *t, bool counts) {
  const struct lp_answer *a = lp_solve(counts ? t->counts : t->costs, NULL);
  t->left--;
  if (a->status == LP_OPTIMAL || a->status == LP_INFEASIBLE) return a;
  open_both(t); /* numbers went astray on the way: afresh */
  return lp_solve(counts ? t->counts : t->costs, NULL);
}

/* The solution of a node that may hold something better; NULL otherwise. 'bound' on the number of columns rises. */
static const struct lp_answer *relax(struct tree *t, int decided_in, double *bound, int *room) {
  const struct lp_answer *a = solve_one(t, true);
  if (a->status == LP_OPTIMAL) {
    *bound = fmax(*bound, decided_in + a->objective);
    if (*bound > room_of(t) + HAIR) {
      double firm = t->bold ? fmax(t->root, decided_in + firm_bound(t, a, true, room_of(t) + HAIR - decided_in)) : *bound;
      if (!(firm > room_of(t) + HAIR)) leave_open(t, firm);
      return NULL;
    }
    bool no_fewer = *bound > t->lines - 1 + HAIR;
    *room = no_fewer ? t->lines : t->lines - 1;
    if (no_fewer) a = solve_one(t, false);
    if (no_fewer && a->status == LP_OPTIMAL && a->objective >= t->cost * (1 - AS_CHEAP)) {
      double dear = t->cost * (1 - AS_CHEAP);
      if (t->bold && !(firm_bound(t, a, false, dear) >= dear)) leave_open(t, t->root);
      return NULL;
    }
  }
  if (a->status == LP_OPTIMAL) return a;
  if (a->status != LP_INFEASIBLE || (t->bold && !firmly_none(t, a))) leave_node_open(t, *bound);
  return NULL;
}

/* The choice with the columns in t->used and no others, if it is the best so far. False: it is proven that there is none. */
static bool settle(struct tree *t) {
  struct mend_search *s = t->s;
  struct mend_choice c = *t->best;
  bool none = false;
  long spent = s->spent;
  if (mend_within(s, t->used, GRAIN_LEAST, 1, &c, &none)) {
    int n = mend_lines_in_use(s, c.x, t->used);
    if (n < t->lines || (n == t->lines && c.cost < t->cost)) {
      *t->best = c;
      t->found = true;
      t->lines = s->shown_lines = n;
      t->cost = c.cost;
    }
  }
  if (!s->at_hand) t->left -= s->spent - spent;
  mend_play(s, NULL, GRAIN_LEAST, 1);
  open_both(t);
  return !none;
}

/* The undecided column that is used most; with 'any' an unused one will do. -1: none. */
static int next_column(const struct tree *t, const double *x, bool any) {
  int best = -1;
  double most = -1;
  for (size_t j = 0; j < t->s->columns; j++) {
    if (t->side[j] != OPEN || (!any && !mend_in_use(t->s, j, x[j]))) continue;
    double part = x[j] / t->u[j];
    if (!(part > most)) continue;
    most = part;
    best = (int)j;
  }
  return best;
}

enum { CLOSED = -1, TRIES = 4 };

/* What is to be decided next, or CLOSED. A solution that uses few enough columns is settled at once; the rows that this
 * teaches may change the node. */
static int look(struct tree *t, int decided_in, double *bound) {
  bool possible = true;
  for (int again = 0, tried = -1;; again++) {
    int room = 0;
    const struct lp_answer *a = relax(t, decided_in, bound, &room);
    if (!a) return CLOSED;
    int n = mend_lines_in_use(t->s, a->x, t->used);
    if (n <= room && n != tried && again < TRIES && !mend_kin_clash(t->s, t->used)) {
      possible = settle(t);
      tried = n;
      continue;
    }
    int next = next_column(t, a->x, false);
    if (next == CLOSED) next = next_column(t, a->x, true);
    if (next == CLOSED && possible) leave_node_open(t, *bound);
    return next;
  }
}

/* What is of one kind with a column that is decided in; NULL: nothing. */
static bool *put_kin_out(struct tree *t, size_t j) {
  const struct mend_search *s = t->s;
  bool *out = NULL;
  for (size_t k = 0; s->column[j].kin > 0 && mend_kin_counts(s) && k < s->columns; k++) {
    if (k == j || s->column[k].kin != s->column[j].kin || t->side[k] != OPEN) continue;
    if (!out) out = ARENA_NEW(s->arena, bool, s->columns);
    out[k] = true;
    set_side(t, k, OUT);
  }
  return out;
}

static void walk(struct tree *t, int decided_in, double bound) {
  if (t->left <= 0 || t->s->stopped || (t->left % ASK_EVERY == 0 && !mend_go_on(t->s))) {
    leave_node_open(t, bound);
    return;
  }
  int j = look(t, decided_in, &bound);
  if (j == CLOSED) return;
  bool *kin = put_kin_out(t, (size_t)j);
  set_side(t, (size_t)j, IN);
  walk(t, decided_in + 1, bound);
  for (size_t k = 0; kin && k < t->s->columns; k++)
    if (kin[k]) set_side(t, k, OPEN);
  set_side(t, (size_t)j, OUT);
  walk(t, decided_in, bound);
  set_side(t, (size_t)j, OPEN);
}

static int whole_bound(double x) { return (int)ceil(x - HAIR); }

/* One walk from the root. False: something was left open. */
static bool walk_all(struct tree *t, bool ties) {
  t->ties = ties;
  t->open = INFINITY;
  mend_play(t->s, NULL, GRAIN_LEAST, 1);
  find_most(t);
  learn_rows(t);
  open_both(t);
  const struct lp_answer *a = solve_one(t, true);
  double root = a->status == LP_OPTIMAL ? a->objective : 0;
  t->root = t->bold && a->status == LP_OPTIMAL ? fmax(0, firm_bound(t, a, true, root)) : root;
  if (!ties) t->s->shown_fewest = whole_bound(t->root);
  walk(t, 0, root);
  return !isfinite(t->open);
}

/* 'best' holds a choice of 'lines' columns, or none (lines -1). First fewer columns are looked for, unless it is proven that
 * these are the 'fewest', then cheaper ones. */
static bool walk_tree(struct mend_search *s, long solves, int lines, bool fewest, struct mend_choice *best) {
  struct tree t = {.s = s, .m = model_lp(s->p), .best = best, .found = lines >= 0, .left = solves};
  t.lines = t.found ? lines : (int)s->columns + 1;
  t.cost = t.found ? best->cost : INFINITY;
  arena_init(&t.solvers, s->arena->on_full);
  t.u = ARENA_NEW(s->arena, double, s->columns);
  t.side = ARENA_NEW(s->arena, enum side, s->columns);
  t.used = ARENA_NEW(s->arena, bool, s->columns);
  t.node = ARENA_NEW(s->arena, struct lp_col, s->columns);
  bool all = fewest || walk_all(&t, false);
  best->fewest = all ? t.lines : whole_bound(fmin(t.open, t.lines));
  s->shown_fewest = best->fewest;
  if (all && t.found) best->least_proven = walk_all(&t, true);
  arena_free(&t.solvers);
  return t.found;
}

/* ---- all of it ------------------------------------------------------------------------------------------------------- */

bool mend_few(struct mend_search *s, bool thorough, struct mend_choice *out, bool *none) {
  *out = (struct mend_choice){.reach = s->reach, .at_hand = s->at_hand, .with = s->with, .cost = INFINITY};
  *none = false;
  int lines = mend_begin(s, thorough, out, none);
  if (*none) return false;
  bool fewest = false;
  if (lines > 1 && !s->stopped) lines = mend_cover(s, lines, thorough ? DECISIONS : DECISIONS_QUICK, out, &fewest);
  if (s->stopped && lines >= 0) { /* what is found is taken; no further proof is begun */
    out->fewest = fewest ? lines : 1;
    return true;
  }
  long solves = !thorough ? SOLVES_QUICK : s->at_hand ? SOLVES_AT_HAND : SOLVES;
  if (lines < 0 && !s->at_hand) solves = SOLVES_BLIND; /* a step further something is found sooner */
  bool found = !s->stopped && walk_tree(s, solves, lines, fewest, out);
  if (found) return true;
  if (mend_kin_counts(s) && !s->at_hand) return false;
  /* However many columns, as long as whole things are whole. */
  s->finishing = s->stopped;
  mend_play(s, NULL, GRAIN_LEAST, 1);
  struct model_answer a = mend_solve(s, true, s->at_hand ? NODES_AT_HAND : NODES);
  *none = a.status == PROGRAM_NONE && a.proven;
  bool *in = ARENA_NEW(s->arena, bool, s->columns);
  if (a.has_x) mend_lines_in_use(s, a.x, in);
  if (!a.has_x || mend_kin_clash(s, in)) return false;
  out->x = a.x;
  out->cost = mend_cost_of(s, a.x);
  return true;
}
