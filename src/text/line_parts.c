#include "text/line_parts.h"

#include "text/headers.h"

const char *const line_kind_word[LINE_KIND_COUNT] = {"empty",   "remark",    "question", "header",
                                                     "heading", "uncounted", "food"};

/* "[source:code]" without blanks in it. */
static struct span pin_in(struct span s) {
  for (size_t i = 0; i < s.n; i++) {
    size_t end = i + 1;
    bool colon = false;
    if (s.p[i] != '[') continue;
    for (; end < s.n && s.p[end] != ']' && s.p[end] != ' ' && s.p[end] != '\t'; end++) colon = colon || s.p[end] == ':';
    if (colon && end < s.n && s.p[end] == ']') return span_cut(s, i, end + 1);
  }
  return (struct span){s.p, 0};
}

static struct span asked_in(struct span remark) {
  struct span words = trim_blanks(span_cut(remark, 1, remark.n));
  if (!span_starts_fold(words, "ask:")) return (struct span){remark.p, 0};
  return trim_blanks(span_cut(words, 4, words.n));
}

void line_parts_read(struct span line, struct line_parts *out) {
  struct span read = without_comment(line);
  struct header h;
  *out = (struct line_parts){.kind = LINE_FOOD, .said = trim_blanks(read)};
  out->remark = trim_blanks(span_cut(line, read.n, line.n));
  out->pin = pin_in(out->said);
  if (out->remark.n > 0) out->ask = asked_in(out->remark);
  if (out->said.n == 0) {
    out->kind = out->ask.n > 0 ? LINE_QUESTION : out->remark.n > 0 ? LINE_REMARK : LINE_EMPTY;
  } else if (out->said.p[0] == '?' && out->said.n > 1) {
    out->kind = LINE_UNCOUNTED;
  } else if (header_split(out->said, &h)) {
    const char *colon = memchr(out->said.p, ':', out->said.n);
    out->key = (struct span){out->said.p, (size_t)(colon + 1 - out->said.p)};
    out->value = h.value;
  }
}
