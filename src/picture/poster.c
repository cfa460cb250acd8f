#include "picture/poster.h"

#include "picture/pictures.h"
#include "picture/ribbon.h"
#include "picture/supply.h"
#include "words/verdicts.h"

static const double WIDTH = 640, EDGE = 16, GAP = 14;

struct poster {
  struct drawing *d;
  double y;
  struct buf says;
};

static void put(struct poster *p, const struct drawing *of) {
  if (!of) return;
  draw_all(p->d, of, EDGE, p->y);
  p->y += of->height + GAP;
  buf_addf(&p->says, "%s%s: %s", p->says.n ? " " : "", of->title, of->says);
  if (p->says.n > 0 && p->says.p[p->says.n - 1] != '.') buf_addc(&p->says, '.');
}

static void put_words(struct poster *p, enum paint paint, double size, bool bold, const char *text) {
  struct drawn_shape *s = draw_text(p->d, paint, EDGE, p->y + size, size, ANCHOR_START, text);
  s->bold = bold;
  p->y += size * 1.5;
}

/* Nothing is known of it: that is said and not drawn. */
static void put_supply(struct poster *p, const struct library *lib, const struct check_result *r, enum nutrient n) {
  const struct drawing *of = picture_supply(lib, r, n, WIDTH - 2 * EDGE, p->d->arena);
  if (of) {
    put(p, of);
    return;
  }
  const char *words = words_text(p->d->arena, "%s: %s.", nutrient_info[n].name, NOT_KNOWN_WORDS);
  put_words(p, PAINT_INK, 9, true, words);
  buf_addf(&p->says, "%s%s", p->says.n ? " " : "", words);
}

struct drawing *picture_poster(const struct library *lib, const struct check_result *r, const enum nutrient *nutrient,
                               size_t count, struct arena *a) {
  const struct ration *ration = r->ration;
  const char *name = ration->name && ration->name[0] ? ration->name : "This bowl";
  struct poster p = {.d = drawing_start(a, WIDTH, 0, name), .y = EDGE};
  buf_init(&p.says, a, 1 << 20);
  draw_rect(p.d, PAINT_PAPER, 0, 0, WIDTH, 1); /* as high as it all becomes: dark pages show it too */
  put_words(&p, PAINT_INK, 16, true, name);
  put_words(&p, PAINT_DIM, 9, false, r->animal ? words_animal(a, r->animal) : "no animal given: not judged");
  p.y += GAP / 2;
  for (size_t i = 0; i < count; i++) put_supply(&p, lib, r, nutrient[i]);
  if (count == 0) {
    put(&p, picture_ribbon(r, WIDTH - 2 * EDGE, a));
    put(&p, picture_rails(r, WIDTH - 2 * EDGE, a));
  }
  p.d->height = p.y + EDGE - GAP;
  p.d->shape[0].h = p.d->height;
  p.d->says = buf_text(&p.says);
  return p.d;
}
