/* post_builds_test.c: posts that are built otherwise than line by line: forms, tables, interviews, dictation, what refers
 * back, letters, parts of a whole. The expectations are a careful reader's. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"
#include "tests/support/posted.h"

struct row {
  const char *post, *line, *other, *not_there;
};

static void all_become(const struct row *row, size_t count) {
  int wrong = 0;
  for (size_t i = 0; i < count; i++) wrong += !posted_becomes(row[i].post, row[i].line, row[i].other, row[i].not_there);
  assert_int_equal(wrong, 0);
}

static void what_refers_back(void **state) {
  static const struct row ROW[] = {
      {"Dog 12 kg\npm: lamb 180 g; carrots, 80 g; parsnip, ditto", "80 g parsnip", "180 g lamb\n", "the same once more"},
      {"200 g pork with 70 g of swede and the same of cabbage", "70 g cabbage", "70 g swede", NULL},
      {"Noon: 150 g lamb and 90 g cooked couscous.\nEvening: twice the lamb and 20 g kale.", "300 g lamb", "150 g lamb",
       NULL},
      {"In the morning 120 g of turkey. At night the turkey as in the morning, and 60 g of spinach.", "60 g spinach",
       "120 g turkey\n120 g turkey", NULL},
      {"60 g cooked millet in the morning, another 40 of the millet at night", "60 g cooked millet", "40 g millet", NULL},
      {"31 kg dog.\nGrams per kg of dog and day:\nlean beef 12\ncarrots 2", "372 g lean beef", "62 g carrots", NULL},
      {"21 kg.\nDog: 300 g beef, 500 g rice", "Dog: 21 kg", "300 g beef", NULL},
      {"Dog 3 kg: a 1/4 cup of cooked rice and 40 g cod", "0.25 cup", "40 g cod", NULL},
      {"Mornings 60 g of chicken thigh, evenings the same weight of turkey.", "60 g turkey", "60 g chicken thigh",
       "once more"},
      {"morning: salmon 60g\nevening: also 60 but cod", "60 g cod", "60 g salmon", NULL},
      {"am: 50 g cooked rice + 100 g chicken. pm same but no rice, gets green beans instead (30 g)", "30 g green beans",
       "100 g chicken  # the same once more", "50 g cooked rice  #"},
      {"breakfast - 90g cod, 50 g rice\ndinner - same again, lamb for the cod", "90 g lamb", "50 g rice  # the same", NULL},
      {"breakfast: 60g turkey mince + 20 g squash. dinner ditto but with 40 g instead of 60", "40 g turkey mince",
       "20 g squash  # the same", NULL},
      {"First feed: 110 g pork; kale, 20 g. Second feed: as the first, minus the kale.", "110 g pork  # the same",
       "20 g kale\n", NULL},
      {"Lunch: 50 g turkey.\nSupper: ditto, only with 10 g of chicken liver on top", "10 g chicken liver",
       "50 g turkey  # the same", "changes something"},
      {"Supper: 50 g turkey.\nLate: ditto", "50 g turkey  # taken for another meal", "", NULL},
      {"both times 1 tsp olive oil", "1 tsp olive oil", "twice a day", NULL},
      {"Dog. 300 g beef in the morning, 200 g duck in the evening. With each of them he gets 80 g of rice and 20 g of "
       "yoghurt",
       "80 g rice, at each meal", "20 g yoghurt, at each meal", NULL},
      {"Each morning 60 g of minced venison with 10 g of oats, and each evening the venison again but no oats.",
       "60 g minced venison", "10 g oats", NULL},
      {"1) minced lamb 150g 2) same quantity of potato 3) half that of green beans", "150 g potato", "75 g green beans",
       NULL},
      {"80 g of lamb mince in the morning and 70 at night", "80 g lamb mince", "70 g lamb mince", NULL},
      {"mornings cod 50g evenings cod 60g plus 5 g peas", "50 g cod\n", "60 g cod\n", NULL},
  };
  (void)state;
  all_become(ROW, sizeof ROW / sizeof *ROW);
}

static void forms_and_tables(void **state) {
  static const struct row ROW[] = {
      {"[x] turkey - 150 g raw\n[ ] lamb\n[x] hemp oil, 1 tsp", "150 g turkey", "(its box is not ticked)", NULL},
      {"(x) beef heart 60 g\n( ) beef kidney 20 g", "60 g beef heart", "not counted: beef kidney 20 g", "\n20 g beef"},
      {"what,unit,amount,when\nchicken breast,g,60,AM\negg white,piece,1,AM\nsalmon oil,ml,2,PM", "60 g chicken breast",
       "2 ml salmon oil", NULL},
      {"what;amount;unit;when\npork mince;110;g;Sundays\ncod;90;g;evening", "110 g pork mince, on Sunday", "90 g cod", NULL},
      {"Food | AM | PM\nbeef mince | 100 g | 120 g\nrice, cooked | 40 g | same", "220 g beef mince", "80 g rice", NULL},
      {"food 1: pork mince\namount 1: 250 g\nfood 2: boiled potatoes\namount 2: 100 g", "250 g pork mince",
       "100 g boiled potatoes", NULL},
  };
  (void)state;
  all_become(ROW, sizeof ROW / sizeof *ROW);
}

static void questions_and_answers(void **state) {
  static const struct row ROW[] = {
      {"- rice?\n- 60 g, cooked\n- fish?\n- nope\n- weight?\n- 10 kg, dog", "60 g rice, cooked", "Dog: 10 kg", "? fish"},
      {"Q: In the morning?\nA: 130 g turkey\nQ: And in the evening?\nA: The same.\nQ: Eggs?\nA: Two a week.",
       "130 g turkey  # the same once more", "2 Eggs, a week", NULL},
      {"What does he get?\n200 g beef\nCan he have grapes?\nThanks\nAny cheese?\nno idea how much", "Can he have grapes",
       "? Any cheese? no idea how much", NULL},
      {"Q1. Meat? Beef mince, 200 g\nQ2. Oil? Olive, 1 tsp\nQ3. Veg? None", "200 g Beef mince", "1 tsp Olive oil", NULL},
  };
  (void)state;
  all_become(ROW, sizeof ROW / sizeof *ROW);
}

static void dictation(void **state) {
  static const struct row ROW[] = {
      {"my cat is five point two kilos she gets a hundred grams of cod a day", "Cat: 5.2 kg", "100 g cod", NULL},
      {"120 grams of beef no wait 140 grams of beef a day", "140 g beef", "(taken back in the same breath)", "\n120 g"},
      {"a hundred and fifty grams of chicken no sorry that was before now it's a hundred and eighty grams of chicken thigh",
       "180 g chicken thigh", "150 grams of chicken (taken back", "\n150 g"},
      {"he gets 150 grams of lamb sorry I mean pork", "150 g pork", "lamb (taken back", "\n150 g lamb"},
      {"cat nine pounds she gets three meals the first one is two ounces of rabbit the second is the same the third is also "
       "two "
       "ounces but it's duck",
       "2 oz rabbit  # the same once more", "2 oz duck", NULL},
      {"liver ten grams per day but that's beef liver not pork liver", "10 g beef liver", "per day", "pork"},
      {"Rocky gets two hundred grams of pork per day sweet potato a hundred and fifty per day green beans fifty per day and "
       "he is a "
       "dog of seventeen kilos",
       "150 g sweet potato", "taken as grams, like the others", NULL},
  };
  (void)state;
  all_become(ROW, sizeof ROW / sizeof *ROW);
}

static void letters_and_parts(void **state) {
  static const struct row ROW[] = {
      {"Until last month she ate 150 g beef and 60 g potatoes daily. As she grew I have cut the beef to 120 g and replaced "
       "the "
       "potatoes with the same amount of cauliflower.",
       "120 g beef\n", "60 g cauliflower\n", "\n150 g beef"},
      {"Before Easter the cat had 120 g of salmon and 40 g of rice. In place of the rice she now has the same quantity of "
       "pumpkin.",
       "40 g pumpkin", "(about the past)", "\n40 g rice"},
      {"For dinner 200 g of turkey. On Saturdays it's trout instead of the turkey, the same weight.",
       "200 g trout, on Saturdays", "Friday and Sunday", NULL},
      {"[x] turkey 150 g\n[ ] \x98"
       "amb\n[ ] dair\x04y\n",
       "150 g turkey", "not ticked", "\x98"},
      {"[x] turkey 150 g\n[ ] dair\x04y\n[ ] pork", "150 g turkey", "not ticked", "\x04"},
      {"350 g turkey\nonce a week she has a raw meaty bone (lamb rib) but i dont weigh it",
       "? once a week she has a raw meaty bone", "# ask: What and how much", "mentioned"},
      {"350 g turkey. She also has a carrot on Sundays but no idea what it weighs",
       "1 carrot on Sundays  # the post says that it is not weighed", "350 g turkey", NULL},
      {"350 g turkey. She also has a bone on Sundays, no idea how much", "? She also has a bone on Sundays", "350 g turkey",
       "not counted"},
      {"Dog 9.5 kg. I make a pot every Sunday that does him the week:\n1.2 kg turkey mince (7%)\n500g rice, dry\nDivided "
       "into 14 tubs, 2 a day. Plus a teaspoon of salmon oil on each and half a banana as a snack.",
       "1 tsp salmon oil, at each meal", "0.5 banana, daily", NULL},
      {"Mornings 120 g of turkey with 20 g of carrot, evenings the same weight of beef.",
       "120 g beef  # as much as of the turkey", "# ask: As much of 'beef' as of which food?", "\n20 g beef"},
      {"mon-thurs: 500g beef + 150g tripe. fri-sun the same but cod instead of beef", "500 g cod, fri-sun", "500 g", NULL},
      {"AM 100 g beef, 20 g rice. PM same but cod not beef", "100 g cod\n", "the same once more", "cod,"},
      {"120 g turkey, 20 g carrot and the same amount of peas", "20 g peas", "120 g turkey", "# ask: As much"},
      {"I boil a chicken on Sunday and take off the meat, which comes to 700 grams, and he has a seventh of it each day",
       "100 g chicken meat, boiled a day", "", "700"},
      {"I cook 1.4 kg of pork and 700 g of sweet potato on a Sunday. He gets a seventh of the pot each day.",
       "Makes: 7 days", "700 g sweet potato\n", NULL},
      {"cat Nelly 4.8 kg // 200 g/day // turkey 4 parts, turkey hearts 1 part", "80 % turkey", "20 % turkey hearts", NULL},
      {"If she begs she may have 3 cooked prawns, which happens perhaps twice a week.\n50 g turkey",
       "3 cooked prawns, twice a week", "the owner's estimate", NULL},
      {"a boiled egg mashed into 2 tablespoons of cooked rice, made with water", "1 boiled egg", "2 tbsp cooked rice", NULL},
      {"Dog 9 kg. It has rained for nine days. 200 g beef, 30 g peas", "200 g beef", "30 g peas", "9 days"},
      {"this is for the 8 kg sheltie\n260 g cod a day\nmy other one max 30kg just gets triple", "Dog: 8 kg",
       "260 g cod a day\n", "two weights"},
  };
  (void)state;
  all_become(ROW, sizeof ROW / sizeof *ROW);
}

int main(void) {
  const struct CMUnitTest tests[] = {T(what_refers_back), T(forms_and_tables), T(questions_and_answers), T(dictation),
                                     T(letters_and_parts)};
  return cmocka_run_group_tests_name("post_builds", tests, NULL, NULL);
}
