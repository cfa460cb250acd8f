/* built_library.h: the food library image that the build made, opened once for a test program.
 *
 * Include after cmocka.h; BW_LIBRARY_PATH comes from the build. */
#ifndef BW_BUILT_LIBRARY_H
#define BW_BUILT_LIBRARY_H

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include "core/library.h"

static struct library lib;

static int open_library(void **state) {
  (void)state;
  FILE *f = fopen(BW_LIBRARY_PATH, "rb");
  if (!f || fseek(f, 0, SEEK_END) != 0) return -1;
  size_t n = (size_t)ftell(f);
  void *bytes = aligned_alloc(16, (n + 15) / 16 * 16);
  rewind(f);
  bool whole = bytes && fread(bytes, 1, n, f) == n;
  fclose(f);
  return whole && image_open(&lib.image, bytes, n) == IMAGE_FINE ? 0 : -1;
}

static int close_library(void **state) {
  (void)state;
  free((void *)(uintptr_t)lib.image.bytes);
  return 0;
}

#endif
