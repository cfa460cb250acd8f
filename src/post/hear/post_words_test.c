/* post_words_test.c: the dictionary that the build makes against the table that it was made from, row by row, read here by
 * other code: every phrase is found in its class, with its meaning, and in no class that has no row of it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "post/hear/post_words.h"
#include "tests/support/fresh_arena.h"

enum { ROWS_MOST = 20000 };

static struct span whole_file(const char *path) {
  FILE *f = fopen(path, "rb");
  assert_non_null(f);
  char *p = arena_alloc(&arena, 1 << 20, 1);
  size_t n = fread(p, 1, 1 << 20, f);
  assert_int_equal(fclose(f), 0);
  return (struct span){p, n};
}

static struct span cut_at(struct span *rest, char mark) {
  const char *end = rest->n > 0 ? memchr(rest->p, mark, rest->n) : NULL;
  size_t n = end ? (size_t)(end - rest->p) : rest->n;
  struct span piece = span_cut(*rest, 0, n);
  *rest = span_cut(*rest, end ? n + 1 : n, rest->n);
  return piece;
}

struct row {
  enum post_class class;
  struct span phrase, means;
};

static struct {
  struct span class[CLASS_COUNT], form[CLASS_COUNT];
  struct row *row;
  size_t rows;
} table;

static bool next_row(struct span *text, struct span cell[4]) {
  while (text->n > 0) {
    struct span line = cut_at(text, '\n');
    if (line.n == 0 || line.p[0] == '#' || span_starts_fold(line, "class\t")) continue;
    for (int i = 0; i < 4; i++) cell[i] = cut_at(&line, '\t');
    return true;
  }
  return false;
}

static void read_table(void) {
  struct span text = whole_file(BW_SOURCE_DIR "/data/post_classes.tsv"), cell[4];
  for (size_t n = 0; next_row(&text, cell); n++) {
    assert_true(n < CLASS_COUNT);
    table.class[n] = cell[0];
    table.form[n] = cell[1];
  }
  table.row = ARENA_NEW(&arena, struct row, ROWS_MOST);
  text = whole_file(BW_SOURCE_DIR "/data/post_words.tsv");
  table.rows = 0;
  while (next_row(&text, cell)) {
    size_t class = 0;
    while (class < CLASS_COUNT && !span_eq(table.class[class], cell[0])) class ++;
    assert_true(class < CLASS_COUNT);
    while (cell[1].n > 0) {
      assert_true(table.rows < ROWS_MOST);
      table.row[table.rows++] = (struct row){(enum post_class) class, cut_at(&cell[1], '|'), cell[2]};
    }
  }
  assert_true(table.rows > 3000);
}

static void classes_of(struct span phrase, bool has[CLASS_COUNT]) {
  memset(has, 0, CLASS_COUNT * sizeof *has);
  for (size_t i = 0; i < table.rows; i++)
    if (span_eq(table.row[i].phrase, phrase)) has[table.row[i].class] = true;
}

/* "i.e", "p/w", a picture: looked up in the raw text, and no token. */
static bool is_raw(struct span phrase) {
  struct tokens t = tokens_of(phrase, &arena);
  if (memchr(phrase.p, ' ', phrase.n)) return false;
  return t.count != 1 || (t.item[0].kind == TOKEN_MARK && t.item[0].mark >= 128);
}

static void every_phrase_is_found(void **state) {
  static struct known_words seen;
  (void)state;
  read_table();
  for (size_t i = 0; i < table.rows; i++) {
    const struct row *row = &table.row[i];
    const char *means = NULL;
    if (span_is(table.form[row->class], "text")) {
      assert_true(text_holds(row->phrase, row->class));
      assert_int_equal(text_begins(row->phrase, row->class, &means), row->phrase.n);
    } else if (is_raw(row->phrase)) {
      assert_true(is_a(row->phrase, row->class));
      means = row->means.n > 0 ? means_as(row->phrase, row->class) : "";
    } else {
      struct tokens t = tokens_of(row->phrase, &arena);
      size_t used = meaning_at(&t, 0, row->class, &means);
      if (used != t.count) print_error("'%.*s' of %.*s\n", SPAN_ARG(row->phrase), SPAN_ARG(table.class[row->class]));
      assert_int_equal(used, t.count);
      token_know(&t.item[0], &seen); /* as the reader of posts has it: what is sure to be none is not looked for */
      assert_int_equal(phrase_of(&t, 0, row->class), used);
    }
    assert_true(span_is(row->means, means));
  }
}

static void nothing_else_is(void **state) {
  static bool has[CLASS_COUNT];
  int wrong = 0;
  (void)state;
  read_table();
  for (size_t i = 0; i < table.rows; i++) {
    struct span phrase = table.row[i].phrase;
    if (memchr(phrase.p, ' ', phrase.n)) continue;
    classes_of(phrase, has);
    for (int c = 0; c < CLASS_COUNT; c++) {
      if (!span_is(table.form[c], "words") || is_a(phrase, (enum post_class)c) == has[c]) continue;
      print_error("'%.*s' of %.*s\n", SPAN_ARG(phrase), SPAN_ARG(table.class[c]));
      wrong++;
    }
  }
  assert_int_equal(wrong, 0);
  static const char *const NONE[] = {"",           "a", "zzz", "breakfas",
                                     "breakfasts", "0", "-",   "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"};
  for (size_t i = 0; i < COUNT_OF(NONE); i++) assert_false(is_a(span_of(NONE[i]), CLASS_MEAL));
  assert_true(is_a(SPAN_LIT("Breakfast"), CLASS_MEAL));
  for (int c = 1; c < 256; c++) { /* whatever a word begins with: a grave accent stands right before the letters */
    char word[] = {(char)c, 'q', '\0'};
    assert_false(is_a(span_of(word), CLASS_MEAL));
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {T(every_phrase_is_found), T(nothing_else_is)};
  return cmocka_run_group_tests_name("post_words", tests, NULL, NULL);
}
