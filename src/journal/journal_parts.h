/* journal_parts.h: the steps of the reader. Private to this folder. */
#ifndef BW_JOURNAL_PARTS_H
#define BW_JOURNAL_PARTS_H

#include "journal/journal.h"
#include "text/scan.h"

struct journal_reader {
  const struct journal_known *known;
  struct diags *d;
  struct arena *arena;
  const char **name;
  size_t name_count, name_cap;
  const char *
      *untold; /* of a first look: the known animals that no line has told of, when there were 'untold_of' - 1 names */
  size_t untold_count, untold_of;
};

/* journal_line.c: a line that is not blank and no remark, into 'e', whose whole is set. False: it was complained about. */
bool journal_line_read(struct journal_reader *r, struct journal_entry *e) MUST_USE;

/* journal_day.c: complains of what the line begins with in place of a day ('word' its first word), and says what to type:
 * the day that it means, or both. */
void journal_complain_of_day(struct journal_reader *r, struct span line, struct span word);

/* The whole name, and a blank behind it. */
bool journal_begins_with_name(struct span s, const char *name);

/* Tells of another animal than the one that is wanted. */
bool journal_of_others(const struct journal_known *known, struct span line);

/* journal_newest.c: the oldest of the newest days that 'known' asks for, as it is written; n 0: everything is read. */
struct span journal_newest_days(struct span text, const struct journal_known *known);
/* The line is of an earlier day: it is not read, but an animal that it is the first to tell of is noted. */
bool journal_is_older(struct journal_reader *r, struct span newest, struct span line);

/* journal_doubt.c: marks what is replaced, and asks about what can hardly be right. 'by_day': the facts sorted by animal,
 * day and line. */
void journal_replace(struct journal_entry **by_day, size_t count, struct diags *d);
void journal_doubt(const struct journal *j, struct journal_entry **by_day, size_t count, struct journal_reader *r);

/* A mass at the start of 's' ("430 g", "1 lb 2 oz", "1/2 kg"): grams, and the bytes that it takes; 0 bytes when there is
 * none. */
size_t journal_mass(struct span s, double *grams, struct arena *arena);

/* The next word of 's', up to a blank; *s goes on behind it and the blanks. */
struct span journal_word(struct span *s);

#endif
