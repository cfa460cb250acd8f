/* The tables of src/json against what is committed for their readers: the page's types, the manual's list, and the keys that
 * are promised to stay. After a change of a table the three are written anew with BW_GOLDEN_WRITE=1; a key that goes or
 * changes its meaning needs a line in CHANGELOG.md. That answers have these keys and no others is checked from outside, in
 * tests/cli/answers.py. */
#include <dirent.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "json/json_print.h"

enum { MOST_BYTES = 1 << 20 };

static const char MARK[] = "<!-- printed from the tables of src/json -->\n";

static char *read_file(const char *path, size_t *n) {
  FILE *f = fopen(path, "rb");
  if (!f) return NULL;
  char *text = calloc(1, MOST_BYTES);
  *n = fread(text, 1, MOST_BYTES - 1, f);
  fclose(f);
  return text;
}

/* 'from': where in the file the printed part begins. */
static void compare(const char *path, size_t from, const char *old, const struct buf *printed) {
  if (getenv("BW_GOLDEN_WRITE")) {
    FILE *f = fopen(path, "wb");
    assert_non_null(f);
    if (old) fwrite(old, 1, from, f);
    fwrite(printed->p, 1, printed->n, f);
    fclose(f);
    return;
  }
  if (!old || strlen(old + from) != printed->n || memcmp(old + from, printed->p, printed->n) != 0)
    fail_msg("%s is not what the tables of src/json print: BW_GOLDEN_WRITE=1 ctest -R json_keys writes it", path);
}

static void printed_is(const char *path, const char *mark, const struct buf *printed) {
  size_t n = 0, from = 0;
  char *old = read_file(path, &n);
  if (mark) {
    assert_non_null(old);
    const char *at = strstr(old, mark);
    assert_non_null(at);
    from = (size_t)(at - old) + strlen(mark);
  }
  compare(path, from, old, printed);
  free(old);
}

static void file_is(const char *path, const char *mark, void (*print)(struct buf *out)) {
  struct arena a;
  struct buf printed;
  arena_init(&a, NULL);
  buf_init(&printed, &a, MOST_BYTES);
  print(&printed);
  printed_is(path, mark, &printed);
  arena_free(&a);
}

#define TYPES BW_SOURCE_DIR "/page/src/core/answers"

/* No file stays behind when its tables have gone. */
static void no_other_file(const char *const *name, size_t count) {
  DIR *folder = opendir(TYPES);
  assert_non_null(folder);
  for (struct dirent *e; (e = readdir(folder));) {
    size_t n = strlen(e->d_name);
    bool known = e->d_name[0] == '.';
    for (size_t i = 0; i < count; i++)
      known = known ||
              (n == strlen(name[i]) + 3 && memcmp(e->d_name, name[i], n - 3) == 0 && strcmp(e->d_name + n - 3, ".ts") == 0);
    if (!known) fail_msg("%s/%s is printed from no table", TYPES, e->d_name);
  }
  closedir(folder);
}

static void page_types_are_the_tables(void **state) {
  (void)state;
  struct arena a;
  arena_init(&a, NULL);
  const char *name[JSON_TYPE_FILES_MOST];
  size_t count = json_type_files(name, &a);
  for (size_t i = 0; i < count; i++) {
    char path[4096];
    struct buf printed;
    buf_init(&printed, &a, MOST_BYTES);
    json_print_types(name[i], &printed);
    snprintf(path, sizeof path, "%s/%s.ts", TYPES, name[i]);
    printed_is(path, NULL, &printed);
  }
  no_other_file(name, count);
  arena_free(&a);
}

static void manual_lists_every_key(void **state) {
  (void)state;
  file_is(BW_SOURCE_DIR "/docs/manual/json.md", MARK, json_print_manual);
}

static void promised_keys_stay(void **state) {
  (void)state;
  file_is(BW_SOURCE_DIR "/tests/golden/json-keys.json", NULL, json_print_keys);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(page_types_are_the_tables),
      cmocka_unit_test(manual_lists_every_key),
      cmocka_unit_test(promised_keys_stay),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
