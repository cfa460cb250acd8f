/* post_reasons_test.c: what is said beside the foods and is none: why, for whom, how it was made, how much less. The
 * expectations are a careful reader's. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"
#include "tests/support/posted.h"

static void what_is_no_food_is_none(void **state) {
  static const struct {
    const char *post, *has, *has_not;
  } ROW[] = {
      {"Cat 5 kg, 4 y: 70 g beef heart and taurine 500mg capsule twice a week because she hates it", "taurine", "\n?"},
      {"Cat 3.6 kg, 14 y: 100 g turkey thigh, 10 g liver, egg shell a pinch, she weighs 3.6 kg.", "1 pinch eggshell", "\n?"},
      {"Cat 4 kg, 5 y: 120 g chicken thighs with bone, ground (skin removed from half)", "120 g chicken thighs", "\n?"},
      {"Cat food for 2 cats, each 4.5kg, makes 10 days:\n2 kg chicken thighs\n", "2 kg chicken thighs", "\n?"},
      {"Dog 20 kg, 5 years, neutered: 300 g beef. He gets 20 % less since he is fat.",
       "before or after the '20 % less'", "\n?"},
      {"Dog 17 kg, 5 y: 160 g turkey breast, 100 g green beans\nHe gets 20% less than the calculator says, because he is overweight.",
       "before or after the '20% less'", "\n?"},
      {"Dog 3 kg, 5 y: 80 g minced beef. Calcium from eggshell 1/4 tsp.", "0.25 tsp Calcium from eggshell", "\n?"},
      {"I batch cook for my two dogs but the recipe is for Luna 12kg (the other one gets prescription food). The batch lasts "
       "7 days:\n2 lbs ground turkey\n1 lb chicken hearts\n8 oz beef liver\n",
       "Makes: 7 days\n", "one of 2"},
      {"Cooked recipe for our 25 kg standard poodle (Hugo, 3 y, active):\n300 g beef\n", "high activity", "\n?"},
      {"Dog 25 kg, 3 y: 300 g beef, 1 tsp active charcoal", "25 kg, 3 years\n", "high activity"},
      /* and what is fed stays */
      {"Dog 20 kg, 5 y: 300 g beef, 20 g kale because the beef gives him gas", "20 g kale", "\n? 20 g"},
      {"Dog food for breakfast, 30 kg dog, 5 y: 300 g beef", "300 g beef", "\n? 300"},
  };
  (void)state;
  int wrong = 0;
  for (size_t i = 0; i < COUNT_OF(ROW); i++) wrong += !posted_becomes(ROW[i].post, ROW[i].has, NULL, ROW[i].has_not);
  assert_int_equal(wrong, 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {T(what_is_no_food_is_none)};
  return cmocka_run_group_tests_name("post_reasons", tests, NULL, NULL);
}
