#include "judge/memory.h"

#include <math.h>

#include "judge/constants.h"
#include "judge/stream.h"

/* Of foods with the same place the last one stays: 2048 leave room for those that people feed. */
enum { STREAM_PLACES = 2048 };

struct kept_stream {
  bool is_there;
  unsigned use; /* the last in which it was lent */
  double carotene_factor;
  struct stream_energy energy; /* as published */
  struct stream stream;
};

/* One species', at one energy column of the standards; and the figures of one animal, but for what its food moves. */
struct kept_rows {
  bool are_there, are_fixed;
  double coefficient;
  const struct own_allowance *own;
  size_t own_count;
  struct standard_rows rows;
  struct allowance_set fixed;
};

/* The one that was met last. */
enum { WORDS_MOST = 240 };
struct kept_animal {
  bool is_there;
  struct animal animal;
  struct met_animal met;
  char need_from[WORDS_MOST];
};

struct judge_memory {
  struct arena *arena;
  unsigned use;
  struct kept_stream *stream[STREAM_PLACES];
  struct kept_animal animal;
  struct kept_rows *rows[SPECIES_COUNT];
  const struct img_window **window[SPECIES_COUNT];
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

/* NULL where another food has the place that was lent in this use. */
static struct kept_stream *kept_stream_of(const struct library *lib, struct stream_key key, double carotene_factor,
                                          unsigned use) {
  if (!lib->judged || key.food >= img_count(&lib->image, IMG_FOODS))
    return NULL; /* a text's own food is that text's alone */
  struct kept_stream **at = &lib->judged->stream[(key.food + 31 * (uint32_t)key.retention) % STREAM_PLACES], *kept = *at;
  if (!kept) kept = *at = ARENA_NEW(lib->judged->arena, struct kept_stream, 1);
  bool same = kept->is_there && kept->stream.food == key.food && kept->stream.retention == key.retention &&
              kept->carotene_factor == carotene_factor;
  if (same) return kept;
  if (kept->is_there && kept->use == use) return NULL;
  stream_begin(&kept->stream, key.food, key.retention, lib, carotene_factor);
  kept->is_there = true;
  kept->use = 0;
  kept->carotene_factor = carotene_factor;
  kept->energy = stream_energy_of(&kept->stream);
  return kept;
}

struct stream *memory_stream(const struct library *lib, struct stream_key key, double carotene_factor, unsigned use) {
  struct kept_stream *kept = kept_stream_of(lib, key, carotene_factor, use);
  if (!kept) return NULL;
  kept->use = use;
  stream_set_energy(&kept->stream, &kept->energy);
  return &kept->stream;
}

bool memory_copy_stream(const struct library *lib, struct stream_key key, double carotene_factor, struct stream *out) {
  struct kept_stream *kept = lib->judged ? kept_stream_of(lib, key, carotene_factor, lib->judged->use) : NULL;
  if (!kept) return false;
  *out = kept->stream;
  stream_set_energy(out, &kept->energy);
  return true;
}

const double *memory_constants(const struct library *lib, enum species s) {
  struct judge_memory *m = lib->judged;
  if (!m) return NULL;
  if (!m->constants[s]) m->constants[s] = judge_constants(lib, s, m->arena);
  return m->constants[s];
}

struct met_animal memory_animal(const struct library *lib, const struct animal *a, struct arena *arena) {
  struct kept_animal *kept = lib->judged && !a->measured ? &lib->judged->animal : NULL;
  /* Padding that differs costs no more than reckoning it anew. NOLINTNEXTLINE(bugprone-suspicious-memory-comparison) */
  if (kept && kept->is_there && memcmp(&kept->animal, a, sizeof *a) == 0) {
    struct met_animal met = kept->met;
    met.need.from = arena_text(arena, span_of(kept->need_from)); /* the answer may last longer than what is kept */
    return met;
  }
  struct met_animal met = {animal_body(lib, a), animal_energy(lib, a, arena)};
  size_t words = strlen(met.need.from);
  if (!kept) return met;
  kept->is_there = words < WORDS_MOST;
  kept->animal = *a;
  kept->met = met;
  if (kept->is_there) memcpy(kept->need_from, met.need.from, words + 1);
  return met;
}

static void find_rows(const struct library *lib, struct kept_rows *kept, const struct animal *a,
                      const struct energy_need *need) {
  bool same = kept->are_there && kept->coefficient == need->coefficient && kept->own == lib->own_allowance &&
              kept->own_count == lib->own_allowance_count;
  if (same) return;
  standard_gather(lib, STANDARD_NRC2006, BASIS_WEIGHT, a, need, &kept->rows);
  kept->are_there = true;
  kept->are_fixed = false;
  kept->coefficient = need->coefficient;
  kept->own = lib->own_allowance;
  kept->own_count = lib->own_allowance_count;
}

static bool asks_the_same(const struct standard_rows *r, const struct check_options *o, const struct met_animal *met) {
  return r->standard == o->standard && r->basis == o->basis && r->need_kcal == met->need.kcal &&
         r->body.metabolic_kg == met->body.metabolic_kg && r->body.exponent == met->body.exponent;
}

static const struct kept_rows *fixed_rows(const struct library *lib, const struct check_options *o, const struct animal *a,
                                          const struct met_animal *met) {
  struct kept_rows **at = &lib->judged->rows[a->species], *kept = *at;
  if (!kept) kept = *at = ARENA_NEW(lib->judged->arena, struct kept_rows, 1);
  find_rows(lib, kept, a, &met->need);
  if (kept->are_fixed && asks_the_same(&kept->rows, o, met)) return kept;
  standard_ask(&kept->rows, o->standard, o->basis, &met->body, met->need.kcal);
  standard_fix(&kept->rows, &kept->fixed);
  kept->are_fixed = true;
  return kept;
}

void memory_standard(const struct library *lib, const struct check_options *o, const struct animal *a,
                     const struct met_animal *met, struct energy_eaten eaten, struct allowance_set *out, struct arena *arena) {
  if (!lib->judged) {
    standard_allowances(lib, o->standard, o->basis, a, &met->need, eaten, out, arena);
    return;
  }
  const struct kept_rows *kept = fixed_rows(lib, o, a, met);
  *out = kept->fixed;
  standard_again(&kept->rows, eaten, out, arena);
}

void memory_standard_fixed(const struct library *lib, const struct check_options *o, const struct animal *a,
                           const struct met_animal *met, struct standard_rows *rows, struct allowance_set *fixed) {
  if (!lib->judged) {
    standard_gather(lib, o->standard, o->basis, a, &met->need, rows);
    standard_fix(rows, fixed);
    return;
  }
  const struct kept_rows *kept = fixed_rows(lib, o, a, met);
  *rows = kept->rows;
  *fixed = kept->fixed;
}

const struct img_window *const *memory_windows(const struct library *lib, enum species s,
                                               const struct img_window *room[NUT_COUNT]) {
  const struct img_window ***kept = lib->judged ? &lib->judged->window[s] : NULL;
  if (kept && *kept) return *kept;
  if (kept) room = *kept = ARENA_NEW(lib->judged->arena, const struct img_window *, NUT_COUNT);
  standard_windows(lib, s, room);
  return room;
}
