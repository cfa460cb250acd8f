/* Sentences of a post that govern others, in words of their own: what takes another food's place on some days, days by their
 * number or their food, weeks, parts and their total, batches, pots and lists for several animals. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"
#include "tests/support/posted.h"

/* 'lines': what the strict text holds, with '|' between; 'without': what it does not, "" nothing. */
static const struct row {
  const char *post, *lines, *without;
} ROW[] = {
    /* one food in the place of another */
    {"Dog 20 kg. 300 g turkey a day, 100 g rice. Every second Friday I swap the turkey for 250 g of cod.",
     "300 g turkey, 13 times a fortnight|250 g cod, once a fortnight", ""},
    {"Dog 20 kg. 300 g turkey a day, 100 g rice. On Thursdays duck takes the place of the turkey, same weight.",
     "300 g duck, on Thursdays|300 g turkey, on Monday, Tuesday, Wednesday, Friday, Saturday and Sunday", ""},
    {"Dog 20 kg. 300 g turkey, 100 g rice, 30 g carrot a day. Twice a week the rice gives way to 150 g potato.",
     "100 g rice, 5 times a week|150 g potato, twice a week", ""},
    {"Dog 20 kg. 300 g turkey, 100 g rice a day. Tuesdays and Saturdays the rice is swapped for an equal amount of potato.",
     "100 g potato, Tuesdays and Saturdays", ""},
    {"Dog 20 kg. Breakfast: 150 g pork, 40 g rice. Dinner: the pork turns into lamb gram for gram, everything else like "
     "breakfast.",
     "150 g pork|150 g lamb", "gram for gram"},
    {"Dog 20 kg. Morning: 150 g pork, 40 g rice. Evening: 150 g beef, 60 g carrots. Weekends the evening beef becomes hake.",
     "150 g beef, on Monday, Tuesday, Wednesday, Thursday and Friday|150 g hake, Weekends|40 g rice\n", ""},
    {"Dog 24 kg. The evening 200 g of pork, but two evenings in the week it is mackerel same weight.",
     "200 g pork, 5 times a week|200 g mackerel, 2 days a week", ""},
    {"Dog 18 kg. Morning: 80 g chicken, 20 g cabbage. Evening: same as morning except chicken replaced with salmon.",
     "80 g chicken|80 g salmon", ""},
    {"Dog 18 kg. Morning: 80 g chicken, 20 g cabbage. Evening: 80 g duck, rest ditto.", "80 g duck\n20 g cabbage",
     "once more"},
    {"Dog 18 kg. Lunch: 80 g chicken, 20 g cabbage. Supper: 50 g eggs, the rest is unchanged.",
     "counted without the rest, which is as at another meal", ""},
    /* days by their number and by what is fed on them */
    {"Dog 20 kg. 5 days duck, 2 days cod, always 200 g. Duck days: 30 g carrots. On cod days an egg.",
     "200 g duck, 5 days a week|200 g cod, 2 days a week|30 g carrots, 5 days a week|1 egg, 2 days a week", ""},
    {"Dog 20 kg. Pork four days, hake the other three, 250 g each time. When it's hake days I add 10 g butter.",
     "4 days a week|250 g hake 3 days a week|10 g butter, 3 days a week", ""},
    {"Cat 5 kg. 60 g of rabbit for breakfast and for dinner 60 g mackerel, but only two dinners, the other dinners 60 g "
     "quail.",
     "60 g mackerel, 2 days a week|60 g quail, 5 days a week", ""},
    {"Dog 24 kg. Monday to Thursday 300 g beef, Friday to Sunday 300 g lamb. On the beef days 20 g of spinach too.",
     "20 g spinach, on Monday, Tuesday, Wednesday and Thursday", ""},
    {"Dog 12 kg. Sunday to Friday 150 g chicken; Saturday nothing but 120 g cod.",
     "150 g chicken, Sunday to Friday|120 g cod, on Saturday", ""},
    {"Dog 13 kg. 300 g turkey every other Sunday.", "300 g turkey once a fortnight", "Sunday"},
    /* weeks */
    {"Dog 20 kg. The first week 250 g of goat a day, the second week 250 g of pork a day, the third week 250 g cod a day, "
     "and "
     "so on. Every week: 80 g of rice a day.",
     "250 g goat, every 3 days|250 g pork, every 3 days|250 g cod, every 3 days|80 g rice a day", ""},
    {"Dog 24 kg. One week it's 300 g duck a day and the week after 300 g venison a day.",
     "300 g duck, every 2 days|300 g venison, every 2 days", ""},
    /* parts and the total */
    {"Dog 19 kg. Two measures of minced pork to one measure of barley to one of peas. He gets 400 g of this a day.",
     "200 g minced pork|100 g barley|100 g peas", ""},
    {"Dog 19 kg. My mix: 4 parts goat, 1 part oats, 1 part veg (half peas, half squash). A portion weighs 210 g, two "
     "portions a "
     "day.",
     "280 g goat|70 g oats|35 g peas|35 g squash", ""},
    {"Dog 22 kg. With each kilo of lamb go 200 g of lamb heart and 60 g of lamb kidney. He eats 450 g of the blend every "
     "day.",
     "357.1 g lamb|71.43 g lamb heart|21.43 g lamb kidney", ""},
    {"Dog 12 kg. Serving size 65 g, four servings daily: 70 % rabbit, 30 % squash.", "Feeds: 260 g a day|70 % rabbit", ""},
    {"Dog 12 kg. 1 day = 300 g. Turkey 2/3, rice 1/3.", "200 g Turkey|100 g rice", ""},
    /* batches, pots, several animals */
    {"Every two weeks I cook: 4.2 kg pork, 1.4 kg rice. Dog, 12 kg.", "Makes: 14 days|4.2 kg pork\n", ""},
    {"Spaniel, 13 kg. 3 kg turkey thigh, 600 g oats. Yield: 15 boxes, one per day.", "Makes: 15 days", ""},
    {"Dog 24 kg. A big pan for 8 days: 2 kg ox heart, 1.2 kg potatoes. Not in the pan: an egg each Saturday.",
     "Makes: 8 days|1 egg each Saturday", ""},
    {"Our two dogs, Bo 20 kg and Mia 10 kg, share a pan: Bo gets 65 %, Mia 35 %. Check only Mia please. The pan: 1.5 kg "
     "beef, "
     "500 g rice, lasts 2 days.",
     "Dog: 10 kg|Makes: 2 days|0.525 kg beef|175 g rice", ""},
    {"Stew lasts three weeks and is eaten by Rufus (30 kg) and Pip (10 kg): Rufus takes three quarters, Pip a quarter. "
     "Please "
     "check Pip only.\nIn the stew: 12 kg ox cheek, 4 kg barley.\nOutside the stew: Pip gets 2 ml of cod liver oil a day.",
     "Dog: 10 kg|Makes: 21 days|3 kg ox cheek|1 kg barley|2 ml cod liver oil", ""},
    {"We keep a dog (14 kg) and a cat (4 kg). For the cat: 100 g cod, 20 g duck heart. For the dog: 250 g goat. The dog "
     "steals "
     "half of the cat's cod. Just judge the dog.",
     "250 g goat|50 g cod", "20 g duck heart\n"},
    {"Dog 18 kg. The batch is 3 kg: half pork, a quarter rice, a quarter carrots. 300 g of it per day.",
     "Makes: 10 days|1500 g pork|750 g rice|750 g carrots", ""},
    {"Dog 18 kg. 250 g pork daily. In place of it, on Fridays, 250 g of cod.",
     "250 g pork, on Monday, Tuesday, Wednesday, Thursday, Saturday and Sunday|250 g cod", ""},
    {"Dog 18 kg. 250 g pork daily. Tuesdays and Thursdays 80 g more.", "250 g pork daily|80 g pork, Tuesdays and Thursdays",
     ""},
    {"Cat 4 kg. Three days chicken thigh 90 g, the rest of the week 90 g rabbit.",
     "90 g chicken thigh, 3 days a week|90 g rabbit, 4 days a week", ""},
    {"Dog 9 kg. Every day 100 g turkey, 50 g rice. On Wed and Sat the turkey is doubled.", "100 g turkey on Wed and Sat",
     ""},
    {"Dog 9 kg. On even dates 120 g duck, on odd dates 120 g cod.", "120 g duck, every other day|120 g cod, every other day",
     ""},
    {"Dog 9 kg. For every 100 g of duck 30 g of barley. He gets 120 g of duck.", "36 g barley|120 g duck", "%"},
    /* what is not understood says so */
    {"A dog of 18 kg.\nSunday: f = 1/d, other days f = 2/d.\nBowl: 130 g pork, 60 g rice.",
     "counted without a sentence that tells how often", ""},
    {"Dog 18 kg. Week A: 250 g pork a day. Week B: 250 g cod a day.\nWeek A comes twice before B.",
     "counted without a sentence that tells how often", ""},
    {"A dog of 18 kg. 250 g pork a day. On herring days 5 g of oil of flax.", "on how many days", ""},
    /* one unit for all; then and now */
    {"All weights in oz. Dog, 40 lb. Breakfast: turkey 6, rice 3. Dinner: pork 5, kale 1. Both: olive oil 1 tsp.",
     "6 oz turkey|3 oz rice|5 oz pork|1 oz kale|1 tsp olive oil, at each meal", ""},
    {"What she got last winter: 250 g pork, 2 duck necks. What she gets now: pork halved, 3 necks, and 80 g of squash. What "
     "I "
     "might feed later: kelp. Dog, 15 kg.",
     "125 g pork|3 duck necks|80 g squash", "\n250 g pork"},
};

static void sentences_that_govern_others(void **state) {
  int wrong = 0;
  (void)state;
  for (size_t i = 0; i < COUNT_OF(ROW); i++) {
    struct post post = posted(ROW[i].post);
    struct span rest = span_of(ROW[i].lines);
    while (rest.n > 0) {
      const char *bar = memchr(rest.p, '|', rest.n);
      struct span one = {rest.p, bar ? (size_t)(bar - rest.p) : rest.n};
      if (!strstr(post.recipe, arena_text(&arena, one))) {
        print_error("%s\n  lacks: %.*s\n%s\n", ROW[i].post, SPAN_ARG(one), post.recipe);
        wrong++;
      }
      rest = span_cut(rest, one.n + (bar ? 1 : 0), rest.n);
    }
    if (ROW[i].without[0] && strstr(post.recipe, ROW[i].without)) {
      print_error("%s\n  has: %s\n%s\n", ROW[i].post, ROW[i].without, post.recipe);
      wrong++;
    }
  }
  assert_int_equal(wrong, 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {T(sentences_that_govern_others)};
  return cmocka_run_group_tests_name("post_refer_days", tests, NULL, NULL);
}
