/* Posts against the reading that a careful person wrote down before the reader was written (tests/post/README.md). Nothing
 * may be misread in silence; the share of food lines read is printed for each style, for the posts held out as well.
 *
 * post_corpus_test NAME prints one post with its strict text; folders.tsv says what every folder is and below what it may
 * not fall. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "app/app.h"
#include "tests/post/folders.h"
#include "tests/post/judging.h"
#include "tests/support/built_image.h"

static void show(const struct corpus_post *p, const struct reading *r) {
  printf("---- %.*s\n%s", SPAN_ARG(p->name), r->post.recipe);
  for (size_t i = 0; i < r->d.count; i++)
    if (r->d.item[i].level == DIAG_ERROR) printf("  !! %d: %s\n", r->d.item[i].line, r->d.item[i].message);
  for (size_t i = 0; i < r->ration.line_count; i++)
    printf("  = %8.2f g, %d of 7  %s | %s\n", ration_line_grams_per_day(&r->ration.line[i]), days_of(&r->ration.line[i]),
           library_name(built_library(), r->ration.line[i].shown_food), r->ration.line[i].text);
  for (size_t i = 0; i < r->post.left_count; i++)
    printf("  left %d: %s (%s)\n", r->post.left[i].line, r->post.left[i].text, r->post.left[i].why);
}

static const char *only;
static bool shown;

static struct score run(const char *folder, bool held, bool talk) {
  struct arena arena;
  struct score all = {0};
  arena_init(&arena, NULL);
  struct corpus c = corpus_read(folder, &arena);
  assert_true(c.count > 0);
  for (int style = 0; style < c.styles; style++) {
    struct score sum = {0};
    for (size_t i = 0; i < c.count; i++) {
      struct corpus_post *p = &c.post[i];
      if (p->style != style || p->held != held || (only && !span_is(p->name, only))) continue;
      struct reading *r = ARENA_NEW(&arena, struct reading, 1);
      struct score one = {0};
      bool strict = read_post(built_library(), r, p->text, &arena);
      if (shown) show(p, r);
      judge(built_library(), p, r, &one, talk);
      if (!strict) {
        printf("  %.*s: the strict text has errors\n", SPAN_ARG(p->name));
        one.silent++;
      }
      add(&sum, &one);
    }
    print_score(c.style[style], &sum);
    add(&all, &sum);
  }
  print_score(held ? "HELD OUT" : "ALL", &all);
  arena_free(&arena);
  return all;
}

static const struct check_result *check(const struct library *lib, struct span text, bool posted, const struct post **post,
                                        struct arena *arena) {
  struct app_check_request q = {.recipe = {"post", text}, .ask = REQUEST_DEFAULT};
  struct app_check_answer *a = ARENA_NEW(arena, struct app_check_answer, 1);
  q.ask.posted = posted;
  q.ask.numbers_only = true;
  app_check(lib, &q, a, arena);
  *post = a->post;
  return a->result;
}

static struct score score[FOLDERS_MOST]; /* of each row, for the test that follows */

static void no_folder_falls_below_its_row(void **state) {
  struct arena arena;
  struct folder_row row[FOLDERS_MOST];
  int below = 0;
  (void)state;
  arena_init(&arena, NULL);
  size_t count = folders_read(row, &arena);
  assert_true(count > 30);
  for (size_t i = 0; i < count; i++) score[i] = run(row[i].path, folder_is_held(&row[i]), !folder_is_blind(&row[i]));
  printf("folder    part  lines  read   wrong  hidden  first look (read, wrong, hidden)  by\n");
  for (size_t i = 0; i < count; i++) {
    const struct score *s = &score[i];
    int wrong = s->silent + s->extra;
    bool falls = s->read < row[i].read_least || wrong > row[i].wrong_most || s->hidden > row[i].hidden_most;
    printf("%-9s %-5s %4d  %5.1f%%  %4d  %4d    %-12s  %s%s\n", row[i].name, row[i].part, s->wanted,
           100.0 * s->read / s->wanted, wrong, s->hidden, row[i].first, row[i].by, falls ? "  BELOW ITS ROW" : "");
    assert_int_equal(s->wanted, row[i].lines);
    below += falls;
  }
  assert_int_equal(below, 0);
  arena_free(&arena);
}

/* A folder that no row names would be read by nobody. */
static void every_folder_has_a_row(void **state) {
  struct arena arena;
  struct folder_row row[FOLDERS_MOST];
  (void)state;
  arena_init(&arena, NULL);
  size_t count = folders_read(row, &arena), found = 0;
  DIR *dir = opendir(BW_SOURCE_DIR "/tests/post");
  assert_non_null(dir);
  for (struct dirent *e; (e = readdir(dir)) != NULL;) {
    if (strchr(e->d_name, '.')) continue;
    size_t k = 0;
    while (k < count && strcmp(row[k].name, e->d_name) != 0) k++;
    if (k == count) printf("no row: %s\n", e->d_name);
    assert_true(k < count);
    found++;
  }
  closedir(dir);
  assert_true(found > 20);
  arena_free(&arena);
}

/* Where every line was read as a careful person reads it, the words that govern amounts ask for next to nothing: under one
 * question in twenty posts; and of five lines read right nearly four say no doubt. */
static void a_well_read_post_is_left_in_peace(void **state) {
  struct arena arena;
  struct folder_row row[FOLDERS_MOST];
  struct score all = {0};
  (void)state;
  arena_init(&arena, NULL);
  size_t count = folders_read(row, &arena);
  for (size_t i = 0; i < count; i++) {
    if (folder_is_held(&row[i]) || folder_is_blind(&row[i])) continue;
    assert_int_equal(score[i].wanted, row[i].lines); /* read by the test before */
    add(&all, &score[i]);
  }
  arena_free(&arena);
  printf("well read: %d posts, %d needless questions\n", all.well, all.needless);
  printf("doubted though right: %d of %d lines\n", all.careful, all.right);
  assert_true(all.well >= 190 && all.needless <= all.well / 20);
  assert_true(1000.0 * all.careful <= 213.0 * all.right);
}

/* Foods that everybody knows, by words that say nothing else in a post. */
static const char *const EVERYDAY[] = {"salmon",    "sardine", "mackerel", "tuna",    "herring", "rice",   "carrot",
                                       "broccoli",  "spinach", "potato",   "pumpkin", "banana",  "yogurt", "yoghurt",
                                       "turkey",    "chicken", "rabbit",   "venison", "lamb",    "kale",   "zucchini",
                                       "courgette", "cheese",  "sausage",  "kelp",    "lentil",  "parsnip"};

/* Names of other things: a cat called Pumpkin; tubs that once held yoghurt; what others advise or was fed once; a pumpkin by
 * the name of its kind. */
static bool is_no_food(struct span post, const char *word) {
  static const char *const NO_FOOD[][2] = {{"cats-4", "pumpkin"},         {"sealed4-6", "yoghurt"}, {"open-15", "venison"},
                                           {"under_the_ramp", "venison"}, {"sealed-22", "yoghurt"}, {"a-13", "pumpkin"},
                                           {"open-17", "pumpkin"}};
  for (size_t i = 0; i < COUNT_OF(NO_FOOD); i++)
    if (span_is(post, NO_FOOD[i][0]) && strcmp(word, NO_FOOD[i][1]) == 0) return true;
  return false;
}

static bool is_letter(char c) { return (c | 0x20) >= 'a' && (c | 0x20) <= 'z'; }

static bool is_word_of(struct span text, const char *word) {
  size_t n = strlen(word);
  for (size_t i = 0; i + n <= text.n; i++) {
    bool begins = i == 0 || !is_letter(text.p[i - 1]);
    bool kelpie = span_starts_fold(span_cut(text, i, text.n), "kelpie");
    if (begins && !kelpie && span_is_fold(span_cut(text, i, i + n), word)) return true;
  }
  return false;
}

/* Counted on its own, whatever the readings say: a food that a post names is named in what came of it, or is the food of a
 * line. Prints those that are not. */
static int unnamed(const char *folder) {
  struct arena arena;
  int count = 0;
  arena_init(&arena, NULL);
  struct corpus c = corpus_read(folder, &arena);
  for (size_t i = 0; i < c.count; i++) {
    struct reading *r = ARENA_NEW(&arena, struct reading, 1);
    read_post(built_library(), r, c.post[i].text, &arena);
    for (size_t w = 0; w < COUNT_OF(EVERYDAY); w++) {
      if (is_no_food(c.post[i].name, EVERYDAY[w])) continue;
      if (!is_word_of(c.post[i].text, EVERYDAY[w]) || is_word_of(span_of(r->post.recipe), EVERYDAY[w])) continue;
      bool told = left_out(r, span_of(EVERYDAY[w])) || is_asked(r, span_of(EVERYDAY[w]));
      for (size_t k = 0; k < r->ration.line_count && !told; k++)
        told = is_word_of(span_of(library_name(built_library(), r->ration.line[k].shown_food)), EVERYDAY[w]);
      if (told) continue;
      printf("  %.*s: passed over: %s\n", SPAN_ARG(c.post[i].name), EVERYDAY[w]);
      count++;
    }
  }
  arena_free(&arena);
  return count;
}

static void no_food_is_passed_over(void **state) {
  struct arena arena;
  struct folder_row row[FOLDERS_MOST];
  int passed = 0;
  (void)state;
  arena_init(&arena, NULL);
  size_t count = folders_read(row, &arena);
  for (size_t i = 0; i < count; i++)
    if (!folder_is_held(&row[i]) && !folder_is_blind(&row[i])) passed += unnamed(row[i].path);
  arena_free(&arena);
  assert_int_equal(passed, 0);
}

static size_t compare_strict(const char *folder) {
  struct arena arena;
  size_t compared = 0;
  arena_init(&arena, NULL);
  struct corpus c = corpus_read(folder, &arena);
  for (size_t i = 0; i < c.count; i++) {
    const struct post *post, *none;
    const struct check_result *a = check(built_library(), c.post[i].text, true, &post, &arena);
    assert_non_null(post);
    if (!post->recipe[0]) continue;
    const struct check_result *b = check(built_library(), span_of(post->recipe), false, &none, &arena);
    if (!a || !b) printf("%s %.*s: %s\n", folder, SPAN_ARG(c.post[i].name), a ? "its strict text is refused" : "refused");
    assert_int_equal(a != NULL, b != NULL);
    if (!a) continue;
    for (int n = 0; n < NUT_COUNT; n++) {
      assert_int_equal(a->nutrient[n].verdict, b->nutrient[n].verdict);
      assert_true(a->nutrient[n].amount == b->nutrient[n].amount ||
                  (isnan(a->nutrient[n].amount) && isnan(b->nutrient[n].amount)));
    }
    assert_int_equal(a->animal != NULL, post->animal_told);
    compared++;
  }
  arena_free(&arena);
  return compared;
}

/* The strict text, read by itself, gives the numbers that the post gave. */
static void the_strict_text_gives_the_same(void **state) {
  struct arena arena;
  struct folder_row row[FOLDERS_MOST];
  size_t compared = 0, posts = 0;
  (void)state;
  arena_init(&arena, NULL);
  size_t count = folders_read(row, &arena);
  for (size_t i = 0; i < count; i++) {
    if (folder_is_held(&row[i])) continue; /* with the open ones of its folder */
    posts += corpus_read(row[i].path, &arena).count;
    compared += compare_strict(row[i].path);
  }
  arena_free(&arena);
  printf("%zu strict texts of %zu posts give the same\n", compared, posts);
  assert_true(100 * compared > 95 * posts);
}

int main(int argc, char **argv) {
  if (argc > 1 && strcmp(argv[1], "figures") == 0) { /* of folders, with those held out, and no word of the posts */
    for (int i = 2; i < argc; i++) run(argv[i], false, false), run(argv[i], true, false);
    return 0;
  }
  if (argc > 1) { /* NAME or all, then folders; without folders those that are open */
    only = strcmp(argv[1], "all") == 0 ? NULL : argv[1];
    shown = true;
    if (argc == 2) run(BW_SOURCE_DIR "/tests/post", false, true);
    for (int i = 2; i < argc; i++) run(argv[i], false, true);
    return 0;
  }
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(no_folder_falls_below_its_row), cmocka_unit_test(every_folder_has_a_row),
      cmocka_unit_test(a_well_read_post_is_left_in_peace), cmocka_unit_test(no_food_is_passed_over),
      cmocka_unit_test(the_strict_text_gives_the_same)};
  return cmocka_run_group_tests_name("posts", tests, NULL, NULL);
}
