/* A journal in the store and out of it. */
#include <math.h>

#include "cli/run.h"
#include "journal/journal.h"
#include "served/journal_store.h"
#include "store/journal_rows.h"

enum { WHY_MOST = 4096 };
static const char HOUSEHOLD[] = "journal";

int store_ready(const struct run *s) {
  (void)s;
  return EXIT_COMPUTED;
}

static int open_store_file(const struct run *s, const char *path, struct store **out) {
  struct buf why;
  buf_init(&why, s->arena, WHY_MOST);
  if (store_open(path, out, &why) == STORE_DONE) return EXIT_COMPUTED;
  complain("the store '%s' is not used: %s", path, buf_text(&why));
  return EXIT_TROUBLE;
}

static int open_it(const struct run *s, struct store **out) { return open_store_file(s, s->options->store, out); }

static int close_it(const struct run *s, struct store *store, enum store_outcome outcome) {
  if (outcome != STORE_DONE) complain("the store failed: %s", store_reason(store, s->arena));
  store_close(store);
  return outcome == STORE_DONE ? EXIT_COMPUTED : EXIT_TROUBLE;
}

static struct store_line row_of(const struct journal *j, const struct journal_entry *e, struct span body) {
  if (!e->is_fact) return (struct store_line){.kg = NAN, .animal = {"", 0}, .fact = {"", 0}, .body = body};
  return (struct store_line){e->day, span_of(j->name[e->animal]), span_of(journal_fact_word[e->fact]), e->kg, body};
}

/* The household's journal is a text like the others, which the page shows and the export holds; the rows with day and animal
 * beside each line follow it. One that is longer than a text may be is in the rows alone. */
static enum store_outcome write_rows(const struct run *s, struct store *store, const struct journal *j, struct span text) {
  struct store_lines now;
  int64_t save = 0;
  struct store_line *row = ARENA_NEW(s->arena, struct store_line, j->entry_count + 1);
  struct span rest = text;
  for (size_t i = 0; i < j->entry_count; i++) row[i] = row_of(j, &j->entry[i], span_piece(&rest, '\n')); /* one line each */
  enum store_outcome outcome = store_journal_read(store, span_of(HOUSEHOLD), 0, &now, s->arena);
  if (outcome != STORE_DONE) return outcome;
  return store_journal_write(store, span_of(HOUSEHOLD), row, j->entry_count, now.save, &save);
}

static enum store_outcome write_text(const struct run *s, struct store *store, struct span text) {
  struct store_text now, theirs;
  char at[STORE_SAVED_BYTES];
  bool found = false, other = false;
  int64_t rev = 0;
  if (!store_body_fits(text)) return STORE_DONE;
  enum store_outcome outcome = store_read(store, span_of(HOUSEHOLD), &now, &found, s->arena);
  if (outcome != STORE_DONE || (found && span_eq(now.body, text))) return outcome;
  store_now(at);
  const struct store_save save = {span_of(HOUSEHOLD), span_of(HOUSEHOLD), text, found ? now.rev : 0, true, at};
  return store_write(store, &save, &rev, &theirs, &other, s->arena);
}

int journal_to_store(const struct run *s, const struct journal *j) {
  struct store *store = NULL;
  struct buf text;
  int code = open_it(s, &store);
  if (code != EXIT_COMPUTED) return code;
  buf_init(&text, s->arena, ANSWER_MOST_BYTES);
  journal_print(j, &text);
  enum store_outcome outcome = write_text(s, store, buf_span(&text));
  if (outcome == STORE_DONE) outcome = write_rows(s, store, j, buf_span(&text));
  return close_it(s, store, outcome);
}

static enum store_outcome read_rows(const struct run *s, struct store *store, const char *path, struct buf *text,
                                    bool *found) {
  struct store_lines lines;
  enum store_outcome outcome = store_journal_read(store, span_of(HOUSEHOLD), 0, &lines, s->arena);
  if (outcome != STORE_DONE) return outcome;
  *found = lines.save > 0;
  if (lines.damaged > 0) complain("%zu lines of the journal in '%s' cannot be read; the others follow", lines.damaged, path);
  for (size_t i = 0; i < lines.count; i++) buf_addf(text, "%.*s\n", SPAN_ARG(lines.item[i].body));
  return outcome;
}

int journal_from_store(const struct run *s, const char *path, struct app_input *out) {
  struct store *store = NULL;
  struct store_text now;
  struct buf text;
  bool found = false;
  if (!file_exists(path)) {
    complain("there is no store '%s'", path);
    return EXIT_TROUBLE;
  }
  int code = open_store_file(s, path, &store);
  if (code != EXIT_COMPUTED) return code;
  buf_init(&text, s->arena, JOURNAL_MOST_BYTES);
  enum store_outcome outcome = store_read(store, span_of(HOUSEHOLD), &now, &found, s->arena);
  if (outcome == STORE_DONE && found) buf_add(&text, now.body);
  if (outcome == STORE_DONE && !found) outcome = read_rows(s, store, path, &text, &found);
  code = close_it(s, store, outcome);
  if (code != EXIT_COMPUTED) return code;
  if (!found) {
    complain("there is no journal in '%s'", path);
    return EXIT_TROUBLE;
  }
  *out = (struct app_input){path, {buf_text(&text), text.n}};
  return EXIT_COMPUTED;
}

/* For the page: a journal that was put into the store before it was a text there becomes one. */
int journal_as_text(const struct run *s, struct store *store) {
  struct store_text now;
  struct buf text;
  bool found = false;
  if (store_is_read_only(store)) return EXIT_COMPUTED;
  buf_init(&text, s->arena, JOURNAL_MOST_BYTES);
  enum store_outcome outcome = store_read(store, span_of(HOUSEHOLD), &now, &found, s->arena);
  if (outcome != STORE_DONE || found) return EXIT_COMPUTED;
  outcome = read_rows(s, store, s->options->store ? s->options->store : "the store", &text, &found);
  if (outcome == STORE_DONE && found) outcome = write_text(s, store, buf_span(&text));
  if (outcome != STORE_DONE) complain("the journal in the store could not be taken over for the page");
  return EXIT_COMPUTED;
}

int recipes_from_store(const struct run *s, const char *path, struct app_input *recipe, size_t *count, size_t most) {
  static const char EXAMPLE[] = "example-"; /* as the page names them */
  struct store *store = NULL;
  struct store_list texts;
  int code = open_store_file(s, path, &store);
  if (code != EXIT_COMPUTED) return code;
  enum store_outcome outcome = store_list(store, false, &texts, s->arena);
  for (size_t i = 0; outcome == STORE_DONE && i < texts.count && *count < most; i++) {
    const struct store_text *t = &texts.item[i];
    size_t n = strlen(EXAMPLE);
    bool example = t->id.n > n && memcmp(t->id.p, EXAMPLE, n) == 0;
    if (!span_is(t->kind, "recipe")) continue;
    const char *name = arena_text(s->arena, example ? span_cut(t->id, n, t->id.n) : t->id);
    recipe[(*count)++] = (struct app_input){name, {arena_text(s->arena, t->body), t->body.n}};
  }
  return close_it(s, store, outcome);
}
