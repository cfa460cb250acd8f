/* journal_csv.h: a journal as comma-separated values (RFC 4180), both ways without loss.
 *
 * Columns: line, date, animal, fact, correction, said, kg, grams, remark. An 'ate' line has a row for each thing; rows in a
 * row with the same 'line' are one line of the journal. Lines without a fact have no date; what they say stands in 'said'.
 * 'kg' and 'grams' are for whoever reckons with the table; they are read only where 'said' is empty. Layer: journal. Pure.
 */
#ifndef BW_JOURNAL_CSV_H
#define BW_JOURNAL_CSV_H

#include "journal/journal.h"

void journal_csv_print(const struct journal *j, struct buf *out);

/* The same as the text of a journal, for journal_read. Columns may stand in any order, more of them are passed over; date,
 * animal and fact must be there. False after complaints in 'd', whose text is 'csv'. 'row_line': for each line of 'text' the
 * line of 'csv' that it comes from; may be NULL. */
bool journal_csv_read(struct span csv, struct diags *d, struct buf *text, const int **row_line,
                      struct arena *arena) MUST_USE;

#endif
