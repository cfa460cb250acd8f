#include "lp/simplex.h"

#include <math.h>

static const double FEASIBLE = 1e-9;                      /* scaled units: rows are divided by their own requirement */
static const double COST_OK = 1e-9;                       /* reduced cost counted as zero */
static const double PIVOT_OK = 1e-7, PIVOT_LEAST = 1e-11; /* smaller tableau entries are no pivots */
static const double TINY = 1e-13;                         /* rounding noise in the tableau */
enum { REBUILD_AFTER = 120, STALL_LIMIT = 60 };

static double *row(const struct simplex *s, int i) { return s->t + (size_t)i * (size_t)s->n; }

static double resting_place(const struct simplex *s, int var, double d) {
  double lo = s->lo[var], hi = s->hi[var];
  if (lo == -INFINITY && hi == INFINITY) return 0;
  if (lo == -INFINITY) return hi;
  if (hi == INFINITY) return lo;
  return d < 0 ? hi : lo;
}

static void recompute_basics(struct simplex *s) {
  for (int i = 0; i < s->m; i++) {
    const double *t = row(s, i);
    double sum = 0;
    for (int j = 0; j < s->n; j++) sum += t[j] * s->xn[j];
    s->xb[i] = sum;
  }
}

void simplex_reprice(struct simplex *s) {
  for (int j = 0; j < s->n; j++) s->d[j] = s->nonbasic[j] < s->n ? s->cost[s->nonbasic[j]] : 0;
  for (int i = 0; i < s->m; i++) {
    double c = s->basic[i] < s->n ? s->cost[s->basic[i]] : 0;
    if (c == 0) continue;
    const double *t = row(s, i);
    for (int j = 0; j < s->n; j++) s->d[j] += c * t[j];
  }
  s->costs_shifted = false;
}

static void logicals_basic(struct simplex *s) {
  for (int i = 0; i < s->m; i++) {
    s->basic[i] = s->n + i;
    s->where[s->n + i] = i;
    s->weight[i] = 1;
  }
  for (int j = 0; j < s->n; j++) {
    s->nonbasic[j] = j;
    s->where[j] = -1 - j;
  }
}

void simplex_start(struct simplex *s) {
  memcpy(s->t, s->a, (size_t)s->m * (size_t)s->n * sizeof *s->t);
  logicals_basic(s);
  simplex_reprice(s);
  for (int j = 0; j < s->n; j++) s->xn[j] = resting_place(s, s->nonbasic[j], s->d[j]);
  recompute_basics(s);
  s->ready = true;
  s->since_rebuild = 0;
}

/* ---- pivoting -------------------------------------------------------------------------------------------------- */

/* Exchanges basic row r with nonbasic column q in t and d only. */
static void exchange(struct simplex *s, int r, int q) {
  double *tr = row(s, r), p = 1 / tr[q], reference = s->weight[r] * p * p;
  for (int j = 0; j < s->n; j++) tr[j] *= -p;
  tr[q] = p;
  for (int i = 0; i < s->m; i++) {
    double *ti = row(s, i), f = ti[q];
    if (i == r || f == 0) continue;
    if (f * f * reference > s->weight[i]) s->weight[i] = f * f * reference;
    ti[q] = 0;
    for (int j = 0; j < s->n; j++) {
      double x = ti[j] + f * tr[j];
      ti[j] = fabs(x) < TINY ? 0 : x;
    }
  }
  s->weight[r] = reference > 1 ? reference : 1;
  double f = s->d[q];
  s->d[q] = 0;
  if (f != 0)
    for (int j = 0; j < s->n; j++) s->d[j] += f * tr[j];
  int var = s->basic[r];
  s->basic[r] = s->nonbasic[q];
  s->nonbasic[q] = var;
  s->where[s->basic[r]] = r;
  s->where[var] = -1 - q;
  s->pivots++;
  s->since_rebuild++;
}

/* The entering variable moves by 'step'; the leaving one ends on 'target'. */
static void move_and_exchange(struct simplex *s, int r, int q, double step, double target) {
  for (int i = 0; i < s->m; i++) s->xb[i] += row(s, i)[q] * step;
  double entering = s->xn[q] + step;
  exchange(s, r, q);
  s->xb[r] = entering;
  s->xn[q] = target;
}

static void move_nonbasic(struct simplex *s, int q, double to) {
  double step = to - s->xn[q];
  if (step == 0) return;
  for (int i = 0; i < s->m; i++) s->xb[i] += row(s, i)[q] * step;
  s->xn[q] = to;
}

/* Gauss-Jordan from A: wanted structurals enter where an unwanted variable is basic, on the largest pivot there is. */
void simplex_rebuild(struct simplex *s) {
  bool *wanted = (bool *)s->list; /* [n], as flags */
  bool *stay = wanted + s->n;     /* [m]: logicals that are to be basic; list has room for n + m ints */
  memset(wanted, 0, (size_t)s->n);
  memset(stay, 0, (size_t)s->m);
  for (int i = 0; i < s->m; i++) {
    if (s->basic[i] < s->n)
      wanted[s->basic[i]] = true;
    else
      stay[s->basic[i] - s->n] = true;
  }
  double *value = s->work + s->n; /* [n + m] resting values by variable; work has room for 2n + m */
  for (int j = 0; j < s->n; j++) value[s->nonbasic[j]] = s->xn[j];
  memcpy(s->t, s->a, (size_t)s->m * (size_t)s->n * sizeof *s->t);
  logicals_basic(s);
  for (int q = 0; q < s->n; q++) {
    if (!wanted[q]) continue;
    int best = -1;
    for (int i = 0; i < s->m; i++) {
      bool free_row = s->basic[i] >= s->n && !stay[s->basic[i] - s->n];
      if (free_row && (best < 0 || fabs(row(s, i)[q]) > fabs(row(s, best)[q]))) best = i;
    }
    /* Singular as far as these numbers can tell: the column stays out at a bound, a logical stays in. */
    if (best < 0 || fabs(row(s, best)[q]) < 1e-11) {
      value[q] = resting_place(s, q, s->cost[q]);
      continue;
    }
    exchange(s, best, q);
    s->pivots--;
  }
  simplex_reprice(s);
  for (int j = 0; j < s->n; j++) {
    int var = s->nonbasic[j];
    double x = value[var];
    bool at_bound = x == s->lo[var] || x == s->hi[var] || (x == 0 && s->lo[var] == -INFINITY && s->hi[var] == INFINITY);
    s->xn[j] = at_bound ? x : resting_place(s, var, s->d[j]);
  }
  recompute_basics(s);
  s->since_rebuild = 0;
}

/* ---- the dual simplex ------------------------------------------------------------------------------------------ */

/* Columns whose d has the wrong sign for the bounds they have get d = 0; the true costs come back for the primal phase. */
static void make_dual_feasible(struct simplex *s) {
  for (int j = 0; j < s->n; j++) {
    int var = s->nonbasic[j];
    double lo = s->lo[var], hi = s->hi[var], d = s->d[j];
    bool wrong = (d > 0 && lo == -INFINITY) || (d < 0 && hi == INFINITY);
    if (wrong) {
      s->costs_shifted |= fabs(d) > 0;
      s->d[j] = 0;
    }
    move_nonbasic(
        s, j, fabs(s->d[j]) <= COST_OK && (s->xn[j] == lo || s->xn[j] == hi) ? s->xn[j] : resting_place(s, var, s->d[j]));
  }
}

static double infeasibility(const struct simplex *s, int i) {
  int var = s->basic[i];
  double under = s->lo[var] - s->xb[i], over = s->xb[i] - s->hi[var];
  double bound = under > over ? s->lo[var] : s->hi[var], by = under > over ? under : over;
  return by > FEASIBLE * (1 + fabs(bound)) ? by : 0;
}

static int leaving_row(const struct simplex *s, bool smallest_index) {
  int best = -1;
  double most = 0;
  for (int i = 0; i < s->m; i++) {
    double by = infeasibility(s, i);
    if (by == 0) continue;
    if (smallest_index) {
      if (best < 0 || s->basic[i] < s->basic[best]) best = i;
      continue;
    }
    if (by * by / s->weight[i] > most) {
      most = by * by / s->weight[i];
      best = i;
    }
  }
  return best;
}

/* May column j move so that the leaving variable (direction +1: must rise) gets nearer to its bound? */
static bool helps(const struct simplex *s, int j, double entry, int direction) {
  int var = s->nonbasic[j];
  if (s->lo[var] == s->hi[var]) return false;
  bool up = entry * direction > 0;
  if (s->lo[var] == -INFINITY && s->hi[var] == INFINITY) return true;
  bool at_lower = s->xn[j] == s->lo[var];
  return up ? at_lower || s->xn[j] < s->hi[var] : !at_lower || s->xn[j] > s->lo[var];
}

static double column_range(const struct simplex *s, int j) { return s->hi[s->nonbasic[j]] - s->lo[s->nonbasic[j]]; }

/* Bound-flipping ratio test. Columns that can run their whole range without curing the row are flipped to their other bound;
 * the one that would overshoot enters. -1: nothing helps, the row proves infeasibility. */
static int entering_column(struct simplex *s, int r, int direction, double by, bool smallest_index) {
  const double *t = row(s, r);
  int count = 0;
  for (int j = 0; j < s->n; j++)
    if (fabs(t[j]) > s->pivot_ok && helps(s, j, t[j], direction)) s->list[count++] = j;
  while (count > 0) {
    double bound = INFINITY;
    for (int k = 0; k < count; k++) {
      double ratio = (fabs(s->d[s->list[k]]) + COST_OK) / fabs(t[s->list[k]]);
      if (ratio < bound) bound = ratio;
    }
    int pick = -1;
    double passed = 0;
    for (int k = 0; k < count; k++) {
      int j = s->list[k];
      if (!(fabs(s->d[j]) / fabs(t[j]) <= bound)) continue;
      passed += fabs(t[j]) * column_range(s, j);
      bool better = pick < 0 || (smallest_index ? s->nonbasic[j] < s->nonbasic[pick] : fabs(t[j]) > fabs(t[pick]));
      if (better) pick = j;
    }
    if (!(passed < by)) return pick;
    by -= passed;
    int kept = 0;
    for (int k = 0; k < count; k++) {
      int j = s->list[k];
      if (fabs(s->d[j]) / fabs(t[j]) <= bound) {
        move_nonbasic(s, j, s->xn[j] == s->lo[s->nonbasic[j]] ? s->hi[s->nonbasic[j]] : s->lo[s->nonbasic[j]]);
      } else {
        s->list[kept++] = j;
      }
    }
    count = kept;
  }
  return -1;
}

/* After a pivot a d of the wrong sign is rounding or Harris' tolerance: shifted to zero, put right in the primal phase. */
static void shift_wrong_signs(struct simplex *s) {
  for (int j = 0; j < s->n; j++) {
    int var = s->nonbasic[j];
    if (s->lo[var] == s->hi[var]) continue;
    bool at_lower = s->xn[j] == s->lo[var], at_upper = s->xn[j] == s->hi[var], between = !at_lower && !at_upper;
    if ((at_lower && s->d[j] < 0) || (at_upper && s->d[j] > 0) || (between && s->d[j] != 0)) {
      s->d[j] = 0;
      s->costs_shifted = true;
    }
  }
}

/* Can the row reach its bound at all, every nonbasic variable at the end of its range that helps, however small its entry?
 */
static bool cannot_reach(const struct simplex *s, int r, bool low) {
  const double *t = row(s, r);
  double most = 0, size = 1;
  for (int j = 0; j < s->n; j++) {
    if (t[j] == 0) continue;
    double at = (t[j] > 0) == low ? s->hi[s->nonbasic[j]] : s->lo[s->nonbasic[j]];
    most += t[j] * at;
    size += fabs(t[j] * at);
  }
  double bound = low ? s->lo[s->basic[r]] : s->hi[s->basic[r]];
  return low ? most < bound - 1e-12 * size : most > bound + 1e-12 * size;
}

static enum simplex_end dual_phase(struct simplex *s, long most_pivots) {
  long stop = s->pivots + most_pivots;
  int stalled = 0;
  make_dual_feasible(s);
  while (s->pivots < stop) {
    if (s->since_rebuild >= REBUILD_AFTER) {
      simplex_rebuild(s);
      make_dual_feasible(s);
    }
    bool bland = stalled > STALL_LIMIT;
    int r = leaving_row(s, bland);
    if (r < 0) return SIMPLEX_OPTIMAL;
    bool low = s->xb[r] < s->lo[s->basic[r]];
    double target = low ? s->lo[s->basic[r]] : s->hi[s->basic[r]], by = fabs(target - s->xb[r]);
    int q = entering_column(s, r, low ? 1 : -1, by, bland);
    if (q < 0) {
      if (s->since_rebuild > 0) { /* believe it only from fresh numbers */
        simplex_rebuild(s);
        make_dual_feasible(s);
        continue;
      }
      if (!cannot_reach(s, r, low)) { /* an entry too small to pivot on could still help: look closer */
        if (s->pivot_ok <= PIVOT_LEAST) return SIMPLEX_TROUBLE;
        s->pivot_ok *= 0.01;
        continue;
      }
      s->bad_row = r;
      s->bad_low = low;
      return SIMPLEX_INFEASIBLE;
    }
    stalled = fabs(s->d[q]) <= COST_OK ? stalled + 1 : 0;
    double step = (target - s->xb[r]) / row(s, r)[q];
    move_and_exchange(s, r, q, step, target);
    shift_wrong_signs(s);
  }
  return SIMPLEX_LIMIT;
}

/* ---- the primal simplex ---------------------------------------------------------------------------------------- */

static int pricing(const struct simplex *s, bool smallest_index) {
  int best = -1;
  double most = COST_OK;
  for (int j = 0; j < s->n; j++) {
    int var = s->nonbasic[j];
    if (s->lo[var] == s->hi[var]) continue;
    bool may_rise = s->xn[j]<s->hi[var], may_fall = s->xn[j]> s->lo[var];
    double gain = s->d[j] < 0 && may_rise ? -s->d[j] : s->d[j] > 0 && may_fall ? s->d[j] : 0;
    if (!(gain > COST_OK)) continue;
    if (smallest_index) {
      if (best < 0 || var < s->nonbasic[best]) best = j;
    } else if (gain > most) {
      most = gain;
      best = j;
    }
  }
  return best;
}

struct ratio {
  int row; /* -1: the entering variable runs to its own other bound, or for ever */
  double step, target;
};

static struct ratio primal_ratio(const struct simplex *s, int q, int direction, bool smallest_index) {
  double most = INFINITY;
  for (int i = 0; i < s->m; i++) {
    double rate = row(s, i)[q] * direction;
    if (fabs(rate) <= s->pivot_ok) continue;
    double bound = rate > 0 ? s->hi[s->basic[i]] : s->lo[s->basic[i]];
    if (!isfinite(bound)) continue;
    double limit =
        (fabs(bound - s->xb[i]) * ((bound - s->xb[i]) * rate > 0 ? 1 : 0) + FEASIBLE * (1 + fabs(bound))) / fabs(rate);
    if (limit < most) most = limit;
  }
  struct ratio best = {-1, INFINITY, 0};
  double size = 0;
  for (int i = 0; i < s->m; i++) {
    double rate = row(s, i)[q] * direction;
    if (fabs(rate) <= s->pivot_ok) continue;
    double bound = rate > 0 ? s->hi[s->basic[i]] : s->lo[s->basic[i]];
    if (!isfinite(bound)) continue;
    double room = (bound - s->xb[i]) / rate;
    if (room < 0) room = 0;
    if (!(room <= most)) continue;
    bool better = best.row < 0 || (smallest_index ? s->basic[i] < s->basic[best.row] : fabs(rate) > size);
    if (!better) continue;
    size = fabs(rate);
    best = (struct ratio){i, room, bound};
  }
  return best;
}

enum simplex_end simplex_primal(struct simplex *s, long most_pivots) {
  long stop = s->pivots + most_pivots;
  int stalled = 0;
  while (s->pivots < stop) {
    if (s->since_rebuild >= REBUILD_AFTER) simplex_rebuild(s);
    bool bland = stalled > STALL_LIMIT;
    int q = pricing(s, bland);
    if (q < 0) return SIMPLEX_OPTIMAL;
    int var = s->nonbasic[q], direction = s->d[q] < 0 ? 1 : -1;
    struct ratio ratio = primal_ratio(s, q, direction, bland);
    double own = direction > 0 ? s->hi[var] - s->xn[q] : s->xn[q] - s->lo[var];
    if (ratio.row < 0 && !isfinite(own)) {
      if (s->since_rebuild > 0) {
        simplex_rebuild(s);
        continue;
      }
      s->ray_col = q;
      s->ray_sign = direction;
      return SIMPLEX_UNBOUNDED;
    }
    if (own <= ratio.step) {
      move_nonbasic(s, q, direction > 0 ? s->hi[var] : s->lo[var]);
      s->pivots++; /* a flip counts, so that the limit holds */
      stalled = 0;
      continue;
    }
    stalled = ratio.step <= FEASIBLE ? stalled + 1 : 0;
    move_and_exchange(s, ratio.row, q, ratio.step * direction, ratio.target);
  }
  return SIMPLEX_LIMIT;
}

/* ---- both together --------------------------------------------------------------------------------------------- */

static double drift(const struct simplex *s) {
  double worst = 0;
  double *x = s->work;
  for (int j = 0; j < s->n; j++)
    if (s->nonbasic[j] < s->n) x[s->nonbasic[j]] = s->xn[j];
  for (int i = 0; i < s->m; i++)
    if (s->basic[i] < s->n) x[s->basic[i]] = s->xb[i];
  double *logical = s->work + s->n;
  for (int j = 0; j < s->n; j++)
    if (s->nonbasic[j] >= s->n) logical[s->nonbasic[j] - s->n] = s->xn[j];
  for (int i = 0; i < s->m; i++)
    if (s->basic[i] >= s->n) logical[s->basic[i] - s->n] = s->xb[i];
  for (int i = 0; i < s->m; i++) {
    const double *a = s->a + (size_t)i * (size_t)s->n;
    double sum = 0, size = 1;
    for (int j = 0; j < s->n; j++) {
      sum += a[j] * x[j];
      size += fabs(a[j] * x[j]);
    }
    double off = fabs(sum - logical[i]) / size;
    if (!(off <= worst)) worst = off;
  }
  return worst;
}

static bool feasible(const struct simplex *s) {
  for (int i = 0; i < s->m; i++)
    if (infeasibility(s, i) > 0) return false;
  return true;
}

enum simplex_end simplex_run(struct simplex *s, long most_pivots) {
  s->pivot_ok = PIVOT_OK;
  if (!s->ready) simplex_start(s);
  for (int attempt = 0; attempt < 8; attempt++) {
    enum simplex_end end = dual_phase(s, most_pivots);
    if (end != SIMPLEX_OPTIMAL) return end;
    /* True costs again; what shifted costs, or flips that no pivot followed, left undone is done here. */
    if (s->costs_shifted) simplex_reprice(s);
    end = simplex_primal(s, most_pivots);
    if (end != SIMPLEX_OPTIMAL) return end;
    if (drift(s) <= 1e-10) return SIMPLEX_OPTIMAL;
    simplex_rebuild(s);
    if (feasible(s) && pricing(s, false) < 0) return SIMPLEX_OPTIMAL;
  }
  return SIMPLEX_TROUBLE;
}

void simplex_set_bounds(struct simplex *s, int var, double lo, double hi) {
  s->lo[var] = lo;
  s->hi[var] = hi;
  if (!s->ready) return;
  int q = simplex_col_of(s, var);
  if (q < 0) return;
  /* A column at rest stays on the bound that its d asks for; without a preference it stays where it is, if it may. */
  double x = s->xn[q];
  bool no_preference = fabs(s->d[q]) <= COST_OK && (x == lo || x == hi);
  move_nonbasic(s, q, no_preference ? x : resting_place(s, var, s->d[q]));
}

int simplex_row_of(const struct simplex *s, int var) { return s->where[var] >= 0 ? s->where[var] : -1; }

int simplex_col_of(const struct simplex *s, int var) { return s->where[var] < 0 ? -1 - s->where[var] : -1; }

double simplex_value(const struct simplex *s, int var) {
  int i = simplex_row_of(s, var);
  return i >= 0 ? s->xb[i] : s->xn[simplex_col_of(s, var)];
}

double simplex_objective(const struct simplex *s) {
  double sum = 0;
  for (int i = 0; i < s->m; i++)
    if (s->basic[i] < s->n) sum += s->cost[s->basic[i]] * s->xb[i];
  for (int j = 0; j < s->n; j++)
    if (s->nonbasic[j] < s->n) sum += s->cost[s->nonbasic[j]] * s->xn[j];
  return sum;
}

double simplex_penalty(const struct simplex *s, int r, double to) {
  const double *t = row(s, r);
  int direction = to > s->xb[r] ? 1 : -1;
  double least = INFINITY;
  for (int j = 0; j < s->n; j++) {
    if (fabs(t[j]) <= s->pivot_ok || !helps(s, j, t[j], direction)) continue;
    double ratio = fabs(s->d[j]) / fabs(t[j]);
    if (ratio < least) least = ratio;
  }
  return least * fabs(to - s->xb[r]); /* INFINITY when nothing can move it there */
}
