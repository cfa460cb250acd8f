/* reactor.c: the calls that a WebAssembly host makes. Texts in, JSON out; the library image is handed over once.
 *
 * The host writes into memory that bw_alloc gave. An answer stays valid until the next call. This file keeps the one piece
 * of state of the module: the library and the arena of the last answer. Layer: above app. */
#include "app/app_compose.h"
#include "app/app_mend.h"
#include "app/app_reply.h"
#include "app/app_side.h"
#include "app/app_swap.h"
#include "explain/asked.h"
#include "explain/why.h"
#include "report/reply.h"
#include "wasm/page_answer.h"

#include <math.h>
#include <stdlib.h>

#ifdef __wasm__
#define EXPORT(name) __attribute__((export_name(name)))
#else
#define EXPORT(name) /* the same calls in a native program: to compare answers and speed */
#endif

/* Long searches ask the host now and then; 0 ends them with the best found so far. 'best' NaN: nothing found yet. For mend
 * both figures are numbers of lines: of the best change so far, and below which none exists. */
#ifdef __wasm__
__attribute__((import_module("page"), import_name("go_on"))) int page_go_on(double best, double bound);
#else
static int page_go_on(double best, double bound) {
  (void)best, (void)bound;
  return 1;
}
#endif

static bool ask_host(void *user, const struct lp_answer *best, double bound, long nodes) {
  (void)user, (void)nodes;
  return page_go_on(best && best->has_x ? best->objective : (double)NAN, bound) != 0;
}

static struct library library;
static struct arena arena, shelf, standing; /* of the last answer; of the own foods; of what bw_ask was told */
static struct buf answer;

enum { ANSWER_MOST_BYTES = 64 << 20, UNDERSTOOD = 0, USAGE = 2, NOT_UNDERSTOOD = 3, REFUSED = 4 };

EXPORT("bw_version") const char *bw_version(void) { return BW_VERSION; }

/* 16-byte aligned memory for the library image or a text; give it back with bw_free. */
EXPORT("bw_alloc") void *bw_alloc(size_t n) { return aligned_alloc(16, (n + 15) / 16 * 16); }
EXPORT("bw_free") void bw_free(void *p) { free(p); }

/* The image must stay where it is. 0, or an enum image_fault. */
EXPORT("bw_open") int bw_open(const void *bytes, size_t n) {
  library = (struct library){0};
  arena_free(&shelf);
  return (int)image_open(&library.image, bytes, n);
}

/* The checksum that this image has to hold, for whoever writes one (page/build/pack-library.mjs); 0 when it is too short. */
EXPORT("bw_image_checksum") uint64_t bw_image_checksum(const void *bytes, size_t n) {
  return n < sizeof(struct img_header) ? 0 : image_checksum(bytes, n);
}

static void begin(void) {
  arena_free(&arena);
  buf_init(&answer, &arena, ANSWER_MOST_BYTES);
}

EXPORT("bw_answer") const char *bw_answer(void) { return buf_text(&answer); }
EXPORT("bw_answer_bytes") size_t bw_answer_bytes(void) { return answer.n; }

/* ---- what every question about an animal needs: set once with bw_ask, used by the calls below ----
 *
 * A request is a text of "key=value" lines, read by the rows of request/request.h: "standard=nrc2006", "sure=80",
 * "today=2026-11-02", "everyday=yes". What it does not name is as bw_ask was told, else as it always is. A request that is
 * not understood is answered with 2 and the complaint. */

static struct app_check_request asked = {.ask.check = {STANDARD_NRC2006, BASIS_WEIGHT, 0.75, ENERGY_ATWATER},
                                         .ask.per = SIDE_PER_COUNT};

/* The animals' text must stay where it is. */
EXPORT("bw_ask") int bw_ask(const char *animals, size_t animals_n, const char *request, size_t request_n) {
  begin();
  arena_free(&standing);
  asked = (struct app_check_request){.animals = {"animals", {animals, animals_n}}, .ask = REQUEST_DEFAULT};
  return request_read((struct span){request, request_n}, &asked.ask, &answer, &standing) ? UNDERSTOOD : USAGE;
}

static bool about(const char *recipe, size_t recipe_n, const char *request, size_t request_n, struct app_check_request *q) {
  *q = asked;
  q->recipe = (struct app_input){"recipe", {recipe, recipe_n}};
  return request_read((struct span){request, request_n}, &q->ask, &answer, &arena);
}

static int complaints(const struct app_check_answer *a) {
  diags_print(&a->recipe_diags, &answer, false);
  diags_print(&a->animal_diags, &answer, false);
  return NOT_UNDERSTOOD;
}

/* One recipe against the animal that it names, or the only one. 0: the answer is the JSON of a check; 3: not understood, the
 * answer is the complaints, one a line; 4: refused for the animal's sake, the answer is the JSON all the same. */
EXPORT("bw_check") int bw_check(const char *recipe, size_t recipe_n) {
  begin();
  struct app_check_request q;
  struct app_check_answer a;
  if (!about(recipe, recipe_n, "", 0, &q)) return USAGE;
  app_check(&library, &q, &a, &arena);
  if (!a.result) return complaints(&a);
  json_check(&library, a.result, &answer);
  return a.result->refusal == REFUSE_NOT ? UNDERSTOOD : REFUSED;
}

/* The energy and allowances of the animal that the recipe names: the JSON of need; 3 and the complaints otherwise. */
EXPORT("bw_need") int bw_need(const char *for_name, size_t n) {
  begin();
  struct app_check_request q = asked;
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

/* What a page shows while a recipe is written (page_answer.h). With "numbers-only" the answer comes in a fraction of the
 * time: for every step of a slider ("eaten=0.8"), to be followed by a whole one. */
EXPORT("bw_page") int bw_page(const char *recipe, size_t recipe_n, const char *request, size_t request_n) {
  begin();
  struct app_check_request q;
  if (!about(recipe, recipe_n, request, request_n, &q)) return USAGE;
  page_answer(&library, &q, &answer, &arena);
  return UNDERSTOOD;
}

/* The JSON of check with the chain behind the nutrient or ratio of "why=zinc" under "why"; 2 when it is none. */
EXPORT("bw_why") int bw_why(const char *recipe, size_t recipe_n, const char *request, size_t request_n) {
  begin();
  struct app_check_request q;
  struct why_key key;
  if (!about(recipe, recipe_n, request, request_n, &q)) return USAGE;
  if (q.ask.why.count != 1 || !why_key_read(span_of(q.ask.why.item[0]), &key)) return USAGE;
  q.ask.numbers_only = true;
  struct app_check_answer a;
  check_understood_lines(&library, &q, &a, &arena);
  if (!a.result) return NOT_UNDERSTOOD;
  struct asked chain = {.why = why_of(&library, a.result, &key, 1, &arena), .why_count = 1};
  json_check_asked(&library, a.result, &chain, &answer);
  return UNDERSTOOD;
}

/* Own foods from a label text, for all later calls: the answer of page_foods (page_answer.h). 'more' 0: those of earlier
 * texts are forgotten first. */
EXPORT("bw_own") int bw_own(const char *labels, size_t n, int more) {
  begin();
  if (!more) {
    library.own = NULL;
    library.own_count = 0;
    arena_free(&shelf);
  }
  page_foods(&library, (struct span){labels, n}, &answer, &shelf);
  return UNDERSTOOD;
}

/* ---- changing a recipe ---- */

/* The JSON of mend: the smallest change of the recipe; 'larder' may be empty. */
EXPORT("bw_mend")
int bw_mend(const char *recipe, size_t recipe_n, const char *larder, size_t larder_n, const char *request,
            size_t request_n) {
  begin();
  struct app_mend_request q = {.go_on = ask_host};
  if (!about(recipe, recipe_n, request, request_n, &q.check)) return USAGE;
  if (larder_n > 0) q.larder = (struct app_input){"larder", {larder, larder_n}};
  struct app_mend_answer a;
  app_mend(&library, &q, &a, &arena);
  if (!a.understood) {
    diags_print(&a.larder_diags, &answer, false);
    diags_print(&a.request_diags, &answer, false);
    return complaints(&a.check);
  }
  json_mend(&library, &a, &answer);
  return UNDERSTOOD;
}

/* The JSON of reply: a letter, or "lines=5", "full", "sign=NAME"; beside them what mend takes. */
EXPORT("bw_reply") int bw_reply(const char *recipe, size_t recipe_n, const char *request, size_t request_n) {
  begin();
  struct app_mend_request q = {.go_on = ask_host};
  if (!about(recipe, recipe_n, request, request_n, &q.check)) return USAGE;
  struct app_reply_answer a;
  app_reply(&library, &q, &a, &arena);
  if (!a.check.result) return complaints(&a.check);
  const struct request *ask = &q.check.ask;
  const struct reply_facts facts = {.lib = &library, .check = a.check.result, .mended = a.mended};
  const struct reply_style style = {ask->full        ? REPLY_FULL
                                    : ask->lines > 0 ? REPLY_LINES
                                                     : REPLY_LETTER,
                                    ask->lines, false, ask->sign};
  struct buf text;
  buf_init(&text, &arena, 1024 * 1024);
  report_reply(&facts, &style, &text);
  json_reply(&library, buf_text(&text), true, a.mended ? a.mended->text : NULL, &answer);
  return UNDERSTOOD;
}

/* The JSON of swap: foods for the place of one line: "line=6", "most=10". */
EXPORT("bw_swap") int bw_swap(const char *recipe, size_t recipe_n, const char *request, size_t request_n) {
  begin();
  struct app_swap_request q = {.check = asked};
  if (!about(recipe, recipe_n, request, request_n, &q.check) || !q.check.ask.line || q.check.ask.most < 1) return USAGE;
  struct app_swap_answer a;
  app_swap(&library, &q, &a, &arena);
  if (!a.swapped) {
    diags_print(&a.line_diags, &answer, false);
    return complaints(&a.check);
  }
  json_swap(&library, a.swapped, &answer);
  return UNDERSTOOD;
}

/* The JSON of compose: a recipe from a larder text, for the animals that were asked about. */
EXPORT("bw_compose") int bw_compose(const char *larder, size_t larder_n) {
  begin();
  struct app_compose_request q = {.larder = {"larder", {larder, larder_n}}, .check = asked, .go_on = ask_host};
  struct app_compose_answer a;
  app_compose(&library, &q, &a, &arena);
  if (!a.understood) {
    diags_print(&a.larder_diags, &answer, false);
    diags_print(&a.animal_diags, &answer, false);
    return NOT_UNDERSTOOD;
  }
  json_compose(&library, &a, &answer);
  return UNDERSTOOD;
}

/* The JSON of side for two recipes. */
EXPORT("bw_side") int bw_side(const char *one, size_t one_n, const char *other, size_t other_n) {
  begin();
  struct app_input both[] = {{"A", {one, one_n}}, {"B", {other, other_n}}};
  struct app_side_request q = {.check = asked, .kind = SIDE_RECIPES, .input = both, .count = COUNT_OF(both)};
  struct app_side_answer a;
  app_side(&library, &q, &a, &arena);
  if (!a.side) {
    diags_print(&a.of[1].recipe_diags, &answer, false);
    return complaints(&a.of[0]);
  }
  json_side(&library, a.side, a.ways, &answer);
  return UNDERSTOOD;
}

/* What is wrong with a larder text: complaints as in page_answer.h. */
EXPORT("bw_larder") int bw_larder(const char *larder, size_t n) {
  begin();
  page_larder(&library, (struct span){larder, n}, &answer, &arena);
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

/* What sends the library in two parts asks this (page_answer.h). */
EXPORT("bw_near") int bw_near(void) {
  begin();
  page_near(&library, &answer, &arena);
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
