#include "foods/image.h"
#include "base/table.h"

#include <math.h>

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

enum image_fault image_open(struct image *img, const void *bytes, size_t n) {
  *img = (struct image){.bytes = bytes, .n = n};
  const struct img_header *h = bytes;
  if (n < 8) return IMAGE_TOO_SHORT;
  if (memcmp(bytes, IMAGE_MAGIC, 8) != 0) return IMAGE_FOREIGN;
  if (n < sizeof *h) return IMAGE_TOO_SHORT;
  if (h->endian != 0x01020304) return IMAGE_OTHER_ENDIAN;
  if (h->version != IMAGE_VERSION || h->nutrient_count != NUT_COUNT) return IMAGE_OTHER_VERSION;
  if (h->bytes != n) return IMAGE_BAD_LENGTH;
  if (image_checksum(bytes, n) != h->checksum) return IMAGE_DAMAGED;
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
  if (img->string_bytes == 0 || img->strings[img->string_bytes - 1] != '\0') return IMAGE_BAD_SECTION;
  if (img_count(img, IMG_VALUES) != img_count(img, IMG_FOODS) * NUT_COUNT) return IMAGE_BAD_SECTION;
  if (img_count(img, IMG_CLASSES) != (size_t)SPREAD_CLASS_COUNT * NUT_COUNT) return IMAGE_BAD_SECTION;
  return image_is_bounded(img) ? IMAGE_FINE : IMAGE_BAD_SECTION;
}
