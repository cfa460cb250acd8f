/* conflict_words.c: why there is no recipe, as a smallest set of limits in plain words.
 *
 * The rows alone are filtered by lp_smallest_conflict. Where they can hold together and only whole pieces, "if used" or the
 * number of foods stand in the way, the same is done over those and the rows: a limit whose absence leaves the rest
 * impossible is dropped for good; what is left cannot lose one more. */
#include <math.h>

#include "base/num.h"
#include "change/compose_parts.h"

struct words {
  const char **item;
  size_t count, cap;
};

static void push(struct composer *c, struct words *w, const char *words) {
  for (size_t i = 0; i < w->count; i++)
    if (strcmp(w->item[i], words) == 0) return;
  ARENA_PUSH(c->arena, w->item, w->count, w->cap, words);
}

static const char *bound_text(struct composer *c, const struct lp_col *col, const char *relation, double grams) {
  struct buf b;
  buf_init(&b, c->arena, 300);
  buf_addf(&b, "%s: %s ", col->name, relation);
  num_sig(&b, grams, 3);
  buf_adds(&b, " g a day");
  return buf_text(&b);
}

static void push_bounds(struct composer *c, struct words *w, size_t j, bool lo, bool hi) {
  const struct lp_col *col = &program_model(c->p)->col[j];
  if (lo && col->lo > 0) push(c, w, bound_text(c, col, "at least", col->lo));
  if (hi && col->hi < INFINITY) push(c, w, bound_text(c, col, "at most", col->hi));
}

/* ---- how much there can be ---------------------------------------------------------------------------------------- */

/* The most (or least) of a row's left side that the other limits of the conflict leave: the program of those alone. */
static double extreme(struct composer *c, const struct lp_conflict *k, size_t row, bool most, struct arena *scratch) {
  const struct lp_model *m = program_model(c->p);
  struct lp_model q;
  lp_init(&q, scratch);
  const struct limit *own = program_limit_of_row(c->p, row);
  for (size_t j = 0; j < m->cols; j++) {
    struct lp_col col = m->col[j];
    col.cost = most ? -m->a[row][j] : m->a[row][j];
    col.least = col.unit = 0;
    if (!k->col_lo[j] && !(col.lo > 0)) col.lo = fmax(col.lo, 0);
    if (!k->col_hi[j]) col.hi = INFINITY;
    lp_add_col(&q, col);
  }
  for (size_t i = 0; i < m->rows; i++) {
    if ((!k->row_lo[i] && !k->row_hi[i]) || program_limit_of_row(c->p, i) == own) continue;
    int at = lp_add_row(&q, "", k->row_lo[i] ? m->row[i].lo : -INFINITY, k->row_hi[i] ? m->row[i].hi : INFINITY);
    for (size_t j = 0; j < m->cols; j++) lp_set(&q, at, (int)j, m->a[i][j]);
  }
  const struct lp_answer *a = lp_solve(lp_open(&q, 0, scratch), NULL);
  return a->status == LP_OPTIMAL ? (most ? -a->objective : a->objective) : (double)NAN;
}

/* The first row of a limit: that of the plain amount, before any plane for the chance. */
static size_t first_row(struct composer *c, const struct limit *l) {
  for (size_t i = 0; i < program_model(c->p)->rows; i++)
    if (program_limit_of_row(c->p, i) == l) return i;
  return 0;
}

static const char *whose(struct composer *c, const struct limit *l) {
  return c->q->animals > 1 && l->bowl >= 0 ? c->q->animal[l->bowl].name : "";
}

static const char *tell(struct composer *c, const struct lp_conflict *k, size_t row, const struct words *w) {
  const struct lp_model *m = program_model(c->p);
  const struct limit *l = program_limit_of_row(c->p, row);
  size_t plain = first_row(c, l);
  bool most = l->kind == LIMIT_ALLOWANCE;
  struct arena scratch;
  struct buf b;
  arena_init(&scratch, c->arena->on_full);
  double limit = most ? m->row[plain].lo : m->row[plain].hi, got = extreme(c, k, plain, most, &scratch);
  arena_free(&scratch);
  if (!isfinite(limit) || isnan(got) || !(limit > 0)) return "";
  const char *unit = nutrient_info[l->nutrient].unit, *name = nutrient_info[l->nutrient].name;
  buf_init(&b, c->arena, 600);
  if (whose(c, l)[0]) buf_addf(&b, "%s: ", whose(c, l));
  buf_addf(&b, most ? "%s needs at least " : "%s may be at most ", name);
  num_sig(&b, limit, 3);
  buf_addf(&b, " %s a day", unit);
  bool enough = most ? got >= limit * (1 - 1e-6) : got <= limit * (1 + 1e-6);
  if (enough) {
    buf_adds(&b, ", and with the confidence asked for that is more than ");
    buf_adds(&b, most ? "the larder's foods can be trusted to bring" : "they can be trusted to stay below");
  } else {
    buf_adds(&b, most ? ", but the larder's foods bring at most " : ", but the larder's foods bring at least ");
    num_sig(&b, got, 3);
    buf_addf(&b, " %s", unit);
  }
  bool first = true;
  for (size_t i = 0; i < w->count; i++) {
    if (strcmp(w->item[i], l->name) == 0) continue;
    buf_adds(&b, first ? " within these limits: " : "; ");
    buf_adds(&b, w->item[i]);
    first = false;
  }
  buf_addc(&b, '.');
  return buf_text(&b);
}

static const char *sentence_of(struct composer *c, const struct lp_conflict *k, const struct words *w) {
  const struct lp_model *m = program_model(c->p);
  for (int pass = 0; pass < 2; pass++)
    for (size_t i = 0; i < m->rows; i++) {
      const struct limit *l = program_limit_of_row(c->p, i);
      enum limit_kind wanted = pass == 0 ? LIMIT_ALLOWANCE : LIMIT_UPPER;
      if ((!k->row_lo[i] && !k->row_hi[i]) || l->kind != wanted) continue;
      const char *s = tell(c, k, i, w);
      if (s[0]) return s;
    }
  return "";
}

/* ---- where counting stands in the way ----------------------------------------------------------------------------- */

static bool stop_at_first(void *user, const struct lp_answer *best, double bound, long nodes) {
  (void)user;
  (void)bound;
  (void)nodes;
  return !best || !best->has_x;
}

static bool impossible(const struct lp_model *m, const struct arena *like) {
  struct arena scratch;
  struct lp_limits limits = {.go_on = stop_at_first};
  arena_init(&scratch, like->on_full);
  bool none = lp_solve_mixed(lp_open(m, 0, &scratch), &limits)->status == LP_INFEASIBLE;
  arena_free(&scratch);
  return none;
}

static void copy_model(const struct lp_model *m, struct lp_model *out, struct arena *arena) {
  lp_init(out, arena);
  for (size_t j = 0; j < m->cols; j++) {
    struct lp_col col = m->col[j];
    col.cost = col.second = 0;
    lp_add_col(out, col);
  }
  for (size_t i = 0; i < m->rows; i++) {
    int row = lp_add_row(out, m->row[i].name, m->row[i].lo, m->row[i].hi);
    for (size_t j = 0; j < m->cols; j++) lp_set(out, row, (int)j, m->a[i][j]);
  }
  out->most_used = m->most_used;
}

/* Opens all rows of a limit; keeps them when that makes it possible. */
static bool needed_limit(struct composer *c, struct lp_model *q, const struct limit *l) {
  const struct lp_model *m = program_model(c->p);
  struct lp_row *before = ARENA_NEW(c->arena, struct lp_row, q->rows);
  memcpy(before, q->row, q->rows * sizeof *before);
  for (size_t i = 0; i < m->rows; i++) {
    if (program_limit_of_row(c->p, i) != l) continue;
    q->row[i].lo = -INFINITY;
    q->row[i].hi = INFINITY;
  }
  if (impossible(q, c->arena)) return false;
  memcpy(q->row, before, q->rows * sizeof *before);
  return true;
}

static bool is_first_of_limit(struct composer *c, size_t row) {
  return first_row(c, program_limit_of_row(c->p, row)) == row;
}

static void filter_counting(struct composer *c, struct lp_model *q, struct words *w) {
  for (size_t i = 0; i < q->rows; i++) {
    const struct limit *l = program_limit_of_row(c->p, i);
    if (is_first_of_limit(c, i) && needed_limit(c, q, l)) push(c, w, l->name);
  }
  int most = q->most_used;
  q->most_used = -1;
  if (most >= 0 && !impossible(q, c->arena)) {
    struct buf b;
    buf_init(&b, c->arena, 60);
    buf_addf(&b, "at most %d foods", most);
    push(c, w, buf_text(&b));
    q->most_used = most;
  }
  for (size_t j = 0; j < c->columns; j++) {
    struct lp_col before = q->col[j];
    if (before.least > 0) {
      q->col[j].least = 0;
      if (!impossible(q, c->arena)) {
        push(c, w, bound_text(c, &before, "if used, at least", before.least));
        q->col[j].least = before.least;
      }
    }
    if (before.unit > 0) {
      q->col[j].unit = 0;
      if (!impossible(q, c->arena)) {
        push(c, w, bound_text(c, &before, "in whole pieces of", before.unit));
        q->col[j].unit = before.unit;
      }
    }
    if (before.lo > 0 || before.hi < INFINITY) {
      double lo = q->col[j].lo, hi = q->col[j].hi;
      if (lo > 0) {
        q->col[j].lo = 0;
        if (!impossible(q, c->arena)) {
          push_bounds(c, w, j, true, false);
          q->col[j].lo = lo;
        }
      }
      if (hi < INFINITY && !(q->col[j].unit > 0) && !(q->col[j].least > 0)) {
        q->col[j].hi = INFINITY;
        if (!impossible(q, c->arena)) {
          push_bounds(c, w, j, false, true);
          q->col[j].hi = hi;
        }
      }
    }
  }
}

struct compose_conflict compose_conflict_of(struct composer *c) {
  const struct lp_model *m = program_model(c->p);
  struct words w = {0};
  struct compose_conflict out = {.sentence = ""};
  struct arena scratch;
  arena_init(&scratch, c->arena->on_full);
  struct lp_conflict k = lp_smallest_conflict(m, &scratch);
  if (k.count > 0) {
    for (size_t i = 0; i < m->rows; i++)
      if (k.row_lo[i] || k.row_hi[i]) push(c, &w, program_limit_of_row(c->p, i)->name);
    for (size_t j = 0; j < c->columns; j++) push_bounds(c, &w, j, k.col_lo[j], k.col_hi[j]);
    out.sentence = sentence_of(c, &k, &w);
  } else {
    struct lp_model q;
    copy_model(m, &q, &scratch);
    out.by_counting = true;
    if (impossible(&q, c->arena)) filter_counting(c, &q, &w);
  }
  arena_free(&scratch);
  out.words = w.item;
  out.count = w.count;
  return out;
}
