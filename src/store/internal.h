/* internal.h: shared by the files of src/store and by nobody else. */
#ifndef BW_STORE_INTERNAL_H
#define BW_STORE_INTERNAL_H

#include <pthread.h>
#include <sqlite3.h>

#include "store/store.h"

/* ORDER STATEMENT: SQL[] in store.c. */
enum statement {
  BEGIN_READ,
  BEGIN_WRITE,
  COMMIT,
  ROLLBACK,
  LIST,
  READ,
  HEAD,
  KEEP,
  ADD_STATE,
  SET_HEAD,
  VERSIONS,
  ALL_VERSIONS,
  FIND_STATE,
  LAST_CHANGE,
  CHANGES,
  JOURNAL_SAVE,
  JOURNAL_LINES,
  JOURNAL_DAYS,
  JOURNAL_ADD,
  JOURNAL_GONE,
  JOURNAL_SET,
  STATEMENT_COUNT
};

struct store {
  sqlite3 *db;
  pthread_mutex_t turn;
  sqlite3_stmt *statement[STATEMENT_COUNT];
  bool read_only;
};

/* What a result code of SQLite means to us; SQLITE_OK, _ROW and _DONE are STORE_DONE. */
enum store_outcome outcome_of(int code);
enum store_outcome prepare_all(struct store *s) MUST_USE;

/* Resets the statement and forgets what was bound. */
sqlite3_stmt *fresh(struct store *s, enum statement which);
void bind_span(sqlite3_stmt *q, int at, struct span text);
/* Waits for the turn of this call. A change that an earlier call could not even take back is taken back first: no reader is
 * to see what was never committed. */
void take_turn(struct store *s);
/* Runs a statement that gives no rows. */
enum store_outcome run_through(sqlite3_stmt *q) MUST_USE;
enum store_outcome begin(struct store *s, enum statement how) MUST_USE;
/* Commits when all went well so far, else takes everything back; the first failure is what is returned. */
enum store_outcome finish(struct store *s, enum store_outcome so_far) MUST_USE;

struct head {
  bool known, removed;
  int64_t rev;
};
enum store_outcome read_head(struct store *s, struct span id, struct head *out) MUST_USE;
/* One new state on top; 'rev' must be above every rev of the text. */
enum store_outcome add_state(struct store *s, const struct store_text *t, bool kept) MUST_USE;
enum store_outcome set_head(struct store *s, struct span id, int64_t rev, bool removed) MUST_USE;
enum store_outcome mark_kept(struct store *s, struct span id, int64_t rev) MUST_USE;
/* *found as in store_read(). */
enum store_outcome read_newest(struct store *s, struct span id, struct store_text *out, bool *found,
                               struct arena *arena) MUST_USE;
/* Columns id, rev, kind, saved, body. False when the row is none of ours. */
bool read_row(sqlite3_stmt *q, struct store_text *out, struct arena *arena);
/* The row of 'q', which read_row() refused. */
void count_damaged(sqlite3_stmt *q, struct store_list *out, struct arena *arena);
/* Of what one row of 'state' says. */
int64_t sum_of(const struct store_text *t);

#endif
