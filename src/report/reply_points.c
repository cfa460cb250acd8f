#include "report/reply_points.h"

#include <assert.h>
#include <math.h>

#include "review/findings.h"

const struct reply_part reply_part[REPLY_PART_COUNT] = {
    [REPLY_GREETING] = {"", SHAPE_PARAGRAPH},
    [REPLY_DANGER] = {"First, please stop this", SHAPE_LISTED},
    [REPLY_GOOD] = {"What is good", SHAPE_LISTED},
    [REPLY_ACT] = {"What is missing or too much", SHAPE_LISTED},
    [REPLY_CHANGE] = {"What I would change", SHAPE_LISTED},
    [REPLY_WATCH] = {"What to keep an eye on", SHAPE_LISTED},
    [REPLY_KNOW] = {"Good to know", SHAPE_LISTED},
    [REPLY_QUESTION] = {"What only you can answer", SHAPE_NUMBERED},
    [REPLY_SURE] = {"How sure this is", SHAPE_PARAGRAPH},
    [REPLY_CARE] = {"Before you change anything", SHAPE_PARAGRAPH},
};
static_assert(COUNT_OF(reply_part) == REPLY_PART_COUNT, "ORDER REPLY_PART");

/* What home-made bowls lack most often; the order is that of practice (common practice). */
static const enum nutrient OFTEN_MISSING[] = {NUT_CALCIUM, NUT_IODINE,  NUT_ZINC,      NUT_VITAMIN_E, NUT_VITAMIN_D,
                                              NUT_COPPER,  NUT_EPA_DHA, NUT_MANGANESE, NUT_CHOLINE,   NUT_MAGNESIUM};
enum { GOOD_MOST = 5, SHORT_NAMED_MOST = 8, SHORT_TOLD_MOST = 3 };

static bool is_judged(const struct check_result *r) { return r->animal && r->refusal == REFUSE_NOT; }

static const char *called(const struct gathering *g) { return words_called(g->r->animal); }

/* So much could not be counted, and so little energy is left, that a verdict would be about another bowl. */
static bool is_mostly_unread(const struct check_result *r) {
  static const double A_DINNER = 0.4; /* of the expected energy */
  bool sole_food = false;
  for (size_t i = 0; i < r->ration->uncounted_count; i++) sole_food |= r->ration->uncounted[i].sole_food;
  double least = sole_food ? r->energy.need.low_kcal : A_DINNER * r->energy.need.kcal;
  return is_judged(r) && r->ration->uncounted_count > 0 && !(r->energy.supply_kcal >= least);
}

/* ---- greeting --------------------------------------------------------------------------------------------------- */

/* Where the energy is beside what is expected, though within the range: the owner hears it where the figure is told. */
static const char *beside_expected(const struct gathering *g) {
  const struct energy_result *e = &g->r->energy;
  if (!findings_say(g->r, "energy-high") && !findings_say(g->r, "energy-low")) return "";
  return words_text(g->arena, "; such a %s usually needs about %s kcal, though one may need %s and another %s",
                    species_word[g->r->animal->species], words_whole(g->arena, e->need.kcal),
                    words_whole(g->arena, e->need.low_kcal), words_whole(g->arena, e->need.high_kcal));
}

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
  reply_say(g, REPLY_GREETING, 1900, true,
            words_text(g->arena, "As I read it, a day of it is %s g of food with %s%s kcal, %s.",
                       words_whole(g->arena, e->grams_per_day), e->in_part ? "" : "about ", words_supply(e, g->arena),
                       words_list(g->arena, item, n, n)));
}

static void greet(struct gathering *g) {
  const struct check_result *r = g->r;
  const char *thanks = "Thank you for writing down what goes into the bowl.";
  if (!r->animal) {
    reply_say(
        g, REPLY_GREETING, 90, true,
        words_text(g->arena,
                   "%s You do not say for whom it is, so I can only tell what is in it: please add whether it is a dog or a "
                   "cat, the weight, and the age.",
                   thanks));
    return;
  }
  if (r->refusal != REFUSE_NOT) {
    reply_say(g, REPLY_GREETING, 2000, true,
              words_text(g->arena, "%s %s %s", g->length == REPLY_LINES ? "" : thanks, refusal_text(r->refusal),
                         refusal_ask(r->refusal)));
    if (g->length != REPLY_LINES) tell_contents(g);
    return;
  }
  if (g->mostly_unread) {
    reply_say(
        g, REPLY_GREETING, 2000, true,
        words_text(g->arena, "%s I could read too little of it to judge the bowl%s.", thanks,
                   isfinite(r->energy.supply_kcal)
                       ? words_text(g->arena, ": what I understood comes to %s%s kcal a day, where %s are expected for %s",
                                    r->energy.in_part ? "" : "about ", words_supply(&r->energy, g->arena),
                                    words_whole(g->arena, r->energy.need.kcal), called(g))
                       : ""));
    return;
  }
  const struct animal *a = r->animal;
  const char *whom =
      a->name[0] ? words_animal(g->arena, a)
                 : words_text(g->arena, "a %s of %s kg", species_word[a->species], words_number(g->arena, a->weight_kg));
  const char *grams = words_whole(g->arena, r->energy.grams_per_day);
  const char *gives =
      isfinite(r->energy.supply_kcal)
          ? words_text(g->arena, "As you feed it, it gives %s%s kcal in %s g of food a day%s",
                       r->energy.in_part ? "" : "about ", words_supply(&r->energy, g->arena), grams, beside_expected(g))
          : words_text(g->arena, "How much energy is in the %s g of food a day is not known", grams);
  reply_say(g, REPLY_GREETING, g->length == REPLY_LINES ? 5 : WORTH_KEEPING, g->length != REPLY_LINES,
            words_text(g->arena, "%s I looked at it for %s, against the needs in %s. %s.", thanks, whom,
                       standard_name[r->options.standard], gives));
}

/* ---- what is good ------------------------------------------------------------------------------------------------ */

/* Is it enough only as long as nothing of the bowl changes? What is then added is no ground for praise. */
static bool is_added(const struct gathering *g, enum nutrient n) {
  const struct mend_proposal *p = g->f->mended ? g->f->mended->proposal : NULL;
  for (size_t i = 0; p && i < p->count; i++)
    for (int k = 0; p->change[i].offer >= 0 && k < p->change[i].too_much_from; k++)
      if (p->change[i].repairs[k] == n) return true;
  return false;
}

static void praise_what_is_covered(struct gathering *g) {
  const char *item[COUNT_OF(OFTEN_MISSING)];
  size_t n = 0;
  for (size_t i = 0; i < COUNT_OF(OFTEN_MISSING); i++)
    if (g->r->nutrient[OFTEN_MISSING[i]].verdict == VERDICT_MET && !is_added(g, OFTEN_MISSING[i]))
      item[n++] = words_nutrient(g->arena, OFTEN_MISSING[i]);
  if (n == 0) return;
  reply_say(g, REPLY_GOOD, 70, n >= 2,
            words_text(g->arena, "Of what home-made bowls often lack, this one has enough %s.",
                       reply_list(g, item, n, GOOD_MOST)));
}

static void praise_balance(struct gathering *g) {
  double ratio = g->r->balance.ca_p;
  struct usual usual[USUAL_COUNT];
  words_usual(g->f->lib, usual);
  if (g->r->nutrient[NUT_CALCIUM].verdict != VERDICT_MET || !(ratio >= usual[0].low && ratio <= usual[0].high)) return;
  reply_say(g, REPLY_GOOD, 60, false,
            words_text(g->arena, "Calcium and phosphorus are in balance, %s to 1.", words_number(g->arena, ratio)));
}

static void praise_energy(struct gathering *g) {
  const struct energy_result *e = &g->r->energy;
  if (e->in_part || !(e->supply_kcal >= e->need.low_kcal && e->supply_kcal <= e->need.high_kcal)) return;
  if (findings_say(g->r, "energy-low") || findings_say(g->r, "energy-high")) return; /* the range is wide */
  reply_say(
      g, REPLY_GOOD, 50, false,
      words_text(g->arena,
                 g->r->animal->measured
                     ? "The energy is what this animal needs: %s kcal a day, where scale and bowl say between %s and %s."
                     : "The energy is in the usual range: %s kcal a day, where %s to %s are usual. The scale and the waist "
                       "have the last word.",
                 words_whole(g->arena, e->supply_kcal), words_whole(g->arena, e->need.low_kcal),
                 words_whole(g->arena, e->need.high_kcal)));
}

/* Foods that hold what muscle meat and grain lack. */
static void praise_foods(struct gathering *g) {
  static const struct {
    enum bowl_part part;
    const char *words;
  } GOOD[] = {{BOWL_ORGAN_LIVER, "liver"},
              {BOWL_ORGAN_SECRETING, "organ meat"},
              {BOWL_FISH, "fish"},
              {BOWL_EGG, "egg"},
              {BOWL_PLANT, "plant food"}};
  static const double SOME = 0.01; /* of the weight */
  const char *item[COUNT_OF(GOOD)];
  size_t n = 0;
  for (size_t i = 0; i < COUNT_OF(GOOD); i++)
    if (g->r->parts[GOOD[i].part] >= SOME) item[n++] = GOOD[i].words;
  if (n < 2) return;
  reply_say(g, REPLY_GOOD, 55, false,
            words_text(g->arena, "It is real food with some variety: %sthere is %s.",
                       g->r->parts[BOWL_MUSCLE] >= SOME ? "besides the meat " : "", words_list(g->arena, item, n, n)));
}

/* Every letter says something good: the best of what there is, else that the owner took the trouble. */
static void praise_something(struct gathering *g) {
  struct reply_point *best = NULL;
  for (size_t i = 0; i < g->all.count; i++) {
    struct reply_point *x = &g->all.point[i];
    if (x->part == REPLY_GOOD && (!best || x->worth > best->worth)) best = x;
  }
  if (best)
    best->must = true;
  else
    reply_say(g, REPLY_GOOD, 5, g->length != REPLY_LINES,
              "You cook for this animal and write down what and how much: that is what a good bowl begins with.");
}

static bool has_praise(const struct gathering *g) {
  for (size_t i = 0; i < g->all.count; i++)
    if (g->all.point[i].part == REPLY_GOOD && g->all.point[i].must) return true;
  return false;
}

static void praise(struct gathering *g) {
  int met = g->r->verdict_count[VERDICT_MET], figures = NUT_COUNT - g->r->verdict_count[VERDICT_NO_FIGURE];
  if (!is_judged(g->r) || g->mostly_unread) return;
  praise_foods(g);
  praise_what_is_covered(g);
  praise_balance(g);
  praise_energy(g);
  if (2 * met < figures) {
    praise_something(g);
    return;
  }
  /* something good is said in every letter, and the count is not it where there is little room */
  reply_say(g, REPLY_GOOD, has_praise(g) ? 44.1 : 65, true,
            words_text(g->arena, "%d of the %d needs that can be checked are met.", met, figures));
}

/* ---- findings ----------------------------------------------------------------------------------------------------- */

/* What the owner feeds; else it may be hearsay. */
static bool is_fed(const struct gathering *g, const struct finding *f) {
  for (size_t i = 0; i < g->r->ration->uncounted_count; i++)
    if (g->r->ration->uncounted[i].line == f->line) return true;
  return !f->named_only;
}

/* Under a heading that says "stop" already. */
static const char *danger_words(struct gathering *g, const struct finding *f) {
  return words_text(g->arena, "%s %s%s", f->bare, f->advice,
                    is_fed(g, f) ? "" : " If none of it is fed, you can ignore this.");
}

static const char *with_remedy(struct gathering *g, const struct finding *f) {
  return f->remedy[0] ? words_text(g->arena, "%s %s", f->text, f->remedy) : f->text;
}

/* What harms by itself or for want of which much harm is done: it stays in a letter that grows too long. ORDER in
 * data/findings.tsv: up to this much is too much, far from the need, or without any calcium or taurine. */
enum { HARM_ORDER_MOST = 7, HARMS_KEPT_MOST = 2 };

/* What is only to be watched, and still harms: foods with a caution, mercury, raw meat and egg white that carry something,
 * and in what is counted no calcium. */
static bool is_watched_harm(const struct finding *f) {
  static const char *const HARM[] = {"doubtful-food", "tuna-mercury", "mercury",  "raw-pork",
                                     "raw-game",      "avidin",       "ca-p-low", "thiaminase-dog"};
  for (size_t i = 0; i < COUNT_OF(HARM); i++)
    if (strcmp(f->id, HARM[i]) == 0) return true;
  return false;
}

/* Of a caution also why: "a fluke may carry a bacterium that kills dogs". */
static const char *harm_words(struct gathering *g, const struct finding *f) {
  bool change_does = g->f->mended && strcmp(f->id, "ca-p-low") == 0;
  const char *why =
      f->reason[0] && strcmp(f->id, "doubtful-food") == 0
          ? words_text(g->arena, " %c%s",
                       f->reason[0] >= 'a' && f->reason[0] <= 'z' ? f->reason[0] - 'a' + 'A' : f->reason[0], f->reason + 1)
          : "";
  return words_text(g->arena, "%s%s%s%s", f->text, why, !change_does && f->remedy[0] ? " " : "",
                    change_does ? "" : f->remedy);
}

/* The change that is proposed stands in for the remedies of what it repairs. */
static void tell_findings(struct gathering *g) {
  int act = 0, watch = 0, harms = 0;
  for (size_t i = 0; i < g->r->finding_count; i++) {
    const struct finding *f = &g->r->finding[i];
    if (!f->danger && !is_judged(g->r) && g->length != REPLY_FULL) continue;
    if (g->mostly_unread && !f->danger) continue;
    if (f->danger) {
      reply_say(g, REPLY_DANGER, 1000, true, danger_words(g, f));
    } else if (f->weight == FINDING_ACT) {
      if (g->length == REPLY_LETTER && strcmp(f->id, "several-short") == 0)
        continue; /* all that is short is named at once */
      int row = f->order / FINDING_ORDER_STEP;
      bool kept = row <= HARM_ORDER_MOST && (act < ACTED_ON_MOST || row == HARM_ORDER_MOST);
      reply_say(g, REPLY_ACT, kept ? fmax(47 - act, WORTH_KEEPING + 0.3) : 45 - act,
                (kept || act < ACTED_ON_MOST) && g->length != REPLY_LINES, g->f->mended ? f->text : with_remedy(g, f));
      act++;
    } else if (f->weight == FINDING_WATCH && is_watched_harm(f) && harms < HARMS_KEPT_MOST) {
      bool calcium = strcmp(f->id, "ca-p-low") == 0;
      reply_say(g, calcium ? REPLY_ACT : REPLY_WATCH, g->length == REPLY_LINES ? 44 - harms : WORTH_KEEPING + 0.2,
                g->length != REPLY_LINES, harm_words(g, f));
      harms++;
    } else if (f->weight == FINDING_WATCH) {
      reply_say(g, REPLY_WATCH, 20 - watch, watch == 0 && g->length != REPLY_LINES, with_remedy(g, f));
      watch++;
    } else if (g->length == REPLY_FULL) {
      reply_say(g, REPLY_KNOW, 1, false, f->text);
    }
  }
}

/* Not only the three that are told in full. */
static void tell_all_short(struct gathering *g) {
  struct group group[GROUP_COUNT];
  const char *item[NUT_COUNT];
  words_groups(g->r, group);
  const struct group *all = &group[GROUP_SHORT];
  if (!is_judged(g->r) || g->mostly_unread || g->length != REPLY_LETTER || all->count <= SHORT_TOLD_MOST) return;
  for (int i = 0; i < all->count; i++) item[i] = words_nutrient(g->arena, all->item[i]->id);
  reply_say(
      g, REPLY_ACT, 44.6, true,
      words_text(g->arena, "All in all there is too little %s.", reply_list(g, item, (size_t)all->count, SHORT_NAMED_MOST)));
}

static const char *named(struct gathering *g, const struct group *x) {
  enum { NAMED_MOST = 4 };
  const char *item[NUT_COUNT];
  for (int i = 0; i < x->count; i++) item[i] = words_nutrient(g->arena, x->item[i]->id);
  return reply_list(g, item, (size_t)x->count, NAMED_MOST);
}

/* What is open, where nothing is clear: as somebody would say it. */
static const char *open_words(struct gathering *g, const struct group *group) {
  const struct group *dark = &group[GROUP_UNPROVEN], *thin = &group[GROUP_THIN], *near = &group[GROUP_NEAR_LIMIT];
  return words_text(g->arena, "%s%s.%s%s%s%s%s%s",
                    dark->count ? "Nothing is clearly short or over, but I cannot be sure of " : "Nothing is short or over",
                    dark->count ? named(g, dark) : "", thin->count ? " Barely enough: " : "",
                    thin->count ? named(g, thin) : "", thin->count ? "." : "", near->count ? " Close to the limit: " : "",
                    near->count ? named(g, near) : "", near->count ? "." : "");
}

/* Of a few lines the first: what is too much or too little. Dangers and what could not be counted have lines of their own.
 */
static void lead(struct gathering *g) {
  struct group group[GROUP_COUNT];
  if (g->mostly_unread || g->length != REPLY_LINES || !is_judged(g->r) || g->r->ration->line_count == 0) return;
  words_groups(g->r, group);
  const struct group *low = &group[GROUP_SHORT], *high = &group[GROUP_OVER], *dark = &group[GROUP_UNPROVEN];
  const char *text = low->count && high->count
                         ? words_text(g->arena, "There is too much %s and too little %s.", named(g, high), named(g, low))
                     : low->count  ? words_text(g->arena, "There is too little %s.", named(g, low))
                     : high->count ? words_text(g->arena, "There is too much %s.%s%s%s", named(g, high),
                                                dark->count ? " Nothing is clearly short, but I cannot be sure of " : "",
                                                dark->count ? named(g, dark) : "", dark->count ? "." : "")
                     : dark->count || group[GROUP_THIN].count || group[GROUP_NEAR_LIMIT].count ? open_words(g, group)
                                                                                               : words_lead(g->r, g->arena);
  reply_say(g, REPLY_ACT, 900, true, text);
}

/* ---- questions, and how sure ------------------------------------------------------------------------------------ */

/* Once for all foods of which it is asked. */
static const char *ask_what(struct gathering *g, const char *alone) {
  const char **item = ARENA_NEW(g->arena, const char *, g->f->questions);
  size_t n = 0;
  for (size_t i = 0; i < g->f->questions; i++) {
    const struct post_question *q = g->f->question[i];
    if (q->about == ASKS_WHAT_FOOD) item[n++] = words_text(g->arena, "'%s'", q->food);
  }
  if (n < 2) return alone;
  return words_text(g->arena,
                    "Which kinds are %s? If they have labels, what do these state per 100 g (energy, protein, fat, "
                    "calcium, phosphorus)?",
                    words_list(g->arena, item, n, n));
}

static void ask(struct gathering *g) {
  bool refused = g->r->animal && g->r->refusal != REFUSE_NOT; /* nothing hangs on the answers */
  size_t said = 0;
  bool asked = false;
  for (size_t i = 0; i < g->f->questions && !refused; i++) {
    const char *question = g->f->question[i]->ask;
    if (g->f->question[i]->about == ASKS_WHAT_FOOD) {
      if (asked) continue;
      asked = true;
      question = ask_what(g, question);
    }
    reply_say(g, REPLY_QUESTION, said == 0 ? (g->length == REPLY_LINES ? 600 : 44.6) : 40 - (double)said,
              said < 2 && g->length != REPLY_LINES, question);
    said++;
  }
}

static void tell_left_out(struct gathering *g) {
  size_t n;
  const char **item = reply_uncounted_items(g, &n);
  if (n == 0 || (g->told_uncounted && g->length == REPLY_LINES)) return;
  reply_say(g, REPLY_SURE, 85, g->length != REPLY_LINES,
            g->told_uncounted
                ? "What is not counted could change the picture."
                : words_text(g->arena, "I could not count %s; that could change the picture.", reply_list(g, item, n, 3)));
}

/* Beside a change, which says it where there is none. */
static void tell_unknown(struct gathering *g) {
  const char *item[NUT_COUNT];
  size_t n = 0;
  for (int i = 0; i < NUT_COUNT; i++)
    if (g->r->nutrient[i].verdict == VERDICT_UNPROVEN) item[n++] = words_nutrient(g->arena, (enum nutrient)i);
  if (n == 0 || !g->f->mended) return;
  reply_say(g, REPLY_SURE, 25, false,
            words_text(g->arena,
                       g->r->ration->uncounted_count > 0 ? "Without that I cannot be certain of %s."
                                                         : "Nobody has published enough figures to be certain of %s.",
                       reply_list(g, item, n, 4)));
}

static void tell_how_sure(struct gathering *g) {
  tell_left_out(g);
  if (!is_judged(g->r) || g->mostly_unread) return;
  reply_say(g, REPLY_SURE, g->length == REPLY_LINES ? 35 : 44.6, g->length != REPLY_LINES,
            words_text(
                g->arena,
                "The figures come from published food tables. No two batches of a food are alike: a need counts as met only "
                "when the chance that there is enough is at least %s.",
                words_share(g->arena, g->r->options.sure)));
  tell_unknown(g);
}

/* ---- care ---------------------------------------------------------------------------------------------------------- */

static void tell_care(struct gathering *g) {
  if (!is_judged(g->r)) return;
  reply_say(g, REPLY_CARE, 850, true,
            words_text(
                g->arena,
                "This is worked out for one healthy adult %s. Growing, pregnant, nursing or ill animals need a veterinary "
                "nutritionist%s.",
                species_word[g->r->animal->species],
                g->length == REPLY_LINES
                    ? ""
                    : words_text(g->arena, "; if %s takes medicine or seems unwell, ask your vet before you change the food",
                                 called(g))));
  if (g->f->mended)
    reply_say(g, REPLY_CARE, 32, g->length != REPLY_LINES,
              "Move to the new bowl over 7 to 10 days, a little more of it each day.");
  if (findings_say(g->r, "raw-hygiene"))
    reply_say(
        g, REPLY_CARE, g->length == REPLY_LINES ? 28 : WORTH_KEEPING, g->length != REPLY_LINES, /* never for want of room */
        "Raw meat carries bacteria: keep it cold, wash hands, bowls and boards, and keep it away from small children and "
        "from people with weak immunity.");
}

struct reply_points reply_points(const struct reply_facts *f, enum reply_length length, struct arena *arena) {
  struct gathering g = {.f = f, .r = f->check, .length = length, .arena = arena};
  g.mostly_unread = is_mostly_unread(g.r);
  greet(&g);
  lead(&g);
  tell_findings(&g);
  tell_all_short(&g);
  praise(&g);
  reply_tell_change(&g);
  ask(&g);
  tell_how_sure(&g);
  tell_care(&g);
  return g.all;
}
