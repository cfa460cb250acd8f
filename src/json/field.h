/* field.h: an answer as tables of its keys. A table writes the JSON, and the same table prints the page's types
 * (page/src/core/answers/), the manual's list (docs/manual/json.md) and the list that the tests walk: a key is one row
 * here.
 *
 * Layer: json, internal. */
#ifndef BW_JSON_FIELD_H
#define BW_JSON_FIELD_H

#include <assert.h>
#include <stddef.h>

#include "base/arena.h"
#include "json/json.h"

struct shape;

/* Where a value is looked up: an object, and the objects around it. */
struct at {
  const struct library *lib;
  const struct shape *shape;
  const void *it;
  const struct at *up; /* NULL: the outermost */
  size_t place;        /* among its like, in a list */
};

/* The object around (or the one itself) that has this shape; there must be one. */
const void *at_within(const struct at *at, const struct shape *shape);

enum field_kind {
  FIELD_DOUBLE, /* members: the kind is taken from the member's type */
  FIELD_FLOAT,
  FIELD_INT,
  FIELD_UINT,
  FIELD_UINT16,
  FIELD_UINT8,
  FIELD_SIZE,
  FIELD_BOOL,
  FIELD_TEXT,      /* "" is null, as NULL is */
  FIELD_WORD,      /* an enum, by its words */
  FIELD_NUMBER_OF, /* the same from a function */
  FIELD_TRUTH_OF,
  FIELD_TEXT_OF,
  FIELD_WORD_OF,
  FIELD_OBJECT,     /* 'object' gives it, NULL none; without 'object' the member at 'offset' */
  FIELD_SAME,       /* all keys of another shape stand here; read as an object is. NULL: they are left out */
  FIELD_ROWS,       /* a list: the member at 'offset' points to it */
  FIELD_ROWS_IN,    /* the member at 'offset' is it */
  FIELD_ROWS_OF,    /* 'count' and 'item'; an item NULL is passed over */
  FIELD_NUMBERS_OF, /* 'count' and 'number_at' */
  FIELD_TEXTS_OF,   /* 'count' and 'text_at'; NULL is passed over */
  FIELD_MAP_OF,     /* an object with 'words' as keys and 'number_at' as values */
  FIELD_FREE        /* 'write' writes the key and what stands behind it; 'type' says what that is */
};

enum presence { FIELD_MAY_BE_NULL, FIELD_ALWAYS, FIELD_MAY_BE_ABSENT };

/* Kept small: a program that may lie at any address writes the addresses in these tables when it starts, and each page that
 * they fill is copied for it, whatever is asked. */
struct field {
  const char *key;
  const char *unit; /* of a number; "" none, "unit": the one that stands beside it under that key */
  const char *doc;  /* for the manual; "" when key and unit say it */
  enum field_kind kind : 8;
  enum presence presence : 8;
  enum field_kind counted : 8; /* of lists: the kind of the member that counts, at 'count_at'; 'count_is' when fixed */
  bool positive;               /* a count of which 0 means "none": null */
  bool gaps;                   /* a list of numbers of which some are null */
  uint8_t digits;              /* 0: 9 */
  uint16_t word_count;
  uint32_t offset, size, count_at, count_is;
  const char *const *words;
  const struct shape *of;
  const char *type;
  /* Of each union the one that belongs to the kind; NULL: none. */
  union {
    double (*number)(const struct at *at);
    int (*truth)(const struct at *at); /* -1: null */
    const char *(*text)(const struct at *at);
    int (*word)(const struct at *at);           /* -1: null */
    const void *(*object)(const struct at *at); /* of objects and maps */
    size_t (*count)(const struct at *at);       /* of lists */
    void (*write)(struct json *j, const char *key, const struct at *at);
  };
  union {
    const void *(*item)(const struct at *at, size_t i);
    double (*number_at)(const struct at *at, size_t i);
    const char *(*text_at)(const struct at *at, size_t i);
  };
};

struct shape {
  const char *name; /* of the page's type: "Nutrient" */
  const char *doc;  /* what it is, for the manual */
  const char *room; /* the file of the table: "json_check.c" */
  const struct field *field;
  size_t count;
  bool judged; /* the outermost object of a judged ration: struct checked */
};

/* The page needs no manual. */
#ifdef __wasm__
#define SAID(words) ""
#else
#define SAID(words) words
#endif
#define SHAPE(name, table, doc)                                                                                             \
  { SAID(name), SAID(doc), SAID(__FILE_NAME__), table, COUNT_OF(table), false }
#define SHAPE_OF_CHECKED(name, table, doc)                                                                                  \
  { SAID(name), SAID(doc), SAID(__FILE_NAME__), table, COUNT_OF(table), true }

#define FIELD_KIND(type, member)                                                                                            \
  _Generic(((type *)0)->member,                                                                                        \
      double: FIELD_DOUBLE,                                                                                            \
      float: FIELD_FLOAT,                                                                                              \
      int: FIELD_INT,                                                                                                  \
      unsigned: FIELD_UINT,                                                                                            \
      uint16_t: FIELD_UINT16,                                                                                          \
      uint8_t: FIELD_UINT8,                                                                                            \
      unsigned long: FIELD_SIZE,                                                                                       \
      bool: FIELD_BOOL,                                                                                                \
      char *: FIELD_TEXT,                                                                                              \
      const char *: FIELD_TEXT)
/* size_t is 'unsigned' where pointers have 32 bits: the same width, the same kind. */
static_assert(sizeof(size_t) == sizeof(unsigned long), "a member of size_t is read as unsigned long");

#define MEMBER(key_, unit_, type_, member_, doc_)                                                                           \
  .key = (key_), .unit = SAID(unit_), .doc = SAID(doc_), .kind = FIELD_KIND(type_, member_),                                \
  .offset = offsetof(type_, member_)
#define NUMBER(key, unit, type, member, doc)                                                                                \
  { MEMBER(key, unit, type, member, doc) }
#define NUMBER_ALWAYS(key, unit, type, member, doc)                                                                         \
  { MEMBER(key, unit, type, member, doc), .presence = FIELD_ALWAYS }
#define NUMBER_POSITIVE(key, unit, type, member, doc)                                                                       \
  { MEMBER(key, unit, type, member, doc), .positive = true }
#define TEXT(key, type, member, doc)                                                                                        \
  { MEMBER(key, "", type, member, doc) }
#define TEXT_ALWAYS(key, type, member, doc)                                                                                 \
  { MEMBER(key, "", type, member, doc), .presence = FIELD_ALWAYS }
#define TRUTH(key, type, member, doc)                                                                                       \
  { MEMBER(key, "", type, member, doc), .presence = FIELD_ALWAYS }
#define WORD(key_, type_, member_, words_, count_, doc_)                                                                    \
  {                                                                                                                         \
    .key = (key_), .unit = "", .doc = SAID(doc_), .kind = FIELD_WORD, .presence = FIELD_ALWAYS,                             \
    .offset = offsetof(type_, member_), .size = sizeof((type_ *)0)->member_, .words = (words_), .word_count = (count_)      \
  }
#define NUMBER_OF(key_, unit_, get_, doc_)                                                                                  \
  { .key = (key_), .unit = SAID(unit_), .doc = SAID(doc_), .kind = FIELD_NUMBER_OF, .number = (get_) }
#define NUMBER_OF_ALWAYS(key_, unit_, get_, doc_)                                                                           \
  {                                                                                                                         \
    .key = (key_), .unit = SAID(unit_), .doc = SAID(doc_), .kind = FIELD_NUMBER_OF, .presence = FIELD_ALWAYS,               \
    .number = (get_)                                                                                                        \
  }
#define TEXT_OF(key_, get_, doc_)                                                                                           \
  { .key = (key_), .unit = "", .doc = SAID(doc_), .kind = FIELD_TEXT_OF, .text = (get_) }
#define TEXT_OF_ALWAYS(key_, get_, doc_)                                                                                    \
  { .key = (key_), .unit = "", .doc = SAID(doc_), .kind = FIELD_TEXT_OF, .presence = FIELD_ALWAYS, .text = (get_) }
#define TRUTH_OF(key_, get_, doc_)                                                                                          \
  { .key = (key_), .unit = "", .doc = SAID(doc_), .kind = FIELD_TRUTH_OF, .presence = FIELD_ALWAYS, .truth = (get_) }
#define TRUTH_OR_NULL_OF(key_, get_, doc_)                                                                                  \
  { .key = (key_), .unit = "", .doc = SAID(doc_), .kind = FIELD_TRUTH_OF, .truth = (get_) }
#define WORD_OF(key_, get_, words_, count_, doc_)                                                                           \
  {                                                                                                                         \
    .key = (key_), .unit = "", .doc = SAID(doc_), .kind = FIELD_WORD_OF, .word = (get_), .words = (words_),                 \
    .word_count = (count_)                                                                                                  \
  }
#define OBJECT_IN(key_, type_, member_, of_, doc_)                                                                          \
  {                                                                                                                         \
    .key = (key_), .unit = "", .doc = SAID(doc_), .kind = FIELD_OBJECT, .presence = FIELD_ALWAYS,                           \
    .offset = offsetof(type_, member_), .of = (of_)                                                                         \
  }
#define OBJECT_HERE(key_, of_, doc_)                                                                                        \
  { .key = (key_), .unit = "", .doc = SAID(doc_), .kind = FIELD_OBJECT, .presence = FIELD_ALWAYS, .of = (of_) }
#define OBJECT_OF_ALWAYS(key_, get_, of_, doc_)                                                                             \
  {                                                                                                                         \
    .key = (key_), .unit = "", .doc = SAID(doc_), .kind = FIELD_OBJECT, .presence = FIELD_ALWAYS, .object = (get_),         \
    .of = (of_)                                                                                                             \
  }
#define OBJECT_OF(key_, get_, of_, doc_)                                                                                    \
  { .key = (key_), .unit = "", .doc = SAID(doc_), .kind = FIELD_OBJECT, .object = (get_), .of = (of_) }
#define WORD_OF_ALWAYS(key_, get_, words_, count_, doc_)                                                                    \
  {                                                                                                                         \
    .key = (key_), .unit = "", .doc = SAID(doc_), .kind = FIELD_WORD_OF, .presence = FIELD_ALWAYS, .word = (get_),          \
    .words = (words_), .word_count = (count_)                                                                               \
  }
/* Left out, not null, when there is none. */
#define OBJECT_IF(key_, get_, of_, doc_)                                                                                    \
  {                                                                                                                         \
    .key = (key_), .unit = "", .doc = SAID(doc_), .kind = FIELD_OBJECT, .presence = FIELD_MAY_BE_ABSENT, .object = (get_),  \
    .of = (of_)                                                                                                             \
  }
#define ROWS_IF(key_, count_, item_, of_, doc_)                                                                             \
  {                                                                                                                         \
    .key = (key_), .unit = "", .doc = SAID(doc_), .kind = FIELD_ROWS_OF, .presence = FIELD_MAY_BE_ABSENT,                   \
    .count = (count_), .item = (item_), .of = (of_)                                                                         \
  }
/* Null when 'object' gives NULL. */
#define MAP_OR_NULL_OF(key_, object_, words_, count_, get_, doc_)                                                           \
  {                                                                                                                         \
    .key = (key_), .unit = "", .doc = SAID(doc_), .kind = FIELD_MAP_OF, .object = (object_), .words = (words_),             \
    .word_count = (count_), .number_at = (get_)                                                                             \
  }
#define SAME_AS(of_)                                                                                                        \
  { .key = "", .unit = "", .doc = "", .kind = FIELD_SAME, .presence = FIELD_ALWAYS, .of = (of_) }
#define SAME_OF_ALWAYS(get_, of_)                                                                                           \
  { .key = "", .unit = "", .doc = "", .kind = FIELD_SAME, .presence = FIELD_ALWAYS, .object = (get_), .of = (of_) }
#define SAME_OF(get_, of_)                                                                                                  \
  { .key = "", .unit = "", .doc = "", .kind = FIELD_SAME, .presence = FIELD_MAY_BE_ABSENT, .object = (get_), .of = (of_) }
#define ROWS_KIND(kind_, key_, type_, member_, size_, counter_, of_, doc_)                                                  \
  {                                                                                                                         \
    .key = (key_), .unit = "", .doc = SAID(doc_), .kind = (kind_), .presence = FIELD_ALWAYS,                                \
    .offset = offsetof(type_, member_), .size = (size_), .counted = FIELD_KIND(type_, counter_),                            \
    .count_at = offsetof(type_, counter_), .of = (of_)                                                                      \
  }
#define ROWS(key, type, member, counter, of, doc)                                                                           \
  ROWS_KIND(FIELD_ROWS, key, type, member, sizeof *((type *)0)->member, counter, of, doc)
#define ROWS_IN(key, type, member, counter, of, doc)                                                                        \
  ROWS_KIND(FIELD_ROWS_IN, key, type, member, sizeof((type *)0)->member[0], counter, of, doc)
#define ROWS_ALL(key_, type_, member_, of_, doc_)                                                                           \
  {                                                                                                                         \
    .key = (key_), .unit = "", .doc = SAID(doc_), .kind = FIELD_ROWS_IN, .presence = FIELD_ALWAYS,                          \
    .offset = offsetof(type_, member_), .size = sizeof((type_ *)0)->member_[0],                                             \
    .count_is = COUNT_OF(((type_ *)0)->member_), .of = (of_)                                                                \
  }
#define ROWS_OF(key_, count_, item_, of_, doc_)                                                                             \
  {                                                                                                                         \
    .key = (key_), .unit = "", .doc = SAID(doc_), .kind = FIELD_ROWS_OF, .presence = FIELD_ALWAYS, .count = (count_),       \
    .item = (item_), .of = (of_)                                                                                            \
  }
#define NUMBERS_OF(key_, count_, get_, doc_)                                                                                \
  {                                                                                                                         \
    .key = (key_), .unit = "", .doc = SAID(doc_), .kind = FIELD_NUMBERS_OF, .presence = FIELD_ALWAYS, .count = (count_),    \
    .number_at = (get_)                                                                                                     \
  }
#define NUMBERS_WITH_GAPS_OF(key_, count_, get_, doc_)                                                                      \
  {                                                                                                                         \
    .key = (key_), .unit = "", .doc = SAID(doc_), .kind = FIELD_NUMBERS_OF, .presence = FIELD_ALWAYS, .gaps = true,         \
    .count = (count_), .number_at = (get_)                                                                                  \
  }
#define TEXTS_OF(key_, count_, get_, doc_)                                                                                  \
  {                                                                                                                         \
    .key = (key_), .unit = "", .doc = SAID(doc_), .kind = FIELD_TEXTS_OF, .presence = FIELD_ALWAYS, .count = (count_),      \
    .text_at = (get_)                                                                                                       \
  }
#define MAP_OF(key_, words_, count_, get_, doc_)                                                                            \
  {                                                                                                                         \
    .key = (key_), .unit = "", .doc = SAID(doc_), .kind = FIELD_MAP_OF, .presence = FIELD_ALWAYS, .words = (words_),        \
    .word_count = (count_), .number_at = (get_)                                                                             \
  }
/* A function writes keys of the shape 'of', or a value of 'type' that holds some. */
#define FREE_SAME(write_, of_)                                                                                              \
  { .key = "", .unit = "", .doc = "", .kind = FIELD_FREE, .presence = FIELD_ALWAYS, .write = (write_), .of = (of_) }
#define FREE_OF(key_, write_, type_, of_, doc_)                                                                             \
  {                                                                                                                         \
    .key = (key_), .unit = "", .doc = SAID(doc_), .kind = FIELD_FREE, .presence = FIELD_ALWAYS, .write = (write_),          \
    .type = (type_), .of = (of_)                                                                                            \
  }
#define FREE_IF(key_, write_, type_, of_, doc_)                                                                             \
  {                                                                                                                         \
    .key = (key_), .unit = "", .doc = SAID(doc_), .kind = FIELD_FREE, .presence = FIELD_MAY_BE_ABSENT, .write = (write_),   \
    .type = (type_), .of = (of_)                                                                                            \
  }
#define FREE(key_, write_, type_, doc_)                                                                                     \
  {                                                                                                                         \
    .key = (key_), .unit = "", .doc = SAID(doc_), .kind = FIELD_FREE, .presence = FIELD_ALWAYS, .write = (write_),          \
    .type = (type_)                                                                                                         \
  }

/* The object 'it' as JSON: one object, no line end. */
void json_write(const struct library *lib, const struct shape *shape, const void *it, struct buf *out);
/* The same as the value of a key; key NULL: in a list. */
void json_shape(struct json *j, const char *key, const struct shape *shape, const struct at *at);
/* All keys of the shape, within an object that is open. */
void json_fields(struct json *j, const struct at *at);

/* Small questions that several tables ask. */
const char *json_food_code(const struct library *lib, uint32_t food); /* NULL: none */
const char *json_source_key(const struct library *lib, uint32_t source);

#endif
