/* The dual and the primal simplex on a tableau that is computed row by row: see simplex.h. */
#include "lp/simplex.h"

#include <math.h>

#include "lp/kernels.h"

static const double FEASIBLE = 1e-10;                     /* relative to the bound */
static const double COST_OK = 1e-10;                      /* scaled reduced cost counted as zero */
static const double PIVOT_OK = 1e-7, PIVOT_LEAST = 1e-11; /* smaller tableau entries are no pivots */
static const double DRIFTED = 1e-8;                       /* an error of x before refinement that asks for a new W */
enum { REBUILD_AFTER = 250, REPRICE_AFTER = 30, REPRICE_CAREFULLY = 10, STALL_LIMIT = 40, BENDS = 4, ATTEMPTS = 12 };

static int variables(const struct simplex *s) { return s->n + s->m; }

static void move_nonbasic(struct simplex *s, int q, double to) {
  double step = to - s->x[q];
  if (step == 0) return;
  tableau_column(s, q);
  tableau_step(s, q, step);
  s->x[q] = to;
}

/* A bound of zero is judged against one: rows are scaled to their largest entry then, columns to a share of a row. */
static double tolerance(const struct simplex *s, double bound) {
  double size = fabs(bound);
  return s->feasible * (size == 0 ? 1 : size < 1e-3 ? 1e-3 : size);
}

static double infeasibility(const struct simplex *s, int var) {
  double under = s->lo[var] - s->x[var], over = s->x[var] - s->hi[var];
  if (under > 0) return under > tolerance(s, s->lo[var]) ? under : 0;
  if (over > 0) return over > tolerance(s, s->hi[var]) ? over : 0;
  return 0;
}

/* ---- the dual simplex ------------------------------------------------------------------------------------------ */

/* Would a move that this nonbasic variable is free to make pay? (Never true of basic or fixed ones.) */
static bool wrong_sign(const struct simplex *s, int v) {
  return (s->d[v] < 0 && s->x[v] < s->hi[v]) || (s->d[v] > 0 && s->x[v] > s->lo[v]);
}

static double worst_sign(const struct simplex *s) { return kernel_worst_sign(s->d, s->x, s->lo, s->hi, variables(s)); }

/* A nonbasic variable with a d of the wrong sign goes to its other bound, if it has one. Otherwise its d becomes zero, and
 * the true costs come back for the primal phase. */
static void make_dual_feasible(struct simplex *s) {
  if (s->trust.signs_right || worst_sign(s) == 0) return;
  for (int v = 0; v < variables(s); v++) {
    if (!wrong_sign(s, v) || s->slot[v] != NONBASIC) continue;
    double other = s->d[v] < 0 ? s->hi[v] : s->lo[v];
    if (!isfinite(other)) {
      s->d[v] = 0;
      s->trust.stale_costs = true;
    } else if (fabs(s->d[v]) > COST_OK) {
      move_nonbasic(s, v, other);
    }
  }
}

static void shift_to_zero(struct simplex *s, int v) {
  if (!wrong_sign(s, v)) return;
  s->d[v] = 0;
  s->trust.stale_costs = true;
}

/* Harris' test lets a variable enter though the d of others, all of them on its list, met zero a little earlier: theirs are
 * on the wrong side now, by at most the slack. */
static void shift_passed(struct simplex *s) {
  for (int c = 0; c < s->listed; c++) shift_to_zero(s, s->list[c]);
}

/* Makes ties among the d unlikely: each moves away from zero, on the side where it is, by a small amount of its own. */
static void bend_costs(struct simplex *s, int times) {
  for (int v = 0; v < variables(s); v++) {
    if (s->slot[v] != NONBASIC || s->lo[v] == s->hi[v] || (s->lo[v] == -INFINITY && s->hi[v] == INFINITY)) continue;
    double own = 1 + (double)(((unsigned)v * 2654435761U) >> 16) / 65536;
    double by = 1e-7 * own * (1 + fabs(s->d[v])) * times;
    s->d[v] += s->x[v] == s->lo[v] ? by : -by;
  }
  s->trust.stale_costs = true;
  s->trust.signs_right = false;
}

static void weigh(const struct simplex *s, int v, bool smallest_index, int *best, double *most) {
  double by = infeasibility(s, v);
  if (by == 0) return;
  if (smallest_index ? *best < 0 || v < *best : by * by > *most * s->weight[v]) {
    *most = by * by / s->weight[v];
    *best = v;
  }
}

/* The basic variable that violates its bound most, by reference weight; -1: none does. */
static int leaving_variable(const struct simplex *s, bool smallest_index) {
  int best = -1;
  double most = 0, *outside = s->miss;
  double worst = kernel_outside(outside, s->x + s->n, s->lo + s->n, s->hi + s->n, s->m);
  for (int p = 0; p < s->k; p++) weigh(s, s->var[p], smallest_index, &best, &most);
  for (int i = 0; worst > 0 && i < s->m; i++) /* nonbasic logicals are on a bound */
    if (outside[i] > 0) weigh(s, s->n + i, smallest_index, &best, &most);
  return best;
}

static bool feasible(const struct simplex *s) { return leaving_variable(s, false) < 0; }

/* Bound-flipping ratio test on the row at hand: the nonbasic variables whose move brings the leaving variable (direction +1:
 * it must rise) nearer to its bound, in the order in which their d meets zero. Those that can run their whole range without
 * curing the row are flipped to their other bound; the one that would overshoot enters. -1: nothing helps, the row proves
 * infeasibility. */
static int entering_variable(struct simplex *s, int direction, double by, bool smallest_index) {
  const double *row = s->row, slack = smallest_index ? 0 : COST_OK;
  double *ratio = s->miss, *relaxed = s->relaxed;
  double enough = by * 1e-12; /* flips that leave less than this to do have done it all: the last one enters instead */
  int n = variables(s), *list = s->list;
  double bound = kernel_ratios(ratio, relaxed, row, direction, s->pivot_ok, slack, s->d, s->x, s->lo, s->hi, n);
  for (;; bound = kernel_least(relaxed, n)) {
    /* Harris: all whose d meets zero before the first d would be on the wrong side by 'slack'; the largest entry enters. */
    double passed = 0;
    int pick = -1;
    if (bound == INFINITY) return -1;
    int count = kernel_at_most(list, ratio, bound, n);
    for (int c = 0; c < count; c++) {
      int v = list[c];
      passed += fabs(row[v]) * (s->hi[v] - s->lo[v]);
      if (pick < 0 || (smallest_index ? v < pick : fabs(row[v]) > fabs(row[pick]))) pick = v;
    }
    s->listed = count;
    if (!(passed < by - enough)) return pick;
    by -= passed;
    for (int c = 0; c < count; c++) {
      int v = list[c];
      ratio[v] = relaxed[v] = INFINITY;
      s->trust.signs_right = false; /* until a pivot makes up for the flips */
      move_nonbasic(s, v, s->x[v] == s->lo[v] ? s->hi[v] : s->lo[v]);
    }
  }
}

/* Can the variable reach its bound at all, every nonbasic one at the end of its range that helps, however small its entry?
 */
static bool cannot_reach(const struct simplex *s, int var, bool low) {
  double most = 0, size = 0, bound = low ? s->lo[var] : s->hi[var];
  for (int v = 0; v < variables(s); v++) {
    double at = (s->row[v] > 0) == low ? s->hi[v] : s->lo[v];
    if (s->row[v] == 0 || (fabs(s->row[v]) <= 1e-13 && !isfinite(at))) continue;
    most += s->row[v] * at;
    size += fabs(s->row[v] * at);
  }
  double margin = 1e-14 * (size + fabs(bound));
  return low ? most < bound - margin : most > bound + margin;
}

enum row_verdict { ROW_LOOK_AGAIN, ROW_PROVES, ROW_HOPELESS };

/* No variable helps. The row is computed afresh from the model: if its bound is out of reach, that is a proof, wherever the
 * variables are now. Otherwise the tableau may have drifted, or an entry too small to pivot on is needed after all. */
static enum row_verdict conclude_row(struct simplex *s, int leaving, bool low) {
  double error = tableau_row(s, leaving, true);
  if (error <= 1e-11 && cannot_reach(s, leaving, low)) {
    s->bad_var = leaving;
    s->bad_low = low;
    return ROW_PROVES;
  }
  if (s->trust.since_rebuild > 0) {
    tableau_rebuild(s);
    make_dual_feasible(s);
    return ROW_LOOK_AGAIN;
  }
  if (s->pivot_ok <= PIVOT_LEAST) return ROW_HOPELESS;
  s->pivot_ok *= 0.01;
  return ROW_LOOK_AGAIN;
}

/* The two ways to reckon the pivot, along the row and down the column, must agree. */
static bool pivot_agrees(const struct simplex *s, int leaving, int q) {
  double along = s->row[q], down = tableau_entry(s, leaving);
  return fabs(along - down) <= 1e-6 * fabs(along);
}

static enum simplex_end dual_phase(struct simplex *s, long stop) {
  int stalled = 0, bends = 0;
  make_dual_feasible(s);
  while (s->pivots < stop) {
    if (s->trust.since_rebuild >= REBUILD_AFTER) {
      tableau_rebuild(s);
      make_dual_feasible(s);
    }
    if (stalled > STALL_LIMIT && bends < BENDS) {
      bend_costs(s, ++bends);
      stalled = 0;
    }
    bool bland = stalled > STALL_LIMIT;
    int leaving = leaving_variable(s, bland);
    if (leaving < 0) return SIMPLEX_OPTIMAL;
    if (s->enough < INFINITY && !s->trust.stale_costs && simplex_objective(s) >= s->enough) return SIMPLEX_DEAR;
    bool low = s->x[leaving] < s->lo[leaving];
    double target = low ? s->lo[leaving] : s->hi[leaving];
    tableau_row(s, leaving, false);
    int q = entering_variable(s, low ? 1 : -1, fabs(target - s->x[leaving]), bland);
    if (q < 0) {
      if (infeasibility(s, leaving) == 0) { /* flips alone cured it: no pivot puts their d right */
        for (int v = 0; v < variables(s); v++) shift_to_zero(s, v);
        continue;
      }
      enum row_verdict verdict = conclude_row(s, leaving, low);
      if (verdict == ROW_LOOK_AGAIN) continue;
      return verdict == ROW_PROVES ? SIMPLEX_INFEASIBLE : SIMPLEX_TROUBLE;
    }
    tableau_column(s, q);
    if (!pivot_agrees(s, leaving, q) && s->trust.since_rebuild > 0) {
      tableau_rebuild(s);
      make_dual_feasible(s);
      continue;
    }
    stalled = fabs(s->d[q]) <= COST_OK ? stalled + 1 : 0;
    tableau_step(s, q, (target - s->x[leaving]) / s->row[q]);
    s->x[leaving] = target;
    tableau_exchange(s, leaving, q);
    shift_passed(s);
  }
  return SIMPLEX_LIMIT;
}

/* ---- the primal simplex ---------------------------------------------------------------------------------------- */

static int pricing(struct simplex *s, bool smallest_index) {
  int best = -1;
  double most = COST_OK;
  s->trust.signs_right = s->trust.signs_right || worst_sign(s) <= COST_OK;
  if (s->trust.signs_right) return best;
  for (int v = 0; v < variables(s); v++) {
    double gain = fabs(s->d[v]);
    if (!(gain > most) || s->slot[v] != NONBASIC || !wrong_sign(s, v)) continue;
    best = v;
    if (smallest_index) return best;
    most = gain;
  }
  return best;
}

struct ratio {
  int var; /* -1: the entering variable runs to its own other bound, or for ever */
  double step, target;
};

/* How far the entering variable may go before basic 'v' meets a bound, with 'slack' times its tolerance. */
static double room(const struct simplex *s, int v, double rate, double slack) {
  if (fabs(rate) <= s->pivot_ok) return INFINITY;
  double bound = rate > 0 ? s->hi[v] : s->lo[v];
  if (!isfinite(bound)) return INFINITY;
  double way = rate > 0 ? bound - s->x[v] : s->x[v] - bound;
  return (larger(way, 0) + slack * tolerance(s, bound)) / fabs(rate);
}

/* The i-th basic variable, of k basic structurals and then m rows; -1 where the row's logical is nonbasic. */
static int basic_variable(const struct simplex *s, int i) {
  if (i < s->k) return s->var[i];
  int v = s->n + i - s->k;
  return s->slot[v] == NONBASIC ? -1 : v;
}

static struct ratio primal_ratio(const struct simplex *s, int direction, bool smallest_index) {
  double most = INFINITY;
  for (int i = 0; i < s->k + s->m; i++) {
    int v = basic_variable(s, i);
    if (v >= 0) most = smaller(most, room(s, v, tableau_entry(s, v) * direction, smallest_index ? 0 : 1));
  }
  struct ratio best = {-1, INFINITY, 0};
  double size = 0;
  if (!isfinite(most)) return best;
  for (int i = 0; i < s->k + s->m; i++) {
    int v = basic_variable(s, i);
    if (v < 0) continue;
    double rate = tableau_entry(s, v) * direction, step = room(s, v, rate, 0);
    if (!(step <= most)) continue;
    if (!(best.var < 0 || (smallest_index ? v < best.var : fabs(rate) > size))) continue;
    size = fabs(rate);
    best = (struct ratio){v, step, rate > 0 ? s->hi[v] : s->lo[v]};
  }
  return best;
}

static enum simplex_end primal_phase(struct simplex *s, long stop) {
  int stalled = 0;
  while (s->pivots < stop) {
    if (s->trust.since_rebuild >= REBUILD_AFTER) tableau_rebuild(s);
    bool bland = stalled > STALL_LIMIT;
    int q = pricing(s, bland);
    if (q < 0) return SIMPLEX_OPTIMAL;
    int direction = s->d[q] < 0 ? 1 : -1;
    tableau_column(s, q);
    struct ratio ratio = primal_ratio(s, direction, bland);
    double own = direction > 0 ? s->hi[q] - s->x[q] : s->x[q] - s->lo[q];
    if (ratio.var < 0 && !isfinite(own)) {
      if (s->trust.since_rebuild > 0) { /* believe it only from fresh numbers */
        tableau_rebuild(s);
        continue;
      }
      s->ray_var = q;
      s->ray_dir = direction;
      return SIMPLEX_UNBOUNDED;
    }
    if (own <= ratio.step) {
      move_nonbasic(s, q, direction > 0 ? s->hi[q] : s->lo[q]);
      s->pivots++; /* a flip counts, so that the limit holds */
      stalled = 0;
      continue;
    }
    tableau_row(s, ratio.var, false);
    if (!pivot_agrees(s, ratio.var, q) && s->trust.since_rebuild > 0) {
      tableau_rebuild(s);
      continue;
    }
    stalled = ratio.step <= s->feasible ? stalled + 1 : 0;
    tableau_step(s, q, ratio.step * direction);
    s->x[ratio.var] = ratio.target;
    tableau_exchange(s, ratio.var, q);
  }
  return SIMPLEX_LIMIT;
}

enum simplex_end simplex_primal(struct simplex *s, long most_pivots) {
  long stop = s->pivots + most_pivots;
  if (s->pivot_ok == 0) s->pivot_ok = PIVOT_OK;
  for (int attempt = 0; attempt < 3; attempt++) {
    enum simplex_end end = primal_phase(s, stop);
    if (end != SIMPLEX_OPTIMAL) return end;
    tableau_reprice(s);
    if (tableau_refine(s) > DRIFTED) tableau_rebuild(s);
    if (!feasible(s)) return SIMPLEX_TROUBLE;
    if (pricing(s, false) < 0) return SIMPLEX_OPTIMAL;
  }
  return SIMPLEX_TROUBLE;
}

/* ---- both together --------------------------------------------------------------------------------------------- */

enum simplex_end simplex_run(struct simplex *s, long most_pivots) {
  long stop = s->pivots + most_pivots;
  s->pivot_ok = PIVOT_OK;
  s->feasible = s->tolerance > 0 ? s->tolerance : FEASIBLE;
  if (!s->ready) tableau_start(s);
  if (s->trust.stale_costs) tableau_reprice(s);
  for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
    enum simplex_end end = dual_phase(s, stop);
    if (end != SIMPLEX_OPTIMAL) return end;
    /* True costs again; what shifted costs left undone is done here. */
    if (s->trust.stale_costs || s->trust.since_price >= (s->careful ? REPRICE_CAREFULLY : REPRICE_AFTER)) tableau_reprice(s);
    end = primal_phase(s, stop);
    if (end != SIMPLEX_OPTIMAL) return end;
    if (s->careful && s->trust.since_price >= REPRICE_CAREFULLY) tableau_reprice(s);
    bool sound = (s->trust.since_refine < REFINE_AFTER || tableau_refine(s) <= DRIFTED) && s->trust.price_error <= DRIFTED;
    if (!sound) tableau_rebuild(s);
    sound = sound || s->trust.price_error <= DRIFTED;
    if (sound && feasible(s) && pricing(s, false) < 0) return SIMPLEX_OPTIMAL;
    /* Limits that contradict each other by less than rounding: each repair breaks something else by a hair. */
    if (attempt >= 2 && s->feasible < 1e-7) s->feasible *= 10;
  }
  return SIMPLEX_TROUBLE;
}

void simplex_set_bounds(struct simplex *s, int var, double lo, double hi) {
  s->lo[var] = lo;
  s->hi[var] = hi;
  if (!s->ready || s->slot[var] != NONBASIC) return;
  /* A variable at rest goes to the bound that its d asks for; without a preference it stays where it is, if it may. */
  bool no_preference = fabs(s->d[var]) <= COST_OK && (s->x[var] == lo || s->x[var] == hi);
  if (!no_preference) move_nonbasic(s, var, simplex_resting_place(s, var, s->d[var]));
  if (wrong_sign(s, var)) s->trust.signs_right = false;
}

double simplex_objective(const struct simplex *s) { return kernel_product(s->cost, s->x, s->n); }

double simplex_penalty(struct simplex *s, int var, double to) {
  tableau_row(s, var, false);
  double direction = to > s->x[var] ? 1 : -1;
  double least =
      kernel_ratios(s->miss, s->relaxed, s->row, direction, PIVOT_LEAST, 0, s->d, s->x, s->lo, s->hi, variables(s));
  return least * fabs(to - s->x[var]); /* infinite when nothing can move it there */
}
