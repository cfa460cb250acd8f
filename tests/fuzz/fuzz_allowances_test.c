#include "fuzz_allowances.c"

#include "changed_texts.h"

int main(void) {
  static const char *const TEXTS[] = {
      "tests/fuzz/seeds/allowances/rows.txt",
  };
  read_changed_texts(TEXTS, COUNT_OF(TEXTS), 400);
  return 0;
}
