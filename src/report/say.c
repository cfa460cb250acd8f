#include "report/say.h"

enum {
  SENTENCE_BYTES = 1 << 20,
  HELD_MOST = 28, /* bytes of a list's item that stay on one line: a nutrient's name does; a phrase wraps like any other */
};

const char *say_text(const struct pen *p, const char *fmt, ...) {
  struct buf b;
  buf_init(&b, p->arena, SENTENCE_BYTES);
  va_list args;
  va_start(args, fmt);
  buf_addv(&b, fmt, args);
  va_end(args);
  return buf_text(&b);
}

const char *say_held(const struct pen *p, const char *text) {
  struct buf b;
  buf_init(&b, p->arena, strlen(text) * 2 + 1);
  for (; *text; text++)
    if (*text == ' ') {
      buf_adds(&b, NBSP);
    } else {
      buf_addc(&b, *text);
    }
  return buf_text(&b);
}

const char *say_with_unit(const struct pen *p, double x, const char *unit) {
  return say_held(p, words_amount(p->arena, x, unit));
}
const char *say_percent(const struct pen *p, double share) { return say_held(p, words_share_short(p->arena, share)); }
const char *say_chance(const struct pen *p, double chance) { return say_held(p, words_chance_short(p->arena, chance)); }

const char *say_list(const struct pen *p, const char *const *item, int count, int most) {
  int shown = count < most ? count : most;
  const char **held = ARENA_NEW(p->arena, const char *, (size_t)shown + 1);
  for (int i = 0; i < shown; i++) held[i] = strlen(item[i]) <= HELD_MOST ? say_held(p, item[i]) : item[i];
  const char *list = words_list(p->arena, held, (size_t)count, (size_t)most);
  const char *last = shown < count ? strrchr(list, ' ') : NULL; /* "3 more" */
  return last ? say_text(p, "%.*s" NBSP "%s", (int)(last - list), list, last + 1) : list;
}
