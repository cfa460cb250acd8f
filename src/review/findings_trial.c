/* One remedy tried: the ration with so much of a food more is judged like any other, and nothing may be worse for it. */
#include <math.h>

#include "foods/constant_keys.h"
#include "review/remedy.h"

static double known(const struct img_value *v, enum nutrient n) {
  return v[n].status == VALUE_UNKNOWN || isnan(v[n].mean) ? 0 : (double)v[n].mean;
}

/* Per 100 g, vitamin A as the species can use it. */
double remedy_held(const struct review *r, uint32_t food, enum nutrient n) {
  const struct img_value *v = library_values(r->lib, food);
  if (n != NUT_VITAMIN_A || known(v, n) > 0) return known(v, n);
  double factor = constant_of(r, K_CAROTENE_FACTOR);
  return known(v, NUT_RETINOL) + (isfinite(factor) ? factor * known(v, NUT_BETA_CAROTENE) : 0);
}

/* Grams of one unit: a food's own, or as much of the record as holds the stated amount. */
double remedy_unit_grams(const struct review *r, const struct img_shop_unit *u) {
  if (u->nutrient >= NUT_COUNT) return (double)u->holds;
  double per_100g = remedy_held(r, u->food, (enum nutrient)u->nutrient);
  return per_100g > 0 ? (double)u->holds / per_100g * 100 : 0;
}

static struct exchange *review_trial(struct review *r) {
  if (!r->trial)
    r->trial = exchange_open(r->lib, r->result->ration, r->result->ration->line_count, r->result->animal,
                             &r->result->options, r->arena);
  return r->trial;
}

void review_end(struct review *r) {
  if (r->trial) exchange_close(r->trial);
  r->trial = NULL;
}

struct ration_line remedy_line(const struct review *r, const struct remedy *m) {
  double grams = m->grams * CALENDAR_DAYS / m->times;
  struct ration_line more = {.text = "",
                             .part_count = 1,
                             .part = {{.food = m->fix->food, .grams = grams, .retention = -1}},
                             .grams_fed = grams,
                             .state = (enum state)library_food(r->lib, m->fix->food)->state,
                             .pinned = true,
                             .shown_food = m->fix->food,
                             .grams_from = "",
                             .low_g = grams,
                             .high_g = grams};
  ration_spread_days(&more, m->times, 0);
  return more;
}

/* The sums with it; the verdicts are reached one by one, as far as they are needed. */
const struct check_result *remedy_sums(struct review *r, const struct remedy *m) {
  struct ration_line more = remedy_line(r, m);
  return exchange_sums(review_trial(r), &more);
}

static int trouble(enum verdict v) {
  return v == VERDICT_SHORT || v == VERDICT_OVER ? 2 : v == VERDICT_MET || v == VERDICT_NO_FIGURE ? 0 : 1;
}

static bool is_worse(struct review *r, const struct nutrient_result *a, const struct nutrient_result *b) {
  if (review_becomes_act(r, a, b)) return true;
  if (trouble(b->verdict) > trouble(a->verdict) || (b->verdict == VERDICT_OVER && a->verdict != VERDICT_OVER)) return true;
  return (b->highest_day_over && !a->highest_day_over) || (b->near_upper && !a->near_upper);
}

/* Mostly the answer is no, and all are looked at. */
enum { JUDGED_AT_ONCE = 16 };

/* Is anything worse for it: a nutrient, the richest day, calcium to phosphorus, the energy? */
bool remedy_makes_worse(struct review *r, const struct check_result *sums) {
  const struct check_result *was = r->result;
  double a = was->balance.ca_p, b = sums->balance.ca_p;
  if ((b < 1 && !(a < 1 && b >= a)) || (b > 2 && !(a > 2 && b <= a))) return true;
  if (sums->energy.supply_kcal > sums->energy.need.high_kcal && was->energy.supply_kcal <= was->energy.need.high_kcal)
    return true;
  for (int n = 0; n < NUT_COUNT; n++) {
    const struct nutrient_result *now = &sums->nutrient[n];
    if (n % JUDGED_AT_ONCE == 0) exchange_judge(r->trial, n, n + JUDGED_AT_ONCE);
    bool judged = !isnan(now->allowance) || !isnan(now->upper); /* nothing gets worse where no figure says what is good */
    if (judged && is_worse(r, &was->nutrient[n], exchange_nutrient(r->trial, (enum nutrient)n))) return true;
  }
  return false;
}

bool remedy_meets(struct review *r, enum nutrient n) { return exchange_nutrient(r->trial, n)->verdict == VERDICT_MET; }

bool remedy_breaks_with(struct review *r, const struct remedy *m, const struct check_result *sums) {
  return remedy_makes_worse(r, sums) || review_raises_a_mark(r, &sums->balance, m->fix->food, m->grams);
}

bool remedy_breaks(struct review *r, const struct remedy *m) { return remedy_breaks_with(r, m, remedy_sums(r, m)); }
