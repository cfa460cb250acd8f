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

/* ---- on a scale of so many points -------------------------------------------------------------------------------- */

struct scale {
  double left, width;
};
/* Room for a mark at either end. */
enum { EDGE = 6 };

static struct scale scale_of(double width) { return (struct scale){EDGE, width - 2 * EDGE}; }

static double at(const struct scale *s, double ratio) {
  double octaves = ratio > 0 ? log2(ratio) + RAIL_OCTAVES_BELOW : -1;
  return s->left + fmin(fmax(octaves / RAIL_OCTAVES, 0), 1) * s->width;
}

static bool off_left(double ratio) { return !(log2(ratio) >= -RAIL_OCTAVES_BELOW); }
static bool off_right(double ratio) { return log2(ratio) > RAIL_OCTAVES_ABOVE; }

static void draw_ground(struct drawing *d, const struct scale *s) {
  double y = RAIL_HEIGHT / 2;
  draw_line(d, PAINT_LIGHT, 0.5, s->left, y, s->left + s->width, y);
  for (int o = 0; o <= RAIL_OCTAVES; o++) {
    double x = s->left + s->width * o / RAIL_OCTAVES;
    draw_line(d, PAINT_LIGHT, 0.5, x, y - 2, x, y + 2);
  }
}

static void draw_band(struct drawing *d, const struct scale *s, const struct rail *r) {
  double y = RAIL_HEIGHT / 2, low = at(s, r->low), high = at(s, r->high);
  if (r->data_missing && r->reach > known_part(r->middle)) {
    double from = isfinite(r->middle) ? at(s, r->middle) : s->left;
    draw_rect(d, PAINT_HATCH, from, y - 2.5, at(s, r->reach) - from, 5);
  }
  if (!isfinite(r->middle)) return;
  if (isfinite(r->low) && isfinite(r->high)) draw_rect(d, PAINT_DIM, low, y - 1.6, fmax(high - low, 0.8), 3.2);
}

static void draw_marks(struct drawing *d, const struct scale *s, const struct rail *r) {
  double y = RAIL_HEIGHT / 2, need = at(s, 1);
  draw_line(d, PAINT_INK, 1.4, need, 0, need, RAIL_HEIGHT);
  if (isfinite(r->least)) draw_line(d, PAINT_INK, 0.7, at(s, r->least), y - 4, at(s, r->least), y + 4);
  if (isfinite(r->limit) && !off_right(r->limit)) {
    double x = at(s, r->limit);
    if (r->limit_is_tested) {
      draw_dashes(d, PAINT_INK, 0.9, x, 0.5, x, RAIL_HEIGHT - 0.5);
    } else {
      draw_line(d, PAINT_INK, 0.9, x - 1, 0.5, x - 1, RAIL_HEIGHT - 0.5);
      draw_line(d, PAINT_INK, 0.9, x + 1, 0.5, x + 1, RAIL_HEIGHT - 0.5);
    }
  }
  if (isfinite(r->lean)) draw_triangle(d, PAINT_INK, at(s, r->lean), y, off_left(r->lean) ? -4 : 4);
  if (!isfinite(r->middle)) return;
  if (off_left(r->middle)) {
    draw_triangle(d, PAINT_INK, 1, y, -5);
  } else if (off_right(r->middle)) {
    draw_triangle(d, PAINT_INK, s->left + s->width + EDGE - 1, y, 5);
  } else {
    draw_disc(d, !r->sure, at(s, r->middle), y, 2.7);
  }
}

/* "Zinc: 65 % of what is needed, 9 times in 10 between 55 % and 76 %" */
static const char *told(const struct nutrient_result *n, const struct rail *r, struct arena *a) {
  if (!isfinite(r->middle)) return "nothing is known of it";
  const char *of = words_text(a, "%s of what is needed", words_share(a, r->middle));
  if (n->known == KNOWN_PART) of = words_text(a, "at least %s", of);
  if (!isfinite(r->low) || !isfinite(r->high)) return of;
  return words_text(a, "%s, 9 times in 10 between %s and %s", of, words_share(a, r->low), words_share(a, r->high));
}

struct drawing *picture_rail(const struct nutrient_result *n, double width, struct arena *a) {
  struct drawing *d = drawing_start(a, width, RAIL_HEIGHT, nutrient_info[n->id].name);
  struct scale s = scale_of(width);
  draw_ground(d, &s);
  if (!(n->allowance > 0)) {
    d->says = isfinite(n->upper) ? "no need stated, only a limit" : "no need stated";
    return d;
  }
  struct rail r = rail_of(n);
  draw_band(d, &s, &r);
  draw_marks(d, &s, &r);
  d->says = told(n, &r, a);
  return d;
}

struct drawing *picture_scale(double width, double size, struct arena *a) {
  static const char *const MARK[] = {"\xC2\xBC", "\xC2\xBD", "need", "2\xC3\x97", "4\xC3\x97", "8\xC3\x97"};
  struct drawing *d = drawing_start(a, width, size * 1.4, "Scale of the lines");
  struct scale s = scale_of(width);
  for (size_t i = 0; i < COUNT_OF(MARK); i++)
    draw_text(d, PAINT_DIM, s.left + s.width * (double)i / RAIL_OCTAVES, size, size, ANCHOR_MIDDLE, MARK[i]);
  d->says = "a quarter, half, once, twice, four and eight times what is needed";
  return d;
}
