#include "picture/ribbon.h"

#include <math.h>

#include "picture/bar.h"
#include "words/words.h"

static const double TEXT = 9, SMALL = 8;
/* A handle at its right end still has its other half on the line. */
static const double HANDLE_ROOM = 1.04;

static bool is_amount(double x) { return isfinite(x) && x > 0; }
/* ---- places and words -------------------------------------------------------------------------------------------- */

static double place(const struct ribbon *b, double kcal) {
  return isfinite(kcal) && kcal >= 0 ? fmin(kcal / b->top_kcal, 1) : (double)NAN;
}

static const char *whole(double kcal, struct arena *a) { return isfinite(kcal) ? words_whole(a, kcal) : ""; }

/* What the ends of the band are of: animals alike, or this one's own journal. */
static const char *range_words(const struct check_result *r, struct arena *a) {
  const struct energy_need *need = &r->energy.need;
  const struct animal *who = r->animal;
  if (who->measured) return words_need_range(a, who, need);
  const char *kind = who->species == SPECIES_CAT ? "cats" : "dogs";
  const char *like = who->name && who->name[0] ? who->name : "this one";
  return words_text(a, "range of %s like %s: %s to %s", kind, like, whole(need->low_kcal, a), whole(need->high_kcal, a));
}

static void place_need(const struct check_result *r, struct ribbon *b, struct arena *a) {
  const struct energy_need *need = &r->energy.need;
  b->need = place(b, need->kcal);
  b->need_words = words_text(a, "likely need %s", words_whole(a, need->kcal));
  if (!is_amount(need->low_kcal) || !is_amount(need->high_kcal)) return;
  b->need_low = place(b, need->low_kcal);
  b->need_high = place(b, need->high_kcal);
  b->low_words = whole(need->low_kcal, a);
  b->high_words = whole(need->high_kcal, a);
  b->range_words = range_words(r, a);
}

static void place_bowl(const struct energy_result *e, struct ribbon *b, struct arena *a) {
  b->bowl = place(b, e->supply_kcal);
  b->bowl_words = words_text(a, "%s%s kcal", words_whole(a, e->supply_kcal), energy_is_whole(e) ? "" : "+");
  b->parts = pieces_start(b->bowl);
  if (!energy_is_whole(e)) return; /* nobody knows what its parts are parts of */
  pieces_add(&b->parts, "protein", "protein", e->share_protein, a);
  pieces_add(&b->parts, "fat", "fat", e->share_fat, a);
  pieces_add(&b->parts, "carbohydrate", "carbohydrate", e->share_carbohydrate, a);
}

static const char *says(const struct check_result *r, const struct ribbon *b, struct arena *a) {
  const char *of = b->parts.count > 0 ? words_text(a, ", from %s", pieces_say(&b->parts, a)) : "";
  const char *gives = isfinite(b->bowl) ? words_text(a, "the bowl gives %s kcal a day%s", words_supply(&r->energy, a), of)
                                        : "what energy the bowl gives is not known";
  if (!isfinite(b->need)) return gives;
  const char *range = b->range_words[0] ? words_text(a, " (%s)", b->range_words) : "";
  return words_text(a, "%s; %s likely needs %s%s", gives, words_called(r->animal), words_whole(a, r->energy.need.kcal),
                    range);
}

static bool lay_out(const struct check_result *r, double supply, double whole_kcal, struct ribbon *to, struct arena *a) {
  const struct energy_result *e = &r->energy;
  bool needed = is_judged(r) && is_amount(e->need.kcal);
  double most = whole_kcal * EATEN_MOST / 100, top = 0;
  const double end[] = {needed ? e->need.kcal : 0, needed ? e->need.high_kcal : 0, supply, most};
  for (size_t i = 0; i < COUNT_OF(end); i++)
    if (is_amount(end[i])) top = fmax(top, end[i]);
  if (!(top > 0)) return false;
  bool held = is_amount(most);
  *to = (struct ribbon){.top_kcal = held ? top * HANDLE_ROOM : top,
                        .need = NAN,
                        .need_low = NAN,
                        .need_high = NAN,
                        .bowl = NAN,
                        .least_eaten = NAN,
                        .most_eaten = NAN,
                        .need_words = "",
                        .low_words = "",
                        .high_words = "",
                        .range_words = "",
                        .bowl_words = ""};
  if (held) {
    to->least_eaten = place(to, whole_kcal * EATEN_LEAST / 100);
    to->most_eaten = place(to, most);
  }
  if (needed) place_need(r, to, a);
  if (is_amount(supply)) place_bowl(e, to, a);
  to->says = says(r, to, a);
  return true;
}

bool ribbon_of(const struct check_result *r, double whole_kcal, struct ribbon *to, struct arena *a) {
  return lay_out(r, r->energy.supply_kcal, whole_kcal, to, a);
}

bool ribbon_of_need(const struct check_result *r, struct ribbon *to, struct arena *a) {
  return lay_out(r, (double)NAN, (double)NAN, to, a);
}

/* ---- as shapes --------------------------------------------------------------------------------------------------- */

enum { LEFT = 34, RIGHT = 58 };

static void draw_need(struct drawing *d, const struct ribbon *b, double width, double y) {
  double low = LEFT + b->need_low * width, high = LEFT + b->need_high * width, at = LEFT + b->need * width;
  draw_text(d, PAINT_INK, 0, y + 9, TEXT, ANCHOR_START, "need");
  double half = text_width(b->need_words, SMALL) / 2, middle = fmax(at, LEFT + half);
  if (isfinite(b->need_low)) {
    draw_rect(d, PAINT_PALE, low, y, high - low, 12);
    draw_line(d, PAINT_INK, 0.5, low, y, low, y + 12);
    draw_line(d, PAINT_INK, 0.5, high, y, high, y + 12);
    if (low + text_width(b->low_words, SMALL) < middle - half)
      draw_text(d, PAINT_DIM, low, y - 3, SMALL, ANCHOR_START, b->low_words);
    if (high - text_width(b->high_words, SMALL) > middle + half)
      draw_text(d, PAINT_DIM, high, y - 3, SMALL, ANCHOR_END, b->high_words);
  }
  draw_line(d, PAINT_INK, 1.6, at, y - 1, at, y + 13);
  draw_text(d, PAINT_INK, middle, y - 3, SMALL, ANCHOR_MIDDLE, b->need_words);
}

struct drawing *picture_ribbon(const struct check_result *r, double width, struct arena *a) {
  struct ribbon b;
  if (!ribbon_of(r, (double)NAN, &b, a) || !isfinite(b.bowl)) return NULL;
  double room = width - LEFT - RIGHT, y = 0;
  struct drawing *d = drawing_start(a, width, 0, "Energy");
  if (isfinite(b.need)) {
    draw_need(d, &b, room, 12);
    y = 30;
  }
  draw_text(d, PAINT_INK, 0, y + 10, TEXT, ANCHOR_START, "bowl");
  draw_pieces(d, &b.parts, LEFT, y, room, 14);
  draw_text(d, PAINT_INK, LEFT + b.bowl * room + 4, y + 10, TEXT, ANCHOR_START, b.bowl_words)->bold = true;
  d->height = y + 26 + draw_key(d, &b.parts, LEFT, y + 26, room, SMALL);
  d->says = b.says;
  return d;
}
