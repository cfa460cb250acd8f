/* post_passing_test.c: what is told in passing, and how people write a line in one breath. The expectations are a careful
 * reader's. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

#include "post/post.h"
#include "tests/support/built_image.h"
#include "tests/support/fresh_arena.h"

struct row {
  const char *post, *line, *other, *never; /* two pieces of the strict text, and one that it must not hold; NULL */
};

static void become(const struct row *row, size_t rows) {
  int wrong = 0;
  for (size_t i = 0; i < rows; i++) {
    struct post post;
    post_read(built_library(), span_of(row[i].post), NULL, &post, &arena);
    if (strstr(post.recipe, row[i].line) && strstr(post.recipe, row[i].other) &&
        !(row[i].never && strstr(post.recipe, row[i].never)))
      continue;
    print_error("'%s' became\n%s", row[i].post, post.recipe);
    wrong++;
  }
  assert_int_equal(wrong, 0);
}

/* What is taken back in the same breath is not fed, and changes no other line. */
static void a_slip_is_taken_back(void **state) {
  static const struct row ROW[] = {
      {"12 kg dog. 200g chicken livers, 7 tsp eggshell powder, 1 bottle... i mean 7 pumps of salmon oil",
       "\n200 g chicken livers\n7 tsp eggshell powder\n7 pumps salmon oil", "# not counted: 1 bottle... i mean (taken back",
       NULL},
      {"12 kg dog. 200g beef, sorry 250 g beef, 2 tsp of salmon oil", "\n250 g beef\n", "2 tsp salmon oil", "\n200 g"},
      {"12 kg dog. 300 g beef heart and 1 tin - make that 2 tins of sardines a week", "\n300 g beef heart\n",
       "2 cans sardines a week", "1 can"},
      {"12 kg dog. 1 tsp, no wait, 2 tsp of salmon oil, 300 g beef", "\n2 tsp salmon oil\n", "\n300 g beef", NULL},
      {"12 kg dog. Beef 200 g. I mean 300 g turkey", "\n200 g Beef\n", "? I mean 300 g turkey", NULL},
      {"12 kg dog. 300 g beef heart, sorry for the long post. 200 g rice", "\n300 g beef heart", "\n200 g rice", NULL},
      {"12 kg dog. 300 g beef heart. 7 pumps of salmon oil I mean", "\n300 g beef heart", "", "\n7 g"},
  };
  (void)state;
  become(ROW, sizeof ROW / sizeof *ROW);
}

int main(void) {
  const struct CMUnitTest tests[] = {T(a_slip_is_taken_back)};
  return cmocka_run_group_tests_name("post_passing", tests, NULL, NULL);
}
