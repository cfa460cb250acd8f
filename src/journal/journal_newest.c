/* The newest days of a long journal, for a first look: their lines stand anywhere, and the others are read for a name alone.
 */
#include "journal/journal_parts.h"

enum { DAY_BYTES = 10 };

/* "2026-11-02 " at the start of the line, whether or not there is such a day. */
static bool begins_as_day(struct span line) {
  return line.n > DAY_BYTES && line.p[4] == '-' && line.p[7] == '-' && line.p[DAY_BYTES] == ' ';
}

/* Days as they are written follow each other as their letters do. */
struct span journal_newest_days(struct span text, const struct journal_known *known) {
  enum { MOST = 32 };
  const char *top[MOST];
  struct date is;
  struct span line;
  size_t count = 0, most = known && known->newest_days > 0 && known->name ? (size_t)known->newest_days : 0;
  most = most < MOST ? most : MOST;
  struct lines lines = lines_of(text);
  while (most > 0 && lines_next(&lines, &line)) {
    if (!begins_as_day(line)) continue;
    size_t at = count;
    int order = 1;
    while (at > 0 && (order = memcmp(line.p, top[at - 1], DAY_BYTES)) > 0) at--;
    bool there = at > 0 && order == 0;
    if (there || at >= most || !date_read(span_cut(line, 0, DAY_BYTES), &is)) continue;
    count += count < most;
    for (size_t i = count - 1; i > at; i--) top[i] = top[i - 1];
    top[at] = line.p;
  }
  return most > 0 && count == most ? (struct span){top[count - 1], DAY_BYTES} : (struct span){NULL, 0};
}

/* Names that no line has told of yet, as of the last look. */
static void find_untold(struct journal_reader *r) {
  const struct journal_known *k = r->known;
  if (!r->untold) r->untold = ARENA_NEW(r->arena, const char *, k->name_count + 1);
  r->untold_count = 0;
  r->untold_of = r->name_count + 1;
  for (size_t i = 0; i < k->name_count; i++) {
    bool told = false;
    for (size_t n = 0; n < r->name_count; n++) told = told || r->name[n] == k->name[i];
    if (!told) r->untold[r->untold_count++] = k->name[i];
  }
}

/* Only a line that may be the first of its animal is worth a second look. */
static bool may_be_new(struct journal_reader *r, struct span rest) {
  if (r->untold_of != r->name_count + 1) find_untold(r);
  for (size_t i = 0; i < r->untold_count; i++)
    if (journal_begins_with_name(rest, r->untold[i])) return true;
  return false;
}

bool journal_is_older(struct journal_reader *r, struct span newest, struct span line) {
  if (newest.n == 0 || !begins_as_day(line) || memcmp(line.p, newest.p, DAY_BYTES) >= 0) return false;
  struct span rest = span_cut(line, DAY_BYTES + 1, line.n);
  if (rest.n == 0 || rest.p[0] <= ' ') rest = trim_blanks(rest);
  if (!may_be_new(r, rest)) return true;
  struct diags aside, *told = r->d;
  struct journal_entry e = {.whole = line};
  diags_init(&aside, r->arena, "line", line);
  r->d = &aside;
  bool fine = journal_line_read(r, &e);
  (void)fine; /* its name is what counts; the line is told of when the whole is read */
  r->d = told;
  return true;
}
