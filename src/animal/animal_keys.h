/* animal_keys.h: the keys of the animal text. Private to src/animal.
 *
 * Layer: animal. */
#ifndef BW_ANIMAL_KEYS_H
#define BW_ANIMAL_KEYS_H

#include "judge/animal.h"
#include "text/date.h"
#include "text/headers.h"

/* ORDER: rows of ANIMAL_KEYS. */
enum {
  KEY_ANIMAL,
  KEY_SPECIES,
  KEY_BORN,
  KEY_AGE,
  KEY_WEIGHT,
  KEY_IDEAL,
  KEY_CONDITION,
  KEY_ADULT,
  KEY_NEUTERED,
  KEY_ACTIVITY,
  KEY_STATUS,
  KEY_ENERGY,
  KEY_NOTE,
  KEY_COUNT
};

struct animal_reader {
  struct header_reader keys; /* of the animal being read */
  struct span seen[KEY_COUNT];
  struct span name_at;
  struct diags *d;
  struct arena *arena;
  struct date today;
  struct animal *list;
  size_t count, cap;
};

#define SAY(code, r, at, ...) diag_say((r)->d, DIAG_ERROR, DIAG_##code, (at), __VA_ARGS__)

/* What each key is called, what leads to it and how its value is read into a struct animal. */
extern const struct header_row ANIMAL_KEYS[];

/* Does any of the words stand in it? */
bool animal_mentions(const struct tokens *t, const char *const *words, size_t count);
/* "not pregnant", "never ill": is the word denied? */
bool animal_denies(const struct tokens *t, const char *word);
/* "moderate", "lazy" */
bool animal_begins_with_activity(const struct tokens *t);

#endif
