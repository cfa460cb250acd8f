/* The store's file: a full disk, damage, files of others, backups. What is damaged or foreign stays byte for byte what it
 * was. */
#define _DEFAULT_SOURCE
#include "store_scene.h"

#include <signal.h>
#include <sys/resource.h>
#include <sys/stat.h>

/* ---- no room ---- */

/* Root may write everything. As somebody else, to whom the folder belongs, a test is held to the modes of files. */
enum { SOMEBODY = 65534 };

static void become_somebody(void) {
  if (geteuid() != 0) return;
  const char *const owned[] = {folder, file("deep"), file("deep/er"), path, file("shut")};
  for (size_t i = 0; i < COUNT_OF(owned); i++) (void)!chown(owned[i], SOMEBODY, (gid_t)-1); /* those that are there */
  assert_int_equal(seteuid(SOMEBODY), 0);
}

static void be_oneself(void) { assert_int_equal(seteuid(getuid()), 0); }

static void a_full_file_loses_nothing_and_recovers(void **state) {
  (void)state;
  int64_t rev = 0, pages = 0;
  saved("a", "one", 0);
  sqlite3_stmt *q = NULL;
  assert_int_equal(sqlite3_prepare_v2(s->db, "PRAGMA page_count", -1, &q, NULL), SQLITE_OK);
  assert_int_equal(sqlite3_step(q), SQLITE_ROW);
  pages = sqlite3_column_int64(q, 0);
  sqlite3_finalize(q);
  char pragma[64];
  snprintf(pragma, sizeof pragma, "PRAGMA max_page_count = %ld", (long)pages + 2);
  sql(pragma);
  assert_int_equal(write_to(s, "a", long_body(100000), 1, true, &rev), STORE_NO_ROOM);
  is_newest(s, "a", "one", 1);
  assert_string_equal(versions_of("a", true), "");
  assert_int_equal(saved("a", "small", 1), 2);
  sql("PRAGMA max_page_count = 1000000");
  assert_int_equal(write_to(s, "a", long_body(100000), 2, true, &rev), STORE_DONE);
  assert_string_equal(versions_of("a", true), "2 small, 1 one, ");
}

/* The kernel refuses the write itself (EFBIG), as a full disk does (ENOSPC). */
static void a_disk_that_refuses_to_write(void **state) {
  (void)state;
  struct rlimit usual, small = {0};
  int64_t rev = 0;
  signal(SIGXFSZ, SIG_IGN);
  saved("a", "one", 0);
  assert_int_equal(getrlimit(RLIMIT_FSIZE, &usual), 0);
  small = (struct rlimit){64 * 1024, usual.rlim_max};
  assert_int_equal(setrlimit(RLIMIT_FSIZE, &small), 0);
  enum store_outcome outcome = write_to(s, "a", long_body(300000), 1, true, &rev);
  enum store_outcome again = write_to(s, "b", long_body(300000), 0, true, &rev);
  assert_int_equal(setrlimit(RLIMIT_FSIZE, &usual), 0);
  assert_int_equal(outcome, STORE_NO_ROOM);
  assert_int_equal(again, STORE_NO_ROOM);
  is_newest(s, "a", "one", 1);
  assert_int_equal(write_to(s, "a", long_body(300000), 1, true, &rev), STORE_DONE);
  reopen();
  assert_string_equal(versions_of("a", true), "1 one, ");
}

static void a_removed_file_takes_no_saves(void **state) {
  (void)state;
  int64_t rev = 0;
  saved("a", "one", 0);
  assert_int_equal(rename(path, file("elsewhere.db")), 0);
  assert_int_equal(write_to(s, "a", "two", 1, true, &rev), STORE_MOVED);
  assert_int_equal(store_remove(s, SPAN_LIT("a"), 1, &theirs, &found, &arena), STORE_MOVED);
  is_newest(s, "a", "one", 1);
  assert_int_equal(rename(file("elsewhere.db"), path), 0);
  assert_int_equal(saved("a", "two", 1), 2);
}

/* ---- files that are not ours to touch ---- */

static void left_alone(const char *name, enum store_outcome expected) {
  struct store *t = NULL;
  struct span before = whole_file(name);
  assert_int_equal(store_open(name, &t, &why), expected);
  assert_null(t);
  assert_true(why.n > 0);
  assert_true(span_eq(before, whole_file(name)));
}

static struct span closed_file(void) {
  for (int64_t i = 0; i < 40; i++) saved("a", long_body(3000), i);
  store_close(s);
  s = NULL;
  return whole_file(path);
}

static void a_damaged_file_is_left_as_it_is(void **state) {
  (void)state;
  struct span good = closed_file();
  assert_true(good.n > 40000);
  write_file(file("garbage"), SPAN_LIT("this was never a database, and it is longer than a header of one hundred bytes, so "
                                       "that SQLite looks at it as a whole"));
  left_alone(file("garbage"), STORE_DAMAGED);
  write_file(file("short"), span_cut(good, 0, good.n / 2));
  left_alone(file("short"), STORE_DAMAGED);
  write_file(file("header"), span_cut(good, 0, 60));
  left_alone(file("header"), STORE_DAMAGED);
  char *holed = arena_text(&arena, good);
  memset(holed + good.n / 2, 0xA5, 9000);
  write_file(file("holed"), (struct span){holed, good.n});
  left_alone(file("holed"), STORE_DAMAGED);
  write_file(file("good"), good);
  assert_int_equal(store_open(file("good"), &s, &why), STORE_DONE); /* the copy itself was fine */
}

/* After a crash a log lies beside the file. Nothing of it may be written into a file that is damaged. */
static void a_damaged_file_with_a_log_is_left_as_it_is(void **state) {
  (void)state;
  for (int64_t i = 0; i < 40; i++) saved("a", long_body(3000), i);
  reopen(); /* the log is emptied into the file */
  saved("b", "in the log", 0);
  char *holed = arena_text(&arena, whole_file(path));
  struct span good = whole_file(path), log = whole_file(file("deep/er/texts.db-wal"));
  assert_true(log.n > 4096);
  memset(holed + good.n / 2, 0xA5, 9000);
  write_file(file("holed"), (struct span){holed, good.n});
  write_file(file("holed-wal"), log);
  left_alone(file("holed"), STORE_DAMAGED);
  assert_true(span_eq(log, whole_file(file("holed-wal"))));
}

static void foreign_and_newer_files(void **state) {
  (void)state;
  sql("PRAGMA user_version = 4");
  store_close(s);
  s = NULL;
  left_alone(path, STORE_NEWER);
  sqlite3 *db = NULL;
  assert_int_equal(sqlite3_open(file("foreign"), &db), SQLITE_OK);
  assert_int_equal(sqlite3_exec(db, "CREATE TABLE theirs (x)", NULL, NULL, NULL), SQLITE_OK);
  sqlite3_close(db);
  left_alone(file("foreign"), STORE_FOREIGN);
  assert_int_equal(sqlite3_open(file("tables"), &db), SQLITE_OK); /* marked as ours, with tables of others */
  assert_int_equal(sqlite3_exec(db, "CREATE TABLE text (x); PRAGMA application_id = 0x426F776C; PRAGMA user_version = 2",
                                NULL, NULL, NULL),
                   SQLITE_OK);
  sqlite3_close(db);
  left_alone(file("tables"), STORE_DAMAGED);
  struct store *t = NULL;
  assert_int_equal(store_open(folder, &t, &why), STORE_TROUBLE);
  assert_int_equal(mkdir(file("shut"), 0500), 0);
  become_somebody();
  assert_int_equal(store_open(file("shut/texts.db"), &t, &why), STORE_TROUBLE);
  be_oneself();
}

static void rows_that_cannot_be_read_are_counted(void **state) {
  (void)state;
  saved("a", "one", 0);
  saved("b", "two", 0);
  saved("c", "three", 0);
  saved("d", "four", 0);
  sql("UPDATE state SET kind = 'poem' WHERE id = 'b'");
  sql("UPDATE state SET body = CAST(x'66FF6F' AS TEXT) WHERE id = 'c'");
  sql("DELETE FROM state WHERE id = 'd'");
  struct store_list l;
  assert_int_equal(store_list(s, false, &l, &arena), STORE_DONE);
  assert_int_equal(l.count, 1);
  assert_int_equal(l.damaged, 3);
  is_newest(s, "b", NULL, 0);
  int64_t rev = 0;
  assert_int_equal(write_to(s, "b", "mine", 0, true, &rev), STORE_CONFLICT); /* never written over */
  assert_int_equal(saved("a", "goes on", 1), 2);
  struct store_bundle bundle;
  assert_int_equal(store_export(s, true, SIZE_MAX, &bundle, &arena), STORE_DONE);
  assert_int_equal(bundle.texts.damaged, 3);
}

/* ---- media that cannot be written, or have no room ---- */

/* As on a full disk: the file that SQLite shares beside a WAL database cannot grow either. */
static void a_full_disk_can_be_read(void **state) {
  (void)state;
  struct rlimit usual;
  int64_t rev = 0;
  signal(SIGXFSZ, SIG_IGN);
  saved("a", "one", 0);
  saved("a", "in the log", 1);
  char *copy = arena_text(&arena, whole_file(path));
  write_file(file("copy.db"), (struct span){copy, whole_file(path).n}); /* as a killed program leaves it, with its log */
  write_file(file("copy.db-wal"), whole_file(file("deep/er/texts.db-wal")));
  store_close(s);
  s = NULL;
  assert_int_equal(getrlimit(RLIMIT_FSIZE, &usual), 0);
  const struct rlimit none = {0, usual.rlim_max};
  assert_int_equal(setrlimit(RLIMIT_FSIZE, &none), 0);
  enum store_outcome opened = store_open(file("copy.db"), &s, &why);
  struct store_text t = {0};
  enum store_outcome read = opened == STORE_DONE ? store_read(s, SPAN_LIT("a"), &t, &found, &arena) : opened;
  bool there = found;
  enum store_outcome wrote = opened == STORE_DONE ? write_to(s, "a", "more", 2, true, &rev) : opened;
  assert_int_equal(setrlimit(RLIMIT_FSIZE, &usual), 0);
  assert_int_equal(opened, STORE_DONE);
  assert_int_equal(read, STORE_DONE);
  assert_true(there && span_is(t.body, "in the log"));
  assert_int_equal(wrote, STORE_NO_ROOM);
  assert_int_equal(write_to(s, "a", "more", 2, true, &rev), STORE_DONE); /* there is room again */
}

static void a_file_that_may_only_be_read(void **state) {
  (void)state;
  int64_t rev = 0;
  struct span good = closed_file();
  assert_int_equal(chmod(path, 0400), 0);
  become_somebody();
  assert_int_equal(store_open(path, &s, &why), STORE_DONE);
  assert_true(store_is_read_only(s));
  is_newest(s, "a", long_body(3000), 40);
  assert_int_equal(write_to(s, "a", "more", 40, true, &rev), STORE_READ_ONLY);
  assert_int_equal(store_backup(s, file("copy.db"), &why), STORE_DONE);
  assert_true(span_eq(good, whole_file(path)));
  be_oneself();
}

/* SQLite takes a file of a few bytes for an empty database and writes over it. */
static void small_files_of_others_are_left_alone(void **state) {
  (void)state;
  static const size_t BYTES[] = {1, 2, 15, 16, 49, 50, 100, 511, 512, 513, 4096};
  for (size_t i = 0; i < COUNT_OF(BYTES); i++) {
    char *text = arena_alloc(&arena, BYTES[i], 1);
    memset(text, 'x', BYTES[i]);
    write_file(file("other"), (struct span){text, BYTES[i]});
    struct store *t = NULL;
    assert_int_not_equal(store_open(file("other"), &t, &why), STORE_DONE);
    assert_null(t);
    assert_true(span_eq(whole_file(file("other")), (struct span){text, BYTES[i]}));
  }
  struct store *t = NULL;
  write_file(file("empty"), SPAN_LIT(""));
  assert_int_equal(store_open(file("empty"), &t, &why), STORE_DONE);
  store_close(t);
}

/* Every single bit of a stored text, flipped in the file where SQLite has no check of its own. */
static void a_flipped_bit_is_noticed_and_named(void **state) {
  (void)state;
  saved("whole", "untouched", 0);
  saved("hurt", "FINDME and the rest of it", 0);
  store_close(s);
  s = NULL;
  struct span good = whole_file(path);
  char *bytes = arena_text(&arena, good);
  size_t at = 0;
  for (size_t i = 0; i + 6 < good.n; i++)
    if (memcmp(good.p + i, "FINDME", 6) == 0) at = i;
  assert_true(at > 0);
  for (size_t bit = 0; bit < 25 * 8; bit++) {
    struct store_list l;
    bytes[at + bit / 8] = (char)(bytes[at + bit / 8] ^ (1 << bit % 8));
    write_file(file("bit.db"), (struct span){bytes, good.n});
    assert_int_equal(store_open(file("bit.db"), &s, &why), STORE_DONE);
    assert_int_equal(store_list(s, false, &l, &arena), STORE_DONE);
    assert_int_equal(l.damaged, 1);
    assert_int_equal(l.damaged_ids, 1);
    assert_true(span_is(l.damaged_id[0], "hurt"));
    is_newest(s, "whole", "untouched", 1);
    store_close(s);
    s = NULL;
    bytes[at + bit / 8] = (char)(bytes[at + bit / 8] ^ (1 << bit % 8));
  }
}

/* A file of format 1, made here with the statements of that edition. */
static void a_file_without_sums_is_taken_over(void **state) {
  (void)state;
  sqlite3 *db = NULL;
  assert_int_equal(sqlite3_open(file("old.db"), &db), SQLITE_OK);
  assert_int_equal(
      sqlite3_exec(db,
                   OLD_EDITION("") "PRAGMA application_id = 0x426F776C; PRAGMA user_version = 1;"
                                   "INSERT INTO text VALUES ('a', 2, 0, 1);"
                                   "INSERT INTO state VALUES ('a', 1, 'recipe', '2026-11-02T09:30:00Z', 'first', 1),"
                                   " ('a', 2, 'recipe', '2026-11-02T09:31:00Z', 'second', 0);",
                   NULL, NULL, NULL),
      SQLITE_OK);
  sqlite3_close(db);
  store_close(s);
  for (int round = 0; round < 2; round++) {
    assert_int_equal(store_open(file("old.db"), &s, &why), STORE_DONE);
    is_newest(s, "a", "second", 2);
    assert_string_equal(versions_of("a", true), "1 first, ");
    if (round == 0) store_close(s);
  }
  assert_int_equal(saved("a", "third", 2), 3);
}

static void only_the_owner_may_read_it(void **state) {
  (void)state;
  struct stat st;
  assert_int_equal(stat(path, &st), 0);
  assert_int_equal(st.st_mode & 0777, 0600);
  saved("a", "one", 0);
  assert_int_equal(stat(file("deep/er/texts.db-wal"), &st), 0);
  assert_int_equal(st.st_mode & 0777, 0600);
  assert_int_equal(stat(file("deep"), &st), 0);
  assert_int_equal(st.st_mode & 0777, 0700);
}

static void a_backup_is_whole_and_never_writes_over(void **state) {
  (void)state;
  struct store *copy = NULL;
  saved("a", "one", 0);
  assert_int_equal(store_backup(s, file("copy.db"), &why), STORE_DONE);
  assert_int_equal(store_backup(s, file("copy.db"), &why), STORE_EXISTS);
  assert_int_equal(store_backup(s, file("no/such/folder.db"), &why), STORE_TROUBLE);
  assert_int_not_equal(access(file("copy.db-wal"), F_OK), 0);
  saved("a", "two", 1);
  assert_int_equal(store_open(file("copy.db"), &copy, &why), STORE_DONE);
  is_newest(copy, "a", "one", 1);
  store_close(copy);
}

/* Names that SQLite would read as something else: an address of another file, memory that nobody keeps. */
static void a_name_is_a_name(void **state) {
  static const char *const NAMES[] = {"file:other.db", "file:x?mode=memory", ":memory:", "per%20cent", "-"};
  struct store *odd = NULL;
  int64_t rev = 0;
  (void)state;
  assert_int_equal(chdir(folder), 0);
  write_file("other.db", SPAN_LIT("not to be touched"));
  for (size_t i = 0; i < COUNT_OF(NAMES); i++) {
    for (int64_t round = 0; round < 2; round++) {
      assert_int_equal(store_open(NAMES[i], &odd, &why), STORE_DONE);
      assert_int_equal(write_to(odd, "a", "kept", round, true, &rev), STORE_DONE);
      store_close(odd);
      assert_true(whole_file(file(NAMES[i])).n > 4096);
    }
    assert_int_equal(remove(NAMES[i]), 0);
    assert_int_equal(store_backup(s, NAMES[i], &why), STORE_DONE);
    assert_true(whole_file(file(NAMES[i])).n > 4096);
  }
  assert_true(span_is(whole_file("other.db"), "not to be touched"));
  assert_int_equal(chdir("/"), 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      ON_A_FILE(a_full_file_loses_nothing_and_recovers),
      ON_A_FILE(a_disk_that_refuses_to_write),
      ON_A_FILE(a_removed_file_takes_no_saves),
      ON_A_FILE(a_damaged_file_is_left_as_it_is),
      ON_A_FILE(a_damaged_file_with_a_log_is_left_as_it_is),
      ON_A_FILE(foreign_and_newer_files),
      ON_A_FILE(rows_that_cannot_be_read_are_counted),
      ON_A_FILE(a_full_disk_can_be_read),
      ON_A_FILE(a_file_that_may_only_be_read),
      ON_A_FILE(small_files_of_others_are_left_alone),
      ON_A_FILE(a_flipped_bit_is_noticed_and_named),
      ON_A_FILE(a_file_without_sums_is_taken_over),
      ON_A_FILE(only_the_owner_may_read_it),
      ON_A_FILE(a_backup_is_whole_and_never_writes_over),
      ON_A_FILE(a_name_is_a_name),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
