/* model_solve.c: solve, judge, add what is lacking, solve again. */
#include <math.h>

#include "change/model_parts.h"

enum { ROUNDS = 400, MIXED_ROUNDS = 10, ROOM = 80, IDLE_SOLVES = 5 };
static const double FIRST_MARGIN = 1e-7, LAST_MARGIN = 1e-4;

/* Planes that have held nothing back for a while are dropped: they can be found again. */
static bool is_idle(const struct row_note *note) { return note->plane && note->idle > IDLE_SOLVES; }

static void note_idle(struct model *p, const double *x) {
  for (size_t i = 0; i < p->notes; i++) {
    const struct lp_row *r = &p->model.row[i];
    double sum = 0;
    for (size_t j = 0; j < p->model.cols; j++) sum += p->model.a[i][j] * x[j];
    double room = fmin(sum - r->lo, r->hi - sum), size = isfinite(r->lo) ? fabs(r->lo) : fabs(r->hi);
    p->note[i].idle = room > 1e-6 * fmax(size, 1e-9) ? p->note[i].idle + 1 : 0;
  }
}

struct run {
  struct model *p;
  struct arena scratch;
  struct lp_solver *solver;
  size_t room; /* further rows that the solver can take */
  double margin;
  long nodes, rounds;
  long counted;     /* pivots of this solver that the model's count has */
  int fresh_starts; /* how often the bold planes may still be dropped and found anew */
  double *decided;  /* the last solution of a search by branches, NULL: none yet; it may lack planes */
  double decided_bound;
};

static bool may_go_on(const struct run *r, const struct lp_limits *l) {
  return !l || !l->go_on || l->go_on(l->user, NULL, -INFINITY, r->nodes);
}

static void open_solver(struct run *r) {
  r->solver = lp_open(&r->p->model, ROOM, &r->scratch);
  r->room = ROOM;
  r->counted = 0;
}

/* Rows that the model has gained go to the solver, which keeps its place. */
static void hand_over(struct run *r, size_t from) {
  struct lp_model *m = &r->p->model;
  if (m->rows - from > r->room) {
    open_solver(r);
    return;
  }
  for (size_t i = from; i < m->rows; i++) lp_push_row(r->solver, m->a[i], m->row[i].lo, m->row[i].hi);
  r->room -= m->rows - from;
}

static int add_planes(struct run *r, const double *x) {
  struct arena scratch;
  size_t before = r->p->model.rows;
  int added = 0;
  arena_init(&scratch, r->scratch.on_full);
  for (size_t b = 0; b < r->p->bowls; b++) added += model_add_planes(r->p, (int)b, x, r->margin, &scratch);
  arena_free(&scratch);
  if (added > 0) hand_over(r, before);
  return added;
}

static bool judge_agrees(struct run *r, const double *x) {
  struct arena scratch;
  bool kept = true;
  arena_init(&scratch, r->scratch.on_full);
  for (size_t b = 0; b < r->p->bowls && kept; b++) kept = model_judged_kept(r->p, (int)b, x, &scratch);
  arena_free(&scratch);
  return kept;
}

static struct model_answer keep(struct run *r, const struct lp_answer *a, enum model_status status) {
  struct model *p = r->p;
  struct model_answer out = {.status = status, .objective = a->objective, .bound = a->bound, .nodes = r->nodes};
  out.proven = a->status == LP_OPTIMAL;
  if (status == PROGRAM_FOUND || (status == PROGRAM_STOPPED && a->has_x)) {
    out.has_x = true;
    out.x = ARENA_NEW(p->arena, double, p->model.cols);
    memcpy(out.x, a->x, p->model.cols * sizeof *out.x);
    out.rows = p->model.rows;
    out.dual = ARENA_NEW(p->arena, double, out.rows);
    memcpy(out.dual, a->dual, out.rows * sizeof *out.dual);
    note_idle(p, out.x);
  }
  return out;
}

static const struct lp_answer *solve_once(struct run *r, bool mixed, const struct lp_limits *limits) {
  const struct lp_answer *a = mixed ? lp_solve_mixed(r->solver, limits) : lp_solve(r->solver, limits);
  if (r->p->pivots) *r->p->pivots += a->pivots - r->counted;
  r->counted = a->pivots;
  return a;
}

/* Vertices of a program hop from one set of foods to another, and a plane found at one of them says nothing about the foods
 * that it leaves out. A point between them, that follows them slowly, has something of each: a plane found there holds them
 * all back. Any tangent plane is a true one, wherever it touches. */
static const double FOLLOW = 0.3;

static void add_planes_between(struct run *r, double *middle, const double *x, int round) {
  for (size_t j = 0; j < r->p->model.cols; j++) middle[j] = round == 0 ? x[j] : middle[j] + FOLLOW * (x[j] - middle[j]);
  if (round >= 2) add_planes(r, middle);
}

static void remember_decisions(struct run *r, const struct lp_answer *a) {
  size_t bytes = r->p->model.cols * sizeof *a->x;
  if (!r->decided) r->decided = arena_alloc(r->p->arena, bytes, sizeof(double));
  memcpy(r->decided, a->x, bytes);
  r->decided_bound = a->bound;
}

/* The rows cannot hold together. Where that is so only because of bold planes, these are dropped: they may have been found
 * far from here. False: begin anew. */
static bool none_for_good(struct run *r, bool mixed, const double *farkas, bool *proven) {
  size_t bold = model_bold_rows(r->p);
  *proven = bold == 0 || (!mixed && model_proves_none(r->p, r->p->model.col, farkas, &r->scratch));
  if (*proven) return true;
  if (r->fresh_starts <= 0) {
    const struct lp_answer *firm =
        mixed ? NULL : lp_solve(lp_open(&model_firm(r->p, &r->scratch)->model, 0, &r->scratch), NULL);
    *proven = firm && firm->status == LP_INFEASIBLE;
    return true;
  }
  r->fresh_starts--;
  model_forget(r->p);
  r->margin = FIRST_MARGIN;
  open_solver(r);
  return false;
}

static struct model_answer no_answer(struct run *r, const struct lp_answer *a, bool proven) {
  struct model_answer out = keep(r, a, PROGRAM_NONE);
  out.proven = proven;
  return out;
}

/* One kind of solving until nothing is lacking. */
static struct model_answer settle(struct run *r, bool mixed, const struct lp_limits *limits) {
  const struct lp_answer *a = NULL;
  double *middle = ARENA_NEW(&r->scratch, double, r->p->model.cols);
  for (int round = 0; round < (mixed ? MIXED_ROUNDS : ROUNDS); round++) {
    bool open = r->p->slack_first >= 0; /* misses are allowed: any solution says something, so one is always worked out */
    if (!open && !may_go_on(r, limits)) return (struct model_answer){.status = PROGRAM_STOPPED, .nodes = r->nodes};
    r->rounds++;
    a = solve_once(r, mixed, limits);
    if (a->status == LP_TROUBLE && !a->has_x) { /* numbers went astray on the way: start afresh */
      open_solver(r);
      a = solve_once(r, mixed, limits);
    }
    r->nodes += a->nodes;
    bool proven = true;
    if (a->status == LP_INFEASIBLE && !none_for_good(r, mixed, a->farkas, &proven)) continue;
    if (a->status == LP_INFEASIBLE) return no_answer(r, a, proven);
    if (a->status == LP_UNBOUNDED || (a->status == LP_TROUBLE && !a->has_x)) return keep(r, a, PROGRAM_TROUBLE);
    if (!a->has_x) return keep(r, a, PROGRAM_STOPPED);
    if (open && !may_go_on(r, limits)) return keep(r, a, PROGRAM_STOPPED);
    if (mixed) remember_decisions(r, a);
    if (add_planes(r, a->x) > 0) {
      add_planes_between(r, middle, a->x, round);
      if (round > 6 && r->margin < LAST_MARGIN) r->margin *= 2;
      continue;
    }
    if (open) return keep(r, a, PROGRAM_FOUND); /* there is no judge to please */
    if (judge_agrees(r, a->x)) return keep(r, a, a->status == LP_OPTIMAL ? PROGRAM_FOUND : PROGRAM_STOPPED);
    if (!(r->margin < LAST_MARGIN)) break;
    r->margin *= 10; /* a hair's breadth on the wrong side: keep further away */
  }
  return keep(r, a, PROGRAM_TROUBLE);
}

/* What a search by branches decided, kept: whole amounts as they are, what is in use stays in use, the rest stays out. */
static void keep_decisions(struct lp_model *m, const double *x) {
  for (size_t j = 0; j < m->cols; j++) {
    struct lp_col *c = &m->col[j];
    bool used = x[j] > 1e-9 * fmax(1, isfinite(c->hi) ? c->hi : 1), decided = c->unit > 0 || c->least > 0;
    if (c->unit > 0) c->lo = c->hi = round(x[j] / c->unit) * c->unit;
    if (!used && (decided || (c->counted && m->most_used >= 0))) c->lo = c->hi = 0;
    if (used && c->least > 0) c->lo = fmax(c->lo, c->least);
    c->unit = c->least = 0;
  }
}

/* Where branches and planes go on and on, or the search is ended, the last decisions stand and only the amounts are settled:
 * an answer that keeps every promise, at most 'objective - bound' from the best. */
static struct model_answer settle_decided(struct run *r, const struct model_answer *last) {
  static const double AS_GOOD = 1e-6;
  struct lp_model *m = &r->p->model;
  struct lp_col *before = ARENA_NEW(&r->scratch, struct lp_col, m->cols);
  memcpy(before, m->col, m->cols * sizeof *before);
  keep_decisions(m, r->decided);
  open_solver(r);
  struct model_answer a = settle(r, false, NULL);
  memcpy(m->col, before, m->cols * sizeof *before);
  bool stopped = last->status == PROGRAM_STOPPED;
  if (a.status != PROGRAM_FOUND)
    return (struct model_answer){.status = stopped ? PROGRAM_STOPPED : PROGRAM_TROUBLE, .nodes = r->nodes};
  a.bound = r->decided_bound;
  a.proven = !stopped && last->proven && a.objective - a.bound <= AS_GOOD * fabs(a.objective);
  if (stopped) a.status = PROGRAM_STOPPED;
  return a;
}

static struct model_answer settle_mixed(struct run *r, const struct lp_limits *limits) {
  struct model_answer a = settle(r, true, limits);
  bool unsettled = a.status == PROGRAM_TROUBLE || (a.status == PROGRAM_STOPPED && !a.has_x);
  return unsettled && r->decided ? settle_decided(r, &a) : a;
}

enum { FRESH_STARTS = 1 };

struct model_answer model_solve(struct model *p, bool mixed, const struct lp_limits *limits) {
  struct run r = {.p = p, .margin = FIRST_MARGIN, .fresh_starts = FRESH_STARTS};
  model_drop_rows(p, is_idle);
  arena_init(&r.scratch, p->arena->on_full);
  open_solver(&r);
  struct model_answer a = settle(&r, false, limits);
  if (mixed && a.status == PROGRAM_FOUND)
    a = settle_mixed(&r, limits);
  else if (mixed)
    a.has_x = false; /* rules of columns are not kept in it */
  arena_free(&r.scratch);
  a.rounds = r.rounds;
  return a;
}

void model_prove(const struct model *p, struct model_answer *a, const struct lp_limits *limits) {
  static const double AS_GOOD = 1e-6;
  if (a->status != PROGRAM_FOUND || !a->proven || model_bold_rows(p) == 0) return;
  struct arena scratch;
  arena_init(&scratch, p->arena->on_full);
  const struct model *firm = model_firm(p, &scratch);
  const struct lp_answer *b = lp_solve_mixed(lp_open(&firm->model, 0, &scratch), limits);
  a->nodes += b->nodes;
  a->bound = fmin(a->objective, b->bound);
  a->proven = a->objective - a->bound <= AS_GOOD * fabs(a->objective);
  arena_free(&scratch);
}
