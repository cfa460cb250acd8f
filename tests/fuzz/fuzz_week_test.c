#include "fuzz_week.c"

#include "changed_texts.h"

int main(void) {
  static const char *const TEXTS[] = {"tests/fuzz/seeds/week/two-animals", "tests/fuzz/seeds/week/weeks",
                                      "tests/fuzz/seeds/week/unread"};
  read_changed_wholes(TEXTS, COUNT_OF(TEXTS), 40);
  return 0;
}
