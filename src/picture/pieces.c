#include "picture/pieces.h"

#include <math.h>

#include "words/words.h"

struct pieces pieces_start(double end) {
  return (struct pieces){.end = end};
}

void pieces_add(struct pieces *p, const char *key, const char *name, double share, struct arena *a) {
  if (!(share > 0) || p->count == PIECES_MOST) return;
  double from = p->count > 0 ? p->of[p->count - 1].to : 0;
  p->of[p->count++] = (struct piece){.key = key,
                                     .name = name,
                                     .words = words_text(a, "%s %s", name, words_share(a, share)),
                                     .share = share,
                                     .from = from,
                                     .to = fmin(from + share * p->end, p->end)};
}

const char *pieces_say(const struct pieces *p, struct arena *a) {
  const char *item[PIECES_MOST];
  for (int i = 0; i < p->count; i++) item[i] = p->of[i].words;
  return words_list(a, item, (size_t)p->count, (size_t)p->count);
}
