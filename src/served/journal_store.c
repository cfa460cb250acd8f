/* A journal in the store and out of it. */
#include <math.h>

#include "cli/run.h"
#include "journal/journal.h"
#include "store/journal_rows.h"

enum { WHY_MOST = 4096 };
static const char HOUSEHOLD[] = "journal";

int store_ready(struct run *s) {
  (void)s;
  return EXIT_COMPUTED;
}

static int open_it(const struct run *s, struct store **out) {
  struct buf why;
  buf_init(&why, s->arena, WHY_MOST);
  if (store_open(s->options->store, out, &why) == STORE_DONE) return EXIT_COMPUTED;
  complain("the store '%s' is not used: %s", s->options->store, buf_text(&why));
  return EXIT_TROUBLE;
}

static int close_it(const struct run *s, struct store *store, enum store_outcome outcome) {
  if (outcome != STORE_DONE) complain("the store '%s' failed: %s", s->options->store, store_reason(store, s->arena));
  store_close(store);
  return outcome == STORE_DONE ? EXIT_COMPUTED : EXIT_TROUBLE;
}

static struct store_line row_of(const struct journal *j, const struct journal_entry *e, struct span body) {
  if (!e->is_fact) return (struct store_line){.kg = NAN, .animal = {"", 0}, .fact = {"", 0}, .body = body};
  return (struct store_line){e->day, span_of(j->name[e->animal]), span_of(journal_fact_word[e->fact]), e->kg, body};
}

int journal_to_store(const struct run *s, const struct journal *j) {
  struct store *store = NULL;
  struct store_lines now;
  struct buf text;
  int64_t save = 0;
  int code = open_it(s, &store);
  if (code != EXIT_COMPUTED) return code;
  struct store_line *row = ARENA_NEW(s->arena, struct store_line, j->entry_count + 1);
  buf_init(&text, s->arena, ANSWER_MOST_BYTES);
  journal_print(j, &text);
  struct span rest = buf_span(&text);
  for (size_t i = 0; i < j->entry_count; i++) { /* one line each */
    const char *end = memchr(rest.p, '\n', rest.n);
    size_t n = end ? (size_t)(end - rest.p) : rest.n;
    row[i] = row_of(j, &j->entry[i], span_cut(rest, 0, n));
    rest = span_cut(rest, n + 1, rest.n);
  }
  enum store_outcome outcome = store_journal_read(store, SPAN_LIT("journal"), 0, &now, s->arena);
  if (outcome == STORE_DONE) outcome = store_journal_write(store, span_of(HOUSEHOLD), row, j->entry_count, now.save, &save);
  return close_it(s, store, outcome);
}

int journal_from_store(const struct run *s, struct app_input *out) {
  struct store *store = NULL;
  struct store_lines lines;
  struct buf text;
  if (!file_exists(s->options->store)) {
    complain("there is no store '%s'", s->options->store);
    return EXIT_TROUBLE;
  }
  int code = open_it(s, &store);
  if (code != EXIT_COMPUTED) return code;
  enum store_outcome outcome = store_journal_read(store, span_of(HOUSEHOLD), 0, &lines, s->arena);
  code = close_it(s, store, outcome);
  if (code != EXIT_COMPUTED) return code;
  if (lines.damaged > 0)
    complain("%zu lines of the journal in '%s' cannot be read; the others follow", lines.damaged, s->options->store);
  if (lines.save == 0) {
    complain("there is no journal in '%s'", s->options->store);
    return EXIT_TROUBLE;
  }
  buf_init(&text, s->arena, JOURNAL_MOST_BYTES);
  for (size_t i = 0; i < lines.count; i++) buf_addf(&text, "%.*s\n", SPAN_ARG(lines.item[i].body));
  *out = (struct app_input){s->options->store, {buf_text(&text), text.n}};
  return EXIT_COMPUTED;
}
