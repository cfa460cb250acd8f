#include "fuzz_larder.c"

#include "changed_texts.h"

int main(void) {
  static const char *const TEXTS[] = {"tests/cases/larder_texts.case", "examples/chest-freezer.larder",
                                      "examples/household.larder"};
  read_changed_texts(TEXTS, COUNT_OF(TEXTS), 2000);
  return 0;
}
