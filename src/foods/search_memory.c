#include "foods/search_memory.h"

#include <math.h>

static uint32_t hash_of(struct span text) {
  uint32_t hash = 2166136261U; /* FNV-1a */
  for (size_t i = 0; i < text.n; i++) hash = (hash ^ (uint8_t)text.p[i]) * 16777619U;
  return hash;
}

/* ---- everyday names ------------------------------------------------------------------------------------------------------
 */

uint32_t search_sum(const struct search_words *w) {
  uint32_t sum = 0;
  for (size_t i = 0; i < w->count; i++) sum += hash_of(w->at[i].text);
  return sum;
}

static uint32_t sum_of_phrase(struct span phrase) {
  uint32_t sum = 0;
  while (phrase.n > 0) sum += hash_of(span_piece(&phrase, ' '));
  return sum;
}

/* The last name first, so that each bucket has them in their order. */
static void know_names(struct search_memory *m, const struct image *img) {
  const struct img_name *name = IMG_ROWS(img, IMG_NAMES, struct img_name);
  size_t count = img_count(img, IMG_NAMES);
  m->name_next = ARENA_NEW(m->arena, uint32_t, count + 1);
  m->name_sum = ARENA_NEW(m->arena, uint32_t, count + 1);
  for (size_t i = count; i-- > 0;) {
    m->name_sum[i] = sum_of_phrase(span_of(img_str(img, name[i].phrase)));
    uint32_t *bucket = &m->name_bucket[m->name_sum[i] % NAME_BUCKETS];
    m->name_next[i] = *bucket;
    *bucket = (uint32_t)i + 1;
  }
}

size_t search_name_from(const struct search_memory *m, const struct image *img, uint32_t sum, size_t from) {
  size_t names = img_count(img, IMG_NAMES);
  if (!m || from >= names) return from;
  size_t at = from == 0 ? m->name_bucket[sum % NAME_BUCKETS] : m->name_next[from - 1];
  while (at > 0 && m->name_sum[at - 1] != sum) at = m->name_next[at - 1];
  return at > 0 ? at - 1 : names;
}

bool search_is_name(const struct library *lib, const struct search_words *w) {
  const struct image *img = &lib->image;
  const struct img_name *name = IMG_ROWS(img, IMG_NAMES, struct img_name);
  uint32_t sum = search_sum(w);
  size_t i = w->count > 0 ? 0 : img_count(img, IMG_NAMES);
  while ((i = search_name_from(lib->searched, img, sum, i)) < img_count(img, IMG_NAMES))
    if (sum_of_phrase(span_of(img_str(img, name[i++].phrase))) == sum) return true;
  return false;
}

/* ---- the dictionary ------------------------------------------------------------------------------------------------------
 */

struct word_shape search_shape(struct span word) {
  struct word_shape shape = {0, (uint32_t)word.n};
  for (size_t i = 0; i < word.n; i++) shape.letters |= 1u << ((unsigned char)word.p[i] & 31);
  return shape;
}

const struct word_shape *search_shapes(struct search_memory *m, const struct image *img, const struct synonyms *syn) {
  const struct img_token *token = IMG_ROWS(img, IMG_TOKENS, struct img_token);
  size_t tokens = img_count(img, IMG_TOKENS);
  if (m->shape) return m->shape;
  m->shape = arena_raw(m->arena, tokens + syn->count + 1, sizeof *m->shape);
  for (size_t i = 0; i < tokens; i++) m->shape[i] = search_shape(span_of(img_str(img, token[i].text)));
  for (size_t i = 0; i < syn->count; i++) m->shape[tokens + i] = search_shape(span_of(syn->strings + syn->row[i].from));
  m->forget = arena_mark(m->arena);
  return m->shape;
}

struct word_meant *search_meant(const struct search_memory *m, struct span word, bool last) {
  struct word_meant *w = m->meant[hash_of(word) % MEANT_BUCKETS];
  while (w && !(w->last == last && span_eq(w->word, word))) w = w->next;
  return w;
}

struct word_meant *search_keep_meant(struct search_memory *m, struct span word, bool last) {
  struct word_meant **bucket = &m->meant[hash_of(word) % MEANT_BUCKETS], *w = ARENA_NEW(m->arena, struct word_meant, 1);
  *w = (struct word_meant){.next = *bucket, .word = arena_span(m->arena, word), .last = last};
  return *bucket = w;
}

void search_fill_meant(struct search_memory *m, struct word_meant *meant, const struct search_words *words) {
  meant->at = arena_raw(m->arena, words->count, sizeof *meant->at);
  memcpy(meant->at, words->at, words->count * sizeof *meant->at);
  meant->count = words->count;
}

/* ---- what was found ------------------------------------------------------------------------------------------------------
 */

static bool same_wish(const struct search_wish *a, const struct search_wish *b) {
  bool lean = a->lean_percent == b->lean_percent || (isnan(a->lean_percent) && isnan(b->lean_percent));
  return a->state == b->state && a->bone_in == b->bone_in && a->skin == b->skin && a->lean == b->lean &&
         a->drained == b->drained && lean;
}

static size_t bucket_of(struct span folded, enum state state) {
  return (hash_of(folded) ^ (uint32_t)state) % SEARCHED_BUCKETS;
}

const struct searched *search_kept(const struct search_memory *m, struct span folded, const struct search_wish *wish) {
  const struct searched *s = m->searched[bucket_of(folded, wish->state)];
  while (s && !(span_eq(s->folded, folded) && same_wish(&s->wish, wish))) s = s->next;
  return s;
}

static void forget(struct search_memory *m) {
  memset(m->searched, 0, sizeof m->searched);
  memset(m->meant, 0, sizeof m->meant);
  m->searched_count = 0;
  arena_rewind(m->arena, m->forget);
}

void search_keep(struct search_memory *m, struct span folded, const struct search_wish *wish, const struct search_hit *hits,
                 size_t count) {
  if (m->searched_count == SEARCHED_MOST) forget(m);
  struct searched **bucket = &m->searched[bucket_of(folded, wish->state)], *s = ARENA_NEW(m->arena, struct searched, 1);
  struct search_hit *kept = arena_raw(m->arena, count, sizeof *kept);
  if (count > 0) memcpy(kept, hits, count * sizeof *kept);
  *s = (struct searched){*bucket, arena_span(m->arena, folded), *wish, count, kept};
  *bucket = s;
  m->searched_count++;
}

/* ---- the whole -----------------------------------------------------------------------------------------------------------
 */

uint16_t *search_places(struct search_memory *m, size_t foods) {
  if (!m->place) {
    m->place = ARENA_NEW(m->arena, uint16_t, foods);
    m->forget = arena_mark(m->arena);
  }
  return m->place;
}

struct search_memory *search_memory_of(const struct image *img, struct arena *arena) {
  struct search_memory *m = ARENA_NEW(arena, struct search_memory, 1);
  m->arena = arena;
  know_names(m, img);
  m->forget = arena_mark(arena);
  return m;
}
