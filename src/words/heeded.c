#include "words/heeded.h"

#include "base/buf.h"
#include "words/words.h"

const char *words_never(const struct ration *r, struct arena *arena) {
  struct buf b;
  buf_init(&b, arena, 4000);
  for (size_t i = 0; i < r->never_count; i++)
    buf_addf(&b, "%s%s", i == 0 ? "" : i + 1 == r->never_count ? " or " : ", ", r->never[i]);
  return buf_text(&b);
}

const char *words_unlike(const char *food, struct arena *arena) {
  return words_text(
      arena,
      "The change that does leaves less than half of “%s”: that is another dinner, and not recommended as a change "
      "of this one.",
      food);
}
