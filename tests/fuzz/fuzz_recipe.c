/* fuzz_recipe.c: any bytes as a recipe: parsed, looked up, printed, and what was printed read again. */
#include "recipe/recipe_text.h"
#include "tests/fuzz/fuzz_library.h"

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
  must(fine, "a printed recipe is understood", buf_span(&out));
  must(same.line_count == ration->line_count, "a printed recipe has as many lines", buf_span(&out));
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
  must(fine == (d.errors == 0), "parse says whether there were errors", text);
  bool found = recipe_resolve(fuzz_library(), &recipe, &d, &ration, &arena);
  must((fine && found) == (d.errors == 0), "resolve says whether there were errors", text);
  if (fine && found) read_again(&recipe, &ration, &arena);
  buf_init(&out, &arena, 1 << 20);
  diags_print(&d, &out, true);
  arena_free(&arena);
  return 0;
}
