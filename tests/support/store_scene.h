/* store_scene.h: for tests of the store: a fresh one in a folder of its own, and short words for what is done to it. */
#ifndef BW_STORE_SCENE_H
#define BW_STORE_SCENE_H

#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#include <cmocka.h>

#include "store/internal.h"

static struct arena arena;
static struct buf why;
static char folder[64], path[128];
static struct store *s;

static inline const char *file(const char *name) {
  struct buf b;
  buf_init(&b, &arena, 4096);
  buf_addf(&b, "%s/%s", folder, name);
  return buf_text(&b);
}

static inline int setup(void **state) {
  (void)state;
  arena_init(&arena, NULL);
  buf_init(&why, &arena, 4096);
  snprintf(folder, sizeof folder, "/tmp/bowlwright-store-XXXXXX");
  if (!mkdtemp(folder)) return -1;
  snprintf(path, sizeof path, "%s/deep/er/texts.db", folder);
  return store_open(path, &s, &why) == STORE_DONE ? 0 : -1;
}

static inline int teardown(void **state) {
  char command[160];
  (void)state;
  store_close(s);
  s = NULL;
  arena_free(&arena);
  snprintf(command, sizeof command, "rm -rf '%s'", folder);
  return system(command);
}

/* The statements of editions 1 and 2; 'more': what the second added to a state. */
#define OLD_EDITION(more)                                                                                                   \
  "PRAGMA journal_mode = WAL;"                                                                                              \
  "CREATE TABLE text (id TEXT PRIMARY KEY NOT NULL, rev INTEGER NOT NULL CHECK (rev >= 1),"                                 \
  " removed INTEGER NOT NULL CHECK (removed IN (0, 1)), change INTEGER NOT NULL UNIQUE) STRICT;"                            \
  "CREATE TABLE state (id TEXT NOT NULL, rev INTEGER NOT NULL CHECK (rev >= 1), kind TEXT NOT NULL,"                        \
  " saved TEXT NOT NULL, body TEXT NOT NULL, kept INTEGER NOT NULL CHECK (kept IN (0, 1))," more                            \
  " PRIMARY KEY (id, rev)) STRICT;"                                                                                         \
  "CREATE INDEX state_saved ON state (id, saved, rev);"

/* ---- shorthands ---- */

static struct store_text theirs;
static bool found;

static inline enum store_outcome write_to(struct store *to, const char *id, const char *body, int64_t base, bool keep,
                                          int64_t *rev) {
  const struct store_save save = {span_of(id), SPAN_LIT("recipe"), span_of(body), base, keep, "2026-11-02T09:30:00.123Z"};
  return store_write(to, &save, rev, &theirs, &found, &arena);
}

static inline int64_t saved(const char *id, const char *body, int64_t base) {
  int64_t rev = 0;
  assert_int_equal(write_to(s, id, body, base, true, &rev), STORE_DONE);
  return rev;
}

static inline void is_newest(struct store *in, const char *id, const char *body, int64_t rev) {
  struct store_text t = {0};
  assert_int_equal(store_read(in, span_of(id), &t, &found, &arena), STORE_DONE);
  assert_int_equal(found, body != NULL);
  if (!body) return;
  assert_true(span_is(t.body, body));
  assert_int_equal(t.rev, rev);
}

/* Revs and bodies of the versions, newest first: "2 b, 1 a, ". */
static inline const char *versions_of(const char *id, bool every) {
  struct store_list l;
  struct buf b;
  const struct store_versions_wish wish = {0, every, 1000, SIZE_MAX};
  assert_int_equal(store_versions(s, span_of(id), &wish, &l, &arena), STORE_DONE);
  buf_init(&b, &arena, 65536);
  buf_adds(&b, "");
  for (size_t i = 0; i < l.count; i++) buf_addf(&b, "%ld %.*s, ", (long)l.item[i].rev, SPAN_ARG(l.item[i].body));
  return buf_text(&b);
}

static inline size_t texts_here(bool removed) {
  struct store_list l;
  assert_int_equal(store_list(s, removed, &l, &arena), STORE_DONE);
  assert_int_equal(l.damaged, 0);
  return l.count;
}

static inline void sql(const char *statement) {
  char *said = NULL;
  int code = sqlite3_exec(s->db, statement, NULL, NULL, &said);
  if (code != SQLITE_OK) fail_msg("%s: %s", statement, said);
}

static inline struct span whole_file(const char *name) {
  FILE *f = fopen(name, "rb");
  assert_non_null(f);
  struct buf b;
  char piece[4096];
  buf_init(&b, &arena, 64 * 1024 * 1024);
  for (size_t n; (n = fread(piece, 1, sizeof piece, f)) > 0;) buf_add(&b, (struct span){piece, n});
  fclose(f);
  return buf_span(&b);
}

static inline void write_file(const char *name, struct span bytes) {
  FILE *f = fopen(name, "wb");
  assert_non_null(f);
  assert_int_equal(fwrite(bytes.p, 1, bytes.n, f), bytes.n);
  assert_int_equal(fclose(f), 0);
}

static inline void reopen(void) {
  store_close(s);
  assert_int_equal(store_open(path, &s, &why), STORE_DONE);
}

static inline const char *long_body(size_t n) {
  char *p = arena_alloc(&arena, n + 1, 1);
  memset(p, 'x', n);
  return p;
}

#define ON_A_FILE(test) cmocka_unit_test_setup_teardown(test, setup, teardown)

#endif
