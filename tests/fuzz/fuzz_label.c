/* fuzz_label.c: any bytes as a text of food labels. */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include "label/label_text.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  struct arena arena;
  struct diags d;
  struct own_food *foods;
  size_t count;
  struct buf out;
  struct span text = {(const char *)data, size};
  arena_init(&arena, NULL);
  diags_init(&d, &arena, "fuzz", text);
  bool fine = label_read(text, NULL, &d, &foods, &count, &arena);
  if (fine != (d.errors == 0)) abort();
  for (size_t i = 0; fine && i < count; i++)
    for (int n = 0; n < NUT_COUNT; n++)
      if ((foods[i].value[n].status == VALUE_UNKNOWN) == !isnan((double)foods[i].value[n].mean)) abort();
  buf_init(&out, &arena, 1 << 20);
  diags_print(&d, &out, true);
  arena_free(&arena);
  return 0;
}
