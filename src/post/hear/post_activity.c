/* How much the animal moves, where the owner says so in passing. */
#include "post/hear/post_hear.h"

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
  for (size_t i = 0; i < t->count; i++)
    if (meaning_at(t, i, CLASS_ACTIVITY, &level) > 0)
      for (size_t k = 0; k < COUNT_OF(LEVELS); k++)
        if (strcmp(level, LEVELS[k].word) == 0) return (int)LEVELS[k].is;
  return -1;
}
