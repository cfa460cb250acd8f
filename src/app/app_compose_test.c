/* app_compose_test.c: larder text in, recipe text out; the text is then checked like any other. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "app/app_compose.h"
#include "base/num.h"
#include "tests/support/built_image.h"
#include "json/json.h"

static const char ANIMALS[] = "Animal: Juniper\nSpecies: dog\nAge: 6 years\nWeight: 18 kg\n\n"
                              "Animal: Pim\nSpecies: cat\nAge: 4 years\nWeight: 4.6 kg\n\n"
                              "Animal: Button\nSpecies: dog\nAge: 5 months\nWeight: 6 kg\n";

static const char FOODS[] = "lamb heart, raw [usda:17191]              up to 200 g, 5.40 per kg\n"
                            "lamb liver, raw [usda:17199]              10-25 g, 4.20 per kg\n"
                            "chicken thighs, skin on, raw [usda:05091] up to 250 g, 4.60 per kg\n"
                            "large egg [usda:01123]                    0-1 a day, whole, 0.35 each\n"
                            "mackerel, canned, drained [usda:15048]    at most twice a week, 110 g a time, 1.30 per 110 g\n"
                            "canned sardine [usda:15088]               up to 60 g, 11 per kg\n"
                            "haddock, raw [usda:15033]                 up to 150 g, 12 per kg\n"
                            "cooked millet [usda:20032]                at least 30 g if used, up to 150 g, 1.10 per kg\n"
                            "spinach, raw [usda:11457]                 up to 60 g, 6 per kg\n"
                            "wheat germ [usda:20078]                   up to 20 g, 7 per kg\n"
                            "hemp seed [usda:12012]                    up to 15 g, 16 per kg\n"
                            "ground eggshell [ours:eggshell]           up to 8 g, free\n"
                            "natural vitamin E [ours:vitamin-e-natural]   up to 0.3 g, 900 per kg\n"
                            "zinc picolinate [ours:zinc-picolinate]    up to 0.2 g, 400 per kg\n"
                            "choline bitartrate [ours:choline-bitartrate] up to 3 g, 60 per kg\n"
                            "raw Eastern oyster [usda:15167]           up to 30 g, 18 per kg\n";

static const char *larder_text(const char *head, const char *foods, const char *tail, struct arena *a) {
  struct buf b;
  buf_init(&b, a, 1 << 16);
  buf_addf(&b, "%s%s%s", head, foods, tail);
  return buf_text(&b);
}

static struct app_compose_request request(const char *text) {
  return (struct app_compose_request){.larder = {"test.larder", span_of(text)},
                                      .check = {.animals = {"test.animals", SPAN_LIT(ANIMALS)},
                                                .ask = {.today = {2026, 11, 2}, .check = CHECK_OPTIONS_DEFAULT}}};
}

static void verdicts_are_met(const struct check_result *r) {
  assert_non_null(r);
  for (int i = 0; i < NUT_COUNT; i++)
    assert_true(r->nutrient[i].verdict == VERDICT_MET || r->nutrient[i].verdict == VERDICT_NO_FIGURE);
}

/* The text goes through the reader, as a person's would. */
static void passes_check(const char *text, const struct animal *animal, struct arena *a) {
  struct app_check_request q = {
      .recipe = {"composed", span_of(text)}, .one_off = animal, .ask.check = CHECK_OPTIONS_DEFAULT};
  struct app_check_answer c;
  app_check(built_library(), &q, &c, a);
  assert_int_equal(c.recipe_diags.errors, 0);
  verdicts_are_met(c.result);
}

static void found_text_passes_check(void **state) {
  (void)state;
  static const char *const AIMS[] = {"cheapest", "lightest", "leanest", "nearest to 80:10:5:5"};
  for (size_t i = 0; i < COUNT_OF(AIMS); i++) {
    struct arena a;
    struct app_compose_answer out;
    arena_init(&a, NULL);
    struct app_compose_request q = request(larder_text("Larder: freezer\nFor: Juniper\n", FOODS,
                                                       "Limits: fat at most 60 % of energy; food at most 700 g\n", &a));
    q.check.ask.aim = AIMS[i];
    app_compose(built_library(), &q, &out, &a);
    assert_true(out.understood);
    assert_int_equal(out.answer.result->status, COMPOSE_FOUND);
    const struct composed *c = out.answer.found;
    assert_true(c->bowl[0].kept);
    passes_check(c->bowl[0].text, &out.answer.request->animal[0], &a);
    assert_true(c->bowl[0].after->energy.share_fat <= 0.6);
    assert_true(c->bowl[0].after->energy.grams_per_day <= 700);
    assert_string_equal(out.answer.aim, AIMS[i]);
    arena_free(&a);
  }
}

/* "up to 60 g" -> "up to 180 g", "10-25 g" -> "10-75 g": for three times as many mouths. */
static const char *tripled(const char *foods, struct arena *a) {
  struct buf b;
  buf_init(&b, a, 1 << 16);
  for (const char *p = foods; *p; p++) {
    bool range = p > foods && (p[-1] == '-' || p[-1] == ' ') && p[0] >= '0' && p[0] <= '9';
    const char *end = p;
    while (range && ((*end >= '0' && *end <= '9') || *end == '.')) end++;
    double x = 0;
    if (!range || strncmp(end, " g", 2) != 0 || num_read((struct span){p, (size_t)(end - p)}, &x) == 0) {
      buf_addc(&b, *p);
      continue;
    }
    num_sig(&b, 3 * x, 6);
    p = end - 1;
  }
  return buf_text(&b);
}

/* Each aim is best by its own count. */
static void aims_are_kept(void **state) {
  (void)state;
  struct arena a;
  struct app_compose_answer out[3];
  static const char *const AIMS[] = {"cheapest", "lightest", "leanest"};
  arena_init(&a, NULL);
  const char *text = larder_text("For: Juniper\n", FOODS, "", &a);
  for (int i = 0; i < 3; i++) {
    struct app_compose_request q = request(text);
    q.check.ask.aim = AIMS[i];
    app_compose(built_library(), &q, &out[i], &a);
    assert_non_null(out[i].answer.found);
  }
  for (int i = 0; i < 3; i++) {
    const struct compose_dish *d = out[i].answer.found->dish;
    assert_true(out[0].answer.found->dish->cost <= d->cost * 1.02); /* rounding moves a little */
    assert_true(out[1].answer.found->dish->grams <= d->grams * 1.02);
    assert_true(out[2].answer.found->bowl[0].after->nutrient[NUT_FAT].amount <=
                out[i].answer.found->bowl[0].after->nutrient[NUT_FAT].amount * 1.02);
  }
  arena_free(&a);
}

static void a_household_gets_a_text_for_each(void **state) {
  (void)state;
  struct arena a;
  struct app_compose_answer out;
  arena_init(&a, NULL);
  struct app_compose_request q = request(larder_text("For: Juniper and Pim\n", tripled(FOODS, &a), "", &a));
  app_compose(built_library(), &q, &out, &a);
  assert_true(out.understood);
  assert_int_equal(out.answer.request->animals, 2);
  assert_non_null(out.answer.found);
  for (int i = 0; i < 2; i++) {
    assert_true(out.answer.found->bowl[i].kept);
    passes_check(out.answer.found->bowl[i].text, &out.answer.request->animal[i], &a);
  }
  assert_true(out.answer.found->base[0] != '\0');
  arena_free(&a);
}

/* The oil goes on top for Juniper alone; what stands first in the larder and what last changes nothing. */
static void a_food_in_a_topper_alone_is_used(void **state) {
  (void)state;
  static const char OIL[] = "cod liver oil [usda:04589]   at most 5 times a week, 0.2-3 g a time\n";
  static const char REST[] = "raw Eastern oyster [usda:15167]  up to 60 g\n"
                             "lamb heart, raw [usda:17191]              up to 200 g\n"
                             "lamb liver, raw [usda:17199]              10-25 g\n"
                             "chicken thighs, skin on, raw [usda:05091] up to 350 g\n"
                             "large egg [usda:01123]                    0-1 a day, whole\n"
                             "mackerel, canned, drained [usda:15048]    twice a week, 110 g a time\n"
                             "haddock, raw [usda:15033]                 up to 250 g\n"
                             "cooked millet [usda:20032]                at least 30 g if used, up to 150 g\n"
                             "spinach, raw [usda:11457]                 up to 60 g\n"
                             "wheat germ [usda:20078]                   up to 20 g\n"
                             "hemp seed [usda:12012]                    up to 15 g\n"
                             "ground eggshell [ours:eggshell]           up to 8 g\n"
                             "iodised salt [ours:salt-iodised]          up to 8 g\n"
                             "natural vitamin E [ours:vitamin-e-natural]   up to 0.3 g\n"
                             "zinc picolinate [ours:zinc-picolinate]    up to 0.2 g\n"
                             "choline bitartrate [ours:choline-bitartrate] up to 3 g\n"
                             "canned sardine [usda:15088]   up to 20 g\n";
  struct arena a;
  struct app_compose_answer first, last;
  arena_init(&a, NULL);
  struct app_compose_request q = request(larder_text("For: Juniper and Pim\nAim: lightest\n", OIL, REST, &a));
  app_compose(built_library(), &q, &first, &a);
  q = request(larder_text("For: Juniper and Pim\nAim: lightest\n", REST, OIL, &a));
  app_compose(built_library(), &q, &last, &a);
  assert_non_null(first.answer.found);
  assert_non_null(last.answer.found);
  assert_null(strstr(last.answer.found->base, "cod liver oil"));
  assert_non_null(strstr(last.answer.found->bowl[0].topper, "cod liver oil"));
  double x = first.answer.result->objective, y = last.answer.result->objective;
  assert_true(fabs(x - y) <= 1e-6 * y);
  arena_free(&a);
}

static struct span example(const char *name, struct arena *a) {
  struct buf path;
  char *text = arena_alloc(a, 1 << 16, 1);
  buf_init(&path, a, 1000);
  buf_addf(&path, "%s/examples/%s", BW_SOURCE_DIR, name);
  FILE *f = fopen(buf_text(&path), "rb");
  assert_non_null(f);
  size_t n = fread(text, 1, (1 << 16) - 100, f);
  fclose(f);
  return (struct span){text, n};
}

/* "At most so many foods": what is in the base and on top of it as well is one food. The household of the examples. */
static void a_food_in_base_and_topper_counts_once(void **state) {
  (void)state;
  enum { MOST = 12 };
  struct arena a;
  struct app_compose_answer out;
  struct buf text;
  arena_init(&a, NULL);
  buf_init(&text, &a, 1 << 16);
  buf_add(&text, example("household.larder", &a));
  buf_addf(&text, "\nLimits: at most %d foods\n", MOST);
  struct app_compose_request q = request(buf_text(&text));
  q.check.animals = (struct app_input){"saltmarsh.animals", example("saltmarsh.animals", &a)};
  app_compose(built_library(), &q, &out, &a);
  assert_true(out.understood);
  assert_non_null(out.answer.found);
  const struct compose_dish *d = out.answer.result->dish;
  int foods = 0, columns = 0;
  for (size_t i = 0; i < out.answer.result->candidates; i++) { /* at most one number of feedings of a food is used */
    int here = d->base[i] > 0;
    for (size_t k = 0; k < out.answer.request->animals; k++) here += d->bowl[k].topper[i] > 0;
    foods += here > 0;
    columns += here;
  }
  assert_true(foods <= MOST);
  assert_true(columns > MOST); /* counted twice it would have been too much */
  arena_free(&a);
}

/* The nearest keeps whole pieces and the number of foods where these are in the way, and what would help is tried with them.
 */
static void the_nearest_counts_as_well(void **state) {
  (void)state;
  struct arena a;
  struct app_compose_answer out;
  arena_init(&a, NULL);
  struct app_compose_request q = request(larder_text("For: Juniper\n", FOODS, "Limits: at most 8 foods\n", &a));
  app_compose(built_library(), &q, &out, &a);
  const struct compose_result *r = out.answer.result;
  assert_int_equal(r->status, COMPOSE_NONE);
  assert_true(r->conflict.by_counting);
  assert_true(r->nearest_counted);
  int used = 0;
  for (size_t i = 0; i < r->candidates; i++) {
    double g = r->nearest->base[i];
    used += g > 0;
    if (r->food_of[i] == 3) assert_true(fabs(g - 50 * round(g / 50)) < 1e-6); /* eggs */
    if (r->food_of[i] == 7) assert_true(g == 0 || g >= 30 - 1e-6);            /* at least 30 g of millet if used */
  }
  assert_true(used <= 8);
  for (size_t i = 0; i < r->help.count && i < 2; i++) { /* what is said to be enough is enough, as one of eight foods */
    struct buf more;
    if (!r->help.help[i].enough) continue;
    buf_init(&more, &a, 1 << 16);
    buf_addf(&more, "%s[%s]   up to ", FOODS, library_code(built_library(), r->help.help[i].food));
    num_sig(&more, r->help.help[i].grams * 1.001, 8);
    buf_adds(&more, " g\n");
    struct app_compose_answer with;
    q = request(larder_text("For: Juniper\n", buf_text(&more), "Limits: at most 8 foods\n", &a));
    app_compose(built_library(), &q, &with, &a);
    assert_true(with.understood);
    assert_non_null(with.answer.found);
  }
  arena_free(&a);
}

/* Nothing but muscle meat: hardly any iodine in it (USDA does not analyse it; the value is a class estimate). */
static void none_is_explained(void **state) {
  (void)state;
  struct arena a;
  struct app_compose_answer out;
  arena_init(&a, NULL);
  struct app_compose_request q = request("For: Juniper\nlamb heart, raw [usda:17191]  up to 600 g\n"
                                         "chicken thighs, raw [usda:05091]  up to 300 g\nLimits: food at most 500 g\n");
  app_compose(built_library(), &q, &out, &a);
  const struct compose_result *r = out.answer.result;
  assert_int_equal(r->status, COMPOSE_NONE);
  assert_null(out.answer.found);
  assert_non_null(strstr(r->conflict.sentence, "needs at least"));
  assert_non_null(out.answer.nearest);
  assert_true(r->help.count > 0);
  bool wanting = false;
  for (int i = 0; i < NUT_COUNT; i++) wanting |= out.answer.nearest->bowl[0].after->nutrient[i].verdict == VERDICT_SHORT;
  assert_true(wanting);
  arena_free(&a);
}

static void refused_and_misunderstood(void **state) {
  (void)state;
  struct arena a;
  struct app_compose_answer out;
  arena_init(&a, NULL);
  struct app_compose_request q = request(larder_text("For: Button\n", FOODS, "", &a));
  app_compose(built_library(), &q, &out, &a);
  assert_true(out.understood);
  assert_int_equal(out.answer.result->status, COMPOSE_REFUSED);
  assert_null(out.answer.found);
  assert_null(out.answer.nearest);

  q = request(larder_text("For: Nobody\n", FOODS, "", &a));
  app_compose(built_library(), &q, &out, &a);
  assert_false(out.understood);
  assert_int_equal(out.animal_diags.errors, 1);

  q = request(larder_text("", FOODS, "", &a)); /* three animals, none named */
  app_compose(built_library(), &q, &out, &a);
  assert_false(out.understood);

  q = request(larder_text("For: Pim\n", "lamb heart [usda:17191]  up to 200 g\n", "", &a));
  q.check.ask.aim = "cheapest"; /* without a price */
  app_compose(built_library(), &q, &out, &a);
  assert_false(out.understood);
  assert_int_equal(out.larder_diags.errors, 1);

  q.check.ask.aim = "fastest";
  app_compose(built_library(), &q, &out, &a);
  assert_false(out.understood);
  assert_int_equal(out.aim_diags.errors, 1);
  arena_free(&a);
}

/* A food fed now and then that is not used must not shift the days of the next one. */
static void days_are_those_of_the_text(void **state) {
  (void)state;
  struct arena a;
  struct app_compose_answer out;
  arena_init(&a, NULL);
  struct app_compose_request q = request(larder_text(
      "For: Juniper\nAim: cheapest\ncod liver oil [usda:04589]   at most twice a week, 5 g a time, 5000 per kg\n", FOODS,
      "Limits: EPA + DHA at least 0.5 g\n", &a));
  app_compose(built_library(), &q, &out, &a);
  assert_true(out.understood);
  assert_non_null(out.answer.found);
  assert_true(out.answer.found->bowl[0].kept);
  const struct ration *written = out.answer.found->bowl[0].after->ration, *meant = out.answer.found->dish->bowl[0].ration;
  assert_int_equal(written->line_count, meant->line_count);
  for (size_t i = 0; i < meant->line_count; i++)
    assert_memory_equal(written->line[i].fed_on, meant->line[i].fed_on, sizeof meant->line[i].fed_on);
  arena_free(&a);
}

static void json_is_one_object(void **state) {
  (void)state;
  struct arena a;
  struct app_compose_answer out;
  struct buf b;
  arena_init(&a, NULL);
  struct app_compose_request q = request(larder_text("For: Juniper\n", FOODS, "", &a));
  app_compose(built_library(), &q, &out, &a);
  buf_init(&b, &a, 1 << 20);
  json_compose(built_library(), &out, &b);
  assert_non_null(strstr(buf_text(&b), "\"status\":\"found\""));
  assert_non_null(strstr(buf_text(&b), "\"text\":\"Recipe: Composed\\nFor: Juniper"));
  assert_non_null(strstr(buf_text(&b), "\"refused\":null}"));
  arena_free(&a);
}

/* A larder without vitamins D and E, iodine or enough fish: its own range in its own words, and what people use for each. */
static const char WITHOUT_D[] = "Larder: Shelf\nFor: Juniper\n\n"
                                "beef mince 90/10, raw   100 to 500 g\n"
                                "chicken liver, raw   at most 40 g\n"
                                "cooked white rice   at most 200 g\n"
                                "ground eggshell   at most 6 g\n"
                                "sardines in oil, canned, drained   at most twice a week, 60 g a time, 9 per kg\n"
                                "hemp seed, hulled [usda:12012]   at most 20 g\n"
                                "zinc gluconate   at most 100 mg\n"
                                "iodised salt   at most 2 g\n";

static void the_obvious_would_help(void **state) {
  (void)state;
  struct arena a;
  arena_init(&a, NULL);
  struct app_compose_request q = request(WITHOUT_D);
  struct app_compose_answer out;
  app_compose(built_library(), &q, &out, &a);
  const struct compose_result *r = out.answer.result;
  assert_int_equal(r->status, COMPOSE_NONE);
  bool own_words = false, vitamin_d = false;
  for (size_t i = 0; i < r->conflict.count; i++)
    own_words |= strcmp(r->conflict.words[i], "sardines in oil: at most twice a week, 60 g a time") == 0;
  assert_true(own_words);
  assert_true(r->help.count > 0 && r->help.team.enough);
  for (size_t i = 0; i < r->help.team.count; i++) vitamin_d |= r->help.team.food[i].food == built_food("ours:vitamin-d3");
  assert_true(vitamin_d);
  for (size_t i = 0; i < r->help.count; i++) {
    const struct img_food *f = library_food(built_library(), r->help.help[i].food);
    assert_false(f->part == PART_SHELLFISH && f->state == STATE_RAW);
    assert_true(r->help.help[i].obvious &&
                r->help.help[i].grams <= 220); /* data/portions.tsv: 25 g x 18^0.75 of a main meat */
  }
  assert_true(isnan(r->nearest->cost)); /* most of it has no price */
  arena_free(&a);
}

/* Tenths of a gram below 5 g, whole ones above. */
static void lines_can_be_weighed(const char *text, int *weighed) {
  for (const char *at = text; at; at = strchr(at, '\n') ? strchr(at, '\n') + 1 : NULL) {
    char *unit;
    double grams = strtod(at, &unit);
    if (unit == at || strncmp(unit, " g ", 3) != 0) continue;
    if (fabs(grams * (grams >= 5 ? 1 : 10) - round(grams * (grams >= 5 ? 1 : 10))) > 1e-9) fail_msg("%.40s", at);
    ++*weighed;
  }
}

/* Two animals share what was meant for one: their parts of the base are shown as they can be weighed, and what is in the way
 * is told as the larder has it. */
static void a_household_without_a_recipe(void **state) {
  (void)state;
  struct arena a;
  struct app_compose_answer out;
  arena_init(&a, NULL);
  struct app_compose_request q = request(larder_text("For: Juniper and Pim\n", FOODS, "", &a));
  app_compose(built_library(), &q, &out, &a);
  const struct compose_result *r = out.answer.result;
  assert_int_equal(r->status, COMPOSE_NONE);
  assert_non_null(out.answer.nearest);
  int weighed = 0, own_words = 0;
  for (int i = 0; i < 2; i++) lines_can_be_weighed(out.answer.nearest->bowl[i].text, &weighed);
  assert_true(weighed >= 8);
  for (size_t i = 0; i < r->conflict.count; i++) {
    assert_null(strstr(r->conflict.words[i], "the larder's range"));
    own_words += strstr(r->conflict.words[i], ": up to ") != NULL;
  }
  assert_true(own_words > 0);
  arena_free(&a);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_household_without_a_recipe),
      cmocka_unit_test(the_obvious_would_help),
      cmocka_unit_test(found_text_passes_check),
      cmocka_unit_test(aims_are_kept),
      cmocka_unit_test(a_household_gets_a_text_for_each),
      cmocka_unit_test(a_food_in_a_topper_alone_is_used),
      cmocka_unit_test(a_food_in_base_and_topper_counts_once),
      cmocka_unit_test(the_nearest_counts_as_well),
      cmocka_unit_test(none_is_explained),
      cmocka_unit_test(refused_and_misunderstood),
      cmocka_unit_test(days_are_those_of_the_text),
      cmocka_unit_test(json_is_one_object),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
