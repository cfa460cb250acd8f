/* reactor.c: the calls that a WebAssembly host makes. Texts in, JSON out; the library image is handed over once.
 *
 * Every call answers {"complaints": [...], "answer": ...} (json_told); the answer is null when there is none. What it
 * returns: 0 an answer; 2 a request that cannot be asked; 3 not understood, and no answer; 4 refused for the animal's sake,
 * answered all the same. Only bw_open returns an enum image_fault.
 *
 * The host writes into memory that bw_alloc gave. An answer stays valid until the next call. This file keeps the one piece
 * of state of the module: the library and the arena of the last answer. Layer: above app. */
#include "app/app_compose.h"
#include "app/app_lines.h"
#include "app/app_mend.h"
#include "app/app_page.h"
#include "app/app_reply.h"
#include "app/app_sheet.h"
#include "app/app_side.h"
#include "app/app_swap.h"
#include "base/json_string.h"
#include "explain/asked.h"
#include "explain/why.h"
#include "report/reply.h"
#include "sheet/sheet.h"
#include "words/words.h"
#include "json/json.h"

#include <math.h>
#include <stdlib.h>

#ifdef __wasm__
#define EXPORT(name) __attribute__((export_name(name)))
#else
#define EXPORT(name) /* the same calls in a native program: to compare answers and speed */
#endif
/* A call that a page's first answer does not need. A smaller module is linked without these and without all that only they
 * use; a worker that is asked for one of them goes on with the whole module (page/src/core/worker.ts). */
#ifdef BW_FIRST_CALLS
#define LATER(name)
#else
#define LATER(name) EXPORT(name)
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
static struct buf body, answer;             /* what a call found out, and that in its envelope */

enum {
  ANSWER_MOST_BYTES = 64 << 20,
  REQUEST_COMPLAINT_BYTES = 1024,
  UNDERSTOOD = 0,
  USAGE = 2,
  NOT_UNDERSTOOD = 3,
  REFUSED = 4
};

EXPORT("bw_version") const char *bw_version(void) { return BW_VERSION; }

/* 16-byte aligned memory for the library image or a text; give it back with bw_free. */
EXPORT("bw_alloc") void *bw_alloc(size_t n) { return aligned_alloc(16, (n + 15) / 16 * 16); }
EXPORT("bw_free") void bw_free(void *p) { free(p); }

/* The checksum that this image has to hold, for whoever writes one (page/build/pack-library.mjs); 0 when it is too short. */
LATER("bw_image_checksum") uint64_t bw_image_checksum(const void *bytes, size_t n) {
  return n < sizeof(struct img_header) ? 0 : image_checksum(bytes, n);
}

static void begin(void) {
  arena_free(&arena);
  buf_init(&body, &arena, ANSWER_MOST_BYTES);
  buf_init(&answer, &arena, ANSWER_MOST_BYTES);
}

enum { MOST_TEXTS = 80 };

/* The texts that an answer may complain about. */
struct about {
  const struct diags *of[MOST_TEXTS];
  size_t count;
};

static void add(struct about *about, const struct diags *d) {
  if (d->count > 0 && about->count < MOST_TEXTS) about->of[about->count++] = d;
}

static int tell(const struct about *about, int code) {
  json_told(about->of, about->count, buf_span(&body), &answer);
  return code;
}

static int tell_check(const struct app_check_answer *a, int code) {
  struct about about = {{NULL}, 0};
  add(&about, &a->recipe_diags);
  add(&about, &a->animal_diags);
  return tell(&about, code);
}

/* What was asked beside the texts cannot be asked. */
static int cannot_ask(const char *why) {
  struct diags d;
  struct about about = {{NULL}, 0};
  diags_init(&d, &arena, "request", (struct span){NULL, 0});
  diag_say(&d, DIAG_ERROR, DIAG_REQUEST, (struct span){NULL, 0}, "%s", why);
  add(&about, &d);
  return tell(&about, USAGE);
}

static int found(void) { return tell(&(struct about){{NULL}, 0}, UNDERSTOOD); }

EXPORT("bw_answer") const char *bw_answer(void) { return buf_text(&answer); }
EXPORT("bw_answer_bytes") size_t bw_answer_bytes(void) { return answer.n; }

/* The image must stay where it is. */
EXPORT("bw_open") int bw_open(const void *bytes, size_t n) {
  library = (struct library){0};
  arena_free(&shelf);
  begin();
  enum image_fault fault = image_open(&library.image, bytes, n);
  if (fault == IMAGE_FINE) return found();
  cannot_ask(image_fault_text(fault));
  return (int)fault;
}

/* ---- what every question about an animal needs: set once with bw_ask, used by the calls below ----
 *
 * A request is a text of "key=value" lines, read by the rows of request/request.h: "standard=nrc2006", "sure=80",
 * "today=2026-11-02", "everyday=yes". What it does not name is as bw_ask was told, else as it always is. */

static struct app_check_request asked = {.ask.check = {STANDARD_NRC2006, BASIS_WEIGHT, 0.75, ENERGY_ATWATER, 0},
                                         .ask.per = SIDE_PER_COUNT};

/* The animals' text must stay where it is. */
EXPORT("bw_ask") int bw_ask(const char *animals, size_t animals_n, const char *request, size_t request_n) {
  struct buf complaint;
  begin();
  arena_free(&standing);
  buf_init(&complaint, &arena, REQUEST_COMPLAINT_BYTES);
  asked = (struct app_check_request){.animals = {"animals", {animals, animals_n}}, .ask = REQUEST_DEFAULT};
  if (!request_read((struct span){request, request_n}, &asked.ask, &complaint, &standing))
    return cannot_ask(buf_text(&complaint));
  return found();
}

/* False after a complaint, which is the answer. */
static bool about(const char *recipe, size_t recipe_n, const char *request, size_t request_n, struct app_check_request *q) {
  struct buf complaint;
  buf_init(&complaint, &arena, REQUEST_COMPLAINT_BYTES);
  *q = asked;
  q->recipe = (struct app_input){"recipe", {recipe, recipe_n}};
  if (request_read((struct span){request, request_n}, &q->ask, &complaint, &arena)) return true;
  cannot_ask(buf_text(&complaint));
  return false;
}

static int judged(const struct app_check_answer *a) {
  int code = !a->result ? NOT_UNDERSTOOD : a->result->refusal == REFUSE_NOT ? UNDERSTOOD : REFUSED;
  return tell_check(a, code);
}

/* One recipe against the animal that it names, or the only one: Check. */
LATER("bw_check") int bw_check(const char *recipe, size_t recipe_n) {
  begin();
  struct app_check_request q;
  struct app_check_answer a;
  if (!about(recipe, recipe_n, "", 0, &q)) return USAGE;
  app_check(&library, &q, &a, &arena);
  if (a.result) json_check(&library, a.result, &body);
  return judged(&a);
}

/* The energy and allowances of the animal with this name, or the only one: Need. */
LATER("bw_need") int bw_need(const char *for_name, size_t n) {
  begin();
  struct app_check_request q = asked;
  if (n > 0) q.for_name = arena_text(&arena, (struct span){for_name, n});
  struct app_check_answer a;
  app_need(&library, &q, &a, &arena);
  if (a.result) json_need(&library, a.result, &body);
  return judged(&a);
}

/* What a page shows while a recipe is written (app_page.h): PageAnswer. With "numbers-only" the answer comes in a fraction
 * of the time: for every step of a slider ("eaten=0.8"), to be followed by a whole one. */
EXPORT("bw_page") int bw_page(const char *recipe, size_t recipe_n, const char *request, size_t request_n) {
  begin();
  struct app_check_request q;
  struct app_page_answer a;
  if (!about(recipe, recipe_n, request, request_n, &q)) return USAGE;
  app_page(&library, &q, &a, &arena);
  json_page(&library, &a, &body);
  return tell_check(&a.check, UNDERSTOOD);
}

/* Check of the lines that are understood, with the chain behind the nutrient or ratio of "why=zinc" under "why". */
EXPORT("bw_why") int bw_why(const char *recipe, size_t recipe_n, const char *request, size_t request_n) {
  begin();
  struct app_check_request q;
  struct app_page_answer a;
  struct why_key key;
  if (!about(recipe, recipe_n, request, request_n, &q)) return USAGE;
  if (q.ask.why.count != 1 || !why_key_read(span_of(q.ask.why.item[0]), &key))
    return cannot_ask("one nutrient or ratio is asked about");
  q.ask.numbers_only = true;
  app_page(&library, &q, &a, &arena);
  if (!a.check.result) return tell_check(&a.check, NOT_UNDERSTOOD);
  struct asked chain = {.why = why_of(&library, a.check.result, &key, 1, &arena), .why_count = 1};
  json_check_asked(&library, a.check.result, &chain, &body);
  return tell_check(&a.check, UNDERSTOOD);
}

/* Own foods from a label text, for all later calls: ShelfAnswer. 'more' 0: those of earlier texts are forgotten first. */
EXPORT("bw_own") int bw_own(const char *labels, size_t n, int more) {
  begin();
  if (!more) {
    library.own = NULL;
    library.own_count = 0;
    arena_free(&shelf);
  }
  struct app_input text = {"foods", {labels, n}};
  struct app_shelf_answer a;
  app_shelf(&library, &text, &a, &shelf);
  const struct diags **of = ARENA_NEW(&arena, const struct diags *, a.count + 1);
  for (size_t i = 0; i < a.count; i++) of[i] = &a.diags[i];
  json_shelf(&library, &a, &body);
  json_told(of, a.count, buf_span(&body), &answer);
  return UNDERSTOOD;
}

/* ---- changing a recipe ---- */

/* The smallest change of the recipe: Mend; 'larder' may be empty. */
LATER("bw_mend")
int bw_mend(const char *recipe, size_t recipe_n, const char *larder, size_t larder_n, const char *request,
            size_t request_n) {
  begin();
  struct app_mend_request q = {.go_on = ask_host};
  struct app_mend_answer a;
  struct about texts = {{NULL}, 0};
  if (!about(recipe, recipe_n, request, request_n, &q.check)) return USAGE;
  if (larder_n > 0) q.larder = (struct app_input){"larder", {larder, larder_n}};
  app_mend(&library, &q, &a, &arena);
  if (a.understood) json_mend(&library, &a, &body);
  add(&texts, &a.larder_diags);
  add(&texts, &a.request_diags);
  add(&texts, &a.check.recipe_diags);
  add(&texts, &a.check.animal_diags);
  return tell(&texts, a.understood ? UNDERSTOOD : NOT_UNDERSTOOD);
}

/* The answer to a posted recipe: Reply; a letter, or "lines=5", "full", "sign=NAME"; beside them what mend takes. */
LATER("bw_reply") int bw_reply(const char *recipe, size_t recipe_n, const char *request, size_t request_n) {
  begin();
  struct app_mend_request q = {.go_on = ask_host};
  struct app_reply_answer a;
  if (!about(recipe, recipe_n, request, request_n, &q.check)) return USAGE;
  app_reply(&library, &q, &a, &arena);
  if (!a.check.result) return tell_check(&a.check, NOT_UNDERSTOOD);
  const struct request *ask = &q.check.ask;
  const struct reply_facts facts = {.lib = &library,
                                    .check = a.check.result,
                                    .mended = a.mended,
                                    .foods_only = a.foods_only,
                                    .unlike = a.unlike,
                                    .why_none = a.why_none,
                                    .asked = a.check.post ? a.check.post->asked : NULL,
                                    .asks = a.check.post ? a.check.post->asks : 0,
                                    .cooked_told = a.check.post && a.check.post->cooked_told,
                                    .scaled = a.mend.answer.scaled,
                                    .in_grams = a.mend.answer.in_grams,
                                    .cooked = a.mend.answer.cooked,
                                    .cooked_count = a.mend.answer.cooked_count,
                                    .plate = a.mend.answer.plate,
                                    .plate_count = a.mend.answer.plate_count,
                                    .plate_words = a.mend.answer.plate_words,
                                    .left_out = a.mend.answer.left_out,
                                    .left_out_count = a.mend.answer.left_out_count,
                                    .question = a.question,
                                    .questions = a.questions};
  const struct reply_style style = {ask->full        ? REPLY_FULL
                                    : ask->lines > 0 ? REPLY_LINES
                                                     : REPLY_LETTER,
                                    ask->lines, false, ask->sign};
  struct buf text;
  buf_init(&text, &arena, 1024 * 1024);
  report_reply(&facts, &style, &text);
  json_reply(&library, buf_text(&text), true, a.mended ? a.mended->text : NULL, facts.scaled, &body);
  return tell_check(&a.check, UNDERSTOOD);
}

/* A sheet for the kitchen wall: SheetPage. "days=7", "meals=2", "paper=letter", "units=us", "large"; the day is that of
 * "today". The larder's text may be empty: no prices then. */
LATER("bw_sheet")
int bw_sheet(const char *recipe, size_t recipe_n, const char *larder, size_t larder_n, const char *request,
             size_t request_n) {
  begin();
  struct app_sheet_request q = {.larder = {larder_n > 0 ? "larder" : NULL, {larder, larder_n}}};
  struct app_sheet_answer a;
  struct about texts = {{NULL}, 0};
  if (!about(recipe, recipe_n, request, request_n, &q.check)) return USAGE;
  app_sheet(&library, &q, &a, &arena);
  add(&texts, &a.check.recipe_diags);
  add(&texts, &a.check.animal_diags);
  add(&texts, &a.larder_diags);
  if (!a.kitchen) return tell(&texts, NOT_UNDERSTOOD);
  const struct sheet_facts facts = {.lib = &library, .check = a.check.result, .kitchen = a.kitchen, .post = a.check.post};
  const struct request *ask = &q.check.ask;
  const struct sheet_style style = {(enum sheet_paper)ask->paper, (enum sheet_units)ask->units, ask->large, ask->today};
  struct buf html;
  buf_init(&html, &arena, ANSWER_MOST_BYTES);
  const struct sheet *sheet = sheet_of(&facts, &style, &arena);
  sheet_html(sheet, &html);
  json_sheet_page(&library, sheet, buf_text(&html), &body);
  return tell(&texts, a.check.result->refusal == REFUSE_NOT ? UNDERSTOOD : REFUSED);
}

/* Foods for the place of one line: Swap; "line=6", "most=10". */
LATER("bw_swap") int bw_swap(const char *recipe, size_t recipe_n, const char *request, size_t request_n) {
  begin();
  struct app_swap_request q = {.check = asked};
  struct app_swap_answer a;
  struct about texts = {{NULL}, 0};
  if (!about(recipe, recipe_n, request, request_n, &q.check)) return USAGE;
  if (!q.check.ask.line || q.check.ask.most < 1) return cannot_ask("a line is asked about, and how many foods are wanted");
  app_swap(&library, &q, &a, &arena);
  if (a.swapped) json_swap(&library, a.swapped, &body);
  add(&texts, &a.line_diags);
  add(&texts, &a.check.recipe_diags);
  add(&texts, &a.check.animal_diags);
  return tell(&texts, a.swapped ? UNDERSTOOD : NOT_UNDERSTOOD);
}

/* A recipe from a larder text, for the animals that were asked about: Compose. */
LATER("bw_compose") int bw_compose(const char *larder, size_t larder_n) {
  begin();
  struct app_compose_request q = {.larder = {"larder", {larder, larder_n}}, .check = asked, .go_on = ask_host};
  struct app_compose_answer a;
  struct about texts = {{NULL}, 0};
  app_compose(&library, &q, &a, &arena);
  if (a.understood) json_compose(&library, &a, &body);
  add(&texts, &a.larder_diags);
  add(&texts, &a.animal_diags);
  return tell(&texts, a.understood ? UNDERSTOOD : NOT_UNDERSTOOD);
}

/* Two recipes: Side. */
LATER("bw_side") int bw_side(const char *one, size_t one_n, const char *other, size_t other_n) {
  begin();
  struct app_input both[] = {{"A", {one, one_n}}, {"B", {other, other_n}}};
  struct app_side_request q = {.check = asked, .kind = SIDE_RECIPES, .input = both, .count = COUNT_OF(both)};
  struct app_side_answer a;
  struct about texts = {{NULL}, 0};
  app_side(&library, &q, &a, &arena);
  if (a.side) json_side(&library, a.side, a.ways, &body);
  add(&texts, &a.of[0].recipe_diags);
  add(&texts, &a.of[0].animal_diags);
  add(&texts, &a.of[1].recipe_diags);
  return tell(&texts, a.side ? UNDERSTOOD : NOT_UNDERSTOOD);
}

/* A larder text while it is written: LarderAnswer. */
EXPORT("bw_larder") int bw_larder(const char *larder, size_t n) {
  begin();
  struct app_input text = {"larder", {larder, n}};
  struct app_larder_answer a;
  struct about texts = {{NULL}, 0};
  app_larder(&library, &text, &a, &arena);
  json_larder(&library, &a, &body);
  add(&texts, &a.diags);
  return tell(&texts, UNDERSTOOD);
}

/* ---- without a library: a page may ask this of a core of its own, at once ---- */

/* A text as its lines: TextLines. 'kind': "recipe", "larder", "animals" or "foods". */
EXPORT("bw_lines") int bw_lines(const char *text, size_t n, const char *kind, size_t kind_n) {
  begin();
  struct app_lines a;
  for (int k = 0; k < TEXT_KIND_COUNT; k++) {
    if (!span_is((struct span){kind, kind_n}, text_kind_word[k])) continue;
    app_lines((enum text_kind)k, (struct span){text, n}, &a, &arena);
    json_lines(&a, &body);
    return found();
  }
  return cannot_ask("a text is a recipe, a larder, animals or foods");
}

/* "a\nb\nc" as a list: "a, b and c". */
static const char *listed(struct span items) {
  const char **item = ARENA_NEW(&arena, const char *, items.n + 1);
  size_t count = 0;
  while (items.n > 0) item[count++] = arena_text(&arena, span_piece(&items, '\n'));
  return words_list(&arena, item, count, count);
}

/* A figure in the words of every sentence (words/words.h), a text: 'how' is "number", "mass", "share", "chance", or "amount
 * mg" with a unit; "list a\nb" is a list, whatever 'x'. NaN: not known. */
EXPORT("bw_say") int bw_say(const char *how, size_t n, double x) {
  struct span rest = {how, n}, said;
  const char *blank = memchr(how, ' ', n);
  said = span_cut(rest, 0, blank ? (size_t)(blank - how) : n);
  rest = span_cut(rest, said.n + 1, n);
  begin();
  const char *words = span_is(said, "number")   ? words_number(&arena, x)
                      : span_is(said, "mass")   ? words_mass(&arena, x)
                      : span_is(said, "share")  ? words_share_short(&arena, x)
                      : span_is(said, "chance") ? words_chance_short(&arena, x)
                      : span_is(said, "amount") ? words_amount(&arena, x, arena_text(&arena, rest))
                      : span_is(said, "list")   ? listed(rest)
                                                : NULL;
  if (!words) return cannot_ask("a figure is said in other ways");
  json_quoted(&body, span_of(words));
  return found();
}

/* ---- foods ---- */

static bool many(int most) { return most >= 1 && most <= 100; }

/* Food records for some words: Foods. */
LATER("bw_foods") int bw_foods(const char *words, size_t n, int most) {
  begin();
  if (!many(most)) return cannot_ask("1 to 100 foods are given");
  struct search_hit *hits = ARENA_NEW(&arena, struct search_hit, (size_t)most);
  struct search_wish wish = SEARCH_WISH_NONE;
  size_t count = search_foods(&library, (struct span){words, n}, &wish, hits, (size_t)most, &arena);
  json_foods(&library, (struct span){words, n}, hits, count, &body);
  return found();
}

/* Every food of the image, for whoever sends the library in two parts: Near. */
LATER("bw_near") int bw_near(void) {
  begin();
  json_near(&library, app_named_foods(&library, &arena), &body);
  return found();
}

/* Foods for a line that is being written: Suggestions. */
EXPORT("bw_suggest") int bw_suggest(const char *line, size_t n, int most) {
  begin();
  if (!many(most)) return cannot_ask("1 to 100 foods are given");
  struct app_suggestions a;
  app_suggest(&library, (struct span){line, n}, (size_t)most, &a, &arena);
  json_suggest(&library, &a, &body);
  return found();
}

/* One record by its pin: FoodRecord. */
EXPORT("bw_food") int bw_food(const char *pin, size_t n) {
  begin();
  uint32_t food = library_by_code(&library, (struct span){pin, n});
  if (food == NO_INDEX) return tell(&(struct about){{NULL}, 0}, NOT_UNDERSTOOD);
  json_food(&library, food, &body);
  return found();
}

/* What the library holds and where it came from: Library. */
LATER("bw_library") int bw_library(void) {
  begin();
  json_library(&library, &body);
  return found();
}
