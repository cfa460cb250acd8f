#include "store/journal_rows.h"

#include <math.h>

#include "store/internal.h"

static struct span column(sqlite3_stmt *q, int at) {
  const char *p = sqlite3_column_type(q, at) == SQLITE_TEXT ? (const char *)sqlite3_column_text(q, at) : NULL;
  return (struct span){p, p ? (size_t)sqlite3_column_bytes(q, at) : 0};
}

static int64_t sum_of_line(const struct store_line *l, int64_t line) {
  double kg = isnan(l->kg) ? 0 : l->kg;
  uint64_t of[6] = {checksum64(l->animal.p, l->animal.n),
                    checksum64(l->fact.p, l->fact.n),
                    checksum64(l->body.p, l->body.n),
                    (uint64_t)l->day,
                    (uint64_t)line,
                    0};
  memcpy(&of[5], &kg, sizeof kg);
  return (int64_t)checksum64(of, sizeof of);
}

/* Columns line, day, animal, fact, kg, body, sum. */
static bool read_line(sqlite3_stmt *q, struct store_line *out, int64_t *line) {
  bool has_kg = sqlite3_column_type(q, 4) == SQLITE_FLOAT;
  *line = sqlite3_column_int64(q, 0);
  *out = (struct store_line){.day = sqlite3_column_int64(q, 1),
                             .animal = column(q, 2),
                             .fact = column(q, 3),
                             .kg = has_kg ? sqlite3_column_double(q, 4) : (double)NAN,
                             .body = column(q, 5)};
  return out->body.p && sqlite3_column_int64(q, 6) == sum_of_line(out, *line);
}

static enum store_outcome read_lines(sqlite3_stmt *q, struct store_lines *out, struct arena *arena) {
  int code;
  while ((code = sqlite3_step(q)) == SQLITE_ROW) {
    struct store_line l;
    int64_t line;
    if (!read_line(q, &l, &line)) {
      out->damaged++;
      continue;
    }
    l.animal = arena_span(arena, l.animal);
    l.fact = arena_span(arena, l.fact);
    l.body = arena_span(arena, l.body);
    ARENA_PUSH(arena, out->item, out->count, out->cap, l);
  }
  sqlite3_reset(q);
  return outcome_of(code);
}

static enum store_outcome newest_save(struct store *s, struct span id, int64_t *save) {
  sqlite3_stmt *q = fresh(s, JOURNAL_SAVE);
  bind_span(q, 1, id);
  int code = sqlite3_step(q);
  *save = code == SQLITE_ROW ? sqlite3_column_int64(q, 0) : 0;
  sqlite3_reset(q);
  return outcome_of(code);
}

static bool same_double(double a, double b) { return a == b || (isnan(a) && isnan(b)); }

/* How many lines at the beginning are there already, as they are. */
static enum store_outcome lines_alike(struct store *s, struct span id, int64_t save, const struct store_line *line,
                                      size_t count, size_t *alike) {
  sqlite3_stmt *q = fresh(s, JOURNAL_LINES);
  bind_span(q, 1, id);
  sqlite3_bind_int64(q, 2, save);
  int code;
  *alike = 0;
  while ((code = sqlite3_step(q)) == SQLITE_ROW && *alike < count) {
    struct store_line l;
    int64_t at;
    const struct store_line *want = &line[*alike];
    if (!read_line(q, &l, &at) || at != (int64_t)*alike + 1 || !span_eq(l.body, want->body) || l.day != want->day ||
        !span_eq(l.animal, want->animal) || !span_eq(l.fact, want->fact) || !same_double(l.kg, want->kg))
      break;
    ++*alike;
  }
  sqlite3_reset(q);
  return outcome_of(code);
}

static enum store_outcome add_line(struct store *s, struct span id, int64_t at, int64_t save, const struct store_line *l) {
  sqlite3_stmt *q = fresh(s, JOURNAL_ADD);
  bind_span(q, 1, id);
  sqlite3_bind_int64(q, 2, at);
  sqlite3_bind_int64(q, 3, save);
  if (l->day != 0) sqlite3_bind_int64(q, 4, l->day);
  if (l->animal.n > 0) bind_span(q, 5, l->animal);
  if (l->fact.n > 0) bind_span(q, 6, l->fact);
  if (!isnan(l->kg)) sqlite3_bind_double(q, 7, l->kg);
  bind_span(q, 8, l->body);
  sqlite3_bind_int64(q, 9, sum_of_line(l, at));
  return run_through(q);
}

static enum store_outcome change_lines(struct store *s, struct span id, const struct store_line *line, size_t count,
                                       int64_t base, int64_t *save) {
  size_t alike = 0;
  enum store_outcome outcome = newest_save(s, id, save);
  if (outcome != STORE_DONE) return outcome;
  if (*save != base) return STORE_CONFLICT;
  outcome = lines_alike(s, id, *save, line, count, &alike);
  int64_t next = *save + 1;
  if (outcome == STORE_DONE) {
    sqlite3_stmt *q = fresh(s, JOURNAL_GONE);
    bind_span(q, 1, id);
    sqlite3_bind_int64(q, 2, (int64_t)alike);
    sqlite3_bind_int64(q, 3, next);
    outcome = run_through(q);
  }
  for (size_t i = alike; i < count && outcome == STORE_DONE; i++) outcome = add_line(s, id, (int64_t)i + 1, next, &line[i]);
  if (outcome == STORE_DONE) {
    sqlite3_stmt *q = fresh(s, JOURNAL_SET);
    bind_span(q, 1, id);
    sqlite3_bind_int64(q, 2, next);
    outcome = run_through(q);
  }
  if (outcome == STORE_DONE) *save = next;
  return outcome;
}

enum store_outcome store_journal_write(struct store *s, struct span id, const struct store_line *line, size_t count,
                                       int64_t base, int64_t *save) {
  *save = 0;
  if (s->read_only) return STORE_READ_ONLY;
  take_turn(s);
  enum store_outcome outcome = begin(s, BEGIN_WRITE);
  if (outcome == STORE_DONE) outcome = finish(s, change_lines(s, id, line, count, base, save));
  pthread_mutex_unlock(&s->turn);
  return outcome;
}

enum store_outcome store_journal_read(struct store *s, struct span id, int64_t save, struct store_lines *out,
                                      struct arena *arena) {
  *out = (struct store_lines){.item = NULL};
  take_turn(s);
  enum store_outcome outcome = begin(s, BEGIN_READ);
  if (outcome == STORE_DONE) {
    outcome = newest_save(s, id, &out->save);
    sqlite3_stmt *q = fresh(s, JOURNAL_LINES);
    bind_span(q, 1, id);
    sqlite3_bind_int64(q, 2, save > 0 ? save : out->save);
    if (outcome == STORE_DONE) outcome = read_lines(q, out, arena);
    outcome = finish(s, outcome);
  }
  pthread_mutex_unlock(&s->turn);
  return outcome;
}

enum store_outcome store_journal_days(struct store *s, struct span id, struct span animal, int64_t from, int64_t to,
                                      struct store_lines *out, struct arena *arena) {
  *out = (struct store_lines){.item = NULL};
  take_turn(s);
  enum store_outcome outcome = begin(s, BEGIN_READ);
  if (outcome == STORE_DONE) {
    outcome = newest_save(s, id, &out->save);
    sqlite3_stmt *q = fresh(s, JOURNAL_DAYS);
    bind_span(q, 1, id);
    bind_span(q, 2, animal);
    sqlite3_bind_int64(q, 3, from);
    sqlite3_bind_int64(q, 4, to);
    if (outcome == STORE_DONE) outcome = read_lines(q, out, arena);
    outcome = finish(s, outcome);
  }
  pthread_mutex_unlock(&s->turn);
  return outcome;
}
