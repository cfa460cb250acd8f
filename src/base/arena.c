#include "base/arena.h"

#include <stdlib.h>

struct arena_block {
  struct arena_block *before;
  size_t used, cap;
  max_align_t data[];
};

enum { BLOCK_BYTES = 64 * 1024 };

void arena_init(struct arena *a, void (*on_full)(void)) { *a = (struct arena){.on_full = on_full}; }

static void free_blocks(struct arena_block *b) {
  while (b) {
    struct arena_block *before = b->before;
    free(b);
    b = before;
  }
}

void arena_free(struct arena *a) {
  free_blocks(a->last);
  free_blocks(a->spare);
  a->last = a->spare = NULL;
  a->used_bytes = 0;
}

static NO_RETURN void full(struct arena *a) {
  if (a->on_full) a->on_full();
  abort();
}

struct arena_mark arena_mark(const struct arena *a) {
  return (struct arena_mark){a->last, a->last ? a->last->used : 0, a->used_bytes};
}

void arena_rewind(struct arena *a, struct arena_mark mark) {
  while (a->last != mark.last) {
    struct arena_block *b = a->last;
    a->last = b->before;
    b->before = a->spare;
    a->spare = b;
  }
  if (a->last) a->last->used = mark.used;
  a->used_bytes = mark.used_bytes;
}

/* A block that was given back, if one is large enough. */
static struct arena_block *take_spare(struct arena *a, size_t need) {
  for (struct arena_block **at = &a->spare; *at; at = &(*at)->before) {
    struct arena_block *b = *at;
    if (b->cap < need) continue;
    *at = b->before;
    b->before = a->last;
    b->used = 0;
    return a->last = b;
  }
  return NULL;
}

static struct arena_block *new_block(struct arena *a, size_t need) {
  if (a->spare && take_spare(a, need)) return a->last;
  size_t cap = need > BLOCK_BYTES ? need : BLOCK_BYTES;
  struct arena_block *b = cap > SIZE_MAX - sizeof *b ? NULL : malloc(sizeof *b + cap);
  if (!b) full(a);
  *b = (struct arena_block){.before = a->last, .cap = cap};
  return a->last = b;
}

static size_t aligned(size_t n) {
  const size_t align = _Alignof(max_align_t);
  return n == 0 ? align : (n + align - 1) / align * align;
}

bool arena_extend(struct arena *a, void *p, size_t n, size_t more) {
  struct arena_block *b = a->last;
  size_t had = aligned(n);
  if (!b || b->used < had || (char *)b->data + b->used - had != p || more > b->cap - (b->used - had)) return false;
  size_t need = aligned(more) - had;
  if (need > b->cap - b->used) return false;
  memset((char *)b->data + b->used, 0, need);
  b->used += need;
  a->used_bytes += need;
  return true;
}

static void *take(struct arena *a, size_t need) {
  struct arena_block *b = a->last;
  if (!b || b->cap - b->used < need) b = new_block(a, need);
  void *p = (char *)b->data + b->used;
  b->used += need;
  a->used_bytes += need;
  return p;
}

static size_t bytes_of(struct arena *a, size_t n, size_t size) {
  if (size != 0 && n > (SIZE_MAX - 2 * _Alignof(max_align_t)) / size) full(a);
  return aligned(n * size);
}

void *arena_raw(struct arena *a, size_t n, size_t size) { return take(a, bytes_of(a, n, size)); }

void *arena_alloc(struct arena *a, size_t n, size_t size) {
  size_t need = bytes_of(a, n, size);
  return memset(take(a, need), 0, need);
}

char *arena_text(struct arena *a, struct span s) {
  char *p = arena_raw(a, s.n + 1, 1);
  if (s.n > 0) memcpy(p, s.p, s.n);
  p[s.n] = '\0';
  return p;
}

void *arena_grow(struct arena *a, const void *old, size_t count, size_t *cap, size_t size) {
  size_t more = *cap < 8 ? 16 : *cap * 2;
  void *p = arena_alloc(a, more, size);
  if (count > 0) memcpy(p, old, count * size);
  *cap = more;
  return p;
}
