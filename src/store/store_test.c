/* The store: what its header promises, on real files. */
#define _DEFAULT_SOURCE
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

#include "store/internal.h"

static struct arena arena;
static struct buf why;
static char folder[64], path[128];
static struct store *s;

static const char *file(const char *name) {
  struct buf b;
  buf_init(&b, &arena, 4096);
  buf_addf(&b, "%s/%s", folder, name);
  return buf_text(&b);
}

static int setup(void **state) {
  (void)state;
  arena_init(&arena, NULL);
  buf_init(&why, &arena, 4096);
  snprintf(folder, sizeof folder, "/tmp/bowlwright-store-XXXXXX");
  if (!mkdtemp(folder)) return -1;
  snprintf(path, sizeof path, "%s/deep/er/texts.db", folder);
  return store_open(path, &s, &why) == STORE_DONE ? 0 : -1;
}

static int teardown(void **state) {
  char command[160];
  (void)state;
  store_close(s);
  s = NULL;
  arena_free(&arena);
  snprintf(command, sizeof command, "rm -rf '%s'", folder);
  return system(command);
}

/* ---- shorthands ---- */

static struct store_text theirs;
static bool found;

static enum store_outcome write_to(struct store *to, const char *id, const char *body, int64_t base, bool keep,
                                   int64_t *rev) {
  const struct store_save save = {span_of(id), SPAN_LIT("recipe"), span_of(body), base, keep, "2026-11-02T09:30:00.123Z"};
  return store_write(to, &save, rev, &theirs, &found, &arena);
}

static int64_t saved(const char *id, const char *body, int64_t base) {
  int64_t rev = 0;
  assert_int_equal(write_to(s, id, body, base, true, &rev), STORE_DONE);
  return rev;
}

static void is_newest(struct store *in, const char *id, const char *body, int64_t rev) {
  struct store_text t = {0};
  assert_int_equal(store_read(in, span_of(id), &t, &found, &arena), STORE_DONE);
  assert_int_equal(found, body != NULL);
  if (!body) return;
  assert_true(span_is(t.body, body));
  assert_int_equal(t.rev, rev);
}

/* Revs and bodies of the versions, newest first: "2 b, 1 a, ". */
static const char *versions_of(const char *id, bool every) {
  struct store_list l;
  struct buf b;
  const struct store_versions_wish wish = {0, every, 1000, SIZE_MAX};
  assert_int_equal(store_versions(s, span_of(id), &wish, &l, &arena), STORE_DONE);
  buf_init(&b, &arena, 65536);
  buf_adds(&b, "");
  for (size_t i = 0; i < l.count; i++) buf_addf(&b, "%ld %.*s, ", (long)l.item[i].rev, SPAN_ARG(l.item[i].body));
  return buf_text(&b);
}

static size_t texts_here(bool removed) {
  struct store_list l;
  assert_int_equal(store_list(s, removed, &l, &arena), STORE_DONE);
  assert_int_equal(l.damaged, 0);
  return l.count;
}

static void sql(const char *statement) {
  char *said = NULL;
  int code = sqlite3_exec(s->db, statement, NULL, NULL, &said);
  if (code != SQLITE_OK) fail_msg("%s: %s", statement, said);
}

static struct span whole_file(const char *name) {
  FILE *f = fopen(name, "rb");
  assert_non_null(f);
  struct buf b;
  char piece[4096];
  buf_init(&b, &arena, 64 * 1024 * 1024);
  for (size_t n; (n = fread(piece, 1, sizeof piece, f)) > 0;) buf_add(&b, (struct span){piece, n});
  fclose(f);
  return buf_span(&b);
}

static void write_file(const char *name, struct span bytes) {
  FILE *f = fopen(name, "wb");
  assert_non_null(f);
  assert_int_equal(fwrite(bytes.p, 1, bytes.n, f), bytes.n);
  assert_int_equal(fclose(f), 0);
}

static void reopen(void) {
  store_close(s);
  assert_int_equal(store_open(path, &s, &why), STORE_DONE);
}

/* ---- texts ---- */

static void a_text_lives(void **state) {
  (void)state;
  assert_int_equal(saved("a", "one", 0), 1);
  assert_int_equal(saved("a", "two", 1), 2);
  assert_int_equal(saved("b", "", 0), 1);
  is_newest(s, "a", "two", 2);
  is_newest(s, "b", "", 1);
  is_newest(s, "c", NULL, 0);
  assert_int_equal(texts_here(false), 2);
  assert_string_equal(versions_of("a", false), "1 one, ");
  reopen();
  is_newest(s, "a", "two", 2);
  assert_string_equal(versions_of("a", false), "1 one, ");
}

static void a_save_from_an_old_rev_changes_nothing(void **state) {
  (void)state;
  int64_t rev = 7;
  saved("a", "one", 0);
  saved("a", "two", 1);
  static const int64_t STALE[] = {0, 1, 3, 999999999999999};
  for (size_t i = 0; i < COUNT_OF(STALE); i++) {
    assert_int_equal(write_to(s, "a", "mine", STALE[i], true, &rev), STORE_CONFLICT);
    assert_true(found && span_is(theirs.body, "two") && theirs.rev == 2 && rev == 0);
  }
  assert_int_equal(write_to(s, "new", "mine", 1, true, &rev), STORE_CONFLICT);
  assert_false(found);
  assert_int_equal(store_remove(s, SPAN_LIT("a"), 1, &theirs, &found, &arena), STORE_CONFLICT);
  is_newest(s, "a", "two", 2);
  assert_string_equal(versions_of("a", true), "1 one, ");
  assert_int_equal(texts_here(false), 1);
}

static void removal_keeps_every_state(void **state) {
  (void)state;
  saved("a", "one", 0);
  saved("a", "two", 1);
  assert_int_equal(store_remove(s, SPAN_LIT("a"), 2, &theirs, &found, &arena), STORE_DONE);
  assert_int_equal(store_remove(s, SPAN_LIT("a"), 2, &theirs, &found, &arena), STORE_DONE); /* gone already */
  assert_int_equal(store_remove(s, SPAN_LIT("never"), 1, &theirs, &found, &arena), STORE_DONE);
  is_newest(s, "a", NULL, 0);
  assert_int_equal(texts_here(false), 0);
  assert_int_equal(texts_here(true), 1);
  reopen();
  assert_string_equal(versions_of("a", false), "2 two, 1 one, ");
  int64_t rev = 0;
  assert_int_equal(write_to(s, "a", "mine", 2, true, &rev), STORE_CONFLICT); /* the writer did not know of the removal */
  assert_false(found);
  assert_int_equal(saved("a", "back", 0), 3);
  assert_int_equal(texts_here(true), 0);
  assert_string_equal(versions_of("a", false), "2 two, 1 one, ");
}

static void versions_that_nobody_marked_are_kept_too(void **state) {
  (void)state;
  int64_t rev = 0;
  saved("a", "one", 0);
  for (int64_t i = 1; i < 6; i++)
    assert_int_equal(write_to(s, "a", i == 3 ? "four" : "typing", i, i == 4, &rev), STORE_DONE);
  assert_string_equal(versions_of("a", false), "4 four, ");
  assert_string_equal(versions_of("a", true), "5 typing, 4 four, 3 typing, 2 typing, 1 one, ");
  struct store_list l;
  struct store_versions_wish wish = {5, true, 2, SIZE_MAX};
  assert_int_equal(store_versions(s, SPAN_LIT("a"), &wish, &l, &arena), STORE_DONE);
  assert_true(l.count == 2 && l.item[0].rev == 4 && l.item[1].rev == 3 && l.more);
  wish = (struct store_versions_wish){2, true, 2, SIZE_MAX};
  assert_int_equal(store_versions(s, SPAN_LIT("a"), &wish, &l, &arena), STORE_DONE);
  assert_true(l.count == 1 && !l.more);
  wish = (struct store_versions_wish){0, true, 100, 7}; /* "typing" and no more */
  assert_int_equal(store_versions(s, SPAN_LIT("a"), &wish, &l, &arena), STORE_DONE);
  assert_true(l.count == 1 && l.more);
}

static void changes_are_numbered_over_the_whole_store(void **state) {
  (void)state;
  struct store_change *c;
  size_t count = 0;
  int64_t number = -1;
  assert_int_equal(store_last_change(s, &number), STORE_DONE);
  assert_int_equal(number, 0);
  saved("a", "one", 0);
  saved("b", "one", 0);
  saved("a", "two", 1);
  assert_int_equal(store_remove(s, SPAN_LIT("b"), 1, &theirs, &found, &arena), STORE_DONE);
  assert_int_equal(store_last_change(s, &number), STORE_DONE);
  assert_int_equal(number, 4);
  assert_int_equal(store_changes(s, 2, 10, &c, &count, &arena), STORE_DONE);
  assert_int_equal(count, 2);
  assert_true(span_is(c[0].id, "a") && c[0].rev == 2 && c[0].number == 3);
  assert_true(span_is(c[1].id, "b") && c[1].rev == 0 && c[1].number == 4);
}

/* ---- two programs on one file ---- */

static void another_handle_sees_and_competes(void **state) {
  (void)state;
  struct store *other = NULL;
  int64_t rev = 0;
  saved("a", "one", 0);
  assert_int_equal(store_open(path, &other, &why), STORE_DONE);
  is_newest(other, "a", "one", 1);
  assert_int_equal(write_to(other, "a", "two", 1, true, &rev), STORE_DONE);
  assert_int_equal(write_to(s, "a", "mine", 1, true, &rev), STORE_CONFLICT);
  assert_true(found && span_is(theirs.body, "two"));
  saved("a", "three", 2);
  is_newest(other, "a", "three", 3);
  store_close(other);
}

static void a_locked_file_is_busy_and_then_not(void **state) {
  (void)state;
  struct store *other = NULL;
  int64_t rev = 0;
  assert_int_equal(store_open(path, &other, &why), STORE_DONE);
  sqlite3_busy_timeout(s->db, 20);
  assert_int_equal(sqlite3_exec(other->db, "BEGIN IMMEDIATE", NULL, NULL, NULL), SQLITE_OK);
  assert_int_equal(write_to(s, "a", "one", 0, true, &rev), STORE_BUSY);
  assert_int_equal(sqlite3_exec(other->db, "COMMIT", NULL, NULL, NULL), SQLITE_OK);
  assert_int_equal(saved("a", "one", 0), 1);
  store_close(other);
}

/* ---- no room ---- */

static const char *long_body(size_t n) {
  char *p = arena_alloc(&arena, n + 1, 1);
  memset(p, 'x', n);
  return p;
}

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
  sql("PRAGMA user_version = 2");
  store_close(s);
  s = NULL;
  left_alone(path, STORE_NEWER);
  sqlite3 *db = NULL;
  assert_int_equal(sqlite3_open(file("foreign"), &db), SQLITE_OK);
  assert_int_equal(sqlite3_exec(db, "CREATE TABLE theirs (x)", NULL, NULL, NULL), SQLITE_OK);
  sqlite3_close(db);
  left_alone(file("foreign"), STORE_FOREIGN);
  struct store *t = NULL;
  assert_int_equal(store_open(folder, &t, &why), STORE_TROUBLE);
  assert_int_equal(mkdir(file("shut"), 0500), 0);
  if (geteuid() != 0) assert_int_equal(store_open(file("shut/texts.db"), &t, &why), STORE_TROUBLE);
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

static void only_the_owner_may_read_it(void **state) {
  (void)state;
  struct stat st;
  assert_int_equal(stat(path, &st), 0);
  assert_int_equal(st.st_mode & 0777, 0600);
  assert_int_equal(stat(file("deep"), &st), 0);
  assert_int_equal(st.st_mode & 0777, 0700);
}

/* ---- out and in ---- */

static struct store_text entry(const char *id, const char *kind, const char *body, int64_t rev, const char *at) {
  return (struct store_text){span_of(id), span_of(kind), span_of(body), span_of(at), rev};
}

static void a_bundle_goes_around(void **state) {
  (void)state;
  struct store_bundle out, again;
  struct store *other = NULL;
  saved("a", "one", 0);
  saved("a", "two", 1);
  saved("gone", "last words", 0);
  assert_int_equal(store_remove(s, SPAN_LIT("gone"), 1, &theirs, &found, &arena), STORE_DONE);
  assert_int_equal(store_export(s, false, SIZE_MAX, &out, &arena), STORE_DONE);
  assert_true(out.texts.count == 1 && out.versions.count == 2 && !out.versions.more);
  assert_int_equal(store_open(file("other.db"), &other, &why), STORE_DONE);
  for (int round = 0; round < 2; round++) {
    assert_int_equal(store_import(other, &out, &arena), STORE_DONE);
    assert_int_equal(store_export(other, true, SIZE_MAX, &again, &arena), STORE_DONE);
    assert_int_equal(again.texts.count, 1);
    assert_int_equal(again.versions.count, 2);
    is_newest(other, "a", "two", 2);
    assert_true(span_is(again.versions.item[1].body, "last words"));
  }
  store_close(other);
}

static void a_bundle_never_hides_what_is_here(void **state) {
  (void)state;
  saved("a", "here one", 0);
  saved("a", "here two", 1);
  struct store_text text[] = {entry("a", "recipe", "there three", 3, "2026-11-01T10:00:00Z"),
                              entry("z", "larder", "new", 9, "2026-11-01T10:00:00Z")};
  struct store_text version[] = {
      entry("a", "", "there two", 2, "2026-11-01T09:00:00Z"), entry("a", "", "there one", 1, "2026-11-01T08:00:00Z"),
      entry("z", "", "older", 4, "2026-11-01T08:00:00Z"), entry("unknown", "", "no kind", 4, "2026-11-01T08:00:00Z")};
  const struct store_bundle in = {{text, 2, 2, 0, false}, {version, 4, 4, 0, false}};
  for (int round = 0; round < 2; round++) {
    assert_int_equal(store_import(s, &in, &arena), STORE_DONE);
    is_newest(s, "a", "there three", 5);
    assert_string_equal(versions_of("a", false), "4 there two, 3 there one, 2 here two, 1 here one, ");
    is_newest(s, "z", "new", 9);
    assert_string_equal(versions_of("z", false), "4 older, ");
    assert_int_equal(texts_here(false), 2);
    assert_int_equal(texts_here(true), 0);
  }
}

/* The bundle only has versions of a text that is alive here: it stays what it is. */
static void versions_alone_leave_the_text(void **state) {
  (void)state;
  saved("a", "alive", 0);
  struct store_text version[] = {entry("a", "recipe", "from elsewhere", 7, "2026-11-01T09:00:00Z")};
  const struct store_bundle in = {{NULL, 0, 0, 0, false}, {version, 1, 1, 0, false}};
  for (int round = 0; round < 2; round++) {
    assert_int_equal(store_import(s, &in, &arena), STORE_DONE);
    is_newest(s, "a", "alive", 3);
    assert_string_equal(versions_of("a", false), "2 from elsewhere, 1 alive, ");
  }
}

static void a_bundle_is_taken_whole_or_not_at_all(void **state) {
  (void)state;
  struct store_text text[] = {entry("a", "recipe", "fine", 1, "2026-11-01T10:00:00Z"),
                              entry("b", "recipe", "bad \xFF", 1, "2026-11-01T10:00:00Z")};
  struct store_bundle in = {{text, 2, 2, 0, false}, {NULL, 0, 0, 0, false}};
  assert_int_equal(store_import(s, &in, &arena), STORE_TROUBLE);
  text[1] = entry("b", "recipe", long_body(400000), 1, "2026-11-01T10:00:00Z");
  sql("PRAGMA max_page_count = 20");
  assert_int_equal(store_import(s, &in, &arena), STORE_NO_ROOM);
  assert_int_equal(texts_here(false), 0);
  sql("PRAGMA max_page_count = 100000");
  assert_int_equal(store_import(s, &in, &arena), STORE_DONE);
  assert_int_equal(texts_here(false), 2);
}

static void versions_are_left_out_of_a_bundle_that_grows_too_long(void **state) {
  (void)state;
  struct store_bundle out;
  for (int64_t i = 0; i < 10; i++) saved("a", long_body(1000), i);
  assert_int_equal(store_export(s, false, 5 * 1256, &out, &arena), STORE_DONE);
  assert_true(out.texts.count == 1 && out.versions.count == 4 && out.versions.more);
  assert_int_equal(out.versions.item[0].rev, 9);
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

#define ON_A_FILE(test) cmocka_unit_test_setup_teardown(test, setup, teardown)

int main(void) {
  const struct CMUnitTest tests[] = {
      ON_A_FILE(a_text_lives),
      ON_A_FILE(a_save_from_an_old_rev_changes_nothing),
      ON_A_FILE(removal_keeps_every_state),
      ON_A_FILE(versions_that_nobody_marked_are_kept_too),
      ON_A_FILE(changes_are_numbered_over_the_whole_store),
      ON_A_FILE(another_handle_sees_and_competes),
      ON_A_FILE(a_locked_file_is_busy_and_then_not),
      ON_A_FILE(a_full_file_loses_nothing_and_recovers),
      ON_A_FILE(a_disk_that_refuses_to_write),
      ON_A_FILE(a_removed_file_takes_no_saves),
      ON_A_FILE(a_damaged_file_is_left_as_it_is),
      ON_A_FILE(a_damaged_file_with_a_log_is_left_as_it_is),
      ON_A_FILE(foreign_and_newer_files),
      ON_A_FILE(rows_that_cannot_be_read_are_counted),
      ON_A_FILE(only_the_owner_may_read_it),
      ON_A_FILE(a_bundle_goes_around),
      ON_A_FILE(a_bundle_never_hides_what_is_here),
      ON_A_FILE(versions_alone_leave_the_text),
      ON_A_FILE(a_bundle_is_taken_whole_or_not_at_all),
      ON_A_FILE(versions_are_left_out_of_a_bundle_that_grows_too_long),
      ON_A_FILE(a_backup_is_whole_and_never_writes_over),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
