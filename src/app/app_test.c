/* The use cases on the real library: which animal is meant, that all complaints come at once, and what a refusal leaves.
 * Metabolic weights are recomputed with pow(); the zinc allowance is NRC 2006's for adult dogs:
 * 2.0 mg per kg^0.75, or 15 mg per 1000 kcal.
 */
#include "app/app.h"
#include "base/utf8.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

static struct arena arena, library_arena;
static struct library lib;

static const char HOUSE[] = "Animal: Juniper\nSpecies: dog\nAge: 6 years\nWeight: 18 kg\n\n"
                            "Animal: Pim\nSpecies: cat\nAge: 3 years\nWeight: 4.6 kg\n\n"
                            "Animal: Button\nSpecies: dog\nAge: 4 months\nWeight: 5 kg\n";
static const char ALONE[] = "Animal: Moss\nSpecies: dog\nAge: 11 years\nWeight: 31 kg\n";

static int open_image(void **state) {
  (void)state;
  arena_init(&library_arena, NULL);
  FILE *f = fopen(BW_LIBRARY_PATH, "rb");
  if (!f || fseek(f, 0, SEEK_END) != 0) return -1;
  long n = ftell(f);
  rewind(f);
  void *bytes = arena_alloc(&library_arena, (size_t)n, 1);
  size_t got = fread(bytes, 1, (size_t)n, f);
  fclose(f);
  return got == (size_t)n && image_open(&lib.image, bytes, got) == IMAGE_FINE ? 0 : -1;
}

static int close_image(void **state) {
  (void)state;
  arena_free(&library_arena);
  return 0;
}

static struct app_check_request ask(const char *recipe, const char *animals, const char *name) {
  return (struct app_check_request){.recipe = {"dinner.txt", span_of(recipe)},
                                    .animals = {animals ? "house.animals" : NULL, span_of(animals)},
                                    .for_name = name,
                                    .ask = {.today = {2026, 11, 2}, .check = CHECK_OPTIONS_DEFAULT}};
}

static struct app_check_answer check_of(const char *recipe, const char *animals, const char *name) {
  struct app_check_request q = ask(recipe, animals, name);
  struct app_check_answer a;
  app_check(&lib, &q, &a, &arena);
  return a;
}

static bool says(const struct diags *d, const char *words) {
  for (size_t i = 0; i < d->count; i++)
    if (strstr(d->item[i].message, words)) return true;
  return false;
}

#define LIVER "100 g lamb liver [usda:17199]\n"

static void the_header_picks_the_animal(void **state) {
  (void)state;
  struct app_check_answer a = check_of("For: pim\n\n" LIVER, HOUSE, NULL);
  assert_non_null(a.result);
  assert_string_equal(a.result->animal->name, "Pim");
  assert_true(fabs(a.result->body.metabolic_kg - pow(4.6, 0.67)) < 1e-6);
}

static void a_name_wins_over_the_header(void **state) {
  (void)state;
  struct app_check_answer a = check_of("For: Pim\n\n" LIVER, HOUSE, "JUNIPER");
  assert_non_null(a.result);
  assert_string_equal(a.result->animal->name, "Juniper");
}

static void the_only_animal_needs_no_name(void **state) {
  (void)state;
  struct app_check_answer a = check_of(LIVER, ALONE, NULL);
  assert_non_null(a.result);
  assert_string_equal(a.result->animal->name, "Moss");
}

static void nobody_is_picked_by_guess(void **state) {
  (void)state;
  struct app_check_answer a = check_of(LIVER, HOUSE, NULL);
  assert_null(a.result);
  assert_true(says(&a.recipe_diags, "Juniper, Pim and Button"));
  a = check_of("Recipe: Bowl\nFor: Rowan\n\n" LIVER, ALONE, NULL);
  assert_null(a.result);
  assert_true(says(&a.recipe_diags, "'Rowan'"));
  assert_int_equal(a.recipe_diags.item[0].line, 2);
  assert_int_equal(a.recipe_diags.item[0].column, 6);
  a = check_of(LIVER, HOUSE, "Rowan");
  assert_null(a.result);
  assert_true(says(&a.animal_diags, "'Rowan'"));
}

/* The text with what a fix says typed into it: lines and columns count characters, as an editor does. */
static const char *typed(const char *text, const struct diag_fix *fix) {
  const char *p = text;
  for (int line = 1; line < fix->line; line++) p = strchr(p, '\n') + 1;
  struct span rest = span_of(p);
  size_t at = 0, gone = 0;
  uint32_t c;
  for (int i = 1; i < fix->column; i++) at += utf8_read(span_cut(rest, at, rest.n), &c);
  for (int i = 0; i < fix->width; i++) gone += utf8_read(span_cut(rest, at + gone, rest.n), &c);
  struct buf b;
  buf_init(&b, &arena, 4096);
  buf_add(&b, (struct span){text, (size_t)(p - text) + at});
  buf_adds(&b, fix->write);
  buf_adds(&b, p + at + gone);
  return buf_text(&b);
}

static const struct diag *complaint_of(const struct diags *d, enum diag_code code) {
  for (size_t i = 0; i < d->count; i++)
    if (d->item[i].code == code) return &d->item[i];
  return NULL;
}

/* Whatever is offered can be typed, and is understood then. */
static void what_is_offered_is_understood(void **state) {
  (void)state;
  static const struct {
    const char *text;
    enum diag_code code;
  } FAULTY[] = {
      {"Recipe: Bowl\n\n" LIVER, DIAG_WHICH_ANIMAL},
      {LIVER, DIAG_WHICH_ANIMAL},
      {"For: Rowan\n" LIVER, DIAG_WHICH_ANIMAL},
      {"Recipe: \xC3\xA9t\xC3\xA9", DIAG_WHICH_ANIMAL},
      {"Fro: Pim\nFor: Pim\n" LIVER, DIAG_MISSPELT},
      {"For: Pim\n2 tbs salmon oil # \xC3\xA9t\xC3\xA9\n", DIAG_MISSPELT},
      {"For: Pim\n10 g lamb shouldr heart liver # rare\n", DIAG_UNKNOWN_FOOD},
      {"For: Pim\n10 g lamb liver [usda:99999], twice a week\n", DIAG_UNKNOWN_FOOD},
      {"For: Pim\n" LIVER "thanks for looking\n", DIAG_NO_FOOD},
      {"For: Pim\n" LIVER "10 g qwertyzxcv\n", DIAG_NOT_IN_LIBRARY},
      {"For: Pim\n1 piece butter\n", DIAG_NO_WEIGHT},
  };
  for (size_t i = 0; i < COUNT_OF(FAULTY); i++) {
    struct app_check_answer a = check_of(FAULTY[i].text, HOUSE, NULL);
    const struct diag *c = complaint_of(&a.recipe_diags, FAULTY[i].code);
    if (!c || c->fixes == 0) fail_msg("nothing is offered for: %s", FAULTY[i].text);
    for (size_t k = 0; k < c->fixes; k++) {
      const char *text = typed(FAULTY[i].text, &c->fix[k]);
      struct app_check_answer now = check_of(text, HOUSE, NULL);
      const struct diag *again = complaint_of(&now.recipe_diags, FAULTY[i].code);
      if (again) fail_msg("'%s' was offered, and then: %s\n%s", c->fix[k].label, again->message, text);
      if (FAULTY[i].code == DIAG_WHICH_ANIMAL && now.result)
        assert_true(strstr(c->fix[k].label, now.result->animal->name) != NULL);
    }
  }
}

/* A page or a script goes by the code of a complaint, not by its words. */
static void complaints_have_codes(void **state) {
  (void)state;
  static const struct {
    const char *text;
    enum diag_code code;
  } FAULTY[] = {{"Makes: lots\n" LIVER, DIAG_NUMBER},
                {"10-5 g lamb liver\n", DIAG_NUMBER},
                {"Total: 5 cups\n" LIVER, DIAG_UNIT},
                {"Total: 1 kg\nTotal: 2 kg\n" LIVER, DIAG_TWICE},
                {"Makes:\n" LIVER, DIAG_EMPTY},
                {"Cook: zapped\n" LIVER, DIAG_UNKNOWN_WORD},
                {"Meals: 2 a day or so\n" LIVER, DIAG_NOT_UNDERSTOOD},
                {"10 g lamb or beef liver\n", DIAG_LEFT_OPEN},
                {"2 capsules of krill oil\n", DIAG_LABEL_NEEDED}};
  for (size_t i = 0; i < COUNT_OF(FAULTY); i++) {
    struct app_check_answer a = check_of(FAULTY[i].text, HOUSE, "Pim");
    if (!complaint_of(&a.recipe_diags, FAULTY[i].code))
      fail_msg("no complaint '%s' of: %s", diag_code_key[FAULTY[i].code], FAULTY[i].text);
  }
}

/* What must not be fed (weight "act" in data/hazards.tsv) goes by its code, read as a food or not; what is doubtful is none.
 */
static void a_danger_has_its_code(void **state) {
  (void)state;
  struct app_check_answer a = check_of("Recipe: A post\n\n100 g beef mince\n50 g onion\n100 g qwertyzxcv grapes\n"
                                       "20 g qwertyzxcv avocado\n",
                                       HOUSE, NULL);
  assert_null(a.result);
  bool coded[7] = {false}, doubtful = false;
  for (size_t i = 0; i < a.recipe_diags.count; i++) {
    const struct diag *d = &a.recipe_diags.item[i];
    doubtful = doubtful || strncmp(d->message, "caution:", 8) == 0;
    if (d->code == DIAG_DANGER) {
      assert_in_range(d->line, 4, 5);
      coded[d->line] = true;
    }
  }
  assert_true(coded[4] && coded[5] && doubtful);
}

static void without_animals_there_is_composition(void **state) {
  (void)state;
  struct app_check_answer a = check_of("For: Juniper\n\n" LIVER, NULL, NULL);
  assert_non_null(a.result);
  assert_null(a.result->animal);
  assert_true(isnan(a.result->nutrient[NUT_ZINC].allowance));
  assert_true(fabs(a.result->nutrient[NUT_ZINC].amount - 4.66) < 1e-4); /* SR28, NDB 17199 */
}

static void all_complaints_come_at_once(void **state) {
  (void)state;
  struct app_check_answer a = check_of("For: Juniper\n\n2 tbs salmon oil\n10 g qwertyzxcv\n-5 g beef\n",
                                       "Animal: Juniper\nSpecies: dragon\nWeight: heavy\n", NULL);
  assert_null(a.result);
  assert_true(a.recipe_diags.errors >= 3);
  assert_true(says(&a.recipe_diags, "tbs"));
  assert_true(says(&a.recipe_diags, "qwertyzxcv"));
  assert_true(a.animal_diags.errors >= 2);
  assert_true(says(&a.animal_diags, "dragon"));
}

static void a_refusal_leaves_the_composition(void **state) {
  (void)state;
  struct app_check_answer a = check_of(LIVER, HOUSE, "Button");
  assert_non_null(a.result);
  assert_int_equal(a.result->refusal, REFUSE_GROWTH);
  assert_true(isnan(a.result->nutrient[NUT_ZINC].allowance));
  assert_true(fabs(a.result->nutrient[NUT_ZINC].amount - 4.66) < 1e-4); /* SR28, NDB 17199 */
}

static struct app_check_answer need_of(struct animal *animal, enum basis basis) {
  struct app_check_request q = ask("", NULL, NULL);
  struct app_check_answer a;
  q.one_off = animal;
  q.ask.check.basis = basis;
  app_need(&lib, &q, &a, &arena);
  return a;
}

static void need_on_both_bases(void **state) {
  (void)state;
  struct animal dog = animal_plain(SPECIES_DOG, 20);
  struct app_check_answer by_weight = need_of(&dog, BASIS_WEIGHT), by_energy = need_of(&dog, BASIS_ENERGY);
  assert_non_null(by_weight.result);
  assert_non_null(by_energy.result);
  double kcal = by_energy.result->energy.need.kcal, metabolic = pow(20, 0.75);
  assert_true(fabs(by_weight.result->nutrient[NUT_ZINC].allowance - 2.0 * metabolic) < 1e-5 * metabolic);
  assert_true(fabs(by_energy.result->nutrient[NUT_ZINC].allowance - 15.0 * kcal / 1000) < 1e-6 * kcal);
  assert_true(by_energy.result->energy.need.low_kcal < kcal && kcal < by_energy.result->energy.need.high_kcal);
}

static void own_foods_join_the_library(void **state) {
  (void)state;
  static const char LABEL[] = "Food: Zinc tablets\nPart: supplement\nPer: 1 tablet (0.4 g)\nZinc: 15 mg\n";
  struct app_input labels = {"own.foods", span_of(LABEL)};
  struct library with = lib;
  struct diags d;
  assert_true(app_add_foods(&with, &labels, &d, &arena));
  assert_int_equal(with.own_count, 1);
  assert_int_equal(library_by_code(&with, SPAN_LIT("mine:zinc-tablets")), library_count(&lib));
  assert_false(app_add_foods(&with, &labels, &d, &arena)); /* the code is taken now */
  assert_int_equal(with.own_count, 1);
  assert_true(d.errors > 0);
}

static void foods_by_pin_and_by_words(void **state) {
  (void)state;
  struct search_hit hits[5];
  size_t count = 9;
  uint32_t liver = app_food(&lib, SPAN_LIT("usda:17199"), hits, 5, &count, &arena);
  assert_string_equal(library_code(&lib, liver), "usda:17199");
  assert_int_equal(count, 0);
  assert_int_equal(app_food(&lib, SPAN_LIT(" [usda:17199] "), hits, 5, &count, &arena), liver);
  assert_int_equal(app_food(&lib, SPAN_LIT("lamb liver"), hits, 5, &count, &arena), liver);
  assert_true(count > 0);
  assert_int_equal(app_food(&lib, SPAN_LIT("qwertyzxcv"), hits, 5, &count, &arena), NO_INDEX);
  assert_int_equal(app_food(&lib, SPAN_LIT("usda:99999"), hits, 5, &count, &arena), NO_INDEX);
  assert_int_equal(app_food(&lib, SPAN_LIT(""), hits, 5, &count, &arena), NO_INDEX);
}

#define WITH_ARENA(test) cmocka_unit_test_setup_teardown(test, fresh, done)

int main(void) {
  const struct CMUnitTest tests[] = {
      WITH_ARENA(the_header_picks_the_animal),
      WITH_ARENA(a_name_wins_over_the_header),
      WITH_ARENA(the_only_animal_needs_no_name),
      WITH_ARENA(nobody_is_picked_by_guess),
      WITH_ARENA(what_is_offered_is_understood),
      WITH_ARENA(a_danger_has_its_code),
      WITH_ARENA(complaints_have_codes),
      WITH_ARENA(without_animals_there_is_composition),
      WITH_ARENA(all_complaints_come_at_once),
      WITH_ARENA(a_refusal_leaves_the_composition),
      WITH_ARENA(need_on_both_bases),
      WITH_ARENA(own_foods_join_the_library),
      WITH_ARENA(foods_by_pin_and_by_words),
  };
  return cmocka_run_group_tests(tests, open_image, close_image);
}
