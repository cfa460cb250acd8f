/* A mended recipe: the text with what goes out and what comes in, why each line changed, and where each nutrient moved. */
#include "report/mend.h"
#include "base/table.h"

#include <math.h>

#include "judge/meal.h"
#include "report/answer.h"
#include "report/helps.h"
#include "report/mend_first.h"
#include "report/rail.h"
#include "report/review_left.h"
#include "words/heeded.h"
#include "words/verdicts.h"

enum { NAME_COLUMNS = 22, AMOUNT_COLUMNS = 7, REASONS_SHOWN = 4, NARROW = 76, OCTAVE_LEAST = 3, OCTAVE_MOST = 9 };

struct scene {
  struct pen pen;
  const struct library *lib;
  const struct mended_answer *a;
};

/* ---- in a sentence ----------------------------------------------------------------------------------------------- */

static const char *summary(const struct pen *p, const struct mended *m) {
  static const char *const WITH[] = {"", "With foods only: ", "With supplements only: "}; /* ORDER mend_with */
  ROW_FOR_EACH(WITH, MEND_WITH_COUNT);
  return say_text(p, "%s%s", WITH[m->proposal->with], m->summary);
}

static const char *cost_words(const struct pen *p, const struct mended_answer *a, const struct mended *m) {
  if (isnan(m->cost)) return say_text(p, "What it costs is not known: there is no price for %s.", m->unpriced);
  return say_text(p, "It costs %s a day, %s a week.", words_money(p->arena, a->currency, m->cost),
                  words_money(p->arena, a->currency, 7 * m->cost));
}

static const char *energy_words(const struct pen *p, const struct mended_answer *a, const struct mended *m) {
  const struct energy_need *need = &m->after->energy.need;
  const char *species = m->after->animal && m->after->animal->species == SPECIES_CAT ? "cats" : "dogs";
  bool measured = m->after->animal && m->after->animal->measured;
  const char *range = measured ? "by the journal, between" : say_text(p, "individual %s range from", species);
  return say_text(p, "Energy %s %s %s kcal a day; %s %s, %s %s %s %s.", words_whole(p->arena, a->before->energy.supply_kcal),
                  pen_glyph(p, G_ARROW), words_whole(p->arena, m->after->energy.supply_kcal),
                  measured ? "the animal's own need" : "expected need", words_whole(p->arena, need->kcal), range,
                  words_whole(p->arena, need->low_kcal), measured ? "and" : "to", words_whole(p->arena, need->high_kcal));
}

static void say(const struct pen *p, enum ink ink, const char *text) {
  struct prose how = prose_at(MARGIN, ink);
  prose_write(p, &how, text);
}

/* ---- the text ---------------------------------------------------------------------------------------------------- */

static void write_text(const struct scene *x, const struct mended *m) {
  for (size_t i = 0; i < m->lines; i++) {
    const struct mended_line *l = &m->line[i];
    struct row r;
    row_start(&r, &x->pen);
    if (l->kind != LINE_SAME) row_put(&r, MARGIN, l->kind == LINE_IN ? INK_STRONG : INK_DIM, l->kind == LINE_IN ? "+" : "-");
    enum ink ink = l->kind == LINE_IN ? INK_STRONG : l->kind == LINE_OUT ? INK_DIM : INK_PLAIN;
    row_end_kept(&r, MARGIN + 2, ink, l->text);
  }
}

/* ---- why --------------------------------------------------------------------------------------------------------- */

/* "too little zinc and iron" */
static const char *some_words(const struct pen *p, const struct mend_change *c, int from, int to, const char *what) {
  const char *item[NUT_COUNT];
  int n = 0;
  for (int i = from; i < to; i++) item[n++] = words_nutrient(p->arena, c->repairs[i]);
  return n > 0 ? say_text(p, "%s %s", what, say_list(p, item, n, p->all ? NUT_COUNT : REASONS_SHOWN)) : NULL;
}

/* "there would be too little zinc and iron, and too much energy"; NULL: nothing worth naming. */
static const char *loss_words(const struct pen *p, const struct mend_change *c, bool below_need) {
  const char *item[5];
  int n = 0;
  const char *little = some_words(p, c, 0, c->too_much_from, "too little"),
             *much = some_words(p, c, c->too_much_from, (int)c->repair_count, "too much");
  if (little) item[n++] = little;
  if (much) item[n++] = much;
  if (c->energy != 0)
    item[n++] = c->energy < 0 ? "too little energy" : below_need ? "more energy than wanted here" : "too much energy";
  if (c->balance != 0)
    item[n++] = c->balance < 0 ? "too little calcium for the phosphorus" : "too much calcium for the phosphorus";
  return n > 0 ? say_text(p, "there would be %s", say_list(p, item, n, n)) : NULL;
}

static const char *reason_words(const struct pen *p, const struct mend_change *c, bool below_need) {
  const char *loss = loss_words(p, c, below_need);
  if (c->danger && c->unmeasured) return "nobody knows how much iodine is in it, and it may be far too much";
  if (c->danger && c->rich && c->overdose != NUT_NONE)
    return say_text(p, "it alone is more than the upper limit of %s", words_nutrient(p->arena, c->overdose));
  if (c->danger && c->rich) return "it is rich in vitamins A and D, and the bowl is at the limit of one of them";
  if (c->danger) return "it is dangerous to this animal";
  if (!loss && c->line < 0 && c->helps != NUT_NONE)
    return say_text(p, "it helps with %s, which would otherwise be close", words_nutrient(p->arena, c->helps));
  if (!loss) return "a small share of what would otherwise fall just short";
  return say_text(p, "%s %s", c->line < 0 ? "without it" : "left as it was,", loss);
}

static const char *change_words(const struct pen *p, const struct mended *m, size_t i) {
  if (!m->from[i]) return say_text(p, "%s added", m->to[i]);
  if (!m->to[i]) return say_text(p, "%s taken out", m->from[i]);
  return say_text(p, "%s %s %s", m->from[i], pen_glyph(p, G_ARROW), m->to[i]);
}

/* In the order in which each covers most of what is left, with the count after each. */
static void write_reasons(const struct scene *x, const struct mended *m) {
  const struct pen *p = &x->pen;
  const struct mend_proposal *of = m->proposal;
  bool below_need = mend_is_below_need(m->after);
  for (size_t i = 0; i < of->count; i++) {
    const struct mend_change *c = &of->change[i];
    struct prose how = prose_at(MARGIN, INK_PLAIN);
    how.indent = MARGIN + 4;
    int was = i > 0 ? of->change[i - 1].covered : 0;
    const char *count = c->covered != was ? say_text(p, " (%d of %d in order)", c->covered, of->open) : "";
    prose_write(p, &how,
                say_text(p, "%zu. %s, %s: %s.%s", i + 1, m->food[i], say_held(p, change_words(p, m, i)),
                         reason_words(p, c, below_need), count));
  }
}

static void write_asks(const struct scene *x, const struct mended *m) {
  const struct pen *p = &x->pen;
  if (m->ask_count == 0) return;
  say(p, INK_PLAIN, say_text(p, "Beyond the usual: %s.", say_list(p, m->asks, (int)m->ask_count, (int)m->ask_count)));
}

static void write_unlike(const struct scene *x, const struct mended *m) {
  if (m->unlike)
    say(&x->pen, INK_STRONG,
        say_text(&x->pen, "No small change covers everything. %s", words_unlike(m->unlike, x->pen.arena)));
}

/* What the text says is never to be fed was not looked at. */
static void write_heeded(const struct scene *x) {
  const char *heeded = words_heeded(x->a->before->ration, "the text asks", x->pen.arena);
  if (heeded[0]) say(&x->pen, INK_PLAIN, heeded);
  const struct check_result *before = x->a->before;
  const char *meatless = before->animal ? words_meatless(before->ration, before->animal->species, x->pen.arena) : "";
  if (meatless[0]) say(&x->pen, INK_STRONG, meatless);
}

/* What the first steps leave open; of a whole change what waits for a label. */
static void write_left_open(const struct scene *x, const struct mended *m) {
  const struct pen *p = &x->pen;
  const char *left[NUT_COUNT];
  int n = 0;
  for (int i = 0; i < NUT_COUNT; i++) {
    enum verdict v = m->after->nutrient[i].verdict;
    if (v != VERDICT_MET && v != VERDICT_NO_FIGURE)
      left[n++] = say_text(p, "%s (%s)", words_nutrient(p->arena, (enum nutrient)i), verdict_word[v]);
  }
  const struct mend_proposal *of = m->proposal;
  if (n > 0 && !of->partial)
    say(p, INK_PLAIN, say_text(p, "Still open, for what is not counted: %s.", say_list(p, left, n, NUT_COUNT)));
  else if (n > 0)
    say(p, INK_PLAIN,
        say_text(p, "These first %zu cover %d of %d. Still open: %s.", of->count, of->change[of->count - 1].covered,
                 of->open, say_list(p, left, n, NUT_COUNT)));
}

/* ---- what moved -------------------------------------------------------------------------------------------------- */

static const double WORTH_TELLING = 0.25; /* of the allowance */

static bool moved(const struct nutrient_result *was, const struct nutrient_result *is, bool all) {
  if (!(is->allowance > 0) || is->verdict == VERDICT_NO_FIGURE) return false;
  if (all || was->verdict != is->verdict) return true;
  return fabs(is->window_amount - was->window_amount) > WORTH_TELLING * is->allowance && was->ratio < 2;
}

static int per_octave(const struct pen *p, int rail, int figures) {
  int per = (p->width - MARGIN - rail - figures - 1) / RAIL_OCTAVES;
  return per > OCTAVE_MOST ? OCTAVE_MOST : per < OCTAVE_LEAST ? OCTAVE_LEAST : per;
}

static void mark_before(struct row *r, int rail, int per, const struct nutrient_result *was, double need) {
  int half = rail_half(was->window_amount / need, per);
  if (half >= 0) row_glyph(r, rail + half / 2, INK_ACCENT, G_UNSURE);
}

static void write_move(const struct scene *x, const struct nutrient_result *was, const struct nutrient_result *is) {
  const struct pen *p = &x->pen;
  bool narrow = p->width < NARROW;
  int name = narrow ? 13 : NAME_COLUMNS, rail = MARGIN + name + 1, figures = 3 * AMOUNT_COLUMNS + 8;
  int per = per_octave(p, rail, figures), at = rail + rail_cells(per);
  struct rail now = rail_of(is);
  struct row r;
  row_start(&r, p);
  row_fit(&r, MARGIN, name, INK_PLAIN, nutrient_info[is->id].name);
  rail_draw(&r, rail, per, &now, INK_PLAIN);
  mark_before(&r, rail, per, was, is->allowance);
  row_right(&r, at + AMOUNT_COLUMNS, AMOUNT_COLUMNS, INK_DIM, words_number(p->arena, was->window_amount));
  row_put(&r, at + AMOUNT_COLUMNS + 1, INK_DIM, pen_glyph(p, G_ARROW));
  row_right(&r, at + 2 * AMOUNT_COLUMNS + 3, AMOUNT_COLUMNS, INK_STRONG, words_number(p->arena, is->window_amount));
  row_right(&r, at + 3 * AMOUNT_COLUMNS + 3, AMOUNT_COLUMNS - 1, INK_DIM, words_number(p->arena, is->allowance));
  row_put(&r, at + 3 * AMOUNT_COLUMNS + 4, INK_DIM, nutrient_info[is->id].unit);
  row_end(&r);
}

/* Calcium to phosphorus, the weight, and how many nutrients moved less than was worth a line. */
static void write_other_moves(const struct scene *x, const struct mended *m) {
  const struct pen *p = &x->pen;
  const struct check_result *before = x->a->before, *after = m->after;
  int quiet = 0;
  for (int i = 0; i < NUT_COUNT; i++) {
    const struct nutrient_result *was = &before->nutrient[i], *is = &after->nutrient[i];
    quiet += is->allowance > 0 && is->verdict != VERDICT_NO_FIGURE && !moved(was, is, p->all);
  }
  say(p, INK_PLAIN,
      say_text(p, "Calcium to phosphorus %s %s %s to 1; food %s %s %s g a day.",
               words_number(p->arena, before->balance.ca_p), pen_glyph(p, G_ARROW),
               words_number(p->arena, after->balance.ca_p), words_whole(p->arena, before->energy.grams_per_day),
               pen_glyph(p, G_ARROW), words_whole(p->arena, after->energy.grams_per_day)));
  if (quiet > 0)
    say(p, INK_DIM,
        say_text(p,
                 "%d more were met before and are met now, and moved by less than a quarter of the need, or lie far above "
                 "it: --all.",
                 quiet));
}

static void write_moves(const struct scene *x, const struct mended *m) {
  const struct pen *p = &x->pen;
  const struct check_result *before = x->a->before, *after = m->after;
  static const enum verdict ORDER[] = {VERDICT_OVER,     VERDICT_SHORT, VERDICT_THIN,
                                       VERDICT_UNPROVEN, VERDICT_MET,   VERDICT_NO_FIGURE};
  struct view v = {*p, x->lib, after};
  heading(p, "What moved", standard_in_short(&v));
  for (size_t k = 0; k < COUNT_OF(ORDER); k++) {
    bool titled = false;
    for (int i = 0; i < NUT_COUNT; i++) {
      const struct nutrient_result *was = &before->nutrient[i], *is = &after->nutrient[i];
      if (was->verdict != ORDER[k] || !moved(was, is, p->all)) continue;
      if (!titled) say(p, INK_STRONG, say_text(p, "%s before", verdict_word[ORDER[k]]));
      titled = true;
      write_move(x, was, is);
    }
  }
  const char *item[] = {say_text(p, "%s before", pen_glyph(p, G_UNSURE)), say_text(p, "%s after", pen_glyph(p, G_SURE)),
                        say_text(p, "%s need", pen_glyph(p, G_NEED)), "before, after and need a day, in the leanest window"};
  legend(p, item, COUNT_OF(item));
  write_other_moves(x, m);
}

/* ---- how small ------------------------------------------------------------------------------------------------------- */

static const char *reach_words(const struct mend_reach *r) {
  return r->stretch <= 1 ? "with usual portions and no main food cut by more than a third"
                         : "with portions stretched as said above";
}

/* What was proven before lines were left as they are, and of what: nothing is proven of the change that is shown. */
static void write_proven_before(const struct pen *p, const struct mend_proposal *c, const char *bounds) {
  const struct mend_left *l = &c->left;
  const char *proven =
      l->of <= l->fewest
          ? say_text(p, "it is proven that fewer than %d lines are not enough%s", l->fewest,
                     l->least_proven ? ", and that no smaller change in as many lines is, rounding aside" : "")
          : say_text(p, "it is proven only that at least %d lines are needed", l->fewest);
  say(p, INK_DIM,
      say_text(
          p,
          "With amounts free to move, %s (%s). Then %d of your lines %s left as %s, which moves the energy a little more: "
          "of that nothing is proven, and fewer lines may do.",
          proven, bounds, l->lines, l->lines == 1 ? "was" : "were", l->lines == 1 ? "it is" : "they are"));
}

/* What is known of how small a change can be: proven, or only not found. */
static void write_smallness(const struct scene *x, const struct mended *m) {
  const struct pen *p = &x->pen;
  const struct mend_proposal *c = m->proposal;
  const char *larder = c->at_hand ? ", of new foods only those of the larder" : "", *reach = reach_words(&c->reach);
  if (c->left.lines > 0 && c->left.fewest > 1)
    write_proven_before(p, c, say_text(p, "%s%s", reach, larder));
  else if (c->rather && c->fewest > 1 && c->fewest < (int)c->count)
    say(p, INK_DIM,
        say_text(p, "Fewer lines may do, with a pill for a food: at least %d are needed (%s%s).", c->fewest, reach, larder));
  else if (c->fewest_proven)
    say(p, INK_DIM,
        say_text(p, "It is proven that fewer lines are not enough (%s%s)%s.", reach, larder,
                 c->least_proven ? ", and that no smaller change in as many lines is, rounding aside" : ""));
  else if (c->one_more && c->fewest + 1 >= (int)c->count)
    say(p, INK_DIM,
        say_text(p, "%d lines would do, but not in amounts that a kitchen measures; fewer would not (%s%s).", c->fewest,
                 reach, larder));
  else if (c->fewest > 1)
    say(p, INK_DIM,
        say_text(p, "Fewer lines may do: it is proven only that at least %d are needed (%s%s).", c->fewest, reach, larder));
  else
    say(p, INK_DIM, "Fewer lines may do: that is not ruled out.");
}

/* ---- one proposal ------------------------------------------------------------------------------------------------ */

/* The others in short: the sentence, and what goes in and out. */
static void write_folded(const struct scene *x, const struct mended *m) {
  const struct pen *p = &x->pen;
  const char *item[3 * NUT_COUNT];
  size_t n = 0;
  static const char *const TITLE[] = {"With pills as well", "With foods only",
                                      "With supplements only"}; /* ORDER mend_with */
  ROW_FOR_EACH(TITLE, MEND_WITH_COUNT);
  heading(p, TITLE[m->proposal->with], "");
  say(p, INK_PLAIN, m->summary);
  write_unlike(x, m);
  write_asks(x, m);
  for (size_t i = 0; i < m->proposal->count && n < COUNT_OF(item); i++)
    item[n++] = say_text(p, "%s: %s", m->food[i], say_held(p, change_words(p, m, i)));
  say(p, INK_PLAIN, say_text(p, "%s.", say_list(p, item, (int)n, (int)n)));
}

static size_t with_both(const struct mended_answer *a) {
  size_t n = 0;
  for (size_t i = 0; i < a->count; i++) n += a->found[i].proposal->with == MEND_BOTH;
  return n;
}

static void write_proposal(const struct scene *x, const struct mended *m, size_t number) {
  const struct pen *p = &x->pen;
  const char *title = with_both(x->a) > 1 ? say_text(p, "Proposal %zu of %zu", number + 1, with_both(x->a)) : "The new text";
  heading(p, title, x->a->mend->stopped ? "the search was stopped" : "");
  say(p, INK_PLAIN, summary(p, m));
  write_unlike(x, m);
  write_asks(x, m);
  write_heeded(x);
  if (m->proposal->partial || x->a->not_counted[0]) write_left_open(x, m);
  say(p, INK_DIM, energy_words(p, x->a, m));
  if (x->a->priced) say(p, INK_DIM, cost_words(p, x->a, m));
  write_smallness(x, m);
  blank_line(p);
  write_text(x, m);
  heading(p, "Why each line", "what covers most comes first");
  write_reasons(x, m);
  write_moves(x, m);
  say_review_left(p, x->a->before, m->after, "");
}

/* ---- nothing found ----------------------------------------------------------------------------------------------- */

/* Behind a limit of the energy the person's own figure, from which it comes. */
static const char *asked_words(const struct scene *x, bool of_energy) {
  if (!(x->a->asked_kcal > 0) || !of_energy) return "";
  return say_text(&x->pen, " (you asked for %s)", words_whole(x->pen.arena, x->a->asked_kcal));
}

static void write_conflict(const struct scene *x) {
  const struct pen *p = &x->pen;
  const struct model_conflict *c = &x->a->mend->conflict;
  if (c->count == 0) {
    say(p, INK_PLAIN,
        x->a->nearest ? "With the foods on offer nothing was found that meets every need. The nearest follows, and what it "
                        "leaves open."
                      : "With the foods on offer nothing was found that meets every need.");
    return;
  }
  say(p, INK_PLAIN,
      c->count == 1 ? "This limit cannot be kept with the foods on offer:"
                    : "These limits cannot all be kept with the foods on offer; without any one of them the others can:");
  for (size_t i = 0; i < c->count; i++) {
    struct prose how = prose_at(MARGIN + 2, INK_PLAIN);
    how.indent = MARGIN + 4;
    prose_write(p, &how, say_text(p, "%s %s%s", pen_glyph(p, G_DOT), c->words[i], asked_words(x, c->of_energy[i])));
  }
}

/* Why a nutrient stays open, where that can be told: "calcium (short, though enough on average: some days have too little)".
 */
static const char *left_words(const struct scene *x, const struct nutrient_result *n) {
  const struct pen *p = &x->pen;
  const char *name = words_nutrient(p->arena, n->id), *verdict = verdict_word[n->verdict];
  bool lean_days = known_part(n->amount) >= n->allowance && known_part(n->window_amount) < n->allowance;
  if (n->verdict != VERDICT_OVER && lean_days)
    return say_text(p, "%s (%s, though enough on average: some days have too little)", name, verdict);
  const struct supply_list *list = n->verdict == VERDICT_OVER ? who_supplies(n) : NULL;
  if (!list || list->from_count == 0) return say_text(p, "%s (%s)", name, verdict);
  const struct ration_line *l = &x->a->nearest->after->ration->line[list->from[0].line];
  return say_text(p, "%s (%s, most of it from %s)", name, verdict, words_food(p->arena, x->lib, l->shown_food));
}

static void write_nearest(const struct scene *x) {
  const struct pen *p = &x->pen;
  const struct mended *m = x->a->nearest;
  const char *left[NUT_COUNT];
  int n = 0;
  if (!m) return;
  for (int i = 0; i < NUT_COUNT; i++) {
    enum verdict v = m->after->nutrient[i].verdict;
    if (v != VERDICT_MET && v != VERDICT_NO_FIGURE) left[n++] = left_words(x, &m->after->nutrient[i]);
  }
  heading(p, "The nearest", "");
  say(p, INK_PLAIN,
      n > 0 ? say_text(p, "What it leaves open: %s.", say_list(p, left, n, NUT_COUNT))
            : "Every nutrient is met, but not the energy or the balance of minerals.");
  blank_line(p);
  write_text(x, m);
}

static void write_help(const struct scene *x) {
  const struct pen *p = &x->pen;
  if (x->a->mend->help.count == 0) return;
  heading(p, "What would help", "foods that are not on offer");
  say_helps(p, x->lib, &x->a->mend->help);
}

/* "plain kibble and seaweed": the lines of which nobody knows how much energy they have. */
static const char *without_energy(const struct scene *x) {
  const struct view v = {x->pen, x->lib, x->a->before};
  const struct nutrient_result *e = &x->a->before->nutrient[NUT_ENERGY];
  return who_supplies(e)->missing_count > 0 ? missing_words(&v, e, 3) : "each food";
}

static void write_none(const struct scene *x) {
  const struct pen *p = &x->pen;
  if (!mend_is_a_dinner(x->a->before)) {
    blank_line(p);
    const struct energy_result *e = &x->a->before->energy;
    if (meal_is_unread(x->a->before)) {
      say(p, INK_PLAIN,
          say_text(p, "%s: there is too little to mend. %s", words_counted_part(x->a->before, p->arena),
                   words_ask_first(x->a->before->ration, NULL, true, p->arena)));
      return;
    }
    const char *gives =
        e->in_part && isfinite(e->supply_kcal)
            ? say_text(p, "This gives at least %s kcal a day, and nobody knows how much more, so it cannot be mended",
                       words_whole(p->arena, e->supply_kcal))
        : isfinite(e->supply_kcal)
            ? say_text(p, "This supplies %s of about %s kcal a day: there is hardly a dinner here to mend",
                       words_whole(p->arena, e->supply_kcal), words_whole(p->arena, e->need.kcal))
            : "Nobody knows how much energy this gives, so it cannot be mended";
    const char *then = e->in_part || !isfinite(e->supply_kcal)
                           ? say_text(p, "State the kcal, or the protein, fat and carbohydrate, of %s", without_energy(x))
                           : "Write down what else is fed, or let 'bowlwright compose' make a recipe from what you have";
    say(p, INK_PLAIN, say_text(p, "%s. %s.", gives, then));
    return;
  }
  bool stopped = x->a->mend->status == MEND_STOPPED;
  heading(p, stopped ? "Nothing found yet" : "No such change",
          stopped              ? "the search was stopped"
          : x->a->mend->proven ? "proven"
                               : "none was found");
  if (stopped)
    say(p, INK_PLAIN, "The search ended before a change was found. That none exists is not proven: give it more time.");
  else
    write_conflict(x);
  write_heeded(x);
  write_nearest(x);
  write_help(x);
}

/* ---- all of it --------------------------------------------------------------------------------------------------- */

void report_mend(const struct library *lib, const struct mended_answer *a, const struct report_style *style,
                 struct buf *out) {
  struct scene x = {pen_start(style, out), lib, a};
  struct view v = {x.pen, lib, a->before};
  answer_title(&v);
  say_dangers(&x.pen, a);
  switch (a->mend->status) {
  case MEND_REFUSED:
    answer_refusal(&v);
    say(&x.pen, INK_PLAIN, "'bowlwright check' shows it; no change is proposed for this animal.");
    return;
  case MEND_NOT_LINEAR:
    blank_line(&x.pen);
    say(&x.pen, INK_PLAIN, "Energy counted this way cannot be planned with; mend with the default way of counting it.");
    return;
  case MEND_NONE:
  case MEND_STOPPED:
    write_none(&x);
    return;
  case MEND_FOUND:
    break;
  }
  say_what_came_first(&x.pen, a);
  if (a->not_counted[0]) {
    say(&x.pen, INK_STRONG, a->not_counted);
    blank_line(&x.pen);
  }
  if ((a->scaled > 0 || a->plate_count > 0 || a->cooked_count > 0 || a->left_out_count > 0) && a->mend->already_met) {
    say(&x.pen, INK_PLAIN, a->found[0].summary);
    blank_line(&x.pen);
    write_text(&x, &a->found[0]);
    return;
  }
  if (a->mend->already_met) {
    blank_line(&x.pen);
    say(&x.pen, INK_PLAIN, "Everything is met as it is: there is nothing to mend.");
    return;
  }
  for (size_t i = 0; i < a->count; i++) {
    if (i == 0 || (a->found[i].proposal->with == MEND_BOTH && a->found[0].proposal->with == MEND_BOTH))
      write_proposal(&x, &a->found[i], i);
    else
      write_folded(&x, &a->found[i]);
  }
}
