/* Posts against the reading that a careful person wrote down before the reader was written (tests/post/README.md). Nothing
 * may be misread in silence; the share of food lines read is printed for each style, for the posts held out as well.
 *
 * post_corpus_test NAME prints one post with its strict text. The folder 'late' holds posts written after the first reader
 * stood; 'sealed' those kept aside until the work on 'late' was done. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "app/app.h"
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

static const char FIRST[] = BW_SOURCE_DIR "/tests/post", LATE[] = BW_SOURCE_DIR "/tests/post/late",
                  SEALED[] = BW_SOURCE_DIR "/tests/post/sealed", OPEN4[] = BW_SOURCE_DIR "/tests/post/open4",
                  OPEN5[] = BW_SOURCE_DIR "/tests/post/open5", SEALED4[] = BW_SOURCE_DIR "/tests/post/sealed4",
                  OPEN6[] = BW_SOURCE_DIR "/tests/post/open6", SEALED6[] = BW_SOURCE_DIR "/tests/post/sealed6",
                  OWN7[] = BW_SOURCE_DIR "/tests/post/own7", OPEN7[] = BW_SOURCE_DIR "/tests/post/open7",
                  OPEN8[] = BW_SOURCE_DIR "/tests/post/open8", SEALED8[] = BW_SOURCE_DIR "/tests/post/sealed8",
                  OWN9[] = BW_SOURCE_DIR "/tests/post/own9", OPEN9[] = BW_SOURCE_DIR "/tests/post/open9",
                  SEALED9[] = BW_SOURCE_DIR "/tests/post/sealed9", OWN10B[] = BW_SOURCE_DIR "/tests/post/own10b",
                  OPEN10[] = BW_SOURCE_DIR "/tests/post/open10", SEALED10[] = BW_SOURCE_DIR "/tests/post/sealed10",
                  OWN10C[] = BW_SOURCE_DIR "/tests/post/own10c";
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

static void as_a_careful_reader(void **state) {
  (void)state;
  struct score open = run(FIRST, false, true);
  assert_int_equal(open.silent + open.extra, 0);
  assert_true(open.read >= 0.95 * open.wanted);
}

static void those_held_out(void **state) {
  (void)state;
  static const double READ_LEAST = 0.975; /* 89 of 91 lines */
  static const int MISREAD_MOST = 0;
  struct score held = run(FIRST, true, false);
  printf("held out: read %d of %d lines, at least %.1f %%\n", held.read, held.wanted, 100 * READ_LEAST);
  printf("held out: misread in silence %d, counted though not said %d, together at most %d\n", held.silent, held.extra,
         MISREAD_MOST);
  assert_true(held.wanted > 0);
  assert_true(held.read >= READ_LEAST * held.wanted);
  assert_true(held.silent + held.extra <= MISREAD_MOST);
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

/* Written when the reader stood, in words that it had not seen. The half that was sealed was read once before anything was
 * mended by it: 25 of 41 lines (61.0 %), 6 missed in silence, 8 counted though not said. What it may not fall below now. */
static void those_written_late(void **state) {
  (void)state;
  struct score late = run(LATE, false, true), sealed = run(SEALED, false, true);
  assert_int_equal(late.silent + late.extra, 0);
  assert_int_equal(sealed.silent + sealed.extra, 0);
  assert_true(late.read >= 48 && late.wanted == 51);
  assert_true(sealed.read >= 39 && sealed.wanted == 41);
}

/* 'open4' by a stranger: at the first look 88 of 165 lines (53.3 %), 39 missed in silence, 42 counted though not said.
 * 'open5', our own: 69 of 90 (76.7 %), 6, 11. What they may not fall below now. */
static void those_of_a_stranger(void **state) {
  (void)state;
  struct score stranger = run(OPEN4, false, true), own = run(OPEN5, false, true);
  assert_int_equal(stranger.silent + stranger.extra, 0);
  assert_true(stranger.read >= 163 && stranger.wanted == 165);
  assert_true(own.read >= 86 && own.wanted == 88);
  assert_true(own.silent <= 1 && own.extra == 0);
}

/* 'sealed4', the stranger's other half, read once when the work on open4 and open5 was done: 101 of 175 lines (57.7 %), 27
 * missed in silence, 31 counted though not said. What it may not fall below since its classes were mended. */
static void those_of_a_stranger_sealed(void **state) {
  (void)state;
  struct score sealed = run(SEALED4, false, true);
  assert_true(sealed.read >= 144 && sealed.wanted == 175);
  assert_true(sealed.silent <= 5 && sealed.extra <= 5 && sealed.hidden <= 4);
}

/* 'open6', 24 posts by another stranger: at the first look 86 of 127 lines (67.7 %), 19 missed in silence, 20 counted though
 * not said. What it may not fall below now. */
static void those_of_another_stranger(void **state) {
  (void)state;
  struct score open = run(OPEN6, false, true);
  assert_true(open.read >= 115 && open.wanted == 127);
  assert_true(open.silent <= 2 && open.extra <= 2 && open.hidden <= 2);
}

/* 'sealed6', that stranger's other half of 36 posts, read once when the work on open6 was done: 122 of 193 lines (63.2 %),
 * 39 missed in silence, 40 counted though not said. What it may not fall below since totals, weeks and headings were mended.
 */
static void those_of_another_stranger_sealed(void **state) {
  (void)state;
  struct score sealed = run(SEALED6, false, true);
  assert_int_equal(sealed.wanted, 193);
  assert_true(sealed.read >= 157);
  assert_true(sealed.silent <= 11 && sealed.extra <= 11 && sealed.hidden == 0);
}

/* 'own7', our own: what one sentence says of several amounts; at the first look 35 of 86 lines (40.7 %), 34 missed in
 * silence, 38 counted though not said, 53 of these with no doubt said. 'open7' by a third stranger: 78 of 147 (53.1 %), 40,
 * 56, 61. What they may not fall below now. */
static void those_that_govern_others(void **state) {
  (void)state;
  struct score own = run(OWN7, false, true), open = run(OPEN7, false, true);
  assert_int_equal(own.wanted, 86);
  assert_true(own.read >= 80);
  assert_true(own.silent == 0 && own.extra <= 1 && own.hidden == 0);
  assert_int_equal(open.wanted, 147);
  assert_true(open.read >= 120);
  assert_true(open.silent + open.extra <= 27 && open.hidden == 0);
}

/* By a fourth stranger; 'sealed8' was read by the program alone and nothing was mended for it. What they may not fall below
 * now; at the first look 83 of 163 lines and 83 of 167, with no doubt said of 63 and 61. */
static void those_of_a_fourth_stranger(void **state) {
  (void)state;
  struct score open = run(OPEN8, false, true), sealed = run(SEALED8, false, true);
  assert_int_equal(open.wanted, 163);
  assert_true(open.read >= 136 && open.hidden == 0);
  assert_int_equal(sealed.wanted, 167);
  assert_true(sealed.read >= 92 && sealed.hidden <= 19);
}

/* 'own9', our own: how a post is built, and not its lines: tubs, several animals, diaries, edits, turns, shares of body
 * weight. At the first look 39 of 74 lines (52.7 %), with no doubt said of 31; of those kept aside 7 of 27, and 25,
 * and 22 of 27, and 11, when they were looked at after the work. */
static void those_of_many_builds(void **state) {
  (void)state;
  struct score open = run(OWN9, false, true), held = run(OWN9, true, false);
  assert_int_equal(open.wanted, 74);
  assert_true(open.read == 74 && open.silent + open.extra == 0);
  assert_int_equal(held.wanted, 27);
  assert_true(held.read >= 26 && held.silent + held.extra <= 1);
}

/* 'own10a', our own: what changed, recipes that take turns, kinds of days, shared pots, parts of parts, no stops at all, and
 * 42 lines of the same written when they were read. At the first look 65 of 97 lines (67.0 %), 13 missed in silence, 17
 * counted though not said, 6 of these with no doubt said; of those kept aside 26 of 42, 3, 2 and 1, when they were looked at
 * after the work on the others. */
static void those_of_changes(void **state) {
  static const char OWN10A[] = BW_SOURCE_DIR "/tests/post/own10a";
  (void)state;
  struct score open = run(OWN10A, false, true), held = run(OWN10A, true, false);
  assert_int_equal(open.wanted, 139);
  assert_true(open.read >= 136);
  assert_true(open.silent + open.extra <= 5 && open.hidden == 0);
  assert_true(held.read >= 28 && held.hidden == 0);
}

/* 'open9' by a fifth stranger: at the first look 113 of 147 lines, 17 with no doubt said. 'sealed9', the other half, was
 * read by the program alone and nothing was mended for it: 103 of 153 before the work on the open half, 119 behind it, and
 * 32 and 10 with no doubt said. What they may not fall below now. */
static void those_of_a_fifth_stranger(void **state) {
  (void)state;
  struct score open = run(OPEN9, false, true), sealed = run(SEALED9, false, true);
  assert_int_equal(open.wanted, 147);
  assert_true(open.read >= 134 && open.hidden <= 2);
  assert_int_equal(sealed.wanted, 153);
  assert_true(sealed.read >= 118 && sealed.hidden <= 10);
}

/* 'own10b', our own: words for foods, cuts, supplements and measures of many kitchens; at the first look 74 of 102 lines, 10
 * hidden, and 20 of 27, 2, of those kept aside. What they may not fall below now. */
static void those_of_many_kitchens(void **state) {
  (void)state;
  struct score open = run(OWN10B, false, true), held = run(OWN10B, true, false);
  assert_int_equal(open.wanted, 102);
  assert_true(open.read >= 87 && open.hidden <= 3);
  assert_int_equal(held.wanted, 27);
  assert_true(held.read >= 22 && held.hidden == 0);
}

/* 'open10' by a sixth stranger: before anybody had looked at it 96 of 146 lines, 8 with no doubt said. 'sealed10', the other
 * half, was read by the program alone and nothing was mended for it: 116 of 144 before the work on the open half, 6 with no
 * doubt said. What they may not fall below now. */
static void those_of_a_sixth_stranger(void **state) {
  (void)state;
  struct score open = run(OPEN10, false, true), sealed = run(SEALED10, false, true);
  assert_int_equal(open.wanted, 146);
  assert_true(open.read >= 127 && open.hidden <= 1);
  assert_int_equal(sealed.wanted, 144);
  assert_true(sealed.read >= 116 && sealed.hidden <= 6);
}

/* 'open11' by a seventh stranger, who varied how posts are built: before anybody had looked at it 86 of 161 lines, 8 with no
 * doubt said. 'sealed11', the other half: 78 of 176, and 48; 81 and 46 behind the work on the open half, when it was opened.
 * What they may not fall below now. */
static void those_of_a_seventh_stranger(void **state) {
  static const char OPEN11[] = BW_SOURCE_DIR "/tests/post/open11", SEALED11[] = BW_SOURCE_DIR "/tests/post/sealed11";
  (void)state;
  struct score open = run(OPEN11, false, true), sealed = run(SEALED11, false, true);
  assert_int_equal(open.wanted, 161);
  assert_true(open.read >= 157 && open.hidden == 0);
  assert_int_equal(sealed.wanted, 176);
  assert_true(sealed.read >= 148 && sealed.hidden <= 14);
}

/* 'own13a', our own: what a formulator's working week showed to be misread: names and young animals, white fish, dangers that
 * are past, numbers without a unit, arrows, headings, doses, ideal weights, two animals; and a second
 * look: rations beside a pot for several. */
static void those_of_a_working_week(void **state) {
  static const char OWN13A[] = BW_SOURCE_DIR "/tests/post/own13a";
  (void)state;
  struct score open = run(OWN13A, false, true);
  assert_int_equal(open.silent + open.extra, 0);
  assert_int_equal(open.read, open.wanted);
}

/* 'sealed12' by an eighth stranger: 128 of 237 lines, 44 with no doubt said, before the work on 'open11' and 'sealed11', and
 * 140 and 44 behind it. What it may not fall below now. */
static void those_of_an_eighth_stranger(void **state) {
  static const char SEALED12[] = BW_SOURCE_DIR "/tests/post/sealed12";
  (void)state;
  struct score sealed = run(SEALED12, false, true);
  assert_int_equal(sealed.wanted, 237);
  assert_true(sealed.read >= 143 && sealed.hidden <= 25);
}

/* 'open13' and 'sealed13' by a ninth stranger, who kept to the mix of what people post: at the first look 132 of 191 lines,
 * 30 with no doubt said, and 159 of 198, 8. 'sealed13' was read by the program alone. What they may not fall below now. */
static void those_of_a_ninth_stranger(void **state) {
  static const char OPEN13[] = BW_SOURCE_DIR "/tests/post/open13", SEALED13[] = BW_SOURCE_DIR "/tests/post/sealed13";
  (void)state;
  struct score open = run(OPEN13, false, true), sealed = run(SEALED13, false, false);
  assert_int_equal(open.wanted, 191);
  assert_true(open.read >= 185 && open.hidden <= 3);
  assert_int_equal(sealed.wanted, 198);
  assert_true(sealed.read >= 160 && sealed.hidden <= 8);
}

/* 'own13b', our own: thirteen classes that 'open13' showed. At the first look 129 of 228 lines, 67 with no doubt said, and
 * 62 of 112, 54, of those kept aside; 91 of these, and 20, when they were looked at after the work. */
static void those_of_thirteen_classes(void **state) {
  static const char OWN13B[] = BW_SOURCE_DIR "/tests/post/own13b";
  (void)state;
  struct score open = run(OWN13B, false, true), held = run(OWN13B, true, false);
  assert_int_equal(open.wanted, 228);
  assert_true(open.read >= 222 && open.hidden <= 2);
  assert_int_equal(held.wanted, 112);
  assert_true(held.read >= 101 && held.hidden <= 2);
}

/* 'own11a', our own: what refers back, changes in letters, parts of a batch, interviews, tables, dictation, what is said of
 * several foods, stories. At the first look 62 of 102 lines (60.8 %), 12 missed in silence, 17 counted though not said, 13
 * of these with no doubt said; of those kept aside 32 of 50, 5, 8 and 2. '119_again' to '122_last' are 175 lines of the same
 * classes in other words, written while the reader was made. What they may not fall below now. */
static void those_of_other_builds(void **state) {
  static const char OWN11A[] = BW_SOURCE_DIR "/tests/post/own11a";
  (void)state;
  struct score open = run(OWN11A, false, true), held = run(OWN11A, true, false);
  assert_int_equal(open.wanted, 277);
  assert_true(open.read >= 261);
  assert_true(open.silent + open.extra <= 5 && open.hidden == 0);
  assert_int_equal(held.wanted, 50);
  assert_true(held.read >= 48 && held.hidden == 0);
}

/* 'own11b', our own: sentences that refer to others. At the first look 96 of 192 lines, 19 with no doubt said, and 36 of 67,
 * 7, of those kept aside; 57 of these, and 4, when they were looked at after the work. */
static void those_that_refer(void **state) {
  static const char OWN11B[] = BW_SOURCE_DIR "/tests/post/own11b";
  (void)state;
  struct score open = run(OWN11B, false, true), held = run(OWN11B, true, false);
  assert_int_equal(open.wanted, 192);
  assert_true(open.read >= 190);
  assert_true(open.silent + open.extra == 0 && open.hidden == 0);
  assert_int_equal(held.wanted, 67);
  assert_true(held.read >= 64 && held.hidden == 0);
}

/* 'own10c', our own: fourteen ordinary posts. */
static void those_of_every_day(void **state) {
  (void)state;
  struct score open = run(OWN10C, false, true), held = run(OWN10C, true, false);
  assert_int_equal(open.wanted, 47);
  assert_true(open.read == 47 && open.hidden == 0);
  assert_int_equal(held.wanted, 22);
  assert_true(held.read >= 19);
}

/* Where every line was read as a careful person reads it, the words that govern amounts ask for next to nothing: under one
 * question in twenty posts; and of five lines read right four say no doubt. */
static void a_well_read_post_is_left_in_peace(void **state) {
  static const char *const FOLDERS[] = {FIRST, LATE, SEALED, OPEN4, OPEN5, SEALED4, OPEN6, SEALED6, OWN7, OPEN7};
  struct score all = {0};
  (void)state;
  for (size_t i = 0; i < COUNT_OF(FOLDERS); i++) {
    struct score one = run(FOLDERS[i], false, false);
    add(&all, &one);
  }
  printf("well read: %d posts, %d needless questions\n", all.well, all.needless);
  printf("doubted though right: %d of %d lines\n", all.careful, all.right);
  assert_true(all.well >= 190 && all.needless <= all.well / 20);
  assert_true(all.careful <= all.right / 5);
}

/* Foods that everybody knows, by words that say nothing else in a post. */
static const char *const EVERYDAY[] = {"salmon",    "sardine", "mackerel", "tuna",    "herring", "rice",   "carrot",
                                       "broccoli",  "spinach", "potato",   "pumpkin", "banana",  "yogurt", "yoghurt",
                                       "turkey",    "chicken", "rabbit",   "venison", "lamb",    "kale",   "zucchini",
                                       "courgette", "cheese",  "sausage",  "kelp",    "lentil",  "parsnip"};

/* Names of other things: a cat called Pumpkin; tubs that once held yoghurt. */
static bool is_no_food(struct span post, const char *word) {
  return (span_is(post, "cats-4") && strcmp(word, "pumpkin") == 0) ||
         (span_is(post, "sealed4-6") && strcmp(word, "yoghurt") == 0);
}

static bool is_word_of(struct span text, const char *word) {
  size_t n = strlen(word);
  for (size_t i = 0; i + n <= text.n; i++) {
    bool begins = i == 0 || !((text.p[i - 1] | 0x20) >= 'a' && (text.p[i - 1] | 0x20) <= 'z');
    if (begins && span_is_fold(span_cut(text, i, i + n), word)) return true;
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
  (void)state;
  assert_int_equal(unnamed(FIRST) + unnamed(LATE) + unnamed(SEALED) + unnamed(OPEN4) + unnamed(OPEN5) + unnamed(SEALED4) +
                       unnamed(OPEN6) + unnamed(SEALED6) + unnamed(OWN7),
                   0);
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
    assert_non_null(a);
    assert_non_null(b);
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
  (void)state;
  assert_true(compare_strict(FIRST) >= 60);
  assert_true(compare_strict(LATE) >= 10);
  assert_true(compare_strict(SEALED) >= 8);
  assert_true(compare_strict(OPEN4) >= 30);
  assert_true(compare_strict(OPEN5) >= 18);
  assert_true(compare_strict(SEALED4) >= 30);
  assert_true(compare_strict(OPEN6) >= 22);
  assert_true(compare_strict(SEALED6) >= 30);
  assert_true(compare_strict(OWN7) >= 36);
  assert_true(compare_strict(OPEN7) >= 26);
  assert_true(compare_strict(OPEN8) >= 26);
  assert_true(compare_strict(OWN9) >= 27);
  assert_true(compare_strict(OPEN9) >= 26);
}

int main(int argc, char **argv) {
  if (argc > 1 && strcmp(argv[1], "figures") == 0) { /* of folders, with those held out, and no word of the posts */
    for (int i = 2; i < argc; i++) run(argv[i], false, false), run(argv[i], true, false);
    return 0;
  }
  if (argc > 1) { /* NAME or all, then folders; without folders those that are open */
    only = strcmp(argv[1], "all") == 0 ? NULL : argv[1];
    shown = true;
    if (argc == 2) run(FIRST, false, true), run(LATE, false, true);
    for (int i = 2; i < argc; i++) run(argv[i], false, true);
    return 0;
  }
  const struct CMUnitTest tests[] = {cmocka_unit_test(as_a_careful_reader),
                                     cmocka_unit_test(those_held_out),
                                     cmocka_unit_test(those_written_late),
                                     cmocka_unit_test(those_of_a_stranger),
                                     cmocka_unit_test(those_of_a_stranger_sealed),
                                     cmocka_unit_test(those_of_another_stranger),
                                     cmocka_unit_test(those_of_another_stranger_sealed),
                                     cmocka_unit_test(those_that_govern_others),
                                     cmocka_unit_test(those_of_changes),
                                     cmocka_unit_test(those_of_a_sixth_stranger),
                                     cmocka_unit_test(those_of_a_seventh_stranger),
                                     cmocka_unit_test(those_of_an_eighth_stranger),
                                     cmocka_unit_test(those_of_a_working_week),
                                     cmocka_unit_test(those_of_a_ninth_stranger),
                                     cmocka_unit_test(those_of_thirteen_classes),
                                     cmocka_unit_test(those_of_a_fourth_stranger),
                                     cmocka_unit_test(those_of_many_builds),
                                     cmocka_unit_test(those_of_a_fifth_stranger),
                                     cmocka_unit_test(those_of_many_kitchens),
                                     cmocka_unit_test(those_that_refer),
                                     cmocka_unit_test(those_of_every_day),
                                     cmocka_unit_test(those_of_other_builds),
                                     cmocka_unit_test(a_well_read_post_is_left_in_peace),
                                     cmocka_unit_test(no_food_is_passed_over),
                                     cmocka_unit_test(the_strict_text_gives_the_same)};
  return cmocka_run_group_tests_name("posts", tests, NULL, NULL);
}
