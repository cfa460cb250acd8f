/* See kept.h. */
#include "lp/kept.h"

#include <string.h>

enum { VECTORS = 5 };

static size_t numbers(const struct simplex *s, int k) {
  return (size_t)(s->n + s->m) * VECTORS + (size_t)(s->m + k) * (size_t)k;
}

static double *put(double *to, const double *from, int n) {
  memcpy(to, from, (size_t)n * sizeof *to);
  return to + n;
}

static const double *get(double *to, const double *from, int n) {
  memcpy(to, from, (size_t)n * sizeof *to);
  return from + n;
}

void kept_save(struct kept *to, const struct simplex *s, struct arena *arena) {
  int all = s->n + s->m;
  if (to->room < numbers(s, s->k)) {
    to->room = numbers(s, s->k + 4);
    to->number = ARENA_NEW(arena, double, to->room);
  }
  if (!to->slot) {
    to->slot = ARENA_NEW(arena, int, (size_t)(s->n + s->m_cap));
    to->var = ARENA_NEW(arena, int, (size_t)s->m_cap);
    to->rows_k = ARENA_NEW(arena, int, (size_t)s->m_cap);
  }
  double *p = to->number;
  p = put(p, s->lo, all);
  p = put(p, s->hi, all);
  p = put(p, s->x, all);
  p = put(p, s->d, all);
  p = put(p, s->weight, all);
  for (int i = 0; i < s->k; i++) {
    p = put(p, s->w[i], s->k);
    p = put(p, s->own[i], s->m);
  }
  memcpy(to->slot, s->slot, (size_t)all * sizeof *to->slot);
  memcpy(to->var, s->var, (size_t)s->k * sizeof *to->var);
  memcpy(to->rows_k, s->rows_k, (size_t)s->k * sizeof *to->rows_k);
  to->k = s->k;
  to->trust = s->trust;
}

void kept_restore(const struct kept *from, struct simplex *s) {
  int all = s->n + s->m;
  const double *p = from->number;
  p = get(s->lo, p, all);
  p = get(s->hi, p, all);
  p = get(s->x, p, all);
  p = get(s->d, p, all);
  p = get(s->weight, p, all);
  for (int i = 0; i < from->k; i++) {
    p = get(s->w[i], p, from->k);
    p = get(s->own[i], p, s->m);
  }
  memcpy(s->slot, from->slot, (size_t)all * sizeof *s->slot);
  memcpy(s->var, from->var, (size_t)from->k * sizeof *s->var);
  memcpy(s->rows_k, from->rows_k, (size_t)from->k * sizeof *s->rows_k);
  s->k = from->k;
  s->trust = from->trust;
}
