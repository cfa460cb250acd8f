/* "foods --json", "food --json" and "library --json". */
#include "json/json.h"

/* Library figures are floats: more digits than this are noise of the conversion. */
enum { FLOAT_DIGITS = 6 };
#define NOT_KNOWN ((double)NAN)

static void write_float(struct json *j, const char *key, float x) { json_digits(j, key, (double)x, FLOAT_DIGITS); }

static const char *source_key(const struct library *lib, uint32_t source) {
  const struct img_source *row = source ? library_source(lib, source) : NULL;
  return row ? lib_str(lib, row->key) : NULL;
}

static bool is_own(const struct img_food *f) { return (f->flags & FOOD_OWN) != 0; }

static void write_head(struct json *j, const struct library *lib, uint32_t food) {
  const struct img_food *f = library_food(lib, food);
  json_text(j, "food", library_code(lib, food));
  json_text(j, "name", library_name(lib, food));
  json_text(j, "part", part_word[f->part]);
  json_text(j, "state", f->state == STATE_UNSTATED ? NULL : state_word[f->state]);
  json_text(j, "source", source_key(lib, f->source));
}

void json_foods(const struct library *lib, struct span words, const struct search_hit *hits, size_t count, struct buf *out) {
  struct json writer, *j = &writer;
  json_init(j, out);
  json_open(j, NULL, '{');
  json_span(j, "words", words);
  json_open(j, "foods", '[');
  for (size_t i = 0; i < count; i++) {
    json_open(j, NULL, '{');
    write_head(j, lib, hits[i].food);
    json_digits(j, "score", hits[i].score, 4);
    json_bool(j, "everyday_name", hits[i].exact_name);
    json_number(j, "words_missed", hits[i].words_missed);
    json_text_or_null(j, "note", hits[i].note);
    json_close(j, '}');
  }
  json_close(j, ']');
  json_close(j, '}');
}

/* ---- one food ---- */

static void write_source(struct json *j, const char *key, const struct library *lib, uint32_t source) {
  const struct img_source *row = source ? library_source(lib, source) : NULL;
  if (!row) {
    json_nothing(j, key);
    return;
  }
  json_open(j, key, '{');
  json_text(j, "key", lib_str(lib, row->key));
  json_text_or_null(j, "title", lib_str(lib, row->title));
  json_text_or_null(j, "licence", lib_str(lib, row->licence));
  json_text(j, "confidence", row->confidence < CONF_COUNT ? confidence_word[row->confidence] : NULL);
  json_close(j, '}');
}

static void write_bone(struct json *j, const struct library *lib, const struct img_food *f) {
  if (!(f->bone_share > 0)) {
    json_nothing(j, "bone");
    return;
  }
  json_open(j, "bone", '{');
  write_float(j, "share", f->bone_share);
  write_float(j, "share_cv", f->bone_share_cv);
  json_text(j, "food", f->bone_food < library_count(lib) ? library_code(lib, f->bone_food) : NULL);
  json_text(j, "source", source_key(lib, f->bone_source));
  json_bool(j, "unless_boneless", (f->flags & FOOD_ALWAYS_BONE_IN) != 0);
  json_close(j, '}');
}

static void write_measures(struct json *j, const struct library *lib, const struct img_food *f) {
  const struct img_measure *row = IMG_ROWS(&lib->image, IMG_MEASURES, struct img_measure);
  size_t all = img_count(&lib->image, IMG_MEASURES);
  json_open(j, "measures", '[');
  for (uint32_t i = 0; !is_own(f) && i < f->measure_count && f->measure_first + i < all; i++) {
    json_open(j, NULL, '{');
    json_text(j, "words", lib_str(lib, row[f->measure_first + i].words));
    write_float(j, "grams", row[f->measure_first + i].grams);
    json_close(j, '}');
  }
  json_close(j, ']');
}

static void write_label_unit(struct json *j, const struct library *lib, uint32_t food) {
  size_t from_image = library_count(lib) - lib->own_count;
  if (food < from_image || !lib->own[food - from_image].unit_word) {
    json_nothing(j, "label_unit");
    return;
  }
  const struct own_food *own = &lib->own[food - from_image];
  json_open(j, "label_unit", '{');
  json_text(j, "word", own->unit_word);
  json_number(j, "grams", own->unit_g);
  json_close(j, '}');
}

static void write_value(struct json *j, const struct library *lib, enum nutrient n, struct img_value v) {
  bool known = v.status != VALUE_UNKNOWN;
  double mean = (double)v.mean, cv = img_cv(v);
  json_open(j, NULL, '{');
  json_text(j, "key", nutrient_info[n].key);
  json_text(j, "name", nutrient_info[n].name);
  json_text(j, "unit", nutrient_info[n].unit);
  write_float(j, "amount", known ? v.mean : NAN);
  json_digits(j, "low", known ? lognormal_quantile(mean, cv, 0.05) : NOT_KNOWN, FLOAT_DIGITS);
  json_digits(j, "high", known ? lognormal_quantile(mean, cv, 0.95) : NOT_KNOWN, FLOAT_DIGITS);
  json_digits(j, "cv", known ? cv : NOT_KNOWN, FLOAT_DIGITS);
  json_text(j, "status", value_status_word[v.status < VALUE_STATUS_COUNT ? v.status : VALUE_UNKNOWN]);
  json_text(j, "source", source_key(lib, v.source));
  json_close(j, '}');
}

void json_food(const struct library *lib, uint32_t food, struct buf *out) {
  const struct img_food *f = library_food(lib, food);
  const struct img_value *value = library_values(lib, food);
  struct json writer, *j = &writer;
  json_init(j, out);
  json_open(j, NULL, '{');
  write_head(j, lib, food);
  json_text_or_null(j, "group", is_own(f) ? "" : lib_str(lib, f->group));
  json_text(j, "class", json_part_key[json_part_of((enum part)f->part)]);
  json_text_or_null(j, "note", library_note(lib, food));
  write_source(j, "origin", lib, f->source);
  write_float(j, "refuse", f->refuse);
  json_text_or_null(j, "refuse_is", is_own(f) ? "" : lib_str(lib, f->refuse_text));
  write_bone(j, lib, f);
  write_measures(j, lib, f);
  write_label_unit(j, lib, food);
  write_float(j, "piece_g", f->piece_g);
  write_float(j, "density_g_per_ml", f->density);
  json_text(j, "raw_form", f->raw_form < library_count(lib) ? library_code(lib, f->raw_form) : NULL);
  json_number(j, "per_g", 100);
  json_open(j, "nutrients", '[');
  for (int n = 0; n < NUT_COUNT; n++) write_value(j, lib, (enum nutrient)n, value[n]);
  json_close(j, ']');
  json_close(j, '}');
}

/* ---- what the library holds ---- */

static void write_value_counts(struct json *j, const struct library *lib) {
  size_t count[VALUE_STATUS_COUNT] = {0};
  const struct img_value *v = IMG_ROWS(&lib->image, IMG_VALUES, struct img_value);
  for (size_t i = 0; i < img_count(&lib->image, IMG_VALUES); i++)
    if (v[i].status < VALUE_STATUS_COUNT) count[v[i].status]++;
  json_open(j, "values", '{');
  for (int s = 0; s < VALUE_STATUS_COUNT; s++) json_number(j, value_status_word[s], (double)count[s]);
  json_close(j, '}');
}

static void write_sources(struct json *j, const struct library *lib) {
  const struct img_source *row = IMG_ROWS(&lib->image, IMG_SOURCES, struct img_source);
  const struct img_food *food = IMG_ROWS(&lib->image, IMG_FOODS, struct img_food);
  json_open(j, "sources", '[');
  for (size_t i = 1; i < img_count(&lib->image, IMG_SOURCES); i++) {
    size_t foods = 0;
    for (size_t k = 0; k < img_count(&lib->image, IMG_FOODS); k++) foods += food[k].source == i;
    json_open(j, NULL, '{');
    json_text(j, "key", lib_str(lib, row[i].key));
    json_text_or_null(j, "title", lib_str(lib, row[i].title));
    json_text_or_null(j, "licence", lib_str(lib, row[i].licence));
    json_text(j, "confidence", row[i].confidence < CONF_COUNT ? confidence_word[row[i].confidence] : NULL);
    json_number(j, "foods", (double)foods);
    json_close(j, '}');
  }
  json_close(j, ']');
}

static void write_patterns(struct json *j, const struct library *lib) {
  const struct img_pattern *row = IMG_ROWS(&lib->image, IMG_PATTERNS, struct img_pattern);
  json_open(j, "patterns", '[');
  for (size_t i = 0; i < img_count(&lib->image, IMG_PATTERNS); i++) {
    json_open(j, NULL, '{');
    json_text(j, "name", lib_str(lib, row[i].name));
    json_text(j, "key", row[i].nutrient < NUT_COUNT ? nutrient_info[row[i].nutrient].key : NULL);
    json_text(j, "base", row[i].base < NUT_COUNT ? nutrient_info[row[i].base].key : NULL);
    write_float(j, "ratio", row[i].ratio);
    write_float(j, "leave_one_out_cv", row[i].cv);
    json_number(j, "foods", row[i].foods);
    json_number(j, "applied", row[i].applied);
    json_close(j, '}');
  }
  json_close(j, ']');
}

static void write_quarantine(struct json *j, const struct library *lib) {
  const struct img_quarantine *row = IMG_ROWS(&lib->image, IMG_QUARANTINE, struct img_quarantine);
  json_open(j, "quarantine", '[');
  for (size_t i = 0; i < img_count(&lib->image, IMG_QUARANTINE); i++) {
    json_open(j, NULL, '{');
    json_text(j, "table", lib_str(lib, row[i].table));
    json_text(j, "what", lib_str(lib, row[i].what));
    json_text(j, "reason", lib_str(lib, row[i].reason));
    json_number(j, "values", row[i].values);
    json_close(j, '}');
  }
  json_close(j, ']');
}

static void write_tables(struct json *j, const struct library *lib) {
  static const struct {
    const char *key;
    enum img_tag tag;
  } TABLE[] = {{"allowances", IMG_ALLOWANCES}, {"windows", IMG_WINDOWS},      {"energy", IMG_ENERGY},
               {"constants", IMG_CONSTANTS},   {"retention", IMG_RETENTION},  {"yields", IMG_YIELDS},
               {"hazards", IMG_HAZARDS},       {"densities", IMG_DENSITIES},  {"findings", IMG_FINDINGS},
               {"measures", IMG_MEASURES},     {"everyday_names", IMG_NAMES}, {"synonyms", IMG_SYNONYMS},
               {"household", IMG_HOUSEHOLD}};
  json_open(j, "rows", '{');
  for (size_t i = 0; i < COUNT_OF(TABLE); i++) json_number(j, TABLE[i].key, (double)img_count(&lib->image, TABLE[i].tag));
  json_close(j, '}');
}

void json_library(const struct library *lib, struct buf *out) {
  struct json writer, *j = &writer;
  json_init(j, out);
  json_open(j, NULL, '{');
  json_text_or_null(j, "made_from", lib_str(lib, lib->image.header->made_from));
  json_number(j, "version", lib->image.header->version);
  json_number(j, "bytes", (double)lib->image.n);
  json_number(j, "foods", (double)img_count(&lib->image, IMG_FOODS));
  json_number(j, "own_foods", (double)lib->own_count);
  write_value_counts(j, lib);
  write_tables(j, lib);
  write_sources(j, lib);
  write_patterns(j, lib);
  write_quarantine(j, lib);
  json_close(j, '}');
}
