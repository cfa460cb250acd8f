#include "fuzz_http.c"

#include "changed_texts.h"

int main(void) {
  static const char *const TEXTS[] = {
      "tests/fuzz/seeds/http/bundle", "tests/fuzz/seeds/http/headers", "tests/fuzz/seeds/http/path",
      "tests/fuzz/seeds/http/rev",    "tests/fuzz/seeds/http/save",
  };
  read_changed_texts(TEXTS, COUNT_OF(TEXTS), 2000);
  return 0;
}
