#include "fuzz_sheet.c"

#include "changed_texts.h"

int main(void) {
  static const char *const TEXTS[] = {"tests/fuzz/seeds/sheet/marks.txt", "tests/fuzz/seeds/sheet/post.txt"};
  read_changed_texts(TEXTS, COUNT_OF(TEXTS), 150);
  read_changed_wholes(TEXTS, COUNT_OF(TEXTS), 150);
  return answered > 20 ? 0 : 1; /* most still say something */
}
