/* mend_steps.c: with the lines settled, amounts that a kitchen measures. */
#include <math.h>

#include "change/mend_search.h"

enum { WIDER_SPENDS = 1500, SEVERAL_NODES = 400 };

static bool in_steps(struct mend_search *s, const bool *in, double finer, struct mend_choice *c) {
  struct mend_choice round = *c;
  bool none;
  if (!mend_within(s, in, GRAIN_STEPS, finer, &round, &none)) return false;
  c->x = round.x;
  c->cost = round.cost;
  c->rounded = true;
  return true;
}

/* The fewest lines may leave no room for round amounts: one line more does. The cheapest such line. */
static bool with_one_more(struct mend_search *s, bool *in, struct mend_choice *c) {
  struct mend_choice best = {.cost = INFINITY};
  size_t added = 0;
  long until = s->spent + WIDER_SPENDS;
  for (size_t j = 0; j < s->columns && s->spent < until && mend_go_on(s); j++) {
    struct mend_choice wider = *c;
    if (in[j] || s->banned[j]) continue;
    in[j] = true;
    if (!mend_kin_clash(s, in) && in_steps(s, in, 1, &wider) && wider.cost < best.cost) {
      best = wider;
      added = j;
    }
    in[j] = false;
  }
  if (!isfinite(best.cost)) return false;
  in[added] = true;
  best.one_more = true;
  best.least_proven = false;
  *c = best;
  return true;
}

/* As many lines more as it takes, each of them dear: amounts that a kitchen measures come before few lines. */
static bool with_several_more(struct mend_search *s, const bool *in, struct mend_choice *c) {
  static const double DEAR = 4; /* a line more costs like so many whole portions */
  double *cost = ARENA_NEW(s->arena, double, s->columns);
  bool *may = ARENA_NEW(s->arena, bool, s->columns);
  memcpy(may, in, s->columns * sizeof *may);
  for (size_t j = 0; j < s->columns; j++) { /* of each kind the first that is offered */
    may[j] = true;
    may[j] = in[j] || !mend_kin_clash(s, may);
  }
  mend_play(s, may, GRAIN_STEPS, 1);
  for (size_t j = 0; j < s->columns; j++) {
    double most = mend_within_reach(s, j, s->reach);
    cost[j] = s->column[j].cost + (in[j] || !(most > 0) ? 0 : DEAR / most);
  }
  mend_costs(s, cost);
  struct model_answer a = mend_solve(s, true, SEVERAL_NODES);
  mend_costs(s, NULL);
  if (!a.has_x) return false;
  c->x = a.x;
  c->cost = mend_cost_of(s, a.x);
  c->rounded = c->one_more = true;
  c->least_proven = false;
  return true;
}

static bool in_some_steps(struct mend_search *s, bool *in, struct mend_choice *c) {
  static const double FINER[] = {1, 2, 5};
  for (size_t i = 0; i < COUNT_OF(FINER); i++)
    if (in_steps(s, in, FINER[i], c)) return true;
  if (!s->finishing && with_one_more(s, in, c)) return true;
  return with_several_more(s, in, c);
}

/* What was offered as a pinch, by tenths of a gram, and became more than 5 g: whole grams, where they will do. */
static void in_whole_grams(struct mend_search *s, bool *in, struct mend_choice *c) {
  static const double FROM = 5, FINER[] = {1, 2, 5};
  bool any = false;
  for (size_t j = 0; j < s->columns; j++) {
    double grams = s->column[j].gram > 0 ? c->x[j] / s->column[j].gram : 0;
    s->coarse[j] = grams > FROM && fabs(grams - round(grams)) > 1e-6;
    any |= s->coarse[j];
  }
  mend_lines_in_use(s, c->x, in);
  for (size_t i = 0; i < COUNT_OF(FINER) && any; i++) any = !in_steps(s, in, FINER[i], c);
  memset(s->coarse, 0, s->columns * sizeof *s->coarse);
}

void mend_steps(struct mend_search *s, struct mend_choice *c) {
  bool *in = ARENA_NEW(s->arena, bool, s->columns);
  mend_lines_in_use(s, c->x, in);
  s->finishing = s->stopped;
  bool rounded = in_some_steps(s, in, c);
  if (!rounded && s->stopped && !s->finishing) { /* stopped on the way: what was begun is brought to its end */
    s->finishing = true;
    mend_lines_in_use(s, c->x, in);
    in_some_steps(s, in, c);
  }
  if (c->rounded) in_whole_grams(s, in, c);
  s->finishing = false;
}

void mend_search_round_freely(struct mend_search *s, struct mend_choice *c) {
  static const double NOTHING = 0.05; /* of a step */
  double *x = ARENA_NEW(s->arena, double, s->columns);
  for (size_t j = 0; j < s->columns; j++) {
    const struct mend_column *col = &s->column[j];
    double step = col->whole > 0 ? col->whole : col->step;
    double most = col->sign < 0 || !(step > 0) ? col->most : floor(col->most / step + 1e-6) * step;
    /* What is added is added for a need that the next step below would leave open. */
    double steps = c->x[j] / step, taken = col->sign > 0 && steps > NOTHING ? ceil(steps - NOTHING) : round(steps);
    x[j] = step > 0 ? fmin(taken * step, most) : c->x[j];
  }
  c->x = x;
  c->rounded = true;
}
