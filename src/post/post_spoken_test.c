/* post_spoken_test.c: how people put it when they speak of a bowl: "most mornings", "just under an ounce", "he should be
 * getting". What each comes to is a careful reader's judgement; the rows after "stays" are near ones that mean something
 * else. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

#include "base/table.h"
#include "tests/support/fresh_arena.h"
#include "tests/support/posted.h"

/* A post, two pieces that its strict text must have and one that it must not; "" none. */
struct spoken {
  const char *post, *line, *other, *not_said;
};

static void must_become(const struct spoken *row, size_t n) {
  size_t wrong = 0;
  for (size_t i = 0; i < n; i++) wrong += !posted_becomes(row[i].post, row[i].line, row[i].other, row[i].not_said);
  assert_int_equal(wrong, 0);
}

#define COLLIE "Collie, 20 kg, 5 years, neutered. "

static void most_mornings_of_several_foods(void **state) {
  static const struct spoken ROW[] = {
      {COLLIE "I feed 200 g chicken thigh, 100 g rice, 50 g carrots and 30 g peas most mornings.",
       "these fed, of which you write 'most mornings': '200 g chicken thigh', '100 g rice', '50 g carrots' and 1 more?",
       "fed on most days, and counted every day", "is '200 g chicken thigh' fed"},
      {COLLIE "Most nights he has 200 g turkey mince and 100 g cooked pasta. He gets 1 egg every day.",
       "'200 g turkey mince' and '100 g cooked pasta'? They were counted every day",
       "100 g cooked pasta  # fed on most days", "without the days between"},
      {COLLIE "300 g beef heart\n1 carrot most days", "On how many days a week is '1 carrot' fed", "fed on most days",
       "300 g beef heart  #"},
      {COLLIE "200 g chicken thigh, 100 g rice and nearly every day an egg", "egg", "fed on most days", "rice  #"},
      {COLLIE "300 g beef heart nearly every day", "fed on most days", "On how many days a week", ""},
      /* stays: how often is told, or of one food */
      {COLLIE "300 g beef heart daily and 50 g carrots most days", "300 g beef heart daily\n", "50 g carrots  # fed on most",
       "these fed"},
      {COLLIE "300 g beef heart daily, and most days an egg", "300 g beef heart daily\n", "1 egg", "these fed"},
      {COLLIE "300 g beef heart most days (5 of 7)", "300 g beef heart", "", "On how many days"},
  };
  (void)state;
  must_become(ROW, COUNT_OF(ROW));
}

static void a_sentence_ends_before_a_small_letter(void **state) {
  static const struct spoken ROW[] = {
      {"lab x, 28kg, 6yo neutered. 300g beef heart, 50g carrots, fish oil cap 1000mg. anything missing??",
       "1 capsule fish oil 1000 mg\n", "50 g carrots\n", "? "},
      {"collie 20 kg. 300 g beef heart, 100 g rice. any thoughts?", "100 g rice\n", "300 g beef heart\n", "thoughts"},
      {"collie 20 kg. 300 g beef heart, 1 tsp salmon oil. is that ok", "1 tsp salmon oil\n", "", "? "},
      {"collie 20 kg. 300 g beef heart, 2 eggs. what else does he need", "2 eggs\n", "", "? "},
      {"collie 20 kg. 300 g beef heart, 1 egg. she loves it", "1 egg\n", "", "? "},
      /* stays: a short form, and a unit before its food */
      {COLLIE "300 g beef heart, 2 tbsp. olive oil, 3 oz. rice", "2 tbsp olive oil\n", "3 oz rice\n", "? "},
      {COLLIE "300 g. beef heart and 100 g. rice", "300 g beef heart\n", "100 g rice\n", "? "},
      {COLLIE "300 g beef heart, approx. 100 g rice", "100 g", "rice", "? "},
      {COLLIE "300 g beef heart, 1000 mg. salmon oil", "1000 mg salmon oil\n", "", "? "},
  };
  (void)state;
  must_become(ROW, COUNT_OF(ROW));
}

static void the_animal_in_few_words(void **state) {
  static const struct spoken ROW[] = {
      {"6, lab x, done. 28kg. 300g beef heart, 100g rice daily", "Dog: 28 kg, 6 years, neutered\n", "300 g beef heart\n",
       "?"},
      {"4yo FS collie cross 18kg. 300g beef heart daily", "Dog: 18 kg, 4 years, neutered\n", "", "?"},
      {"Moggy, MN 5, 4.5kg. 120g turkey mince a day", "Cat: 4.5 kg, 5 years, neutered\n", "", "?"},
      {"F/S kelpie x, 3yo, 19kg. 300g beef heart daily", "Dog: 19 kg, 3 years, neutered\n", "", "?"},
      {"DSH, F/N, 7, 4 kg. 120g turkey mince a day", "Cat: 4 kg, 7 years, neutered\n", "", "?"},
      {"Bitch, speyed, 7, 12kg. 200g beef heart daily", "Dog: 12 kg, 7 years, neutered\n", "", "?"},
      {"Staffy x lab, 4 years, 22 kg, been chopped. 300g beef heart daily", "Dog: 22 kg, 4 years, neutered\n", "", "?"},
      {"he's been done, hes 3, 22 kg jackapoo. 300g beef heart daily", "Dog: 22 kg, 3 years, neutered\n", "", "?"},
      {"22 kg staffy cross, 4, had the snip. 300g beef heart daily", "Dog: 22 kg, 4 years, neutered\n", "", "?"},
      {"desexed male cat 5yo 5kg. 100g beef heart daily", "Cat: 5 kg, 5 years, neutered\n", "", "?"},
      {"Lab, 3yo, ME, 30 kg. 500g beef heart daily", "Dog: 30 kg, 3 years, not neutered\n", "", "?"},
      {"lab, had his bits off, 30kg, 3yo. 500g beef heart daily", "Dog: 30 kg, 3 years, neutered\n", "", "?"},
      {"5 year old cockapoo x cavalier 9kg neutered. 200g beef heart daily", "Dog: 9 kg, 5 years, neutered\n", "", "?"},
      {"sprocker, 16kg, 2, spayed last year. 300g beef heart daily", "Dog: 16 kg, 2 years, neutered\n", "", "?"},
      {"GSD bitch, 29kg, 3yrs, not spayed. 500g beef heart daily", "Dog: 29 kg, 3 years, not neutered\n", "", "?"},
      {"Lab, 30kg, 3yrs, hasn't been done yet. 500g beef heart daily", "Dog: 30 kg, 3 years, not neutered\n", "", "?"},
      {"Lab, 30kg, 3yrs, never been neutered. 500g beef heart daily", "Dog: 30 kg, 3 years, not neutered\n", "", "?"},
      {"Weigh-in: 12.4 kg\nBreed: cocker x\nAge: 4\nM/N\n\n300 g beef heart", "Dog: 12.4 kg, 4 years, neutered\n", "", "?"},
      {"34kg of black labrador, six, neutered. 500g beef heart daily", "Dog: 34 kg, 6 years, neutered\n", "", "?"},
      {"9 kilo terrier, spayed. She is twelve and a bit deaf. 200g beef heart daily", "Dog: 9 kg, 12 years, neutered\n", "",
       "?"},
      {"For my last dog (25kg) and now for the new one, who's only 16kg (beagle, 5, speyed): 300 g beef heart",
       "Dog: 16 kg, 5 years, neutered\n", "300 g beef heart", "?"},
      {"Lab, 30kg, castrated at 2 years old, now 7. 500g beef heart daily", "Dog: 30 kg, 7 years, neutered\n", "", "?"},
      {"Lab, 30kg, six in March, chopped at two. 500g beef heart daily", "Dog: 30 kg, 6 years, neutered\n", "", "?"},
      /* stays: food that was chopped, and what is done */
      {"Collie, 20 kg, 5 years. 300 g beef heart, chopped. 100 g carrots", "Is the animal neutered?", "100 g carrots\n", ""},
      {"Collie, 20 kg, 5 years. 300 g beef heart. I chop it and it's done.", "Is the animal neutered?", "", ""},
      {"Collie, 20 kg, 5 years. 300 g beef heart. She gets 40 g FS salmon", "Is the animal neutered?", "", ""},
  };
  (void)state;
  must_become(ROW, COUNT_OF(ROW));
}

static void added_at_meals_is_no_part_of_the_batch(void **state) {
  static const struct spoken ROW[] = {
      {COLLIE "I cook a batch: 1.2 kg beef heart, 600 g rice. It makes 6 days. I add a 1000 mg fish oil softgel to his "
              "breakfast and 20 g of sardines to each dinner.",
       "1 capsule fish oil 1000 mg, daily\n", "20 g sardines, daily\n", "600 g rice, daily"},
      {COLLIE
       "Batch: 1.2 kg beef heart, 600 g rice, makes 6 days. I stir 1 tsp of salmon oil into his dinner. An egg goes on "
       "top of breakfast.",
       "1 tsp salmon oil, daily\n", "1 egg, daily\n", "rice, daily"},
      {COLLIE "Makes 6 days:\n1.2 kg beef heart\n600 g rice\nI add a teaspoon of salmon oil to her evening meal.",
       "1 tsp salmon oil, daily\n", "1.2 kg beef heart\n", ""},
      {COLLIE "1.2 kg beef heart and 600 g rice makes 6 days. With breakfast he gets half a teaspoon of salmon oil.",
       "0.5 tsp salmon oil, daily\n", "600 g rice\n", ""},
      {COLLIE "1.2 kg beef heart and 600 g rice lasts 6 days. Over her tea goes 5 g of parsley.", "5 g parsley, daily\n",
       "600 g rice\n", ""},
      {COLLIE "1.2 kg beef heart and 600 g rice lasts 6 days. 10 g sardines sprinkled over dinner on Sundays.",
       "10 g sardines", "undays", "daily"},
      /* stays: what goes into the pot, and meals where there is no batch */
      {COLLIE "Batch that makes 6 days: 1.2 kg beef heart, 600 g rice. I add 1 tsp of salmon oil to the pot.",
       "1 tsp salmon oil", "Makes: 6 days", "daily"},
      {COLLIE "I cook his dinner on Sunday, makes 6 days: 1.2 kg beef heart, 600 g rice", "600 g rice\n", "Makes: 6 days",
       "daily"},
      {COLLIE "300 g beef heart, 100 g rice. I add 1 tsp of salmon oil to his dinner.", "1 tsp salmon oil\n", "", "Makes"},
      {COLLIE "Dinners for 6 days: 1.2 kg beef heart, 600 g rice for dinner.", "600 g rice", "Makes: 6 days", "daily"},
  };
  (void)state;
  must_become(ROW, COUNT_OF(ROW));
}

static void what_each_of_them_gets(void **state) {
  static const struct spoken ROW[] = {
      {"Three cats, all neutered, 4 kg each, 5 years old. Each one gets 80 g of chicken thigh and 10 g of liver a day.",
       "80 g chicken thigh", "10 g chicken liver", "as if all of it"},
      {"I have three cats, 4 kg, 4 years, spayed. Each one gets 80 g of chicken thigh a day.", "80 g chicken thigh a day\n",
       "Cat: 4 kg", "How much does each"},
      {"Two cats, 4 kg each, 5 years, neutered. They get 80 g of chicken thigh each a day.", "80 g chicken thigh",
       "Cat: 4 kg", "as if all of it"},
      {"My two dogs are 20 kg each. Each dog has 300 g beef heart and 100 g rice.", "300 g beef heart\n", "100 g rice\n",
       "as if all of it"},
      {"Two cats, 4 kg, 5 years, neutered. Per cat: 80 g chicken thigh, 10 g chicken liver.", "80 g chicken thigh\n",
       "10 g chicken liver\n", "as if all of it"},
      {"Two cats, 4 kg, 5 years, neutered. 80 g chicken thigh per cat, 10 g chicken liver per cat.", "80 g chicken thigh",
       "10 g chicken liver", "as if all of it"},
      {"Brodie (collie, 21kg, 7, entire) and Fern (jack russell, 6.5kg, 9, spayed). Asking for Fern. They share one pot: "
       "1.5kg "
       "beef heart, 500g rice. Lasts the pair 4 days, Brodie gets three quarters.",
       "Makes: 16 days", "500 g rice", "They share"},
      {"We have 3 moggies, 4.5kg each, all done. I buy 1.5 kg chicken thighs (boneless) and 300g chicken hearts a week and "
       "that's split three ways.",
       "0.5 kg chicken thighs, boneless, a week", "100 g chicken hearts a week", "\n? "},
      /* stays: one pot */
      {"My three cats share 240 g of chicken thigh a day. They are 4 kg, 4 years, spayed.", "chicken thigh", "animals", ""},
      {"Two cats, 4 kg each, 5 years. 160 g chicken thigh a day between them.", "80 g chicken thigh", "", ""},
  };
  (void)state;
  must_become(ROW, COUNT_OF(ROW));
}

static void one_or_the_other(void **state) {
  static const struct spoken ROW[] = {
      {COLLIE "300 g of either chicken or turkey mince a day, 100 g rice.", "300 g chicken mince a day  #", "turkey mince",
       "?  "},
      {COLLIE "300 g of either beef heart or lamb heart and 100 g rice.", "300 g beef heart  #",
       "# not counted: 300 g lamb heart (the other choice)", "\n? "},
      {COLLIE "300 g beef heart. 50 g of carrots or peas.", "50 g carrots  #", "peas", "\n? "},
      {COLLIE "300 g beef heart, 8g liver (chicken or ox).", "8 g chicken liver  #", "ox liver (the other choice)", "\n? "},
      {COLLIE "2 chicken hearts a day, 35 g apiece. 300 g beef heart.", "70 g chicken hearts a day\n", "300 g beef heart\n",
       "apiece"},
      {COLLIE "300 g beef heart, 2 chicken necks at 40 g apiece", "80 g chicken necks", "", "apiece"},
      {COLLIE "Chicken hearts and carrots, 35 g apiece, and 300 g beef heart a day.", "35 g Chicken hearts\n",
       "35 g carrots\n", "apiece"},
      {COLLIE "7 day-old chicks, 400 g of rabbit and 150 g beef heart a week. Chicks are around 35 g apiece.",
       "245 g day-old chicks", "one taken as 35 g, as the post says", "35 g Chicks"},
      {COLLIE "300 g beef heart, 2 eggs. His eggs weigh 50 g each.", "100 g eggs", "", "? "},
      {COLLIE "300 g beef heart. The necks are 40 g each.", "300 g beef heart\n", "? The necks are 40 g each", "\n40 g"},
      {COLLIE "300 g beef heart, 200 g rabbit. Carrots are 40 g a day.", "40 g", "300 g beef heart\n", "one taken"},
      {COLLIE "He gets 400 g of mix a day. Per kilo of mix: 600 g beef heart, 200 g rice, 150 g carrots, 50 g beef liver.",
       "Makes: 2.5 days\n", "50 g beef liver\n", "# "},
      {"Per kilo of mix: 700g beef heart, 200g tripe, 100g spinach. She gets 450g of the mix per day, split in 2. She is a "
       "slim "
       "18kg, GWP cross.",
       "Makes: 2.222 days\n", "100 g spinach\n", "\n? "},
      {COLLIE "Feed 500 g a day. For each kg of food: 700 g turkey mince, 300 g rice", "Makes: 2 days\n",
       "700 g turkey mince\n", "? "},
      {COLLIE "Mondays and Thursdays he gets 100 g of sardines. On those two days no beef; the other five 300 g beef heart.",
       "100 g sardines, Mondays and Thursdays\n", "300 g beef heart, on", "# ask"},
      {COLLIE "He works Saturday and Sunday. Those two days: 600 g beef heart. The other five: 450 g lamb heart.",
       "600 g beef heart, on Saturday and Sunday\n", "450 g lamb heart, The other five days\n", "? "},
      {COLLIE "Tuesday and Friday 200 g cod. The other five days 300 g beef heart.", "200 g cod",
       "300 g beef heart, The other five days\n", "? "},
  };
  (void)state;
  must_become(ROW, COUNT_OF(ROW));
}

/* Several of a pack, with what one of them weighs. */
static void packs_and_what_each_holds(void **state) {
  static const struct spoken ROW[] = {
      {COLLIE "Makes 7 days: 2.8 kg turkey mince, two bags of frozen mixed veg (907g each)", "1814 g frozen mixed veg", "",
       ""},
      {COLLIE "Makes 7 days: 2.8 kg turkey mince, 3 packs of chicken livers (225 g each)", "675 g chicken livers", "", ""},
      {COLLIE "Makes 7 days: 2.8 kg turkey mince, 3 tins of sardines, 120 g each", "360 g", "sardines", ""},
      {COLLIE "Makes 7 days: 2.8 kg turkey mince\n2 tubs cottage cheese, 300g each", "600 g cottage cheese", "", ""},
      {COLLIE "Makes 7 days: 2.8 kg turkey mince\n4 sweet potatoes (200 g each)", "800 g sweet potatoes", "", ""},
      /* stays */
      {COLLIE "Makes 7 days: 2.8 kg turkey mince, a bag of frozen mixed veg (907g)", "907 g frozen mixed veg", "", ""},
  };
  (void)state;
  must_become(ROW, COUNT_OF(ROW));
}

/* The day of cooking is none of feeding; and a day without food. */
static void days_of_cooking_and_of_fasting(void **state) {
  static const struct spoken ROW[] = {
      {COLLIE "Sunday prep: 2kg beef heart, 500g pasta (dry), 6 eggs. Makes 6 days.", "2 kg beef heart\n", "6 eggs\n",
       "unday"},
      {COLLIE "Sunday batch cook: 2kg beef heart, 500g rice. Divides into 12 tubs, he eats 2 a day.", "Makes: 6 days",
       "500 g rice\n", "\n? "},
      {COLLIE "Prep on Sundays: 2kg beef heart, 500g rice, lasts 6 days.", "2 kg beef heart\n", "500 g rice", "undays"},
      {COLLIE "300 g beef heart, 100 g rice. One day a week he fasts.", "300 g beef heart, 6 times a week",
       "100 g rice, 6 times", ""},
      {COLLIE "300 g beef heart, 100 g rice. He fasts once a week.", "300 g beef heart, 6 times a week",
       "100 g rice, 6 times", ""},
      /* stays: fed on that day */
      {COLLIE "300 g beef heart. Sunday: 100 g cod.", "100 g cod, on Sunday", "", ""},
      {COLLIE "300 g beef heart. Sunday dinner: 100 g cod.", "100 g cod", "unday", ""},
      {COLLIE "300 g beef heart. Mondays he fasts.", "300 g beef heart, on Tuesday", "", ""},
  };
  (void)state;
  must_become(ROW, COUNT_OF(ROW));
}

/* One food in the place of another, as much of it, on some days. */
static void swapped_for_as_much(void **state) {
  static const struct spoken ROW[] = {
      {COLLIE "90g of chicken thigh and 15g of chicken liver. Twice a week I swap the chicken for prawns, same amount.",
       "90 g chicken thigh, 5 times a week", "90 g prawns, twice a week", "liver, 5 times"},
      {COLLIE "300 g beef heart, 100 g rice. On Fridays I swap the rice for potato.", "300 g beef heart\n",
       "100 g potato, on Fridays", ""},
      {COLLIE "300 g beef heart, 100 g rice. On Sundays the beef is swapped for cod, same weight.", "300 g cod, on Sundays",
       "100 g rice\n", "300 g beef heart\n"},
      /* stays: with an amount of its own; every day */
      {COLLIE "300 g beef heart. On Fridays I swap the beef for 200 g cod.", "200 g cod", "", "300 g cod"},
  };
  (void)state;
  must_become(ROW, COUNT_OF(ROW));
}

static void nearly_and_just_over(void **state) {
  static const struct spoken ROW[] = {
      {COLLIE "300 g beef heart, just under an ounce of beef liver", "0.9-1 oz beef liver  #", "'just under'", "\n? "},
      {COLLIE "300 g beef heart, a bit over a cup of cooked rice", "1-1.15 cups cooked rice  #", "'a bit over'", "\n? "},
      {COLLIE "300 g beef heart, a generous cup of cooked rice", "1-1.3 cups cooked rice", "", "\n? "},
      {COLLIE "300 g beef heart, a good 100 g of cooked rice", "100-115 g cooked rice", "'a good'", "\n? "},
      {COLLIE "300 g beef heart\na generous tablespoon of pumpkin", "1-1.7 tbsp canned pumpkin", "", "\n? "},
      {COLLIE "300 g beef heart\na scant teaspoon of salmon oil", "0.7-1 tsp salmon oil  #", "'scant'", "\n? "},
      {COLLIE "nearly 200 g beef heart a day", "180-200 g beef heart", "'nearly'", "\n? "},
      {COLLIE "almost 200 g beef heart", "180-200 g beef heart", "'almost'", "\n? "},
      {COLLIE "a little over 200 g of beef heart", "200-230 g beef heart", "'a little over'", "\n? "},
      {COLLIE "slightly less than 200 g beef heart", "180-200 g beef heart", "'slightly less than'", "\n? "},
      {COLLIE "a touch more than 200 g of beef heart and 100 g rice", "200-230 g beef heart", "100 g rice\n", "\n? "},
      {COLLIE "beef heart, just over half a pound", "0.5-0.575 lb", "'just over'", "\n? "},
      {COLLIE "beef heart: just shy of 200 g", "180-200 g", "'just shy of'", "\n? "},
      {COLLIE "300 g beef heart, not quite a teaspoon of salmon oil", "0.9-1 tsp salmon oil", "'not quite'", "\n? "},
      /* stays */
      {COLLIE "250 g beef heart, over 100 g rice", "250 g beef heart\n", "rice", "100-1"},
      {COLLIE "about 200 g beef heart", "200 g (180-220 g) beef heart", "", "\n? "},
      {COLLIE "He's almost 6. 400 g beef heart", "400 g beef heart\n", "", "\n? "},
  };
  (void)state;
  must_become(ROW, COUNT_OF(ROW));
}

static void health_is_no_illness(void **state) {
  static const struct spoken ROW[] = {
      {COLLIE "No kidney, liver or heart disease. 300 g beef heart, 100 g rice a day.", "Dog: 20 kg, 5 years, neutered\n",
       "", "not counted"},
      {COLLIE "No health issues, clear bloodwork. 300 g beef heart", "Dog: 20 kg, 5 years, neutered\n", "", "?"},
      {COLLIE "No history of pancreatitis, diabetes, or kidney disease. 300 g beef heart", "Dog: 20 kg, 5 years, neutered\n",
       "", "well"},
      {COLLIE "Healthy, no liver/kidney/heart problems. 300 g beef heart", "Dog: 20 kg, 5 years, neutered\n", "", "well"},
      {COLLIE "Vet says no heart murmur, no arthritis. 300 g beef heart", "Dog: 20 kg, 5 years, neutered\n", "", "well"},
      {COLLIE "Never had pancreatitis or struvite. 300 g beef heart", "Dog: 20 kg, 5 years, neutered\n", "", "well"},
      {COLLIE "Tested negative for cushings. 300 g beef heart", "Dog: 20 kg, 5 years, neutered\n", "", "well"},
      {COLLIE "Bloods clear, no signs of kidney or liver trouble. 300 g beef heart", "Dog: 20 kg, 5 years, neutered\n", "",
       "well"},
      /* stays: ill all the same */
      {COLLIE "Heart murmur grade 2 but no meds. 300 g beef heart", "Is the animal treated for 'Heart murmur",
       "300 g beef heart", "\n? "},
      {COLLIE "No arthritis, but kidney disease. 300 g beef heart", "not well (kidney disease)", "", ""},
      {COLLIE "Not overweight, kidney disease stage 2. 300 g beef heart", "not well (kidney disease", "", ""},
      {COLLIE "No chicken, he has pancreatitis. 300 g beef heart", "not well (pancreatitis)", "", ""},
      {COLLIE "No grain, liver disease. 300 g beef heart", "not well (liver disease)", "", ""},
      {COLLIE "Kidney, liver and heart disease. 300 g beef heart", "not well (heart disease", "", ""},
      {COLLIE "No longer on prednisolone, still has colitis. 300 g beef heart", "not well (colitis", "", ""},
      {COLLIE "No treats, no chews, diabetic. 300 g beef heart", "not well (diabetic)", "", ""},
      {COLLIE "No known issues apart from kidney disease. 300 g beef heart", "not well (kidney disease)", "", ""},
      {COLLIE "No pancreatitis or colitis, kidney disease stage 2. 300 g beef heart", "not well (kidney disease", "", ""},
      {COLLIE "No other health issues, kidney disease stage 2. 300 g beef heart", "not well (kidney disease", "", ""},
      {COLLIE "No problems with food, just pancreatitis. 300 g beef heart", "not well (pancreatitis)", "", ""},
      {COLLIE "No meds for his kidney disease. 300 g beef heart", "not well (kidney disease)", "", ""},
      {COLLIE "No treatment for kidney disease yet. 300 g beef heart", "not well (kidney disease", "", ""},
      {COLLIE "Not fat, diabetic or not I feed 300 g beef heart", "not well (diabetic)", "", ""},
      {COLLIE "300 g beef heart. No kidney, liver or heart as he hates it.", "Dog: 20 kg, 5 years, neutered\n",
       "300 g beef heart", "well"},
  };
  (void)state;
  must_become(ROW, COUNT_OF(ROW));
}

static void advised_and_not_fed(void **state) {
  static const struct spoken ROW[] = {
      {COLLIE "He should be getting 400 g of beef heart.", "400 g beef heart", "advised", ""},
      {COLLIE "The vet said he needs 400 g of chicken thigh a day.", "400 g chicken thigh a day", "advised", ""},
      {COLLIE "My vet told me to feed 400 g chicken thigh and 100 g rice.", "400 g chicken thigh", "advised", ""},
      {COLLIE "Breeder suggested 300 g beef heart, 100 g rice.", "300 g beef heart", "advised", ""},
      /* stays: something else says what is fed */
      {COLLIE "He gets 300 g of beef heart a day. The vet said he needs 400 g of it.", "300 g beef heart a day\n",
       "# not counted: The vet said he needs 400 g", "advised"},
      {COLLIE "300 g beef heart. He should be getting 100 g of rice too.", "300 g beef heart\n",
       "# not counted: ", "rice  #"},
  };
  (void)state;
  must_become(ROW, COUNT_OF(ROW));
}

static void a_total_alone_names_no_food(void **state) {
  static const char *const ROW[] = {COLLIE "He should be getting 400 g.", COLLIE "The vet said he needs 400 g a day.",
                                    COLLIE "The vet said he needs 400 g. I make a mix of beef mince, rice and carrots."};
  (void)state;
  for (size_t i = 0; i < COUNT_OF(ROW); i++) {
    struct post post = posted(ROW[i]);
    if (post.recipe[0] == '\0' && strstr(post.sorry, "how much is fed in all, and not how much of which food")) continue;
    print_error("'%s' became\n%s%s\n", ROW[i], post.recipe, post.sorry);
    fail();
  }
}

static void nothing_is_asked_beside_growth(void **state) {
  static const struct spoken ROW[] = {
      {"My lab puppy is 4 months, 14 kg. 300 g beef heart, 100 g rice a day.", "Dog: 14 kg, 4 months\n", "", "neutered"},
      {"Kitten, 1.5 kg. 80 g chicken thigh a day.", "Cat: 1.5 kg, kitten\n", "", "neutered"},
      {"5 month old GSD pup, 17 kg: 700 g beef heart a day", "Dog: 17 kg, 5 months\n", "", "neutered"},
      {"Puppy, ten weeks old. 300 g beef heart", "300 g beef heart", "What does the animal weigh", "neutered"},
      {"My lurcher bitch (26kg) is in whelp. 600 g beef heart", "pregnant", "", "neutered?"},
      /* stays */
      {"300 g beef heart a day for my dog", "What does the animal weigh, and how old is it? Is it neutered?", "", ""},
      {"Collie, 20 kg, 5 years. 300 g beef heart", "Is the animal neutered?", "", ""},
      {"My pup is 20 kg and 4. 300 g beef heart", "Is the animal neutered?", "", ""},
  };
  (void)state;
  must_become(ROW, COUNT_OF(ROW));
}

int main(void) {
  const struct CMUnitTest tests[] = {T(most_mornings_of_several_foods),
                                     T(a_sentence_ends_before_a_small_letter),
                                     T(the_animal_in_few_words),
                                     T(added_at_meals_is_no_part_of_the_batch),
                                     T(what_each_of_them_gets),
                                     T(one_or_the_other),
                                     T(packs_and_what_each_holds),
                                     T(days_of_cooking_and_of_fasting),
                                     T(swapped_for_as_much),
                                     T(nearly_and_just_over),
                                     T(health_is_no_illness),
                                     T(advised_and_not_fed),
                                     T(a_total_alone_names_no_food),
                                     T(nothing_is_asked_beside_growth)};
  return cmocka_run_group_tests_name("post_spoken", tests, NULL, NULL);
}
