/* fuzz_library.h: the library of the build for fuzz targets, and what must hold. */
#ifndef BW_FUZZ_LIBRARY_H
#define BW_FUZZ_LIBRARY_H

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include "foods/library.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static inline const struct library *fuzz_library(void) {
  static struct library lib;
  static _Alignas(16) unsigned char bytes[32U << 20];
  if (lib.image.bytes) return &lib;
  FILE *f = fopen(BW_LIBRARY_PATH, "rb");
  size_t n = f ? fread(bytes, 1, sizeof bytes, f) : 0;
  if (f) fclose(f);
  if (n == 0 || image_open(&lib.image, bytes, n) != IMAGE_FINE) {
    fprintf(stderr, "%s cannot be read; build the target library_image\n", BW_LIBRARY_PATH);
    exit(1);
  }
  return &lib;
}

static inline void must(bool holds, const char *what, struct span text) {
  if (holds) return;
  fprintf(stderr, "does not hold: %s\n%.*s\n", what, SPAN_ARG(text));
  abort();
}

#endif
