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
WORD_TABLE(uncounted_as_word, UNCOUNTED_AS_COUNT, "dose", "vague", "snack", "trifle", "measure", "powder",
           "serving"); /* ORDER UNCOUNTED_AS */
WORD_TABLE(finding_weight_word, FINDING_WEIGHT_COUNT, "act", "watch", "know");
WORD_TABLE(retention_group_word, RETAIN_GROUP_COUNT, "beef", "pork", "chicken", "turkey", "lamb", "liver", "organ",
           "fish_lean", "fish_fatty", "shellfish", "egg", "milk", "potato", "sweet_potato", "greens", "vegetable", "root",
           "oatmeal", "cereal", "pasta", "rice", "legume", "none");

WORD_TABLE(kitchen_topic_word, KITCHEN_TOPICS, "keep", "cold", "thaw", "serve", "box", "change", "change_care");
WORD_TABLE(kitchen_form_word, KITCHEN_FORMS, "any", "raw", "cooked", "canned");

const char *const standard_key[STANDARD_COUNT] = {
#define X(id, key, name) key,
    STANDARD_LIST(X)
#undef X
};
const char *const standard_name[STANDARD_COUNT] = {
#define X(id, key, name) name,
    STANDARD_LIST(X)
#undef X
};

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

/* Rows of one block of the sections that have blocks. */
static const struct {
  enum img_tag tag;
  size_t rows;
} IN_BLOCKS[] = {{IMG_VALUES, (size_t)BLOCK_VALUES_FOODS *NUT_COUNT},
                 {IMG_FOODS, BLOCK_FOODS},
                 {IMG_MEASURES, BLOCK_MEASURES},
                 {IMG_POSTINGS, BLOCK_POSTINGS}};

static size_t block_rows(enum img_tag tag) {
  for (size_t i = 0; i < COUNT_OF(IN_BLOCKS); i++)
    if (IN_BLOCKS[i].tag == tag) return IN_BLOCKS[i].rows;
  return 0;
}

static size_t blocks_of(enum img_tag tag, size_t rows) { return (rows + block_rows(tag) - 1) / block_rows(tag); }

size_t image_sum_count(size_t foods, size_t measures, size_t postings) {
  return IMG_TAG_END + blocks_of(IMG_VALUES, foods * NUT_COUNT) + blocks_of(IMG_FOODS, foods) +
         blocks_of(IMG_MEASURES, measures) + blocks_of(IMG_POSTINGS, postings) + 1;
}

/* The row of the sums where the blocks of a section begin. */
static size_t first_sum(const struct image *img, enum img_tag tag) {
  size_t at = IMG_TAG_END;
  for (size_t i = 0; IN_BLOCKS[i].tag != tag; i++) at += blocks_of(IN_BLOCKS[i].tag, img_count(img, IN_BLOCKS[i].tag));
  return at;
}

/* Where a section ends: with the bytes that fill it up to the next one. */
static size_t end_of(const struct image *img, enum img_tag tag) {
  size_t end = img->n, from = img->section[tag]->offset + img->section[tag]->count * img->section[tag]->stride;
  for (uint32_t other = 1; other < IMG_TAG_END; other++)
    if (img->section[other] && img->section[other]->offset >= from && img->section[other]->offset < end)
      end = img->section[other]->offset;
  return end;
}

static uint64_t sum_of_section(const struct image *img, enum img_tag tag) {
  size_t from = img->section[tag]->offset;
  return checksum64(img->bytes + from, end_of(img, tag) - from);
}

static uint64_t sum_of_block(const struct image *img, enum img_tag tag, size_t block) {
  const struct img_section *s = img->section[tag];
  size_t bytes = block_rows(tag) * s->stride, from = s->offset + block * bytes;
  bool last = block + 1 == blocks_of(tag, s->count);
  return checksum64(img->bytes + from, last ? end_of(img, tag) - from : bytes);
}

/* Of the header, the directory, and what fills the sums up to the end of theirs. */
static uint64_t sum_of_the_frame(const struct image *img) {
  const struct img_section *sums = img->section[IMG_SUMS];
  struct img_header h;
  memcpy(&h, img->bytes, sizeof h);
  h.checksum = 0;
  size_t first = img->n, filled = sums->offset + sums->count * sums->stride;
  for (uint32_t tag = 1; tag < IMG_TAG_END; tag++)
    if (img->section[tag] && img->section[tag]->offset < first) first = img->section[tag]->offset;
  const uint64_t part[] = {checksum64(&h, sizeof h), checksum64(img->bytes + sizeof h, first - sizeof h),
                           checksum64(img->bytes + filled, end_of(img, IMG_SUMS) - filled)};
  return checksum64(part, sizeof part);
}

/* Sections that lie over one another, or over the header, have no sums of their own. */
static bool stand_apart(const struct image *img) {
  for (uint32_t tag = 1; tag < IMG_TAG_END; tag++) {
    const struct img_section *s = img->section[tag];
    if (s && s->offset < sizeof(struct img_header) + img->header->section_count * sizeof *s) return false;
    for (uint32_t other = 1; s && other < IMG_TAG_END; other++) {
      const struct img_section *o = img->section[other];
      if (o && o->count > 0 && other != tag && o->offset >= s->offset && o->offset < s->offset + s->count * s->stride)
        return false;
    }
  }
  return true;
}

static bool has_sums(const struct image *img) {
  size_t sums = image_sum_count(img_count(img, IMG_FOODS), img_count(img, IMG_MEASURES), img_count(img, IMG_POSTINGS));
  return img_count(img, IMG_SUMS) == sums && stand_apart(img);
}

static const uint64_t *sums_of(const struct image *img) {
  return (const uint64_t *)(const void *)(img->bytes + img->section[IMG_SUMS]->offset);
}

/* Has the section one sum for all of it? */
static bool is_summed_whole(const struct image *img, uint32_t tag) {
  return img->section[tag] && tag != IMG_SUMS && block_rows((enum img_tag)tag) == 0;
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
  return img_count(img, IMG_VALUES) == img_count(img, IMG_FOODS) * NUT_COUNT &&
         img_count(img, IMG_SEARCH_FOODS) == img_count(img, IMG_FOODS) &&
         img_count(img, IMG_CLASSES) == (size_t)SPREAD_CLASS_COUNT * NUT_COUNT;
}

static bool is_bounded(const struct image *img) {
  for (uint32_t tag = 1; tag < IMG_TAG_END; tag++)
    if (img->section[tag] && !image_rows_are_bounded(img, (enum img_tag)tag, 0, img_count(img, (enum img_tag)tag)))
      return false;
  return true;
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
  return sections_agree(img) && is_bounded(img) ? IMAGE_FINE : IMAGE_BAD_SECTION;
}

enum image_fault image_open_in_parts(struct image *img, const void *bytes, size_t n, struct arena *arena,
                                     void (*on_fault)(const void *whose, enum image_fault), const void *whose) {
  if (find_sections(img, bytes, n) != IMAGE_FINE || !has_sums(img)) return image_open(img, bytes, n);
  const uint64_t *sums = sums_of(img);
  size_t last = img_count(img, IMG_SUMS) - 1;
  if (checksum64(sums, last * sizeof *sums) != sums[last] || sum_of_the_frame(img) != sums[0]) return IMAGE_DAMAGED;
  if (sum_of_section(img, IMG_STRINGS) != sums[IMG_STRINGS]) return IMAGE_DAMAGED;
  if (!sections_agree(img)) return IMAGE_BAD_SECTION;
  img->unseen = ARENA_NEW(arena, uint8_t, IMG_TAG_END);
  for (uint32_t tag = 1; tag < IMG_TAG_END; tag++) img->unseen[tag] = tag != IMG_STRINGS && tag != IMG_SUMS;
  for (size_t i = 0; i < COUNT_OF(IN_BLOCKS); i++) {
    size_t blocks = blocks_of(IN_BLOCKS[i].tag, img_count(img, IN_BLOCKS[i].tag));
    img->unseen_block[IN_BLOCKS[i].tag] = memset(ARENA_NEW(arena, uint8_t, blocks), 1, blocks);
  }
  img->on_fault = on_fault;
  img->whose = whose;
  return IMAGE_FINE;
}

static NO_RETURN void fault_found(const struct image *img, enum image_fault fault) {
  if (img->on_fault) img->on_fault(img->whose, fault);
  abort();
}

/* The marks go first: whoever looks asks for the rows as everybody does. */
static void look(const struct image *img, enum img_tag tag, size_t first, size_t end, bool is_right) {
  if (!is_right) fault_found(img, IMAGE_DAMAGED);
  if (!image_rows_are_bounded(img, tag, first, end)) fault_found(img, IMAGE_BAD_SECTION);
}

void image_look_at_block(const struct image *img, enum img_tag tag, size_t block) {
  size_t rows = img_count(img, tag), first = block * block_rows(tag), end = first + block_rows(tag);
  if (!img->unseen[tag] || first >= rows || !img->unseen_block[tag][block]) return;
  img->unseen_block[tag][block] = 0;
  look(img, tag, first, end < rows ? end : rows, sum_of_block(img, tag, block) == sums_of(img)[first_sum(img, tag) + block]);
}

void image_look_at_section(const struct image *img, enum img_tag tag) {
  if (!img->unseen[tag]) return;
  for (size_t i = 0; img->unseen_block[tag] && i < blocks_of(tag, img_count(img, tag)); i++)
    image_look_at_block(img, tag, i);
  img->unseen[tag] = 0;
  if (is_summed_whole(img, tag)) look(img, tag, 0, img_count(img, tag), sum_of_section(img, tag) == sums_of(img)[tag]);
}

void image_look_at_all(const struct image *img) {
  for (uint32_t tag = 1; img->unseen && tag < IMG_TAG_END; tag++) image_look_at_section(img, (enum img_tag)tag);
}

void image_seal(void *bytes, size_t n) {
  struct image img;
  struct img_header *h = bytes;
  if (find_sections(&img, bytes, n) == IMAGE_FINE && has_sums(&img)) {
    uint64_t *sums = (uint64_t *)(void *)((unsigned char *)bytes + img.section[IMG_SUMS]->offset);
    size_t last = img_count(&img, IMG_SUMS) - 1;
    sums[0] = sum_of_the_frame(&img);
    for (uint32_t tag = 1; tag < IMG_TAG_END; tag++) sums[tag] = is_summed_whole(&img, tag) ? sum_of_section(&img, tag) : 0;
    for (size_t i = 0; i < COUNT_OF(IN_BLOCKS); i++)
      for (size_t k = 0, at = first_sum(&img, IN_BLOCKS[i].tag);
           k < blocks_of(IN_BLOCKS[i].tag, img_count(&img, IN_BLOCKS[i].tag)); k++)
        sums[at + k] = sum_of_block(&img, IN_BLOCKS[i].tag, k);
    sums[last] = checksum64(sums, last * sizeof *sums);
  }
  h->checksum = image_checksum(bytes, n);
}
