/* What comes into the program: texts, the library image, the folder beside a recipe. */
#define _DEFAULT_SOURCE
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdlib.h>
#ifdef __linux__
#include <sys/auxv.h>
#endif
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cli/system.h"

enum { PATH_MOST = 4096 };
#define LIBRARY_NAME "bowlwright.library"
static const char LIBRARY_VARIABLE[] = "BOWLWRIGHT_LIBRARY";

static const char *shown(const char *path) { return strcmp(path, "-") == 0 ? "standard input" : path; }

bool file_exists(const char *path) {
  struct stat st;
  return stat(path, &st) == 0;
}

bool is_a_store(const char *path) {
  static const char BEGINS[16] = "SQLite format 3"; /* with its NUL: https://www.sqlite.org/fileformat.html */
  char head[sizeof BEGINS];
  int fd = strcmp(path, "-") == 0 ? -1 : open(path, O_RDONLY | O_CLOEXEC);
  if (fd < 0) return false;
  ssize_t n = read(fd, head, sizeof head);
  close(fd);
  return n == (ssize_t)sizeof head && memcmp(head, BEGINS, sizeof head) == 0;
}

/* ---- texts ---- */

/* 0 or an errno. One byte more than the ceiling is read, to tell "just fits" from "too long". */
static int read_whole(int fd, size_t most, struct span *out, struct arena *arena) {
  size_t cap = 16 * 1024, n = 0;
  char *p = arena_alloc(arena, cap, 1);
  while (n <= most) {
    if (n == cap) p = arena_grow(arena, p, n, &cap, 1);
    ssize_t got = read(fd, p + n, cap - n);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return errno;
    if (got == 0) break;
    n += (size_t)got;
  }
  *out = (struct span){p, n};
  return 0;
}

static int read_error(const char *path, int error) {
  if (error == ENOENT) {
    complain("there is no file '%s'", path);
  } else if (error == EISDIR) {
    complain("'%s' is a folder; name a file in it", path);
  } else {
    complain("cannot read %s: %s", shown(path), strerror(error));
  }
  return EXIT_TROUBLE;
}

static size_t line_of(struct span text, const char *at) {
  size_t line = 1;
  for (const char *p = text.p; p < at; p++) line += *p == '\n';
  return line;
}

static int must_be_text(const char *path, size_t most, struct span *text) {
  if (text->n > most) {
    complain("%s is longer than %zu MiB; that is not a %s", shown(path), most >> 20,
             most > TEXT_MOST_BYTES ? "journal" : "recipe, animal or label text");
    return EXIT_NOT_UNDERSTOOD;
  }
  if (text->n >= 2 && (memcmp(text->p, "\xFF\xFE", 2) == 0 || memcmp(text->p, "\xFE\xFF", 2) == 0)) {
    complain("%s is written in UTF-16; save it as UTF-8", shown(path));
    return EXIT_NOT_UNDERSTOOD;
  }
  const char *nul = text->n > 0 ? memchr(text->p, '\0', text->n) : NULL;
  if (nul) {
    complain("%s holds a NUL byte on line %zu; it is not a text file", shown(path), line_of(*text, nul));
    return EXIT_NOT_UNDERSTOOD;
  }
  if (text->n >= 3 && memcmp(text->p, "\xEF\xBB\xBF", 3) == 0) *text = span_cut(*text, 3, text->n);
  return EXIT_COMPUTED;
}

static int read_up_to(const char *path, size_t most, struct app_input *out, struct arena *arena) {
  bool standard_input = strcmp(path, "-") == 0;
  struct span text = {NULL, 0};
  int fd = standard_input ? STDIN_FILENO : open(path, O_RDONLY | O_CLOEXEC);
  if (fd < 0) return read_error(path, errno);
  int error = read_whole(fd, most, &text, arena);
  if (!standard_input) close(fd);
  if (error != 0) return read_error(path, error);
  int code = must_be_text(path, most, &text);
  *out = (struct app_input){path, text};
  return code;
}

int read_text(const char *path, struct app_input *out, struct arena *arena) {
  return read_up_to(path, TEXT_MOST_BYTES, out, arena);
}

int read_long_text(const char *path, struct app_input *out, struct arena *arena) {
  return read_up_to(path, LONG_TEXT_MOST_BYTES, out, arena);
}

/* ---- animals beside a recipe ---- */

static int by_text(const void *a, const void *b) { return strcmp(*(const char *const *)a, *(const char *const *)b); }

/* The files of a folder that end so, sorted by name. */
/* 0 or an errno. */
static int find_files(const char *folder, const char *end, struct text_list *out, struct arena *arena) {
  DIR *d = opendir(folder);
  size_t wide = strlen(end);
  if (!d) return errno;
  struct dirent *e;
  while (errno = 0, (e = readdir(d))) {
    size_t n = strlen(e->d_name);
    if (n <= wide || strcmp(e->d_name + n - wide, end) != 0) continue;
    struct buf path;
    buf_init(&path, arena, PATH_MOST);
    if (strcmp(folder, ".") != 0) buf_addf(&path, "%s/", folder);
    buf_adds(&path, e->d_name);
    ARENA_PUSH(arena, out->item, out->count, out->cap, buf_text(&path));
  }
  int error = errno;
  closedir(d);
  if (out->count > 1) qsort(out->item, out->count, sizeof *out->item, by_text);
  return error;
}

void find_animal_files(const char *folder, struct text_list *out, struct arena *arena) {
  (void)find_files(folder, ".animals", out, arena); /* who is missed is asked for by name */
}

/* ---- recipes beside a plan ---- */

static bool is_there(const struct app_input *recipe, size_t count, const char *path) {
  struct stat a, b;
  for (size_t i = 0; i < count; i++)
    if (stat(recipe[i].name, &a) == 0 && stat(path, &b) == 0 && a.st_dev == b.st_dev && a.st_ino == b.st_ino) return true;
  return false;
}

int read_recipes_beside(const char *file, struct app_input *recipe, size_t *count, size_t most, struct arena *arena) {
  struct text_list found = {0};
  const char *slash = strrchr(file, '/');
  const char *folder = !slash ? "." : slash == file ? "/" : arena_text(arena, (struct span){file, (size_t)(slash - file)});
  int error = find_files(folder, ".recipe", &found, arena);
  if (error != 0 && error != ENOENT) return read_error(folder, error);
  for (size_t i = 0; i < found.count && *count < most; i++) {
    if (is_there(recipe, *count, found.item[i])) continue;
    int code = read_text(found.item[i], &recipe[*count], arena);
    if (code == EXIT_TROUBLE && access(found.item[i], R_OK) == 0) return code;
    if (code == EXIT_COMPUTED)
      ++*count;
    else
      complain("%s only lies beside %s, which is read without it", shown(found.item[i]), shown(file));
  }
  return EXIT_COMPUTED;
}

/* ---- the library image ---- */

/* Bytes of the path of the running program, 0: not known. Where /proc is not there (a bare chroot), the path that the kernel
 * was given tells it. */
static ssize_t path_of_program(char out[PATH_MOST]) {
  ssize_t n = readlink("/proc/self/exe", out, PATH_MOST);
  if (n > 0) return n < PATH_MOST ? n : 0;
#ifdef __linux__
  const char *given = (const char *)getauxval(AT_EXECFN); // NOLINT(performance-no-int-to-ptr): that is how it is handed over
  char real[PATH_MAX];
  if (given && realpath(given, real) && strlen(real) < PATH_MOST) return (ssize_t)strlen(strcpy(out, real));
#endif
  return 0;
}

const char *find_near_program(const char *const places[], struct arena *arena) {
  char exe[PATH_MOST];
  ssize_t n = path_of_program(exe);
  while (n > 0 && exe[n - 1] != '/') n--;
  for (size_t i = 0; places[i]; i++) {
    struct buf path;
    buf_init(&path, arena, 2 * PATH_MOST);
    buf_add(&path, (struct span){exe, (size_t)n});
    buf_adds(&path, places[i]);
    if (file_exists(buf_text(&path))) return buf_text(&path);
  }
  return NULL;
}

static const char *usual_place(struct arena *arena) {
  /* The last: for the parts of the program in libexec/bowlwright. */
  static const char *const PLACES[] = {LIBRARY_NAME, "../share/bowlwright/" LIBRARY_NAME,
                                       "../../share/bowlwright/" LIBRARY_NAME, NULL};
  const char *near = find_near_program(PLACES, arena), *named = getenv(LIBRARY_VARIABLE);
  if (near) return near;
  if (named && named[0]) return named;
  complain("there is no food library: '%s' is not beside the program or in ../share/bowlwright, and $%s is not set; "
           "build it with 'make build' or name it with --library",
           LIBRARY_NAME, LIBRARY_VARIABLE);
  return NULL;
}

/* 0 or an errno. */
static int map_file(int fd, const void **bytes, size_t *n) {
  struct stat st;
  if (fstat(fd, &st) != 0) return errno;
  if (S_ISDIR(st.st_mode)) return EISDIR;
  if (!S_ISREG(st.st_mode)) return EINVAL;
  *n = (size_t)st.st_size;
  *bytes = "";
  if (*n == 0) return 0;
  void *p = mmap(NULL, *n, PROT_READ, MAP_PRIVATE, fd, 0);
  if (p == MAP_FAILED) return errno;
  *bytes = p;
  return 0;
}

static void library_is_damaged(const void *path, enum image_fault fault) {
  complain("%s: %s", (const char *)path, image_fault_text(fault));
  exit(EXIT_TROUBLE);
}

int open_library(const char *path, struct library *out, struct arena *arena) {
  const void *bytes = NULL;
  size_t n = 0;
  *out = (struct library){0};
  if (!path) path = usual_place(arena);
  if (!path) return EXIT_TROUBLE;
  int fd = open(path, O_RDONLY | O_CLOEXEC);
  int error = fd < 0 ? errno : map_file(fd, &bytes, &n);
  if (fd >= 0) close(fd);
  if (error != 0) {
    complain("cannot open the food library '%s': %s", path, strerror(error));
    return EXIT_TROUBLE;
  }
  enum image_fault fault = image_open_in_parts(&out->image, bytes, n, arena, library_is_damaged, path);
  if (fault == IMAGE_FINE) return EXIT_COMPUTED;
  complain("%s: %s", path, image_fault_text(fault));
  return EXIT_TROUBLE;
}
