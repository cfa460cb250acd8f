#include "fuzz_label.c"

#include "changed_texts.h"

int main(void) {
  static const char *const TEXTS[] = {"tests/cases/label_texts.case"};
  read_changed_texts(TEXTS, COUNT_OF(TEXTS), 2000);
  return 0;
}
