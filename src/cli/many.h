/* many.h: one verb on every text of a folder, on all cores.
 *
 * Each text is answered as if it alone had been asked for, by the verb's own function, in a process of its own kind: a few
 * workers take the next text as they become free; one that dies takes no other text with it. Layer: cli. */
#ifndef BW_CLI_MANY_H
#define BW_CLI_MANY_H

#include "cli/run.h"

/* Is the operand a folder, and does the verb take one? */
bool many_is_asked(const struct run *s);
/* The texts of the folder in the order of their names, their answers in --out, the summary on standard output. */
int many_run(struct run *s) MUST_USE;

/* ---- many_files.c ---- */

struct folder {
  const char *path;
  const char *const *name; /* sorted */
  size_t count, other;     /* 'other': files that are no texts, and folders */
};
int folder_read(const char *path, struct folder *out, struct arena *arena) MUST_USE;
/* The folder for answers: made when there is none, tried once. */
int folder_for_answers(const char *path, const char *input, struct arena *arena) MUST_USE;
bool is_folder(const char *path);
/* "FOLDER/name" */
const char *in_folder(const char *folder, const char *name, struct arena *arena);
/* 'out' as the whole of FOLDER/name: written beside, then renamed. */
int folder_write(const char *folder, const char *name, struct buf *out, struct arena *arena) MUST_USE;

/* ---- many_bar.c ---- */

struct bar {
  const char *what;
  bool shown, drawn;
  double started, last;
};
void bar_start(struct bar *b, const struct run *s, const char *what);
void bar_move(struct bar *b, size_t done, size_t of);
void bar_end(struct bar *b);

#endif
