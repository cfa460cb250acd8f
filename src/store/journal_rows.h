/* journal_rows.h: journals in the store, line by line: one row a line, with the day, the animal and the fact beside its
 * words, so that a span of days of one animal is found without reading the rest.
 *
 * Nothing is ever thrown away: a save keeps the lines that stand unchanged at the beginning and adds the others behind them;
 * lines that are no longer there are marked as gone since that save, and every earlier save can be read. The store does not
 * know what a line says. Layer: store. */
#ifndef BW_STORE_JOURNAL_ROWS_H
#define BW_STORE_JOURNAL_ROWS_H

#include "store/store.h"

struct store_line {
  int64_t day;              /* day number; 0: the line tells no fact */
  struct span animal, fact; /* n 0: none */
  double kg;                /* of a weighing; NaN: none, or not known */
  struct span body;         /* the line without its end, as it was written */
};
struct store_lines {
  struct store_line *item;
  size_t count, cap;
  int64_t save;   /* the newest one; 0: there is no such journal */
  size_t damaged; /* rows that are not what was written; they are left alone */
};

/* The whole journal as it is now; *save is the number of this save, counted from 1. Lines that do not differ are not written
 * again. 'base': the newest save as the writer knows it; STORE_CONFLICT when it is not, with that one in *save. */
enum store_outcome store_journal_write(struct store *s, struct span id, const struct store_line *line, size_t count,
                                       int64_t base, int64_t *save) MUST_USE;
/* All lines in their order as of a save; 0: the newest. */
enum store_outcome store_journal_read(struct store *s, struct span id, int64_t save, struct store_lines *out,
                                      struct arena *arena) MUST_USE;
/* Lines of the newest save that tell a fact of this animal from one day to another, by day. */
enum store_outcome store_journal_days(struct store *s, struct span id, struct span animal, int64_t from, int64_t to,
                                      struct store_lines *out, struct arena *arena) MUST_USE;

#endif
