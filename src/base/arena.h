/* arena.h: memory that is given back all at once.
 *
 * One answer (a check, a search) allocates from one arena and the caller drops the whole. Running out of memory
 * is the one error that is not passed up by return value: arena_alloc never returns NULL; it calls the handler
 * given at start, which must not return (the command line ends with exit code 6). Inputs are bounded before
 * anything is allocated for them, so this is a machine in trouble and not a bad recipe.
 *
 * Layer: base. */
#ifndef BW_ARENA_H
#define BW_ARENA_H

#include "base/base.h"

struct arena_block;
struct arena {
  struct arena_block *last;
  struct arena_block *spare; /* given back by arena_rewind, to be used again */
  size_t used_bytes;         /* handed out, for statistics */
  void (*on_full)(void);     /* must not return; NULL means abort() */
};

void arena_init(struct arena *a, void (*on_full)(void));
void arena_free(struct arena *a); /* gives all blocks back; the arena may be used again */

/* 'n * size' bytes, zeroed, aligned for any type. n * size overflow counts as out of memory. */
void *arena_alloc(struct arena *a, size_t n, size_t size);
#define ARENA_NEW(a, type, n) ((type *)arena_alloc((a), (n), sizeof(type)))

/* The same, not zeroed: for what is written before it is read. */
void *arena_raw(struct arena *a, size_t n, size_t size);

/* More room, zeroed, for what was allocated last: true when it could stay where it is. 'p' is of 'n' bytes, 'more' are
 * wanted in all. */
bool arena_extend(struct arena *a, void *p, size_t n, size_t more);

/* What was allocated since the mark is given back, and its blocks are used again: for work that is done a hundred times and
 * leaves nothing behind. */
struct arena_mark {
  struct arena_block *last;
  size_t used, used_bytes;
};
struct arena_mark arena_mark(const struct arena *a);
void arena_rewind(struct arena *a, struct arena_mark mark);

/* Copies; the result is NUL-terminated (the NUL is not counted). */
char *arena_text(struct arena *a, struct span s);
static inline struct span arena_span(struct arena *a, struct span s) { return (struct span){arena_text(a, s), s.n}; }

/* Grows an array that lives in the arena: returns storage for at least *cap * 2 items with the old ones copied. */
void *arena_grow(struct arena *a, const void *old, size_t count, size_t *cap, size_t size);
/* Appends 'item' to (ptr, count, cap), a vector in the arena. */
#define ARENA_PUSH(a, ptr, count, cap, item)                                                                                \
  do {                                                                                                                      \
    if ((count) == (cap)) (ptr) = arena_grow((a), (ptr), (count), &(cap), sizeof *(ptr));                                   \
    (ptr)[(count)++] = (item);                                                                                              \
  } while (0)

#endif
