/* uncounted_words_test.c: which kind a thing is of by the words of its owner, and what such a thing may hold: the columns
 * say what somebody who formulates would allow for. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

#include "foods/uncounted_words.h"
#include "tests/support/built_image.h"
#include "tests/support/fresh_arena.h"

#define ANY (-1) /* any amount */
static const struct row {
  const char *text, *name; /* "": it is of no known kind */
  enum nutrient n;
  double most;
} ROW[] = {
    {"a multivitamin", "a multivitamin", NUT_CALCIUM, 250},
    {"1 multivitamin", "a multivitamin", NUT_IODINE, ANY},
    {"2 multivitamin tablets", "a multivitamin", NUT_CALCIUM, 500},
    {"two multi-vitamin tablets a day", "a multivitamin", NUT_CALCIUM, 500},
    {"multivitamin (some brand)", "a multivitamin", NUT_PROTEIN, 0},
    {"1 scoop of multivitamin powder", "a multivitamin", NUT_CALCIUM, ANY}, /* a scoop may be ten grams */
    {"5 g of a mineral mix", "a mineral supplement", NUT_CALCIUM, ANY},
    {"trace mineral tablet", "a mineral supplement", NUT_CALCIUM, 250},
    {"trace mineral tablet", "a mineral supplement", NUT_VITAMIN_D, 0},
    {"vitamin B complex 50, 4 caps", "B vitamins", NUT_THIAMIN, ANY},
    {"vitamin B complex 50, 4 caps", "B vitamins", NUT_ZINC, 0},
    {"B-50 capsule", "B vitamins", NUT_CHOLINE, ANY},
    {"I give a vit E 100 IU cap once a week", "vitamin E", NUT_VITAMIN_E, ANY},
    {"I give a vit E 100 IU cap once a week", "vitamin E", NUT_VITAMIN_D, 0},
    {"calcium and vitamin D", "calcium and vitamin D", NUT_CALCIUM, ANY},
    {"calcium and vitamin D", "calcium and vitamin D", NUT_ZINC, 0},
    {"Once a week he gets a raw marrow bone", "a bone to gnaw", NUT_CALCIUM, ANY},
    {"Once a week he gets a raw marrow bone", "a bone to gnaw", NUT_VITAMIN_A, 0},
    {"Once a week he gets a raw marrow bone", "a bone to gnaw", NUT_IODINE, 0},
    {"2 antacid tablets", "calcium tablets", NUT_CALCIUM, ANY},
    {"2 antacid tablets", "calcium tablets", NUT_ZINC, 0},
    {"a probiotic", "a probiotic", NUT_THIAMIN, 0},
    {"taurine supplement", "taurine", NUT_CALCIUM, 0},
    {"supplements", "a supplement", NUT_CALCIUM, ANY},
    {"supplements", "a supplement", NUT_PROTEIN, 0},
    {"omega-3 capsule", "fish oil", NUT_VITAMIN_A, 100},
    {"he gets 1 salmon oil cap", "fish oil", NUT_VITAMIN_D, 1},
    {"he gets 1 salmon oil cap", "fish oil", NUT_FAT, ANY},
    {"a cod liver oil capsule", "cod liver oil", NUT_VITAMIN_A, ANY},
    {"1 tsp glucosamine powder", "glucosamine", NUT_ZINC, 0},
    {"1 tsp glucosamine powder", "glucosamine", NUT_CHLORIDE, 250}, /* by the spoon, too */
    {"a scoop of joint powder", "a joint supplement", NUT_MANGANESE, 5},
    {"maybe chicken neck", "a piece to gnaw", NUT_IODINE, 30},
    {"maybe chicken neck", "a piece to gnaw", NUT_CALCIUM, ANY},
    {"omega-3 capsule", "fish oil", NUT_ZINC, 0},
    /* what is of no kind, or of more than one thing */
    {"2 scoops complete dinner mix", "food that may be anything", NUT_PROTEIN, ANY},
    {"fish and vitamin E", "", NUT_NONE, 0},
    {"her pills with some leftover stew", "", NUT_NONE, 0},
    {"4 caps", "", NUT_NONE, 0},
    {"8 g of Orange", "", NUT_NONE, 0},
    {"he had vitamin problems so now we feed sticks of tripe", "", NUT_NONE, 0},
    {"a little something", "", NUT_NONE, 0},
    {"", "", NUT_NONE, 0},
};

static void kinds(void **state) {
  (void)state;
  for (size_t i = 0; i < sizeof ROW / sizeof *ROW; i++) {
    const struct row *row = &ROW[i];
    struct uncounted_kind k;
    bool is = uncounted_kind_of(built_library(), span_of(row->text), &k, &arena);
    double most = is && row->n != NUT_NONE ? (double)k.holds[row->n] : 0;
    bool fine = is == (row->name[0] != '\0') && (!is || strcmp(k.name, row->name) == 0) &&
                (row->most < 0 ? isnan(most) : fabs(most - row->most) < 1e-6);
    if (fine) continue;
    print_error("'%s': %s, %g", row->text, is ? k.name : "of no kind", most);
    fail();
  }
}

/* Treats and trifles: a few of them, or any number. */
static void snacks(void **state) {
  static const struct {
    const char *text;
    bool is, few, nameless;
  } ROWS[] = {
      {"treats", true, false, false},
      {"some training treats", true, false, false},
      {"a few treats", true, true, false},
      {"a couple of dog biscuits", true, true, false},
      {"She also gets a few crunchies", true, true, true},
      {"a lick of gravy", true, true, true},
      {"a few scoops of Whatever", false, true, false}, /* a scoop is no trifle */
      {"a bit of Whatever powder", false, true, false}, /* may be a mineral */
      {"a few times a week Whatever", false, true, false},
      {"a few bits of this and that from dinner", false, true, false},
      {"treats and whatever is left", false, false, false},
  };
  (void)state;
  for (size_t i = 0; i < sizeof ROWS / sizeof *ROWS; i++) {
    struct uncounted_kind k;
    bool is = uncounted_kind_of(built_library(), span_of(ROWS[i].text), &k, &arena) && k.snack;
    if (is == ROWS[i].is && k.few == ROWS[i].few && k.nameless == ROWS[i].nameless) continue;
    print_error("'%s': %s%s%s", ROWS[i].text, is ? "a snack" : "none", k.few ? ", few" : "", k.nameless ? ", nameless" : "");
    fail();
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {T(kinds), T(snacks)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
