/* The rails: one line a nutrient, grouped by what the reader has to do, worst first. */
#include "report/answer.h"
#include "report/rail.h"

#include <math.h>

/* ---- columns --------------------------------------------------------------------------------------------------- */

struct columns {
  int name_columns, window_right, rail, per_octave;
  int amount_right, middle, figure_right, unit, chance_right;
  int from, from_columns; /* who brings most of it; 0 columns: no room */
  bool narrow;
};

enum {
  AMOUNT_COLUMNS = 6,
  UNIT_COLUMNS = 2,
  WINDOW_COLUMNS = 2,
  CHANCE_COLUMNS = 5,
  NARROW = 72,
  WIDE = 108,
  FROM_COLUMNS = 24,
  FROM_MOST = 40,
  OCTAVE_LEAST = 3,
  OCTAVE_MOST = 10
};

static struct columns columns_for(const struct pen *p) {
  struct columns c = {.narrow = p->width < NARROW};
  c.name_columns = c.narrow ? 14 : p->width < WIDE ? 20 : 24;
  c.window_right = MARGIN + c.name_columns + 1 + WINDOW_COLUMNS;
  c.rail = c.window_right + (p->width < WIDE ? 1 : 2);
  int middle = c.narrow ? 1 : 4, gap = p->width < WIDE ? 1 : 2, edge = p->width - (c.narrow ? 1 : MARGIN);
  int right = 1 + AMOUNT_COLUMNS + middle + AMOUNT_COLUMNS + 1 + UNIT_COLUMNS + gap + CHANCE_COLUMNS;
  int room = edge - c.rail - right - (p->width >= WIDE ? gap + FROM_COLUMNS : 0);
  c.per_octave = (room - 1) / RAIL_OCTAVES;
  if (c.per_octave > OCTAVE_MOST) c.per_octave = OCTAVE_MOST;
  if (c.per_octave < OCTAVE_LEAST) c.per_octave = OCTAVE_LEAST;
  c.amount_right = c.rail + rail_cells(c.per_octave) + 1 + AMOUNT_COLUMNS;
  c.middle = c.amount_right + (c.narrow ? 0 : 1);
  c.figure_right = c.amount_right + middle + AMOUNT_COLUMNS;
  c.unit = c.figure_right + 1;
  c.chance_right = c.unit + UNIT_COLUMNS + gap + CHANCE_COLUMNS;
  if (p->width >= WIDE) {
    c.from = c.chance_right + gap;
    c.from_columns = edge - c.from < FROM_MOST ? edge - c.from : FROM_MOST;
  }
  return c;
}

/* ---- one nutrient ---------------------------------------------------------------------------------------------- */

static enum ink ink_of(enum verdict v) { return v == VERDICT_SHORT || v == VERDICT_OVER ? INK_ACCENT : INK_PLAIN; }

static void write_figures(struct row *row, const struct columns *c, const struct nutrient_result *n) {
  const struct pen *p = row->pen;
  bool limit = rail_by_limit(n);
  double figure = limit ? n->upper : n->allowance;
  bool known = n->known != KNOWN_NONE;
  if (known) {
    row_right(row, c->amount_right, AMOUNT_COLUMNS, INK_STRONG, words_number(p->arena, n->amount));
  } else if (c->narrow) {
    row_right(row, c->amount_right, AMOUNT_COLUMNS, INK_PLAIN, "?");
  } else {
    row_right(row, c->amount_right + 3, AMOUNT_COLUMNS + 3, INK_PLAIN, "not known");
  }
  if (isfinite(figure)) {
    const char *word = !limit ? "of" : !known || !(n->amount > n->upper) ? " <" : " >";
    if (c->narrow && limit) row_put(row, c->middle, INK_DIM, word + 1);
    if (!c->narrow && known) row_put(row, c->middle, INK_DIM, word);
    row_right(row, c->figure_right, AMOUNT_COLUMNS, INK_PLAIN, words_number(p->arena, figure));
  }
  row_put(row, c->unit, INK_DIM, nutrient_info[n->id].unit);
  row_right(row, c->chance_right, CHANCE_COLUMNS, INK_DIM, say_chance(p, limit ? n->chance_kept : n->chance_met));
}

/* ---- notes under a rail ---------------------------------------------------------------------------------------- */

static void write_note(const struct view *v, const char *text) {
  struct prose how = prose_at(MARGIN + 2, INK_DIM);
  how.indent = MARGIN + 4;
  prose_write(&v->pen, &how, text);
}

static void note_window(const struct view *v, const struct nutrient_result *n) {
  const struct pen *p = &v->pen;
  const char *unit = nutrient_info[n->id].unit;
  if (n->verdict_by_window)
    write_note(
        v,
        say_text(p, "%s on average, but %s %s", say_with_unit(p, n->amount, unit), say_with_unit(p, n->window_amount, unit),
                 n->window_days == 1 ? "on the leanest day" : say_text(p, "a day in the leanest %d days", n->window_days)));
  if (n->highest_day_over)
    write_note(v, say_text(p, "the richest day supplies %s, above the limit of %s", say_with_unit(p, n->highest_day, unit),
                           say_with_unit(p, n->upper, unit)));
}

static void note_allowance(const struct view *v, const struct nutrient_result *n) {
  if (!n->adjusted || !isfinite(n->adjusted_to)) return;
  const struct pen *p = &v->pen;
  const char *why = n->adjusted_why ? say_text(p, ": %s", n->adjusted_why) : "";
  const char *to = say_with_unit(p, n->adjusted_to, nutrient_info[n->id].unit);
  if (isfinite(n->adjusted_from)) {
    const char *moved = n->adjusted_to < n->adjusted_from ? "lowered" : "raised";
    write_note(v, say_text(p, "need %s from %s to %s%s", moved, words_number(p->arena, n->adjusted_from), to, why));
  } else {
    write_note(v, say_text(p, "need set to %s%s", to, why));
  }
}

static void note_origin(const struct view *v, const struct nutrient_result *n, const struct columns *c) {
  const struct pen *p = &v->pen;
  const struct supply_list *list = who_supplies(n);
  if (list->missing_count > 0 && (p->all || n->verdict == VERDICT_UNPROVEN || n->known == KNOWN_NONE))
    write_note(v, say_text(p, "no figure for %s", missing_words(v, n, p->all ? 12 : 4)));
  if (!p->all) return;
  const char *from = "", *estimated = "";
  if (list->from_count > 0 && c->from_columns == 0)
    from = say_text(p, "from %s", supplier_words(v, list->from, list->from_count, 4));
  if (n->estimated_share > 0.005)
    estimated =
        say_text(p, "%s%s rests on estimates or single figures", from[0] ? "; " : "", say_percent(p, n->estimated_share));
  write_note(v, say_text(p, "%s%s", from, estimated));
}

static void write_nutrient(const struct view *v, const struct columns *c, const struct nutrient_result *n) {
  const struct pen *p = &v->pen;
  struct row row;
  row_start(&row, p);
  row_fit(&row, MARGIN, c->name_columns, INK_PLAIN, nutrient_info[n->id].name);
  if (n->window_days > 0) row_right(&row, c->window_right, WINDOW_COLUMNS, INK_DIM, say_text(p, "%d", n->window_days));
  if (n->allowance > 0 && isfinite(n->allowance)) {
    struct rail rail = rail_of(n);
    rail_draw(&row, c->rail, c->per_octave, &rail, ink_of(n->verdict));
  } else {
    const char *why = n->allowance <= 0 ? "none needed from food" : "no need stated, only a limit";
    row_fit(&row, c->rail, rail_cells(c->per_octave), INK_DIM, why);
  }
  write_figures(&row, c, n);
  if (c->from_columns > 0 && who_supplies(n)->from_count > 0)
    row_fit(&row, c->from, c->from_columns, INK_DIM, supplier_words(v, who_supplies(n)->from, 1, 1));
  row_end(&row);
  note_window(v, n);
  if (p->all || n->verdict != VERDICT_MET) note_allowance(v, n);
  note_origin(v, n, c);
}

/* ---- groups ---------------------------------------------------------------------------------------------------- */

/* A row between rails: the line of the allowance runs through, so that the eye can follow it. */
static void write_between(const struct view *v, const struct columns *c, const char *title, const char *aside) {
  struct row row;
  row_start(&row, &v->pen);
  int need = c->rail + rail_need_cell(c->per_octave), at = MARGIN;
  if (title[0]) {
    at = row_put(&row, at, INK_STRONG, title);
    at = row_fit(&row, at + 2, need - 1 - at - 2, INK_DIM, aside);
  }
  if (at < need) row_glyph(&row, need, INK_PLAIN, G_NEED);
  row_end(&row);
}

static const char *names_of(const struct view *v, const struct group *g, bool amounts) {
  const struct pen *p = &v->pen;
  struct buf b;
  buf_init(&b, p->arena, (size_t)16 * 1024);
  for (int i = 0; i < g->count; i++) {
    const struct nutrient_result *n = g->item[i];
    const char *name = words_nutrient(p->arena, n->id);
    if (amounts)
      name = say_text(p, "%s %s", name,
                      n->known == KNOWN_NONE ? NOT_KNOWN_WORDS : say_with_unit(p, n->amount, nutrient_info[n->id].unit));
    /* A figure that is only the highest tested is no limit to be over; but "met" alone would sound like all is well. */
    if (n->upper_greater_than && n->window_high > n->upper) name = say_text(p, "%s (above the highest level tested)", name);
    buf_addf(&b, "%s%s", i ? ", " : "", say_held(p, name));
  }
  return buf_text(&b);
}

static void write_met(const struct view *v, const struct group *met) {
  const struct pen *p = &v->pen;
  struct row row;
  row_start(&row, p);
  row_put(&row, MARGIN, INK_STRONG, "Met");
  row_put(&row, MARGIN + 5, INK_DIM, say_text(p, "%d", met->count));
  row_end(&row);
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  prose_write(p, &how, names_of(v, met, false));
}

/* What the standard says nothing about: only counted, unless all is asked for. */
static void write_no_figure(const struct view *v, const struct group *none, bool alone) {
  const struct pen *p = &v->pen;
  struct prose how = prose_at(MARGIN, INK_DIM);
  if (!alone) blank_line(p);
  if (p->all) {
    prose_write(p, &how, say_text(p, "No figure in this standard: %s.", names_of(v, none, true)));
  } else {
    prose_write(p, &how,
                say_text(p, "No figure in this standard for %d%s; --all shows their amounts.", none->count,
                         alone ? " nutrients" : " more"));
  }
}

static void write_header(const struct view *v, const struct columns *c) {
  struct row row;
  row_start(&row, &v->pen);
  rail_scale(&row, c->rail, c->per_octave);
  row_right(&row, c->window_right, 4, INK_DIM, "days");
  row_right(&row, c->chance_right, CHANCE_COLUMNS + 1, INK_DIM, c->narrow ? "odds" : "chance");
  if (c->from_columns > 0) row_put(&row, c->from, INK_DIM, "mostly from");
  row_end(&row);
}

/* What was drawn, so that the legend explains that and nothing else. */
struct drawn {
  bool unsure, lean, least, limit, tested, hatch;
};

static void note_drawn(struct drawn *d, const struct nutrient_result *n) {
  struct rail rail = rail_of(n);
  d->unsure = d->unsure || !rail.sure;
  d->lean = d->lean || isfinite(rail.lean);
  d->least = d->least || isfinite(rail.least);
  d->tested = d->tested || (isfinite(rail.limit) && rail.limit_is_tested);
  d->limit = d->limit || (isfinite(rail.limit) && !rail.limit_is_tested);
  d->hatch = d->hatch || rail.data_missing;
}

static void write_legend(const struct view *v, const struct drawn *d) {
  const struct pen *p = &v->pen;
#define GLYPH(g) pen_glyph(p, g)
  const char *band = say_text(p, "%s%s", GLYPH(G_BAND), GLYPH(G_BAND));
  const char *item[] = {
      say_text(p, "%s%s%s the amount and where it lies 9 times in 10", band, GLYPH(G_SURE), band),
      d->unsure ? say_text(p, "%s thin or unproven", GLYPH(G_UNSURE)) : "",
      say_text(p, "%s need", GLYPH(G_NEED)),
      d->least ? say_text(p, "%s minimum", GLYPH(G_LEAST)) : "",
      d->limit ? say_text(p, "%s upper limit", GLYPH(G_LIMIT)) : "",
      d->tested ? say_text(p, "%s highest level tested", GLYPH(G_TESTED)) : "",
      d->hatch ? say_text(p, "%s%s%s may hide in foods without data", GLYPH(G_HATCH), GLYPH(G_HATCH), GLYPH(G_HATCH)) : "",
      d->lean ? say_text(p, "%s the leanest days", GLYPH(G_LEAN)) : "",
      "days: over which it may average",
      "chance: that the need is reached, or the limit kept",
  };
#undef GLYPH
  legend(p, item, COUNT_OF(item));
}

void answer_rails(const struct view *v) {
  const struct pen *p = &v->pen;
  struct columns c = columns_for(p);
  struct drawn drawn = {.unsure = false};
  struct group group[GROUP_COUNT];
  bool any = false;
  words_groups(v->r, group);
  heading(p, "Nutrients a day", standard_in_short(v));
  for (int i = 0; i < GROUP_NO_FIGURE; i++) {
    const struct group *g = &group[i];
    if (g->count == 0 || (i == GROUP_MET && !p->all)) continue;
    if (any) {
      write_between(v, &c, "", "");
    } else {
      write_header(v, &c);
    }
    any = true;
    write_between(v, &c, g->title, g->aside);
    for (int k = 0; k < g->count; k++) {
      write_nutrient(v, &c, g->item[k]);
      note_drawn(&drawn, g->item[k]);
    }
  }
  const struct group *met = &group[GROUP_MET], *none = &group[GROUP_NO_FIGURE];
  if (met->count > 0 && !p->all) {
    if (any) blank_line(p);
    write_met(v, met);
  }
  if (none->count > 0) write_no_figure(v, none, !any && met->count == 0);
  if (any) write_legend(v, &drawn);
}
