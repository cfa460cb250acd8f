#include "journal/journal.h"

#include <math.h>
#include <stdlib.h>

#include "journal/journal_parts.h"

/* ---- reading ---- */

static int by_day_line(const void *a, const void *b) {
  const struct journal_entry *x = *(struct journal_entry *const *)a, *y = *(struct journal_entry *const *)b;
  if (x->day != y->day) return x->day < y->day ? -1 : 1;
  return x->line < y->line ? -1 : x->line > y->line;
}

/* By animal, of each by day and line: most journals are in order already, so nothing is compared that need not be. */
static struct journal_entry **sorted(struct journal_entry *entry, size_t count, size_t names, size_t *facts,
                                     struct arena *arena) {
  struct journal_entry **by_day = ARENA_NEW(arena, struct journal_entry *, count + 1);
  size_t *end = ARENA_NEW(arena, size_t, names + 1);
  for (size_t i = 0; i < count; i++)
    if (entry[i].is_fact) end[entry[i].animal + 1]++;
  for (size_t a = 0; a < names; a++) end[a + 1] += end[a];
  for (size_t i = 0; i < count; i++)
    if (entry[i].is_fact) by_day[end[entry[i].animal]++] = &entry[i];
  for (size_t a = 0, from = 0; a < names; from = end[a++]) {
    bool in_order = true;
    for (size_t i = from + 1; i < end[a]; i++) in_order = in_order && by_day[i - 1]->day <= by_day[i]->day;
    if (!in_order) qsort(&by_day[from], end[a] - from, sizeof *by_day, by_day_line);
  }
  *facts = names > 0 ? end[names - 1] : 0;
  return by_day;
}

/* A text that ends within its last line: what is wrong with that line is that it is cut off. */
static void forgive_cut(struct diags *d, size_t errors, size_t kept, struct span line) {
  d->errors = errors;
  size_t to = 0;
  for (size_t i = 0; i < d->count; i++) /* the line's own complaints are the last in the order of the text */
    if (i < kept) d->item[to++] = d->item[i];
  d->count = to;
  diag_say(d, DIAG_WARNING, DIAG_NOT_UNDERSTOOD, line,
           "the text ends within this line, and what is there is not understood: was it cut off? The line is left out");
}

static struct journal_entry no_fact(int line, struct span whole) {
  return (struct journal_entry){.line = line, .whole = whole, .kg = NAN, .left_g = NAN, .left_share = NAN};
}

/* A text with a line that is no text, or far too long, is read without that line: it was complained about. */
static bool line_fit(struct journal_reader *r, bool all_fit, struct span line) {
  struct diags aside;
  if (all_fit) return true;
  diags_init(&aside, r->arena, "line", line);
  return text_fit(line, JOURNAL_LINE_MOST, JOURNAL_LINE_MOST, &aside);
}

static struct journal_entry read_line(struct journal_reader *r, int number, struct span line, bool cut_off) {
  struct diags *d = r->d;
  struct journal_entry e = no_fact(number, trim_blanks(line));
  size_t errors = d->errors, kept = d->count;
  if (e.whole.n == 0 || e.whole.p[0] == '#') return e;
  e.is_fact = journal_line_read(r, &e);
  if (e.is_fact) return e;
  e = no_fact(number, e.whole);
  e.not_read = true;
  if (cut_off) forgive_cut(d, errors, kept, e.whole);
  return e;
}

bool journal_read(struct span text, const struct journal_known *known, struct diags *d, struct journal *out,
                  struct arena *arena) {
  struct journal_reader r = {.known = known, .d = d, .arena = arena};
  struct journal_entry *entry = NULL;
  size_t count = 0, cap = 0;
  *out = (struct journal){.name = NULL};
  bool fit = text_fit(text, JOURNAL_MOST_BYTES, JOURNAL_LINE_MOST, d);
  if (text.n > JOURNAL_MOST_BYTES) return false;
  struct lines lines = lines_of(text);
  struct span line, newest = journal_newest_days(text, known);
  if (known) lines.number = known->lines_before;
  while (lines_next(&lines, &line)) {
    if (journal_of_others(known, line) || journal_is_older(&r, newest, line)) continue;
    bool readable = line_fit(&r, fit, line), cut_off = lines.rest.n == 0 && text.p[text.n - 1] != '\n';
    struct journal_entry e = readable ? read_line(&r, lines.number, line, cut_off) : no_fact(lines.number, line);
    e.not_read = e.not_read || !readable;
    ARENA_PUSH(arena, entry, count, cap, e);
  }
  *out = (struct journal){
      .name = r.name, .name_count = r.name_count, .entry = entry, .entry_count = count, .in_part = newest.n > 0};
  size_t facts;
  struct journal_entry **by_day = sorted(entry, count, r.name_count, &facts, arena);
  journal_replace(by_day, facts, d);
  journal_doubt(out, by_day, facts, &r);
  return d->errors == 0;
}

/* ---- what counts ---- */

int journal_animal(const struct journal *j, struct span name) {
  for (size_t i = 0; i < j->name_count; i++)
    if (span_eq_fold(span_of(j->name[i]), name)) return (int)i;
  return -1;
}

/* The facts of one animal that count, sorted by day and line. */
static const struct journal_entry **counted(const struct journal *j, int animal, unsigned facts, size_t *count,
                                            struct arena *arena) {
  const struct journal_entry **of = ARENA_NEW(arena, const struct journal_entry *, j->entry_count + 1);
  bool in_order = true;
  size_t n = 0;
  for (size_t i = 0; i < j->entry_count; i++) {
    const struct journal_entry *e = &j->entry[i];
    if (!e->is_fact || e->replaced || e->animal != animal || !(facts >> e->fact & 1u)) continue;
    in_order = in_order && (n == 0 || of[n - 1]->day <= e->day);
    of[n++] = e;
  }
  if (!in_order) qsort(of, n, sizeof(const struct journal_entry *), by_day_line);
  *count = n;
  return of;
}

const struct dated_weight *journal_weights(const struct journal *j, int animal, size_t *count, struct arena *arena) {
  size_t n;
  const struct journal_entry **of = counted(j, animal, 1u << JOURNAL_WEIGHS, &n, arena);
  struct dated_weight *w = ARENA_NEW(arena, struct dated_weight, n + 1);
  *count = 0;
  for (size_t i = 0; i < n; i++)
    if (of[i]->kg > 0) w[(*count)++] = (struct dated_weight){of[i]->day, of[i]->kg, of[i]->line, of[i]->asked};
  return w;
}

static void add_left(struct dated_intake *day, const struct journal_entry *e) {
  if (isnan(e->left_g) && isnan(e->left_share)) {
    day->left_unknown = true;
  } else if (isnan(e->left_g)) {
    day->left_share += e->left_share;
    if (day->left_share > 1) day->left_share = 1;
  } else {
    day->left_g += e->left_g;
  }
}

const struct dated_intake *journal_intakes(const struct journal *j, int animal, size_t *count, struct arena *arena) {
  size_t n, items = 0, used = 0;
  const struct journal_entry **of = counted(j, animal, 1u << JOURNAL_ATE | 1u << JOURNAL_LEFT, &n, arena);
  struct dated_intake *days = ARENA_NEW(arena, struct dated_intake, n + 1);
  for (size_t i = 0; i < n; i++) items += of[i]->item_count;
  const struct journal_item **item = ARENA_NEW(arena, const struct journal_item *, items + 1);
  int *item_line = ARENA_NEW(arena, int, items + 1);
  *count = 0;
  for (size_t from = 0, end; from < n; from = end) {
    struct dated_intake day = {.day = of[from]->day, .item = &item[used], .item_line = &item_line[used]};
    bool fed = false;
    for (end = from; end < n && of[end]->day == day.day; end++) {
      const struct journal_entry *e = of[end];
      fed = fed || e->fact == JOURNAL_ATE;
      if (e->fact == JOURNAL_LEFT) add_left(&day, e);
      for (size_t k = 0; k < e->item_count; k++) {
        day.unknown = day.unknown || e->item[k].unknown;
        item[used] = &e->item[k];
        item_line[used++] = e->line;
        day.item_count++;
      }
    }
    if (fed) days[(*count)++] = day;
  }
  return days;
}

/* ---- printing ---- */

/* One blank between words. */
static void add_words(struct buf *out, struct span s) {
  bool first = true;
  while (s.n > 0) {
    struct span word = journal_word(&s);
    if (word.n == 0) break;
    if (!first) buf_addc(out, ' ');
    buf_add(out, word);
    first = false;
  }
}

static void print_said(const struct journal_entry *e, struct buf *out) {
  if (e->fact != JOURNAL_ATE || e->item_count == 0) {
    add_words(out, e->said);
    return;
  }
  for (size_t i = 0; i < e->item_count; i++) {
    if (i > 0) buf_adds(out, "; ");
    add_words(out, e->item[i].whole);
  }
}

void journal_print(const struct journal *j, struct buf *out) {
  for (size_t i = 0; i < j->entry_count; i++) {
    const struct journal_entry *e = &j->entry[i];
    if (!e->is_fact) {
      buf_add(out, e->whole);
    } else {
      buf_add(out, span_cut(e->whole, 0, 10));
      buf_addf(out, " %s %s%s%s", j->name[e->animal], e->correction ? "correction: " : "", journal_fact_word[e->fact],
               e->fact == JOURNAL_NOTE ? ":" : "");
      if (e->said.n > 0) buf_addc(out, ' ');
      print_said(e, out);
      if (e->remark.n > 0) {
        buf_adds(out, "  ");
        buf_add(out, e->remark);
      }
    }
    buf_addc(out, '\n');
  }
}
