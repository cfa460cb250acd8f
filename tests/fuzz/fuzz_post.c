/* fuzz_post.c: any bytes as a posted text: always answered, and its strict text is read without a complaint. */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include "post/post.h"
#include "recipe/recipe_text.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* The library of the build: without it no food can be found. */
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

static void must(bool holds, const char *what, struct span text) {
  if (holds) return;
  fprintf(stderr, "does not hold: %s\n%.*s\n", what, SPAN_ARG(text));
  abort();
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  if (!fuzz_library()) return 0;
  struct arena arena;
  struct post post;
  struct span text = {(const char *)data, size};
  arena_init(&arena, NULL);
  post_read(fuzz_library(), text, &post, &arena);
  must(post.recipe[0] || post.sorry[0], "there is a strict text or a word of regret", text);
  for (size_t i = 0; i < post.question_count; i++) {
    must(post.question[i].ask[0] != '\0', "a question asks something", text);
    for (size_t k = 0; k < i; k++) must(strcmp(post.question[i].ask, post.question[k].ask) != 0, "each question once", text);
  }
  if (post.recipe[0]) {
    struct diags d;
    struct recipe recipe;
    struct ration ration;
    struct span strict = span_of(post.recipe);
    diags_init(&d, &arena, "strict", strict);
    bool fine = recipe_parse(strict, &d, &recipe, &arena);
    fine = recipe_resolve(fuzz_library(), &recipe, &d, &ration, &arena) && fine;
    must(fine, "the strict text is read", strict);
    must(ration.line_count > 0, "the strict text holds a food", strict);
  }
  arena_free(&arena);
  return 0;
}
