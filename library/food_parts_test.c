/* Sorting, against what a nutritionist would say: the table below was written by hand, record by record. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
/* cmocka needs the four above before it. */
#include <cmocka.h>

#include "built_image.h"
#include "near.h"

static const struct {
  const char *code;
  enum part part;
  enum kind kind;
  enum state state;
} EXPECTED[] = {
    {"usda:01001", PART_FAT_OIL, KIND_MILK, STATE_UNSTATED},     /* butter, salted */
    {"usda:01012", PART_DAIRY, KIND_MILK, STATE_UNSTATED},       /* cottage cheese */
    {"usda:01123", PART_EGG, KIND_EGG, STATE_RAW},               /* egg, whole */
    {"usda:01129", PART_EGG, KIND_EGG, STATE_BOILED},            /* egg, hard-boiled */
    {"usda:01211", PART_DAIRY, KIND_MILK, STATE_UNSTATED},       /* milk, whole, nothing added */
    {"usda:02047", PART_SUPPLEMENT, KIND_OTHER, STATE_UNSTATED}, /* salt */
    {"usda:04053", PART_FAT_OIL, KIND_PLANT, STATE_UNSTATED},    /* olive oil */
    {"usda:04589", PART_FAT_OIL, KIND_FISH, STATE_UNSTATED},     /* cod liver oil: oil, not liver */
    {"usda:05023", PART_ORGAN_OTHER, KIND_CHICKEN, STATE_RAW},   /* gizzard */
    {"usda:05025", PART_ORGAN_OTHER, KIND_CHICKEN, STATE_RAW},   /* heart */
    {"usda:05027", PART_ORGAN_LIVER, KIND_CHICKEN, STATE_RAW},
    {"usda:05062", PART_MUSCLE, KIND_CHICKEN, STATE_RAW}, /* breast */
    {"usda:05143", PART_ORGAN_LIVER, KIND_DUCK, STATE_RAW},
    {"usda:05150", PART_ORGAN_LIVER, KIND_GOOSE, STATE_RAW},
    {"usda:05177", PART_ORGAN_LIVER, KIND_TURKEY, STATE_RAW},
    {"usda:05282", PART_OTHER, KIND_GOOSE, STATE_CANNED},       /* goose liver pate: not liver */
    {"usda:05305", PART_MUSCLE, KIND_TURKEY, STATE_RAW},        /* ground turkey */
    {"usda:07014", PART_OTHER, KIND_PORK, STATE_UNSTATED},      /* liver sausage: not liver */
    {"usda:10096", PART_ORGAN_SECRETING, KIND_PORK, STATE_RAW}, /* brain */
    {"usda:10106", PART_ORGAN_SECRETING, KIND_PORK, STATE_RAW}, /* kidneys */
    {"usda:10110", PART_ORGAN_LIVER, KIND_PORK, STATE_RAW},
    {"usda:10112", PART_ORGAN_OTHER, KIND_PORK, STATE_RAW},     /* lungs */
    {"usda:10115", PART_ORGAN_SECRETING, KIND_PORK, STATE_RAW}, /* pancreas */
    {"usda:10117", PART_ORGAN_SECRETING, KIND_PORK, STATE_RAW}, /* spleen */
    {"usda:10119", PART_ORGAN_OTHER, KIND_PORK, STATE_RAW},     /* stomach */
    {"usda:10109", PART_FAT_OIL, KIND_PORK, STATE_RAW},         /* leaf fat */
    {"usda:11124", PART_VEGETABLE, KIND_PLANT, STATE_RAW},      /* carrots */
    {"usda:11445", PART_VEGETABLE, KIND_PLANT, STATE_RAW},      /* kelp */
    {"usda:12036", PART_SEED_NUT, KIND_PLANT, STATE_DRIED},     /* sunflower seed */
    {"usda:13321", PART_ORGAN_OTHER, KIND_BEEF, STATE_RAW},     /* heart */
    {"usda:13323", PART_ORGAN_SECRETING, KIND_BEEF, STATE_RAW}, /* kidneys */
    {"usda:13325", PART_ORGAN_LIVER, KIND_BEEF, STATE_RAW},
    {"usda:13326", PART_ORGAN_LIVER, KIND_BEEF, STATE_SIMMERED}, /* braised */
    {"usda:13327", PART_ORGAN_LIVER, KIND_BEEF, STATE_PAN_FRIED},
    {"usda:13335", PART_FAT_OIL, KIND_BEEF, STATE_RAW},         /* suet */
    {"usda:13337", PART_ORGAN_SECRETING, KIND_BEEF, STATE_RAW}, /* thymus */
    {"usda:13339", PART_ORGAN_OTHER, KIND_BEEF, STATE_RAW},     /* tongue */
    {"usda:13341", PART_ORGAN_OTHER, KIND_BEEF, STATE_RAW},     /* tripe */
    {"usda:23192", PART_MUSCLE, KIND_BEEF, STATE_RAW},          /* rib eye: no eye */
    {"usda:15046", PART_FISH, KIND_FISH, STATE_RAW},            /* Atlantic mackerel */
    {"usda:15088", PART_FISH, KIND_FISH, STATE_CANNED},         /* sardines */
    {"usda:15164", PART_SHELLFISH, KIND_SHELLFISH, STATE_RAW},  /* mussels */
    {"usda:15016", PART_FISH, KIND_FISH, STATE_BAKED},          /* cod, dry heat */
    {"usda:16069", PART_LEGUME, KIND_PLANT, STATE_RAW},         /* lentils */
    {"usda:16070", PART_LEGUME, KIND_PLANT, STATE_BOILED},
    {"usda:17168", PART_MUSCLE, KIND_GOAT, STATE_RAW},
    {"usda:17177", PART_MUSCLE, KIND_RABBIT, STATE_RAW},
    {"usda:17199", PART_ORGAN_LIVER, KIND_LAMB, STATE_RAW},
    {"usda:17195", PART_ORGAN_SECRETING, KIND_LAMB, STATE_RAW}, /* kidneys */
    {"usda:17202", PART_ORGAN_LIVER, KIND_VEAL, STATE_RAW},
    {"usda:17164", PART_MUSCLE, KIND_GAME, STATE_RAW}, /* deer */
    {"usda:20036", PART_GRAIN, KIND_PLANT, STATE_RAW}, /* brown rice */
    {"usda:20037", PART_GRAIN, KIND_PLANT, STATE_COOKED_OTHER},
    {"usda:20120", PART_GRAIN, KIND_PLANT, STATE_RAW},         /* pasta, dry: what goes into the pot */
    {"usda:08120", PART_GRAIN, KIND_PLANT, STATE_RAW},         /* oats, not fortified */
    {"usda:18375", PART_SUPPLEMENT, KIND_OTHER, STATE_DRIED},  /* yeast */
    {"ifct:O013", PART_ORGAN_SECRETING, KIND_GOAT, STATE_RAW}, /* testis */
    {"ifct:N006", PART_ORGAN_OTHER, KIND_CHICKEN, STATE_RAW},  /* gizzard */
    {"ifct:P071", PART_FISH, KIND_FISH, STATE_RAW},            /* sardine */
    {"ifct:S008", PART_SHELLFISH, KIND_SHELLFISH, STATE_RAW},  /* prawns */
    {"bone:chicken", PART_BONE, KIND_CHICKEN, STATE_RAW},
    {"cut:duck-neck", PART_MUSCLE, KIND_DUCK, STATE_RAW},
    {"ours:eggshell", PART_SUPPLEMENT, KIND_OTHER, STATE_UNSTATED},
};

static void foods_belong_where_a_nutritionist_puts_them(void **state) {
  (void)state;
  size_t wrong = 0;
  for (size_t i = 0; i < COUNT_OF(EXPECTED); i++) {
    const struct img_food *f = built_record(EXPECTED[i].code);
    if (f->part == EXPECTED[i].part && f->kind == EXPECTED[i].kind && f->state == EXPECTED[i].state) continue;
    print_error("%s %s: %s, %s, %s\n", EXPECTED[i].code, lib_str(built_library(), f->name), part_word[f->part],
                kind_word[f->kind], state_word[f->state]);
    wrong++;
  }
  assert_int_equal(wrong, 0);
}

/* Groups that hold dishes, drinks and sweets: none of it is an ingredient of a bowl. */
static bool is_ready_food_group(const char *group) {
  static const char *const GROUPS[] = {
      "Baby Foods", "Soups, Sauces, and Gravies",      "Beverages", "Baked Products",   "Sweets",
      "Fast Foods", "Meals, Entrees, and Side Dishes", "Snacks",    "Restaurant Foods", "Sugars"};
  for (size_t i = 0; i < COUNT_OF(GROUPS); i++)
    if (strcmp(group, GROUPS[i]) == 0) return true;
  return false;
}

/* Everything else in 'other', by how the name begins: substitutes, condiments, sausage, products that imitate. */
static bool may_be_other(const char *name) {
  static const char *const BEGINS[] = {
      "Mustard", "Vinegar", "Vanilla extract", "Salad dressing", "Salad Dressing", "Mayonnaise", "Dressing",
      "Creamy dressing", "Sandwich spread", "Butter replacement", "Cream substitute", "Milk substitutes", "Dessert topping",
      "Cheese substitute", "Imitation", "Milk, imitation", "Whipped", "Reddi", "Sour dressing", "Protein supplement",
      "Nutritional supplement", "Beverage", "Dulce", "Seasoning", "PACE", "Pate", "Liver cheese", "Liver sausage",
      "Liverwurst", "Braunschweiger", "Headcheese", "Scrapple", "Macaroni", "Ham salad", "Ham and cheese spread",
      "Chicken spread", "Poultry salad", "Soy sauce", "Chili", "Yokan", "Meat extender", "Bacon", "Chicken, meatless",
      "Frankfurter, meatless", "Luncheon slices, meatless", "Meatballs, meatless", "Sausage, meatless", "Vegetarian",
      "Veggie", "Stew", "Soup", "Agutuk", "Tamales", "Corned beef", "Acorn", "Bread", "Frybread", "Piki", "Tennis", "Mush,",
      "Tea", "Chilchen", "Toddy", "Coconut Water",
      /* broth, and whole prey: muscle, bone and organs in one */
      "Bone broth, chicken", "Chick, day-old, whole", "Mouse, adult, whole", "Mouse, pup, whole", "Rat, adult, whole"};
  for (size_t i = 0; i < COUNT_OF(BEGINS); i++)
    if (strncmp(name, BEGINS[i], strlen(BEGINS[i])) == 0) return true;
  return false;
}

static void no_ingredient_fell_to_other(void **state) {
  (void)state;
  const struct library *lib = built_library();
  size_t fallen = 0, wrong = 0;
  for (uint32_t i = 0; i < library_count(lib); i++) {
    const struct img_food *f = library_food(lib, i);
    if (f->part != PART_OTHER) continue;
    fallen++;
    if (is_ready_food_group(lib_str(lib, f->group)) || may_be_other(library_name(lib, i))) continue;
    print_error("%s %s (%s) is 'other'\n", library_code(lib, i), library_name(lib, i), lib_str(lib, f->group));
    wrong++;
  }
  assert_int_equal(wrong, 0);
  assert_true(fallen > 2000); /* the groups above are there at all */
}

static void plain_means_nothing_added(void **state) {
  (void)state;
  static const char *const PLAIN[] = {
      "usda:01123", "usda:01129", "usda:01211", "usda:01256", "usda:01012", "usda:04053", "usda:04594",   "usda:05027",
      "usda:05062", "usda:05305", "usda:09040", "usda:11090", "usda:11091", "usda:11124", "usda:11422",   "usda:11424",
      "usda:11457", "usda:11507", "usda:12036", "usda:12220", "usda:13325", "usda:13326", "usda:15046",   "usda:15088",
      "usda:15164", "usda:15236", "usda:16069", "usda:16070", "usda:17168", "usda:17177", "usda:17199",   "usda:20036",
      "usda:20037", "usda:20444", "usda:08120", "usda:23567", "usda:23572", "ifct:C033",  "cut:duck-neck"};
  static const char *const NOT_PLAIN[] = {"usda:01001",               /* butter, salted */
                                          "usda:01077",               /* milk with vitamin D */
                                          "usda:01079", "usda:01132", /* scrambled: milk and fat */
                                          "usda:05691",               /* thigh with added solution */
                                          "usda:05336",               /* commodity, canned */
                                          "usda:07014", "usda:10123", /* bacon */
                                          "usda:11742",               /* broccoli, with salt */
                                          "usda:11128",               /* carrots, canned, regular pack: salted */
                                          "usda:20044",               /* rice, enriched */
                                          "usda:21005", "usda:06010", "usda:03002", "usda:16168", "usda:42135"};
  size_t wrong = 0;
  for (size_t i = 0; i < COUNT_OF(PLAIN); i++)
    if (!(built_record(PLAIN[i])->flags & FOOD_PLAIN)) wrong++, print_error("%s should be plain\n", PLAIN[i]);
  for (size_t i = 0; i < COUNT_OF(NOT_PLAIN); i++)
    if (built_record(NOT_PLAIN[i])->flags & FOOD_PLAIN) wrong++, print_error("%s should not be plain\n", NOT_PLAIN[i]);
  assert_int_equal(wrong, 0);
}

static bool has(const char *code, uint32_t flag) { return (built_record(code)->flags & flag) != 0; }

static void marks_stand_where_the_lists_say(void **state) {
  (void)state;
  /* NRC 1982 lists, as in data/food_flags.tsv: carp, herring, smelt have thiaminase; cod, salmon, Atlantic mackerel not. */
  assert_true(has("usda:15008", FOOD_THIAMINASE) && has("usda:15039", FOOD_THIAMINASE) &&
              has("usda:15099", FOOD_THIAMINASE));
  assert_false(has("usda:15015", FOOD_THIAMINASE) || has("usda:15076", FOOD_THIAMINASE) ||
               has("usda:15046", FOOD_THIAMINASE));
  assert_false(has("usda:04590", FOOD_THIAMINASE)); /* herring oil is oil */
  /* FDA monitoring: shark, swordfish, king mackerel, tilefish near 1 mg/kg. */
  assert_true(has("usda:15095", FOOD_HIGH_MERCURY) && has("usda:15110", FOOD_HIGH_MERCURY));
  assert_true(has("usda:15049", FOOD_HIGH_MERCURY) && has("usda:15112", FOOD_HIGH_MERCURY));
  assert_false(has("usda:15046", FOOD_HIGH_MERCURY) || has("usda:15088", FOOD_HIGH_MERCURY));
  assert_true(has("usda:11457", FOOD_HIGH_OXALATE) && has("usda:09307", FOOD_HIGH_OXALATE)); /* spinach, rhubarb */
  assert_false(has("usda:11233", FOOD_HIGH_OXALATE));                                        /* kale */
  assert_true(has("usda:01124", FOOD_RAW_WHITE));
  assert_false(has("usda:01123", FOOD_RAW_WHITE) || has("usda:01136", FOOD_RAW_WHITE));
  assert_true(has("usda:04594", FOOD_FISH_OIL) && has("usda:11445", FOOD_KELP) && has("ours:kelp-dried", FOOD_KELP));
  /* USDA SR28 fat: salmon 13.4, mackerel 13.9; cod 0.67 g per 100 g; the retention table divides at 5 %. */
  assert_true(has("usda:15236", FOOD_FATTY_FISH) && has("usda:15046", FOOD_FATTY_FISH));
  assert_false(has("usda:15015", FOOD_FATTY_FISH));
  assert_int_equal(built_record("usda:15015")->retention_group, RETAIN_FISH_LEAN);
  assert_true(has("usda:05006", FOOD_SKIN) && has("usda:05011", FOOD_SKINLESS));
}

static void cooked_records_know_their_raw_form(void **state) {
  (void)state;
  static const char *const PAIR[][2] = {{"usda:13326", "usda:13325"}, {"usda:11091", "usda:11090"},
                                        {"usda:15016", "usda:15015"}, {"usda:17200", "usda:17199"},
                                        {"usda:05024", "usda:05023"}, {"usda:10104", "usda:10103"}};
  for (size_t i = 0; i < COUNT_OF(PAIR); i++) assert_int_equal(built_record(PAIR[i][0])->raw_form, built_food(PAIR[i][1]));
  assert_int_equal(built_record("usda:13325")->raw_form, NO_INDEX);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(foods_belong_where_a_nutritionist_puts_them),
      cmocka_unit_test(no_ingredient_fell_to_other),
      cmocka_unit_test(plain_means_nothing_added),
      cmocka_unit_test(marks_stand_where_the_lists_say),
      cmocka_unit_test(cooked_records_know_their_raw_form),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
