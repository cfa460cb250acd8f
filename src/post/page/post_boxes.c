/* A form with boxes: "[x] turkey, 150 g", "[ ] lamb". What is ticked is said, what is not ticked is told as not fed. Over
 * the text as it came, for the marks go when it is cleaned; the number of lines stays. */
#include "base/utf8.h"
#include "post/page/post_page.h"

enum box { BOX_NONE, BOX_EMPTY, BOX_TICKED };

/* A box at the front of 's': "[x]", "(x)", "[ ]", "( )", or a picture of one; how many bytes. */
static size_t box_at(struct span s, enum box *box) {
  static const char *const TICKED[] = {"\xE2\x98\x91", "\xE2\x98\x92", "\xE2\x9C\x85", "\xE2\x9C\x93", "\xE2\x9C\x94"};
  static const char EMPTY[] = "\xE2\x98\x90";
  *box = BOX_NONE;
  for (size_t i = 0; i < COUNT_OF(TICKED); i++)
    if (span_starts_fold(s, TICKED[i])) {
      *box = BOX_TICKED;
      return strlen(TICKED[i]);
    }
  if (span_starts_fold(s, EMPTY)) {
    *box = BOX_EMPTY;
    return sizeof EMPTY - 1;
  }
  if (s.n < 2 || (s.p[0] != '[' && s.p[0] != '(')) return 0;
  static const char *const WORD[] = {"[yes]", "[y]", "[ok]", "[no]", "[n]", "[-]"};
  for (size_t i = 0; i < COUNT_OF(WORD); i++)
    if (span_starts_fold(s, WORD[i])) {
      *box = i < 3 ? BOX_TICKED : BOX_EMPTY;
      return strlen(WORD[i]);
    }
  char close = s.p[0] == '[' ? ']' : ')';
  size_t at = 1, marks = 0;
  while (at < s.n && s.p[at] == ' ') at++;
  if (at < s.n && memchr("xXvV*", s.p[at], 5)) marks = 1, at++;
  while (at < s.n && s.p[at] == ' ') at++;
  if (at >= s.n || s.p[at] != close) return 0;
  *box = marks > 0 ? BOX_TICKED : BOX_EMPTY;
  return at + 1;
}

/* The box that begins a line, behind a bullet; how many bytes to its end. */
static size_t box_of_line(struct span line, enum box *box) {
  size_t at = 0;
  while (at < line.n && memchr(" \t-*", line.p[at], 4)) at++;
  size_t used = box_at(span_cut(line, at, line.n), box);
  return used > 0 ? at + used : 0;
}

/* "[x] raw [x] cooked [ ] kibble": several in one line, and no amount with them: what it is, and nothing that is fed. */
static bool is_row_of_boxes(struct span line, struct arena *arena) {
  size_t count = 0;
  enum box box;
  for (size_t i = 0; i < line.n; i++) {
    size_t used = box_at(span_cut(line, i, line.n), &box);
    count += used > 0;
    i += used > 0 ? used - 1 : 0;
  }
  struct tokens t = tokens_of(line, arena);
  return count > 1 && !post_any_amount(&t, 0);
}

/* "fish – sardines, 1 tin": the kind of food before a dash is the form's, and the food is behind it. */
static struct span without_kind(struct span line, struct arena *arena) {
  struct tokens t = tokens_of(line, arena);
  bool kind = is_word(&t, 0) && is_a(t.item[0].word, CLASS_KIND_OF_FOOD) && !says(&t, 0, "oil oils") &&
              (is_mark(&t, 1, '-') || is_mark(&t, 1, ':')) && is_word(&t, 2);
  return kind ? span_cut(line, (size_t)(t.item[2].at.p - line.p), line.n) : line;
}

/* "melon, how much: a bit": the form asks, and the owner says next to nothing. */
static bool says_how_much(struct post_reader *r, struct span line, struct span *food) {
  struct tokens t = tokens_of(line, r->arena);
  for (size_t i = 1; i + 2 < t.count; i++)
    if (says(&t, i, "how") && says(&t, i + 1, "much many") && is_mark(&t, i + 2, ':') && !post_any_amount(&t, i + 2)) {
      *food = post_trimmed(tokens_span(&t, 0, i));
      return food->n > 0;
    }
  return false;
}

/* A line of the text as it came, without what no strict text may hold: bytes that are no letters, marks of control. */
static struct span clean_line(struct post_reader *r, struct span line) {
  struct span clean = line.n > 0 ? trim_blanks(post_clean(line, r->keep)) : line;
  for (size_t i = 0; i < clean.n; i++)
    if ((unsigned char)clean.p[i] < 0x20 && clean.p[i] != '\t')
      return trim_blanks(span_cut(clean, 0, i)); /* of the first piece */
  return clean;
}

static void note_line(struct post_reader *r, struct span line, const char *why) {
  struct span clean = clean_line(r, line);
  if (clean.n > 0) post_note(r, clean, why);
}

static void write_ticked(struct post_reader *r, struct buf *b, struct span line) {
  struct span food;
  line = without_kind(clean_line(r, line), r->arena);
  if (!says_how_much(r, line, &food)) {
    buf_addf(b, "- %.*s", SPAN_ARG(line));
    return;
  }
  post_leave(r, line, "the post does not say how much", true);
  post_ask(r, 2, "How many grams (or spoons) of %.*s a day?", SPAN_ARG(quoted(food)));
}

struct span post_boxes(struct post_reader *r, struct span text, struct arena *arena) {
  struct buf b;
  struct span line;
  enum box box;
  size_t ticked = 0, boxes = 0;
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);)
    if (box_of_line(line, &box) > 0) boxes++, ticked += box == BOX_TICKED;
  if (boxes < 2 || ticked == 0) return text;
  buf_init(&b, arena, 2 * text.n + 400);
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    size_t used = box_of_line(line, &box);
    r->line = lines.number;
    if (used > 0 && is_row_of_boxes(line, r->arena))
      note_line(r, line, "boxes of a form, without an amount");
    else if (used > 0 && box == BOX_TICKED)
      write_ticked(r, &b, span_cut(line, used, line.n));
    else if (used > 0)
      note_line(r, span_cut(line, used, line.n), "its box is not ticked");
    else
      buf_add(&b, line);
    buf_addc(&b, '\n');
  }
  r->line = 0;
  return buf_span(&b);
}
