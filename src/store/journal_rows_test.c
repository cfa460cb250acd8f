#define _POSIX_C_SOURCE 200809L
#include "store_scene.h"

#include <math.h>

#include "store/journal_rows.h"

#define ID SPAN_LIT("house")

static struct store_line line_of(int64_t day, const char *animal, const char *fact, double kg, const char *body) {
  return (struct store_line){day, span_of(animal), span_of(fact), kg, span_of(body)};
}

static const char *joined(const struct store_lines *l) {
  struct buf b;
  buf_init(&b, &arena, 1 << 16);
  for (size_t i = 0; i < l->count; i++) buf_addf(&b, "%.*s\n", SPAN_ARG(l->item[i].body));
  return buf_text(&b);
}

static const char *as_of(int64_t save) {
  struct store_lines l;
  assert_int_equal(store_journal_read(s, ID, save, &l, &arena), STORE_DONE);
  assert_int_equal(l.damaged, 0);
  return joined(&l);
}

static int rows(void) {
  sqlite3_stmt *q = NULL;
  assert_int_equal(sqlite3_prepare_v2(s->db, "SELECT count(*) FROM journal_line", -1, &q, NULL), SQLITE_OK);
  assert_int_equal(sqlite3_step(q), SQLITE_ROW);
  int n = sqlite3_column_int(q, 0);
  sqlite3_finalize(q);
  return n;
}

static void every_save_can_be_read(void **state) {
  (void)state;
  struct store_line l[] = {line_of(0, "", "", NAN, "# the autumn"),
                           line_of(100, "Juniper", "weighs", 18.2, "1 Juniper weighs 18.2 kg"),
                           line_of(101, "Juniper", "ate", NAN, "2 Juniper ate 430 g bowl"), line_of(0, "", "", NAN, "")};
  int64_t save = 7;
  assert_string_equal(as_of(0), "");
  assert_int_equal(store_journal_write(s, ID, l, 3, 0, &save), STORE_DONE);
  assert_int_equal(save, 1);
  /* One more line is one more row. */
  assert_int_equal(store_journal_write(s, ID, l, 4, 1, &save), STORE_DONE);
  assert_int_equal(rows(), 4);
  l[1].body = SPAN_LIT("1 Juniper weighs 18.1 kg");
  l[1].kg = 18.1;
  assert_int_equal(store_journal_write(s, ID, l, 3, 2, &save), STORE_DONE);
  assert_int_equal(save, 3);
  assert_string_equal(as_of(1), "# the autumn\n1 Juniper weighs 18.2 kg\n2 Juniper ate 430 g bowl\n");
  assert_string_equal(as_of(2), "# the autumn\n1 Juniper weighs 18.2 kg\n2 Juniper ate 430 g bowl\n\n");
  assert_string_equal(as_of(3), "# the autumn\n1 Juniper weighs 18.1 kg\n2 Juniper ate 430 g bowl\n");
  assert_string_equal(as_of(0), as_of(3));
  /* Somebody who knows an older save writes nothing over. */
  assert_int_equal(store_journal_write(s, ID, l, 1, 2, &save), STORE_CONFLICT);
  assert_int_equal(save, 3);
  assert_string_equal(as_of(0), as_of(3));
}

static void days_of_one_animal(void **state) {
  (void)state;
  const struct store_line l[] = {line_of(102, "Juniper", "weighs", 18.2, "c"), line_of(100, "Juniper", "weighs", 18.1, "a"),
                                 line_of(100, "Pim", "weighs", 4.6, "x"), line_of(101, "Juniper", "ate", NAN, "b")};
  struct store_lines out;
  int64_t save;
  assert_int_equal(store_journal_write(s, ID, l, COUNT_OF(l), 0, &save), STORE_DONE);
  assert_int_equal(store_journal_days(s, ID, SPAN_LIT("Juniper"), 100, 101, &out, &arena), STORE_DONE);
  assert_string_equal(joined(&out), "a\nb\n");
  assert_true(out.item[0].kg == 18.1 && isnan(out.item[1].kg));
  assert_int_equal(out.item[1].day, 101);
}

static void a_row_that_was_changed_is_noticed(void **state) {
  (void)state;
  const struct store_line l[] = {line_of(100, "Juniper", "weighs", 18.2, "a"), line_of(101, "Juniper", "weighs", 18.3, "b")};
  struct store_lines out;
  int64_t save;
  assert_int_equal(store_journal_write(s, ID, l, COUNT_OF(l), 0, &save), STORE_DONE);
  assert_int_equal(sqlite3_exec(s->db, "UPDATE journal_line SET kg = 81.2 WHERE line = 1", NULL, NULL, NULL), SQLITE_OK);
  assert_int_equal(store_journal_read(s, ID, 0, &out, &arena), STORE_DONE);
  assert_int_equal(out.damaged, 1);
  assert_string_equal(joined(&out), "b\n");
}

/* A file of format 2, made here with the statements of that edition. */
static void a_file_without_journals_is_taken_over(void **state) {
  (void)state;
  sqlite3 *db = NULL;
  struct store_lines out;
  int64_t save;
  assert_int_equal(sqlite3_open(file("two.db"), &db), SQLITE_OK);
  assert_int_equal(
      sqlite3_exec(db, OLD_EDITION(" sum INTEGER NOT NULL,") "PRAGMA application_id = 0x426F776C; PRAGMA user_version = 2;",
                   NULL, NULL, NULL),
      SQLITE_OK);
  sqlite3_close(db);
  store_close(s);
  const struct store_line one = line_of(100, "Juniper", "weighs", 18.2, "a");
  assert_int_equal(store_open(file("two.db"), &s, &why), STORE_DONE);
  int64_t rev = 0;
  assert_int_equal(write_to(s, "b", "a text", 0, true, &rev), STORE_DONE);
  assert_int_equal(store_journal_read(s, ID, 0, &out, &arena), STORE_DONE);
  assert_int_equal(out.save, 0);
  assert_int_equal(store_journal_write(s, ID, &one, 1, 0, &save), STORE_DONE);
  store_close(s);
  assert_int_equal(store_open(file("two.db"), &s, &why), STORE_DONE);
  assert_string_equal(as_of(0), "a\n");
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(every_save_can_be_read, setup, teardown),
      cmocka_unit_test_setup_teardown(days_of_one_animal, setup, teardown),
      cmocka_unit_test_setup_teardown(a_row_that_was_changed_is_noticed, setup, teardown),
      cmocka_unit_test_setup_teardown(a_file_without_journals_is_taken_over, setup, teardown),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
