/* The files of the page. */
#define _POSIX_C_SOURCE 200809L
#include "serve/site.h"

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>

enum { FILE_MOST = 64 * 1024 * 1024, FILES_MOST = 1000, DEPTH_MOST = 4, PATH_MOST = 4096 };

/* ---- looking up ---- */

static bool ends_with(const char *text, const char *end) {
  size_t n = strlen(text), e = strlen(end);
  return n >= e && strcmp(text + n - e, end) == 0;
}

const char *site_type_of(const char *path) {
  static const char *const TYPE[][2] = {
      {".html", "text/html; charset=utf-8"},
      {".js", "text/javascript; charset=utf-8"},
      {".css", "text/css; charset=utf-8"},
      {".wasm", "application/wasm"},
      {".svg", "image/svg+xml"},
      {".webmanifest", "application/manifest+json"},
      {".json", "application/json"},
      {".png", "image/png"},
      {".woff2", "font/woff2"},
      {".txt", "text/plain; charset=utf-8"},
  };
  for (size_t i = 0; i < COUNT_OF(TYPE); i++)
    if (ends_with(path, TYPE[i][0])) return TYPE[i][1];
  return "application/octet-stream";
}

const struct site_file *site_find(const struct site *s, struct span path) {
  if (path.n == 0) path = SPAN_LIT("index.html");
  for (size_t i = 0; i < s->count; i++)
    if (span_is(path, s->item[i].path)) return &s->item[i];
  return NULL;
}

bool site_never_changes(const struct site_file *f) { return strncmp(f->path, "assets/", 7) == 0; }

bool site_index(const struct site_file *index, const char *token, struct buf *out) {
  static const char HEAD[] = "<head>";
  struct span all = {(const char *)index->bytes, index->n};
  for (size_t i = 0; i + sizeof HEAD - 1 <= all.n; i++) {
    if (memcmp(all.p + i, HEAD, sizeof HEAD - 1) != 0) continue;
    size_t at = i + sizeof HEAD - 1;
    buf_add(out, span_cut(all, 0, at));
    buf_addf(out, "<meta name=\"bowlwright-store\" content=\"api\"><meta name=\"bowlwright-token\" content=\"%s\">", token);
    buf_add(out, span_cut(all, at, all.n));
    return !out->cut;
  }
  return false;
}

/* ---- a folder ---- */

struct reading {
  struct arena *arena;
  struct buf *why;
  struct site_file *item;
  size_t count, cap;
};

static bool fail(struct reading *r, const char *path, int error) {
  buf_addf(r->why, "the page's file '%s' cannot be read: %s", path, strerror(error));
  return false;
}

static bool read_file(struct reading *r, const char *path, const char *name, size_t n) {
  FILE *f = fopen(path, "rb");
  if (!f) return fail(r, path, errno);
  char *bytes = arena_alloc(r->arena, n + 1, 1);
  size_t got = fread(bytes, 1, n, f);
  fclose(f);
  if (got != n) return fail(r, path, EIO);
  struct buf etag;
  buf_init(&etag, r->arena, 64);
  uint64_t sum = checksum64(bytes, n);
  buf_addf(&etag, "\"%zu-%lx\"", n, (unsigned long)sum);
  struct site_file file = {name, buf_text(&etag), (const unsigned char *)bytes, n};
  ARENA_PUSH(r->arena, r->item, r->count, r->cap, file);
  return true;
}

static bool read_folder(struct reading *r, const char *folder, const char *name, int depth);

static bool read_entry(struct reading *r, const char *folder, const char *parent, const char *entry, int depth) {
  struct buf path, name;
  struct stat st;
  buf_init(&path, r->arena, PATH_MOST);
  buf_init(&name, r->arena, PATH_MOST);
  buf_addf(&path, "%s/%s", folder, entry);
  buf_addf(&name, "%s%s%s", parent, parent[0] ? "/" : "", entry);
  if (stat(buf_text(&path), &st) != 0) return fail(r, buf_text(&path), errno);
  if (S_ISDIR(st.st_mode)) return read_folder(r, buf_text(&path), buf_text(&name), depth + 1);
  if (!S_ISREG(st.st_mode)) return true;
  if (st.st_size > FILE_MOST || r->count >= FILES_MOST) return fail(r, buf_text(&path), EFBIG);
  return read_file(r, buf_text(&path), buf_text(&name), (size_t)st.st_size);
}

static bool read_folder(struct reading *r, const char *folder, const char *name, int depth) {
  if (depth > DEPTH_MOST) return fail(r, folder, ELOOP);
  DIR *d = opendir(folder);
  if (!d) return fail(r, folder, errno);
  bool fine = true;
  for (struct dirent *e; fine && (e = readdir(d));)
    if (e->d_name[0] != '.') fine = read_entry(r, folder, name, e->d_name, depth);
  closedir(d);
  return fine;
}

bool site_read_folder(const char *folder, struct site *out, struct buf *why, struct arena *arena) {
  struct reading r = {.arena = arena, .why = why};
  if (!read_folder(&r, folder, "", 0)) return false;
  *out = (struct site){r.item, r.count};
  if (site_find(out, SPAN_LIT("index.html"))) return true;
  buf_addf(why, "there is no index.html in '%s'; 'make site' builds the page's folder", folder);
  return false;
}
