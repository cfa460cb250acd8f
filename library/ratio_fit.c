#include "library/ratio_fit.h"

#include <math.h>

static const double WIDEST = 2.55;

void ratio_add(struct ratio_set *set, int group, double ratio) {
  size_t i = 0;
  while (i < set->count && set->group[i].group != group) i++;
  if (i == set->count) set->group[set->count++] = (struct ratio_group){group, 0, 0};
  set->group[i].sum += ratio;
  set->group[i].records++;
}

static double ratio_of(const struct ratio_group *g) { return g->sum / g->records; }

/* Mean over all groups but one; -1 leaves none out. */
static double mean_without(const struct ratio_set *set, int left_out) {
  double sum = 0;
  int n = 0;
  for (size_t i = 0; i < set->count; i++) {
    if (set->group[i].group == left_out) continue;
    sum += ratio_of(&set->group[i]);
    n++;
  }
  return n > 0 ? sum / n : NAN;
}

double ratio_mean(const struct ratio_set *set) { return mean_without(set, -1); }

double ratio_error(const struct ratio_set *set, const struct ratio_set *judged) {
  double squares = 0;
  for (size_t i = 0; i < judged->count; i++) {
    double expected = mean_without(set, judged->group[i].group), found = ratio_of(&judged->group[i]);
    if (!isfinite(expected)) return NAN;
    double error = expected > 0 ? (found - expected) / expected : found > 0 ? WIDEST : 0;
    squares += error * error;
  }
  return judged->count > 0 ? fmin(sqrt(squares / (double)judged->count), WIDEST) : NAN;
}
