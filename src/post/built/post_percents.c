/* A list of shares whose numbers have no sign: "in percent: beef 40, tripe 20, ..., sum 100". */
#include "base/num.h"
#include "post/built/post_built.h"

enum { SHARES_LEAST = 3 };
static const double SUM_LEAST = 97, SUM_MOST = 103;

/* Bytes that are no ASCII may be blanks. */
static bool ends_in_number(struct span piece) {
  while (piece.n > 0 && memchr(" .,\t\r", piece.p[piece.n - 1], 5)) piece.n--;
  char last = piece.n > 0 ? piece.p[piece.n - 1] : ' ';
  return (last >= '0' && last <= '9') || (unsigned char)last >= 0x80;
}

/* One of the list: the food's words and its number, which stands last. */
static bool is_share(struct post_reader *r, struct span piece, double *share, struct span *food) {
  enum { WORDS_MOST = 10 };
  if (!ends_in_number(piece)) return false;
  struct tokens t = post_tokens(r, piece);
  size_t n = t.count;
  while (n > 0 && (is_mark(&t, n - 1, '.') || is_mark(&t, n - 1, ','))) n--;
  if (n < 2 || n > WORDS_MOST || !is_number(&t, n - 1)) return false;
  for (size_t i = 0; i + 1 < n; i++)
    if (is_number(&t, i) || is_mark(&t, i, ':')) return false;
  size_t words = n - 1;
  while (words > 0 && (is_mark(&t, words - 1, '-') || is_mark(&t, words - 1, '='))) words--;
  *share = t.item[n - 1].value;
  *food = words > 0 ? tokens_span(&t, 0, words) : (struct span){"", 0};
  bool animal = words > 0 && words < 4 && says_a(&t, words - 1, CLASS_ANIMAL_OF_FLESH); /* "horse 40" */
  return *share > 0 && *share < 100 && words > 0 && (animal || post_names_food(r, &t, 0, words));
}

/* "sum 100", "= 100" */
static bool is_sum(struct post_reader *r, struct span piece, double sum) {
  enum { WORDS_MOST = 6 };
  struct tokens t = post_tokens(r, piece);
  for (size_t i = 0; i < t.count && t.count <= WORDS_MOST; i++)
    if (is_number(&t, i) && t.item[i].value > sum - 1 && t.item[i].value < sum + 1 && !post_names_food(r, &t, 0, t.count))
      return true;
  return false;
}

/* The next piece of a list: a whole line that is one share, or up to its next comma. */
static struct span next_piece(struct post_reader *r, struct span text, size_t from) {
  size_t line = from, at = from;
  double share;
  struct span food;
  while (line < text.n && text.p[line] != '\n') line++;
  if (is_share(r, span_cut(text, from, line), &share, &food)) return span_cut(text, from, line);
  while (at < line && !memchr(",;:\x1F", text.p[at], 4)) at++;
  return span_cut(text, from, at < line ? at + 1 : line);
}

/* Where a list of shares without signs begins, and where it ends; false where none is. */
static bool find_list(struct post_reader *r, struct span text, size_t *begin, size_t *end) {
  double sum = 0, share;
  size_t count = 0;
  struct span food;
  for (size_t at = 0; at < text.n;) {
    struct span piece = next_piece(r, text, at), bare = span_trim(piece);
    size_t next = at + piece.n + (at + piece.n < text.n && text.p[at + piece.n] == '\n');
    if (is_share(r, bare, &share, &food)) {
      if (count == 0) *begin = at;
      count++, sum += share;
      *end = next;
    } else if (bare.n > 0) {
      if (count >= SHARES_LEAST && sum >= SUM_LEAST && sum <= SUM_MOST) {
        if (is_sum(r, bare, sum)) *end = next;
        return true;
      }
      count = 0, sum = 0;
    }
    at = next > at ? next : at + 1;
  }
  return count >= SHARES_LEAST && sum >= SUM_LEAST && sum <= SUM_MOST;
}

/* Does a word say that it is one of shares, or does the sum stand below it? */
static bool says_percent(struct post_reader *r, struct span text, size_t begin, size_t end) {
  struct span line, before = span_cut(text, 0, begin);
  double share;
  struct span food;
  for (struct lines lines = lines_of(before); lines_next(&lines, &line);) {
    struct tokens t = post_tokens(r, line);
    for (size_t i = 0; i < t.count; i++)
      if (says(&t, i, "percent percents percentage percentages pct shares") ||
          (is_mark(&t, i, '%') && !(i > 0 && is_number(&t, i - 1))))
        return true;
  }
  for (size_t at = begin; at < end;) {
    struct span piece = next_piece(r, text, at), bare = span_trim(piece);
    if (bare.n > 0 && !is_share(r, bare, &share, &food)) return true;
    at += piece.n + 1;
  }
  return false;
}

struct span post_percents(struct post_reader *r, struct span text, struct arena *arena) {
  size_t begin = 0, end = 0;
  double share;
  struct span food;
  if (!text_holds(text, CLASS_TELLS_SHARES) || !find_list(r, text, &begin, &end) || !says_percent(r, text, begin, end)) {
    arena_rewind(r->arena, r->begin);
    return text;
  }
  struct buf b;
  buf_init(&b, arena, 2 * text.n + 400);
  buf_add(&b, span_cut(text, 0, begin));
  for (size_t at = begin; at < end;) {
    struct span piece = next_piece(r, text, at);
    bool one = is_share(r, span_trim(piece), &share, &food);
    if (one) {
      num_sig(&b, share, 4);
      buf_addf(&b, "%% %.*s", SPAN_ARG(food));
    }
    at += piece.n;
    bool ends = at < text.n && text.p[at] == '\n';
    if (ends || one) buf_addc(&b, ends ? '\n' : 0x1F);
    at += ends || piece.n == 0;
  }
  buf_add(&b, span_cut(text, end, text.n));
  arena_rewind(r->arena, r->begin);
  return buf_span(&b);
}
