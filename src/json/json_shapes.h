/* json_shapes.h: every table of keys once, and what its keys hold, for whoever prints them. Layer: json, internal. */
#ifndef BW_JSON_SHAPES_H
#define BW_JSON_SHAPES_H

#include "json/field.h"

enum { SHAPES_MOST = 160, SHOWN_KEYS_MOST = 80 };

struct json_shapes {
  const struct shape *at[SHAPES_MOST];
  size_t count;
};
/* What the command line answers; that, and what only the page is told. */
struct json_shapes json_command_line_shapes(void);
struct json_shapes json_all_shapes(void);
/* The outermost object of an answer of the command line. */
bool json_is_root(const struct shape *shape);

/* An object is one of two kinds where both may be left out: a key that both have is told once. */
struct shown_keys {
  const char *at[SHOWN_KEYS_MOST];
  size_t count;
};
bool shows_again(struct shown_keys *told, const char *key);

bool shows_number(const struct field *f);
bool shows_text(const struct field *f);
bool shows_truth(const struct field *f);
bool shows_word(const struct field *f);
bool shows_list(const struct field *f);
/* Whole numbers that are members have no way to say that they are not known. */
bool shows_null(const struct field *f);

#endif
