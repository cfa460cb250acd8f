/* fuzz_animal.c: any bytes as a text of animals. */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include "animal/animal_text.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  struct arena arena;
  struct diags d;
  struct animal *animals;
  size_t count;
  struct buf out;
  struct span text = {(const char *)data, size};
  arena_init(&arena, NULL);
  diags_init(&d, &arena, "fuzz", text);
  bool fine = animal_read(text, (struct date){2026, 11, 2}, &d, &animals, &count, &arena);
  if (fine != (d.errors == 0)) abort();
  for (size_t i = 0; fine && i < count; i++) {
    if (!(animals[i].weight_kg > 0) || !(animals[i].age_years >= 0)) abort();
    animal_refusal(&animals[i]);
  }
  buf_init(&out, &arena, 1 << 20);
  diags_print(&d, &out, true);
  arena_free(&arena);
  return 0;
}
