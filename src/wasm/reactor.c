/* reactor.c: the calls that a WebAssembly host makes. Texts in, JSON out; the library image is handed over once.
 *
 * The host writes into memory that bw_alloc gave. An answer stays valid until the next call. This file keeps the one piece
 * of state of the module: the library and the arena of the last answer. Layer: above app. */
#include "wasm/page_answer.h"

#include <math.h>
#include <stdlib.h>

#ifdef __wasm__
#define EXPORT(name) __attribute__((export_name(name)))
#else
#define EXPORT(name) /* the same calls in a native program: to compare answers and speed */
#endif

static struct library library;
static struct arena arena;
static struct buf answer;

enum { ANSWER_MOST_BYTES = 64 << 20, UNDERSTOOD = 0, USAGE = 2, NOT_UNDERSTOOD = 3, REFUSED = 4 };

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

/* ---- what every question about an animal needs: set once with bw_ask, used by the calls below ---- */

static struct app_check_request asked;

/* 0, or 2 when an option is out of its range. The animals' text must stay where it is. */
EXPORT("bw_ask")
int bw_ask(const char *animals, size_t animals_n, int year, int month, int day, int standard, int basis, double sure) {
  if (standard < 0 || standard >= STANDARD_COUNT || basis < 0 || basis >= BASIS_COUNT || !(sure >= 0.5 && sure <= 0.99))
    return USAGE;
  asked = (struct app_check_request){
      .animals = {"animals", {animals, animals_n}}, .today = {year, month, day}, .options = CHECK_OPTIONS_DEFAULT};
  asked.options.standard = (enum standard_id)standard;
  asked.options.basis = (enum basis)basis;
  asked.options.sure = sure;
  return UNDERSTOOD;
}

static struct app_check_request about(const char *recipe, size_t recipe_n) {
  struct app_check_request q = asked;
  q.recipe = (struct app_input){"recipe", {recipe, recipe_n}};
  return q;
}

/* One recipe against the animal that it names, or the only one. 0: the answer is the JSON of a check; 3: not understood, the
 * answer is the complaints, one a line; 4: refused for the animal's sake, the answer is the JSON all the same. */
EXPORT("bw_check") int bw_check(const char *recipe, size_t recipe_n) {
  begin();
  struct app_check_request q = about(recipe, recipe_n);
  struct app_check_answer a;
  app_check(&library, &q, &a, &arena);
  if (!a.result) {
    diags_print(&a.recipe_diags, &answer, false);
    diags_print(&a.animal_diags, &answer, false);
    return NOT_UNDERSTOOD;
  }
  json_check(&library, a.result, &answer);
  return a.result->refusal == REFUSE_NOT ? UNDERSTOOD : REFUSED;
}

/* The energy and allowances of the animal that the recipe names: the JSON of need; 3 and the complaints otherwise. */
EXPORT("bw_need") int bw_need(const char *for_name, size_t n) {
  begin();
  struct app_check_request q = about("", 0);
  if (n > 0) q.for_name = arena_text(&arena, (struct span){for_name, n});
  struct app_check_answer a;
  app_need(&library, &q, &a, &arena);
  if (!a.result) {
    diags_print(&a.animal_diags, &answer, false);
    return NOT_UNDERSTOOD;
  }
  json_need(&library, a.result, &answer);
  return a.result->refusal == REFUSE_NOT ? UNDERSTOOD : REFUSED;
}

/* What a page shows while a recipe is written (page_answer.h); 'eaten' from 0.1 to 10. Without the review the answer comes
 * in a fraction of the time: for every step of a slider, to be followed by a whole one. */
EXPORT("bw_page") int bw_page(const char *recipe, size_t recipe_n, double eaten, int with_review) {
  begin();
  if (!(eaten >= 0.1 && eaten <= 10)) return USAGE;
  struct app_check_request q = about(recipe, recipe_n);
  q.eaten = eaten;
  q.numbers_only = !with_review;
  page_answer(&library, &q, &answer, &arena);
  return UNDERSTOOD;
}

/* ---- foods ---- */

/* Food records for some words: the JSON of "foods". */
EXPORT("bw_foods") int bw_foods(const char *words, size_t n, int most) {
  begin();
  if (most < 1 || most > 100) return USAGE;
  struct search_hit *hits = ARENA_NEW(&arena, struct search_hit, (size_t)most);
  struct search_wish wish = SEARCH_WISH_NONE;
  size_t count = search_foods(&library, (struct span){words, n}, &wish, hits, (size_t)most, &arena);
  json_foods(&library, (struct span){words, n}, hits, count, &answer);
  return UNDERSTOOD;
}

/* Foods for a line that is being written (page_answer.h). */
EXPORT("bw_suggest") int bw_suggest(const char *line, size_t n, int most) {
  begin();
  if (most < 1 || most > 100) return USAGE;
  page_suggest(&library, (struct span){line, n}, (size_t)most, &answer, &arena);
  return UNDERSTOOD;
}

/* One record by its pin: the JSON of "food"; 3 and nothing when there is none. */
EXPORT("bw_food") int bw_food(const char *pin, size_t n) {
  begin();
  uint32_t food = library_by_code(&library, (struct span){pin, n});
  if (food == NO_INDEX) return NOT_UNDERSTOOD;
  json_food(&library, food, &answer);
  return UNDERSTOOD;
}

/* What the library holds and where it came from: the JSON of "library". */
EXPORT("bw_library") int bw_library(void) {
  begin();
  json_library(&library, &answer);
  return UNDERSTOOD;
}
