/* Phrases that must alarm and phrases that must not: tests/dangers/phrases.tsv,
 * written before the matcher. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/buf.h"
#include "foods/hazard_words.h"
#include "tests/dangers/phrase_table.h"
#include "tests/support/built_image.h"

static struct table_row row[ROWS_MOST];
static size_t rows;
enum { SET, EXPECTED, PHRASE };

static int read_rows(void **state) {
  (void)state;
  rows = read_table(BW_SOURCE_DIR "/tests/dangers/phrases.tsv", 3, row);
  return rows > 0 ? 0 : -1;
}

static bool is_hit(const char *expected, const char *id) {
  size_t n = strlen(expected);
  return strncmp(id, expected, n) == 0 && (id[n] == '\0' || id[n] == '-'); /* "xylitol-hidden" is one of "xylitol" */
}

/* 'ids' have blanks between. */
static bool lists(const char *ids, const char *expected) {
  for (const char *p = ids; *p; p += strcspn(p, " ") + (p[strcspn(p, " ")] == ' ')) {
    char one[CELL_BYTES];
    snprintf(one, sizeof one, "%.*s", (int)strcspn(p, " "), p);
    if (is_hit(expected, one)) return true;
  }
  return false;
}

/* The ids found, with blanks between; hazards that are only good to know alarm
 * nobody. */
static void ids_of(const char *phrase, char *out, size_t size) {
  struct arena arena;
  struct hazard_hit hit[HAZARD_HITS_MOST];
  arena_init(&arena, NULL);
  size_t n = hazard_words_find(built_library(), span_of(phrase), hit, HAZARD_HITS_MOST, &arena), at = 0;
  out[0] = '\0';
  for (size_t i = 0; i < n && at < size; i++) {
    const struct img_hazard *h = hazard_row(built_library(), hit[i].hazard);
    if (h->weight == FINDING_KNOW) continue;
    at += (size_t)snprintf(out + at, size - at, "%s%s", at ? " " : "", lib_str(built_library(), h->id));
  }
  arena_free(&arena);
}

/* Every expected hazard is found; among the others there is none to act on, and
 * none at all where none is expected. */
static bool as_expected(const struct table_row *r, char *ids, size_t size) {
  ids_of(r->cell[PHRASE], ids, size);
  if (strcmp(r->cell[EXPECTED], "-") == 0) return ids[0] == '\0';
  for (const char *e = r->cell[EXPECTED]; *e; e += strcspn(e, ",") + (e[strcspn(e, ",")] == ',')) {
    char one[CELL_BYTES];
    snprintf(one, sizeof one, "%.*s", (int)strcspn(e, ","), e);
    if (!lists(ids, one)) return false;
  }
  return true;
}

static void count(const char *set, size_t *right, size_t *all) {
  char ids[CELL_BYTES * 2];
  *right = *all = 0;
  for (size_t i = 0; i < rows; i++) {
    if (strcmp(row[i].cell[SET], set) != 0) continue;
    bool good = as_expected(&row[i], ids, sizeof ids);
    *right += good;
    ++*all;
    if (!good) print_message("%s: '%s': expected %s, found %s\n", set, row[i].cell[PHRASE], row[i].cell[EXPECTED], ids);
  }
}

static void phrases_alarm_or_do_not(void **state) {
  (void)state;
  size_t right, all;
  count("open", &right, &all);
  print_message("open: %zu of %zu\n", right, all);
  assert_int_equal(right, all);
  count("held-out", &right, &all); /* 118 of 118 when it was first looked at */
  print_message("held-out: %zu of %zu\n", right, all);
  assert_int_equal(right, all);
  count("later", &right, &all);
  assert_int_equal(right, all);
}

/* The table itself: at least 150 of each kind, and nothing on both sides. */
static void the_table_is_sound(void **state) {
  (void)state;
  size_t alarms = 0, calm = 0;
  for (size_t i = 0; i < rows; i++) {
    bool none = strcmp(row[i].cell[EXPECTED], "-") == 0;
    calm += none;
    alarms += !none;
  }
  assert_true(alarms >= 150);
  assert_true(calm >= 150);
  assert_true(on_both_sides(row, rows, EXPECTED, PHRASE) == (size_t)-1);
  struct table_row twice[2] = {row[0], row[0]}; /* and the check itself can fail */
  snprintf(twice[1].cell[EXPECTED], CELL_BYTES, "-");
  assert_int_equal(on_both_sides(twice, 2, EXPECTED, PHRASE), 0);
}

/* The same in capitals, and behind a remark of every kind. */
static void capitals_and_surroundings_change_nothing(void **state) {
  (void)state;
  for (size_t i = 0; i < rows; i++) {
    if (strcmp(row[i].cell[SET], "open") != 0 || strcmp(row[i].cell[EXPECTED], "-") == 0) continue;
    struct table_row loud = row[i];
    char ids[CELL_BYTES * 2];
    for (char *p = loud.cell[PHRASE]; *p; p++)
      if (*p >= 'a' && *p <= 'z') *p = (char)(*p - 'a' + 'A');
    if (!as_expected(&loud, ids, sizeof ids)) fail_msg("'%s': found %s", loud.cell[PHRASE], ids);
    snprintf(loud.cell[PHRASE], CELL_BYTES, "Hello. Dinner today: %s. Thank you!", row[i].cell[PHRASE]);
    if (!as_expected(&loud, ids, sizeof ids)) fail_msg("'%s': found %s", loud.cell[PHRASE], ids);
  }
}

/* One text of 10,000 lines: what stands at the end is found, and nothing else
 * is. */
static void a_long_text_is_looked_through(void **state) {
  (void)state;
  enum { LINES = 10000 };
  struct arena arena;
  struct buf text;
  struct hazard_hit hit[HAZARD_HITS_MOST];
  arena_init(&arena, NULL);
  buf_init(&text, &arena, 1 << 20);
  for (int i = 0; i < LINES; i++) buf_addf(&text, "%d g lamb heart, raw, cubed\n", i % 400 + 1);
  assert_int_equal(hazard_words_find(built_library(), buf_span(&text), hit, HAZARD_HITS_MOST, &arena), 0);
  buf_adds(&text, "and a handful of RASINS\n");
  assert_int_equal(hazard_words_find(built_library(), buf_span(&text), hit, HAZARD_HITS_MOST, &arena), 1);
  assert_string_equal(lib_str(built_library(), hazard_row(built_library(), hit[0].hazard)->id), "grape");
  assert_true(span_is(hit[0].at, "RASINS") && hit[0].slip);
  arena_free(&arena);
}

/* Any bytes, cut anywhere, are answered without stepping over an edge. */
static void any_bytes_are_answered(void **state) {
  (void)state;
  static const char BYTES[] = "no \xC3\x28 onion\xFF\xFE(garlic,, free-) 0 g \xE2\x80\x99s chop & "
                              "roast w/o \xF0\x9F raisins '---";
  struct hazard_hit hit[HAZARD_HITS_MOST];
  for (size_t from = 0; from < sizeof BYTES; from++)
    for (size_t to = from; to < sizeof BYTES; to++) {
      struct arena arena;
      arena_init(&arena, NULL);
      char *copy = arena_alloc(&arena, to - from + 1, 1);
      memcpy(copy, BYTES + from, to - from);
      size_t n = hazard_words_find(built_library(), (struct span){copy, to - from}, hit, HAZARD_HITS_MOST, &arena);
      for (size_t i = 0; i < n; i++) assert_true(hit[i].at.p >= copy && hit[i].at.p + hit[i].at.n <= copy + (to - from));
      arena_free(&arena);
    }
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(the_table_is_sound), cmocka_unit_test(phrases_alarm_or_do_not),
                                     cmocka_unit_test(capitals_and_surroundings_change_nothing),
                                     cmocka_unit_test(a_long_text_is_looked_through),
                                     cmocka_unit_test(any_bytes_are_answered)};
  return cmocka_run_group_tests(tests, read_rows, NULL);
}
