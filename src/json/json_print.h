/* json_print.h: the tables of keys, printed for whoever must know them. What is printed here is committed, and a test
 * compares (tests/json/json_keys_test.c).
 *
 * Layer: json. */
#ifndef BW_JSON_PRINT_H
#define BW_JSON_PRINT_H

#include "base/buf.h"

/* The files of page/src/core/answers/, without ".ts": "check" holds the types of the tables in src/json/json_check.c.
 * Returns how many there are. */
enum { JSON_TYPE_FILES_MOST = 60 };
size_t json_type_files(const char *name[JSON_TYPE_FILES_MOST], struct arena *arena);
/* One of them. */
void json_print_types(const char *name, struct buf *out);
/* What pictures are made of: scale, marks, tones (picture/rail.h). */
void json_print_pictures(struct buf *out);
/* The lists of docs/manual/json.md, as Markdown. */
void json_print_manual(struct buf *out);
/* tests/golden/json-keys.json: one object of shapes, each one an object of keys in their order: {"type", "null", "of",
 * "words"}. */
void json_print_keys(struct buf *out);

#endif
