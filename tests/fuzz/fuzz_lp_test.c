#include "fuzz_lp.c"

#include "tests/lp/models.h"

/* Without a fuzzer: bytes drawn at random, the same ones each time. */
int main(void) {
  enum { PROGRAMS = 100000, LONGEST = 120 };
  struct draw r = draw_from(7);
  int programs = models_to_try(PROGRAMS);
  for (int k = 0; k < programs; k++) {
    uint8_t bytes[LONGEST];
    size_t n = (size_t)draw_below(&r, LONGEST);
    for (size_t i = 0; i < n; i++) bytes[i] = (uint8_t)draw_bits(&r);
    LLVMFuzzerTestOneInput(bytes, n);
  }
  printf("%d programs of random bytes\n", programs);
  return 0;
}
