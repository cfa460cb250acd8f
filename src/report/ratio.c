/* Parts by weight against a stated ratio, and what that ratio leaves open for this bowl. */
#include "report/answer.h"

#include <math.h>

#include "explain/ratio.h"

enum { NAME_COLUMNS = 24, SHARE_COLUMNS = 8, GRAMS_COLUMNS = 11, NEEDS_SHOWN = 8 };

static const char *signed_grams(const struct pen *p, double g) {
  if (fabs(g) < 0.05) return "right";
  return say_text(p, "%s %s", say_with_unit(p, fabs(g), "g"), g > 0 ? "more" : "less");
}

static void write_piece(const struct view *v, const struct ratio_view *q, int i) {
  const struct pen *p = &v->pen;
  const struct ratio_row *x = &q->row[i];
  struct row r;
  row_start(&r, p);
  row_fit(&r, MARGIN, NAME_COLUMNS, INK_PLAIN, q->ratio.piece[i].name);
  int at = MARGIN + NAME_COLUMNS;
  row_right(&r, at + SHARE_COLUMNS, SHARE_COLUMNS, INK_STRONG, say_percent(p, x->share));
  row_right(&r, at + 2 * SHARE_COLUMNS, SHARE_COLUMNS, INK_PLAIN, say_percent(p, q->ratio.piece[i].share));
  row_right(&r, at + 2 * SHARE_COLUMNS + GRAMS_COLUMNS, GRAMS_COLUMNS, INK_PLAIN, say_with_unit(p, x->grams, "g"));
  row_put(&r, at + 2 * SHARE_COLUMNS + GRAMS_COLUMNS + 3, INK_PLAIN,
          x->absent ? say_text(p, "%s, none here", signed_grams(p, x->difference_g)) : signed_grams(p, x->difference_g));
  row_end(&r);
}

static void write_head(const struct view *v) {
  struct row r;
  row_start(&r, &v->pen);
  int at = MARGIN + NAME_COLUMNS;
  row_right(&r, at + SHARE_COLUMNS, SHARE_COLUMNS, INK_DIM, "is");
  row_right(&r, at + 2 * SHARE_COLUMNS, SHARE_COLUMNS, INK_DIM, "asked");
  row_right(&r, at + 2 * SHARE_COLUMNS + GRAMS_COLUMNS, GRAMS_COLUMNS, INK_DIM, "a day");
  row_put(&r, at + 2 * SHARE_COLUMNS + GRAMS_COLUMNS + 3, INK_DIM, "the ratio wants");
  row_end(&r);
}

static void write_beside(const struct view *v, const struct ratio_view *q) {
  const struct pen *p = &v->pen;
  if (!(q->beside_total_g > 0.05)) return;
  const char *item[BOWL_COUNT];
  int n = 0;
  for (int i = 0; i < BOWL_COUNT; i++)
    if (q->beside_g[i] > 0)
      item[n++] = say_text(p, "%s %s", words_part((enum bowl_part)i), say_with_unit(p, q->beside_g[i], "g"));
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  how.indent = MARGIN + 2;
  prose_write(p, &how,
              say_text(p, "Not in the ratio: %s, %s of the food.", say_list(p, item, n, n),
                       say_percent(p, q->beside_total_g / q->total_g)));
}

static const char *need_words(const struct view *v, const struct ratio_need *need) {
  const struct pen *p = &v->pen;
  const struct nutrient_result *n = &v->r->nutrient[need->id];
  return say_text(p, "%s (%s of %s%s)", words_nutrient(p->arena, need->id), words_number(p->arena, need->best),
                  say_with_unit(p, n->allowance, nutrient_info[need->id].unit),
                  need->unproven && !isnan(need->best) ? "; data gaps" : "");
}

static double covered(const struct view *v, const struct ratio_need *need) {
  return isnan(need->best) ? 0 : need->best / v->r->nutrient[need->id].allowance;
}

/* The furthest from its need first. */
static const char *needs_list(const struct view *v, const struct ratio_need *need, int count) {
  const struct pen *p = &v->pen;
  const struct ratio_need *order[NUT_COUNT];
  const char *item[NUT_COUNT];
  for (int i = 0; i < count; i++) {
    int at = i;
    for (; at > 0 && covered(v, order[at - 1]) > covered(v, &need[i]); at--) order[at] = order[at - 1];
    order[at] = &need[i];
  }
  for (int i = 0; i < count; i++) item[i] = need_words(v, order[i]);
  return say_list(p, item, count, p->all ? count : NEEDS_SHOWN);
}

void answer_ratio(const struct view *v, const struct ratio_view *q) {
  const struct pen *p = &v->pen;
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  how.indent = MARGIN + 2;
  struct buf asked;
  buf_init(&asked, p->arena, 200);
  for (int i = 0; i < q->ratio.count; i++)
    buf_addf(&asked, "%s%s", i ? ":" : "", words_number(p->arena, round(q->ratio.piece[i].share * 1000) / 10));
  heading(p, "Against the ratio", buf_text(&asked));
  write_head(v);
  for (int i = 0; i < q->ratio.count; i++) write_piece(v, q, i);
  write_beside(v, q);
  if (!v->r->animal || v->r->refusal != REFUSE_NOT) return;
  blank_line(p);
  if (q->open_count > 0)
    prose_write(
        p, &how,
        say_text(p,
                 "No division within this ratio helps %d need%s of this bowl. Filling every share with the food here "
                 "that is richest in it gives at best: %s.",
                 q->open_count, q->open_count == 1 ? "" : "s", needs_list(v, q->open, q->open_count)));
  if (q->within_count > 0)
    prose_write(p, &how,
                say_text(p, "Open now, and within the ratio's reach with these foods: %s.",
                         needs_list(v, q->within, q->within_count)));
  if (q->open_count + q->within_count == 0)
    prose_write(p, &how, "Nothing is below its need, so the ratio leaves nothing open for this bowl.");
}
