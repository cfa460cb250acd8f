#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"

#include "journal/journal.h"

static const char *const NAMES[] = {"Juniper", "Pim"};
static const struct journal_known KNOWN = {.name = NAMES, .name_count = COUNT_OF(NAMES)};

static struct journal read(const char *text, struct diags *d) {
  struct journal j;
  diags_init(d, &arena, "t", span_of(text));
  bool fine = journal_read(span_of(text), &KNOWN, d, &j, &arena);
  assert_int_equal(fine, d->errors == 0);
  return j;
}

static const char *printed(const struct journal *j) {
  struct buf b;
  buf_init(&b, &arena, 1 << 20);
  journal_print(j, &b);
  return buf_text(&b);
}

static const char WRITTEN[] = "# The autumn\n"
                              "\n"
                              "2026-11-02 Juniper weighs 18.2 kg\n"
                              "2026-11-02 Juniper correction: weighs 18.1 kg  # wet towel\n"
                              "2026-11-03 Juniper ate 430 g Weeknight bowl; 1 can sardines in water, drained; ? a biscuit\n"
                              "2026-11-03 Juniper left 1/4\n"
                              "2026-11-03 Pim note: off her food; see the vet?\n";

/* Text that is written the usual way comes back to the last byte, whatever counts and whatever does not. */
static void nothing_is_lost(void **state) {
  (void)state;
  struct diags d;
  struct journal j = read(WRITTEN, &d);
  assert_int_equal(d.count, 0);
  assert_string_equal(printed(&j), WRITTEN);
  j = read("  2026-11-02   juniper weighed:  18.2 kg#no remark\n2026-11-04 what is this\n", &d);
  assert_int_equal(d.errors, 2);
  j = read("  2026-11-02   juniper weighed:  18.2   kg   # a  remark\r\n\t# indented\n2026-11-04 what is this\n", &d);
  assert_int_equal(d.errors, 1);
  assert_string_equal(printed(&j), "2026-11-02 Juniper weighs 18.2 kg  # a  remark\n# indented\n2026-11-04 what is this\n");
}

/* Cut anywhere, the whole lines before the cut are what they were, and the cut line is no error. */
static void cut_off_anywhere(void **state) {
  (void)state;
  size_t n = sizeof WRITTEN - 1;
  int left_out = 0;
  for (size_t to = 0; to <= n; to++) {
    struct diags d, e;
    struct journal j;
    char *text = malloc(to + 1); /* exactly its size, and one that nobody may read */
    assert_non_null(text);
    memcpy(text, WRITTEN, to);
    struct span cut = {text, to};
    size_t whole = to;
    while (whole > 0 && WRITTEN[whole - 1] != '\n') whole--;
    diags_init(&d, &arena, "t", cut);
    assert_true(journal_read(cut, &KNOWN, &d, &j, &arena));
    assert_true(d.count <= 1);
    left_out += d.count == 1;
    struct journal before = read(arena_text(&arena, span_cut(cut, 0, whole)), &e);
    assert_true(j.entry_count - before.entry_count <= 1);
    for (size_t i = 0; i < before.entry_count; i++) assert_true(span_eq(j.entry[i].whole, before.entry[i].whole));
    free(text);
  }
  assert_true(left_out > 60);
}

/* The order of the lines of different days changes nothing that counts. */
static void lines_in_any_order(void **state) {
  (void)state;
  static const char *const LINES[] = {"2026-11-02 Juniper weighs 18.2 kg\n", "2026-11-03 Juniper ate 430 g bowl\n",
                                      "2026-11-04 Juniper ate nothing\n", "2026-11-05 Juniper weighs 40 lb\n"};
  static const int ORDERS[][4] = {{0, 1, 2, 3}, {3, 2, 1, 0}, {2, 0, 3, 1}};
  for (size_t o = 0; o < COUNT_OF(ORDERS); o++) {
    struct buf b;
    struct diags d;
    size_t n;
    buf_init(&b, &arena, 4096);
    for (int i = 0; i < 4; i++) buf_adds(&b, LINES[ORDERS[o][i]]);
    struct journal j = read(buf_text(&b), &d);
    const struct dated_weight *w = journal_weights(&j, journal_animal(&j, SPAN_LIT("JUNIPER")), &n, &arena);
    assert_int_equal(n, 2);
    assert_true(w[0].kg == 18.2 && fabs(w[1].kg - 40 * 0.45359237) < 1e-12); /* the international pound, 1959 */
    assert_int_equal(w[1].day - w[0].day, 3);
    const struct dated_intake *in = journal_intakes(&j, 0, &n, &arena);
    assert_int_equal(n, 2);
    assert_true(in[0].item_count == 1 && in[0].item[0]->grams == 430 && in[1].item_count == 0);
    assert_int_equal(journal_animal(&j, SPAN_LIT("Pim")), -1);
  }
}

/* With one animal asked about, its facts and the places of complaints are those of the whole text; of the others only what
 * might be meant for it is read. */
static void of_one_animal_alone(void **state) {
  (void)state;
  static const char *const OTHERS[] = {"Old", "Pim"};
  static const char TEXT[] =
      "2026-11-02 Old weighs 9 kg\n2026-11-02 OLD BESS weighs 22 kg\n2026-11-02 Pim ate -5 g egg\n"
      "2026-11-03 Old Bess ate 430 g bowl\n2026-11-03 Old Bess left much\n2026-11-03 Odl Bess weighs 22.4 kg\n"
      "2026-11-04 Old Bess correction: weighs 22.1 kg\n# end\n";
  struct journal_known known = {.only = "Old Bess", .other = OTHERS, .other_count = COUNT_OF(OTHERS)};
  struct diags d, all;
  struct journal one, whole;
  size_t n, m;
  diags_init(&d, &arena, "t", span_of(TEXT));
  diags_init(&all, &arena, "t", span_of(TEXT));
  assert_false(journal_read(span_of(TEXT), &known, &d, &one, &arena));
  known.only = NULL;
  assert_false(journal_read(span_of(TEXT), &known, &all, &whole, &arena));
  assert_int_equal(d.errors, 1); /* not that of Pim's line */
  assert_int_equal(d.item[0].line, 5);
  assert_int_equal(all.errors, 2);
  assert_int_equal(journal_animal(&one, SPAN_LIT("Pim")), -1);
  assert_int_not_equal(journal_animal(&one, SPAN_LIT("Odl Bess")), -1);
  const struct dated_weight *w = journal_weights(&one, journal_animal(&one, SPAN_LIT("old bess")), &n, &arena);
  const struct dated_weight *v = journal_weights(&whole, journal_animal(&whole, SPAN_LIT("old bess")), &m, &arena);
  assert_int_equal(n, m);
  assert_int_equal(n, 2);
  for (size_t i = 0; i < n; i++) assert_true(w[i].kg == v[i].kg && w[i].day == v[i].day && w[i].line == v[i].line);
}

int main(void) {
  const struct CMUnitTest tests[] = {T(nothing_is_lost), T(cut_off_anywhere), T(lines_in_any_order), T(of_one_animal_alone)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
