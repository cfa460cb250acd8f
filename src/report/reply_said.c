/* Points of a reply and the words that several of them share. */
#include "report/reply_points.h"

void reply_say(struct gathering *g, enum reply_part_id part, double worth, bool must, const char *text) {
  const struct reply_point x = {.part = part, .text = text, .worth = worth, .must = must};
  ARENA_PUSH(g->arena, g->all.point, g->all.count, g->all.cap, x);
}

const char *reply_list(const struct gathering *g, const char *const *item, size_t count, size_t most) {
  return words_list(g->arena, item, count, count == most + 1 ? count : most);
}

bool reply_told_as_danger(const struct gathering *g, const char *quoted) {
  for (size_t i = 0; i < g->r->finding_count; i++)
    if (g->r->finding[i].danger && strstr(g->r->finding[i].text, quoted)) return true;
  return false;
}

const char *reply_uncounted(struct gathering *g, bool *many) {
  const struct ration *r = g->r->ration;
  if (!r || r->uncounted_count == 0) return "";
  const char **text = ARENA_NEW(g->arena, const char *, r->uncounted_count);
  size_t n = 0;
  for (size_t i = 0; i < r->uncounted_count; i++) {
    text[n] = words_text(g->arena, "“%s”", r->uncounted[i].text);
    if (!reply_told_as_danger(g, text[n])) n++;
  }
  if (many) *many = n > 1;
  return words_list(g->arena, text, n, n);
}
