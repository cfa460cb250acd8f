/* app_swap_test.c: a recipe text and a line in, foods for its place out. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "app/app_swap.h"
#include "base/num.h"
#include "near.h"
#include "tests/support/built_image.h"
#include "tests/support/fresh_arena.h"

static const char RECIPE[] = "Recipe: Bowl\n\n"
                             "300 g lamb shoulder, raw [usda:17039]\n"
                             "30 g lamb liver, raw [usda:17199]\n"
                             "1 tsp salmon oil [usda:04593]\n"
                             "3 g ground eggshell [ours:eggshell]\n"
                             "60 g lamb heart, raw weight, simmered [usda:17191]\n";

static struct animal dog; /* of 18 kg, anew with every request */

static struct app_swap_request request(const char *line) {
  dog = animal_plain(SPECIES_DOG, 18);
  return (struct app_swap_request){
      .check = {.recipe = {"bowl.recipe", SPAN_LIT(RECIPE)},
                .one_off = &dog,
                .ask = {.today = {2026, 11, 2}, .check = CHECK_OPTIONS_DEFAULT, .line = line, .most = 20}}};
}

static const struct swapped *run(const struct app_swap_request *q) {
  struct app_swap_answer out;
  app_swap(built_library(), q, &out, &arena);
  return out.swapped;
}

static void foods_are_of_the_same_role(void **state) {
  (void)state;
  struct app_swap_request q = request("lamb liver");
  const struct swapped *s = run(&q);
  assert_non_null(s);
  assert_int_equal(s->line, 1);
  assert_true(s->count > 5);
  for (size_t i = 0; i < s->count; i++) {
    assert_int_equal(library_food(built_library(), s->hit[i].food)->part, PART_ORGAN_LIVER);
    assert_true(s->hit[i].food != built_food("usda:17199"));
    if (i > 0 && s->hit[i - 1].near == s->hit[i].near) assert_true(s->hit[i - 1].score >= s->hit[i].score);
    if (i > 0) assert_true(s->hit[i].near <= s->hit[i - 1].near);
    assert_near(s->hit[i].kcal, 0, 0.5 * 9); /* as much energy, to half a gram: of fat, 9 kcal a gram */
  }
}

/* Raw blue mussel is on the lists of shellfish with thiaminase; cooked it is not (NRC 1982; data/food_flags.tsv). */
static void raw_fish_with_thiaminase_is_told(void **state) {
  (void)state;
  struct app_swap_request q = request("lamb shoulder");
  q.check.ask.any_part = true;
  q.check.ask.equal = EQUAL_MASS;
  q.check.ask.most = 2000;
  static const char PORTION[] = "900 g beef mince 90/10, raw\n30 g lamb shoulder, raw\n"; /* so much fish people feed */
  q.check.recipe.text = span_of(PORTION);
  const struct swapped *s = run(&q);
  bool mussel = false, haddock = false;
  for (size_t i = 0; i < s->count; i++) {
    if (s->hit[i].food == built_food("usda:15164")) mussel = s->hit[i].thiaminase;
    if (s->hit[i].food == built_food("usda:15033")) haddock = true, assert_false(s->hit[i].thiaminase);
    if (s->hit[i].food == built_food("usda:15165")) assert_false(s->hit[i].thiaminase);
  }
  assert_true(mussel && haddock);
}

/* Nobody in the trade sells hind quarter of caribou by that name; ground beef stands in data/names.tsv. */
static void everyday_foods_alone(void **state) {
  (void)state;
  bool caribou[2] = {false, false}, mince[2] = {false, false};
  size_t count[2];
  for (int everyday = 0; everyday < 2; everyday++) {
    struct app_swap_request q = request("lamb shoulder");
    q.check.ask.everyday = everyday;
    q.check.ask.equal = EQUAL_MASS;
    q.check.ask.most = 2000;
    const struct swapped *s = run(&q);
    count[everyday] = s->count;
    for (size_t i = 0; i < s->count; i++) {
      caribou[everyday] |= s->hit[i].food == built_food("usda:35162");
      mince[everyday] |= s->hit[i].food == built_food("usda:23572");
    }
  }
  assert_true(caribou[0] && mince[0] && mince[1]);
  assert_false(caribou[1]);
  assert_true(count[1] >= 20 && count[1] * 3 < count[0]);
}

/* No more of a food than people feed: the ceilings of data/portions.tsv, twice the line for what is of its class. */
static void nothing_beyond_its_ceiling(void **state) {
  (void)state;
  struct app_swap_request q = request("lamb shoulder");
  q.check.ask.any_part = true;
  q.check.ask.most = 2000;
  const struct swapped *s = run(&q);
  double line = s->ration->line[s->line].grams_fed, metabolic = s->before->body.metabolic_kg;
  size_t cuts = 0;
  assert_true(s->count > 20 && s->hit[0].near == SWAP_CLOSE);
  for (size_t i = 0; i < s->count; i++) {
    const struct img_food *f = library_food(built_library(), s->hit[i].food);
    if (f->part == PART_ORGAN_LIVER) fail_msg("a liver in the place of a main meat");
    if (f->part == PART_SHELLFISH) assert_true(s->hit[i].grams <= 6 * metabolic);
    if (f->part == PART_MUSCLE) assert_true(s->hit[i].grams <= fmax(25 * metabolic, 2 * line));
    cuts += s->hit[i].near == SWAP_CLOSE && f->kind == KIND_LAMB && f->part == PART_MUSCLE;
    if (s->hit[i].near == SWAP_CLOSE) assert_true(f->kind == KIND_LAMB);
    /* One cut once: USDA lists it by how far the butcher trimmed it and by grade. */
    for (size_t k = 0; k < i && s->hit[i].near == SWAP_CLOSE; k++) {
      const char *name = library_name(built_library(), s->hit[i].food),
                 *other = library_name(built_library(), s->hit[k].food), *cut = strstr(name, ", trimmed to");
      assert_false(cut && strncmp(name, other, (size_t)(cut + strlen(", trimmed to") - name)) == 0);
    }
  }
  assert_true(cuts > 0);
}

/* What most shops sell comes before what few do: of red meats and birds no emu, ostrich, kangaroo, elk, moose, bison or
 * walrus (data/food_flags.tsv) as long as anything common is left. Who feeds kangaroo is told of it. */
static void what_shops_sell_comes_first(void **state) {
  (void)state;
  static const char *const RARE[] = {"Emu", "Ostrich", "Kangaroo", "elk", "moose", "bison", "Walrus", "antelope", "Whale"};
  struct app_swap_request q = request("lamb shoulder");
  q.check.ask.most = 24;
  const struct swapped *s = run(&q);
  assert_int_equal(s->count, 24);
  for (size_t i = 0; i < s->count; i++)
    for (size_t k = 0; k < COUNT_OF(RARE); k++)
      if (strstr(library_name(built_library(), s->hit[i].food), RARE[k]))
        fail_msg("%s", library_name(built_library(), s->hit[i].food));
  assert_true(built_record("usda:05621")->flags & FOOD_RARE);
  assert_true(built_record("ours:kangaroo-loin")->flags & FOOD_RARE);
  assert_false(built_record("usda:17164")->flags & FOOD_RARE); /* venison */
}

/* What typing the food into the line gives is what was promised. */
static void a_hit_typed_into_the_recipe_does_as_said(void **state) {
  (void)state;
  static const char *const LINES[] = {"3", "4", "7"};
  static const char *const WRITTEN[] = {"raw", "raw", "simmered"};
  for (size_t k = 0; k < COUNT_OF(LINES); k++) {
    struct app_swap_request q = request(LINES[k]);
    q.check.ask.equal = k == 1 ? EQUAL_MASS : EQUAL_ENERGY;
    q.check.ask.most = 5;
    const struct swapped *s = run(&q);
    assert_true(s->count > 0);
    for (size_t i = 0; i < s->count; i++) {
      struct buf text;
      struct span rest = SPAN_LIT(RECIPE);
      buf_init(&text, &arena, 1 << 16);
      for (int line = 1; rest.n > 0; line++) {
        const char *end = memchr(rest.p, '\n', rest.n);
        size_t n = (size_t)(end - rest.p) + 1;
        if (line == s->ration->line[s->line].line) {
          num_sig(&text, s->hit[i].grams, 12);
          buf_addf(&text, " g, %s [%s]\n", WRITTEN[k], library_code(built_library(), s->hit[i].food));
        } else {
          buf_add(&text, span_cut(rest, 0, n));
        }
        rest = span_cut(rest, n, rest.n);
      }
      struct app_check_request again = q.check;
      struct app_check_answer c;
      again.recipe.text = buf_span(&text);
      app_check(built_library(), &again, &c, &arena);
      assert_non_null(c.result);
      for (int n = 0; n < NUT_COUNT; n++)
        assert_int_equal(c.result->nutrient[n].verdict, s->hit[i].after->nutrient[n].verdict);
    }
  }
}

/* Short, and of the new food nobody knows it: that is no repair, and it counts as no relief. The verdicts are those of the
 * judge (swap_test.c); here it is looked at what is made of them, in whole lists. */
static void what_is_unknown_is_no_help(void **state) {
  (void)state;
  size_t unknown = 0, repaired = 0;
  for (int line = 3; line <= 7; line++) {
    char number[2] = {(char)('0' + line), 0};
    struct app_swap_request q = request(number);
    q.check.ask.most = 300;
    q.check.ask.any_part = true;
    const struct swapped *s = run(&q);
    for (size_t i = 0; i < s->count; i++)
      for (int n = 0; n < NUT_COUNT; n++) {
        const struct nutrient_result *was = &s->before->nutrient[n], *is = &s->hit[i].after->nutrient[n];
        bool told = false;
        for (size_t k = 0; k < s->hit[i].repair_count; k++) told |= s->hit[i].repairs[k] == (enum nutrient)n;
        bool blank = (was->verdict == VERDICT_SHORT || was->verdict == VERDICT_THIN) && is->verdict == VERDICT_UNPROVEN;
        unknown += blank;
        repaired += told;
        if (blank) assert_false(told);
        if (told) assert_int_not_equal(is->verdict, VERDICT_UNPROVEN);
      }
  }
  assert_true(unknown > 0 && repaired > 0);
}

/* The line as it stands in the answer, put in place of the old one: the food, its state and its calendar are those promised,
 * the grams within the rounding to three digits. */
static void the_typed_line_reads_as_promised(void **state) {
  (void)state;
  static const char BATCH[] = "Recipe: Batch\nMakes: 4 days\nCook: simmered\n\n"
                              "1200 g lamb shoulder, raw weight [usda:17039]\n"
                              "2 large eggs, twice a week\n"
                              "- 80-120 g lamb liver, raw [usda:17199] # from the freezer\n";
  static const char *const LINES[] = {"5", "6", "7"};
  for (size_t k = 0; k < COUNT_OF(LINES); k++) {
    struct app_swap_request q = request(LINES[k]);
    q.check.recipe.text = SPAN_LIT(BATCH);
    q.check.ask.most = 8;
    const struct swapped *s = run(&q);
    assert_non_null(s);
    assert_true(s->count > 0);
    const struct ration_line *old = &s->ration->line[s->line];
    for (size_t i = 0; i < s->count; i++) {
      struct buf text;
      buf_init(&text, &arena, 1 << 16);
      buf_addf(&text, "Makes: 4 days\nCook: simmered\n\n%s\n", s->hit[i].text);
      struct app_check_request again = q.check;
      struct app_check_answer c;
      again.recipe.text = buf_span(&text);
      app_check(built_library(), &again, &c, &arena);
      assert_non_null(c.result);
      assert_int_equal(c.result->ration->line_count, 1);
      const struct ration_line *l = &c.result->ration->line[0];
      assert_int_equal(l->shown_food, s->hit[i].food);
      assert_near(l->grams_fed, s->hit[i].grams, 0.0051 * s->hit[i].grams);
      assert_near(l->times_per_28, old->times_per_28, 1e-9);
      const struct ration_line *promised = &s->hit[i].after->ration->line[s->line];
      assert_int_equal(l->state, promised->state);
      assert_int_equal(l->part_count, promised->part_count);
      assert_int_equal(l->part[0].food, promised->part[0].food);
      assert_int_equal(l->part[0].retention, promised->part[0].retention);
    }
  }
}

static void lines_without_energy_go_by_mass(void **state) {
  (void)state;
  struct app_swap_request q = request("eggshell");
  const struct swapped *s = run(&q);
  assert_non_null(s);
  assert_true(s->by_mass);
  for (size_t i = 0; i < s->count; i++) assert_near(s->hit[i].grams, 3, 1e-9);
}

static void prices_come_from_the_larder(void **state) {
  (void)state;
  struct app_swap_request q = request("lamb liver");
  q.larder = (struct app_input){
      "l", SPAN_LIT("chicken liver [usda:05027]  up to 50 g, 5 per kg\nlamb liver [usda:17199] 10 g, 4 per kg\n")};
  q.check.ask.equal = EQUAL_MASS;
  q.check.ask.most = 100;
  const struct swapped *s = run(&q);
  assert_near(s->cost, 0.12, 1e-9);
  bool seen = false;
  for (size_t i = 0; i < s->count; i++) {
    if (s->hit[i].food != built_food("usda:05027")) continue;
    assert_near(s->hit[i].cost, 0.15, 1e-9);
    seen = true;
  }
  assert_true(seen);
}

static void mistakes_are_named(void **state) {
  (void)state;
  struct app_swap_answer out;
  struct app_swap_request q = request("walrus");
  app_swap(built_library(), &q, &out, &arena);
  assert_null(out.swapped);
  assert_int_equal(out.line_diags.errors, 1);
  q.check.ask.line = "lamb"; /* three of them */
  app_swap(built_library(), &q, &out, &arena);
  assert_null(out.swapped);
  q.check.ask.line = "99";
  app_swap(built_library(), &q, &out, &arena);
  assert_null(out.swapped);
  q = request("lamb liver");
  q.check.one_off = NULL;
  app_swap(built_library(), &q, &out, &arena);
  assert_null(out.swapped);
  assert_int_equal(out.check.animal_diags.errors, 1);
  q = request("lamb liver");
  dog.nursing = true;
  app_swap(built_library(), &q, &out, &arena);
  assert_true(out.swapped->refused);
  assert_int_equal(out.swapped->count, 0);
}

/* A formulator's bowl: fat is 88 % of the energy, and what cures that comes before what repairs most other things. */
static void what_is_too_much_is_cured_first(void **state) {
  (void)state;
  struct animal a = animal_plain(SPECIES_DOG, 12);
  struct app_swap_request q = request("pork belly");
  struct app_swap_answer out;
  q.check.recipe.text = span_of("300 g pork belly, raw\n100 g lamb breast\n1 tbsp coconut oil\n50 g cheddar cheese\n");
  q.check.one_off = &a;
  q.check.for_name = NULL;
  q.check.ask.everyday = true;
  q.check.ask.most = 6;
  app_swap(built_library(), &q, &out, &arena);
  assert_non_null(out.swapped);
  assert_true(out.swapped->count == 6);
  double now = out.swapped->before->nutrient[NUT_FAT].amount;
  for (size_t i = 0; i < 6; i++) assert_true(out.swapped->hit[i].after->nutrient[NUT_FAT].amount < 0.65 * now);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      T(raw_fish_with_thiaminase_is_told), T(everyday_foods_alone),       T(what_shops_sell_comes_first),
      T(nothing_beyond_its_ceiling),       T(foods_are_of_the_same_role), T(a_hit_typed_into_the_recipe_does_as_said),
      T(the_typed_line_reads_as_promised), T(what_is_unknown_is_no_help), T(lines_without_energy_go_by_mass),
      T(prices_come_from_the_larder),      T(mistakes_are_named),
      T(what_is_too_much_is_cured_first),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
