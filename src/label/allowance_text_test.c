/* Rows of a standard as text: what is read is what was written, every row of the built-in tables survives the way out and
 * back, and a bad row is complained of at its place. */
#include "label/allowance_text.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

#include "judge/standard.h"
#include "tests/support/built_image.h"

static struct diags diags;
static struct own_allowance *row;
static size_t count;

static bool read(const char *text) {
  diags_init(&diags, &arena, "rows.txt", span_of(text));
  return allowances_read(span_of(text), "rows.txt", built_library(), &diags, &row, &count, &arena);
}

static void rows_say_what_stands_in_them(void **state) {
  (void)state;
  assert_true(
      read("# from the book\n\nnrc2006 dog zinc RA 2.5 mg/kg^0.75, p. 359  # seen\r\n"
           "NRC2006 cat Vitamin D SUL >7500 IU per 1000 kcal\nfediaf2021 dog taurine MIN 0.2 g/1000 kcal at 95 kcal\n"));
  assert_int_equal(count, 3);
  assert_int_equal(row[0].row.nutrient, NUT_ZINC);
  assert_int_equal(row[0].row.level, LEVEL_ALLOWANCE);
  assert_int_equal(row[0].row.basis, PER_METABOLIC_KG);
  assert_float_equal(row[0].row.amount, 2.5, 1e-6);
  assert_string_equal(row[0].printed, "2.5 mg/kg^0.75");
  assert_string_equal(row[0].place, "rows.txt, line 3, p. 359");
  assert_int_equal(row[1].row.species, SPECIES_CAT);
  assert_true(row[1].row.greater_than);
  assert_float_equal(row[1].row.amount, 187.5, 1e-4); /* 1 IU of vitamin D is 0.025 µg: definition of the unit */
  assert_float_equal(row[1].row.at_kcal, 100, 1e-6);  /* NRC sets cats' figures at 100 kcal per kg^0.67 */
  assert_float_equal(row[2].row.at_kcal, 95, 1e-6);
}

static void bad_rows_are_told_with_their_place(void **state) {
  (void)state;
  static const struct {
    const char *text;
    int line, column;
    const char *says;
  } BAD[] = {{"\nnrc206 dog zinc RA 2 mg/kg^0.75", 2, 1, "standard"},
             {"nrc2006 hog zinc RA 2 mg/kg^0.75", 1, 9, "neither dog nor cat"},
             {"nrc2006 dog zink RA 2 mg/kg^0.75", 1, 13, "nutrient"},
             {"nrc2006 dog zinc RDA 2 mg/kg^0.75", 1, 1, "not understood"},
             {"nrc2006 dog zinc RA two mg/kg^0.75", 1, 21, "amount"},
             {"nrc2006 dog zinc RA -2 mg/kg^0.75", 1, 21, "amount"},
             {"nrc2006 dog zinc RA 1e999 mg/kg^0.75", 1, 21, "amount"},
             {"nrc2006 dog zinc RA 2 mg", 1, 23, "per what"},
             {"nrc2006 dog zinc RA 2 mg/kg^0.67", 1, 26, "basis"},
             {"nrc2006 dog zinc RA 2 kcal/kg^0.75", 1, 23, "does not fit"},
             {"nrc2006 dog zinc RA 2 mg/1000 kcal at some kcal", 1, 39, "energy"},
             {"nrc2006 dog zinc RA 2 mg/kg^0.75\nnrc2006 dog zinc RA 3 mg/kg^0.75", 2, 1, "line 1"},
             {"nrc2006 dog zinc RA", 1, 1, "not understood"},
             {"", 1, 1, "no row"}};
  for (size_t i = 0; i < COUNT_OF(BAD); i++) {
    assert_false(read(BAD[i].text));
    assert_true(diags.count >= 1);
    if (!strstr(diags.item[0].message, BAD[i].says)) fail_msg("%s: %s", BAD[i].text, diags.item[0].message);
    assert_int_equal(diags.item[0].line, BAD[i].line);
    assert_int_equal(diags.item[0].column, BAD[i].column);
  }
}

static void no_bytes_bring_it_down(void **state) {
  (void)state;
  static const char SAMPLE[] = "nrc2006 dog zinc RA >2.0 mg/1000 kcal at 130 kcal cautious, p. 3 # x\n";
  char text[sizeof SAMPLE];
  for (size_t i = 0; i + 1 < sizeof SAMPLE; i++)
    for (int c = 1; c < 256; c++) {
      memcpy(text, SAMPLE, sizeof SAMPLE);
      text[i] = (char)c;
      if (read(text)) assert_true(count == 0 || row[0].row.amount >= 0);
    }
  for (size_t n = 0; n < sizeof SAMPLE; n++) {
    memcpy(text, SAMPLE, sizeof SAMPLE);
    text[n] = '\0';
    (void)read(text);
  }
}

static struct animal an_animal(enum species species, double kg) {
  struct animal a = animal_plain(species, kg);
  a.age_years = 4;
  return a;
}

/* Every figure that an animal gets, before and after. */
static void the_worksheet_comes_back_the_same(void **state) {
  (void)state;
  for (int std = 0; std < STANDARD_COUNT; std++)
    for (int species = 0; species < SPECIES_COUNT; species++) {
      struct buf text;
      buf_init(&text, &arena, 1 << 20);
      allowances_write(built_library(), (enum standard_id)std, (enum species)species, &text);
      if (!read(buf_text(&text))) fail_msg("%s %s: %s", standard_key[std], species_word[species], diags.item[0].message);
      struct library with = *built_library();
      with.own_allowance = row;
      with.own_allowance_count = count;
      with.own_allowance_file = "rows.txt";
      struct animal a = an_animal((enum species)species, 7);
      struct energy_need need = animal_energy(built_library(), &a, &arena);
      for (int basis = 0; basis < BASIS_COUNT; basis++) {
        struct allowance_set before, after;
        standard_allowances(built_library(), (enum standard_id)std, (enum basis)basis, &a, &need, (struct energy_eaten){400, 400}, &before, &arena);
        standard_allowances(&with, (enum standard_id)std, (enum basis)basis, &a, &need, (struct energy_eaten){400, 400}, &after, &arena);
        for (int n = 0; n < NUT_COUNT; n++) {
          const double x[] = {before.of[n].minimum, before.of[n].allowance, before.of[n].upper, before.of[n].cautious},
                       y[] = {after.of[n].minimum, after.of[n].allowance, after.of[n].upper, after.of[n].cautious};
          for (size_t k = 0; k < COUNT_OF(x); k++)
            if (isnan(x[k]) != isnan(y[k]) || fabs(x[k] - y[k]) > 1e-6 * fabs(x[k]))
              fail_msg("%s %s %s: %g, then %g", standard_key[std], species_word[species], nutrient_info[n].key, x[k], y[k]);
          if (after.of[n].allowance_row) assert_non_null(library_allowance_place(&with, after.of[n].allowance_row));
        }
      }
    }
}

static void an_own_row_is_used_and_named(void **state) {
  (void)state;
  struct library with = *built_library();
  assert_true(read("nrc2006 dog zinc RA 3 mg/kg^0.75, p. 359\n"));
  with.own_allowance = row;
  with.own_allowance_count = count;
  struct animal a = an_animal(SPECIES_DOG, 16);
  struct energy_need need = animal_energy(built_library(), &a, &arena);
  struct allowance_set set;
  standard_allowances(&with, STANDARD_NRC2006, BASIS_WEIGHT, &a, &need, (struct energy_eaten){800, 800}, &set, &arena);
  assert_float_equal(set.of[NUT_ZINC].allowance, 3 * 8, 1e-4); /* 16^0.75 = 8 */
  assert_string_equal(library_allowance_place(&with, set.of[NUT_ZINC].allowance_row), "rows.txt, line 1, p. 359");
  assert_null(library_allowance_place(&with, set.of[NUT_COPPER].allowance_row));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(rows_say_what_stands_in_them, fresh, done),
      cmocka_unit_test_setup_teardown(bad_rows_are_told_with_their_place, fresh, done),
      cmocka_unit_test_setup_teardown(no_bytes_bring_it_down, fresh, done),
      cmocka_unit_test_setup_teardown(the_worksheet_comes_back_the_same, fresh, done),
      cmocka_unit_test_setup_teardown(an_own_row_is_used_and_named, fresh, done),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
