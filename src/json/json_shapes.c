#include "json/json_shapes.h"

#include "json/json_parts.h"

/* ---- shapes, each once ------------------------------------------------------------------------------------------- */

static bool holds(const struct json_shapes *s, const struct shape *shape) {
  for (size_t i = 0; i < s->count; i++)
    if (s->at[i] == shape) return true;
  return false;
}

static void collect(struct json_shapes *s, const struct shape *shape);

static void collect_of(struct json_shapes *s, const struct shape *shape) {
  for (size_t i = 0; i < shape->count; i++) {
    const struct field *f = &shape->field[i];
    if (!f->of) continue;
    if (f->key[0]) {
      collect(s, f->of);
    } else {
      collect_of(s, f->of);
    }
  }
}

static void collect(struct json_shapes *s, const struct shape *shape) {
  if (holds(s, shape)) return;
  assert(s->count < SHAPES_MOST);
  s->at[s->count++] = shape;
  collect_of(s, shape);
}

/* What the command line answers; what only the page is told. */
static const struct shape *const ROOT[] = {
    &json_check_shape, &json_need_shape,   &json_foods_shape,   &json_food_shape,  &json_library_shape, &json_side_shape,
    &json_swap_shape,  &json_mend_shape,   &json_compose_shape, &json_reply_shape, &json_sheet_shape,   &json_unread_shape,
    &json_week_shape,  &json_rotate_shape, &json_many_shape,    &json_trend_shape, &json_slim_shape};
static const struct shape *const PAGE_ROOT[] = {
    &json_complaint_shape, &json_page_shape,       &json_lines_shape, &json_larder_shape,  &json_shelf_shape,
    &json_suggest_shape,   &json_sheet_page_shape, &json_weeks_shape, &json_journal_shape, &json_entry_shape};

struct json_shapes json_command_line_shapes(void) {
  struct json_shapes s = {{NULL}, 0};
  for (size_t i = 0; i < COUNT_OF(ROOT); i++) collect(&s, ROOT[i]);
  return s;
}

struct json_shapes json_all_shapes(void) {
  struct json_shapes s = json_command_line_shapes();
  for (size_t i = 0; i < COUNT_OF(PAGE_ROOT); i++) collect(&s, PAGE_ROOT[i]);
  return s;
}

bool shows_again(struct shown_keys *told, const char *key) {
  for (size_t i = 0; i < told->count; i++)
    if (strcmp(told->at[i], key) == 0) return true;
  assert(told->count < SHOWN_KEYS_MOST);
  told->at[told->count++] = key;
  return false;
}

bool json_is_root(const struct shape *shape) {
  for (size_t i = 0; i < COUNT_OF(ROOT); i++)
    if (ROOT[i] == shape) return true;
  return false;
}

/* ---- what a key holds -------------------------------------------------------------------------------------------- */

bool shows_number(const struct field *f) { return f->kind <= FIELD_SIZE || f->kind == FIELD_NUMBER_OF; }

bool shows_text(const struct field *f) { return f->kind == FIELD_TEXT || f->kind == FIELD_TEXT_OF; }

bool shows_truth(const struct field *f) { return f->kind == FIELD_BOOL || f->kind == FIELD_TRUTH_OF; }

bool shows_word(const struct field *f) { return f->kind == FIELD_WORD || f->kind == FIELD_WORD_OF; }

bool shows_list(const struct field *f) {
  return f->kind == FIELD_ROWS || f->kind == FIELD_ROWS_IN || f->kind == FIELD_ROWS_OF;
}

bool shows_null(const struct field *f) {
  if (f->presence != FIELD_MAY_BE_NULL) return false;
  bool whole = f->kind > FIELD_FLOAT && f->kind <= FIELD_SIZE;
  return !whole || f->positive;
}
