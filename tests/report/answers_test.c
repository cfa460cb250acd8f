/* Whole answers drawn from what was computed, at two widths, against tests/golden/drawn-*.txt: texts go in, and every figure
 * of the drawing comes out of the judge. The library is made here, so that no change of data/ changes an expected text; its
 * figures are made up, its constants are those of data/constants.tsv.
 *
 * After a wanted change, BW_GOLDEN_WRITE=1 writes the texts anew; read the difference before it is kept. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "app/app_compose.h"
#include "app/app_mend.h"
#include "app/app_side.h"
#include "app/app_swap.h"
#include "explain/why.h"
#include "report/compose.h"
#include "report/mend.h"
#include "report/swap.h"
#include "tests/support/tiny_image.h"

static struct arena arena;
static const struct library *lib;

/* ---- the library ----------------------------------------------------------------------------------------------- */

struct made_up {
  const char *code;
  enum part part;
  double protein, fat, carbohydrate, water, calcium, phosphorus, zinc, copper, iodine, choline; /* NaN not known */
};

static void add_food(struct tiny *t, const struct made_up *m) {
  static const enum nutrient OF[] = {NUT_PROTEIN,    NUT_FAT,  NUT_CARBOHYDRATE, NUT_WATER,  NUT_CALCIUM,
                                     NUT_PHOSPHORUS, NUT_ZINC, NUT_COPPER,       NUT_IODINE, NUT_CHOLINE};
  uint32_t food = tiny_food(t, m->code, m->part, SPREAD_RED_MEAT);
  for (size_t i = 0; i < COUNT_OF(OF); i++) {
    double x = (&m->protein)[i];
    if (isnan(x)) {
      tiny_unknown(t, food, OF[i]);
    } else {
      tiny_value(t, food, OF[i], x, 0.1);
    }
  }
}

static const struct library *make_library(void) {
  const double none = NAN;
  static struct made_up food[8];
  food[0] = (struct made_up){"t:heart", PART_MUSCLE, 17, 9, 0, 72, 6, 180, 2, 0.4, 2, 100};
  food[1] = (struct made_up){"t:shank", PART_MUSCLE, 19, 12, 0, 68, 8, 170, 4, 0.1, none, none};
  food[2] = (struct made_up){"t:liver", PART_ORGAN_LIVER, 20, 5, 2, 71, 7, 360, 4.5, 7, 5, 300};
  food[3] = (struct made_up){"t:egg", PART_EGG, 12.5, 9.5, 1, 76, 56, 198, 1.3, 0.07, 50, 294};
  food[4] = (struct made_up){"t:millet", PART_GRAIN, 3.5, 1, 23, 71, 3, 100, 0.9, 0.16, 1, 12};
  food[5] = (struct made_up){"t:shell", PART_SUPPLEMENT, 0, 0, 0, 0, 38000, 80, 0, 0, 0, 0};
  food[6] = (struct made_up){"t:haddock", PART_FISH, 16, 0.5, 0, 83, 11, 227, 0.3, 0.02, 150, 65};
  food[7] = (struct made_up){"t:zinc", PART_SUPPLEMENT, 0, 0, 0, 0, 0, 0, 14000, 0, 0, 0};
  struct tiny *t = tiny_new(&arena);
  for (size_t i = 0; i < COUNT_OF(food); i++) add_food(t, &food[i]);
  tiny_class_high(t, SPREAD_RED_MEAT, NUT_IODINE, 10);
  tiny_class_high(t, SPREAD_RED_MEAT, NUT_CHOLINE, 120);
  static const struct {
    enum nutrient n;
    double allowance, upper;
  } NEED[] = {{NUT_PROTEIN, 3.28, NAN}, {NUT_FAT, 1.8, 10.8},   {NUT_CALCIUM, 130, NAN}, {NUT_PHOSPHORUS, 100, NAN},
              {NUT_ZINC, 2, NAN},       {NUT_COPPER, 0.2, 1.5}, {NUT_IODINE, 29.6, 300}, {NUT_CHOLINE, 56, NAN}};
  for (size_t i = 0; i < COUNT_OF(NEED); i++) {
    tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NEED[i].n, LEVEL_ALLOWANCE, PER_METABOLIC_KG, NEED[i].allowance, 95);
    if (!isnan(NEED[i].upper))
      tiny_allowance(t, STANDARD_NRC2006, SPECIES_DOG, NEED[i].n, LEVEL_UPPER, PER_METABOLIC_KG, NEED[i].upper, 95);
  }
  tiny_window(t, SPECIES_BOTH, NUT_COPPER, 14, false);
  tiny_energy(t, "adult dog", SPECIES_DOG, 0xff, 2, 95, 0.75);
  return tiny_open(t);
}

/* ---- texts in -------------------------------------------------------------------------------------------------- */

static const char ANIMALS[] = "Animal: Juniper\nSpecies: dog\nAge: 6 years\nWeight: 18 kg\n";
static const char RECIPE[] = "Recipe: Heart bowl\n\n"
                             "300 g heart, raw [t:heart]\n"
                             "150 g shank, raw, every other day [t:shank]\n"
                             "15 g liver, raw [t:liver]\n"
                             "120 g millet [t:millet]\n";
static const char OTHER[] = "Recipe: Egg bowl\n\n200 g heart, raw [t:heart]\n150 g egg, raw [t:egg]\n4 g shell [t:shell]\n";
static const char LARDER[] = "Larder: small\nFor: Juniper\n\n"
                             "heart [t:heart]     up to 400 g, 5.40 per kg\n"
                             "liver [t:liver]     5-25 g, 4.20 per kg\n"
                             "egg [t:egg]         up to 150 g, 6 per kg\n"
                             "millet [t:millet]   up to 200 g, 1.10 per kg\n"
                             "haddock [t:haddock] up to 200 g, 12 per kg\n"
                             "shell [t:shell]     up to 8 g, free\n"
                             "zinc [t:zinc]       up to 0.3 g, 400 per kg\n";

static struct app_check_request asks(const char *recipe) {
  return (struct app_check_request){
      .recipe = {"bowl.recipe", span_of(recipe)},
      .animals = {"household.animals", SPAN_LIT(ANIMALS)},
      .ask = {.today = {2026, 11, 2}, .check = CHECK_OPTIONS_DEFAULT, .most = 5, .proposals = 1}};
}

static const struct check_result *checked(const char *recipe) {
  struct app_check_request q = asks(recipe);
  struct app_check_answer out;
  app_check(lib, &q, &out, &arena);
  for (size_t i = 0; i < out.recipe_diags.count; i++) print_error("%s\n", out.recipe_diags.item[i].message);
  assert_non_null(out.result);
  return out.result;
}

/* ---- drawings out ---------------------------------------------------------------------------------------------- */

static const struct {
  const char *name;
  struct report_style style;
} WIDTH[] = {{"100", {100, false, true, true}}, {"60", {60, false, false, false}}};

static void golden(const char *verb, const char *width, struct buf *out) {
  static char kept[1 << 20];
  char path[1024];
  snprintf(path, sizeof path, "%s/tests/golden/drawn-%s-%s.txt", BW_SOURCE_DIR, verb, width);
  FILE *f = fopen(path, getenv("BW_GOLDEN_WRITE") ? "wb" : "rb");
  if (!f) fail_msg("no %s", path);
  size_t n = 0;
  if (getenv("BW_GOLDEN_WRITE")) {
    fwrite(out->p, 1, out->n, f);
    fclose(f);
    return;
  }
  n = fread(kept, 1, sizeof kept - 1, f);
  fclose(f);
  kept[n] = '\0';
  if (strcmp(kept, buf_text(out)) == 0) return;
  fprintf(stderr, "---- %s at %s is drawn as ----\n%s", verb, width, buf_text(out));
  fail_msg("%s differs", path);
}

#define DRAWN(verb, call)                                                                                                   \
  for (size_t i = 0; i < COUNT_OF(WIDTH); i++) {                                                                            \
    const struct report_style *style = &WIDTH[i].style;                                                                     \
    struct buf out;                                                                                                         \
    buf_init(&out, &arena, (size_t)1 << 22);                                                                                \
    call;                                                                                                                   \
    golden(verb, WIDTH[i].name, &out);                                                                                      \
  }

static void judged(void **state) {
  (void)state;
  DRAWN("check", report_check(lib, checked(RECIPE), style, &out))
}

static void why(void **state) {
  (void)state;
  const struct check_result *r = checked(RECIPE);
  const struct why_key keys[] = {{NUT_COPPER, BALANCE_COUNT}, {NUT_IODINE, BALANCE_COUNT}, {NUT_NONE, BALANCE_CA_P}};
  struct asked asked = {.why = why_of(lib, r, keys, COUNT_OF(keys), &arena), .why_count = COUNT_OF(keys)};
  DRAWN("why", report_why(lib, r, &asked, style, &out))
}

static void side(void **state) {
  (void)state;
  const struct app_input input[] = {{"heart.recipe", SPAN_LIT(RECIPE)}, {"egg.recipe", SPAN_LIT(OTHER)}};
  struct app_side_request q = {.check = asks(""), .kind = SIDE_RECIPES, .input = input, .count = 2, .per = SIDE_PER_DAY};
  struct app_side_answer a;
  app_side(lib, &q, &a, &arena);
  assert_non_null(a.side);
  DRAWN("side", report_side(lib, a.side, NULL, style, &out))
}

static void swap(void **state) {
  (void)state;
  struct app_swap_request q = {.check = asks(RECIPE)};
  q.check.ask.line = "shank";
  q.check.ask.any_part = true;
  struct app_swap_answer a;
  app_swap(lib, &q, &a, &arena);
  assert_non_null(a.swapped);
  DRAWN("swap", report_swap(lib, a.swapped, style, &out))
}

static void mended(void **state) {
  (void)state;
  struct app_mend_request q = {.check = asks(RECIPE), .larder = {"small.larder", SPAN_LIT(LARDER)}};
  struct app_mend_answer a;
  app_mend(lib, &q, &a, &arena);
  assert_true(a.understood && a.answer.count > 0);
  DRAWN("mend", report_mend(lib, &a.answer, style, &out))
}

static void composed(void **state) {
  (void)state;
  struct app_compose_request q = {.larder = {"small.larder", SPAN_LIT(LARDER)}, .check = asks("")};
  struct app_compose_answer a;
  app_compose(lib, &q, &a, &arena);
  assert_true(a.understood && a.answer.found);
  DRAWN("compose", report_compose(lib, &a.answer, style, &out))
}

static int start(void **state) {
  (void)state;
  arena_init(&arena, NULL);
  lib = make_library();
  return 0;
}
static int stop(void **state) {
  (void)state;
  arena_free(&arena);
  return 0;
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(judged), cmocka_unit_test(why),    cmocka_unit_test(side),
                                     cmocka_unit_test(swap),   cmocka_unit_test(mended), cmocka_unit_test(composed)};
  return cmocka_run_group_tests(tests, start, stop);
}
