#include "fuzz_post.c"

#include "changed_texts.h"

int main(void) {
  static const char *const TEXTS[] = {
      "tests/post/01_meals.posts",  "tests/post/02_percent.posts",  "tests/post/03_weekly.posts",
      "tests/post/05_batch.posts",  "tests/post/08_rotation.posts", "tests/post/10_prose.posts",
      "tests/post/11_spoons.posts", "tests/post/12_shapes.posts",   "tests/post/13_mixed.posts"};
  read_changed_texts(TEXTS, COUNT_OF(TEXTS), 60);
  return 0;
}
