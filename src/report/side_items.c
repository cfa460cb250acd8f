/* What is compared: a letter, grams and energy each, what the amounts mean, and what was assumed of cooking. */
#include <math.h>

#include "base/table.h"
#include "report/side_parts.h"

WORD_TABLE(side_letter, SIDE_MOST, "A", "B", "C", "D", "E", "F");

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

static bool has_column(const struct side_scene *x, int c) {
  if (x->pen.width < NARROW && !COLUMN[c].when_narrow) return false;
  if (x->s->kind == SIDE_FOODS && c <= COL_ML) return false;
  if (x->ways && (c == COL_PROTEIN || c == COL_CARBOHYDRATE)) return false;
  return c != COL_ML || x->ways;
}

/* Of an energy that is known in part nobody knows the shares. */
static const char *share_words(const struct pen *p, const struct energy_result *e, double share) {
  return !energy_is_whole(e) ? "?" : say_percent(p, share);
}

static const char *cell_words(const struct side_scene *x, int i, int c) {
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

static int table_columns(const struct side_scene *x) {
  int wide = 0;
  for (int c = 0; c < COL_COUNT; c++) wide += has_column(x, c) ? COLUMN[c].columns : 0;
  return wide;
}

static int table_right(const struct side_scene *x) {
  int right = x->pen.width - MARGIN;
  return right > PROSE_MOST + MARGIN ? PROSE_MOST + MARGIN : right;
}

static void write_record(const struct side_scene *x, uint32_t food) {
  const struct pen *p = &x->pen;
  struct row r;
  if (food >= library_count(x->lib)) return;
  row_start(&r, p);
  const char *pin = say_text(p, "[%s]", library_code(x->lib, food));
  int at = row_fit(&r, MARGIN + 3, table_right(x) - MARGIN - 5 - text_columns(p, pin), INK_DIM, library_name(x->lib, food));
  row_put(&r, at + 1, INK_DIM, pin);
  row_end(&r);
}

static void write_items(const struct side_scene *x) {
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
    row_put(&r, MARGIN, INK_STRONG, side_letter[i]);
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
    if (!isfinite(s->item[i].kcal_per_day) || !energy_is_whole(&s->item[i].r->energy)) name[count++] = s->item[i].name;
  if (count == 0) return;
  struct prose how = prose_at(MARGIN, INK_DIM);
  prose_write(p, &how,
              say_text(p,
                       "How much energy is in %s is not known, so there are no amounts at equal energy; --per %s has those "
                       "that are known.",
                       words_list(p->arena, name, count, count), s->kind == SIDE_FOODS ? "100g" : "day"));
}

static void write_meaning(const struct side_scene *x) {
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

static const char *left_lines(const struct side_scene *x, enum way_left why) {
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

static void write_ways(const struct side_scene *x) {
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

void side_items(const struct side_scene *x) {
  write_items(x);
  write_meaning(x);
  write_ways(x);
}
