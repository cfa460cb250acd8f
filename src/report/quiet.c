/* What a quiet animal that gets less of this food would lack: one line of shares, 100 % at the left, 60 % at the right. */
#include "report/answer.h"

#include <math.h>

#include "base/num.h"
#include "explain/quiet.h"

static const double FROM = 1.0, TO = 0.6;
enum { STEPS = 4, NAME_COLUMNS = 22, SHARE_COLUMNS = 9, KCAL_COLUMNS = 11, NAMED = 5, ROOMY = 30, NARROW = 76 };

/* "97.9 %": a crossing point is exact, and a tenth tells. */
static const char *share_words(const struct pen *p, double share) {
  struct buf b;
  buf_init(&b, p->arena, 40);
  num_fixed(&b, share * 100, 1);
  buf_adds(&b, NBSP "%");
  return buf_text(&b);
}

struct scale {
  int column, columns; /* of the cell at 100 %, and how many to 60 % */
};

static struct scale scale_for(const struct pen *p, int left, int right) {
  int room = p->width - MARGIN - left - right, wide = PROSE_MOST - right;
  if (room > wide) room = wide;
  return (struct scale){left, (room - 1) / STEPS * STEPS + 1};
}

static int cell_of(const struct scale *s, double share) {
  return s->column + (int)floor((FROM - share) / (FROM - TO) * (s->columns - 1) + 0.5);
}

static void write_scale(const struct pen *p, const struct scale *s) {
  struct row r;
  row_start(&r, p);
  for (int i = 0; i <= STEPS; i++) {
    if (s->columns < ROOMY && i % 2 == 1) continue;
    const char *word = say_text(p, "%d" NBSP "%%", 100 - 10 * i);
    int at = cell_of(s, FROM - 0.1 * i);
    int back = i == 0 ? 0 : i == STEPS ? text_columns(p, word) - 1 : text_columns(p, word) / 2;
    row_put(&r, at - back, INK_DIM, word);
  }
  row_end(&r);
}

static void draw_ground(struct row *r, const struct scale *s) {
  row_fill(r, s->column, s->columns, INK_DIM, G_LINE);
  for (int i = 0; i <= STEPS; i++)
    row_glyph(r, cell_of(s, FROM - 0.1 * i), INK_DIM, i == 0 ? G_EDGE_LEFT : i == STEPS ? G_EDGE_RIGHT : G_DOT);
}

struct falls {
  struct quiet_crossing at[NUT_COUNT];
  int count, within; /* met now; of those, falling before 60 % */
};

static struct falls falls_of(const struct check_result *r, const struct quiet *q) {
  struct quiet_crossing all[NUT_COUNT];
  struct falls f = {.count = 0};
  size_t n = quiet_crossings(q, all);
  for (size_t i = 0; i < n; i++) {
    /* What is met now falls from here on down. */
    if (r->nutrient[all[i].id].verdict != VERDICT_MET || !(all[i].share <= 1)) continue;
    f.at[f.count++] = all[i];
    f.within += all[i].share >= TO;
  }
  return f;
}

/* "97.9 % of this food", "14 times this food" */
static const char *of_food(const struct pen *p, double share) {
  if (share < 2) return say_text(p, "%s of this food", share_words(p, share));
  return say_text(p, "%s this food", words_times(p->arena, share));
}

/* A mark a nutrient; several in one cell are a number. */
static void draw_line(const struct view *v, const struct scale *s, const struct falls *f) {
  struct row r;
  row_start(&r, &v->pen);
  draw_ground(&r, s);
  for (int i = 0; i < f->within;) {
    int cell = cell_of(s, f->at[i].share), here = 0;
    while (i < f->within && cell_of(s, f->at[i].share) == cell) {
      here++;
      i++;
    }
    if (here == 1) row_glyph(&r, cell, INK_ACCENT, G_SURE);
    if (here > 1) row_put(&r, cell, INK_ACCENT, here > 9 ? "+" : say_text(&v->pen, "%d", here));
  }
  row_end(&r);
}

static const char *fall_list(const struct view *v, const struct falls *f) {
  const struct pen *p = &v->pen;
  const char *item[NUT_COUNT];
  for (int i = 0; i < f->within; i++)
    item[i] = say_text(p, "%s at %s", words_nutrient(p->arena, f->at[i].id), share_words(p, f->at[i].share));
  return say_list(p, item, f->within, p->all ? f->within : NAMED);
}

/* "about 1.7 times as much" */
static const char *times_words(const struct pen *p, double share) {
  return say_text(p, "about %s as much", words_times(p->arena, share));
}

static const char *why_never(const struct view *v, const struct quiet *q) {
  const struct pen *p = &v->pen;
  const char *last = words_nutrient(p->arena, q->last_met);
  double from = q->of[q->last_met].met_from;
  if (!isfinite(from) && v->r->nutrient[q->last_met].near_upper)
    return say_text(p, "%s is too close to its limit for the energy that comes with it, whatever the amount", last);
  if (!isfinite(from) && v->r->nutrient[q->last_met].verdict == VERDICT_OVER)
    return say_text(p, "there is too much %s for the energy that comes with it, whatever the amount", last);
  if (!isfinite(from) && v->r->nutrient[q->last_met].amount <= 0) return say_text(p, "there is no %s in it", last);
  if (!isfinite(from)) return say_text(p, "the need for %s grows as fast as the food", last);
  const char *first = words_nutrient(p->arena, q->first_over);
  if (q->limit_at < 1)
    return say_text(p, "%s takes %s, and %s is past its limit already", last, times_words(p, from), first);
  return say_text(p, "%s takes %s, and at %s, %s is past its limit", last, times_words(p, from), times_words(p, q->limit_at),
                  first);
}

static const char *met_words(const struct view *v, const struct quiet *q) {
  const struct pen *p = &v->pen;
  const char *gaps = q->unproven > 0 ? say_text(p, " that can be judged (%d cannot)", q->unproven) : "";
  if (isnan(q->all_met_from)) return "";
  if (!isfinite(q->all_met_from))
    return say_text(p, "No amount of this food meets everything%s: %s.", gaps, why_never(v, q));
  const char *fat = "";
  if (isfinite(q->highest_fat_share) && q->room_kcal > 0)
    fat = say_text(p, "; the %s left of the need could be plain fat: %s of the energy in all",
                   say_with_unit(p, round(q->room_kcal), "kcal"), say_percent(p, q->highest_fat_share));
  if (isfinite(q->highest_fat_share) && q->room_kcal < 0)
    fat = say_text(p, "; to fit into the need, fat would have to come down to %s of the energy",
                   say_percent(p, q->highest_fat_share));
  if (!isfinite(q->smallest_kcal)) return say_text(p, "Everything%s is met from %s.", gaps, of_food(p, q->all_met_from));
  return say_text(p, "Everything%s is met from %s a day, %s%s.", gaps, say_with_unit(p, round(q->smallest_kcal), "kcal"),
                  of_food(p, q->all_met_from), fat);
}

/* What stays met below the end of the picture. */
static void write_lower(const struct view *v, const struct falls *f) {
  const struct pen *p = &v->pen;
  const char *item[NUT_COUNT];
  int n = 0;
  struct prose how = prose_at(MARGIN, INK_DIM);
  how.indent = MARGIN + 2;
  for (int i = f->within; i < f->count; i++)
    item[n++] = say_text(p, "%s %s", words_nutrient(p->arena, f->at[i].id), share_words(p, f->at[i].share));
  if (n > 0) prose_write(p, &how, say_text(p, "Met further down still: %s.", say_list(p, item, n, n)));
}

static void write_each(const struct view *v, const struct falls *f) {
  const struct pen *p = &v->pen;
  int kcal_columns = p->width < NARROW || v->r->energy.in_part ? 0 : KCAL_COLUMNS;
  struct scale s = scale_for(p, MARGIN + NAME_COLUMNS, SHARE_COLUMNS + kcal_columns);
  blank_line(p);
  if (f->within > 0) write_scale(p, &s);
  for (int i = 0; i < f->within; i++) {
    double share = f->at[i].share;
    int to = cell_of(&s, share), right = s.column + s.columns + SHARE_COLUMNS;
    struct row r;
    row_start(&r, p);
    row_fit(&r, MARGIN, NAME_COLUMNS - 1, INK_PLAIN, nutrient_info[f->at[i].id].name);
    row_fill(&r, s.column, to - s.column, INK_PLAIN, G_BAND);
    row_glyph(&r, to, INK_ACCENT, G_SURE);
    row_fill(&r, to + 1, s.column + s.columns - to - 1, INK_DIM, G_DOT);
    row_right(&r, right, SHARE_COLUMNS, INK_STRONG, share_words(p, share));
    if (kcal_columns > 0)
      row_right(&r, right + kcal_columns, kcal_columns, INK_DIM,
                say_with_unit(p, round(share * v->r->energy.supply_kcal), "kcal"));
    row_end(&r);
  }
  write_lower(v, f);
}

void answer_quiet(const struct view *v) {
  const struct pen *p = &v->pen;
  struct quiet q = quiet_of(v->r);
  if (!q.applies) return;
  struct falls f = falls_of(v->r, &q);
  const char *met = met_words(v, &q);
  if (f.count == 0 && !met[0]) return;
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  how.indent = MARGIN + 2;
  heading(p, say_text(p, "If %s eats less", words_called(v->r->animal)), "the need stays, the food shrinks");
  if (f.within > 0 && !p->all) {
    struct scale s = scale_for(p, MARGIN, 0);
    write_scale(p, &s);
    draw_line(v, &s, &f);
  }
  if (f.count > 0)
    prose_write(p, &how,
                f.within > 0 ? say_text(p, "No longer met: %s.", fall_list(v, &f))
                             : say_text(p, "%s down to %s.",
                                        f.count == 1 ? "The one need that is met stays met"
                                                     : say_text(p, "The %d needs that are met stay met", f.count),
                                        of_food(p, q.still_met_from)));
  prose_write(p, &how, met);
  if (p->all && f.count > 0) write_each(v, &f);
}
