#include "app/app_mend.h"

#include <math.h>

#include "app/app_parts.h"
#include "app/app_post.h"
#include "app/mend_parts.h"
#include "judge/uncounted.h"
#include "larder/larder_text.h"
#include "review/review.h"
#include "words/verdicts.h"
#include "words/words.h"

/* ---- lines not to be touched --------------------------------------------------------------------------------------------
 */

/* A name that fits no line is a mistake worth telling. */
static void complain_of_keeps(const struct app_mend_request *q, const struct ration *r, struct diags *d) {
  for (size_t k = 0; k < q->check.ask.keep.count; k++) {
    bool fits = false;
    for (size_t i = 0; i < r->line_count; i++) fits |= app_names_line(span_of(q->check.ask.keep.item[k]), &r->line[i]);
    if (!fits)
      diag_say(d, DIAG_ERROR, DIAG_NOT_FOUND, (struct span){NULL, 0},
               "the recipe has no line '%s'; name a line to keep by its number or by words from it",
               q->check.ask.keep.item[k]);
  }
}

/* What nobody can eat must not come in because it was mistyped. The person's own foods and larder have names of their own.
 */
static void complain_of_nevers(const struct library *lib, const struct app_mend_request *q, struct diags *d,
                               struct arena *arena) {
  for (size_t k = 0; k < q->check.ask.never.count; k++) {
    struct span never = span_trim(span_of(q->check.ask.never.item[k]));
    if (never.n > 0 && (span_holds_fold(q->larder.text, never) || offers_know(lib, never, arena))) continue;
    diag_say(d, DIAG_ERROR, DIAG_NOT_FOUND, (struct span){NULL, 0},
             "no food is called '%s', so that it would keep nothing out; write one food of it each time, as in 'egg', or "
             "its code",
             q->check.ask.never.item[k]);
  }
}

/* "200 IU vitamin E", "15 mg zinc": a dose that a label states, of something that nobody weighs. */
static bool is_dose(const struct library *lib, const struct ration_line *l, enum unit u) {
  const struct img_food *f = library_food(lib, l->shown_food);
  return f && f->part == PART_SUPPLEMENT && (u == UNIT_IU || u == UNIT_UG || u == UNIT_MG);
}

static struct mend_own *own_of(const struct library *lib, const struct app_mend_request *q, const struct recipe *recipe,
                               const struct ration *r, struct arena *arena) {
  struct mend_own *own = ARENA_NEW(arena, struct mend_own, r->line_count);
  for (size_t i = 0; i < r->line_count; i++) {
    const struct ration_line *l = &r->line[i];
    const struct recipe_line *words = recipe_line_of(recipe, l->line);
    for (size_t k = 0; k < q->check.ask.keep.count; k++)
      own[i].keep |= app_names_line(span_of(q->check.ask.keep.item[k]), l);
    own[i].keep |= !ration_is_on_trial(r) && ration_refuses(lib, r, l->shown_food, "", arena); /* fed all the same: no more and no less of it */
    if (!words || !(words->amount > 0)) {
      own[i].keep = true; /* nothing of it can be written anew */
      continue;
    }
    own[i].name = arena_text(arena, words->food);
    /* Steps of what is written: "600 g a week" changes by tens of grams a week. */
    double written = words->amount / words->scaled, per_unit = ration_line_grams_per_day(l) / written;
    own[i].whole = kitchen_whole(words->unit, written) * per_unit;
    if (is_dose(lib, l, words->unit)) own[i].whole = written / 2 * per_unit; /* once, twice, half of it */
    own[i].step = kitchen_step(words->unit, written) * per_unit;
    own[i].floor = kitchen_floor(words->unit, written) * per_unit;
  }
  return own;
}

/* ---- the new text is read and judged like any other ---------------------------------------------------------------------
 */

static bool keeps_all(const struct library *lib, const struct mend_request *m, const struct check_result *r) {
  for (int i = 0; i < NUT_COUNT; i++) {
    const struct nutrient_result *n = &r->nutrient[i];
    bool cautious = n->verdict == VERDICT_OVER && model_limit_is_cautious(lib, (enum nutrient)i);
    if (cautious && (m->limits.leave[i] || !(n->chance_met < m->options.sure))) continue; /* it is only told */
    if (m->limits.leave[i] && n->verdict != VERDICT_OVER && !n->highest_day_over) continue;
    if (n->verdict != VERDICT_MET && n->verdict != VERDICT_NO_FIGURE) return false;
    if (n->highest_day_over) return false;
  }
  if (r->energy.in_part) return false;
  if (!model_energy_kept(&m->limits, r->energy.supply_kcal)) return false;
  bool ratio = m->limits.balance && !m->limits.leave[NUT_CALCIUM] && !m->limits.leave[NUT_PHOSPHORUS];
  return !ratio || !(r->balance.ca_p < 1 || r->balance.ca_p > 2);
}

static const struct check_result *check_text(const struct library *lib, const struct app_mend_request *q,
                                             const struct animal *animal, const char *text, struct arena *arena) {
  struct app_check_request again = q->check;
  struct app_check_answer a;
  again.recipe.text = span_of(text);
  again.one_off = animal;
  app_check(lib, &again, &a, arena);
  return a.result;
}

static bool write_mended(const struct text_edit *e, const struct mend_request *m, const struct mend_proposal *p,
                         struct mended *out) {
  for (int fine = 0; fine < 2; fine++) {
    edit_text(e, p, fine > 0, out);
    out->after = check_text(e->lib, e->q, m->animal, out->text, e->arena);
    out->kept = out->after && keeps_all(e->lib, m, out->after);
    if (out->kept || (p->partial && out->after)) return true;
  }
  return false;
}

/* ---- all of it
 * ------------------------------------------------------------------------------------------------------------ */

static void begin_answer(const struct app_mend_request *q, struct app_mend_answer *out, struct arena *arena) {
  *out = (struct app_mend_answer){0};
  diags_init(&out->larder_diags, arena, q->larder.name ? q->larder.name : "", q->larder.text);
  diags_init(&out->request_diags, arena, q->check.recipe.name, (struct span){NULL, 0});
}

/* What is not counted can only add to more than is asked for. */
static bool size_is_known(const struct app_mend_request *q, const struct check_result *before) {
  double asked = q->check.ask.kcal;
  return mend_size_is_known(before) || (asked > 0 && before->energy.supply_kcal > asked);
}

static struct model_limits wanted_limits(const struct library *lib, const struct app_mend_request *q,
                                         const struct check_result *before) {
  static const double SLACK = 0.05;
  bool asked = q->check.ask.kcal > 0 && size_is_known(q, before);
  struct model_limits l = asked ? model_limits_around(q->check.ask.kcal, SLACK) : mend_limits(lib, before);
  double most = q->check.ask.kcal * (1 + SLACK);
  if (!asked && most >= before->energy.supply_kcal) l.energy_most = l.kept_most = fmin(l.energy_most, most);
  l.past_cautious = l.mannerly = true;
  uncounted_doses(lib, before, l.leave); /* first the label of what is not counted */
  uncounted_given_for(before, l.leave);
  return l;
}

static void find_cost(const struct text_edit *e, struct mended *m) {
  m->cost = 0;
  m->unpriced = NULL;
  for (size_t i = 0; i < m->after->ration->line_count; i++) {
    const struct ration_line *l = &m->after->ration->line[i];
    double price = offers_price(e->offers, l->shown_food), grams = ration_line_grams_per_day(l);
    m->cost += price * grams;
    if (isnan(price) && grams > 0 && !m->unpriced) m->unpriced = words_food(e->arena, e->lib, l->shown_food);
  }
}

static struct mended *write_all(const struct text_edit *e, const struct mend_request *m, struct mended_answer *out) {
  const struct mend_result *r = out->mend;
  struct mended *found = ARENA_NEW(e->arena, struct mended, r->proposals);
  for (size_t i = 0; i < r->proposals; i++)
    if (write_mended(e, m, &r->proposal[i], &found[out->count])) {
      find_cost(e, &found[out->count]);
      mend_words(e, &found[out->count++]);
    }
  for (size_t i = 0; i < e->offers->larder_count; i++) out->priced |= !isnan(e->offers->larder[i].price_per_g);
  out->currency = e->offers->currency ? e->offers->currency : "";
  out->found = found;
  if (!r->nearest) return found;
  struct mended *nearest = ARENA_NEW(e->arena, struct mended, 1);
  edit_text(e, r->nearest, false, nearest);
  nearest->after = check_text(e->lib, e->q, m->animal, nearest->text, e->arena);
  if (!nearest->after) return found;
  find_cost(e, nearest);
  out->nearest = nearest;
  return found;
}

/* Foods fed now and then take turns in the order of their lines. One that was on offer but is in no bowl leaves its days to
 * the next, so that a text may miss what the search promised: then it is left out and looked for again, unless whoever
 * waits has had enough. */
static bool drop_idle_rare(const struct offers *offers, const struct mended_answer *a, bool *without) {
  bool any = false;
  if (a->count == a->mend->proposals || a->mend->proposals == 0) return false;
  const struct mend_proposal *p = &a->mend->proposal[0];
  for (size_t i = 0; i < offers->count; i++) {
    int group = offers->offer[i].group;
    bool used = group == 0 || group > LARDER_MOST_LINES || without[group - 1];
    for (size_t k = 0; k < p->count; k++)
      used |= p->change[k].offer >= 0 && offers->offer[p->change[k].offer].group == group;
    if (!used) any = without[group - 1] = true;
  }
  return any;
}

/* A text may miss what the search promised, because a line of the owner's cannot be measured so: it is left alone then, and
 * the search is done again. */
static bool keep_unmeasurable(const struct text_edit *e, const struct mended_answer *a, struct mend_own *own) {
  bool any = false;
  if (a->mend->proposals == 0 || (a->count > 0 && a->found[0].proposal == &a->mend->proposal[0])) return false;
  const struct mend_proposal *p = &a->mend->proposal[0];
  for (size_t i = 0; i < p->count; i++)
    if (text_rounds(e, &p->change[i]) && !own[p->change[i].line].keep) any = own[p->change[i].line].keep = true;
  return any;
}

/* No amounts that a kitchen measures hold the promise: what they leave open is told of the nearest. */
static void tell_the_nearest(const struct text_edit *e, const struct mend_request *m, struct mend_result *result,
                             struct mended_answer *out) {
  struct mended *nearest = ARENA_NEW(e->arena, struct mended, 1);
  result->nearest = &result->proposal[0];
  result->status = result->stopped ? MEND_STOPPED : MEND_NONE;
  result->proven = false;
  result->proposals = 0;
  edit_text(e, result->nearest, false, nearest);
  nearest->after = check_text(e->lib, e->q, m->animal, nearest->text, e->arena);
  if (!nearest->after) return;
  find_cost(e, nearest);
  out->nearest = nearest;
}

/* Of one that is too heavy: with no more energy than brings its weight down nothing was found. Then as much as holds the
 * ideal weight is allowed, once. */
static bool allow_the_need(const struct mending *w, const struct check_result *before, struct mend_result *r,
                           struct model_limits *l) {
  double need = before->energy.need.kcal;
  bool none = r->status == MEND_NONE && r->proposals == 0;
  if (!none || w->q->check.ask.kcal > 0 || !(before->body.aim_kcal > 0) || !(l->energy_most < need)) return false;
  l->energy_most = l->kept_most = need;
  return true;
}

/* ---- the same dinner for another animal
 * -----------------------------------------------------------------------------------
 */

/* By how much a whole recipe is to grow so that its energy suits the animal, or is what was asked for; 0: it suits as it is,
 * or nobody knows how much energy it has. */
static double scale_of(const struct app_mend_request *q, const struct check_result *before) {
  static const double CLOSE = 0.05;
  const struct energy_need *need = &before->energy.need;
  double supply = before->energy.supply_kcal, asked = q->check.ask.kcal;
  bool to_lose = before->body.loss_kcal > 0 && supply < need->kcal; /* too heavy: not fed back to what holds its weight */
  double wanted = asked > 0 ? asked : mend_size_fits(before) ? supply : to_lose ? before->body.loss_kcal : need->kcal;
  if (!(asked > 0) && supply >= need->kcal && before->body.aim_kcal < need->kcal) wanted = before->body.aim_kcal;
  if (before->refusal != REFUSE_NOT || !mend_is_a_dinner(before) || !(wanted > 0)) return 0;
  if (!size_is_known(q, before)) return 0;
  return fabs(wanted / supply - 1) > CLOSE ? wanted / supply : 0;
}

/* To steps that a kitchen measures; whole things stay whole, and nothing vanishes. */
static double scaled_grams(const struct mend_own *own, double grams, double times) {
  double step = own->whole > 0 ? own->whole : own->step, wanted = grams * times;
  return step > 0 ? fmax(step, round(wanted / step) * step) : wanted;
}

static const char *scaled_text(const struct text_edit *e, const struct mend_own *own, double times) {
  const struct ration *r = e->ration;
  struct mend_change *c = ARENA_NEW(e->arena, struct mend_change, r->line_count + 1);
  struct mend_proposal p = {.change = c};
  struct mended m;
  for (size_t i = 0; i < r->line_count; i++) {
    double g = ration_line_grams_per_day(&r->line[i]);
    if (own[i].keep || !(g > 0)) continue;
    c[p.count++] = (struct mend_change){.line = (int)i, .offer = -1, .from_g = g, .to_g = scaled_grams(&own[i], g, times)};
  }
  edit_text(e, &p, false, &m);
  return m.text;
}

/* Scaled, cooked or without a danger, it is met: the text with which the search would begin is the answer. */
static void hand_back_as_begun(const struct text_edit *e, struct mended_answer *out) {
  struct mended *m = ARENA_NEW(e->arena, struct mended, 1);
  struct mend_proposal *p = ARENA_NEW(e->arena, struct mend_proposal, 1);
  *p = (struct mend_proposal){.after = out->before, .ration = out->before->ration, .fewest_proven = true, .rounded = true};
  edit_text(e, p, false, m);
  m->after = out->before;
  m->kept = true;
  find_cost(e, m);
  m->summary = out->plate_count > 0    ? "With that, everything is met."
               : out->scaled > 0       ? "Scaled, everything is met."
               : out->cooked_count > 0 ? "Cooked, everything is met."
                                       : "Without that, everything is met.";
  m->asks = ARENA_NEW(e->arena, const char *, 1);
  out->found = m;
  out->count = 1;
}

/* ---- what is written anew before the search ------------------------------------------------------------------------ */

/* The text as it stands, for an edit that offers nothing. */
static struct text_edit edit_of(const struct mending *w, const struct app_mend_answer *out) {
  static const struct offers NONE = {0};
  return (struct text_edit){.lib = w->lib,
                            .q = w->q,
                            .recipe = out->check.recipe,
                            .ration = w->ration,
                            .offers = &NONE,
                            .arena = w->arena,
                            .animal = w->animal};
}

static struct mend_own *own_now(const struct mending *w, const struct app_mend_answer *out) {
  return own_of(w->lib, w->q, out->check.recipe, w->ration, w->arena);
}

/* Dangers among what is not counted go first: without them the energy of the rest may be known. */
static bool leave_out_dangers(struct mending *w, struct app_mend_answer *out) {
  return leave_out_first(w->q, out->check.result, &out->answer, w->arena);
}

/* Shares of a whole that the animal's need or weight decides: what is added would change what they are shares of. And shares
 * of a weight that is told, where all is scaled: less of everything is the same shares. */
static bool weigh_shares(struct mending *w, struct app_mend_answer *out) {
  const struct recipe *r = out->check.recipe;
  bool shares = false;
  for (size_t i = 0; i < r->line_count; i++) shares |= r->line[i].unit == UNIT_PERCENT;
  if (!shares || (r->shares_of == SHARES_OF_TOTAL && !(scale_of(w->q, out->check.result) > 0))) return false;
  const struct text_edit e = edit_of(w, out);
  w->q->check.recipe.text = span_of(text_in_grams(&e));
  out->answer.in_grams = true;
  return true;
}

/* What is wrong with the whole dinner is no matter of a few lines more. Who gives a larder has said what is at hand. */
static bool set_plate_right(struct mending *w, struct app_mend_answer *out) {
  const struct check_result *r = out->check.result;
  if (w->q->larder.name || !mend_is_a_dinner(r)) return false;
  const struct text_edit e = edit_of(w, out);
  return plate_first(&e, own_now(w, out), r, w->q, &out->answer);
}

static bool scale_to_need(struct mending *w, struct app_mend_answer *out) {
  double times = out->answer.plate_count > 0 ? 0 : scale_of(w->q, out->check.result);
  if (!(times > 0)) return false;
  const struct text_edit e = edit_of(w, out);
  w->q->check.recipe.text = span_of(scaled_text(&e, own_now(w, out), times));
  out->answer.scaled = times;
  return true;
}

/* More of everything may be too much of one thing: 90 g of tuna for a cat became 220. */
static bool set_scaled_right(struct mending *w, struct app_mend_answer *out) {
  return out->answer.scaled > 1 && set_plate_right(w, out);
}

/* Too much calcium out of eggshells: the shells go before any food does. As above, a larder is what is at hand. */
static bool leave_off_shells(struct mending *w, struct app_mend_answer *out) {
  const struct check_result *r = out->check.result;
  if (w->q->larder.name || !mend_is_a_dinner(r)) return false;
  const struct text_edit e = edit_of(w, out);
  return shell_first(&e, own_now(w, out), r, w->q, &out->answer);
}

/* Raw fish that harms a cat is cooked before all else is looked for. */
static bool cook_what_must_be(struct mending *w, struct app_mend_answer *out) {
  return cook_first(w->lib, w->q, out->check.recipe, w->ration, w->animal->species, &out->answer, w->arena);
}

/* Each writes the text of w->q anew, which is understood again before the next one looks; false where it has nothing to do.
 * False of all: the text is not understood. */
static bool begin_anew(struct mending *w, struct app_mend_answer *out) {
  static bool (*const STEP[])(struct mending *, struct app_mend_answer *) = {
      leave_out_dangers, weigh_shares,     set_plate_right,  scale_to_need,
      set_scaled_right,  leave_off_shells, cook_what_must_be};
  for (size_t i = 0; i < COUNT_OF(STEP); i++) {
    if (out->check.result->refusal != REFUSE_NOT || out->request_diags.errors > 0) return true;
    if (!STEP[i](w, out)) continue;
    if (!app_understand(w->lib, &w->q->check, &out->check, &w->ration, &w->animal, w->arena)) return false;
    out->check.result = check_ration(w->lib, w->ration, w->animal, &w->q->check.ask.check, w->arena);
  }
  return true;
}

bool mending_begin(const struct library *lib, const struct app_mend_request *asked, struct app_mend_answer *out,
                   struct mending *w, struct arena *arena) {
  struct app_mend_request *q = ARENA_NEW(arena, struct app_mend_request, 1);
  *q = *asked;
  app_take_post(lib, &q->check, arena); /* a post is read before all else */
  *w = (struct mending){.lib = lib, .q = q, .arena = arena, .without = ARENA_NEW(arena, bool, LARDER_MOST_LINES)};
  begin_answer(q, out, arena);
  if (!app_understand(lib, &q->check, &out->check, &w->ration, &w->animal, arena)) return false;
  if (!w->animal) {
    diag_say(&out->request_diags, DIAG_ERROR, DIAG_ANIMAL_NEEDED, (struct span){NULL, 0},
             "mending needs an animal, and none is given");
    return false;
  }
  complain_of_keeps(q, w->ration, &out->request_diags);
  complain_of_nevers(lib, q, &out->request_diags, arena);
  out->check.result = check_ration(lib, w->ration, w->animal, &q->check.ask.check, arena);
  if (!begin_anew(w, out)) return false;
  w->own = own_now(w, out);
  w->request = (struct mend_request){.ration = w->ration,
                                     .animal = w->animal,
                                     .options = q->check.ask.check,
                                     .limits = wanted_limits(lib, q, out->check.result),
                                     .own = w->own,
                                     .proposals = q->check.ask.proposals > 0 ? q->check.ask.proposals : 1,
                                     .quick = q->quick,
                                     .ways = !q->one_way,
                                     .steps = q->check.ask.steps,
                                     .go_on = q->go_on,
                                     .user = q->user};
  return true;
}

bool mending_offer(struct mending *w, struct app_mend_answer *out) {
  const struct app_mend_request *q = w->q;
  struct diags *d = &out->larder_diags;
  diags_init(d, w->arena, q->larder.name ? q->larder.name : "", q->larder.text);
  collect_offers(w->lib, q, out->check.recipe, out->check.result, w->without, d, &w->offers, w->arena);
  if (out->request_diags.errors > 0 || d->errors > 0) return false;
  w->request.offer = w->offers.offer;
  w->request.offers = w->offers.count;
  for (size_t i = 0; i < w->ration->line_count; i++) {
    double price = offers_price(&w->offers, w->ration->line[i].shown_food);
    w->own[i].price = isnan(price) ? 0 : price;
  }
  return true;
}

void app_mend(const struct library *lib, const struct app_mend_request *asked, struct app_mend_answer *out,
              struct arena *arena) {
  struct mending w;
  if (!mending_begin(lib, asked, out, &w, arena)) return;
  const struct mended_answer first = out->answer;
  struct mend_result *result = ARENA_NEW(arena, struct mend_result, 1);
  bool again = true;
  while (again) {
    if (!mending_offer(&w, out)) return;
    out->understood = true;
    *result = *mend(lib, &w.request, arena);
    if (allow_the_need(&w, out->check.result, result, &w.request.limits)) continue;
    out->answer = (struct mended_answer){
        .scaled = first.scaled,
        .in_grams = first.in_grams,
        .cooked = first.cooked,
        .cooked_count = first.cooked_count,
        .plate = first.plate,
        .plate_count = first.plate_count,
        .plate_words = first.plate_words ? first.plate_words : "",
        .left_out = first.left_out,
        .left_out_count = first.left_out_count,
        .before = out->check.result,
        .asked_kcal = w.q->check.ask.kcal,
        .not_counted = words_before_change(lib, out->check.result, mend_size_fits(out->check.result), arena),
        .mend = result};
    const struct text_edit e = {.lib = lib,
                                .q = w.q,
                                .recipe = out->check.recipe,
                                .ration = w.ration,
                                .offers = &w.offers,
                                .arena = arena,
                                .cooked = first.cooked,
                                .cooked_count = first.cooked_count,
                                .plate = first.plate,
                                .plate_count = first.plate_count,
                                .left_out = first.left_out,
                                .left_out_count = first.left_out_count,
                                .animal = w.animal};
    struct mended *found = write_all(&e, &w.request, &out->answer);
    if ((first.scaled > 0 || first.plate_count > 0 || first.cooked_count > 0 || first.left_out_count > 0) &&
        result->already_met)
      hand_back_as_begun(&e, &out->answer);
    again = !result->stopped &&
            (drop_idle_rare(&w.offers, &out->answer, w.without) || keep_unmeasurable(&e, &out->answer, w.own));
    if (!again && result->status == MEND_FOUND && !result->already_met && out->answer.count == 0)
      tell_the_nearest(&e, &w.request, result, &out->answer);
    if (!again && out->answer.found == found) mend_choose(&out->answer, found);
    if (!again) result->proposals = out->answer.count; /* further ones that no text holds are not told */
  }
}
