/* post_refer_right_test.c: what a later sentence puts right, days that are as others, what stands beside a batch, and
 * ordinary ways to write; near ones that are something else. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "post/post.h"
#include "tests/support/built_image.h"
#include "tests/support/fresh_arena.h"

static struct post read_text(const char *text) {
  struct post post;
  post_read(built_library(), span_of(text), NULL, &post, &arena);
  return post;
}

/* The strict text has each of the lines, up to four. */
static void gives(const char *text, const char *const line[4]) {
  struct post post = read_text(text);
  for (size_t i = 0; i < 4 && line[i]; i++) {
    if (strstr(post.recipe, line[i])) continue;
    print_error("'%s' does not give '%s', but:\n%s", text, line[i], post.recipe);
    fail();
  }
}
static void gives_none(const char *text, const char *words) {
  struct post post = read_text(text);
  if (!strstr(post.recipe, words)) return;
  print_error("'%s' gives '%s':\n%s", text, words, post.recipe);
  fail();
}
#define GIVES(text, ...) gives(text, (const char *const[4]){__VA_ARGS__})

static void put_right(void **state) {
  (void)state;
  GIVES("Nell, a dog of 32 kg, has 300 g beef a day.\n\nEDIT: she weighs 23, not 32!", "Dog: 23 kg", "300 g beef");
  GIVES("2 kg pork and 1 kg rice lasts my 20 kg dog four days.\nEdit: it's five days, not four.", "Makes: 5 days");
  GIVES("Dog, 20 kg. 200 g beef, 1 tsp kelp... no, 1/4 tsp kelp.", "0.25 tsp kelp");
  GIVES("Dog, 20 kg. 200 g beef, 2 tsp eggshell powder - no, 1/2 tsp eggshell powder", "0.5 tsp eggshell");
  gives_none("Dog, 20 kg. 200 g beef. Edit: forgot 30 g peas.", "Makes:");
  GIVES("Weight has gone from 24 to 22.5 kg. My dog gets 300 g turkey.", "Dog: 22.5 kg");
  gives_none("Dog, 20 kg. He has gone from 2 lb to 3 lb a day of beef.", "Dog: 1.36");
}

static void as_another_day(void **state) {
  (void)state;
  GIVES("Dog 20 kg\nMon-Sat: 250 g beef mince, 100 g cooked rice\nSun: same but no beef, three eggs instead",
        "3 eggs, on Sunday", "100 g cooked rice, on Sunday");
  gives_none("Dog 20 kg\nMon-Sat: 250 g beef mince, 100 g cooked rice\nSun: same but no meat",
             "250 g beef mince, on Sunday");
  GIVES("Dog 20 kg\nMon-Fri: 250 g turkey, 100 g rice\nSat: as usual but lamb mince instead of the turkey",
        "250 g lamb mince, on Saturday", "100 g rice, on Saturday");
  GIVES("Dog 20 kg. 300 g beef and 100 g tripe a day. Sundays just 400 g lamb neck.",
        "300 g beef, on Monday, Tuesday, Wednesday, Thursday, Friday and Saturday", "400 g lamb neck");
  GIVES("Dog 20 kg. He has 200 g beef a day. On Fridays instead of the beef he gets 150 g cod.", "150 g cod",
        "200 g beef, on Monday, Tuesday, Wednesday, Thursday, Saturday and Sunday");
}

static void kinds_of_days(void **state) {
  (void)state;
  GIVES("Dog 20 kg. On working days he has 600 g beef and 200 g cooked rice, the other four days it's 400 g beef.",
        "600 g beef, 3 days a week", "200 g cooked rice, 3 days a week", "400 g beef, 4 days a week");
  gives_none("Dog 20 kg. He works Mon and Tue. On working days 600 g beef, the other five days 400 g beef.",
             "600 g beef, 2 times");
  GIVES("Dog 20 kg. 160 g of beef or lamb (alternating days), 30 g peas.", "160 g beef every 2 days",
        "160 g lamb every 2 days");
}

static void beside_a_batch(void **state) {
  (void)state;
  GIVES("Dog 11 kg. I fill 14 boxes and she gets one a day:\n2.1 kg turkey\n+ on top, fresh: 1/2 tsp calcium carbonate",
        "Makes: 14 days", "0.5 tsp calcium carbonate, daily");
  GIVES("Dog 20 kg. 2.8 kg pork makes 14 pots, a pot a day. Nothing else except one fish oil capsule (1000 mg) at supper.",
        "1 capsule fish oil 1000 mg, daily");
  struct post post = read_text(
      "Dog 20 kg. Batch: 2 kg pork, 1 kg rice, 500 g peas. It makes 4 days. He is fed from it daily, it makes 5 days.");
  assert_non_null(strstr(post.recipe, "two lengths"));
}

static void counted(void **state) {
  (void)state;
  GIVES("A week for my 28 kg dog:\n- 7 x 250 g beef\n- 2 x 80 g beef liver\n- 3 x a raw egg", "250 g beef, daily",
        "80 g beef liver, 2 times a week", "1 raw egg, 3 times a week");
  GIVES("Dog 24 kg. 300 g beef a day. 14 eggs a fortnight, so one a day.", "1 eggs a day");
  GIVES("Dog 24 kg. A 5 kg box of turkey mince every two weeks and a 1 kg bag of peas in the same time.",
        "1 kg peas every 14 days");
  GIVES("Dog 24 kg. 3 kg of chicken mince (with bone) a week", "3 kg whole chicken, with bone, a week");
}

static void one_of_several(void **state) {
  (void)state;
  const char *text = "Two dogs.\nRex 34 kg: 500 g tripe\nPip 6 kg, he's who I worry about: 120 g turkey, 40 g potato";
  GIVES(text, "Dog: 6 kg", "120 g turkey");
  gives_none(text, "\n500 g tripe");
  GIVES("I have three beagles. For the three I cook 540 g of beef and 240 g of rice every day and divide it into three "
        "equal bowls. "
        "It is about Fern, 12 kg.",
        "180 g beef", "80 g rice");
  gives_none("Dog, 20 kg. 300 g beef and 100 g rice a day in two equal bowls.", "150 g beef");
}

static void ordinary(void **state) {
  (void)state;
  GIVES("Dog 20 kg. Half of the bowl is turkey mince, a quarter is cooked rice and the last quarter is half carrot, half "
        "peas.",
        "50 % turkey mince", "25 % cooked rice", "12.5 % carrot");
  GIVES("Dog 20 kg. Beef 200 g, rice 60 g dry, peas 20 g", "60 g dry rice");
  GIVES("Dog 20 kg. 200 g beef. Every 3rd day an egg.", "every third day");
  GIVES("Dog 20 kg. In total 500 g pork mince, 150 g rice, 60 g carrots.", "500 g pork mince", "150 g rice");
  gives_none("Dog 20 kg. The new food since last Monday is 300 g duck a day.", "Monday");
  struct post post = read_text("Cat, 4 kg. 110 g chicken thigh a day. She also catches mice.");
  bool told = false;
  for (size_t i = 0; i < post.left_count; i++) told = told || strstr(post.left[i].text, "mice");
  assert_true(told);
}

int main(void) {
  const struct CMUnitTest tests[] = {T(put_right), T(as_another_day), T(kinds_of_days), T(beside_a_batch),
                                     T(counted),   T(one_of_several), T(ordinary)};
  return cmocka_run_group_tests_name("refer right", tests, NULL, NULL);
}
