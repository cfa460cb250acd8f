#include "words/heeded.h"

#include "base/buf.h"
#include "words/words.h"

const char *words_heeded(const struct ration *r, const char *who_asks, struct arena *arena) {
  if (ration_is_on_trial(r))
    return "Nothing is proposed that could upset the trial: of minerals, vitamins and plain oils only such as hold no protein of "
           "an animal (look at the label: no gelatine, no liver, no flavour). Show it to the veterinarian who set the trial.";
  const char *never = words_never(r, arena);
  return never[0] ? words_text(arena, "Nothing with %s is proposed, as %s.", never, who_asks) : "";
}

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
