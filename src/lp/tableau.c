/* The basis, and rows and columns of the tableau: see simplex.h for the mathematics. */
#include <math.h>

#include "lp/kernels.h"
#include "lp/simplex.h"

double simplex_resting_place(const struct simplex *s, int var, double d) {
  double lo = s->lo[var], hi = s->hi[var];
  if (lo == -INFINITY) return hi == INFINITY ? 0 : hi;
  if (hi == INFINITY) return lo;
  return d < 0 ? hi : lo;
}

static const double LAST_BITS = 1e-14; /* an error that is nothing but rounding */

/* Scaled. */
static double a_at(const struct simplex *s, int i, int j) { return s->a[i][j] * s->row_scale[i] * s->col_scale[j]; }

static int variables(const struct simplex *s) { return s->n + s->m; }

void tableau_start(struct simplex *s) {
  s->k = 0;
  for (int j = 0; j < s->n; j++) s->slot[j] = NONBASIC;
  for (int i = 0; i < s->m; i++) s->slot[s->n + i] = BASIC_LOGICAL;
  for (int v = 0; v < variables(s); v++) s->weight[v] = 1;
  tableau_reprice(s);
  for (int j = 0; j < s->n; j++) s->x[j] = simplex_resting_place(s, j, s->d[j]);
  tableau_refine(s);
  s->ready = true;
  s->trust.since_rebuild = 0;
}

/* What y leaves of the form on J, into s->miss. Returns the largest, relative to the terms of its column, or to a millionth
 * of the largest terms of all where a column has next to none. */
static double missing_on_j(struct simplex *s, const double *on_j, const double *y) {
  double *size = s->relaxed, most = 0, error = 0;
  for (int p = 0; p < s->k; p++) {
    double sum = on_j[p];
    const double *own = s->own[p];
    size[p] = fabs(sum);
    for (int c = 0; c < s->k; c++) {
      double term = y[c] * own[s->rows_k[c]];
      sum -= term;
      size[p] += fabs(term);
    }
    s->miss[p] = sum;
    most = larger(most, size[p]);
  }
  for (int p = 0; p < s->k; p++) {
    double floor = larger(size[p], 1e-6 * most);
    if (!(fabs(s->miss[p]) <= error * floor)) error = fabs(s->miss[p]) / floor;
  }
  return error;
}

/* y [k] with y' A[K, J] = on_j. 'exact': corrected until it is; returns the relative error left. */
static double multipliers(struct simplex *s, const double *on_j, double *y, bool exact) {
  double error = 0;
  int wide = kernel_whole(s->k);
  kernel_combine(y, NULL, s->w, on_j, s->k, NULL, wide);
  for (int pass = 0; exact && pass < 4; pass++) {
    error = missing_on_j(s, on_j, y);
    if (error <= LAST_BITS) break;
    kernel_combine(y, y, s->w, s->miss, s->k, NULL, wide);
  }
  return error;
}

/* out = y' s_K + (b - y'A + the row 'plus' of A (-1: none))' x, with y [k]; zero on J. b is NULL for nothing, or has natural
 * columns. */
static void express(struct simplex *s, const double *b, int plus, const double *y, double *out) {
  int count = 0;
  if (plus >= 0) {
    s->term[count] = s->a[plus];
    s->by[count++] = s->row_scale[plus];
  }
  memset(out + s->n, 0, (size_t)s->m * sizeof *out);
  for (int c = 0; c < s->k; c++) {
    int i = s->rows_k[c];
    out[s->n + i] = y[c];
    s->term[count] = s->a[i];
    s->by[count++] = -y[c] * s->row_scale[i];
  }
  kernel_combine(out, b, s->term, s->by, count, s->col_scale, s->n);
  for (int p = 0; p < s->k; p++) out[s->var[p]] = 0;
}

double tableau_row(struct simplex *s, int var, bool fresh) {
  int p = s->slot[var], row = p == BASIC_LOGICAL ? var - s->n : -1;
  double *y = row >= 0 ? s->y : s->w[p], *on_j = s->by, error = 0;
  for (int c = 0; c < s->k; c++) on_j[c] = row >= 0 ? s->own[c][row] : c == p;
  if (row >= 0 || fresh) error = multipliers(s, on_j, s->y, fresh);
  if (row < 0 && fresh) memcpy(y, s->y, (size_t)s->k * sizeof *y);
  express(s, NULL, row, y, s->row);
  return error;
}

static int place_in_k(const struct simplex *s, int row) {
  int c = 0;
  while (s->rows_k[c] != row) c++;
  return c;
}

void tableau_column(struct simplex *s, int q) {
  double *col = s->col, *raw = s->raw;
  memset(raw, 0, (size_t)s->m * sizeof *raw);
  if (q < s->n) {
    for (int i = 0; i < s->m; i++) raw[i] = a_at(s, i, q);
    for (int p = 0; p < s->k; p++) {
      const double *w = s->w[p];
      double sum = 0;
      for (int c = 0; c < s->k; c++) sum -= w[c] * raw[s->rows_k[c]];
      s->share[p] = sum;
    }
  } else {
    int c = place_in_k(s, q - s->n);
    for (int p = 0; p < s->k; p++) s->share[p] = s->w[p][c];
  }
  kernel_combine(col, raw, s->own, s->share, s->k, NULL, kernel_whole(s->m));
  for (int c = 0; c < s->k; c++) col[s->rows_k[c]] = 0;
}

double tableau_entry(const struct simplex *s, int var) {
  return s->slot[var] == BASIC_LOGICAL ? s->col[var - s->n] : s->share[s->slot[var]];
}

void tableau_step(struct simplex *s, int q, double step) {
  s->trust.since_refine++;
  s->x[q] += step;
  for (int p = 0; p < s->k; p++) s->x[s->var[p]] += s->share[p] * step;
  kernel_add_multiple(s->x + s->n, s->col, step, s->m);
}

static void take_weights(struct simplex *s, int leaving, int q) {
  double pivot = tableau_entry(s, leaving), reference = s->weight[leaving] / (pivot * pivot);
  for (int p = 0; p < s->k; p++) {
    double w = s->share[p] * s->share[p] * reference;
    s->weight[s->var[p]] = larger(s->weight[s->var[p]], w);
  }
  double *weight = s->weight + s->n;
  for (int i = 0; i < s->m; i++) weight[i] = larger(weight[i], s->col[i] * s->col[i] * reference);
  s->weight[leaving] = 1;
  s->weight[q] = larger(reference, 1);
}

static int new_slot(struct simplex *s) {
  int p = s->k;
  if (p == s->slots) { /* the pointers have room for all; the storage comes as it is needed */
    s->w[p] = ARENA_NEW(s->arena, double, (size_t)s->most_k + KERNEL_SPARE);
    s->own[p] = ARENA_NEW(s->arena, double, (size_t)s->m_cap + KERNEL_SPARE);
    s->slots++;
  }
  return p;
}

static void drop_slot(struct simplex *s, int p) {
  int last = s->k - 1;
  double *w = s->w[p], *own = s->own[p];
  s->w[p] = s->w[last], s->own[p] = s->own[last], s->var[p] = s->var[last];
  s->w[last] = w, s->own[last] = own;
  if (p != last) s->slot[s->var[p]] = p;
}

/* The column of W that the nonbasic logical of 'row' leaves: the last one takes its place. */
static void drop_row(struct simplex *s, int row) {
  int c = place_in_k(s, row), last = s->k - 1;
  s->rows_k[c] = s->rows_k[last];
  for (int p = 0; p < s->k; p++) s->w[p][c] = s->w[p][last];
}

/* J and K change by one variable each way, and W with them. x_leaving = row' x is solved for x_q; of that and of the other
 * rows only the part in s_K is kept. */
static void change_basis(struct simplex *s, int leaving, int q) {
  bool q_logical = q >= s->n, logical_leaves = leaving >= s->n;
  int p = s->slot[leaving], k = s->k;
  double *y = s->y, inverse = 1 / s->row[q];
  if (q_logical) drop_row(s, q - s->n), k--;
  for (int c = 0; c < k; c++) y[c] = -inverse * s->row[s->n + s->rows_k[c]];
  if (logical_leaves) {
    for (int c = 0; c < s->k; c++) s->w[c][k] = 0;
    s->rows_k[k] = leaving - s->n;
    y[k++] = inverse;
  }
  for (int c = k; c < kernel_whole(k); c++) y[c] = 0;
  kernel_rank_one(s->w, s->share, s->k, p, y, k);
  if (q_logical && !logical_leaves) drop_slot(s, p);
  if (!q_logical && logical_leaves) p = new_slot(s);
  s->k = k;
  s->slot[leaving] = NONBASIC;
  s->slot[q] = q_logical ? BASIC_LOGICAL : p;
  if (q_logical) return;
  s->var[p] = q;
  memcpy(s->w[p], y, (size_t)k * sizeof *y);
  memcpy(s->own[p], s->raw, (size_t)s->m * sizeof *s->raw);
}

void tableau_exchange(struct simplex *s, int leaving, int q) {
  double f = s->d[q] / s->row[q];
  take_weights(s, leaving, q);
  if (f != 0) kernel_add_multiple(s->d, s->row, -f, variables(s));
  s->d[q] = 0;
  s->d[leaving] = f;
  change_basis(s, leaving, q);
  s->pivots++;
  s->trust.since_rebuild++;
  s->trust.since_price++;
  s->trust.since_refine += REFINE_AFTER;
  s->trust.signs_right = false;
}

void tableau_rebuild(struct simplex *s) {
  int count = s->k;
  int *wanted = s->list, *open = s->list + s->n; /* the structurals J; by row: its logical is to be nonbasic */
  for (int p = 0; p < count; p++) wanted[p] = s->var[p];
  for (int i = 0; i < s->m; i++) {
    open[i] = s->slot[s->n + i] == NONBASIC;
    s->slot[s->n + i] = BASIC_LOGICAL;
  }
  for (int p = 0; p < count; p++) s->slot[wanted[p]] = NONBASIC;
  s->k = 0;
  long pivots = s->pivots;
  for (int c = 0; c < count; c++) {
    int q = wanted[c], best = -1;
    tableau_column(s, q);
    for (int i = 0; i < s->m; i++)
      if (open[i] && (best < 0 || fabs(s->col[i]) > fabs(s->col[best]))) best = i;
    if (best < 0 || !(fabs(s->col[best]) >= 1e-11)) { /* dependent, as far as these numbers can tell: stays out */
      s->x[q] = simplex_resting_place(s, q, s->cost[q]);
      continue;
    }
    tableau_row(s, s->n + best, true);
    tableau_exchange(s, s->n + best, q);
    open[best] = false;
  }
  s->pivots = pivots;
  for (int v = 0; v < variables(s); v++) s->weight[v] = 1;
  tableau_reprice(s);
  tableau_refine(s);
  s->trust.since_rebuild = 0;
}

/* sum [m] = A x over the nonbasic structurals, of which those that are not zero are listed. Returns how many. */
static int activities_of_nonbasic(struct simplex *s, double *sum) {
  int used = 0;
  for (int j = 0; j < s->n; j++)
    if (s->x[j] != 0 && s->slot[j] == NONBASIC) s->list[used++] = j;
  memset(sum, 0, (size_t)s->m * sizeof *sum);
  for (int i = 0; used > 0 && i < s->m; i++)
    for (int u = 0; u < used; u++) sum[i] += a_at(s, i, s->list[u]) * s->x[s->list[u]];
  return used;
}

/* The sum of the sizes of all terms of row i; 'used' as above. */
static double size_of_terms(const struct simplex *s, int i, int used) {
  double size = larger(fabs(s->x[s->n + i]), 1e-6);
  for (int u = 0; u < used; u++) size += fabs(a_at(s, i, s->list[u]) * s->x[s->list[u]]);
  for (int p = 0; p < s->k; p++) size += fabs(s->own[p][i] * s->x[s->var[p]]);
  return size;
}

double tableau_refine(struct simplex *s) {
  double first = 0, *sum = s->miss, *rest = s->col, *miss = s->by;
  int used = activities_of_nonbasic(s, rest);
  for (int pass = 0;; pass++) {
    double worst = 0;
    for (int p = 0; p < s->k; p++) s->share[p] = s->x[s->var[p]];
    kernel_combine(sum, rest, s->own, s->share, s->k, NULL, kernel_whole(s->m));
    for (int c = 0; c < s->k; c++) {
      int i = s->rows_k[c];
      double logical = s->x[s->n + i];
      miss[c] = logical - sum[i];
      if (fabs(miss[c]) <= LAST_BITS * fabs(logical)) continue;
      double size = size_of_terms(s, i, used);
      if (!(fabs(miss[c]) <= worst * size)) worst = fabs(miss[c]) / size;
    }
    if (pass == 0) first = worst;
    if (!(worst > LAST_BITS) || pass == 5) break;
    for (int p = 0; p < s->k; p++) {
      double step = 0;
      for (int c = 0; c < s->k; c++) step += s->w[p][c] * miss[c];
      s->x[s->var[p]] += step;
    }
  }
  for (int c = 0; c < s->k; c++) sum[s->rows_k[c]] = s->x[s->n + s->rows_k[c]];
  memcpy(s->x + s->n, sum, (size_t)s->m * sizeof *sum);
  s->trust.since_refine = 0;
  return first;
}

void tableau_reprice(struct simplex *s) {
  double *on_j = s->by;
  for (int p = 0; p < s->k; p++) on_j[p] = s->cost[s->var[p]];
  s->trust.price_error = multipliers(s, on_j, s->y, true);
  kernel_scale(s->d, s->cost, 1, s->col_unscale, s->n);
  express(s, s->d, -1, s->y, s->d);
  s->trust.stale_costs = false;
  s->trust.since_price = 0;
  s->trust.signs_right = false;
}
