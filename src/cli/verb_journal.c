/* bowlwright journal: the journal read, put in order, added to, as a table, and in the store. */
#include "app/app_entry.h"
#include "base/num.h"
#include "cli/run.h"
#include "journal/journal.h"
#include "journal/journal_csv.h"

static bool ends_in(const char *path, const char *end) {
  size_t n = strlen(path), m = strlen(end);
  return n > m && strcmp(path + n - m, end) == 0;
}

/* The animals of --for, if any: names that the journal may use. */
static int known_animals(const struct run *s, struct journal_known *out) {
  struct app_check_request q;
  struct diags d;
  struct animal *all = NULL;
  size_t count = 0;
  *out = (struct journal_known){.today = date_days(s->today)};
  int code = ask_about(s, &q);
  if (code != EXIT_COMPUTED || !q.animals.name) return code;
  bool fine = app_animals(&q.animals, s->today, &d, &all, &count, s->arena);
  show_diags(s, &d, s->arena);
  if (!fine) return EXIT_NOT_UNDERSTOOD;
  const char **name = ARENA_NEW(s->arena, const char *, count + 1);
  for (size_t i = 0; i < count; i++) name[i] = all[i].name;
  out->name = name;
  out->name_count = count;
  return EXIT_COMPUTED;
}

/* A table of which a text was made; complaints about that text are told of the table's rows. */
struct table {
  struct span text;
  const int *row_line; /* NULL: there is none */
};

static int table_as_text(const struct run *s, struct app_input *in, struct table *from) {
  struct diags d;
  struct buf text;
  buf_init(&text, s->arena, JOURNAL_MOST_BYTES);
  diags_init(&d, s->arena, in->name, in->text);
  bool fine = journal_csv_read(in->text, &d, &text, &from->row_line, s->arena);
  from->text = in->text;
  show_diags(s, &d, s->arena);
  in->text = (struct span){buf_text(&text), text.n};
  return fine ? EXIT_COMPUTED : EXIT_NOT_UNDERSTOOD;
}

static void tell_of_rows(const struct table *from, struct diags *d) {
  if (!from->row_line) return;
  for (size_t i = 0; i < d->count; i++) {
    if (d->item[i].line > 0) d->item[i].line = from->row_line[d->item[i].line - 1];
    d->item[i].column = d->item[i].width = 1;
  }
  d->text = from->text;
}

static const char *line_to_add(const struct run *s) {
  return app_entry_line(span_of(s->options->add), date_days(s->today), s->arena);
}

/* Only what is understood is added; what the new line is asked about is said. */
static int add(const struct run *s, const struct journal_known *known, struct app_input *in) {
  struct buf all;
  struct diags before, after;
  struct journal j;
  buf_init(&all, s->arena, JOURNAL_MOST_BYTES);
  buf_add(&all, in->text);
  if (all.n > 0 && all.p[all.n - 1] != '\n') buf_addc(&all, '\n');
  diags_init(&before, s->arena, in->name, in->text);
  bool was_fine = journal_read(in->text, known, &before, &j, s->arena);
  buf_addf(&all, "%s\n", line_to_add(s));
  diags_init(&after, s->arena, in->name, buf_span(&all));
  bool fine = journal_read(buf_span(&all), known, &after, &j, s->arena);
  if (!was_fine || !fine) {
    show_diags(s, was_fine ? &after : &before, s->arena);
    return EXIT_NOT_UNDERSTOOD;
  }
  in->text = buf_span(&all);
  return EXIT_COMPUTED;
}

/* The file with the new line, as it was otherwise; the line itself is shown. */
static int keep_added(const struct run *s, const char *path, struct span text) {
  struct buf all, line;
  buf_init(&all, s->arena, JOURNAL_MOST_BYTES + 1);
  buf_add(&all, text);
  int code = rewrite_file(s, path, &all);
  buf_init(&line, s->arena, JOURNAL_LINE_MOST + 1);
  buf_addf(&line, "%s\n", line_to_add(s));
  return code == EXIT_COMPUTED ? write_answer(&line) : code;
}

int verb_journal(struct run *s) {
  const struct options *o = s->options;
  const char *path = o->operand.count > 0 ? o->operand.item[0] : NULL;
  struct app_input in = {"", {NULL, 0}};
  struct journal_known known;
  struct journal j;
  struct diags d;
  struct buf out;
  struct table table = {.row_line = NULL};
  if (!path && !o->store) {
    complain("'journal' needs a journal, or --store FILE to take one out of");
    return EXIT_USAGE;
  }
  if (o->add && (!path || strcmp(path, "-") == 0 || ends_in(path, ".csv"))) {
    complain("--add adds a line to the text of a journal: name its file");
    return EXIT_USAGE;
  }
  int code = o->store ? store_ready(s) : EXIT_COMPUTED;
  if (code == EXIT_COMPUTED) code = known_animals(s, &known);
  bool fresh = o->add && path && !file_exists(path);
  if (code == EXIT_COMPUTED && fresh) in.name = path;
  if (code == EXIT_COMPUTED && path && !fresh) code = read_long_text(path, &in, s->arena);
  if (code == EXIT_COMPUTED && !path) code = journal_from_store(s, o->store, &in);
  if (code == EXIT_COMPUTED && path && ends_in(path, ".csv")) code = table_as_text(s, &in, &table);
  if (code == EXIT_COMPUTED && o->add) code = add(s, &known, &in);
  if (code != EXIT_COMPUTED) return code;
  diags_init(&d, s->arena, in.name, in.text);
  bool fine = journal_read(in.text, &known, &d, &j, s->arena);
  tell_of_rows(&table, &d);
  show_diags(s, &d, s->arena);
  if (!fine) return EXIT_NOT_UNDERSTOOD;
  buf_init(&out, s->arena, ANSWER_MOST_BYTES);
  if (o->csv) {
    journal_csv_print(&j, &out);
  } else {
    journal_print(&j, &out);
  }
  if (o->store && path) code = journal_to_store(s, &j);
  if (code != EXIT_COMPUTED) return code;
  return o->add ? keep_added(s, path, in.text) : write_answer(&out);
}
