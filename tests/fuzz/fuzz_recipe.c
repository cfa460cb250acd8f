/* fuzz_recipe.c: any bytes as a recipe: parsed, looked up, printed, and what was printed read again. */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include "recipe/recipe_text.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* The library of the build if it is there; without it the words are read and nothing is looked up. */
static const struct library *fuzz_library(void) {
  static struct library lib;
  static bool tried, opened;
  if (!tried) {
    tried = true;
#ifdef BW_LIBRARY_PATH
    static _Alignas(16) unsigned char bytes[32u << 20];
    FILE *f = fopen(BW_LIBRARY_PATH, "rb");
    size_t n = f ? fread(bytes, 1, sizeof bytes, f) : 0;
    if (f) fclose(f);
    opened = n > 0 && image_open(&lib.image, bytes, n) == IMAGE_FINE;
#endif
  }
  return opened ? &lib : NULL;
}

static void must(bool holds, const char *what) {
  if (holds) return;
  fprintf(stderr, "does not hold: %s\n", what);
  abort();
}

/* What was understood without a complaint can be printed, and what is printed is understood. */
static void read_again(const struct recipe *recipe, const struct ration *ration, struct arena *arena) {
  struct buf out;
  struct diags d;
  struct recipe again;
  struct ration same;
  buf_init(&out, arena, RECIPE_MOST_BYTES);
  recipe_print(fuzz_library(), recipe, ration, &out);
  if (out.cut || ration->line_count == 0) return;
  diags_init(&d, arena, "printed", buf_span(&out));
  bool fine = recipe_parse(buf_span(&out), &d, &again, arena);
  fine = recipe_resolve(fuzz_library(), &again, &d, &same, arena) && fine;
  if (!fine) {
    struct buf b;
    buf_init(&b, arena, 1 << 16);
    diags_print(&d, &b, true);
    fprintf(stderr, "%s\n%s\n", buf_text(&out), buf_text(&b));
  }
  must(fine, "a printed recipe is understood");
  must(same.line_count == ration->line_count, "a printed recipe has as many lines");
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  struct arena arena;
  struct diags d;
  struct recipe recipe;
  struct ration ration;
  struct buf out;
  /* libFuzzer hands over a block of exactly this size, so that one byte too far is seen. */
  struct span text = {(const char *)data, size};
  arena_init(&arena, NULL);
  diags_init(&d, &arena, "fuzz", text);
  bool fine = recipe_parse(text, &d, &recipe, &arena);
  must(fine == (d.errors == 0), "parse says whether there were errors");
  if (fuzz_library()) {
    bool found = recipe_resolve(fuzz_library(), &recipe, &d, &ration, &arena);
    must((fine && found) == (d.errors == 0), "resolve says whether there were errors");
    if (fine && found) read_again(&recipe, &ration, &arena);
  }
  buf_init(&out, &arena, 1 << 20);
  diags_print(&d, &out, true);
  arena_free(&arena);
  return 0;
}
