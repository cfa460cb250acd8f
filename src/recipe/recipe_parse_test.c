/* Limits and places; what words mean is held by tests/cases. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

#include "recipe/recipe_text.h"
#include "tests/support/near.h"

static struct diags d;
static struct recipe recipe;

static bool parse(struct span text) {
  diags_init(&d, &arena, "t", text);
  return recipe_parse(text, &d, &recipe, &arena);
}

static void places_point_into_the_text(void **state) {
  (void)state;
  struct span text = SPAN_LIT("Makes: 2 days\n  - 1 1/2 cups cooked rice, drained [usda:20045] # x\n");
  assert_true(parse(text));
  assert_int_equal(recipe.line_count, 1);
  const struct recipe_line *l = &recipe.line[0];
  assert_true(span_is(l->amount_at, "1 1/2"));
  assert_true(span_is(l->unit_at, "cups"));
  assert_true(span_is(l->food_at, "rice"));
  assert_true(span_is(l->pin_at, "[usda:20045]"));
  assert_true(span_is(l->whole, "- 1 1/2 cups cooked rice, drained [usda:20045]"));
  assert_true(l->pin.p > text.p && l->pin.p < text.p + text.n);
}

static void too_many_ingredients(void **state) {
  (void)state;
  struct buf b;
  buf_init(&b, &arena, 1 << 20);
  for (int i = 0; i < RECIPE_MOST_LINES; i++) buf_adds(&b, "1 g lamb\n");
  assert_true(parse(buf_span(&b)));
  assert_int_equal(recipe.line_count, RECIPE_MOST_LINES);
  buf_adds(&b, "1 g lamb\n1 g lamb\n1 g lamb\n");
  assert_false(parse(buf_span(&b)));
  assert_int_equal(d.errors, 1);
  assert_int_equal(d.item[0].line, RECIPE_MOST_LINES + 1);
}

static void too_long(void **state) {
  (void)state;
  size_t n = RECIPE_MOST_BYTES + 1;
  char *p = malloc(n);
  assert_non_null(p);
  memset(p, '\n', n);
  assert_false(parse((struct span){p, n}));
  assert_int_equal(d.errors, 1);
  memset(p, 'a', n);
  assert_false(parse((struct span){p, LINE_MOST_BYTES + 1}));
  assert_int_equal(d.errors, 1);
  memcpy(p, "1 g ", 4);
  assert_true(parse((struct span){p, LINE_MOST_BYTES}));
  free(p);
}

static void empty_texts(void **state) {
  (void)state;
  assert_false(parse((struct span){NULL, 0}));
  assert_int_equal(d.errors, 1);
  assert_false(parse(SPAN_LIT("\n \n\t\n")));
}

/* Whatever is sent, reading ends early: another kind of file must not cost minutes. */
static void other_kinds_of_files(void **state) {
  (void)state;
  struct buf b;
  buf_init(&b, &arena, RECIPE_MOST_BYTES);
  while (!b.cut) buf_adds(&b, "x\n");
  assert_false(parse((struct span){b.p, RECIPE_MOST_BYTES}));
  assert_int_equal(d.errors, DIAG_MOST);
  buf_init(&b, &arena, RECIPE_MOST_BYTES);
  while (!b.cut) buf_adds(&b, "Note: a\n");
  assert_false(parse((struct span){b.p, RECIPE_MOST_BYTES}));
  assert_int_equal(d.errors, 1);
  buf_init(&b, &arena, RECIPE_MOST_BYTES);
  buf_repeat(&b, "a ", LINE_MOST_BYTES / 2);
  assert_false(parse(buf_span(&b)));
  assert_int_equal(d.errors, 1);
}

/* A faulty line does not hide the others, and keeps its food for the look-up. */
static void faults_do_not_stop_the_reading(void **state) {
  (void)state;
  assert_false(parse(SPAN_LIT("0,5 kg lamb\n2 eggs\n")));
  assert_int_equal(recipe.line_count, 2);
  assert_true(isnan(recipe.line[0].amount));
  assert_near(recipe.line[1].amount, 2, 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(places_point_into_the_text),
                                     cmocka_unit_test(too_many_ingredients),
                                     cmocka_unit_test(too_long),
                                     cmocka_unit_test(other_kinds_of_files),
                                     cmocka_unit_test(empty_texts),
                                     cmocka_unit_test(faults_do_not_stop_the_reading)};
  return cmocka_run_group_tests(tests, fresh, done);
}
