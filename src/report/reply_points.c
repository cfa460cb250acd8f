#include "report/reply_points.h"

#include <assert.h>
#include <math.h>

#include "judge/meal.h"
#include "review/findings.h"
#include "text/plain.h"

const struct reply_part reply_part[REPLY_PART_COUNT] = {
    [REPLY_DANGER] = {"First, please stop this", SHAPE_LISTED},
    [REPLY_VERDICT] = {"", SHAPE_PARAGRAPH},
    [REPLY_CHANGE] = {"What I would change", SHAPE_LISTED},
    [REPLY_BOWL] = {"The whole bowl then", SHAPE_LISTED},
    [REPLY_ACT] = {"Why", SHAPE_LISTED},
    [REPLY_WATCH] = {"What to keep an eye on", SHAPE_LISTED},
    [REPLY_GOOD] = {"What is good", SHAPE_LISTED},
    [REPLY_KNOW] = {"Good to know", SHAPE_LISTED},
    [REPLY_QUESTION] = {"What only you can answer", SHAPE_NUMBERED},
    [REPLY_SURE] = {"How sure this is", SHAPE_PARAGRAPH},
    [REPLY_CARE] = {"Before you change anything", SHAPE_PARAGRAPH},
};
static_assert(COUNT_OF(reply_part) == REPLY_PART_COUNT, "ORDER REPLY_PART");

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

/* The overdose that the bowl is over the limit by; NULL: that is none of one thing. */
static const struct ration_line *overdose_of(const struct gathering *g, enum nutrient n) {
  for (size_t i = 0; i < g->r->ration->line_count; i++)
    if (mend_overdose(g->f->lib, &g->r->ration->line[i], g->r) == n) return &g->r->ration->line[i];
  return NULL;
}

static bool stays_in_the_body(const struct finding *f) {
  return strcmp(f->id, "vitamin_a-over") == 0 || strcmp(f->id, "vitamin_d-over") == 0;
}

/* A dose that is too much by itself waits for no new bowl. */
static void tell_overdose(struct gathering *g, const struct finding *f) {
  const struct ration_line *dose = stays_in_the_body(f) && f->nutrient_count > 0 ? overdose_of(g, f->nutrient[0]) : NULL;
  if (!dose) return;
  enum nutrient n = f->nutrient[0];
  const char *text = words_text(g->arena,
                                "“%s”: stop it today. It alone is more than the upper limit of %s (%s a day); ask your "
                                "veterinarian %s.",
                                plain_line(dose->text, g->arena), words_nutrient(g->arena, n),
                                words_amount(g->arena, g->r->nutrient[n].upper, nutrient_info[n].unit),
                                n == NUT_VITAMIN_D ? "whether the blood calcium should be checked"
                                                   : "what to look for, if this went on for weeks");
  reply_say(g, REPLY_DANGER, 990, true, text);
}

/* Beside a change. What stays in the body for months is more than a change puts right. */
static const char *with_vet(struct gathering *g, const struct finding *f) {
  bool stays = stays_in_the_body(f) && !(f->nutrient_count > 0 && overdose_of(g, f->nutrient[0])); /* that is said first */
  static const double FAR_TOO_LITTLE = 0.25;
  bool bones = strcmp(f->id, "no-calcium-source") == 0 && words_share_had(&g->r->nutrient[NUT_CALCIUM]) < FAR_TOO_LITTLE;
  if (bones)
    return words_text(g->arena,
                      "%s The bones give what the food lacks: if this went on for months, let your veterinarian look at %s.",
                      f->text, words_called(g->r->animal));
  return stays ? words_text(g->arena, "%s Ask your veterinarian if this went on for weeks.", f->text) : f->text;
}

static bool is_of_what_goes(const struct gathering *g, const struct finding *f) {
  return g->f->mended && !g->mostly_unread && f->line > 0 && reply_goes_out(g->f->mended, f->line);
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
  static const char *const HARM[] = {"doubtful-food", "tuna-mercury", "tuna-unread", "dog-food-for-cat", "mercury",
                                     "raw-pork",      "raw-game",     "avidin",      "ca-p-low",         "thiaminase-dog"};
  for (size_t i = 0; i < COUNT_OF(HARM); i++)
    if (strcmp(f->id, HARM[i]) == 0) return true;
  return false;
}

/* Where no other meat may stand in, the bowl keeps it every day: no letter advises against its own bowl. */
static bool keeps_tuna(const struct gathering *g, const struct finding *f) {
  const struct mended *m = g->f->mended;
  return m && m->after && strcmp(f->id, "tuna-mercury") == 0 && findings_say(m->after, "tuna-mercury");
}
static const char WEAN_OFF[] = "The bowl here still holds it, since nothing that may take its place is known: wean off it "
                               "over several weeks, down to once a "
                               "week; sardines, herring or sprats contain little mercury.";

/* Of a caution also why: "a fluke may carry a bacterium that kills dogs". */
static const char *harm_words(struct gathering *g, const struct finding *f) {
  bool change_does = (g->f->mended && strcmp(f->id, "ca-p-low") == 0) || is_of_what_goes(g, f);
  const char *why =
      f->reason[0] && strcmp(f->id, "doubtful-food") == 0
          ? words_text(g->arena, " %c%s",
                       f->reason[0] >= 'a' && f->reason[0] <= 'z' ? f->reason[0] - 'a' + 'A' : f->reason[0], f->reason + 1)
          : "";
  const char *remedy = change_does ? "" : keeps_tuna(g, f) ? WEAN_OFF : f->remedy;
  return words_text(g->arena, "%s%s%s%s", f->text, why, remedy[0] ? " " : "", remedy);
}

/* What reply_verdict.c begins with, figures and all. */
static bool is_said_first(const struct finding *f) {
  static const char *const FIRST[] = {"energy-far-too-low", "energy-far-too-high", "batch-or-day", "no-meal"};
  for (size_t i = 0; i < COUNT_OF(FIRST); i++)
    if (strcmp(f->id, FIRST[i]) == 0) return true;
  return false;
}

/* Is what is counted as raw only weighed so? Of it half is cooked by its lines, or the owner says it of all; and no
 * line says raw, or has the bone that is never fed cooked. */
static bool is_all_cooked(const struct gathering *g) {
  const struct ration *r = g->r->ration;
  double cooked = 0, open = 0;
  for (size_t i = 0; i < r->line_count; i++) {
    const struct ration_line *l = &r->line[i];
    const struct img_food *f = library_food(g->f->lib, l->shown_food);
    if (!f || !(l->grams_fed > 0) || f->part > PART_EGG || f->state == STATE_CANNED || l->state == STATE_CANNED) continue;
    enum state state = l->state == STATE_UNSTATED ? (enum state)f->state : l->state;
    if (state == STATE_RAW && !l->state_assumed) return false;
    *(state_is_cooked(state) && f->part != PART_EGG ? &cooked : &open) += ration_line_grams_per_day(l);
  }
  return g->f->cooked_told || (cooked > 0 && cooked >= open);
}

/* "Cook it" of what is cooked. */
static bool is_of_raw_meat(const struct finding *f) {
  return strcmp(f->id, "raw-game") == 0 || strcmp(f->id, "raw-pork") == 0;
}

/* "Cut back on eggshell": beside a bowl that was worked out it is no advice any more. */
static bool is_of_balance(const struct finding *f) {
  return strcmp(f->id, "ca-p-high") == 0 || strcmp(f->id, "ca-p-high-phosphorus") == 0;
}

struct told {
  int act, watch, harms; /* so many of them */
};

/* "No: raisins (...) must not be given to the dog, and macadamia nuts neither. ..." */
static void tell_asked_dangers(struct gathering *g) {
  const char **item = ARENA_NEW(g->arena, const char *, g->r->finding_count + 1);
  size_t n = 0;
  for (size_t i = 0; i < g->r->finding_count; i++) {
    const struct finding *f = &g->r->finding[i];
    if (f->danger && f->asked && f->about) item[n++] = f->about;
  }
  if (n == 0) return;
  const char *who = g->r->animal ? words_called(g->r->animal) : "dogs or cats";
  const char *none =
      n == 1 ? words_text(g->arena, "No: %s must not be given to %s, not even a little.", item[0], who)
      : n == 2
          ? words_text(g->arena, "No, neither: %s must not be given to %s, and %s must not either.", item[0], who, item[1])
          : words_text(g->arena, "No, none of them: %s must not be given to %s.", words_list(g->arena, item, n, n), who);
  reply_say(g, REPLY_VERDICT, 2100, true,
            words_text(g->arena,
                       "%s If any was eaten already, call a veterinarian or a poison line at once, with the amount and the "
                       "animal's weight.",
                       none));
}

/* The change that is proposed stands in for the remedies of what it repairs. */
static void tell_finding(struct gathering *g, const struct finding *f, struct told *n) {
  bool few = g->length == REPLY_LINES;
  if (f->weight == FINDING_ACT && !f->danger) tell_overdose(g, f);
  if (f->danger && f->asked) return; /* answered at once */
  if (is_of_raw_meat(f) && is_all_cooked(g)) return;
  bool by_fast = f->nutrient_count > 0 && !f->danger && g->length != REPLY_FULL;
  for (size_t i = 0; i < f->nutrient_count && by_fast; i++) by_fast = reply_is_by_fast(g, &g->r->nutrient[f->nutrient[i]]);
  if (by_fast) return; /* said of all of them at once */
  if (f->danger) {
    reply_say(g, REPLY_DANGER, 1000, true, danger_words(g, f));
  } else if (f->weight == FINDING_ACT) {
    if (g->length != REPLY_FULL && (strcmp(f->id, "several-short") == 0 || is_said_first(f)))
      return; /* said in the first sentences */
    int row = f->order / FINDING_ORDER_STEP, most = g->f->mended ? ACTED_ON_BESIDE_A_CHANGE : ACTED_ON_MOST;
    bool kept = row <= HARM_ORDER_MOST && (n->act < most || row == HARM_ORDER_MOST);
    reply_say(g, REPLY_ACT, kept ? fmax(47 - n->act, WORTH_KEEPING + 0.3) : 45 - n->act, (kept || n->act < most) && !few,
              g->f->mended ? with_vet(g, f) : with_remedy(g, f));
    n->act++;
  } else if (f->weight == FINDING_WATCH && is_watched_harm(f) && n->harms < HARMS_KEPT_MOST) {
    bool calcium = strcmp(f->id, "ca-p-low") == 0;
    reply_say(g, calcium ? REPLY_ACT : REPLY_WATCH, few ? 44 - n->harms : WORTH_KEEPING + 0.2, !few, harm_words(g, f));
    n->harms++;
  } else if (f->weight == FINDING_WATCH) {
    bool bowl_does =
        is_of_what_goes(g, f) || (g->f->mended && is_of_balance(f)); /* what it advises is done, or not needed */
    reply_say(g, REPLY_WATCH, 20 - n->watch, n->watch == 0 && !few, bowl_does ? f->text : with_remedy(g, f));
    n->watch++;
  } else if (g->length == REPLY_FULL) {
    reply_say(g, REPLY_KNOW, 1, false, f->text);
  }
}

/* What the letter begins with is explained first. */
static const struct finding *of_the_worst(const struct gathering *g) {
  for (size_t i = 0; i < g->r->finding_count && g->worst != NUT_NONE; i++) {
    const struct finding *f = &g->r->finding[i];
    bool alone = f->nutrient_count > 0 && f->nutrient[0] == g->worst && strcmp(f->id, "several-short") != 0;
    if (alone && f->weight == FINDING_ACT && !f->danger) return f;
  }
  return NULL;
}

/* Of what is too little to judge the bowl by: what is too much all the same, and foods that harm by themselves. */
static bool is_told_of_a_part(const struct finding *f) {
  static const char *const HARM[] = {"doubtful-food", "tuna-unread", "tuna-mercury", "dog-food-for-cat"};
  for (size_t i = 0; i < COUNT_OF(HARM); i++)
    if (f->weight == FINDING_WATCH && strcmp(f->id, HARM[i]) == 0) return true;
  return f->weight == FINDING_ACT && strcmp(f->id, "energy-unread") != 0; /* the verdict says that */
}

static void tell_findings(struct gathering *g) {
  struct told told = {0};
  const struct finding *first = of_the_worst(g);
  if (first && is_judged(g->r) && !g->mostly_unread) tell_finding(g, first, &told);
  for (size_t i = 0; i < g->r->finding_count; i++) {
    const struct finding *f = &g->r->finding[i];
    if (!f->danger && !is_judged(g->r) && g->length != REPLY_FULL) continue;
    if ((g->mostly_unread && !f->danger && !is_told_of_a_part(f)) || f == first) continue;
    tell_finding(g, f, &told);
  }
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
    reply_say(g, REPLY_QUESTION,
              said < 2 && g->length != REPLY_LINES ? 44.6
              : said == 0                          ? 600
                                                   : 40 - (double)said,
              said < 2 && g->length != REPLY_LINES, question);
    said++;
  }
}

static void tell_left_out(struct gathering *g) {
  size_t n;
  const char *waved = reply_waved_through(g);
  if (waved[0])
    reply_say(g, REPLY_SURE, 30, g->length != REPLY_LINES,
              words_text(g->arena, "I did not count %s: that changes nothing of this.", waved));
  const char **item = reply_uncounted_items(g, &n);
  if (n == 0 || g->told_uncounted) return;
  reply_say(g, REPLY_SURE, 85, g->length != REPLY_LINES,
            words_text(g->arena, "I could not count %s; that could change the picture.", reply_list(g, item, n, 3)));
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

/* For whom it was worked out, by which figures, and how much food it is. */
static const char *basis_words(struct gathering *g) {
  const struct check_result *r = g->r;
  const struct energy_result *e = &r->energy;
  const struct animal *a = r->animal;
  const char *range = words_need_range(g->arena, a, &e->need);
  static const double A_LITTLE = 0.02;
  double ideal = r->body.ideal_kg;
  bool off = fabs(a->weight_kg / ideal - 1) > A_LITTLE; /* one weight for all: the one that the figures are of */
  const char *whom =
      a->name[0] ? words_animal(g->arena, a)
                 : words_text(g->arena, "a %s of %s kg%s", species_word[a->species],
                              words_number(g->arena, off ? ideal : a->weight_kg), off ? ", the weight to aim at" : "");
  const char *grams = words_whole(g->arena, e->grams_per_day);
  bool told = findings_say(r, "energy-far-too-low") || findings_say(r, "energy-far-too-high"); /* in the first sentences */
  static const double FITS = 0.1; /* about as much as is expected */
  bool odd = e->supply_kcal > e->need.kcal * (1 + FITS) && !(g->f->scaled > 0) && energy_is_whole(e) &&
             !(r->body.loss_kcal > 0) && !a->measured;
  const char *beside =
      words_text(g->arena, "; about %s kcal is expected%s%s%s%s", words_whole(g->arena, e->need.kcal), range[0] ? " (" : "",
                 range, range[0] ? ")" : "", odd ? ", and if the weight is steady on this, this is the ration" : "");
  const char *gives = isfinite(e->supply_kcal)
                          ? words_text(g->arena, told ? "%s is %s g a day" : "%s is %s g with %s%s kcal a day%s",
                                       e->beside ? "What I could count" : "As you feed it, it", grams,
                                       e->in_part ? "at least " : "about ", words_whole(g->arena, e->supply_kcal), beside)
                          : words_text(g->arena, "How much energy is in the %s g of food a day is not known", grams);
  return words_text(g->arena, "Worked out for %s, by %s. %s.", whom, standard_name[r->options.standard], gives);
}

static void tell_how_sure(struct gathering *g) {
  tell_left_out(g);
  if (!is_judged(g->r) || g->mostly_unread) return;
  reply_say(g, REPLY_SURE, g->length == REPLY_LINES ? 35 : 44.6, g->length != REPLY_LINES,
            words_text(g->arena, "%s Foods vary: a need counts as met only at a chance of %s or more.", basis_words(g),
                       words_share(g->arena, g->r->options.sure)));
  tell_unknown(g);
}

/* ---- care ---------------------------------------------------------------------------------------------------------- */

/* A cat that has lived on tuna takes no other food within a week. */
static const char *move_words(const struct gathering *g) {
  return g->f->plate_count > 0 && findings_say(g->r, "tuna-mercury")
             ? "Move to the new bowl over several weeks, with a little less tuna each time: who has lived on it takes other "
               "food "
               "slowly, and must not go hungry for it."
             : "Move to the new bowl over 7 to 10 days.";
}

static void tell_care(struct gathering *g) {
  bool few = g->length == REPLY_LINES;
  if (!is_judged(g->r)) return;
  reply_say(
      g, REPLY_CARE, 850, true,
      words_text(g->arena, "This is for one healthy adult %s%s.%s", species_word[g->r->animal->species],
                 few ? "; growing, pregnant, nursing or ill animals need a veterinary nutritionist"
                     : words_text(g->arena, ". With a growing, pregnant, nursing or ill animal, or one on medicine, ask a "
                                            "veterinarian first"),
                 few || !g->f->mended ? "" : words_text(g->arena, " %s", move_words(g))));
  if (few && g->f->mended) reply_say(g, REPLY_CARE, 32, false, move_words(g));
  if (findings_say(g->r, "raw-hygiene") && !is_all_cooked(g))
    reply_say(
        g, REPLY_CARE, few ? 28 : WORTH_KEEPING, !few, /* never for want of room */
        "Raw meat carries bacteria: keep it cold, wash hands, bowls and boards, and keep it away from small children and "
        "people with weak immunity.");
  if (!few)
    reply_say(g, REPLY_CARE, WORTH_KEEPING, true,
              words_text(g->arena, "Thank you for writing it all down. Write again with %swhat you then feed.",
                         g->f->questions > 0 ? "the answers, and with " : ""));
}

struct reply_points reply_points(const struct reply_facts *f, enum reply_length length, struct arena *arena) {
  struct gathering g = {.f = f, .r = f->check, .length = length, .worst = NUT_NONE, .arena = arena};
  g.mostly_unread = meal_is_unread(g.r);
  tell_asked_dangers(&g);
  reply_tell_verdict(&g);
  tell_findings(&g);
  if (is_judged(g.r) && !g.mostly_unread) reply_praise(&g);
  reply_tell_change(&g);
  ask(&g);
  tell_how_sure(&g);
  tell_care(&g);
  return g.all;
}
