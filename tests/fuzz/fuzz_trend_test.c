#include "fuzz_trend.c"

#include "changed_texts.h"

int main(void) {
  static const char *const TEXTS[] = {"examples/autumn.journal", "tests/fuzz/seeds/trend/dense.journal"};
  read_changed_texts(TEXTS, COUNT_OF(TEXTS), 1500);
  return 0;
}
