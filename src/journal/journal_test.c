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

/* What a first look at the newest days tells is what the whole tells of these days, whatever the order of the lines; no
 * animal that only earlier days tell of is forgotten. */
static void a_first_look(void **state) {
  (void)state;
  static const char *const HOUSE[] = {"Old", "Old Bess", "Pim", "Rex"};
  static const char *const LINES[] = {"2024-02-29 Pim weighs 4 kg\n",
                                      "2026-11-09 Old Bess ate 400 g bowl\n",
                                      "2026-11-02 Old weighs 9 kg\n",
                                      "# a remark\n",
                                      "2026-11-09 old bess correction: ate 300 g bowl\n",
                                      "this is no line\n",
                                      "2026-11-07 Old ate 5 g egg\n",
                                      "2026-11-08 Old Bess left half\n",
                                      "2026-13-40 Old weighs 9 kg\n",
                                      "2026-11-08 Old Bess weighs 22 kg\n",
                                      "  2026-11-01 Old Bess weighs 21.9 kg\n",
                                      "2026-11-07 Pim note: asleep\n"};
  enum { COUNT = COUNT_OF(LINES) };
  for (size_t turn = 0; turn < 2 * COUNT; turn++) {
    struct buf b;
    struct diags d, e;
    struct journal whole, first;
    buf_init(&b, &arena, 1 << 16);
    for (size_t i = 0; i < COUNT; i++)
      buf_adds(&b, LINES[turn < COUNT ? (i + turn) % COUNT : (2 * COUNT + turn - i) % COUNT]);
    struct journal_known known = {.name = HOUSE, .name_count = COUNT_OF(HOUSE)};
    diags_init(&d, &arena, "t", buf_span(&b));
    diags_init(&e, &arena, "t", buf_span(&b));
    assert_false(journal_read(buf_span(&b), &known, &d, &whole, &arena));
    known.newest_days = 2;
    assert_false(journal_read(buf_span(&b), &known, &e, &first, &arena));
    assert_true(first.in_part && !whole.in_part && first.entry_count < whole.entry_count);
    assert_int_equal(first.name_count, whole.name_count);
    for (size_t i = 0; i < whole.name_count; i++) assert_string_equal(first.name[i], whole.name[i]);
    long newest = date_days((struct date){2026, 11, 9});
    size_t told = 0;
    for (size_t i = 0, k = 0; i < whole.entry_count; i++) {
      const struct journal_entry *w = &whole.entry[i];
      if (!w->is_fact || w->day < newest - 1) continue;
      while (first.entry[k].line != w->line) assert_true(++k < first.entry_count);
      const struct journal_entry *f = &first.entry[k];
      assert_true(f->day == w->day && f->animal == w->animal && f->fact == w->fact && f->replaced == w->replaced);
      assert_true(span_eq(f->whole, w->whole));
      told++;
    }
    assert_int_equal(told, 4);
  }
}

/* A line that is no text, or far too long, is complained about and stays; it takes no other with it. */
static void one_line_that_is_no_text(void **state) {
  (void)state;
  struct buf b;
  struct diags d;
  size_t n;
  buf_init(&b, &arena, 1 << 16);
  buf_adds(&b, "2026-11-02 Juniper weighs 18.2 kg\n2026-11-03 Juniper note: \x01\x02\n2026-11-03 Juniper ate 5 g ");
  buf_repeat(&b, "egg ", JOURNAL_LINE_MOST);
  buf_adds(&b, "\n2026-11-04 Juniper weighs 18.4 kg\n");
  struct journal j = read(buf_text(&b), &d);
  assert_true(d.errors >= 2 && d.item[0].line == 2 && d.item[d.count - 1].line == 3);
  assert_true(j.entry_count == 4 && j.entry[1].not_read && j.entry[2].not_read);
  assert_int_equal(j.entry[3].line, 4);
  journal_weights(&j, 0, &n, &arena);
  assert_int_equal(n, 2);
}

/* What may be typed instead of another spelling of the day is read, to that day. */
static void other_days_have_a_remedy(void **state) {
  (void)state;
  static const struct {
    const char *line, *days[2];
  } OTHER[] = {{"29.10.2026 Pim weighs 4.6 kg", {"2026-10-29", NULL}},
               {"Thursday, 29th Oct 2026: Pim weighs 4.6 kg", {"2026-10-29", NULL}},
               {"30 November Pim weighs 4.6 kg", {"2025-11-30", NULL}},
               {"3/4/2026 Pim weighs 4.6 kg", {"2026-04-03", "2026-03-04"}},
               {"30/2/2026 Pim weighs 4.6 kg", {NULL, NULL}}};
  struct journal_known known = KNOWN;
  known.today = date_days((struct date){2026, 11, 29});
  for (size_t i = 0; i < COUNT_OF(OTHER); i++) {
    struct span line = span_of(OTHER[i].line);
    struct diags d;
    struct journal j;
    diags_init(&d, &arena, "t", line);
    assert_true(journal_read(line, &known, &d, &j, &arena)); /* the last line, without its end: cut off, it seems */
    struct buf b;
    buf_init(&b, &arena, 4096);
    buf_addf(&b, "%s\n", OTHER[i].line);
    diags_init(&d, &arena, "t", buf_span(&b));
    assert_false(journal_read(buf_span(&b), &known, &d, &j, &arena));
    assert_int_equal(d.count, 1);
    assert_int_equal(d.item[0].fixes, (OTHER[i].days[0] != NULL) + (OTHER[i].days[1] != NULL));
    for (size_t k = 0; k < d.item[0].fixes; k++) {
      const struct diag_fix *f = &d.item[0].fix[k];
      assert_string_equal(f->write, OTHER[i].days[k]);
      assert_int_equal(f->column, 1);
      struct diags after;
      struct buf put;
      buf_init(&put, &arena, 4096);
      buf_addf(&put, "%s%s\n", f->write, OTHER[i].line + f->width);
      diags_init(&after, &arena, "t", buf_span(&put));
      assert_true(journal_read(buf_span(&put), &known, &after, &j, &arena));
      assert_true(j.entry[0].is_fact && j.entry[0].kg == 4.6);
    }
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {T(nothing_is_lost),         T(cut_off_anywhere), T(lines_in_any_order),
                                     T(of_one_animal_alone),     T(a_first_look),     T(one_line_that_is_no_text),
                                     T(other_days_have_a_remedy)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
