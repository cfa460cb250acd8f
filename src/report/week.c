/* Days and weeks: what averaging buys, a small calendar, the windows of each nutrient as a line against the allowance. */
#include "report/week.h"

#include <math.h>

#include "report/week_parts.h"

static const struct day_of_food *day_of(const struct week_scene *s, int i) { return &s->w->days->day[s->first + i]; }

static int menu_of(const struct week_scene *s, int i) {
  for (int k = 0; k < s->menus; k++)
    if (strcmp(s->menu[k], day_of(s, i)->menu) == 0) return k;
  return -1;
}

static void name_menus(struct week_scene *s) {
  for (int i = 0; i < s->days; i++) {
    const char *menu = day_of(s, i)->menu;
    if (!day_of(s, i)->known || !menu[0] || menu_of(s, i) >= 0) continue;
    if (s->menus == MENUS) {
      s->menus = 0;
      return;
    }
    s->menu[s->menus++] = menu;
  }
}

static struct week_scene scene_of(const struct library *lib, const struct week *w, const struct report_style *style,
                                  struct buf *out) {
  struct week_scene s = {.v = {pen_start(style, out), lib, w->mean}, .w = w, .days = w->days->days};
  enum { MOST = WEEK * DRAWN_WEEKS };
  if (s.days > MOST) { /* the last ones, from a Monday on */
    s.first = s.days - MOST;
    s.days = MOST;
    while (week_weekday(w, s.first) != 0 && s.days > MOST - WEEK) {
      s.first++;
      s.days--;
    }
  }
  name_menus(&s);
  return s;
}

/* ---- the top --------------------------------------------------------------------------------------------------- */

static void write_top(const struct week_scene *s, const char *const *assumed, size_t assumed_count) {
  const struct view *v = &s->v;
  struct prose how = prose_at(MARGIN, INK_PLAIN), quiet = prose_at(MARGIN, INK_DIM);
  answer_title(v);
  answer_dangers(v);
  if (v->r->animal && v->r->refusal != REFUSE_NOT) {
    answer_refusal(v);
    return;
  }
  blank_line(&v->pen);
  if (s->w->judged) {
    prose_write(&v->pen, &how, week_lead(s->w, v->pen.arena));
  } else {
    prose_write(&v->pen, &how, "No animal was given, so only the amounts of the days are shown.");
  }
  for (size_t i = 0; i < assumed_count; i++) prose_write(&v->pen, &quiet, assumed[i]);
}

static const double SAME_KCAL = 0.5; /* nobody sees less in the columns */

/* ---- the calendar ---------------------------------------------------------------------------------------------- */

static int failing_on(const struct week *w, int day) {
  int n = 0;
  for (int i = 0; i < NUT_COUNT; i++)
    n += i != NUT_ENERGY && week_fails_on(w, (enum nutrient)i, day) && !week_fails_always(w, (enum nutrient)i);
  return n;
}

/* In narrow columns a number stands for its sentence, which the last line then says. */
static void put_day(const struct week_scene *s, struct row *upper, struct row *lower, int column, int i, bool narrow) {
  const struct pen *p = &s->v.pen;
  const struct day_of_food *d = day_of(s, i);
  int menu = menu_of(s, i), fails = s->w->judged && d->known ? failing_on(s->w, s->first + i) : 0;
  if (!d->known) {
    row_put(upper, column, INK_DIM, "?");
    /* written down, though nobody knows what */
    if (!narrow) row_put(lower, column, INK_DIM, d->menu[0] ? "unknown" : "no entry");
    return;
  }
  int at = column;
  if (menu >= 0) {
    char letter[3] = {(char)('A' + menu), narrow ? '\0' : ' ', '\0'};
    at = row_put(upper, at, INK_STRONG, letter);
  }
  double kcal = s->w->kcal[s->first + i];
  row_put(upper, at, INK_PLAIN, isnan(kcal) ? "?" : words_whole(p->arena, kcal));
  if (d->uncounted) row_put(lower, column, INK_DIM, fails > 0 ? "" : "+ ?");
  bool fast = !narrow && week_is_fast(s->w, s->first + i);
  if (fast) row_put(lower, column, INK_DIM, "no food");
  if (fails > 0 && !fast)
    row_put(lower, column, INK_ACCENT, say_text(p, "%d%s%s", fails, narrow ? "" : " fail", d->uncounted ? " ?" : ""));
}

static const char *week_label(const struct week_scene *s, int first) {
  if (day_of(s, first)->date > 0) return week_day_name(s->w, s->first + first, s->v.pen.arena);
  return s->days > WEEK ? say_text(&s->v.pen, "week %d", (s->first + first) / WEEK + 1) : "";
}

/* One recipe, the same every day: seven equal columns would say no more than this sentence. */
static bool tells_one_day(const struct week_scene *s) {
  if (s->menus != 1 || !s->w->days->repeats) return false;
  for (int i = 0; i < s->days; i++) {
    double kcal = s->w->kcal[s->first + i], first = s->w->kcal[s->first];
    bool same = fabs(kcal - first) < SAME_KCAL || (isnan(kcal) && isnan(first));
    if (!day_of(s, i)->known || !same || (s->w->judged && failing_on(s->w, s->first + i) > 0)) return false;
  }
  const struct prose how = prose_at(MARGIN, INK_PLAIN);
  blank_line(&s->v.pen);
  prose_write(&s->v.pen, &how,
              say_text(&s->v.pen,
                       "Every day is the same: %s%s. Days that differ can be written under headings such as "
                       "'Monday:', or with 'twice a week' after a food.",
                       s->menu[0],
                       isfinite(s->w->kcal[s->first])
                           ? say_text(&s->v.pen, ", %s kcal", words_whole(s->v.pen.arena, s->w->kcal[s->first]))
                           : ""));
  return true;
}

static void write_calendar(const struct week_scene *s) {
  const struct pen *p = &s->v.pen;
  if (tells_one_day(s)) return;
  const struct days_of_food *d = s->w->days;
  enum { LABEL = 11, WORDS = 8 }; /* "14 fail" and a blank */
  int cell = (p->width - 2 * MARGIN - LABEL) / WEEK, days = d->days;
  struct row head;
  if (cell > CELL) cell = CELL;
  bool narrow = cell < WORDS, unknown = false;
  const char *aside = d->repeats       ? say_text(p, "%s, over and over", week_days_words(days, p->arena))
                      : s->days < days ? say_text(p, "the last %d of %s", s->days, week_days_words(days, p->arena))
                                       : week_days_words(days, p->arena);
  heading(p, "Day by day", aside);
  row_start(&head, p);
  for (int k = 0; k < WEEK; k++) row_put(&head, MARGIN + LABEL + k * cell, INK_DIM, week_day_short[k]);
  row_end(&head);
  for (int i = 0; i < s->days;) {
    struct row upper, lower;
    row_start(&upper, p);
    row_start(&lower, p);
    row_fit(&upper, MARGIN, LABEL - 1, INK_DIM, week_label(s, i));
    row_fit(&lower, MARGIN, LABEL - 1, INK_DIM, "");
    int before = -1;
    for (; i < s->days && weekday_of(s, i) > before; i++) {
      before = weekday_of(s, i);
      unknown |= !day_of(s, i)->known;
      put_day(s, &upper, &lower, MARGIN + LABEL + before * cell, i, narrow);
    }
    row_end(&upper);
    if (lower.end > MARGIN) row_end(&lower);
  }
  struct prose how = prose_at(MARGIN, INK_DIM);
  how.indent = MARGIN + 2;
  for (int k = 0; k < s->menus; k++) prose_write(p, &how, say_text(p, "%c  %s", 'A' + k, s->menu[k]));
  prose_write(p, &how,
              !narrow   ? "Figures are kcal of the day."
              : unknown ? "Figures are kcal of the day, ? where there is no entry; below them, how many needs fail."
                        : "Figures are kcal of the day; below them, how many needs fail.");
}

/* ---- which days fail, and why ---------------------------------------------------------------------------------- */

static const char *fails_words(const struct week_scene *s, int i) {
  const struct pen *p = &s->v.pen;
  return week_day_words(s->w, s->first + i, p->all ? NUT_COUNT : NAMED, p->arena);
}

/* "week 1 Mon, Wed; week 2 Tue": all days of which the same is said as of this one. */
static const char *days_alike(const struct week_scene *s, int first, const char *words) {
  const struct pen *p = &s->v.pen;
  struct buf days;
  int week = -1;
  buf_init(&days, p->arena, 4096);
  for (int k = first; k < s->days; k++) {
    if (strcmp(words, fails_words(s, k)) != 0) continue;
    bool dated = day_of(s, k)->date > 0, named = !dated && s->days > WEEK && (s->first + k) / WEEK != week;
    if (days.n > 0) buf_adds(&days, named ? "; " : ", ");
    week = (s->first + k) / WEEK;
    if (named) buf_addf(&days, "week" NBSP "%d ", week + 1);
    buf_adds(&days, dated ? say_held(p, week_day_name(s->w, s->first + k, p->arena)) : week_day_short[weekday_of(s, k)]);
  }
  return buf_text(&days);
}

static void write_fails(const struct week_scene *s) {
  const struct pen *p = &s->v.pen;
  const struct week *w = s->w;
  enum { MOST_LINES = 14 };
  const char *always = week_always_words(w, p->all ? NUT_COUNT : NAMED, p->arena);
  if (!always[0] && w->days_failing == 0) return;
  heading(p, "Which days fail", "share of that day's allowance");
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  how.indent = MARGIN + 2;
  if (always[0]) prose_write(p, &how, say_text(p, "All days: %s.", always));
  int lines = 0, left = 0;
  for (int i = 0; i < s->days; i++) {
    const char *words = fails_words(s, i);
    if (!words[0]) continue;
    bool told = false;
    for (int k = 0; k < i && !told; k++) told = strcmp(words, fails_words(s, k)) == 0;
    if (told) continue;
    if (lines == MOST_LINES && !p->all) {
      left++;
      continue;
    }
    prose_write(p, &how, say_text(p, "%s: %s.", days_alike(s, i, words), words));
    lines++;
  }
  if (left > 0) prose_write(p, &how, say_text(p, "And %d more; --all shows them.", left));
}

/* ---- the rest -------------------------------------------------------------------------------------------------- */

/* The longest of each nutrient, the longest first; "zinc 12 days from 2026-11-02". */
static int streak_words(const struct week_scene *s, bool matter, const char **item) {
  const struct pen *p = &s->v.pen;
  const struct week *w = s->w;
  const struct week_nutrient *of[NUT_COUNT];
  int count = 0;
  for (int i = 0; i < NUT_COUNT; i++) {
    const struct week_nutrient *n = &w->nutrient[i];
    if (i == NUT_ENERGY || !n->known || (matter && n->fails_by_fasts)) continue;
    if ((matter ? n->streak_count : n->bridged_count) == 0) continue;
    int days = matter ? n->streak[0].days : n->bridged[0].days, k = count++;
    for (; k > 0 && days > (matter ? of[k - 1]->streak : of[k - 1]->bridged)[0].days; k--) of[k] = of[k - 1];
    of[k] = n;
  }
  for (int i = 0; i < count; i++) {
    const struct day_run *run = matter ? of[i]->streak : of[i]->bridged;
    const char *what = words_nutrient(p->arena, of[i]->id), *days = week_days_words(run->days, p->arena);
    item[i] = matter ? say_text(p, "%s %s from %s", what, days, week_day_name(w, run->first, p->arena))
                     : say_text(p, "%s %s (%d d)", what, days, of[i]->window_days);
  }
  return count;
}

static void write_streaks(const struct week_scene *s) {
  const struct pen *p = &s->v.pen;
  const char *item[NUT_COUNT];
  if (s->w->days->repeats) return;
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  how.indent = MARGIN + 2;
  int matter = streak_words(s, true, item);
  if (matter > 0) {
    heading(p, "Streaks of shortage", "the longest of each");
    prose_write(p, &how, say_text(p, "Those that matter: %s.", say_list(p, item, matter, p->all ? matter : NAMED)));
  }
  int bridged = streak_words(s, false, item);
  if (matter == 0 && bridged > 0) heading(p, "Streaks of shortage", "the longest of each");
  if (bridged > 0)
    prose_write(
        p, &how,
        say_text(p, "Those that do not matter, because the days around them are enough over the run that counts (d): %s.",
                 say_list(p, item, bridged, p->all ? bridged : NAMED)));
}

static void write_foot(const struct week_scene *s) {
  const struct pen *p = &s->v.pen;
  const struct week *w = s->w;
  struct prose how = prose_at(MARGIN, INK_PLAIN), quiet = prose_at(MARGIN, INK_DIM);
  blank_line(p);
  if (w->ca_p.low.first >= 0) {
    struct usual usual[USUAL_COUNT];
    words_usual(s->v.lib, usual);
    prose_write(p, &how,
                say_text(p, "Calcium to phosphorus over %s: %s to %s (usual: %s).",
                         week_days_words(w->ca_p.window_days, p->arena), words_number(p->arena, w->ca_p.low.amount),
                         words_number(p->arena, w->ca_p.high.amount), words_usual_range(p->arena, &usual[0])));
  }
  for (int i = 0; i < NUT_COUNT; i++) {
    const struct week_nutrient *n = &w->nutrient[i];
    if (!n->highest_day_over) continue;
    prose_write(p, &how,
                say_text(p, "%s alone passes the upper limit of %s: %s, and the limit is %s a day.",
                         week_day_name(w, n->highest_day, p->arena), words_nutrient(p->arena, n->id),
                         say_with_unit(p, n->day[n->highest_day], nutrient_info[i].unit),
                         say_with_unit(p, n->upper, nutrient_info[i].unit)));
  }
  if (w->judged && w->mean->energy.need.kcal > 0)
    prose_write(p, &how,
                say_text(p, "Energy: %s on the mean of %s; the need is about %s (%s to %s).",
                         w->food_known && isfinite(w->mean->energy.supply_kcal)
                             ? say_text(p, "%s" NBSP "kcal a day", words_supply(&w->mean->energy, p->arena))
                             : "not known",
                         w->days->repeats     ? "all days"
                         : w->known_days == 0 ? "these days"
                                              : say_text(p, "the %d days that are known", w->known_days),
                         say_with_unit(p, round(w->mean->energy.need.kcal), "kcal"),
                         words_whole(p->arena, w->mean->energy.need.low_kcal),
                         words_whole(p->arena, w->mean->energy.need.high_kcal)));
  if (w->judged)
    prose_write(p, &quiet,
                say_text(p,
                         "Judged by %s. No standard says over how many days a need may average: each number of days is a "
                         "choice (docs/method/windows.md).",
                         standard_in_short(&s->v)));
}

void report_week(const struct library *lib, const struct week *w, const char *const *assumed, size_t assumed_count,
                 const struct report_style *style, struct buf *out) {
  struct week_scene s = scene_of(lib, w, style, out);
  write_top(&s, assumed, assumed_count);
  if (w->mean->animal && w->mean->refusal != REFUSE_NOT) return;
  write_calendar(&s);
  if (w->judged && w->known_days > 0) {
    write_fails(&s);
    write_streaks(&s);
    week_windows(&s);
  }
  write_foot(&s);
}
