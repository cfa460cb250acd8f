/* The change in the owner's own lines: what comes out or shrinks first, then what is added. Where no change was found, what
 * stands in the way of one, and what would settle it. */
#include <math.h>

#include "report/reply_points.h"
#include "review/findings.h"
#include "text/plain.h"
#include "words/heeded.h"

enum {
  REASONS_MOST = 3,
  CHANGES_MOST = 7,
  CHANGES_BESIDE_HARMS = 5,
  MANY_HARMS = 4,
  UNPROVEN_MOST = 5,
  FEW_UNPROVEN = 4,
  FOODS_MOST = 3,
  CHANGES_IN_A_LINE = 4
};

static const char *line_of_change(const struct mended *m, size_t change, int kind) {
  for (size_t i = 0; i < m->lines; i++)
    if ((int)m->line[i].kind == kind && m->line[i].change == (int)change) return m->line[i].text;
  return NULL;
}

static const char *for_what(struct gathering *g, const struct mend_change *c) {
  const char *item[NUT_COUNT];
  size_t n = 0;
  for (size_t i = 0; i < c->repair_count && n < REASONS_MOST; i++) item[n++] = words_nutrient(g->arena, c->repairs[i]);
  if (n > 0) return words_text(g->arena, ", for %s", words_list(g->arena, item, n, REASONS_MOST));
  if (c->helps != NUT_NONE) return words_text(g->arena, ", which helps with %s", words_nutrient(g->arena, c->helps));
  return c->energy < 0 ? ", for energy" : c->balance < 0 ? ", for calcium beside the phosphorus" : "";
}

static const double NOT_A_TRIFLE = 0.05; /* of the energy */

static double share_of_energy(const struct gathering *g, int line) {
  for (size_t i = 0; i < g->r->energy.from_count; i++)
    if (g->r->energy.from[i].line == line) return g->r->energy.from[i].share;
  return 0;
}

/* Of an own line that shrinks or grows: what would be too little or too much without that. */
static const char *why_changed(struct gathering *g, const struct mend_change *c) {
  const char *little[NUT_COUNT], *much[NUT_COUNT];
  size_t n = 0, k = 0;
  for (size_t i = 0; i < c->repair_count; i++) {
    const char *name = words_nutrient(g->arena, c->repairs[i]);
    if ((int)i < c->too_much_from && n < REASONS_MOST) little[n++] = name;
    if ((int)i >= c->too_much_from && k < REASONS_MOST) much[k++] = name;
  }
  if (n > 0 && c->to_g > c->from_g) return words_text(g->arena, ", for %s", words_list(g->arena, little, n, REASONS_MOST));
  /* of what the owner feeds now: a line that grows less than the rest is no cut to the owner */
  double own = g->f->scaled > 0 ? c->from_g / g->f->scaled : c->from_g;
  static const double SAME = 1.02;
  if (c->to_g > SAME * own) return "";
  if (k > 0)
    return words_text(g->arena, ": otherwise there would be too much %s", words_list(g->arena, much, k, REASONS_MOST));
  if (c->energy > 0 && share_of_energy(g, c->line) >= NOT_A_TRIFLE)
    return mend_is_below_need(g->f->mended->after) ? ", which makes room for what is added"
                                                   : ": otherwise there would be too much energy";
  if (n > 0) return words_text(g->arena, ", which leaves room for %s", words_list(g->arena, little, n, REASONS_MOST));
  return "";
}

/* The line as the owner wrote it: what the change begins with may have been scaled first. */
static const char *own_line(const struct gathering *g, const struct mended *m, size_t change, const char *scaled) {
  const struct ration *r = g->r->ration;
  for (size_t i = 0; (g->f->scaled > 0 || g->f->in_grams) && i < r->line_count; i++)
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

static const char *change_in_words(struct gathering *g, size_t i) {
  const struct mended *m = g->f->mended;
  const struct mend_change *c = &m->proposal->change[i];
  const char *out = line_of_change(m, i, LINE_OUT), *in = line_of_change(m, i, LINE_IN);
  if (out) out = own_line(g, m, i, out);
  if (out) out = plain_line(out, g->arena);
  if (in) in = plain_line(in, g->arena);
  if (out && in && strcmp(out, in) == 0) return words_text(g->arena, "“%s” stays as it is%s", out, why_changed(g, c));
  if (out && in)
    return words_text(g->arena, "“%s” becomes “%s”%s", out, in,
                      cooked_line(g, m->text_line[i]) ? RAW_HARMS : why_changed(g, c));
  if (in) return words_text(g->arena, "Add “%s”%s", in, for_what(g, c));
  if (out)
    return words_text(g->arena, "Leave out “%s”%s", out,
                      c->danger && c->unmeasured ? ": nobody knows how much iodine is in it"
                      : c->danger                ? ": it is dangerous"
                                                 : why_changed(g, c));
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

static void tell_what_it_does(struct gathering *g, const struct mended *m, size_t more) {
  double days = g->r->ration->days;
  const char *batch =
      days > 1 ? words_text(g->arena, "These amounts are for the whole batch of %s days. ", words_number(g->arena, days))
               : "";
  const char *rest = more > 0
                         ? words_text(g->arena, "%zu smaller change%s come%s after these; I can send you the whole recipe. ",
                                      more, more == 1 ? "" : "s", more == 1 ? "s" : "")
                         : "";
  const char *done = m->after && all_is_met(m->after)
                         ? words_text(g->arena, "With all of it every need is met, at %s kcal a day.",
                                      words_whole(g->arena, m->after->energy.supply_kcal))
                         : open_after(g, m);
  if (batch[0] || rest[0] || done[0])
    reply_say(g, REPLY_CHANGE, 75, true, words_text(g->arena, "%s%s%s", batch, rest, done));
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

static const char *scaled_words(struct gathering *g) {
  if (!(g->f->scaled > 0)) return "";
  if (findings_say(g->r, "batch-or-day"))
    return words_text(g->arena, "What follows is for one day, %s of what you wrote; tell me if that is not how you feed it.",
                      words_share(g->arena, g->f->scaled));
  return words_text(g->arena, "First feed %s of everything: %s of what you feed now.", g->f->scaled > 1 ? "more" : "less",
                    words_share(g->arena, g->f->scaled));
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

static void tell_first_steps(struct gathering *g) {
  bool many = false;
  const char *uncounted = reply_uncounted(g, &many), *scaled = scaled_words(g), *it = many ? "they" : "it";
  if (uncounted[0])
    reply_say(
        g, REPLY_CHANGE, 83, true,
        words_text(g->arena,
                   "I could not count %s. Before you add anything, leave %s out or find out what %s %s: %s may already "
                   "supply some of what you would add.%s%s%s",
                   uncounted, many ? "them" : "it", it, many ? "contain" : "contains", it, withheld_words(g),
                   is_scaled_without(g) ? "" : " ", is_scaled_without(g) ? "" : words_not_scaled(many ? 2 : 1, g->arena)));
  g->told_uncounted = uncounted[0] != '\0';
  if (bone_is_open(g))
    reply_say(
        g, REPLY_CHANGE, 84, true,
        bone_is_counted(g)
            ? "I counted the bone as eaten. If it is taken out, there is far less calcium in the bowl: then write again "
              "before you change anything."
            : "I counted the meat without its bone. If the bone is eaten, there is far more calcium in the bowl: then "
              "add none, and write again.");
  if (scaled[0])
    reply_say(g, REPLY_CHANGE, 82, true,
              findings_say(g->r, "batch-or-day")
                  ? scaled
                  : words_text(g->arena, "%s The lines below already allow for that.", scaled));
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
  return m->proposal->change[i].danger && !m->proposal->change[i].unmeasured;
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
  const char *never = words_never(g->r->ration, g->arena);
  return never[0] ? words_text(g->arena, "Nothing with %s is proposed, as you ask.", never) : "";
}

/* What has to be said before any change: where it is much, fewer changes are told in full. */
static size_t harms_told(const struct gathering *g) {
  size_t n = 0;
  for (size_t i = 0; i < g->all.count; i++) {
    const struct reply_point *x = &g->all.point[i];
    n += x->must && x->worth >= WORTH_KEEPING && (x->part == REPLY_DANGER || x->part == REPLY_ACT || x->part == REPLY_WATCH);
  }
  return n;
}

static void tell_found(struct gathering *g, const struct mended *m) {
  bool few = g->length == REPLY_LINES;
  const char *item[CHANGES_MOST + 2];
  size_t n = 0, more = 0, *order = ARENA_NEW(g->arena, size_t, m->proposal->count + 1), count = in_order(m, order);
  size_t room = few ? CHANGES_IN_A_LINE : harms_told(g) < MANY_HARMS ? CHANGES_MOST : CHANGES_BESIDE_HARMS;
  size_t most = g->length == REPLY_FULL || count == room + 1 ? count : room; /* one alone is not left out */
  for (size_t i = 0; i < g->f->left_out_count && !few; i++)                  /* of a few lines the danger itself is one */
    reply_say(g, REPLY_CHANGE, 85, true, words_text(g->arena, "Leave out “%s”: it is dangerous.", g->f->left_out[i].said));
  for (size_t i = 0; i < count && !few; i++) { /* before anything is said of amounts */
    const char *words = is_poison(m, order[i]) ? change_in_words(g, order[i]) : NULL;
    if (words) reply_say(g, REPLY_CHANGE, 85, true, words_text(g->arena, "%s.", words));
  }
  if (!few) tell_first_steps(g);
  for (size_t i = 0; i < g->f->cooked_count; i++) {
    const char *words = cooked_in_words(g, m, &g->f->cooked[i]);
    if (words && few && n < 1) item[n++] = words;
    if (words && !few) reply_say(g, REPLY_CHANGE, 81, true, words_text(g->arena, "%s.", words));
  }
  for (size_t i = 0; i < count; i++) {
    const char *words = change_in_words(g, order[i]);
    if (!words || (!few && is_poison(m, order[i]))) continue;
    if (i >= most)
      more++;
    else if (!few)
      reply_say(g, REPLY_CHANGE, 80, true, words_text(g->arena, "%s.", words));
    else if (n < COUNT_OF(item))
      item[n++] = words;
  }
  if (n > 0) {
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
    if (more > 0) item[n++] = words_text(g->arena, "%zu smaller changes come after these", more);
    reply_say(g, REPLY_CHANGE, 870, true,
              words_text(g->arena, "%s%s%s%s%s%s", without, scaled_words(g), g->f->scaled > 0 ? " Then: " : "",
                         one_line(g, item, n, g->f->scaled > 0), heeded_words(g)[0] ? " " : "", heeded_words(g)));
  }
  if (m->ask_count > 0)
    reply_say(g, REPLY_CHANGE, 30, false,
              words_text(g->arena, "What it asks of you: %s.", one_row(g, m->asks, m->ask_count)));
  if (!few) tell_what_it_does(g, m, more);
}

/* ---- no change ---------------------------------------------------------------------------------------------------- */

/* "Turkey heart" inside a sentence; "EPA" stays. */
static const char *in_small_letters(struct gathering *g, const char *words) {
  bool capital = words[0] >= 'A' && words[0] <= 'Z' && words[1] >= 'a' && words[1] <= 'z';
  return capital ? words_text(g->arena, "%c%s", words[0] - 'A' + 'a', words + 1) : words;
}

/* The foods that most often lack a figure where one is needed. */
static const char *foods_without_figures(struct gathering *g) {
  const struct ration *r = g->r->ration;
  size_t *times = ARENA_NEW(g->arena, size_t, r->line_count + 1), n = 0;
  const char *item[FOODS_MOST];
  for (int k = 0; k < NUT_COUNT; k++) {
    if (g->r->nutrient[k].verdict != VERDICT_UNPROVEN) continue;
    const struct supply_list *list = who_supplies(&g->r->nutrient[k]);
    for (size_t i = 0; i < list->missing_count; i++) times[list->missing[i]]++;
  }
  while (n < FOODS_MOST) {
    size_t best = 0;
    for (size_t i = 1; i < r->line_count; i++)
      if (times[i] > times[best]) best = i;
    if (r->line_count == 0 || times[best] == 0) break;
    times[best] = 0;
    item[n++] = in_small_letters(g, words_line(g->arena, g->f->lib, r, (int)best));
  }
  return n > 0 ? words_list(g->arena, item, n, n) : "";
}

static const char *unproven_words(struct gathering *g, size_t *count) {
  const char *item[NUT_COUNT];
  *count = 0;
  for (int i = 0; i < NUT_COUNT; i++)
    if (g->r->nutrient[i].verdict == VERDICT_UNPROVEN) item[(*count)++] = words_nutrient(g->arena, (enum nutrient)i);
  return reply_list(g, item, *count, UNPROVEN_MOST);
}

/* What is in the way of a verdict, and what would settle it. */
static void tell_in_the_way(struct gathering *g) {
  size_t unproven;
  bool many = false;
  const char *uncounted = reply_uncounted(g, &many), *needs = unproven_words(g, &unproven);
  if (unproven == 0) return;
  bool few = g->length == REPLY_LINES;
  double worth = few ? 790 : 78;
  if (uncounted[0]) {
    reply_say(g, REPLY_CHANGE, worth, true,
              words_text(g->arena,
                         "I cannot judge %s until I know what is in %s. A label, or the weight and the kind of food, would "
                         "settle it%s.",
                         g->mostly_unread ? "the bowl" : needs, uncounted,
                         g->mostly_unread ? ""
                         : many           ? "; so would leaving them out for now"
                                          : "; so would leaving it out for now"));
    g->told_uncounted = true;
    return;
  }
  const char *foods = foods_without_figures(g);
  if (!foods[0]) return;
  bool few_needs = unproven < FEW_UNPROVEN;
  reply_say(g, few_needs ? REPLY_SURE : REPLY_CHANGE, few_needs ? 25 : worth, !few_needs,
            words_text(g->arena,
                       "I cannot judge %s: there is no figure for %s. What the seller or maker states would settle it.",
                       needs, foods));
}

/* Does one of the things to act on that are told name an amount that covers it? */
static bool covers_named(const struct gathering *g) {
  size_t told = 0;
  for (size_t i = 0; i < g->r->finding_count; i++) {
    const struct finding *f = &g->r->finding[i];
    if (f->danger || f->weight != FINDING_ACT) continue;
    if (told++ == ACTED_ON_MOST && g->length != REPLY_FULL) return false;
    if (f->covers) return true;
  }
  return false;
}

static void tell_none_found(struct gathering *g) {
  bool few = g->length == REPLY_LINES;
  tell_in_the_way(g);
  if (g->mostly_unread || g->f->why_none == REPLY_NOT_LOOKED) return;
  bool gaps = g->r->verdict_count[VERDICT_SHORT] + g->r->verdict_count[VERDICT_OVER] > 0;
  const char *first =
      g->f->why_none == REPLY_RAN_OUT_OF_TIME
          ? "I did not find one change that covers everything at once in the time that I gave it; there may "
            "be one."
      : g->f->why_none == REPLY_TOO_MUCH_CHANGED
          ? "The change that would cover everything at once leaves too little of your own dinner for me to "
            "recommend it."
      : g->f->why_none == REPLY_NO_DINNER
          ? isfinite(g->r->energy.supply_kcal) && !g->r->energy.in_part
                ? "There is too little food in this to mend it: it needs more of a dinner first."
                : "I cannot mend this before somebody knows how much energy is in it: its label should say."
          : "I found no change with usual portions that covers everything at once while your own foods stay.";
  reply_say(
      g, REPLY_CHANGE, few ? 780 : 76, true,
      words_text(
          g->arena, "%s%s", first,
          !gaps || g->f->why_none == REPLY_NO_DINNER ? ""
          : few                                      ? " Begin with what is named first."
          : covers_named(g)
              ? " The amounts named above each cover their own gap: begin with the first, and write again with what you "
                "then feed."
              : " Begin with what is named first above, and write again with what you then feed."));
}

static void tell_heeded(struct gathering *g) {
  const char *words = heeded_words(g);
  if (words[0] && g->length != REPLY_LINES && (g->f->mended || g->f->why_none != REPLY_NOT_LOOKED))
    reply_say(g, REPLY_CHANGE, 79, true, words);
}

void reply_tell_change(struct gathering *g) {
  if (!g->r->animal || g->r->refusal != REFUSE_NOT) return;
  tell_heeded(g);
  if (g->f->mended && !g->mostly_unread)
    tell_found(g, g->f->mended);
  else
    tell_none_found(g);
}
