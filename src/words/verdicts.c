#include "words/verdicts.h"
#include "base/table.h"
#include "judge/meal.h"
#include "judge/uncounted.h"

#include <math.h>

/* ---- groups ---------------------------------------------------------------------------------------------------- */

/* ORDER GROUP */
static const struct {
  const char *key, *title, *aside;
} GROUP[] = {
    {"short", "Short", "too little"},
    {"thin", "Thin", "not quite enough"},
    {"near limit", "Close to its limit", ""},
    {"over", "Over", "past the limit"},
    {"unproven", "Unproven", "data gaps"},
    {"met", "Met", ""},
    {"no figure", "No figure", "none in this standard"},
};
ROW_FOR_EACH(GROUP, GROUP_COUNT);

enum group_id words_group_of(const struct nutrient_result *n) {
  switch (n->verdict) {
  case VERDICT_SHORT:
    return GROUP_SHORT;
  case VERDICT_THIN:
    return n->close_to_limit ? GROUP_NEAR_LIMIT : GROUP_THIN;
  case VERDICT_OVER:
    return GROUP_OVER;
  case VERDICT_UNPROVEN:
    return GROUP_UNPROVEN;
  case VERDICT_MET:
    return GROUP_MET;
  case VERDICT_NO_FIGURE:
  case VERDICT_COUNT:
    break;
  }
  return GROUP_NO_FIGURE;
}

double words_share_had(const struct nutrient_result *n) {
  return n->amount < n->allowance ? n->amount / n->allowance : n->ratio;
}

static double or_zero(double x) { return isfinite(x) ? x : 0; }

/* Larger is worse. */
static double badness(const struct nutrient_result *n) {
  switch (words_group_of(n)) {
  case GROUP_SHORT:
  case GROUP_UNPROVEN:
    return -or_zero(n->ratio);
  case GROUP_THIN:
    return -or_zero(n->chance_met);
  case GROUP_NEAR_LIMIT:
    return -or_zero(n->chance_kept);
  case GROUP_OVER:
    return n->upper > 0 ? or_zero(fmax(n->amount, n->window_high) / n->upper) : 0;
  case GROUP_MET:
  case GROUP_NO_FIGURE:
  case GROUP_COUNT:
    break;
  }
  return 0;
}

void words_groups(const struct check_result *r, struct group out[GROUP_COUNT]) {
  for (int g = 0; g < GROUP_COUNT; g++)
    out[g] = (struct group){.key = GROUP[g].key, .title = GROUP[g].title, .aside = GROUP[g].aside};
  for (int i = 0; i < NUT_COUNT; i++) {
    const struct nutrient_result *n = &r->nutrient[i];
    struct group *g = &out[words_group_of(n)];
    if (n->id == NUT_ENERGY) continue;
    int k = g->count++;
    for (; k > 0 && badness(n) > badness(g->item[k - 1]); k--) g->item[k] = g->item[k - 1];
    g->item[k] = n;
  }
}

/* ---- the bowl in one sentence ---------------------------------------------------------------------------------- */

/* As many names as a sentence bears; one more is named too, for "and 1 more" is no shorter. */
enum { NAMES_MOST = 4 };

/* "iodine, zinc and 3 more" */
static const char *named(const struct group *g, struct arena *a) {
  const char *name[NUT_COUNT];
  for (int i = 0; i < g->count; i++) name[i] = words_nutrient(a, g->item[i]->id);
  return words_list(a, name, (size_t)g->count, g->count == NAMES_MOST + 1 ? NAMES_MOST + 1 : NAMES_MOST);
}

static void add_open(struct buf *b, const struct group *g, const char *word) {
  if (g->count > 0) buf_addf(b, "%s%s: %s", b->n > 0 ? "; " : "", word, named(g, b->arena));
}

static const char *judged(const struct group *g, struct arena *a) {
  const struct group *low = &g[GROUP_SHORT], *high = &g[GROUP_OVER];
  if (low->count && high->count) return words_text(a, "Too much %s; too little %s.", named(high, a), named(low, a));
  if (low->count) return words_text(a, "Too little %s.", named(low, a));
  const struct group *open_ones = &g[GROUP_UNPROVEN];
  if (high->count && open_ones->count)
    return words_text(a, "Too much %s; nothing is clearly short, but unproven: %s.", named(high, a), named(open_ones, a));
  if (high->count) return words_text(a, "Nothing is short, but too much %s.", named(high, a));
  struct buf open;
  buf_init(&open, a, 8192);
  add_open(&open, &g[GROUP_UNPROVEN], "unproven");
  add_open(&open, &g[GROUP_THIN], "thin");
  add_open(&open, &g[GROUP_NEAR_LIMIT], "close to the limit");
  if (open.n > 0)
    return words_text(a, "Nothing is %sshort or over, but %s.", g[GROUP_UNPROVEN].count ? "clearly " : "", buf_text(&open));
  if (g[GROUP_MET].count == 0) return "There is no figure here to judge by.";
  return words_text(a, "All %d needs are met, and nothing is over its limit.", g[GROUP_MET].count);
}

/* "Do not feed this as it is: raisins and cooked bone."; "" without a danger. */
static const char *danger_words(const struct check_result *r, struct arena *a) {
  const char *about[NAMES_MOST + 1];
  size_t n = 0;
  bool any = false;
  for (size_t i = 0; i < r->finding_count; i++) {
    const char *one = r->finding[i].danger ? r->finding[i].about : NULL;
    bool told = !one || n == COUNT_OF(about);
    any = any || r->finding[i].danger;
    for (size_t k = 0; k < n && !told; k++) told = strcmp(about[k], one) == 0;
    if (!told) about[n++] = one;
  }
  if (!any) return "";
  if (n == 0) return "Do not feed this as it is.";
  return words_text(a, "Do not feed this as it is: %s.", words_list(a, about, n, NAMES_MOST));
}

/* Those of which it is known what they are, or those of which it is not. */
static const char *uncounted_of(const struct ration *r, bool known, const char *why, struct arena *a) {
  const char **text = ARENA_NEW(a, const char *, r->uncounted_count);
  size_t n = 0;
  for (size_t i = 0; i < r->uncounted_count; i++)
    if ((r->uncounted[i].may_be_count > 0) == known) text[n++] = r->uncounted[i].text;
  return n > 0 ? words_text(a, "Not counted, because %s: %s. ", why, words_list(a, text, n, 3)) : "";
}

/* "1 scoop of a multivitamin" and the like, as written; "" when everything is counted. */
static const char *uncounted(const struct check_result *r, struct arena *a) {
  if (!r->ration || r->ration->uncounted_count == 0) return "";
  return words_text(a, "%s%s", uncounted_of(r->ration, false, "nobody can say what is in it", a),
                    uncounted_of(r->ration, true, "nobody says how much it is", a));
}

const char *words_uncounted(const struct ration *r, struct arena *a) {
  if (!r || r->uncounted_count == 0) return "";
  const char **text = ARENA_NEW(a, const char *, r->uncounted_count);
  for (size_t i = 0; i < r->uncounted_count; i++) text[i] = words_text(a, "“%s”", r->uncounted[i].text);
  return words_list(a, text, r->uncounted_count, r->uncounted_count);
}

const char *words_not_scaled(size_t uncounted, struct arena *a) {
  return words_text(a, "How much energy %s is not known, so the amounts of the rest were not scaled to the need.",
                    uncounted > 1 ? "they add" : "it adds");
}

const char *words_withheld(const struct library *lib, const struct check_result *r, struct arena *a) {
  enum { NAMED_MOST = 4 };
  bool held[NUT_COUNT];
  const char *item[NUT_COUNT];
  size_t n = 0;
  uncounted_doses(lib, r, held);
  for (int i = 0; i < NUT_COUNT; i++)
    if (held[i]) item[n++] = words_nutrient(a, (enum nutrient)i);
  if (n == 0) return "";
  bool many = r->ration->uncounted_count > 1;
  return words_text(a, "%s must first say how much %s %s: until then none is added, for twice the dose can harm.",
                    many ? "Their labels" : "Its label",
                    n > NAMED_MOST ? "of the trace elements and of vitamins A and D" : words_list(a, item, n, NAMED_MOST),
                    many ? "they hold" : "it holds");
}

const char *words_before_change(const struct library *lib, const struct check_result *of, bool size_fits, struct arena *a) {
  const struct ration *r = of->ration;
  const char *uncounted = words_uncounted(r, a), *withheld = words_withheld(lib, of, a);
  if (!uncounted[0]) return "";
  bool many = r->uncounted_count > 1;
  return words_text(a,
                    "This does not count %s. Before anything is added, leave %s out or find out what %s: %s may supply the "
                    "same already.%s%s%s%s",
                    uncounted, many ? "them" : "that", many ? "they hold" : "it holds", many ? "they" : "it",
                    withheld[0] ? " " : "", withheld, size_fits ? "" : " ",
                    size_fits ? "" : words_not_scaled(r->uncounted_count, a));
}

const char *words_supply(const struct energy_result *e, struct arena *a) {
  const char *kcal = words_whole(a, e->supply_kcal);
  return e->in_part && isfinite(e->supply_kcal) ? words_text(a, "at least %s", kcal) : kcal;
}

/* Supplements or crumbs: what each need lacks would be the whole list of needs. */
static const char *no_meal(const struct check_result *r, struct arena *a) {
  if (!(r->energy.supply_kcal > 0)) return "This is not a meal: there is no energy in it.";
  return words_text(a, "This is not a meal: it gives %s of about %s kcal a day.", words_whole(a, r->energy.supply_kcal),
                    words_whole(a, r->energy.need.kcal));
}

const char *words_lead(const struct check_result *r, struct arena *a) {
  struct group group[GROUP_COUNT];
  const char *danger = danger_words(r, a);
  const char *rest = "";
  if (r->refusal != REFUSE_NOT) {
    rest = "No verdict for this animal.";
  } else if (r->ration && r->ration->line_count == 0) {
    rest = "An empty bowl.";
  } else if (meal_is_none(r)) {
    rest = no_meal(r, a);
  } else if (r->animal) {
    words_groups(r, group);
    rest = judged(group, a);
  } else if (!danger[0]) {
    rest = "What is in it; no animal is given, so nothing is judged.";
  }
  return words_text(a, "%s%s%s%s", danger, danger[0] && rest[0] ? " " : "", uncounted(r, a), rest);
}
