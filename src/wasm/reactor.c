/* reactor.c: the calls that a WebAssembly host makes. Texts in, JSON out; the library image is handed over once.
 *
 * The host writes into memory that bw_alloc gave. An answer stays valid until the next call. This file keeps the one piece
 * of state of the module: the library and the arena of the last answer. Layer: above app. */
#include "app/app.h"
#include "text/json.h"

#include <math.h>
#include <stdlib.h>

#define EXPORT(name) __attribute__((export_name(name)))

static struct library library;
static struct arena arena;
static struct buf answer;

enum { ANSWER_MOST_BYTES = 64 << 20 };

EXPORT("bw_version") const char *bw_version(void) { return BW_VERSION; }

/* 16-byte aligned memory for the library image or a text; give it back with bw_free. */
EXPORT("bw_alloc") void *bw_alloc(size_t n) { return aligned_alloc(16, (n + 15) / 16 * 16); }
EXPORT("bw_free") void bw_free(void *p) { free(p); }

/* The image must stay where it is. 0, or an enum image_fault. */
EXPORT("bw_open") int bw_open(const void *bytes, size_t n) {
  library = (struct library){0};
  return (int)image_open(&library.image, bytes, n);
}

static void begin(void) {
  arena_free(&arena);
  buf_init(&answer, &arena, ANSWER_MOST_BYTES);
}

EXPORT("bw_answer") const char *bw_answer(void) { return buf_text(&answer); }
EXPORT("bw_answer_bytes") size_t bw_answer_bytes(void) { return answer.n; }

/* One recipe against the animal that it names, or the only one. 0: the answer is the JSON of a check; 3: not understood, the
 * answer is the complaints, one a line; 4: refused for the animal's sake, the answer is the JSON all the same. */
EXPORT("bw_check")
int bw_check(const char *recipe, size_t recipe_n, const char *animals, size_t animals_n, int year, int month, int day,
             int standard, int basis, double sure) {
  begin();
  if (standard < 0 || standard >= STANDARD_COUNT || basis < 0 || basis >= BASIS_COUNT || !(sure >= 0.5 && sure <= 0.99))
    return 2;
  struct app_check_request q = {.recipe = {"recipe", {recipe, recipe_n}},
                                .animals = {"animals", {animals, animals_n}},
                                .today = {year, month, day},
                                .options = CHECK_OPTIONS_DEFAULT};
  q.options.standard = (enum standard_id)standard;
  q.options.basis = (enum basis)basis;
  q.options.sure = sure;
  struct app_check_answer a;
  app_check(&library, &q, &a, &arena);
  if (!a.result) {
    diags_print(&a.recipe_diags, &answer, false);
    diags_print(&a.animal_diags, &answer, false);
    return 3;
  }
  json_check(&library, a.result, &answer);
  return a.result->refusal == REFUSE_NOT ? 0 : 4;
}

/* Food records for some words: the JSON of "foods". */
EXPORT("bw_foods") int bw_foods(const char *words, size_t n, int most) {
  begin();
  if (most < 1 || most > 100) return 2;
  struct search_hit *hits = ARENA_NEW(&arena, struct search_hit, (size_t)most);
  struct search_wish wish = SEARCH_WISH_NONE;
  size_t count = search_foods(&library, (struct span){words, n}, &wish, hits, (size_t)most, &arena);
  json_foods(&library, (struct span){words, n}, hits, count, &answer);
  return 0;
}
