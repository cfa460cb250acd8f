#include "picture/rail.h"

#include <math.h>

#include "words/words.h"

static double times(double x, double need) { return need > 0 ? x / need : (double)NAN; }

struct rail rail_of(const struct nutrient_result *n) {
  double need = n->allowance;
  bool known = n->known != KNOWN_NONE;
  struct rail r = {.low = known ? times(n->low, need) : (double)NAN,
                   .middle = known ? times(n->amount, need) : (double)NAN,
                   .high = known ? times(n->high, need) : (double)NAN,
                   .lean = n->verdict_by_window ? times(n->window_amount, need) : (double)NAN,
                   .least = times(n->minimum, need),
                   .limit = times(n->upper, need),
                   .limit_is_tested = n->upper_greater_than,
                   .reach = times(n->possible, need),
                   .data_missing = n->known != KNOWN_ALL};
  /* Where enough is there already, an unknown more says nothing. */
  bool enough = n->verdict == VERDICT_MET || n->verdict == VERDICT_OVER;
  r.reach_unknown = r.data_missing && !isfinite(r.reach) && !enough;
  if (enough && !isfinite(r.reach)) r.data_missing = false;
  r.sure = n->verdict != VERDICT_THIN && n->verdict != VERDICT_UNPROVEN;
  return r;
}

bool rail_by_limit(const struct nutrient_result *n) {
  return isfinite(n->upper) && (n->verdict == VERDICT_OVER || n->close_to_limit ||
                                (n->verdict == VERDICT_MET && n->near_upper) || !isfinite(n->allowance));
}

/* ---- places ------------------------------------------------------------------------------------------------------ */

const char *const rail_end_word[RAIL_END_COUNT] = {"inside", "below", "above"};

/* Half a point on the widest rail there is. */
enum { PLACE_STEPS = 2000 };

double rail_place(double multiple) {
  if (isnan(multiple)) return (double)NAN;
  double octaves = multiple > 0 ? log2(multiple) + RAIL_OCTAVES_BELOW : 0;
  return round(fmin(fmax(octaves / RAIL_OCTAVES, 0), 1) * PLACE_STEPS) / PLACE_STEPS;
}

static enum rail_end end_of(double multiple) {
  if (!(multiple > 0) || log2(multiple) < -RAIL_OCTAVES_BELOW) return RAIL_BELOW;
  return log2(multiple) > RAIL_OCTAVES_ABOVE ? RAIL_ABOVE : RAIL_INSIDE;
}

bool rail_places(const struct nutrient_result *n, struct rail_places *to) {
  if (!(n->allowance > 0)) return false;
  struct rail r = rail_of(n);
  bool known = isfinite(r.middle), spread = known && isfinite(r.low) && isfinite(r.high);
  bool more = r.data_missing && isfinite(r.reach) && r.reach > known_part(r.middle);
  *to =
      (struct rail_places){.mark = known ? rail_place(r.middle) : (double)NAN,
                           .low = spread ? rail_place(r.low) : (double)NAN,
                           .high = spread ? rail_place(r.high) : (double)NAN,
                           .leanest = rail_place(r.lean),
                           .minimum = rail_place(r.least),
                           .limit = isfinite(r.limit) && end_of(r.limit) == RAIL_INSIDE ? rail_place(r.limit) : (double)NAN,
                           .unknown_from = more ? rail_place(known_part(r.middle)) : (double)NAN,
                           .unknown_to = more ? rail_place(r.reach) : (double)NAN,
                           .mark_end = known ? end_of(r.middle) : RAIL_INSIDE,
                           .limit_is_tested = r.limit_is_tested,
                           .sure = r.sure};
  return true;
}

/* ---- marks ------------------------------------------------------------------------------------------------------- */

const struct rail_sign_drawn rail_sign[SIGN_COUNT] = {
    [SIGN_NEED] = {"need", "heavy line", "the need, where all rails line up", .thick = 1.3, .stroke = {{0, -13, 0, 13}},
                   .strokes = 1},
    [SIGN_AMOUNT] = {"amount", "mark", "the amount a day", .radius = 4.8},
    [SIGN_UNSURE] = {"unsure", "hollow mark", "the amount, where it is thin or unproven", .thick = 2, .radius = 4.1},
    [SIGN_BELOW] = {"below", "triangle", "beyond the scale: less than a quarter, or more than eight times",
                    .stroke = {{0, 0, 9, -5.5}, {9, -5.5, 9, 5.5}, {9, 5.5, 0, 0}}, .strokes = 3, .filled = true},
    [SIGN_ABOVE] = {"above", "triangle", "beyond the scale: less than a quarter, or more than eight times",
                    .stroke = {{0, 0, -9, -5.5}, {-9, -5.5, -9, 5.5}, {-9, 5.5, 0, 0}}, .strokes = 3, .filled = true},
    [SIGN_SPREAD] = {"spread", "bar", "where it lies nine times in ten", .radius = 2.5},
    [SIGN_UNKNOWN] = {"unknown", "hatching", "not known: what foods without a figure might add", .radius = 6.5},
    [SIGN_MINIMUM] = {"minimum", "thin line", "the minimum", .thick = 1, .stroke = {{0, -6, 0, 6}}, .strokes = 1},
    [SIGN_LIMIT] = {"limit", "angle", "the upper limit", .thick = 1.7, .stroke = {{-3.5, -6, 2, 0}, {2, 0, -3.5, 6}},
                    .strokes = 2},
    [SIGN_TESTED] = {"tested", "dashed angle", "the highest level tested", .thick = 1.7,
                     .stroke = {{-3.5, -6, 2, 0}, {2, 0, -3.5, 6}}, .strokes = 2, .dashed = true},
    [SIGN_LEANEST] = {"leanest", "cross", "its leanest days, where they decide", .thick = 2,
                      .stroke = {{-4, -4, 4, 4}, {-4, 4, 4, -4}}, .strokes = 2},
    [SIGN_OTHER] = {"other", "diamond", "the bowl as it was, or the one beside it", .thick = 1.4,
                    .stroke = {{0, -7, 5, 0}, {5, 0, 0, 7}, {0, 7, -5, 0}, {-5, 0, 0, -7}}, .strokes = 4},
};

const char *rail_legend(struct arena *a) {
  struct buf b;
  buf_init(&b, a, 4096);
  for (int i = 0; i < SIGN_OTHER; i++)
    if (i != SIGN_ABOVE) buf_addf(&b, "%s%s: %s", b.n ? "; " : "", rail_sign[i].looks, rail_sign[i].words);
  return buf_text(&b);
}

const char *rail_says(const struct nutrient_result *n, struct arena *a) {
  if (!(n->allowance > 0)) return isfinite(n->upper) ? "no need stated, only a limit" : "no need stated";
  struct rail r = rail_of(n);
  if (!isfinite(r.middle)) return "nothing is known of it";
  const char *of = words_text(a, "%s of what is needed", words_share(a, r.middle));
  if (n->known == KNOWN_PART) of = words_text(a, "at least %s", of);
  if (!isfinite(r.low) || !isfinite(r.high)) return of;
  return words_text(a, "%s, 9 times in 10 between %s and %s", of, words_share(a, r.low), words_share(a, r.high));
}

/* ---- on a scale of so many points -------------------------------------------------------------------------------- */

struct scale {
  double left, width;
};
/* Room for a mark at either end. */
enum { EDGE = 6 };
/* A drawn rail is lower than one on a screen. */
static const double SIGN_SCALE = 0.6;

static struct scale scale_of(double width) { return (struct scale){EDGE, width - 2 * EDGE}; }

static double at(const struct scale *s, double place) { return s->left + place * s->width; }

static void draw_ground(struct drawing *d, const struct scale *s) {
  double y = RAIL_HEIGHT / 2;
  draw_line(d, PAINT_LIGHT, 0.5, s->left, y, s->left + s->width, y);
  for (int o = 0; o <= RAIL_OCTAVES; o++) {
    double x = s->left + s->width * o / RAIL_OCTAVES;
    draw_line(d, PAINT_LIGHT, 0.5, x, y - 2, x, y + 2);
  }
}

static void draw_bar(struct drawing *d, enum rail_sign sign, enum paint paint, double from, double to) {
  double half = rail_sign[sign].radius * SIGN_SCALE;
  draw_rect(d, paint, from, RAIL_HEIGHT / 2 - half, fmax(to - from, 0.8), 2 * half);
}

static void draw_sign(struct drawing *d, enum rail_sign sign, double x, double y) {
  const struct rail_sign_drawn *g = &rail_sign[sign];
  if (g->filled) {
    draw_triangle(d, PAINT_INK, x, y, -g->stroke[0].x2 * SIGN_SCALE);
    return;
  }
  if (g->radius > 0) draw_disc(d, sign == SIGN_UNSURE, x, y, g->radius * SIGN_SCALE);
  for (int i = 0; i < g->strokes; i++) {
    const struct sign_stroke *t = &g->stroke[i];
    (g->dashed ? draw_dashes : draw_line)(d, PAINT_INK, g->thick * SIGN_SCALE, x + t->x1 * SIGN_SCALE,
                                          y + t->y1 * SIGN_SCALE, x + t->x2 * SIGN_SCALE, y + t->y2 * SIGN_SCALE);
  }
}

static void draw_at(struct drawing *d, const struct scale *s, enum rail_sign sign, double place) {
  if (isfinite(place)) draw_sign(d, sign, at(s, place), RAIL_HEIGHT / 2);
}

static void draw_marks(struct drawing *d, const struct scale *s, const struct rail_places *r) {
  double need = at(s, rail_place(1));
  if (isfinite(r->unknown_to)) draw_bar(d, SIGN_UNKNOWN, PAINT_HATCH, at(s, r->unknown_from), at(s, r->unknown_to));
  if (isfinite(r->low)) draw_bar(d, SIGN_SPREAD, PAINT_DIM, at(s, r->low), at(s, r->high));
  draw_line(d, PAINT_INK, rail_sign[SIGN_NEED].thick, need, 0, need, RAIL_HEIGHT);
  draw_at(d, s, SIGN_MINIMUM, r->minimum);
  draw_at(d, s, r->limit_is_tested ? SIGN_TESTED : SIGN_LIMIT, r->limit);
  draw_at(d, s, SIGN_LEANEST, r->leanest);
  draw_at(d, s,
          r->mark_end == RAIL_BELOW   ? SIGN_BELOW
          : r->mark_end == RAIL_ABOVE ? SIGN_ABOVE
          : r->sure                   ? SIGN_AMOUNT
                                      : SIGN_UNSURE,
          r->mark);
}

struct drawing *picture_rail(const struct nutrient_result *n, double width, struct arena *a) {
  struct drawing *d = drawing_start(a, width, RAIL_HEIGHT, nutrient_info[n->id].name);
  struct scale s = scale_of(width);
  struct rail_places r;
  draw_ground(d, &s);
  if (rail_places(n, &r)) draw_marks(d, &s, &r);
  d->says = rail_says(n, a);
  return d;
}

struct drawing *picture_legend(double width, double size, struct arena *a) {
  enum { WIDE = 210, SIGN_ROOM = 26, HEIGHT = 14 };
  struct drawing *d = drawing_start(a, width, 0, "What the marks mean");
  int columns = width >= 2 * WIDE ? (int)(width / WIDE) : 1, drawn = 0;
  for (enum rail_sign i = 0; i < SIGN_OTHER; i++) {
    if (i == SIGN_ABOVE) continue;
    double x = drawn % columns * (width / columns), y = drawn / columns * HEIGHT + HEIGHT / 2.0;
    if (i == SIGN_SPREAD || i == SIGN_UNKNOWN) {
      double half = rail_sign[i].radius * SIGN_SCALE;
      draw_rect(d, i == SIGN_SPREAD ? PAINT_DIM : PAINT_HATCH, x + 3, y - half, SIGN_ROOM - 6, 2 * half);
    } else {
      draw_sign(d, i, x + SIGN_ROOM / 2.0, y);
    }
    draw_text(d, PAINT_DIM, x + SIGN_ROOM + 2, y + size * 0.35, size, ANCHOR_START, rail_sign[i].words)->room =
        width / columns - SIGN_ROOM - 4;
    drawn++;
    d->height = y + HEIGHT / 2.0;
  }
  d->says = rail_legend(a);
  return d;
}

const char *const rail_scale_word[RAIL_SCALE_MARKS] = {"\xC2\xBC",  "\xC2\xBD",  "need",
                                                       "2\xC3\x97", "4\xC3\x97", "8\xC3\x97"};

struct drawing *picture_scale(double width, double size, struct arena *a) {
  struct drawing *d = drawing_start(a, width, size * 1.4, "Scale of the lines");
  struct scale s = scale_of(width);
  enum { NEED_AT = 2, ALL_TAKE = 16 /* widths of a letter */ };
  for (size_t i = 0; i < RAIL_SCALE_MARKS; i++)
    if (width >= ALL_TAKE * size || i == 0 || i == NEED_AT || i + 1 == RAIL_SCALE_MARKS) /* the ends and the need always */
      draw_text(d, PAINT_DIM, s.left + s.width * (double)i / RAIL_OCTAVES, size, size, ANCHOR_MIDDLE, rail_scale_word[i]);
  d->says = "a quarter, half, once, twice, four and eight times what is needed";
  return d;
}
