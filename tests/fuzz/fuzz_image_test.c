#include "fuzz_image.c"

#include "changed_texts.h"

/* Beginnings of the built library, then changes by chance: of those that are not refused every kind of question is asked. */
int main(void) {
  enum { PIECES = 4, TIMES = 400 };
  uint8_t bytes[1 + PIECES * CHANGE_BYTES];
  struct span good = built_bytes();
  uint8_t beginning[WHOLE_MOST];
  for (size_t n = 1; n <= sizeof beginning; n += n < 128 ? 1 : 61) {
    beginning[0] = 'w';
    memcpy(beginning + 1, good.p, n - 1);
    read_block((const char *)beginning, n);
  }
  for (int t = 0; t < TIMES; t++) {
    for (size_t i = 0; i < sizeof bytes; i++) bytes[i] = (uint8_t)next_random();
    bytes[0] = (uint8_t)(t % 8);
    read_block((const char *)bytes, 1 + (1 + below(PIECES)) * CHANGE_BYTES);
  }
  printf("%zu images: %zu refused, %zu asked\n", refused + opened, refused, opened);
  return opened > 100 && refused > 100 ? 0 : 1;
}
