/* What another amount of the same food would change: told beside "feed more" or "feed less", so that nobody mends at one
 * amount what the right amount mends by itself. */
#include <math.h>

#include "explain/quiet.h"
#include "review/findings_internal.h"

enum { NAMED_MOST = 4 };

struct names {
  const char *name[NUT_COUNT];
  double gravity[NUT_COUNT];
  size_t count;
};

/* The gravest come first. */
static void add_name(struct review *r, struct names *to, int k) {
  double gravity = gravity_of(r, (enum nutrient)k);
  size_t at = to->count++;
  for (; at > 0 && to->gravity[at - 1] < gravity; at--) {
    to->gravity[at] = to->gravity[at - 1];
    to->name[at] = to->name[at - 1];
  }
  to->gravity[at] = gravity;
  to->name[at] = words_nutrient(r->arena, (enum nutrient)k);
}

static const char *listed(const struct review *r, const struct names *n) {
  return list_of_few(r, n->name, n->count, NAMED_MOST);
}

/* Every amount is so many times what it was; a limit per 1000 kcal is kept or passed at any amount. */
static bool is_over_at(const struct nutrient_result *n, double share) {
  if (!n->table || !(n->window_high > 0)) return false;
  return n->window_high > n->table->upper_by_energy || n->window_high * share > n->table->upper_by_weight;
}

static const char *nothing_short(const struct review *r) {
  bool open = r->result->verdict_count[VERDICT_UNPROVEN] > 0;
  return open ? "nothing that can be judged would be short" : "nothing would be short";
}

/* More food: what it covers, and what it does not. */
static const char *more_words(const struct review *r, const struct names *freed, const struct names *low) {
  if (low->count == 0) return freed->count > 0 ? nothing_short(r) : "";
  if (freed->count == 0) return words_text(r->arena, "%s would still be short", listed(r, low));
  return words_text(r->arena, "%s would no longer be short, but %s still would", listed(r, freed), listed(r, low));
}

/* Less food: which limits it keeps, and what it takes below the need. */
static const char *less_words(const struct review *r, const struct names *freed, const struct names *low) {
  if (low->count == 0 && freed->count == 0) return nothing_short(r);
  const char *kept = freed->count == 0 ? "" : words_text(r->arena, "%s would be within the limit", listed(r, freed));
  if (low->count == 0) return words_text(r->arena, "%s, and %s", kept, nothing_short(r));
  return words_text(r->arena, "%s%s%s would be short", kept, kept[0] ? ", but " : "", listed(r, low));
}

const char *then_words(struct review *r, double share) {
  struct quiet q = quiet_of(r->result);
  struct names freed = {.count = 0}, low = {.count = 0}, over = {.count = 0};
  if (!q.applies || !(share > 0) || !isfinite(share)) return "";
  for (int k = 0; k < NUT_COUNT; k++) {
    const struct nutrient_result *n = &r->result->nutrient[k];
    bool is_short = share < q.of[k].short_from, was_short = n->verdict == VERDICT_SHORT;
    bool was_over = n->verdict == VERDICT_OVER, is_over = !n->upper_greater_than && is_over_at(n, share);
    if (is_short) add_name(r, &low, k);
    if (share > 1 ? was_short && !is_short : was_over && !is_over) add_name(r, &freed, k);
    if (is_over && !was_over) add_name(r, &over, k);
  }
  const char *words = share > 1 ? more_words(r, &freed, &low) : less_words(r, &freed, &low);
  if (!words[0] && over.count == 0) return "";
  const char *too_much =
      over.count == 0 ? "" : words_text(r->arena, "%s%s would be over the limit", words[0] ? "; " : "", listed(r, &over));
  const char *kcal = words_amount(r->arena, share * r->result->energy.supply_kcal, "kcal");
  return words_text(r->arena, "At %s a day of this same food %s%s.", kcal, words, too_much);
}

const char *less_first_words(const struct review *r, const struct nutrient_result *n) {
  const struct energy_result *e = &r->result->energy;
  if (!(e->supply_kcal > 0)) return ""; /* a bowl of salts: less of it gives no less energy */
  double high = row_threshold(r, "energy-high"), share = e->need.kcal / e->supply_kcal;
  bool by_weight = r->result->allowances.basis == BASIS_WEIGHT;
  if (n->verdict != VERDICT_OVER || !by_weight || !(share * high < 1) || is_over_at(n, share)) return "";
  return words_text(r->arena, "First feed less: at the expected need of %s a day it is within the limit. Failing that, ",
                    words_amount(r->arena, e->need.kcal, "kcal"));
}
