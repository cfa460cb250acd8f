/* mend_leave.c: a line of the owner's that need not change stays as it is.
 *
 * The search holds the energy within a twentieth of the bowl's own, and to the last kilocalorie: 340 g of turkey become
 * 330 so that 35 g of salmon have room. Nobody would measure that out, and no animal would notice. So, once the change is
 * found, each line of the owner's is put back, the one that moves least first, and stays so where the other lines of the
 * change can keep every promise without it; the energy may then be a little farther off ('kept_least', 'kept_most' of the
 * limits; common practice). */
#include <math.h>

#include "change/mend_search.h"

/* What part of its line a column moves; INFINITY: it is none of the owner's, or not in use. */
static double moved_part(const struct mend_search *s, size_t j, double x) {
  const struct mend_column *c = &s->column[j];
  if (c->line < 0 || !mend_in_use(s, j, x) || !(s->start[c->line] > 0)) return INFINITY;
  return x / s->start[c->line];
}

static size_t least_moved(const struct mend_search *s, const double *x, const bool *tried) {
  size_t best = s->columns;
  double least = INFINITY;
  for (size_t j = 0; j < s->columns; j++) {
    double part = moved_part(s, j, x[j]);
    if (tried[j] || !(part < least)) continue;
    least = part;
    best = j;
  }
  return best;
}

/* The choice without one of its columns, the others as they are. */
static bool as_it_is(struct mend_search *s, size_t j, struct mend_choice *c) {
  struct arena scratch;
  double *x = ARENA_NEW(s->arena, double, s->columns);
  memcpy(x, c->x, s->columns * sizeof *x);
  x[j] = 0;
  arena_init(&scratch, s->arena->on_full);
  bool kept = model_rows_kept(s->p, x) && model_keeps(s->p, 0, model_judge(s->p, 0, x, &scratch));
  arena_free(&scratch);
  if (!kept) return false;
  c->x = x;
  c->cost = mend_cost_of(s, x);
  return true;
}

/* The same, the others measured anew. */
static bool with_others(struct mend_search *s, size_t j, bool *in, struct mend_choice *c) {
  struct mend_choice less = *c;
  bool none;
  mend_lines_in_use(s, c->x, in);
  in[j] = false;
  if (!mend_within(s, in, GRAIN_STEPS, 1, &less, &none)) return false;
  *c = less;
  return true;
}

void mend_leave_lines(struct mend_search *s, struct mend_choice *c) {
  struct mend_left left = {.fewest = c->fewest, .least_proven = c->least_proven};
  if (!c->rounded || s->with != MEND_BOTH || s->stopped) return;
  int reach = s->reach;
  enum mend_with with = s->with;
  bool *tried = ARENA_NEW(s->arena, bool, s->columns), *in = ARENA_NEW(s->arena, bool, s->columns);
  left.of = mend_lines_in_use(s, c->x, in);
  s->reach = c->reach;
  s->at_hand = c->at_hand;
  s->with = c->with;
  model_energy_rows(s->p, true);
  for (size_t j; mend_go_on(s) && (j = least_moved(s, c->x, tried)) < s->columns;) {
    tried[j] = true;
    left.lines += as_it_is(s, j, c) || with_others(s, j, in, c);
  }
  model_energy_rows(s->p, false);
  s->reach = reach;
  s->at_hand = false;
  s->with = with;
  if (left.lines == 0) return;
  /* What was proven was so for the narrower energy, with every line free to move. */
  c->left = left;
  c->fewest = 0;
  c->least_proven = false;
}
