/* The windows of each nutrient as a line, one mark a day, against the allowance. */
#include <math.h>
#include <string.h>

#include "report/week_parts.h"

/* ---- windows as lines ------------------------------------------------------------------------------------------ */

static const char *const BLOCK[] = {"_", "▁", "▂", "▃", "▄", "▅", "▆", "▇"};
static const char *const DIGIT[] = {"0", "1", "2", "3", "4", "5", "6", "7", "8", "9"};

static void put_window(const struct week_scene *s, struct row *r, int column, const struct week_nutrient *n, int at) {
  const struct pen *p = &s->v.pen;
  enum verdict v = n->window_verdict[at];
  double ratio = n->allowance > 0 ? n->window[at] / n->allowance : (double)NAN; /* nothing is needed: met */
  if ((!n->known || isnan(n->window[at])) && v != VERDICT_MET && v != VERDICT_OVER) {
    row_glyph(r, column, INK_DIM, G_DOT);
  } else if (v == VERDICT_OVER) {
    row_put(r, column, INK_LOUD, p->unicode ? "▲" : "^");
  } else if (v == VERDICT_UNPROVEN) {
    row_put(r, column, INK_DIM, "?");
  } else if (v == VERDICT_MET || isnan(ratio)) {
    row_put(r, column, INK_DIM, p->unicode ? "█" : "#");
  } else if (ratio >= 1) { /* reached, but not clearly */
    row_put(r, column, INK_ACCENT, p->unicode ? "▓" : "+");
  } else {
    row_put(r, column, INK_ACCENT,
            p->unicode ? BLOCK[(int)(ratio * COUNT_OF(BLOCK))] : DIGIT[(int)(ratio * COUNT_OF(DIGIT))]);
  }
}

/* One column a day, and a blank between weeks when there is room. */
static int columns_of(const struct week_scene *s, bool *gaps) {
  int room = s->v.pen.width - 2 * MARGIN - NAME_COLUMNS - DAYS_COLUMNS - 2 * FIGURE_COLUMNS - 2;
  *gaps = s->days + s->days / WEEK <= room;
  return room;
}

/* "≥62 %" of a run with a day of which nothing is known. */
static const char *share_known(const struct pen *p, const struct week_window *w, double share) {
  bool at_least = w->at_least && isfinite(share) && !(share > 0.99 && share < 1); /* ">99 %" says it already */
  return say_text(p, "%s%s", !at_least ? "" : p->unicode ? "≥" : ">=", say_percent(p, share));
}

static bool is_drawn(const struct week_scene *s, const struct week_nutrient *n) {
  if (n->averaging == AVERAGING_NO_FIGURE || !n->known || n->id == NUT_ENERGY) return false;
  return s->v.pen.all || (n->averaging != AVERAGING_NOT_NEEDED && !week_fails_by_fasts(s->w, n->id));
}

/* Does a line say "at least"? */
static bool says_at_least(const struct week_scene *s) {
  for (int i = 0; i < NUT_COUNT; i++) {
    const struct week_nutrient *n = &s->w->nutrient[i];
    if (is_drawn(s, n) && (n->leanest.at_least || n->richest.at_least)) return true;
  }
  return false;
}

static void write_line(const struct week_scene *s, const struct week_nutrient *n) {
  const struct pen *p = &s->v.pen;
  bool gaps;
  int room = columns_of(s, &gaps), at = MARGIN + NAME_COLUMNS + DAYS_COLUMNS, from = s->days > room ? s->days - room : 0;
  struct row r;
  row_start(&r, p);
  row_fit(&r, MARGIN, NAME_COLUMNS - 1, INK_PLAIN, nutrient_info[n->id].name);
  row_right(&r, at - 1, DAYS_COLUMNS, INK_DIM, say_text(p, "%d d", n->window_days));
  for (int i = from; i < s->days; i++) {
    if (gaps && i > from && weekday_of(s, i) == 0) at++;
    put_window(s, &r, at++, n, s->first + i);
  }
  int right = p->width - MARGIN;
  if (!n->known) {
    row_right(&r, right, 2 * FIGURE_COLUMNS, INK_DIM, "not known");
    row_end(&r);
    return;
  }
  enum { SPARE = 2 }; /* that columns_of leaves, for "not known" */
  row_right(&r, right - FIGURE_COLUMNS, FIGURE_COLUMNS + SPARE, INK_STRONG, share_known(p, &n->leanest, n->leanest.ratio));
  row_right(&r, right, FIGURE_COLUMNS, INK_DIM,
            n->upper > 0 && n->too_much ? say_text(p, "%s" NBSP "lim", say_percent(p, n->richest.amount / n->upper))
                                        : share_known(p, &n->richest, n->richest.ratio));
  row_end(&r);
}

static void write_group(const struct week_scene *s, const struct week_group *g) {
  const struct pen *p = &s->v.pen;
  struct row head;
  if (g->count == 0) return;
  row_start(&head, p);
  row_put(&head, MARGIN, INK_STRONG, g->title);
  row_end(&head);
  for (size_t i = 0; i < g->count; i++) write_line(s, g->item[i]);
}

/* Told in a line of their own; --all shows them. */
static bool is_folded(const struct week_scene *s, const struct week_group *g) {
  return !s->v.pen.all && (strcmp(g->key, "met") == 0 || strcmp(g->key, "fasts") == 0);
}

/* How many needs are met on each day by itself, where no other asks for a look at its days; 0. */
static int all_met_daily(const struct week *w) {
  int met = 0;
  for (int n = 0; n < NUT_COUNT; n++) {
    enum averaging a = w->nutrient[n].averaging;
    if (n == NUT_ENERGY) continue;
    if (a == AVERAGING_NOT_ENOUGH || a == AVERAGING_SHORT_ANYWAY || a == AVERAGING_UNPROVEN || a == AVERAGING_HELPS)
      return 0;
    met += a == AVERAGING_NOT_NEEDED;
  }
  return met;
}

void week_windows(const struct week_scene *s) {
  const struct pen *p = &s->v.pen;
  struct row r;
  struct week_group group[WEEK_GROUP_COUNT];
  bool gaps;
  int room = columns_of(s, &gaps), at = MARGIN + NAME_COLUMNS + DAYS_COLUMNS, from = s->days > room ? s->days - room : 0;
  int drawn = s->days - from, daily = p->all ? 0 : all_met_daily(s->w);
  if (daily > 0) {
    struct prose what = prose_at(MARGIN, INK_DIM);
    heading(p, "Windows against the allowance", "");
    prose_write(p, &what, say_text(p, "All %d needs are met on every single day; --all shows them.", daily));
    return;
  }
  heading(p, "Windows against the allowance",
          drawn < s->w->days->days ? say_text(p, "the last %d days; of all: leanest, richest", drawn) : "leanest, richest");
  row_start(&r, p);
  for (int i = from; i < s->days; i++) {
    if (gaps && i > from && weekday_of(s, i) == 0) at++;
    char letter[2] = {week_day_short[weekday_of(s, i)][0], '\0'};
    row_put(&r, at++, INK_DIM, letter);
  }
  row_end(&r);
  week_groups(s->w, group);
  for (size_t i = 0; i < WEEK_GROUP_COUNT; i++)
    if (!is_folded(s, &group[i])) write_group(s, &group[i]);
  struct prose how = prose_at(MARGIN, INK_DIM);
  for (size_t i = 0; i < WEEK_GROUP_COUNT; i++) {
    int more = (int)group[i].count;
    if (more == 0 || !is_folded(s, &group[i])) continue;
    prose_write(p, &how,
                say_text(p, "%s: %d more %s.", group[i].title, more,
                         more == 1 ? "need; --all shows it" : "needs; --all shows them"));
  }
  prose_write(
      p, &how,
      p->unicode
          ? "Each mark is the run of so many days (d) that begins there, its mean against the allowance: a full "
            "block reaches it, ▓ reaches it but not clearly, ▲ is above the upper limit, ? is not decided, · is not known."
          : "Each mark is the run of so many days (d) that begins there, its mean against the allowance in "
            "tenths: # reaches it, + reaches it but not clearly, ^ is above the upper limit, ? is not decided, . "
            "is not known.");
  if (says_at_least(s))
    prose_write(p, &how,
                say_text(p, "%s: at least so much; of some day of that run nothing is known.", p->unicode ? "≥" : ">="));
}
