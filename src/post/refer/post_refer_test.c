/* post_refer_test.c: sentences that refer to others, and near ones that do not. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"
#include "tests/support/posted.h"

/* The strict text has each of the lines, up to four. */
static void gives(const char *text, const char *const line[4]) {
  struct post post = posted(text);
  for (size_t i = 0; i < 4 && line[i]; i++) {
    if (strstr(post.recipe, line[i])) continue;
    print_error("'%s' does not give '%s', but:\n%s", text, line[i], post.recipe);
    fail();
  }
}
static void gives_none(const char *text, const char *words) {
  struct post post = posted(text);
  if (!strstr(post.recipe, words)) return;
  print_error("'%s' gives '%s':\n%s", text, words, post.recipe);
  fail();
}
#define GIVES(text, ...) gives("Dog, 20 kg. " text, (const char *const[4]){__VA_ARGS__})

static void days(void **state) {
  (void)state;
  GIVES("Monday to Friday he gets 200 g beef and 50 g peas daily, at the weekend 180 g cod a day.",
        "200 g beef, on Monday, Tuesday, Wednesday, Thursday and Friday", "50 g peas, on Monday, Tuesday",
        "180 g cod, on Saturday and Sunday");
  GIVES("\nMon duck 200g\nTue cod 200g\nWed same as Mon", "200 g duck, on Monday", "200 g duck, on Wednesday");
  GIVES("Every day but Monday and Thursday: 10 g beef liver. 200 g beef daily.",
        "10 g beef liver, on Tuesday, Wednesday, Friday, Saturday and Sunday");
  GIVES("\nMon-Fri: 2 meals of 110 g pork each.\nSat: as on weekdays.\nSun: half of that.", "220 g pork, Mon-Fri",
        "220 g pork, on Saturday", "110 g pork, on Sunday");
  GIVES("Weekend: 300 g turkey each day. Mon to Fri 200 g duck.", "300 g turkey, on Saturday and Sunday");
  GIVES("My husband feeds from Monday to Wednesday: 250 g lamb and 80 g rice a day.",
        "80 g rice, on Monday, Tuesday and Wednesday");
  GIVES("Monday: 250 g pork. Tuesday: 250 g cod. Wednesday: as Monday. Thursday: half of that.", "125 g pork, on Thursday");
  GIVES("\nMon-Fri: 200 g beef\nSat/Sun: 1.5 times that", "200 g beef, Mon-Fri", "300 g beef, on Saturday and Sunday");
  gives_none("Dog, 20 kg. On Sundays I cook 5 kg of beef and she eats 400 g a day.", "\n400 g");
}

static void how_often(void **state) {
  (void)state;
  GIVES("Feeding frequency f = 3/d. Per feeding: 45 g turkey, 15 g oats.", "Meals: 3 a day", "45 g turkey, at each meal");
  GIVES("f = 2/d. Per feeding: 100 g turkey. Sunday: f = 1/d.", "1300 g turkey, A week");
  GIVES("Portion: 40 g turkey, 10 g oats. Three portions a day. On Fridays only two.", "800 g turkey, A week");
  GIVES("In bowl goes 80 g cod and 50 g peas. This is for one time, and such times two in day.", "80 g cod, 2 times a day",
        "50 g peas, 2 times a day");
}

static void wholes(void **state) {
  (void)state;
  GIVES("400 gr of turkey with potato, the turkey are 280 and the potato is the rest.", "280 g turkey", "120 g potato");
  GIVES("Turkey and cooked rice 2:1, together 360 g per day.", "240 g Turkey", "120 g cooked rice");
  GIVES("Raw half (250 g): 60 % beef cheek, 40 % green tripe. Cooked half (200 g): 50 % cod, 50 % kale.", "150 g beef cheek",
        "100 g green tripe", "100 g cod", "100 g kale");
  GIVES("Daily intake D = 200 g. Composition by mass: 0.7 rabbit, 0.3 pumpkin; multiply by D.", "140 g rabbit",
        "60 g pumpkin");
  GIVES("I do 500 g a day. It's made of chicken, with 300 g, then beef heart, 150, and the last 50 are apple.",
        "300 g chicken", "150 g beef heart", "50 g apple");
  GIVES("3:2 beef to rice, 500 g a day.", "300 g beef", "200 g rice");
  GIVES("The bowl weighs 400 g: 250 beef, 100 rice, 50 peas.", "250 g beef", "100 g rice", "50 g peas");
  GIVES("300 g in total a day: 2/3 beef, 1/3 rice.", "200 g beef", "100 g rice");
  GIVES("She gets 450 g a day: 1/2 apple, 1/2 banana, 300 g beef.", "0.5 apple", "0.5 banana", "300 g beef");
  GIVES("Every morning 1/2 apple and 1/2 banana. 300 g beef a day.", "0.5 apple", "0.5 banana");
  gives_none("Dog, 20 kg. I do 500 g a day. It's made of chicken, 300, then heart, 100, and the last 50 are apple.",
             "50 g apple"); /* 50 g are missing: no list of what the 500 g are */
  gives(
      "Two cats, Mo (5 kg) and Flo (3 kg); this is about Mo. I put down 240 g of raw food a day for the pair, and Mo eats "
      "two thirds of it. The 240 g are chicken mince, except for 30 g which are chicken liver. Each cat gets an egg yolk on "
      "Sundays.",
      (const char *const[4]){"140 g chicken mince", "20 g chicken liver", "1 egg yolk"});
}

static void versions(void **state) {
  (void)state;
  GIVES("Grams per day.\nv1 (Jan): 200 beef + 100 rice.\nv2: beef +20 %.\nv3 (current): as v2, but rice replaced by equal "
        "mass "
        "of cooked millet.\nConstant in all versions: 40 carrots.",
        "240 g beef", "100 g cooked millet", "40 g carrots");
  GIVES("\nv1: 200 g beef, 100 g rice\nv2 (current): 150 g cod", "150 g cod");
  gives_none("Dog, 20 kg.\nv1: 200 g beef, 100 g rice\nv2 (current): 150 g cod", "\n200 g beef");
  GIVES("Version 1: 300 g beef. Version 2: 300 g cod. We alternate.", "300 g beef, every 2 days", "300 g cod, every 2 days");
  GIVES("\nv1: 200 g beef\nv2: beef more or less as he likes", "200 g"); /* not understood whole: as it was */
}

static void as_much(void **state) {
  (void)state;
  GIVES("Mornings 150 g of beef with 15 g of beef liver. Evenings the same weight of meat as in the morning but cod, no "
        "liver, "
        "instead 60 g of rice.",
        "150 g beef", "15 g beef liver", "150 g cod", "60 g rice");
  GIVES("In the morning 100 g beef, in the evening the same weight of turkey.", "100 g beef", "100 g turkey");
  GIVES("350 g beef daily. Two times in the week instead of the beef the same quantity of horse flesh.",
        "350 g beef, 5 times a week", "350 g horse, 2 times a week");
  GIVES("A small spoon of honey. 300 g duck.", "1 tsp honey  # a small spoon was taken as a teaspoon");
  GIVES("200 g of beef, from this the half is cooked and the other half raw, and 50 g peas.",
        "200 g beef  # counted as weighed raw, though the post says that a part of it is cooked", "50 g peas");
  struct post post = posted("70 g cod and 30 g courgette a day. Cat? No, dog, 7 kg.");
  assert_non_null(strstr(post.recipe, "Dog: 7 kg"));
  assert_non_null(strstr(post.recipe, "\n30 g courgette"));
}

int main(void) {
  const struct CMUnitTest tests[] = {T(days), T(how_often), T(wholes), T(versions), T(as_much)};
  return cmocka_run_group_tests_name("post_refer", tests, NULL, NULL);
}
