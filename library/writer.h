/* writer.h: collects sections in memory and writes one image file.
 *
 * The builder is a program of its own (build/bowlwright-library-build); it may read and write files. Every reader
 * (foods, tables, search index) adds its sections here. On any fault it says which file, line and column and ends with 1,
 * leaving no half-written image: the file is written beside its final name and renamed. */
#ifndef BW_LIBRARY_WRITER_H
#define BW_LIBRARY_WRITER_H

#include "base/buf.h"
#include "foods/image.h"

struct writer {
  struct arena *arena;
  struct buf strings;
  uint32_t *string_hash; /* open hash of offsets: every text is stored once */
  size_t string_hash_size, string_count;
  struct writer_section {
    const void *rows;
    size_t count, stride;
  } section[IMG_TAG_END];
};

void writer_init(struct writer *w, struct arena *arena);
img_text writer_text(struct writer *w, struct span s); /* stored once; empty text is 0 */
static inline img_text writer_textz(struct writer *w, const char *s) { return writer_text(w, span_of(s)); }
/* 'rows' must live until writer_save. */
void writer_section(struct writer *w, enum img_tag tag, const void *rows, size_t count, size_t stride);
/* Ends the program with a message on failure. */
void writer_save(struct writer *w, const char *made_from, const char *path);

/* Says what is wrong on standard error and ends the program with 1. */
NO_RETURN void build_fail(const char *fmt, ...) PRINTF_LIKE(1, 2);
/* The whole file, followed by a NUL; ends the program with "path: message" when it cannot be read. */
struct span file_read(const char *path, struct arena *arena);
const char *path_join(struct arena *arena, const char *dir, const char *name);

/* A table in data/: tab-separated, first line names the columns, lines starting with '#' and empty lines are skipped. */
struct tsv {
  const char *path;
  struct arena *arena;
  struct span *cell; /* [row][column] */
  struct span *head;
  int *line; /* [row] line number in the file: the 'row' that images keep for tracing */
  size_t columns, rows;
};
/* Ends the program with "path:line: message" when the file is missing, ragged, or lacks one of the wanted columns. */
void tsv_read(struct tsv *t, const char *path, const char *const *wanted_columns, struct arena *arena);
struct span tsv_cell(const struct tsv *t, size_t row, const char *column);
/* A number, or NaN for an empty cell; anything else ends the program with path, line and column. */
double tsv_number(const struct tsv *t, size_t row, const char *column);
NO_RETURN void tsv_fail(const struct tsv *t, size_t row, const char *fmt, ...) PRINTF_LIKE(3, 4);

/* Index of a word in a list of words; ends the program, naming the allowed words, when it is not there. */
int tsv_word(const struct tsv *t, size_t row, const char *column, const char *const *words, int count);

/* Of a cell "raw|boiled": the first piece, trimmed, which is cut off. */
struct span tsv_piece(struct span *cell, char mark);
/* Which words such a cell names, one bit each; all bits for an empty one. */
uint32_t tsv_set(const struct tsv *t, size_t row, const char *column, struct span cell, const char *const *words, int count);

/* Source keys come from data/sources.tsv; an unknown key ends the program. */
void sources_read(struct writer *w, const char *data_dir);
uint16_t source_index(const struct tsv *t, size_t row, const char *column);
uint16_t source_by_key(const char *key); /* for the readers of the packages */

/* The three readers; each adds its sections. */
void build_foods(struct writer *w, const char *packages_dir, const char *data_dir);
void build_tables(struct writer *w, const char *data_dir);
void build_index(struct writer *w, const char *data_dir); /* after build_foods */
void build_fixes(struct writer *w, const char *data_dir); /* after build_foods */

#endif
