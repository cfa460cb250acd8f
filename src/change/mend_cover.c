/* mend_cover.c: the fewest columns, by what every possible set of them must bring.
 *
 * Whenever a set of columns turns out to be impossible, the multipliers that prove it say more than that: combined by them
 * the rows read  sum of brings_j over the columns in use >= need,  where brings_j is the most that column j can add to it;
 * every set that is possible keeps this. The set is first made as large as it can be without becoming possible, so that
 * few columns are left that can meet the demand. Then a small program with nothing in it but in or out for each column looks
 * for a set that meets all demands known so far, in one column less than the best: it is tried on the rows and is possible,
 * or teaches another demand. When no set meets the demands, fewer columns do not suffice. That is a proof when it holds for
 * the demands alone that come from rows which cut off nothing that is right (planes.c). */
#include <math.h>

#include "change/mend_search.h"

enum { DEMANDS = 240, REFUSALS = 12, DECISIONS_AT_ONCE = 2500 };
static const double CLEARLY = 1e-7;

/* Rows, and a solver of them. */
struct cover_rows {
  struct lp_model *model;
  struct lp_solver *solver;
};

struct cover {
  struct mend_search *s;
  struct arena scratch, solvers;
  struct cover_rows all, firm; /* 'firm' without rows that may cut off what is right; solver NULL: not opened */
  bool bold;                   /* there are such rows */
  struct lp_model sets;        /* in or out: demands, kinds, how many */
  bool *doubtful;              /* [rows of sets] is no part of a proof */
  int size_row;
  size_t *may, mays; /* columns that may be used here */
  double *lo, *hi;   /* [columns] of one that is in use */
  double *brings;    /* [columns] scratch */
  bool *in, *grown;  /* [columns] the set at hand, and what it was made larger by */
  long left;         /* decisions */
};

static void cover_bounds(const struct cover *c, struct lp_solver *of, size_t j) {
  lp_change_col(of, (int)j, c->in[j] ? c->lo[j] : 0, c->in[j] || c->grown[j] ? c->hi[j] : 0);
}

static void cover_all_bounds(const struct cover *c, struct lp_solver *of) {
  for (size_t j = 0; j < c->s->columns; j++) cover_bounds(c, of, j);
}

/* Only whether there is a solution is asked: nothing costs anything. */
static struct cover_rows cover_open(struct cover *c, struct lp_model *m) {
  struct cover_rows r = {m, lp_open(m, 0, &c->solvers)};
  for (size_t j = 0; j < c->s->columns; j++) lp_change_cost(r.solver, (int)j, 0);
  cover_all_bounds(c, r.solver);
  return r;
}

/* Anew, with the rows that the model has by now. */
static void cover_open_all(struct cover *c) {
  arena_free(&c->solvers);
  mend_play(c->s, NULL, GRAIN_NONE, 1);
  c->bold = model_bold_rows(c->s->p) > 0;
  c->all = cover_open(c, model_lp(c->s->p));
  c->firm = c->bold ? (struct cover_rows){NULL, NULL} : c->all;
}

static bool cover_possible(const struct cover *c, const struct cover_rows *r) {
  c->s->spent++;
  return lp_solve(r->solver, NULL)->status != LP_INFEASIBLE;
}

/* What the multipliers demand of a set, into c->brings and 'need'. False: the set at hand, grown, does not break it clearly.
 */
static bool read_demand(struct cover *c, const struct lp_model *m, const double *y, double sign, double *need) {
  double have = 0, size = 0;
  *need = 0;
  for (size_t i = 0; i < m->rows; i++) {
    double f = sign * y[i];
    if (f != 0) *need += f * (f > 0 ? m->row[i].lo : m->row[i].hi);
  }
  if (!isfinite(*need)) return false;
  for (size_t k = 0; k < c->mays; k++) {
    size_t j = c->may[k];
    double a = 0;
    for (size_t i = 0; i < m->rows; i++)
      if (y[i] != 0) a += sign * y[i] * m->a[i][j];
    c->brings[j] = fmax(a * c->lo[j], a * c->hi[j]);
    if (c->in[j]) have += c->brings[j];
    if (c->grown[j]) have += fmax(0, c->brings[j]);
    size = fmax(size, fabs(c->brings[j]));
  }
  size = fmax(size, fabs(*need));
  return have < *need - CLEARLY * size;
}

/* As a row on in or out. No column need bring more than all that is asked for. */
static void add_demand(struct cover *c, double need, bool doubtful) {
  static const double ROUNDING = 1e-9;
  double most = need, size = 0;
  for (size_t k = 0; k < c->mays; k++) most -= fmin(0, c->brings[c->may[k]]);
  for (size_t k = 0; k < c->mays; k++) size = fmax(size, fmin(fabs(c->brings[c->may[k]]), fabs(most)));
  if (!(size > 0)) size = 1; /* nothing can meet it */
  int row = lp_add_row(&c->sets, "demand", need / size - ROUNDING * fmax(1, fabs(need / size)), INFINITY);
  for (size_t k = 0; k < c->mays; k++) lp_set(&c->sets, row, (int)k, fmin(c->brings[c->may[k]], most) / size);
  c->doubtful[row] = doubtful;
}

static bool take_demand(struct cover *c, const struct cover_rows *r, bool doubtful) {
  double need;
  const struct lp_answer *a = lp_solve(r->solver, NULL);
  if (a->status != LP_INFEASIBLE) return false;
  if (!read_demand(c, r->model, a->farkas, 1, &need) && !read_demand(c, r->model, a->farkas, -1, &need)) return false;
  add_demand(c, need, doubtful);
  return true;
}

/* The set at hand is impossible: what it lacks, and what it lacks with as many columns more as leave it impossible. */
static bool learn_demands(struct cover *c) {
  if (!c->firm.solver) c->firm = cover_open(c, model_lp(model_firm(c->s->p, &c->solvers)));
  cover_all_bounds(c, c->firm.solver);
  const struct cover_rows *r = c->bold && cover_possible(c, &c->firm) ? &c->all : &c->firm;
  bool doubtful = c->bold && r == &c->all, any = take_demand(c, r, doubtful);
  for (size_t k = 0; k < c->mays; k++) {
    size_t j = c->may[k];
    if (c->in[j]) continue;
    c->grown[j] = true;
    cover_bounds(c, r->solver, j);
    if (!cover_possible(c, r)) continue;
    c->grown[j] = false;
    cover_bounds(c, r->solver, j);
  }
  any |= take_demand(c, r, doubtful);
  memset(c->grown, 0, c->s->columns * sizeof *c->grown);
  cover_all_bounds(c, r->solver);
  return any;
}

static int size_of_set(const struct cover *c) {
  int n = 0;
  for (size_t k = 0; k < c->mays; k++) n += c->in[c->may[k]];
  return n;
}

/* This very set is not to be tried again, nor one with more in it. */
static void refuse_set(struct cover *c, bool doubtful) {
  int row = lp_add_row(&c->sets, "refused", -INFINITY, size_of_set(c) - 1);
  for (size_t k = 0; k < c->mays; k++) lp_set(&c->sets, row, (int)k, c->in[c->may[k]]);
  c->doubtful[row] = doubtful;
}

/* Of one kind one at most. */
static void add_kind_rows(struct cover *c) {
  const struct mend_search *s = c->s;
  for (size_t k = 0; mend_kin_counts(s) && k < c->mays; k++) {
    int kin = s->column[c->may[k]].kin, row = -1;
    bool first = kin > 0;
    for (size_t i = 0; i < k; i++) first &= s->column[c->may[i]].kin != kin;
    for (size_t i = k; first && i < c->mays; i++) {
      if (s->column[c->may[i]].kin != kin) continue;
      if (row < 0) row = lp_add_row(&c->sets, "one of a kind", -INFINITY, 1);
      lp_set(&c->sets, row, (int)i, 1);
    }
  }
}

static void cover_begin(struct cover *c, struct mend_search *s, long decisions) {
  size_t n = s->columns;
  *c = (struct cover){.s = s, .left = decisions};
  arena_init(&c->scratch, s->arena->on_full);
  arena_init(&c->solvers, s->arena->on_full);
  c->may = ARENA_NEW(&c->scratch, size_t, n);
  c->lo = ARENA_NEW(&c->scratch, double, n);
  c->hi = ARENA_NEW(&c->scratch, double, n);
  c->brings = ARENA_NEW(&c->scratch, double, n);
  c->in = ARENA_NEW(&c->scratch, bool, n);
  c->grown = ARENA_NEW(&c->scratch, bool, n);
  c->doubtful = ARENA_NEW(&c->scratch, bool, n + DEMANDS + 4);
  mend_play(s, NULL, GRAIN_LEAST, 1);
  lp_init(&c->sets, &c->scratch);
  for (size_t j = 0; j < n; j++) {
    const struct lp_col *col = &model_lp(s->p)->col[j];
    c->lo[j] = fmax(col->unit, col->least);
    c->hi[j] = col->hi;
    if (!(c->hi[j] > 0) || c->lo[j] > c->hi[j]) continue;
    c->may[c->mays++] = j;
    lp_add_col(&c->sets, (struct lp_col){.name = "", .hi = 1, .unit = 1, .cost = 1});
  }
  c->size_row = lp_add_row(&c->sets, "how many", -INFINITY, INFINITY);
  for (size_t k = 0; k < c->mays; k++) lp_set(&c->sets, c->size_row, (int)k, 1);
  add_kind_rows(c);
  cover_open_all(c);
}

static bool cover_go_on(void *user, const struct lp_answer *best, double bound, long nodes) {
  (void)best;
  (void)bound;
  (void)nodes;
  return mend_go_on(user);
}

/* A set of so many columns at most that meets all demands becomes the one at hand. LP_INFEASIBLE: there is none. */
static enum lp_status next_set(struct cover *c, int most) {
  struct arena scratch;
  arena_init(&scratch, c->s->arena->on_full);
  c->sets.row[c->size_row].hi = most;
  long nodes = c->left < DECISIONS_AT_ONCE ? c->left : DECISIONS_AT_ONCE;
  struct lp_limits limits = {.nodes = nodes > 0 ? nodes : 1, .go_on = cover_go_on, .user = c->s};
  const struct lp_answer *a = lp_solve_mixed(lp_open(&c->sets, 0, &scratch), &limits);
  enum lp_status status = a->has_x ? LP_OPTIMAL : a->status;
  c->left -= a->nodes;
  for (size_t k = 0; k < c->mays && a->has_x; k++) c->in[c->may[k]] = a->x[k] > 0.5;
  arena_free(&scratch);
  return status;
}

/* Is there none either when only what is no part of a doubt counts? */
static bool prove_none(struct cover *c) {
  for (size_t i = 0; i < c->sets.rows; i++)
    if (c->doubtful[i]) {
      c->sets.row[i].lo = -INFINITY;
      c->sets.row[i].hi = INFINITY;
    }
  return next_set(c, (int)c->sets.row[c->size_row].hi) == LP_INFEASIBLE;
}

/* Is the set possible with whole things whole, and in steps that can be measured? Else 'none': it is proven that the first
 * is not. */
static bool settle_set(struct cover *c, struct mend_choice *out, bool *none) {
  static const double FINER[] = {1, 2, 5};
  bool found = false, no_steps;
  struct mend_choice grain = *out, steps = *out;
  if (mend_within(c->s, c->in, GRAIN_LEAST, 1, &grain, none))
    for (size_t i = 0; i < COUNT_OF(FINER) && !found; i++)
      found = mend_within(c->s, c->in, GRAIN_STEPS, FINER[i], &steps, &no_steps);
  cover_open_all(c);
  if (found) *out = grain;
  return found;
}

/* A set that the rows allow. How many columns the best has then. */
static int try_set(struct cover *c, int lines, int *refused, struct mend_choice *best) {
  bool none = false;
  int size = size_of_set(c);
  if (settle_set(c, best, &none)) return size;
  ++*refused;
  if (!cover_possible(c, &c->all) && learn_demands(c)) return lines; /* by rows that the judge has just taught */
  refuse_set(c, !none || size < lines - 1);
  return lines;
}

int mend_cover(struct mend_search *s, int lines, long decisions, struct mend_choice *best, bool *proven) {
  struct cover c;
  enum lp_status status = LP_STOPPED;
  cover_begin(&c, s, decisions);
  for (int refused = 0; c.sets.rows + 2 < DEMANDS && refused < REFUSALS && c.left > 0 && mend_go_on(s);) {
    status = next_set(&c, lines - 1);
    if (status != LP_OPTIMAL) break;
    cover_all_bounds(&c, c.all.solver);
    if (cover_possible(&c, &c.all))
      lines = s->shown_lines = try_set(&c, lines, &refused, best);
    else if (!learn_demands(&c))
      refuse_set(&c, true);
    status = LP_STOPPED;
  }
  c.left = DECISIONS_AT_ONCE;
  *proven = status == LP_INFEASIBLE && prove_none(&c);
  arena_free(&c.solvers);
  arena_free(&c.scratch);
  return lines;
}
