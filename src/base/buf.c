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

/* ---- formats ------------------------------------------------------------------------------------------------------
 * Nearly all have nothing but texts, letters and whole numbers in them: those are written here, ten thousand a page, and
 * only what else there is goes through the C library. */

static bool is_plain_format(const char *fmt) {
  for (fmt = strchr(fmt, '%'); fmt; fmt = strchr(fmt + 1, '%')) {
    fmt++;
    if (fmt[0] == '.' && fmt[1] == '*' && fmt[2] == 's') fmt += 2;
    if (fmt[0] == 'z' && fmt[1] == 'u') fmt++;
    if (*fmt != 's' && *fmt != 'd' && *fmt != 'c' && *fmt != 'u' && *fmt != '%') return false;
  }
  return true;
}

static void add_whole(struct buf *b, uint64_t x, bool negative) {
  char digit[24];
  size_t at = sizeof digit;
  do {
    digit[--at] = (char)('0' + x % 10);
    x /= 10;
  } while (x > 0);
  if (negative) digit[--at] = '-';
  buf_add(b, (struct span){digit + at, sizeof digit - at});
}

static void add_text(struct buf *b, const char *text, int most) {
  if (!text) text = "(null)";
  const char *end = most >= 0 ? memchr(text, '\0', (size_t)most) : NULL;
  buf_add(b, (struct span){text, end ? (size_t)(end - text) : most >= 0 ? (size_t)most : strlen(text)});
}

/* 'fmt' stands behind a '%'. Returns where it ends. */
static const char *add_directive(struct buf *b, const char *fmt, va_list *args) {
  int most = -1, x;
  if (fmt[0] == '.') {
    most = va_arg(*args, int);
    fmt += 2;
  }
  switch (fmt[0]) {
  case 's':
    add_text(b, va_arg(*args, const char *), most);
    break;
  case 'c':
    buf_addc(b, (char)va_arg(*args, int));
    break;
  case 'd':
    x = va_arg(*args, int);
    add_whole(b, x < 0 ? 0U - (unsigned)x : (unsigned)x, x < 0);
    break;
  case 'u':
    add_whole(b, va_arg(*args, unsigned), false);
    break;
  case 'z':
    add_whole(b, va_arg(*args, size_t), false);
    fmt++;
    break;
  default:
    buf_addc(b, '%');
  }
  return fmt + 1;
}

static void add_plain_format(struct buf *b, const char *fmt, va_list *args) {
  for (const char *mark; (mark = strchr(fmt, '%')) != NULL; fmt = add_directive(b, mark + 1, args))
    if (mark > fmt) buf_add(b, (struct span){fmt, (size_t)(mark - fmt)});
  if (fmt[0]) buf_adds(b, fmt);
}

void buf_addv(struct buf *b, const char *fmt, va_list args) {
  char small[512];
  va_list again;
  va_copy(again, args);
  if (is_plain_format(fmt)) {
    add_plain_format(b, fmt, &again);
    va_end(again);
    return;
  }
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
