/* "Key: value" lines and the rows that read them. Expectations are read off the words; no reader of the product takes part.
 */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

#include "tests/support/near.h"
#include "text/headers.h"

static struct diags d;

struct thing {
  const char *name;
  double kg;
};

static void read_kg(struct header_value *v) {
  size_t used;
  double n = value_number(v->d, &v->t, v->value, v->row->example, &used);
  if (!isnan(n) && value_ends(v->d, &v->t, used + phrase_at(&v->t, used, "kg"), v->row->example))
    ((struct thing *)v->into)->kg = n;
}

enum { NAME, KG, NOTE, FEEDS, ROWS };
static const struct header_row ROW[] = {
    {"Name", NULL, "title", "Name: Pim", header_text, offsetof(struct thing, name), false, false},
    {"Adult weight", "Weight|Mass", NULL, "Adult weight: 4 kg", read_kg, 0, false, false},
    {"Note", "Notes", NULL, "Note: x", NULL, 0, true, false},
    {"Feeds", NULL, NULL, "Feeds: 4", NULL, 0, false, true}};

static struct thing thing;
static struct span seen[ROWS];
static struct header_reader reader;

static int ready(void **state) {
  fresh(state);
  diags_init(&d, &arena, "t", SPAN_LIT(""));
  thing = (struct thing){"", -1};
  memset(seen, 0, sizeof seen);
  reader = (struct header_reader){ROW, ROWS, DIAG_WARNING, "; keep one", &d, &arena, seen, NULL, &thing};
  return 0;
}

/* The line is read as the text it stands in. */
static void line(const char *words) {
  struct header h;
  d.text = span_of(words);
  assert_true(header_split(d.text, &h));
  int row = header_row_of(&reader, h.key);
  if (row >= 0)
    header_take(&reader, row, h, d.text);
  else
    header_unknown(&reader, h.key, DIAG_ERROR, "");
}

static void said(size_t number, const char *message) {
  assert_int_equal(d.count, number);
  assert_string_equal(d.item[number - 1].message, message);
}

static void keys_and_values(void **state) {
  (void)state;
  struct header h;
  assert_true(header_split(SPAN_LIT("  Adult weight :  12 kg "), &h));
  assert_true(span_is(h.key, "Adult weight"));
  assert_true(span_is(h.value, "12 kg"));
  assert_int_equal(header_row_of(&reader, h.key), KG);
  assert_int_equal(header_row_of(&reader, SPAN_LIT("adult-WEIGHT")), KG);
  assert_int_equal(header_row_of(&reader, SPAN_LIT("mass")), KG);
  assert_int_equal(header_row_of(&reader, SPAN_LIT("adult")), -1);
  assert_int_equal(header_row_of(&reader, SPAN_LIT("title")), -1); /* leads to a row, and is none */
  assert_false(header_split(SPAN_LIT("200 g lamb: x"), &h));
  assert_false(header_split(SPAN_LIT("lamb [usda:17199]"), &h));
  assert_false(header_split(SPAN_LIT(": x"), &h));
  assert_false(header_split(SPAN_LIT("no colon"), &h));
}

static void rows_fill_what_they_name(void **state) {
  (void)state;
  line("Name: Pim");
  line("Mass: 4.6 kg.");
  line("Note: a");
  line("Notes: b");
  assert_int_equal(d.count, 0);
  assert_string_equal(thing.name, "Pim");
  assert_near(thing.kg, 4.6, 1e-12);
  assert_true(span_is(seen[KG], "4.6 kg."));
}

static void one_and_only_one(void **state) {
  (void)state;
  line("Name:");
  said(1, "there is nothing after 'Name:'");
  assert_int_equal(d.errors, 0); /* as bad as the reader says: a warning here */
  line("Name: Pim");
  line("Name: Moss");
  said(2, "a second 'Name'; keep one");
  assert_string_equal(thing.name, "Pim");
}

static void nearly_known(void **state) {
  (void)state;
  line("Nmae: Pim");
  said(1, "unknown header 'Nmae'; did you mean 'Name'?");
  assert_int_equal(d.item[0].code, DIAG_MISSPELT);
  assert_string_equal(d.item[0].fix[0].write, "Name");
  line("Title: Pim");
  said(2, "unknown header 'Title'; did you mean 'Name'?");
  line("Xyzzy: Pim");
  said(3, "unknown header 'Xyzzy'; the words before a colon are Name, Adult weight, Note, Feeds");
  assert_int_equal(header_near(&reader, SPAN_LIT("Seeds"), false), FEEDS);
  assert_int_equal(header_near(&reader, SPAN_LIT("Seeds"), true), -1); /* a food */
}

static void values(void **state) {
  (void)state;
  line("Weight: much");
  said(1, "'much' has no number; write it as in 'Adult weight: 4 kg'");
  done(NULL);
  ready(NULL);
  line("Weight: 4-5 kg");
  said(1, "'4-5 kg' is a range; write one number, as in 'Adult weight: 4 kg'");
  done(NULL);
  ready(NULL);
  line("Weight: 4 kg and more");
  said(1, "'and more' is not understood here; write it as in 'Adult weight: 4 kg'");
  assert_true(thing.kg == -1);
  done(NULL);
  ready(NULL);
  static const char *const WORDS[] = {"low", "high"};
  d.text = SPAN_LIT("brisk");
  value_words(&d, d.text, "a pace", WORDS, 2);
  said(1, "'brisk' is not a pace; the words are low, high");
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test_setup_teardown(keys_and_values, ready, done),
                                     cmocka_unit_test_setup_teardown(rows_fill_what_they_name, ready, done),
                                     cmocka_unit_test_setup_teardown(one_and_only_one, ready, done),
                                     cmocka_unit_test_setup_teardown(nearly_known, ready, done),
                                     cmocka_unit_test_setup_teardown(values, ready, done)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
