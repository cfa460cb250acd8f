/* Two to six bowls or foods on the same rails: one letter each, capital where the word is sure. What parts them comes first.
 */
#include <math.h>

#include "base/table.h"
#include "report/answer.h"
#include "report/rail.h"

static WORD_TABLE(LETTER, SIDE_MOST, "A", "B", "C", "D", "E", "F");
static WORD_TABLE(SMALL, SIDE_MOST, "a", "b", "c", "d", "e", "f");

struct scene {
  struct pen pen;
  const struct library *lib;
  const struct side *s;
  const struct cooked_way *ways; /* NULL */
  bool rails;                    /* against needs; else from nothing to the most */
};

static struct view view_of(const struct scene *x) { return (struct view){x->pen, x->lib, x->s->item[0].r}; }

/* ---- who is who ------------------------------------------------------------------------------------------------ */

struct column {
  const char *head;
  int columns;
  bool when_narrow;
};
enum { COL_GRAMS, COL_KCAL, COL_ML, COL_DENSITY, COL_PROTEIN, COL_FAT, COL_CARBOHYDRATE, COL_COUNT, NARROW = 76 };
static const struct column COLUMN[] = {{"g a day", 9, true},     {"kcal a day", 12, true}, {"ml", 7, false},
                                       {"kcal/100 g", 12, true}, {"protein", 9, false},    {"fat", 7, true},
                                       {"carb.", 7, false}};
ROW_FOR_EACH(COLUMN, COL_COUNT);

static bool has_column(const struct scene *x, int c) {
  if (x->pen.width < NARROW && !COLUMN[c].when_narrow) return false;
  if (x->s->kind == SIDE_FOODS && c <= COL_ML) return false;
  if (x->ways && (c == COL_PROTEIN || c == COL_CARBOHYDRATE)) return false;
  return c != COL_ML || x->ways;
}

/* Of an energy that is known in part nobody knows the shares. */
static const char *share_words(const struct pen *p, const struct energy_result *e, double share) {
  return e->in_part ? "?" : say_percent(p, share);
}

static const char *cell_words(const struct scene *x, int i, int c) {
  const struct pen *p = &x->pen;
  const struct side_item *item = &x->s->item[i];
  const struct energy_result *e = &item->r->energy;
  switch (c) {
  case COL_GRAMS:
    return words_whole(p->arena, item->grams_per_day);
  case COL_KCAL:
    return say_text(p, "%s%s", words_whole(p->arena, item->kcal_per_day), e->known == KNOWN_PART ? "+" : "");
  case COL_ML:
    /* A bowl of nothing has no volume. */
    if (!(e->grams_per_day > 0)) return "not known";
    return words_whole(p->arena, volume_of(x->lib, item->r) * item->grams_per_day / e->grams_per_day);
  case COL_DENSITY:
    return say_text(p, "%s%s", words_whole(p->arena, e->kcal_per_kg / 10), e->known == KNOWN_PART ? "+" : "");
  case COL_PROTEIN:
    return share_words(p, e, e->share_protein);
  case COL_FAT:
    return share_words(p, e, e->share_fat);
  default:
    return share_words(p, e, e->share_carbohydrate);
  }
}

static int table_columns(const struct scene *x) {
  int wide = 0;
  for (int c = 0; c < COL_COUNT; c++) wide += has_column(x, c) ? COLUMN[c].columns : 0;
  return wide;
}

static int table_right(const struct scene *x) {
  int right = x->pen.width - MARGIN;
  return right > PROSE_MOST + MARGIN ? PROSE_MOST + MARGIN : right;
}

static void write_record(const struct scene *x, uint32_t food) {
  const struct pen *p = &x->pen;
  struct row r;
  if (food >= library_count(x->lib)) return;
  row_start(&r, p);
  const char *pin = say_text(p, "[%s]", library_code(x->lib, food));
  int at = row_fit(&r, MARGIN + 3, table_right(x) - MARGIN - 5 - text_columns(p, pin), INK_DIM, library_name(x->lib, food));
  row_put(&r, at + 1, INK_DIM, pin);
  row_end(&r);
}

static void write_items(const struct scene *x) {
  const struct pen *p = &x->pen;
  int left = table_right(x) - table_columns(x);
  struct row r;
  blank_line(p);
  row_start(&r, p);
  for (int c = 0, at = left; c < COL_COUNT; c++) {
    if (!has_column(x, c)) continue;
    at += COLUMN[c].columns;
    row_right(&r, at, COLUMN[c].columns, INK_DIM, COLUMN[c].head);
  }
  row_end(&r);
  for (int i = 0; i < x->s->count; i++) {
    row_start(&r, p);
    row_put(&r, MARGIN, INK_STRONG, LETTER[i]);
    row_fit(&r, MARGIN + 3, left - MARGIN - 4, INK_PLAIN, x->s->item[i].name);
    for (int c = 0, at = left; c < COL_COUNT; c++) {
      if (!has_column(x, c)) continue;
      at += COLUMN[c].columns;
      /* "not known" has no room beside its neighbour: a bowl of nothing gets dashes. */
      const char *words = cell_words(x, i, c);
      bool fits = text_columns(p, words) < COLUMN[c].columns;
      row_right(&r, at, COLUMN[c].columns, INK_PLAIN, fits ? words : pen_glyph(p, G_DASH));
    }
    row_end(&r);
    if (x->s->kind == SIDE_FOODS) write_record(x, x->s->item[i].food);
  }
}

/* ---- what the amounts mean ------------------------------------------------------------------------------------- */

/* Nothing stands beside a food at equal energy when nobody knows its energy. */
static void say_without_energy(const struct pen *p, const struct side *s) {
  const char *name[SIDE_MOST];
  size_t count = 0;
  for (int i = 0; i < s->count && s->per == SIDE_PER_1000KCAL; i++)
    if (!isfinite(s->item[i].kcal_per_day) || s->item[i].r->energy.in_part) name[count++] = s->item[i].name;
  if (count == 0) return;
  struct prose how = prose_at(MARGIN, INK_DIM);
  prose_write(p, &how,
              say_text(p,
                       "How much energy is in %s is not known, so there are no amounts at equal energy; --per %s has those "
                       "that are known.",
                       words_list(p->arena, name, count, count), s->kind == SIDE_FOODS ? "100g" : "day"));
}

static void write_meaning(const struct scene *x) {
  const struct pen *p = &x->pen;
  const struct side *s = x->s;
  struct prose how = prose_at(MARGIN, INK_DIM);
  blank_line(p);
  double need = s->item[0].r->energy.need.kcal;
  const char *who = s->animal ? words_called(s->animal) : "";
  const char *kcal = say_with_unit(p, round(need), "kcal");
  if (s->per == SIDE_PER_DAY && s->judged && isfinite(need))
    prose_write(p, &how, say_text(p, "Amounts a day, as fed. %s likely needs %s.", words_capital(p->arena, who), kcal));
  if (s->per == SIDE_PER_DAY && !(s->judged && isfinite(need))) prose_write(p, &how, "Amounts a day, as fed.");
  if (s->per == SIDE_PER_100G) prose_write(p, &how, "Amounts in 100 g as eaten.");
  if (s->per == SIDE_PER_1000KCAL && s->judged && s->kind != SIDE_FOODS)
    prose_write(p, &how,
                say_text(p, "Amounts per 1000 kcal. Each is judged as if %s got the likely need of %s of it.", who, kcal));
  if (s->per == SIDE_PER_1000KCAL && s->judged && s->kind == SIDE_FOODS)
    prose_write(p, &how,
                say_text(p,
                         "Amounts per 1000 kcal. The need: what they would have to supply if %s, who likely needs %s a day, "
                         "ate nothing else.",
                         who, kcal));
  if (s->per == SIDE_PER_1000KCAL && !s->judged) prose_write(p, &how, "Amounts per 1000 kcal: at equal energy.");
  say_without_energy(p, s);
}

/* ---- cooking --------------------------------------------------------------------------------------------------- */

static const char *left_lines(const struct scene *x, enum way_left why) {
  const struct cooked_way *w = &x->ways[WAY_DRAINED];
  const char *item[12];
  int n = 0, all = 0;
  for (size_t i = 0; i < w->ration.line_count; i++) {
    if (w->line[i].left != why) continue;
    all++;
    if (n < (int)COUNT_OF(item)) item[n++] = words_line(x->pen.arena, x->lib, &w->ration, (int)i);
  }
  return all == 0 ? "" : say_list(&x->pen, item, all, n);
}

static void write_ways(const struct scene *x) {
  const struct pen *p = &x->pen;
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  how.indent = MARGIN + 2;
  if (!x->ways) return;
  const struct cooked_way *drained = &x->ways[WAY_DRAINED], *baked = &x->ways[WAY_BAKED];
  for (int why = LEFT_BONE; why < LEFT_COUNT; why++) {
    const char *lines = left_lines(x, (enum way_left)why);
    if (lines[0]) prose_write(p, &how, say_text(p, "%s: %s.", words_capital(p->arena, way_left_text[why]), lines));
  }
  how.ink = INK_DIM;
  prose_write(
      p, &how,
      say_text(p,
               "Weights after cooking are rough: %s to %s drained, %s to %s baked. Broth kept: what runs out stays in "
               "the bowl, added water not counted. ml: without air.",
               words_whole(p->arena, drained->grams_low), say_with_unit(p, round(drained->grams_high), "g"),
               words_whole(p->arena, baked->grams_low), say_with_unit(p, round(baked->grams_high), "g")));
}

/* ---- columns of the rails -------------------------------------------------------------------------------------- */

struct columns {
  int name_columns, rail, per_octave, cells;
  int amount[SIDE_MOST], amount_columns; /* right ends */
  int unit, factor;                      /* right end of the factor; 0: no room */
};

enum { UNIT_COLUMNS = 2, FACTOR_COLUMNS = 6, OCTAVE_LEAST = 3, OCTAVE_MOST = 9, SIGN = 1 };

static struct columns columns_for(const struct scene *x) {
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

static bool is_sure(const struct scene *x, const struct side_row *row, int i) {
  return !x->rails || x->s->kind == SIDE_FOODS || (row->verdict[i] != VERDICT_THIN && row->verdict[i] != VERDICT_UNPROVEN);
}

static bool is_bad(const struct side_row *row, int i) {
  return row->verdict[i] == VERDICT_SHORT || row->verdict[i] == VERDICT_OVER;
}

static void put_letter(const struct scene *x, struct row *r, int at, const struct side_row *row, int i, bool taken) {
  enum ink ink = is_bad(row, i) ? INK_ACCENT : INK_STRONG;
  row_put(r, at, ink, taken ? "*" : is_sure(x, row, i) ? LETTER[i] : SMALL[i]);
}

static bool has_need(const struct scene *x, const struct side_row *row) {
  return x->rails && row->need[0] > 0 && isfinite(row->need[0]);
}

static bool is_free(const int *cell, int count, int at) {
  for (int i = 0; i < count; i++)
    if (cell[i] == at) return false;
  return true;
}

/* Letters of one cell stand beside each other, the smaller amount to the left, if that moves none over the need. */
static bool spread_out(const struct scene *x, const struct columns *c, const struct side_row *row, int *cell, int at) {
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
static void put_letters(const struct scene *x, struct row *r, const struct columns *c, const struct side_row *row,
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

static void draw_rail(const struct scene *x, struct row *r, const struct columns *c, const struct side_row *row) {
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
static void draw_share(const struct scene *x, struct row *r, const struct columns *c, const struct side_row *row) {
  int cell[SIDE_MOST] = {-1, -1, -1, -1, -1, -1};
  double most = row->most >= 0 ? row->amount[row->most] : 0;
  row_fill(r, c->rail, c->cells, INK_DIM, G_DOT);
  for (int i = 0; i < x->s->count; i++)
    cell[i] = isnan(row->amount[i]) || !(most > 0) ? -1 : (int)floor(row->amount[i] / most * (c->cells - 1) + 0.5);
  put_letters(x, r, c, row, cell);
}

static const char *amount_words(const struct scene *x, const struct side_row *row, int i) {
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

static void write_row(const struct scene *x, const struct columns *c, const struct side_row *row) {
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
static const char *letters(const struct scene *x, const struct side_group *g, enum verdict v) {
  const char *item[SIDE_MOST];
  int n = 0;
  for (int i = 0; i < x->s->count; i++)
    if (g->verdict[i] == v) item[n++] = LETTER[i];
  return say_list(&x->pen, item, n, n);
}

static const char *all_words(const struct scene *x) {
  return x->s->count == 2 ? "both" : say_text(&x->pen, "all %d", x->s->count);
}

static const char *group_title(const struct scene *x, const struct side_group *g) {
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
    return say_text(p, "Most in %s, %s", LETTER[g->item], x->s->item[g->item].name);
  case SIDE_KNOWN_IN:
    return "No figure in at least one of them";
  case SIDE_ALIKE:
    break;
  }
  return say_text(p, "Alike in %s", all_words(x));
}

/* Rows that are shown; the others are named in a sentence. */
static int rows_shown(const struct scene *x, const struct side_group *g) {
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

static void write_rest(const struct scene *x, const struct side_group *g, int shown) {
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

static void write_title(const struct scene *x, const struct columns *c, const char *title) {
  struct row r;
  row_start(&r, &x->pen);
  int at = row_put(&r, MARGIN, INK_STRONG, title), need = c->rail + rail_need_cell(c->per_octave);
  if (x->rails && at < need) row_glyph(&r, need, INK_PLAIN, G_NEED);
  row_end(&r);
}

static void write_scale(const struct scene *x, const struct columns *c) {
  struct row r;
  row_start(&r, &x->pen);
  if (x->rails) {
    rail_scale(&r, c->rail, c->per_octave);
  } else {
    row_put(&r, c->rail, INK_DIM, "none");
    row_right(&r, c->rail + c->cells, 6, INK_DIM, "most");
  }
  for (int i = 0; i < x->s->count; i++) row_right(&r, c->amount[i], c->amount_columns, INK_STRONG, LETTER[i]);
  if (c->factor > 0) row_right(&r, c->factor, FACTOR_COLUMNS, INK_DIM, "apart");
  row_end(&r);
}

static void write_groups(const struct scene *x) {
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

static void write_legend(const struct scene *x) {
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
  struct scene x = {pen_start(style, out), lib, s, ways, s->judged && s->per != SIDE_PER_100G};
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
  write_items(&x);
  write_meaning(&x);
  write_ways(&x);
  heading(p, "Nutrients", x.rails ? standard_in_short(&v) : "");
  write_groups(&x);
  write_legend(&x);
}
