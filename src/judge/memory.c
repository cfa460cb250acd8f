#include "judge/memory.h"

#include <math.h>

#include "judge/constants.h"
#include "judge/stream.h"

/* Of foods with the same place the last one stays: 2048 leave room for those that people feed. */
enum { STREAM_PLACES = 2048 };

struct kept_stream {
  unsigned use; /* 0: nothing is there yet */
  double carotene_factor;
  struct stream_energy energy; /* as published */
  struct stream stream;
};

/* One species', at one energy column of the standards. */
struct kept_rows {
  bool are_there;
  double coefficient;
  const struct own_allowance *own;
  size_t own_count;
  struct standard_rows rows;
};

struct judge_memory {
  struct arena *arena;
  unsigned use;
  struct kept_stream *stream[STREAM_PLACES];
  struct kept_rows rows[SPECIES_COUNT];
  const double *constants[SPECIES_COUNT];
};

struct judge_memory *judge_memory_new(struct arena *arena) {
  struct judge_memory *m = ARENA_NEW(arena, struct judge_memory, 1);
  m->arena = arena;
  return m;
}

unsigned memory_next_use(const struct library *lib) {
  if (!lib->judged) return 0;
  if (++lib->judged->use == 0) lib->judged->use = 1;
  return lib->judged->use;
}

bool memory_is_in_use(const struct library *lib, unsigned use) { return lib->judged && lib->judged->use == use; }

struct stream *memory_stream(const struct library *lib, const struct portion *p, double carotene_factor, unsigned use) {
  if (!lib->judged || p->food >= img_count(&lib->image, IMG_FOODS)) return NULL; /* a text's own food is that text's alone */
  struct kept_stream **at = &lib->judged->stream[(p->food + 31 * (uint32_t)p->retention) % STREAM_PLACES], *kept = *at;
  if (!kept) kept = *at = ARENA_NEW(lib->judged->arena, struct kept_stream, 1);
  if (kept->use == use) return NULL; /* another food of this bowl has the place */
  bool same = kept->use > 0 && kept->stream.food == p->food && kept->stream.retention == p->retention &&
              kept->carotene_factor == carotene_factor;
  kept->use = use;
  if (same) {
    stream_set_energy(&kept->stream, &kept->energy);
    return &kept->stream;
  }
  stream_begin(&kept->stream, p->food, p->retention, lib, carotene_factor);
  kept->carotene_factor = carotene_factor;
  kept->energy = stream_energy_of(&kept->stream);
  return &kept->stream;
}

const double *memory_constants(const struct library *lib, enum species s) {
  struct judge_memory *m = lib->judged;
  if (!m) return NULL;
  if (!m->constants[s]) m->constants[s] = judge_constants(lib, s, m->arena);
  return m->constants[s];
}

const struct standard_rows *memory_rows(const struct library *lib, enum standard_id std, enum basis basis,
                                        const struct animal *a, const struct energy_need *need, struct standard_rows *room) {
  struct kept_rows *kept = lib->judged ? &lib->judged->rows[a->species] : NULL;
  struct standard_rows *rows = kept ? &kept->rows : room;
  bool same = kept && kept->are_there && kept->coefficient == need->coefficient && kept->own == lib->own_allowance &&
              kept->own_count == lib->own_allowance_count;
  if (same) {
    standard_gather_again(lib, std, basis, a, need, rows);
  } else {
    standard_gather(lib, std, basis, a, need, rows);
  }
  if (kept) {
    kept->are_there = true;
    kept->coefficient = need->coefficient;
    kept->own = lib->own_allowance;
    kept->own_count = lib->own_allowance_count;
  }
  return rows;
}
