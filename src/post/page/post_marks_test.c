/* post_marks_test.c: what stands between a food and its amount. How people write is common practice. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"
#include "tests/support/posted.h"

/* A post, and what its strict text is but for questions. */
struct marked {
  const char *post, *lines;
};

static void is_read_as(const struct marked *row, size_t count) {
  for (size_t i = 0; i < count; i++) {
    struct post post = posted(row[i].post);
    size_t n = strlen(row[i].lines);
    if (strncmp(post.recipe, row[i].lines, n) == 0 && (!post.recipe[n] || post.recipe[n] == '\n')) continue;
    print_error("'%s' became\n%s\nnot\n%s", row[i].post, post.recipe, row[i].lines);
    fail();
  }
}

static void dots_and_hyphens(void **state) {
  static const struct marked CASE[] = {
      {"beef.....200g", "200 g beef\n"},
      {"chicken...200 g\nrice \xE2\x80\xA6 50 g", "200 g chicken\n50 g rice\n"},
      {"beef.200g", "200 g beef\n"},
      {"200g beef.50g rice", "200 g beef\n50 g rice\n"},
      {"approx.200g beef", "200 g (180-220 g) beef  # the owner's estimate, taken as a tenth more or less\n"},
      {"beef heart .2 kg", "0.2 kg beef heart\n"},
      {"beef-200g\nrice\342\200\223100g", "200 g beef\n100 g rice\n"},
      {"liver(lamb)-10g", "10 g lamb liver\n"},
      {"eggs-2", "2 eggs\n"},
      {"1 egg\n1 tsp omega-3 oil", "1 egg\n? 1 tsp omega-3 oil\n"},
      {"1lb4oz beef", "20 oz beef\n"},
      {"1# beef", "1 lb beef\n"},
  };
  (void)state;
  is_read_as(CASE, COUNT_OF(CASE));
}

static void parts_and_ranges(void **state) {
  static const struct marked CASE[] = {
      {"two-thirds of a cup of rice", "0.666667 cup rice\n"},
      {"three quarters of a cup rice", "0.75 cup rice\n"},
      {"between 30 and 40 g of beef liver", "30-40 g beef liver\n"},
      {"between 30 g and 40 g of beef liver", "30-40 g beef liver\n"},
      {"1 - 300 g beef heart\n2 - 100 g rice\n3 - 20 g beef liver\n4 - 1 egg\n5 - 30 g carrots",
       "300 g beef heart\n100 g rice\n20 g beef liver\n1 egg\n30 g carrots\n"},
      {"1-2 eggs\n2-3 g kelp", "1-2 eggs\n2-3 g kelp\n"}, /* ranges that count by chance */
  };
  (void)state;
  is_read_as(CASE, COUNT_OF(CASE));
}

static void pictures(void **state) {
  static const struct marked CASE[] = {
      {"500 g beef heart \360\237\245\251 beef liver 30 g", "500 g beef heart\n30 g beef liver\n"},
      {"500 g beef heart \360\237\245\251 beef liver x2", "500 g beef heart\n? beef liver x2\n"},
      {"\360\237\220\225\360\237\220\266 200g \360\237\245\251 beef heart \360\237\245\225 50g carrots \360\237\245\232x2",
       "200 g beef heart\n50 g carrots\n2 egg\n"},
      {"beef heart 200g \360\237\245\225 50g", "200 g beef heart\n50 g carrot\n"},
      {"200 g beef heart and 2 \360\237\245\232", "200 g beef heart\n2 egg\n"},
      {"200 g beef heart \360\237\245\251", "200 g beef heart\n"},
      {"200 g beef heart\nYummy \360\237\245\232",
       "200 g beef heart\n# not counted: \360\237\245\232 (egg) (a picture, and no word of it)\n"},
  };
  (void)state;
  is_read_as(CASE, COUNT_OF(CASE));
}

static void kinds_behind_and_exceptions(void **state) {
  static const struct marked CASE[] = {
      {"1T oil (olive)", "1 tbsp olive oil\n"},
      {"1 tsp oil (salmon)", "1 tsp salmon oil\n"},
      {"1 tsp oil, olive", "1 tsp olive oil\n"},
      {"liver 20g (beef)", "20 g beef liver\n"},
      {"10 g liver (chicken) and 10 g heart (lamb)", "10 g chicken liver\n10 g lamb heart\n"},
      {"200 g beef liver (raw)", "200 g beef liver, raw\n"},
      {"250 g beef daily except Fridays when he gets 200 g cod",
       "250 g beef, on Monday, Tuesday, Wednesday, Thursday, Saturday and Sunday\n200 g cod, on Friday\n"},
      {"20kg dog: 250 g beef daily except Fridays when it's 200 g cod",
       "Dog: 20 kg\n\n250 g beef, on Monday, Tuesday, Wednesday, Thursday, Saturday and Sunday\n200 g cod, on Friday\n"},
      {"200g beef except Sundays (he fasts)", "200 g beef, on Monday, Tuesday, Wednesday, Thursday, Friday and Saturday\n"},
      {"600g chicken thighs for the whole week", "600 g chicken thighs for the whole week\n"},
      {"400 g beef heart 6 days out of 7", "400 g beef heart 6 days a week\n"},
  };
  (void)state;
  is_read_as(CASE, COUNT_OF(CASE));
}

/* What is done with all of it is no food. */
static void cooking_is_no_food(void **state) {
  static const struct marked CASE[] = {
      {"500g beef heart\n100g squash\n200g peas, boil it all up and it does him 4 days",
       "Makes: 4 days\n\n500 g beef heart\n100 g squash\n200 g peas\n"},
      {"200g peas, cook everything together", "200 g peas\n"},
      {"200 g beef heart\n100g weasand", "200 g beef heart\n? 100g weasand\n"}, /* and no record of a near name */
  };
  (void)state;
  is_read_as(CASE, COUNT_OF(CASE));
}

/* What was lost or refused. */
static void nothing_refused(void **state) {
  static const struct marked CASE[] = {
      {"200g beef x 2 meals", "200 g beef, 2 times a day\n"},
      {"150g beef heart x 2 meals. 2 eggs x 3 days a week", "150 g beef heart, 2 times a day\n2 eggs, 3 days a week\n"},
      {"beef heart\t200\nrice\t100", "200 g beef heart  # the table names no unit; its numbers were taken as grams\n"
                                     "100 g rice  # the table names no unit; its numbers were taken as grams\n"},
      {"100g chicken or turkey mince", "100 g chicken mince  # the post names another food that may take its place\n"
                                       "# not counted: 100g turkey mince (the other choice)\n"},
      {"300 g beef heart, 2 dozen eggs per month", "300 g beef heart\n24 eggs per month\n"},
      {"20kg dog, 80 g beef heart, 1 day old chick, 200 g rice",
       "Dog: 20 kg\n\n80 g beef heart\n1 day-old chick\n200 g rice\n"},
      {"- 300 g beef heart\n- a couple oz of beef liver", "300 g beef heart\n2 oz beef liver\n"},
      {"20 kg dog. Breakfast: 150 g beef heart. Dinner: 450 g chicken thigh. Sundays he gets a day-old chick instead of "
       "dinner",
       "Dog: 20 kg\n\n150 g beef heart\n450 g chicken thigh, on Monday, Tuesday, Wednesday, Thursday, Friday and Saturday  "
       "# not on "
       "the days of which the post says 'instead of dinner'\n1 day-old chick, Sundays\n"},
  };
  (void)state;
  is_read_as(CASE, COUNT_OF(CASE));
}

int main(void) {
  const struct CMUnitTest tests[] = {T(dots_and_hyphens),   T(parts_and_ranges), T(pictures), T(kinds_behind_and_exceptions),
                                     T(cooking_is_no_food), T(nothing_refused)};
  return cmocka_run_group_tests_name("post_marks", tests, NULL, NULL);
}
