/* The first sentences: what was asked, and what matters most in this bowl, the worst first. */
#include <math.h>

#include "base/table.h"
#include "judge/meal.h"
#include "report/reply_points.h"
#include "review/findings.h"
#include "words/answered.h"
#include "words/loss.h"

/* ---- what is worst ---------------------------------------------------------------------------------------------- */

struct harm {
  const struct nutrient_result *n;
  bool over;
  double rank; /* larger is worse */
};

/* How grave the lack of it is (data/findings.tsv). */
static double gravity_of(const struct gathering *g, const struct nutrient_result *n) {
  static const double NOT_GRAVE = 3;
  const struct img_finding *row = library_finding(g->f->lib, words_text(g->arena, "%s-short", nutrient_info[n->id].key));
  return row && row->threshold > 0 ? (double)row->threshold : NOT_GRAVE;
}

static double times_limit(const struct nutrient_result *n) { return fmax(n->amount, n->window_high) / n->upper; }

/* So much of what is needed is lacking; so far above the limit it is. A limit that the standard sets itself counts for more
 * than one that another lends (own choice; docs/manual/reply.md). */
static double rank_of(const struct gathering *g, const struct nutrient_result *n, bool over) {
  static const double OWN_LEAST = 6, TIMES_MOST = 3, CLEARLY = 0.2; /* a limit passed by a little harms little */
  double gravity = gravity_of(g, n), share = words_share_had(n), has = share > 0 ? share : 0;
  if (!over) return gravity * (1 - has);
  if (n->table && n->table->upper_borrowed) return gravity * fmin(times_limit(n) - 1, 1);
  double beyond = fmin((times_limit(n) - 1) / CLEARLY, 1);
  return fmax(gravity, OWN_LEAST) * fmin(times_limit(n), TIMES_MOST) * beyond;
}

/* Of what is clear; or of what is open, as far as it is counted. */
static size_t harms_of(const struct gathering *g, bool open, struct harm harm[NUT_COUNT]) {
  size_t count = 0;
  for (int i = 0; i < NUT_COUNT; i++) {
    const struct nutrient_result *n = &g->r->nutrient[i];
    enum group_id group = words_group_of(n);
    bool told = open ? group == GROUP_UNPROVEN : group == GROUP_SHORT || group == GROUP_OVER;
    if (i == NUT_ENERGY || !told || reply_is_by_fast(g, n)) continue;
    struct harm x = {n, group == GROUP_OVER, rank_of(g, n, group == GROUP_OVER)};
    size_t k = count++;
    for (; k > 0 && x.rank > harm[k - 1].rank; k--) harm[k] = harm[k - 1];
    harm[k] = x;
  }
  return count;
}

/* "there is hardly any calcium: 42 mg a day, 6 % of the 740 mg that the dog needs" */
static const char *worst_words(const struct gathering *g, const struct harm *x) {
  static const double HARDLY = 0.2;
  const struct nutrient_result *n = x->n;
  const char *name = words_nutrient(g->arena, n->id), *unit = nutrient_info[n->id].unit;
  const char *of_energy =
      n->id == NUT_FAT && g->r->energy.share_fat > 0
          ? words_text(g->arena, ", and fat is %s of the energy", words_share(g->arena, g->r->energy.share_fat))
          : "";
  if (x->over)
    return words_text(g->arena, "there is %s %s%s: %s of its upper limit of %s a day%s",
                      n->amount > 2 * n->upper ? "far too much" : "too much", name,
                      n->amount > n->upper ? "" : " on the richest days", words_share(g->arena, times_limit(n)),
                      words_amount(g->arena, n->upper, unit), of_energy);
  double share = words_share_had(n);
  const char *needs =
      words_text(g->arena, "%s a day that %s needs", words_amount(g->arena, n->allowance, unit), words_called(g->r->animal));
  if (!(share >= 0)) return words_text(g->arena, "there is no %s that anybody knows of, of the %s", name, needs);
  return words_text(g->arena, "there is %s %s: %s of the %s", share < HARDLY ? "hardly any" : "too little", name,
                    words_share(g->arena, share), needs);
}

static const char *others_of(const struct gathering *g, const struct harm *harm, size_t count, bool over, size_t most) {
  const char *item[NUT_COUNT];
  size_t n = 0;
  for (size_t i = 1; i < count; i++)
    if (harm[i].over == over) item[n++] = words_nutrient(g->arena, harm[i].n->id);
  return n > 0 ? reply_list(g, item, n, most) : "";
}

static const char *named(const struct gathering *g, const struct group *x) {
  enum { NAMED_MOST = 4 };
  const char *item[NUT_COUNT];
  for (int i = 0; i < x->count; i++) item[i] = words_nutrient(g->arena, x->item[i]->id);
  return reply_list(g, item, (size_t)x->count, NAMED_MOST);
}

/* What is open, where nothing is clear: as somebody would say it. */
static const char *open_words(const struct gathering *g, const struct group *group) {
  const struct group *dark = &group[GROUP_UNPROVEN], *thin = &group[GROUP_THIN], *near = &group[GROUP_NEAR_LIMIT];
  return words_text(g->arena, "%s%s.%s%s%s%s%s%s",
                    dark->count ? "Nothing is clearly short or over, but I cannot be sure of "
                                : "This is close to a complete bowl: nothing is short or over",
                    dark->count ? named(g, dark) : "", thin->count ? " Barely enough: " : "",
                    thin->count ? named(g, thin) : "", thin->count ? "." : "", near->count ? " Close to the limit: " : "",
                    near->count ? named(g, near) : "", near->count ? "." : "");
}

/* Half a ration or two of them: everything else follows from that. */
static const char *size_words(struct gathering *g) {
  static const char *const FAR[] = {"energy-far-too-low", "energy-far-too-high", "batch-or-day"};
  for (size_t i = 0; i < g->r->finding_count; i++)
    for (size_t k = 0; k < COUNT_OF(FAR); k++)
      if (strcmp(g->r->finding[i].id, FAR[k]) == 0) return g->r->finding[i].text;
  return words_part_of_food(g->r, g->arena);
}

/* Nothing is clear only because something is fed that nobody counted: what the rest lacks is told all the same. */
static const char *counted_words(const struct gathering *g) {
  enum { NAMED_MOST = 6 };
  struct harm harm[NUT_COUNT];
  const char *item[NUT_COUNT];
  size_t count = harms_of(g, true, harm);
  bool many = false;
  for (size_t i = 0; i < count; i++) {
    const struct nutrient_result *n = harm[i].n;
    const char *name = words_nutrient(g->arena, n->id);
    item[i] = i < 2 && words_share_had(n) > 0
                  ? words_text(g->arena, "%s (%s of the need)", name, words_share(g->arena, words_share_had(n)))
                  : name;
  }
  const char *uncounted = reply_uncounted(g, &many), *lacks = reply_list(g, item, count, NAMED_MOST);
  if (!uncounted[0]) return words_text(g->arena, "Without that there is too little %s.", lacks); /* a danger, which goes */
  return words_text(g->arena, "In what I can count there is too little %s. Whether %s make%s up for that I cannot tell.",
                    lacks, uncounted, many ? "" : "s");
}

/* Beside one thing that is clear. What is changed as well, since it is not sure to be enough, is no "nothing". */
static const char *nothing_else(const struct gathering *g, const struct group *group) {
  const struct group *dark = &group[GROUP_UNPROVEN], *thin = &group[GROUP_THIN];
  bool sure = dark->count + thin->count == 0;
  return words_text(g->arena, " Nothing else is %sshort or over%s%s%s%s.", sure ? "" : "clearly ",
                    thin->count ? "; not clearly enough: " : "", thin->count ? named(g, thin) : "",
                    dark->count ? "; I cannot be sure of " : "", dark->count ? named(g, dark) : "");
}

static const char *judged_words(struct gathering *g) {
  enum { SHORT_MOST = 6, OVER_MOST = 3 };
  struct harm harm[NUT_COUNT];
  struct group group[GROUP_COUNT];
  size_t count = harms_of(g, false, harm);
  words_groups(g->r, group);
  words_as_told(g->r, &group[GROUP_SHORT]);
  words_as_told(g->r, &group[GROUP_OVER]);
  bool uncounted = group[GROUP_UNPROVEN].count > 0 && g->r->ration->uncounted_count > 0;
  if (count == 0 && uncounted) return counted_words(g);
  if (count == 0)
    return group[GROUP_UNPROVEN].count || group[GROUP_THIN].count || group[GROUP_NEAR_LIMIT].count
               ? open_words(g, group)
               : words_text(g->arena, "This is a complete bowl as you feed it. %s", words_lead(g->r, g->arena));
  const char *much = others_of(g, harm, count, true, OVER_MOST), *little = others_of(g, harm, count, false, SHORT_MOST);
  g->worst = harm[0].n->id;
  g->worst_is_too_much = harm[0].over;
  struct harm open[NUT_COUNT];
  if (uncounted && harms_of(g, true, open) > 0 && open[0].rank > harm[0].rank) { /* what is graver is told first */
    g->worst = open[0].n->id;
    g->worst_is_too_much = false;
    const char *clear = count == 1 ? worst_words(g, &harm[0])
                                   : words_text(g->arena, "%s. There is also %s%s%s%s%s", worst_words(g, &harm[0]),
                                                much[0] ? "too much " : "", much, much[0] && little[0] ? ", and " : "",
                                                little[0] ? "too little " : "", little);
    return words_text(g->arena, "%s %s.", counted_words(g), words_capital(g->arena, clear));
  }
  bool answered = words_answers_tell(g->f->asked, g->f->asks, harm[0].n->id); /* its figures stand above already */
  const char *worst = worst_words(g, &harm[0]), *rest = uncounted ? words_text(g->arena, " %s", counted_words(g)) : "";
  const char *other = rest[0] ? rest : nothing_else(g, group);
  if (count == 1 && answered) return words_text(g->arena, "%s", other + 1);
  if (count == 1) return words_text(g->arena, "%s.%s", words_capital(g->arena, worst), other);
  return words_text(g->arena, "%s%s. There is also %s%s%s%s%s.%s", answered ? "That is the main thing" : "Most of all ",
                    answered ? "" : worst, much[0] ? "too much " : "", much, much[0] && little[0] ? ", and " : "",
                    little[0] ? "too little " : "", little, rest);
}

/* ---- for which weight ------------------------------------------------------------------------------------------- */

static double too_heavy(const struct gathering *g) {
  const struct animal *a = g->r->animal;
  return a->weight_kg / g->r->body.ideal_kg - 1;
}

/* Up to so much above the ideal nobody speaks of it; ORDER src/trend/slim.h has the same. */
static const double A_LITTLE = 0.02;

static const char *weight_words(const struct gathering *g) {
  const struct animal *a = g->r->animal;
  double ideal = g->r->body.ideal_kg, off = too_heavy(g);
  if (!(fabs(off) > A_LITTLE)) return "";
  const char *by =
      a->condition > 0 ? words_text(g->arena, ", %s of 9 for body condition,", words_number(g->arena, a->condition)) : "";
  bool answered = false; /* how much it is to get is told there */
  for (size_t i = 0; i < g->f->asks; i++)
    answered |=
        g->f->asked[i].of == ASKED_OF_AMOUNT || g->f->asked[i].of == ASKED_OF_LESS || g->f->asked[i].of == ASKED_OF_WEIGHT;
  const char *goal = answered ? "" : words_loss_goal(g->f->lib, g->r, g->arena);
  return words_text(g->arena, "At %s kg%s %s is too %s: all this is worked out for %s kg, the weight to aim at.%s%s",
                    words_number(g->arena, a->weight_kg), by, words_called(a), off > 0 ? "heavy" : "thin",
                    words_number(g->arena, ideal), goal[0] ? " " : "", goal);
}

/* A fat cat on half a ration: the ration is not all that it eats, or it is in danger. */
static const char *starved_words(const struct gathering *g) {
  if (!findings_say(g->r, "energy-far-too-low") || !(too_heavy(g) > A_LITTLE)) return "";
  bool cat = g->r->animal->species == SPECIES_CAT;
  return words_text(g->arena, "What else does %s eat? If this is all, do not go on with it%s.", words_called(g->r->animal),
                    cat ? ": a cat that eats too little can die of a fatty liver, so ask your veterinarian first, and let "
                          "the weight come down slowly"
                        : ": ask your veterinarian, and let the weight come down slowly");
}

/* ---- the opening ------------------------------------------------------------------------------------------------- */

/* Of an animal that gets no verdict: what its veterinarian will ask first. */
static void tell_contents(struct gathering *g) {
  static const enum nutrient TOLD[] = {NUT_PROTEIN, NUT_FAT, NUT_CALCIUM, NUT_PHOSPHORUS};
  const struct energy_result *e = &g->r->energy;
  const char *item[COUNT_OF(TOLD)];
  size_t n = 0;
  for (size_t i = 0; i < COUNT_OF(TOLD); i++) {
    const struct nutrient_result *x = &g->r->nutrient[TOLD[i]];
    if (!(x->amount > 0)) continue;
    item[n++] =
        words_text(g->arena, "%s%s of %s", x->known == KNOWN_ALL ? "" : "at least ",
                   words_amount(g->arena, x->amount, nutrient_info[TOLD[i]].unit), words_nutrient(g->arena, TOLD[i]));
  }
  if (n == 0 || !isfinite(e->supply_kcal)) return;
  reply_say(g, REPLY_VERDICT, 1900, true,
            words_text(g->arena, "As I read it, a day of it is %s g of food with %s%s kcal, %s.",
                       words_whole(g->arena, e->grams_per_day), energy_is_whole(e) ? "about " : "",
                       words_supply(e, g->arena), words_list(g->arena, item, n, n)));
}

static void tell_asked(struct gathering *g) {
  if (g->mostly_unread) return;
  const char *answers = words_answers(g->f->lib, g->r, g->f->asked, g->f->asks, g->arena);
  if (answers[0]) reply_say(g, REPLY_VERDICT, 910, true, answers);
}

/* "How much should he get?": the figures stand in the answer. */
static bool size_is_told(const struct gathering *g) {
  bool asked = false;
  for (size_t i = 0; i < g->f->asks; i++)
    asked |= g->f->asked[i].of == ASKED_OF_AMOUNT || g->f->asked[i].of == ASKED_OF_WEIGHT;
  return asked && !(g->r->body.aim_kcal > 0) && !findings_say(g->r, "batch-or-day") && !meal_is_none(g->r);
}

static void tell_verdict(struct gathering *g) {
  bool few = g->length == REPLY_LINES;
  const char *size = size_is_told(g) ? "" : size_words(g), *heavy = weight_words(g), *starved = starved_words(g),
             *judged = judged_words(g);
  /* a batch is a reading, and not what is wrong with the food; beside too much of something too much food comes second */
  bool later = findings_say(g->r, "batch-or-day") || (g->worst_is_too_much && !findings_say(g->r, "energy-far-too-low"));
  const char *first = meal_is_none(g->r) ? words_lead(g->r, g->arena) : later || !size[0] ? judged : size;
  const char *then = meal_is_none(g->r) ? "" : first == judged ? size : judged;
  const char *liver = meal_is_none(g->r) ? "" : words_mostly_liver(g->r);
  reply_say(g, REPLY_VERDICT, 900, true,
            words_text(g->arena, "%s%s%s%s%s%s%s", liver, liver[0] ? " " : "", first, !few && heavy[0] ? " " : "",
                       few ? "" : heavy, !few && starved[0] ? " " : "", few ? "" : starved));
  if (then[0]) reply_say(g, REPLY_VERDICT, few ? 46 : WORTH_KEEPING + 2, true, then);
}

void reply_tell_verdict(struct gathering *g) {
  const struct check_result *r = g->r;
  if (!r->animal) {
    reply_say(
        g, REPLY_VERDICT, 90, true,
        "You do not say for whom it is, so I can only tell what is in it: please add whether it is a dog or a cat, the "
        "weight, and the age.");
  } else if (r->refusal != REFUSE_NOT) {
    reply_say(g, REPLY_VERDICT, 2000, true,
              words_text(g->arena, "%s %s", refusal_text(r->refusal), refusal_ask(r->refusal)));
    if (g->length != REPLY_LINES) tell_contents(g);
  } else if (r->ration->line_count == 0) {
    reply_say(g, REPLY_VERDICT, 900, true, words_lead(r, g->arena));
  } else if (g->mostly_unread) {
    reply_say(
        g, REPLY_VERDICT, 2000, true,
        words_text(g->arena, "I could read too little of it to judge the bowl%s.",
                   isfinite(r->energy.supply_kcal)
                       ? words_text(g->arena, ": what I understood comes to %s%s kcal a day, where %s are expected for %s",
                                    r->energy.in_part ? "at least " : "about ", words_whole(g->arena, r->energy.supply_kcal),
                                    words_whole(g->arena, r->energy.need.kcal), words_called(r->animal))
                       : ""));
  } else {
    tell_asked(g);
    tell_verdict(g);
  }
}
