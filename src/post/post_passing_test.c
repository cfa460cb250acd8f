/* post_passing_test.c: what is told in passing, and how people write a line in one breath. The expectations are a careful
 * reader's. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"
#include "tests/support/posted.h"

struct row {
  const char *post, *line, *other, *never; /* two pieces of the strict text, and one that it must not hold; NULL */
};

static void become(const struct row *row, size_t rows) {
  int wrong = 0;
  for (size_t i = 0; i < rows; i++) wrong += !posted_becomes(row[i].post, row[i].line, row[i].other, row[i].never);
  assert_int_equal(wrong, 0);
}

/* What is taken back in the same breath is not fed, and changes no other line. */
static void a_slip_is_taken_back(void **state) {
  static const struct row ROW[] = {
      {"12 kg dog. 200g chicken livers, 7 tsp eggshell powder, 1 bottle... i mean 7 pumps of salmon oil",
       "\n200 g chicken livers\n7 tsp eggshell powder\n7 pumps salmon oil", "# not counted: 1 bottle... i mean (taken back",
       NULL},
      {"12 kg dog. 200g beef, sorry 250 g beef, 2 tsp of salmon oil", "\n250 g beef\n", "2 tsp salmon oil", "\n200 g"},
      {"12 kg dog. 300 g beef heart and 1 tin - make that 2 tins of sardines a week", "\n300 g beef heart\n",
       "2 cans sardines a week", "1 can"},
      {"12 kg dog. 1 tsp, no wait, 2 tsp of salmon oil, 300 g beef", "\n2 tsp salmon oil\n", "\n300 g beef", NULL},
      {"12 kg dog. Beef 200 g. I mean 300 g turkey", "\n200 g Beef\n", "? I mean 300 g turkey", NULL},
      {"12 kg dog. 300 g beef heart, sorry for the long post. 200 g rice", "\n300 g beef heart", "\n200 g rice", NULL},
      {"12 kg dog. 300 g beef heart. 7 pumps of salmon oil I mean", "\n300 g beef heart", "", "\n7 g"},
  };
  (void)state;
  become(ROW, sizeof ROW / sizeof *ROW);
}

/* What only a label tells is fed, and not counted; named for another reason it is not fed. */
static void a_product_is_not_lost(void **state) {
  static const struct row ROW[] = {
      {"20 kg dog. 300 g beef, 1 tsp salmon oil. Also one multivitamin \"TabsX\".", "\n? one multivitamin \"TabsX\"\n",
       "What does the label of 'one multivitamin", NULL},
      {"20 kg dog. 300 g beef, 1 tsp sunflower oil, a multivitamin. He is fine on it.", "\n? multivitamin\n", "", NULL},
      {"20 kg dog. 300 g beef. One \"Abcal\" calcium tablet daily.", "\n? One \"Abcal\" calcium tablet daily\n", "", NULL},
      {"20 kg dog. 300 g beef and a multivitamin called Xtabs", "\n? multivitamin called Xtabs\n", "\n300 g beef", NULL},
      {"20 kg dog. 300 g beef. Also gets a daily multivitamin.", "\n? a daily multivitamin\n", "", NULL},
      {"20 kg dog. 300 g beef. She has one hip and joint tablet.", "\n? one hip and joint tablet\n", "", "? joint tablet"},
      {"20 kg dog. 300 g beef. Should I add a multivitamin?", "\n300 g beef", "", "\n?"},
      {"20 kg dog. 300 g beef. No multivitamin.", "\n300 g beef", "", "\n?"},
      {"20 kg dog. 300 g beef. I don't give a multivitamin", "\n300 g beef", "", "\n?"},
      {"20 kg dog. 300 g beef. Do I need a multivitamin with that", "\n300 g beef", "", "\n?"},
  };
  (void)state;
  become(ROW, sizeof ROW / sizeof *ROW);
}

/* What stands in a bracket behind a food or a word for many, and words that say nothing new. */
static void a_bracket_tells_which(void **state) {
  static const struct row ROW[] = {
      {"18 kg dog. 500 g a day: 90% beef mince, 10% bone (chicken feet)", "\n50 g chicken feet\n", "\n450 g beef mince",
       "\n?"},
      {"18 kg dog. 300 g beef, 100 g raw meaty bones (chicken necks)", "\n100 g chicken necks", "\n300 g beef", "\n?"},
      {"18 kg dog. 300 g beef. mussels 15 g (green lipped)", "\n15 g green lipped mussels\n", "\n300 g beef", "\n?"},
      {"18 kg dog. 300 g beef. Sardines (water) | 1/2 can, 3x/week", "\n0.5 can Sardines in water, 3x/week", "", "\n?"},
      {"18 kg dog. 300 g beef (lean), 1 egg (large), 100 g chicken (thigh), 30 g veg (mashed)", "\n300 g beef, lean\n",
       "\n100 g chicken, thigh\n", NULL},
      {"18 kg dog. 300 g beef, 150g oats dry cooked w/ water", "\n150 g dry oats\n", "", "\n?"},
      {"18 kg dog. 300 g beef\na vit E 400iu cap once a week", "\n1 capsule vitamin E, 400 IU, once a week", "", "\n?"},
      {"18 kg dog. 300 g beef\nmon wed fri a duck neck (they're about 120g)", "\n120 g (108-132 g) duck neck, mon wed fri",
       "", "\n?"},
      {"18 kg dog. am 200 g beef, 60 g tripe\npm: same again but no tripe, I do 2 eggs instead on tues + sat\n40 g peas",
       "\n2 eggs on tues + sat\n40 g peas\n", "", "on Tuesday and Saturday"},
      {"18 kg dog. 300 g beef\n1 tbsp of rice + whatever veg is going, carrots mostly, say 50g", "\n50 g (45-55 g) carrots",
       "", "50 g rice"},
      {"18 kg dog. 700g mutton curry cut", "\n700 g lamb", "", "\n?"},
      {"18 kg dog. 300 g beef, cup of bone broth (store bought)", "\n1 cup bone broth", "", "\n?"},
      {"18 kg dog. 300 g beef, 1 avocado", "\n1 avocado  # one piece taken as 140 g", "", "\n?"},
      {"18 kg dog. 300 g beef, 1 drop iodine", "\n? 1 drop iodine\n", "What does the label of the iodine state", "weigh?"},
      {"My 40kg golden retriever (6, neutered, normal weight) gets 200g cooked chicken breast",
       "Dog: 40 kg, 6 years, neutered\n", "\n200 g cooked chicken breast", "\n?"},
  };
  (void)state;
  become(ROW, sizeof ROW / sizeof *ROW);
}

/* How an animal is fed, and the kind of food that it eats, are no foods of their own. */
static void a_way_of_feeding_is_no_food(void **state) {
  static const struct row ROW[] = {
      {"24 kg dog. I feed him strictly carnivore, 500g of ground beef raw every day, nothing else.",
       "\n500 g ground beef raw", "", "\n?"},
      {"my 4.5kg cat (7 y, neutered) only eats fish. I give her 120g of raw herring a day", "\n120 g raw herring a day", "",
       "\n?"},
      {"24 kg dog. 500 g ground beef. He eats fish too", "\n500 g ground beef", "fish", NULL},
  };
  (void)state;
  become(ROW, sizeof ROW / sizeof *ROW);
}

/* "150 g each per day" of a batch for several: how long one's own part lasts. */
static void what_each_eats_of_a_batch(void **state) {
  static const struct row ROW[] = {
      {"Two cats, each 5kg. I make a batch: 2 kg chicken thigh with bone, 200g chicken hearts. They eat about 150 g each "
       "per day.",
       "\nMakes: 15 days\n", "\n2 kg chicken thigh with bone\n", "mentioned"},
      {"Two cats, 5 kg each. 200 g chicken thigh. They eat 40 g of rice each per day", "\n200 g chicken thigh", "",
       "Makes: 5"},
  };
  (void)state;
  become(ROW, sizeof ROW / sizeof *ROW);
}

/* Where no line is read whole, the animal's weight is no food's, and an amount is of what stands before the bracket. */
static void the_last_resort_takes_no_weight(void **state) {
  static const struct row ROW[] = {
      {"Dog 18 kg: mussels 15 g (green lipped stuff)", "\n15 g mussels", "", "\n18 kg"},
      {"Dog 18 kg: 700g zorgle (boiled with turmeric and salt)", "", "", "700 g turmeric"},
  };
  (void)state;
  become(ROW, sizeof ROW / sizeof *ROW);
}

/* An illness told in passing is an illness; everyday complaints, the breed's and somebody else's are none. */
static void illness_in_passing(void **state) {
  static const struct {
    const char *post;
    bool unwell;
  } ROW[] = {
      {"7kg mini schnauzer (prone to pancreatitis), 6 years neutered: 150g cod", true},
      {"20 kg dog prone to struvite crystals. 300 g beef", true},
      {"20 kg dog with sensitive kidneys. 300 g beef", true},
      {"20 kg dog, history of bladder stones. 300 g beef", true},
      {"20 kg dog, bladder issues. 300 g beef", true},
      {"My diabetic cat, 4 kg: 100 g turkey", true},
      {"20 kg dog on thyroid tablets. 300 g beef", true},
      {"20 kg dog, IBD. 300 g beef", true},
      {"20 kg dog with EPI. 300 g beef", true},
      {"20 kg dog, just had surgery. 300 g beef", true},
      {"20 kg dog, he had knee surgery last week. 300 g beef", true},
      {"20 kg dog, heart problems. 300 g beef heart", true},
      {"20 kg dog, sensitive stomach, picky, a bit overweight, prone to ear infections. 300 g beef", false},
      {"20 kg dog, fussy eater, itchy skin, loose stools now and then. 300 g beef", false},
      {"20 kg dog, no history of pancreatitis. 300 g beef", false},
      {"20 kg dog, family history of diabetes. 300 g beef", false},
      {"Schnauzers are prone to pancreatitis so I keep it lean. 20 kg dog. 300 g beef", false},
      {"The breed is prone to bladder stones. 20 kg dog. 300 g beef", false},
      {"My other dog is prone to pancreatitis. 20 kg dog. 300 g beef", false},
      {"20 kg dog, I want to avoid bladder stones. 300 g beef", false},
  };
  (void)state;
  int wrong = 0;
  for (size_t i = 0; i < sizeof ROW / sizeof *ROW; i++) {
    struct post post = posted(ROW[i].post);
    if (post.told.unwell == ROW[i].unwell) continue;
    print_error("'%s' became\n%s", ROW[i].post, post.recipe);
    wrong++;
  }
  assert_int_equal(wrong, 0);
}

/* Beside cooked food nobody weighs rice or lentils dry without saying so; beside raw food that is not known, and what is
 * said of it stands. */
static void starch_beside_cooked_food_is_cooked(void **state) {
  static const struct row ROW[] = {
      {"20 kg dog. 300 g beef mince, cooked, 200 g rice and 50 g lentils, 100 g carrots", "\n200 g (140-280 g) cooked rice",
       "\n50 g (35-70 g) cooked lentils", "cooked carrots"},
      {"20 kg dog. 300 g boiled chicken breast, 40 g oats, 1/2 cup quinoa", "\n40 g (28-56 g) cooked oats",
       "Are 'oats' and 'quinoa' weighed cooked or dry?", NULL},
      {"20 kg dog. I cook for him: 300 g beef mince, 200 g rice", "\n200 g rice", "",
       "cooked rice"}, /* what goes into the pot */
      {"20 kg dog. 300 g cooked beef, 60 g cooked millet in the morning, another 40 of the millet at night",
       "\n60 g cooked millet", "\n40 g", "(28-56 g)"},
      {"20 kg dog. 300 g cooked beef mince, 80 g dry rice", "\n80 g", "rice", "cooked rice"},
      {"20 kg dog. 300 g cooked beef mince, 80 g rice (dry weight)", "\n80 g", "rice", "cooked rice"},
      {"20 kg dog. 300 g raw beef mince, 80 g rice, 1 boiled egg", "\n80 g rice", "", "cooked rice"},
      {"20 kg dog. 300 g cooked beef mince, 10 g wheat germ, 100 g tofu", "\n10 g wheat germ", "\n100 g tofu",
       "cooked tofu"},
  };
  (void)state;
  become(ROW, sizeof ROW / sizeof *ROW);
}

/* What is made for two is divided once: by the days that it lasts one of them, or in the lines, and never both. */
static void a_batch_for_two_is_divided_once(void **state) {
  static const struct row ROW[] = {
      {"Raw for my 2 cats - tom 7.5kg, girl 5.5 kg. I make a batch that lasts both of them about 10 days:\n3 kg chicken "
       "thighs\n6 egg yolks",
       "Makes: 20 days", "\n3 kg chicken thighs", "1.5 kg"},
      {"Two cats, 5 kg each, one pot. Here is what I use up in 10 days.\n3 kg chicken thighs\n500 g chicken hearts",
       "Makes: 10 days", "\n1.5 kg chicken thighs", "20 days"},
      {"2 dogs, 20 kg each. They share one pot. Lasts them 20 days:\n600 g beef mince\n400 g rice", "\n300 g beef mince",
       "\n200 g rice", "Makes:"},
      {"2 dogs, 20 kg each. They share one pot. Lasts them 4 days:\n6 kg beef mince\n2 kg rice", "Makes: 8 days",
       "\n6 kg beef mince", NULL},
  };
  (void)state;
  become(ROW, sizeof ROW / sizeof *ROW);
}

/* Shares and weights that the bowl is meant to have stand above the lines that have their own, and are no food beside them;
 * a bracket tells of the piece before it. 300 + 240 + 100 is 640, and 46 % of 175 is 80. */
static void a_target_is_no_food(void **state) {
  static const struct row ROW[] = {
      {"80% muscle meat, 10% bone, 5% liver, 5% other secreting organ. Dog is 32kg.\n\nMuscle 640g: chicken thigh 300g "
       "(37.5%), beef chuck 240 g (30%), lamb heart 100g\n"
       "Bone 80 g: from chicken wings 175g (46% bone)\nLiver: 40g beef\nOrgan: 40g beef kidney",
       "\n40 g beef Liver", "\n40 g beef kidney", "\n?"},
      {"Dog 32 kg.\nMuscle 640g: chicken thigh 300g, beef chuck 240 g, lamb heart 100g\nBone 80 g: from chicken wings 175g "
       "(46% bone)",
       "\n300 g chicken thigh", "\n175 g from chicken wings", "\n80 g"},
      {"Dog 32 kg\n80% muscle meat\n300g chicken thigh\n240 g beef chuck\n10% bone\n175 g chicken wings\n5% liver\n40g beef "
       "liver",
       "\n175 g chicken wings", "\n40 g beef liver", "\n?"},
      {"Dog 32 kg\nMuscle meat (540 g):\n300g chicken thigh\n240 g beef chuck\nLiver 40 g\n40g beef liver",
       "\n240 g beef chuck", "\n40 g beef liver", "\n?"},
      {"Dog 32 kg. 175 g chicken wings (about 46 % bone)\n300 g beef", "\n175 g chicken wings", "\n300 g beef", "404"},
      {"Dog 32 kg\n300 g chicken thigh\n40 g beef\n\nOn top of that 40 g beef kidney", "\n40 g beef\n", "\n40 g beef kidney",
       "mentioned twice"},
      /* stays: what the lines do not come to, and shares beside which nothing is weighed */
      {"Dog 32 kg\n300 g chicken thigh\nLiver 40 g\nbeef heart 100 g", "\n40 g chicken Liver", "\n100 g beef heart", NULL},
      {"Dog 32 kg, fed 800 g a day.\n80% beef heart\n10% bone\n10% beef liver\n100 g carrots\n20 g kale", "\n10 % beef bone",
       "\n100 g carrots", NULL},
      {"Dog 32 kg\n300 g beef heart\nLiver 40g: beef 20 g, chicken 20 g", "\n40 g beef Liver",
       "Which animal is the 'Liver' from", NULL},
      {"Dog 32 kg\n300 g beef heart\nOrgans 40g:\n20 g beef liver\n20 g beef kidney", "\n20 g beef liver",
       "\n20 g beef kidney", "Organs 40"},
      {"Dog 32 kg\nFeeds 800 g a day. 80% beef heart, 10% bone, 10% beef liver", "\n80 % beef heart", "\n10 % beef liver",
       NULL},
  };
  (void)state;
  become(ROW, sizeof ROW / sizeof *ROW);
}

static void words_that_tell_which_food(void **state) {
  static const struct row ROW[] = {
      {"Dog 48 kg\n500 gr carcasa de pollo (chicken carcass)\n300 g beef", "\n500 g chicken carcass", "\n300 g beef", "\n?"},
      {"Dog 48 kg\n500 g molleja de pollo (chicken gizzard)\n200 g arroz blanco (cooked white rice)",
       "\n500 g chicken gizzard", "\n200 g cooked white rice", "\n?"},
      {"Dog 48 kg\n500 g wombat steak (chicken)\n300 g beef", "? 500 g wombat steak", "\n300 g beef",
       NULL}, /* which of them? */
      {"Dog 30 kg. 500 g ground turkey, 1 egg with shell crushed up", "\n1 egg with shell", "", "\n?"},
      {"Dog 30 kg. 500 g ground turkey\n2 eggs with the shell\n1 egg, shell crushed in", "\n2 eggs with shell",
       "\n1 egg with shell", "\n?"},
      {"Dog 30 kg. 500 g ground turkey\n2 eggs with the shell removed", "\n? 2 eggs with the shell removed", "",
       "one piece taken"},
  };
  (void)state;
  become(ROW, sizeof ROW / sizeof *ROW);
}

/* A second portion at another meal is one more; the fat in which a food is cooked is fed, and asked. */
static void once_more_and_in_butter(void **state) {
  static const struct row ROW[] = {
      {"cat 4 kg. 1 can of tuna in water (the 5oz cans, drained) morning and another one at night and some kibble",
       "\n5 oz tuna in water", "twice a day", "? drained"},
      {"cat 4 kg. 50 g tuna in the morning and another 50 g at night", "\n50 g tuna twice a day", "", "50 g at night"},
      {"cat 4 kg. 1 egg in the morning, another at night. 40 g chicken thigh", "\n1 egg twice a day\n",
       "\n40 g chicken thigh", NULL},
      {"20 kg dog. 60 g cooked millet in the morning, another 40 of the millet at night", "\n60 g cooked millet", "\n40 g",
       "twice"},
      {"dog 4 kg. 1 tbsp scrambled egg (cooked in butter), 50 g chicken", "\n1 tbsp scrambled egg\n", "? some butter", NULL},
      {"dog 4 kg. 1 egg, 50 g chicken cooked in a little butter", "\n50 g chicken cooked\n", "? some butter", NULL},
      {"dog 4 kg. Half a scrambled egg done in a little butter (3 g), 50 g chicken", "? Half a scrambled egg",
       "\n50 g chicken", "some butter"},
      {"dog 4 kg. 1 scrambled egg (no butter), 50 g chicken", "\n1 scrambled egg", "\n50 g chicken", "\n?"},
  };
  (void)state;
  become(ROW, sizeof ROW / sizeof *ROW);
}

int main(void) {
  const struct CMUnitTest tests[] = {T(a_slip_is_taken_back),
                                     T(a_bracket_tells_which),
                                     T(the_last_resort_takes_no_weight),
                                     T(a_way_of_feeding_is_no_food),
                                     T(what_each_eats_of_a_batch),
                                     T(a_product_is_not_lost),
                                     T(illness_in_passing),
                                     T(starch_beside_cooked_food_is_cooked),
                                     T(a_batch_for_two_is_divided_once),
                                     T(a_target_is_no_food),
                                     T(words_that_tell_which_food),
                                     T(once_more_and_in_butter)};
  return cmocka_run_group_tests_name("post_passing", tests, NULL, NULL);
}
