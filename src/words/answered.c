#include "base/table.h"
#include "words/answered_parts.h"

#include <math.h>

#include "words/loss.h"
#include "words/usual.h"
#include "words/verdicts.h"

static const char *amount_words(const struct asked_scene *x, enum nutrient n, double amount) {
  return words_amount(x->a, amount, nutrient_info[n].unit);
}

/* The limit, and whose it is, are told with what is over it. */
static double of_limit(const struct nutrient_result *n) { return fmax(n->amount, n->window_high) / n->upper; }

/* Near its limit in the verdict, for want of certainty, and beyond it by what is counted. */
static bool is_beyond(const struct nutrient_result *n) { return words_group_of(n) == GROUP_NEAR_LIMIT && of_limit(n) > 1; }

static const double CA_P_MOST = 2; /* as words_usual() has it */

/* "Is that too much protein for her age?", where no standard sets a limit. */
static const char *no_limit_words(const struct asked_scene *x, enum nutrient id, const struct nutrient_result *n) {
  bool protein = id == NUT_PROTEIN;
  double share = protein ? x->r->energy.share_protein : 0;
  const char *energy = share > 0 ? words_text(x->a, " and %s of the energy", words_share(x->a, share)) : "",
             *times = n->ratio > 0 ? words_text(x->a, ", %s what is needed%s", words_times(x->a, n->ratio), energy) : "";
  return words_text(x->a, "No: %s sets no upper limit of %s for a healthy adult, young or old. This bowl has %s a day%s.%s",
                    standard_name[x->r->options.standard], words_nutrient(x->a, id), amount_words(x, id, n->amount), times,
                    protein
                        ? " With a kidney disease that is another matter: where one is suspected, your veterinarian tests "
                          "blood and urine first."
                        : "");
}

/* "too little calcium: 383 mg a day, 52 % of the 740 mg that the dog needs" */
static const char *verdict_words(const struct asked_scene *x, enum nutrient id) {
  const struct nutrient_result *n = &x->r->nutrient[id];
  const char *name = words_nutrient(x->a, id), *has = amount_words(x, id, n->amount),
             *needs = amount_words(x, id, n->allowance), *who = words_called(x->r->animal);
  static const double PLENTY = 3;
  switch (words_group_of(n)) {
  case GROUP_SHORT:
    if (!(n->amount > 0)) return words_text(x->a, "There is no %s that is known; %s needs %s a day.", name, who, needs);
    return words_text(x->a, "There is too little %s: %s a day, %s of the %s that %s needs.", name, has,
                      words_share(x->a, words_share_had(n)), needs, who);
  case GROUP_THIN:
    return words_text(x->a, "There is only just enough %s, or a little too little: %s a day, and %s needs %s.", name, has,
                      who, needs);
  case GROUP_NEAR_LIMIT:
    if (is_beyond(n))
      return words_text(
          x->a,
          "There is probably too much %s: %s a day as it is counted, and the upper limit is %s; how much is in "
          "it varies too widely to be sure.",
          name, amount_words(x, id, fmax(n->amount, n->window_high)), amount_words(x, id, n->upper));
    return words_text(x->a, "There is enough %s, and it is close to its limit: %s a day of at most %s.", name, has,
                      amount_words(x, id, n->upper));
  case GROUP_OVER:
    if (n->window_high > n->amount)
      return words_text(x->a, "There is too much %s on the richest days: %s a day, %s of the upper limit of %s.", name,
                        amount_words(x, id, n->window_high), words_share(x->a, of_limit(n)), amount_words(x, id, n->upper));
    return words_text(x->a, "There is too much %s: %s a day, %s of the upper limit of %s.", name, has,
                      words_share(x->a, of_limit(n)), amount_words(x, id, n->upper));
  case GROUP_UNPROVEN:
    if (!(n->amount > 0)) return words_text(x->a, "Whether there is enough %s nobody can say: no figure is known.", name);
    return words_text(x->a, "Whether there is enough %s is open: known is %s a day, %s of the %s that %s needs.", name, has,
                      words_share(x->a, words_share_had(n)), needs, who);
  case GROUP_MET:
    if (x->q->much && id == NUT_CALCIUM && x->r->balance.ca_p > CA_P_MOST)
      return words_text(
          x->a,
          "Yes, there is too much calcium for the phosphorus beside it, though %s a day is below the upper limit of %s.",
          has, amount_words(x, id, n->upper));
    if (x->q->much && n->upper > 0)
      return words_text(x->a, "No, there is not too much %s: %s a day of at most %s.", name, has,
                        amount_words(x, id, n->upper));
    if (x->q->much) return no_limit_words(x, id, n);
    if (n->upper > 0 && n->allowance > 0 && n->ratio >= PLENTY)
      return words_text(x->a, "There is plenty of %s, %s what is needed, and no more than may be: %s a day of at most %s.",
                        name, words_times(x->a, n->ratio), has, amount_words(x, id, n->upper));
    if (n->allowance > 0) return words_text(x->a, "There is enough %s: %s a day, and %s needs %s.", name, has, who, needs);
    return words_text(x->a, "There is not too much %s: %s a day%s.", name, has,
                      n->upper > 0 ? words_text(x->a, " of at most %s", amount_words(x, id, n->upper)) : "");
  case GROUP_NO_FIGURE:
  case GROUP_COUNT:
    break;
  }
  if (id == NUT_TAURINE && x->r->animal->species == SPECIES_DOG)
    return words_text(
        x->a,
        "Dogs make taurine from methionine and cystine, and %s sets no figure for it. %s %s Whether a dog makes enough "
        "your veterinarian can measure in its blood.",
        standard_name[x->r->options.standard],
        n->amount > 0 ? words_text(x->a, "The bowl has %s of it.", has) : "The bowl has next to none.",
        verdict_words(x, NUT_MET_CYS));
  return n->amount > 0 ? words_text(x->a, "There is %s of %s a day; %s sets no figure for it.", has, name,
                                    standard_name[x->r->options.standard])
                       : "";
}

static const char *joined(const struct asked_scene *x, const char *one, const char *other) {
  return words_text(x->a, "%s%s%s", one, one[0] && other[0] ? " " : "", other);
}

static const char *balance_words(const struct asked_scene *x) {
  struct usual usual[USUAL_COUNT];
  words_usual(x->lib, usual);
  double ratio = x->r->balance.ca_p;
  if (!(ratio > 0) || *x->balance_told) return "";
  *x->balance_told = true;
  bool much = words_group_of(&x->r->nutrient[NUT_CALCIUM]) == GROUP_OVER ||
              words_group_of(&x->r->nutrient[NUT_PHOSPHORUS]) == GROUP_OVER;
  const char *how = ratio < usual[0].low    ? "too low"
                    : ratio > usual[0].high ? "too high"
                    : much                  ? "which is right, and does not make up for too much of them"
                                            : "as it should be";
  return words_text(x->a, "Calcium to phosphorus is %s to 1, %s: %s is advised.", words_ratio(x->a, ratio), how,
                    words_usual_range(x->a, &usual[0]));
}

/* "Can I leave the kelp out?": what its nutrient rests on, and what would be left without that. */
static const char *without_words(const struct asked_scene *x, enum nutrient id) {
  static const double MOST_OF_IT = 0.5;
  const struct nutrient_result *n = &x->r->nutrient[id];
  const struct supply_list *list = who_supplies(n);
  if (!(n->amount > 0) || !(n->allowance > 0) || list->from_count == 0 || list->from[0].share < MOST_OF_IT) return "";
  const char *food = words_line(x->a, x->lib, x->r->ration, list->from[0].line), *name = words_nutrient(x->a, id);
  double left = n->amount * (1 - list->from[0].share);
  bool much = words_group_of(n) == GROUP_OVER || is_beyond(n), enough = left >= n->allowance;
  const char *what = words_text(x->a, "without %s %s of the %s that %s needs would be left", food, amount_words(x, id, left),
                                amount_words(x, id, n->allowance), words_called(x->r->animal));
  if (much && enough) return words_text(x->a, "As to %s: yes, leave it out, for %s.", name, what);
  if (much)
    return words_text(x->a, "As to %s: yes, leave it out, and give a measured amount of %s in its place, for %s.", name,
                      name, what);
  return words_text(
      x->a, enough ? "As to %s: yes, it may be left out, for %s." : "As to %s: not without something in its place, for %s.",
      name, what);
}

/* "Is taurine needed daily?" */
static const char *how_often_words(const struct asked_scene *x, enum nutrient id) {
  const struct nutrient_result *n = &x->r->nutrient[id];
  const char *name = words_nutrient(x->a, id);
  if (!(n->allowance > 0)) return "";
  if (n->window_days <= 1) return words_text(x->a, "It is needed every day: the body keeps next to no store of %s.", name);
  const char *few = words_text(x->a, "It need not be given every day: %s may average over %d days", name, n->window_days);
  bool holds = n->verdict == VERDICT_MET || n->verdict == VERDICT_OVER;
  if (!(n->window_amount > 0)) return words_text(x->a, "%s.", few);
  return words_text(x->a, "%s, and the leanest %d days of this bowl give %s a day%s.", few, n->window_days,
                    amount_words(x, id, n->window_amount), holds ? "" : ", which does not cover it");
}

static const char *nutrients_words(const struct asked_scene *x) {
  const char *all = "", *without = x->q->leaves_out ? answered_without(x) : "";
  bool mineral = false;
  for (size_t i = 0; i < x->q->nutrients; i++) {
    if (without[0]) break;
    all = joined(x, all, verdict_words(x, x->q->nutrient[i]));
    if (x->q->how_often) all = joined(x, all, how_often_words(x, x->q->nutrient[i]));
    if (x->q->leaves_out) all = joined(x, all, without_words(x, x->q->nutrient[i]));
    mineral = mineral || x->q->nutrient[i] == NUT_CALCIUM || x->q->nutrient[i] == NUT_PHOSPHORUS;
  }
  return without[0] ? without : mineral ? joined(x, all, balance_words(x)) : all;
}

/* The sentence of a finding, where the review has it. */
static const char *found(const struct asked_scene *x, const char *id) {
  for (size_t i = 0; i < x->r->finding_count; i++)
    if (strcmp(x->r->finding[i].id, id) == 0) return x->r->finding[i].text;
  return "";
}

static const char *ratio_words(const struct asked_scene *x) {
  const char *of_parts = x->q->nutrients == 0 ? found(x, "ratio-view") : "";
  return joined(x, joined(x, balance_words(x), found(x, "ca-p-uneven")), of_parts);
}

static const char *energy_words(const struct asked_scene *x) {
  const struct energy_result *e = &x->r->energy;
  if (!isfinite(e->supply_kcal)) return "How much energy is in it nobody knows.";
  return words_text(x->a,
                    "The bowl gives %s kcal a day, %s of the %s kcal that %s is expected to need (%s to %s kcal is usual).",
                    words_supply(e, x->a), words_share(x->a, e->supply_kcal / e->need.kcal), words_whole(x->a, e->need.kcal),
                    words_called(x->r->animal), words_whole(x->a, e->need.low_kcal), words_whole(x->a, e->need.high_kcal));
}

/* Of one that is too heavy how much it is to get comes first, and how much less that is. */
static const char *amount_to_feed(const struct asked_scene *x) {
  const struct animal_body *b = &x->r->body;
  const char *goal = words_loss_goal(x->lib, x->r, x->a);
  double supply = x->r->energy.supply_kcal;
  if (!goal[0] || !(supply > 0)) return energy_words(x);
  const char *less = supply > b->aim_high_kcal
                         ? words_text(x->a, " This bowl gives %s: come down by %s over two weeks.",
                                      words_supply(&x->r->energy, x->a), words_share(x->a, 1 - b->aim_kcal / supply))
                     : supply < b->loss_kcal ? " This bowl is below that already: no less of it."
                                             : " This bowl is about there: no less of it while the weight comes down.";
  return words_text(x->a, "%s%s %s", goal, less, words_loss_pace(x->lib, x->r, x->a));
}

static const char *weight_words(const struct asked_scene *x) {
  if (x->r->body.aim_kcal > 0) return amount_to_feed(x); /* that it is too heavy is told */
  return joined(x, energy_words(x),
                words_text(x->a,
                           "Whether %s is too heavy or too thin only the scales and the ribs under your hand can tell.",
                           words_called(x->r->animal)));
}

/* "Liver is 13 % of the food (80 g a day); about 5 % is usual." */
static const char *liver_words(const struct asked_scene *x) {
  const struct img_finding *row = library_finding(x->lib, "liver-share");
  double share = x->r->parts[BOWL_ORGAN_LIVER];
  if (!(share > 0)) return joined(x, "No liver is counted in this bowl.", nutrients_words(x));
  const char *usual =
      row && row->threshold2 > 0 ? words_text(x->a, "; about %s is usual", words_share(x->a, row->threshold2)) : "";
  const char *much = row && share > row->threshold ? "That is a lot of liver: " : "Liver is ";
  return joined(x,
                words_text(x->a, "%s%s of the food, %s g a day%s.", much, words_share(x->a, share),
                           words_whole(x->a, share * x->r->energy.grams_per_day), usual),
                nutrients_words(x));
}

static const char *bone_words(const struct asked_scene *x) {
  double share = x->r->parts[BOWL_BONE];
  const char *much = found(x, "bone-too-much");
  const char *how = !(share > 0) ? "No bone is counted in this bowl."
                    : much[0]    ? much
                                 : words_text(x->a, "Bone is %s of the food, %s g a day.", words_share(x->a, share),
                                              words_whole(x->a, share * x->r->energy.grams_per_day));
  return joined(x, joined(x, how, x->q->which ? answered_bones(x) : ""), nutrients_words(x));
}

static const char *food_words(const struct asked_scene *x) {
  return x->q->leaves_out ? answered_without(x) : answered_hangs(x);
}

static const char *health_words(const struct asked_scene *x) {
  const char *bad[ASKED_OF_NUTRIENTS_MOST], *fine[ASKED_OF_NUTRIENTS_MOST], *open[ASKED_OF_NUTRIENTS_MOST];
  size_t bads = 0, fines = 0, opens = 0;
  for (size_t i = 0; i < x->q->nutrients; i++) {
    const struct nutrient_result *n = &x->r->nutrient[x->q->nutrient[i]];
    const char *name = words_nutrient(x->a, n->id);
    enum group_id g = words_group_of(n);
    if (g == GROUP_THIN)
      bad[bads++] = words_text(x->a, "only just enough %s", name);
    else if (g == GROUP_SHORT)
      bad[bads++] = words_text(x->a, "too little %s (%s of the need)", name, words_share(x->a, words_share_had(n)));
    else if (g == GROUP_OVER)
      bad[bads++] = words_text(x->a, "too much %s (%s of its limit)", name, words_share(x->a, of_limit(n)));
    else if (is_beyond(n))
      bad[bads++] = words_text(x->a, "probably too much %s", name);
    else if (g == GROUP_UNPROVEN)
      open[opens++] =
          n->ratio > 0 ? words_text(x->a, "%s (%s of the need)", name, words_share(x->a, words_share_had(n))) : name;
    else if (g == GROUP_MET || g == GROUP_NEAR_LIMIT)
      fine[fines++] = name;
  }
  const char *vet = words_text(
      x->a, "Signs like “%s” can have many causes that no recipe shows, so please ask your veterinarian.", x->q->words);
  if (bads > 0) return words_text(x->a, "%s What bears on it in this bowl: %s.", vet, words_list(x->a, bad, bads, bads));
  if (opens > 0)
    return words_text(x->a, "%s What bears on it in this bowl, as far as it is counted: %s.", vet,
                      words_list(x->a, open, opens, opens));
  if (fines > 0)
    return words_text(x->a, "%s Of what bears on it this bowl has enough, or not too much: %s.", vet,
                      words_list(x->a, fine, fines, fines));
  return vet;
}

/* "Does she need a supplement?": yes or no first. */
static const char *supplement_words(const struct asked_scene *x) {
  enum { NAMED = 4 };
  struct group group[GROUP_COUNT];
  const char *item[NUT_COUNT];
  words_groups(x->r, group);
  words_as_told(x->r, &group[GROUP_SHORT]);
  const struct group *lack = group[GROUP_SHORT].count > 0 ? &group[GROUP_SHORT] : &group[GROUP_THIN];
  for (int i = 0; i < lack->count; i++) item[i] = words_nutrient(x->a, lack->item[i]->id);
  if (group[GROUP_SHORT].count > 0)
    return words_text(x->a, "Yes. As it is there is too little %s: supplements or other foods have to supply that.",
                      words_list(x->a, item, (size_t)lack->count, NAMED));
  if (group[GROUP_THIN].count > 0)
    return words_text(x->a, "It would be better: there is only just enough %s.", words_list(x->a, item, (size_t)lack->count, NAMED));
  if (group[GROUP_UNPROVEN].count > 0) return "That is open: not all of it could be judged.";
  return "No: every need is met as it is.";
}

/* ORDER ASKED_OF */
static const struct {
  const char *(*words)(const struct asked_scene *x);
  const char *about; /* "": in the owner's words */
} ANSWER[] = {
    {nutrients_words, ""},        {ratio_words, "the ratio"}, {amount_to_feed, "how much to feed"},
    {weight_words, "the weight"}, {liver_words, "liver"},     {bone_words, "bone"},
    {health_words, ""},           {food_words, ""},           {answered_less, "less of the food"},
    {answered_exchange, ""},      {answered_adding, ""}, {supplement_words, "a supplement"},
};
ROW_FOR_EACH(ANSWER, ASKED_OF_COUNT);

static const char *answer(const struct library *lib, const struct check_result *r, const struct owners_question *q,
                          bool *balance_told, struct arena *a) {
  const struct asked_scene x = {lib, r, q, a, balance_told};
  if (!r->animal || r->refusal != REFUSE_NOT || !r->ration || r->ration->line_count == 0) return "";
  return ANSWER[q->of].words(&x); /* cppcheck-suppress returnDanglingLifetime; it is of the arena */
}

/* What was asked about, as inside a sentence. */
static const char *about_words(const struct owners_question *q, struct arena *a) {
  if (q->of == ASKED_OF_NUTRIENTS) {
    const char *name[ASKED_OF_NUTRIENTS_MOST];
    for (size_t i = 0; i < q->nutrients; i++) name[i] = words_nutrient(a, q->nutrient[i]);
    return words_list(a, name, q->nutrients, q->nutrients);
  }
  return ANSWER[q->of].about[0] ? ANSWER[q->of].about : words_text(a, "“%s”", q->words);
}

/* Do the figures of something that was asked before say this as well? Of health only whether there is enough. */
static bool is_answered(const struct owners_question *q, const struct owners_question *before) {
  if (q->of != ASKED_OF_NUTRIENTS || before->of == ASKED_OF_HEALTH) return false;
  for (size_t i = 0; i < q->nutrients; i++) {
    bool there = false;
    for (size_t k = 0; k < before->nutrients; k++) there = there || before->nutrient[k] == q->nutrient[i];
    if (!there) return false;
  }
  return true;
}

static struct owners_question signs_at_once(const struct owners_question *q, size_t count) {
  struct owners_question all = {.of = ASKED_OF_HEALTH, .words = ""};
  for (size_t i = 0; i < count; i++) {
    if (q[i].of == ASKED_OF_HEALTH && !all.words[0]) all.words = q[i].words;
    for (size_t k = 0; q[i].of == ASKED_OF_HEALTH && k < q[i].nutrients; k++) {
      bool there = false;
      for (size_t j = 0; j < all.nutrients; j++) there = there || all.nutrient[j] == q[i].nutrient[k];
      if (!there && all.nutrients < ASKED_OF_NUTRIENTS_MOST) all.nutrient[all.nutrients++] = q[i].nutrient[k];
    }
  }
  return all;
}

const char *words_answers(const struct library *lib, const struct check_result *r, const struct owners_question *q,
                          size_t count, struct arena *a) {
  const char *about[OWNERS_QUESTIONS_MOST], *all = "";
  size_t n = 0;
  struct owners_question health = signs_at_once(q, count); /* several signs are answered at once */
  bool ill = false, asked = false, balance_told = false;
  for (size_t i = 0; i < count && n < COUNT_OF(about); i++) {
    bool sign = q[i].of == ASKED_OF_HEALTH, told = sign && ill;
    const char *said = answer(lib, r, sign ? &health : &q[i], &balance_told, a);
    ill = ill || sign;
    asked = asked || !sign;
    for (size_t k = 0; k < i; k++) told = told || is_answered(&q[i], &q[k]);
    if (!said[0]) continue;
    about[n++] = about_words(&q[i], a);
    if (!told) all = words_text(a, "%s %s", all, said);
  }
  return n > 0 ? words_text(a, "You %s %s.%s", asked ? "asked about" : "mention", words_list(a, about, n, n), all) : "";
}

bool words_answers_tell(const struct owners_question *q, size_t count, enum nutrient n) {
  for (size_t i = 0; i < count; i++)
    for (size_t k = 0; q[i].of != ASKED_OF_HEALTH && k < q[i].nutrients; k++)
      if (q[i].nutrient[k] == n) return true;
  return false;
}
