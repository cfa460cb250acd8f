/* fuzz_sheet.c: lines of options, an empty line, and a recipe or a post: the sheet is a page whose elements close as they
 * open, without scripts and without handlers, whatever the text holds. */
#include "app/app_post.h"
#include "app/app_sheet.h"
#include "fuzz_library.h"
#include "sheet/sheet.h"

static const char ANIMALS[] = "Animal: Juniper\nSpecies: dog\nAge: 6 years\nWeight: 18 kg\n";
enum { DEEPEST = 64 };
static size_t answered;

static bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9'); }

/* From behind '<' to '>', quoted values passed over; 0: it does not end. No value of ours stands without quotes. */
static size_t tag_bytes(struct span s) {
  char quote = '\0';
  for (size_t i = 0; i < s.n; i++) {
    if (quote) {
      if (s.p[i] == quote) quote = '\0';
    } else if (s.p[i] == '"') {
      quote = '"';
    } else if (s.p[i] == '>') {
      return i;
    }
  }
  return 0;
}

static bool has_handler(struct span tag) {
  for (size_t i = 0; i + 3 < tag.n; i++) {
    if (tag.p[i] == '"') /* over the value */
      for (i++; i < tag.n && tag.p[i] != '"';) i++;
    else if (tag.p[i] == ' ' && span_starts_fold(span_cut(tag, i + 1, tag.n), "on"))
      return true;
  }
  return false;
}

static bool stands_alone(struct span name, struct span tag) {
  static const char *const VOID[] = {"meta", "col", "br", "hr", "link", "img"};
  for (size_t i = 0; i < COUNT_OF(VOID); i++)
    if (span_is(name, VOID[i])) return true;
  return tag.n > 0 && tag.p[tag.n - 1] == '/';
}

static void is_a_page(struct span page, struct span text) {
  struct span open[DEEPEST];
  size_t depth = 0;
  for (size_t i = 0; i < page.n; i++) {
    if (page.p[i] != '<') continue;
    struct span rest = span_cut(page, i + 1, page.n);
    size_t n = tag_bytes(rest);
    must(n > 0, "a tag ends", text);
    struct span tag = span_cut(rest, 0, n);
    bool closes = tag.p[0] == '/';
    struct span name = span_cut(tag, closes, tag.n);
    for (size_t k = 0; k <= name.n; k++)
      if (k == name.n || !is_letter(name.p[k])) {
        name = span_cut(name, 0, k);
        break;
      }
    must(!span_is_fold(name, "script") && !span_is_fold(name, "iframe") && !span_is_fold(name, "img"), "nothing runs", text);
    must(!has_handler(tag), "no element has a handler", text);
    i += n;
    if (tag.p[0] == '!' || stands_alone(name, tag)) continue;
    must(name.n > 0, "'<' begins a tag", text);
    if (closes) {
      must(depth > 0 && span_eq(open[depth - 1], name), "elements close as they open", text);
      depth--;
    } else {
      must(depth < DEEPEST, "elements do not nest without end", text);
      open[depth++] = name;
    }
  }
  must(depth == 0 && page.n > 0, "every element is closed", text);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  struct arena arena;
  struct buf complaint, out;
  struct app_sheet_request q = {0};
  struct app_sheet_answer a;
  struct span text = {(const char *)data, size}, options = text, recipe = {NULL, 0};
  if (size > 0 && memchr(data, '\0', size)) return 0; /* refused before anybody reads it */
  for (size_t i = 0; i + 1 < size && recipe.n == 0; i++)
    if (data[i] == '\n' && data[i + 1] == '\n') {
      options = span_cut(text, 0, i);
      recipe = span_cut(text, i + 2, size);
    }
  arena_init(&arena, NULL);
  buf_init(&complaint, &arena, 1 << 16);
  q.check.ask = REQUEST_DEFAULT;
  q.check.ask.today = (struct date){2026, 11, 2};
  q.check.recipe = (struct app_input){"recipe", recipe};
  q.check.animals = (struct app_input){"animals", SPAN_LIT(ANIMALS)};
  if (request_read(options, &q.check.ask, &complaint, &arena)) {
    app_sheet(fuzz_library(), &q, &a, &arena);
    if (a.kitchen) {
      const struct request *ask = &q.check.ask;
      const struct sheet_facts facts = {
          .lib = fuzz_library(), .check = a.check.result, .kitchen = a.kitchen, .post = a.check.post};
      const struct sheet_style style = {.paper = (enum sheet_paper)ask->paper,
                                        .units = (enum sheet_units)ask->units,
                                        .large = ask->large,
                                        .date = ask->today};
      buf_init(&out, &arena, 1 << 24);
      sheet_html(sheet_of(&facts, &style, &arena), &out);
      must(!out.cut, "the page is whole", text);
      is_a_page(buf_span(&out), text);
      answered++;
    }
  } else {
    must(complaint.n > 0, "what cannot be asked is said", text);
  }
  arena_free(&arena);
  return 0;
}
