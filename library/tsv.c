#include "library/writer.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/num.h"

static NO_RETURN PRINTF_LIKE(3, 0) void fail_at(const char *path, int line, const char *fmt, va_list args) {
  fprintf(stderr, "%s:%d: ", path, line);
  vfprintf(stderr, fmt, args);
  fputc('\n', stderr);
  exit(1);
}

static NO_RETURN PRINTF_LIKE(3, 4) void fail_line(const char *path, int line, const char *fmt, ...) {
  va_list args;
  va_start(args, fmt);
  fail_at(path, line, fmt, args);
}

void tsv_fail(const struct tsv *t, size_t row, const char *fmt, ...) {
  va_list args;
  va_start(args, fmt);
  fail_at(t->path, row < t->rows ? t->line[row] : 0, fmt, args);
}

static size_t split(struct span line, struct span *cell, size_t most) {
  size_t n = 0;
  for (bool more = true; more; n++) {
    more = line.n > 0 && memchr(line.p, '\t', line.n) != NULL;
    struct span piece = span_trim(span_piece(&line, '\t'));
    if (n < most) cell[n] = piece;
  }
  return n;
}

static size_t count_lines(struct span text) {
  size_t n = 1;
  for (size_t i = 0; i < text.n; i++) n += text.p[i] == '\n';
  return n;
}

static bool is_skipped(struct span line) { return span_trim(line).n == 0 || line.p[0] == '#'; }

enum { MOST_COLUMNS = 64 };

static void read_head(struct tsv *t, struct span line, int number) {
  t->head = ARENA_NEW(t->arena, struct span, MOST_COLUMNS);
  t->columns = split(line, t->head, MOST_COLUMNS);
  if (t->columns > MOST_COLUMNS) fail_line(t->path, number, "more than %d columns", MOST_COLUMNS);
  for (size_t i = 0; i < t->columns; i++)
    for (size_t j = i + 1; j < t->columns; j++)
      if (span_eq(t->head[i], t->head[j])) fail_line(t->path, number, "column '%.*s' stands twice", SPAN_ARG(t->head[i]));
}

static bool find_column(const struct tsv *t, const char *column, size_t *at) {
  for (size_t i = 0; i < t->columns; i++) {
    *at = i;
    if (span_is(t->head[i], column)) return true;
  }
  return false;
}

void tsv_read(struct tsv *t, const char *path, const char *const *wanted_columns, struct arena *arena) {
  *t = (struct tsv){.path = path, .arena = arena};
  struct span text = file_read(path, arena);
  size_t most = count_lines(text);
  t->line = ARENA_NEW(arena, int, most);
  for (int number = 1; text.n > 0; number++) {
    struct span line = span_piece(&text, '\n');
    if (is_skipped(line)) continue;
    if (t->columns == 0) {
      read_head(t, line, number);
      t->cell = ARENA_NEW(arena, struct span, most * t->columns);
      continue;
    }
    size_t found = split(line, t->cell + t->rows * t->columns, t->columns);
    if (found != t->columns) fail_line(path, number, "%zu cells where the first line names %zu columns", found, t->columns);
    t->line[t->rows++] = number;
  }
  if (t->columns == 0) fail_line(path, 1, "no line of column names");
  for (size_t at; wanted_columns && *wanted_columns; wanted_columns++)
    if (!find_column(t, *wanted_columns, &at)) fail_line(path, 1, "no column '%s'", *wanted_columns);
}

struct span tsv_cell(const struct tsv *t, size_t row, const char *column) {
  size_t at;
  if (!find_column(t, column, &at)) fail_line(t->path, 1, "no column '%s'", column);
  return t->cell[row * t->columns + at];
}

double tsv_number(const struct tsv *t, size_t row, const char *column) {
  struct span s = tsv_cell(t, row, column);
  double x;
  if (s.n == 0) return NAN;
  if (!num_parse(s, &x)) tsv_fail(t, row, "'%.*s' in column '%s' is not a number", SPAN_ARG(s), column);
  return x;
}

int tsv_word(const struct tsv *t, size_t row, const char *column, const char *const *words, int count) {
  struct span s = tsv_cell(t, row, column);
  for (int i = 0; i < count; i++)
    if (span_is(s, words[i])) return i;
  struct buf list;
  buf_init(&list, t->arena, 2000);
  for (int i = 0; i < count; i++) buf_addf(&list, "%s%s", i ? ", " : "", words[i]);
  tsv_fail(t, row, "'%.*s' in column '%s' is not one of: %s", SPAN_ARG(s), column, buf_text(&list));
}

struct span tsv_piece(struct span *cell, char mark) {
  return span_trim(span_piece(cell, mark));
}

uint32_t tsv_set(const struct tsv *t, size_t row, const char *column, struct span cell, const char *const *words,
                 int count) {
  uint32_t set = 0;
  if (cell.n == 0) return UINT32_MAX;
  while (cell.n > 0) {
    struct span piece = tsv_piece(&cell, '|');
    int found = -1;
    for (int i = 0; i < count; i++)
      if (span_is(piece, words[i])) found = i;
    if (found < 0) tsv_fail(t, row, "'%.*s' in column '%s' is not a word of this column", SPAN_ARG(piece), column);
    set |= 1u << found;
  }
  return set;
}

/* ---- sources ------------------------------------------------------------------------------------------------ */

/* The builder reads the table of sources once; every reader names its sources by key. */
static struct tsv sources;

void sources_read(struct writer *w, const char *data_dir) {
  static const char *const WANTED[] = {"key", "title", "licence", "confidence", NULL};
  tsv_read(&sources, path_join(w->arena, data_dir, "sources.tsv"), WANTED, w->arena);
  struct img_source *row = ARENA_NEW(w->arena, struct img_source, sources.rows + 1); /* row 0: no source */
  for (size_t i = 0; i < sources.rows; i++) {
    for (size_t j = 0; j < i; j++)
      if (span_eq(tsv_cell(&sources, i, "key"), tsv_cell(&sources, j, "key")))
        tsv_fail(&sources, i, "source '%.*s' stands twice", SPAN_ARG(tsv_cell(&sources, i, "key")));
    row[i + 1] =
        (struct img_source){writer_text(w, tsv_cell(&sources, i, "key")), writer_text(w, tsv_cell(&sources, i, "title")),
                            writer_text(w, tsv_cell(&sources, i, "licence")),
                            (uint32_t)tsv_word(&sources, i, "confidence", confidence_word, CONF_COUNT)};
  }
  writer_section(w, IMG_SOURCES, row, sources.rows + 1, sizeof *row);
}

static uint16_t find_source(struct span key) {
  for (size_t i = 0; i < sources.rows; i++)
    if (span_eq(tsv_cell(&sources, i, "key"), key)) return (uint16_t)(i + 1);
  return 0;
}

uint16_t source_index(const struct tsv *t, size_t row, const char *column) {
  struct span key = tsv_cell(t, row, column);
  uint16_t found = find_source(key);
  if (found == 0) tsv_fail(t, row, "source '%.*s' is not in sources.tsv", SPAN_ARG(key));
  return found;
}

uint16_t source_by_key(const char *key) {
  uint16_t found = find_source(span_of(key));
  if (found == 0) build_fail("%s: source '%s' is missing", sources.path, key);
  return found;
}
