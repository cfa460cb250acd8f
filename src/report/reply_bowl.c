/* The changed bowl: why each line is as it is, and all of it once, a food a line, so that nobody has to work out from a list
 * of changes what goes into it. */
#include <math.h>

#include "report/reply_points.h"
#include "text/plain.h"

enum { REASONS_MOST = 2, STEPS_MOST = 3, LONG_BOWL = 9 /* lines, from which on one reason is enough */ };

static size_t reasons_most(const struct gathering *g) {
  const struct ration *r = g->f->mended && g->f->mended->after ? g->f->mended->after->ration : NULL;
  return g->length != REPLY_FULL && r && r->line_count >= LONG_BOWL ? 1 : REASONS_MOST;
}

const char *reply_for_what(struct gathering *g, const struct mend_change *c) {
  const char *item[NUT_COUNT], *kept[NUT_COUNT];
  size_t n = 0, k = 0;
  for (size_t i = 0; i < c->repair_count; i++) {
    const char *name = words_nutrient(g->arena, c->repairs[i]);
    bool had = g->r->nutrient[c->repairs[i]].verdict == VERDICT_MET; /* the owner has just been told that it is enough */
    if (had && k < reasons_most(g)) kept[k++] = name;
    if (!had && n < reasons_most(g)) item[n++] = name;
  }
  if (n == 0 && k > 0)
    return words_text(g->arena, ", so that %s stay%s enough", words_list(g->arena, kept, k, REASONS_MOST), k > 1 ? "" : "s");
  if (n > 0) return words_text(g->arena, ", for %s", words_list(g->arena, item, n, REASONS_MOST));
  if (c->helps != NUT_NONE) return words_text(g->arena, ", which adds some %s", words_nutrient(g->arena, c->helps));
  return c->energy < 0 ? ", for energy" : c->balance < 0 ? ", for calcium beside the phosphorus" : "";
}

static const double NOT_A_TRIFLE = 0.05; /* of the energy */

static double share_of_energy(const struct gathering *g, int line) {
  for (size_t i = 0; i < g->r->energy.from_count; i++)
    if (g->r->energy.from[i].line == line) return g->r->energy.from[i].share;
  return 0;
}

/* Of an own line that shrinks or grows: what would be too little or too much without that. */
const char *reply_why_changed(struct gathering *g, const struct mend_change *c) {
  const char *little[NUT_COUNT], *much[NUT_COUNT];
  size_t n = 0, k = 0;
  for (size_t i = 0; i < c->repair_count; i++) {
    const char *name = words_nutrient(g->arena, c->repairs[i]);
    if ((int)i < c->too_much_from && n < reasons_most(g)) little[n++] = name;
    if ((int)i >= c->too_much_from && k < reasons_most(g)) much[k++] = name;
  }
  if (n > 0 && c->to_g > c->from_g) return words_text(g->arena, ", for %s", words_list(g->arena, little, n, REASONS_MOST));
  /* of what the owner feeds now: a line that grows less than the rest is no cut to the owner */
  double own = g->f->scaled > 0 ? c->from_g / g->f->scaled : c->from_g;
  static const double SAME = 1.02;
  if (c->to_g > SAME * own) return "";
  if (k > 0) return words_text(g->arena, ": else too much %s", words_list(g->arena, much, k, REASONS_MOST));
  if (c->energy > 0 && share_of_energy(g, c->line) >= NOT_A_TRIFLE)
    return mend_is_below_need(g->f->mended->after) ? ", which makes room for what is added" : ": else too much energy";
  if (n > 0) return words_text(g->arena, ", which leaves room for %s", words_list(g->arena, little, n, REASONS_MOST));
  return "";
}

bool reply_is_changed(const struct mended *m, size_t change) {
  static const double SAME = 0.06; /* what a kitchen measures is not finer */
  const struct mend_change *c = &m->proposal->change[change];
  return c->line < 0 || c->danger || fabs(c->to_g - c->from_g) > SAME * c->from_g;
}

/* A line of the new text: the change that wrote it (-1: none), and which of the owner's it was (0: none, it is added). */
struct origin {
  int change, own;
};

static struct origin origin_of(const struct mended *m, int line) {
  int at = 0;
  for (size_t i = 0; i < m->lines; i++) {
    const struct mended_line *l = &m->line[i];
    if (l->kind == LINE_OUT || ++at < line) continue;
    if (l->kind == LINE_SAME) return (struct origin){-1, l->line};
    if (l->change >= 0) return (struct origin){l->change, m->text_line[l->change]};
    return (struct origin){-1, i > 0 && l[-1].kind == LINE_OUT ? l[-1].line : 0};
  }
  return (struct origin){-1, 0};
}

static const struct ration_line *new_line(const struct mended *m, size_t change) {
  const struct ration *r = m->after ? m->after->ration : NULL;
  for (size_t i = 0; r && i < r->line_count; i++)
    if (origin_of(m, r->line[i].line).change == (int)change) return &r->line[i];
  return NULL;
}

const char *reply_which(const struct library *lib, const struct mended *m, size_t change) {
  const struct ration_line *l = new_line(m, change);
  return l && strcmp(library_code(lib, l->shown_food), "ours:multivitamin") == 0 ? ", one without sweetener" : "";
}

/* Where a line of the owner's says how often it is fed, what is added says that it is fed every day. */
static bool days_differ(const struct ration *r) {
  for (size_t i = 0; i < r->line_count; i++)
    if (r->line[i].times_per_28 < CALENDAR_DAYS || r->line[i].frequency_stated) return true;
  return false;
}

/* Of a batch what says how often it is fed is given beside it, in amounts of a day; all else is cooked with it. */
static bool is_beside_pot(const struct ration_line *l) { return l->frequency_stated; }

static bool is_daily(const struct ration_line *l) { return l->times_per_28 >= CALENDAR_DAYS; }

/* ", into the pot", ", over the bowl every day", ", every day"; "" where there is nothing to mistake. */
static const char *where_words(const struct gathering *g, const struct ration_line *l) {
  if (g->f->mended->after->ration->days > 1)
    return !is_beside_pot(l) ? ", into the pot" : is_daily(l) ? ", over the bowl every day" : ", over the bowl";
  if (!days_differ(g->r->ration) || !is_daily(l)) return "";
  return reply_fasts(g) ? ", on every day with food" : ", every day";
}

const char *reply_where_added(const struct gathering *g, size_t change) {
  const struct ration_line *l = new_line(g->f->mended, change);
  return !l || !(g->f->mended->after->ration->days > 1) ? "" : is_beside_pot(l) ? " over the bowl" : " to the pot";
}

static const char *line_of_bowl(struct gathering *g, const struct ration_line *l, bool added) {
  const char *line = plain_line(l->text, g->arena);
  bool batch = g->f->mended->after->ration->days > 1;
  return batch && !added ? line : plain_of_a_day(line, g->arena); /* what is added says it behind the food */
}

static size_t words_before(const char *text, const char *end) {
  size_t n = 0;
  for (; text < end; text++) n += text[0] != ' ' && text[1] == ' ';
  return n;
}

/* The amount that the owner wrote, where the food is the same; else the whole line: "60 g", "“300 g pork belly”". */
static const char *owner_wrote(struct gathering *g, int line, const char *now) {
  const struct ration_line *own = NULL;
  for (size_t i = 0; i < g->r->ration->line_count; i++)
    if (g->r->ration->line[i].line == line) own = &g->r->ration->line[i];
  if (!own) return NULL;
  const char *was = plain_line(own->text, g->arena), *food = own->food_words ? own->food_words : "";
  const char *at = food[0] ? words_in_line(was, food) : NULL;
  if (strcmp(was, now) == 0) return NULL;
  const char *same = at ? words_in_line(now, at) : NULL;
  bool alike = same && at > was && words_before(was, at) == words_before(now, same); /* no "extra lean" between them */
  if (!alike) return words_text(g->arena, "“%s”", was);
  struct span amount = span_trim((struct span){was, (size_t)(at - was)});
  if (amount.n > 3 && memcmp(amount.p + amount.n - 3, " of", 3) == 0) amount.n -= 3;
  return arena_text(g->arena, amount);
}

bool reply_is_of_plate(const struct gathering *g, int line) {
  for (size_t i = 0; i < g->f->plate_count; i++)
    if (g->f->plate[i].line == line) return true;
  return false;
}

const char *reply_was(const struct gathering *g, const struct mended *m, size_t change) {
  bool begun_anew = g->f->scaled > 0 || g->f->in_grams || reply_is_of_plate(g, m->text_line[change]);
  return begun_anew ? NULL : m->from[change];
}

/* "(new, for zinc and iodine)", "(instead of 300 g: else too much fat)". What is named is what the owner
 * wrote; of a bowl that was scaled that is no amount to compare with. */
static const char *beside(struct gathering *g, const struct mended *m, const struct ration_line *l, const char *now) {
  struct origin from = origin_of(m, l->line);
  if (from.own > 0 && reply_is_of_plate(g, from.own)) { /* why is said of all of them */
    const char *was = owner_wrote(g, from.own, now);
    return was ? words_text(g->arena, " (instead of %s)", was) : "";
  }
  if (from.change < 0 || !reply_is_changed(m, (size_t)from.change)) return "";
  const struct mend_change *c = &m->proposal->change[from.change];
  if (c->line < 0)
    return words_text(g->arena, " (new%s%s%s)", where_words(g, l), reply_which(g->f->lib, m, (size_t)from.change),
                      reply_for_what(g, c));
  const char *why = reply_why_changed(g, c), *was = reply_was(g, m, (size_t)from.change);
  if (was) return words_text(g->arena, " (instead of %s%s)", was, why);
  return why[0] ? words_text(g->arena, " (a %s part%s)", c->to_g > c->from_g ? "larger" : "smaller", why) : "";
}

static size_t steps_of(const struct gathering *g, const struct mended *m) {
  size_t n = g->f->left_out_count + g->f->cooked_count;
  for (size_t i = 0; i < m->proposal->count; i++) n += reply_is_changed(m, i);
  return n;
}

bool reply_goes_out(const struct mended *m, int line) {
  for (size_t i = 0; i < m->lines; i++) {
    const struct mended_line *l = &m->line[i], *next = i + 1 < m->lines ? l + 1 : NULL;
    if (l->kind != LINE_OUT || l->line != line) continue;
    bool added = next && next->kind == LINE_IN && next->change >= 0 && m->proposal->change[next->change].line < 0;
    return !next || next->kind != LINE_IN || added;
  }
  return false;
}

bool reply_tell_bowl(struct gathering *g, const struct mended *m) {
  const struct ration *r = m->after ? m->after->ration : NULL;
  if (!r || g->length == REPLY_LINES || (!(g->f->scaled > 0) && !g->f->in_grams && steps_of(g, m) <= STEPS_MOST))
    return false;
  for (size_t i = 0; i < r->line_count; i++) {
    const struct ration_line *l = &r->line[i];
    struct origin from = origin_of(m, l->line);
    const char *line = line_of_bowl(g, l, from.own == 0);
    reply_say(g, REPLY_BOWL, 80, true, words_text(g->arena, "%s%s", line, beside(g, m, l, line)));
  }
  return true;
}
