/* Durability against a lost current, which no killed process can show: SQLite's own layer of files is wrapped, and every
 * write and flush is noted. When a change is answered with STORE_DONE, nothing that was written may still wait for a flush.
 */
#define _DEFAULT_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "store/internal.h"

/* ---- a layer of files that keeps count ---- */

struct noted_file {
  sqlite3_file base;
  bool log; /* the write-ahead log: what a change is written to */
  sqlite3_file *real;
};

static sqlite3_vfs *real_vfs, noted_vfs;
static sqlite3_io_methods noted_methods;
static int waiting, writes; /* writes to the log since its last flush; in all */

static sqlite3_file *real_of(sqlite3_file *f) { return ((struct noted_file *)f)->real; }

static int note_write(sqlite3_file *f, const void *p, int n, sqlite3_int64 at) {
  if (((struct noted_file *)f)->log) {
    waiting++;
    writes++;
  }
  return real_of(f)->pMethods->xWrite(real_of(f), p, n, at);
}

static int note_sync(sqlite3_file *f, int flags) {
  int code = real_of(f)->pMethods->xSync(real_of(f), flags);
  if (code == SQLITE_OK && ((struct noted_file *)f)->log) waiting = 0;
  return code;
}

static int do_close(sqlite3_file *f) { return real_of(f)->pMethods->xClose(real_of(f)); }
static int do_read(sqlite3_file *f, void *p, int n, sqlite3_int64 at) {
  return real_of(f)->pMethods->xRead(real_of(f), p, n, at);
}
static int do_truncate(sqlite3_file *f, sqlite3_int64 n) { return real_of(f)->pMethods->xTruncate(real_of(f), n); }
static int do_size(sqlite3_file *f, sqlite3_int64 *n) { return real_of(f)->pMethods->xFileSize(real_of(f), n); }
static int do_lock(sqlite3_file *f, int how) { return real_of(f)->pMethods->xLock(real_of(f), how); }
static int do_unlock(sqlite3_file *f, int how) { return real_of(f)->pMethods->xUnlock(real_of(f), how); }
static int do_check(sqlite3_file *f, int *held) { return real_of(f)->pMethods->xCheckReservedLock(real_of(f), held); }
static int do_control(sqlite3_file *f, int op, void *p) { return real_of(f)->pMethods->xFileControl(real_of(f), op, p); }
static int do_sector(sqlite3_file *f) { return real_of(f)->pMethods->xSectorSize(real_of(f)); }
static int do_device(sqlite3_file *f) { return real_of(f)->pMethods->xDeviceCharacteristics(real_of(f)); }
static int do_map(sqlite3_file *f, int page, int n, int extend, void volatile **p) {
  return real_of(f)->pMethods->xShmMap(real_of(f), page, n, extend, p);
}
static int do_shm_lock(sqlite3_file *f, int at, int n, int flags) {
  return real_of(f)->pMethods->xShmLock(real_of(f), at, n, flags);
}
static void do_barrier(sqlite3_file *f) { real_of(f)->pMethods->xShmBarrier(real_of(f)); }
static int do_unmap(sqlite3_file *f, int delete) { return real_of(f)->pMethods->xShmUnmap(real_of(f), delete); }

static int note_open(sqlite3_vfs *vfs, const char *name, sqlite3_file *f, int flags, int *out_flags) {
  struct noted_file *n = (struct noted_file *)f;
  (void)vfs;
  n->real = (sqlite3_file *)(n + 1);
  n->log = (flags & SQLITE_OPEN_WAL) != 0;
  int code = real_vfs->xOpen(real_vfs, name, n->real, flags, out_flags);
  f->pMethods = n->real->pMethods ? &noted_methods : NULL;
  return code;
}

static void note_everything(void) {
  real_vfs = sqlite3_vfs_find(NULL);
  noted_vfs = *real_vfs;
  noted_vfs.zName = "noted";
  noted_vfs.szOsFile += (int)sizeof(struct noted_file);
  noted_vfs.xOpen = note_open;
  noted_methods = (sqlite3_io_methods){.iVersion = 2,
                                       .xClose = do_close,
                                       .xRead = do_read,
                                       .xWrite = note_write,
                                       .xTruncate = do_truncate,
                                       .xSync = note_sync,
                                       .xFileSize = do_size,
                                       .xLock = do_lock,
                                       .xUnlock = do_unlock,
                                       .xCheckReservedLock = do_check,
                                       .xFileControl = do_control,
                                       .xSectorSize = do_sector,
                                       .xDeviceCharacteristics = do_device,
                                       .xShmMap = do_map,
                                       .xShmLock = do_shm_lock,
                                       .xShmBarrier = do_barrier,
                                       .xShmUnmap = do_unmap};
  assert_int_equal(sqlite3_vfs_register(&noted_vfs, 1), SQLITE_OK);
}

/* ---- the test ---- */

static void flushed(void) {
  assert_true(writes > 0);
  assert_int_equal(waiting, 0);
  writes = 0;
}

static void every_change_is_flushed_before_it_is_answered(void **state) {
  struct arena arena;
  struct buf why;
  struct store *s = NULL;
  struct store_text theirs;
  bool found = false;
  int64_t rev = 0;
  char folder[] = "/tmp/bowlwright-durable-XXXXXX", path[64], command[64];
  (void)state;
  assert_non_null(mkdtemp(folder));
  snprintf(path, sizeof path, "%s/texts.db", folder);
  note_everything();
  arena_init(&arena, NULL);
  buf_init(&why, &arena, 4096);
  assert_int_equal(store_open(path, &s, &why), STORE_DONE);
  flushed();
  for (int64_t base = 0; base < 300; base++) { /* the log is emptied into the file several times meanwhile */
    char body[20000];
    memset(body, 'x', sizeof body);
    const struct store_save save = {SPAN_LIT("a"), SPAN_LIT("recipe"),        {body, sizeof body}, base,
                                    true,          "2026-11-02T09:30:00.123Z"};
    assert_int_equal(store_write(s, &save, &rev, &theirs, &found, &arena), STORE_DONE);
    flushed();
  }
  assert_int_equal(store_remove(s, SPAN_LIT("a"), rev, &theirs, &found, &arena), STORE_DONE);
  flushed();
  struct store_text text = {SPAN_LIT("b"), SPAN_LIT("larder"), SPAN_LIT("x"), SPAN_LIT("2026-11-02T09:30:00Z"), 1};
  const struct store_bundle in = {.texts = {.item = &text, .count = 1, .cap = 1}};
  assert_int_equal(store_import(s, &in, &arena), STORE_DONE);
  flushed();
  /* The measure itself: without the flush that is asked for, something waits. */
  assert_int_equal(sqlite3_exec(s->db, "PRAGMA synchronous = NORMAL", NULL, NULL, NULL), SQLITE_OK);
  const struct store_save save = {SPAN_LIT("c"), SPAN_LIT("recipe"), SPAN_LIT("x"), 0, true, "2026-11-02T09:30:00.123Z"};
  assert_int_equal(store_write(s, &save, &rev, &theirs, &found, &arena), STORE_DONE);
  assert_true(waiting > 0);
  store_close(s);
  arena_free(&arena);
  snprintf(command, sizeof command, "rm -rf '%s'", folder);
  assert_int_equal(system(command), 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(every_change_is_flushed_before_it_is_answered)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
