/* How much the animal moves, where the owner says so in passing. */
#include "post/hear/post_hear.h"

/* "My husband works all day", "retired from flyball", "used to be very sporty", "not a working dog": tells nothing of how much
 * the animal moves today. */
static bool of_today_and_of_it(const struct tokens *t, size_t at) {
  enum { FAR = 6 };
  size_t begin = clause_begin(t, at);
  for (size_t i = at; i-- > begin && i + FAR > at;) {
    if (says(t, i, "retired ex former formerly used before until till could would should if when no not never isn't isnt "
                   "doesn't doesnt hasn't i we husband wife partner owner mum mom dad parents"))
      return false;
    if (says(t, i, "he she he's she's hes shes dog cat")) break;
  }
  return true;
}

/* "(Hugo, 3 y, active)": by itself between marks. */
static bool is_active_alone(const struct tokens *t, size_t at) {
  if (!says(t, at, "active") || t->count < 2) return false;
  bool begins = at == 0 || t->item[at - 1].kind == TOKEN_MARK || (at > 0 && says(t, at - 1, "and"));
  bool ends = at + 1 >= t->count || t->item[at + 1].kind == TOKEN_MARK;
  return begins && ends;
}

int post_activity(const struct tokens *t) {
  static const struct {
    const char *word;
    enum activity is;
  } LEVELS[] = {{"resting", ACTIVITY_RESTING},
                {"low", ACTIVITY_LOW},
                {"moderate", ACTIVITY_MODERATE},
                {"high", ACTIVITY_HIGH},
                {"working", ACTIVITY_WORKING}};
  const char *level;
  int told = -1; /* of "very sporty, works all day" the most */
  for (size_t i = 0; i < t->count; i++) {
    size_t used = meaning_at(t, i, CLASS_ACTIVITY, &level);
    if (used == 0 && is_active_alone(t, i)) used = 1, level = "high";
    if (used == 0 || !of_today_and_of_it(t, i)) continue;
    for (size_t k = 0; k < COUNT_OF(LEVELS); k++)
      if (strcmp(level, LEVELS[k].word) == 0 && (int)LEVELS[k].is > told) told = (int)LEVELS[k].is;
    i += used - 1;
  }
  return told;
}
