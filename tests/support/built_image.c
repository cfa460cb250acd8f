#include "built_image.h"

#include <stdio.h>
#include <stdlib.h>

static void give_up(const char *what) {
  fprintf(stderr, "%s: %s\n", BW_LIBRARY_PATH, what);
  exit(1);
}

struct span built_bytes(void) {
  static struct span bytes;
  if (bytes.p) return bytes;
  FILE *f = fopen(BW_LIBRARY_PATH, "rb");
  if (!f) give_up("cannot open; build the target library_image");
  fseek(f, 0, SEEK_END);
  size_t n = (size_t)ftell(f);
  rewind(f);
  char *p = aligned_alloc(16, (n + 15) / 16 * 16);
  if (!p || fread(p, 1, n, f) != n) give_up("cannot read");
  fclose(f);
  bytes = (struct span){p, n};
  return bytes;
}

const struct library *built_library(void) {
  static struct library lib;
  if (lib.image.bytes) return &lib;
  struct span bytes = built_bytes();
  enum image_fault fault = image_open(&lib.image, bytes.p, bytes.n);
  if (fault != IMAGE_FINE) give_up(image_fault_text(fault));
  return &lib;
}

uint32_t built_food(const char *code) {
  uint32_t food = library_by_code(built_library(), span_of(code));
  if (food == NO_INDEX) give_up(code);
  return food;
}

const struct img_food *built_record(const char *code) { return library_food(built_library(), built_food(code)); }

double built_value(const char *code, enum nutrient n) { return library_values(built_library(), built_food(code))[n].mean; }
