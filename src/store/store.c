/* Reading and changing texts. Every change is one transaction that begins by taking the file's write lock. */
#include "base/table.h"
#include "store/internal.h"

#define LINE "line, day, animal, fact, kg, body, sum"
#define ROW "t.id, s.rev, s.kind, s.saved, s.body, s.sum"
static const char *const SQL[] = {
    [BEGIN_READ] = "BEGIN",
    [BEGIN_WRITE] = "BEGIN IMMEDIATE",
    [COMMIT] = "COMMIT",
    [ROLLBACK] = "ROLLBACK",
    [LIST] = "SELECT " ROW " FROM text t LEFT JOIN state s ON s.id = t.id AND s.rev = t.rev WHERE t.removed = ?1"
             " ORDER BY t.id",
    [READ] = "SELECT " ROW " FROM text t JOIN state s ON s.id = t.id AND s.rev = t.rev WHERE t.id = ?1 AND t.removed = 0",
    [HEAD] = "SELECT rev, removed FROM text WHERE id = ?1",
    [KEEP] = "UPDATE state SET kept = 1 WHERE id = ?1 AND rev = ?2",
    [ADD_STATE] = "INSERT INTO state (id, rev, kind, saved, body, kept, sum) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
    [SET_HEAD] = "INSERT INTO text (id, rev, removed, change)"
                 " VALUES (?1, ?2, ?3, (SELECT coalesce(max(change), 0) + 1 FROM text))"
                 " ON CONFLICT (id) DO UPDATE SET rev = excluded.rev, removed = excluded.removed, change = excluded.change",
    [VERSIONS] = "SELECT " ROW " FROM text t JOIN state s ON s.id = t.id"
                 " WHERE t.id = ?1 AND s.rev < ?2 AND (s.rev < t.rev OR t.removed) AND (s.kept OR ?3) ORDER BY s.rev DESC",
    [ALL_VERSIONS] = "SELECT " ROW " FROM text t JOIN state s ON s.id = t.id"
                     " WHERE (s.rev < t.rev OR t.removed) AND (s.kept OR ?1) ORDER BY t.id, s.rev DESC",
    [FIND_STATE] = "SELECT rev FROM state WHERE id = ?1 AND saved = ?2 AND body = ?3 ORDER BY rev DESC",
    [LAST_CHANGE] = "SELECT coalesce(max(change), 0) FROM text",
    [CHANGES] = ("SELECT change, id, CASE WHEN removed THEN 0 ELSE rev END FROM text"
                 " WHERE change > ?1 ORDER BY change LIMIT ?2"),
    [JOURNAL_SAVE] = "SELECT save FROM journal WHERE id = ?1",
    [JOURNAL_LINES] = "SELECT " LINE " FROM journal_line WHERE id = ?1 AND added <= ?2 AND (gone IS NULL OR gone > ?2)"
                      " ORDER BY line",
    [JOURNAL_DAYS] = "SELECT " LINE " FROM journal_line WHERE id = ?1 AND animal = ?2 AND day BETWEEN ?3 AND ?4"
                     " AND gone IS NULL ORDER BY day, line",
    [JOURNAL_ADD] = "INSERT INTO journal_line (id, line, added, day, animal, fact, kg, body, sum)"
                    " VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)",
    [JOURNAL_GONE] = "UPDATE journal_line SET gone = ?3 WHERE id = ?1 AND line > ?2 AND gone IS NULL",
    [JOURNAL_SET] = "INSERT INTO journal (id, save) VALUES (?1, ?2) ON CONFLICT (id) DO UPDATE SET save = excluded.save",
};
ROW_FOR_EACH(SQL, STATEMENT_COUNT);
ROW_FOR_EACH(SQL, STATEMENT_COUNT);

/* ---- outcomes ---- */

static enum store_outcome outcome_of_io(int extended) {
  switch (extended) {
  case SQLITE_IOERR_WRITE:
  case SQLITE_IOERR_FSYNC:
  case SQLITE_IOERR_DIR_FSYNC:
  case SQLITE_IOERR_TRUNCATE:
  case SQLITE_IOERR_SHMSIZE:
  case SQLITE_IOERR_SHMMAP:
    return STORE_NO_ROOM;
  case SQLITE_IOERR_CORRUPTFS:
  case SQLITE_IOERR_DATA:
  case SQLITE_IOERR_SHORT_READ:
    return STORE_DAMAGED;
  default:
    return STORE_TROUBLE;
  }
}

enum store_outcome outcome_of(int code) {
  switch (code & 0xFF) {
  case SQLITE_OK:
  case SQLITE_ROW:
  case SQLITE_DONE:
    return STORE_DONE;
  case SQLITE_FULL:
    return STORE_NO_ROOM;
  case SQLITE_BUSY:
  case SQLITE_LOCKED:
  case SQLITE_PROTOCOL:
    return STORE_BUSY;
  case SQLITE_CORRUPT:
  case SQLITE_NOTADB:
    return STORE_DAMAGED;
  case SQLITE_READONLY:
    return STORE_READ_ONLY;
  case SQLITE_IOERR:
    return outcome_of_io(code);
  default:
    return STORE_TROUBLE;
  }
}

/* ---- statements ---- */

enum store_outcome prepare_all(struct store *s) {
  for (int i = 0; i < STATEMENT_COUNT; i++) {
    int code = sqlite3_prepare_v3(s->db, SQL[i], -1, SQLITE_PREPARE_PERSISTENT, &s->statement[i], NULL);
    if (code != SQLITE_OK) return outcome_of(code);
  }
  return STORE_DONE;
}

sqlite3_stmt *fresh(struct store *s, enum statement which) {
  sqlite3_stmt *q = s->statement[which];
  sqlite3_reset(q);
  sqlite3_clear_bindings(q);
  return q;
}

/* The bytes outlive the step: no copy. A failed bind leaves NULL, which the schema refuses. */
void bind_span(sqlite3_stmt *q, int at, struct span text) {
  sqlite3_bind_text64(q, at, text.n > 0 ? text.p : "", text.n, SQLITE_STATIC, SQLITE_UTF8);
}

enum store_outcome run_through(sqlite3_stmt *q) {
  int code = sqlite3_step(q);
  sqlite3_reset(q);
  sqlite3_clear_bindings(q);
  return outcome_of(code);
}

/* SQLite would go on writing to a file that has no name any more. */
static bool is_where_it_was(struct store *s) {
  int moved = 0;
  return sqlite3_file_control(s->db, "main", SQLITE_FCNTL_HAS_MOVED, &moved) != SQLITE_OK || !moved;
}

void take_turn(struct store *s) {
  pthread_mutex_lock(&s->turn);
  if (sqlite3_get_autocommit(s->db)) return;
  enum store_outcome undone = run_through(fresh(s, ROLLBACK));
  (void)undone; /* what cannot be taken back yet makes the next change fail */
}

enum store_outcome begin(struct store *s, enum statement how) {
  if (how == BEGIN_WRITE && !is_where_it_was(s)) return STORE_MOVED;
  return run_through(fresh(s, how));
}

enum store_outcome finish(struct store *s, enum store_outcome so_far) {
  if (so_far == STORE_DONE) so_far = run_through(fresh(s, COMMIT));
  /* Some failures have taken everything back already. */
  if (so_far != STORE_DONE && !sqlite3_get_autocommit(s->db)) {
    enum store_outcome undone = run_through(fresh(s, ROLLBACK));
    (void)undone; /* the first failure is the one to tell; what is not committed is no part of the file */
  }
  return so_far;
}

/* ---- rows ---- */

static struct span column(sqlite3_stmt *q, int at) {
  const char *p = sqlite3_column_type(q, at) == SQLITE_TEXT ? (const char *)sqlite3_column_text(q, at) : NULL;
  return (struct span){p, p ? (size_t)sqlite3_column_bytes(q, at) : 0};
}

int64_t sum_of(const struct store_text *t) {
  const uint64_t of[] = {checksum64(t->id.p, t->id.n), checksum64(t->kind.p, t->kind.n), checksum64(t->saved.p, t->saved.n),
                         checksum64(t->body.p, t->body.n), (uint64_t)t->rev};
  return (int64_t)checksum64(of, sizeof of);
}

/* A bit that the medium lost would be read as if somebody had written it so. */
static bool sum_fits(sqlite3_stmt *q, const struct store_text *t) {
  return sqlite3_column_type(q, 5) == SQLITE_INTEGER && sqlite3_column_int64(q, 5) == sum_of(t);
}

bool read_row(sqlite3_stmt *q, struct store_text *out, struct arena *arena) {
  struct store_text t = {column(q, 0), column(q, 2), column(q, 4), column(q, 3), sqlite3_column_int64(q, 1)};
  if (!t.body.p || !store_id_fits(t.id) || !store_kind_known(t.kind) || !store_saved_fits(t.saved) ||
      !store_body_fits(t.body) || t.rev < 1 || !sum_fits(q, &t))
    return false;
  *out = (struct store_text){arena_span(arena, t.id), arena_span(arena, t.kind), arena_span(arena, t.body),
                             arena_span(arena, t.saved), t.rev};
  return true;
}

void count_damaged(sqlite3_stmt *q, struct store_list *out, struct arena *arena) {
  struct span id = column(q, 0);
  out->damaged++;
  if (!id.p || !store_id_fits(id)) id = (struct span){"", 0};
  for (size_t i = 0; i < out->damaged_ids; i++)
    if (span_eq(out->damaged_id[i], id)) return;
  ARENA_PUSH(arena, out->damaged_id, out->damaged_ids, out->damaged_cap, arena_span(arena, id));
}

static enum store_outcome read_rows(sqlite3_stmt *q, size_t most, size_t most_bytes, struct store_list *out,
                                    struct arena *arena) {
  size_t bytes = 0;
  int code;
  while ((code = sqlite3_step(q)) == SQLITE_ROW) {
    struct store_text t;
    size_t n = (size_t)sqlite3_column_bytes(q, 4);
    if (out->count >= most || (out->count > 0 && bytes + n > most_bytes)) {
      out->more = true;
      break;
    }
    if (!read_row(q, &t, arena)) {
      count_damaged(q, out, arena);
      continue;
    }
    bytes += t.body.n;
    ARENA_PUSH(arena, out->item, out->count, out->cap, t);
  }
  sqlite3_reset(q);
  return outcome_of(code);
}

enum store_outcome read_head(struct store *s, struct span id, struct head *out) {
  sqlite3_stmt *q = fresh(s, HEAD);
  bind_span(q, 1, id);
  int code = sqlite3_step(q);
  *out = (struct head){0};
  if (code == SQLITE_ROW) *out = (struct head){true, sqlite3_column_int(q, 1) != 0, sqlite3_column_int64(q, 0)};
  sqlite3_reset(q);
  return outcome_of(code);
}

enum store_outcome read_newest(struct store *s, struct span id, struct store_text *out, bool *found, struct arena *arena) {
  sqlite3_stmt *q = fresh(s, READ);
  bind_span(q, 1, id);
  int code = sqlite3_step(q);
  *found = code == SQLITE_ROW && read_row(q, out, arena);
  sqlite3_reset(q);
  return outcome_of(code);
}

enum store_outcome add_state(struct store *s, const struct store_text *t, bool kept) {
  sqlite3_stmt *q = fresh(s, ADD_STATE);
  bind_span(q, 1, t->id);
  sqlite3_bind_int64(q, 2, t->rev);
  bind_span(q, 3, t->kind);
  bind_span(q, 4, t->saved);
  bind_span(q, 5, t->body);
  sqlite3_bind_int(q, 6, kept);
  sqlite3_bind_int64(q, 7, sum_of(t));
  return run_through(q);
}

enum store_outcome set_head(struct store *s, struct span id, int64_t rev, bool removed) {
  sqlite3_stmt *q = fresh(s, SET_HEAD);
  bind_span(q, 1, id);
  sqlite3_bind_int64(q, 2, rev);
  sqlite3_bind_int(q, 3, removed);
  return run_through(q);
}

enum store_outcome mark_kept(struct store *s, struct span id, int64_t rev) {
  sqlite3_stmt *q = fresh(s, KEEP);
  bind_span(q, 1, id);
  sqlite3_bind_int64(q, 2, rev);
  return run_through(q);
}

/* ---- the calls ---- */

enum store_outcome store_list(struct store *s, bool removed, struct store_list *out, struct arena *arena) {
  *out = (struct store_list){0};
  take_turn(s);
  sqlite3_stmt *q = fresh(s, LIST);
  sqlite3_bind_int(q, 1, removed);
  enum store_outcome outcome = read_rows(q, SIZE_MAX, SIZE_MAX, out, arena);
  pthread_mutex_unlock(&s->turn);
  return outcome;
}

enum store_outcome store_read(struct store *s, struct span id, struct store_text *out, bool *found, struct arena *arena) {
  take_turn(s);
  enum store_outcome outcome = read_newest(s, id, out, found, arena);
  pthread_mutex_unlock(&s->turn);
  return outcome;
}

static int64_t newest_rev(const struct head *h) { return h->known && !h->removed ? h->rev : 0; }

/* Within a transaction: the state of the text, and STORE_CONFLICT with what is there when 'base' is not its newest rev. */
static enum store_outcome compare(struct store *s, struct span id, int64_t base, struct head *head,
                                  struct store_text *theirs, bool *found, struct arena *arena) {
  enum store_outcome outcome = read_head(s, id, head);
  if (outcome != STORE_DONE || newest_rev(head) == base) return outcome;
  outcome = read_newest(s, id, theirs, found, arena);
  return outcome == STORE_DONE ? STORE_CONFLICT : outcome;
}

static enum store_outcome swap(struct store *s, const struct store_save *save, const struct head *head, int64_t rev) {
  enum store_outcome outcome = STORE_DONE;
  const struct store_text t = {save->id, save->kind, save->body, span_of(save->at), rev};
  if (save->keep && save->base > 0) outcome = mark_kept(s, save->id, head->rev);
  if (outcome == STORE_DONE) outcome = add_state(s, &t, false);
  return outcome == STORE_DONE ? set_head(s, save->id, rev, false) : outcome;
}

enum store_outcome store_write(struct store *s, const struct store_save *save, int64_t *rev, struct store_text *theirs,
                               bool *found, struct arena *arena) {
  struct head head = {0};
  *found = false;
  *rev = 0;
  if (!store_id_fits(save->id) || !store_kind_known(save->kind) || !store_body_fits(save->body)) return STORE_TROUBLE;
  take_turn(s);
  enum store_outcome outcome = begin(s, BEGIN_WRITE);
  if (outcome == STORE_DONE) {
    outcome = compare(s, save->id, save->base, &head, theirs, found, arena);
    if (outcome == STORE_DONE) outcome = swap(s, save, &head, head.rev + 1);
    outcome = finish(s, outcome);
  }
  pthread_mutex_unlock(&s->turn);
  if (outcome == STORE_DONE) *rev = head.rev + 1;
  return outcome;
}

enum store_outcome store_remove(struct store *s, struct span id, int64_t base, struct store_text *theirs, bool *found,
                                struct arena *arena) {
  struct head head = {0};
  *found = false;
  take_turn(s);
  enum store_outcome outcome = begin(s, BEGIN_WRITE);
  if (outcome == STORE_DONE) {
    outcome = read_head(s, id, &head);
    if (outcome == STORE_DONE && newest_rev(&head) > 0) {
      outcome = compare(s, id, base, &head, theirs, found, arena);
      if (outcome == STORE_DONE) outcome = mark_kept(s, id, head.rev);
      if (outcome == STORE_DONE) outcome = set_head(s, id, head.rev, true);
    }
    outcome = finish(s, outcome);
  }
  pthread_mutex_unlock(&s->turn);
  return outcome;
}

enum store_outcome store_versions(struct store *s, struct span id, const struct store_versions_wish *wish,
                                  struct store_list *out, struct arena *arena) {
  *out = (struct store_list){0};
  take_turn(s);
  sqlite3_stmt *q = fresh(s, VERSIONS);
  bind_span(q, 1, id);
  sqlite3_bind_int64(q, 2, wish->before > 0 ? wish->before : INT64_MAX);
  sqlite3_bind_int(q, 3, wish->every);
  enum store_outcome outcome = read_rows(q, wish->most, wish->most_bytes, out, arena);
  pthread_mutex_unlock(&s->turn);
  return outcome;
}

enum store_outcome store_last_change(struct store *s, int64_t *number) {
  take_turn(s);
  sqlite3_stmt *q = fresh(s, LAST_CHANGE);
  int code = sqlite3_step(q);
  *number = code == SQLITE_ROW ? sqlite3_column_int64(q, 0) : 0;
  sqlite3_reset(q);
  pthread_mutex_unlock(&s->turn);
  return outcome_of(code);
}

enum store_outcome store_changes(struct store *s, int64_t number, size_t most, struct store_change **out, size_t *count,
                                 struct arena *arena) {
  size_t cap = 0;
  int code;
  *out = NULL;
  *count = 0;
  take_turn(s);
  sqlite3_stmt *q = fresh(s, CHANGES);
  sqlite3_bind_int64(q, 1, number);
  sqlite3_bind_int64(q, 2, (int64_t)most);
  while ((code = sqlite3_step(q)) == SQLITE_ROW) {
    struct store_change c = {sqlite3_column_int64(q, 0), arena_span(arena, column(q, 1)), sqlite3_column_int64(q, 2)};
    ARENA_PUSH(arena, *out, *count, cap, c);
  }
  sqlite3_reset(q);
  pthread_mutex_unlock(&s->turn);
  return outcome_of(code);
}
