/* refused_test.c: which foods are meant by what is never to be fed. The rows say what an owner means by the word. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

#include "foods/refused.h"
#include "tests/support/built_image.h"
#include "tests/support/fresh_arena.h"

static void means_these(void **state) {
  static const struct {
    const char *refused, *code, *called;
    bool meant;
  } ROW[] = {
      {"chicken", "usda:05027", "chicken liver", true},
      {"chicken", "usda:05062", "skinless chicken breast", true},
      {"chicken", "usda:13325", "beef liver", false},
      {"Beef", "usda:13323", "beef kidney", true},
      {"beef", "ours:bone-meal", "bone meal", true}, /* steamed bone of cattle */
      {"beef", "usda:12012", "hulled hemp seed", false},
      {"poultry", "usda:05064", "roasted skinless chicken breast", true},
      {"poultry", "usda:17199", "lamb liver", false},
      {"fish", "usda:15088", "canned sardines", true},
      {"fish", "usda:04593", "salmon oil", true},
      {"fish", "usda:04589", "cod liver oil", true},
      {"fish", "usda:15165", "cooked mussels", false},
      {"seafood", "usda:15165", "cooked mussels", true},
      {"raw fish", "usda:15015", "raw Atlantic cod", true},
      {"raw fish", "usda:15016", "baked cod", false},
      {"liver", "usda:17199", "lamb liver", true},
      {"liver", "usda:13323", "beef kidney", false},
      {"offal", "usda:13323", "beef kidney", true},
      {"eggs", "usda:01129", "boiled egg", true},
      {"egg", "ours:eggshell", "ground eggshell", true},
      {"egg", "usda:11209", "eggplant", false},
      {"dairy", "usda:01116", "yogurt", true},
      {"grains", "usda:20078", "wheat germ", true},
      {"gluten", "usda:20078", "wheat germ", true},
      {"carbs", "usda:11367", "boiled potato", true},
      {"meat", "usda:04002", "lard", true},
      {"meat", "usda:12012", "hulled hemp seed", false},
      {"supplements", "ours:zinc-gluconate", "zinc", true},
      {"supplements", "ours:eggshell", "ground eggshell", false}, /* of the kitchen */
      {"supplements", "ours:salt-iodised", "iodised salt", false},
      {"whole bones", "cut:chicken-neck", "chicken necks", true},
      {"whole bones", "ours:bone-meal", "bone meal", false},
      {"whole bones", "usda:13325", "beef liver", false},
      {"vitamin D", "ours:vitamin-d3", "vitamin D3", true},
      {"vitamin D", "ours:vitamin-e-natural", "natural vitamin E 100 IU", false},
      {"oysters", "usda:15170", "canned oysters", true},
      {"ham", "usda:20078", "graham flour", false}, /* words are whole */
      {"usda:13325", "usda:13325", "beef liver", true},
      {"", "usda:13325", "beef liver", false},
  };
  (void)state;
  const struct library *lib = built_library();
  for (size_t i = 0; i < sizeof ROW / sizeof *ROW; i++) {
    uint32_t food = library_by_code(lib, span_of(ROW[i].code));
    if (food_is_refused(lib, food, ROW[i].called, span_of(ROW[i].refused), &arena) == ROW[i].meant) continue;
    print_error("'%s' and %s (%s)", ROW[i].refused, ROW[i].code, ROW[i].called);
    fail();
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {T(means_these)};
  return cmocka_run_group_tests_name("refused", tests, NULL, NULL);
}
