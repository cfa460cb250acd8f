/* Twenty years of daily entries of ten animals: read from text, kept in the store, loaded, and summarised as weeks. Each
 * figure is a ratio to the bare SQLite query of the same run: all columns of all lines of one journal stepped through,
 * nothing done with them. Usage: bench_journal LIBRARY RECIPE; the store lies in a folder of its own below /tmp. */
#include <math.h>
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>
#include <unistd.h>

#include "app/app_entry.h"
#include "app/app_trend.h"
#include "app/app_week.h"
#include "journal/journal.h"
#include "store/journal_rows.h"

enum { ANIMALS = 10, YEARS = 20, DAYS = YEARS * 365, ROUNDS = 3 };

static struct arena arena;

static double now(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static struct span whole_file(const char *path) {
  FILE *f = fopen(path, "rb");
  if (!f) exit(1);
  fseek(f, 0, SEEK_END);
  long n = ftell(f);
  rewind(f);
  char *p = aligned_alloc(64, ((size_t)n + 63) / 64 * 64);
  if (!p || fread(p, 1, (size_t)n, f) != (size_t)n) exit(1);
  fclose(f);
  return (struct span){p, (size_t)n};
}

/* Weighed once a week, fed every day, now and then a leftover, a day that nobody wrote down, a correction. */
static struct span written(void) {
  struct buf b;
  buf_init(&b, &arena, JOURNAL_MOST_BYTES);
  long first = date_days((struct date){2006, 1, 1});
  for (int d = 0; d < DAYS; d++)
    for (int a = 0; a < ANIMALS; a++) {
      int unlike = (d * 7 + a * 13) % 97;
      if (unlike == 96) continue;
      if (d % 7 == 0) {
        date_print(&b, first + d);
        buf_addf(&b, " Animal%d weighs %d.%d kg\n", a, 10 + a, (d / 7 + a) % 10);
      }
      date_print(&b, first + d);
      buf_addf(&b, " Animal%d ate %d g Weeknight bowl%s\n", a, 400 + unlike % 5 * 10,
               unlike % 7 == 0 ? "; 100 g cod, raw" : "");
      if (unlike % 11 == 0) {
        date_print(&b, first + d);
        buf_addf(&b, " Animal%d left %d g\n", a, 10 + unlike % 3 * 10);
      }
    }
  return buf_span(&b);
}

static double best(double a, double b) { return a < b ? a : b; }

/* The household: of the animal that is asked about only its own lines are read. */
static struct span household(void) {
  struct buf b;
  buf_init(&b, &arena, 1 << 16);
  for (int a = 0; a < ANIMALS; a++)
    buf_addf(&b, "Animal: Animal%d\nSpecies: dog\nBorn: 2020-01-01\nWeight: %d kg\nNeutered: yes\n\n", a, 10 + a);
  return buf_span(&b);
}

/* Judged, estimated and looked at as a person waits for it; the best of some rounds. */
struct summaries {
  double first_look, weight, eight_weeks, all_years;
};

static struct summaries summarise(const struct library *lib, const struct app_input *recipe, struct span text) {
  struct summaries best_of = {INFINITY, INFINITY, INFINITY, INFINITY};
  struct app_check_request check = {.ask = REQUEST_DEFAULT, .animals = {"animals", household()}, .for_name = "Animal3"};
  const struct app_journal journal = {{"bench", text}, recipe, 1, 0};
  check.ask.today = (struct date){2025, 12, 26};
  for (int r = 0; r < ROUNDS; r++) {
    struct app_journal_answer first;
    struct app_trend_answer trend;
    struct app_week_answer week;
    double start = now();
    app_journal_read(&check, &journal.text, 8, &first, &arena);
    best_of.first_look = best(best_of.first_look, now() - start);
    struct app_check_request q = check;
    q.journal = &journal;
    start = now();
    app_trend(lib, &q, &trend, &arena);
    best_of.weight = best(best_of.weight, now() - start);
    struct app_week_request w = {.check = check, .recipe = recipe, .count = 1, .named = 1, .journal = journal.text};
    w.check.ask.since = (struct date){2025, 10, 6};
    w.check.ask.until = (struct date){2025, 11, 30};
    start = now();
    app_week(lib, &w, &week, &arena);
    best_of.eight_weeks = best(best_of.eight_weeks, now() - start);
    if (!first.journal->in_part || !trend.told.trend || week.count != 1) exit(1);
    w.check.ask.since = w.check.ask.until = (struct date){0};
    start = now();
    app_week(lib, &w, &week, &arena);
    best_of.all_years = best(best_of.all_years, now() - start);
    if (week.count != 1) exit(1);
  }
  return best_of;
}

static struct store_line *rows_of(const struct journal *j) {
  struct store_line *row = ARENA_NEW(&arena, struct store_line, j->entry_count + 1);
  for (size_t i = 0; i < j->entry_count; i++) {
    const struct journal_entry *e = &j->entry[i];
    row[i] = (struct store_line){e->day, span_of(j->name[e->animal]), span_of(journal_fact_word[e->fact]), e->kg, e->whole};
  }
  return row;
}

static double bare_query(const char *path, size_t *lines) {
  sqlite3 *db = NULL;
  sqlite3_stmt *q = NULL;
  double start = now(), sum = 0;
  *lines = 0;
  if (sqlite3_open(path, &db) != SQLITE_OK) exit(1);
  if (sqlite3_prepare_v2(
          db, "SELECT line, day, animal, fact, kg, body, sum FROM journal_line WHERE id = 'journal' ORDER BY line", -1, &q,
          NULL) != SQLITE_OK)
    exit(1);
  for (; sqlite3_step(q) == SQLITE_ROW; ++*lines) {
    sum += (double)sqlite3_column_bytes(q, 5) + sqlite3_column_double(q, 4) + (double)sqlite3_column_int64(q, 1);
    if (!sqlite3_column_text(q, 5)) exit(1);
  }
  sqlite3_finalize(q);
  sqlite3_close(db);
  if (!(sum > 0)) exit(1);
  return now() - start;
}

static void told(const char *what, double seconds, double bare) {
  printf("%-58s %8.3f s %8.1f x\n", what, seconds, seconds / bare);
}

int main(int argc, char **argv) {
  static const struct journal_known KNOWN = {.today = 0};
  char folder[] = "/tmp/bench-journal-XXXXXX", path[64];
  struct buf why;
  struct store *store = NULL;
  struct library lib = {0};
  if (argc < 3) return 2;
  arena_init(&arena, NULL);
  buf_init(&why, &arena, 4096);
  if (!mkdtemp(folder)) return 1;
  snprintf(path, sizeof path, "%s/j.db", folder);
  struct span image = whole_file(argv[1]), recipe_text = whole_file(argv[2]), text = written();
  if (image_open(&lib.image, image.p, image.n) != IMAGE_FINE) return 1;

  struct diags d;
  struct journal j;
  double reading = INFINITY, loading = INFINITY, bare = INFINITY, days = INFINITY, adding, keeping, weighing = INFINITY;
  for (int r = 0; r < ROUNDS; r++) {
    double start = now();
    diags_init(&d, &arena, "bench", text);
    if (!journal_read(text, &KNOWN, &d, &j, &arena)) return 1;
    reading = best(reading, now() - start);
    start = now();
    size_t count;
    for (int a = 0; a < ANIMALS; a++) {
      journal_weights(&j, a, &count, &arena);
      journal_intakes(&j, a, &count, &arena);
    }
    weighing = best(weighing, now() - start);
  }
  if (store_open(path, &store, &why) != STORE_DONE) return 1;
  struct store_line *row = rows_of(&j);
  int64_t save;
  double start = now();
  if (store_journal_write(store, SPAN_LIT("journal"), row, j.entry_count - 1, 0, &save) != STORE_DONE) return 1;
  keeping = now() - start;
  start = now();
  if (store_journal_write(store, SPAN_LIT("journal"), row, j.entry_count, 1, &save) != STORE_DONE) return 1;
  adding = now() - start;
  size_t lines = 0;
  for (int r = 0; r < ROUNDS; r++) {
    struct store_lines out;
    bare = best(bare, bare_query(path, &lines));
    start = now();
    if (store_journal_read(store, SPAN_LIT("journal"), 0, &out, &arena) != STORE_DONE || out.count != j.entry_count)
      return 1;
    loading = best(loading, now() - start);
    start = now();
    long last = date_days((struct date){2025, 12, 1});
    if (store_journal_days(store, SPAN_LIT("journal"), SPAN_LIT("Animal3"), last - 56, last, &out, &arena) != STORE_DONE)
      return 1;
    days = best(days, now() - start);
  }
  store_close(store);

  struct app_input recipe = {"weeknight-bowl.recipe", recipe_text};
  struct summaries told_of = summarise(&lib, &recipe, text);

  printf("%zu lines, %zu bytes, %d animals, %d years\n", lines, text.n, ANIMALS, YEARS);
  told("the bare query of every line", bare, bare);
  told("all lines out of the store, checked", loading, bare);
  told("eight weeks of one animal out of the store", days, bare);
  told("one more line kept in the store", adding, bare);
  told("all lines kept in the store for the first time", keeping, bare);
  told("the text read, asked about, corrected", reading, bare);
  told("weights and intakes of all ten", weighing, bare);
  told("a first look at the newest eight days", told_of.first_look, bare);
  told("text read, and the weight of one animal estimated", told_of.weight, bare);
  told("text read, and eight weeks of one animal judged", told_of.eight_weeks, bare);
  told("text read, and twenty years of one animal judged", told_of.all_years, bare);
  remove(path);
  rmdir(folder);
  arena_free(&arena);
  return 0;
}
