/* One node of the branch and bound: what its solution proves, and what to
 * decide next. The mathematics is in mixed.h. */
#include <math.h>
#include <stdlib.h>

#include "lp/mixed.h"

static const double USED = 1e-7, WHOLE = 1e-6; /* relative to least or unit, and to the column's scale */

/* ---- what is worth having ---- */

static double worth_less(const struct tree *t) { return t->found ? t->best - 1e-9 * (1 + fabs(t->best)) : INFINITY; }

double tree_dear(const struct tree *t) { return smaller(worth_less(t), t->guess); }

bool tree_not_worth(struct tree *t, double value) {
  if (value >= worth_less(t)) return true;
  if (!(value >= t->guess)) return false;
  t->guessed = true;
  return true;
}

/* ---- one column ---- */

struct state {
  double x, lo, hi, least, unit; /* scaled */
  bool counted, taken;
};

static struct state look(const struct tree *t, int col) {
  const struct simplex *x = &t->s->x;
  const struct lp_col *c = &t->s->col[col];
  double scale = x->col_unscale[col];
  return (struct state){x->x[col], x->lo[col], x->hi[col], c->least * scale, c->unit * scale, c->counted, t->taken[col]};
}

static double used_above(double least, double unit) { return USED * (least > 0 ? least : unit > 0 ? unit : 1); }

double node_used_above(const struct lp_col *c, double scale) { return used_above(c->least * scale, c->unit * scale); }

static bool in_use(const struct state *c) { return c->lo > 0 || c->x > used_above(c->least, c->unit); }

/* Columns that count, or that are zero or at least so much, may still be
 * decided to be out. */
static bool undecided(const struct state *c) {
  return !c->taken && c->lo == 0 && c->hi > 0 && (c->counted || c->least > 0 || c->unit > 0);
}

static bool not_whole(const struct state *c) {
  if (!(c->unit > 0)) return false;
  double k = c->x / c->unit;
  return fabs(k - floor(k + 0.5)) > WHOLE;
}

static bool below_least(const struct state *c) { return c->least > 0 && in_use(c) && c->x < c->least * (1 - USED); }

/* The least amount above zero. */
static double least_used(const struct state *c) {
  return c->unit > 0 ? larger(1, ceil(c->least / c->unit - WHOLE)) * c->unit : c->least;
}

void node_apply(struct tree *t, int col, double lo, double hi, bool taken) {
  t->taken[col] = taken;
  simplex_set_bounds(&t->s->x, col, lo, hi);
}

void node_begin(struct tree *t) {
  for (int j = 0; j < t->s->x.n; j++) {
    t->out[j] = t->in[j] = -INFINITY;
    t->taken[j] = false;
    struct state c = look(t, j);
    t->least[j] = least_used(&c);
    if (undecided(&c) && least_used(&c) > c.hi) simplex_set_bounds(&t->s->x, j, 0, 0);
  }
}

static double bound_after(const struct tree *t, int col, double to, double now) {
  struct simplex *x = &t->s->x;
  double value = x->x[col];
  if (fabs(to - value) <= 1e-9 * (1 + fabs(to))) return now; /* it is there, but for rounding */
  if (x->slot[col] >= 0) return now + simplex_penalty(x, col, to);
  return now + fabs(x->d[col]) * fabs(to - value);
}

/* ---- what is settled already: (1) to (4) of mixed.h
 * ------------------------------------------------------------------- */

/* Unused columns that would be dear in use are out. */
static void leave_out_dear(struct tree *t, double now) {
  struct simplex *x = &t->s->x;
  double room = tree_dear(t) - now;
  for (int j = 0; j < x->n; j++) {
    if (x->x[j] != 0 || !(x->hi[j] > 0) || !(x->d[j] * t->least[j] >= room)) continue;
    struct state c = look(t, j);
    if (x->slot[j] != NONBASIC || !undecided(&c)) continue;
    if (tree_not_worth(t, now + x->d[j] * t->least[j])) simplex_set_bounds(x, j, 0, 0);
  }
}

/* No further column that counts may be in use; or of the undecided ones none at all. */
static void leave_out_counted(struct tree *t, bool used_ones_too) {
  struct simplex *x = &t->s->x;
  for (int j = 0; j < x->n; j++) {
    struct state c = look(t, j);
    if (!c.counted || !undecided(&c)) continue;
    if (used_ones_too || (x->slot[j] == NONBASIC && c.x == 0)) simplex_set_bounds(x, j, 0, 0);
  }
}

static int by_price(const void *a, const void *b) {
  const struct price *p = a, *q = b;
  if (p->out != q->out) return p->out < q->out ? -1 : 1;
  return p->col - q->col;
}

/* The used, undecided columns that count, with what it costs to leave them out,
 * the cheapest first; returns how many. 'room': the places left for them. */
static int price_used(struct tree *t, double now, int *room) {
  const struct simplex *x = &t->s->x;
  int count = 0, taken = 0;
  for (int j = 0; j < x->n; j++) {
    if (!t->s->col[j].counted) continue;
    struct state c = look(t, j);
    if (undecided(&c)) {
      if (!in_use(&c)) continue;
      if (!t->priced) {
        t->out[j] = larger(t->out[j], bound_after(t, j, 0, now));
        if (c.x < t->least[j]) t->in[j] = larger(t->in[j], bound_after(t, j, t->least[j], now));
      }
      t->price[count++] = (struct price){j, t->out[j], larger(t->in[j], now)};
    } else if (c.taken || in_use(&c)) {
      taken++;
    }
  }
  t->priced = true;
  qsort(t->price, (size_t)count, sizeof *t->price, by_price);
  *room = t->s->most_used - taken;
  return count;
}

/* Used columns below their least amount that would be dear with it are out. True if there are any. */
static bool leave_out_small(struct tree *t, int count) {
  bool some = false;
  for (int i = 0; i < count; i++) {
    if (!tree_not_worth(t, t->price[i].in)) continue;
    simplex_set_bounds(&t->s->x, t->price[i].col, 0, 0);
    some = true;
  }
  return some;
}

/* Used columns that are dear to leave out are taken; returns how many are left.
 * 'moved': one of them must rise for that. */
static int take_dear(struct tree *t, int count, bool *moved) {
  for (; count > 0 && tree_not_worth(t, t->price[count - 1].out); count--) {
    struct state c = look(t, t->price[count - 1].col);
    double least = least_used(&c);
    *moved |= c.x < least;
    node_apply(t, t->price[count - 1].col, least, c.hi, true);
  }
  return count;
}

/* The dearest of 'count' used columns to leave out, by what is known for
 * certain and by what it used to cost. */
static struct price dearest(const struct tree *t, int count, double now) {
  static const double TRUST = 0.4;
  double most = -1;
  struct price best = t->price[count - 1];
  for (int i = 0; i < count; i++) {
    const struct habit *h = &t->habit[t->price[i].col];
    double certain = t->price[i].out - now, usual = h->times > 0 ? h->cost / (double)h->times : certain;
    certain += t->price[i].in - now;
    if (!(certain + TRUST * usual > most)) continue;
    most = certain + TRUST * usual;
    best = t->price[i];
  }
  return best;
}

/* The limit on how many are in use. COMPLETE: it is kept. */
static enum verdict judge_count(struct tree *t, double now, struct branch *out) {
  int room, count = price_used(t, now, &room), go = count - room;
  if (room < 0 || (go > 0 && tree_not_worth(t, t->price[go - 1].out))) return PRUNED;
  if (leave_out_small(t, count)) return AGAIN;
  bool moved = false;
  int left = take_dear(t, count, &moved);
  room -= count - left;
  count = left;
  if (room == 0) leave_out_counted(t, true);
  if (moved || (room == 0 && count > 0)) return AGAIN;
  if (count == 0) return COMPLETE;
  if (go >= 0 && tree_not_worth(t, t->price[go].out)) leave_out_counted(t, false);
  if (go <= 0) return COMPLETE;
  struct price next = dearest(t, count, now);
  struct state c = look(t, next.col);
  *out = (struct branch){next.col, {0, 0, next.out, false}, {least_used(&c), c.hi, next.in, true}};
  return DECIDE;
}

/* ---- amounts that may not be
 * --------------------------------------------------------------------------------------------
 */

static struct branch sides(const struct tree *t, int col, const struct state *c, double now) {
  struct branch b = {.col = col, .down = {.lo = c->lo, .taken = c->taken}, .up = {.hi = c->hi, .taken = true}};
  if (not_whole(c)) {
    double k = floor(c->x / c->unit + WHOLE);
    b.down.hi = k * c->unit;
    b.up.lo = (k + 1) * c->unit;
    if (b.down.hi < c->least) b.down.hi = 0;
  }
  b.up.lo = larger(b.up.lo, larger(least_used(c), c->lo));
  b.down.bound = b.down.hi < c->lo ? INFINITY : bound_after(t, col, b.down.hi, now);
  b.up.bound = b.up.lo > c->hi ? INFINITY : c->x >= b.up.lo ? now : bound_after(t, col, b.up.lo, now);
  return b;
}

/* A side that is dear, if there is one, is not looked at: the other holds. */
static enum verdict settle_side(struct tree *t, const struct branch *b) {
  bool no_down = tree_not_worth(t, b->down.bound), no_up = tree_not_worth(t, b->up.bound);
  if (no_down && no_up) return PRUNED;
  if (!no_down && !no_up) return DECIDE;
  const struct side *left = no_down ? &b->up : &b->down;
  node_apply(t, b->col, left->lo, left->hi, left->taken);
  return AGAIN;
}

static enum verdict judge_amounts(struct tree *t, double now, struct branch *out) {
  double best_score = -1;
  for (int j = 0; j < t->s->x.n; j++) {
    if (!(t->s->x.x[j] > 0)) continue;
    struct state c = look(t, j);
    if (!not_whole(&c) && !below_least(&c)) continue;
    struct branch b = sides(t, j, &c, now);
    enum verdict verdict = settle_side(t, &b);
    if (verdict != DECIDE) return verdict;
    double better = smaller(b.down.bound, b.up.bound) - now, worse = larger(b.down.bound, b.up.bound) - now;
    double score = better + 1e-3 * smaller(worse, 1e30);
    if (score > best_score) best_score = score, *out = b;
  }
  return best_score < 0 ? COMPLETE : DECIDE;
}

enum verdict node_judge(struct tree *t, double now, struct branch *out) {
  leave_out_dear(t, now);
  enum verdict verdict = t->s->most_used >= 0 ? judge_count(t, now, out) : COMPLETE;
  return verdict == COMPLETE ? judge_amounts(t, now, out) : verdict;
}

void node_remember(struct tree *t, double now) {
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
