/* What an animal needs: energy with its equation and range, and every figure of the standard with the row it came from. */
#include "base/table.h"
#include "report/answer.h"

#include <math.h>

enum {
  NAME_SHORT = 22,
  NAME_LONG = 25,
  FIGURE_COLUMNS = 8,
  UNIT_COLUMNS = 2,
  DAYS_COLUMNS = 4,
  NARROW = 76,
  WIDE = 84,
  PRINTED_LEAST = 10
};

static int name_columns(const struct pen *p) { return p->width < WIDE ? NAME_SHORT : NAME_LONG; }

static bool has_figure(const struct allowance *a) {
  return isfinite(a->minimum) || isfinite(a->allowance) || isfinite(a->upper);
}

/* The row that stands for the line: what is asked for, else what is tolerated. */
static const struct img_allowance *main_row(const struct allowance *a) {
  return a->allowance_row ? a->allowance_row : a->minimum_row ? a->minimum_row : a->upper_row;
}

/* ORDER CONFIDENCE: a sign for each; the legend under the table spells them out. */
static const char *const CONFIDENCE_SIGN[] = {[CONF_CONFIRMED] = " ",
                                              [CONF_CONVERTED] = "=",
                                              [CONF_MEMORY] = "~",
                                              [CONF_COMMON_PRACTICE] = "+",
                                              [CONF_CONFLICTING] = "!"};
ROW_FOR_EACH(CONFIDENCE_SIGN, CONF_COUNT);

static const char *sign_of(const struct img_allowance *row) {
  return row && row->confidence < CONF_COUNT ? CONFIDENCE_SIGN[row->confidence] : " ";
}

/* A figure and its sign; the sign has a column of its own so that digits stay aligned. */
static int write_figure(struct row *r, int at, double x, const char *before, const struct img_allowance *from,
                        enum ink ink) {
  int right = at + FIGURE_COLUMNS;
  if (isfinite(x)) {
    row_right(r, right, FIGURE_COLUMNS, ink, say_text(r->pen, "%s%s", before, words_number(r->pen->arena, x)));
    row_put(r, right, INK_ACCENT, sign_of(from));
  } else {
    row_right(r, right, FIGURE_COLUMNS, INK_DIM, pen_glyph(r->pen, G_DASH));
  }
  return right + 1;
}

static void write_nutrient(const struct view *v, enum nutrient id) {
  const struct pen *p = &v->pen;
  const struct allowance *a = &v->r->allowances.of[id];
  const struct nutrient_result *n = &v->r->nutrient[id];
  struct row r;
  row_start(&r, p);
  row_fit(&r, MARGIN, name_columns(p), INK_PLAIN, nutrient_info[id].name);
  int at = MARGIN + name_columns(p);
  at = write_figure(&r, at, a->minimum, "", a->minimum_row, INK_PLAIN);
  at = write_figure(&r, at, a->allowance, "", a->allowance_row, INK_STRONG);
  at = write_figure(&r, at, a->upper, a->upper_greater_than ? ">" : a->upper_borrowed ? "*" : "", a->upper_row, INK_PLAIN);
  row_put(&r, at + 1, INK_DIM, nutrient_info[id].unit);
  at = 1 + MARGIN + name_columns(p) + 3 * (FIGURE_COLUMNS + 1) + UNIT_COLUMNS;
  if (n->window_days > 0) row_right(&r, at + DAYS_COLUMNS, DAYS_COLUMNS, INK_DIM, say_text(p, "%d", n->window_days));
  at += DAYS_COLUMNS + 2;
  const struct img_allowance *row = main_row(a);
  if (row && p->width - at - 1 >= PRINTED_LEAST)
    row_fit(&r, at, p->width - at, INK_DIM, library_allowance_printed(v->lib, row));
  row_end(&r);
}

static void write_source(const struct view *v, const char *level, const struct img_allowance *row) {
  if (!row) return;
  const struct pen *p = &v->pen;
  struct prose how = prose_at(MARGIN + 2, INK_DIM);
  how.indent = MARGIN + 4;
  const struct img_source *source = library_source(v->lib, row->source);
  const char *note = lib_str(v->lib, row->note);
  const char *place = library_allowance_place(v->lib, row);
  if (!place)
    place = say_text(p, "%s, row %d, %s", source ? lib_str(v->lib, source->key) : "", row->row,
                     row->confidence < CONF_COUNT ? confidence_word[row->confidence] : "");
  prose_write(p, &how,
              say_text(p, "%s %s: %s%s%s", level, library_allowance_printed(v->lib, row), place, note[0] ? "; " : "", note));
}

static void write_more(const struct view *v, enum nutrient id) {
  const struct allowance *a = &v->r->allowances.of[id];
  const struct nutrient_result *n = &v->r->nutrient[id];
  struct prose how = prose_at(MARGIN + 2, INK_DIM);
  how.indent = MARGIN + 4;
  const char *words = allowance_how(a);
  if (words[0]) prose_write(&v->pen, &how, say_text(&v->pen, "= %s", words));
  write_source(v, "minimum", a->minimum_row);
  write_source(v, "need", a->allowance_row);
  write_source(v, "limit", a->upper_row);
  const char *why = n->window ? lib_str(v->lib, n->window->note) : "";
  if (why[0])
    prose_write(&v->pen, &how, say_text(&v->pen, "%d day%s: %s", n->window_days, n->window_days == 1 ? "" : "s", why));
}

static bool any_in_group(const struct check_result *r, enum nutrient_group group) {
  for (int i = 0; i < NUT_COUNT; i++)
    if (nutrient_info[i].group == group && has_figure(&r->allowances.of[i])) return true;
  return false;
}

static void write_table_head(const struct pen *p) {
  struct row r;
  row_start(&r, p);
  int at = MARGIN + name_columns(p);
  row_right(&r, at + FIGURE_COLUMNS, FIGURE_COLUMNS, INK_DIM, "minimum");
  row_right(&r, at + 2 * FIGURE_COLUMNS + 1, FIGURE_COLUMNS, INK_DIM, "need");
  row_right(&r, at + 3 * FIGURE_COLUMNS + 2, FIGURE_COLUMNS, INK_DIM, "limit");
  at += 3 * (FIGURE_COLUMNS + 1) + 1 + UNIT_COLUMNS + DAYS_COLUMNS + 2;
  row_right(&r, at - 2, DAYS_COLUMNS + 1, INK_DIM, "days");
  if (p->width >= NARROW) row_put(&r, at, INK_DIM, "as printed");
  row_end(&r);
}

static void write_tables(const struct view *v) {
  const struct pen *p = &v->pen;
  heading(p, "Needs a day", standard_in_short(v));
  write_table_head(p);
  bool first = true;
  for (int g = NG_PROXIMATE; g < NG_COUNT; g++) {
    enum nutrient_group group = (enum nutrient_group)g;
    if (!any_in_group(v->r, group)) continue;
    if (!first) blank_line(p);
    first = false;
    struct row r;
    row_start(&r, p);
    row_put(&r, MARGIN, INK_STRONG, group == NG_PROXIMATE ? "Protein, fat, fibre" : words_nutrient_group(group));
    row_end(&r);
    for (int i = 0; i < NUT_COUNT; i++) {
      if (nutrient_info[i].group != group || !has_figure(&v->r->allowances.of[i])) continue;
      write_nutrient(v, (enum nutrient)i);
      if (p->all) write_more(v, (enum nutrient)i);
    }
  }
}

static void write_legend(const struct view *v) {
  const struct pen *p = &v->pen;
  struct prose how = prose_at(MARGIN, INK_DIM);
  blank_line(p);
  prose_write(p, &how, say_text(p, "From %s.", standard_words(v)));
  const char *item[] = {
      say_text(p, "%s read on another basis", CONFIDENCE_SIGN[CONF_CONVERTED]),
      say_text(p, "%s recalled, not read in the source itself", CONFIDENCE_SIGN[CONF_MEMORY]),
      say_text(p, "%s sources conflict", CONFIDENCE_SIGN[CONF_CONFLICTING]),
      say_text(p, "%s common practice", CONFIDENCE_SIGN[CONF_COMMON_PRACTICE]),
      "> highest level tested, no proven ceiling",
      "* limit of another standard: this one sets none",
      "days: over which it may average",
  };
  legend(p, item, COUNT_OF(item));
  blank_line(p);
  if (v->r->allowances.basis_forced) prose_write(p, &how, "This standard has no figures on the basis that was asked for.");
  if (!p->all)
    prose_write(p, &how, "More: --all names the row and the reckoning behind each figure, --json gives it as data.");
}

void report_need(const struct library *lib, const struct check_result *r, const struct report_style *style,
                 struct buf *out) {
  struct view v = {pen_start(style, out), lib, r};
  const struct pen *p = &v.pen;
  struct prose how = prose_at(MARGIN, INK_STRONG);
  blank_line(p);
  prose_write(p, &how, r->animal ? words_animal(p->arena, r->animal) : "no animal given");
  if (!r->animal || r->refusal != REFUSE_NOT) {
    if (r->animal) answer_refusal(&v);
    return;
  }
  const struct energy_need *need = &r->energy.need;
  heading(p, "Energy", "kcal a day");
  how.ink = INK_PLAIN;
  const char *words = words_need_range(p->arena, r->animal, need);
  const char *range = words[0] ? say_text(p, "; %s%s", words, r->animal->measured ? "" : " is usual") : "";
  prose_write(p, &how, say_text(p, "The likely need is %s a day%s.", say_with_unit(p, round(need->kcal), "kcal"), range));
  how.ink = INK_DIM;
  if (need->from && need->from[0])
    prose_write(p, &how, say_text(p, r->animal->measured ? "Need %s." : "From: %s.", need->from));
  blank_line(p);
  answer_energy_need(&v);
  write_tables(&v);
  write_legend(&v);
}
