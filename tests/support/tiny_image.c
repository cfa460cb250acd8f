#include "tests/support/tiny_image.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>

#include "foods/constant_keys.h"

img_text tiny_text(struct tiny *t, const char *s) {
  size_t n = strlen(s) + 1, at = t->string_bytes;
  assert(at + n <= sizeof t->strings);
  memcpy(t->strings + at, s, n);
  t->string_bytes += n;
  return (img_text)at;
}

void tiny_constant(struct tiny *t, const char *key, int species, double value) {
  for (size_t i = 0; i < t->constants; i++) {
    if (t->constant[i].species != species || strcmp(t->strings + t->constant[i].key, key) != 0) continue;
    t->constant[i].value = (float)value;
    return;
  }
  assert(t->constants < TINY_MOST);
  t->constant[t->constants++] = (struct img_constant){
      .key = tiny_text(t, key), .species = (uint8_t)species, .value = (float)value, .low = NAN, .high = NAN};
}

/* Values as in data/constants.tsv, which names the source of each. */
static void usual_constants(struct tiny *t) {
  static const struct {
    const char *key;
    int species;
    double value;
  } ROWS[] = {{K_METABOLIC_EXPONENT, SPECIES_DOG, 0.75},
              {K_METABOLIC_EXPONENT, SPECIES_CAT, 0.67},
              {K_CONDITION_IDEAL, SPECIES_BOTH, 5},
              {K_CONDITION_STEP, SPECIES_BOTH, 0.1},
              {K_ENERGY_SD_SHARE, SPECIES_DOG, 0.3},
              {K_ENERGY_SD_SHARE, SPECIES_CAT, 0.5},
              {K_ATWATER_PROTEIN, SPECIES_BOTH, 4},
              {K_ATWATER_FAT, SPECIES_DOG, 9},
              {K_ATWATER_FAT, SPECIES_CAT, 8.5},
              {K_ATWATER_CARBOHYDRATE, SPECIES_BOTH, 4},
              {K_GROSS_PROTEIN, SPECIES_BOTH, 5.7},
              {K_GROSS_FAT, SPECIES_BOTH, 9.4},
              {K_GROSS_CARBOHYDRATE, SPECIES_BOTH, 4.1},
              {K_DIGESTIBILITY_START, SPECIES_DOG, 96.6},
              {K_DIGESTIBILITY_START, SPECIES_CAT, 95.6},
              {K_DIGESTIBILITY_SLOPE, SPECIES_DOG, 0.95},
              {K_DIGESTIBILITY_SLOPE, SPECIES_CAT, 0.89},
              {K_URINARY_LOSS, SPECIES_DOG, 1.04},
              {K_URINARY_LOSS, SPECIES_CAT, 0.77},
              {K_CAROTENE_FACTOR, SPECIES_DOG, 0.25},
              {K_CAROTENE_FACTOR, SPECIES_CAT, 0},
              {K_E_PER_PUFA, SPECIES_BOTH, 0.6},
              {K_E_PER_EPA, SPECIES_BOTH, 1.5},
              {K_E_PER_DHA, SPECIES_BOTH, 1.8},
              {K_E_PER_FISH_OIL, SPECIES_CAT, 6.7},
              {K_ARGININE_PER_PROTEIN, SPECIES_DOG, 0.01},
              {K_ARGININE_PER_PROTEIN, SPECIES_CAT, 0.02},
              {K_GUT_VITAMIN_K, SPECIES_BOTH, 1},
              {K_GUT_BIOTIN, SPECIES_BOTH, 1},
              {K_FISH_SHARE_VITAMIN_K, SPECIES_CAT, 0.25},
              {K_MOLAR_PHYTATE, SPECIES_BOTH, 660.04},
              {K_MOLAR_ZINC, SPECIES_BOTH, 65.38},
              {K_MOLAR_CALCIUM, SPECIES_BOTH, 40.08}};
  for (size_t i = 0; i < COUNT_OF(ROWS); i++) tiny_constant(t, ROWS[i].key, ROWS[i].species, ROWS[i].value);
}

struct tiny *tiny_new(struct arena *arena) {
  struct tiny *t = ARENA_NEW(arena, struct tiny, 1);
  t->arena = arena;
  tiny_text(t, ""); /* offset 0 is the empty text */
  t->source[1] = (struct img_source){.key = tiny_text(t, "test"), .title = tiny_text(t, "made for a test")};
  for (int c = 0; c < SPREAD_CLASS_COUNT; c++)
    for (int n = 0; n < NUT_COUNT; n++)
      t->class_value[c][n] = (struct img_class_value){.median = NAN, .high = NAN, .cv = NAN};
  usual_constants(t);
  return t;
}

uint32_t tiny_food(struct tiny *t, const char *code, enum part part, enum spread_class spread) {
  assert(t->foods < TINY_MOST);
  uint32_t i = (uint32_t)t->foods++;
  t->food[i] = (struct img_food){.code = tiny_text(t, code),
                                 .name = tiny_text(t, code),
                                 .part = (uint8_t)part,
                                 .spread_class = (uint8_t)spread,
                                 .kind = KIND_OTHER,
                                 .flags = FOOD_PLAIN,
                                 .bone_share = NAN,
                                 .bone_share_cv = NAN,
                                 .bone_food = NO_INDEX,
                                 .refuse = NAN,
                                 .hazard = NO_INDEX,
                                 .retention_group = RETAIN_NO_GROUP,
                                 .raw_form = NO_INDEX,
                                 .source = 1,
                                 .density = NAN,
                                 .piece_g = NAN};
  for (int n = 0; n < NUT_COUNT; n++) t->value[i][n] = (struct img_value){.mean = 0, .status = VALUE_NONE, .source = 1};
  tiny_unknown(t, i, NUT_VITAMIN_A); /* made of retinol and carotene, never stored */
  return i;
}

void tiny_value(struct tiny *t, uint32_t food, enum nutrient n, double mean, double cv) {
  t->value[food][n] =
      (struct img_value){.mean = (float)mean, .cv_code = (uint8_t)lround(cv * 100), .status = VALUE_MEASURED, .source = 1};
}

void tiny_status(struct tiny *t, uint32_t food, enum nutrient n, enum value_status status) {
  t->value[food][n].status = (uint8_t)status;
}

void tiny_unknown(struct tiny *t, uint32_t food, enum nutrient n) {
  t->value[food][n] = (struct img_value){.mean = NAN, .status = VALUE_UNKNOWN};
}

void tiny_class_high(struct tiny *t, enum spread_class c, enum nutrient n, double high) {
  t->class_value[c][n].high = (float)high;
}

struct img_allowance *tiny_allowance(struct tiny *t, enum standard_id std, enum species s, enum nutrient n,
                                     enum allow_level level, enum allow_basis basis, double amount, double at_kcal) {
  assert(t->allowances < COUNT_OF(t->allowance));
  struct img_allowance *a = &t->allowance[t->allowances++];
  *a = (struct img_allowance){.standard = (uint8_t)std,
                              .species = (uint8_t)s,
                              .nutrient = (uint8_t)n,
                              .level = (uint8_t)level,
                              .basis = (uint8_t)basis,
                              .amount = (float)amount,
                              .at_kcal = (float)at_kcal,
                              .source = 1};
  return a;
}

void tiny_window(struct tiny *t, int species, enum nutrient n, int days, bool highest_day) {
  assert(t->windows < TINY_MOST);
  t->window[t->windows++] = (struct img_window){
      .species = (uint8_t)species, .nutrient = (uint8_t)n, .days = (uint8_t)days, .highest_day = highest_day, .source = 1};
}

struct img_energy *tiny_energy(struct tiny *t, const char *words, enum species s, int activity, int neutered, double factor,
                               double exponent) {
  assert(t->energies < TINY_MOST);
  struct img_energy *e = &t->energy[t->energies++];
  *e = (struct img_energy){.key = tiny_text(t, words),
                           .words = tiny_text(t, words),
                           .species = (uint8_t)s,
                           .activity = (uint8_t)activity,
                           .neutered = (uint8_t)neutered,
                           .factor = (float)factor,
                           .low = NAN,
                           .high = NAN,
                           .exponent = (float)exponent,
                           .age_from = NAN,
                           .age_to = NAN,
                           .source = 1};
  return e;
}

int32_t tiny_retention(struct tiny *t) {
  assert(t->retentions < COUNT_OF(t->retention));
  struct img_retention *r = &t->retention[t->retentions];
  for (int n = 0; n < NUT_COUNT; n++) {
    r->mean[n] = 1;
    r->status[n] = VALUE_MEASURED;
  }
  return (int32_t)t->retentions++;
}

/* ---- writing it down ------------------------------------------------------------------------------------------- */

struct block {
  enum img_tag tag;
  const void *rows;
  size_t count, stride;
};

static size_t round16(size_t n) { return (n + 15) / 16 * 16; }

static void *lay_out(struct tiny *t, const struct block *block, size_t blocks, size_t *bytes) {
  size_t at = round16(sizeof(struct img_header) + blocks * sizeof(struct img_section)), start = at;
  for (size_t i = 0; i < blocks; i++) at += round16(block[i].count * block[i].stride);
  *bytes = at;
  unsigned char *image = arena_alloc(t->arena, at, 1);
  struct img_section *dir = (struct img_section *)(void *)(image + sizeof(struct img_header));
  at = start;
  for (size_t i = 0; i < blocks; i++) {
    dir[i] = (struct img_section){(uint32_t)block[i].tag, (uint32_t)block[i].stride, at, block[i].count};
    if (block[i].count > 0) memcpy(image + at, block[i].rows, block[i].count * block[i].stride);
    at += round16(block[i].count * block[i].stride);
  }
  struct img_header h = {.version = IMAGE_VERSION,
                         .endian = 0x01020304,
                         .bytes = at,
                         .nutrient_count = NUT_COUNT,
                         .section_count = (uint32_t)blocks};
  memcpy(h.magic, IMAGE_MAGIC, 8);
  memcpy(image, &h, sizeof h);
  image_seal(image, at);
  return image;
}

#define ROWS(tag, array, count)                                                                                             \
  { tag, array, count, sizeof((array)[0]) }

static bool is_there(const struct block *block, size_t blocks, uint32_t tag) {
  for (size_t i = 0; i < blocks; i++)
    if ((uint32_t)block[i].tag == tag) return true;
  return false;
}

static bool stands_before(const struct tiny *t, const struct img_constant *a, const struct img_constant *b) {
  int order = strcmp(t->strings + a->key, t->strings + b->key);
  return order < 0 || (order == 0 && a->species < b->species);
}

static void sort_constants(struct tiny *t) {
  for (size_t i = 1; i < t->constants; i++)
    for (size_t k = i; k > 0 && stands_before(t, &t->constant[k], &t->constant[k - 1]); k--) {
      struct img_constant swap = t->constant[k];
      t->constant[k] = t->constant[k - 1];
      t->constant[k - 1] = swap;
    }
}

const struct library *tiny_open(struct tiny *t) {
  sort_constants(t);
  struct block block[IMG_TAG_END] = {
      ROWS(IMG_STRINGS, t->strings, t->string_bytes),
      ROWS(IMG_SOURCES, t->source, COUNT_OF(t->source)),
      ROWS(IMG_FOODS, t->food, t->foods),
      {IMG_VALUES, t->value, t->foods * NUT_COUNT, sizeof(struct img_value)},
      {IMG_CLASSES, t->class_value, (size_t)SPREAD_CLASS_COUNT * NUT_COUNT, sizeof(struct img_class_value)},
      ROWS(IMG_ALLOWANCES, t->allowance, t->allowances),
      ROWS(IMG_WINDOWS, t->window, t->windows),
      ROWS(IMG_ENERGY, t->energy, t->energies),
      ROWS(IMG_CONSTANTS, t->constant, t->constants),
      ROWS(IMG_RETENTION, t->retention, t->retentions),
      {IMG_SEARCH_FOODS, ARENA_NEW(t->arena, struct img_search_food, t->foods), t->foods, sizeof(struct img_search_food)}};
  size_t filled = 11, blocks = filled;
  /* Every other section is there and empty. */
  for (uint32_t tag = IMG_STRINGS; tag < IMG_TAG_END; tag++)
    if (image_stride(tag) > 0 && !is_there(block, filled, tag))
      block[blocks++] = (struct block){(enum img_tag)tag, NULL, 0, image_stride(tag)};
  size_t bytes = 0;
  void *image = lay_out(t, block, blocks, &bytes);
  enum image_fault fault = image_open(&t->lib.image, image, bytes);
  if (fault != IMAGE_FINE) abort(); /* not an assert: those are gone from an optimised build */
  return &t->lib;
}

/* ---- an animal and a line -------------------------------------------------------------------------------------- */

struct animal tiny_animal(enum species s, double kg) {
  struct animal a = animal_plain(s, kg);
  a.age_years = 4;
  return a;
}

struct ration_line tiny_line(uint32_t food, double grams) {
  struct ration_line l = {.text = "", .part_count = 1, .grams_fed = grams, .grams_from = "", .state = STATE_RAW};
  l.part[0] = (struct portion){.food = food, .grams = grams, .retention = -1};
  l.shown_food = food;
  ration_spread_days(&l, CALENDAR_DAYS, 0);
  return l;
}

struct ration_line tiny_line_on(uint32_t food, double grams, double times_per_28, int offset) {
  struct ration_line l = tiny_line(food, grams);
  ration_spread_days(&l, times_per_28, offset);
  return l;
}

struct ration tiny_ration(const struct ration_line *line, size_t count) {
  return (struct ration){.name = "", .days = 1, .meals_per_day = NAN, .line = line, .line_count = count};
}
