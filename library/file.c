#include "library/writer.h"

#include <errno.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

void build_fail(const char *fmt, ...) {
  va_list args;
  va_start(args, fmt);
  vfprintf(stderr, fmt, args);
  va_end(args);
  fputc('\n', stderr);
  exit(1);
}

struct span file_read(const char *path, struct arena *arena) {
  FILE *f = fopen(path, "rb");
  if (!f) build_fail("%s: cannot open: %s", path, strerror(errno));
  if (fseek(f, 0, SEEK_END) != 0) build_fail("%s: cannot read: %s", path, strerror(errno));
  long size = ftell(f);
  if (size < 0 || fseek(f, 0, SEEK_SET) != 0) build_fail("%s: cannot read: %s", path, strerror(errno));
  char *text = arena_alloc(arena, (size_t)size + 1, 1);
  if (fread(text, 1, (size_t)size, f) != (size_t)size) build_fail("%s: cannot read: %s", path, strerror(errno));
  fclose(f);
  return (struct span){text, (size_t)size};
}

const char *path_join(struct arena *arena, const char *dir, const char *name) {
  struct buf b;
  buf_init(&b, arena, 4096);
  buf_addf(&b, "%s/%s", dir, name);
  return buf_text(&b);
}
