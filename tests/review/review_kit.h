/* review_kit.h: what the tests of the written review share: files of this folder, and a check of a recipe text. Include
 * after cmocka.h. */
#ifndef BW_REVIEW_KIT_H
#define BW_REVIEW_KIT_H

#include <stdio.h>
#include <stdlib.h>

#include "app/app.h"
#include "review/findings.h"
#include "tests/support/built_image.h"

#define REVIEW_FOLDER BW_SOURCE_DIR "/tests/review/"

static inline struct span review_file(const char *path, struct arena *arena) {
  FILE *f = fopen(path, "rb");
  if (!f) {
    fprintf(stderr, "cannot read %s\n", path);
    exit(1);
  }
  struct buf b;
  buf_init(&b, arena, 1 << 20);
  char block[4096];
  size_t n;
  while ((n = fread(block, 1, sizeof block, f)) > 0) buf_add(&b, (struct span){block, n});
  fclose(f);
  return buf_span(&b);
}

/* Takes the first line off 'rest', without its end. */
static inline bool next_line(struct span *rest, struct span *line) {
  if (rest->n == 0) return false;
  const char *end = memchr(rest->p, '\n', rest->n);
  size_t n = end ? (size_t)(end - rest->p) : rest->n;
  *line = (struct span){rest->p, n};
  *rest = span_cut(*rest, end ? n + 1 : n, rest->n);
  return true;
}

/* NULL when the recipe was not understood; the complaints are printed then. */
static inline const struct check_result *review_check(struct span recipe, struct span animals, const char *who,
                                                      struct check_options options, struct arena *arena) {
  struct app_check_request q = {.recipe = {"recipe", recipe},
                                .animals = {animals.n ? "animals" : NULL, animals},
                                .for_name = who,
                                .ask = {.today = {2026, 11, 2}, .check = options}};
  struct app_check_answer a;
  app_check(built_library(), &q, &a, arena);
  for (size_t i = 0; i < a.recipe_diags.count; i++)
    if (a.recipe_diags.item[i].level != DIAG_WARNING) fprintf(stderr, "recipe: %s\n", a.recipe_diags.item[i].message);
  for (size_t i = 0; i < a.animal_diags.count; i++)
    if (a.animal_diags.item[i].level != DIAG_WARNING) fprintf(stderr, "animal: %s\n", a.animal_diags.item[i].message);
  return a.result;
}

/* A finding that is folded into another stands in its "because" by its id. */
static inline bool tells_of(const struct finding *f, const char *id) {
  if (strcmp(f->id, id) == 0) return true;
  for (size_t i = 0; i < f->because_count; i++)
    if (strcmp(f->because[i].key, id) == 0) return true;
  return false;
}

/* Place of the finding, 1 first; 0 when it is not told. */
static inline size_t place_of(const struct check_result *r, const char *id) {
  for (size_t i = 0; i < r->finding_count; i++)
    if (tells_of(&r->finding[i], id)) return i + 1;
  return 0;
}

static inline const struct finding *finding_alone(const struct check_result *r, const char *id) {
  for (size_t i = 0; i < r->finding_count; i++)
    if (strcmp(r->finding[i].id, id) == 0) return &r->finding[i];
  return NULL;
}

static inline void print_findings(const struct check_result *r) {
  for (size_t i = 0; i < r->finding_count; i++)
    fprintf(stderr, "    %2zu %-5s %s: %s\n", i + 1, finding_weight_word[r->finding[i].weight], r->finding[i].id,
            r->finding[i].text);
}

#endif
