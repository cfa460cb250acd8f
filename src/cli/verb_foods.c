/* bowlwright foods, food, library: what the food library holds. */
#include "cli/run.h"

enum { HITS_SHOWN = 12, HITS_ALL = 100, HITS_NEAREST = 5, WORDS_MOST = 4096 };

/* The operands as one text: quotes around several words are not needed. */
static struct span joined(const struct run *s) {
  struct buf b;
  buf_init(&b, s->arena, WORDS_MOST);
  for (size_t i = 0; i < s->options->operand.count; i++) {
    if (i > 0) buf_addc(&b, ' ');
    buf_adds(&b, s->options->operand.item[i]);
  }
  return span_trim((struct span){buf_text(&b), b.n});
}

int verb_foods(struct run *s) {
  struct search_wish nothing_said = SEARCH_WISH_NONE;
  struct search_hit hits[HITS_ALL];
  struct span words = joined(s);
  struct buf out;
  size_t count = search_foods(&s->lib, words, &nothing_said, hits, s->options->all ? HITS_ALL : HITS_SHOWN, s->arena);
  buf_init(&out, s->arena, ANSWER_MOST_BYTES);
  if (s->options->json) {
    json_foods(&s->lib, words, hits, count, &out);
  } else {
    report_foods(&s->lib, words, hits, count, &s->style, &out);
  }
  return finish_answer(s, &out);
}

static void list_hits(const struct run *s, const struct search_hit *hits, size_t count, uint32_t but) {
  struct buf b;
  buf_init(&b, s->arena, 64 * 1024);
  for (size_t i = 0; i < count; i++)
    if (hits[i].food != but)
      buf_addf(&b, "  %s [%s]\n", library_name(&s->lib, hits[i].food), library_code(&s->lib, hits[i].food));
  write_errors(buf_span(&b));
}

int verb_food(struct run *s) {
  struct search_hit hits[HITS_NEAREST];
  struct span words = joined(s);
  struct buf out;
  size_t count = 0;
  uint32_t food = app_food(&s->lib, words, hits, HITS_NEAREST, &count, s->arena);
  if (food == NO_INDEX) {
    complain("no food record fits '%.*s' well%s", SPAN_ARG(words), count > 0 ? "; the nearest are" : "");
    list_hits(s, hits, count, NO_INDEX);
    return EXIT_NOT_UNDERSTOOD;
  }
  buf_init(&out, s->arena, ANSWER_MOST_BYTES);
  if (s->options->json) {
    json_food(&s->lib, food, &out);
  } else {
    report_food(&s->lib, food, &s->style, &out);
  }
  int code = finish_answer(s, &out);
  if (code == EXIT_COMPUTED && count > 1 && search_rivals(hits, count) > 0 && !s->options->quiet) {
    note(s, "other records fit about as well");
    list_hits(s, hits, 1 + search_rivals(hits, count), food);
  }
  return code;
}

/* packaging/NOTICES.txt, taken in by the build. */
extern const unsigned char notices[];
extern const size_t notices_bytes;

static int show_notices(const struct run *s, struct buf *out) {
  if (s->options->json) {
    complain("--licences shows a text; leave --json out");
    return EXIT_USAGE;
  }
  buf_add(out, (struct span){(const char *)notices, notices_bytes});
  return write_answer(out);
}

int verb_library(struct run *s) {
  struct buf out;
  buf_init(&out, s->arena, ANSWER_MOST_BYTES);
  if (s->options->licences) return show_notices(s, &out);
  if (s->options->json) {
    json_library(&s->lib, &out);
  } else {
    report_library(&s->lib, &s->style, &out);
  }
  return finish_answer(s, &out);
}
