#include "report/reply_points.h"

#include <assert.h>

const struct reply_part reply_part[REPLY_PART_COUNT] = {
    [REPLY_GREETING] = {"", SHAPE_PARAGRAPH},
    [REPLY_DANGER] = {"First, please stop this", SHAPE_LISTED},
    [REPLY_GOOD] = {"What is good", SHAPE_LISTED},
    [REPLY_ACT] = {"What is missing or too much", SHAPE_LISTED},
    [REPLY_CHANGE] = {"What I would change", SHAPE_LISTED},
    [REPLY_WATCH] = {"What to keep an eye on", SHAPE_LISTED},
    [REPLY_QUESTION] = {"What only you can answer", SHAPE_NUMBERED},
    [REPLY_SURE] = {"How sure this is", SHAPE_PARAGRAPH},
    [REPLY_CARE] = {"Before you change anything", SHAPE_PARAGRAPH},
};
static_assert(COUNT_OF(reply_part) == REPLY_PART_COUNT, "ORDER REPLY_PART");

/* What home-made bowls lack most often; the order is that of practice (common practice). */
static const enum nutrient OFTEN_MISSING[] = {NUT_CALCIUM, NUT_IODINE,  NUT_ZINC,      NUT_VITAMIN_E, NUT_VITAMIN_D,
                                              NUT_COPPER,  NUT_EPA_DHA, NUT_MANGANESE, NUT_CHOLINE,   NUT_MAGNESIUM};
enum { REASONS_MOST = 3, GOOD_MOST = 5, CHANGES_MOST = 7 };

struct gathering {
  const struct reply_facts *f;
  const struct check_result *r;
  enum reply_length length;
  struct reply_points all;
  struct arena *arena;
};

static void say(struct gathering *g, enum reply_part_id part, double worth, bool must, const char *text) {
  const struct reply_point x = {.part = part, .text = text, .worth = worth, .must = must};
  ARENA_PUSH(g->arena, g->all.point, g->all.count, g->all.cap, x);
}

static bool is_judged(const struct check_result *r) { return r->animal && r->refusal == REFUSE_NOT; }

static const char *called(const struct gathering *g) { return words_called(g->r->animal); }

/* ---- greeting --------------------------------------------------------------------------------------------------- */

static void greet(struct gathering *g) {
  const struct check_result *r = g->r;
  const char *thanks = "Thank you for writing down what goes into the bowl.";
  if (!r->animal) {
    say(g, REPLY_GREETING, 90, true,
        words_text(g->arena,
                   "%s You do not say for whom it is, so I can only tell what is in it: please add whether it is a dog or a "
                   "cat, the weight, and the age.",
                   thanks));
    return;
  }
  if (r->refusal != REFUSE_NOT) {
    say(g, REPLY_GREETING, 2000, true,
        words_text(g->arena, "%s %s %s", g->length == REPLY_LINES ? "" : thanks, refusal_text(r->refusal),
                   refusal_ask(r->refusal)));
    return;
  }
  const struct animal *a = r->animal;
  const char *whom =
      a->name[0] ? words_animal(g->arena, a)
                 : words_text(g->arena, "a %s of %s kg", species_word[a->species], words_number(g->arena, a->weight_kg));
  say(g, REPLY_GREETING, g->length == REPLY_LINES ? 5 : WORTH_KEEPING, g->length != REPLY_LINES,
      words_text(g->arena,
                 "%s I looked at it for %s, against the needs in %s. As you feed it, it gives about %s kcal in %s g "
                 "of food a day.",
                 thanks, whom, standard_name[r->options.standard], words_whole(g->arena, r->energy.supply_kcal),
                 words_whole(g->arena, r->energy.grams_per_day)));
}

/* ---- what is good ------------------------------------------------------------------------------------------------ */

static void praise_what_is_covered(struct gathering *g) {
  const char *item[COUNT_OF(OFTEN_MISSING)];
  size_t n = 0;
  for (size_t i = 0; i < COUNT_OF(OFTEN_MISSING); i++)
    if (g->r->nutrient[OFTEN_MISSING[i]].verdict == VERDICT_MET) item[n++] = words_nutrient(g->arena, OFTEN_MISSING[i]);
  if (n == 0) return;
  say(g, REPLY_GOOD, 70, n >= 2,
      words_text(g->arena, "Of what home-made bowls often lack, this one has enough %s.",
                 words_list(g->arena, item, n, GOOD_MOST)));
}

static void praise_balance(struct gathering *g) {
  double ratio = g->r->balance.ca_p;
  struct usual usual[USUAL_COUNT];
  words_usual(g->f->lib, usual);
  if (g->r->nutrient[NUT_CALCIUM].verdict != VERDICT_MET || !(ratio >= usual[0].low && ratio <= usual[0].high)) return;
  say(g, REPLY_GOOD, 60, false,
      words_text(g->arena, "Calcium and phosphorus are in balance, %s to 1.", words_number(g->arena, ratio)));
}

static void praise_energy(struct gathering *g) {
  const struct energy_result *e = &g->r->energy;
  if (!(e->supply_kcal >= e->need.low_kcal && e->supply_kcal <= e->need.high_kcal)) return;
  say(g, REPLY_GOOD, 50, false,
      words_text(g->arena,
                 "The energy is in the usual range: %s kcal a day, where %s to %s are usual. The scale and the waist have "
                 "the last word.",
                 words_whole(g->arena, e->supply_kcal), words_whole(g->arena, e->need.low_kcal),
                 words_whole(g->arena, e->need.high_kcal)));
}

static void praise(struct gathering *g) {
  int met = g->r->verdict_count[VERDICT_MET], figures = NUT_COUNT - g->r->verdict_count[VERDICT_NO_FIGURE];
  if (!is_judged(g->r)) return;
  praise_what_is_covered(g);
  praise_balance(g);
  praise_energy(g);
  say(g, REPLY_GOOD, 65, true,
      words_text(g->arena, "%d of the %d needs that can be checked are met for sure.", met, figures));
}

/* ---- findings ----------------------------------------------------------------------------------------------------- */

static const char *with_remedy(struct gathering *g, const struct finding *f) {
  return f->remedy[0] ? words_text(g->arena, "%s %s", f->text, f->remedy) : f->text;
}

/* The change that is proposed stands in for the remedies of what it repairs. */
static void tell_findings(struct gathering *g) {
  int act = 0, watch = 0;
  for (size_t i = 0; i < g->r->finding_count; i++) {
    const struct finding *f = &g->r->finding[i];
    if (!f->danger && !is_judged(g->r) && g->length != REPLY_FULL) continue;
    if (f->danger) {
      say(g, REPLY_DANGER, 1000, true, with_remedy(g, f));
    } else if (f->weight == FINDING_ACT) {
      say(g, REPLY_ACT, 45 - act, act < 3 && g->length != REPLY_LINES, g->f->mended ? f->text : with_remedy(g, f));
      act++;
    } else if (f->weight == FINDING_WATCH) {
      say(g, REPLY_WATCH, 20 - watch, watch == 0 && g->length != REPLY_LINES, with_remedy(g, f));
      watch++;
    } else if (g->length == REPLY_FULL) {
      say(g, REPLY_WATCH, 1, false, f->text);
    }
  }
}

static void lead(struct gathering *g) {
  if (g->length == REPLY_LINES && is_judged(g->r)) say(g, REPLY_ACT, 900, true, words_lead(g->r, g->arena));
}

/* ---- the change --------------------------------------------------------------------------------------------------- */

/* A line of the text as people would write it: without the pin, which names a record for the program. */
static const char *without_pin(struct gathering *g, const char *line) {
  const char *pin = strstr(line, " [");
  return pin ? words_text(g->arena, "%.*s%s", (int)(pin - line), line, strchr(pin, ']') ? strchr(pin, ']') + 1 : "") : line;
}

static const char *line_of_change(const struct mended *m, size_t change, int kind) {
  for (size_t i = 0; i < m->lines; i++)
    if ((int)m->line[i].kind == kind && m->line[i].change == (int)change) return m->line[i].text;
  return NULL;
}

static const char *for_what(struct gathering *g, const struct mend_change *c) {
  const char *item[NUT_COUNT];
  size_t n = 0;
  for (size_t i = 0; i < c->repair_count && n < REASONS_MOST; i++) item[n++] = words_nutrient(g->arena, c->repairs[i]);
  return n > 0 ? words_text(g->arena, ", for %s", words_list(g->arena, item, n, REASONS_MOST)) : "";
}

static const char *change_in_words(struct gathering *g, size_t i) {
  const struct mended *m = g->f->mended;
  const struct mend_change *c = &m->proposal->change[i];
  const char *out = line_of_change(m, i, LINE_OUT), *in = line_of_change(m, i, LINE_IN);
  if (out) out = without_pin(g, out);
  if (in) in = without_pin(g, in);
  if (out && in) return words_text(g->arena, "“%s” becomes “%s”", out, in);
  if (in) return words_text(g->arena, "Add “%s”%s", in, for_what(g, c));
  if (out)
    return words_text(g->arena, "Leave out “%s”%s", out,
                      c->danger && c->unmeasured ? ": nobody knows how much iodine is in it"
                      : c->danger                ? ": it is dangerous"
                                                 : "");
  return NULL;
}

static bool all_is_met(const struct check_result *r) {
  return r->verdict_count[VERDICT_SHORT] + r->verdict_count[VERDICT_THIN] + r->verdict_count[VERDICT_OVER] +
             r->verdict_count[VERDICT_UNPROVEN] ==
         0;
}

static void tell_what_it_does(struct gathering *g, const struct mended *m, size_t more) {
  double days = g->r->ration->days;
  const char *batch =
      days > 1 ? words_text(g->arena, "These amounts are for the batch of %s days. ", words_number(g->arena, days)) : "";
  const char *rest =
      more > 0 ? words_text(g->arena, "%zu smaller changes come after these; I can send you the whole recipe. ", more) : "";
  const char *done = m->after && all_is_met(m->after)
                         ? words_text(g->arena, "With all of it every need is met, at %s kcal a day.",
                                      words_whole(g->arena, m->after->energy.supply_kcal))
                         : "";
  if (batch[0] || rest[0] || done[0]) say(g, REPLY_CHANGE, 75, true, words_text(g->arena, "%s%s%s", batch, rest, done));
}

static const char *one_line(struct gathering *g, const char *const *item, size_t n) {
  const char *line = item[0];
  for (size_t i = 1; i < n; i++) line = words_text(g->arena, "%s; %s", line, item[i]);
  return words_text(g->arena, "%s.", line);
}

static void tell_change(struct gathering *g) {
  const struct mended *m = g->f->mended;
  if (!m) return;
  const char *uncounted = words_uncounted(g->r->ration, g->arena);
  if (uncounted[0])
    say(g, REPLY_CHANGE, g->length == REPLY_LINES ? 802 : 83, true,
        words_text(g->arena,
                   "This reckons without %s. Before you add anything, leave that out or find out what it holds: it may "
                   "supply the same already.",
                   uncounted));
  if (g->f->scaled > 0)
    say(g, REPLY_CHANGE, g->length == REPLY_LINES ? 801 : 82, true,
        words_text(g->arena, "First feed %s of the amounts of now: the lines named here are already that much.",
                   words_share(g->arena, g->f->scaled)));
  const char *item[CHANGES_MOST + 1];
  size_t n = 0, count = m->proposal->count, more = 0;
  size_t most = g->length == REPLY_FULL || count == CHANGES_MOST + 1 ? count : CHANGES_MOST; /* one alone is not left out */
  for (size_t i = 0; i < count; i++) {
    const char *words = change_in_words(g, i);
    if (!words) continue;
    if (i >= most) {
      more++;
      continue;
    }
    if (g->length != REPLY_LINES) {
      say(g, REPLY_CHANGE, 80, true, words_text(g->arena, "%s.", words));
    } else {
      item[n++] = words;
    }
  }
  if (n > 0) say(g, REPLY_CHANGE, 800, true, one_line(g, item, n));
  for (size_t i = 0; i < m->ask_count; i++)
    say(g, REPLY_CHANGE, 30, false, words_text(g->arena, "It asks for something: %s.", m->asks[i]));
  if (g->length != REPLY_LINES) tell_what_it_does(g, m, more);
}

/* ---- questions, and how sure ------------------------------------------------------------------------------------ */

static void ask(struct gathering *g) {
  for (size_t i = 0; i < g->f->questions; i++)
    say(g, REPLY_QUESTION, i == 0 ? (g->length == REPLY_LINES ? 600 : 42) : 40 - (double)i,
        i < 2 && g->length != REPLY_LINES, g->f->question[i]);
}

static void tell_left_out(struct gathering *g) {
  if (g->f->left_outs == 0) return;
  say(g, REPLY_SURE, 85, g->length != REPLY_LINES,
      words_text(g->arena, "I could not count %s; what is in there could change the picture.",
                 words_list(g->arena, g->f->left_out, g->f->left_outs, 3)));
}

static void tell_unknown(struct gathering *g) {
  const char *item[NUT_COUNT];
  size_t n = 0;
  for (int i = 0; i < NUT_COUNT; i++)
    if (g->r->nutrient[i].verdict == VERDICT_UNPROVEN) item[n++] = words_nutrient(g->arena, (enum nutrient)i);
  if (n > 0)
    say(g, REPLY_SURE, 25, false,
        words_text(g->arena, "Nobody has published enough figures to be certain of %s.", words_list(g->arena, item, n, 4)));
}

static void tell_how_sure(struct gathering *g) {
  tell_left_out(g);
  if (!is_judged(g->r)) return;
  say(g, REPLY_SURE, 35, g->length != REPLY_LINES,
      words_text(
          g->arena,
          "The figures come from published food tables. No two batches of a food are alike, so each is a range, and a "
          "need counts as met only when at least %s of that range is enough.",
          words_share(g->arena, g->r->options.sure)));
  tell_unknown(g);
}

/* ---- care ---------------------------------------------------------------------------------------------------------- */

static bool review_says(const struct check_result *r, const char *id) {
  for (size_t i = 0; i < r->finding_count; i++)
    if (strcmp(r->finding[i].id, id) == 0) return true;
  return false;
}

static void tell_care(struct gathering *g) {
  if (!is_judged(g->r)) return;
  say(g, REPLY_CARE, 850, true,
      words_text(g->arena,
                 "This is worked out for one healthy adult %s. Growing, pregnant, nursing or ill animals need a veterinary "
                 "nutritionist%s.",
                 species_word[g->r->animal->species],
                 g->length == REPLY_LINES
                     ? ""
                     : words_text(g->arena,
                                  "; if %s takes medicine or seems unwell, ask your vet before you change the food",
                                  called(g))));
  if (g->f->mended)
    say(g, REPLY_CARE, 32, g->length != REPLY_LINES,
        "Move to the new bowl over 7 to 10 days, a little more of it each day.");
  if (review_says(g->r, "raw-hygiene"))
    say(g, REPLY_CARE, 28, g->length != REPLY_LINES,
        "Raw meat carries bacteria: keep it cold, wash hands, bowls and boards, and keep it away from small children and "
        "from people "
        "with weak immunity.");
}

struct reply_points reply_points(const struct reply_facts *f, enum reply_length length, struct arena *arena) {
  struct gathering g = {.f = f, .r = f->check, .length = length, .arena = arena};
  greet(&g);
  lead(&g);
  tell_findings(&g);
  praise(&g);
  tell_change(&g);
  ask(&g);
  tell_how_sure(&g);
  tell_care(&g);
  return g.all;
}
