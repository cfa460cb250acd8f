#include "fuzz_animal.c"

#include "changed_texts.h"

int main(void) {
  static const char *const TEXTS[] = {"tests/cases/animal_texts.case", "examples/saltmarsh.animals"};
  read_changed_texts(TEXTS, COUNT_OF(TEXTS), 2000);
  return 0;
}
