#include "foods/library.h"

#include <math.h>
#include <string.h>

static size_t image_foods(const struct library *lib) { return img_count(&lib->image, IMG_FOODS); }

const struct own_food *library_own(const struct library *lib, uint32_t food) {
  size_t n = image_foods(lib);
  return food >= n && food - n < lib->own_count ? &lib->own[food - n] : NULL;
}

size_t library_count(const struct library *lib) { return image_foods(lib) + lib->own_count; }

const struct img_food *library_food(const struct library *lib, uint32_t food) {
  const struct own_food *own = library_own(lib, food);
  if (own) return &own->food;
  if (food >= image_foods(lib)) return NULL;
  const struct img_food *row = img_rows_of_block(&lib->image, IMG_FOODS, food / BLOCK_FOODS);
  return &row[food];
}

bool food_is_spice(const struct library *lib, const struct img_food *f) {
  return strstr(lib_str(lib, f->group), "Spice") != NULL;
}

/* An own food's texts are plain pointers; an image food's are offsets. */
static const char *text_of(const struct library *lib, uint32_t food, const char *own, size_t offset_in_food) {
  if (library_own(lib, food)) return own ? own : "";
  const struct img_food *f = library_food(lib, food);
  img_text t = 0;
  if (f) memcpy(&t, (const char *)f + offset_in_food, sizeof t);
  return lib_str(lib, t);
}

const char *library_code(const struct library *lib, uint32_t food) {
  const struct own_food *own = library_own(lib, food);
  return text_of(lib, food, own ? own->code : NULL, offsetof(struct img_food, code));
}

const char *library_name(const struct library *lib, uint32_t food) {
  const struct own_food *own = library_own(lib, food);
  return text_of(lib, food, own ? own->name : NULL, offsetof(struct img_food, name));
}

const char *library_note(const struct library *lib, uint32_t food) {
  const struct own_food *own = library_own(lib, food);
  return text_of(lib, food, own ? own->note : NULL, offsetof(struct img_food, note));
}

const struct img_value *library_values(const struct library *lib, uint32_t food) {
  const struct own_food *own = library_own(lib, food);
  if (own) return own->value;
  if (food >= image_foods(lib)) return NULL;
  const struct img_value *row = img_rows_of_block(&lib->image, IMG_VALUES, food / BLOCK_VALUES_FOODS);
  return &row[(size_t)food * NUT_COUNT];
}

const struct img_measure *library_measures(const struct library *lib, uint32_t food, size_t *count) {
  const struct img_food *f = library_food(lib, food);
  const struct img_measure *row = NULL;
  size_t all = img_count(&lib->image, IMG_MEASURES);
  *count = f && f->measure_first <= all && f->measure_count <= all - f->measure_first ? f->measure_count : 0;
  for (size_t i = 0, at = *count > 0 ? f->measure_first : 0; i < *count; i++, at++)
    if (!row || at % BLOCK_MEASURES == 0) row = img_rows_of_block(&lib->image, IMG_MEASURES, at / BLOCK_MEASURES);
  return row ? row + f->measure_first : NULL;
}

/* Of a row that perhaps nobody has looked at yet, so that its text is bounded here: below 0 where its code comes before this
 * one. */
static int code_order(const struct library *lib, const struct img_food *food, struct span code) {
  img_text t = food->code;
  if (t >= lib->image.string_bytes) return -1;
  size_t room = lib->image.string_bytes - t;
  int order = memcmp(lib->image.strings + t, code.p, room < code.n ? room : code.n);
  if (order != 0 || room <= code.n) return order != 0 ? order : -1;
  return lib->image.strings[t + code.n] != '\0';
}

/* The large tables are sorted by code and come first; what is not found so stands, most of all, near the end. */
static uint32_t row_with_code(const struct library *lib, struct span code) {
  const struct img_food *foods = (const void *)(lib->image.bytes + lib->image.section[IMG_FOODS]->offset);
  size_t n = image_foods(lib);
  for (size_t low = 0, high = n; low < high;) {
    size_t middle = low + (high - low) / 2;
    int order = code_order(lib, &foods[middle], code);
    if (order == 0) return (uint32_t)middle;
    if (order < 0)
      low = middle + 1;
    else
      high = middle;
  }
  for (size_t i = n; i-- > 0;)
    if (code_order(lib, &foods[i], code) == 0) return (uint32_t)i;
  return NO_INDEX;
}

uint32_t library_by_code(const struct library *lib, struct span code) {
  if (code.n == 0) return NO_INDEX;
  for (size_t i = 0; i < lib->own_count; i++)
    if (span_is(code, lib->own[i].code)) return (uint32_t)(image_foods(lib) + i);
  uint32_t found = image_foods(lib) > 0 ? row_with_code(lib, code) : NO_INDEX;
  if (found == NO_INDEX) img_rows(&lib->image, IMG_FOODS); /* there is none, unless the rows are damaged */
  return found;
}

const struct img_source *library_source(const struct library *lib, uint32_t source) {
  static const struct img_source NO_SOURCE = {0};
  size_t n = img_count(&lib->image, IMG_SOURCES);
  if (n == 0) return &NO_SOURCE;
  return &IMG_ROWS(&lib->image, IMG_SOURCES, struct img_source)[source < n ? source : 0];
}

const struct img_pattern *library_value_pattern(const struct library *lib, const struct img_value *v) {
  size_t sources = img_count(&lib->image, IMG_SOURCES), patterns = img_count(&lib->image, IMG_PATTERNS);
  if (v->status != VALUE_ESTIMATED || v->source < sources || v->source >= sources + patterns) return NULL;
  return &IMG_ROWS(&lib->image, IMG_PATTERNS, struct img_pattern)[v->source - sources];
}

uint32_t library_value_source(const struct library *lib, const struct img_value *v) {
  const struct img_source *row = IMG_ROWS(&lib->image, IMG_SOURCES, struct img_source);
  if (!library_value_pattern(lib, v)) return v->source;
  for (uint32_t i = 1; i < img_count(&lib->image, IMG_SOURCES); i++)
    if (strcmp(lib_str(lib, row[i].key), "class_pattern") == 0) return i;
  return 0;
}

const struct img_set_aside *library_set_aside(const struct library *lib, uint32_t food, enum nutrient n) {
  const struct img_set_aside *row = IMG_ROWS(&lib->image, IMG_SET_ASIDE, struct img_set_aside);
  for (size_t i = 0; i < img_count(&lib->image, IMG_SET_ASIDE); i++)
    if (row[i].food == food && row[i].nutrient == (uint32_t)n) return &row[i];
  return NULL;
}

size_t library_allowance_count(const struct library *lib) {
  return lib->own_allowance_count + img_count(&lib->image, IMG_ALLOWANCES);
}

static bool is_replaced(const struct library *lib, const struct img_allowance *row) {
  for (size_t i = 0; i < lib->own_allowance_count; i++) {
    const struct img_allowance *own = &lib->own_allowance[i].row;
    if (own->standard == row->standard && own->species == row->species && own->nutrient == row->nutrient &&
        own->level == row->level)
      return true;
  }
  return false;
}

const struct img_allowance *library_allowance(const struct library *lib, size_t i) {
  if (i < lib->own_allowance_count) return &lib->own_allowance[i].row;
  const struct img_allowance *row =
      &IMG_ROWS(&lib->image, IMG_ALLOWANCES, struct img_allowance)[i - lib->own_allowance_count];
  return is_replaced(lib, row) ? NULL : row;
}

static const struct own_allowance *own_row(const struct library *lib, const struct img_allowance *row) {
  for (size_t i = 0; i < lib->own_allowance_count; i++)
    if (&lib->own_allowance[i].row == row) return &lib->own_allowance[i];
  return NULL;
}

const char *library_allowance_printed(const struct library *lib, const struct img_allowance *row) {
  const struct own_allowance *own = own_row(lib, row);
  return own ? own->printed : lib_str(lib, row->printed);
}

const char *library_allowance_place(const struct library *lib, const struct img_allowance *row) {
  const struct own_allowance *own = own_row(lib, row);
  return own ? own->place : NULL;
}

const struct img_finding *library_finding(const struct library *lib, const char *id) {
  const struct img_finding *rows = IMG_ROWS(&lib->image, IMG_FINDINGS, struct img_finding);
  for (size_t i = 0; i < img_count(&lib->image, IMG_FINDINGS); i++)
    if (*lib_str(lib, rows[i].id) == *id && strcmp(lib_str(lib, rows[i].id), id) == 0) return &rows[i];
  return NULL;
}

/* The rows are sorted by key; those of one key are for a species each, or one for both. */
const struct img_constant *library_constant(const struct library *lib, const char *key, enum species s) {
  const struct img_constant *row = IMG_ROWS(&lib->image, IMG_CONSTANTS, struct img_constant);
  size_t low = 0, n = img_count(&lib->image, IMG_CONSTANTS);
  for (size_t high = n; low < high;) {
    size_t middle = low + (high - low) / 2;
    if (strcmp(lib_str(lib, row[middle].key), key) < 0)
      low = middle + 1;
    else
      high = middle;
  }
  for (; low < n && strcmp(lib_str(lib, row[low].key), key) == 0; low++)
    if (row[low].species == s || row[low].species == SPECIES_BOTH) return &row[low];
  return NULL;
}

double library_constant_value(const struct library *lib, const char *key, enum species s) {
  const struct img_constant *c = library_constant(lib, key, s);
  return c ? (double)c->value : (double)NAN;
}
