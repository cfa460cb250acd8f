/* manual_test.c: every example of the manual's pages about texts (the indented blocks) is read without a complaint. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "animal/animal_text.h"
#include "label/label_text.h"
#include "recipe/recipe_text.h"
#include "tests/support/built_image.h"

static struct arena arena;
static struct library lib; /* with the labels of the page so far */

static void must_be_clean(const struct diags *d, struct span text) {
  if (d->count == 0) return;
  struct buf b;
  buf_init(&b, &arena, 1 << 16);
  diags_print(d, &b, true);
  fprintf(stderr, "%.*s\n%s", SPAN_ARG(text), buf_text(&b));
  fail();
}

static void read_recipe(struct span text) {
  struct diags d;
  struct recipe recipe;
  struct ration ration;
  diags_init(&d, &arena, "example", text);
  bool fine = recipe_parse(text, &d, &recipe, &arena);
  fine = recipe_resolve(&lib, &recipe, &d, &ration, &arena) && fine;
  must_be_clean(&d, text);
  assert_true(fine);
}

static void read_label(struct span text) {
  struct diags d;
  struct own_food *foods;
  size_t count;
  diags_init(&d, &arena, "example", text);
  bool fine = label_read(text, &lib, &d, &foods, &count, &arena);
  must_be_clean(&d, text);
  assert_true(fine);
  lib.own = foods;
  lib.own_count = count;
}

static void read_animals(struct span text) {
  struct diags d;
  struct animal *animals;
  size_t count;
  diags_init(&d, &arena, "example", text);
  bool fine = animal_read(text, (struct date){2026, 11, 2}, &d, &animals, &count, &arena);
  must_be_clean(&d, text);
  assert_true(fine);
}

static void read_block(struct span text) {
  if (span_starts_fold(text, "Food:"))
    read_label(text);
  else if (span_starts_fold(text, "Animal:"))
    read_animals(text);
  else
    read_recipe(text);
}

/* Indented lines in a row, with the empty lines between them, are one block. Returns how many blocks there were. */
static int read_page(const char *name) {
  char path[1024], line[4096];
  snprintf(path, sizeof path, "%s/docs/manual/%s", BW_SOURCE_DIR, name);
  FILE *f = fopen(path, "rb");
  assert_non_null(f);
  struct buf block;
  int blocks = 0;
  buf_init(&block, &arena, 1 << 16);
  while (fgets(line, sizeof line, f)) {
    if (strncmp(line, "    ", 4) == 0) {
      buf_adds(&block, line + 4);
    } else if (line[0] == '\n') {
      if (block.n > 0) buf_addc(&block, '\n');
    } else if (block.n > 0) {
      read_block(buf_span(&block));
      blocks++;
      buf_init(&block, &arena, 1 << 16);
    }
  }
  fclose(f);
  assert_int_equal(block.n, 0); /* a page ends with a sentence */
  return blocks;
}

static void recipes(void **state) {
  (void)state;
  assert_true(read_page("recipe-text.md") >= 5);
}
static void animals(void **state) {
  (void)state;
  assert_true(read_page("animal-text.md") >= 2);
}
static void labels(void **state) {
  (void)state;
  assert_true(read_page("labels.md") >= 4);
}

static int set_up(void **state) {
  (void)state;
  arena_init(&arena, NULL);
  lib = *built_library();
  return 0;
}
static int tear_down(void **state) {
  (void)state;
  arena_free(&arena);
  return 0;
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test_setup_teardown(recipes, set_up, tear_down),
                                     cmocka_unit_test_setup_teardown(animals, set_up, tear_down),
                                     cmocka_unit_test_setup_teardown(labels, set_up, tear_down)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
