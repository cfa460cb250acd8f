/* system.h: everything that touches the machine: files, the library image, the terminal, the clock, the outputs.
 *
 * Layer: cli. Complaints go to standard error; functions return an exit code (EXIT_COMPUTED when all is well). */
#ifndef BW_SYSTEM_H
#define BW_SYSTEM_H

#include "app/app.h"
#include "cli/options.h"
#include "report/report.h"
#include "json/json.h"

enum { TEXT_MOST_BYTES = 4 * 1024 * 1024, LONG_TEXT_MOST_BYTES = 64 * 1024 * 1024, ANSWER_MOST_BYTES = 64 * 1024 * 1024 };

/* "bowlwright: ..." on standard error. */
void complain(const char *fmt, ...) PRINTF_LIKE(1, 2);
void write_errors(struct span text);
/* Memory stays with the program until it ends, and the first piece of it is there at once. For a program that answers one
 * question. */
void keep_memory(void);
/* The whole of an answer on standard output. A full disk or closed output is EXIT_TROUBLE; a reader that has gone away
 * (head, less) is EXIT_TROUBLE without a word. */
int write_answer(struct buf *b) MUST_USE;
/* 0, or what errno says. */
int write_all(int fd, struct span s) MUST_USE;
NO_RETURN void out_of_memory(void);

/* Reads a whole text file, "-" is standard input. EXIT_TROUBLE when it cannot be read; EXIT_NOT_UNDERSTOOD when it is too
 * long or no text (NUL bytes, UTF-16). A UTF-8 byte order mark is left out. */
int read_text(const char *path, struct app_input *out, struct arena *arena) MUST_USE;
/* The same for a journal, which may have more bytes. */
int read_long_text(const char *path, struct app_input *out, struct arena *arena) MUST_USE;
bool file_exists(const char *path);
/* Does the file begin as a store does? */
bool is_a_store(const char *path);
/* The first of 'places' (relative to the folder of the running program; NULL behind the last) that exists; NULL: none. */
const char *find_near_program(const char *const places[], struct arena *arena);
/* The *.animals files of a folder, sorted by name. */
void find_animal_files(const char *folder, struct text_list *out, struct arena *arena);

/* The *.recipe files of the folder in which this file lies, behind those that are in 'recipe' already; "-": the folder that
 * the program runs in. One that is no text, or that nobody here may read, is named and left out: it was not asked for by
 * name. */
int read_recipes_beside(const char *file, struct app_input *recipe, size_t *count, size_t most,
                        struct arena *arena) MUST_USE;

/* Maps the library image read-only; it stays mapped until the program ends. 'path' NULL: the usual places. */
int open_library(const char *path, struct library *out, struct arena *arena) MUST_USE;

/* The local date, or $BOWLWRIGHT_TODAY (YYYY-MM-DD). */
int today(struct date *out) MUST_USE;
struct report_style terminal_style(const struct options *o);

#endif
