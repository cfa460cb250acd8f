/* Lines that may stand there wrong say so, and near ones that a careful reader would count without a word do not. What is
 * doubtful about each is a person's judgement; posts of these forms stand in tests/post with a person's reading. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"
#include "tests/support/posted.h"

/* Is the line of the strict text that holds these words doubted? 2: there is none. */
static int doubted(const struct post *post, const char *words) {
  const char *at = strstr(post->recipe, words);
  int number = 1;
  for (const char *p = post->recipe; at && p < at; p++) number += *p == '\n';
  for (size_t i = 0; i < post->line_count; i++)
    if (at && post->line[i].strict_line == number) return post->line[i].doubted;
  return 2;
}

/* 'asks' "": nothing more than beside the line. */
static const struct row {
  const char *post, *line;
  bool doubted;
  const char *asks;
} ROW[] = {
    /* a piece that was not read names the food, goes on with it, or tells of days */
    {"Collie, 20 kg.\n300 g beef mince\n100 g rice\nMondays we go to my mother's and she does him a heart instead of the "
     "mince.",
     "300 g", true, ""},
    {"Collie, 20 kg.\n300 g beef mince\n100 g rice\nMondays we go to my mother's and she does him a heart instead of the "
     "mince.",
     "100 g", false, ""},
    /* two lengths; nothing but one of the foods at a meal; a kind of food with a bare number */
    {"Collie, 20 kg. Batch: 2 kg pork, 1 kg rice, 500 g peas. It makes 4 days. He is fed from it daily, it makes 5 days.", "2 kg pork",
     true, "How many days does it last"},
    {"Collie, 20 kg. 200 g lamb, 80 g tripe a day. On Saturday evening he has nothing but the lamb.", "80 g (40-80 g) tripe", true, ""},
    {"Collie, 20 kg. 300 g beef heart, frozen mixed veg 60 (cooked) twice a day.", "300 g", true, "mixed veg"},
    {"Collie, 20 kg.\n300 g beef heart\n50 g zorbles", "300 g beef heart", false, "zorbles"},
    /* clauses that feed something of which nobody has a word */
    {"Collie, 20 kg.\n300 g beef heart. My mother gives him the heel of the loaf every evening.", "300 g", false,
     "heel of the loaf"},
    {"Collie, 20 kg.\n300 g beef heart, one fish oil capsule, one hip and joint tablet.", "300 g", false, "joint"},
    {"Collie, 20 kg.\n300 g beef heart.\nIf the door is open she clears out the cat's kibble too.", "300 g", false, ""},
    /* another animal's name, or the others' bowl */
    {"Bess 22 kg and Tam 18 kg.\nBess's day: 250 g beef heart, 50 g carrots.\nIt is for Tam, I'm asking about Tam.", "250 g",
     true, "Bess"},
    {"This is about Tansy, 26 kg. She has 350 g lamb heart daily. The boys have an egg on top.", "350 g", false, ""},
    /* far from what the animal needs */
    {"Collie, 20 kg, 4 years.\n4 kg beef mince\n1 kg rice", "4 kg", true, "How many days is this food for"},
    {"Collie, 20 kg, 4 years.\n30 g beef mince\n40 g boiled rice", "30 g", true, "Is this all that is fed"},
    {"Collie, 20 kg, 4 years.\n350 g beef mince\n150 g boiled rice", "350 g", false, ""},
    {"Beagle, 14 kg.\n150 g minced beef\n50 % carrots\n50 % peas", "50 % carrots", true, "Of how many grams"},
    {"Collie, 20 kg, 4 years.\n850 g beef mince\n150 g boiled rice", "850 g", true, "For how many days"},
    /* said of all in another sentence */
    {"Collie, 20 kg. He has 300 g beef heart, 100 g rice. Twice daily. Is that right?", "beef heart", true, "wice daily"},
    {"Collie, 20 kg. He has 300 g beef heart, 100 g rice. Once a day. Is that right?", "300 g beef heart", false, ""},
    {"Collie, 20 kg.\nTwice daily:\n150 g beef heart\n50 g rice", "150 g beef heart, Twice daily", false, ""},
    {"Two meals a day, each one 100g cooked turkey, 50g pasta & 30g peas. 9kg terrier.", "50 g pasta, at each meal", false, ""},
    {"Kitten 0.9 kg: 4 meals of 30 g chicken thigh. 125 mg taurine at breakfast.", "120 g", true, ""},
    {"For one meal I use 150 g chicken hearts, 30 g oats. She gets two. 16 kg collie.", "oats", true, "How many meals"},
    {"Collie, 12 kg.\n150 g mince. 50 g pasta.\nSince the op she's on half rations plus a scoop of powder.", "pasta", true,
     "half rations"},
    {"Collie, 30 kg. He gets 400 g beef heart and 150 g cooked rice a day. Sundays he only gets tripe, 500 g.",
     "cooked rice", true, "only gets"},
    {"Collie, 30 kg. He gets 400 g beef heart and 150 g cooked rice a day. He gets only 50 g beef liver on Sundays.",
     "150 g cooked rice", false, ""},
    {"Collie, 10 kg.\nMine is 15 kg so I just make one and a half times:\n200 g cod\n150 g potato", "200 g cod", true, ""},
    {"Collie, 30 kg. Morning 400 g beef heart and 2 eggs. Evening the same but 1 egg.", "400 g beef heart  # the same", true,
     ""},
    /* usual weights */
    {"Collie, 20 kg.\n300 g beef heart\n1 chicken breast", "1 chicken breast", true, ""},
    {"Collie, 20 kg.\n300 g beef heart\n1 handful spinach", "1 handful", true, "rough weight"},
    {"Collie, 20 kg.\n300 g beef heart\n1 egg", "1 egg", false, ""},
    {"Collie, 20 kg.\n300 g beef heart\n120 g peas and carrots", "60 g", true, ""},
    {"Collie, 20 kg.\n300 g chicken thigh, skinless & boneless", "300 g chicken thigh", false, ""},
    {"Collie, 20 kg, three meals a day. Each meal is 120 g of beef heart.", "Meals: 3", false, ""},
    {"Cat, 4 kg.\n100 g chicken heart\n10 g of biscuits at night", "10 g biscuits", true, "biscuits"}};

static void a_line_says_what_is_doubtful(void **state) {
  (void)state;
  for (size_t i = 0; i < sizeof ROW / sizeof *ROW; i++) {
    struct post post = posted(ROW[i].post);
    if (!strstr(ROW[i].line, ":") && doubted(&post, ROW[i].line) != ROW[i].doubted) {
      print_error("'%s': '%s' is%s doubted in\n%s", ROW[i].post, ROW[i].line, ROW[i].doubted ? " not" : "", post.recipe);
      fail();
    }
    if (!strstr(post.recipe, ROW[i].line) || (ROW[i].asks[0] && !posted_asks(&post, ROW[i].asks))) {
      print_error("'%s': no '%s', or does not ask of '%s':\n%s", ROW[i].post, ROW[i].line, ROW[i].asks, post.recipe);
      fail();
    }
  }
}

/* What is fed of it is told, whether or not it is asked. */
static void nothing_named_is_lost(void **state) {
  static const struct {
    const char *post, *left;
  } LEFT[] = {{"Collie, 20 kg.\n300 g beef heart.\nIf the door is open she clears out the cat's kibble too.", "kibble"},
              {"Cat, 3 kg.\n60 g duck breast. Quail egg once a week (they are 10 g without shell).", "Quail egg"},
              {"Collie, 20 kg.\n300 g beef heart. He also gets whatever the toddler drops.", "toddler"}};
  (void)state;
  for (size_t i = 0; i < sizeof LEFT / sizeof *LEFT; i++) {
    struct post post = posted(LEFT[i].post);
    bool told = false;
    for (size_t k = 0; k < post.left_count; k++) told = told || strstr(post.left[k].text, LEFT[i].left);
    if (told) continue;
    print_error("'%s': '%s' is not told in\n%s", LEFT[i].post, LEFT[i].left, post.recipe);
    fail();
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {T(a_line_says_what_is_doubtful), T(nothing_named_is_lost)};
  return cmocka_run_group_tests_name("post_doubted", tests, NULL, NULL);
}
