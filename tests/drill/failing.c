/* The program with a machine beneath it that fails where it is told to. The linker sends the program's own calls here
 * (--wrap); what libraries call for themselves is not touched, so that the sanitizers work as ever.
 *
 *   BW_FAIL="memory 12"    the twelfth piece of memory is not given
 *   BW_FAIL="memory 12+"   nor any after it
 *   BW_FAIL="system 3"     the third call of the system fails, with an error that it can have
 *   BW_FAIL="slow"         reading and writing are interrupted again and again and give or take one byte at a time at first
 *   BW_FAIL="bare"         there is no /proc, as in a folder that is only made a root
 *   BW_FAIL_SECONDS=-N     the clock is N seconds behind
 *   BW_FAIL_COUNT=FILE     how many of each there were, at the end: "memory 40 system 9" */
#define _DEFAULT_SOURCE
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

enum kind { MEMORY, SYSTEM, KIND_COUNT };
static long seen[KIND_COUNT], fails_at[KIND_COUNT];
static bool from_then_on[KIND_COUNT], slow, bare, ready;

static void count_at_end(void) {
  const char *path = getenv("BW_FAIL_COUNT");
  FILE *f = path ? fopen(path, "w") : NULL;
  if (!f) return;
  fprintf(f, "memory %ld system %ld\n", seen[MEMORY], seen[SYSTEM]);
  fclose(f);
}

static void get_ready(void) {
  static const char *const WORD[KIND_COUNT] = {"memory ", "system "};
  const char *told = getenv("BW_FAIL");
  ready = true;
  for (int k = 0; told && k < KIND_COUNT; k++) {
    if (strncmp(told, WORD[k], strlen(WORD[k])) != 0) continue;
    fails_at[k] = strtol(told + strlen(WORD[k]), NULL, 10);
    from_then_on[k] = strchr(told, '+') != NULL;
  }
  slow = told && strcmp(told, "slow") == 0;
  bare = told && strcmp(told, "bare") == 0;
  atexit(count_at_end);
}

static bool fails(enum kind k) {
  if (!ready) get_ready();
  seen[k]++;
  return fails_at[k] > 0 && (from_then_on[k] ? seen[k] >= fails_at[k] : seen[k] == fails_at[k]);
}

static bool fails_with(int error) {
  if (!fails(SYSTEM)) return false;
  errno = error;
  return true;
}

#define WRAP(type, name, ...)                                                                                               \
  type __real_##name(__VA_ARGS__);                                                                                          \
  type __wrap_##name(__VA_ARGS__);                                                                                          \
  type __wrap_##name(__VA_ARGS__)

WRAP(void *, malloc, size_t n) { return fails(MEMORY) ? NULL : __real_malloc(n); }
WRAP(void *, calloc, size_t n, size_t size) { return fails(MEMORY) ? NULL : __real_calloc(n, size); }
WRAP(void *, realloc, void *p, size_t n) { return fails(MEMORY) ? NULL : __real_realloc(p, n); }

/* Every other call is interrupted; the first hundred take one byte. */
static bool interrupted(size_t *n) {
  static long calls;
  if (!slow) return false;
  if (++calls % 2 == 1) {
    errno = EINTR;
    return true;
  }
  if (calls < 200 && *n > 1) *n = 1;
  return false;
}
WRAP(ssize_t, read, int fd, void *p, size_t n) { return fails_with(EIO) || interrupted(&n) ? -1 : __real_read(fd, p, n); }
/* Complaints go through, or nobody could see whether there are any. */
WRAP(ssize_t, write, int fd, const void *p, size_t n) {
  bool answers = fd != STDERR_FILENO;
  return (answers && fails_with(ENOSPC)) || interrupted(&n) ? -1 : __real_write(fd, p, n);
}
int __real_open(const char *path, int flags, ...);
int __wrap_open(const char *path, int flags, ...);
int __wrap_open(const char *path, int flags, ...) {
  va_list rest;
  va_start(rest, flags);
  mode_t mode = flags & O_CREAT ? va_arg(rest, mode_t) : 0;
  va_end(rest);
  return fails_with(EMFILE) ? -1 : __real_open(path, flags, mode);
}
WRAP(int, stat, const char *path, struct stat *out) { return fails_with(EACCES) ? -1 : __real_stat(path, out); }
WRAP(int, fstat, int fd, struct stat *out) { return fails_with(EIO) ? -1 : __real_fstat(fd, out); }
WRAP(void *, mmap, void *at, size_t n, int prot, int flags, int fd, off_t from) {
  return fails_with(ENOMEM) ? MAP_FAILED : __real_mmap(at, n, prot, flags, fd, from);
}
WRAP(DIR *, opendir, const char *path) { return fails_with(ENOMEM) ? NULL : __real_opendir(path); }
WRAP(struct dirent *, readdir, DIR *d) { return fails_with(EIO) ? NULL : __real_readdir(d); }
WRAP(ssize_t, readlink, const char *path, char *out, size_t n) {
  if (fails_with(EACCES)) return -1;
  if (!bare || strncmp(path, "/proc/", 6) != 0) return __real_readlink(path, out, n);
  errno = ENOENT;
  return -1;
}

static long behind(void) {
  const char *told = getenv("BW_FAIL_SECONDS");
  return told ? strtol(told, NULL, 10) : 0;
}
WRAP(time_t, time, time_t *out) {
  if (fails_with(EOVERFLOW)) return (time_t)-1;
  time_t t = __real_time(NULL) + behind();
  if (out) *out = t;
  return t;
}
WRAP(struct tm *, localtime_r, const time_t *t, struct tm *out) {
  return fails_with(EOVERFLOW) ? NULL : __real_localtime_r(t, out);
}
