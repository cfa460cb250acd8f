#include "fuzz_reply.c"

#include "changed_texts.h"

int main(void) {
  static const char *const TEXTS[] = {
      "tests/fuzz/seeds/reply/full.txt",
      "tests/fuzz/seeds/reply/lines.txt",
      "tests/fuzz/seeds/reply/others.txt",
  };
  read_changed_texts(TEXTS, COUNT_OF(TEXTS), 20);
  read_changed_wholes(TEXTS, COUNT_OF(TEXTS), 40);
  return answered > 20 ? 0 : 1; /* most still say something */
}
