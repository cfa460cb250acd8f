/* Two to six bowls or foods on the same rails: one letter each, capital where the word is sure. What parts them comes first.
 */
#include <math.h>

#include "base/table.h"
#include "report/rail.h"
#include "report/side_parts.h"

static WORD_TABLE(SMALL, SIDE_MOST, "a", "b", "c", "d", "e", "f");

static struct view view_of(const struct side_scene *x) { return (struct view){x->pen, x->lib, x->s->item[0].r}; }

/* ---- columns of the rails -------------------------------------------------------------------------------------- */

struct columns {
  int name_columns, rail, per_octave, cells;
  int amount[SIDE_MOST], amount_columns; /* right ends */
  int unit, factor;                      /* right end of the factor; 0: no room */
};

enum { UNIT_COLUMNS = 2, FACTOR_COLUMNS = 6, OCTAVE_LEAST = 3, OCTAVE_MOST = 9, SIGN = 1 };

static struct columns columns_for(const struct side_scene *x) {
  const struct pen *p = &x->pen;
  int n = x->s->count;
  struct columns c = {.name_columns = p->width < 72 || n > 4 ? 14 : p->width < 100 ? 20 : 25};
  c.amount_columns = n > 4 && p->width < 90 ? 6 : 7;
  c.rail = MARGIN + c.name_columns + 1;
  int right = n * (c.amount_columns + SIGN) + 1 + UNIT_COLUMNS + MARGIN;
  int room = p->width - c.rail - right;
  int with_factor = room - FACTOR_COLUMNS - 1;
  bool factor = with_factor > RAIL_OCTAVES * OCTAVE_LEAST + 1;
  if (factor) room = with_factor;
  c.per_octave = (room - 1) / RAIL_OCTAVES;
  if (c.per_octave > OCTAVE_MOST) c.per_octave = OCTAVE_MOST;
  if (c.per_octave < OCTAVE_LEAST) c.per_octave = OCTAVE_LEAST;
  c.cells = rail_cells(c.per_octave);
  for (int i = 0; i < n; i++) c.amount[i] = c.rail + c.cells + (i + 1) * (c.amount_columns + SIGN) - SIGN;
  c.unit = c.amount[n - 1] + SIGN + 1;
  c.factor = factor ? c.unit + UNIT_COLUMNS + 1 + FACTOR_COLUMNS : 0;
  return c;
}

/* ---- one row --------------------------------------------------------------------------------------------------- */

static bool is_sure(const struct side_scene *x, const struct side_row *row, int i) {
  return !x->rails || x->s->kind == SIDE_FOODS || (row->verdict[i] != VERDICT_THIN && row->verdict[i] != VERDICT_UNPROVEN);
}

static bool is_bad(const struct side_row *row, int i) {
  return row->verdict[i] == VERDICT_SHORT || row->verdict[i] == VERDICT_OVER;
}

static void put_letter(const struct side_scene *x, struct row *r, int at, const struct side_row *row, int i, bool taken) {
  enum ink ink = is_bad(row, i) ? INK_ACCENT : INK_STRONG;
  row_put(r, at, ink, taken ? "*" : is_sure(x, row, i) ? side_letter[i] : SMALL[i]);
}

static bool has_need(const struct side_scene *x, const struct side_row *row) {
  return x->rails && row->need[0] > 0 && isfinite(row->need[0]);
}

static bool is_free(const int *cell, int count, int at) {
  for (int i = 0; i < count; i++)
    if (cell[i] == at) return false;
  return true;
}

/* Letters of one cell stand beside each other, the smaller amount to the left, if that moves none over the need. */
static bool spread_out(const struct side_scene *x, const struct columns *c, const struct side_row *row, int *cell, int at) {
  int who[SIDE_MOST], n = 0, need = has_need(x, row) ? rail_need_cell(c->per_octave) : -1;
  for (int i = 0; i < x->s->count; i++) {
    if (cell[i] != at) continue;
    int k = n++;
    for (; k > 0 && row->amount[who[k - 1]] > row->amount[i]; k--) who[k] = who[k - 1];
    who[k] = i;
  }
  if (n < 2 || at == need) return n < 2;
  int first = at - (n - 1) / 2, least = at > need ? need + 1 : has_need(x, row),
      most = at < need ? need - 1 : c->cells - 1 - has_need(x, row);
  if (first < least) first = least;
  if (first + n - 1 > most) first = most - n + 1;
  if (first < least) return false;
  for (int k = 0; k < n; k++)
    if (first + k != at && !is_free(cell, x->s->count, first + k)) return false;
  for (int k = 0; k < n; k++) cell[who[k]] = first + k;
  return true;
}

/* Where there is no room, several letters in one cell become a star. */
static void put_letters(const struct side_scene *x, struct row *r, const struct columns *c, const struct side_row *row,
                        int *cell) {
  bool star[SIDE_MOST] = {false};
  for (int i = 0; i < x->s->count; i++)
    if (cell[i] >= 0) star[i] = !spread_out(x, c, row, cell, cell[i]);
  for (int i = 0; i < x->s->count; i++) {
    bool taken = false;
    for (int k = 0; k < x->s->count; k++) taken = taken || (k != i && cell[k] >= 0 && cell[k] == cell[i]);
    if (cell[i] >= 0) put_letter(x, r, c->rail + cell[i], row, i, taken && star[i]);
  }
}

static void draw_rail(const struct side_scene *x, struct row *r, const struct columns *c, const struct side_row *row) {
  const double none = (double)NAN;
  int cell[SIDE_MOST] = {-1, -1, -1, -1, -1, -1};
  const struct nutrient_result *n = &x->s->item[0].r->nutrient[row->id];
  struct rail ground = {
      none, none,  none,  none, none, row->need[0] > 0 ? row->upper[0] / row->need[0] : none, n->upper_greater_than,
      none, false, false, false};
  rail_draw(r, c->rail, c->per_octave, &ground, INK_PLAIN);
  for (int i = 0; i < x->s->count; i++) {
    int half = isnan(row->ratio[i]) ? -2 : rail_half(row->ratio[i], c->per_octave);
    cell[i] = half == -2 ? -1 : half < 0 ? 0 : half / 2;
    if (cell[i] >= c->cells) {
      row_glyph(r, c->rail + c->cells - 1, INK_PLAIN, G_OFF_RIGHT);
      cell[i] = c->cells - 2;
    } else if (half == -1) {
      row_glyph(r, c->rail, INK_PLAIN, G_OFF_LEFT);
      cell[i] = 1;
    }
  }
  put_letters(x, r, c, row, cell);
}

/* From nothing at the left to the largest at the right. */
static void draw_share(const struct side_scene *x, struct row *r, const struct columns *c, const struct side_row *row) {
  int cell[SIDE_MOST] = {-1, -1, -1, -1, -1, -1};
  double most = row->most >= 0 ? row->amount[row->most] : 0;
  row_fill(r, c->rail, c->cells, INK_DIM, G_DOT);
  for (int i = 0; i < x->s->count; i++)
    cell[i] = isnan(row->amount[i]) || !(most > 0) ? -1 : (int)floor(row->amount[i] / most * (c->cells - 1) + 0.5);
  put_letters(x, r, c, row, cell);
}

static const char *amount_words(const struct side_scene *x, const struct side_row *row, int i) {
  const struct pen *p = &x->pen;
  double a = row->amount[i];
  if (isnan(a)) return "?";
  if (!x->ways || i == 0 || !(row->amount[0] > 0)) return words_number(p->arena, a);
  return say_percent(p, a / row->amount[0]);
}

static const char *factor_words(const struct pen *p, double factor) {
  if (isnan(factor)) return "";
  if (isinf(factor)) return "";
  if (factor < 1.05) return "";
  return say_text(p, "%s%s", factor >= 99.5 ? ">99" : words_number(p->arena, round(factor * 10) / 10),
                  pen_glyph(p, G_TIMES));
}

static void write_row(const struct side_scene *x, const struct columns *c, const struct side_row *row) {
  const struct pen *p = &x->pen;
  struct row r;
  row_start(&r, p);
  row_fit(&r, MARGIN, c->name_columns, INK_PLAIN, nutrient_info[row->id].name);
  if (has_need(x, row)) {
    draw_rail(x, &r, c, row);
  } else {
    draw_share(x, &r, c, row);
  }
  for (int i = 0; i < x->s->count; i++) {
    bool known = !isnan(row->amount[i]);
    row_right(&r, c->amount[i], c->amount_columns - 1, is_bad(row, i) ? INK_ACCENT : INK_PLAIN, amount_words(x, row, i));
    if (known && row->partly[i]) row_put(&r, c->amount[i], INK_DIM, "+");
  }
  row_put(&r, c->unit, INK_DIM, nutrient_info[row->id].unit);
  if (c->factor > 0) row_right(&r, c->factor, FACTOR_COLUMNS, INK_DIM, factor_words(p, row->factor));
  row_end(&r);
}

/* ---- groups ---------------------------------------------------------------------------------------------------- */

/* "A", "A and C", "A, B and C" */
static const char *letters(const struct side_scene *x, const struct side_group *g, enum verdict v) {
  const char *item[SIDE_MOST];
  int n = 0;
  for (int i = 0; i < x->s->count; i++)
    if (g->verdict[i] == v) item[n++] = side_letter[i];
  return say_list(&x->pen, item, n, n);
}

static const char *all_words(const struct side_scene *x) {
  return x->s->count == 2 ? "both" : say_text(&x->pen, "all %d", x->s->count);
}

static const char *group_title(const struct side_scene *x, const struct side_group *g) {
  static const enum verdict ORDER[] = {VERDICT_SHORT, VERDICT_OVER, VERDICT_UNPROVEN,
                                       VERDICT_THIN,  VERDICT_MET,  VERDICT_NO_FIGURE};
  const struct pen *p = &x->pen;
  struct buf b;
  buf_init(&b, p->arena, 1024);
  switch (g->meaning) {
  case SIDE_VERDICTS_DIFFER:
    for (size_t i = 0; i < COUNT_OF(ORDER); i++) {
      const char *who = letters(x, g, ORDER[i]);
      if (who[0]) buf_addf(&b, "%s%s in %s", b.n ? ", " : "", verdict_word[ORDER[i]], who);
    }
    return words_capital(p->arena, buf_text(&b));
  case SIDE_SAME_VERDICT:
    return words_capital(p->arena, say_text(p, "%s in %s", verdict_word[g->verdict[0]], all_words(x)));
  case SIDE_MORE_IN:
    return say_text(p, "Most in %s, %s", side_letter[g->item], x->s->item[g->item].name);
  case SIDE_KNOWN_IN:
    return "No figure in at least one of them";
  case SIDE_ALIKE:
    break;
  }
  return say_text(p, "Alike in %s", all_words(x));
}

/* Rows that are shown; the others are named in a sentence. */
static int rows_shown(const struct side_scene *x, const struct side_group *g) {
  enum { MET_SHOWN = 6, MORE_SHOWN = 12, ASIDE_SHOWN = 4 };
  const struct side_row *row = &x->s->row[g->first];
  if (x->pen.all) return g->count;
  if (g->meaning == SIDE_VERDICTS_DIFFER) return g->count;
  if (g->meaning == SIDE_ALIKE || g->meaning == SIDE_KNOWN_IN) return 0;
  bool met = g->meaning == SIDE_SAME_VERDICT && g->verdict[0] == VERDICT_MET;
  if (g->meaning == SIDE_SAME_VERDICT && g->verdict[0] == VERDICT_NO_FIGURE) return 0;
  int most = met ? MET_SHOWN : g->meaning == SIDE_MORE_IN ? MORE_SHOWN : g->count;
  bool aside = g->meaning == SIDE_MORE_IN && x->rails && x->s->kind != SIDE_FOODS; /* no need hangs on these */
  if (aside) most = ASIDE_SHOWN;
  double least = aside ? 2 : met ? 1.5 : 0;
  int n = 0;
  while (n < g->count && n < most && (least == 0 || row[n].factor >= least)) n++;
  return n;
}

static void write_rest(const struct side_scene *x, const struct side_group *g, int shown) {
  const struct pen *p = &x->pen;
  struct prose how = prose_at(MARGIN, INK_DIM);
  const char *item[NUT_COUNT];
  int n = 0;
  how.indent = MARGIN + 2;
  for (int i = shown; i < g->count; i++) item[n++] = words_nutrient(p->arena, x->s->row[g->first + i].id);
  if (n == 0) return;
  bool none = g->meaning == SIDE_SAME_VERDICT && g->verdict[0] == VERDICT_NO_FIGURE;
  if (none && !p->all) {
    prose_write(p, &how, say_text(p, "No figure in this standard for %d more; --all shows their amounts.", n));
    return;
  }
  const char *lead = shown > 0 ? "Also" : group_title(x, g);
  prose_write(p, &how, say_text(p, "%s: %s.", lead, say_list(p, item, n, n)));
}

static void write_title(const struct side_scene *x, const struct columns *c, const char *title) {
  struct row r;
  row_start(&r, &x->pen);
  int at = row_put(&r, MARGIN, INK_STRONG, title), need = c->rail + rail_need_cell(c->per_octave);
  if (x->rails && at < need) row_glyph(&r, need, INK_PLAIN, G_NEED);
  row_end(&r);
}

static void write_scale(const struct side_scene *x, const struct columns *c) {
  struct row r;
  row_start(&r, &x->pen);
  if (x->rails) {
    rail_scale(&r, c->rail, c->per_octave);
  } else {
    row_put(&r, c->rail, INK_DIM, "none");
    row_right(&r, c->rail + c->cells, 6, INK_DIM, "most");
  }
  for (int i = 0; i < x->s->count; i++) row_right(&r, c->amount[i], c->amount_columns, INK_STRONG, side_letter[i]);
  if (c->factor > 0) row_right(&r, c->factor, FACTOR_COLUMNS, INK_DIM, "apart");
  row_end(&r);
}

static void write_groups(const struct side_scene *x) {
  const struct pen *p = &x->pen;
  struct columns c = columns_for(x);
  bool any = false;
  write_scale(x, &c);
  for (int i = 0; i < x->s->group_count; i++) {
    const struct side_group *g = &x->s->group[i];
    int shown = rows_shown(x, g);
    if (any) blank_line(p);
    any = true;
    if (shown > 0) write_title(x, &c, group_title(x, g));
    for (int k = 0; k < shown; k++) write_row(x, &c, &x->s->row[g->first + k]);
    write_rest(x, g, shown);
  }
}

static bool lacks_amounts(const struct side *s) {
  for (int k = 0; k < s->row_count; k++)
    for (int i = 0; i < s->count; i++)
      if (isnan(s->row[k].amount[i])) return true;
  return false;
}

static void write_legend(const struct side_scene *x) {
  const struct pen *p = &x->pen;
  bool words = x->rails && x->s->kind != SIDE_FOODS;
  const char *item[] = {
      words ? "a small letter: thin or unproven" : "",
      lacks_amounts(x->s) ? "? not known" : "",
      "* several letters in one place",
      x->rails ? say_text(p, "%s need", pen_glyph(p, G_NEED)) : "",
      x->rails ? say_text(p, "%s upper limit", pen_glyph(p, G_LIMIT)) : "",
      "+ at least: some of it has no value",
      x->ways ? "%: of what is there raw" : "",
      "apart: the most over the least",
  };
  legend(p, item, COUNT_OF(item));
}

void report_side(const struct library *lib, const struct side *s, const struct cooked_way *ways,
                 const struct report_style *style, struct buf *out) {
  struct side_scene x = {pen_start(style, out), lib, s, ways, s->judged && s->per != SIDE_PER_100G};
  struct view v = view_of(&x);
  const struct pen *p = &x.pen;
  struct row r;
  blank_line(p);
  row_start(&r, p);
  int at = row_put(&r, MARGIN, INK_STRONG, "Side by side");
  const char *who = s->animal ? words_animal(p->arena, s->animal) : "no animal given: not judged";
  row_right(&r, p->width - MARGIN, p->width - MARGIN - at - 2, INK_DIM, who);
  row_end(&r);
  if (s->animal && !s->judged) answer_refusal(&v);
  side_items(&x);
  heading(p, "Nutrients", x.rails ? standard_in_short(&v) : "");
  write_groups(&x);
  write_legend(&x);
}
