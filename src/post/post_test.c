/* post_test.c: what every posted text may rely on, and texts that are no posts. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

#include "post/post.h"
#include "recipe/recipe_text.h"
#include "tests/support/built_image.h"
#include "tests/support/fresh_arena.h"
#include "text/scan.h"

static struct post read_span(struct span text, struct arena *a) {
  struct post post;
  post_read(built_library(), text, NULL, &post, a);
  return post;
}
static struct post read_text(const char *text, struct arena *a) { return read_span(span_of(text), a); }

static bool holds(const char *text, const char *words) { return strstr(text, words) != NULL; }

static bool asks(const struct post *post, const char *words) {
  for (size_t i = 0; i < post->question_count; i++)
    if (holds(post->question[i].ask, words)) return true;
  return false;
}

static bool leaves(const struct post *post, const char *words, bool fed) {
  for (size_t i = 0; i < post->left_count; i++)
    if (holds(post->left[i].text, words) && post->left[i].fed == fed) return true;
  return false;
}

/* A post, and what its strict text holds. */
struct reading {
  const char *post, *strict;
};

static void read_so(const struct reading *row, size_t count) {
  for (size_t i = 0; i < count; i++) {
    struct post post = read_text(row[i].post, &arena);
    if (holds(post.recipe, row[i].strict)) continue;
    print_error("'%s' became\n%s", row[i].post, post.recipe);
    fail();
  }
}

/* One line, read as the strict text that a careful writer would have written. */
static void lines(void **state) {
  static const struct reading CASE[] = {
      {"1lb 4oz ground turkey", "20 oz ground turkey\n"},
      {"half a pound of beef liver", "0.5 lb beef liver\n"},
      {"2 T olive oil", "2 tbsp olive oil\n"},
      {"2 t olive oil", "2 tsp olive oil\n"},
      {"BEEF MINCE 300G", "300 g BEEF MINCE\n"},
      {"1,5 kg beef heart", "1.5 kg beef heart\n"},
      {"1,200 g beef heart", "1200 g beef heart\n"},
      {"ground beef (90%) 12 oz", "12 oz ground beef, 90% lean\n"},
      {"beef heart = 200 g", "200 g beef heart\n"},
      {"- 2 x 110 g beef heart", "220 g beef heart\n"},
      {"1000mg salmon oil capsule x2", "2 capsules salmon oil 1000 mg\n"},
      {"\xE2\x80\xA2 3 chicken hearts", "3 chicken hearts\n"},
      {"turkey mince (7%) 300 g", "300 g turkey mince, 7% fat\n"},
      {"300 g beef mince (93%)", "300 g beef mince, 93% lean\n"},
      {"minced lamb 20%, 250 g", "250 g minced lamb 20% fat"},
      {"two hundred and fifty grams of beef heart", "250 g beef heart\n"},
      {"thirty-five g of beef liver", "35 g beef liver\n"},
      {"a teaspoon and a half of olive oil", "1.5 tsp olive oil\n"},
      {"2 desert spoons of olive oil", "20 ml olive oil\n"},
      {"one soup spoon of olive oil", "1 tbsp olive oil\n"},
      {"one 15 oz can of pumpkin", "15 oz pumpkin, canned\n"},
      {"half a 400 g tub of cottage cheese", "200 g cottage cheese\n"},
      {"one yolk of egg", "1 egg yolk\n"},
      {"200 g meat of turkey", "200 g turkey meat\n"},
      {"2 eggs, shells and all", "2 eggs with shell"},
      {"a piece of beef heart, 250 g or so", "250 g beef heart\n"},
      {"On Saturday I give beef liver 100 g", "100 g beef liver, on Saturday\n"},
      {"105 g/week of beef liver, split over 3 servings", "105 g beef liver, /week"},
      {"A 250 g pot of cottage cheese lasts him two weeks", "250 g cottage cheese, every 14 days\n"}};
  (void)state;
  read_so(CASE, COUNT_OF(CASE));
}

/* A word that changes what a food is, an amount nobody knows, two foods left open: asked, never guessed. */
static void what_cannot_be_read_is_told(void **state) {
  (void)state;
  struct arena *a = &arena;
  struct post post = read_text("400 g beef heart\n1 scoop of kelp\n", a);
  assert_true(leaves(&post, "kelp", true) && asks(&post, "Which scoop"));
  assert_true(holds(post.recipe, "\n? "));
  post = read_text("200 g beef heart\n200 g pork loin\n100 g liver\n", a);
  assert_true(leaves(&post, "liver", true) && asks(&post, "Which animal"));
  post = read_text("400 g beef heart\n100 g liver\n", a); /* the only animal there is, and it is said and asked */
  assert_true(holds(post.recipe, "100 g beef liver") && asks(&post, "Which animal is the 'liver' from?"));
  post = read_text("400 g beef heart\nHe doesnt get bones.\n", a);
  assert_true(leaves(&post, "bones", false));
  post = read_text("400 g beef heart\n1 wumpet of glorble\n", a);
  assert_true(leaves(&post, "glorble", true)); /* no word of it is known, and it begins with its amount */
  post = read_text("400 g beef heart\n50 g carrots or peas\n", a);
  assert_true(holds(post.recipe, "50 g carrots  #") && leaves(&post, "50 g peas", false) && asks(&post, "Which of the two"));
  post = read_text("400 g beef heart\n1 capsule of a joint supplement\n", a);
  assert_true(leaves(&post, "joint", true) && asks(&post, "label"));
  post = read_text("400 g beef heart\nHe also gets some carrots\n", a);
  assert_true(leaves(&post, "carrots", true) && asks(&post, "How many grams"));
  post = read_text("400 g beef heart\nHe gets a pig's ear or a tendon twice a week as a treat\n", a);
  assert_true(leaves(&post, "ear", true));
}

/* Past, advice and refusals are no food; they are told all the same. */
static void what_is_not_fed_is_no_food(void **state) {
  (void)state;
  struct arena *a = &arena;
  struct post post = read_text("We used to feed 300 g of kibble.\nNow it is 400 g of beef heart. No garlic!\nYou should add "
                               "5 g of eggshell powder.\n",
                               a);
  assert_true(holds(post.recipe, "400 g beef heart"));
  assert_true(leaves(&post, "300 g of kibble", false) && leaves(&post, "eggshell", false));
  assert_false(holds(post.recipe, "garlic"));
}

/* A danger in a line that is not understood is asked about before all else. */
static void a_danger_comes_first(void **state) {
  (void)state;
  struct arena *a = &arena;
  struct post post = read_text("400 g beef heart\n1 scoop of kelp\n2 tsp peanut butter with xylitol\n", a);
  assert_true(leaves(&post, "xylitol", true));
  assert_true(holds(post.question[0].ask, "xylitol"));
}

/* How much the animal moves, and what is told of it without its weight. */
static void what_the_animal_does(void **state) {
  (void)state;
  struct arena *a = &arena;
  struct post post = read_text("our 22 kg rescue, spayed, 4 yrs, a real couch potato\n400 g beef heart", a);
  assert_true(holds(post.recipe, "Dog: 22 kg, 4 years, neutered, low activity\n"));
  assert_int_equal(post.told.activity, ACTIVITY_LOW);
  post = read_text("My cat is 3 years old, neutered and very active. She gets\n90 g chicken thigh", a);
  assert_int_equal(post.told.species, SPECIES_CAT);
  assert_int_equal(post.told.activity, ACTIVITY_HIGH);
  assert_true(isnan(post.told.weight_kg) && post.told.age_years == 3 && post.told.neutered == 1);
  post = read_text("400 g beef heart\n1 tsp active dry yeast", a);
  assert_int_equal(post.told.activity, -1);
  assert_int_equal(post.told.species, -1);
}

/* What is not fed takes its own clause and no more; what an animal that is not asked about eats is no food. */
static void clauses_that_are_not_fed(void **state) {
  static const struct {
    const char *post, *fed, *not_fed;
  } CASE[] = {{"200 g beef heart, and my sister swears by a bit of leek??", "200 g beef heart\n", "leek"},
              {"200 g beef heart a day used to do 50 g peas but no more", "200 g beef heart", "50 g peas"},
              {"v2 had 80 g of lentils; removed because of gas.\n200 g beef heart", "200 g beef heart\n", "80 g of lentils"},
              {"Evaluated and rejected: 30 g lentils.\n200 g beef heart", "200 g beef heart\n", "30 g lentils"},
              {"200 g beef heart\nWe did peas for a while, 50 g of it.", "200 g beef heart\n", "50 g"},
              {"The dog (Labrador, 30 kg) eats 600 g of tripe and is not my question. My question is our cat, 4 kg.\n90 g "
               "beef heart",
               "Cat: 4 kg", "600 g of tripe"},
              {"200 g beef heart\nMy neighbour gives 50 g lentils to hers.", "200 g beef heart\n", "50 g lentils"}};
  (void)state;
  for (size_t i = 0; i < COUNT_OF(CASE); i++) {
    struct post post = read_text(CASE[i].post, &arena);
    if (!holds(post.recipe, CASE[i].fed) || !leaves(&post, CASE[i].not_fed, false)) {
      print_error("'%s' became\n%s", CASE[i].post, post.recipe);
      fail();
    }
  }
}

/* Several sentences that belong together. */
static void what_belongs_together(void **state) {
  static const struct reading CASE[] = {
      {"In the morning 90 g of beef heart, in the evening the same again", "90 g beef heart\n90 g beef heart  # the same"},
      {"2 kg beef heart. Makes ten tubs, one tub a day. Into the bowl when I serve it goes 3 ml of salmon oil.",
       "3 ml salmon oil, daily\n"},
      {"3 kg beef heart, into 14 old ice cream tubs, and each tub is one day", "Makes: 14 days\n"},
      {"Organ days are Mon and Thu, on those he has 50 g of beef liver", "50 g beef liver, Mon and Thu\n"},
      {"On Fridays no meat, he gets 300 g of cod instead", "300 g cod, on Fridays\n"},
      {"item | g per meal | meals per day\nbeef heart | 95 | 2", "190 g beef heart\n"},
      {"Mon | 300 g beef heart\nTue | as Monday", "300 g beef heart, on Tuesday"},
      {"300 g raw chicken wings", "300 g raw chicken wings, bone-in  # counted with its bone"},
      {"Ida (9 kg) and Bruno (26 kg), both neutered.\nBruno has 300 g of beef heart", "Dog: 26 kg"},
      {"A 2 kg bag of beef mince lasts my dog 8 days. He's 19 kg.", "Dog: 19 kg"}};
  (void)state;
  read_so(CASE, COUNT_OF(CASE));
}

/* A share of next to nothing is no bowl. */
static void shares_of_nothing(void **state) {
  (void)state;
  struct post post = read_text("1 % kelp", &arena);
  assert_string_equal(post.recipe, "");
  assert_true(holds(post.sorry, "shares"));
}

static void the_animal_and_the_batch(void **state) {
  (void)state;
  struct arena *a = &arena;
  assert_true(holds(read_text("our 22 kg rescue, spayed, 4 yrs, gets 400 g beef heart", a).recipe,
                    "Dog: 22 kg, 4 years, neutered\n"));
  assert_true(
      holds(read_text("Cat: 4.5 kg, 3 yrs, intact\n90 g chicken thigh", a).recipe, "Cat: 4.5 kg, 3 years, not neutered\n"));
  assert_true(holds(read_text("Dog weighs 44 lb\n400 g beef heart", a).recipe, "Dog: 19.96 kg"));
  assert_true(holds(read_text("our collie cross Bess is 19 kg and 7, spayed.\n400 g beef heart", a).recipe,
                    "Dog: 19 kg, 7 years, neutered\n\n400 g beef heart\n")); /* and no sea bass */
  assert_true(holds(read_text("2 kg beef heart, makes 5 days", a).recipe, "Makes: 5 days\n"));
  assert_true(holds(read_text("Split into 14 meals, two a day:\n2 kg beef heart", a).recipe, "Makes: 7 days\n"));
  assert_true(holds(read_text("400 g beef heart\nWhat do you think? for Bear, 34kg", a).recipe,
                    "Dog: 34 kg")); /* and not bear's meat */
  struct post post = read_text("400 g beef heart", a);
  assert_true(asks(&post, "weigh")); /* nobody said whose it is */
}

/* An 80:10:10 mince is its parts: flesh, bone and offal by the ratio, whatever they are called. */
static void a_ratio_is_its_parts(void **state) {
  (void)state;
  struct arena *a = &arena;
  struct post post = read_text("1000 g 80:10:10 beef mince", a);
  assert_true(holds(post.recipe, "800 g") && holds(post.recipe, "100 g") && holds(post.recipe, "50 g"));
  assert_int_equal(post.line_count, 4);
  post = read_text("300 g organ mix (liver/kidney/spleen equal parts) lamb", a);
  assert_int_equal(post.line_count, 3);
  post = read_text("500 g 80/10/10 mince\n100 g carrots", a);
  assert_true(leaves(&post, "80/10/10", true) && asks(&post, "animals"));
  post = read_text("400 g beef, ground, 90/10, raw", a); /* its lean and its fat */
  assert_int_equal(post.line_count, 1);
}

/* What two cats eat in five days is ten days' food of one. */
static void a_batch_for_several_is_shared(void **state) {
  (void)state;
  struct arena *a = &arena;
  struct post post =
      read_text("Batch for 2 cats, 5 days. Cat: 4.5 kg, neutered\n1 kg chicken thigh\n100 g chicken liver", a);
  assert_true(holds(post.recipe, "Makes: 10 days  # 5 days for 2 animals\n") && asks(&post, "equal shares"));
  assert_true(holds(post.line[0].assumed, "2 equal shares"));
  post = read_text("Batch for 1 cat, 5 days. Cat: 4.5 kg, neutered\n1 kg chicken thigh\n100 g chicken liver", a);
  assert_true(holds(post.recipe, "Makes: 5 days\n") && !asks(&post, "equal shares"));
  post = read_text("My two cats share 200 g chicken thigh a day", a); /* no batch: nobody said what each gets */
  assert_true(!asks(&post, "equal shares"));
}

/* The days of a list belong to each of its foods; days joined by "and" are no list of foods. */
static void days_are_no_foods(void **state) {
  static const struct {
    const char *post, *line, *other;
  } ROW[] = {
      {"2 oz beef liver on Tuesday and Friday", "2 oz beef liver on Tuesday and Friday\n", ""},
      {"2 oz of beef liver on Tuesdays and again on Fridays", "2 oz beef liver on Tuesdays and Fridays\n", ""},
      {"M/W/F: 200 g beef heart", "200 g beef heart, on Monday, Wednesday and Friday\n", ""},
      {"Tu/Th/Sa/Su: 200 g beef heart", "200 g beef heart, on Tuesday, Thursday, Saturday and Sunday\n", ""},
      {"AM and PM: 100 g beef heart, 50 g carrots", "100 g beef heart, twice a day\n", "50 g carrots, twice a day\n"},
      {"400 g beef heart a day, morning and evening", "400 g beef heart a day\n", ""},
      {"500 g beef heart split between morning and evening", "500 g beef heart\n", ""},
      {"150g beef heart x2 a day", "150 g beef heart twice a day\n", ""},
      {"100 g beef heart and 50 g carrots, twice daily.", "100 g beef heart, twice daily\n", "Is that twice daily for all"},
      {"100 g beef heart and a sardine, twice a week", "100 g beef heart\n", "1 sardine, twice a week"},
      {"half a teaspoon of eggshell powder and a fish oil capsule (1000 mg)", "0.5 tsp eggshell powder\n",
       "1 capsule fish oil 1000 mg\n"},
      {"On Wednesdays I swap in a tin of sardines (the 120g ones in water, drained)", "120 g sardines", "on Wednesdays"},
      {"daily: 250 g venison, 1 egg yolk; weekly: 80 g mackerel", "1 egg yolk, daily\n", "80 g mackerel, weekly\n"},
      {"Daily - 250 g venison; weekly - 80 g mackerel", "250 g venison, daily\n", "80 g mackerel, weekly\n"},
      {"Day 1: 300 g beef heart, Day 2: 300 g lamb heart", "beef heart, every 2 days\n", "lamb heart, every 2 days\n"},
      {"Day 1:\n300 g beef heart\nDay 2:\n300 g lamb heart\nDay 3:\n200 g veal heart", "beef heart, every 3 days\n",
       "veal heart, every 3 days\n"},
      {"half a courgette\ntea: 150 g diced pork shoulder, 60g boiled potato, tsp of rapeseed oil\nliver (lamb's) 40g on "
       "Mondays",
       "rapeseed oil\n", "40 g liver, lamb's, on Mondays\n"},
      {"Mon, Wed, Fri: 300g beef heart", "beef heart, on Monday, Wednesday and Friday\n", ""},
      {"Mon: 300g beef heart, Tue: 300g lamb heart", "beef heart, on Monday\n", "lamb heart, on Tuesday\n"},
      {"Carrots 62 g/d", "62 g Carrots, /d\n", ""},
      {"40 g beef liver and kidney Tuesdays and Fridays", "beef liver, Tuesdays and Fridays",
       "beef kidney, Tuesdays and Fridays"},
      {"100 g peas & carrots every Monday", "peas, every Monday", "carrots, every Monday"}};
  (void)state;
  for (size_t i = 0; i < COUNT_OF(ROW); i++) {
    const struct reading both[] = {{ROW[i].post, ROW[i].line}, {ROW[i].post, ROW[i].other}};
    read_so(both, COUNT_OF(both));
  }
}

/* What would be far too much is asked about and not counted; of one of something its weight counts. */
static void pieces_and_their_weight(void **state) {
  struct arena *a = &arena;
  (void)state;
  struct post post = read_text("200 g beef heart\ncelery: 35", a);
  assert_true(leaves(&post, "celery", true));
  post = read_text("200 g beef heart\n12.5 kg rice", a);
  assert_true(leaves(&post, "rice", true));
  post = read_text("200 g beef heart\n1/2 cup of blueberries spread over four days", a);
  assert_true(holds(post.recipe, "blueberries, every 4 days") && !holds(post.recipe, "Makes"));
  assert_true(holds(read_text("2 potatoes, 70 g each", a).recipe, "140 g"));
  assert_true(holds(read_text("A whole trout on top, 210 g", a).recipe, "210 g whole trout"));
  assert_true(holds(read_text("A dollop of quark, let's say 40 grams", a).recipe, "40 g"));
  assert_true(
      holds(read_text("200 g beef heart\nA 250 g pot of cottage cheese lasts her the week", a).recipe, "every 7 days"));
  post = read_text("My mum's dog lives on 400 g of chicken necks. Mine gets 200 g beef heart", a);
  assert_true(post.line_count == 1 && leaves(&post, "chicken necks", false));
}

static struct span filled(size_t n, struct arena *a) {
  static const char PIECE[] = "Hi all, 200 g beef heart and 50 g of carrots, what do you think? ";
  char *p = arena_alloc(a, 1, n);
  for (size_t i = 0; i < n; i++) p[i] = PIECE[i % (sizeof PIECE - 1)];
  return (struct span){p, n};
}

static void texts_that_are_no_posts(void **state) {
  static const char *const TEXT[] = {
      "",
      "\n\n\n",
      "Hello",
      "\xFF\xFE\x00",
      "<html><body><p></p></body></html>",
      "> > >",
      "\xF0\x9F\x90\xB6\xF0\x9F\x90\xB6",
      "\xE3\x81\x93\xE3\x82\x93\xE3\x81\xAB\xE3\x81\xA1\xE3\x81\xAF",
      "\xD0\x9A\xD0\xBE\xD1\x80\xD0\xBC\xD0\xB8\xD0\xBC \xD0\xBC\xD1\x8F\xD1\x81\xD0\xBE\xD0\xBC",
      "It was a dark night, and the dog that nobody knew walked ten miles to the sea."};
  (void)state;
  struct arena *a = &arena;
  for (size_t i = 0; i < COUNT_OF(TEXT); i++) {
    struct post post = read_text(TEXT[i], a);
    assert_string_equal(post.recipe, "");
    assert_true(post.sorry[0] != '\0');
  }
  struct post post = read_span(filled(2 << 20, a), a); /* two megabytes of one sentence after another */
  assert_true(post.recipe[0] || post.sorry[0]);
}

/* The shape of the page or the mail around a line changes nothing. */
static void shapes_around_a_line(void **state) {
  static const char *const SHAPE[] = {"200 g beef heart\n50 g carrots",
                                      "> 200 g beef heart\n> 50 g carrots",
                                      "> > - 200 g beef heart\n> > - 50 g carrots",
                                      "<ul><li>200 g beef heart</li><li>50&nbsp;g carrots</li></ul>",
                                      "beef heart\t200 g\ncarrots\t50 g",
                                      "| beef heart | 200 g |\n|---|---|\n| carrots | 50 g |",
                                      "\xF0\x9F\xA5\xA9 200 g beef heart\r\n\xF0\x9F\xA5\x95 50 g carrots\r\n",
                                      "1) 200 g beef heart\n2) 50 g carrots",
                                      "200 g beef heart + 50 g carrots",
                                      "Every day we give 200 g of beef heart and 50 g of carrots."};
  (void)state;
  struct arena *a = &arena;
  for (size_t i = 0; i < COUNT_OF(SHAPE); i++) {
    struct post post = read_text(SHAPE[i], a);
    if (!holds(post.recipe, "200 g beef heart") || !holds(post.recipe, "50 g carrots") || post.line_count != 2) {
      print_error("'%s' became\n%s", SHAPE[i], post.recipe);
      fail();
    }
  }
}

/* A food that is only named, an amount without its food, a line that its own sentence makes doubtful: told or asked, and not
 * counted as if it were certain. */
static void nothing_is_passed_over(void **state) {
  static const struct {
    const char *post, *left; /* left out, with these words */
    bool fed;
    const char *ask, *not_counted; /* a question has these; no line of a food has these; "" none */
  } ROW[] = {
      {"300 g beef heart\nMy mate swears by it. Bits of broccoli stalk when we cook", "broccoli", false, "", "broccoli"},
      {"300 g beef heart\nFriday: mackerel", "mackerel", true, "mackerel", "mackerel"},
      {"300 g beef heart\nIn summer I swap the beef for salmon, 250 g, once a week", "salmon", true, "salmon", "salmon"},
      {"300 g beef heart\nIf there are leftovers he gets 100 g of rice", "rice", true, "fed now", "rice"},
      {"300 g beef heart\nHer brother has 200 g of turkey", "turkey", true, "Who gets", "turkey"},
      {"300 g beef heart\nThere's the odd slice of sausage", "sausage", true, "How often", "sausage"},
      {"300 g beef heart\nPer kg of food I add 5 g of salt", "salt", true, "a day", "salt"},
      {"300 g beef heart\nWe are moving from 200 g kibble to 250 g lamb heart", "lamb heart", true, "today", "lamb"},
      {"300 g beef heart\nIn winter 20 g lard on top", "lard", true, "fed now", "lard"},
      {"300 g beef heart. Rice too", "Rice", true, "Rice", "Rice"},
      {"Dog, 20 kg. 300 g beef heart. My cat eats 50 g tuna", "tuna", false, "", "tuna"},
      {"300 g beef heart or 300 g lamb heart", "lamb heart", false, "Which of the two", "lamb"},
      {"> 500 g of tripe for a 15 kg dog?\nMine is 15 kg. 300 g beef heart a day, 60 g rice, 40 g peas", "tripe", false, "",
       "tripe"}};
  (void)state;
  for (size_t i = 0; i < COUNT_OF(ROW); i++) {
    struct post post = read_text(ROW[i].post, &arena);
    bool counted = false;
    for (size_t k = 0; k < post.line_count; k++) {
      struct lines rest = lines_of(span_of(post.recipe));
      struct span line;
      while (lines_next(&rest, &line))
        if (rest.number == post.line[k].strict_line && line.p[0] != '?' && line.p[0] != '#')
          counted = counted || span_holds_fold(without_comment(line), span_of(ROW[i].not_counted));
    }
    if (leaves(&post, ROW[i].left, ROW[i].fed) && asks(&post, ROW[i].ask) == (ROW[i].ask[0] != '\0') && !counted) continue;
    if (leaves(&post, ROW[i].left, ROW[i].fed) && !ROW[i].ask[0] && !counted) continue;
    print_error("'%s' became\n%s", ROW[i].post, post.recipe);
    fail();
  }
}

/* Words around a food that leave it what it is, in any wording; doses; days and turns. */
static void words_around_a_food(void **state) {
  static const struct reading CASE[] = {
      {"1.6 kg lamb neck off the bone, weekly", "1.6 kg lamb neck off the bone"},
      {"2 cups white rice (measured dry)", "2 cups white rice, measured dry\n"},
      {"1 tablespoon of flax seeds grinded", "1 tbsp flax seeds  # "},
      {"300 g of minced lamb, browned off, fat kept in", "300 g minced lamb  # passed over: 'browned off, fat kept in'"},
      {"Garden spinach 50g a day", "50 g spinach, a day"},
      {"fish oil capsules, 1000 mg, 2 a day", "2 capsules fish oil 1000 mg"},
      {"300 g lamb heart\nwait no 280", "280 g lamb heart  # corrected in the post"},
      {"Lamb heart 100g on a Monday and a Thursday", "100 g Lamb heart, on a Monday and a Thursday"},
      {"Mo beef shin 400 g\nTu lamb heart 300 g\nWe beef shin 400 g\nTh lamb heart 300 g\nLiver: 50 g pork liver, Tu and Th",
       "400 g beef shin, on Monday\n300 g lamb heart, on Tuesday\n400 g beef shin, on Wednesday\n300 g lamb heart, on "
       "Thursday\n"
       "50 g pork liver, Tue and Thu\n"},
      {"Dog, 10 kg, 4 years\n60% beef heart\n40% lamb heart\nplus 800 g cooked rice and 500 g boiled potato a day",
       "? 60 % beef heart\n? 40 % lamb heart\n"}, /* no room for shares of what it needs */
      {"300 g beef heart\nmother in law slips him cheese, no idea how much", "? mother in law slips him cheese"},
      {"Week A: 350 g beef heart per day\nWeek B: 350 g turkey mince per day", "350 g beef heart, every 2 days"},
      {"Makes 12 tubs, and one tub does him a day and a half\n3.6 kg lamb heart", "Makes: 18 days"},
      {"She weighs 22 kg and she's fed at 3% of that\n60% beef heart\n40% lamb heart", "Feeds: 3 % of body weight"},
      /* as one day's food it would be nine times too much, and the post names one number of days that makes sense of it */
      {"My dog is 10 kg, 3 years old.\n3 kg beef heart\n1 kg rice, cooked\nI do it for the weekend fortnightly shop, 9 days",
       "Makes: 9 days"}};
  (void)state;
  read_so(CASE, COUNT_OF(CASE));
}

/* What one sentence says of several foods, corrections, choices: the line, and what is said beside it. */
static void said_of_several_foods(void **state) {
  static const struct reading CASE[] = {
      {"75 g each of beef heart and lamb heart", "75 g beef heart\n75 g lamb heart\n"},
      {"100 g each: carrots, peas, rice", "100 g carrots\n100 g peas\n100 g rice\n"},
      {"Carrots, peas and rice, 50 g each", "50 g Carrots\n50 g peas\n50 g rice\n"},
      {"One day 300 g beef heart, the next 300 g lamb heart",
       "300 g beef heart every other day\n300 g lamb heart every other day\n"},
      {"a quarter of a 400 g tin of sardines", "100 g canned sardines"},
      {"1/4 of a can of pumpkin (425 g)", "106.3 g canned pumpkin"},
      {"half a tin of tuna daily, cans are 112 g drained", "56 g canned tuna, drained daily"},
      {"70 g oats soaked in 200 ml hot water", "70 g dry oats\n200 ml water"},
      {"80 g rice (dry, cooked in water)", "80 g dry rice\n"},
      {"He loves tripe. 240 g of it a day", "240 g tripe a day\n"},
      {"three meals a day and every meal is the same\n35 g chicken heart",
       "Meals: 3 a day\n\n35 g chicken heart, at each meal\n"},
      {"300 g beef heart. Sorry, 200 g of beef heart, not 300", "200 g beef heart  # corrected in the post"},
      {"Let me put it down again. 300 g beef heart. I give 300 g of beef heart, that is all",
       "mentioned twice in the post, and counted once"},
      {"300 g beef heart and 2 kg rice in the pot. He gets a third of it each day", "Makes: 3 days\n"},
      {"300 g beef heart and up to 3 eggs a week", "3 eggs a week  # counted at the limit given"},
      {"1000 IU D3 weekly", "1000 IU vitamin D3 weekly\n"},
      {"200 g mutton", "200 g lamb  # lamb stands in for mutton"},
      {"50g peas evry day n 1 egg evry othr day", "50 g peas every day\n1 egg every other day\n"},
      {"1 tin sardines pw", "1 can sardines a week"},
      {"Mon-Fri 400 g lamb heart, Sun 1 kg lamb necks", "1 kg lamb necks, on Sunday"},
      {"35 gr zuchini in the evning", "35 g zuchini"},
      {"500 g beef heart\n\xF0\x9F\xA5\x9A 1", "1 egg\n"},
      {"300 g beef heart\n\nevery other day\n1 boiled egg\n\ntwice a week:\n35 g pork spleen\n\nevery day\n50 g kale",
       "1 boiled egg, every other day\n35 g pork spleen, twice a week\n50 g kale\n"},
      {"160 g a day in total, made up of\n80 % beef heart\n20 % lamb heart", "Feeds: 160 g a day\n"},
      {"20 kg dog at 2 % = 400 g a day total\n\n60 % beef heart\n40 % lamb heart", "Feeds: 400 g a day\n"},
      {"I shop weekly so I can only tell you what goes into him in a week. 2.1 kg beef heart and 7 eggs",
       "2.1 kg beef heart, a week\n7 eggs, a week\n"}};
  (void)state;
  read_so(CASE, COUNT_OF(CASE));
}

int main(void) {
  const struct CMUnitTest tests[] = {T(lines),
                                     T(what_cannot_be_read_is_told),
                                     T(what_is_not_fed_is_no_food),
                                     T(nothing_is_passed_over),
                                     T(said_of_several_foods),
                                     T(words_around_a_food),
                                     T(a_danger_comes_first),
                                     T(what_the_animal_does),
                                     T(clauses_that_are_not_fed),
                                     T(what_belongs_together),
                                     T(shares_of_nothing),
                                     T(the_animal_and_the_batch),
                                     T(a_ratio_is_its_parts),
                                     T(a_batch_for_several_is_shared),
                                     T(days_are_no_foods),
                                     T(pieces_and_their_weight),
                                     T(texts_that_are_no_posts),
                                     T(shapes_around_a_line)};
  return cmocka_run_group_tests_name("post", tests, NULL, NULL);
}
