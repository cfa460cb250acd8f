/* diag.h: what is wrong with a text, where, and what to type instead. All of it at once.
 *
 * Printed as   dinner.txt:3:8: unknown unit 'tbs'; did you mean 'tbsp'?   (columns count characters, not bytes, from 1)
 * Layer: text. */
#ifndef BW_DIAG_H
#define BW_DIAG_H

#include "base/buf.h"

enum diag_level { DIAG_ERROR, DIAG_WARNING };

struct diag {
  enum diag_level level;
  int line, column;    /* 1-based; 0 for "the whole text" */
  int width;           /* characters the complaint is about, at least 1 */
  const char *message; /* what was found and what to type */
};

struct diags {
  struct arena *arena;
  const char *file; /* as the person named it; "-" is shown as "standard input" */
  struct span text; /* the whole text, for the excerpt */
  struct diag *item;
  size_t count, cap;
  size_t errors;
};

enum { DIAG_MOST = 200 }; /* further ones are counted, not kept */

void diags_init(struct diags *d, struct arena *arena, const char *file, struct span text);
/* 'at' points into d->text. */
void diag_add(struct diags *d, enum diag_level level, struct span at, const char *fmt, ...) PRINTF_LIKE(4, 5);
/* One line each; with 'excerpt' the source line and a mark under the place follow. */
void diags_print(const struct diags *d, struct buf *out, bool excerpt);

#endif
