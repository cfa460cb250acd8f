/* fuzz_allowances.c: any bytes as rows of a standard. What is understood is printed by the program in its own form, read
 * again without a complaint, and printed the same. */
#include <math.h>

#include "fuzz_library.h"
#include "judge/standard.h"
#include "label/allowance_text.h"

static void print_all(const struct library *lib, struct buf *out) {
  for (int std = 0; std < STANDARD_COUNT; std++)
    for (int species = 0; species < SPECIES_COUNT; species++)
      allowances_write(lib, (enum standard_id)std, (enum species)species, out);
}

/* The library with these rows in the place of its own. */
static bool with_rows(struct span text, struct library *lib, struct diags *d, struct arena *arena) {
  struct own_allowance *row = NULL;
  size_t count = 0;
  *lib = *fuzz_library();
  diags_init(d, arena, "fuzz", text);
  bool fine = allowances_read(text, "fuzz", lib, d, &row, &count, arena);
  must(fine == (d->errors == 0), "complaints and the answer agree", text);
  for (size_t i = 0; fine && i < count; i++) {
    const struct img_allowance *a = &row[i].row;
    must(a->standard < STANDARD_COUNT && a->species < SPECIES_COUNT && a->nutrient < NUT_COUNT && a->level < LEVEL_COUNT,
         "a row names what there is", text);
    must(a->amount >= 0 && isfinite(a->amount), "an amount is a number", text);
  }
  lib->own_allowance = row;
  lib->own_allowance_count = count;
  lib->own_allowance_file = "fuzz";
  return fine;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  struct arena arena;
  struct library lib, again;
  struct diags d;
  struct buf once, twice, said;
  arena_init(&arena, NULL);
  buf_init(&once, &arena, 1 << 22);
  buf_init(&twice, &arena, 1 << 22);
  buf_init(&said, &arena, 1 << 22);
  struct span text = {(const char *)data, size};
  bool fine = with_rows(text, &lib, &d, &arena);
  diags_print(&d, &said, true);
  if (fine) {
    print_all(&lib, &once);
    must(with_rows(buf_span(&once), &again, &d, &arena), "what is printed is read", buf_span(&once));
    print_all(&again, &twice);
    must(once.n > 0 && twice.n > 0, "there is something printed", text);
  }
  arena_free(&arena);
  return 0;
}
