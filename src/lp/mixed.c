/* Branch and bound by bound changes alone: each node is the same tableau, warm.
 *
 * A column that may be "zero or at least least" is free (0 .. hi), in use (least .. hi) or out (0 .. 0); whole units narrow
 * lo and hi to multiples. Depth first, the cheaper side first; undoing a decision restores two bounds, and the dual simplex
 * goes on.
 *
 * Going deep first can get lost far from the best answer. So the search is narrow at first: it takes nothing for worth
 * having that is dearer than a guess a little above the relaxation. If that leaves nothing, nothing under the guess exists,
 * which is a bound; the guess moves on by twice the distance, and the walk begins again. The last walk costs about as much
 * as all before it.
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
  double here;       /* bound of the side taken now */
  struct side other; /* not taken yet */
  bool tried_both;
};

/* A column in use, and what pushing it out costs at least. */
struct price {
  int col;
  double out;
};

struct tree {
  struct lp_solver *s;
  const struct lp_limits *limits;
  struct decision *stack;
  size_t depth, cap;
  double *best_x; /* [n] scaled values of the best answer */
  double best;    /* its scaled objective */
  double root;    /* nothing is better than this: the relaxation, then the guesses that failed */
  double guess;   /* nothing dearer is looked at in this walk */
  bool guessed;   /* and something was left out for that reason alone */
  bool found;
  bool stopped;
  long nodes, most_nodes;
  struct price *price; /* [n] scratch */
  bool *taken;         /* [n] decided to count as in use, whatever its amount */
};

static double worth_less(const struct tree *t) { return t->found ? t->best - 1e-9 * (1 + fabs(t->best)) : INFINITY; }

/* Can a node of this value hold nothing worth having? Remembers if it is only the guess that says so. */
static bool not_worth(struct tree *t, double value) {
  if (value >= worth_less(t)) return true;
  if (!(value >= t->guess)) return false;
  t->guessed = true;
  return true;
}

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
  struct simplex *x = &t->s->x;
  double value = x->x[col];
  if (fabs(to - value) <= 1e-9 * (1 + fabs(to))) return now; /* it is there, but for rounding */
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

/* The 'count' cheapest to the front, in order: a partial selection, the list is short. */
static void cheapest_first(struct price *p, int n, int count) {
  for (int k = 0; k < count; k++)
    for (int j = k + 1; j < n; j++)
      if (p[j].out < p[k].out) {
        struct price swap = p[k];
        p[k] = p[j];
        p[j] = swap;
      }
}

/* With 'room' for fewer than the 'n' columns in use that are not decided, n - room of them must go: at least one as dear as
 * the (n - room)-th cheapest. That one is decided next: out costs its price, in leaves the next dearer one to go instead. */
static double count_bound(struct tree *t, int n, int room, double now, struct branch *out) {
  int go = n - room;
  if (go <= 0) return now;
  cheapest_first(t->price, n, go < n ? go + 1 : n);
  const struct price *at = &t->price[go - 1];
  struct state c = look(t, at->col);
  double least = larger(c.lo, least_used(&c)), reach = c.x >= least ? now : bound_after(t, at->col, least, now);
  bool fits = least <= c.hi && go < n;
  out->col = at->col;
  out->down = (struct side){c.lo, 0, at->out, false};
  out->up = (struct side){least, c.hi, fits ? larger(at[1].out, reach) : INFINITY, true};
  return at->out;
}

enum verdict { DECIDE, COMPLETE, PRUNED };

/* DECIDE: 'out' is next. COMPLETE: the node needs no decision. PRUNED: it can give nothing better. */
static enum verdict choose(struct tree *t, double now, struct branch *out) {
  bool limited = t->s->most_used >= 0, some = false;
  int positive = 0, taken = 0;
  double best_score = -1;
  for (int j = 0; j < t->s->x.n; j++) {
    if (!(t->s->x.x[j] > 0)) continue;
    struct state c = look(t, j);
    if (limited && c.counted && in_use(&c)) {
      if (undecided(&c)) {
        t->price[positive++] = (struct price){j, bound_after(t, j, 0, now)};
      } else {
        taken++;
      }
    }
    if (!not_whole(&c) && !below_least(&c)) continue;
    struct branch b = sides(t, j, &c, now);
    if (not_worth(t, better_side(&b))) return PRUNED;
    double score = smaller(b.down.bound, 1e30) - now + 1e-3 * (smaller(b.up.bound, 1e30) - now);
    if (score > best_score) best_score = score, *out = b, some = true;
  }
  int room = limited ? t->s->most_used - taken : 0;
  if (room < 0) return PRUNED;
  if (limited && positive > room) {
    if (not_worth(t, count_bound(t, positive, room, now, out))) return PRUNED;
    return DECIDE;
  }
  return some ? DECIDE : COMPLETE;
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
  d.here = first->bound;
  ARENA_PUSH(t->s->arena, t->stack, t->depth, t->cap, d);
  apply(t, b->col, first->lo, first->hi, first->taken);
}

/* Back to the nearest decision whose other side may still hold something better. False: the tree is done. */
static bool step_back(struct tree *t) {
  while (t->depth > 0) {
    struct decision *d = &t->stack[t->depth - 1];
    if (!d->tried_both && d->other.lo <= d->other.hi && !not_worth(t, d->other.bound)) {
      d->tried_both = true;
      d->here = d->other.bound;
      apply(t, d->col, d->other.lo, d->other.hi, d->other.taken);
      return true;
    }
    apply(t, d->col, d->lo, d->hi, d->taken);
    t->depth--;
  }
  return false;
}

/* Nothing still open can be better than this: the node about to be visited, and all sides not taken yet. */
static double open_bound(const struct tree *t) {
  double bound = t->found ? t->best : INFINITY;
  if (t->guessed) bound = smaller(bound, t->guess);
  bound = smaller(bound, t->depth > 0 ? larger(t->root, t->stack[t->depth - 1].here) : t->root);
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
  if (!t->limits || !t->limits->go_on || t->nodes % 64 != 0 || t->nodes == 0) return true;
  natural_answer(t);
  return t->limits->go_on(t->limits->user, &t->s->answer, open_bound(t) / t->s->cost_scale, t->nodes);
}

/* One node: solve, then decide or conclude. True when a decision was made and the walk goes deeper. */
static bool visit(struct tree *t, enum simplex_end *end) {
  t->s->x.enough = smaller(worth_less(t), t->guess);
  *end = solver_run(t->s, t->limits, false);
  /* Limits that contradict each other by a hair, if at all: with a hair of tolerance the node can be judged. */
  for (t->s->x.tolerance = 1e-9; *end == SIMPLEX_TROUBLE && t->s->x.tolerance < 1e-6; t->s->x.tolerance *= 10)
    *end = solver_run(t->s, t->limits, false);
  t->s->x.tolerance = 0;
  t->nodes++;
  if (*end == SIMPLEX_DEAR) not_worth(t, t->s->x.enough);
  t->s->x.enough = INFINITY;
  if (*end != SIMPLEX_OPTIMAL) return false;
  double now = simplex_objective(&t->s->x);
  if (not_worth(t, now)) return false;
  struct branch b;
  enum verdict verdict = choose(t, now, &b);
  if (verdict == DECIDE) decide(t, &b);
  if (verdict == COMPLETE) remember(t, now);
  return verdict == DECIDE;
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

static const double FIRST_GUESS = 0.005, WIDER = 2.5;

/* One walk over the tree under the guess. */
static enum simplex_end walk(struct tree *t) {
  enum simplex_end end, trouble = SIMPLEX_OPTIMAL;
  t->guessed = false;
  for (bool more = true; more;) {
    if (!may_go_on(t)) {
      t->stopped = true;
      break;
    }
    bool deeper = visit(t, &end);
    if (end == SIMPLEX_TROUBLE || end == SIMPLEX_LIMIT) trouble = end;
    more = deeper || step_back(t);
  }
  return trouble;
}

static enum simplex_end search(struct tree *t) {
  double size = fabs(t->root) + 1e-3;
  for (double step = FIRST_GUESS * size;; step *= WIDER) {
    t->guess = step < size ? t->root + step : INFINITY; /* far from the relaxation the walls only cost walks */
    enum simplex_end trouble = walk(t);
    if (trouble != SIMPLEX_OPTIMAL || t->stopped || t->found || !t->guessed) return trouble;
    t->root = t->guess;
  }
}

const struct lp_answer *lp_solve_mixed(struct lp_solver *s, const struct lp_limits *limits) {
  size_t n = (size_t)s->x.n;
  struct lp_answer *a = &s->answer;
  lp_solve(s, limits);
  a->nodes = 1;
  if (a->status != LP_OPTIMAL) return a;
  struct tree t = {.s = s,
                   .limits = limits,
                   .best_x = ARENA_NEW(s->arena, double, n),
                   .price = ARENA_NEW(s->arena, struct price, n),
                   .taken = ARENA_NEW(s->arena, bool, n),
                   .best = INFINITY,
                   .root = simplex_objective(&s->x),
                   .most_nodes = limits && limits->nodes > 0 ? limits->nodes : NODES_DEFAULT};
  enum simplex_end trouble = search(&t);
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
