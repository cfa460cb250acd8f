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
  const char *item[NUT_COUNT];
  size_t n = 0;
  for (size_t i = 0; i < c->repair_count && n < reasons_most(g); i++) item[n++] = words_nutrient(g->arena, c->repairs[i]);
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
  if (k > 0)
    return words_text(g->arena, ": otherwise there would be too much %s", words_list(g->arena, much, k, REASONS_MOST));
  if (c->energy > 0 && share_of_energy(g, c->line) >= NOT_A_TRIFLE)
    return mend_is_below_need(g->f->mended->after) ? ", which makes room for what is added"
                                                   : ": otherwise there would be too much energy";
  if (n > 0) return words_text(g->arena, ", which leaves room for %s", words_list(g->arena, little, n, REASONS_MOST));
  return "";
}

bool reply_is_changed(const struct mended *m, size_t change) {
  static const double SAME = 0.06; /* what a kitchen measures is not finer */
  const struct mend_change *c = &m->proposal->change[change];
  return c->line < 0 || c->danger || fabs(c->to_g - c->from_g) > SAME * c->from_g;
}

/* The change that wrote this line of the new text; -1: it is as it was. */
static int change_of(const struct mended *m, int line) {
  int at = 0;
  for (size_t i = 0; i < m->lines; i++) {
    if (m->line[i].kind == LINE_OUT) continue;
    if (++at == line) return m->line[i].kind == LINE_IN ? m->line[i].change : -1;
  }
  return -1;
}

/* Where a line of the owner's says how often it is fed, what is added says that it is fed every day. */
static bool days_differ(const struct ration *r) {
  for (size_t i = 0; i < r->line_count; i++)
    if (r->line[i].times_per_28 < CALENDAR_DAYS || r->line[i].frequency_stated) return true;
  return false;
}

/* "(new, for zinc and iodine)", "(instead of 300 g: otherwise there would be too much fat)" */
static const char *beside(struct gathering *g, const struct mended *m, int change, bool daily) {
  if (change < 0 || !reply_is_changed(m, (size_t)change)) return "";
  const struct mend_change *c = &m->proposal->change[change];
  if (c->line < 0) return words_text(g->arena, " (new%s%s)", daily ? ", every day" : "", reply_for_what(g, c));
  const char *why = reply_why_changed(g, c), *was = g->f->scaled > 0 ? NULL : m->from[change];
  if (was) return words_text(g->arena, " (instead of %s%s)", was, why);
  return why[0] ? words_text(g->arena, " (%s than its share%s)", c->to_g > c->from_g ? "more" : "less", why) : "";
}

static size_t steps_of(const struct gathering *g, const struct mended *m) {
  size_t n = g->f->left_out_count + g->f->cooked_count;
  for (size_t i = 0; i < m->proposal->count; i++) n += reply_is_changed(m, i);
  return n;
}

bool reply_tell_bowl(struct gathering *g, const struct mended *m) {
  const struct ration *r = m->after ? m->after->ration : NULL;
  if (!r || g->length == REPLY_LINES || (!(g->f->scaled > 0) && !g->f->in_grams && steps_of(g, m) <= STEPS_MOST))
    return false;
  bool differ = days_differ(g->r->ration);
  for (size_t i = 0; i < r->line_count; i++) {
    const struct ration_line *l = &r->line[i];
    const char *line = plain_of_a_day(plain_line(l->text, g->arena), g->arena);
    reply_say(
        g, REPLY_BOWL, 80, true,
        words_text(g->arena, "%s%s", line, beside(g, m, change_of(m, l->line), differ && l->times_per_28 >= CALENDAR_DAYS)));
  }
  return true;
}
