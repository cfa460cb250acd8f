/* Energy: what the animal needs as a band, what the bowl gives as a mark on it, and where the calories come from, all on one
 * scale that begins at nothing. */
#include "report/answer.h"

#include <math.h>

#include "picture/ribbon.h"

struct axis {
  int column, columns;
  struct ribbon ribbon;
};

enum { LABEL_COLUMNS = 6, ROOM_RIGHT = 12 };

static bool is_amount(double x) { return isfinite(x) && x > 0; }

static void set_axis(const struct pen *p, struct axis *a) {
  a->column = MARGIN + LABEL_COLUMNS;
  a->columns = p->width - MARGIN - a->column - ROOM_RIGHT;
  if (a->columns > PROSE_MOST) a->columns = PROSE_MOST;
}

static int at_place(const struct axis *a, double place) { return a->column + ribbon_cell(a->columns - 1, place); }

static void centred(struct row *r, int at, enum ink ink, const char *text) {
  row_put(r, at - text_columns(r->pen, text) / 2, ink, text);
}

static void draw_need(const struct pen *p, const struct axis *a) {
  const struct ribbon *b = &a->ribbon;
  if (!isfinite(b->need)) return;
  bool band = isfinite(b->need_low);
  int at = at_place(a, b->need);
  int low = band ? at_place(a, b->need_low) : at, high = band ? at_place(a, b->need_high) : at;
  struct row r;
  row_start(&r, p);
  centred(&r, at, INK_STRONG, b->need_words);
  int left = at - text_columns(p, b->need_words) / 2, right = left + text_columns(p, b->need_words);
  if (band && low + text_columns(p, b->low_words) < left) row_put(&r, low, INK_DIM, b->low_words);
  if (band && high - text_columns(p, b->high_words) > right - 1) row_right(&r, high + 1, 8, INK_DIM, b->high_words);
  row_end(&r);
  row_start(&r, p);
  row_put(&r, MARGIN, INK_PLAIN, "need");
  if (band) row_fill(&r, low, high - low + 1, INK_DIM, G_BAND);
  row_glyph(&r, at, INK_STRONG, band ? G_NEED_BAND : G_NEED);
  if (isfinite(b->bowl)) row_glyph(&r, at_place(a, b->bowl), INK_ACCENT, G_SURE);
  row_end(&r);
}

static void draw_supply(const struct pen *p, const struct axis *a) {
  const struct ribbon *b = &a->ribbon;
  if (!isfinite(b->bowl)) return;
  int end = at_place(a, b->bowl);
  struct row r;
  row_start(&r, p);
  row_put(&r, MARGIN, INK_PLAIN, "bowl");
  ribbon_fill(&r, a->column, a->columns - 1, &b->parts);
  row_glyph(&r, end, INK_ACCENT, G_SURE);
  row_put(&r, end + 2, INK_STRONG, say_held(p, b->bowl_words));
  row_end(&r);
  ribbon_legend(p, a->column, &b->parts);
}

static const char *range_words(const struct view *v) {
  const char *range = words_need_range(v->pen.arena, v->r->animal, &v->r->energy.need);
  return range[0] ? say_text(&v->pen, " (%s)", range) : "";
}

static const char *supply_words(const struct view *v) {
  const struct pen *p = &v->pen;
  const struct energy_need *need = &v->r->energy.need;
  const char *who = v->r->animal ? words_called(v->r->animal) : "the animal";
  const struct energy_result *e = &v->r->energy;
  const char *gives = words_gives(e, p->arena);
  if (!is_amount(need->kcal)) return say_text(p, "%s; how much is needed is not known.", gives);
  return say_text(p, "%s; %s likely needs %s%s.", gives, who, words_whole(p->arena, need->kcal), range_words(v));
}

static const char *origin_words(const struct view *v) {
  const struct pen *p = &v->pen;
  const struct energy_result *e = &v->r->energy;
  const char *mass =
      isfinite(e->grams_per_day) ? say_text(p, "%s of food a day", say_with_unit(p, round(e->grams_per_day), "g")) : "";
  if (mass[0] && is_amount(e->kcal_per_kg))
    mass =
        say_text(p, "%s, %s%s per kg", mass, e->in_part ? "at least " : "", say_with_unit(p, round(e->kcal_per_kg), "kcal"));
  if (e->from_count == 0) return mass[0] ? say_text(p, "%s.", mass) : "";
  const char *known = e->in_part ? " that is known" : e->beside ? " that is counted" : "";
  if (e->from_count == 1)
    return say_text(p, "%s%sAll of the energy%s comes from %s.", mass, mass[0] ? ". " : "", known,
                    words_line(p->arena, v->lib, v->r->ration, e->from[0].line));
  return say_text(p, "%s%sMost of the energy%s comes from %s.", mass, mass[0] ? ". " : "", known,
                  suppliers_in_words(v, e->from, e->from_count, 3));
}

void answer_energy(const struct view *v) {
  const struct pen *p = &v->pen;
  const struct energy_result *e = &v->r->energy;
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  heading(p, "Energy", "kcal a day");
  if (v->r->animal && v->r->refusal == REFUSE_NOT) {
    prose_write(p, &how, supply_words(v));
    blank_line(p);
  } else if (e->known == KNOWN_NONE) {
    prose_write(p, &how, "How much energy it gives is not known.");
  }
  struct axis a;
  if (ribbon_of(v->r, (double)NAN, &a.ribbon, p->arena)) {
    set_axis(p, &a);
    draw_need(p, &a);
    draw_supply(p, &a);
  }
  const char *origin = origin_words(v), *from = e->need.from;
  if ((p->all || (v->r->animal && v->r->animal->measured)) && v->r->animal && v->r->refusal == REFUSE_NOT && from && from[0])
    origin = say_text(p, v->r->animal->measured ? "Need %s. %s" : "Need: %s. %s", from, origin);
  if (!origin[0]) return;
  how.ink = INK_DIM;
  blank_line(p);
  prose_write(p, &how, origin);
}

void answer_energy_need(const struct view *v) {
  struct axis a;
  if (!ribbon_of_need(v->r, &a.ribbon, v->pen.arena)) return;
  set_axis(&v->pen, &a);
  draw_need(&v->pen, &a);
}
