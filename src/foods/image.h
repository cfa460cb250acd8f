/* image.h: the block of bytes that image_records.h lays out, opened and read in place; what cannot be read is refused.
 *
 * Layer: foods. Pure: works on bytes that the caller owns and keeps for as long as the library is used. */
#ifndef BW_IMAGE_H
#define BW_IMAGE_H

#include "foods/image_records.h"

enum image_fault {
  IMAGE_FINE,
  IMAGE_TOO_SHORT,
  IMAGE_FOREIGN,
  IMAGE_OTHER_VERSION,
  IMAGE_OTHER_ENDIAN,
  IMAGE_BAD_LENGTH,
  IMAGE_DAMAGED,
  IMAGE_BAD_SECTION,
  IMAGE_MISSING_SECTION,
  IMAGE_FAULT_COUNT
};

struct image {
  const unsigned char *bytes;
  size_t n;
  const struct img_header *header;
  const char *strings;
  size_t string_bytes;
  const struct img_section *section[IMG_TAG_END]; /* NULL if absent */
  /* Of an image that was opened in parts: which sections, and which blocks of those that have blocks, have not been looked
   * at yet. NULL: all have. */
  uint8_t *unseen, *unseen_block[IMG_TAG_END];
  void (*on_fault)(const void *whose, enum image_fault); /* must not return */
  const void *whose;
};

/* Over every byte of an image but the checksum's own eight; at least a header is there. */
uint64_t image_checksum(const void *bytes, size_t n);
/* Writes the sums of a new image's parts, then its checksum. */
void image_seal(void *bytes, size_t n);
/* Rows of IMG_SUMS for so many foods, measures and postings: header and directory, each section, each block of the sections
 * that have blocks, these sums themselves. */
size_t image_sum_count(size_t foods, size_t measures, size_t postings);
/* Bytes of one record of a section; 0 for a tag that does not exist. */
size_t image_stride(uint32_t tag);
/* One sentence that says what is wrong and what to do ("... run 'make build' ..."). */
const char *image_fault_text(enum image_fault f);

/* Checks everything that reading in place depends on: magic, version, byte order, length, checksum, every section
 * inside the image with the stride this program was built with, strings ending in NUL. Bytes must be 16-byte aligned. */
enum image_fault image_open(struct image *img, const void *bytes, size_t n) MUST_USE;

/* The same for a program that answers one question and ends: of the sections only the texts are looked at, the others when
 * they are first asked for, each with its own checksum and bounds; the large ones (values, foods, measures, postings) block
 * by block. What is found wrong then is told to 'on_fault', with 'whose', and it must not return. The marks lie in the
 * arena; an image without sums of its parts is looked at whole. */
enum image_fault image_open_in_parts(struct image *img, const void *bytes, size_t n, struct arena *arena,
                                     void (*on_fault)(const void *whose, enum image_fault), const void *whose) MUST_USE;
/* Foods in one block of values, in one block of foods; measures, postings in one block. */
enum { BLOCK_VALUES_FOODS = 8, BLOCK_FOODS = 32, BLOCK_MEASURES = 128, BLOCK_POSTINGS = 512 };
/* Looks at a section, and at all its blocks; at the block of a section; at everything. Nothing happens where that has been
 * done. */
void image_look_at_section(const struct image *img, enum img_tag tag);
void image_look_at_block(const struct image *img, enum img_tag tag, size_t block);
void image_look_at_all(const struct image *img);

static inline const char *img_str(const struct image *img, img_text t) {
  return t < img->string_bytes ? img->strings + t : "";
}
static inline size_t img_count(const struct image *img, enum img_tag tag) {
  return img->section[tag] ? (size_t)img->section[tag]->count : 0;
}
static inline const void *img_rows(const struct image *img, enum img_tag tag) {
  if (img->unseen && img->unseen[tag]) image_look_at_section(img, tag);
  return img->section[tag] ? (const void *)(img->bytes + img->section[tag]->offset) : NULL;
}
/* Rows of a section with blocks of which only block number 'block' is going to be read; the section is there. */
static inline const void *img_rows_of_block(const struct image *img, enum img_tag tag, size_t block) {
  if (img->unseen && img->unseen[tag] && img->unseen_block[tag][block]) image_look_at_block(img, tag, block);
  return img->bytes + img->section[tag]->offset;
}
#define IMG_ROWS(img, tag, type) ((const type *)img_rows((img), (tag)))

#endif
