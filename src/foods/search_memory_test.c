/* A search with a memory finds what the same search finds without one: whatever was looked for before, how many are asked
 * for, and once the memory was full. */
#include "foods/search.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

#include "base/buf.h"
#include "foods/search_memory.h"
#include "tests/support/built_image.h"
#include "tests/support/own_food.h"

enum { MOST = SEARCHED_HITS + 6 };

static const char *const WORDS[] = {"beef mince",
                                    "Beef Mince",
                                    "mince beef",
                                    "egg",
                                    "egg egg",
                                    "eggs",
                                    "hen egg",
                                    "sardin",
                                    "sardines in oil",
                                    "chiken",
                                    "chicken thighs",
                                    "beefheart",
                                    "lamb liver raw",
                                    "rice",
                                    "cooked rice",
                                    "90/10 mince",
                                    "fizzlewick",
                                    "beta mince",
                                    "beta kibble",
                                    "heart",
                                    "organic fillet",
                                    "of",
                                    "",
                                    "tripe",
                                    "vitamin e",
                                    "broccolli",
                                    "crème fraîche",
                                    "sweet potato",
                                    "potato",
                                    "qqqqqqqqqq",
                                    "salm",
                                    "oil salmon"};

static const struct own_food OWN[] = {OWN_FOOD(PART_MUSCLE, STATE_UNSTATED, "mine:beta-mince", "Beta mince"),
                                      OWN_FOOD(PART_OTHER, STATE_UNSTATED, "mine:beta-kibble", "Beta kibble")};

static void expect_the_same(const struct library *with, const char *words, const struct search_wish *wish, size_t most) {
  struct library without = *with;
  struct search_hit found[MOST], expected[MOST];
  without.searched = NULL;
  size_t n = search_foods(with, span_of(words), wish, found, most, &arena);
  assert_int_equal(n, search_foods(&without, span_of(words), wish, expected, most, &arena));
  for (size_t i = 0; i < n; i++) {
    assert_int_equal(found[i].food, expected[i].food);
    assert_true(found[i].score == expected[i].score);
    assert_int_equal(found[i].exact_name, expected[i].exact_name);
    assert_int_equal(found[i].words_missed, expected[i].words_missed);
    assert_string_equal(found[i].note, expected[i].note);
  }
}

static void look_for_all(const struct library *lib) {
  static const size_t MANY[] = {1, 3, SEARCHED_HITS, MOST, 2};
  static const enum state STATES[] = {STATE_UNSTATED, STATE_RAW, STATE_BOILED, STATE_CANNED};
  for (size_t m = 0; m < COUNT_OF(MANY); m++)
    for (size_t s = 0; s < COUNT_OF(STATES); s++)
      for (size_t i = 0; i < COUNT_OF(WORDS); i++) {
        struct search_wish wish = SEARCH_WISH_NONE;
        wish.state = STATES[s];
        wish.skin = (int8_t)(m == 3 ? 0 : -1);
        wish.lean_percent = m == 4 ? 90 : NAN;
        expect_the_same(lib, WORDS[i], &wish, MANY[m]);
      }
}

static void found_as_without_a_memory(void **state) {
  (void)state;
  struct arena kept;
  struct library lib = *built_library();
  arena_init(&kept, NULL);
  lib.searched = search_memory_of(&lib.image, &kept);
  look_for_all(&lib);
  arena_free(&kept);
}

static void own_foods_as_without_a_memory(void **state) {
  (void)state;
  struct arena kept;
  struct library lib = *built_library();
  arena_init(&kept, NULL);
  lib.own = OWN;
  lib.own_count = COUNT_OF(OWN);
  lib.searched = search_memory_of(&lib.image, &kept);
  look_for_all(&lib);
  arena_free(&kept);
}

/* More words than it keeps: it stays small, and knows the first of them again. */
static void full_memory_begins_anew(void **state) {
  (void)state;
  struct arena kept;
  struct library lib = *built_library();
  struct search_hit found[1];
  arena_init(&kept, NULL);
  lib.searched = search_memory_of(&lib.image, &kept);
  size_t most_bytes = 0;
  for (int i = 0; i < SEARCHED_MOST + 300; i++) {
    struct buf b;
    buf_init(&b, &arena, 40);
    buf_addf(&b, "zq%dx", i);
    search_foods(&lib, span_of(buf_text(&b)), NULL, found, 1, &arena);
    if (i == SEARCHED_MOST - 1) most_bytes = kept.used_bytes;
    if (i == SEARCHED_MOST) assert_true(kept.used_bytes < most_bytes / 2);
  }
  assert_true(kept.used_bytes < most_bytes);
  for (size_t i = 0; i < COUNT_OF(WORDS); i++) expect_the_same(&lib, WORDS[i], &SEARCH_WISH_NONE, 3);
  arena_free(&kept);
}

/* In any order, each as often as it stands there. */
static void names_are_known_by_their_words(void **state) {
  (void)state;
  struct arena kept;
  struct library lib = *built_library();
  arena_init(&kept, NULL);
  for (int with = 0; with < 2; with++) {
    struct search_words name = search_split(SPAN_LIT("beef liver")), turned = search_split(SPAN_LIT("liver beef"));
    struct search_words twice = search_split(SPAN_LIT("beef beef liver")), none = {.count = 0};
    assert_true(search_is_name(&lib, &name) && search_is_name(&lib, &turned));
    assert_false(search_is_name(&lib, &twice));
    assert_false(search_is_name(&lib, &none));
    lib.searched = search_memory_of(&lib.image, &kept);
  }
  arena_free(&kept);
}

/* A name is found by asking for names where the best of all is found by one, and nowhere else. */
static void names_alone_are_found_as_among_all(void **state) {
  (void)state;
  struct arena kept;
  struct library lib = *built_library();
  size_t named = 0;
  arena_init(&kept, NULL);
  lib.own = OWN;
  lib.own_count = COUNT_OF(OWN);
  for (int with = 0; with < 3; with++) { /* without a memory, with a new one, with one that knows them */
    for (size_t i = 0; i < COUNT_OF(WORDS); i++) {
      struct search_hit all, name;
      bool found = search_names(&lib, span_of(WORDS[i]), &name, &arena);
      bool expected = search_foods(&lib, span_of(WORDS[i]), NULL, &all, 1, &arena) > 0 && all.exact_name;
      assert_int_equal(found, expected);
      named += found;
      if (found) assert_int_equal(name.food, all.food);
    }
    if (with == 0) lib.searched = search_memory_of(&lib.image, &kept);
  }
  assert_in_range(named, 3 * 10, 3 * (COUNT_OF(WORDS) - 6));
  arena_free(&kept);
}

int main(void) {
  const struct CMUnitTest tests[] = {T(names_alone_are_found_as_among_all), T(found_as_without_a_memory),
                                     T(own_foods_as_without_a_memory), T(full_memory_begins_anew),
                                     T(names_are_known_by_their_words)};
  return cmocka_run_group_tests_name("search_memory", tests, NULL, NULL);
}
