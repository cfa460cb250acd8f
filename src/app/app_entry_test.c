/* app_entry_test.c: a line for the journal while it is written: what may come next, and what would be added. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

#include "app/app_entry.h"
#include "tests/support/built_image.h"

static const char ANIMALS[] = "Animal: Juniper\nSpecies: dog\nAge: 6 years\nWeight: 18 kg\n\n"
                              "Animal: Pim\nSpecies: cat\nAge: 4 years\nWeight: 4.6 kg\n";
static const char JOURNAL[] = "2026-11-02 Juniper weighs 18.2 kg\n"
                              "2026-11-02 Juniper ate 430 g Weeknight bowl; 1 can sardines in water, drained\n"
                              "2026-11-03 Pim ate 125 g Plate\n"
                              "this line is not understood\n";
static const struct app_input RECIPE[] = {{"Weeknight bowl", SPAN_LIT("Recipe: Weeknight bowl\n300 g lamb heart, raw\n")}};

static const struct app_entry_answer *of(const char *line, struct arena *a) {
  struct app_entry_answer *out = ARENA_NEW(a, struct app_entry_answer, 1);
  const struct app_check_request q = {.animals = {"animals", SPAN_LIT(ANIMALS)},
                                      .ask = {.today = {2026, 11, 28}, .check = CHECK_OPTIONS_DEFAULT}};
  const struct app_journal j = {{"journal", SPAN_LIT(JOURNAL)}, RECIPE, 1, 0};
  app_entry(built_library(), &q, &j, span_of(line), out, a);
  return out;
}

static bool offers(const struct app_entry_answer *e, const char *write) {
  for (size_t i = 0; i < e->offers; i++)
    if (strcmp(e->offer[i].write, write) == 0) return true;
  return false;
}

static void names_then_facts_then_figures(void **state) {
  (void)state;
  struct arena a;
  arena_init(&a, NULL);
  assert_true(offers(of("", &a), "Juniper ") && offers(of("", &a), "Pim "));
  assert_true(offers(of("ju", &a), "Juniper ") && !offers(of("ju", &a), "Pim "));
  assert_true(offers(of("2026-11-27 p", &a), "2026-11-27 Pim "));
  assert_true(offers(of("Juniper ", &a), "Juniper ate ") && offers(of("Juniper w", &a), "Juniper weighs "));
  assert_false(offers(of("Juniper w", &a), "Juniper ate "));
  assert_true(offers(of("Juniper weighs ", &a), "Juniper weighs 18.2 kg"));
  assert_int_equal(of("Pim weighs ", &a)->offers, 0); /* never weighed: nothing is made up */
  assert_true(offers(of("Juniper weighs 18", &a), "Juniper weighs 18 kg"));
  assert_true(offers(of("Juniper left ", &a), "Juniper left a quarter"));
  assert_true(offers(of("Juniper left 60", &a), "Juniper left 60 g"));
  arena_free(&a);
}

static void meals_offer_what_was_eaten_recipes_and_foods(void **state) {
  (void)state;
  struct arena a;
  arena_init(&a, NULL);
  assert_true(offers(of("Juniper ate ", &a), "Juniper ate 430 g Weeknight bowl"));
  assert_true(offers(of("Juniper ate 4", &a), "Juniper ate 430 g Weeknight bowl"));
  assert_true(offers(of("Juniper ate 400 g week", &a), "Juniper ate 400 g Weeknight bowl"));
  assert_true(offers(of("Juniper ate 400 g Weeknight bowl; sard", &a),
                     "Juniper ate 400 g Weeknight bowl; 1 can sardines in water, drained"));
  const struct app_entry_answer *e = of("Pim ate 40 g lamb liv", &a);
  assert_true(e->offers > 0);
  assert_non_null(strstr(e->offer[0].write, "lamb liver"));
  arena_free(&a);
}

static void a_line_that_is_understood_has_its_day(void **state) {
  (void)state;
  struct arena a;
  arena_init(&a, NULL);
  assert_string_equal(of("Pim weighs 4.6 kg", &a)->line, "2026-11-28 Pim weighs 4.6 kg");
  assert_string_equal(of("yesterday Pim weighs 4.6 kg", &a)->line, "2026-11-27 Pim weighs 4.6 kg");
  assert_string_equal(of("2026-11-01 Pim left 20 g", &a)->line, "2026-11-01 Pim left 20 g");
  assert_null(of("Pim weighs", &a)->line);
  assert_null(of("Pim weighs 4.6", &a)->line); /* in which unit? */
  const struct app_entry_answer *e = of("Rex weighs 4.6 kg", &a);
  assert_null(e->line);
  assert_true(e->diags.errors == 1 && e->diags.item[0].line == 1 && e->diags.item[0].column == 1);
  e = of("Junipr weighs 4.6 kg", &a); /* what may be typed instead has its place in the line as it was typed */
  assert_true(e->diags.count == 1 && e->diags.item[0].fixes == 1 && e->diags.item[0].fix[0].column == 1);
  e = of(" yesterday  Junipr weighs 4.6 kg", &a);
  assert_true(e->diags.count == 1 && e->diags.item[0].fixes == 1 && e->diags.item[0].fix[0].column == 13);
  e = of("29.10.2026 Pim weighs 4.6 kg", &a); /* not a name behind today's day */
  assert_null(e->line);
  assert_true(e->diags.count == 1 && e->diags.item[0].fixes == 1 && e->diags.item[0].fix[0].width == 10);
  assert_string_equal(e->diags.item[0].fix[0].write, "2026-10-29");
  e = of("3/4/2026 Pim weighs 4.6 kg", &a);
  assert_true(e->diags.count == 1 && e->diags.item[0].fixes == 2);
  assert_int_equal(of("today", &a)->offers, 0); /* no name grows onto the day */
  assert_true(offers(of("today ", &a), "today Pim ") && offers(of("29.10.2026 ", &a), "29.10.2026 Pim "));
  e = of("Juniper weighs 182 kg", &a); /* a point left out: asked about, and taken */
  assert_non_null(e->line);
  assert_true(e->diags.errors == 0 && e->diags.count > 0);
  arena_free(&a);
}

/* What is not understood stays in the text, and the others are told, newest first. */
static void the_journal_is_listed(void **state) {
  (void)state;
  struct arena a;
  struct app_journal_answer out;
  arena_init(&a, NULL);
  const struct app_check_request q = {.animals = {"animals", SPAN_LIT(ANIMALS)},
                                      .ask = {.today = {2026, 11, 28}, .check = CHECK_OPTIONS_DEFAULT}};
  app_journal_read(&q, &(struct app_input){"journal", SPAN_LIT(JOURNAL)}, 0, &out, &a);
  assert_int_equal(out.count, 3);
  assert_string_equal(out.fact[0].animal, "Pim");
  assert_string_equal(out.fact[1].says, "weighs 18.2 kg");
  assert_int_equal(out.diags.errors, 1);
  assert_int_equal(out.diags.item[0].line, 4);
  assert_true(out.animal[0].eats && out.animal[0].last_ate == date_days((struct date){2026, 11, 2}));
  app_journal_read(&q, &(struct app_input){"journal", SPAN_LIT(JOURNAL)}, 1, &out, &a); /* a first look at one day */
  assert_true(out.journal->in_part && out.count == 1 && out.journal->name_count == 2);
  assert_string_equal(out.fact[0].says, "ate 125 g Plate");
  assert_true(!out.animal[0].eats && out.animal[1].eats);
  arena_free(&a);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(names_then_facts_then_figures), cmocka_unit_test(meals_offer_what_was_eaten_recipes_and_foods),
      cmocka_unit_test(a_line_that_is_understood_has_its_day), cmocka_unit_test(the_journal_is_listed)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
