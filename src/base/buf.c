#include "base/buf.h"

#include <stdio.h> /* vsnprintf */

void buf_init(struct buf *b, struct arena *arena, size_t most_bytes) {
  *b = (struct buf){.arena = arena, .most = most_bytes};
}

static size_t make_room(struct buf *b, size_t want) {
  size_t room = b->most - b->n;
  if (want > room) {
    b->cut = true;
    want = room;
  }
  if (b->n + want + 1 > b->cap) {
    size_t cap = b->cap ? b->cap : 64;
    while (cap < b->n + want + 1) cap *= 2;
    if (!b->cap || !arena_extend(b->arena, b->p, b->cap, cap)) {
      char *p = arena_alloc(b->arena, cap, 1);
      if (b->n > 0) memcpy(p, b->p, b->n);
      b->p = p;
    }
    b->cap = cap;
  }
  return want;
}

void buf_add(struct buf *b, struct span s) {
  size_t n = s.n;
  if (n > b->most - b->n || b->n + n + 1 > b->cap) n = make_room(b, n);
  if (n > 0) memcpy(b->p + b->n, s.p, n);
  b->n += n;
  b->p[b->n] = '\0';
}

void buf_adds(struct buf *b, const char *s) { buf_add(b, span_of(s)); }

void buf_addc(struct buf *b, char c) {
  if (b->n + 1 < b->cap && b->n < b->most) { /* an answer is written letter by letter: the common case is short */
    b->p[b->n++] = c;
    b->p[b->n] = '\0';
  } else {
    buf_add(b, (struct span){&c, 1});
  }
}

void buf_repeat(struct buf *b, const char *s, size_t times) {
  while (times-- > 0) buf_adds(b, s);
}

void buf_addv(struct buf *b, const char *fmt, va_list args) {
  char small[512];
  va_list again;
  va_copy(again, args);
  int n = vsnprintf(small, sizeof small, fmt, args);
  if (n > 0 && (size_t)n < sizeof small) {
    buf_add(b, (struct span){small, (size_t)n});
  } else if (n > 0) {
    char *p = arena_alloc(b->arena, (size_t)n + 1, 1);
    vsnprintf(p, (size_t)n + 1, fmt, again);
    buf_add(b, (struct span){p, (size_t)n});
  }
  va_end(again);
}

void buf_addf(struct buf *b, const char *fmt, ...) {
  va_list args;
  va_start(args, fmt);
  buf_addv(b, fmt, args);
  va_end(args);
}

const char *buf_text(struct buf *b) { return b->p ? b->p : ""; }
