/* Nutrients grouped by verdict, worst first. */
#include "report/answer.h"

#include <math.h>

/* A share of mass that adds up to one within rounding. */
static const double WHOLE = 1 - 1e-9;

bool has_gaps(const struct nutrient_result *n) { return !(n->known_share >= WHOLE); }
bool nothing_known(const struct nutrient_result *n) {
  return !isfinite(n->amount) || (n->amount == 0 && has_gaps(n) && n->from_count == 0);
}

static double or_zero(double x) { return isfinite(x) ? x : 0; }

/* Larger is worse. */
static double badness(const struct nutrient_result *n) {
  switch (n->verdict) {
  case VERDICT_SHORT:
  case VERDICT_UNPROVEN:
    return -or_zero(n->ratio);
  case VERDICT_THIN:
    return -or_zero(n->near_upper ? n->chance_kept : n->chance_met);
  case VERDICT_OVER:
    return n->upper > 0 ? or_zero(n->amount / n->upper) : 0;
  case VERDICT_MET:
  case VERDICT_NO_FIGURE:
  case VERDICT_COUNT:
    break;
  }
  return 0;
}

struct group group_of(const struct check_result *r, enum verdict verdict) {
  struct group g = {.count = 0};
  for (int i = 0; i < NUT_COUNT; i++) {
    const struct nutrient_result *n = &r->nutrient[i];
    if (n->verdict != verdict || n->id == NUT_ENERGY) continue;
    int k = g.count++;
    for (; k > 0 && badness(n) > badness(g.item[k - 1]); k--) g.item[k] = g.item[k - 1];
    g.item[k] = n;
  }
  return g;
}
