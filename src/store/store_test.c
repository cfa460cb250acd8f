/* The store: saves, conflicts, removal, versions, several programs, one file out and in. */
#define _DEFAULT_SOURCE
#include "store_scene.h"

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

/* What is newest is counted, not timed: a clock that is set back by an hour, a year or a century hides nothing. */
static void a_clock_set_back_hides_nothing(void **state) {
  static const char *const AT[] = {"2026-11-02T09:30:00.123Z", "2026-11-02T08:30:00.000Z", "2025-11-02T09:30:00.123Z",
                                   "1970-01-01T00:00:00.000Z", "2026-11-02T09:30:01.000Z"};
  static const char *const BODY[] = {"first", "second", "third", "fourth", "fifth"};
  struct store_list l;
  struct store_change *change = NULL;
  size_t count = 0;
  int64_t rev = 0;
  (void)state;
  for (size_t i = 0; i < COUNT_OF(AT); i++) {
    const struct store_save save = {SPAN_LIT("a"), SPAN_LIT("recipe"), span_of(BODY[i]), (int64_t)i, true, AT[i]};
    assert_int_equal(store_write(s, &save, &rev, &theirs, &found, &arena), STORE_DONE);
    is_newest(s, "a", BODY[i], (int64_t)i + 1);
    assert_int_equal(store_changes(s, (int64_t)i, 10, &change, &count, &arena), STORE_DONE);
    assert_true(count == 1 && change[0].number == (int64_t)i + 1);
  }
  assert_string_equal(versions_of("a", true), "4 fourth, 3 third, 2 second, 1 first, ");
  reopen();
  is_newest(s, "a", "fifth", 5);
  assert_int_equal(store_list(s, false, &l, &arena), STORE_DONE);
  assert_true(l.count == 1 && span_is(l.item[0].saved, AT[4]));
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
  const struct store_bundle in = {{.item = text, .count = 2, .cap = 2}, {.item = version, .count = 4, .cap = 4}};
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

static void one_id_twice_in_a_bundle(void **state) {
  (void)state;
  struct store_text text[] = {entry("a", "recipe", "third", 2, "2026-11-01T10:00:00Z"),
                              entry("a", "recipe", "first", 1, "2026-11-01T10:00:00Z"),
                              entry("a", "recipe", "second", 1, "2026-11-01T10:00:00Z")};
  const struct store_bundle in = {{.item = text, .count = 3, .cap = 3}, {.item = NULL, .count = 0, .cap = 0}};
  for (int round = 0; round < 3; round++) {
    assert_int_equal(store_import(s, &in, &arena), STORE_DONE);
    is_newest(s, "a", "third", 3);
    assert_string_equal(versions_of("a", true), "2 second, 1 first, ");
  }
}

/* What was taken in and saved again can be given out and taken in again. */
static void no_rev_leaves_what_a_bundle_may_hold(void **state) {
  (void)state;
  struct store_text text[] = {entry("a", "recipe", "high", STORE_REV_MOST, "2026-11-01T10:00:00Z")};
  const struct store_bundle in = {{.item = text, .count = 1, .cap = 1}, {.item = NULL, .count = 0, .cap = 0}};
  struct store_bundle out;
  struct store_text t;
  assert_int_equal(store_import(s, &in, &arena), STORE_DONE);
  assert_int_equal(store_read(s, SPAN_LIT("a"), &t, &found, &arena), STORE_DONE);
  saved("a", "saved again", t.rev);
  assert_int_equal(store_export(s, true, SIZE_MAX, &out, &arena), STORE_DONE);
  assert_int_equal(store_import(s, &out, &arena), STORE_DONE);
}

/* The question whether a state is here goes through an index: without it, an import of many states of one text takes as many
 * steps as their square. SQLite counts the steps of a scan. */
static void an_import_does_not_look_at_every_state_for_each(void **state) {
  (void)state;
  enum { MANY = 500 };
  struct store_text version[MANY];
  struct store_text text[] = {entry("a", "recipe", "now", MANY + 1, "2026-11-01T10:00:00Z")};
  for (int i = 0; i < MANY; i++) {
    struct buf at;
    buf_init(&at, &arena, 64);
    buf_addf(&at, "2026-11-01T09:00:00.%c%c%cZ", '0' + i / 100, '0' + i / 10 % 10, '0' + i % 10);
    version[i] = entry("a", "recipe", "then", i + 1, buf_text(&at));
  }
  const struct store_bundle in = {{.item = text, .count = 1, .cap = 1}, {.item = version, .count = MANY, .cap = MANY}};
  for (int round = 0; round < 2; round++) assert_int_equal(store_import(s, &in, &arena), STORE_DONE);
  is_newest(s, "a", "now", MANY + 1);
  sqlite3_stmt *q = s->statement[FIND_STATE];
  assert_in_range(sqlite3_stmt_status(q, SQLITE_STMTSTATUS_VM_STEP, 0), 1, 2 * MANY * 50);
}

/* The bundle only has versions of a text that is alive here: it stays what it is. */
static void versions_alone_leave_the_text(void **state) {
  (void)state;
  saved("a", "alive", 0);
  struct store_text version[] = {entry("a", "recipe", "from elsewhere", 7, "2026-11-01T09:00:00Z")};
  const struct store_bundle in = {{.item = NULL, .count = 0, .cap = 0}, {.item = version, .count = 1, .cap = 1}};
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
  struct store_bundle in = {{.item = text, .count = 2, .cap = 2}, {.item = NULL, .count = 0, .cap = 0}};
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

int main(void) {
  const struct CMUnitTest tests[] = {
      ON_A_FILE(a_text_lives),
      ON_A_FILE(a_save_from_an_old_rev_changes_nothing),
      ON_A_FILE(a_clock_set_back_hides_nothing),
      ON_A_FILE(removal_keeps_every_state),
      ON_A_FILE(versions_that_nobody_marked_are_kept_too),
      ON_A_FILE(changes_are_numbered_over_the_whole_store),
      ON_A_FILE(another_handle_sees_and_competes),
      ON_A_FILE(a_locked_file_is_busy_and_then_not),
      ON_A_FILE(a_bundle_goes_around),
      ON_A_FILE(a_bundle_never_hides_what_is_here),
      ON_A_FILE(one_id_twice_in_a_bundle),
      ON_A_FILE(no_rev_leaves_what_a_bundle_may_hold),
      ON_A_FILE(an_import_does_not_look_at_every_state_for_each),
      ON_A_FILE(versions_alone_leave_the_text),
      ON_A_FILE(a_bundle_is_taken_whole_or_not_at_all),
      ON_A_FILE(versions_are_left_out_of_a_bundle_that_grows_too_long),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
