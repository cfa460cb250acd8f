/* Words that change an amount and are no amount: what a careful reader would have to ask, and sentences that a careful
 * reader passes over (posts of these forms stand in tests/post with the reading of a person). */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"
#include "tests/support/posted.h"

static const struct post_question *of_amounts(const struct post *post) {
  for (size_t i = 0; i < post->question_count; i++)
    if (post->question[i].about == ASKS_OF_AMOUNTS) return &post->question[i];
  return NULL;
}

/* Something that no reader can use is asked about, in the owner's words, and said beside the line that it may change. */
static void what_nobody_used_is_asked(void **state) {
  static const struct {
    const char *post, *asks, *line;
  } ROW[] = {
      {"Collie, 20 kg.\n300 g beef heart\n100 g rice\nTwice as much of the food on Sundays.", "wice as much",
       "300 g (150-600 g) beef heart  # counted without it"},
      {"Collie, 20 kg.\n300 g beef heart\n100 g rice\nWe stopped the rice last week.", "stopped the rice",
       "100 g (10-100 g) rice"},
      {"Collie, 20 kg.\n300 g beef heart\n100 g rice\nNo rice when it is hot.", "No rice", "rice  # counted as always fed"},
      {"Collie, 20 kg.\n300 g beef heart only when the butcher has it", "only when", "counted as if always so"},
      {"Collie, 20 kg.\n300 g beef heart\nplus 100 g of the beef heart on Sundays", "the beef heart",
       "counted beside another amount"},
      {"Collie, 20 kg.\n300 g beef heart\n100 g rice\nAmounts vary a bit, food is done by eye.", "vary",
       "beef heart  # counted as it stands, though it varies"},
      {"Collie, 20 kg.\nRecipe A:\n300 g beef heart\nRecipe B:\n300 g lamb heart", "Recipe A",
       "300 g (90-300 g) beef heart"},
      {"Collie, 20 kg.\n300 g beef heart\n100 g rice\nShe never finishes it, so some food is left over.", "never finishes",
       "counted whole"},
      {"Collie, 20 kg.\n300 g beef heart\n100 g rice\nThis is what two of them eat.", "two of them",
       "300 g (150-600 g) beef heart"},
      {"Collie, 20 kg.\n300 g beef heart\n100 g rice\nThat was last year.", "was last year",
       "beef heart  # counted as fed today"},
      {"Collie, 20 kg.\n300 g beef heart\n100 g rice\nIn ounces, not grams.", "In ounces", "counted as it stood before"},
      {"Collie, 20 kg.\n300 g beef heart\n100 g rice\nWeekends off.", "Weekends off", "beef heart  # counted every day"},
      {"Collie, 20 kg.\n300 g beef heart\n100 g rice\nThe rice is mine.", "is mine", "100 g (20-100 g) rice"},
      {"Collie, 20 kg.\nBreakfast 100 g cod.\nSupper 110 g beef.\nOn Wednesdays I work late and there is no supper.",
       "no supper", "counted every day"}};
  (void)state;
  for (size_t i = 0; i < COUNT_OF(ROW); i++) {
    struct post post = posted(ROW[i].post);
    const struct post_question *q = of_amounts(&post);
    if (q && strstr(q->ask, ROW[i].asks) && strstr(post.recipe, ROW[i].line)) continue;
    print_error("'%s' became\n%s", ROW[i].post, post.recipe);
    fail();
  }
}

/* A word of the animal's story, of a greeting or of the scale that changes nothing. */
static void what_changes_nothing_is_not(void **state) {
  static const char *const ROW[] = {
      ("Hi all, same here as so many. Collie, 20 kg, 3 yrs, two walks a day, each about half an hour.\n"
       "300 g beef heart\n100 g rice"),
      "Collie, 20 kg.\n300 g beef heart twice a day\n100 g rice every other day",
      "Collie, 20 kg. He used to be so thin.\n300 g beef heart\n\nHalf of it in the morning, half at night.",
      "Collie, 20 kg.\n300 g beef heart\n75 g each of carrots and peas\nNo onions, no garlic.",
      "Collie, 20 kg. Vet checks him every six months, the rest of the family loves him.\n300 g beef heart",
      "Collie, 20 kg, 5 yrs.\n300 g beef mince (80/20)\n100 g rice\nSplit over two meals.",
      "Collie, 20 kg. Raw for two years.\n300 g beef heart\nMeat is weighed raw. That's each and every day.",
      "Collie, 20 kg.\n300 g beef heart\nDinner depends on work."};
  (void)state;
  for (size_t i = 0; i < COUNT_OF(ROW); i++) {
    struct post post = posted(ROW[i]);
    if (!of_amounts(&post)) continue;
    print_error("'%s' became\n%s", ROW[i], post.recipe);
    fail();
  }
}

struct row {
  const char *post, *strict; /* a piece of what it becomes */
};

static void all_become(const struct row *row, size_t count) {
  int wrong = 0;
  for (size_t i = 0; i < count; i++) wrong += !posted_becomes(row[i].post, row[i].strict, NULL, NULL);
  assert_int_equal(wrong, 0);
}

/* What can be read is read: the line, and what is said beside it. */
static void what_can_be_read_is_read(void **state) {
  static const struct row ROW[] = {
      {"Collie, 20 kg.\n300 g beef mince\nOn Fridays 150 g cod instead of the mince",
       "300 g beef mince, on Monday, Tuesday, Wednesday, Thursday, Saturday and Sunday  # not on the days"},
      {"Collie, 20 kg.\n300 g beef heart\nOnce a week 150 g cod instead of the heart", "300 g beef heart, 6 times a week"},
      {"Collie, 20 kg.\n300 g beef mince\n100 g rice\nNo meat on Fridays.",
       "300 g beef mince, on Monday, Tuesday, Wednesday, Thursday, Saturday and Sunday  # not on the days of which the post "
       "says "
       "'No meat on Fridays'\n100 g rice\n"},
      {"Collie, 20 kg.\n300 g beef mince\n100 g carrots\nfridays no veg, 2 eggs",
       "\n300 g beef mince\n100 g carrots, on Monday"},
      {"Collie, 20 kg.\n300 g beef mince\n100 g rice\nOn Wednesdays 150 g cod instead of the meat",
       "\n100 g rice\n150 g cod"},
      {"Collie, 31 kg (vet says aim for 28). 400 g beef heart, 50 g carrot.", "\n\n400 g beef heart\n"},
      {"Two dogs, one pot, 7 days worth: 3.5 kg beef heart, 700 g rice. Wilf is 17 kg and gets 60%, Betty is 11 kg and gets "
       "the other 40%. It's Betty I'd like checked.",
       "Dog: 11 kg\nMakes: 17.5 days"},
      {"| what | in the batch |\n|---|---|\n| turkey thigh | 4.5 kg |\n| carrots | 800 g |\n\n20 tubs, two tubs a "
       "day\nCollie, 34 kg",
       "Makes: 10 days"},
      {"Collie, 20 kg.\n300 g beef heart\n100 g rice\nSplit over two meals.", "300 g beef heart\n100 g rice\n"},
      {"Collie, 20 kg.\n300 g beef heart\n1 raw carrot a day. They come out at 70 g each.",
       "70 g raw carrot a day  # one taken as 70 g"},
      {"Dog, 28 kg, fed 2.5% of bodyweight. Made up of half beef mince, 20% chicken wings, 30% ox heart", "50 % beef mince"},
      {"Collie, 20 kg. He gets 400 g a day in total.\n300 g beef heart\n300 g rice", "the foods come to another sum"}};
  (void)state;
  all_become(ROW, COUNT_OF(ROW));
}

/* What came into no line, or was taken for something else, is said beside the lines that it stands beside. */
static void lines_beside_what_was_left_are_doubted(void **state) {
  static const struct row ROW[] = {
      {"Collie, 20 kg.\nkibble with 20 g cheese\n100 g rice", "a food stands beside it that came into no line: 'kibble with'"},
      {"Collie, 20 kg.\nhare, ground   230 g\n100 g rice", "\n230 g hare ground\n"},
      {"Collie, 20 kg.\nwombat, ground   230 g\n100 g rice", "\n? wombat, ground   230 g\n"},
      {"Collie, 20 kg.\n230 g cod\n30 g peas\nsorry, not peas, carrots\n100 g rice",
       "30 g carrots  # corrected in the post"},
      {"Collie, 20 kg. Before we had 250 g beef mince and 100 g pasta. Now 230 g cod.", "230 g cod"},
      {"Collie, 20 kg. Breakfast 200 g beef. Dinner at six is like breakfast with a few changes.", "200 g beef  #"},
      {"Collie, 20 kg. Breakfast: 220 g beef. Tea is a copy of breakfast.", "220 g (220-440 g) beef  # counted once"},
      {"Collie, 20 kg.\n300 g beef heart\n100 g rice\nThe total is 700 g.", "another sum than the post tells"}};
  (void)state;
  all_become(ROW, COUNT_OF(ROW));
}

int main(void) {
  const struct CMUnitTest tests[] = {T(what_nobody_used_is_asked), T(what_changes_nothing_is_not),
                                     T(what_can_be_read_is_read), T(lines_beside_what_was_left_are_doubted)};
  return cmocka_run_group_tests_name("post_govern", tests, NULL, NULL);
}
