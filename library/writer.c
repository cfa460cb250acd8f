#include "library/writer.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>

enum { MOST_STRING_BYTES = 64 * 1024 * 1024, FIRST_HASH = 1 << 15 };

void writer_init(struct writer *w, struct arena *arena) {
  *w = (struct writer){.arena = arena, .string_hash_size = FIRST_HASH};
  buf_init(&w->strings, arena, MOST_STRING_BYTES);
  buf_addc(&w->strings, '\0'); /* offset 0 is the empty text */
  w->string_hash = ARENA_NEW(arena, uint32_t, FIRST_HASH);
}

/* The slot of 's': the one that holds it, or the free one where it belongs. A slot of 0 is free. */
static uint32_t *slot_of(struct writer *w, struct span s) {
  size_t mask = w->string_hash_size - 1;
  for (size_t i = (size_t)checksum64(s.p, s.n) & mask;; i = (i + 1) & mask) {
    uint32_t *slot = &w->string_hash[i];
    if (*slot == 0 || span_is(s, w->strings.p + *slot)) return slot;
  }
}

static void grow_hash(struct writer *w) {
  const uint32_t *old = w->string_hash;
  size_t old_size = w->string_hash_size;
  w->string_hash_size *= 2;
  w->string_hash = ARENA_NEW(w->arena, uint32_t, w->string_hash_size);
  for (size_t i = 0; i < old_size; i++)
    if (old[i]) *slot_of(w, span_of(w->strings.p + old[i])) = old[i];
}

img_text writer_text(struct writer *w, struct span s) {
  if (s.n == 0) return 0;
  if (memchr(s.p, '\0', s.n)) build_fail("a text for the image holds a NUL byte: '%.*s'", SPAN_ARG(s));
  if (2 * (w->string_count + 1) > w->string_hash_size) grow_hash(w);
  uint32_t *slot = slot_of(w, s);
  if (*slot) return *slot;
  *slot = (uint32_t)w->strings.n;
  w->string_count++;
  buf_add(&w->strings, s);
  buf_addc(&w->strings, '\0');
  if (w->strings.cut) build_fail("the texts of the image exceed %d bytes", MOST_STRING_BYTES);
  return *slot;
}

void writer_section(struct writer *w, enum img_tag tag, const void *rows, size_t count, size_t stride) {
  if (tag <= 0 || tag >= IMG_TAG_END || stride != image_stride((uint32_t)tag))
    build_fail("section %d: records of %zu bytes", (int)tag, stride);
  if (w->section[tag].stride != 0) build_fail("section %d is written twice", (int)tag);
  w->section[tag].rows = rows;
  w->section[tag].count = count;
  w->section[tag].stride = stride;
}

static size_t up_to_16(size_t n) { return (n + 15) / 16 * 16; }

/* Header, directory and all sections as one block; a section nobody wrote is there with no records. */
static struct span lay_out(struct writer *w, img_text made_from) {
  enum { SECTIONS = IMG_TAG_END - 1 };
  struct img_section dir[SECTIONS];
  size_t at = up_to_16(sizeof(struct img_header) + sizeof dir);
  for (int tag = 1; tag < IMG_TAG_END; tag++) {
    size_t count = w->section[tag].count;
    dir[tag - 1] = (struct img_section){(uint32_t)tag, (uint32_t)image_stride((uint32_t)tag), at, count};
    at = up_to_16(at + count * image_stride((uint32_t)tag));
  }
  unsigned char *image = arena_alloc(w->arena, at, 1);
  struct img_header h = {.version = IMAGE_VERSION,
                         .endian = 0x01020304,
                         .bytes = at,
                         .nutrient_count = NUT_COUNT,
                         .section_count = SECTIONS,
                         .made_from = made_from};
  memcpy(h.magic, IMAGE_MAGIC, sizeof h.magic);
  memcpy(image + sizeof h, dir, sizeof dir);
  for (int i = 0; i < SECTIONS; i++)
    if (dir[i].count > 0) memcpy(image + dir[i].offset, w->section[i + 1].rows, dir[i].count * dir[i].stride);
  memcpy(image, &h, sizeof h);
  image_seal(image, at);
  return (struct span){(const char *)image, at};
}

static void write_file(const char *path, struct span bytes) {
  FILE *f = fopen(path, "wb");
  if (!f) build_fail("%s: cannot write: %s", path, strerror(errno));
  bool fine = fwrite(bytes.p, 1, bytes.n, f) == bytes.n;
  fine = fflush(f) == 0 && fine;
  fine = fclose(f) == 0 && fine;
  if (!fine) {
    int why = errno;
    remove(path);
    build_fail("%s: cannot write: %s", path, strerror(why));
  }
}

void writer_save(struct writer *w, const char *made_from, const char *path) {
  img_text from = writer_textz(w, made_from);
  writer_section(w, IMG_STRINGS, w->strings.p, w->strings.n, 1);
  size_t sums = image_sum_count(w->section[IMG_FOODS].count, w->section[IMG_MEASURES].count, w->section[IMG_POSTINGS].count);
  writer_section(w, IMG_SUMS, ARENA_NEW(w->arena, uint64_t, sums), sums, sizeof(uint64_t)); /* image_seal() fills them */
  struct span image = lay_out(w, from);
  struct buf beside;
  buf_init(&beside, w->arena, 4096);
  buf_addf(&beside, "%s.new", path);
  struct image check;
  enum image_fault fault = image_open(&check, image.p, image.n);
  if (fault != IMAGE_FINE) build_fail("%s: the image does not open: %s", path, image_fault_text(fault));
  write_file(buf_text(&beside), image);
  if (rename(buf_text(&beside), path) != 0) {
    int why = errno;
    remove(buf_text(&beside));
    build_fail("%s: cannot write: %s", path, strerror(why));
  }
}
