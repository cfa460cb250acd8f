#include "words/verdicts.h"
#include "words/matters.h"
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

/* Is it what the finding is about, and not the other half of a ratio? */
static bool is_about(const struct finding *f, enum nutrient n) {
  enum { A_RATIO = 2 };
  size_t count = f->nutrient_count > A_RATIO ? f->nutrient_count : f->nutrient_count > 0;
  for (size_t k = 0; k < count && f->weight == FINDING_ACT; k++)
    if (f->nutrient[k] == n) return true;
  return false;
}

size_t words_place_of(const struct check_result *r, enum nutrient n) {
  size_t i = 0;
  while (i < r->finding_count && !is_about(&r->finding[i], n)) i++;
  return i;
}

void words_as_told(const struct check_result *r, struct group *g) {
  for (int i = 1; i < g->count; i++) {
    const struct nutrient_result *x = g->item[i];
    size_t place = words_place_of(r, x->id);
    int k = i;
    for (; k > 0 && place < words_place_of(r, g->item[k - 1]->id); k--) g->item[k] = g->item[k - 1];
    g->item[k] = x;
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

const char *words_too_much(const struct check_result *r, const struct group *high, struct arena *a) {
  struct group over = {.count = 0}, dense = {.count = 0};
  for (int i = 0; i < high->count; i++) {
    struct group *to = isnan(meal_limit_of_a_day(r, high->item[i])) ? &over : &dense;
    to->item[to->count++] = high->item[i];
  }
  if (dense.count == 0) return named(high, a);
  return words_text(a, "%s%s%s for so little energy", over.count > 0 ? named(&over, a) : "",
                    over.count > 0 ? "; too much " : "", named(&dense, a));
}

static const char *judged(const struct check_result *r, const struct group *g, struct arena *a) {
  const struct group *low = &g[GROUP_SHORT], *high = &g[GROUP_OVER];
  if (low->count && high->count) return words_text(a, "Too much %s; too little %s.", words_too_much(r, high, a), named(low, a));
  if (low->count) return words_text(a, "Too little %s.", named(low, a));
  const struct group *open_ones = &g[GROUP_UNPROVEN];
  if (high->count && open_ones->count)
    return words_text(a, "Too much %s; nothing is clearly short, but unproven: %s.", words_too_much(r, high, a),
                      named(open_ones, a));
  if (high->count) return words_text(a, "Nothing is short, but too much %s.", words_too_much(r, high, a));
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
    bool fed = r->finding[i].danger && !r->finding[i].asked;
    const char *one = fed ? r->finding[i].about : NULL;
    bool told = !one || n == COUNT_OF(about);
    any = any || fed;
    for (size_t k = 0; k < n && !told; k++) told = strcmp(about[k], one) == 0;
    if (!told) about[n++] = one;
  }
  if (!any) return "";
  if (n == 0) return "Do not feed this as it is.";
  return words_text(a, "Do not feed this as it is: %s.", words_list(a, about, n, NAMES_MOST));
}

/* ORDER UNCOUNTED_WHY */
enum why { WHY_DANGER, WHY_CONTENT, WHY_KIND, WHY_AMOUNT, WHY_COUNT };

static enum why why_uncounted(const struct check_result *r, const struct ration_uncounted *u) {
  bool treats = u->kind.snack && !u->kind.nameless && !u->kind.holds;
  if (uncounted_is_out(r, u)) return WHY_DANGER;
  if (u->may_be_count == 0) return treats && !(u->said_g >= 0) ? WHY_AMOUNT : WHY_CONTENT;
  return u->is_read && u->said_g >= 0 && u->may_be_count > 1 ? WHY_KIND : WHY_AMOUNT;
}

static const char *uncounted_of(const struct check_result *r, enum why why, struct arena *a) {
  static const char *const UNCOUNTED_WHY[] = {"it must not be fed", "nobody can say what is in it", "nobody says which kind it is",
                                              "nobody says how much it is"};
  static_assert(COUNT_OF(UNCOUNTED_WHY) == WHY_COUNT, "one reason each");
  const struct ration *ration = r->ration;
  const char **text = ARENA_NEW(a, const char *, ration->uncounted_count);
  size_t n = 0;
  for (size_t i = 0; i < ration->uncounted_count; i++)
    if (why_uncounted(r, &ration->uncounted[i]) == why) text[n++] = ration->uncounted[i].text;
  return n > 0 ? words_text(a, "Not counted, because %s: %s. ", UNCOUNTED_WHY[why], words_list(a, text, n, 3)) : "";
}

/* "1 scoop of a multivitamin" and the like, as written; "" when everything is counted. */
static const char *uncounted(const struct check_result *r, struct arena *a) {
  if (!r->ration || r->ration->uncounted_count == 0) return "";
  return words_text(a, "%s%s%s%s", uncounted_of(r, WHY_DANGER, a), uncounted_of(r, WHY_CONTENT, a),
                    uncounted_of(r, WHY_KIND, a), uncounted_of(r, WHY_AMOUNT, a));
}

/* Of these those that may change something. */
static const char *uncounted_that_matters(const struct library *lib, const struct check_result *of, size_t *n, struct arena *a) {
  const struct ration *r = of->ration;
  const char **text = ARENA_NEW(a, const char *, r->uncounted_count + 1);
  *n = 0;
  for (size_t i = 0; i < r->uncounted_count; i++)
    if (words_uncounted_matters(lib, of, i, a)) text[(*n)++] = words_text(a, "“%s”", r->uncounted[i].text);
  return words_list(a, text, *n, *n);
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
  size_t n = 0;
  const char *uncounted = uncounted_that_matters(lib, of, &n, a), *withheld = words_withheld(lib, of, a);
  if (!uncounted[0]) return "";
  bool many = n > 1;
  return words_text(a,
                    "This does not count %s. Before anything is added, leave %s out or find out what %s: %s may supply the "
                    "same already.%s%s%s%s",
                    uncounted, many ? "them" : "that", many ? "they hold" : "it holds", many ? "they" : "it",
                    withheld[0] ? " " : "", withheld, size_fits ? "" : " ",
                    size_fits ? "" : words_not_scaled(n, a));
}

const char *words_ask_first(const struct ration *r, const bool *skip, bool how, struct arena *a) {
  const char **what = ARENA_NEW(a, const char *, r->uncounted_count + 1), **much = ARENA_NEW(a, const char *, r->uncounted_count + 1);
  size_t whats = 0, muches = 0;
  for (size_t i = 0; i < r->uncounted_count; i++) {
    if (skip && skip[i]) continue;
    const char *quoted = words_text(a, "“%s”", r->uncounted[i].text);
    if (r->uncounted[i].may_be_count > 0)
      much[muches++] = quoted;
    else
      what[whats++] = quoted;
  }
  if (whats + muches == 0) return "";
  if (whats == 0) return words_text(a, "First weigh %s.", words_list(a, much, muches, 3));
  return words_text(a, "First find out what is in %s%s%s%s.", words_list(a, what, whats, 3),
                    how ? " (a label, or the weight and the kind of food)" : "", muches > 0 ? ", and weigh " : "",
                    muches > 0 ? words_list(a, much, muches, 3) : "");
}

const char *words_supply(const struct energy_result *e, struct arena *a) {
  const char *kcal = words_whole(a, e->supply_kcal);
  return !energy_is_whole(e) && isfinite(e->supply_kcal) ? words_text(a, "at least %s", kcal) : kcal;
}

const char *words_gives(const struct energy_result *e, struct arena *a) {
  if (!isfinite(e->supply_kcal)) return "How much energy the bowl gives is not known";
  const char *kcal = words_whole(a, e->supply_kcal);
  if (e->in_part) return words_text(a, "The bowl gives at least %s kcal a day, not fully known", kcal);
  return words_text(a, e->beside ? "What is counted gives %s kcal a day" : "The bowl gives %s kcal a day", kcal);
}

/* What is too much all the same. */
static const char *over_even_so(const struct check_result *r, struct arena *a) {
  struct group group[GROUP_COUNT];
  words_groups(r, group);
  words_as_told(r, &group[GROUP_OVER]);
  const struct group *high = &group[GROUP_OVER];
  return high->count > 0 ? words_text(a, " Even so there is too much %s.", named(high, a)) : "";
}

/* Supplements or crumbs: what each need lacks would be the whole list of needs. */
static const char *no_meal(const struct check_result *r, struct arena *a) {
  const char *over = over_even_so(r, a);
  if (!(r->energy.supply_kcal > 0)) return words_text(a, "This is not a meal: there is no energy in it.%s", over);
  return words_text(a, "This is not a meal: it gives %s of about %s kcal a day.%s", words_whole(a, r->energy.supply_kcal),
                    words_whole(a, r->energy.need.kcal), over);
}

/* "9 % of the energy needed (79 of about 898 kcal a day)" */
static const char *share_of_need(const struct check_result *r, struct arena *a) {
  return words_text(a, "%s of the energy needed (%s of about %s kcal a day)",
                    words_share(a, r->energy.supply_kcal / r->energy.need.kcal), words_whole(a, r->energy.supply_kcal),
                    words_whole(a, r->energy.need.kcal));
}

const char *words_counted_part(const struct check_result *r, struct arena *a) {
  bool some = r->energy.supply_kcal > 0;
  return some ? words_text(a, "Only %s is counted", share_of_need(r, a)) : "Nothing that gives energy is counted";
}

/* Nobody is asked to weigh what must not be fed. */
static const char *unread(const struct check_result *r, struct arena *a) {
  bool *danger = ARENA_NEW(a, bool, r->ration->uncounted_count + 1);
  for (size_t i = 0; i < r->ration->uncounted_count; i++)
    for (size_t k = 0; k < r->finding_count; k++)
      danger[i] |= r->finding[k].danger && r->finding[k].line == r->ration->uncounted[i].line;
  const char *ask = words_ask_first(r->ration, danger, false, a);
  return words_text(a, "%s: too little to judge the bowl by.%s%s%s", words_counted_part(r, a), over_even_so(r, a),
                    ask[0] ? " " : "", ask);
}

/* How much of its food this is, where that is far less than all of it; "" where it is not. */
static const char *part_of_food(const struct check_result *r, struct arena *a) {
  const struct energy_result *e = &r->energy;
  if (!meal_is_far(r) || e->supply_kcal > e->need.kcal) return "";
  if (e->in_part)
    return words_text(a, "The energy is not fully known: at least %s of about %s kcal a day.",
                      words_whole(a, e->supply_kcal), words_whole(a, e->need.kcal));
  if (e->beside) return words_text(a, "What is counted gives %s.", share_of_need(r, a));
  if (meal_is_for_loss(r))
    return words_text(a, "%s kcal a day is between the %s that are the least while %s loses weight and the %s that hold %s kg: weigh every two weeks.",
                      words_supply(&r->energy, a), words_whole(a, r->body.loss_kcal), words_called(r->animal),
                      words_whole(a, r->energy.need.kcal), words_number(a, r->body.ideal_kg));
  return words_text(a, "This gives %s: a part of the food, or weight is lost.", share_of_need(r, a));
}

const char *words_part_of_food(const struct check_result *r, struct arena *a) {
  if (meal_is_unread(r)) return unread(r, a);
  return meal_is_none(r) ? no_meal(r, a) : part_of_food(r, a);
}

/* "Liver is 50 % of the food (60 g a day); about 5 % is usual." before all else; "". */
const char *words_mostly_liver(const struct check_result *r) {
  for (size_t i = 0; i < r->finding_count; i++)
    if (strcmp(r->finding[i].id, "liver-most") == 0) return r->finding[i].text;
  return "";
}

const char *words_lead(const struct check_result *r, struct arena *a) {
  struct group group[GROUP_COUNT];
  const char *danger = danger_words(r, a), *part = words_part_of_food(r, a), *counted = uncounted(r, a), *rest = "";
  if (r->refusal != REFUSE_NOT) {
    rest = "No verdict for this animal.";
  } else if (meal_is_unread(r)) {
    counted = ""; /* said already */
  } else if (r->ration && r->ration->line_count == 0) {
    rest = "An empty bowl.";
  } else if (meal_is_none(r)) {
    rest = part;
    part = "";
  } else if (r->animal) {
    words_groups(r, group);
    words_as_told(r, &group[GROUP_SHORT]);
    words_as_told(r, &group[GROUP_OVER]);
    const char *liver = words_mostly_liver(r);
    rest = words_text(a, "%s%s%s", liver, liver[0] ? " " : "", judged(r, group, a));
  } else if (!danger[0]) {
    rest = "What is in it; no animal is given, so nothing is judged.";
  }
  bool more = part[0] || rest[0];
  return words_text(a, "%s%s%s%s%s%s", danger, danger[0] && more ? " " : "", part, part[0] && rest[0] ? " " : "", counted,
                    rest);
}
