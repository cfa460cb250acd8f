#include "fuzz_journal.c"

#include "changed_texts.h"

int main(void) {
  static const char *const TEXTS[] = {"tests/cases/journal_texts.case", "examples/saltmarsh.journal"};
  read_changed_texts(TEXTS, COUNT_OF(TEXTS), 4000);
  return 0;
}
