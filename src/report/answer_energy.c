/* Energy: what the animal needs as a band, what the bowl gives as a mark on it, and where the calories come from, all on one
 * scale that begins at nothing. */
#include "report/answer.h"

#include <math.h>

struct axis {
  int column, columns;
  double top; /* kcal at the right end */
};

enum { LABEL_COLUMNS = 6, ROOM_RIGHT = 12 };

static bool is_amount(double x) { return isfinite(x) && x > 0; }

static struct axis axis_for(const struct pen *p, const struct energy_result *e, double supply) {
  double top = 0;
  double ends[] = {e->need.kcal, e->need.high_kcal, supply};
  for (size_t i = 0; i < COUNT_OF(ends); i++)
    if (is_amount(ends[i]) && ends[i] > top) top = ends[i];
  int column = MARGIN + LABEL_COLUMNS;
  int columns = p->width - MARGIN - column - ROOM_RIGHT;
  if (columns > PROSE_MOST) columns = PROSE_MOST;
  return (struct axis){column, columns, top};
}

static int at_kcal(const struct axis *a, double kcal) {
  double share = kcal < a->top ? kcal / a->top : 1;
  return a->column + (int)floor(share * (a->columns - 1) + 0.5);
}

static void centred(struct row *r, int at, enum ink ink, const char *text) {
  row_put(r, at - text_columns(r->pen, text) / 2, ink, text);
}

static void draw_need(const struct view *v, const struct axis *a, double supply) {
  const struct pen *p = &v->pen;
  const struct energy_need *need = &v->r->energy.need;
  if (!is_amount(need->kcal)) return;
  bool band = is_amount(need->low_kcal) && is_amount(need->high_kcal);
  int at = at_kcal(a, need->kcal);
  int low = band ? at_kcal(a, need->low_kcal) : at, high = band ? at_kcal(a, need->high_kcal) : at;
  struct row r;
  row_start(&r, p);
  const char *likely = say_text(p, "likely %s", words_whole(p->arena, need->kcal));
  centred(&r, at, INK_STRONG, likely);
  int left = at - text_columns(p, likely) / 2, right = left + text_columns(p, likely);
  const char *least = words_whole(p->arena, need->low_kcal), *most = words_whole(p->arena, need->high_kcal);
  if (band && low + text_columns(p, least) < left) row_put(&r, low, INK_DIM, least);
  if (band && high - text_columns(p, most) > right - 1) row_right(&r, high + 1, 8, INK_DIM, most);
  row_end(&r);
  row_start(&r, p);
  row_put(&r, MARGIN, INK_PLAIN, "need");
  if (band) row_fill(&r, low, high - low + 1, INK_DIM, G_BAND);
  row_glyph(&r, at, INK_STRONG, band ? G_NEED_BAND : G_NEED);
  if (is_amount(supply)) row_glyph(&r, at_kcal(a, supply), INK_ACCENT, G_SURE);
  row_end(&r);
}

static void draw_supply(const struct view *v, const struct axis *a) {
  const struct pen *p = &v->pen;
  const struct energy_result *e = &v->r->energy;
  const struct ribbon_piece piece[] = {
      {"protein", e->share_protein}, {"fat", e->share_fat}, {"carbohydrate", e->share_carbohydrate}};
  if (!is_amount(e->supply_kcal)) return;
  int end = at_kcal(a, e->supply_kcal);
  struct row r;
  row_start(&r, p);
  row_put(&r, MARGIN, INK_PLAIN, "bowl");
  ribbon_fill(&r, a->column, end - a->column, piece, COUNT_OF(piece));
  row_glyph(&r, end, INK_ACCENT, G_SURE);
  row_put(&r, end + 2, INK_STRONG, say_with_unit(p, round(e->supply_kcal), "kcal"));
  row_end(&r);
  ribbon_legend(p, a->column, piece, COUNT_OF(piece));
}

static const char *range_words(const struct view *v) {
  const char *range = words_need_range(v->pen.arena, v->r->animal, &v->r->energy.need);
  return range[0] ? say_text(&v->pen, " (%s)", range) : "";
}

static const char *supply_words(const struct view *v, double supply) {
  const struct pen *p = &v->pen;
  const struct energy_need *need = &v->r->energy.need;
  const char *who = v->r->animal ? words_called(v->r->animal) : "the animal";
  const char *gives = isfinite(supply) ? say_text(p, "The bowl gives %s a day", say_with_unit(p, round(supply), "kcal"))
                                       : "How much energy the bowl gives is not known";
  if (!is_amount(need->kcal)) return say_text(p, "%s; how much is needed is not known.", gives);
  return say_text(p, "%s; %s likely needs %s%s.", gives, who, words_whole(p->arena, need->kcal), range_words(v));
}

static const char *origin_words(const struct view *v) {
  const struct pen *p = &v->pen;
  const struct energy_result *e = &v->r->energy;
  const char *mass =
      isfinite(e->grams_per_day) ? say_text(p, "%s of food a day", say_with_unit(p, round(e->grams_per_day), "g")) : "";
  if (mass[0] && is_amount(e->kcal_per_kg))
    mass = say_text(p, "%s, %s per kg", mass, say_with_unit(p, round(e->kcal_per_kg), "kcal"));
  if (e->from_count == 0) return mass[0] ? say_text(p, "%s.", mass) : "";
  return say_text(p, "%s%sMost of the energy comes from %s.", mass, mass[0] ? ". " : "",
                  supplier_words(v, e->from, e->from_count, 3));
}

void answer_energy(const struct view *v) {
  const struct pen *p = &v->pen;
  const struct energy_result *e = &v->r->energy;
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  heading(p, "Energy", "kcal a day");
  if (v->r->animal && v->r->refusal == REFUSE_NOT) {
    prose_write(p, &how, supply_words(v, e->supply_kcal));
    blank_line(p);
    struct axis a = axis_for(p, e, e->supply_kcal);
    if (a.top > 0) {
      draw_need(v, &a, e->supply_kcal);
      draw_supply(v, &a);
    }
  } else {
    struct energy_result alone = {.supply_kcal = e->supply_kcal};
    struct axis a = axis_for(p, &alone, e->supply_kcal);
    if (a.top > 0) draw_supply(v, &a);
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
  struct axis a = axis_for(&v->pen, &v->r->energy, (double)NAN);
  if (a.top > 0) draw_need(v, &a, (double)NAN);
}
