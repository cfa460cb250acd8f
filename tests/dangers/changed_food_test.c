/* Lines with a word that changes what a food is: tests/dangers/meaning.tsv, written before the code that handles them. The
 * word is used (the record taken, its state or a second portion shows it), the line asks about it, or a danger is told. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "app/app.h"
#include "foods/search.h"
#include "review/findings.h"
#include "tests/dangers/phrase_table.h"
#include "tests/support/built_image.h"
#include "tests/support/near.h"

static struct table_row row[ROWS_MOST];
static size_t rows;
static struct arena arena;
enum { SET, EXPECTED, WORD, LINE };

static int read_rows(void **state) {
  (void)state;
  rows = read_table(BW_SOURCE_DIR "/tests/dangers/meaning.tsv", 4, row);
  return rows > 0 ? 0 : -1;
}

static struct span fold(const char *s) { return search_fold(&built_library()->image, span_of(s), &arena); }

/* Every word of 'words' begins a word of 'text', or the other way round ("smoked" and "smoke"). */
static bool shows(struct span text, struct span words) {
  while (words.n > 0) {
    const char *blank = memchr(words.p, ' ', words.n);
    struct span w = span_cut(words, 0, blank ? (size_t)(blank - words.p) : words.n), rest = text;
    bool found = false;
    while (rest.n > 0 && !found) {
      const char *end = memchr(rest.p, ' ', rest.n);
      struct span t = span_cut(rest, 0, end ? (size_t)(end - rest.p) : rest.n);
      size_t n = t.n < w.n ? t.n : w.n;
      found = n >= 3 && memcmp(t.p, w.p, n) == 0 && (t.n >= w.n || w.n - t.n <= 2);
      rest = span_cut(rest, end ? t.n + 1 : t.n, rest.n);
    }
    if (!found) return false;
    words = span_cut(words, blank ? w.n + 1 : w.n, words.n);
  }
  return true;
}

/* What the published tables say for a word. */
static const char *const SAME[][2] = {{"unsalted", "without salt"}, {"unsalted", "raw"},   {"testicle", "testes"},
                                      {"fat-free", "nonfat"},       {"skimmed", "nonfat"}, {"dripping", "tallow"},
                                      {"kernels", "corn"},          {"mature", "cheddar"}, {"ground", "flaxseed"},
                                      {"kernel", "seed"},           {"powder", "dry"},     {"powder", "dried"},
                                      {"brine", "canned"},          {"leaves", "greens"}};

static bool used(const struct ration_line *l, const char *written, struct span word) {
  const struct library *lib = built_library();
  struct buf b;
  buf_init(&b, &arena, 4096);
  buf_addf(&b, "%s %s ", library_name(lib, l->shown_food), l->state < STATE_COUNT ? state_word[l->state] : "");
  for (int p = 0; p < l->part_count; p++) buf_addf(&b, "%s ", library_name(lib, l->part[p].food));
  if (l->part_count > 1) buf_adds(&b, "bone ");
  buf_addf(&b, "%s %s ", lib_str(lib, library_food(lib, l->shown_food)->group), l->note ? l->note : "");
  struct span name = fold(buf_text(&b));
  for (size_t i = 0; i < COUNT_OF(SAME); i++)
    if (strcmp(SAME[i][0], written) == 0 && shows(name, fold(SAME[i][1]))) return true;
  return shows(name, word);
}

/* "used", "asked" (a complaint or question of the line), "danger", or "dropped". */
static const char *handled(const struct table_row *r) {
  struct animal dog = animal_plain(SPECIES_DOG, 18);
  struct app_check_request q = {.recipe = {"recipe", span_of(r->cell[LINE])},
                                .one_off = &dog,
                                .ask = {.today = {2026, 11, 2}, .check = CHECK_OPTIONS_DEFAULT}};
  struct app_check_answer a;
  struct span word = fold(r->cell[WORD]);
  app_check(built_library(), &q, &a, &arena);
  for (size_t i = 0; i < a.recipe_diags.count; i++)
    if (strstr(a.recipe_diags.item[i].message, "danger:") || strstr(a.recipe_diags.item[i].message, "caution:"))
      return "danger";
  if (!a.result) return "asked"; /* the line is an error: nothing was computed */
  for (size_t i = 0; i < a.result->finding_count; i++)
    if (a.result->finding[i].danger || strcmp(a.result->finding[i].id, "doubtful-food") == 0) return "danger";
  if (a.result->ration->line_count == 0 || !used(&a.result->ration->line[0], r->cell[WORD], word)) {
    for (size_t i = 0; i < a.recipe_diags.count; i++)
      if (shows(fold(a.recipe_diags.item[i].message), word)) return "asked";
    return "dropped";
  }
  return "used";
}

static bool fits(const char *expected, const char *got) {
  if (strcmp(expected, "kept") == 0) return strcmp(got, "dropped") != 0;
  return strcmp(expected, got) == 0;
}

static void count(const char *set, size_t *right, size_t *all) {
  *right = *all = 0;
  for (size_t i = 0; i < rows; i++) {
    if (strcmp(row[i].cell[SET], set) != 0) continue;
    const char *got = handled(&row[i]);
    bool good = fits(row[i].cell[EXPECTED], got);
    *right += good;
    ++*all;
    if (!good) print_message("%s: '%s': expected %s, %s\n", set, row[i].cell[LINE], row[i].cell[EXPECTED], got);
    arena_free(&arena);
  }
}

static void no_word_is_dropped(void **state) {
  (void)state;
  size_t right, all;
  arena_init(&arena, NULL);
  count("open", &right, &all);
  print_message("open: %zu of %zu\n", right, all);
  size_t held, held_all;
  count("held-out", &held, &held_all); /* 98 of 99 when it was first looked at */
  print_message("held-out: %zu of %zu\n", held, held_all);
  assert_int_equal(right, all);
  assert_int_equal(held, held_all);
  assert_true(rows >= 300);
  assert_true(on_both_sides(row, rows, EXPECTED, LINE) == (size_t)-1);
}

static const struct check_result *check_line(const char *line) {
  struct animal dog = animal_plain(SPECIES_DOG, 18);
  struct app_check_request q = {
      .recipe = {"recipe", span_of(line)}, .one_off = &dog, .ask = {.today = {2026, 11, 2}, .check = CHECK_OPTIONS_DEFAULT}};
  struct app_check_answer a;
  app_check(built_library(), &q, &a, &arena);
  if (!a.result) fail_msg("'%s' is not understood", line);
  return a.result;
}

/* Shell 5 to 6.5 g of an egg of 50 to 68 g, about 1.9 to 2.1 g of calcium: kitchen weights, and the usual content of
 * eggshell. */
static void an_egg_with_its_shell_is_both(void **state) {
  (void)state;
  static const char *const LINE_OF[] = {"57 g egg with shell", "57 g whole egg with shell", "1 egg with shell",
                                        "1 egg, shell on", "1 egg and its shell"};
  arena_init(&arena, NULL);
  for (size_t i = 0; i < COUNT_OF(LINE_OF); i++) {
    const struct check_result *r = check_line(LINE_OF[i]);
    const struct ration_line *l = &r->ration->line[0];
    assert_int_equal(l->part_count, 2);
    assert_in_range((int)l->grams_fed, 50, 68);
    assert_true(l->part[1].grams >= 5 && l->part[1].grams <= 7.5);
    assert_near(l->part[0].grams + l->part[1].grams, l->grams_fed, 1e-6);
    assert_true(r->nutrient[NUT_CALCIUM].amount > 1900 && r->nutrient[NUT_CALCIUM].amount < 2700);
    assert_true(r->nutrient[NUT_PROTEIN].amount > 5); /* and the egg is in it */
    assert_false(findings_say(r, "cooked-bone"));
  }
  assert_false(findings_say(check_line("1 boiled egg with shell"), "cooked-bone"));
  arena_free(&arena);
}

/* USDA: a level tablespoon of ground flaxseed weighs 7 g, one of whole seed 10.3 g. */
static void ground_seed_weighs_less(void **state) {
  (void)state;
  arena_init(&arena, NULL);
  assert_near(check_line("1 tbsp ground flaxseed")->ration->line[0].grams_fed, 7, 0.1);
  assert_near(check_line("1 tbsp flaxseed, whole")->ration->line[0].grams_fed, 10.3, 0.1);
  arena_free(&arena);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(no_word_is_dropped), cmocka_unit_test(an_egg_with_its_shell_is_both),
                                     cmocka_unit_test(ground_seed_weighs_less)};
  return cmocka_run_group_tests(tests, read_rows, NULL);
}
