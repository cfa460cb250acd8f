/* The condensed tableau: see simplex.h for the mathematics. */
#include <math.h>

#include "lp/kernels.h"
#include "lp/simplex.h"

static const double *a_row(const struct simplex *s, int i) { return s->a + (size_t)i * (size_t)s->n; }

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
  s->since_rebuild = 0;
}

static int list_k(struct simplex *s) {
  int count = 0;
  for (int i = 0; i < s->m; i++)
    if (s->slot[s->n + i] == NONBASIC) s->rows_k[count++] = i;
  return count;
}

/* What y leaves of b on J, into s->miss. Returns the largest, relative to the terms of its column, or to a millionth of the
 * largest terms of all where a column has next to none. */
static double missing_on_j(struct simplex *s, const double *b, const double *y) {
  int count = list_k(s);
  double *size = s->relaxed, most = 0, error = 0;
  for (int p = 0; p < s->k; p++) {
    double sum = b[s->var[p]];
    const double *own = s->own[p];
    size[p] = fabs(sum);
    for (int c = 0; c < count; c++) {
      double term = y[s->rows_k[c]] * own[s->rows_k[c]];
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

double tableau_express(struct simplex *s, const double *b, double *out, bool exact) {
  double *y = out + s->n, error = 0;
  memset(y, 0, (size_t)s->m * sizeof *y);
  for (int p = 0; p < s->k; p++)
    if (b[s->var[p]] != 0) kernel_add_multiple(y, s->t[p] + s->n, b[s->var[p]], s->m);
  for (int pass = 0; exact && pass < 4; pass++) {
    error = missing_on_j(s, b, y);
    if (error <= 1e-14) break;
    for (int p = 0; p < s->k; p++) kernel_add_multiple(y, s->t[p] + s->n, s->miss[p], s->m);
  }
  memcpy(out, b, (size_t)s->n * sizeof *out);
  for (int i = 0; i < s->m; i++)
    if (y[i] != 0) kernel_add_multiple(out, a_row(s, i), -y[i], s->n);
  for (int p = 0; p < s->k; p++) out[s->var[p]] = 0;
  return error;
}

double tableau_row(struct simplex *s, int var, bool fresh) {
  int p = s->slot[var];
  if (p == BASIC_LOGICAL) {
    return tableau_express(s, a_row(s, var - s->n), s->row, fresh);
  } else if (!fresh) {
    memcpy(s->row, s->t[p], (size_t)variables(s) * sizeof *s->row);
    return 0;
  } else {
    /* The unit vector is built where the stored row's structural part was; only the other part is read meanwhile. */
    memset(s->t[p], 0, (size_t)s->n * sizeof *s->row);
    s->t[p][var] = 1;
    double error = tableau_express(s, s->t[p], s->row, true);
    memcpy(s->t[p], s->row, (size_t)variables(s) * sizeof *s->row);
    return error;
  }
}

void tableau_column(struct simplex *s, int q) {
  double *col = s->col;
  memset(s->raw, 0, (size_t)s->m * sizeof *col);
  if (q < s->n)
    for (int i = 0; i < s->m; i++) s->raw[i] = s->a[(size_t)i * (size_t)s->n + (size_t)q];
  memcpy(col, s->raw, (size_t)s->m * sizeof *col);
  for (int p = 0; p < s->k; p++) {
    s->share[p] = s->t[p][q];
    if (s->share[p] != 0) kernel_add_multiple(col, s->own[p], s->share[p], s->m);
  }
  for (int i = 0; i < s->m; i++)
    if (s->slot[s->n + i] == NONBASIC) col[i] = 0;
}

double tableau_entry(const struct simplex *s, int var) {
  return s->slot[var] == BASIC_LOGICAL ? s->col[var - s->n] : s->share[s->slot[var]];
}

void tableau_step(struct simplex *s, int q, double step) {
  s->since_refine++;
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
  int p = s->k++;
  if (p == s->slots) { /* the pointers have room for all; the storage comes as it is needed */
    s->t[p] = ARENA_NEW(s->arena, double, (size_t)(s->n + s->m_cap));
    s->own[p] = ARENA_NEW(s->arena, double, (size_t)s->m_cap);
    s->slots++;
  }
  return p;
}

static void drop_slot(struct simplex *s, int p) {
  int last = --s->k;
  double *t = s->t[p], *own = s->own[p];
  s->t[p] = s->t[last], s->own[p] = s->own[last], s->var[p] = s->var[last];
  s->t[last] = t, s->own[last] = own;
  if (p != last) s->slot[s->var[p]] = p;
}

void tableau_exchange(struct simplex *s, int leaving, int q) {
  int n = variables(s), p = s->slot[leaving];
  take_weights(s, leaving, q);
  /* x_leaving = row' x, solved for x_q. */
  double *row = s->row, inverse = 1 / row[q];
  for (int v = 0; v < n; v++) row[v] *= -inverse;
  row[q] = 0;
  row[leaving] = inverse;
  for (int i = 0; i < s->k; i++) s->t[i][q] = 0;
  kernel_rank_one(s->t, s->share, s->k, p, row, n);
  double f = s->d[q];
  s->d[q] = 0;
  if (f != 0) kernel_add_multiple(s->d, row, f, n);
  s->slot[leaving] = NONBASIC;
  if (q < s->n) {
    if (p < 0) p = new_slot(s);
    s->var[p] = q;
    s->slot[q] = p;
    memcpy(s->t[p], row, (size_t)n * sizeof *row);
    memcpy(s->own[p], s->raw, (size_t)s->m * sizeof *s->raw);
  } else {
    s->slot[q] = BASIC_LOGICAL;
    if (p >= 0) drop_slot(s, p);
  }
  s->pivots++;
  s->since_rebuild++;
  s->since_price++;
  s->since_refine += REFINE_AFTER;
  s->signs_right = false;
  s->d_version++;
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
  s->since_rebuild = 0;
}

double tableau_refine(struct simplex *s) {
  int used = 0, count = list_k(s);
  for (int j = 0; j < s->n; j++)
    if (s->x[j] != 0 || s->slot[j] >= 0) s->list[used++] = j;
  double first = 0, *miss = s->miss;
  for (int pass = 0; pass < 5; pass++) {
    double worst = 0;
    for (int c = 0; c < count; c++) {
      const double *a = a_row(s, s->rows_k[c]);
      double logical = s->x[s->n + s->rows_k[c]], sum = 0, size = larger(fabs(logical), 1e-6);
      for (int u = 0; u < used; u++) {
        double term = a[s->list[u]] * s->x[s->list[u]];
        sum += term;
        size += fabs(term);
      }
      miss[c] = logical - sum;
      if (!(fabs(miss[c]) <= worst * size)) worst = fabs(miss[c]) / size;
    }
    if (pass == 0) first = worst;
    if (!(worst > 1e-14)) break;
    for (int p = 0; p < s->k; p++) {
      const double *w = s->t[p] + s->n;
      double step = 0;
      for (int c = 0; c < count; c++) step += w[s->rows_k[c]] * miss[c];
      s->x[s->var[p]] += step;
    }
  }
  for (int i = 0; i < s->m; i++) {
    if (s->slot[s->n + i] == NONBASIC) continue;
    const double *a = a_row(s, i);
    double sum = 0;
    for (int u = 0; u < used; u++) sum += a[s->list[u]] * s->x[s->list[u]];
    s->x[s->n + i] = sum;
  }
  s->since_refine = 0;
  return first;
}

void tableau_reprice(struct simplex *s) {
  s->price_error = tableau_express(s, s->cost, s->d, true);
  s->stale_costs = false;
  s->since_price = 0;
  s->signs_right = false;
  s->d_version++;
}
