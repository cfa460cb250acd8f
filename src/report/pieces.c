#include "report/answer.h"

#include <math.h>

void heading(const struct pen *p, const char *title, const char *aside) {
  struct row r;
  blank_line(p);
  row_start(&r, p);
  int at = row_put(&r, MARGIN, INK_STRONG, title) + 1;
  int right = p->width - MARGIN;
  bool fits = aside && text_columns(p, aside) <= right - at - 3;
  if (fits && aside[0]) right = row_right(&r, right, right - at - 3, INK_DIM, aside) - 1;
  row_fill(&r, at, right - at, INK_DIM, G_RULE);
  row_end(&r);
  struct prose below = prose_at(MARGIN, INK_DIM);
  if (aside && !fits) prose_write(p, &below, aside);
}

void legend(const struct pen *p, const char *const *item, size_t count) {
  struct buf b;
  buf_init(&b, p->arena, 8192);
  for (size_t i = 0; i < count; i++)
    if (item[i][0]) buf_addf(&b, "%s%s", b.n ? NBSP NBSP " " : "", say_held(p, item[i]));
  struct prose how = prose_at(MARGIN, INK_DIM);
  how.right = p->width - MARGIN;
  blank_line(p);
  prose_write(p, &how, buf_text(&b));
}

/* ---- ribbons --------------------------------------------------------------------------------------------------- */

enum { FILL_COUNT = 4 };
static enum glyph fill_of(int i) { return (enum glyph)(G_FILL_1 + i % FILL_COUNT); }

int ribbon_cell(int columns, double place) { return (int)floor(place * columns + 0.5); }

void ribbon_fill(struct row *r, int column, int columns, const struct pieces *p) {
  for (int i = 0; i < p->count; i++) {
    int from = ribbon_cell(columns, p->of[i].from), to = ribbon_cell(columns, p->of[i].to);
    row_fill(r, column + from, to - from, INK_DIM, fill_of(i));
  }
}

void ribbon_legend(const struct pen *p, int column, const struct pieces *pieces) {
  struct row r;
  int at = column;
  row_start(&r, p);
  for (int i = 0; i < pieces->count; i++) {
    const char *words = pieces->of[i].words;
    int wide = 2 + text_columns(p, words);
    if (at > column && at + wide > p->width - MARGIN) {
      row_end(&r);
      row_start(&r, p);
      at = column;
    }
    row_glyph(&r, at, INK_DIM, fill_of(i));
    row_fit(&r, at + 2, p->width - MARGIN - at - 2, INK_PLAIN, words);
    at += wide + 3;
  }
  if (at > column) row_end(&r);
}

/* ---- who brings it, who has no figure -------------------------------------------------------------------------- */

enum { LIST_MOST = 12 };

static int list_room(size_t count, int most) {
  if (most > LIST_MOST) most = LIST_MOST;
  return count < (size_t)most ? (int)count : most;
}

static const char *suppliers_as(const struct view *v, const struct supplier *from, size_t count, int most, bool sentence) {
  const char *item[LIST_MOST];
  int n = list_room(count, most);
  for (int i = 0; i < n; i++)
    item[i] = say_text(&v->pen, sentence ? "%s (%s)" : "%s %s", words_line(v->pen.arena, v->lib, v->r->ration, from[i].line),
                       say_percent(&v->pen, from[i].share));
  return say_list(&v->pen, item, (int)count, n);
}

const char *supplier_words(const struct view *v, const struct supplier *from, size_t count, int most) {
  return suppliers_as(v, from, count, most, false);
}

const char *suppliers_in_words(const struct view *v, const struct supplier *from, size_t count, int most) {
  return suppliers_as(v, from, count, most, true);
}

const char *missing_words(const struct view *v, const struct nutrient_result *n, int most) {
  const char *item[LIST_MOST];
  const struct supply_list *list = who_supplies(n);
  int shown = list_room(list->missing_count, most);
  for (int i = 0; i < shown; i++) item[i] = words_line(v->pen.arena, v->lib, v->r->ration, list->missing[i]);
  return say_list(&v->pen, item, (int)list->missing_count, shown);
}

/* ---- the standard ---------------------------------------------------------------------------------------------- */

const char *standard_in_short(const struct view *v) {
  const struct allowance_set *a = &v->r->allowances;
  enum standard_id std = a->standard < STANDARD_COUNT ? a->standard : STANDARD_NRC2006;
  const char *own = v->lib->own_allowance_count > 0
                        ? say_text(&v->pen, ", %s from %s",
                                   say_text(&v->pen, v->lib->own_allowance_count == 1 ? "%zu figure" : "%zu figures",
                                            v->lib->own_allowance_count),
                                   v->lib->own_allowance_file)
                        : "";
  return say_text(&v->pen, "%s, %s%s", standard_name[std], words_basis(a->basis), own);
}

const char *standard_words(const struct view *v) {
  const char *words = standard_in_short(v);
  if (v->r->allowances.basis == BASIS_ENERGY) return words;
  return say_text(&v->pen, "%s (%s kg is %s metabolic kg)", words, words_number(v->pen.arena, v->r->body.ideal_kg),
                  words_number(v->pen.arena, v->r->body.metabolic_kg));
}

static void count_row(const struct img_allowance *row, int *open, int *all) {
  if (!row) return;
  ++*all;
  if (row->confidence != CONF_CONFIRMED) ++*open;
}

int unconfirmed_figures(const struct check_result *r, int *all) {
  int open = 0;
  *all = 0;
  for (int i = 0; i < NUT_COUNT; i++) {
    const struct allowance *a = &r->allowances.of[i];
    count_row(a->minimum_row, &open, all);
    count_row(a->allowance_row, &open, all);
    count_row(a->upper_row, &open, all);
  }
  return open;
}
