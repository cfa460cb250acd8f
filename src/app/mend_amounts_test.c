/* What is not worth offering: what there is enough of, what may be a dose already, what nobody measures or gives. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "tests/mend/offers_scene.h"

/* Kelp and cod liver oil of which nobody knows how much is fed, a multivitamin without a label: what they may be a dose of
 * is not offered beside them. Too much iodine, vitamin A or D and trace elements harm (upper limits of NRC 2006, FEDIAF
 * 2021). */
static void what_is_not_counted_is_not_doubled(void **state) {
  (void)state;
  static const char BOWL[] = "400 g beef mince 90/10, raw\n100 g carrots\n";
  static const struct {
    const char *line, *gone[3], *stays;
  } CASE[] = {{"", {NULL}, "iodine"},
              {"? some kelp\n", {"iodine", "trace mineral", "iodised salt"}, "zinc"},
              {"? a scoop of seaweed every morning\n", {"iodine", "trace mineral", "iodised salt"}, "zinc"},
              {"? a bit of cod liver oil\n", {"vitamin D3", "cod liver oil", "liver"}, "iodine"},
              {"? 1 scoop of a multivitamin\n", {"iodine", "zinc", "trace mineral"}, "vitamin E"},
              {"? Supplements -\n", {NULL}, "iodine"}, /* a heading says nothing of what is in it */
              {"? some kale\n", {NULL}, "iodine"}};
  for (size_t i = 0; i < COUNT_OF(CASE); i++) {
    struct buf b;
    buf_init(&b, &arena, 400);
    buf_addf(&b, "%s%s", BOWL, CASE[i].line);
    struct offers o = offers_of(buf_text(&b), NULL);
    for (size_t k = 0; k < COUNT_OF(CASE[i].gone) && CASE[i].gone[k]; k++) {
      if (offers_any(&o, CASE[i].gone[k])) print_error("%s%s\n", CASE[i].line, CASE[i].gone[k]);
      assert_false(offers_any(&o, CASE[i].gone[k]));
    }
    assert_true(offers_any(&o, CASE[i].stays));
  }
}

/* A second liver brings more of what the first has enough of; a tablet of calcium is for a bowl that lacks calcium, not for
 * the vitamin D that is in it (both common practice). What a larder holds is its owner's own choice. */
static void what_there_is_enough_of_is_not_offered(void **state) {
  (void)state;
  static const struct {
    const char *bowl, *larder, *name;
    bool offered;
  } CASE[] = {{"400 g beef mince 90/10, raw\n", NULL, "chicken liver", true},
              {"400 g beef mince 90/10, raw\n3 g beef liver, raw\n", NULL, "chicken liver", true},
              {"400 g beef mince 90/10, raw\n30 g beef liver, raw\n", NULL, "chicken liver", false},
              {"400 g beef mince 90/10, raw\n30 g beef liver, raw\n", "lamb liver, raw   up to 20 g\n", "lamb liver", true},
              {"400 g beef mince 90/10, raw\n", NULL, "calcium tablet with", true},
              {"400 g beef mince 90/10, raw\n1 g ground eggshell\n", NULL, "calcium tablet with", true},
              {"400 g beef mince 90/10, raw\n4 g ground eggshell\n", NULL, "calcium tablet with", false}};
  for (size_t i = 0; i < COUNT_OF(CASE); i++) {
    struct offers o = offers_of(CASE[i].bowl, CASE[i].larder);
    if (offers_any(&o, CASE[i].name) != CASE[i].offered) print_error("%s%s\n", CASE[i].bowl, CASE[i].name);
    assert_true(offers_any(&o, CASE[i].name) == CASE[i].offered);
  }
}

/* A kitchen scale shows whole grams: powders and oils of which less than five are usual are offered by the eighth of a
 * teaspoon, every day, or less often where an eighth is much. Of a pot for a week they are weighed. */
static void small_amounts_are_spoons(void **state) {
  (void)state;
  static const struct {
    const char *bowl;
    double kg;
    bool cat;
  } CASE[] = {{"120 g chicken thigh, skinless, cooked\n", 4, true},
              {"Makes: 2 days\n240 g chicken thigh, skinless, cooked\n", 4, true},
              {"400 g beef mince 90/10, raw\n", 18, false},
              {"Makes: 7 days\n2800 g beef mince 90/10, raw\n", 18, false}};
  size_t spoons = 0, seldom = 0, weighed = 0;
  for (size_t i = 0; i < COUNT_OF(CASE); i++) {
    struct offers o = offers_for(CASE[i].bowl, NULL, CASE[i].cat ? animal_plain(SPECIES_CAT, CASE[i].kg) : dog(CASE[i].kg));
    double days = strncmp(CASE[i].bowl, "Makes: ", 7) == 0 ? CASE[i].bowl[7] - '0' : 1;
    for (size_t k = 0; k < o.count; k++) {
      enum part p = (enum part)library_food(built_library(), o.offer[k].food.line.shown_food)->part;
      if ((p != PART_SUPPLEMENT && p != PART_FAT_OIL) || unit_info[o.text[k].unit].kind == UNIT_KIND_COUNT) continue;
      double grams = o.text[k].unit_g, tsp = grams > 0 ? o.offer[k].least * o.text[k].per_day / grams : 0; /* of grams none */
      if (o.text[k].unit == UNIT_G) {
        assert_true(o.offer[k].most * days >= 0.9);
        weighed++;
        continue;
      }
      assert_int_equal(o.text[k].unit, UNIT_TSP);
      assert_true(fabs(tsp - 1.0 / 8) < 1e-6 || (fabs(tsp - 1.0 / 16) < 1e-6 && !(o.offer[k].most > o.offer[k].least)));
      assert_true(fabs(o.offer[k].step - o.offer[k].least) < 1e-9 && !(o.offer[k].whole > 0)); /* no pill */
      spoons++;
      seldom += o.text[k].frequency[0] != '\0';
    }
  }
  assert_true(spoons > 10 && seldom > 3 && weighed > 5);
}

/* Nobody gives six tablets of one thing a day, or opens a tin of oysters for 2 g of them (a formulator's finding: "5 1/2
 * tablets of calcium", "2 g canned oysters"). */
static void amounts_are_what_people_give(void **state) {
  (void)state;
  static const double KG[] = {4, 18, 60};
  for (size_t i = 0; i < COUNT_OF(KG); i++) {
    struct offers o = offers_for("900 g beef mince 90/10, cooked\n500 g cooked brown rice\n", NULL, dog(KG[i]));
    for (size_t k = 0; k < o.count; k++) {
      const struct offer_text *t = &o.text[k];
      enum part p = (enum part)library_food(built_library(), o.offer[k].food.line.shown_food)->part;
      if (t->unit == UNIT_TABLET || t->unit == UNIT_CAPSULE) assert_true(o.offer[k].most <= 3.001 * t->unit_g);
      if (t->unit == UNIT_G && p != PART_SUPPLEMENT && p != PART_FAT_OIL)
        assert_true(o.offer[k].least >= fmin(5, o.offer[k].most / 2) * 0.999);
    }
  }
}

/* A part of a pill a day is a chore (common practice): halves only when whole ones do not suffice. */
static void whole_pills_come_first(void **state) {
  (void)state;
  struct offers o = offers_of("400 g beef mince 90/10, raw\n", NULL);
  size_t wholes = 0, other_days = 0;
  for (size_t i = 0; i < o.count; i++) {
    if (o.offer[i].tier != MEND_SUPPLEMENT || !(o.offer[i].whole > 0) || o.offer[i].since > 0) continue;
    double pills = o.offer[i].whole / o.text[i].unit_g;
    wholes += !o.text[i].frequency[0];
    other_days += strcmp(o.text[i].frequency, ", every other day") == 0;
    if (!o.text[i].frequency[0]) assert_true(fabs(pills - round(pills)) < 1e-9);
  }
  assert_true(wholes > 5 && other_days > 3);
}

int main(void) {
  const struct CMUnitTest tests[] = {T(what_is_not_counted_is_not_doubled), T(what_there_is_enough_of_is_not_offered),
                                     T(small_amounts_are_spoons), T(amounts_are_what_people_give),
                                     T(whole_pills_come_first)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
