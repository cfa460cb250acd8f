/* fuzz_post.c: any bytes as a posted text: always answered, and its strict text is read without a complaint. */
#include "post/post.h"
#include "recipe/recipe_text.h"
#include "tests/fuzz/fuzz_library.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  struct arena arena;
  struct post post;
  struct span text = {(const char *)data, size};
  arena_init(&arena, NULL);
  post_read(fuzz_library(), text, NULL, &post, &arena);
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
