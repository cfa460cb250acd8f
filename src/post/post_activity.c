/* How much the animal moves, where the owner says so in passing. */
#include "post/post_parts.h"

static const struct {
  const char *phrase;
  enum activity activity;
} WAYS[] = {
    {"not very active", ACTIVITY_LOW},
    {"not active", ACTIVITY_LOW},
    {"less active", ACTIVITY_LOW},
    {"couch potato", ACTIVITY_LOW},
    {"low energy", ACTIVITY_LOW},
    {"low activity", ACTIVITY_LOW},
    {"lazy", ACTIVITY_LOW},
    {"sedentary", ACTIVITY_LOW},
    {"inactive", ACTIVITY_LOW},
    {"moderately active", ACTIVITY_MODERATE},
    {"moderate activity", ACTIVITY_MODERATE},
    {"normal activity", ACTIVITY_MODERATE},
    {"medium energy", ACTIVITY_MODERATE},
    {"very active", ACTIVITY_HIGH},
    {"quite active", ACTIVITY_HIGH},
    {"pretty active", ACTIVITY_HIGH},
    {"highly active", ACTIVITY_HIGH},
    {"super active", ACTIVITY_HIGH},
    {"high energy", ACTIVITY_HIGH},
    {"high activity", ACTIVITY_HIGH},
    {"is active", ACTIVITY_HIGH},
    {"active dog", ACTIVITY_HIGH},
    {"active cat", ACTIVITY_HIGH},
    {"active girl", ACTIVITY_HIGH},
    {"active boy", ACTIVITY_HIGH},
    {"working dog", ACTIVITY_WORKING},
    {"sled dog", ACTIVITY_WORKING},
    {"crate rest", ACTIVITY_RESTING},
    {"cage rest", ACTIVITY_RESTING},
};

int post_activity(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    for (size_t k = 0; k < COUNT_OF(WAYS); k++)
      if (phrase_at(t, i, WAYS[k].phrase) > 0) return (int)WAYS[k].activity;
  return -1;
}
