#include "picture/supply.h"

#include <math.h>

#include "picture/bar.h"
#include "words/words.h"

_Static_assert((int)BOWL_COUNT <= (int)PIECES_MOST && (int)SUPPLY_PIECES <= (int)PIECES_MOST, "pieces have room");

static const double TEXT = 9, SMALL = 8;

static void add_lines(const struct library *lib, const struct check_result *r, const struct nutrient_result *n,
                      struct pieces *to, struct arena *a) {
  const struct supply_list *list = who_supplies(n);
  size_t named = list->from_count > SUPPLY_PIECES ? SUPPLY_PIECES - 1 : list->from_count;
  double rest = 0;
  for (size_t i = 0; i < named; i++)
    pieces_add(to, "", words_line(a, lib, r->ration, list->from[i].line), list->from[i].share, a);
  for (size_t i = named; i < list->from_count; i++) rest += list->from[i].share;
  pieces_add(to, "", words_text(a, "%zu more", list->from_count - named), rest, a);
}

bool supply_of(const struct library *lib, const struct check_result *r, enum nutrient id, struct suppliers *to,
               struct arena *a) {
  const struct nutrient_result *n = &r->nutrient[id];
  const char *unit = nutrient_info[id].unit, *amount = words_amount(a, n->amount, unit);
  if (n->known == KNOWN_NONE || who_supplies(n)->from_count == 0 || !(n->amount > 0)) return false;
  bool needed = is_judged(r) && n->allowance > 0;
  double top = needed ? fmax(n->amount, n->allowance) : n->amount;
  *to = (struct suppliers){.pieces = pieces_start(n->amount / top),
                           .need = needed ? n->allowance / top : (double)NAN,
                           .title = words_text(a, "Where the %s comes from", words_nutrient(a, id)),
                           .words = words_text(a, "%s: %s a day", nutrient_info[id].name, amount),
                           .gap = ""};
  add_lines(lib, r, n, &to->pieces, a);
  if (needed && n->amount < n->allowance)
    to->gap = words_text(a, "%s more is needed", words_amount(a, n->allowance - n->amount, unit));
  to->says = words_text(a, "%s a day, of it %s%s%s", amount, pieces_say(&to->pieces, a), to->gap[0] ? "; " : "", to->gap);
  return true;
}

struct pieces parts_of(const struct check_result *r, struct arena *a) {
  struct pieces p = pieces_start(1);
  int order[BOWL_COUNT];
  for (int i = 0; i < BOWL_COUNT; i++) {
    int k = i;
    for (; k > 0 && r->parts[i] > r->parts[order[k - 1]]; k--) order[k] = order[k - 1];
    order[k] = i;
  }
  for (int i = 0; i < BOWL_COUNT; i++)
    pieces_add(&p, json_part_key[order[i]], words_part((enum bowl_part)order[i]), r->parts[order[i]], a);
  return p;
}

/* ---- as shapes --------------------------------------------------------------------------------------------------- */

static void draw_gap(struct drawing *d, const struct suppliers *s, double y, double height) {
  double from = s->pieces.end * d->width, to = s->need * d->width;
  if (!s->gap[0]) return;
  draw_dashes(d, PAINT_INK, 0.7, from, y, to, y);
  draw_dashes(d, PAINT_INK, 0.7, from, y + height, to, y + height);
  draw_dashes(d, PAINT_INK, 0.7, to, y, to, y + height);
}

struct drawing *picture_supply(const struct library *lib, const struct check_result *r, enum nutrient id, double width,
                               struct arena *a) {
  enum { BAR = 14 };
  const double y = TEXT * 1.6;
  struct suppliers s;
  if (!supply_of(lib, r, id, &s, a)) return NULL;
  struct drawing *d = drawing_start(a, width, 0, s.title);
  draw_text(d, PAINT_INK, 0, TEXT, TEXT, ANCHOR_START, s.words)->bold = true;
  if (s.gap[0]) draw_text(d, PAINT_DIM, width, TEXT, TEXT, ANCHOR_END, s.gap);
  draw_pieces(d, &s.pieces, 0, y, width, BAR);
  draw_gap(d, &s, y, BAR);
  if (isfinite(s.need)) draw_line(d, PAINT_INK, 1.6, s.need * width, y - 2, s.need * width, y + BAR + 2);
  d->height = y + 26 + draw_key(d, &s.pieces, 0, y + 26, width, SMALL);
  d->says = s.says;
  return d;
}
