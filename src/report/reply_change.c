/* The change: what comes out first, then a few steps in the owner's own lines, or the whole bowl where there are more. */
#include <math.h>

#include "report/reply_points.h"
#include "review/findings.h"
#include "text/plain.h"
#include "words/heeded.h"

enum { CHANGES_IN_A_LINE = 4, FOODS_ONLY_NAMED_MOST = 5 };

static const char *line_of_change(const struct mended *m, size_t change, int kind) {
  for (size_t i = 0; i < m->lines; i++)
    if ((int)m->line[i].kind == kind && m->line[i].change == (int)change) return m->line[i].text;
  return NULL;
}

/* The line as the owner wrote it: what the change begins with may have been scaled first. */
static const char *own_line(const struct gathering *g, const struct mended *m, size_t change, const char *scaled) {
  const struct ration *r = g->r->ration;
  for (size_t i = 0; (g->f->scaled > 0 || g->f->in_grams || g->f->plate_count > 0) && i < r->line_count; i++)
    if (r->line[i].line == m->text_line[change]) return r->line[i].text;
  return scaled;
}

static const struct cooked_first *cooked_line(const struct gathering *g, int line) {
  for (size_t i = 0; i < g->f->cooked_count; i++)
    if (g->f->cooked[i].line == line) return &g->f->cooked[i];
  return NULL;
}

static const char RAW_HARMS[] = ": raw, it destroys thiamin, of the whole bowl too";

/* Lines that are cooked, and but for that stay as they are; NULL: it changes as well, and is told there. */
static const char *cooked_in_words(struct gathering *g, const struct mended *m, const struct cooked_first *c) {
  for (size_t i = 0; i < m->proposal->count; i++)
    if (m->text_line[i] == c->line) return NULL;
  return words_text(g->arena, "“%s” becomes “%s”%s", plain_line(c->was, g->arena), plain_line(c->is, g->arena), RAW_HARMS);
}

static const char IS_RICH[] = ": it is rich in vitamins A and D, and the bowl is at the limit of one of them";

static const struct ration_line *line_at(const struct gathering *g, int line) {
  for (size_t i = 0; i < g->r->ration->line_count; i++)
    if (g->r->ration->line[i].line == line) return &g->r->ration->line[i];
  return NULL;
}

/* Why a rich dose goes; "": it is none. */
static const char *rich_words(struct gathering *g, int line) {
  const struct ration_line *l = line_at(g, line);
  if (!l || !mend_rich_dose(g->f->lib, l, g->r)) return "";
  enum nutrient of = mend_overdose(g->f->lib, l, g->r);
  return of == NUT_NONE
             ? IS_RICH
             : words_text(g->arena, ": it alone is more than the upper limit of %s", words_nutrient(g->arena, of));
}

/* The same of a line whose share of the dinner was what is wrong. */
static const char *plate_in_words(struct gathering *g, const struct mended *m, const struct plate_line *l) {
  for (size_t i = 0; i < m->proposal->count; i++)
    if (m->text_line[i] == l->line) return NULL;
  if (!l->is[0]) return words_text(g->arena, "Leave out “%s”%s", plain_line(l->was, g->arena), rich_words(g, l->line));
  return words_text(g->arena, "“%s” becomes “%s”", plain_line(l->was, g->arena), plain_line(l->is, g->arena));
}

/* Only watched, and no bowl that is proposed keeps it. */
static bool is_doubtful(const struct gathering *g, const struct mend_change *c) {
  for (size_t i = 0; c->line >= 0 && i < g->r->finding_count; i++)
    if (strcmp(g->r->finding[i].id, "doubtful-food") == 0 && g->r->finding[i].line == g->r->ration->line[c->line].line)
      return true;
  return false;
}

static const char *change_in_words(struct gathering *g, size_t i) {
  const struct mended *m = g->f->mended;
  const struct mend_change *c = &m->proposal->change[i];
  const char *out = line_of_change(m, i, LINE_OUT), *in = line_of_change(m, i, LINE_IN);
  if (out) out = own_line(g, m, i, out);
  if (out) out = plain_line(out, g->arena);
  if (in) in = plain_line(in, g->arena);
  if (out && in && (strcmp(out, in) == 0 || !reply_is_changed(m, i))) return NULL; /* it stays as it is */
  if (out && in && g->f->scaled > 0 && !cooked_line(g, m->text_line[i])) /* what the owner wrote is no amount of this bowl */
    return words_text(g->arena, "“%s” instead of its share%s", in, reply_why_changed(g, c));
  if (out && in)
    return words_text(g->arena, "“%s” becomes “%s”%s", out, in,
                      cooked_line(g, m->text_line[i])         ? RAW_HARMS
                      : reply_is_of_plate(g, m->text_line[i]) ? ""
                                                              : reply_why_changed(g, c));
  if (in)
    return words_text(g->arena, "Add “%s”%s%s%s", in, reply_where_added(g, i), reply_which(g->f->lib, m, i),
                      reply_for_what(g, c));
  if (out)
    return words_text(g->arena, "Leave out “%s”%s", out,
                      c->danger && c->unmeasured       ? ": nobody knows how much iodine is in it"
                      : c->danger && c->rich           ? rich_words(g, m->text_line[i])
                      : c->danger && is_doubtful(g, c) ? ": it is better left out"
                      : c->danger                      ? ": it is dangerous"
                                                       : reply_why_changed(g, c));
  return NULL;
}

static bool all_is_met(const struct check_result *r) {
  return r->verdict_count[VERDICT_SHORT] + r->verdict_count[VERDICT_THIN] + r->verdict_count[VERDICT_OVER] +
             r->verdict_count[VERDICT_UNPROVEN] ==
         0;
}

/* What the change leaves open until the label is read. */
static const char *open_after(struct gathering *g, const struct mended *m) {
  enum { NAMED_MOST = 4 };
  const char *item[NUT_COUNT];
  size_t n = 0;
  for (int i = 0; m->after && i < NUT_COUNT; i++)
    if (m->after->nutrient[i].verdict == VERDICT_UNPROVEN) item[n++] = words_nutrient(g->arena, (enum nutrient)i);
  return n > 0 && g->r->ration->uncounted_count > 0
             ? words_text(g->arena, "What I could not count leaves %s open even then.", reply_list(g, item, n, NAMED_MOST))
             : "";
}

static bool is_partly_beside_pot(const struct mended *m) {
  for (size_t i = 0; m->after && i < m->after->ration->line_count; i++)
    if (m->after->ration->line[i].frequency_stated) return true;
  return false;
}

/* Of one that is to lose weight: what the energy of the bowl means. */
static const char *loss_after(struct gathering *g, const struct mended *m) {
  const struct animal_body *b = &g->r->body;
  double kcal = m->after ? m->after->energy.supply_kcal : (double)NAN;
  if (!(b->aim_kcal > 0) || !(kcal > 0)) return "";
  const char *high = words_whole(g->arena, b->aim_high_kcal);
  if (kcal <= b->aim_high_kcal * 1.01)
    return words_text(g->arena, " So little is meant: on %s to %s kcal a day such animals lost weight in trials.",
                      words_whole(g->arena, b->loss_kcal), high);
  if (kcal <= g->r->energy.supply_kcal * 1.01)
    return words_text(g->arena,
                      " It has as much energy as now, %s kcal a day: if the weight does not fall within a month, come "
                      "down towards %s.",
                      words_whole(g->arena, kcal), words_whole(g->arena, b->aim_kcal));
  return words_text(
      g->arena,
      " It has %s kcal a day, more than the %s that are aimed at: if the weight does not fall on it, choose leaner "
      "foods, and leave out treats, oil, cheese and starch before all else.",
      words_whole(g->arena, kcal), words_whole(g->arena, b->aim_kcal));
}

static bool has_of(const struct check_result *r, const struct finding *f) {
  for (size_t i = 0; i < r->finding_count; i++) {
    const struct finding *x = &r->finding[i];
    if (strcmp(x->id, f->id) == 0 && x->nutrient_count > 0 && x->nutrient[0] == f->nutrient[0]) return true;
  }
  return false;
}

/* What 'mend' says of its own bowl: two of what it holds bring the same. */
static void tell_doubled(struct gathering *g, const struct mended *m) {
  for (size_t i = 0; m->after && i < m->after->finding_count; i++) {
    const struct finding *f = &m->after->finding[i];
    if (strcmp(f->id, "supplements-doubled") != 0 || f->nutrient_count == 0 || has_of(g->r, f)) continue;
    double upper = m->after->nutrient[f->nutrient[0]].upper;
    reply_say(g, REPLY_CHANGE, WORTH_KEEPING + 1, true,
              words_text(g->arena, "In that bowl: %s%s Read both labels; where one holds enough of it, keep that one alone.",
                         f->text,
                         upper > 0 ? words_text(g->arena, " At most %s is safe.",
                                                words_amount(g->arena, upper, nutrient_info[f->nutrient[0]].unit))
                                   : ""));
  }
}

/* What is added every day is meant for the days on which the animal eats. */
static void tell_fast(struct gathering *g) {
  if (!reply_fasts(g)) return;
  reply_say(
      g, REPLY_CHANGE, WORTH_KEEPING + 1, true,
      "A fast day stays one: nothing of what is new is given on it. Of food and powder divide that day's share among the "
      "other days; pills are given on those alone.");
}

static void tell_what_it_does(struct gathering *g, const struct mended *m, bool bowl) {
  double days = g->r->ration->days;
  const char *batch = days > 1 ? words_text(g->arena, "%s for the whole batch of %s days. ",
                                            is_partly_beside_pot(m) ? "What says how often is for one feeding, all else"
                                                                    : "These amounts are",
                                            words_number(g->arena, days))
                               : "";
  const char *done =
      m->after && all_is_met(m->after)
          ? words_text(g->arena,
                       reply_uncounted(g, NULL)[0] ? "What I could count then meets every need, at %s kcal a day."
                       : bowl                      ? "The bowl below meets every need, at %s kcal a day."
                                                   : "With all of it every need is met, at %s kcal a day.",
                       words_whole(g->arena, m->after->energy.supply_kcal))
          : open_after(g, m);
  const char *loss = loss_after(g, m);
  if (batch[0] || done[0] || loss[0])
    reply_say(g, REPLY_CHANGE, 75, true,
              words_text(g->arena, "%s%s%s", batch, done, done[0] || batch[0] || !loss[0] ? loss : loss + 1));
}

/* "a; b; c" */
static const char *one_row(struct gathering *g, const char *const *item, size_t n) {
  const char *row = item[0];
  for (size_t i = 1; i < n; i++) row = words_text(g->arena, "%s; %s", row, item[i]);
  return row;
}

/* 'after': something stands before it in the sentence. */
static const char *one_line(struct gathering *g, const char *const *item, size_t n, bool after) {
  const char *line = after && item[0][0] >= 'A' && item[0][0] <= 'Z'
                         ? words_text(g->arena, "%c%s", item[0][0] - 'A' + 'a', item[0] + 1)
                         : item[0];
  for (size_t i = 1; i < n; i++) {
    bool capital = item[i][0] >= 'A' && item[i][0] <= 'Z'; /* "Add", "Leave out" */
    line = words_text(g->arena, "%s; %c%s", line, capital ? item[i][0] - 'A' + 'a' : item[i][0], item[i] + 1);
  }
  return words_text(g->arena, "%s.", line);
}

static bool is_too_heavy(const struct gathering *g) { return g->r->body.loss_kcal > 0; }

static const char *scaled_words(struct gathering *g, bool bowl) {
  if (!(g->f->scaled > 0)) return "";
  const char *share = words_share(g->arena, g->f->scaled);
  if (findings_say(g->r, "batch-or-day"))
    return words_text(g->arena, "What follows is for one day, %s of what you wrote.", share);
  const char *how = bowl ? ", as below" : " of what you feed now";
  if (g->f->scaled > 1 || is_too_heavy(g)) /* where it is to lose weight nobody asks whether that is steady */
    return words_text(g->arena, "First feed %s of everything: %s%s.", g->f->scaled > 1 ? "more" : "less", share, how);
  return words_text(g->arena, "Unless the weight is steady on it, feed less of everything: %s%s.", share, how);
}

/* Raw wings that were counted without their bone: calcium on top of bone would be far too much. */
static bool bone_is_open(const struct gathering *g) {
  for (size_t i = 0; i < g->f->questions; i++)
    if (g->f->question[i]->about == ASKS_OF_BONE) return true;
  return false;
}

static bool bone_is_counted(const struct gathering *g) {
  for (size_t i = 0; i < g->r->ration->line_count; i++)
    if (g->r->ration->line[i].part_count > 1) return true;
  return false;
}

/* Nothing more is to be said of the amounts: they fit, or were made to. */
static bool is_scaled_without(const struct gathering *g) { return g->f->scaled > 0 || mend_size_fits(g->r); }

/* " Its label must first say ...": what is not counted may be a dose of it already. */
static const char *withheld_words(struct gathering *g) {
  const char *words = words_withheld(g->f->lib, g->r, g->arena);
  return words[0] ? words_text(g->arena, " %s", words) : "";
}

/* Of a kind that bounds it, and no dose of anything: the rest of the bowl need not wait for its label. */
static bool waits_for_nothing(const struct ration_uncounted *u) {
  bool bounded =
      u->kind.snack || (u->kind.holds && !isnan(u->kind.holds[NUT_PROTEIN]) && !isnan(u->kind.holds[NUT_CALCIUM]));
  return u->may_be_count == 0 && bounded && !u->kind.vague && !u->kind.nameless && !u->sole_food;
}

/* "I took “1 tsp glucosamine powder” for glucosamine ...": what was not counted and stands in the way of nothing; "" where
 * anything else is not counted. */
static const char *taken_for_words(struct gathering *g) {
  const struct ration *r = g->r->ration;
  const char **item = ARENA_NEW(g->arena, const char *, r->uncounted_count + 1);
  size_t n = 0;
  for (size_t i = 0; i < r->uncounted_count; i++) {
    const struct ration_uncounted *u = &r->uncounted[i];
    if (!waits_for_nothing(u)) return "";
    const char *name = u->kind.snack && !u->kind.holds ? "a treat" : u->kind.name;
    item[n++] = words_text(g->arena, "“%s” for %s", u->text, name);
  }
  if (n == 0 || withheld_words(g)[0]) return "";
  return words_text(g->arena, "I took %s, and did not count %s: what follows holds with and without %s.",
                    words_list(g->arena, item, n, n), n > 1 ? "them" : "it", n > 1 ? "them" : "it");
}

static void tell_first_steps(struct gathering *g) {
  bool many = false;
  const char *uncounted = reply_uncounted(g, &many), *scaled = scaled_words(g, true), *taken = taken_for_words(g);
  if (taken[0])
    reply_say(g, REPLY_CHANGE, 83, true, taken);
  else if (uncounted[0])
    reply_say(
        g, REPLY_CHANGE, 83, true,
        words_text(g->arena, "I could not count %s: leave %s out, or find out what is in %s, before you add anything.%s%s%s",
                   uncounted, many ? "them" : "it", many ? "them" : "it", withheld_words(g), is_scaled_without(g) ? "" : " ",
                   is_scaled_without(g) ? "" : words_not_scaled(many ? 2 : 1, g->arena)));
  g->told_uncounted = uncounted[0] != '\0';
  if (bone_is_open(g))
    reply_say(
        g, REPLY_CHANGE, 84, true,
        bone_is_counted(g)
            ? "I counted the bone as eaten. If it is taken out, there is far less calcium in the bowl: then write again "
              "before you change anything."
            : "I counted the meat without its bone. If the bone is eaten, there is far more calcium in the bowl: then "
              "add none, and write again.");
  if (scaled[0]) reply_say(g, REPLY_CHANGE, 82, true, scaled);
}

/* Calcium or taurine, for want of which most harm is done. */
static bool supplies_what_is_not_there(const struct mend_change *c) {
  for (int i = 0; i < c->too_much_from; i++)
    if (c->repairs[i] == NUT_CALCIUM || c->repairs[i] == NUT_TAURINE) return true;
  return false;
}

/* Dangers, then the owner's own lines, then what is added; within these in the order of the proposal. */
enum { RANKS = 4 };
static int rank_of(const struct mend_change *c) {
  return c->danger ? 0 : c->line >= 0 ? 1 : supplies_what_is_not_there(c) ? 2 : 3;
}

static bool is_poison(const struct mended *m, size_t i) {
  return m->proposal->change[i].danger && !m->proposal->change[i].unmeasured && !m->proposal->change[i].rich;
}

static size_t in_order(const struct mended *m, size_t *order) {
  size_t n = 0;
  for (int rank = 0; rank < RANKS; rank++)
    for (size_t i = 0; i < m->proposal->count; i++)
      if (rank_of(&m->proposal->change[i]) == rank) order[n++] = i;
  return n;
}

/* What the owner never feeds was not looked at. */
static const char *heeded_words(struct gathering *g) {
  const char *heeded = words_heeded(g->r->ration, "you ask", g->arena);
  if (!heeded[0]) return "";
  const char *meatless = g->r->animal ? words_meatless(g->r->ration, g->r->animal->species, g->arena) : "";
  return meatless[0] ? words_text(g->arena, "%s %s", heeded, meatless) : heeded;
}

static bool is_supplement(const struct gathering *g, const struct ration_line *l) {
  const struct img_food *f = library_food(g->f->lib, l->shown_food);
  return f && f->part == PART_SUPPLEMENT;
}

static bool has_supplements(const struct gathering *g, const struct ration *r) {
  for (size_t i = 0; i < r->line_count; i++)
    if (is_supplement(g, &r->line[i])) return true;
  return false;
}

/* Two of the owner's tablets in place of one are no way with foods alone. */
static bool gives_more_pills(const struct gathering *g, const struct mended *m) {
  for (size_t i = 0; i < m->proposal->count; i++) {
    const struct mend_change *c = &m->proposal->change[i];
    if (c->line < 0 || !(c->to_g > c->from_g) || !reply_is_changed(m, i)) continue;
    for (size_t k = 0; k < g->r->ration->line_count; k++)
      if (g->r->ration->line[k].line == m->text_line[i] && is_supplement(g, &g->r->ration->line[k])) return true;
  }
  return false;
}

/* One that does without supplements, where it is not the one that is told. */
static void tell_foods_only(struct gathering *g) {
  const struct mended *m = g->f->foods_only;
  const char *item[FOODS_ONLY_NAMED_MOST];
  size_t n = 0;
  if (!m || g->length == REPLY_LINES || gives_more_pills(g, m)) return;
  const char *without = has_supplements(g, m->after->ration) ? "nothing but foods added" : "foods alone and no pills";
  for (size_t i = 0; i < m->proposal->count; i++) {
    const struct mend_change *c = &m->proposal->change[i];
    if (c->line >= 0 && !reply_is_changed(m, i)) continue;
    if (n == COUNT_OF(item)) {
      reply_say(g, REPLY_CHANGE, 60, false,
                words_text(g->arena,
                           "It can also be done with %s, in somewhat more lines: tell me if you would rather have that.",
                           without));
      return;
    }
    const char *was = c->line < 0 ? NULL : reply_was(g, m, i);
    item[n++] = !(c->to_g > 0) ? words_text(g->arena, "no %s", m->food[i])
                : was          ? words_text(g->arena, "%s %s instead of %s", m->to[i], m->food[i], was)
                               : words_text(g->arena, "%s %s", m->to[i], m->food[i]);
  }
  if (n > 0)
    reply_say(g, REPLY_CHANGE, 60, true,
              words_text(g->arena, "Or with %s, which does it as well: “%s”.", without, words_list(g->arena, item, n, n)));
}

/* Lines that go, told before the bowl that is without them. */
static void tell_what_goes(struct gathering *g, const struct mended *m, const size_t *order, size_t count) {
  for (size_t i = 0; i < g->f->plate_count; i++) {
    const char *words = g->f->plate[i].is[0] ? NULL : plate_in_words(g, m, &g->f->plate[i]);
    if (words) reply_say(g, REPLY_CHANGE, 80.5, true, words_text(g->arena, "%s.", words));
  }
  for (size_t i = 0; i < count; i++) {
    const struct mend_change *c = &m->proposal->change[order[i]];
    if (c->line < 0 || line_of_change(m, order[i], LINE_IN) || is_poison(m, order[i])) continue;
    const char *words = change_in_words(g, order[i]);
    if (words) reply_say(g, REPLY_CHANGE, 80.5, true, words_text(g->arena, "%s.", words));
  }
}

static void tell_steps(struct gathering *g, const struct mended *m, const size_t *order, size_t count) {
  for (size_t i = 0; i < g->f->plate_count; i++) {
    const char *words = plate_in_words(g, m, &g->f->plate[i]);
    if (words) reply_say(g, REPLY_CHANGE, 81, true, words_text(g->arena, "%s.", words));
  }
  for (size_t i = 0; i < g->f->cooked_count; i++) {
    const char *words = cooked_in_words(g, m, &g->f->cooked[i]);
    if (words) reply_say(g, REPLY_CHANGE, 81, true, words_text(g->arena, "%s.", words));
  }
  for (size_t i = 0; i < count; i++) {
    const char *words = is_poison(m, order[i]) ? NULL : change_in_words(g, order[i]);
    if (words) reply_say(g, REPLY_CHANGE, 80, true, words_text(g->arena, "%s.", words));
  }
}

static void tell_found_in_full(struct gathering *g, const struct mended *m, const size_t *order, size_t count) {
  for (size_t i = 0; i < g->f->left_out_count; i++)
    reply_say(g, REPLY_CHANGE, 85, true, words_text(g->arena, "Leave out “%s”: it is dangerous.", g->f->left_out[i].said));
  for (size_t i = 0; i < count; i++) { /* before anything is said of amounts */
    const char *words = is_poison(m, order[i]) ? change_in_words(g, order[i]) : NULL;
    if (words) reply_say(g, REPLY_CHANGE, 85, true, words_text(g->arena, "%s.", words));
  }
  tell_first_steps(g);
  if (g->f->plate_count > 0) reply_say(g, REPLY_CHANGE, 82, true, g->f->plate_words);
  bool bowl = reply_tell_bowl(g, m);
  if (bowl)
    tell_what_goes(g, m, order, count);
  else
    tell_steps(g, m, order, count);
  tell_what_it_does(g, m, bowl);
  tell_doubled(g, m);
  tell_fast(g);
  tell_foods_only(g);
  if (m->ask_count > 0)
    reply_say(g, REPLY_CHANGE, WORTH_KEEPING + 1, true,
              words_text(g->arena, "Beyond the usual: %s.", one_row(g, m->asks, m->ask_count)));
}

static void tell_found_in_a_line(struct gathering *g, const struct mended *m, const size_t *order, size_t count) {
  const char *item[CHANGES_IN_A_LINE + 3];
  size_t n = 0, more = 0, told = 0;
  for (size_t i = 0; i < g->f->cooked_count && n < 1; i++) {
    const char *words = cooked_in_words(g, m, &g->f->cooked[i]);
    if (words) item[n++] = words;
  }
  for (size_t i = 0; i < g->f->plate_count && told < CHANGES_IN_A_LINE; i++) {
    const char *words = plate_in_words(g, m, &g->f->plate[i]);
    if (words) item[n++] = words, told++;
  }
  for (size_t i = 0; i < count; i++) {
    const char *words = change_in_words(g, order[i]);
    if (!words) continue;
    if (told++ < CHANGES_IN_A_LINE)
      item[n++] = words;
    else
      more++;
  }
  if (n == 0 && !(g->f->scaled > 0)) return;
  bool many = false;
  const char *uncounted = reply_uncounted(g, &many),
             *without =
                 uncounted[0]
                     ? words_text(g->arena, "I could not count %s: find out what %s, or leave %s out.%s %s%s", uncounted,
                                  many ? "they contain" : "it contains", many ? "them" : "it", withheld_words(g),
                                  is_scaled_without(g) ? "" : words_not_scaled(many ? 2 : 1, g->arena),
                                  is_scaled_without(g) ? "" : " ")
                     : "";
  g->told_uncounted = uncounted[0] != '\0';
  if (more > 0)
    item[n++] =
        words_text(g->arena, "%zu smaller change%s come%s after these", more, more == 1 ? "" : "s", more == 1 ? "s" : "");
  reply_say(g, REPLY_CHANGE, 870, true,
            words_text(g->arena, "%s%s%s%s%s%s", without, scaled_words(g, false), g->f->scaled > 0 && n > 0 ? " Then: " : "",
                       n > 0 ? one_line(g, item, n, g->f->scaled > 0) : "", heeded_words(g)[0] ? " " : "", heeded_words(g)));
}

static void tell_found(struct gathering *g, const struct mended *m) {
  size_t *order = ARENA_NEW(g->arena, size_t, m->proposal->count + 1), count = in_order(m, order);
  if (g->length == REPLY_LINES)
    tell_found_in_a_line(g, m, order, count);
  else
    tell_found_in_full(g, m, order, count);
}

/* "Is that ok for so long?" of an elimination diet. */
static void tell_trial(struct gathering *g) {
  const struct mended *m = g->f->mended;
  if (!ration_is_on_trial(g->r->ration) || g->mostly_unread) return;
  bool gaps = g->r->verdict_count[VERDICT_SHORT] + g->r->verdict_count[VERDICT_OVER] > 0;
  if (!gaps) return;
  reply_say(g, REPLY_VERDICT, 905, true,
            m && m->after && all_is_met(m->after)
                ? "What is missing counts for little over some days and for more with every week: no cause to break off the "
                  "trial. "
                  "With what is added below, none of it of another animal, every need is met for as long as it lasts."
                : "What is missing counts for little over some days and for more with every week: no cause to break off the "
                  "trial, "
                  "but ask the veterinarian who set it how to fill the gaps below, above all before it is fed for good.");
}

static void tell_heeded(struct gathering *g) {
  const char *words = heeded_words(g);
  if (words[0] && g->length != REPLY_LINES && (g->f->mended || g->f->why_none != REPLY_NOT_LOOKED))
    reply_say(g, REPLY_CHANGE, 79, true, words);
}

void reply_tell_change(struct gathering *g) {
  if (!g->r->animal || g->r->refusal != REFUSE_NOT) return;
  tell_heeded(g);
  tell_trial(g);
  if (g->f->mended && !g->mostly_unread)
    tell_found(g, g->f->mended);
  else
    reply_tell_none(g);
}
