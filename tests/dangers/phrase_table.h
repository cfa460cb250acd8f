/* phrase_table.h: reads the tables of tests/dangers. A row that stands on both sides is a fault of the table. */
#ifndef BW_PHRASE_TABLE_H
#define BW_PHRASE_TABLE_H

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { COLUMNS_MOST = 4, CELL_BYTES = 200, ROWS_MOST = 600 };

struct table_row {
  char cell[COLUMNS_MOST][CELL_BYTES];
};

/* Rows of the table without comments and heading; 0 when it cannot be read. 'columns' of them each. */
static size_t read_table(const char *path, size_t columns, struct table_row *rows) {
  FILE *f = fopen(path, "r");
  char line[COLUMNS_MOST * CELL_BYTES];
  size_t n = 0;
  if (!f) return 0;
  while (n < ROWS_MOST && fgets(line, sizeof line, f)) {
    if (line[0] == '#' || strncmp(line, "set\t", 4) == 0) continue;
    line[strcspn(line, "\n")] = '\0';
    char *at = line;
    for (size_t c = 0; c < columns; c++) {
      size_t len = c + 1 < columns ? strcspn(at, "\t") : strlen(at);
      snprintf(rows[n].cell[c], CELL_BYTES, "%.*s", (int)len, at);
      at += len + (at[len] == '\t');
    }
    n++;
  }
  fclose(f);
  return n;
}

/* The same phrase with two expectations: its first row; SIZE_MAX when there is none. */
static size_t on_both_sides(const struct table_row *rows, size_t n, size_t expected, size_t phrase) {
  for (size_t i = 0; i < n; i++)
    for (size_t k = i + 1; k < n; k++)
      if (strcmp(rows[i].cell[phrase], rows[k].cell[phrase]) == 0 &&
          strcmp(rows[i].cell[expected], rows[k].cell[expected]) != 0)
        return i;
  return (size_t)-1;
}

#endif
