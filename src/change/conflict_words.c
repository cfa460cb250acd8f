/* conflict_words.c: why there is no recipe, as a smallest set of limits in plain words.
 *
 * First each nutrient is asked for alone: the one of which the larder can bring the least makes the plainest reason. Else
 * the rows are filtered by lp_smallest_conflict. Where they can hold together and only whole pieces, "if used" or the
 * number of foods stand in the way, the same is done over those and the rows: a limit whose absence leaves the rest
 * impossible is dropped for good; what is left cannot lose one more. */
#include <math.h>

#include "base/num.h"
#include "change/compose_parts.h"
#include "change/conflict_filter.h"
#include "change/model_parts.h"
#include "words/words.h"

struct words {
  const char **item;
  bool *own; /* see compose_conflict */
  size_t count, cap;
};

static void push_as(struct composer *c, struct words *w, const char *words, bool own) {
  for (size_t i = 0; i < w->count; i++)
    if (strcmp(w->item[i], words) == 0) return;
  size_t count = w->count, cap = w->cap;
  ARENA_PUSH(c->arena, w->own, count, cap, own);
  ARENA_PUSH(c->arena, w->item, w->count, w->cap, words);
}

static void push(struct composer *c, struct words *w, const char *words) { push_as(c, w, words, false); }

/* A limit of one bowl of several says whose. */
const char *compose_limit_words(struct composer *c, const struct limit *l) {
  struct buf b;
  if (c->q->animals == 1 || l->bowl < 0) return l->name;
  buf_init(&b, c->arena, 300);
  buf_addf(&b, "%s: %s", c->q->animal[l->bowl].name, l->name);
  return buf_text(&b);
}

static void push_amount(struct composer *c, struct words *w, const struct lp_col *col, const char *relation, double grams) {
  push(c, w, conflict_amount_words(col, relation, grams, c->arena));
}

static void push_bounds(struct composer *c, struct words *w, size_t j, bool lo, bool hi) {
  const struct lp_col *col = &model_lp(c->p)->col[j];
  const char *said = c->q->food[c->food_of[c->column_candidate[j]]].words;
  bool low = lo && col->lo > 0, high = hi && col->hi < INFINITY;
  if (said && (low || high)) {
    struct buf b;
    buf_init(&b, c->arena, 600);
    buf_addf(&b, "%s: %s", col->name, said);
    push_as(c, w, buf_text(&b), true);
    return;
  }
  if (lo && col->lo > 0) push_amount(c, w, col, "at least", col->lo);
  if (hi && col->hi < INFINITY) push_amount(c, w, col, "at most", col->hi);
}

/* ---- one nutrient alone -------------------------------------------------------------------------------------------- */

/* Limits that hold whatever the nutrients do: how much may be eaten, bought and spent. */
static bool is_simple(enum limit_kind k) {
  return limit_is_of_energy(k) || k == LIMIT_MASS || k == LIMIT_OWN || k == LIMIT_FOOD_SHARE || k == LIMIT_FAT_SHARE ||
         k == LIMIT_PART_LEAST || k == LIMIT_PART_MOST;
}

/* The columns, the simple limits (without that of the energy: only what the person wrote) and one row more; 'of' remembers
 * where rows came from. */
static void narrow_model(struct composer *c, size_t row, bool energy, struct lp_model *q, size_t *of, struct arena *arena) {
  const struct lp_model *m = model_lp(c->p);
  lp_init(q, arena);
  for (size_t j = 0; j < m->cols; j++) {
    struct lp_col col = m->col[j];
    col.cost = col.second = col.least = col.unit = 0;
    lp_add_col(q, col);
  }
  for (size_t i = 0; i < m->rows; i++) {
    enum limit_kind kind = model_limit_of_row(c->p, i)->kind;
    if ((!is_simple(kind) || (!energy && limit_is_of_energy(kind))) && i != row) continue;
    int at = lp_add_row(q, "", m->row[i].lo, m->row[i].hi);
    for (size_t j = 0; j < m->cols; j++) lp_set(q, at, (int)j, m->a[i][j]);
    of[at] = i;
  }
}

/* The most (for an allowance; else the least) of a row that the simple limits leave. NaN when they leave nothing at all. */
static double extreme(struct composer *c, size_t row, bool most) {
  const struct lp_model *m = model_lp(c->p);
  struct arena scratch;
  struct lp_model q;
  arena_init(&scratch, c->arena->on_full);
  size_t *of = ARENA_NEW(&scratch, size_t, m->rows);
  narrow_model(c, row, true, &q, of, &scratch);
  for (size_t i = 0; i < q.rows; i++)
    if (of[i] == row) q.row[i] = (struct lp_row){"", -INFINITY, INFINITY};
  for (size_t j = 0; j < q.cols; j++) q.col[j].cost = most ? -m->a[row][j] : m->a[row][j];
  const struct lp_answer *a = lp_solve(lp_open(&q, 0, &scratch), NULL);
  double x = a->status == LP_OPTIMAL ? (most ? -a->objective : a->objective) : (double)NAN;
  arena_free(&scratch);
  return x;
}

/* The row of the plain amount stands before the planes for the chance. */
static bool is_first_of_limit(struct composer *c, size_t row) {
  for (size_t i = 0; i < row; i++)
    if (model_limit_of_row(c->p, i) == model_limit_of_row(c->p, row)) return false;
  return true;
}

struct lack {
  bool any;
  size_t row;
  double got, limit;
};

/* Whoever waits is asked between any two small programs. */
static bool ask(void *user, const struct lp_answer *best, double bound, long nodes) {
  struct composer *c = user;
  (void)best;
  if (!c->stopped && c->q->go_on && !c->q->go_on(c->q->user, NULL, bound, nodes)) c->stopped = true;
  return !c->stopped;
}

static struct lp_limits limits_of(struct composer *c) { return (struct lp_limits){.go_on = ask, .user = c}; }

/* The energy when the larder has too little of it; else the allowance of which it can bring the smallest part. */
static struct lack worst_lack(struct composer *c) {
  static const enum limit_kind KINDS[] = {LIMIT_ENERGY_LEAST, LIMIT_ALLOWANCE};
  const struct lp_model *m = model_lp(c->p);
  struct lack worst = {false, 0, 0, 0};
  for (size_t k = 0; k < COUNT_OF(KINDS) && !worst.any; k++) {
    double worst_share = 1 - 1e-6;
    for (size_t i = 0; i < m->rows; i++) {
      bool plain = model_limit_of_row(c->p, i)->kind == KINDS[k] && m->row[i].lo > 0 && is_first_of_limit(c, i);
      if (!plain || !ask(c, NULL, -INFINITY, 0)) continue;
      double got = extreme(c, i, true), share = got / m->row[i].lo;
      if (!(share < worst_share)) continue;
      worst = (struct lack){true, i, fmax(0, got), m->row[i].lo};
      worst_share = share;
    }
  }
  return worst;
}

static bool is_unknown_of_some(const struct composer *c, const struct limit *l) {
  if (l->bowl < 0 || l->nutrient == NUT_NONE) return false;
  for (size_t i = 0; i < c->candidates; i++)
    if (c->p->bowl[l->bowl]->gram[i].totals->missing_g[l->nutrient] > 0) return true;
  return false;
}

static const char *lack_sentence(struct composer *c, struct lack x, const struct words *w) {
  const struct limit *l = model_limit_of_row(c->p, x.row);
  const char *unit = nutrient_info[l->nutrient].unit;
  struct buf b;
  size_t bounds = 0, limits = 0;
  buf_init(&b, c->arena, 2000);
  if (c->q->animals > 1 && l->bowl >= 0) buf_addf(&b, "%s: ", c->q->animal[l->bowl].name);
  buf_addf(&b, "%s needs at least ", nutrient_info[l->nutrient].name);
  num_sig(&b, x.limit, 3);
  bool unknown = is_unknown_of_some(c, l);
  if (unknown && !(x.got > 0)) {
    buf_addf(&b, " %s a day, and no food of the larder is known to have any", unit);
  } else {
    buf_addf(&b, " %s a day, but %s supply at most ", unit,
             unknown ? "as far as is known the larder's foods" : "the larder's foods");
    num_sig(&b, x.got, 3);
    buf_addf(&b, " %s", unit);
  }
  for (size_t i = 0; i < w->count; i++) {
    if (strcmp(w->item[i], compose_limit_words(c, l)) == 0) continue;
    bool of_food = false;
    for (size_t j = 0; j < c->columns; j++) {
      const char *name = model_lp(c->p)->col[j].name;
      of_food = of_food || (strncmp(w->item[i], name, strlen(name)) == 0 && w->item[i][strlen(name)] == ':');
    }
    if (of_food) {
      bounds++;
      continue;
    }
    buf_addf(&b, "%s%s", limits == 0 ? " within these limits: " : "; ", w->item[i]);
    limits++;
  }
  if (bounds > 0) buf_adds(&b, limits > 0 ? "; and within the ranges of the foods" : " within the ranges of the foods");
  buf_addc(&b, '.');
  return buf_text(&b);
}

static void push_conflict(struct composer *c, struct words *w, const struct lp_conflict *k, const size_t *of, size_t rows) {
  for (size_t i = 0; i < rows; i++)
    if (k->row_lo[i] || k->row_hi[i]) push(c, w, compose_limit_words(c, model_limit_of_row(c->p, of ? of[i] : i)));
  for (size_t j = 0; j < c->columns; j++) push_bounds(c, w, j, k->col_lo[j], k->col_hi[j]);
}

/* Of the limits flagged in k those that are needed, said and kept as a model of their own. */
static void settle_conflict(struct composer *c, const struct lp_model *m, struct lp_conflict *k, const size_t *of,
                            struct words *w, struct compose_conflict *out, struct arena *scratch) {
  int *limit = ARENA_NEW(scratch, int, m->rows);
  const char **name = ARENA_NEW(scratch, const char *, m->rows);
  for (size_t i = 0; i < m->rows; i++) {
    const struct limit *l = model_limit_of_row(c->p, of ? of[i] : i);
    limit[i] = (int)i;
    for (size_t r = 0; r < i; r++)
      if (model_limit_of_row(c->p, of ? of[r] : r) == l) limit[i] = limit[r];
    name[i] = compose_limit_words(c, l);
  }
  struct lp_limits limits = limits_of(c);
  struct conflict_scope scope = {m, limit, NULL, &limits};
  conflict_filter(&scope, k, scratch);
  if (k->count == 0) return;
  push_conflict(c, w, k, of, m->rows);
  out->model = conflict_model(&scope, k, name, c->arena);
}

/* Of the energy: with less nobody would speak of a meal, and what else is missing says nothing. */
static const double A_MEAL = 0.25;

static bool holds_no_energy(const struct composer *c) {
  for (size_t i = 0; i < c->candidates; i++)
    if (compose_kcal_per_g(c, i) > 0) return false;
  return true;
}

/* False when every nutrient by itself could be had. */
static bool one_nutrient(struct composer *c, struct words *w, struct compose_conflict *out) {
  struct lack x = worst_lack(c);
  struct arena scratch;
  struct lp_model q;
  struct lp_limits limits = limits_of(c);
  if (!x.any || c->stopped) return false;
  arena_init(&scratch, c->arena->on_full);
  size_t *of = ARENA_NEW(&scratch, size_t, model_lp(c->p)->rows);
  narrow_model(c, x.row, true, &q, of, &scratch);
  struct lp_conflict k = lp_smallest_conflict(&q, &limits, &scratch);
  settle_conflict(c, &q, &k, of, w, out, &scratch);
  if (w->count > 0) out->sentence = lack_sentence(c, x, w);
  bool energy = model_limit_of_row(c->p, x.row)->kind == LIMIT_ENERGY_LEAST;
  out->no_meal = w->count > 0 && energy && x.got < A_MEAL * x.limit;
  if (out->no_meal && holds_no_energy(c))
    out->sentence =
        "Nothing in this larder has any energy: a recipe needs meat, fish, eggs or other food beside supplements.";
  arena_free(&scratch);
  return w->count > 0;
}

/* ---- where counting stands in the way ----------------------------------------------------------------------------- */

/* Any solution ends the search; so does whoever waits for the answer. */
struct patience {
  const struct compose_request *q;
  bool *stopped;
};

static bool until_first(void *user, const struct lp_answer *best, double bound, long nodes) {
  const struct patience *p = user;
  if (best && best->has_x) return false;
  if (p->q->go_on && !p->q->go_on(p->q->user, NULL, bound, nodes)) *p->stopped = true;
  return !*p->stopped;
}

static bool impossible(struct composer *c, const struct lp_model *m) {
  struct arena scratch;
  struct patience p = {c->q, &c->stopped};
  struct lp_limits limits = {.go_on = until_first, .user = &p};
  if (c->stopped) return false;
  arena_init(&scratch, c->arena->on_full);
  bool none = lp_solve_mixed(lp_open(m, 0, &scratch), &limits)->status == LP_INFEASIBLE;
  arena_free(&scratch);
  return none;
}

static void copy_model(struct composer *c, const struct lp_model *m, struct lp_model *out, struct arena *arena) {
  lp_init(out, arena);
  for (size_t j = 0; j < m->cols; j++) {
    struct lp_col col = m->col[j];
    col.cost = col.second = 0;
    lp_add_col(out, col);
  }
  for (size_t i = 0; i < m->rows; i++) {
    int row = lp_add_row(out, compose_limit_words(c, model_limit_of_row(c->p, i)), m->row[i].lo, m->row[i].hi);
    for (size_t j = 0; j < m->cols; j++) lp_set(out, row, (int)j, m->a[i][j]);
  }
  out->most_used = m->most_used;
}

/* Opens all rows of a limit; keeps them when that makes it possible. */
static bool needed_limit(struct composer *c, struct lp_model *q, const struct limit *l) {
  const struct lp_model *m = model_lp(c->p);
  struct lp_row *before = ARENA_NEW(c->arena, struct lp_row, q->rows);
  memcpy(before, q->row, q->rows * sizeof *before);
  for (size_t i = 0; i < m->rows; i++) {
    if (model_limit_of_row(c->p, i) != l) continue;
    q->row[i].lo = -INFINITY;
    q->row[i].hi = INFINITY;
  }
  if (impossible(c, q)) return false;
  memcpy(q->row, before, q->rows * sizeof *before);
  return true;
}

static void filter_counting(struct composer *c, struct lp_model *q, struct words *w) {
  for (size_t i = 0; i < q->rows; i++) {
    const struct limit *l = model_limit_of_row(c->p, i);
    if (l->kind == LIMIT_TIE) continue;
    if (is_first_of_limit(c, i) && needed_limit(c, q, l)) push(c, w, compose_limit_words(c, l));
  }
  int most = q->most_used;
  q->most_used = -1;
  if (most >= 0 && !impossible(c, q)) {
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
      if (!impossible(c, q)) {
        push_amount(c, w, &before, "if used, at least", before.least);
        q->col[j].least = before.least;
      }
    }
    if (before.unit > 0) {
      q->col[j].unit = 0;
      if (!impossible(c, q)) {
        push_amount(c, w, &before, "in whole pieces of", before.unit);
        q->col[j].unit = before.unit;
      }
    }
    if (before.lo > 0 || before.hi < INFINITY) {
      double lo = q->col[j].lo, hi = q->col[j].hi;
      if (lo > 0) {
        q->col[j].lo = 0;
        if (!impossible(c, q)) {
          push_bounds(c, w, j, true, false);
          q->col[j].lo = lo;
        }
      }
      if (hi < INFINITY && !(q->col[j].unit > 0) && !(q->col[j].least > 0)) {
        q->col[j].hi = INFINITY;
        if (!impossible(c, q)) {
          push_bounds(c, w, j, false, true);
          q->col[j].hi = hi;
        }
      }
    }
  }
}

/* How much may be eaten, bought and spent: when these contradict each other nothing else matters. What the person wrote
 * first, then that with the need of energy. */
static bool simple_alone(struct composer *c, bool energy, struct words *w, struct compose_conflict *out) {
  struct arena scratch;
  struct lp_model q;
  struct lp_limits limits = limits_of(c);
  arena_init(&scratch, c->arena->on_full);
  size_t *of = ARENA_NEW(&scratch, size_t, model_lp(c->p)->rows);
  narrow_model(c, model_lp(c->p)->rows, energy, &q, of, &scratch);
  struct lp_conflict k = lp_smallest_conflict(&q, &limits, &scratch);
  settle_conflict(c, &q, &k, of, w, out, &scratch);
  arena_free(&scratch);
  return w->count > 0;
}

/* What must be used has energy that nobody knows: all else that is said of the limits follows from that. */
static void tell_of_energy(struct composer *c, const struct words *w, struct compose_conflict *out) {
  const struct compose_result *r = c->out;
  for (size_t i = 0; i < model_lp(c->p)->rows; i++) {
    const struct limit *l = model_limit_of_row(c->p, i);
    for (size_t k = 0; k < w->count && l->kind == LIMIT_ENERGY_KNOWN; k++)
      out->energy_unknown |= strcmp(w->item[k], compose_limit_words(c, l)) == 0;
  }
  size_t n = r->energy_unknown_count;
  if (!out->energy_unknown || n == 0) return;
  out->sentence = words_text(c->arena,
                             "How much energy is in %s is not known, so nobody can say how much of the other foods belongs "
                             "beside %s. State %s kcal, or the protein, fat and carbohydrate; or leave %s out.",
                             words_list(c->arena, r->energy_unknown, n, n), n == 1 ? "it" : "them", n == 1 ? "its" : "their",
                             n == 1 ? "it" : "them");
}

struct compose_conflict compose_conflict_of(struct composer *c) {
  const struct lp_model *m = model_lp(c->p);
  struct words w = {0};
  struct lp_limits limits = limits_of(c);
  struct compose_conflict out = {.sentence = ""};
  if (!simple_alone(c, false, &w, &out) && !one_nutrient(c, &w, &out) && !simple_alone(c, true, &w, &out)) {
    struct arena scratch;
    arena_init(&scratch, c->arena->on_full);
    struct lp_conflict k = lp_smallest_conflict(m, &limits, &scratch);
    settle_conflict(c, m, &k, NULL, &w, &out, &scratch);
    if (w.count == 0) {
      struct lp_model *q = ARENA_NEW(c->arena, struct lp_model, 1);
      copy_model(c, m, q, c->arena);
      out.by_counting = true;
      if (impossible(c, q)) {
        filter_counting(c, q, &w);
        if (c->stopped)
          w.count = 0; /* what was not tried may be more than is needed */
        else
          out.model = q;
      }
    }
    arena_free(&scratch);
  }
  tell_of_energy(c, &w, &out);
  out.words = w.item;
  out.own = w.own;
  out.count = w.count;
  return out;
}
