/* Every index of an image is looked at once, before anything is read through it: a file whose checksum is right may still
 * have been made by somebody who wants a reader to run out of it. Offsets of texts need no look, img_str() bounds them. */
#include "foods/image_valid.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>

#include "base/machine.h"
#include "foods/unit.h"

static const struct {
  enum img_tag tag;
  size_t stride;
} SECTIONS[] = {{IMG_STRINGS, 1},
                {IMG_SOURCES, sizeof(struct img_source)},
                {IMG_FOODS, sizeof(struct img_food)},
                {IMG_VALUES, sizeof(struct img_value)},
                {IMG_MEASURES, sizeof(struct img_measure)},
                {IMG_CLASSES, sizeof(struct img_class_value)},
                {IMG_PATTERNS, sizeof(struct img_pattern)},
                {IMG_TOKENS, sizeof(struct img_token)},
                {IMG_POSTINGS, sizeof(struct img_posting)},
                {IMG_NAMES, sizeof(struct img_name)},
                {IMG_SYNONYMS, sizeof(struct img_synonym)},
                {IMG_FOLDS, sizeof(struct img_fold)},
                {IMG_ALLOWANCES, sizeof(struct img_allowance)},
                {IMG_WINDOWS, sizeof(struct img_window)},
                {IMG_ENERGY, sizeof(struct img_energy)},
                {IMG_CONSTANTS, sizeof(struct img_constant)},
                {IMG_RETENTION, sizeof(struct img_retention)},
                {IMG_YIELDS, sizeof(struct img_yield)},
                {IMG_HAZARDS, sizeof(struct img_hazard)},
                {IMG_DENSITIES, sizeof(struct img_density)},
                {IMG_FINDINGS, sizeof(struct img_finding)},
                {IMG_QUARANTINE, sizeof(struct img_quarantine)},
                {IMG_FIXES, sizeof(struct img_fix)},
                {IMG_SET_ASIDE, sizeof(struct img_set_aside)},
                {IMG_HOUSEHOLD, sizeof(struct img_household)},
                {IMG_SHOP_UNITS, sizeof(struct img_shop_unit)},
                {IMG_KITCHEN, sizeof(struct img_kitchen)},
                {IMG_FOOD_GROUPS, sizeof(struct img_food_group)},
                {IMG_UNCOUNTED, sizeof(struct img_uncounted)},
                {IMG_PORTIONS, sizeof(struct img_portion)},
                {IMG_FOOD_PORTIONS, sizeof(struct img_food_portion)},
                {IMG_SEARCH_FOODS, sizeof(struct img_search_food)},
                {IMG_SUMS, sizeof(uint64_t)}};

size_t image_stride(uint32_t tag) {
  for (size_t i = 0; i < COUNT_OF(SECTIONS); i++)
    if (SECTIONS[i].tag == tag) return SECTIONS[i].stride;
  return 0;
}

/* What a field counts: rows of a section (beyond which it may say NO_INDEX), or a number of words. */
struct indexed {
  enum img_tag in;
  size_t at, bytes;
  uint32_t below; /* 0: below the rows of 'of' */
  enum img_tag of;
  uint32_t or_else; /* one more value that is fine */
};

#define FIELD(type, field) offsetof(struct type, field), sizeof(((struct type *)0)->field)
#define WORD(tag, type, field, count, other)                                                                                \
  { tag, FIELD(type, field), count, IMG_STRINGS, other }
#define ROW(tag, type, field, section, other)                                                                               \
  { tag, FIELD(type, field), 0, section, other }
#define SOURCED(tag, type) ROW(tag, type, source, IMG_SOURCES, 0)
#define NOTHING_ELSE 0

static const struct indexed INDEXED[] = {
    WORD(IMG_FOODS, img_food, part, PART_COUNT, NOTHING_ELSE),
    WORD(IMG_FOODS, img_food, spread_class, SPREAD_CLASS_COUNT, NOTHING_ELSE),
    WORD(IMG_FOODS, img_food, kind, KIND_COUNT, NOTHING_ELSE),
    WORD(IMG_FOODS, img_food, state, STATE_COUNT, NOTHING_ELSE),
    WORD(IMG_FOODS, img_food, retention_group, RETAIN_GROUP_COUNT, NOTHING_ELSE),
    ROW(IMG_FOODS, img_food, bone_food, IMG_FOODS, NO_INDEX),
    ROW(IMG_FOODS, img_food, raw_form, IMG_FOODS, NO_INDEX),
    ROW(IMG_FOODS, img_food, hazard, IMG_HAZARDS, NO_INDEX),
    ROW(IMG_FOODS, img_food, bone_source, IMG_SOURCES, NOTHING_ELSE),
    SOURCED(IMG_FOODS, img_food),
    WORD(IMG_MEASURES, img_measure, unit, UNIT_COUNT, NOTHING_ELSE),
    WORD(IMG_PATTERNS, img_pattern, nutrient, NUT_COUNT, NOTHING_ELSE),
    WORD(IMG_PATTERNS, img_pattern, base, NUT_COUNT, NUT_NONE),
    ROW(IMG_SET_ASIDE, img_set_aside, food, IMG_FOODS, NOTHING_ELSE),
    WORD(IMG_SET_ASIDE, img_set_aside, nutrient, NUT_COUNT, NOTHING_ELSE),
    ROW(IMG_POSTINGS, img_posting, food, IMG_FOODS, NOTHING_ELSE),
    WORD(IMG_SEARCH_FOODS, img_search_food, cut, SEARCH_CUT_BONELESS + 1, NOTHING_ELSE),
    ROW(IMG_NAMES, img_name, food, IMG_FOODS, NOTHING_ELSE),
    ROW(IMG_SYNONYMS, img_synonym, from, IMG_STRINGS, NOTHING_ELSE), /* read without img_str(), a hundred times a line */
    ROW(IMG_SYNONYMS, img_synonym, to, IMG_STRINGS, NOTHING_ELSE),
    WORD(IMG_ALLOWANCES, img_allowance, standard, STANDARD_COUNT, NOTHING_ELSE),
    WORD(IMG_ALLOWANCES, img_allowance, species, SPECIES_COUNT, NOTHING_ELSE),
    WORD(IMG_ALLOWANCES, img_allowance, nutrient, NUT_COUNT, NOTHING_ELSE),
    WORD(IMG_ALLOWANCES, img_allowance, level, LEVEL_COUNT, NOTHING_ELSE),
    WORD(IMG_ALLOWANCES, img_allowance, basis, PER_METABOLIC_KG + 1, NOTHING_ELSE),
    WORD(IMG_ALLOWANCES, img_allowance, confidence, CONF_COUNT, NOTHING_ELSE),
    SOURCED(IMG_ALLOWANCES, img_allowance),
    WORD(IMG_WINDOWS, img_window, species, SPECIES_BOTH + 1, NOTHING_ELSE),
    WORD(IMG_WINDOWS, img_window, nutrient, NUT_COUNT, NOTHING_ELSE),
    WORD(IMG_WINDOWS, img_window, confidence, CONF_COUNT, NOTHING_ELSE),
    SOURCED(IMG_WINDOWS, img_window),
    WORD(IMG_ENERGY, img_energy, species, SPECIES_BOTH + 1, NOTHING_ELSE),
    WORD(IMG_ENERGY, img_energy, confidence, CONF_COUNT, NOTHING_ELSE),
    SOURCED(IMG_ENERGY, img_energy),
    WORD(IMG_CONSTANTS, img_constant, species, SPECIES_BOTH + 1, NOTHING_ELSE),
    WORD(IMG_CONSTANTS, img_constant, confidence, CONF_COUNT, NOTHING_ELSE),
    SOURCED(IMG_CONSTANTS, img_constant),
    WORD(IMG_RETENTION, img_retention, group, RETAIN_GROUP_COUNT, NOTHING_ELSE),
    WORD(IMG_RETENTION, img_retention, state, STATE_COUNT, NOTHING_ELSE),
    SOURCED(IMG_RETENTION, img_retention),
    WORD(IMG_YIELDS, img_yield, group, RETAIN_GROUP_COUNT, NOTHING_ELSE),
    WORD(IMG_YIELDS, img_yield, state, STATE_COUNT, NOTHING_ELSE),
    WORD(IMG_YIELDS, img_yield, confidence, CONF_COUNT, NOTHING_ELSE),
    SOURCED(IMG_YIELDS, img_yield),
    WORD(IMG_HAZARDS, img_hazard, species, SPECIES_BOTH + 1, NOTHING_ELSE),
    WORD(IMG_HAZARDS, img_hazard, weight, FINDING_WEIGHT_COUNT, NOTHING_ELSE),
    WORD(IMG_HAZARDS, img_hazard, confidence, CONF_COUNT, NOTHING_ELSE),
    SOURCED(IMG_HAZARDS, img_hazard),
    SOURCED(IMG_DENSITIES, img_density),
    WORD(IMG_HOUSEHOLD, img_household, confidence, CONF_COUNT, NOTHING_ELSE),
    SOURCED(IMG_HOUSEHOLD, img_household),
    WORD(IMG_KITCHEN, img_kitchen, topic, KITCHEN_TOPICS, NOTHING_ELSE),
    WORD(IMG_KITCHEN, img_kitchen, form, KITCHEN_FORMS, NOTHING_ELSE),
    WORD(IMG_KITCHEN, img_kitchen, confidence, CONF_COUNT, NOTHING_ELSE),
    SOURCED(IMG_KITCHEN, img_kitchen),
    WORD(IMG_FOOD_GROUPS, img_food_group, confidence, CONF_COUNT, NOTHING_ELSE),
    SOURCED(IMG_FOOD_GROUPS, img_food_group),
    WORD(IMG_FINDINGS, img_finding, weight, FINDING_WEIGHT_COUNT, NOTHING_ELSE),
    WORD(IMG_UNCOUNTED, img_uncounted, as, UNCOUNTED_AS_COUNT, NOTHING_ELSE),
    WORD(IMG_UNCOUNTED, img_uncounted, confidence, CONF_COUNT, NOTHING_ELSE),
    SOURCED(IMG_UNCOUNTED, img_uncounted),
    WORD(IMG_FINDINGS, img_finding, confidence, CONF_COUNT, NOTHING_ELSE),
    SOURCED(IMG_FINDINGS, img_finding),
    WORD(IMG_FIXES, img_fix, nutrient, NUT_COUNT, NOTHING_ELSE),
    WORD(IMG_FIXES, img_fix, species, SPECIES_BOTH + 1, NOTHING_ELSE),
    WORD(IMG_FIXES, img_fix, confidence, CONF_COUNT, NOTHING_ELSE),
    WORD(IMG_FIXES, img_fix, way, FIX_WAY_COUNT, NOTHING_ELSE),
    ROW(IMG_FIXES, img_fix, food, IMG_FOODS, NOTHING_ELSE),
    ROW(IMG_FIXES, img_fix, shop_unit, IMG_SHOP_UNITS, NO_INDEX),
    SOURCED(IMG_FIXES, img_fix),
    ROW(IMG_SHOP_UNITS, img_shop_unit, food, IMG_FOODS, NOTHING_ELSE),
    WORD(IMG_SHOP_UNITS, img_shop_unit, nutrient, NUT_COUNT + 1, NOTHING_ELSE),
    WORD(IMG_SHOP_UNITS, img_shop_unit, confidence, CONF_COUNT, NOTHING_ELSE),
    SOURCED(IMG_SHOP_UNITS, img_shop_unit),
    WORD(IMG_PORTIONS, img_portion, species, SPECIES_BOTH + 1, NOTHING_ELSE),
    WORD(IMG_PORTIONS, img_portion, confidence, CONF_COUNT, NOTHING_ELSE),
    SOURCED(IMG_PORTIONS, img_portion),
};

/* Figures: not known (NaN), or within what a kitchen and a body know. */
static const float FIGURE_MOST = 1e9F;
static const struct figured {
  enum img_tag in;
  size_t at, count;
} FIGURED[] = {
#define FIGURES(tag, type, field)                                                                                           \
  { tag, offsetof(struct type, field), sizeof(((struct type *)0)->field) / sizeof(float) }
    FIGURES(IMG_MEASURES, img_measure, grams),
    FIGURES(IMG_CLASSES, img_class_value, median),
    FIGURES(IMG_CLASSES, img_class_value, high),
    FIGURES(IMG_CLASSES, img_class_value, cv),
    FIGURES(IMG_PATTERNS, img_pattern, ratio),
    FIGURES(IMG_PATTERNS, img_pattern, cv),
    FIGURES(IMG_ALLOWANCES, img_allowance, amount),
    FIGURES(IMG_ALLOWANCES, img_allowance, at_kcal),
    FIGURES(IMG_ENERGY, img_energy, factor),
    FIGURES(IMG_ENERGY, img_energy, low),
    FIGURES(IMG_ENERGY, img_energy, high),
    FIGURES(IMG_ENERGY, img_energy, exponent),
    FIGURES(IMG_ENERGY, img_energy, age_from),
    FIGURES(IMG_ENERGY, img_energy, age_to),
    FIGURES(IMG_CONSTANTS, img_constant, value),
    FIGURES(IMG_CONSTANTS, img_constant, low),
    FIGURES(IMG_CONSTANTS, img_constant, high),
    FIGURES(IMG_RETENTION, img_retention, mean),
    FIGURES(IMG_RETENTION, img_retention, cv),
    FIGURES(IMG_YIELDS, img_yield, yield),
    FIGURES(IMG_YIELDS, img_yield, low),
    FIGURES(IMG_YIELDS, img_yield, high),
    FIGURES(IMG_DENSITIES, img_density, g_per_ml),
    FIGURES(IMG_HOUSEHOLD, img_household, low),
    FIGURES(IMG_HOUSEHOLD, img_household, middle),
    FIGURES(IMG_HOUSEHOLD, img_household, high),
    FIGURES(IMG_FINDINGS, img_finding, threshold),
    FIGURES(IMG_FINDINGS, img_finding, threshold2),
    FIGURES(IMG_UNCOUNTED, img_uncounted, few),
    FIGURES(IMG_UNCOUNTED, img_uncounted, most),
    FIGURES(IMG_UNCOUNTED, img_uncounted, holds),
    FIGURES(IMG_SHOP_UNITS, img_shop_unit, most),
    FIGURES(IMG_SHOP_UNITS, img_shop_unit, holds),
    FIGURES(IMG_PORTIONS, img_portion, most_g),
    FIGURES(IMG_PORTIONS, img_portion, most_share),
    FIGURES(IMG_SET_ASIDE, img_set_aside, printed),
    FIGURES(IMG_SET_ASIDE, img_set_aside, share),
    FIGURES(IMG_SET_ASIDE, img_set_aside, least),
    FIGURES(IMG_SET_ASIDE, img_set_aside, most),
};

/* Rows of one section that are looked at, one after the other. */
struct rows {
  const unsigned char *at;
  size_t stride, count;
};

/* By their bits: beyond the sign those of a larger figure are larger, and those of NaN the largest of all. */
static bool figures_are_bounded(struct rows r, const struct figured *f) {
  const float most = FIGURE_MOST, infinite = INFINITY;
  uint32_t from, to, wild = 0;
  memcpy(&from, &most, sizeof from);
  memcpy(&to, &infinite, sizeof to);
  for (size_t i = 0; i < r.count; i++)
    for (size_t k = 0; k < f->count; k++) {
      uint32_t x;
      memcpy(&x, r.at + i * r.stride + f->at + k * sizeof x, sizeof x);
      wild |= (x & 0x7fffffff) - from - 1 < to - from; /* above 'from', up to 'to' */
    }
  return wild == 0;
}

static uint32_t number_at(const unsigned char *p, size_t bytes) {
  uint8_t one;
  uint16_t two;
  uint32_t four;
  switch (bytes) {
  case sizeof one:
    memcpy(&one, p, sizeof one);
    return one;
  case sizeof two:
    memcpy(&two, p, sizeof two);
    return two;
  default:
    memcpy(&four, p, sizeof four);
    return four;
  }
}

/* The largest is looked for and bounded once, row by row without a question: there are a million of them. 'turn' 1: the
 * largest number of all (NO_INDEX) becomes 0, each other one more. */
#define FIND_LARGEST(type)                                                                                                  \
  {                                                                                                                         \
    type largest = 0;                                                                                                       \
    UNROLLED for (size_t i = 0; i < n; i++, at += stride) {                                                                 \
      type x;                                                                                                               \
      memcpy(&x, at, sizeof x);                                                                                             \
      x = (type)(x + turn);                                                                                                 \
      largest = x > largest ? x : largest;                                                                                  \
    }                                                                                                                       \
    return largest;                                                                                                         \
  }
#if defined(__GNUC__) && !defined(__clang__)
#define UNROLLED _Pragma("GCC unroll 8")
#else
#define UNROLLED
#endif

static uint32_t largest_byte(const unsigned char *at, size_t stride, size_t n, unsigned turn)
    FIND_LARGEST(uint8_t) static uint32_t largest_short(const unsigned char *at, size_t stride, size_t n, unsigned turn)
        FIND_LARGEST(uint16_t) static uint32_t largest_word(const unsigned char *at, size_t stride, size_t n, unsigned turn)
            FIND_LARGEST(uint32_t)

                static bool field_is_bounded(const struct image *img, struct rows r, const struct indexed *f) {
  const unsigned char *at = r.at + f->at;
  uint64_t below = f->below > 0 ? f->below : img_count(img, f->of);
  if (r.count == 0) return true;
  if (f->or_else == NOTHING_ELSE && f->bytes == sizeof(uint8_t)) return largest_byte(at, r.stride, r.count, 0) < below;
  if (f->or_else == NOTHING_ELSE && f->bytes == sizeof(uint16_t)) return largest_short(at, r.stride, r.count, 0) < below;
  if (f->or_else == NOTHING_ELSE) return largest_word(at, r.stride, r.count, 0) < below;
  if (f->or_else == NO_INDEX && f->bytes == sizeof(uint32_t)) return largest_word(at, r.stride, r.count, 1) <= below;
  for (size_t i = 0; i < r.count; i++) {
    uint32_t x = number_at(at + i * r.stride, f->bytes);
    if (x >= below && x != f->or_else) return false;
  }
  return true;
}

static bool runs_within(const struct image *img, struct rows r, size_t first_at, size_t count_at, enum img_tag of) {
  uint64_t rows = img_count(img, of);
  for (size_t i = 0; i < r.count; i++) {
    const unsigned char *row = r.at + i * r.stride;
    uint64_t first = number_at(row + first_at, 4), count = number_at(row + count_at, 4);
    if (count > 0 && first + count > rows) return false;
  }
  return true;
}

/* A value as two words of one width, so that the compiler takes several values at once: there are some hundred thousand. */
struct value_words {
  float mean;
  uint32_t rest;
};
static_assert(sizeof(struct value_words) == sizeof(struct img_value), "a value is two words");
#if defined(__BYTE_ORDER__) && __BYTE_ORDER__ == __ORDER_BIG_ENDIAN__
#define STATUS_OF(rest) (((rest) >> 16) & 0xFF)
#define SOURCE_OF(rest) ((rest)&0xFFFF)
#else
#define STATUS_OF(rest) (((rest) >> 8) & 0xFF)
#define SOURCE_OF(rest) ((rest) >> 16)
#endif

MACHINE_KEPT(values_width);

static bool all_fine(const struct value_words *v, size_t n, uint32_t sources, uint32_t patterns);
MACHINE_BOTH_WIDTHS(values_width, bool, all_fine,
                    (const struct value_words *v, size_t n, uint32_t sources, uint32_t patterns),
                    (v, n, sources, patterns)) {
  uint32_t wild = 0;
  for (size_t i = 0; i < n; i++) {
    uint32_t status = STATUS_OF(v[i].rest), source = SOURCE_OF(v[i].rest);
    uint32_t most = sources + (status == VALUE_ESTIMATED ? patterns : 0);
    wild |= (uint32_t)(status >= VALUE_STATUS_COUNT) | (uint32_t)(source >= most) | (uint32_t)(v[i].mean < 0) |
            (uint32_t)(v[i].mean > FIGURE_MOST);
  }
  return wild == 0;
}

/* An estimate may name its pattern, behind the sources. */
static bool values_are_bounded(const struct image *img, struct rows r) {
  return all_fine((const void *)r.at, r.count, (uint32_t)img_count(img, IMG_SOURCES),
                  (uint32_t)img_count(img, IMG_PATTERNS));
}

static bool retention_is_bounded(struct rows r) {
  const struct img_retention *row = (const void *)r.at;
  for (size_t i = 0; i < r.count; i++)
    for (int k = 0; k < NUT_COUNT; k++)
      if (row[i].status[k] >= VALUE_STATUS_COUNT) return false;
  return true;
}

/* They are looked up by halving. */
static bool constants_are_sorted(const struct image *img, struct rows r) {
  const struct img_constant *row = (const void *)r.at;
  for (size_t i = 1; i < r.count; i++)
    if (strcmp(img_str(img, row[i - 1].key), img_str(img, row[i].key)) > 0) return false;
  return true;
}

static bool are_bounded_beside(const struct image *img, enum img_tag tag, struct rows r) {
  switch (tag) {
  case IMG_VALUES:
    return values_are_bounded(img, r);
  case IMG_FOODS:
    return runs_within(img, r, offsetof(struct img_food, measure_first), offsetof(struct img_food, measure_count),
                       IMG_MEASURES);
  case IMG_TOKENS:
    return runs_within(img, r, offsetof(struct img_token, posting_first), offsetof(struct img_token, posting_count),
                       IMG_POSTINGS);
  case IMG_RETENTION:
    return retention_is_bounded(r);
  case IMG_CONSTANTS:
    return constants_are_sorted(img, r);
  default:
    return true;
  }
}

bool image_rows_are_bounded(const struct image *img, enum img_tag tag, size_t first, size_t end) {
  size_t stride = image_stride(tag);
  struct rows r = {img->bytes + img->section[tag]->offset + first * stride, stride, end - first};
  for (size_t i = 0; i < COUNT_OF(INDEXED); i++)
    if (INDEXED[i].in == tag && !field_is_bounded(img, r, &INDEXED[i])) return false;
  for (size_t i = 0; i < COUNT_OF(FIGURED); i++)
    if (FIGURED[i].in == tag && !figures_are_bounded(r, &FIGURED[i])) return false;
  return are_bounded_beside(img, tag, r);
}
