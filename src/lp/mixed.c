/* Branch and bound by bound changes alone: each node is the same tableau, warm.
 *
 * A column that may be "zero or at least least" is free (0 .. hi), in use (least .. hi) or out (0 .. 0); whole units narrow
 * lo and hi to multiples. Depth first, the cheaper side first; undoing a decision restores two bounds, and the dual simplex
 * goes on.
 *
 * Bounds used to prune:
 *  - the node's own value, and for every undecided column the smaller of its two one-step dual penalties;
 *  - with at most K columns in use and s of them positive but undecided while r places are left, at least s - r must go: the
 *    (s - r)-th smallest penalty of pushing one out. */
#include <math.h>

#include "lp/solver.h"

static const double USED = 1e-7, WHOLE = 1e-6; /* relative to least or unit, and to the column's scale */

/* One side of a decision: the column's new bounds, whether it then counts as in use, and what can be reached at best. */
struct side {
  double lo, hi, bound;
  bool taken;
};

struct decision {
  int col;
  double lo, hi; /* before it (scaled) */
  bool taken;
  struct side other; /* not taken yet */
  bool tried_both;
};

struct tree {
  struct lp_solver *s;
  const struct lp_limits *limits;
  struct decision *stack;
  size_t depth, cap;
  double *best_x; /* [n] scaled values of the best answer */
  double best;    /* its scaled objective */
  double root;    /* value of the relaxation */
  bool found;
  bool stopped;
  long nodes, most_nodes;
  double *penalty; /* [n] scratch */
  bool *taken;     /* [n] decided to count as in use, whatever its amount */
};

static double cutoff(const struct tree *t) { return t->found ? t->best - 1e-9 * (1 + fabs(t->best)) : INFINITY; }

struct state {
  double x, lo, hi, least, unit; /* scaled */
  bool counted, taken;
};

static struct state look(const struct tree *t, int col) {
  const struct simplex *x = &t->s->x;
  const struct lp_col *c = &t->s->col[col];
  double scale = x->col_scale[col];
  return (struct state){x->x[col], x->lo[col], x->hi[col], c->least / scale, c->unit / scale, c->counted, t->taken[col]};
}

static double used_above(const struct state *c) { return USED * (c->least > 0 ? c->least : c->unit > 0 ? c->unit : 1); }

static bool in_use(const struct state *c) { return c->x > used_above(c); }

static bool undecided(const struct state *c) { return !c->taken && c->lo < used_above(c) && c->hi > 0; }

static bool not_whole(const struct state *c) {
  if (!(c->unit > 0)) return false;
  double k = c->x / c->unit;
  return fabs(k - floor(k + 0.5)) > WHOLE;
}

static bool below_least(const struct state *c) { return c->least > 0 && in_use(c) && c->x < c->least * (1 - USED); }

/* ---- choosing what to decide --------------------------------------------------------------------------------------- */

struct branch {
  int col;
  struct side down, up;
};

static double bound_after(const struct tree *t, int col, double to, double now) {
  const struct simplex *x = &t->s->x;
  double value = x->x[col];
  if (fabs(to - value) <= 0) return now;
  if (x->slot[col] >= 0) return now + simplex_penalty(x, col, to);
  return now + fabs(x->d[col]) * fabs(to - value);
}

/* The least amount above zero. */
static double least_used(const struct state *c) {
  return c->unit > 0 ? larger(1, ceil(c->least / c->unit - WHOLE)) * c->unit : c->least;
}

static struct branch sides(const struct tree *t, int col, const struct state *c, double now) {
  struct branch b = {.col = col, .down = {.lo = c->lo, .taken = c->taken}, .up = {.hi = c->hi, .taken = true}};
  if (not_whole(c)) {
    double k = floor(c->x / c->unit + WHOLE);
    b.down.hi = k * c->unit;
    b.up.lo = (k + 1) * c->unit;
    if (b.down.hi < c->least) b.down.hi = 0;
    b.up.lo = larger(b.up.lo, least_used(c));
  } else {
    b.down.hi = 0;
    b.up.lo = larger(least_used(c), c->lo);
  }
  b.down.bound = b.down.hi < c->lo ? INFINITY : bound_after(t, col, b.down.hi, now);
  b.up.bound = b.up.lo > c->hi ? INFINITY : c->x >= b.up.lo ? now : bound_after(t, col, b.up.lo, now);
  return b;
}

static double better_side(const struct branch *b) { return smaller(b->down.bound, b->up.bound); }

/* (s - r)-th smallest of the penalties: a partial selection, s is small. */
static double must_go(double *penalty, int s, int r) {
  for (int k = 0; k < s - r; k++)
    for (int j = k + 1; j < s; j++)
      if (penalty[j] < penalty[k]) {
        double swap = penalty[k];
        penalty[k] = penalty[j];
        penalty[j] = swap;
      }
  return penalty[s - r - 1];
}

/* True: 'out' is the column to decide. False: the node needs no decision, or (pruned) can give nothing better. */
static bool choose(struct tree *t, double now, struct branch *out, bool *pruned) {
  int positive = 0, taken = 0;
  double best_score = -1;
  bool some = false;
  *pruned = false;
  struct branch counting = {.col = -1};
  double dearest = -INFINITY;
  for (int j = 0; j < t->s->x.n; j++) {
    struct state c = look(t, j);
    bool open = not_whole(&c) || below_least(&c);
    bool counts = c.counted && t->s->most_used >= 0 && in_use(&c);
    if (counts && !undecided(&c)) taken++;
    if (!open && !(counts && undecided(&c))) continue;
    struct branch b = sides(t, j, &c, now);
    if (counts && undecided(&c)) {
      /* Pushing it out entirely, whatever its own branching would be. */
      t->penalty[positive++] = bound_after(t, j, 0, now);
      if (!open && b.down.bound > dearest) dearest = b.down.bound, counting = b;
    }
    if (!open) continue;
    if (better_side(&b) >= cutoff(t)) {
      *pruned = true;
      return false;
    }
    double score = smaller(b.down.bound, 1e30) - now + 1e-3 * (smaller(b.up.bound, 1e30) - now) + 1e-12 * (t->s->x.n - j);
    if (score > best_score) best_score = score, *out = b, some = true;
  }
  int room = t->s->most_used - taken;
  if (t->s->most_used >= 0 && room < 0) {
    *pruned = true;
    return false;
  }
  if (t->s->most_used >= 0 && positive > room) {
    if (must_go(t->penalty, positive, room) >= cutoff(t)) {
      *pruned = true;
      return false;
    }
    if (!some && counting.col >= 0) {
      *out = counting;
      return true;
    }
  }
  return some;
}

/* ---- walking the tree ------------------------------------------------------------------------------------------------ */

static void apply(struct tree *t, int col, double lo, double hi, bool taken) {
  t->taken[col] = taken;
  simplex_set_bounds(&t->s->x, col, lo, hi);
}

static void decide(struct tree *t, const struct branch *b) {
  const struct simplex *x = &t->s->x;
  bool up_first = b->up.bound <= b->down.bound;
  const struct side *first = up_first ? &b->up : &b->down;
  struct decision d = {.col = b->col, .lo = x->lo[b->col], .hi = x->hi[b->col], .taken = t->taken[b->col]};
  d.other = up_first ? b->down : b->up;
  ARENA_PUSH(t->s->arena, t->stack, t->depth, t->cap, d);
  apply(t, b->col, first->lo, first->hi, first->taken);
}

/* Back to the nearest decision whose other side may still hold something better. False: the tree is done. */
static bool step_back(struct tree *t) {
  while (t->depth > 0) {
    struct decision *d = &t->stack[t->depth - 1];
    if (!d->tried_both && d->other.bound < cutoff(t) && d->other.lo <= d->other.hi) {
      d->tried_both = true;
      apply(t, d->col, d->other.lo, d->other.hi, d->other.taken);
      return true;
    }
    apply(t, d->col, d->lo, d->hi, d->taken);
    t->depth--;
  }
  return false;
}

static double open_bound(const struct tree *t) {
  double bound = t->found ? t->best : INFINITY;
  for (size_t i = 0; i < t->depth; i++)
    if (!t->stack[i].tried_both) bound = smaller(bound, larger(t->root, t->stack[i].other.bound));
  return bound;
}

static void remember(struct tree *t, double now) {
  for (int j = 0; j < t->s->x.n; j++) {
    struct state c = look(t, j);
    double x = c.x;
    if (c.unit > 0) x = floor(x / c.unit + 0.5) * c.unit;
    if (c.counted && !in_use(&c)) x = larger(0, c.lo);
    t->best_x[j] = x;
  }
  t->best = now;
  t->found = true;
}

static void natural_answer(struct tree *t) {
  struct lp_answer *a = &t->s->answer;
  a->has_x = t->found;
  if (!t->found) return;
  for (int j = 0; j < t->s->x.n; j++) a->x[j] = t->best_x[j] * t->s->x.col_scale[j];
  solver_fill_activity(t->s);
}

static bool may_go_on(struct tree *t) {
  if (t->nodes >= t->most_nodes) return false;
  if (!t->limits || !t->limits->go_on || t->nodes % 64 != 0) return true;
  natural_answer(t);
  return t->limits->go_on(t->limits->user, &t->s->answer, open_bound(t) / t->s->cost_scale, t->nodes);
}

/* One node: solve, then decide or conclude. True when a decision was made and the walk goes deeper. */
static bool visit(struct tree *t, enum simplex_end *end) {
  *end = solver_run(t->s, t->limits, false);
  /* Limits that contradict each other by a hair, if at all: with a hair of tolerance the node can be judged. */
  for (t->s->x.tolerance = 1e-9; *end == SIMPLEX_TROUBLE && t->s->x.tolerance < 1e-6; t->s->x.tolerance *= 10)
    *end = solver_run(t->s, t->limits, false);
  t->s->x.tolerance = 0;
  t->nodes++;
  if (*end != SIMPLEX_OPTIMAL) return false;
  double now = simplex_objective(&t->s->x);
  if (t->nodes == 1) t->root = now;
  if (now >= cutoff(t)) return false;
  struct branch b;
  bool pruned;
  if (choose(t, now, &b, &pruned)) {
    decide(t, &b);
    return true;
  }
  if (!pruned) remember(t, now);
  return false;
}

enum { NODES_DEFAULT = 2000000 };

/* With every decision of the best answer held, the continuous rest is solved once more: bounds exact, duals right. */
static void settle(struct tree *t) {
  struct simplex *x = &t->s->x;
  double *lo = ARENA_NEW(t->s->arena, double, (size_t)x->n), *hi = ARENA_NEW(t->s->arena, double, (size_t)x->n);
  memcpy(lo, x->lo, (size_t)x->n * sizeof *lo);
  memcpy(hi, x->hi, (size_t)x->n * sizeof *hi);
  for (int j = 0; j < x->n; j++) {
    const struct lp_col *c = &t->s->col[j];
    double v = t->best_x[j], least = c->least / x->col_scale[j];
    bool out = v <= USED * (least > 0 ? least : 1) && (c->least > 0 || c->counted || c->unit > 0) && lo[j] <= 0;
    if (c->unit > 0) {
      simplex_set_bounds(x, j, v, v);
    } else if (out) {
      simplex_set_bounds(x, j, 0, 0);
    } else if (c->least > 0) {
      simplex_set_bounds(x, j, larger(lo[j], least), hi[j]);
    }
  }
  if (solver_run(t->s, t->limits, true) == SIMPLEX_OPTIMAL) {
    solver_conclude(t->s, SIMPLEX_OPTIMAL);
    lp_polish(t->s, t->limits);
  } else {
    natural_answer(t);
  }
  for (int j = 0; j < x->n; j++) simplex_set_bounds(x, j, lo[j], hi[j]);
}

const struct lp_answer *lp_solve_mixed(struct lp_solver *s, const struct lp_limits *limits) {
  size_t n = (size_t)s->x.n;
  struct tree t = {.s = s,
                   .limits = limits,
                   .best_x = ARENA_NEW(s->arena, double, n),
                   .penalty = ARENA_NEW(s->arena, double, n),
                   .taken = ARENA_NEW(s->arena, bool, n),
                   .best = INFINITY,
                   .most_nodes = limits && limits->nodes > 0 ? limits->nodes : NODES_DEFAULT};
  struct lp_answer *a = &s->answer;
  enum simplex_end end, trouble = SIMPLEX_OPTIMAL;
  bool deeper = visit(&t, &end);
  if (t.nodes == 1 && end != SIMPLEX_OPTIMAL) {
    solver_conclude(s, end);
    a->nodes = 1;
    return a;
  }
  while (deeper || step_back(&t)) {
    if (!may_go_on(&t)) {
      t.stopped = true;
      break;
    }
    deeper = visit(&t, &end);
    if (end == SIMPLEX_TROUBLE || end == SIMPLEX_LIMIT) trouble = end;
  }
  double bound = t.stopped ? open_bound(&t) : t.best;
  while (t.depth > 0) { /* the caller's bounds come back */
    struct decision *d = &t.stack[--t.depth];
    apply(&t, d->col, d->lo, d->hi, d->taken);
  }
  if (t.found) {
    settle(&t);
    a->has_x = true;
  } else {
    memset(a->farkas, 0, (size_t)s->x.m * sizeof *a->farkas);
    a->has_x = false;
  }
  a->nodes = t.nodes;
  a->pivots = s->x.pivots;
  a->status = t.stopped ? LP_STOPPED : trouble != SIMPLEX_OPTIMAL ? LP_TROUBLE : t.found ? LP_OPTIMAL : LP_INFEASIBLE;
  a->bound = a->status == LP_OPTIMAL ? a->objective : bound / s->cost_scale;
  return a;
}
