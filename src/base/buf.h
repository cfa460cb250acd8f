/* buf.h: text that grows, in an arena, with a ceiling.
 *
 * When the ceiling is reached the rest is dropped and 'cut' is set: a writer never fails half-way, and whoever
 * sends the text on looks at 'cut' once. Layer: base. */
#ifndef BW_BUF_H
#define BW_BUF_H

#include <stdarg.h>

#include "base/arena.h"

struct buf {
  struct arena *arena;
  char *p; /* always NUL-terminated once anything was written; see buf_text */
  size_t n, cap, most;
  bool cut;
};

void buf_init(struct buf *b, struct arena *arena, size_t most_bytes);
void buf_add(struct buf *b, struct span s);
void buf_adds(struct buf *b, const char *s);
void buf_addc(struct buf *b, char c);
void buf_repeat(struct buf *b, const char *s, size_t times);
/* Only %s %.*s %d %i %u %zu %ld %c %% are used by this project: numbers with a point go through num.h,
 * which no locale can change. */
void buf_addf(struct buf *b, const char *fmt, ...) PRINTF_LIKE(2, 3);
void buf_addv(struct buf *b, const char *fmt, va_list args) PRINTF_LIKE(2, 0);
const char *buf_text(struct buf *b);
static inline struct span buf_span(const struct buf *b) { return (struct span){b->p, b->n}; }

#endif
