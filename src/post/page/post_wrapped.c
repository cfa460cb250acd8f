/* Lines that a mail program or a person broke in the middle of a sentence. */
#include "post/page/post_page.h"

enum { WRAPPED_LEAST = 60, POST_LONGEST_LINE = 4000 }; /* bytes: shorter lines were ended on purpose */
enum { RAGGED_LEAST = 45, LONG_LINES_LEAST = 3, LETTER_WIDTH = 80 }; /* but where a hand broke lines at a width of its own */

static bool ends_open(struct span line, struct arena *arena) {
  struct tokens t = tokens_of(span_cut(line, line.n > 40 ? line.n - 40 : 0, line.n), arena);
  if (t.count == 0) return false;
  const struct token *last = &t.item[t.count - 1];
  return last->kind == TOKEN_WORD && is_a(last->word, CLASS_LEFT_OPEN_AT_END);
}

/* "fish oil 2 softgels 1 g each" below a line that ends with a word: a line of its own. */
static bool is_line_of_food(struct span line, struct span next, struct arena *arena) {
  struct tokens end = tokens_of(span_cut(line, line.n > 40 ? line.n - 40 : 0, line.n), arena);
  const struct token *last = end.count > 0 ? &end.item[end.count - 1] : NULL;
  if (!last || last->kind != TOKEN_WORD || means_as(last->word, CLASS_UNIT) || is_chatter(last->word)) return false;
  if (next.n >= WRAPPED_LEAST || ends_open(line, arena)) return false;
  struct tokens t = tokens_of(next, arena);
  size_t words = 0;
  while (is_word(&t, words) && !token_is_a(&t.item[words], CLASS_CHATTER)) words++;
  return words >= 1 && words <= 3 && is_number(&t, words) && post_amount_at(&t, words).tokens > 0;
}

/* Does 'next' go on where 'line' stopped? */
static bool goes_on(struct span line, struct span next, bool lists, bool ragged, struct arena *arena) {
  line = trim_blanks(line);
  if (next.n > 0 && next.p[0] == POST_QUOTED) return false;
  if (line.n < (ragged ? RAGGED_LEAST : WRAPPED_LEAST) || next.n == 0 || memchr(".!?:;", line.p[line.n - 1], 5)) return false;
  if (memchr(line.p, '|', line.n) || memchr(line.p, '\t', line.n) || next.p[0] == ' ' || next.p[0] == '\t') return false;
  bool small = next.p[0] >= 'a' && next.p[0] <= 'z', figure = next.p[0] >= '0' && next.p[0] <= '9';
  struct tokens begin = tokens_of(span_cut(next, 0, next.n < 40 ? next.n : 40), arena);
  if (says_a(&begin, 0, CLASS_NEW_LINE_ANYWAY)) return ends_open(line, arena); /* a person who writes without stops */
  if (next.p[0] == '(' && not_fed(&begin)) return false;                       /* "(old line, ignore: 20 g tuna)" */
  if (small && is_line_of_food(line, next, arena)) return false;
  if (small && lists) return ends_open(line, arena);
  return small || next.p[0] == '(' || (figure && ends_open(line, arena));
}

/* "... nine years old. Every day she": a sentence ends within the line. */
static bool stops_within(struct span line) {
  for (size_t i = 1; i + 2 < line.n; i++)
    if (memchr(".!?", line.p[i], 3) && line.p[i + 1] == ' ' && line.p[i + 2] >= 'A' && line.p[i + 2] <= 'Z') return true;
  return false;
}

/* Somebody who begins lines with a small letter where nothing was broken: a list without capitals. But where most of such lines
 * are long, none much longer than another, and sentences end within them, a hand broke the text, at a width that is ragged. */
bool post_lists_small(struct span text, bool *ragged) {
  size_t from = 0, shorts = 0, longs = 0, stubs = 0, most = 0, stops = 0;
  for (size_t i = 0; i + 1 < text.n; i++) {
    if (text.p[i] != '\n') continue;
    bool ended = i > from && !memchr(".!?:;", text.p[i - 1], 5), small = text.p[i + 1] >= 'a' && text.p[i + 1] <= 'z';
    size_t n = i - from;
    if (n > most) most = n;
    shorts += ended && small && n < WRAPPED_LEAST;
    stubs += ended && small && n < RAGGED_LEAST;
    longs += ended && small && n >= WRAPPED_LEAST;
    stops += stops_within(span_cut(text, from, i));
    from = i + 1;
  }
  *ragged = longs >= LONG_LINES_LEAST && shorts < longs && stubs == 0 && most <= LETTER_WIDTH && stops >= LONG_LINES_LEAST;
  return shorts > 0 && !*ragged;
}

/* The next line with those that go on with it. */
bool post_next_line(struct post_reader *r, struct lines *lines, struct span *line) {
  if (!lines_next(lines, line)) return false;
  r->line = lines->number;
  struct buf b;
  buf_init(&b, r->keep, lines->rest.n + line->n + 16);
  for (struct span here = *line;;) {
    struct lines ahead = *lines;
    struct span next;
    if (b.n > POST_LONGEST_LINE || !lines_next(&ahead, &next) || !goes_on(here, next, r->lists_small, r->ragged, r->arena)) break;
    if (b.n == 0) buf_add(&b, trim_blanks(*line));
    buf_addc(&b, ' ');
    buf_add(&b, trim_blanks(next));
    *lines = ahead;
    here = next;
  }
  arena_rewind(r->arena, r->begin);
  if (b.n > 0) *line = buf_span(&b);
  return true;
}
