/* week_parts.h: what the files of "week" share. Private to this folder. */
#ifndef BW_REPORT_WEEK_PARTS_H
#define BW_REPORT_WEEK_PARTS_H

#include "report/answer.h"
#include "time/week_words.h"

enum { WEEK = 7, DRAWN_WEEKS = 8, MENUS = 8, NAME_COLUMNS = 18, DAYS_COLUMNS = 6, FIGURE_COLUMNS = 8, CELL = 9, NAMED = 6 };

struct week_scene {
  struct view v;
  const struct week *w;
  int first, days;         /* that are drawn: whole weeks */
  const char *menu[MENUS]; /* of days that are drawn; letters A, B ... */
  int menus;               /* 0: there are too many for letters */
};

/* The column of its weekday. */
static inline int weekday_of(const struct week_scene *s, int i) { return week_weekday(s->w, s->first + i); }

/* week_lines.c: the windows of each nutrient as a line against the allowance. */
void week_windows(const struct week_scene *s);

#endif
