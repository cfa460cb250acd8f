/* The store's file: made, checked before it is trusted, copied. */
#define _POSIX_C_SOURCE 200809L
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "store/internal.h"

enum {
  APPLICATION_ID = 0x426F776C, /* "Bowl" */
  SCHEMA_VERSION = 3,
  BUSY_MILLISECONDS = 5000,
  SMALLEST_DATABASE = 512, /* bytes: SQLite takes any smaller file for an empty one, and writes over it */
  PATH_MOST = 4096
};

/* How a file can be used. */
enum way { WAY_SHARED, WAY_ALONE, WAY_READ_ONLY };

/* A text is its id and the rev of its newest state; what it says and ever said stands in 'state', where rows are only ever
 * added. 'change' orders the changes of the whole store. 'sum' is sum_of() of the row. Format 1 had no sums, format 2 no
 * journals (journal_rows.h: 'added' and 'gone' are saves). */
#define JOURNALS                                                                                                            \
  "CREATE TABLE journal (id TEXT PRIMARY KEY NOT NULL, save INTEGER NOT NULL CHECK (save >= 1)) STRICT;"                    \
  "CREATE TABLE journal_line (id TEXT NOT NULL, line INTEGER NOT NULL CHECK (line >= 1), added INTEGER NOT NULL,"           \
  " gone INTEGER, day INTEGER, animal TEXT, fact TEXT, kg REAL, body TEXT NOT NULL, sum INTEGER NOT NULL,"                  \
  " PRIMARY KEY (id, line, added)) STRICT;"                                                                                 \
  "CREATE INDEX journal_day ON journal_line (id, animal, day, line) WHERE gone IS NULL;"
static const char SCHEMA[] =
    "CREATE TABLE text (id TEXT PRIMARY KEY NOT NULL, rev INTEGER NOT NULL CHECK (rev >= 1),"
    " removed INTEGER NOT NULL CHECK (removed IN (0, 1)), change INTEGER NOT NULL UNIQUE) STRICT;"
    "CREATE TABLE state (id TEXT NOT NULL, rev INTEGER NOT NULL CHECK (rev >= 1), kind TEXT NOT NULL, saved TEXT NOT NULL,"
    " body TEXT NOT NULL, kept INTEGER NOT NULL CHECK (kept IN (0, 1)),"
    " sum INTEGER NOT NULL, PRIMARY KEY (id, rev)) STRICT;"
    "CREATE INDEX state_saved ON state (id, saved, rev);" /* an import asks for each state whether it is here */
    JOURNALS "PRAGMA application_id = 0x426F776C;"
    "PRAGMA user_version = 3;";
/* bw_sum() is sum_of() (give_sums). What stands in a file of format 1 is taken for what was written. */
static const char FROM_1[] = "ALTER TABLE state ADD COLUMN sum INTEGER NOT NULL DEFAULT 0;"
                             "UPDATE state SET sum = bw_sum(id, rev, kind, saved, body);"
                             "PRAGMA user_version = 2;";
static const char FROM_2[] = JOURNALS "PRAGMA user_version = 3;";
/* A file without journals that may only be read has none. */
static const char READ_AS_3[] =
    "CREATE TEMP VIEW journal AS SELECT '' AS id, 0 AS save WHERE 0;"
    "CREATE TEMP VIEW journal_line AS SELECT '' AS id, 0 AS line, 0 AS added, 0 AS gone, 0 AS day, '' AS animal,"
    " '' AS fact, 0.0 AS kg, '' AS body, 0 AS sum WHERE 0;"
    "CREATE TEMP TRIGGER no_journal INSTEAD OF INSERT ON journal BEGIN SELECT RAISE(ABORT, 'read only'); END;"
    "CREATE TEMP TRIGGER no_line INSTEAD OF INSERT ON journal_line BEGIN SELECT RAISE(ABORT, 'read only'); END;"
    "CREATE TEMP TRIGGER no_change INSTEAD OF UPDATE ON journal_line BEGIN SELECT RAISE(ABORT, 'read only'); END;";
/* A file of format 1 that may only be read: the sums are those of what is there. */
static const char READ_AS_2[] = "CREATE TEMP VIEW state AS SELECT id, rev, kind, saved, body, kept, bw_sum(id, rev, kind, "
                                "saved, body) AS sum FROM main.state;";

/* ---- words ---- */

static enum store_outcome say(struct buf *why, enum store_outcome outcome, const char *words) {
  buf_adds(why, words);
  return outcome;
}

static enum store_outcome explain(sqlite3 *db, int code, struct buf *why) {
  enum store_outcome outcome = outcome_of(code);
  switch (outcome) {
  case STORE_DAMAGED:
    buf_addf(why,
             "it is damaged, or it is not a store of texts (%s); it was left as it is: put it aside and restore a backup",
             sqlite3_errstr(code));
    break;
  case STORE_NO_ROOM:
    buf_adds(why, "there is no room on the disk, or it refuses to write; nothing was changed");
    break;
  case STORE_BUSY:
    buf_adds(why, "another program keeps it locked");
    break;
  default:
    buf_addf(why, "it cannot be opened (%s)", db ? sqlite3_errmsg(db) : sqlite3_errstr(code));
    outcome = STORE_TROUBLE;
  }
  return outcome;
}

/* ---- folder and file ---- */

/* 0 or an errno. Makes the folders above 'path'. */
static int make_folders(const char *path) {
  char folder[PATH_MOST];
  size_t n = strlen(path);
  if (n >= sizeof folder) return ENAMETOOLONG;
  for (size_t i = 1; i < n; i++) {
    if (path[i] != '/') continue;
    memcpy(folder, path, i);
    folder[i] = '\0';
    struct stat st;
    if (mkdir(folder, 0700) != 0 && errno != EEXIST && stat(folder, &st) != 0) return errno;
  }
  return 0;
}

/* 0 or an errno. An existing file is not even opened: closing it would drop the locks that this process may hold on it. */
static int make_file(const char *path) {
  int fd = open(path, O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
  if (fd < 0) return errno;
  close(fd);
  return 0;
}

static enum store_outcome prepare_file(const char *path, struct buf *why) {
  struct stat st;
  int error = make_folders(path);
  if (error == 0) error = make_file(path);
  bool there =
      error == EEXIST || ((error == EROFS || error == EACCES || error == ENOSPC || error == EDQUOT) && stat(path, &st) == 0);
  if (there) error = stat(path, &st) != 0 ? errno : S_ISREG(st.st_mode) ? 0 : EISDIR;
  if (there && error == 0 && st.st_size > 0 && st.st_size < SMALLEST_DATABASE)
    return say(
        why, STORE_DAMAGED,
        "it is too short to be a store of texts; it was left as it is: if it was one, put it aside and restore a backup");
  if (error == 0) return STORE_DONE;
  if (error == ENOSPC || error == EDQUOT) return say(why, STORE_NO_ROOM, "there is no room on the disk");
  return say(why, STORE_TROUBLE, error == EISDIR ? "it is not a file" : strerror(error));
}

/* SQLite reads "file:x" as an address and ":memory:" as no file at all; what begins with a slash or a point is a name. */
static int open_file(const char *path, sqlite3 **out) {
  char name[PATH_MOST + 2];
  snprintf(name, sizeof name, "%s%s", path[0] == '/' ? "" : "./", path);
  return sqlite3_open_v2(name, out, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX, NULL);
}

/* On a medium that may not be written SQLite cannot make the files beside a WAL database; told that nobody can change the
 * file ("immutable") it reads it without them. What a log beside it holds would then be missed. */
static int open_unwritable(const char *path, sqlite3 **out) {
  char name[3 * PATH_MOST + 64] = "file:";
  size_t n = strlen(name);
  if (path[0] != '/') n += (size_t)snprintf(name + n, 3, "./");
  for (const char *p = path; *p && n < 3 * PATH_MOST; p++) n += (size_t)snprintf(name + n, 4, "%%%02X", (unsigned char)*p);
  snprintf(name + n, sizeof name - n, "?mode=ro&immutable=1");
  return sqlite3_open_v2(name, out, SQLITE_OPEN_READONLY | SQLITE_OPEN_URI | SQLITE_OPEN_NOMUTEX, NULL);
}

static bool has_log(const char *path) {
  char log[PATH_MOST + 8];
  struct stat st;
  snprintf(log, sizeof log, "%s-wal", path);
  return stat(log, &st) == 0 && st.st_size > 0;
}

static bool may_write(const char *path) { return faccessat(AT_FDCWD, path, W_OK, AT_EACCESS) == 0; }

/* ---- pragmas ---- */

static int ask_number(sqlite3 *db, const char *sql, int64_t *out) {
  sqlite3_stmt *q = NULL;
  int code = sqlite3_prepare_v2(db, sql, -1, &q, NULL);
  if (code == SQLITE_OK) code = sqlite3_step(q);
  if (code == SQLITE_ROW) {
    *out = sqlite3_column_int64(q, 0);
    code = SQLITE_OK;
  }
  sqlite3_finalize(q);
  return code == SQLITE_DONE ? SQLITE_ERROR : code;
}

/* SQLITE_OK when the pragma's one answer is 'want'; what it says instead goes to 'said' when that is given. */
static int ask_word(sqlite3 *db, const char *sql, const char *want, struct buf *said) {
  sqlite3_stmt *q = NULL;
  int code = sqlite3_prepare_v2(db, sql, -1, &q, NULL);
  if (code == SQLITE_OK) code = sqlite3_step(q);
  if (code == SQLITE_ROW) {
    const char *word = (const char *)sqlite3_column_text(q, 0);
    code = word && strcmp(word, want) == 0 ? SQLITE_OK : SQLITE_CORRUPT;
    if (code != SQLITE_OK && said && word) buf_adds(said, word);
  }
  sqlite3_finalize(q);
  return code;
}

/* Two programs that open a fresh file at once: the later waits. SQLite does not wait by itself when the mode changes. */
static int to_wal(sqlite3 *db) {
  const struct timespec pause = {0, 20 * 1000 * 1000};
  int code = SQLITE_BUSY;
  for (int i = 0; i < BUSY_MILLISECONDS / 20 && (code & 0xFF) == SQLITE_BUSY; i++) {
    if (i > 0) nanosleep(&pause, NULL);
    code = ask_word(db, "PRAGMA journal_mode = WAL", "wal", NULL);
  }
  return code;
}

/* ---- checking ---- */

/* Sets *is_new for a file without anything in it. */
static enum store_outcome check_origin(sqlite3 *db, bool *is_new, struct buf *why) {
  int64_t tables = 0, application = 0, version = 0;
  int code = ask_number(db, "SELECT count(*) FROM sqlite_schema", &tables);
  if (code == SQLITE_OK) code = ask_number(db, "PRAGMA application_id", &application);
  if (code == SQLITE_OK) code = ask_number(db, "PRAGMA user_version", &version);
  if (code != SQLITE_OK) return explain(db, code, why);
  *is_new = tables == 0 && application == 0 && version == 0;
  if (*is_new) return STORE_DONE;
  if (application != APPLICATION_ID)
    return say(why, STORE_FOREIGN, "it is a database of another program; it was left as it is");
  if (version > SCHEMA_VERSION) {
    buf_addf(why, "a newer edition of this program made it (format %ld, this one knows %d); it was left as it is",
             (long)version, SCHEMA_VERSION);
    return STORE_NEWER;
  }
  if (version < 1 || tables == 0) return explain(db, SQLITE_CORRUPT, why);
  return STORE_DONE;
}

static enum store_outcome check_whole(sqlite3 *db, const char *check, struct buf *why) {
  int code = ask_word(db, check, "ok", NULL);
  return code == SQLITE_OK ? STORE_DONE : explain(db, code, why);
}

static struct span given(sqlite3_value *v) {
  return (struct span){(const char *)sqlite3_value_text(v), (size_t)sqlite3_value_bytes(v)};
}

static void sum_in_sql(sqlite3_context *c, int n, sqlite3_value **v) {
  const struct store_text t = {given(v[0]), given(v[2]), given(v[4]), given(v[3]), sqlite3_value_int64(v[1])};
  (void)n;
  sqlite3_result_int64(c, sum_of(&t));
}

static int give_sums(sqlite3 *db) {
  return sqlite3_create_function_v2(db, "bw_sum", 5, SQLITE_UTF8 | SQLITE_DETERMINISTIC, NULL, sum_in_sql, NULL, NULL, NULL);
}

static int64_t format_of(sqlite3 *db) {
  int64_t version = 0;
  return ask_number(db, "PRAGMA user_version", &version) == SQLITE_OK ? version : 0;
}

/* A fresh file gets the schema, one of an older format is taken over: in one transaction. */
static enum store_outcome make_schema(sqlite3 *db, struct buf *why) {
  bool is_new = false;
  int code = sqlite3_exec(db, "BEGIN IMMEDIATE", NULL, NULL, NULL);
  if (code != SQLITE_OK) return explain(db, code, why);
  /* Another program may have made it between our look and our turn. */
  enum store_outcome outcome = check_origin(db, &is_new, why);
  if (outcome == STORE_DONE && is_new) code = sqlite3_exec(db, SCHEMA, NULL, NULL, NULL);
  if (outcome == STORE_DONE && !is_new && format_of(db) == 1) code = sqlite3_exec(db, FROM_1, NULL, NULL, NULL);
  if (outcome == STORE_DONE && code == SQLITE_OK && !is_new && format_of(db) == 2)
    code = sqlite3_exec(db, FROM_2, NULL, NULL, NULL);
  if (outcome == STORE_DONE && code == SQLITE_OK) code = sqlite3_exec(db, "COMMIT", NULL, NULL, NULL);
  if (outcome == STORE_DONE && code != SQLITE_OK) outcome = explain(db, code, why);
  if (!sqlite3_get_autocommit(db)) sqlite3_exec(db, "ROLLBACK", NULL, NULL, NULL);
  return outcome;
}

/* ---- opening ---- */

static void set_manners(sqlite3 *db) {
  sqlite3_extended_result_codes(db, 1);
  sqlite3_busy_timeout(db, BUSY_MILLISECONDS);
  sqlite3_db_config(db, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
  sqlite3_db_config(db, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, NULL);
  /* Until it is checked, closing must not write what a log holds into a file that may be damaged. */
  sqlite3_db_config(db, SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, NULL);
}

static enum store_outcome prepare_checked(struct store *s, struct buf *why) {
  enum store_outcome outcome = prepare_all(s);
  /* A statement that the file does not understand: its tables are not ours. */
  if (outcome == STORE_TROUBLE) return explain(s->db, SQLITE_CORRUPT, why);
  return outcome == STORE_DONE ? STORE_DONE : explain(s->db, sqlite3_extended_errcode(s->db), why);
}

/* What a file of ours must pass before anything is written to it. */
static enum store_outcome check_ours(struct store *s, bool *is_new, struct buf *why) {
  int code = give_sums(s->db);
  if (code != SQLITE_OK) return explain(s->db, code, why);
  enum store_outcome outcome = check_origin(s->db, is_new, why);
  return outcome == STORE_DONE && !*is_new ? check_whole(s->db, "PRAGMA quick_check(1)", why) : outcome;
}

static enum store_outcome open_to_read(struct store *s, struct buf *why) {
  bool is_new = false;
  enum store_outcome outcome = check_ours(s, &is_new, why);
  s->read_only = true;
  if (outcome != STORE_DONE) return outcome;
  if (is_new) return say(why, STORE_TROUBLE, "it is empty, and it may not be written");
  int64_t format = format_of(s->db);
  int code = format == 1 ? sqlite3_exec(s->db, READ_AS_2, NULL, NULL, NULL) : SQLITE_OK;
  if (code == SQLITE_OK && format < SCHEMA_VERSION) code = sqlite3_exec(s->db, READ_AS_3, NULL, NULL, NULL);
  if (code != SQLITE_OK) return explain(s->db, code, why);
  return prepare_checked(s, why);
}

/* A file of an older format whose tables are those of others is not to be written to. */
static enum store_outcome check_older(sqlite3 *db, struct buf *why) {
  static const char *const READS[] = {"SELECT id, rev, removed, change FROM text LIMIT 0",
                                      "SELECT id, rev, kind, saved, body, kept FROM state LIMIT 0"};
  for (size_t i = 0; i < COUNT_OF(READS); i++)
    if (sqlite3_exec(db, READS[i], NULL, NULL, NULL) != SQLITE_OK) return explain(db, SQLITE_CORRUPT, why);
  return STORE_DONE;
}

static enum store_outcome open_to_write(struct store *s, enum way way, struct buf *why) {
  sqlite3 *db = s->db;
  bool is_new = false;
  int code = SQLITE_OK;
  /* Alone, SQLite keeps in memory what it otherwise shares in a file beside the store, for which a full disk has no room. */
  if (way == WAY_ALONE) code = ask_word(db, "PRAGMA locking_mode = EXCLUSIVE", "exclusive", NULL);
  if (code != SQLITE_OK) return explain(db, code, why);
  enum store_outcome outcome = check_ours(s, &is_new, why);
  bool ready = outcome == STORE_DONE && !is_new && format_of(db) == SCHEMA_VERSION;
  if (ready) outcome = prepare_checked(s, why);
  if (outcome == STORE_DONE && !ready && !is_new) outcome = check_older(db, why);
  if (outcome != STORE_DONE) return outcome;
  code = to_wal(db);
  if (code == SQLITE_OK) code = sqlite3_exec(db, "PRAGMA synchronous = FULL", NULL, NULL, NULL);
  if (code != SQLITE_OK) return explain(db, code, why);
  if (!ready) outcome = make_schema(db, why);
  if (outcome == STORE_DONE && !ready) outcome = prepare_checked(s, why);
  if (outcome == STORE_DONE) sqlite3_db_config(db, SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 0, NULL);
  return outcome;
}

static enum store_outcome open_in(enum way way, const char *path, struct store **out, struct buf *why) {
  struct store *s = calloc(1, sizeof *s);
  if (!s) return say(why, STORE_TROUBLE, "out of memory");
  pthread_mutex_init(&s->turn, NULL);
  int code = way == WAY_READ_ONLY ? open_unwritable(path, &s->db) : open_file(path, &s->db);
  enum store_outcome outcome;
  if (code != SQLITE_OK) {
    outcome = explain(s->db, code, why);
  } else {
    set_manners(s->db);
    outcome = way == WAY_READ_ONLY ? open_to_read(s, why) : open_to_write(s, way, why);
  }
  if (outcome == STORE_DONE) {
    *out = s;
  } else {
    store_close(s);
  }
  return outcome;
}

enum store_outcome store_open(const char *path, struct store **out, struct buf *why) {
  *out = NULL;
  enum store_outcome outcome = prepare_file(path, why);
  if (outcome != STORE_DONE) return outcome;
  if (!may_write(path)) {
    if (has_log(path))
      return say(why, STORE_TROUBLE,
                 "it may not be written, and a log lies beside it whose saves would be missed: copy both files, the one "
                 "that ends in -wal too, to a place that can be written");
    return open_in(WAY_READ_ONLY, path, out, why);
  }
  struct buf shared;
  struct stat st;
  buf_init(&shared, why->arena, why->most);
  outcome = open_in(WAY_SHARED, path, out, &shared);
  bool has_texts = stat(path, &st) == 0 && st.st_size > 0;
  if ((outcome == STORE_NO_ROOM || outcome == STORE_TROUBLE) && has_texts) return open_in(WAY_ALONE, path, out, why);
  buf_add(why, buf_span(&shared));
  return outcome;
}

bool store_is_read_only(const struct store *s) { return s->read_only; }

void store_close(struct store *s) {
  if (!s) return;
  for (int i = 0; i < STATEMENT_COUNT; i++) sqlite3_finalize(s->statement[i]);
  sqlite3_close(s->db);
  pthread_mutex_destroy(&s->turn);
  free(s);
}

const char *store_reason(struct store *s, struct arena *arena) {
  pthread_mutex_lock(&s->turn);
  const char *words = arena_text(arena, span_of(sqlite3_errmsg(s->db)));
  pthread_mutex_unlock(&s->turn);
  return words;
}

/* ---- backup ---- */

static int copy_pages(sqlite3 *from, sqlite3 *to) {
  sqlite3_backup *b = sqlite3_backup_init(to, "main", from, "main");
  if (!b) return sqlite3_extended_errcode(to);
  sqlite3_backup_step(b, -1);
  return sqlite3_backup_finish(b);
}

/* A backup is one file that can be copied and kept read-only: no log beside it. */
static enum store_outcome copy_into(struct store *s, const char *to, struct buf *why) {
  sqlite3 *copy = NULL;
  int code = open_file(to, &copy);
  if (code == SQLITE_OK) {
    sqlite3_extended_result_codes(copy, 1);
    code = copy_pages(s->db, copy);
  }
  if (code == SQLITE_OK) code = ask_word(copy, "PRAGMA journal_mode = DELETE", "delete", NULL);
  enum store_outcome outcome = STORE_DONE;
  if (code != SQLITE_OK) outcome = explain(copy, code, why);
  if (outcome == STORE_DONE) outcome = check_whole(copy, "PRAGMA integrity_check(1)", why);
  sqlite3_close(copy);
  return outcome;
}

/* The name of what was made, or of what was renamed, is on the disk only when its folder is. */
static int flush_folder_of(const char *path) {
  const char *slash = strrchr(path, '/');
  char folder[PATH_MOST] = ".";
  if (slash) {
    size_t n = slash == path ? 1 : (size_t)(slash - path);
    if (n >= sizeof folder) return ENAMETOOLONG;
    memcpy(folder, path, n);
    folder[n] = '\0';
  }
  int fd = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (fd < 0) return errno;
  int error = fsync(fd) == 0 || errno == EINVAL ? 0 : errno;
  close(fd);
  return error;
}

static enum store_outcome not_written(int error, struct buf *why) {
  if (error == EEXIST) return say(why, STORE_EXISTS, "a file of that name is there already; a backup never writes over one");
  return say(why, error == ENOSPC || error == EDQUOT ? STORE_NO_ROOM : STORE_TROUBLE, strerror(error));
}

/* The name is taken first, so that nobody else's file is written over, and then replaced. */
static enum store_outcome give_name(const char *unfinished, const char *to, struct buf *why) {
  int error = make_file(to);
  if (error != 0) return not_written(error, why);
  error = rename(unfinished, to) == 0 ? flush_folder_of(to) : errno;
  if (error == 0) return STORE_DONE;
  unlink(to);
  return not_written(error, why);
}

/* Half a copy that bears the name of a backup would be taken for one, or for an empty store: the name comes last. */
enum store_outcome store_backup(struct store *s, const char *to, struct buf *why) {
  char unfinished[PATH_MOST];
  struct stat st;
  if (lstat(to, &st) == 0) return not_written(EEXIST, why);
  if (snprintf(unfinished, sizeof unfinished, "%s.unfinished-XXXXXX", to) >= (int)sizeof unfinished)
    return not_written(ENAMETOOLONG, why);
  int fd = mkstemp(unfinished);
  if (fd < 0) return not_written(errno, why);
  close(fd);
  take_turn(s);
  enum store_outcome outcome = copy_into(s, unfinished, why);
  pthread_mutex_unlock(&s->turn);
  if (outcome == STORE_DONE) outcome = give_name(unfinished, to, why);
  if (outcome != STORE_DONE) unlink(unfinished);
  return outcome;
}
