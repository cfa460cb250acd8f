/* json_print.h: the tables of keys, printed for whoever must know them. What is printed here is committed, and a test
 * compares (tests/json/json_keys_test.c).
 *
 * Layer: json. */
#ifndef BW_JSON_PRINT_H
#define BW_JSON_PRINT_H

#include "base/buf.h"

/* page/src/core/answers.ts */
void json_print_types(struct buf *out);
/* Of it what pictures are made of: scale, marks, tones (picture/rail.h). */
void json_print_pictures(struct buf *out);
/* The lists of docs/manual/json.md, as Markdown. */
void json_print_manual(struct buf *out);
/* tests/golden/json-keys.json: one object of shapes, each one an object of keys in their order: {"type", "null", "of",
 * "words"}. */
void json_print_keys(struct buf *out);

#endif
