#include "picture/pictures.h"

#include "picture/rail.h"
#include "words/verdicts.h"

static const double TEXT = 9, SMALL = 8;

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
