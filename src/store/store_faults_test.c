/* What the store does when anything beneath it fails: every call of SQLite that the store makes, every access of SQLite to a
 * file and every piece of memory that SQLite asks for fails in turn, once or from then on, while texts are saved, removed,
 * brought in, read and copied.
 *
 * Held against a plain list of what was asked for: a change that was answered with STORE_DONE is there, one that was
 * answered otherwise is there as a whole or not at all, and an answer to a reader is complete or is no answer. Afterwards
 * everything works again, on the store as it is open and when it is opened anew.
 *
 * BW_LONG=all tries every place; otherwise only one piece of memory in several is not given, with BW_LONG=1 more of them. */
#define _DEFAULT_SOURCE
#include "store_scene.h"

/* ---- what fails ---- */

enum fault { FAULT_CALL, FAULT_FILE, FAULT_MEMORY, FAULT_COUNT };
static const char *const FAULT_WORD[] = {"a call of SQLite", "an access to a file", "a piece of memory"};

static enum fault failing;
static long fails_at, seen; /* fails_at 0: nothing fails */
static bool from_then_on;

static bool fails(enum fault f) {
  if (f != failing) return false;
  seen++;
  return fails_at > 0 && (from_then_on ? seen >= fails_at : seen == fails_at);
}

/* The calls: the linker sends the store's own here (--wrap). */
int __real_sqlite3_step(sqlite3_stmt *q);
int __real_sqlite3_exec(sqlite3 *db, const char *sql, int (*f)(void *, int, char **, char **), void *u, char **said);
int __real_sqlite3_prepare_v2(sqlite3 *db, const char *sql, int n, sqlite3_stmt **q, const char **tail);
int __real_sqlite3_prepare_v3(sqlite3 *db, const char *sql, int n, unsigned flags, sqlite3_stmt **q, const char **tail);
int __real_sqlite3_open_v2(const char *name, sqlite3 **db, int flags, const char *vfs);
int __wrap_sqlite3_step(sqlite3_stmt *q);
int __wrap_sqlite3_exec(sqlite3 *db, const char *sql, int (*f)(void *, int, char **, char **), void *u, char **said);
int __wrap_sqlite3_prepare_v2(sqlite3 *db, const char *sql, int n, sqlite3_stmt **q, const char **tail);
int __wrap_sqlite3_prepare_v3(sqlite3 *db, const char *sql, int n, unsigned flags, sqlite3_stmt **q, const char **tail);
int __wrap_sqlite3_open_v2(const char *name, sqlite3 **db, int flags, const char *vfs);

int __wrap_sqlite3_step(sqlite3_stmt *q) { return fails(FAULT_CALL) ? SQLITE_IOERR_READ : __real_sqlite3_step(q); }
int __wrap_sqlite3_exec(sqlite3 *db, const char *sql, int (*f)(void *, int, char **, char **), void *u, char **said) {
  return fails(FAULT_CALL) ? SQLITE_IOERR_WRITE : __real_sqlite3_exec(db, sql, f, u, said);
}
int __wrap_sqlite3_prepare_v2(sqlite3 *db, const char *sql, int n, sqlite3_stmt **q, const char **tail) {
  return fails(FAULT_CALL) ? SQLITE_NOMEM : __real_sqlite3_prepare_v2(db, sql, n, q, tail);
}
int __wrap_sqlite3_prepare_v3(sqlite3 *db, const char *sql, int n, unsigned flags, sqlite3_stmt **q, const char **tail) {
  return fails(FAULT_CALL) ? SQLITE_NOMEM : __real_sqlite3_prepare_v3(db, sql, n, flags, q, tail);
}
int __wrap_sqlite3_open_v2(const char *name, sqlite3 **db, int flags, const char *vfs) {
  if (!fails(FAULT_CALL)) return __real_sqlite3_open_v2(name, db, flags, vfs);
  *db = NULL;
  return SQLITE_CANTOPEN;
}

/* Memory. */
static sqlite3_mem_methods real_memory;
static void *take(int n) { return fails(FAULT_MEMORY) ? NULL : real_memory.xMalloc(n); }
static void *take_more(void *p, int n) { return fails(FAULT_MEMORY) ? NULL : real_memory.xRealloc(p, n); }

/* Files. Flushing is left out: nothing here loses its current. */
struct failing_file {
  sqlite3_file base;
  sqlite3_file *real;
};
static sqlite3_vfs *real_vfs, failing_vfs;
static sqlite3_io_methods failing_methods;
#define REAL(f) (((struct failing_file *)(f))->real)
#define PASS(f, call, ...) (REAL(f)->pMethods->call(REAL(f), __VA_ARGS__))

static int f_close(sqlite3_file *f) { return REAL(f)->pMethods->xClose(REAL(f)); }
static int f_read(sqlite3_file *f, void *p, int n, sqlite3_int64 at) {
  return fails(FAULT_FILE) ? SQLITE_IOERR_READ : PASS(f, xRead, p, n, at);
}
/* Half of it is written, as on a disk that becomes full meanwhile. */
static int f_write(sqlite3_file *f, const void *p, int n, sqlite3_int64 at) {
  if (!fails(FAULT_FILE)) return PASS(f, xWrite, p, n, at);
  if (n > 1 && PASS(f, xWrite, p, n / 2, at) != SQLITE_OK) return SQLITE_IOERR_WRITE;
  return SQLITE_FULL;
}
static int f_truncate(sqlite3_file *f, sqlite3_int64 n) {
  return fails(FAULT_FILE) ? SQLITE_IOERR_TRUNCATE : PASS(f, xTruncate, n);
}
static int f_sync(sqlite3_file *f, int flags) {
  (void)f, (void)flags;
  return fails(FAULT_FILE) ? SQLITE_IOERR_FSYNC : SQLITE_OK;
}
static int f_size(sqlite3_file *f, sqlite3_int64 *n) {
  return fails(FAULT_FILE) ? SQLITE_IOERR_FSTAT : PASS(f, xFileSize, n);
}
static int f_lock(sqlite3_file *f, int how) { return fails(FAULT_FILE) ? SQLITE_IOERR_LOCK : PASS(f, xLock, how); }
static int f_unlock(sqlite3_file *f, int how) { return PASS(f, xUnlock, how); }
static int f_check(sqlite3_file *f, int *held) { return PASS(f, xCheckReservedLock, held); }
static int f_control(sqlite3_file *f, int op, void *p) { return PASS(f, xFileControl, op, p); }
static int f_sector(sqlite3_file *f) { return REAL(f)->pMethods->xSectorSize(REAL(f)); }
static int f_device(sqlite3_file *f) { return REAL(f)->pMethods->xDeviceCharacteristics(REAL(f)); }
static int f_map(sqlite3_file *f, int page, int n, int extend, void volatile **p) {
  return fails(FAULT_FILE) ? SQLITE_IOERR_SHMMAP : PASS(f, xShmMap, page, n, extend, p);
}
static int f_shm_lock(sqlite3_file *f, int at, int n, int flags) {
  bool takes = (flags & SQLITE_SHM_LOCK) != 0;
  return takes && fails(FAULT_FILE) ? SQLITE_IOERR_SHMLOCK : PASS(f, xShmLock, at, n, flags);
}
static void f_barrier(sqlite3_file *f) { REAL(f)->pMethods->xShmBarrier(REAL(f)); }
static int f_unmap(sqlite3_file *f, int delete) { return PASS(f, xShmUnmap, delete); }

static int f_open(sqlite3_vfs *vfs, const char *name, sqlite3_file *f, int flags, int *out_flags) {
  struct failing_file *n = (struct failing_file *)f;
  (void)vfs;
  f->pMethods = NULL;
  if (fails(FAULT_FILE)) return SQLITE_CANTOPEN;
  n->real = (sqlite3_file *)(n + 1);
  int code = real_vfs->xOpen(real_vfs, name, n->real, flags, out_flags);
  f->pMethods = n->real->pMethods ? &failing_methods : NULL;
  return code;
}
static int f_delete(sqlite3_vfs *vfs, const char *name, int sync) {
  (void)vfs;
  return fails(FAULT_FILE) ? SQLITE_IOERR_DELETE : real_vfs->xDelete(real_vfs, name, sync);
}

static void stand_between(void) {
  assert_int_equal(sqlite3_config(SQLITE_CONFIG_GETMALLOC, &real_memory), SQLITE_OK);
  sqlite3_mem_methods memory = real_memory;
  memory.xMalloc = take;
  memory.xRealloc = take_more;
  assert_int_equal(sqlite3_config(SQLITE_CONFIG_MALLOC, &memory), SQLITE_OK);
  real_vfs = sqlite3_vfs_find(NULL);
  failing_vfs = *real_vfs;
  failing_vfs.zName = "failing";
  failing_vfs.szOsFile += (int)sizeof(struct failing_file);
  failing_vfs.xOpen = f_open;
  failing_vfs.xDelete = f_delete;
  failing_methods =
      (sqlite3_io_methods){2,         f_close,  f_read,   f_write, f_truncate, f_sync,    f_size,  f_lock, f_unlock, f_check,
                           f_control, f_sector, f_device, f_map,   f_shm_lock, f_barrier, f_unmap, NULL,   NULL};
  assert_int_equal(sqlite3_vfs_register(&failing_vfs, 1), SQLITE_OK);
}

/* ---- what was asked for: the states of three texts, oldest first ---- */

enum { TEXTS = 3, STATES_MOST = 8 };
static const char *const ID[TEXTS] = {"a", "b", "c"};
struct told {
  const char *body[TEXTS][STATES_MOST];
  size_t count[TEXTS];
  bool removed[TEXTS];
};

static const char *long_text(void) {
  static char text[30001];
  if (!text[0]) memset(text, 'y', sizeof text - 1);
  return text;
}

static void tell(struct told *t, size_t which, const char *body) {
  t->body[which][t->count[which]++] = body;
  t->removed[which] = false;
}

/* What the store holds is exactly that. */
static bool holds(struct store *in, const struct told *t) {
  for (size_t i = 0; i < TEXTS; i++) {
    struct store_list l;
    struct store_text newest = {0};
    const struct store_versions_wish wish = {0, true, 100, SIZE_MAX};
    size_t older = t->count[i] > 0 && !t->removed[i] ? t->count[i] - 1 : t->count[i];
    assert_int_equal(store_read(in, span_of(ID[i]), &newest, &found, &arena), STORE_DONE);
    if (found != (older < t->count[i])) return false;
    if (found && (newest.rev != (int64_t)t->count[i] || !span_is(newest.body, t->body[i][older]))) return false;
    assert_int_equal(store_versions(in, span_of(ID[i]), &wish, &l, &arena), STORE_DONE);
    assert_int_equal(l.damaged, 0);
    if (l.count != older) return false;
    for (size_t k = 0; k < older; k++)
      if (!span_is(l.item[k].body, t->body[i][older - 1 - k])) return false;
  }
  return true;
}

/* ---- the day's work, one piece after the other; each says how it ended and, if well, what is now so ---- */

typedef enum store_outcome piece(struct told *t);

static enum store_outcome write_piece(struct told *t, size_t which, const char *body, int64_t base) {
  int64_t rev = 0;
  enum store_outcome outcome = write_to(s, ID[which], body, base, true, &rev);
  tell(t, which, body);
  if (outcome == STORE_DONE) assert_int_equal(rev, t->count[which]);
  return outcome;
}
static enum store_outcome second_state(struct told *t) { return write_piece(t, 0, "a, two", 1); }
static enum store_outcome a_long_text(struct told *t) { return write_piece(t, 1, long_text(), 0); }
static enum store_outcome a_longer_log(struct told *t) { return write_piece(t, 1, "b, short", 1); }

/* Refused: somebody else was first. Whatever fails, it is not written. */
static enum store_outcome too_late(struct told *t) {
  int64_t rev = 0;
  (void)t;
  enum store_outcome outcome = write_to(s, "a", "never", 1, true, &rev);
  assert_int_not_equal(outcome, STORE_DONE);
  if (outcome == STORE_CONFLICT) assert_true(found && span_is(theirs.body, "a, two"));
  return outcome == STORE_CONFLICT ? STORE_DONE : outcome;
}

static enum store_outcome take_away(struct told *t) {
  enum store_outcome outcome = store_remove(s, SPAN_LIT("b"), 2, &theirs, &found, &arena);
  t->removed[1] = true;
  return outcome;
}
static enum store_outcome bring_back(struct told *t) { return write_piece(t, 1, "b, again", 0); }

static enum store_outcome bring_in(struct told *t) {
  struct store_text text = {SPAN_LIT("c"), SPAN_LIT("larder"), SPAN_LIT("c, new"), SPAN_LIT("2026-11-02T09:30:00Z"), 2};
  struct store_text before = {SPAN_LIT("c"), SPAN_LIT("larder"), SPAN_LIT("c, old"), SPAN_LIT("2026-11-01T09:30:00Z"), 1};
  const struct store_bundle in = {{.item = &text, .count = 1, .cap = 1}, {.item = &before, .count = 1, .cap = 1}};
  enum store_outcome outcome = store_import(s, &in, &arena);
  tell(t, 2, "c, old");
  tell(t, 2, "c, new");
  return outcome;
}

/* An answer is whole, or it is none. */
static enum store_outcome list_all(struct told *t) {
  struct store_list l;
  (void)t;
  enum store_outcome outcome = store_list(s, false, &l, &arena);
  if (outcome == STORE_DONE) assert_true(l.count == 3 && l.damaged == 0 && !l.more);
  return outcome;
}
static enum store_outcome read_one(struct told *t) {
  struct store_text text = {0};
  (void)t;
  enum store_outcome outcome = store_read(s, SPAN_LIT("b"), &text, &found, &arena);
  if (outcome == STORE_DONE) assert_true(found && span_is(text.body, "b, again") && text.rev == 3);
  return outcome;
}
static enum store_outcome read_versions(struct told *t) {
  struct store_list l;
  const struct store_versions_wish wish = {0, true, 100, SIZE_MAX};
  (void)t;
  enum store_outcome outcome = store_versions(s, SPAN_LIT("b"), &wish, &l, &arena);
  if (outcome == STORE_DONE) assert_true(l.count == 2 && l.damaged == 0 && span_is(l.item[1].body, long_text()));
  return outcome;
}
static enum store_outcome read_changes(struct told *t) {
  struct store_change *change = NULL;
  int64_t last = 0;
  size_t count = 0;
  (void)t;
  enum store_outcome outcome = store_last_change(s, &last);
  if (outcome == STORE_DONE) assert_true(last > 0);
  if (outcome == STORE_DONE) outcome = store_changes(s, 0, 100, &change, &count, &arena);
  if (outcome == STORE_DONE) assert_true(count == 3 && change[2].number == last);
  return outcome;
}
static enum store_outcome write_out(struct told *t) {
  struct store_bundle b;
  (void)t;
  enum store_outcome outcome = store_export(s, true, SIZE_MAX, &b, &arena);
  if (outcome == STORE_DONE)
    assert_true(b.texts.count == 3 && b.versions.count == 4 && b.texts.damaged + b.versions.damaged == 0);
  return outcome;
}
/* A file that bears the name of a backup is a whole one. */
static enum store_outcome copy(struct told *t) {
  struct store *whole = NULL;
  enum store_outcome outcome = store_backup(s, file("copy.db"), &why);
  bool there = access(file("copy.db"), F_OK) == 0;
  assert_int_equal(there, outcome == STORE_DONE);
  long usual = fails_at;
  fails_at = 0;
  if (there) assert_int_equal(store_open(file("copy.db"), &whole, &why), STORE_DONE);
  if (there) assert_true(holds(whole, t));
  store_close(whole);
  remove(file("copy.db"));
  fails_at = usual;
  return outcome;
}

static piece *const DAY[] = {second_state, a_long_text, a_longer_log,  too_late,     take_away, bring_back, bring_in,
                             list_all,     read_one,    read_versions, read_changes, write_out, copy};

/* ---- one trial ---- */

/* A store with one text, and the log of a program that was killed beside it. */
static struct span seed, seed_log;
static void make_seed(void) {
  saved("a", "a, one", 0);
  seed = whole_file(path);
  seed_log = whole_file(file("deep/er/texts.db-wal"));
  assert_true(seed_log.n > 4096);
}
static void plant_seed(void) {
  store_close(s);
  s = NULL;
  remove(file("deep/er/texts.db-shm"));
  write_file(path, seed);
  write_file(file("deep/er/texts.db-wal"), seed_log);
}

static void goes_on(const struct told *before, size_t at) {
  struct told after = *before;
  for (size_t i = at; i < COUNT_OF(DAY); i++) {
    enum store_outcome outcome = DAY[i](&after);
    if (outcome != STORE_DONE) fail_msg("piece %zu ends as %d (%s)", i, (int)outcome, store_reason(s, &arena));
  }
  assert_true(holds(s, &after));
  reopen();
  assert_true(holds(s, &after));
  sqlite3_stmt *q = NULL;
  assert_int_equal(sqlite3_prepare_v2(s->db, "PRAGMA integrity_check", -1, &q, NULL), SQLITE_OK);
  assert_int_equal(sqlite3_step(q), SQLITE_ROW);
  assert_string_equal(sqlite3_column_text(q, 0), "ok");
  sqlite3_finalize(q);
}

/* With something failing: false when nothing did before the end. */
static bool trial(enum fault f, long at, bool on) {
  struct told told = {.body = {{"a, one"}}, .count = {1}};
  size_t i = 0;
  plant_seed();
  failing = f, fails_at = at, from_then_on = on, seen = 0;
  enum store_outcome outcome = store_open(path, &s, &why);
  assert_int_equal(outcome == STORE_DONE, s != NULL);
  struct told before = told;
  for (; outcome == STORE_DONE && i < COUNT_OF(DAY); i++) {
    before = told;
    outcome = DAY[i](&told);
  }
  bool reached = seen >= fails_at;
  fails_at = 0;
  if (!s) {
    assert_int_equal(store_open(path, &s, &why), STORE_DONE);
    before = told;
  } else if (outcome != STORE_DONE && !s->read_only) {
    /* Done as a whole or not at all; where the answer was lost, the work goes on behind it. */
    bool done = holds(s, &told);
    assert_true(done || holds(s, &before));
    if (done) before = told;
    if (!done) i--;
  }
  goes_on(outcome == STORE_DONE ? &told : &before, i);
  return reached;
}

static long trials(enum fault f, bool on, long every) {
  long at = 1;
  while (trial(f, at, on)) {
    at += every;
    arena_free(&arena);
    arena_init(&arena, NULL);
    buf_init(&why, &arena, 4096);
  }
  return at / every;
}

static void everything_fails_in_turn(void **state) {
  const char *more = getenv("BW_LONG");
  const long memory = more && strcmp(more, "all") == 0 ? 1 : more ? 5 : 29;
  (void)state;
  make_seed();
  struct span kept[] = {seed, seed_log};
  for (size_t i = 0; i < 2; i++) {
    char *p = malloc(kept[i].n);
    assert_non_null(p);
    memcpy(p, kept[i].p, kept[i].n);
    kept[i].p = p;
  }
  seed = kept[0], seed_log = kept[1];
  for (enum fault f = 0; f < FAULT_COUNT; f++) {
    long every = f == FAULT_MEMORY ? memory : 1;
    long once = trials(f, false, every), on = trials(f, true, every);
    print_message("%s: %ld times failed once, %ld times from then on\n", FAULT_WORD[f], once, on);
    assert_true(once > 20 && on > 0);
  }
  free((void *)(uintptr_t)seed.p);
  free((void *)(uintptr_t)seed_log.p);
}

int main(void) {
  const struct CMUnitTest tests[] = {ON_A_FILE(everything_fails_in_turn)};
  stand_between();
  return cmocka_run_group_tests(tests, NULL, NULL);
}
