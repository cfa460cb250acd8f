/* The walk over the tree of decisions; what is decided and why is in mixed.h.
 *
 * Depth first, the cheaper side first. On the way back the tableau of the node is put in place again as it was (kept.h), so
 * every solve starts one bound away from a solved node.
 *
 * Going deep first can get lost far from the best answer, and the bounds of a node settle little as long as no good answer
 * is known. So the search is narrow at first: it takes nothing for worth having that is dearer than a guess a little above
 * the relaxation. If that leaves nothing, nothing under the guess exists, which is a bound; the guess moves away by a
 * factor, and the walk begins again. All walks cost about twice what the last one would with the best cost known beforehand.
 */
#include "lp/mixed.h"

#include <math.h>

/* ---- decisions made and taken back ---- */

static void make_frame(struct tree *t) {
  size_t n = (size_t)t->s->x.n;
  struct frame f = {.out = ARENA_NEW(&t->scratch, double, 2 * n), .taken = ARENA_NEW(&t->scratch, bool, n)};
  ARENA_PUSH(&t->scratch, t->frame, t->made, t->cap, f);
}

static void take_side(struct tree *t, int col, const struct side *side, double from) {
  if (side->hi == 0) {
    t->left_out = col;
    t->left_from = from;
  }
  node_apply(t, col, side->lo, side->hi, side->taken);
}

static void decide(struct tree *t, const struct branch *b, double now) {
  size_t n = (size_t)t->s->x.n;
  if (t->depth == t->made) make_frame(t);
  struct frame *f = &t->frame[t->depth++];
  kept_save(&f->at, &t->s->x, &t->scratch);
  memcpy(f->out, t->out, 2 * n * sizeof *f->out);
  memcpy(f->taken, t->taken, n * sizeof *f->taken);
  f->value = now;
  f->col = b->col;
  bool up_first = b->up.bound < b->down.bound;
  f->second = up_first ? b->down : b->up;
  take_side(t, b->col, up_first ? &b->up : &b->down, now);
}

/* Back to the nearest decision whose other side may still hold something
 * better. False: the tree is done. */
static bool step_back(struct tree *t) {
  size_t n = (size_t)t->s->x.n;
  while (t->depth > 0) {
    const struct frame *f = &t->frame[--t->depth];
    if (f->second.lo > f->second.hi || tree_not_worth(t, f->second.bound)) continue;
    kept_restore(&f->at, &t->s->x);
    memcpy(t->out, f->out, 2 * n * sizeof *f->out);
    memcpy(t->taken, f->taken, n * sizeof *f->taken);
    t->here = f->second.bound;
    t->priced = true;
    take_side(t, f->col, &f->second, f->value);
    return true;
  }
  return false;
}

/* ---- one node
 * ----------------------------------------------------------------------------------------------------------
 */

/* Nothing still open can be better than this: the node about to be visited, and
 * all sides not taken yet. */
static double open_bound(const struct tree *t) {
  double bound = t->found ? t->best : INFINITY;
  if (t->guessed) bound = smaller(bound, t->guess);
  bound = smaller(bound, larger(t->root, t->here));
  for (size_t i = 0; i < t->depth; i++) bound = smaller(bound, larger(t->root, t->frame[i].second.bound));
  return bound;
}

static void natural_answer(struct tree *t) {
  struct lp_answer *a = &t->s->answer;
  a->has_x = t->found;
  if (!t->found) return;
  for (int j = 0; j < t->s->x.n; j++) a->x[j] = t->best_x[j] * t->s->x.col_scale[j];
  solver_fill_activity(t->s);
}

enum { NODES_DEFAULT = 2000000, ASK_EVERY = 64 };

static bool may_go_on(struct tree *t) {
  if (t->nodes >= t->most_nodes) return false;
  if (!t->limits || !t->limits->go_on || t->nodes < t->ask_at) return true;
  t->ask_at = t->nodes + ASK_EVERY;
  natural_answer(t);
  return t->limits->go_on(t->limits->user, &t->s->answer, open_bound(t) / t->s->cost_scale, t->nodes);
}

/* Remembers what it has cost to leave a column out, up to where the solve was
 * given up. */
static void note_habit(struct tree *t, enum simplex_end end) {
  double value = end == SIMPLEX_OPTIMAL ? simplex_objective(&t->s->x) : tree_dear(t);
  if (t->left_out >= 0 && isfinite(value)) {
    t->habit[t->left_out].cost += larger(0, value - t->left_from);
    t->habit[t->left_out].times++;
  }
  t->left_out = -1;
}

static enum simplex_end solve_node(struct tree *t) {
  struct simplex *x = &t->s->x;
  double before = simplex_objective(x);
  long pivots = x->pivots;
  x->enough = tree_dear(t);
  enum simplex_end end = solver_run(t->s, t->limits, false);
  /* Limits that contradict each other by a hair, if at all: with a hair of
   * tolerance the node can be judged. */
  for (x->tolerance = 1e-9; end == SIMPLEX_TROUBLE && x->tolerance < 1e-6; x->tolerance *= 10)
    end = solver_run(t->s, t->limits, false);
  x->tolerance = 0;
  if (end == SIMPLEX_DEAR) tree_not_worth(t, x->enough);
  if (end == SIMPLEX_TROUBLE || end == SIMPLEX_LIMIT) t->trouble = end;
  note_habit(t, end);
  if (x->pivots != pivots || simplex_objective(x) != before) t->priced = false;
  x->enough = INFINITY;
  return end;
}

/* Solves until bounds settle nothing more, then decides or concludes. True when
 * a decision was made and the walk goes deeper. */
static bool visit(struct tree *t) {
  struct branch b;
  enum verdict verdict = AGAIN;
  double now = 0;
  t->nodes++;
  while (verdict == AGAIN) {
    if (solve_node(t) != SIMPLEX_OPTIMAL) return false;
    now = simplex_objective(&t->s->x);
    t->here = larger(t->here, now);
    verdict = tree_not_worth(t, now) ? PRUNED : node_judge(t, now, &b);
  }
  if (verdict == DECIDE) decide(t, &b, now);
  if (verdict == COMPLETE) node_remember(t, now);
  return verdict == DECIDE;
}

/* ---- the search
 * --------------------------------------------------------------------------------------------------------
 */

static void walk(struct tree *t) {
  t->here = t->root;
  t->guessed = false;
  t->depth = 0;
  node_begin(t);
  for (bool more = true; more; more = visit(t) || step_back(t)) {
    t->stopped = !may_go_on(t);
    if (t->stopped) break;
  }
}

static const double FIRST_GUESS = 0.03, WIDER = 1.4, WIDEST = 3;

/* The solver is left where it began, with the caller's bounds. */
static void search(struct tree *t) {
  double lowest = t->root, size = fabs(lowest) + 1e-3;
  struct kept start = {0};
  kept_save(&start, &t->s->x, &t->scratch);
  for (double gap = FIRST_GUESS * size;; gap *= WIDER) {
    t->guess = gap < WIDEST * size ? lowest + gap : INFINITY; /* far from the relaxation guesses only cost walks */
    walk(t);
    kept_restore(&start, &t->s->x);
    if (t->trouble != SIMPLEX_OPTIMAL || t->stopped || t->found || !t->guessed) return;
    t->root = t->guess;
  }
}

/* With every decision of the best answer held, the continuous rest is solved
 * once more: bounds exact, duals right. */
static void settle(struct tree *t) {
  struct simplex *x = &t->s->x;
  double *lo = ARENA_NEW(&t->scratch, double, (size_t)x->n), *hi = ARENA_NEW(&t->scratch, double, (size_t)x->n);
  memcpy(lo, x->lo, (size_t)x->n * sizeof *lo);
  memcpy(hi, x->hi, (size_t)x->n * sizeof *hi);
  for (int j = 0; j < x->n; j++) {
    const struct lp_col *c = &t->s->col[j];
    double v = t->best_x[j], least = c->least * x->col_unscale[j];
    bool out = v <= node_used_above(c, x->col_unscale[j]) && (c->least > 0 || c->counted || c->unit > 0) && lo[j] <= 0;
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

static void conclude(struct tree *t) {
  struct lp_solver *s = t->s;
  struct lp_answer *a = &s->answer;
  double bound = t->stopped ? open_bound(t) : t->best;
  if (t->found) {
    settle(t);
  } else {
    memset(a->farkas, 0, (size_t)s->x.m * sizeof *a->farkas);
  }
  a->has_x = t->found;
  a->nodes = t->nodes;
  a->pivots = s->x.pivots;
  a->status = t->stopped ? LP_STOPPED : t->trouble != SIMPLEX_OPTIMAL ? LP_TROUBLE : t->found ? LP_OPTIMAL : LP_INFEASIBLE;
  a->bound = a->status == LP_OPTIMAL ? a->objective : bound / s->cost_scale;
}

const struct lp_answer *lp_solve_mixed(struct lp_solver *s, const struct lp_limits *limits) {
  size_t n = (size_t)s->x.n;
  struct lp_answer *a = &s->answer;
  lp_solve(s, limits);
  a->nodes = 1;
  if (a->status != LP_OPTIMAL) return a;
  struct tree t = {.s = s,
                   .limits = limits,
                   .best = INFINITY,
                   .root = simplex_objective(&s->x),
                   .trouble = SIMPLEX_OPTIMAL,
                   .left_out = -1,
                   .ask_at = ASK_EVERY,
                   .most_nodes = limits && limits->nodes > 0 ? limits->nodes : NODES_DEFAULT};
  arena_init(&t.scratch, s->arena->on_full);
  t.best_x = ARENA_NEW(&t.scratch, double, n);
  t.taken = ARENA_NEW(&t.scratch, bool, n);
  t.out = ARENA_NEW(&t.scratch, double, 2 * n);
  t.in = t.out + n;
  t.least = ARENA_NEW(&t.scratch, double, n);
  t.price = ARENA_NEW(&t.scratch, struct price, n);
  t.habit = ARENA_NEW(&t.scratch, struct habit, n);
  search(&t);
  conclude(&t);
  arena_free(&t.scratch);
  return a;
}
