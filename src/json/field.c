#include "json/field.h"

#include <math.h>

const void *at_within(const struct at *at, const struct shape *shape) {
  while (at->shape != shape) at = at->up;
  return at->it;
}

/* ---- members ---------------------------------------------------------------------------------------------------- */

/* A library figure is a float: more digits than this are noise of the conversion. */
enum { DOUBLE_DIGITS = 9, FLOAT_DIGITS = 6 };

#define READ(type, p) (*(const type *)(p))

static double member_number(enum field_kind kind, const char *p) {
  switch (kind) {
  case FIELD_FLOAT:
    return (double)READ(float, p);
  case FIELD_INT:
    return READ(int, p);
  case FIELD_UINT:
    return READ(unsigned, p);
  case FIELD_UINT16:
    return READ(uint16_t, p);
  case FIELD_UINT8:
    return READ(uint8_t, p);
  case FIELD_SIZE:
    return (double)READ(size_t, p);
  default:
    return READ(double, p);
  }
}

static int member_word(size_t size, const char *p) {
  return size == sizeof(uint8_t) ? READ(uint8_t, p) : size == sizeof(uint16_t) ? READ(uint16_t, p) : READ(int, p);
}

static const char *member(const struct field *f, const struct at *at) { return (const char *)at->it + f->offset; }

/* ---- values ----------------------------------------------------------------------------------------------------- */

static void write_number(struct json *j, const struct field *f, double x) {
  int digits = f->digits ? f->digits : f->kind == FIELD_FLOAT ? FLOAT_DIGITS : DOUBLE_DIGITS;
  json_digits(j, f->key, f->positive && !(x > 0) ? (double)NAN : x, digits);
}

static void write_word(struct json *j, const struct field *f, int word) {
  json_text(j, f->key, word >= 0 && word < f->word_count ? f->words[word] : NULL);
}

static void write_truth(struct json *j, const struct field *f, int truth) {
  if (truth < 0) {
    json_nothing(j, f->key);
  } else {
    json_bool(j, f->key, truth != 0);
  }
}

static void write_object(struct json *j, const struct field *f, const struct at *at) {
  const void *it = f->object ? f->object(at) : member(f, at);
  struct at inner = {at->lib, f->of, it, at, 0};
  if (it) {
    json_shape(j, f->key, f->of, &inner);
  } else if (f->presence != FIELD_MAY_BE_ABSENT) {
    json_nothing(j, f->key);
  }
}

static void write_same(struct json *j, const struct field *f, const struct at *at) {
  const void *it = f->object ? f->object(at) : at->it;
  struct at inner = {at->lib, f->of, it, at, at->place};
  if (it) json_fields(j, &inner);
}

/* ---- lists ------------------------------------------------------------------------------------------------------ */

static size_t count_of(const struct field *f, const struct at *at) {
  if (f->count) return f->count(at);
  if (f->count_is) return f->count_is;
  return (size_t)member_number(f->counted, (const char *)at->it + f->count_at);
}

static const void *item_of(const struct field *f, const struct at *at, size_t i) {
  if (f->item) return f->item(at, i);
  const char *first = f->kind == FIELD_ROWS ? READ(char *, member(f, at)) : member(f, at);
  return first + i * f->size;
}

static void write_rows(struct json *j, const struct field *f, const struct at *at) {
  size_t count = count_of(f, at);
  if (count == 0 && f->presence == FIELD_MAY_BE_ABSENT) return;
  json_open(j, f->key, '[');
  for (size_t i = 0; i < count; i++) {
    struct at inner = {at->lib, f->of, item_of(f, at, i), at, i};
    if (inner.it) json_shape(j, NULL, f->of, &inner);
  }
  json_close(j, ']');
}

static void write_plain_list(struct json *j, const struct field *f, const struct at *at) {
  size_t count = f->count(at);
  json_open(j, f->key, '[');
  for (size_t i = 0; i < count; i++) {
    if (f->kind == FIELD_NUMBERS_OF) {
      json_number(j, NULL, f->number_at(at, i));
    } else if (f->text_at(at, i)) {
      json_text(j, NULL, f->text_at(at, i));
    }
  }
  json_close(j, ']');
}

static void write_map(struct json *j, const struct field *f, const struct at *at) {
  if (f->object && !f->object(at)) {
    json_nothing(j, f->key);
    return;
  }
  json_open(j, f->key, '{');
  for (int i = 0; i < f->word_count; i++) json_number(j, f->words[i], f->number_at(at, (size_t)i));
  json_close(j, '}');
}

/* ---- one row of a table ----------------------------------------------------------------------------------------- */

static void write_field(struct json *j, const struct field *f, const struct at *at) {
  switch (f->kind) {
  case FIELD_DOUBLE:
  case FIELD_FLOAT:
  case FIELD_INT:
  case FIELD_UINT:
  case FIELD_UINT16:
  case FIELD_UINT8:
  case FIELD_SIZE:
    write_number(j, f, member_number(f->kind, member(f, at)));
    break;
  case FIELD_BOOL:
    json_bool(j, f->key, READ(bool, member(f, at)));
    break;
  case FIELD_TEXT:
    json_text_or_null(j, f->key, READ(char *, member(f, at)));
    break;
  case FIELD_WORD:
    write_word(j, f, member_word(f->size, member(f, at)));
    break;
  case FIELD_NUMBER_OF:
    write_number(j, f, f->number(at));
    break;
  case FIELD_TRUTH_OF:
    write_truth(j, f, f->truth(at));
    break;
  case FIELD_TEXT_OF:
    json_text_or_null(j, f->key, f->text(at));
    break;
  case FIELD_WORD_OF:
    write_word(j, f, f->word(at));
    break;
  case FIELD_OBJECT:
    write_object(j, f, at);
    break;
  case FIELD_SAME:
    write_same(j, f, at);
    break;
  case FIELD_ROWS:
  case FIELD_ROWS_IN:
  case FIELD_ROWS_OF:
    write_rows(j, f, at);
    break;
  case FIELD_NUMBERS_OF:
  case FIELD_TEXTS_OF:
    write_plain_list(j, f, at);
    break;
  case FIELD_MAP_OF:
    write_map(j, f, at);
    break;
  case FIELD_FREE:
    f->write(j, f->key, at);
    break;
  }
}

void json_fields(struct json *j, const struct at *at) {
  for (size_t i = 0; i < at->shape->count; i++) write_field(j, &at->shape->field[i], at);
}

void json_shape(struct json *j, const char *key, const struct shape *shape, const struct at *at) {
  struct at inside = *at;
  inside.shape = shape;
  json_open(j, key, '{');
  json_fields(j, &inside);
  json_close(j, '}');
}

void json_write(const struct library *lib, const struct shape *shape, const void *it, struct buf *out) {
  struct json j;
  struct at at = {lib, shape, it, NULL, 0};
  json_init(&j, out);
  json_shape(&j, NULL, shape, &at);
}

/* ---- small questions -------------------------------------------------------------------------------------------- */

const char *json_food_code(const struct library *lib, uint32_t food) {
  return food < library_count(lib) ? library_code(lib, food) : NULL;
}

const char *json_source_key(const struct library *lib, uint32_t source) {
  const struct img_source *row = source ? library_source(lib, source) : NULL;
  return row ? lib_str(lib, row->key) : NULL;
}
