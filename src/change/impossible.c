/* impossible.c: why nothing was found, and what comes nearest. */
#include <math.h>

#include "change/conflict_filter.h"
#include "change/model_parts.h"

/* ---- a smallest conflict ---------------------------------------------------------------------------------------- */

static bool takes_away(const struct model *p, size_t col) {
  for (size_t b = 0; b < p->bowls; b++)
    if (p->bowl[b]->share[col] > 0) return false;
  return p->bowls > 0;
}

static bool in_some_bowl(const struct model *p, size_t col) {
  for (size_t b = 0; b < p->bowls; b++)
    if (p->bowl[b]->base[p->of_column[col]] > 0) return true;
  return false;
}

/* There is seldom one conflict only. Limits of the bowl say more than "so much of this food and no more": it is looked for
 * with the upper ends of all columns let go, with those of foods that are in the bowl already, and with none; the one that
 * is shortest to read counts. */
enum ease { EASE_ALL, EASE_PRESENT, EASE_NONE, EASES };

/* Ends of columns that nobody set: no more can be taken away than there is. */
static bool *natural_ends(const struct model *p, struct arena *scratch) {
  bool *hard = ARENA_NEW(scratch, bool, p->columns);
  for (size_t j = 0; j < p->columns; j++) hard[j] = takes_away(p, j);
  return hard;
}

static int *limits_of_rows(const struct model *p, struct arena *scratch) {
  int *limit = ARENA_NEW(scratch, int, p->model.rows);
  for (size_t i = 0; i < p->model.rows; i++) limit[i] = p->note[i].limit;
  return limit;
}

static struct lp_conflict conflict_with(struct model *p, enum ease ease, const struct lp_limits *limits,
                                        struct arena *scratch) {
  struct lp_model m = p->model;
  m.col = ARENA_NEW(scratch, struct lp_col, m.cols);
  memcpy(m.col, p->model.col, m.cols * sizeof *m.col);
  for (size_t j = 0; j < p->columns; j++) {
    struct lp_col *c = &m.col[j];
    bool free_above = ease == EASE_ALL || (ease == EASE_PRESENT && in_some_bowl(p, j));
    if (free_above && c->hi > c->lo && !takes_away(p, j)) c->hi = INFINITY, c->unit = 0;
  }
  struct lp_conflict k = lp_smallest_conflict(&m, limits, scratch);
  struct conflict_scope scope = {&m, limits_of_rows(p, scratch), natural_ends(p, scratch), limits};
  conflict_filter(&scope, &k, scratch);
  return k;
}

static double weight_of(const struct model *p, const struct lp_conflict *c) {
  static const double OFFERED = 1.5, PRESENT = 4;
  double sum = 0;
  for (size_t i = 0; i < p->model.rows; i++) sum += c->row_lo[i] || c->row_hi[i];
  for (size_t j = 0; j < p->columns; j++)
    if (c->col_hi[j]) sum += in_some_bowl(p, j) ? PRESENT : OFFERED;
  return sum;
}

static struct model_conflict conflict_of(struct model *p, const struct lp_limits *limits, struct arena *arena) {
  struct arena scratch;
  arena_init(&scratch, arena->on_full);
  struct lp_conflict c = {.count = 0};
  for (int ease = 0; ease < EASES; ease++) {
    struct lp_conflict other = conflict_with(p, (enum ease)ease, limits, &scratch);
    if (other.count > 0 && (c.count == 0 || weight_of(p, &other) < weight_of(p, &c))) c = other;
  }
  struct model_conflict out = {.words = ARENA_NEW(arena, const char *, c.count),
                               .of_energy = ARENA_NEW(arena, bool, c.count)};
  struct conflict_scope scope = {&p->model, limits_of_rows(p, &scratch), natural_ends(p, &scratch), NULL};
  if (c.count > 0) {
    const char **name = ARENA_NEW(&scratch, const char *, p->model.rows);
    for (size_t i = 0; i < p->model.rows; i++) name[i] = p->limit[p->note[i].limit].name;
    out.model = conflict_model(&scope, &c, name, arena);
  }
  bool *told = ARENA_NEW(&scratch, bool, p->limit_count);
  for (size_t i = 0; i < p->model.rows && c.count > 0; i++) {
    if ((!c.row_lo[i] && !c.row_hi[i]) || told[p->note[i].limit]) continue;
    told[p->note[i].limit] = true;
    enum limit_kind kind = p->limit[p->note[i].limit].kind;
    out.of_energy[out.count] = limit_is_of_energy(kind);
    out.words[out.count++] = p->limit[p->note[i].limit].name;
  }
  for (size_t j = 0; j < p->columns && c.count > 0; j++) {
    const struct lp_col *col = &p->model.col[j];
    if (c.col_lo[j]) out.words[out.count++] = conflict_amount_words(col, "at least", col->lo, arena);
    if (c.col_hi[j]) out.words[out.count++] = conflict_amount_words(col, "at most", col->hi, arena);
  }
  arena_free(&scratch);
  return out;
}

/* Of rows that every right bowl keeps, where these suffice. */
struct model_conflict model_conflict(struct model *p, const struct lp_limits *limits, struct arena *arena) {
  struct model_conflict c = conflict_of(model_firm(p, p->arena), limits, arena);
  return c.count > 0 || model_bold_rows(p) == 0 ? c : conflict_of(p, limits, arena);
}

/* ---- the nearest ------------------------------------------------------------------------------------------------ */

/* Too much or too little food is no repair: a miss of the energy weighs so many times more than one of a nutrient. */
static const double ENERGY_WEIGHT = 20, COST_SHARE = 1e-6;

static double miss_cost(enum limit_kind k) { return limit_is_of_energy(k) ? ENERGY_WEIGHT : 1; }

/* The same program with a column for each limit, open and paid for: how far it is missed, as a share of it. */
static struct model *with_misses(const struct model *p, bool counted) {
  struct model *q = ARENA_NEW(p->arena, struct model, 1);
  double dearest = 0;
  *q = *p;
  lp_init(&q->model, p->arena);
  for (size_t j = 0; j < p->columns; j++) {
    struct lp_col c = p->model.col[j];
    if (!counted) c.least = c.unit = 0;
    dearest = fmax(dearest, fabs(c.cost) * fmax(1, isfinite(c.hi) ? c.hi : 1));
    lp_add_col(&q->model, c);
  }
  for (size_t j = 0; j < p->columns && dearest > 0; j++) q->model.col[j].cost *= COST_SHARE / dearest;
  if (counted) q->model.most_used = p->model.most_used;
  q->slack_first = (int)p->columns;
  for (size_t i = 0; i < p->limit_count; i++)
    lp_add_col(&q->model, (struct lp_col){.name = p->limit[i].name, .hi = INFINITY, .cost = miss_cost(p->limit[i].kind)});
  q->note = NULL;
  q->notes = q->note_cap = 0;
  for (size_t i = 0; i < p->model.rows; i++) {
    const struct lp_row *r = &p->model.row[i];
    int row = lp_add_row(&q->model, r->name, r->lo, r->hi);
    for (size_t j = 0; j < p->columns; j++) lp_set(&q->model, row, (int)j, p->model.a[i][j]);
    model_set_slack(q, row, p->note[i].limit);
    ARENA_PUSH(q->arena, q->note, q->notes, q->note_cap, p->note[i]);
  }
  return q;
}

static double sum_of_misses(const struct model *q, const double *x) {
  double sum = 0;
  for (size_t i = 0; i < q->limit_count; i++) sum += miss_cost(q->limit[i].kind) * x[q->columns + i];
  return sum;
}

struct lp_limits model_some_nodes(const struct lp_limits *limits) {
  struct lp_limits l = {.nodes = 2000};
  if (limits) {
    l.go_on = limits->go_on;
    l.user = limits->user;
  }
  return l;
}

bool model_has_rules(const struct model *p) {
  bool any = p->model.most_used >= 0;
  for (size_t j = 0; j < p->columns; j++) any = any || p->model.col[j].least > 0 || p->model.col[j].unit > 0;
  return any;
}

static struct model_nearest nearest_as(struct model *p, bool counted, const struct lp_limits *limits, struct arena *arena) {
  struct model *q = with_misses(p, counted);
  struct lp_limits l = model_some_nodes(limits);
  struct model_answer a = model_solve(q, counted, &l);
  struct model_nearest out = {.has_x = a.has_x, .misses = NAN, .counted = counted, .cut_short = a.status == PROGRAM_STOPPED};
  if (!a.has_x) return out;
  out.x = ARENA_NEW(arena, double, p->columns);
  memcpy(out.x, a.x, p->columns * sizeof *out.x);
  out.misses = sum_of_misses(q, a.x);
  out.miss = ARENA_NEW(arena, double, p->limit_count);
  for (size_t i = 0; i < p->limit_count; i++) out.miss[i] = miss_cost(p->limit[i].kind) * a.x[q->columns + i];
  out.price = ARENA_NEW(arena, double, p->limit_count);
  for (size_t i = 0; i < a.rows; i++) out.price[q->note[i].limit] += a.dual[i];
  return out;
}

static bool enough(void *user, const struct lp_answer *best, double bound, long nodes) {
  (void)user;
  (void)best;
  (void)bound;
  (void)nodes;
  return false;
}

struct model_nearest model_nearest_roughly(struct model *p, struct arena *arena) {
  const struct lp_limits at_once = {.go_on = enough};
  return nearest_as(p, false, &at_once, arena);
}

struct model_nearest model_nearest(struct model *p, bool mixed, const struct lp_limits *limits, struct arena *arena) {
  struct model_nearest n = {.has_x = false};
  if (mixed && model_has_rules(p)) n = nearest_as(p, true, limits, arena);
  if (!n.has_x) n = nearest_as(p, false, limits, arena);
  if (n.has_x) return n;
  /* Tangents of bowls far from any that could be can lead the numbers astray: then the first one, by means alone. */
  model_forget(p);
  return model_nearest_roughly(p, arena);
}

int model_missing_bowl(const struct model *p, const struct model_nearest *n) {
  int bowl = -1;
  for (size_t i = 0; i < p->limit_count; i++) {
    if (!(n->miss[i] > 1e-9)) continue;
    if (p->limit[i].bowl < 0 || (bowl >= 0 && bowl != p->limit[i].bowl)) return -1;
    bowl = p->limit[i].bowl;
  }
  return bowl;
}
