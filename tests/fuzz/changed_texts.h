/* changed_texts.h: the seeds of the fuzz targets and changed copies of them, always the same ones, for a compiler without a
 * fuzzer.
 *
 * Include after the target; then call read_changed_texts(). */
#ifndef BW_CHANGED_TEXTS_H
#define BW_CHANGED_TEXTS_H

#include <string.h>

#include "base/base.h"

/* xorshift64 (Marsaglia 2003): the same numbers on every machine. */
static uint64_t random_state = 88172645463325252ULL;
static uint64_t next_random(void) {
  random_state ^= random_state << 13;
  random_state ^= random_state >> 7;
  random_state ^= random_state << 17;
  return random_state;
}
static size_t below(size_t n) { return n > 0 ? (size_t)(next_random() % n) : 0; }

static void read_block(const char *p, size_t n) {
  uint8_t *block = malloc(n > 0 ? n : 1); /* exactly its size */
  if (!block) abort();
  if (n > 0) memcpy(block, p, n);
  LLVMFuzzerTestOneInput(block, n);
  free(block);
}

/* One to four changes: bytes overwritten, taken out, doubled, or a piece that often matters put in. */
static size_t change(char *p, size_t n, size_t most) {
  static const char *const PIECES[] = {"1/",       "-",
                                       "\xC2\xBD", "\xE2\x80\x93",
                                       "[",        "]",
                                       "%",        "(",
                                       " each",    ", ",
                                       "#",        "0",
                                       ":",        "\n",
                                       "\xFF",     "999999999999999",
                                       "x",        " raw weight, simmered",
                                       " bone-in", "1e9",
                                       "."};
  for (size_t times = 1 + below(4); times > 0; times--) {
    size_t at = below(n + 1);
    const char *piece = PIECES[below(COUNT_OF(PIECES))];
    size_t m = strlen(piece), cut = below(6);
    switch (below(3)) {
    case 0:
      if (at < n) p[at] = (char)next_random();
      break;
    case 1:
      if (cut > n - at) cut = n - at;
      memmove(p + at, p + at + cut, n - at - cut);
      n -= cut;
      break;
    default:
      if (n + m > most) break;
      memmove(p + at + m, p + at, n - at);
      memcpy(p + at, piece, m);
      n += m;
      break;
    }
  }
  return n;
}

static inline void read_changed_text(const char *path, int copies) {
  static char whole[1 << 20], copy[8192];
  FILE *f = fopen(path, "rb");
  if (!f) {
    fprintf(stderr, "%s is missing\n", path);
    exit(1);
  }
  size_t n = fread(whole, 1, sizeof whole, f);
  fclose(f);
  read_block(whole, n);
  for (int i = 0; i < copies; i++) {
    size_t length = 1 + below(400), from = below(n);
    if (length > n - from) length = n - from;
    memcpy(copy, whole + from, length);
    read_block(copy, change(copy, length, sizeof copy));
  }
}

/* Changed copies of the whole text, not of pieces: for inputs whose parts need each other. */
static inline void read_changed_wholes(const char *const *names, size_t count, int copies) {
  static char whole[8192], copy[8192];
  char path[1024];
  for (size_t i = 0; i < count; i++) {
    snprintf(path, sizeof path, "%s/%s", BW_SOURCE_DIR, names[i]);
    FILE *f = fopen(path, "rb");
    if (!f) exit(1);
    size_t n = fread(whole, 1, sizeof whole - 1024, f);
    fclose(f);
    for (int k = 0; k < copies; k++) {
      memcpy(copy, whole, n);
      read_block(copy, change(copy, n, sizeof copy));
    }
  }
}

/* 'names' are paths below the sources. */
static inline void read_changed_texts(const char *const *names, size_t count, int copies) {
  char path[1024];
  for (size_t i = 0; i < count; i++) {
    snprintf(path, sizeof path, "%s/%s", BW_SOURCE_DIR, names[i]);
    read_changed_text(path, copies);
  }
  printf("%zu texts and %d changed copies of each\n", count, copies);
}

#endif
