/* post_apart_test.c: a word that holds for two foods, a list that breaks in its middle, and batches told by meals, boxes and
 * cups. The expectations are a careful reader's. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"
#include "tests/support/posted.h"

/* A post and two pieces of the strict text that it becomes. */
static void posts_become(void **state) {
  static const struct {
    const char *post, *line, *other;
  } ROW[] = {
      /* one word for two foods */
      {"Makes 7 days. 2 kg turkey mince. I stir in a teaspoon of fish oil and a tablespoon of yoghurt every morning.",
       "1 tsp fish oil, daily\n", "every morning"},
      {"Two cats, 4 kg each. Between them they eat 240 g raw chicken thigh a day, plus 250 mg taurine each.",
       "120 g raw chicken thigh", "250 mg taurine"},
      {"300 g beef mince\n60 g mixed carrot and broccoli each day", "30 g (15-45 g) carrot", "30 g (15-45 g) broccoli"},
      {"frozen peas & carrots 16 oz", "8 oz (4-12 oz) peas", "8 oz (4-12 oz) carrots"},
      {"300 g beef mince\n30 g organ mix (liver/kidney/spleen equal parts)", "10 g beef liver", "10 g beef spleen"},
      {"180 g chicken thigh, 25 g hearts", "25 g chicken hearts", "taken from chicken, as the meat"},
      {"500 g beef mince every day. Tues and Fri 100 g ox liver instead of some of the mince",
       "500 g (250-500 g) beef mince every day", "100 g ox liver, Tues and Fri"},
      /* days as people shorten them */
      {"Sardines in water, one tin, Weds and Sats", "1 can Sardines in water, Weds and Sats", ""},
      {"1 egg sats", "1 egg sats\n", ""},
      /* what is understood before a comma */
      {"300 g beef mince\nkelp (1/4 tsp), vit E (100IU)", "0.25 tsp kelp\n", "100 IU vitamin E"},
      {"300 g beef mince\nkelp 1/4 tsp, iodine drops", "0.25 tsp kelp", "? iodine drops"},
      {"300 g beef mince\n1/2 sweet potato (medium), couple of carrots", "0.5 sweet potato, medium", "? couple of carrots"},
      {"pork trotter 200g, pig ear once a week", "200 g pork trotter", "? pig ear once a week"},
      {"300 g beef mince\nOnce a day: 1 tsp salmon oil, 1 multivitamin tablet", "1 tsp salmon oil, once a day",
       "? 1 multivitamin tablet"},
      /* batches */
      {"So I split into 14 meals, two a day: 5 lb ground beef, 2 lb rice", "Makes: 7 days", "5 lb ground beef\n"},
      {"big batch - 14 meals, two a day.\n5 lb ground beef\n2 lb rice", "Makes: 7 days", "2 lb rice\n"},
      {"20 kg dog. Makes about 10 cups, he gets 2 cups a day: 3 lb ground turkey, 2 cups rice", "Makes: 5 days",
       "3 lb ground turkey\n"},
      {"3 kg beef mince\n1 kg cooked rice\nsplit between 8 containers; one at breakfast and one at tea", "Makes: 4 days",
       "3 kg beef mince\n"},
  };
  (void)state;
  int wrong = 0;
  for (size_t i = 0; i < COUNT_OF(ROW); i++) wrong += !posted_becomes(ROW[i].post, ROW[i].line, ROW[i].other, NULL);
  assert_int_equal(wrong, 0);
}

/* What is said not to be given is told, and asked of nobody. */
static void a_denial_is_no_food(void **state) {
  static const char *const POST[] = {"300 g beef heart. He doesnt get bones.", "300 g beef heart. She dont get bones.",
                                     "300 g beef heart. He doesn't get bones."};
  (void)state;
  for (size_t i = 0; i < COUNT_OF(POST); i++) {
    struct post post = posted(POST[i]);
    assert_null(strstr(post.recipe, "\n? "));
    assert_false(posted_asks(&post, "bones"));
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {T(posts_become), T(a_denial_is_no_food)};
  return cmocka_run_group_tests_name("post_apart", tests, NULL, NULL);
}
