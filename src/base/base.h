/* base.h: what every file may use. Attributes, spans of text, error codes.
 *
 * Layer: base. Includes nothing of this project. */
#ifndef BW_BASE_H
#define BW_BASE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#if defined(__GNUC__) || defined(__clang__)
#define MUST_USE __attribute__((warn_unused_result))
#define PRINTF_LIKE(fmt, first) __attribute__((format(printf, fmt, first)))
#define NO_RETURN __attribute__((noreturn))
#define ALWAYS_INLINE inline __attribute__((always_inline))
#else
#define MUST_USE
#define PRINTF_LIKE(fmt, first)
#define NO_RETURN
#define ALWAYS_INLINE inline
#endif

#define COUNT_OF(a) (sizeof(a) / sizeof((a)[0]))

/* A piece of somebody else's text: not NUL-terminated, never freed. */
struct span {
  const char *p;
  size_t n;
};

#define SPAN_LIT(s) ((struct span){(s), sizeof(s) - 1})
#define SPAN_ARG(s) (int)(s).n, (s).p /* for "%.*s" */

static inline struct span span_of(const char *s) { return (struct span){s, s ? strlen(s) : 0}; }
static inline struct span span_cut(struct span s, size_t from, size_t to) {
  if (to > s.n) to = s.n;
  if (from > to) from = to;
  return (struct span){from > 0 ? s.p + from : s.p, to - from}; /* nothing is added to the pointer of nothing */
}
bool span_eq(struct span a, struct span b);
/* Mostly the first letter tells: asked ten thousand times an answer. */
static inline bool span_is(struct span a, const char *literal) {
  if (a.n == 0 || !literal) return a.n == 0 && (!literal || !literal[0]);
  return a.p[0] == literal[0] && span_eq(a, span_of(literal));
}
/* ASCII case folded comparison; bytes above 0x7f compare as they are. */
bool span_eq_fold(struct span a, struct span b);
bool span_is_fold(struct span a, const char *literal);
bool span_starts_fold(struct span a, const char *literal);
/* Do the words stand anywhere in the text? No words stand in every text. */
bool span_holds_fold(struct span text, struct span words);
/* Cuts the piece up to 'mark' off the front of 'rest'; the mark is dropped. The last piece ends where the text does. */
struct span span_piece(struct span *rest, char mark);
/* Without ASCII blanks (space, tab, CR) at both ends. */
struct span span_trim(struct span s);

/* Optimal-string-alignment distance (insert, delete, replace, swap of neighbours), ASCII case folded.
 * Returns a number > 'most' as soon as the distance is known to exceed it. Words over 64 bytes count as far. */
int span_distance(struct span a, struct span b, int most);

/* A checksum against damage, not against malice: XXH3, 64 bits (docs/decisions/0008-checksum.md). The same on every machine
 * of either byte order. */
uint64_t checksum64(const void *data, size_t n);

#endif
