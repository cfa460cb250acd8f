#include "picture/pictures.h"

#include <math.h>

#include "picture/rail.h"
#include "words/verdicts.h"

enum { PIECES_MOST = 8 };
static const double TEXT = 9, SMALL = 8;

static bool is_judged(const struct check_result *r) { return r->animal && r->refusal == REFUSE_NOT; }

/* ---- bars made of pieces ---------------------------------------------------------------------------------------- */

struct piece {
  const char *name;
  double share; /* of the whole bar */
  const char *figure;
};

static enum paint paint_of(int i) { return piece_paint[i % PIECE_PAINTS]; }

static void draw_bar(struct drawing *d, const struct piece *p, int count, double x, double y, double width, double height) {
  double at = x;
  for (int i = 0; i < count; i++) {
    double w = p[i].share > 0 ? p[i].share * width : 0;
    draw_rect(d, paint_of(i), at, y, w, height);
    at += w;
  }
  draw_line(d, PAINT_INK, 0.7, x, y, at, y);
  draw_line(d, PAINT_INK, 0.7, x, y + height, at, y + height);
  draw_line(d, PAINT_INK, 0.7, x, y, x, y + height);
  draw_line(d, PAINT_INK, 0.7, at, y, at, y + height);
}

/* About as wide as the letters are; whoever draws may know better. */
static double text_width(const char *text, double size) {
  int letters = 0;
  for (const char *c = text; *c; c++) letters += (*c & 0xC0) != 0x80;
  return letters * size * 0.58;
}

/* What each piece is, set in lines; how high that became. */
static double draw_key(struct drawing *d, const struct piece *p, int count, double x, double y, double width) {
  double at = x, line = y;
  for (int i = 0; i < count; i++) {
    const char *words = words_text(d->arena, "%s %s", p[i].name, p[i].figure);
    double wide = 12 + text_width(words, SMALL) + 10;
    if (at > x && at + wide > x + width) {
      at = x;
      line += SMALL * 1.5;
    }
    draw_rect(d, paint_of(i), at, line - SMALL * 0.75, 8, 7);
    draw_line(d, PAINT_INK, 0.5, at, line + 1, at + 8, line + 1);
    draw_text(d, PAINT_INK, at + 11, line, SMALL, ANCHOR_START, words);
    at += wide;
  }
  return line + SMALL * 0.6 - y;
}

static const char *read_out(const struct piece *p, int count, struct arena *a) {
  const char *item[PIECES_MOST];
  for (int i = 0; i < count; i++) item[i] = words_text(a, "%s %s", p[i].name, p[i].figure);
  return words_list(a, item, (size_t)count, (size_t)count);
}

/* ---- energy ------------------------------------------------------------------------------------------------------ */

static const char *ribbon_says(const struct check_result *r, const struct piece *p, int count, struct arena *a) {
  const struct energy_result *e = &r->energy;
  const char *gives =
      words_text(a, "the bowl gives %s kcal a day, from %s", words_whole(a, e->supply_kcal), read_out(p, count, a));
  if (!is_judged(r) || !(e->need.kcal > 0)) return gives;
  return words_text(a, "%s; %s likely needs %s, usual range %s to %s", gives, words_called(r->animal),
                    words_whole(a, e->need.kcal), words_whole(a, e->need.low_kcal), words_whole(a, e->need.high_kcal));
}

static void draw_need(struct drawing *d, const struct energy_need *need, double x, double width, double top, double y) {
  double low = x + need->low_kcal / top * width, high = x + need->high_kcal / top * width, at = x + need->kcal / top * width;
  draw_text(d, PAINT_INK, 0, y + 9, TEXT, ANCHOR_START, "need");
  draw_rect(d, PAINT_PALE, low, y, high - low, 12);
  draw_line(d, PAINT_INK, 0.5, low, y, low, y + 12);
  draw_line(d, PAINT_INK, 0.5, high, y, high, y + 12);
  draw_line(d, PAINT_INK, 1.6, at, y - 1, at, y + 13);
  const char *likely = words_text(d->arena, "likely %s", words_whole(d->arena, need->kcal));
  const char *least = words_whole(d->arena, need->low_kcal), *most = words_whole(d->arena, need->high_kcal);
  double half = text_width(likely, SMALL) / 2, middle = fmax(at, x + half);
  draw_text(d, PAINT_INK, middle, y - 3, SMALL, ANCHOR_MIDDLE, likely);
  if (low + text_width(least, SMALL) < middle - half) draw_text(d, PAINT_DIM, low, y - 3, SMALL, ANCHOR_START, least);
  if (high - text_width(most, SMALL) > middle + half) draw_text(d, PAINT_DIM, high, y - 3, SMALL, ANCHOR_END, most);
}

struct drawing *picture_ribbon(const struct check_result *r, double width, struct arena *a) {
  enum { LEFT = 34, RIGHT = 58 };
  const struct energy_result *e = &r->energy;
  bool judged = is_judged(r) && e->need.kcal > 0;
  if (!(e->supply_kcal > 0)) return NULL;
  const struct piece piece[] = {{"protein", e->share_protein, words_share(a, e->share_protein)},
                                {"fat", e->share_fat, words_share(a, e->share_fat)},
                                {"carbohydrate", e->share_carbohydrate, words_share(a, e->share_carbohydrate)}};
  double room = width - LEFT - RIGHT, top = judged ? fmax(e->supply_kcal, e->need.high_kcal) : e->supply_kcal, y = 0;
  struct drawing *d = drawing_start(a, width, 0, "Energy");
  if (judged) {
    draw_need(d, &e->need, LEFT, room, top, 12);
    y = 30;
  }
  double bar = e->supply_kcal / top * room;
  draw_text(d, PAINT_INK, 0, y + 10, TEXT, ANCHOR_START, "bowl");
  draw_bar(d, piece, COUNT_OF(piece), LEFT, y, bar, 14);
  draw_text(d, PAINT_INK, LEFT + bar + 4, y + 10, TEXT, ANCHOR_START,
            words_text(a, "%s kcal", words_whole(a, e->supply_kcal)))
      ->bold = true;
  d->height = y + 26 + draw_key(d, piece, COUNT_OF(piece), LEFT, y + 26, room);
  d->says = ribbon_says(r, piece, COUNT_OF(piece), a);
  return d;
}

/* ---- rails ------------------------------------------------------------------------------------------------------- */

static const char *figures(const struct nutrient_result *n, struct arena *a) {
  bool limit = rail_by_limit(n);
  const char *amount = n->known == KNOWN_NONE ? NOT_KNOWN_WORDS : words_number(a, n->amount);
  return words_text(a, "%s %s %s %s", amount, limit ? "(limit)" : "of", words_number(a, limit ? n->upper : n->allowance),
                    nutrient_info[n->id].unit);
}

static double draw_group(struct drawing *d, const struct group *g, double y) {
  enum { NAME = 120, FIGURES = 130, CHANCE = 34 };
  static const double ROW = 15;
  double rail = d->width - NAME - FIGURES - CHANCE;
  draw_text(d, PAINT_INK, 0, y + 10, TEXT, ANCHOR_START, g->title)->bold = true;
  y += ROW;
  for (int i = 0; i < g->count; i++, y += ROW) {
    const struct nutrient_result *n = g->item[i];
    double chance = rail_by_limit(n) ? n->chance_kept : n->chance_met;
    struct drawn_shape *name = draw_text(d, PAINT_INK, 8, y + 9, TEXT, ANCHOR_START, nutrient_info[n->id].name);
    name->room = NAME - 10;
    draw_all(d, picture_rail(n, rail, d->arena), NAME, y);
    draw_text(d, PAINT_INK, NAME + rail + FIGURES, y + 9, TEXT, ANCHOR_END, figures(n, d->arena));
    draw_text(d, PAINT_DIM, d->width, y + 9, TEXT, ANCHOR_END, words_chance_short(d->arena, chance));
  }
  return y + 4;
}

static const char *rails_say(const struct group *group, struct arena *a) {
  struct buf b;
  buf_init(&b, a, 1 << 16);
  for (int g = 0; g < GROUP_NO_FIGURE; g++) {
    if (group[g].count == 0) continue;
    buf_addf(&b, "%s%s: ", b.n ? " " : "", group[g].title);
    for (int i = 0; i < group[g].count; i++)
      buf_addf(&b, "%s%s %s", i ? ", " : "", words_nutrient(a, group[g].item[i]->id), figures(group[g].item[i], a));
    buf_addc(&b, '.');
  }
  return buf_text(&b);
}

struct drawing *picture_rails(const struct check_result *r, double width, struct arena *a) {
  enum { NAME = 120, BESIDE = 164 };
  struct group group[GROUP_COUNT];
  double y = 16;
  if (!is_judged(r)) return NULL;
  words_groups(r, group);
  struct drawing *d = drawing_start(a, width, 0, "Nutrients against what is needed");
  draw_all(d, picture_scale(width - NAME - BESIDE, SMALL, a), NAME, 0);
  draw_text(d, PAINT_DIM, width, SMALL, SMALL, ANCHOR_END, "chance");
  for (int g = 0; g < GROUP_NO_FIGURE; g++)
    if (group[g].count > 0) y = draw_group(d, &group[g], y);
  struct drawing *legend = picture_legend(width, SMALL, a);
  draw_all(d, legend, 0, y + 4);
  d->height = y + 4 + legend->height;
  d->says = rails_say(group, a);
  return d;
}

/* ---- who supplies a nutrient ------------------------------------------------------------------------------------- */

struct drawing *picture_supply(const struct library *lib, const struct check_result *r, enum nutrient id, double width,
                               struct arena *a) {
  const struct nutrient_result *n = &r->nutrient[id];
  struct piece piece[PIECES_MOST];
  int count = 0;
  double rest = 1;
  if (n->known == KNOWN_NONE || n->from_count == 0) return NULL;
  size_t named = n->from_count > PIECES_MOST ? PIECES_MOST - 1 : n->from_count;
  for (size_t i = 0; i < named; i++) {
    piece[count++] =
        (struct piece){words_line(a, lib, r->ration, n->from[i].line), n->from[i].share, words_share(a, n->from[i].share)};
    rest -= n->from[i].share;
  }
  if (named < n->from_count)
    piece[count++] =
        (struct piece){words_text(a, "%zu more", n->from_count - named), fmax(rest, 0), words_share(a, fmax(rest, 0))};
  struct drawing *d = drawing_start(a, width, 0, words_text(a, "Where the %s comes from", words_nutrient(a, id)));
  draw_text(d, PAINT_INK, 0, TEXT, TEXT, ANCHOR_START,
            words_text(a, "%s: %s a day", nutrient_info[id].name, words_amount(a, n->amount, nutrient_info[id].unit)))
      ->bold = true;
  draw_bar(d, piece, count, 0, TEXT * 1.6, width, 14);
  d->height = TEXT * 1.6 + 26 + draw_key(d, piece, count, 0, TEXT * 1.6 + 26, width);
  d->says =
      words_text(a, "%s a day, of it %s", words_amount(a, n->amount, nutrient_info[id].unit), read_out(piece, count, a));
  return d;
}
