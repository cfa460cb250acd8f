#include "words/heeded.h"

#include "base/buf.h"
#include "base/table.h"
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

static bool refuses_any(const struct ration *r, const char *const *words, size_t count) {
  for (size_t i = 0; i < r->never_count; i++)
    for (size_t k = 0; k < count; k++)
      if (span_is_fold(span_of(r->never[i]), words[k])) return true;
  return false;
}

/* What cats lack without animal foods: NRC 2006, chapters on fat, amino acids and vitamins. */
const char *words_meatless(const struct ration *r, enum species species, struct arena *arena) {
  static const char *const MEAT[] = {"meat", "animal products", "animal product"},
                           *const FISH[] = {"fish", "seafood", "animal products", "animal product"},
                           *const EGGS[] = {"egg", "eggs", "animal products", "animal product"};
  if (!refuses_any(r, MEAT, COUNT_OF(MEAT)) || !refuses_any(r, FISH, COUNT_OF(FISH))) return "";
  if (species == SPECIES_CAT)
    return words_text(arena, "%s",
                      "The wish is a kind one, but a cat cannot live on plants: it makes no taurine, no arachidonic acid and no "
                      "vitamin A of its own, and plants hold no vitamin B12. Without animal foods all of these must come from "
                      "supplements made for it. Please do not feed this as it is: give a complete food for cats meanwhile, and "
                      "ask a veterinary nutritionist whether and how it can be done.");
  return words_text(arena,
                    "A dog can live without meat and fish, on a recipe that is worked out: vitamin B12, vitamin D, EPA and DHA, "
                    "and the amino acids with sulphur then rest on %s. Please let a veterinary nutritionist look at it before it becomes the food of "
                    "every day.",
                    refuses_any(r, EGGS, COUNT_OF(EGGS)) ? "supplements" : "eggs, dairy and supplements");
}
