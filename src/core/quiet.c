#include "core/quiet.h"

#include <math.h>

/* Scaling the food by f scales every amount by f and leaves its relative spread: the amount reached with the wanted
 * confidence is f times today's quantile, so the crossing point is allowance / quantile. Where the food itself has raised
 * the need (vitamin E with fat), that part scales along, and no share of the food changes the answer. */
static struct quiet_nutrient crossing(const struct nutrient_result *n, double sure) {
  struct quiet_nutrient q = {NAN, NAN};
  bool judged =
      n->verdict == VERDICT_SHORT || n->verdict == VERDICT_THIN || n->verdict == VERDICT_MET || n->verdict == VERDICT_OVER;
  if (!judged || !(n->allowance > 0)) return q;
  double fixed = n->adjusted ? n->adjusted_from : n->allowance;
  double reached = lognormal_quantile(n->window_amount, isfinite(n->cv) ? n->cv : 0, 1 - sure);
  double line = isfinite(n->minimum) ? n->minimum : 0.7 * fixed;
  bool outgrown = n->adjusted && n->adjusted_to > n->adjusted_from && reached < n->adjusted_to;
  q.met_from = outgrown ? INFINITY : fixed / reached;
  q.short_from = line / n->window_amount;
  return q;
}

static double fat_kcal(const struct check_result *r) { return r->energy.share_fat * r->energy.supply_kcal; }

struct quiet quiet_of(const struct check_result *r) {
  struct quiet q = {.applies = r->animal && r->refusal == REFUSE_NOT && r->allowances.basis == BASIS_WEIGHT,
                    .last_met = NUT_NONE,
                    .first_lost = NUT_NONE,
                    .all_met_from = NAN,
                    .still_met_from = NAN,
                    .smallest_kcal = NAN,
                    .room_kcal = NAN,
                    .highest_fat_share = NAN};
  for (int k = 0; k < NUT_COUNT; k++) q.of[k] = (struct quiet_nutrient){NAN, NAN};
  if (!q.applies || r->ration->line_count == 0) return q;
  for (int k = 0; k < NUT_COUNT; k++) {
    const struct nutrient_result *n = &r->nutrient[k];
    q.of[k] = crossing(n, r->options.sure);
    double f = q.of[k].met_from;
    if (isnan(f)) continue;
    if (!(f <= q.all_met_from)) {
      q.all_met_from = f;
      q.last_met = (enum nutrient)k;
    }
    if (n->verdict == VERDICT_MET && !(f <= q.still_met_from)) {
      q.still_met_from = f;
      q.first_lost = (enum nutrient)k;
    }
  }
  q.smallest_kcal = q.all_met_from * r->energy.supply_kcal;
  q.room_kcal = r->energy.need.kcal - q.smallest_kcal;
  double fat = (fat_kcal(r) * q.all_met_from + q.room_kcal) / r->energy.need.kcal;
  q.highest_fat_share = isfinite(q.smallest_kcal) && fat >= 0 ? fat : NAN;
  return q;
}

size_t quiet_lost_at(const struct quiet *q, const struct check_result *r, double share, enum nutrient lost[NUT_COUNT]) {
  size_t n = 0;
  for (int k = 0; k < NUT_COUNT; k++)
    if (r->nutrient[k].verdict == VERDICT_MET && q->of[k].met_from > share) lost[n++] = (enum nutrient)k;
  return n;
}
