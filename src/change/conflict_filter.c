#include "change/conflict_filter.h"

#include <math.h>

#include "base/num.h"

struct filter {
  const struct conflict_scope *s;
  struct lp_conflict *k;
  struct lp_solver *solver;
  bool stopped;
};

static double low_end(const struct conflict_scope *s, const struct lp_conflict *k, size_t j) {
  double lo = s->m->col[j].lo;
  return lo <= 0 || k->col_lo[j] ? lo : 0;
}

static double high_end(const struct conflict_scope *s, const struct lp_conflict *k, size_t j) {
  bool hard = s->hard_hi && s->hard_hi[j];
  return hard || k->col_hi[j] ? s->m->col[j].hi : INFINITY;
}

static void set_row(struct filter *f, size_t i, bool lo, bool hi) {
  const struct lp_row *r = &f->s->m->row[i];
  lp_change_row(f->solver, (int)i, lo ? r->lo : -INFINITY, hi ? r->hi : INFINITY);
}

static void set_col(struct filter *f, size_t j) {
  lp_change_col(f->solver, (int)j, low_end(f->s, f->k, j), high_end(f->s, f->k, j));
}

/* Once stopped every limit that is left counts as needed. */
static bool impossible(struct filter *f) {
  const struct lp_limits *l = f->s->limits;
  if (!f->stopped && l && l->go_on) f->stopped = !l->go_on(l->user, NULL, -INFINITY, 0);
  return !f->stopped && lp_solve(f->solver, NULL)->status == LP_INFEASIBLE;
}

/* All rows of the limit of row i. */
static void try_limit(struct filter *f, size_t i) {
  const int *limit = f->s->limit;
  for (size_t r = i; r < f->s->m->rows; r++)
    if (limit[r] == limit[i]) set_row(f, r, false, false);
  bool needed = !impossible(f);
  for (size_t r = i; r < f->s->m->rows; r++) {
    if (limit[r] != limit[i]) continue;
    if (needed)
      set_row(f, r, f->k->row_lo[r], f->k->row_hi[r]);
    else
      f->k->row_lo[r] = f->k->row_hi[r] = false;
  }
}

static void try_end(struct filter *f, bool *end, size_t j) {
  if (!*end) return;
  *end = false;
  set_col(f, j);
  if (impossible(f)) return;
  *end = true;
  set_col(f, j);
}

static bool is_first(const struct conflict_scope *s, const struct lp_conflict *k, size_t i) {
  if (!k->row_lo[i] && !k->row_hi[i]) return false;
  for (size_t r = 0; r < i; r++)
    if (s->limit[r] == s->limit[i] && (k->row_lo[r] || k->row_hi[r])) return false;
  return true;
}

static size_t count(const struct conflict_scope *s, const struct lp_conflict *k) {
  size_t n = 0;
  for (size_t i = 0; i < s->m->rows; i++) n += k->row_lo[i] || k->row_hi[i];
  for (size_t j = 0; j < s->m->cols; j++) n += (size_t)k->col_lo[j] + (size_t)k->col_hi[j];
  return n;
}

void conflict_filter(const struct conflict_scope *s, struct lp_conflict *k, struct arena *scratch) {
  if (k->count == 0) return;
  for (size_t j = 0; j < s->m->cols; j++) { /* what always holds is no limit that could go */
    if (s->m->col[j].lo <= 0) k->col_lo[j] = false;
    if (s->hard_hi && s->hard_hi[j]) k->col_hi[j] = false;
  }
  struct filter f = {s, k, lp_open(s->m, 0, scratch), false};
  for (size_t i = 0; i < s->m->rows; i++) set_row(&f, i, k->row_lo[i], k->row_hi[i]);
  for (size_t j = 0; j < s->m->cols; j++) set_col(&f, j);
  if (!impossible(&f)) {
    k->count = 0;
    return;
  }
  for (size_t i = 0; i < s->m->rows; i++)
    if (is_first(s, k, i)) try_limit(&f, i);
  for (size_t j = 0; j < s->m->cols; j++) {
    try_end(&f, &k->col_lo[j], j);
    try_end(&f, &k->col_hi[j], j);
  }
  k->count = f.stopped ? 0 : count(s, k);
}

struct lp_model *conflict_model(const struct conflict_scope *s, const struct lp_conflict *k, const char *const *name,
                                struct arena *arena) {
  const struct lp_model *m = s->m;
  struct lp_model *out = ARENA_NEW(arena, struct lp_model, 1);
  lp_init(out, arena);
  for (size_t j = 0; j < m->cols; j++) {
    struct lp_col col = m->col[j];
    col.cost = col.second = col.least = col.unit = 0;
    col.lo = low_end(s, k, j);
    col.hi = high_end(s, k, j);
    lp_add_col(out, col);
  }
  for (size_t i = 0; i < m->rows; i++) {
    if (!k->row_lo[i] && !k->row_hi[i]) continue;
    int row = lp_add_row(out, name[i], k->row_lo[i] ? m->row[i].lo : -INFINITY, k->row_hi[i] ? m->row[i].hi : INFINITY);
    for (size_t j = 0; j < m->cols; j++) lp_set(out, row, (int)j, m->a[i][j]);
  }
  return out;
}

const char *conflict_amount_words(const struct lp_col *c, const char *relation, double grams, struct arena *arena) {
  struct buf b;
  buf_init(&b, arena, 300);
  buf_addf(&b, "%s: %s ", c->name, relation);
  num_sig(&b, grams, 3);
  buf_adds(&b, " g a day");
  return buf_text(&b);
}
