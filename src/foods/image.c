#include "foods/image.h"
#include "base/table.h"

#include <stdlib.h>

#include "foods/image_valid.h"

WORD_TABLE(confidence_word, CONF_COUNT, "confirmed", "converted", "memory", "common practice", "conflicting");
WORD_TABLE(part_word, PART_COUNT, "muscle", "organ_liver", "organ_secreting", "organ_other", "bone", "fish", "shellfish",
           "egg", "dairy", "vegetable", "fruit", "grain", "legume", "seed_nut", "fat_oil", "supplement", "other");
WORD_TABLE(spread_class_word, SPREAD_CLASS_COUNT, "dairy", "egg", "fat_oil", "fish", "fruit", "grain", "legume", "organ",
           "other", "poultry", "red_meat", "seed_nut", "shellfish", "vegetable", "bone", "supplement");
WORD_TABLE(kind_word, KIND_COUNT, "beef", "veal", "pork", "lamb", "goat", "game", "rabbit", "chicken", "turkey", "duck",
           "goose", "other bird", "fish", "shellfish", "egg", "milk", "plant", "other");
WORD_TABLE(state_word, STATE_COUNT, "raw", "boiled", "simmered", "baked", "roasted", "pan-fried", "steamed",
           "pressure-cooked", "grilled", "microwaved", "canned", "dried", "freeze-dried", "cooked", "unstated");
WORD_TABLE(value_status_word, VALUE_STATUS_COUNT, "unknown", "measured", "cited", "estimated", "none");
WORD_TABLE(species_word, SPECIES_COUNT, "dog", "cat");
WORD_TABLE(standard_key, STANDARD_COUNT, "nrc2006", "fediaf2021", "aafco2016");
WORD_TABLE(standard_name, STANDARD_COUNT, "NRC 2006", "FEDIAF 2021", "AAFCO 2016");
WORD_TABLE(finding_weight_word, FINDING_WEIGHT_COUNT, "act", "watch", "know");
WORD_TABLE(retention_group_word, RETAIN_GROUP_COUNT, "beef", "pork", "chicken", "turkey", "lamb", "liver", "organ",
           "fish_lean", "fish_fatty", "shellfish", "egg", "milk", "potato", "sweet_potato", "greens", "vegetable", "root",
           "oatmeal", "cereal", "pasta", "rice", "legume", "none");

WORD_TABLE(kitchen_topic_word, KITCHEN_TOPICS, "keep", "cold", "thaw", "serve", "box", "change", "change_care");
WORD_TABLE(kitchen_form_word, KITCHEN_FORMS, "any", "raw", "cooked", "canned");

static WORD_TABLE(FAULT_TEXT, IMAGE_FAULT_COUNT, "the food library is fine",
                  "the food library file is too short to be one; build it again with 'make build'",
                  "this file is not a Bowlwright food library; build one with 'make build'",
                  "this food library was written by another version of Bowlwright; build it again with 'make build'",
                  "this food library was written on a machine with another byte order; build it here with 'make build'",
                  "the food library file is cut short or has grown; build it again with 'make build'",
                  "the food library file is damaged (its checksum does not fit); build it again with 'make build'",
                  "the food library file has a section that this program cannot read; build it again with 'make build'",
                  "the food library file lacks a section that this program needs; build it again with 'make build'");

const char *image_fault_text(enum image_fault f) { return FAULT_TEXT[f < IMAGE_FAULT_COUNT ? f : IMAGE_FOREIGN]; }

/* Everything is bounded before it is used; '!(fits)' style so that an overflow cannot slip through. */
static bool section_fits(const struct img_section *s, size_t n) {
  size_t stride = image_stride(s->tag);
  if (stride == 0 || s->stride != stride || s->offset % 16 != 0 || s->offset > n) return false;
  return s->count <= (n - s->offset) / stride;
}

uint64_t image_checksum(const void *bytes, size_t n) {
  struct img_header h;
  memcpy(&h, bytes, sizeof h);
  h.checksum = checksum64((const unsigned char *)bytes + sizeof h, n - sizeof h);
  return checksum64(&h, sizeof h); /* the header stands beside the sum of what follows it */
}

/* ---- sums of parts ---------------------------------------------------------------------------------------------- */

static uint64_t *sums_of(const struct image *img, unsigned char *bytes) {
  return (uint64_t *)(void *)(bytes + img->section[IMG_SUMS]->offset);
}

static size_t end_of(const struct img_section *s) { return s->offset + s->count * s->stride; }

/* Of the header, the directory and every section but the values and the sums, which stand in this order. */
static uint64_t sum_of_the_rest(const struct image *img) {
  const struct img_section *values = img->section[IMG_VALUES], *sums = img->section[IMG_SUMS];
  struct img_header h;
  memcpy(&h, img->bytes, sizeof h);
  h.checksum = 0;
  size_t second = end_of(values), third = end_of(sums);
  const uint64_t part[] = {checksum64(&h, sizeof h), checksum64(img->bytes + sizeof h, values->offset - sizeof h),
                           checksum64(img->bytes + second, sums->offset - second),
                           checksum64(img->bytes + third, img->n - third)};
  return checksum64(part, sizeof part);
}

static uint64_t sum_of_block(const struct image *img, size_t block) {
  const size_t food_bytes = NUT_COUNT * sizeof(struct img_value), foods = img_count(img, IMG_FOODS);
  size_t first = block * SUM_BLOCK_FOODS, left = foods - first;
  const unsigned char *values = img_rows(img, IMG_VALUES);
  return checksum64(values + first * food_bytes, (left < SUM_BLOCK_FOODS ? left : SUM_BLOCK_FOODS) * food_bytes);
}

static bool has_sums(const struct image *img) {
  return img_count(img, IMG_SUMS) == image_sum_count(img_count(img, IMG_FOODS)) &&
         img->section[IMG_VALUES]->offset >= sizeof(struct img_header) &&
         img->section[IMG_SUMS]->offset >= end_of(img->section[IMG_VALUES]);
}

/* ---- opening ------------------------------------------------------------------------------------------------------ */

/* The header and where the sections lie; nothing of what they hold. */
static enum image_fault find_sections(struct image *img, const void *bytes, size_t n) {
  *img = (struct image){.bytes = bytes, .n = n};
  const struct img_header *h = bytes;
  if (n < 8) return IMAGE_TOO_SHORT;
  if (memcmp(bytes, IMAGE_MAGIC, 8) != 0) return IMAGE_FOREIGN;
  if (n < sizeof *h) return IMAGE_TOO_SHORT;
  if (h->endian != 0x01020304) return IMAGE_OTHER_ENDIAN;
  if (h->version != IMAGE_VERSION || h->nutrient_count != NUT_COUNT) return IMAGE_OTHER_VERSION;
  if (h->bytes != n) return IMAGE_BAD_LENGTH;
  if (h->section_count > 64 || (n - sizeof *h) / sizeof(struct img_section) < h->section_count) return IMAGE_BAD_SECTION;
  const struct img_section *dir = (const struct img_section *)(img->bytes + sizeof *h);
  for (uint32_t i = 0; i < h->section_count; i++) {
    if (!section_fits(&dir[i], n)) return IMAGE_BAD_SECTION;
    img->section[dir[i].tag] = &dir[i];
  }
  for (uint32_t tag = 1; tag < IMG_TAG_END; tag++)
    if (image_stride(tag) > 0 && !img->section[tag]) return IMAGE_MISSING_SECTION;
  img->header = h;
  img->strings = img_rows(img, IMG_STRINGS);
  img->string_bytes = img_count(img, IMG_STRINGS);
  return IMAGE_FINE;
}

static bool sections_agree(const struct image *img) {
  if (img->string_bytes == 0 || img->strings[img->string_bytes - 1] != '\0') return false;
  if (img_count(img, IMG_VALUES) != img_count(img, IMG_FOODS) * NUT_COUNT) return false;
  return img_count(img, IMG_CLASSES) == (size_t)SPREAD_CLASS_COUNT * NUT_COUNT && image_is_bounded(img);
}

/* A damaged directory is damage, whatever it says of itself. */
static enum image_fault find_whole_sections(struct image *img, const void *bytes, size_t n) {
  enum image_fault fault = find_sections(img, bytes, n);
  bool measured = fault == IMAGE_FINE || fault == IMAGE_BAD_SECTION || fault == IMAGE_MISSING_SECTION;
  if (measured && image_checksum(bytes, n) != ((const struct img_header *)bytes)->checksum) return IMAGE_DAMAGED;
  return fault;
}

enum image_fault image_open(struct image *img, const void *bytes, size_t n) {
  enum image_fault fault = find_whole_sections(img, bytes, n);
  if (fault != IMAGE_FINE) return fault;
  return sections_agree(img) && image_values_are_bounded(img, 0, img_count(img, IMG_FOODS)) ? IMAGE_FINE : IMAGE_BAD_SECTION;
}

enum image_fault image_open_in_parts(struct image *img, const void *bytes, size_t n, struct arena *arena,
                                     void (*on_fault)(const void *whose, enum image_fault), const void *whose) {
  if (find_sections(img, bytes, n) != IMAGE_FINE || !has_sums(img)) return image_open(img, bytes, n);
  const uint64_t *sums = img_rows(img, IMG_SUMS);
  size_t last = img_count(img, IMG_SUMS) - 1;
  if (checksum64(sums, last * sizeof *sums) != sums[last] || sum_of_the_rest(img) != sums[0]) return IMAGE_DAMAGED;
  if (!sections_agree(img)) return IMAGE_BAD_SECTION;
  img->seen = ARENA_NEW(arena, uint8_t, last);
  img->on_fault = on_fault;
  img->whose = whose;
  return IMAGE_FINE;
}

static NO_RETURN void fault_found(const struct image *img, enum image_fault fault) {
  if (img->on_fault) img->on_fault(img->whose, fault);
  abort();
}

void image_look_at_block(const struct image *img, size_t block) {
  const uint64_t *sums = img_rows(img, IMG_SUMS);
  size_t foods = img_count(img, IMG_FOODS), first = block * SUM_BLOCK_FOODS;
  if (first >= foods) return;
  if (sum_of_block(img, block) != sums[1 + block]) fault_found(img, IMAGE_DAMAGED);
  size_t end = foods - first < SUM_BLOCK_FOODS ? foods : first + SUM_BLOCK_FOODS;
  if (!image_values_are_bounded(img, first, end)) fault_found(img, IMAGE_BAD_SECTION);
  img->seen[block] = 1;
}

void image_look_at_all(const struct image *img) {
  for (size_t food = 0; img->seen && food < img_count(img, IMG_FOODS); food += SUM_BLOCK_FOODS)
    image_look_at(img, (uint32_t)food);
}

void image_seal(void *bytes, size_t n) {
  struct image img;
  struct img_header *h = bytes;
  if (find_sections(&img, bytes, n) == IMAGE_FINE && has_sums(&img)) {
    uint64_t *sums = sums_of(&img, bytes);
    size_t last = img_count(&img, IMG_SUMS) - 1;
    for (size_t i = 1; i < last; i++) sums[i] = sum_of_block(&img, i - 1);
    sums[0] = sum_of_the_rest(&img);
    sums[last] = checksum64(sums, last * sizeof *sums);
  }
  h->checksum = image_checksum(bytes, n);
}
