/* post_asks_test.c: what is asked of foods that no table has, of posts in other languages, and what stands in for what.
 * Which foods no table has was looked up in USDA SR28 and IFCT 2017, the two tables that the library is built from: neither
 * has a trachea, a duck's feet or head, a rabbit's ear. The chick's weight and figures: Small Animal Clinical Nutrition,
 * 5th edition, table 71-5. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"
#include "tests/support/posted.h"

static void must_ask(const char *text, const char *words) {
  struct post post = posted(text);
  if (posted_asks(&post, words)) return;
  print_error("'%s' does not ask '%s', but:\n%s", text, words, post.recipe);
  fail();
}

static void foods_without_figures(void **state) {
  static const struct {
    const char *food, *ask;
  } CASE[] = {{"50 g beef trachea", "No table has figures for beef trachea."},
              {"50 g duck heads", "No table has figures for duck heads."},
              {"50 g rabbit ears", "No table has figures for rabbit ears."},
              {"50 g zinc citrate", "What does the label of the zinc citrate state"},
              {"50 g chlorella", "Which kind of 'chlorella' is it?"},
              {"50 g beef gullet", "'50 g beef gullet' is a danger."},
              {"2 kefirs", "How many grams does one of the 'kefirs' weigh?"},
              {"1 kefir", "How many grams does one 'kefir' weigh?"}};
  (void)state;
  for (size_t i = 0; i < COUNT_OF(CASE); i++) {
    char text[200];
    snprintf(text, sizeof text, "Our 20 kg dog gets:\n300 g chicken thigh\n%s\n", CASE[i].food);
    must_ask(text, CASE[i].ask);
  }
}

/* What matters much and is not said; and no second question beside a danger, nor of what a heading or a portion is. */
static void asked_or_let_be(void **state) {
  static const struct {
    const char *text, *asked, *not_asked;
  } CASE[] = {{"Dog, 20 kg. 400 g chicken thighs boneless", "with or without the skin?", NULL},
              {"Dog, 20 kg. 400 g chicken thighs without skin", NULL, "the skin?"},
              {"Dog, 20 kg. 400 g turkey mince", NULL, "the skin?"},
              {"Dog, 20 kg. 30 g chicken thighs", NULL, "the skin?"},
              {"Dog, 20 kg. 300 g cooked white fish", "Which white fish is", NULL},
              {"Dog, 20 kg. 300 g haddock", NULL, "Which white fish"},
              {"Dog, 20 kg. 300 g turkey mince, about a teaspoon of parmesan", "How many grams is 'about a teaspoon", "one 'parmesan'"},
              {"Dog, 20 kg. 300 g turkey mince, some garlic powder", "is a danger", "grams (or spoons)"},
              {"Dog, 20 kg. 300 g turkey mince. Supplements: fish oil 500 mg daily", NULL, "'Supplements'"},
              {"Dog, 20 kg. Batch for 10 days: 3 kg turkey mince, 1 kg rice. He gets about 2 cups a day.", NULL, "Which food"}};
  (void)state;
  for (size_t i = 0; i < COUNT_OF(CASE); i++) {
    if (CASE[i].asked) must_ask(CASE[i].text, CASE[i].asked);
    struct post post = posted(CASE[i].text);
    if (!CASE[i].not_asked || !posted_asks(&post, CASE[i].not_asked)) continue;
    print_error("'%s' asks '%s':\n%s", CASE[i].text, CASE[i].not_asked, post.recipe);
    fail();
  }
}

static void what_stands_in(void **state) {
  (void)state;
  struct post post = posted("300 g beef heart\n50 g duck feet");
  assert_non_null(
      strstr(post.recipe, "50 g duck feet [cut:chicken-foot]  # no table has duck feet; counted as Chicken foot"));
  assert_false(posted_asks(&post, "'duck'"));
  post = posted("300 g beef heart\n50 g day-old chicks\n2 day old chicks");
  assert_non_null(strstr(post.recipe, "\n50 g day-old chicks"));
  assert_non_null(strstr(post.recipe, "\n2 day-old chicks"));
  assert_null(strstr(post.recipe, "\n? "));
}

/* Each is the sentence "our dog gets this in the morning and in the evening, and ... with it" in its language. */
static void other_languages(void **state) {
  static const struct {
    const char *language, *text;
  } CASE[] = {{"German", "Unser Hund bekommt morgens und abends das hier, und dazu etwas mit \xC3\x96l"},
              {"French", "Notre chien mange \xC3\xA7"
                         "a le matin et le soir, et aussi du riz avec"},
              {"Spanish", "Nuestra perra come esto por la ma\xC3\xB1"
                          "ana y por la noche, y tambi\xC3\xA9n algo para cada d\xC3\xAD"
                          "a"},
              {"Dutch", "Onze hond krijgt dit in de ochtend en met het avondeten, maar ook een beetje van"},
              {"Italian", "Il nostro cane mangia questo la mattina e la sera, e ogni giorno anche della"}};
  (void)state;
  for (size_t i = 0; i < COUNT_OF(CASE); i++) {
    char text[400];
    struct post post = posted(CASE[i].text);
    assert_string_equal(post.recipe, "");
    assert_non_null(strstr(post.sorry, CASE[i].language));
    assert_non_null(strstr(post.sorry, "posts are read in English"));
    snprintf(text, sizeof text, "%s\n300 g chicken thigh\n", CASE[i].text);
    char words[60];
    snprintf(words, sizeof words, "The post seems to be in %s,", CASE[i].language);
    must_ask(text, words);
  }
  struct post post = posted("My dog gets 300 g beef heart and 200 g arroz with cuore di pollo, 50 g, every day");
  assert_false(posted_asks(&post, "seems to be in"));
}

/* A line of pictures, as phones write it. */
static void pictures(void **state) {
  (void)state;
  struct post post = posted("\xF0\x9F\x90\x95 20 kg \xF0\x9F\x8E\x82\n300 g beef heart");
  assert_true(post.animal_told && post.told.weight_kg == 20);
  assert_int_equal(post.told.species, SPECIES_DOG);
  post = posted("\xF0\x9F\x90\x88 4 kg\n100 g beef heart");
  assert_true(post.told.weight_kg == 4);
  assert_int_equal(post.told.species, SPECIES_CAT);
  post = posted("\xE2\x9A\x96\xEF\xB8\x8F 20 kg\n300 g beef heart");
  assert_true(post.told.weight_kg == 20);
}

int main(void) {
  const struct CMUnitTest tests[] = {T(foods_without_figures), T(asked_or_let_be), T(what_stands_in), T(other_languages), T(pictures)};
  return cmocka_run_group_tests_name("post_asks", tests, NULL, NULL);
}
