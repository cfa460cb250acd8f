#include "library/foods.h"

#include <math.h>

#include "foods/unit.h"

enum { FIRST_CAP = 16384, CODE_HASH = 1 << 16 };

static uint32_t *code_slot(struct foods_build *b, const char *code) {
  size_t mask = b->code_hash_size - 1;
  for (size_t i = (size_t)checksum64(code, strlen(code)) & mask;; i = (i + 1) & mask) {
    uint32_t *slot = &b->code_hash[i];
    if (*slot == 0 || strcmp(b->food[*slot - 1].code, code) == 0) return slot;
  }
}

struct build_food *foods_add(struct foods_build *b, const char *code) {
  if (2 * (b->count + 1) > b->code_hash_size) build_fail("more than %zu food records", b->code_hash_size / 2);
  uint32_t *slot = code_slot(b, code);
  if (*slot) build_fail("food code '%s' is taken twice", code);
  if (b->count == b->cap) b->food = arena_grow(b->arena, b->food, b->count, &b->cap, sizeof *b->food);
  *slot = (uint32_t)b->count + 1;
  struct build_food *f = &b->food[b->count++];
  *f = (struct build_food){.code = code,
                           .name = "",
                           .short_name = "",
                           .group = "",
                           .note = "",
                           .group_code = "",
                           .scientific = "",
                           .common_name = "",
                           .maker = "",
                           .cystine = NAN,
                           .tyrosine = NAN};
  f->food = (struct img_food){.part = PART_OTHER,
                              .spread_class = SPREAD_OTHER,
                              .kind = KIND_OTHER,
                              .state = STATE_UNSTATED,
                              .bone_share = NAN,
                              .bone_share_cv = NAN,
                              .bone_food = NO_INDEX,
                              .refuse = NAN,
                              .hazard = NO_INDEX,
                              .retention_group = RETAIN_NO_GROUP,
                              .raw_form = NO_INDEX,
                              .density = NAN,
                              .piece_g = NAN};
  for (int n = 0; n < NUT_COUNT; n++) f->value[n] = (struct img_value){.mean = NAN, .status = VALUE_UNKNOWN};
  return f;
}

struct build_food *foods_by_code(struct foods_build *b, const char *code) {
  uint32_t slot = *code_slot(b, code);
  return slot ? &b->food[slot - 1] : NULL;
}

/* How well a value stands: a published figure is never replaced by a poorer one. */
static int standing(enum value_status s) {
  static const int STANDING[VALUE_STATUS_COUNT] = {
      [VALUE_UNKNOWN] = 0, [VALUE_NONE] = 1, [VALUE_ESTIMATED] = 2, [VALUE_CITED] = 3, [VALUE_MEASURED] = 4};
  return STANDING[s];
}

void foods_set(struct build_food *f, enum nutrient n, double mean, enum value_status status, double error_cv,
               uint16_t source) {
  struct img_value *v = &f->value[n];
  if (standing((enum value_status)v->status) >= standing(status)) return;
  if (!(mean >= 0)) build_fail("food %s: %s would be negative or no number", f->code, nutrient_info[n].key);
  *v = (struct img_value){.mean = (float)mean, .status = (uint8_t)status, .source = source};
  f->estimate_error[n] = error_cv;
}

/* ---- sections -------------------------------------------------------------------------------------------------- */

/* "cup, chopped" begins with a kitchen unit; "extra large" and "fl oz" are units of two words. */
static enum unit unit_of_words(const char *words) {
  size_t one = strcspn(words, " ,(");
  size_t two = words[one] == ' ' ? one + 1 + strcspn(words + one + 1, " ,(") : one;
  enum unit u = unit_by_word((struct span){words, two});
  return u != UNIT_NONE ? u : unit_by_word((struct span){words, one});
}

static struct img_food finished(struct writer *w, const struct build_food *f) {
  struct img_food food = f->food;
  food.code = writer_textz(w, f->code);
  food.name = writer_textz(w, f->name);
  food.group = writer_textz(w, f->group);
  food.note = writer_textz(w, f->note);
  food.refuse_text = writer_textz(w, f->refuse_text ? f->refuse_text : "");
  return food;
}

static void write_measures(struct foods_build *b, struct img_food *food) {
  size_t count = 0, at = 0;
  for (size_t i = 0; i < b->count; i++) count += (size_t)b->food[i].measure_count;
  struct img_measure *m = ARENA_NEW(b->arena, struct img_measure, count);
  for (size_t i = 0; i < b->count; i++) {
    const struct build_food *f = &b->food[i];
    food[i].measure_first = (uint32_t)at;
    food[i].measure_count = (uint32_t)f->measure_count;
    for (int k = 0; k < f->measure_count; k++)
      m[at++] = (struct img_measure){writer_textz(b->w, f->measure[k].words), (float)f->measure[k].grams,
                                     (uint32_t)unit_of_words(f->measure[k].words)};
  }
  writer_section(b->w, IMG_MEASURES, m, count, sizeof *m);
}

static void write_foods(struct foods_build *b) {
  struct img_food *food = ARENA_NEW(b->arena, struct img_food, b->count);
  struct img_value *value = ARENA_NEW(b->arena, struct img_value, b->count * NUT_COUNT);
  for (size_t i = 0; i < b->count; i++) {
    food[i] = finished(b->w, &b->food[i]);
    memcpy(value + i * NUT_COUNT, b->food[i].value, sizeof b->food[i].value);
  }
  write_measures(b, food);
  writer_section(b->w, IMG_FOODS, food, b->count, sizeof *food);
  writer_section(b->w, IMG_VALUES, value, b->count * NUT_COUNT, sizeof *value);
}

void foods_gather(struct foods_build *b, struct writer *w, const char *packages_dir, const char *data_dir) {
  *b = (struct foods_build){.w = w, .arena = w->arena, .cap = FIRST_CAP, .code_hash_size = CODE_HASH};
  b->food = ARENA_NEW(b->arena, struct build_food, b->cap);
  b->code_hash = ARENA_NEW(b->arena, uint32_t, b->code_hash_size);
  read_sr28(b, packages_dir, data_dir);
  read_ifct(b, packages_dir, data_dir);
  sort_parts(b, data_dir);
  add_own_records(b, data_dir);
  sort_retention(b, data_dir);
  complete_amino_fatty(b, data_dir);
  complete_cited(b, data_dir);
  complete_absent(b, data_dir);
}

void foods_estimate(struct foods_build *b, const char *data_dir) {
  complete_patterns(b, data_dir);
  complete_spread(b, data_dir);
}

void build_foods(struct writer *w, const char *packages_dir, const char *data_dir) {
  struct foods_build b;
  foods_gather(&b, w, packages_dir, data_dir);
  foods_estimate(&b, data_dir);
  add_cuts(&b, data_dir);
  write_foods(&b);
}
