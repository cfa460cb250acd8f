#include "fuzz_reply.c"

#include "changed_texts.h"

int main(void) {
  static const char *const TEXTS[] = {
      "tests/fuzz/seeds/reply/full.txt",
      "tests/fuzz/seeds/reply/lines.txt",
      "tests/fuzz/seeds/reply/others.txt",
  };
  read_changed_texts(TEXTS, COUNT_OF(TEXTS), 20);
  return 0;
}
