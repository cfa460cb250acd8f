#include "explain/quiet.h"

#include <math.h>

#include "judge/meal.h"

/* Where a standard gives no minimum: see verdict.c. */
static const double SHORT_SHARE_OF_ALLOWANCE = 0.70;
/* A limit that is just kept is kept: see verdict.c. */
static const double ROUNDING = 1e-9;

/* Shares f at which f x amount reaches every line of the need: fixed + grows x f. */
struct shares {
  double from, to;
};
static const struct shares NEVER = {INFINITY, INFINITY};

static void reach_line(struct shares *s, double amount, double fixed, double grows) {
  double gain = amount - grows; /* what more food brings beyond what it asks for */
  if (isnan(gain) || isnan(fixed)) return;
  if (gain > 0) {
    s->from = fmax(s->from, fixed / gain);
  } else if (fixed < 0 && gain < 0) {
    s->to = fmin(s->to, fixed / gain);
  } else if (fixed > 0 || gain < 0) {
    *s = NEVER;
  }
}

static struct shares reach_need(const struct nutrient_result *n, double amount, double part) {
  struct shares s = {0, INFINITY};
  for (int i = 0; i < NEED_LINES; i++) reach_line(&s, amount, part * n->need_line[i].fixed, part * n->need_line[i].grows);
  return s;
}

/* A limit by weight is passed by too much food; one per 1000 kcal by too dense a food, at any share, unless it goes by the
 * animal's need. */
static struct shares keep_limit(const struct nutrient_result *n, double sure, bool at_need) {
  struct shares s = {0, INFINITY};
  if (!n->table || isnan(n->upper)) return s;
  double high = n->known == KNOWN_NONE ? 0 : n->window_high;
  /* Above the highest level tested the mean decides, below a limit the chance. */
  if (high > 0 && !n->upper_greater_than) high = fmax(high, lognormal_quantile(high, n->window_high_cv, sure));
  if (!at_need && high > n->table->upper_by_energy * (1 + ROUNDING)) return NEVER;
  double most = at_need ? n->upper : n->table->upper_by_weight;
  if (!isnan(most) && high > 0) s.to = most / high;
  return s;
}

/* Scaling the food by f scales every amount by f and leaves its relative spread: what is reached with the wanted confidence
 * is f times today's quantile. */
static struct quiet_nutrient crossing(const struct nutrient_result *n, double sure, bool at_need) {
  struct quiet_nutrient q = {NAN, NAN, NAN};
  bool judged =
      n->verdict == VERDICT_SHORT || n->verdict == VERDICT_THIN || n->verdict == VERDICT_MET || n->verdict == VERDICT_OVER;
  if (!judged || !(n->allowance > 0)) return q;
  bool some = n->known != KNOWN_NONE;
  double surely = some ? fmin(n->window_amount, lognormal_quantile(n->window_amount, n->window_cv, 1 - sure)) : 0;
  struct shares need = reach_need(n, surely, 1), limit = keep_limit(n, sure, at_need);
  q.met_to = fmin(need.to, limit.to);
  q.met_from = fmax(need.from, limit.from);
  if (q.met_from > q.met_to) q.met_from = INFINITY;
  struct shares least = {0, INFINITY};
  if (isnan(n->minimum)) {
    least = reach_need(n, n->window_most, SHORT_SHARE_OF_ALLOWANCE);
  } else {
    bool grows = n->table && n->table->minimum_by_energy;
    reach_line(&least, n->window_most, grows ? 0 : n->minimum, grows ? n->minimum : 0);
  }
  q.short_from = least.from;
  return q;
}

static void take_in(struct quiet *q, const struct nutrient_result *n) {
  const struct quiet_nutrient *x = &q->of[n->id];
  q->unproven += n->verdict == VERDICT_UNPROVEN;
  if (isnan(x->met_from)) return;
  if (x->met_to < q->limit_at) {
    q->limit_at = x->met_to;
    q->first_over = n->id;
  }
  if (!(x->met_from <= q->all_met_from)) {
    q->all_met_from = x->met_from;
    q->last_met = n->id;
  }
  if (n->verdict == VERDICT_MET && !(x->met_from <= q->still_met_from)) {
    q->still_met_from = x->met_from;
    q->first_lost = n->id;
  }
}

static void energy_of(struct quiet *q, const struct energy_result *e) {
  if (e->in_part) return;
  q->smallest_kcal = q->all_met_from * e->supply_kcal;
  q->room_kcal = e->need.kcal - q->smallest_kcal;
  double fat_kcal = e->share_fat * e->supply_kcal * q->all_met_from + q->room_kcal;
  if (isfinite(q->smallest_kcal) && fat_kcal >= 0) q->highest_fat_share = fat_kcal / e->need.kcal;
}

struct quiet quiet_of(const struct check_result *r) {
  struct quiet q = {.applies = r->animal && r->refusal == REFUSE_NOT && r->allowances.basis == BASIS_WEIGHT &&
                               r->energy.grams_per_day > 0 && !r->energy.beside && !meal_is_none(r),
                    .last_met = NUT_NONE,
                    .first_lost = NUT_NONE,
                    .first_over = NUT_NONE,
                    .limit_at = INFINITY,
                    .all_met_from = NAN,
                    .still_met_from = NAN,
                    .smallest_kcal = NAN,
                    .room_kcal = NAN,
                    .highest_fat_share = NAN};
  for (int k = 0; k < NUT_COUNT; k++) q.of[k] = (struct quiet_nutrient){NAN, NAN, NAN};
  if (!q.applies) return q;
  bool at_need = isnan(meal_energy(r).for_limits);
  for (int k = 0; k < NUT_COUNT; k++) {
    q.of[k] = crossing(&r->nutrient[k], r->options.sure, at_need);
    take_in(&q, &r->nutrient[k]);
  }
  if (q.all_met_from > q.limit_at) q.all_met_from = INFINITY;
  energy_of(&q, &r->energy);
  return q;
}

static bool met_at(const struct quiet_nutrient *q, double share) { return q->met_from <= share && share <= q->met_to; }

size_t quiet_lost_at(const struct quiet *q, const struct check_result *r, double share, enum nutrient lost[NUT_COUNT]) {
  size_t n = 0;
  for (int k = 0; q->applies && k < NUT_COUNT; k++)
    if (r->nutrient[k].verdict == VERDICT_MET && q->of[k].met_from > 0 && !met_at(&q->of[k], share))
      lost[n++] = (enum nutrient)k;
  return n;
}

size_t quiet_crossings(const struct quiet *q, struct quiet_crossing out[NUT_COUNT]) {
  size_t n = 0;
  for (int k = 0; k < NUT_COUNT; k++) {
    double share = q->of[k].met_from;
    if (!(share > 0) || !isfinite(share)) continue;
    size_t at = n++;
    for (; at > 0 && out[at - 1].share < share; at--) out[at] = out[at - 1];
    out[at] = (struct quiet_crossing){(enum nutrient)k, share};
  }
  return n;
}
