#include "fuzz_recipe.c"

#include "changed_texts.h"

int main(void) {
  static const char *const TEXTS[] = {"tests/cases/recipe_lookup.case",    "tests/cases/words_amounts.case",
                                      "tests/cases/words_frequency.case",  "tests/cases/words_headers.case",
                                      "tests/cases/words_qualifiers.case", "examples/weeknight-bowl.recipe",
                                      "examples/rice-pot.recipe",          "examples/garden-stew.recipe"};
  read_changed_texts(TEXTS, COUNT_OF(TEXTS), 200);
  return 0;
}
