/* A file that is written whole or not at all: beside its place first, then moved there. */
#define _XOPEN_SOURCE 700
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cli/run.h"

static int cannot_write(const char *path, int error) {
  if (error == ENOENT) {
    complain("cannot write '%s': there is no such folder", path);
  } else if (error == EISDIR) {
    complain("cannot write '%s': it is a folder; name a file in it", path);
  } else if (error == ENOSPC) {
    complain("cannot write '%s': the disk is full; nothing was written", path);
  } else {
    complain("cannot write '%s': %s", path, strerror(error));
  }
  return EXIT_TROUBLE;
}

static bool is_same(const struct stat *out, const char *path) {
  struct stat st;
  return path && strcmp(path, "-") != 0 && stat(path, &st) == 0 && st.st_dev == out->st_dev && st.st_ino == out->st_ino;
}

static bool is_one_of(const struct stat *out, const struct text_list *l) {
  for (size_t i = 0; i < l->count; i++)
    if (is_same(out, l->item[i])) return true;
  return false;
}

bool is_an_input(const struct run *s, const char *path) {
  const struct options *o = s->options;
  struct stat out;
  if (stat(path, &out) != 0) return false;
  return is_one_of(&out, &o->operand) || is_one_of(&out, &o->foods) || is_one_of(&out, &o->for_whom) ||
         is_same(&out, o->larder) || is_same(&out, o->allowances) || is_same(&out, o->library);
}

/* A device or a pipe is written to as it is: nothing stands beside it. */
static int write_straight(const char *path, struct span bytes) {
  int fd = open(path, O_WRONLY | O_CLOEXEC), error;
  if (fd < 0) return errno;
  error = write_all(fd, bytes);
  if (close(fd) != 0 && error == 0) error = errno;
  return error;
}

/* What mkstemp leaves to the owner alone gets the rights that a new file has. */
static int give_rights(int fd, bool exists, const struct stat *st) {
  mode_t mask = umask(0);
  umask(mask);
  return fchmod(fd, exists ? st->st_mode & 07777 : 0666 & ~mask) == 0 ? 0 : errno;
}

static int write_beside(const char *path, struct span bytes, bool exists, const struct stat *st, struct arena *arena) {
  struct buf name;
  buf_init(&name, arena, 8192);
  const char *slash = strrchr(path, '/');
  size_t folder = slash ? (size_t)(slash + 1 - path) : 0;
  if (exists && access(path, W_OK) != 0) return errno; /* a file that may not be written is not replaced either */
  buf_addf(&name, "%.*s.bowlwright-XXXXXX", (int)folder, path);
  char *beside = arena_text(arena, buf_span(&name));
  int fd = mkstemp(beside);
  if (fd < 0) return errno;
  int error = write_all(fd, bytes);
  if (error == 0) error = give_rights(fd, exists, st);
  if (error == 0 && fsync(fd) != 0) error = errno;
  if (close(fd) != 0 && error == 0) error = errno;
  if (error == 0 && rename(beside, path) != 0) error = errno;
  if (error != 0) unlink(beside);
  return error;
}

static int write_where_it_belongs(const struct run *s, const char *path, bool onto_input, struct buf *b) {
  struct stat st = {0};
  if (b->cut) {
    complain("the answer is too long to be written");
    return EXIT_TROUBLE;
  }
  bool exists = stat(path, &st) == 0;
  if (exists && S_ISDIR(st.st_mode)) return cannot_write(path, EISDIR);
  if (exists && !onto_input && is_an_input(s, path)) {
    complain("'%s' is one of the texts that this is made from; name another file to write to", path);
    return EXIT_USAGE;
  }
  char *real = exists ? realpath(path, NULL) : NULL; /* what a link points to */
  int error = exists && !S_ISREG(st.st_mode) ? write_straight(path, buf_span(b))
                                             : write_beside(real ? real : path, buf_span(b), exists, &st, s->arena);
  free(real);
  return error == 0 ? EXIT_COMPUTED : cannot_write(path, error);
}

int write_file(const struct run *s, const char *path, struct buf *b) { return write_where_it_belongs(s, path, false, b); }
int rewrite_file(const struct run *s, const char *path, struct buf *b) { return write_where_it_belongs(s, path, true, b); }
