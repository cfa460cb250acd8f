/* The folders of a run over many texts: what is read, and where answers go. */
#define _XOPEN_SOURCE 700
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cli/many.h"

enum { PATH_MOST = 4096 };

bool is_folder(const char *path) {
  struct stat st;
  return stat(path, &st) == 0 && S_ISDIR(st.st_mode);
}

const char *in_folder(const char *folder, const char *name, struct arena *arena) {
  struct buf b;
  size_t n = strlen(folder);
  buf_init(&b, arena, n + strlen(name) + 2);
  buf_addf(&b, "%s%s%s", folder, n > 0 && folder[n - 1] == '/' ? "" : "/", name);
  return buf_text(&b);
}

/* Posts and recipes: named as texts, or without an ending. */
static bool is_text_name(const char *name) {
  static const char *const ENDS[] = {".recipe", ".txt", ".text", ".post", ".md"};
  size_t n = strlen(name);
  if (name[0] == '.') return false;
  if (!strchr(name, '.')) return true;
  for (size_t i = 0; i < COUNT_OF(ENDS); i++) {
    size_t k = strlen(ENDS[i]);
    if (n > k && span_is_fold((struct span){name + n - k, k}, ENDS[i])) return true;
  }
  return false;
}

static int by_bytes(const void *a, const void *b) { return strcmp(*(const char *const *)a, *(const char *const *)b); }

int folder_read(const char *path, struct folder *out, struct arena *arena) {
  const char **name = NULL;
  size_t cap = 0;
  *out = (struct folder){.path = path};
  DIR *d = opendir(path);
  if (!d) {
    complain("cannot read the folder '%s': %s", path, strerror(errno));
    return EXIT_TROUBLE;
  }
  for (struct dirent *e; (errno = 0, e = readdir(d));) {
    if (e->d_name[0] == '.') continue;
    struct stat st;
    const char *at = in_folder(path, e->d_name, arena);
    if (!is_text_name(e->d_name) || (stat(at, &st) == 0 && !S_ISREG(st.st_mode))) {
      out->other++;
      continue;
    }
    ARENA_PUSH(arena, name, out->count, cap, arena_text(arena, span_of(e->d_name)));
  }
  int error = errno;
  closedir(d);
  if (error != 0) {
    complain("cannot read the folder '%s': %s", path, strerror(error));
    return EXIT_TROUBLE;
  }
  if (out->count > 1) qsort(name, out->count, sizeof *name, by_bytes);
  out->name = name;
  return EXIT_COMPUTED;
}

static bool is_same_folder(const char *a, const char *b) {
  struct stat x, y;
  return stat(a, &x) == 0 && stat(b, &y) == 0 && x.st_dev == y.st_dev && x.st_ino == y.st_ino;
}

int folder_for_answers(const char *path, const char *input, struct arena *arena) {
  if (mkdir(path, 0777) != 0 && errno != EEXIST) {
    complain("cannot make the folder '%s': %s", path, strerror(errno));
    return EXIT_TROUBLE;
  }
  if (!is_folder(path)) {
    complain("--out: '%s' is a file; name a folder for the answers", path);
    return EXIT_USAGE;
  }
  if (is_same_folder(path, input)) {
    complain("--out: the answers would lie among the texts that are read; name another folder");
    return EXIT_USAGE;
  }
  char *trial = arena_text(arena, span_of(in_folder(path, ".bowlwright-XXXXXX", arena)));
  int fd = mkstemp(trial);
  if (fd < 0) {
    complain("cannot write into the folder '%s': %s", path, strerror(errno));
    return EXIT_TROUBLE;
  }
  close(fd);
  unlink(trial);
  return EXIT_COMPUTED;
}

int folder_write(const char *folder, const char *name, struct buf *out, struct arena *arena) {
  const char *path = in_folder(folder, name, arena);
  struct buf b;
  buf_init(&b, arena, PATH_MOST + 64);
  buf_addf(&b, "%s.part", path);
  const char *beside = buf_text(&b);
  int fd = open(beside, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
  int error = fd < 0 ? errno : write_all(fd, buf_span(out));
  if (fd >= 0 && close(fd) != 0 && error == 0) error = errno;
  if (error == 0 && rename(beside, path) != 0) error = errno;
  if (error == 0) return EXIT_COMPUTED;
  if (fd >= 0) unlink(beside);
  complain("cannot write '%s': %s", path, error == ENOSPC ? "the disk is full" : strerror(error));
  return EXIT_TROUBLE;
}
