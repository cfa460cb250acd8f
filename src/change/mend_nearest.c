/* mend_nearest.c: where no change keeps everything, the nearest that an owner would still know: usual portions, no main food
 * cut by more than a third, and of foods and pills of one kind one. */
#include "change/mend_search.h"

/* The largest of a kind stays in play, by its share of the usual most. False: there was but one of each. */
static bool keep_one_of_each(const struct mend_search *s, const double *x, bool *in) {
  bool two = false;
  for (size_t i = 0; i < s->columns; i++) {
    const struct mend_column *a = &s->column[i];
    if (!in[i] || a->kin == 0 || !mend_in_use(s, i, x[i])) continue;
    for (size_t j = 0; j < s->columns; j++) {
      const struct mend_column *b = &s->column[j];
      if (j == i || b->kin != a->kin) continue;
      double mine = x[i] / a->usual, other = x[j] / b->usual;
      two |= in[j] && mend_in_use(s, j, x[j]);
      if (mine > other || (mine == other && i < j)) in[j] = false;
    }
  }
  return two;
}

/* Of what is added less than anybody would weigh is no help to whoever feeds: it goes. False: there was none. */
static bool drop_crumbs(const struct mend_search *s, const double *x, bool *in) {
  bool any = false;
  for (size_t j = 0; j < s->columns; j++) {
    if (!in[j] || s->column[j].line >= 0 || !(x[j] > 0) || !(x[j] < s->column[j].least * (1 - 1e-6))) continue;
    in[j] = false;
    any = true;
  }
  return any;
}

static struct model_nearest nearest_with(struct mend_search *s, const bool *in, struct arena *arena) {
  mend_play(s, in, GRAIN_NONE, 1);
  model_manners(s->p, false);
  return model_nearest(s->p, false, NULL, arena);
}

struct model_nearest mend_nearest(struct mend_search *s, struct arena *arena) {
  enum { USUAL = 3 /* a step of mend_reach() */, ROUNDS = 8 };
  bool *in = ARENA_NEW(arena, bool, s->columns);
  int reach = s->reach;
  for (size_t j = 0; j < s->columns; j++) in[j] = !(s->column[j].kin_had && !s->column[j].at_hand);
  s->reach = USUAL;
  struct model_nearest near = nearest_with(s, in, arena);
  for (int i = 0; i < ROUNDS && near.has_x && keep_one_of_each(s, near.x, in); i++) near = nearest_with(s, in, arena);
  for (int i = 0; i < ROUNDS && near.has_x && drop_crumbs(s, near.x, in); i++) near = nearest_with(s, in, arena);
  s->reach = reach;
  mend_play(s, NULL, GRAIN_NONE, 1);
  model_manners(s->p, false);
  return near;
}
