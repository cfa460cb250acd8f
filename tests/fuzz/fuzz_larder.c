/* fuzz_larder.c: any bytes as a larder; what is understood keeps what the header promises. */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include "larder/larder_text.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static bool sound(const struct larder_line *l) {
  if (!(l->low >= 0) || !(l->high >= l->low) || !(l->least >= 0) || l->least > l->high) return false;
  if (!isnan(l->price) && !(l->price >= 0)) return false;
  return isnan(l->times_high) || (l->times_low >= 0 && l->times_low <= l->times_high && l->times_high <= CALENDAR_DAYS);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  struct arena arena;
  struct diags d;
  struct larder larder;
  struct buf out;
  struct span text = {(const char *)data, size};
  arena_init(&arena, NULL);
  diags_init(&d, &arena, "fuzz", text);
  bool fine = larder_parse(text, &d, &larder, &arena);
  if (fine != (d.errors == 0)) abort();
  for (size_t i = 0; fine && i < larder.line_count; i++)
    if (!sound(&larder.line[i])) abort();
  for (size_t i = 0; fine && i < larder.limit_count; i++)
    if (!(larder.limit[i].low <= larder.limit[i].high)) abort();
  buf_init(&out, &arena, 1 << 20);
  diags_print(&d, &out, true);
  arena_free(&arena);
  return 0;
}
