/* fuzz_journal.c: any bytes as a journal. What is read is printed, and that is read again: nothing may get lost. */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include "journal/journal.h"
#include "journal/journal_csv.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static bool same(double a, double b) { return a == b || (isnan(a) && isnan(b)); }

static bool same_entry(const struct journal_entry *a, const struct journal_entry *b) {
  if (a->line != b->line || a->is_fact != b->is_fact || a->not_read != b->not_read) return false;
  if (!a->is_fact) return span_eq(a->whole, b->whole);
  if (a->fact != b->fact || a->day != b->day || a->animal != b->animal || a->correction != b->correction) return false;
  if (a->replaced != b->replaced || a->asked != b->asked || a->item_count != b->item_count) return false;
  for (size_t i = 0; i < a->item_count; i++)
    if (!same(a->item[i].grams, b->item[i].grams) || a->item[i].unknown != b->item[i].unknown) return false;
  return same(a->kg, b->kg) && same(a->left_g, b->left_g) && same(a->left_share, b->left_share) &&
         span_eq(a->remark, b->remark);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  struct arena arena;
  struct diags d, again;
  struct journal j, k;
  struct buf out, twice, said;
  struct span text = {(const char *)data, size};
  static const struct journal_known KNOWN = {.today = 740287};
  arena_init(&arena, NULL);
  diags_init(&d, &arena, "fuzz", text);
  bool fine = journal_read(text, &KNOWN, &d, &j, &arena);
  if (fine != (d.errors == 0)) abort();
  buf_init(&out, &arena, 1 << 22);
  buf_init(&twice, &arena, 1 << 22);
  buf_init(&said, &arena, 1 << 22);
  journal_print(&j, &out);
  diags_init(&again, &arena, "printed", buf_span(&out));
  bool fine_again = journal_read(buf_span(&out), &KNOWN, &again, &k, &arena);
  bool cut = j.entry_count > 0 && j.entry[j.entry_count - 1].not_read; /* printed, it has its end and is an error */
  if (!cut && fine && !fine_again) abort();
  if (j.entry_count != k.entry_count) abort();
  for (size_t i = 0; i < j.entry_count; i++)
    if (!same_entry(&j.entry[i], &k.entry[i])) abort();
  journal_print(&k, &twice);
  if (!span_eq(buf_span(&out), buf_span(&twice))) abort();
  /* By way of a table the same, where every line was understood (a line that was not may mean something else there). */
  struct buf table, from_table, again_printed;
  buf_init(&table, &arena, 1 << 23);
  buf_init(&from_table, &arena, 1 << 22);
  buf_init(&again_printed, &arena, 1 << 22);
  journal_csv_print(&j, &table);
  diags_init(&again, &arena, "table", buf_span(&table));
  if (!journal_csv_read(buf_span(&table), &again, &from_table, NULL, &arena)) abort();
  diags_init(&again, &arena, "from table", buf_span(&from_table));
  if (journal_read(buf_span(&from_table), &KNOWN, &again, &k, &arena) != fine_again) abort();
  journal_print(&k, &again_printed);
  if (!span_eq(buf_span(&again_printed), buf_span(&out))) abort();
  diags_init(&again, &arena, "csv", text); /* any bytes as a table */
  from_table.n = 0;
  if (!journal_csv_read(text, &again, &from_table, NULL, &arena) && again.errors == 0) abort();
  for (size_t a = 0; a < j.name_count; a++) {
    size_t n;
    const struct dated_weight *w = journal_weights(&j, (int)a, &n, &arena);
    for (size_t i = 0; i < n; i++)
      if (!(w[i].kg > 0) || (i > 0 && w[i].day < w[i - 1].day)) abort();
    const struct dated_intake *in = journal_intakes(&j, (int)a, &n, &arena);
    for (size_t i = 1; i < n; i++)
      if (in[i].day <= in[i - 1].day) abort();
  }
  diags_print(&d, &said, true);
  arena_free(&arena);
  return 0;
}
