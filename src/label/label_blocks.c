#include "label/label_text.h"
#include "text/headers.h"

static bool begins_food(struct span line) {
  struct header h;
  return header_split(without_comment(line), &h) && (span_is_fold(h.key, "Food") || span_is_fold(h.key, "Name"));
}

struct label_block label_next_block(struct span text, size_t at, int *line) {
  struct label_block b = {at, at, *line};
  bool begun = false;
  while (b.to < text.n) {
    const char *end = memchr(text.p + b.to, '\n', text.n - b.to);
    size_t stop = end ? (size_t)(end - text.p) : text.n;
    bool begins = begins_food(span_cut(text, b.to, stop));
    if (begun && begins) break;
    begun = begun || begins;
    b.to = end ? stop + 1 : text.n;
    ++*line;
  }
  return b;
}
