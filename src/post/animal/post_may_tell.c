/* May a text tell of a young, pregnant, nursing or ill animal? Asked of notes, titles and remarks before they are read as a
 * post is: hardly one of them does, and reading costs a seventh of a check. */
#include "post/animal/post_animal.h"

bool post_may_tell_of_state(struct span text, struct arena *arena) {
  static const enum post_class TELLING[] = {CLASS_ANIMAL_STATE, CLASS_ORGAN_TROUBLE, CLASS_ORGAN_VALUES, CLASS_NOT_EATING,
                                            CLASS_LOST_WEIGHT,  CLASS_TROUBLE_BEFORE, CLASS_EXCREMENT,   CLASS_EXCREMENT_URINE,
                                            CLASS_SORE};
  struct known_words *seen = ARENA_NEW(arena, struct known_words, 1);
  struct tokens t = tokens_of(text, arena);
  for (size_t i = 0; i < t.count; i++) {
    token_know(&t.item[i], seen);
    frequency_know(&t.item[i]);
  }
  for (size_t i = 0; i < t.count; i++) {
    if (says(&t, i, "pup pups weeks week months month lost thin dropped losing stage due queen litter milk touch touched stroked handled")) return true;
    for (size_t k = 0; k < COUNT_OF(TELLING); k++)
      if (phrase_of(&t, i, TELLING[k]) > 0) return true;
  }
  return false;
}
