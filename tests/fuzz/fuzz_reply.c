/* fuzz_reply.c: lines of options, an empty line, and a post: the options are read or refused with a word, and the post is
 * answered in the length that was asked for. */
#include "app/app_reply.h"
#include "fuzz_library.h"
#include "post/post.h"
#include "report/reply.h"

static const char ANIMALS[] = "Animal: Juniper\nSpecies: dog\nAge: 6 years\nWeight: 18 kg\n";

/* A search asks whether to go on: the best so far will do. */
static bool no_more(void *user, const struct lp_answer *best, double bound, long nodes) {
  (void)user, (void)best, (void)bound, (void)nodes;
  return false;
}

static size_t answered;

static size_t lines_of(struct span text) {
  size_t n = 0;
  while (text.n > 0 && text.p[text.n - 1] == '\n') text.n--;
  for (size_t i = 0; i < text.n; i++) n += text.p[i] == '\n';
  return n + (text.n > 0);
}

static void answer(const struct app_mend_request *q, struct span text, struct arena *arena) {
  struct app_reply_answer a;
  struct buf out;
  const struct request *ask = &q->check.ask;
  app_reply(fuzz_library(), q, &a, arena);
  if (!a.check.result) {
    must(a.check.recipe_diags.errors + a.check.animal_diags.errors > 0 || (a.check.post && a.check.post->sorry[0]),
         "without an answer there is a word of why", text);
    return;
  }
  const struct reply_facts facts = {.lib = fuzz_library(),
                                    .check = a.check.result,
                                    .mended = a.mended,
                                    .scaled = a.mend.answer.scaled,
                                    .question = a.question,
                                    .questions = a.questions};
  const enum reply_length length = ask->full ? REPLY_FULL : ask->lines > 0 ? REPLY_LINES : REPLY_LETTER;
  const struct reply_style style = {length, ask->lines, text.n % 2 == 1, ask->sign};
  buf_init(&out, arena, 1 << 22);
  report_reply(&facts, &style, &out);
  answered++;
  must(out.n > 0 && !out.cut, "there is a reply", text);
  must(memchr(out.p, '\0', out.n) == NULL, "a reply is text", text);
  if (length == REPLY_LINES && !ask->sign)
    must(lines_of(buf_span(&out)) <= (size_t)ask->lines, "so many lines, no more", text);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  struct arena arena;
  struct buf complaint;
  struct app_mend_request q = {.go_on = no_more};
  struct span text = {(const char *)data, size}, options = text, post = {NULL, 0};
  for (size_t i = 0; i + 1 < size; i++)
    if (data[i] == '\n' && data[i + 1] == '\n') {
      options = span_cut(text, 0, i);
      post = span_cut(text, i + 2, size);
      break;
    }
  if (post.n > 0 && memchr(post.p, '\0', post.n)) return 0; /* refused before anybody reads it */
  arena_init(&arena, NULL);
  buf_init(&complaint, &arena, 1 << 16);
  q.check.ask = REQUEST_DEFAULT;
  q.check.ask.today = (struct date){2026, 11, 2};
  if (request_read(options, &q.check.ask, &complaint, &arena)) {
    q.check.recipe = (struct app_input){"post", post};
    q.check.animals = (struct app_input){"animals", SPAN_LIT(ANIMALS)};
    answer(&q, text, &arena);
  } else {
    must(complaint.n > 0, "what cannot be asked is said", text);
  }
  arena_free(&arena);
  return 0;
}
