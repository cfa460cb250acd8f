/* post_grid_test.c: tables and forms as owners paste them. The expectations are a careful reader's. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"
#include "tests/support/posted.h"

struct pasted {
  const char *post, *lines; /* these, one below the other, and nothing else that is counted */
};

static void read_so(const struct pasted *row, size_t count) {
  int wrong = 0;
  for (size_t i = 0; i < count; i++) {
    struct post post = posted(row[i].post);
    const char *body = strstr(post.recipe, "\n\n"), *found = body ? strstr(body, row[i].lines) : NULL;
    if (found && found == body + 2) continue;
    print_error("%s\n-- is read as --\n%s\n-- and not --\n%s\n", row[i].post, post.recipe, row[i].lines);
    wrong++;
  }
  assert_int_equal(wrong, 0);
}

static void tables_with_a_head(void **state) {
  static const struct pasted ROW[] = {
      {"Dog, 14 kg\n\nFood                 grams/day    notes\nchicken breast       0            stopped in May\n"
       "turkey thigh         180          raw, no skin\ncarrots              30\nsalmon oil           2            every "
       "2nd day\n"
       "TOTAL                212\n",
       "180 g turkey thigh, raw, no skin\n30 g carrots\n2 g salmon oil, every 2nd day\n"},
      {"cat, 4.1 kg\nfood;Mon;Tue;Wed;Thu;Fri;Sat;Sun\nrabbit;120;;120;;120;;\nchicken thigh;;120;;120;;120;120\n"
       "chicken liver;5;5;5;5;5;5;5\n",
       "120 g rabbit, on Monday, Wednesday and Friday\n120 g chicken thigh, on Tuesday, Thursday, Saturday and Sunday\n"
       "5 g chicken liver, daily\n"},
      {"Dog 16 kg\nDay;beef mince 15% fat;rice;egg\nMon;200;100;\nTue;200;;1\n",
       "200 g beef mince 15% fat, on Monday\n100 g rice, on Monday\n200 g beef mince 15% fat, on Tuesday\n1 egg, on "
       "Tuesday\n"},
      {"Grams a day, dog 13 kg.\n\n              until Feb   now   per kg\nlamb shoulder    240        0    14.90\n"
       "duck breast        0      210    19.50\npeas              50       40     3.10\n",
       "210 g duck breast\n40 g peas\n"},
      {"Two cats, grams per day. It's Minka I'm asking about (3.8 kg).\n\n            Tiger    Minka\npork loin    60       "
       "75\n"
       "turkey       40       30\n",
       "75 g pork loin"},
      {"dog, 19 kg\n| day | beef mince | carrot | walk |\n|--|--|--|--|\n| Mo | 250 | 40 | 5 km |\n| Tu | 200 | 0 | 8 km "
       "|\n",
       "250 g beef mince, on Monday\n40 g carrot, on Monday\n200 g beef mince, on Tuesday\n"},
      {"| Ingredient | AM | PM |\n|:--|--:|--:|\n| ground turkey | 100 | 90 |\n| sweet potato | 50 | 0 |\n| kale | - | 20 "
       "|\n"
       "dog, 11 kg\n",
       "190 g ground turkey\n50 g sweet potato\n20 g kale\n"},
      {"Ingredient, Qty (g), kcal\nPork shoulder, 250, 540\nGreen beans, 60, 19\nDog of 15 kg\n",
       "250 g Pork shoulder\n60 g Green beans\n"},
      {"ITEM\tQTY\tUNIT\tHOW OFTEN\nbeef heart\t150\tg\tdaily\npork liver\t20\tg\t3x a week\negg\t1\t\tmon and thu\ndog 13 "
       "kg\n",
       "150 g beef heart, daily\n20 g pork liver, 3x a week\n1 egg, mon and thu\n"},
      {"Dog: 20 kg\n% of diet | food\n60 | beef mince 15% fat\n40 | carrots\nTotal fed: 500g/day\n",
       "60 % beef mince 15% fat\n40 % carrots\n"},
      {"Name | Amount per week | Remarks\nChicken thighs | 1.4 kg | boneless\nEggs | 3 | boiled\n(18kg dog)\n",
       "1.4 kg Chicken thighs, boneless per week\n3 Eggs, boiled per week\n"},
      {"            morning   evening\nchicken     100 g     120 g\nrice        -         80 g\n\n9 kg dog, spayed\n",
       "220 g chicken\n80 g rice\n"},
      {"Dog: 12 kg\nMon | Tue | Wed\n200g chicken | 200g beef | 200g chicken\n50g rice | 50g rice | 50g rice\n",
       "200 g chicken, on Monday and Wednesday\n200 g beef, on Tuesday\n50 g rice, on Monday, Tuesday and Wednesday\n"},
      {"Item\tg per serving\tservings/week\nBeef kidney\t30\t2\nLamb liver\t30\t1\nTurkey thigh\t200\t7\nDuck "
       "hearts\t-\t-\nDog: 17 kg\n",
       "30 g Beef kidney, 2 times a week\n30 g Lamb liver, once a week\n200 g Turkey thigh\n"},
  };
  (void)state;
  read_so(ROW, sizeof ROW / sizeof *ROW);
}

static void forms_with_names(void **state) {
  static const struct pasted ROW[] = {
      {"Species: Dog\nWeight: 6 kg\nMeals per day: 3\nMeat (type, amount per meal): turkey, 40 g\nVegetables (per meal): "
       "carrot 10 g\n"
       "Carbohydrate (per meal): none, only in the evening 25 g boiled potato\n",
       "40 g turkey, at each meal\n10 g carrot, at each meal\n25 g boiled potato\n"},
      {"Dog, 14 kg\nNumber of meals: 2\nProtein (each feeding): 110 g lamb shoulder\nFruit (weekly): 70 g blueberries\n",
       "110 g lamb shoulder, at each meal\n70 g blueberries, Per week\n"},
  };
  (void)state;
  read_so(ROW, sizeof ROW / sizeof *ROW);
}

/* The only weight of a line that tells of a day is the whole of the shares below. */
static void shares_of_a_day(void **state) {
  static const char *const HEAD[] = {"Recipe, 1 day = 500 g (dog, 22 kg)", "Daily portion: 500 g. Dog, 22 kg.",
                                     "My 22 kg dog's food, 500 g each day"};
  (void)state;
  for (size_t i = 0; i < sizeof HEAD / sizeof *HEAD; i++) {
    char text[200];
    snprintf(text, sizeof text, "%s\n60 %% lamb shoulder\n30 %% rice, cooked\n10 %% lamb liver\n", HEAD[i]);
    struct post post = posted(text);
    if (!strstr(post.recipe, "Feeds: 500 g a day\n")) fail_msg("%s\n%s", text, post.recipe);
  }
}

static void bought_for_a_week(void **state) {
  static const struct pasted ROW[] = {
      {"Weekly shop for Rufus the setter, 24 kg (cat not included!!), all of it eaten by Sunday:\n1.4 kg chicken thighs, "
       "boneless\n"
       "1 bag of frozen peas, 700 g\nrice 1 kg (dry), lasts two weeks\n",
       "1.4 kg chicken thighs, boneless, a week\n700 g frozen peas, a week"},
      {"My weekly menu (dog, 9 kg):\n700 g turkey thigh\n350 g carrots\n",
       "700 g turkey thigh, a week\n350 g carrots, a week\n"},
  };
  (void)state;
  read_so(ROW, sizeof ROW / sizeof *ROW);
}

int main(void) {
  const struct CMUnitTest tests[] = {T(tables_with_a_head), T(forms_with_names), T(shares_of_a_day), T(bought_for_a_week)};
  return cmocka_run_group_tests_name("post_grid", tests, NULL, NULL);
}
